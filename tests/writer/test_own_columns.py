"""Which columns are ours after a person worked on them."""

from collections.abc import Sequence

import pytest

from thermowell_index.ooxml import Cell, SheetCells
from thermowell_index.writer.own_columns import HEADINGS, sort_out

FIRST = 4
SPAN = (FIRST, FIRST + len(HEADINGS) - 1)


def _cells(headings: Sequence[str | None], start: int = FIRST, **more: str) -> SheetCells:
    texts = dict(enumerate(headings, start=start)) | {int(name[1:]): text for name, text in more.items()}
    row = {
        column: Cell(5, column, text, "s" if text else "", 0, is_formula=False, kept_text=None)
        for column, text in texts.items()
    }
    body = {column: Cell(6, column, "x", "s", 0, is_formula=False, kept_text=None) for column in (1, 2)}
    return SheetCells(rows={5: row, 6: body})


def test_columns_with_our_headings_are_ours_in_either_unit() -> None:
    own = sort_out("Index", _cells([f"{name} (mm)" if "fits" in name else name for name in HEADINGS]), SPAN)
    assert (own.runs, own.first, own.said) == ([SPAN], FIRST, [])


def test_a_column_that_came_in_between_is_a_person_s_own() -> None:
    headings = [*HEADINGS[:2], "Site note", *HEADINGS[2:]]
    own = sort_out("Index", _cells(headings), (SPAN[0], SPAN[1] + 1))
    assert own.runs == [(4, 5), (7, 19)]
    assert own.said == ["sheet Index: column F stood among the answers; it was kept"]


@pytest.mark.parametrize("position,letter", [(0, "D"), (6, "J"), (len(HEADINGS) - 1, "R")])
def test_a_column_of_ours_that_lost_its_heading_is_known_by_its_neighbours(*, position: int, letter: str) -> None:
    headings = [*HEADINGS[:position], "renamed", *HEADINGS[position + 1 :]]
    own = sort_out("Index", _cells(headings), SPAN)
    assert own.runs == [SPAN]
    assert own.said == [f"sheet Index: column {letter} has lost its heading and is taken as {HEADINGS[position]!r}"]


def test_a_column_whose_neighbours_are_not_ours_is_kept() -> None:
    headings = [*HEADINGS[:3], "one", "two", *HEADINGS[5:]]
    assert len(sort_out("Index", _cells(headings), SPAN).said) == 2


def test_a_column_of_ours_that_was_moved_away_is_found() -> None:
    headings = [*HEADINGS[:13], None, HEADINGS[14]]
    own = sort_out("Index", _cells(headings, c2="Verdict"), SPAN)
    assert own.runs == [(2, 2), SPAN]
    assert own.said == ["sheet Index: 'Verdict' was moved to column B and is back in its place"]


def test_a_client_s_column_of_the_same_name_stays() -> None:
    assert sort_out("Index", _cells(HEADINGS, c2="Verdict"), SPAN).runs == [SPAN]


def test_a_deleted_column_is_not_missed() -> None:
    assert sort_out("Index", _cells(HEADINGS[1:]), (SPAN[0], SPAN[1] - 1)).runs == [(SPAN[0], SPAN[1] - 1)]


def test_a_span_without_any_of_our_headings_is_all_a_person_s_own() -> None:
    own = sort_out("Index", _cells(["a", "b"]), (FIRST, FIRST + 1))
    assert (own.runs, own.first, len(own.said)) == ([], 0, 2)
