"""Runs of neighbouring rows."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

INSERTIONS = (2.5, 4.5, 7.5, 10.5, 13.5, 4.5, 10.5, 2.5, 7.5, 13.5, 4.5, 7.5)


def wells(insertions: Sequence[float] = INSERTIONS) -> list[dict[str, str]]:
    """Sound rows of wells of these insertion lengths."""
    return [
        {"insertion_length": f"{u:g}", "overall_length": f"{u + 1.75:g}", "bore_depth": f"{u + 1.5:g}", "probe_length": ""}
        for u in insertions
    ]  # fmt: skip


def slid(*names: str, step: int = 1) -> list[dict[str, str]]:
    """The same rows with some columns moved down by `step` rows; what falls off at one end comes in at the other."""
    rows = wells()
    return [row | {name: rows[(place - step) % len(rows)][name] for name in names} for place, row in enumerate(rows)]


def tags(first: int, last: int) -> str:
    return "+".join(f"TE-{number}" for number in range(first, last + 1))


COPIED = [{"line_size": f'{size}"'} for size in (2, 2, 3, 3, 3, 4, 4, 4, 6, 6)]

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "values_slid_against_tags": [
        ("fires on a bore column one row down", slid("bore_depth"), [f"error {tags(101, 112)} overall_length"]),
        ("fires on one row up", slid("bore_depth", step=-1), [f"error {tags(101, 112)} overall_length"]),
        ("fires on two rows down", slid("bore_depth", step=2), [f"error {tags(101, 112)} overall_length"]),
        ("is silent on four rows down, beyond the limit", slid("bore_depth", step=4), []),
        ("fires on an overall column", slid("overall_length"), [f"error {tags(101, 112)} overall_length"]),
        ("fires on an insertion column without bores", [row | {"bore_depth": ""} for row in slid("insertion_length")], [f"error {tags(101, 112)} overall_length"]),
        ("is silent of a depth that was read at the well", [*[row | {"measured_bore_depth": ""} for row in slid("bore_depth")[:-1]], {**slid("bore_depth")[-1], "measured_bore_depth": "9", "surveyed": ("measured_bore_depth",)}], [f"error {tags(101, 111)} overall_length"]),
        ("is silent where the rows are alike", [{}] * 12, []),
        ("is silent below the limit of eight neighbours", slid("bore_depth")[:7], []),
        ("is silent of a few wrong rows", [*wells(), {"bore_depth": "8"}, {"bore_depth": "7"}], []),
        ("is silent where nothing adds up either way", [row | {"bore_depth": "3"} for row in wells()], []),
        ("is sound", wells(), []),
    ],
    "run_of_copied_values": [
        ("fires over three line sizes", COPIED, [f"warning {tags(101, 110)} overall_length"]),
        ("fires over three connections", [{"well_connection": f"{size} NPT"} for size in ("1", "3/4", "1/2", "1", "1", "1", "1", "1", "1", "1")], [f"warning {tags(101, 110)} overall_length"]),
        ("fires without probe lengths too", [row | {"probe_length": ""} for row in COPIED], [f"warning {tags(101, 110)} overall_length"]),
        ("is silent of overall lengths alone", [row | {"probe_length": "", "bore_depth": ""} for row in COPIED], []),
        ("is silent on one line size", [{}] * 12, []),
        ("is silent of nine, below the limit", COPIED[1:], []),
        ("is silent where a length differs", [row | {"bore_depth": f"{8.95 + 0.05 * (place % 2):g}"} for place, row in enumerate(COPIED)], []),
        ("is sound", wells(), []),
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
    "rows,found",
    [
        (slid("bore_depth"), "12 rows: the overall length of each adds up with the bore depth of the row below it, not with its own"),
        (slid("overall_length", step=-1), "12 rows: the overall length of each adds up with the bore depth and insertion length of the row below it, not with its own"),
        ([row | {"bore_depth": ""} for row in slid("insertion_length", step=-1)], "12 rows: the overall length of each adds up with the insertion length of the row above it, not with its own"),
    ],
)  # fmt: skip
def test_a_slide_names_its_column_and_its_way(
    findings: Callable[..., list[Finding]], rows: list[dict[str, Any]], found: str
) -> None:
    assert [one.found for one in findings(*rows) if one.rule == "values_slid_against_tags"] == [found]


def test_rows_that_slid_are_withheld_and_told_nothing_else(findings: Callable[..., list[Finding]]) -> None:
    said = [one for one in findings(*slid("bore_depth")) if one.withholds and "TE-105" in one.tags]

    assert [one.rule for one in said] == ["values_slid_against_tags"]


def test_a_run_of_copies_says_what_is_copied(findings: Callable[..., list[Finding]]) -> None:
    said = [one.found for one in findings(*COPIED) if one.rule == "run_of_copied_values"]

    assert said == [
        (
            "10 rows: 10 neighbours on 4 sizes or connections have overall length 9.25 in, bore depth 9 in, "
            "probe length 9 in"
        )
    ]


def test_each_sheet_has_its_own_runs(speak: Callable[..., list[str]]) -> None:
    rows = [row | {"sheet": "One" if place < 5 else "Two"} for place, row in enumerate(COPIED)]

    assert speak("run_of_copied_values", rows) == []
