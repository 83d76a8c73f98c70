"""Rows against their families, and no word on small ones."""

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


def inches(*lengths: float) -> list[dict[str, str]]:
    """Sound threaded wells of these insertion lengths."""
    return [
        {"insertion_length": f"{u:g}", "overall_length": f"{u + 1.75:g}", "bore_depth": f"{u + 1.5:g}", "probe_length": f"{u + 1.5:g}"}
        for u in lengths
    ]  # fmt: skip


def millimetres(*lengths: float) -> list[dict[str, str]]:
    """Sound threaded metric wells of these insertion lengths."""
    return [
        {"length_unit": "mm", "insertion_length": f"{u:g}", "overall_length": f"{u + 45:g}", "bore_depth": f"{u + 39:g}", "tip_thickness": "6", "probe_length": ""}
        for u in lengths
    ]  # fmt: skip


SPREAD = inches(2.5, 4.5, 7.5, 10.5, 13.5, 4.5, 7.5, 10.5, 7.5)
METRIC_SPREAD = millimetres(65, 115, 190, 265, 340, 115, 190, 265, 190)
SAME = inches(*[7.5] * 6)

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "unit_slip": [
        ("fires on mm in a column of inches", [*SPREAD, {"bore_depth": "115"}], ["error TE-110 bore_depth"]),
        ("fires on inches in a column of mm", [*METRIC_SPREAD, {**METRIC_SPREAD[0], "overall_length": "9.25"}], ["error TE-110 overall_length"]),
        ("fires on a decimal mark one place off", [*SAME, *SAME, {"bore_depth": "90"}], ["error TE-113 bore_depth"]),
        ("fires on a bore that slipped with its well", [*SAME, *SAME, {"overall_length": "92.5", "bore_depth": "88"}], ["error TE-113 overall_length", "error TE-113 bore_depth"]),
        ("fires on it in a small family too", [*SAME[:5], {"bore_depth": "90"}], ["error TE-106 bore_depth"]),
        ("is silent of it on the limit of five rows", [*SAME[:4], {"bore_depth": "90"}], []),
        ("fires on each such cell", [*SPREAD, {"bore_depth": "115", "tip_thickness": "6"}], ["error TE-110 bore_depth", "error TE-110 tip_thickness"]),
        ("is silent where the cell says its unit", [*SPREAD, {"bore_depth": "115 mm"}], []),
        ("is silent of a long well that is no slip", [*SPREAD, *inches(36)], []),
        ("is silent of an implausible length", [*SAME, *SAME, {"bore_depth": "0.9"}], []),
        ("is silent in a small family, on the limit of eight rows", [*SPREAD[:7], {"bore_depth": "115"}], []),
        ("falls back on the sheet for a connection of its own", [*SPREAD, {"well_connection": "3/4 NPT", "bore_depth": "115"}], ["error TE-110 bore_depth"]),
        ("is sound", SPREAD, []),
        ("is silent on a blank", [*SPREAD, {"bore_depth": ""}], []),
    ],
    "head_length_out_of_family": [
        ("fires on a threaded head that is too long", {"insertion_length": "6"}, ["warning TE-101 insertion_length"]),
        ("fires on a flanged head that is too short", {**FLANGED, "insertion_length": "10.5"}, ["warning TE-101 insertion_length"]),
        ("fires on a row off its family", [*SAME, {"insertion_length": "7.1"}], ["warning TE-107 insertion_length"]),
        ("is sound on the limit of 1/4 in from its family", [*SAME, {"insertion_length": "7.25"}], []),
        ("is sound on the limit of its kind", [{"insertion_length": "8"}, {"insertion_length": "7"}, {**FLANGED, "insertion_length": "10.25"}, {**FLANGED, "insertion_length": "7.75"}], []),
        ("is noted once where a whole family has it", [{"insertion_length": "6"}] * 5, ["note TE-101+TE-102+TE-103+TE-104+TE-105 insertion_length"]),
        ("looks at too short heads only without a lagging column", [{"insertion_length": "6", "lagging_length": None}, {"insertion_length": "8.25", "lagging_length": None}], ["warning TE-102 insertion_length"]),
        ("is silent of a longer head that may be a lagging length without a column", [*[{**row, "lagging_length": None} for row in SAME], {"insertion_length": "4.5", "lagging_length": None}], []),
        ("is silent of a shorter one of its kind, since the others may have a lagging length", [*[{**row, "lagging_length": None} for row in SAME], {"insertion_length": "7.9", "lagging_length": None}], []),
        ("fires on one shorter than any without a lagging column", [*[{**row, "lagging_length": None} for row in SAME], {"insertion_length": "8.2", "lagging_length": None}], ["warning TE-107 insertion_length"]),
        ("is silent in a family whose heads are of several lengths", [{"insertion_length": u} for u in ("7.5", "7.5", "7.25", "7.75", "7.5", "7.25", "7.75", "7.5", "7.8")], []),
        ("is silent where the lagging cannot be read", {"insertion_length": "4", "lagging_length": "see drawing"}, []),
        ("counts the lagging length", {"insertion_length": "4.5", "lagging_length": "3"}, []),
        ("is silent of a DIN form", {"insertion_length": "5", "shank_form": "form 4"}, []),
        ("is silent of an unknown connection", {"insertion_length": "5", "well_connection": ""}, []),
        ("is sound", [{}, FLANGED], []),
    ],
    "odd_one_in_family": [
        ("fires on one length beside another that is usual", [*SAME, {"bore_depth": "8"}], ["warning TE-107 bore_depth"]),
        ("fires on an odd insertion length", [*SAME, {"insertion_length": "7.1"}], ["warning TE-107 insertion_length"]),
        ("notes another well of the same kind", [*SAME, *inches(10.5)], ["note TE-107 overall_length"]),
        ("is sound on the limit of 1/4 in", [*SAME, {"bore_depth": "8.75"}], []),
        ("fires in a family of one data sheet, whatever the line", [*[{**row, "data_sheet_number": "DS-7", "line_size": size} for row, size in zip(SAME, ("2", "3", "4", "6", "8", ""), strict=True)], {"data_sheet_number": "DS-7", "line_size": "", "bore_depth": "8"}], ["warning TE-107 bore_depth"]),
        ("is silent of wells whose data sheets differ, each on a line of its own", [*[{**row, "data_sheet_number": f"DS-{size}", "line_size": size} for row, size in zip(SAME, ("2", "3", "4", "6", "8", "10"), strict=True)], {"data_sheet_number": "DS-12", "line_size": "12", "bore_depth": "8"}], []),
        ("is silent of data sheets that are yet to come", [*[{**row, "data_sheet_number": "TBD", "line_size": ""} for row in SAME], {"data_sheet_number": "TBD", "line_size": "", "bore_depth": "8"}], []),
        ("is silent of another kind of well on the same data sheet", [*[{**row, "data_sheet_number": "DS-7", "line_size": ""} for row in SAME], {**FLANGED, "data_sheet_number": "DS-7", "line_size": ""}], []),
        ("is silent where fewer than 80 % agree", [*SAME[:4], *inches(10.5, 4.5), {"bore_depth": "8"}], []),
        ("is silent in a family of four", [*SAME[:3], {"bore_depth": "8"}], []),
        ("is sound", SAME, []),
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


def test_a_slipped_unit_is_not_called_implausible_too(voices: Callable[..., list[str]]) -> None:
    assert voices(*SPREAD, {"bore_depth": "229", "overall_length": "", "tip_thickness": ""}) == [
        "error TE-110 unit_slip"
    ]


@pytest.mark.parametrize(
    "rule,rows,expected",
    [
        ("unit_slip", [*SPREAD, {"bore_depth": "115"}], "bore depth about 4.5276 in, as its family has; probably typed in mm where inches are meant"),
        ("unit_slip", [*METRIC_SPREAD, {**METRIC_SPREAD[0], "overall_length": "9.25"}], "overall length about 234.95 mm, as its family has; probably typed in inches where mm are meant"),
        ("head_length_out_of_family", [{"insertion_length": "6"}], "1.25 in to 2.25 in"),
        ("head_length_out_of_family", [*SAME, {"insertion_length": "7.1"}], "about 1.75 in, as in its family"),
        ("odd_one_in_family", [*SAME, {"bore_depth": "8.5", "overall_length": ""}], "bore depth 9 in, as most of its family has"),
    ],
)  # fmt: skip
def test_what_the_family_has_is_said(
    findings: Callable[..., list[Finding]], rule: str, rows: list[dict[str, Any]], expected: str
) -> None:
    assert [one.expected for one in findings(*rows) if one.rule == rule] == [expected]


@pytest.mark.parametrize(
    "change,found",
    [
        ({"insertion_length": "6"}, "head length 3.25 in = overall length 9.25 less insertion length 6, no lagging length"),
        ({"insertion_length": "4", "lagging_length": "2"}, "head length 3.25 in = overall length 9.25 less insertion length 4, less lagging length 2"),
    ],
)  # fmt: skip
def test_a_head_length_is_worked_out_in_words(
    findings: Callable[..., list[Finding]], change: dict[str, Any], found: str
) -> None:
    assert [one.found for one in findings(change) if one.rule == "head_length_out_of_family"] == [found]
