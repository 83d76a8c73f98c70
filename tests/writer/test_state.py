"""The hidden sheet: what it keeps, and what it makes of damage."""

from thermowell_index.ooxml import Cell, SheetCells
from thermowell_index.writer.state import read_state


def _cells(*lines: tuple[str | float | None, ...]) -> SheetCells:
    return SheetCells(
        rows={
            row: {
                column: Cell(row, column, value, "s", row, is_formula=False, kept_text=None)
                for column, value in enumerate(line, start=1)
            }
            for row, line in enumerate(lines, start=1)
        }
    )


def test_the_style_of_a_flagged_cell_is_that_of_its_keeper() -> None:
    state = read_state(_cells(("content", "abc"), ("style", "Utilities", "D8", "kept")))
    assert state.kept_styles == {"Utilities": {(8, 4): 2}}
    assert state.content_fingerprint == "abc"


def test_lines_that_are_damaged_are_passed_over() -> None:
    state = read_state(_cells(("style", "Utilities", "D8"), ("something", "else"), (None,)))
    assert (state.kept_styles, state.identities) == ({}, {})


def test_a_number_reads_as_a_whole_one_and_a_missing_occurrence_as_the_first() -> None:
    state = read_state(
        _cells(
            ("finding", "F-1", "TW-1", 2.0, "", "rule", "field", "Utilities", "TE-1\nTE-2"),
            ("finding", "F-2", None, 0.5, "folded", "rule", "field", "Utilities"),
        )
    )
    first, second = state.identities["F-1"], state.identities["F-2"]
    assert (first.occurrence, first.tags, first.is_folded) == (2, ("TE-1", "TE-2"), False)
    assert (second.occurrence, second.tags, second.is_folded) == (0, (), True)
