"""Tags that may have been renamed, split or merged."""

from collections.abc import Callable, Sequence

import pytest

from thermowell_index.revisions.matching import match_rows
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.proposals import propose

Row = Callable[..., RowMemory]
FULL = {"service": "Cooler", "bore_depth": "9", "overall_length": "9-1/4", "tip_thickness": "1/4", "line_size": "4"}


def _proposed(before: Sequence[RowMemory], now: Sequence[RowMemory]) -> list[tuple[str, list[str], list[str]]]:
    return [
        (entry.kind, [before[place].tag for place in entry.before], [now[place].tag for place in entry.now])
        for entry in propose(before, now, match_rows(before, now))
    ]


@pytest.mark.parametrize(
    "before,now,kind",
    [
        (["TE-1"], ["TE-1A"], "renamed"),
        (["TE-1"], ["TE-1A", "TE-1B"], "split"),
        (["TE-1A", "TE-1B"], ["TE-1"], "merged"),
    ],
)
def test_rows_of_one_loop_number_are_proposed(*, make_row: Row, before: list[str], now: list[str], kind: str) -> None:
    old = [make_row(tag, row, cells={}) for row, tag in enumerate(before)]
    new = [make_row(tag, row, cells={}) for row, tag in enumerate(now)]
    assert _proposed(old, new) == [(kind, before, now)]


@pytest.mark.parametrize(
    "before,now,kind",
    [
        (["U3-TE-210", "U3-TE-211"], ["U3-TE-210/211"], "merged"),
        (["TE-210A", "TE-210B"], ["TE-210A/B"], "merged"),
        (["TE-8", "TE-9"], ["TE-8 & TE-9"], "merged"),
        (["TE-210/211"], ["TE-210", "TE-211"], "split"),
    ],
)
def test_a_tag_that_lists_others_is_proposed_with_them(
    *, make_row: Row, before: list[str], now: list[str], kind: str
) -> None:
    old = [make_row(tag, row, cells={}) for row, tag in enumerate(before)]
    new = [make_row(tag, row, cells={}) for row, tag in enumerate(now)]
    assert _proposed(old, new) == [(kind, before, now)]


def test_two_rows_that_became_two_of_one_loop_are_told_by_their_cells(make_row: Row) -> None:
    other = {**FULL, "service": "Heater", "bore_depth": "12", "overall_length": "12-1/4", "line_size": "6"}
    before = [make_row("TE-1A", 5, cells=FULL), make_row("TE-1B", 6, cells=other)]
    now = [make_row("TE-1C", 5, cells=other), make_row("TE-1", 6, cells=FULL)]
    assert _proposed(before, now) == [("renamed", ["TE-1A"], ["TE-1"]), ("renamed", ["TE-1B"], ["TE-1C"])]


def test_a_row_of_other_letters_is_not_of_the_same_kind(make_row: Row) -> None:
    assert _proposed([make_row("TE-1", cells={})], [make_row("TT-1", cells={})]) == []


def test_a_row_with_the_same_cells_is_proposed(make_row: Row) -> None:
    before, now = [make_row("TE-1", cells=FULL)], [make_row("TE-900", cells={**FULL, "service": "Cooler 2"})]
    assert _proposed(before, now) == [("renamed", ["TE-1"], ["TE-900"])]


def test_a_row_that_agrees_with_two_is_not_proposed(make_row: Row) -> None:
    before = [make_row("TE-1", cells=FULL)]
    now = [make_row("TE-900", 5, cells=FULL), make_row("TE-901", 6, cells=FULL)]
    assert _proposed(before, now) == []


@pytest.mark.parametrize("cells", [{"bore_depth": "9"}, {**FULL, "service": "x", "line_size": "8"}])
def test_too_few_equal_cells_are_no_reason(*, make_row: Row, cells: dict[str, str]) -> None:
    assert _proposed([make_row("TE-1", cells=FULL)], [make_row("TE-900", cells=cells)]) == []


def test_near_identical_wells_are_not_proposed_for_one_another(make_row: Row) -> None:
    before = [make_row(f"TE-{row}", row, cells={**FULL, "service": f"Old {row}"}) for row in range(5)]
    now = [make_row(f"TE-{900 + row}", row, cells={**FULL, "service": f"New {row}"}) for row in range(5)]
    assert _proposed(before, now) == []


def test_one_row_among_many_is_found(make_row: Row) -> None:
    before = [make_row(f"TE-{row}", row, cells={**FULL, "service": f"Cooler {row}"}) for row in range(600)]
    now = [make_row(f"TE-{9000 + row}", row, cells={**FULL, "service": f"Heater {row}"}) for row in range(600)]
    now[7] = make_row("TE-9007", 7, cells={**FULL, "service": "Cooler 44"})
    assert _proposed(before, now) == [("renamed", ["TE-44"], ["TE-9007"])]


def test_the_reason_is_said(make_row: Row) -> None:
    before, now = [make_row("TE-1", cells=FULL)], [make_row("TE-1A", cells={**FULL, "bore_depth": "10"})]
    (entry,) = propose(before, now, match_rows(before, now))
    assert entry.why == "the same function letters and loop number; 80 % of the cells agree"
