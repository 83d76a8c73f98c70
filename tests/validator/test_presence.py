"""What is missing: said once, by one check, and never by its consequences."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

NO_DEPTH = {"bore_depth": "", "overall_length": "", "tip_thickness": ""}
UNION = {"extension_arrangement": "nipple and union"}
FLANGED_INSERT = {"sensor_mounting": "flanged insert", "extension_arrangement": "neck tube", "probe_length": ""}
FORM_4 = {
    "shank_form": "form 4",
    "length_unit": "mm",
    "overall_length": "200",
    "bore_depth": "195",
    "tip_thickness": "5",
    "extension_length": "165",
}

PROVEN = {"replaced_in_kind": "yes", "bore_depth": "", "overall_length": "", "tip_thickness": ""}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "column_absent": [
        ("is noted once a sheet", [{"tip_thickness": None}, {"tip_thickness": None}], ["note TE-101+TE-102 tag"]),
        ("is sound with all columns", {}, []),
    ],
    "dimensions_without_tag": [
        ("fires on a row without a tag", {"tag": ""}, ["error  tag"]),
        ("is sound with a tag", {}, []),
    ],
    "bore_depth_unknown": [
        ("fires without any way to it", NO_DEPTH, ["error TE-101 bore_depth"]),
        ("is sound with an overall length alone", {"bore_depth": "", "tip_thickness": ""}, []),
        ("is sound with a bore alone", {"overall_length": "", "tip_thickness": ""}, []),
        ("leaves a cell in trouble to its own check", {**NO_DEPTH, "bore_depth": "see drawing"}, []),
    ],
    "mounting_not_stated": [
        ("fires on a blank where others state it", [{}, {"sensor_mounting": ""}], ["error TE-102 sensor_mounting"]),
        ("fires on words that name none of the four", {"sensor_mounting": "spring loaded"}, ["error TE-101 sensor_mounting"]),
        ("is sound where it is stated", {}, []),
        ("is sound without a column", {"sensor_mounting": None}, []),
    ],
    "blank_mounting_from_basis": [
        ("is noted once a sheet", [{"basis": {"index": {"mounting_of_blank": "fixed fitting"}}}, {"sensor_mounting": ""}], ["note TE-102 sensor_mounting"]),
        ("is silent where it is stated", {"basis": {"index": {"mounting_of_blank": "fixed fitting"}}}, []),
        ("is silent without a value for blanks", [{}, {"sensor_mounting": ""}], []),
    ],
    "mounting_from_basis": [
        ("is noted once a sheet", [{"sensor_mounting": None}, {"sensor_mounting": None}], ["note TE-101+TE-102 sensor_mounting"]),
        ("is silent where the sheet says it", {}, []),
    ],
    "seat_height_not_known": [
        ("fires on a plate whose head is not known", {**FLANGED_INSERT, "extension_length": "6"}, ["error TE-101 sensor_mounting"]),
        ("is sound for a form 4 well of the standard", {**FLANGED_INSERT, **FORM_4}, []),
        ("is sound for a fitting", {}, []),
    ],
    "travel_assumed": [
        ("warns once a sheet", [{"spring_travel": ""}, {"spring_travel": ""}], ["warning TE-101+TE-102 spring_travel"]),
        ("is silent where it is stated", {}, []),
        ("is silent for a fixed fitting", {"spring_travel": "", "sensor_mounting": "fixed fitting"}, []),
    ],
    "row_on_hold": [
        ("is noted once a sheet", [{"row_status": "HOLD"}, {"row_status": "on hold 3"}, {}], ["note TE-101+TE-102 row_status"]),
        ("is silent on live rows", {"row_status": "existing"}, []),
        ("is silent on words that only hold the letters", {"row_status": "as per holder"}, []),
        ("is silent without a status", {"row_status": ""}, []),
    ],
    "status_word_not_known": [
        ("is noted once a sheet", [{"row_status": "QWERTY"}, {"row_status": "live"}], ["note TE-101 row_status"]),
        ("is silent on a word that is known", {"row_status": "existing"}, []),
    ],
    "not_a_sensor_in_a_well": [
        ("is noted of a bimetal thermometer", {"sensor_type": "bimetal thermometer"}, ["note TE-101 sensor_type"]),
        ("is silent of a sensor", {}, []),
    ],
    "length_taken_in_kind": [
        ("is noted once", [PROVEN, PROVEN], ["note TE-101+TE-102 probe_length"]),
        ("is silent where a bore depth leads to a length", {"replaced_in_kind": "yes"}, []),
        ("is silent without a yes", {**PROVEN, "replaced_in_kind": "no"}, []),
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
    "change,voice",
    [
        (NO_DEPTH, "error TE-101 bore_depth_unknown"),
        ({**NO_DEPTH, "bore_depth": "see drawing"}, "error TE-101 unreadable_dimension"),
        ({**UNION, "extension_length": "4"}, "error TE-101 union_basis_not_stated"),
        (UNION, "error TE-101 extension_without_length"),
    ],
)
def test_a_row_is_told_its_cause_and_not_the_consequences(
    voices: Callable[..., list[str]], change: dict[str, Any], voice: str
) -> None:
    assert voices({"probe_length": "", **change}) == [voice]
