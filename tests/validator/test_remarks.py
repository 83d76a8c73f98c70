"""What the remarks of a row say against its bore depth."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

MEASURED = {"measured_bore_depth": "9"}
WELL_ROW = {"tag": "TW-102", "sensor_mounting": "", "extension_arrangement": "", "sensor_type": "", "probe_length": ""}
NIPPLE = {
    "sensor_mounting": "spring-loaded insert",
    "extension_arrangement": "nipple",
    "nipple_length": "4",
    "probe_length": "12",
}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "remark_gives_another_depth": [
        ("fires on a depth among the words", {"remarks": "bore measured 8-1/2 in"}, ["error TE-101 remarks"]),
        ("takes the row's unit", {"remarks": "actual bore 8.5"}, ["error TE-101 remarks"]),
        ("is silent on the same depth", {"remarks": "bore OK, measured 9 in"}, []),
        ("is silent on the limit of 1/16 in", {"remarks": "bore 8-15/16 in"}, []),
        ("fires just beyond it", {"remarks": "bore 8.93 in"}, ["error TE-101 remarks"]),
        ("compares with what was measured", MEASURED | {"bore_depth": "9.1", "remarks": "bore measured 9"}, []),
        ("looks into columns that were not read", {"other_words": "bore measured 8.5 in"}, ["error TE-101 remarks"]),
        ("is silent on a diameter", {"remarks": "bore dia 7 mm"}, []),
        ("fires on another overall length", {"remarks": "OAL per nameplate 10"}, ["error TE-101 remarks"]),
        ("is silent on the row's overall length", {"remarks": "OAL per nameplate 9-1/4"}, []),
        ("is silent on an overall length where the bore was measured", MEASURED | {"remarks": "OAL 10 in"}, []),
        ("needs a bore depth", {"remarks": "bore 8", "bore_depth": "", "overall_length": "", "tip_thickness": ""}, []),
        ("is silent without remarks", {"remarks": ""}, []),
    ],
    "bore_not_free": [
        ("fires on a plugged well", {"remarks": "well plugged"}, ["error TE-101 remarks"]),
        ("fires on the word alone", {"remarks": "Plugged."}, ["error TE-101 remarks"]),
        ("is silent where the bore was measured", MEASURED | {"remarks": "well plugged"}, []),
        ("is silent once it was cleaned", {"remarks": "bore was plugged, cleaned"}, []),
        ("is silent on a plug and chain", {"remarks": "plug & chain supplied"}, []),
        ("needs a bore depth", {"remarks": "well bent", "bore_depth": "", "overall_length": "", "tip_thickness": ""}, []),
        ("is silent without remarks", {"remarks": ""}, []),
    ],
    "remark_doubts_lengths": [
        ("fires on an overall length to be confirmed", {"remarks": "OAL to be confirmed by vendor"}, ["warning TE-101 remarks"]),
        ("fires on what stands between well and sensor", {"remarks": "reducing bushing fitted"}, ["warning TE-101 remarks"]),
        ("fires on a bore that was drilled out", {"remarks": "drilled out"}, ["warning TE-101 remarks"]),
        ("fires on a rod's reading", {"remarks": "rodded 7-1/4"}, ["warning TE-101 remarks"]),
        ("fires on a well that is gone", {"remarks": "well removed"}, ["warning TE-101 remarks"]),
        ("fires where there is said to be none", {"remarks": "surface mounted, no well"}, ["warning TE-101 remarks"]),
        ("is silent where only its tag is missing", {"remarks": "no well tag"}, []),
        ("fires on a depth to be confirmed", {"remarks": "bore depth TBC"}, ["warning TE-101 remarks"]),
        ("fires on a measured length that is nowhere", {"remarks": "measured 8.5 in"}, ["warning TE-101 remarks"]),
        ("is silent on a measured length of the row", {"remarks": "measured 7.5 in"}, []),
        ("is silent where the bore was measured", MEASURED | {"remarks": "check bore"}, []),
        ("fires on an extension that was changed", NIPPLE | {"remarks": "nipple replaced 2019"}, ["warning TE-101 remarks"]),
        ("is silent on a change where there is no extension", {"remarks": "nipple replaced 2019"}, []),
        ("is silent on other things to check", {"remarks": "check thread and tag plate"}, []),
        ("needs a bore depth", {"remarks": "check bore", "bore_depth": "", "overall_length": "", "tip_thickness": ""}, []),
        ("is silent without remarks", {"remarks": ""}, []),
    ],
    "remark_denies_mounting": [
        ("fires on another mounting", {"remarks": "mounting: flanged insert"}, ["error TE-101 remarks"]),
        ("fires on a sensor without a spring", {"remarks": "sensor is fixed, no spring"}, ["error TE-101 remarks"]),
        ("fires on a clamped one", {"remarks": "compression fitting used"}, ["error TE-101 remarks"]),
        ("fires on what is no sensor", {"remarks": "sensor is bimetal"}, ["error TE-101 remarks"]),
        ("is silent on the row's own", {"remarks": "mounting: spring-loaded fitting"}, []),
        ("is silent where something else was fixed", {"remarks": "leak fixed 2019"}, []),
        ("is silent on other mountings", {"remarks": "transmitter mounting bracket loose"}, []),
        ("needs a mounting", {"sensor_mounting": "spring loaded", "remarks": "mounting: flanged insert"}, []),
    ],
    "remark_says_not_used": [
        ("fires on a point out of use", {"remarks": "Redundant, removed"}, ["warning TE-101 remarks"]),
        ("fires on one that was not found", {"remarks": "not found on site"}, ["warning TE-101 remarks"]),
        ("is silent on what is redundant beside it", {"remarks": "redundant transmitter input"}, []),
        ("is silent on other things out of use", {"remarks": "old cable not in use"}, []),
        ("is silent without remarks", {"remarks": ""}, []),
    ],
    "dimensions_are_a_guess": [
        ("fires on an estimate", {"dimension_source": "estimated"}, ["warning TE-101 dimension_source"]),
        ("fires on another well", {"dimension_source": "similar to TE-105"}, ["warning TE-101 dimension_source"]),
        ("is silent where the bore was measured", MEASURED | {"dimension_source": "estimated"}, []),
        ("is silent on a drawing", {"dimension_source": "dwg 4411"}, []),
        ("is silent on a blank", {"dimension_source": ""}, []),
        ("needs a bore depth", {"dimension_source": "estimated", "bore_depth": "", "overall_length": "", "tip_thickness": ""}, []),
    ],
    "remark_denies_extension": [
        ("fires on a part that is gone", NIPPLE | {"remarks": "nipple removed"}, ["error TE-101 remarks"]),
        ("fires on an extension that is gone", NIPPLE | {"remarks": "extension removed"}, ["error TE-101 remarks"]),
        ("is silent where there is none", {"remarks": "extension removed"}, []),
        ("is silent on a part that the row has not", NIPPLE | {"remarks": "no union fitted"}, []),
        ("fires on a part that came", NIPPLE | {"remarks": "union added"}, ["error TE-101 remarks"]),
        ("is silent on a part that the row has", NIPPLE | {"remarks": "nipple fitted 2019"}, []),
        ("fires on an extension that came", {"remarks": "extension fitted"}, ["error TE-101 remarks"]),
        ("is silent on an extension that is there", NIPPLE | {"remarks": "extension fitted"}, []),
        ("fires on an extension where the row says none", {"remarks": "fitted with 100 mm extension"}, ["error TE-101 remarks"]),
        ("fires on one more nipple", NIPPLE | {"remarks": "additional nipple fitted"}, ["error TE-101 remarks"]),
        ("is silent on other unions", {"remarks": "conduit union replaced"}, []),
        ("fires on an elbow", NIPPLE | {"remarks": "elbow fitted"}, ["error TE-101 remarks"]),
        ("fires on another length", NIPPLE | {"remarks": "nipple now 5 in"}, ["error TE-101 remarks"]),
        ("is silent on the row's length", NIPPLE | {"remarks": "nipple measured 4 in"}, []),
        ("is silent on the limit of 1/16 in", NIPPLE | {"remarks": "nipple measured 4-1/16 in"}, []),
        ("fires just beyond it", NIPPLE | {"remarks": "nipple measured 4.07 in"}, ["error TE-101 remarks"]),
        ("fires on a bore depth that holds it", NIPPLE | {"remarks": "bore depth incl. nipple"}, ["error TE-101 remarks"]),
        ("is silent on such a bore depth without one", {"remarks": "bore depth incl. nipple"}, []),
        ("fires on a cell that says that a part is missing", NIPPLE | {"extension_arrangement": "nipple missing", "installed_length": "3"}, ["error TE-101 remarks"]),
        ("is silent on a cell that names what there is not", NIPPLE | {"extension_arrangement": "nipple, no union"}, []),
        ("looks at the remarks of the well's row", [WELL_ROW | {"remarks": "union added"}, NIPPLE], ["error TE-102 remarks"]),
        ("looks at the remarks of the transmitter's row", [NIPPLE, {"tag": "TT-101", "remarks": "union added"}], ["error TE-101 remarks"]),
        ("needs an extension", {"extension_arrangement": "TBD", "remarks": "union added"}, []),
        ("is silent without remarks", NIPPLE | {"remarks": ""}, []),
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
    "remark,voice",
    [
        ("bore obstructed, bottoms at 7 in", "remark_gives_another_depth"),
        ("well plugged, check bore", "bore_not_free"),
        ("check bore", "remark_doubts_lengths"),
    ],
)
def test_one_voice_speaks_of_a_remark(findings: Callable[..., list[Finding]], remark: str, voice: str) -> None:
    assert [one.rule for one in findings({"remarks": remark})] == [voice]


@pytest.mark.parametrize(
    "remark,withholds", [("bore measured 8-1/2", True), ("well plugged", True), ("check bore", False)]
)
def test_a_row_whose_remarks_deny_its_bore_gets_no_length(
    findings: Callable[..., list[Finding]],
    remark: str,
    withholds: bool,  # noqa: FBT001 - what is expected
) -> None:
    assert [one.withholds for one in findings({"remarks": remark})] == [withholds]


def test_the_remark_is_quoted_beside_the_depth_used(findings: Callable[..., list[Finding]]) -> None:
    (said,) = [one.found for one in findings({"remarks": "bore 8.5"}) if one.rule == "remark_gives_another_depth"]

    assert said == "remark 'bore 8.5'; bore depth used 9 in"
