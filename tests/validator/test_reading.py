"""Cells that give no length, and lengths that cannot be."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

NO_BORE = {"bore_depth": "", "tip_thickness": "0.25"}

# Nothing else on the row says how deep the well is.
ALONE = {"overall_length": "", "tip_thickness": "", "insertion_length": "", "probe_length": ""}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "unit_not_known": [
        ("fires on a length without a unit", {"bore_depth": ("no unit", "9", "")}, ["error TE-101 bore_depth"]),
        ("fires on each such cell", {"tip_thickness": ("no unit", "6", ""), "probe_length": ("no unit", "9", "")}, ["error TE-101 tip_thickness", "error TE-101 probe_length"]),
        ("is sound with a unit", {}, []),
        ("is silent on a blank", {"bore_depth": ""}, []),
    ],
    "units_disagree": [
        ("fires where two declared units differ", {"overall_length": ("units disagree", "235", "")}, ["error TE-101 overall_length"]),
        ("is sound with one unit", {}, []),
        ("is silent on a blank", {"overall_length": ""}, []),
    ],
    "date_for_dimension": [
        ("fires on a date", {"bore_depth": ("date", "4-Sep", "9-1/4")}, ["error TE-101 bore_depth"]),
        ("is sound on a length", {"bore_depth": "9-1/4"}, []),
        ("is silent on a blank", {"bore_depth": "TBD"}, []),
    ],
    "range_for_dimension": [
        ("fires on two numbers", {"bore_depth": "230/250 mm"}, ["error TE-101 bore_depth"]),
        ("warns of a number that is doubted", {"bore_depth": "~9 in"}, ["warning TE-101 bore_depth"]),
        ("warns of an estimate", {"tip_thickness": "0.25 est."}, ["warning TE-101 tip_thickness"]),
        ("is sound on one number", {}, []),
        ("is sound on a confirmed number", {"bore_depth": "9 verified"}, []),
        ("is silent on a blank", {"bore_depth": "?"}, []),
    ],
    "unreadable_dimension": [
        ("fires on words", {"bore_depth": "see drawing"}, ["error TE-101 bore_depth"]),
        ("is sound on a fraction", {"bore_depth": "9 1/4"}, []),
        ("is silent on a placeholder", {"bore_depth": "HOLD"}, []),
    ],
    "dead_formula": [
        ("fires on an error value", {"bore_depth": ("dead formula", "#REF!", "")}, ["error TE-101 bore_depth"]),
        ("is sound on a value", {}, []),
        ("is silent on a blank", {"bore_depth": ""}, []),
    ],
    "two_columns_differ": [
        ("fires where both give one field", {"bore_depth": ("two columns differ", "9 and 10", "")}, ["error TE-101 bore_depth"]),
        ("is sound where they agree", {}, []),
        ("is silent on a blank", {"bore_depth": ""}, []),
    ],
    "implausible_length": [
        ("fires on a bore that no well has", {"bore_depth": "121"}, ["error TE-101 bore_depth"]),
        ("fires on a bore too short for one", {"bore_depth": "1.25"}, ["error TE-101 bore_depth"]),
        ("fires on a measured bore alike", {"measured_bore_depth": "121"}, ["error TE-101 measured_bore_depth"]),
        ("fires on a tip of 5 in", {"tip_thickness": "5"}, ["error TE-101 tip_thickness"]),
        ("is sound on the limit", [{"bore_depth": "1.5"}, {"bore_depth": "120"}, {"tip_thickness": "2"}], []),
        ("is sound", {}, []),
        ("is silent on a blank", {"bore_depth": ""}, []),
    ],
    "foot_mark_for_inch": [
        ("fires where the column has no other length", {"bore_depth": "9'", **ALONE}, ["error TE-101 bore_depth"]),
        ("fires beyond twice the others", [{"bore_depth": "9'", **ALONE}, {"bore_depth": "53.9"}], ["error TE-101 bore_depth"]),
        ("is silent on the limit of twice the others", [{"bore_depth": "9'", **ALONE}, {"bore_depth": "54"}], []),
        ("is silent where the row confirms it", {"bore_depth": "5'", "overall_length": "60.25", "insertion_length": "58"}, []),
        ("is silent on feet and inches", {"bore_depth": "1'-3\"", **ALONE}, []),
        ("is silent on the word", {"bore_depth": "9 ft", **ALONE}, []),
        ("is silent on a blank", {"bore_depth": ""}, []),
    ],
    "length_column_not_read": [
        ("is noted once a sheet", [{"is_unread_length": True}, {}], ["note TE-101+TE-102 bore_depth"]),
        ("is silent where every length is read", {}, []),
        ("is silent on a blank", {"bore_depth": ""}, []),
    ],
    "unnamed_length_column": [
        ("fires once a sheet", [{"is_undecided": True}, {}], ["error TE-101+TE-102 bore_depth"]),
        ("is sound with named columns", [{}, {}], []),
    ],
    "shown_not_stored": [
        ("fires on a format that rounds", {"bore_depth": "9.19", "bore_depth_shown": "9.25"}, ["warning TE-101 bore_depth"]),
        ("fires on each such cell", {"bore_depth": "9.19", "bore_depth_shown": "9.25", "overall_length": "9.44", "overall_length_shown": "9.5"}, ["warning TE-101 overall_length", "warning TE-101 bore_depth"]),
        ("is sound on the limit of 1/32 in", {"bore_depth": "9.21875", "bore_depth_shown": "9.25"}, []),
        ("is sound on the limit of 0.8 mm", {"length_unit": "mm", "bore_depth": "229.2", "bore_depth_shown": "230"}, []),
        ("fires on a metric row above it", {"length_unit": "mm", "bore_depth": "229.1", "bore_depth_shown": "230"}, ["warning TE-101 bore_depth"]),
        ("is silent on a text cell", {"bore_depth": "9.19"}, []),
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


@pytest.mark.parametrize("name", ["bore_depth", "overall_length"])
def test_a_date_is_an_error_with_what_was_typed(findings: Callable[..., list[Finding]], name: str) -> None:
    said = findings({name: ("date", "4-Sep", "9-1/4")})

    assert [one.expected for one in said if one.rule == "date_for_dimension"] == ["a length; probably typed: 9-1/4"]


def test_a_date_without_a_guess_asks_for_a_length(findings: Callable[..., list[Finding]]) -> None:
    said = findings({"bore_depth": ("date", "31-Oct", "")})

    assert [one.expected for one in said if one.rule == "date_for_dimension"] == ["a length"]


@pytest.mark.parametrize(
    "change,withholds",
    [
        ({"bore_depth": ("dead formula", "#N/A", "")}, True),
        ({"insertion_length": ("dead formula", "#N/A", "")}, False),
        ({"bore_depth": "~9 in"}, True),
        ({"bore_depth": "", "overall_length": ("no unit", "9.25", "")}, True),
        ({"overall_length": ("no unit", "9.25", "")}, False),
    ],
)
def test_a_cell_without_a_length_withholds_only_where_the_length_needs_it(
    findings: Callable[..., list[Finding]],
    change: dict[str, Any],
    withholds: bool,  # noqa: FBT001 - what is expected
) -> None:
    said = [one for one in findings(change) if not one.folded]

    assert [one.withholds for one in said] == [withholds]


def test_what_a_cell_shows_and_holds_is_said_in_its_unit(findings: Callable[..., list[Finding]]) -> None:
    said = findings({"bore_depth": "8.94", "bore_depth_shown": "9"})

    assert [one.found for one in said if one.rule == "shown_not_stored"] == [
        "bore depth: the cell shows 9 in and holds 8.94 in"
    ]


def test_a_length_column_that_is_not_read_is_said_with_its_values(findings: Callable[..., list[Finding]]) -> None:
    said = [one.found for one in findings({"is_unread_length": True}) if one.rule == "length_column_not_read"]

    assert said == ["1 row: column AO 'DIM K', values like 9 | 8.5"]
