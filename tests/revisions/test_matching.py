"""Rows of two issues matched by what they are."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermowell_index.revisions.matching import RowMatch, agreement, match_rows
from thermowell_index.revisions.memory import RowMemory

Row = Callable[..., RowMemory]


def _pairs(match: RowMatch) -> dict[int, int]:
    return dict(match.pairs)


def test_rows_are_matched_by_tag_wherever_they_stand(make_row: Row) -> None:
    before = [make_row("TE-1", 5), make_row("TE-2", 6), make_row("TE-3", 7)]
    now = [make_row("TE-3", 5), make_row("TE-9", 6), make_row("TE-1", 7)]
    match = match_rows(before, now)
    assert (_pairs(match), match.added, match.gone) == ({0: 2, 2: 0}, [1], [1])


def test_the_spelling_of_a_tag_makes_no_difference(make_row: Row) -> None:
    assert _pairs(match_rows([make_row("TE-1")], [make_row("te 1")])) == {0: 0}


def test_a_changed_well_tag_leaves_the_row_the_same(make_row: Row) -> None:
    assert _pairs(match_rows([make_row("TE-1", well_tag="")], [make_row("TE-1", well_tag="TW-1")])) == {0: 0}


def test_of_several_rows_of_one_tag_those_that_agree_belong_together(make_row: Row) -> None:
    short, long = {"bore_depth": "9"}, {"bore_depth": "12"}
    before = [make_row("TE-1", 5, cells=short), make_row("TE-1", 6, cells=long)]
    now = [make_row("TE-1", 5, cells=long), make_row("TE-1", 6, cells=short)]
    assert _pairs(match_rows(before, now)) == {0: 1, 1: 0}


def test_of_equal_rows_of_one_tag_those_on_one_sheet_belong_together(make_row: Row) -> None:
    before = [make_row("TE-1", 5, sheet="A"), make_row("TE-1", 5, sheet="B")]
    now = [make_row("TE-1", 5, sheet="B"), make_row("TE-1", 5, sheet="A")]
    assert _pairs(match_rows(before, now)) == {0: 1, 1: 0}


def test_a_second_row_of_a_tag_is_added_not_taken_for_the_first(make_row: Row) -> None:
    match = match_rows([make_row("TE-1", 5)], [make_row("TE-1", 5, cells={"bore_depth": "3"}), make_row("TE-1", 6)])
    assert (_pairs(match), match.added) == ({1: 0}, [0])


@pytest.mark.parametrize("depth,pairs", [("9", {0: 0}), ("10", {})])
def test_a_row_without_a_tag_is_the_same_only_where_all_cells_are(
    *, make_row: Row, depth: str, pairs: dict[int, int]
) -> None:
    before, now = (make_row("", cells={"bore_depth": text}) for text in ("9", depth))
    assert _pairs(match_rows([before], [now])) == pairs


def test_the_fewest_moves_explain_a_new_order(make_row: Row) -> None:
    before = [make_row(f"TE-{number}", number) for number in range(1, 7)]
    now = [make_row(f"TE-{number}", row) for row, number in enumerate((5, 1, 2, 3, 4, 6), start=1)]
    assert [now[place].tag for place in match_rows(before, now).moved] == ["TE-5"]


def test_rows_that_only_shift_have_not_moved(make_row: Row) -> None:
    before = [make_row("TE-1", 5), make_row("TE-2", 6)]
    assert match_rows(before, [make_row("TE-1", 8), make_row("TE-2", 19)]).moved == []


def test_a_row_on_another_sheet_has_moved(make_row: Row) -> None:
    before = [make_row("TE-1", sheet="A"), make_row("TE-2", 6, sheet="B")]
    now = [make_row("TE-1", sheet="B"), make_row("TE-2", 6, sheet="B")]
    assert match_rows(before, now).moved == [0]


def test_a_renamed_sheet_is_known_by_its_rows(make_row: Row) -> None:
    before = [make_row("TE-1", sheet="Rev A"), make_row("TE-2", 6, sheet="Rev A"), make_row("TE-3", sheet="Other")]
    now = [make_row("TE-1", sheet="Rev B"), make_row("TE-2", 6, sheet="Rev B"), make_row("TE-3", sheet="Other")]
    match = match_rows(before, now)
    assert (match.sheets, match.moved) == ({"Rev B": "Rev A", "Other": "Other"}, [])


def test_a_sheet_cut_in_two_keeps_its_name_once(make_row: Row) -> None:
    before = [make_row("TE-1"), make_row("TE-2", 6), make_row("TE-3", 7)]
    now = [make_row("TE-1", sheet="A"), make_row("TE-2", 6, sheet="A"), make_row("TE-3", 7, sheet="B")]
    match = match_rows(before, now)
    assert (match.sheets, match.moved) == ({"A": "Index"}, [2])


def test_agreement_is_the_share_of_equal_cells(make_row: Row) -> None:
    one = make_row("TE-1", cells={"a": "1", "b": "2", "c": "3"})
    other = make_row("TE-2", cells={"a": "1", "b": "9", "d": "4"})
    assert agreement(one, other) == 0.25
    assert agreement(one, other, ["b", "c", "d"]) == 1.0
    assert agreement(make_row("TE-1", cells={}), make_row("TE-2", cells={})) == 0.0


@settings(max_examples=30, deadline=None)
@given(order=st.permutations(range(8)))
def test_any_order_of_the_same_rows_is_matched_whole(order: list[int]) -> None:
    row = {"sheet": "Index", "cells": {}, "well_tag": "", "well_key": "", "loop": "", "letters": "TE"}
    before = [RowMemory(tag=f"TE-{n}", key=f"TE{n}", row=n, **row) for n in range(8)]  # type: ignore[arg-type]
    now = [RowMemory(tag=f"TE-{n}", key=f"TE{n}", row=place, **row) for place, n in enumerate(order)]  # type: ignore[arg-type]
    match = match_rows(before, now)
    assert _pairs(match) == dict(enumerate(order))
    kept = [order[place] for place in range(8) if place not in match.moved]
    assert kept == sorted(kept)
