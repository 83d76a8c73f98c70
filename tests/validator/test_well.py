"""Lengths of one well that contradict each other."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

FLANGED = {
    "well_connection": '1-1/2" 300# RF flange',
    "connection_size": "1-1/2",
    "overall_length": "12.25",
    "insertion_length": "10",
    "bore_depth": "12",
    "probe_length": "12",
}
LAGGING = {
    "overall_length": "7.75",
    "insertion_length": "4",
    "lagging_length": "2",
    "bore_depth": "7.5",
    "probe_length": "7.5",
}
METRIC = {
    "length_unit": "mm",
    "overall_length": "235",
    "bore_depth": "229",
    "tip_thickness": "6",
    "insertion_length": "190",
    "bore_diameter": "6.6",
    "root_diameter": "25",
    "tip_diameter": "19",
    "sheath_diameter": "6",
    "spring_travel": "25",
    "probe_length": "230",
}
DEEPER = {"bore_depth": "10", "overall_length": "10.25"}
WELL_ROW = {
    "sensor_mounting": "",
    "extension_arrangement": "",
    "sensor_type": "",
    "sheath_diameter": "",
    "spring_travel": "",
    "probe_length": "",
    "tag": "TW-102",
}

TOUCHES = {"tip_contact": "yes"}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "bore_deeper_than_well": [
        ("fires on a bore as deep as the well is long", {"bore_depth": "9.25"}, ["error TE-101 bore_depth"]),
        ("fires on a measured bore alike", {"measured_bore_depth": "9.25"}, ["error TE-101 measured_bore_depth"]),
        ("is sound with 1/8 in left, on the limit", {"bore_depth": "9.125"}, []),
        ("is sound", {}, []),
        ("is silent without a bore depth", {"bore_depth": ""}, []),
    ],
    "tip_does_not_add_up": [
        ("fires where the three disagree", {"bore_depth": "8"}, ["error TE-101 bore_depth"]),
        ("is sound on the limit of 1/16 in", {"bore_depth": "8.9375"}, []),
        ("is sound on the limit of 1.5 mm", {**METRIC, "bore_depth": "227.5"}, []),
        ("fires on a metric row above it", {**METRIC, "bore_depth": "227.4"}, ["error TE-101 bore_depth"]),
        ("fires on a measured depth that stands alone", {"bore_depth": "", "measured_bore_depth": "8"}, ["error TE-101 measured_bore_depth"]),
        ("leaves a measured depth beside the drawing's alone", {"measured_bore_depth": "8"}, []),
        ("is sound", {}, []),
        ("is silent without a bore depth", {"bore_depth": ""}, []),
    ],
    "insertion_longer_than_well": [
        ("fires on more below the connection than there is", {"insertion_length": "9"}, ["error TE-101 insertion_length"]),
        ("counts the lagging length", {"lagging_length": "2"}, ["error TE-101 insertion_length"]),
        ("is sound on the limit of 1/2 in", {"insertion_length": "8.75"}, []),
        ("is sound", {}, []),
    ],
    "lagging_left_out": [
        ("fires on a bore short by the lagging", {**LAGGING, "bore_depth": "5.5"}, ["error TE-101 bore_depth"]),
        ("fires without an overall length too", {**LAGGING, "overall_length": "", "bore_depth": "5.5"}, ["error TE-101 bore_depth"]),
        ("fires on the limit of 1/8 in", {**LAGGING, "bore_depth": "5.625"}, ["error TE-101 bore_depth"]),
        ("is silent beyond it", {**LAGGING, "bore_depth": "5.75"}, []),
        ("is sound", LAGGING, []),
        ("is silent without a bore depth", {**LAGGING, "bore_depth": ""}, []),
        ("is silent where the connection says nothing of the head", {**LAGGING, "overall_length": "", "bore_depth": "5.5", "well_connection": ""}, []),
    ],
    "head_longer_than_any": [
        ("fires on a length with a figure too many", {"overall_length": "92.5", "bore_depth": "92.25"}, ["error TE-101 insertion_length"]),
        ("looks at the bore depth without an overall length", {"overall_length": "", "bore_depth": "90"}, ["error TE-101 insertion_length"]),
        ("is sound on the limit of 24 in", {"overall_length": "31.5", "bore_depth": "31.25"}, []),
        ("fires just beyond it", {"overall_length": "31.6", "bore_depth": "31.35"}, ["error TE-101 insertion_length"]),
        ("takes the lagging length off", {"overall_length": "41.5", "bore_depth": "41.25", "lagging_length": "10"}, []),
        ("needs an insertion length", {"overall_length": "92.5", "bore_depth": "92.25", "insertion_length": ""}, []),
        ("is sound", {}, []),
    ],
    "head_left_out": [
        ("fires on a depth of the insertion length less the tip", {"overall_length": "", "bore_depth": "7.25"}, ["error TE-101 bore_depth"]),
        ("fires on the limit of 1/8 in", {"overall_length": "", "bore_depth": "7.375"}, ["error TE-101 bore_depth"]),
        ("is silent beyond it", {"overall_length": "", "bore_depth": "7.4"}, []),
        ("fires beside an overall length where no tip is stated", {"bore_depth": "7.25", "tip_thickness": ""}, ["error TE-101 bore_depth"]),
        ("fires so on a connection that is not known", {"bore_depth": "7.25", "tip_thickness": "", "well_connection": "", "connection_size": ""}, ["error TE-101 bore_depth"]),
        ("is silent where 1/2 in is left below the bore, on the limit", {"bore_depth": "7.25", "overall_length": "7.75", "tip_thickness": "", "insertion_length": "7.5"}, []),
        ("leaves a stated overall length to the sum", {"bore_depth": "7.25"}, []),
        ("is silent of a flanged well", {**FLANGED, "overall_length": "", "bore_depth": "12"}, []),
        ("is silent of a connection without a known head", {"overall_length": "", "bore_depth": "7.25", "well_connection": "weld-in"}, []),
        ("is silent on a blank insertion length", {"overall_length": "", "bore_depth": "7.25", "insertion_length": ""}, []),
        ("is silent on a blank bore depth", {"bore_depth": ""}, []),
        ("is sound", {"overall_length": ""}, []),
    ],
    "bore_from_flange_face": [
        ("fires on a depth from the flange face", {**FLANGED, "bore_depth": "9.75"}, ["error TE-101 bore_depth"]),
        ("knows a flange from the column of its size", {**FLANGED, "well_connection": "", "connection_size": "1-1/2 300# RF", "bore_depth": "9.75"}, ["error TE-101 bore_depth"]),
        ("fires without an overall length too", {**FLANGED, "overall_length": "", "bore_depth": "9.75"}, ["error TE-101 bore_depth"]),
        ("fires on the limit of 1/8 in", {**FLANGED, "bore_depth": "9.875"}, ["error TE-101 bore_depth"]),
        ("is silent beyond it", {**FLANGED, "bore_depth": "9.9"}, []),
        ("is silent of a threaded well", {"bore_depth": "7.25"}, []),
        ("is silent where the depth adds up", {**FLANGED, "overall_length": "10", "bore_depth": "9.75"}, []),
        ("is sound", FLANGED, []),
    ],
    "insertion_copied_as_bore": [
        ("fires where the two are alike and there is a head", {"bore_depth": "7.5"}, ["warning TE-101 bore_depth"]),
        ("fires on a lagging length alone", {**LAGGING, "overall_length": "", "well_connection": "", "bore_depth": "4"}, ["warning TE-101 bore_depth"]),
        ("fires by the connection where nothing else tells", {"overall_length": "", "bore_depth": "7.5"}, ["warning TE-101 bore_depth"]),
        ("fires on the limit of 1/32 in", {"bore_depth": "7.53125"}, ["warning TE-101 bore_depth"]),
        ("is silent beyond it", {"bore_depth": "7.54"}, []),
        ("is silent where no head is known", {"overall_length": "", "well_connection": "", "bore_depth": "7.5"}, []),
        ("is silent where the depth adds up", {"overall_length": "7.75", "bore_depth": "7.5"}, []),
        ("is sound", {}, []),
    ],
    "one_well_two_depths": [
        ("fires on both rows of the well", [{"well_tag": "TW-5"}, {"well_tag": "TW-5", "bore_depth": "10", "overall_length": "10.25"}], ["error TE-101 bore_depth", "error TE-102 bore_depth"]),
        ("fires on a well row that disagrees", [WELL_ROW | {"bore_depth": "10"}, {}], ["error TE-102 bore_depth"]),
        ("fires on a transmitter's row that disagrees", [{}, {"tag": "TT-101", "bore_depth": "10", "overall_length": "10.25"}], ["error TE-101 bore_depth"]),
        ("is sound where the transmitter's row is of another well", [{}, {"tag": "TT-101", "well_tag": "TW-9", "bore_depth": "10"}], []),
        ("is sound where two sensors have each their transmitter", [{"tag": "TE-101A"}, {"tag": "TT-101A"}, {"tag": "TE-101B", **DEEPER}, {"tag": "TT-101B", **DEEPER}], []),
        ("is sound on the limit of 1/16 in", [{"well_tag": "TW-5"}, {"well_tag": "TW-5", "bore_depth": "9.0625"}], []),
        ("is sound where they agree", [{"well_tag": "TW-5"}, {"well_tag": "TW-5"}], []),
    ],
    "measured_against_drawing": [
        ("fires where they differ", {"measured_bore_depth": "8.5"}, ["warning TE-101 measured_bore_depth"]),
        ("is sound on the limit of 1/4 in", {"measured_bore_depth": "8.75"}, []),
        ("fires on another length alike", {"overall_length_drawn": "10"}, ["warning TE-101 overall_length"]),
        ("is sound on the limit for another length", {"overall_length_drawn": "9.5"}, []),
        ("is sound on the limit of 6 mm", {**METRIC, "measured_bore_depth": "223"}, []),
        ("fires on a metric row above it", {**METRIC, "measured_bore_depth": "222.9"}, ["warning TE-101 measured_bore_depth"]),
        ("is sound without a measured one", {}, []),
    ],
    "old_sensor_denies_bore_depth": [
        ("fires where a probe that touches ends above the bottom", {**TOUCHES, "probe_length": "8"}, ["error TE-101 probe_length"]),
        ("fires where its spring would be solid", {**TOUCHES, "probe_length": "10"}, ["error TE-101 probe_length"]),
        ("fires on a compression found that is another", {"compression_found": "0.75"}, ["error TE-101 probe_length"]),
        ("is sound where the compression found agrees", {"compression_found": "0.5"}, []),
        ("is sound where the probe touches", TOUCHES, []),
        ("concludes nothing from a no", {"tip_contact": "no", "probe_length": "8"}, []),
        ("concludes nothing from a length alone", {"probe_length": "8"}, []),
        ("is silent of a fixed fitting", {**TOUCHES, "probe_length": "8", "sensor_mounting": "fixed fitting"}, []),
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
        ({"bore_depth": "9.25"}, ["error TE-101 bore_deeper_than_well"]),
        ({**LAGGING, "bore_depth": "5.5"}, ["error TE-101 lagging_left_out"]),
        ({**FLANGED, "bore_depth": "9.75"}, ["error TE-101 bore_from_flange_face"]),
        ({"bore_depth": "7.5"}, ["warning TE-101 insertion_copied_as_bore"]),
        ({"bore_depth": "8"}, ["error TE-101 tip_does_not_add_up"]),
        ({"bore_depth": "250"}, ["error TE-101 implausible_length"]),
        ({"measured_bore_depth": "8.5", "probe_length": "8.5"}, ["warning TE-101 measured_against_drawing"]),
    ],
)
def test_a_wrong_bore_depth_is_said_once(
    voices: Callable[..., list[str]], change: dict[str, Any], said: list[str]
) -> None:
    assert voices(change) == said


@pytest.mark.parametrize(
    "rule,change,expected",
    [
        ("bore_deeper_than_well", {"bore_depth": "9.25"}, "at most 9.125 in; it equals the overall length: copied as bore depth"),
        ("bore_deeper_than_well", {"bore_depth": "9.5"}, "at most 9.125 in"),
        ("tip_does_not_add_up", {"bore_depth": "8"}, "bore depth 9 in = overall length less tip thickness"),
        ("insertion_longer_than_well", {"insertion_length": "9", "bore_depth": "9"}, "insertion and lagging length together at most 8.75 in"),
        ("lagging_left_out", {**LAGGING, "bore_depth": "5.5"}, "about 7.5 in, the lagging length included"),
        ("bore_from_flange_face", {**FLANGED, "bore_depth": "9.75"}, "about 12 in, measured from the instrument end"),
        ("bore_from_flange_face", {**FLANGED, "overall_length": "", "bore_depth": "9.75"}, "about 12 in, measured from the instrument end"),
        ("measured_against_drawing", {"measured_bore_depth": "8.5"}, "within 1/4 in of the drawing's 9 in; the measured one is used"),
    ],
)  # fmt: skip
def test_what_is_expected_is_worked_out_on_the_row(
    findings: Callable[..., list[Finding]], rule: str, change: dict[str, Any], expected: str
) -> None:
    assert [one.expected for one in findings(change) if one.rule == rule] == [expected]


def test_the_other_depths_of_a_well_are_named_with_their_rows(findings: Callable[..., list[Finding]]) -> None:
    said = findings({"well_tag": "TW-5"}, {"well_tag": "TW-5", "bore_depth": "10", "overall_length": "10.25"})

    assert [one.expected for one in said if one.rule == "one_well_two_depths"] == [
        "one depth for the well; TE-102 (Index, row 3) has 10 in",
        "one depth for the well; TE-101 (Index, row 2) has 9 in",
    ]


READ = {"surveyed": ("measured_bore_depth",)}
THREADED_SHORT = {"overall_length": "", "tip_thickness": ""}


@pytest.mark.parametrize(
    "rows,said",
    [
        ([{"bore_depth": "", "measured_bore_depth": "8.5", "probe_length": ""}], ["warning TE-101 tip_does_not_add_up"]),
        ([{"insertion_length": "9.5", "measured_bore_depth": "9"}], ["warning TE-101 insertion_longer_than_well"]),
        ([{"bore_depth": "", "measured_bore_depth": "7.5", "probe_length": ""}], ["warning TE-101 tip_does_not_add_up"]),
        ([{**THREADED_SHORT, "bore_depth": "", "measured_bore_depth": "7.25", "probe_length": ""}], []),
        (
            [
                {"well_tag": "TW-1", "measured_bore_depth": "9", "element_count": "duplex"},
                {"well_tag": "TW-1", "surveyed": (), "bore_depth": "10", "overall_length": "10.25", "insertion_length": "8.5", "probe_length": ""},
            ],
            ["error TE-102 one_well_two_depths", "warning TE-101 one_well_two_depths"],
        ),
    ],
)  # fmt: skip
def test_what_was_read_for_the_field_survey_settles_the_depth(
    findings: Callable[..., list[Finding]], rows: list[dict[str, Any]], said: list[str]
) -> None:
    found = findings(*[{**READ, **row} for row in rows])

    loud = [one for one in found if not one.folded and one.severity != "note"]
    assert [f"{one.severity} {one.tag} {one.rule}" for one in loud] == said
    assert all(one.withholds == (one.severity == "error") for one in loud)


def test_a_reading_deeper_than_the_well_withholds_the_row_all_the_same(
    findings: Callable[..., list[Finding]],
) -> None:
    (one,) = [one for one in findings({**READ, "measured_bore_depth": "9.25"}) if one.severity == "error"]

    assert (one.rule, one.withholds) == ("bore_deeper_than_well", True)
