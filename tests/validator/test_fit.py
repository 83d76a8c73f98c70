"""What the sizing shows of stated lengths."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

# 1/2 NPT, bore 9 in stated, travel 1 in: seat plane 8.5 in, compression = probe length - 8.5 in. Tolerances 1/16, 1/16
# and one turn of 1/14 in: S = 0.1136 in; preload 1/8 in, reserve 1/20 in: 8.7386 to 9.3364 in fit.
FIXED = {"sensor_mounting": "fixed fitting", "probe_length": "8.25"}
NO_BORE = {"bore_depth": "", "tip_thickness": ""}
HOT = {
    "design_temperature": "600 C",
    "sheath_material": "alloy C276",
    "insertion_length": "30",
    "overall_length": "31.75",
    "bore_depth": "31.5",
    "probe_length": "31.5",
}

RANGE = {"nipple_credible_least": "3-7/8 in", "nipple_credible_most": "4-1/8 in"}
IN_RANGE = {
    "sensor_mounting": "spring-loaded insert",
    "extension_arrangement": "nipple",
    "probe_length": "12",
    "basis": {"extension": RANGE},
}

CLAMPED = {"sensor_mounting": "compression fitting", "basis": {"profile": {"adjustable_fitting": {"seat_offset": "1 in"}}}}  # fmt: skip

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "tip_never_touches": [
        ("fires on a probe that is too short", {"probe_length": "8"}, ["error TE-101 probe_length"]),
        ("fires where the tip only just reaches", {"probe_length": "8.5"}, ["error TE-101 probe_length"]),
        ("is silent above", {"probe_length": "8.51"}, []),
        ("fires below the least length of an adjustable fitting", {**CLAMPED, "probe_length": "9.9"}, ["error TE-101 probe_length"]),
        ("is silent at that length", {**CLAMPED, "probe_length": "10"}, []),
        ("is silent without a stated length", {**CLAMPED, "probe_length": ""}, []),
        ("is sound", {}, []),
    ],
    "spring_goes_solid": [
        ("fires on a probe that is too long", {"probe_length": "10"}, ["error TE-101 probe_length"]),
        ("fires on the whole travel", {"probe_length": "9.5"}, ["error TE-101 probe_length"]),
        ("is silent below", {"probe_length": "9.49"}, []),
        ("is sound", {}, []),
    ],
    "tip_may_not_touch": [
        ("warns where tolerances decide", {"probe_length": "8.625"}, ["warning TE-101 probe_length"]),
        ("is silent where it never touches", {"probe_length": "8"}, []),
        ("is sound inside the range", {"probe_length": "8.75"}, []),
    ],
    "spring_may_go_solid": [
        ("warns where tolerances decide", {"probe_length": "9.4"}, ["warning TE-101 probe_length"]),
        ("is silent where it is solid", {"probe_length": "10"}, []),
        ("is sound inside the range", {"probe_length": "9.25"}, []),
    ],
    "fixed_sensor_bottoms": [
        ("fires without a gap", {**FIXED, "probe_length": "8.5"}, ["error TE-101 probe_length"]),
        ("warns where tolerances close it", {**FIXED, "probe_length": "8.4375"}, ["warning TE-101 probe_length"]),
        ("is sound with a gap", FIXED, []),
        ("is silent of a sprung sensor", {"probe_length": "8.5"}, []),
    ],
    "fixed_sensor_stands_off": [
        ("warns of a wide gap", {**FIXED, "probe_length": "7.9"}, ["warning TE-101 probe_length"]),
        ("is sound on the limit of 1/2 in", {**FIXED, "probe_length": "8"}, []),
        ("is sound", FIXED, []),
    ],
    "remark_denies_fit": [
        ("fires where the sensor is said to fall short", {"remarks": "RTD does not reach bottom"}, ["warning TE-101 remarks"]),
        ("fires where it is said to be too long", {"remarks": "Messeinsatz zu lang"}, ["warning TE-101 remarks"]),
        ("is silent where the lengths say so too", {"remarks": "probe too short", "probe_length": "8"}, []),
        ("is silent where they say the spring is solid", {"remarks": "sensor too long", "probe_length": "11"}, []),
        ("is silent of other things too short", {"remarks": "cable too short, nipple too long"}, []),
        ("is silent without a stated length", {"remarks": "probe too short", "probe_length": ""}, []),
        ("is sound", {"remarks": "replaced 2011"}, []),
    ],
    "no_length_fits": [
        ("fires where the window is too narrow", {"spring_travel": "0.25", "probe_length": ""}, ["error TE-101 bore_depth"]),
        ("is sound", {}, []),
        ("is silent of a row that is not sized", {"bore_depth": "", "overall_length": ""}, []),
    ],
    "tip_assumed": [
        ("is noted once where one length serves every tip", [NO_BORE, NO_BORE], ["note TE-101+TE-102 tip_thickness"]),
        ("warns where none does", {**NO_BORE, "spring_travel": "0.5", "probe_length": ""}, ["warning TE-101 tip_thickness"]),
        ("is silent where the tip is stated", {"bore_depth": ""}, []),
        ("is sound", {}, []),
    ],
    "extension_range_carried": [
        ("is noted once where one length serves the range", [IN_RANGE, IN_RANGE], ["note TE-101+TE-102 extension_length"]),
        ("is silent where none does", {**IN_RANGE, "basis": {"extension": {**RANGE, "nipple_credible_least": "3 in"}}}, []),
        ("is silent where the length is known", {**IN_RANGE, "nipple_length": "4"}, []),
        ("is sound", {}, []),
    ],
    "hot_growth_eats_margin": [
        ("fires on materials that grow apart", HOT, ["warning TE-101 design_temperature"]),
        ("is silent below the limit of a quarter", {**HOT, "design_temperature": "100 C"}, []),
        ("is silent for one material", {**HOT, "sheath_material": "316 SS"}, []),
        ("is sound", {}, []),
    ],
    "hot_growth_not_reckoned": [
        ("fires on a material that is not known", {**HOT, "well_material": "QX-1"}, ["note TE-101 design_temperature"]),
        ("fires on a sheath that is not stated", {**HOT, "sheath_material": ""}, ["note TE-101 design_temperature"]),
        ("is silent below the limit of a quarter", {**HOT, "well_material": "QX-1", "design_temperature": "60 C"}, []),
        ("is silent where both are known", HOT, []),
        ("is silent without a temperature", {**HOT, "well_material": "QX-1", "design_temperature": ""}, []),
    ],
    "length_not_computed": [
        ("fires where the engagement is not known", {"instrument_thread": "3-1/2 NPT"}, ["error TE-101 tag"]),
        ("is sound", {}, []),
    ],
}  # fmt: skip


@pytest.mark.parametrize(
    "rule,rows,facts",
    [
        pytest.param(rule, rows, facts, id=f"{rule}: {title}")
        for rule, cases in CASES.items()
        for title, rows, facts in cases
    ],
)
def test_a_check_speaks_where_it_should_and_nowhere_else(
    speak: Callable[..., list[str]], rule: str, rows: Any, facts: list[str]
) -> None:
    assert speak(rule, rows) == facts


@pytest.mark.parametrize(
    "change,said",
    [
        ({"probe_length": "8"}, ["error TE-101 tip_never_touches"]),
        ({"probe_length": "7.5"}, ["error TE-101 tip_never_touches", "warning TE-101 length_tells_its_mistake"]),
        ({"probe_length": "8.7"}, ["warning TE-101 tip_may_not_touch"]),
        ({"probe_length": "11.3"}, ["error TE-101 spring_goes_solid"]),
        ({"instrument_thread": "3-1/2 NPT"}, ["error TE-101 length_not_computed"]),
        ({"bore_depth": "", "overall_length": ""}, ["error TE-101 bore_depth_unknown"]),
    ],
)
def test_a_length_is_judged_once(voices: Callable[..., list[str]], change: dict[str, Any], said: list[str]) -> None:
    assert voices(change) == said


@pytest.mark.parametrize("length", ["8.75", "9", "9.25"])
def test_a_length_inside_its_range_is_no_finding_however_it_differs(
    findings: Callable[..., list[Finding]], length: str
) -> None:
    assert findings({"probe_length": length}) == []


@pytest.mark.parametrize(
    "change,rule,expected",
    [
        ({"probe_length": "8"}, "tip_never_touches", "a probe length from 8.7386 in to 9.3364 in"),
        ({"spring_travel": "0.25", "probe_length": ""}, "no_length_fits", "a length to order between shortest and longest; the window is 0 in wide, most of it lost to: thread make-up"),
    ],
)  # fmt: skip
def test_the_range_that_fits_is_said(
    findings: Callable[..., list[Finding]], change: dict[str, Any], rule: str, expected: str
) -> None:
    assert [one.expected for one in findings(change) if one.rule == rule] == [expected]


def test_hot_growth_is_said_beside_the_margin(findings: Callable[..., list[Finding]]) -> None:
    # 30 in x 580 K x (16.5 - 12.0)e-6 = 0.0783 in; margin 0.5 in - (0.1136 and 0.0783 in as root-sum-square) - 0.125.
    said = [one.found for one in findings(HOT) if one.rule == "hot_growth_eats_margin"]

    assert said == ["hot growth 0.0783 in, margin 0.237 in"]


def test_growth_left_out_says_which_material_is_not_known(findings: Callable[..., list[Finding]]) -> None:
    said = [
        one.found
        for one in findings(HOT | {"well_material": "QX-1", "sheath_material": ""})
        if one.rule == "hot_growth_not_reckoned"
    ]

    assert said == ["1 row: well material 'QX-1' not known; sheath material not stated"]
