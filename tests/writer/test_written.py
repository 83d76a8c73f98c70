"""What a run wrote on a sheet, told from what a person typed there."""

from collections.abc import Mapping
from dataclasses import replace

import pytest
from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.ooxml import Cell, SheetCells
from thermowell_index.writer.page import BOLD_FONT, HEADINGS
from thermowell_index.writer.written import Typed, Written, plain, typed_on, written_line, written_on

LINES: list[list[object]] = [
    ["Orders"],
    ["Line", "Tag", "Quantity", "Checked by"],
    [1, "TE-1", 2, None],
    [2, "TE-2", 2, None],
    [3, "TE-3", 4.0000000000001, None],
]
Grid = Mapping[tuple[int, int], object]


def sheet_of(lines: list[list[object]]) -> Worksheet:
    sheet = Workbook().worksheets[0]
    for line in lines:
        sheet.append(line)
    for row in (row for row, line in enumerate(lines, start=1) if line[0] == "Line"):
        sheet.cell(row, 1).fill, sheet.cell(row, 1).font = HEADINGS, BOLD_FONT
    return sheet


def typed(changes: Grid, lines: list[list[object]] | None = None) -> list[tuple[str, str, str, str]]:
    """Return what is told as typed once cells are changed: address, heading, subject, text."""
    written = written_on(sheet_of(LINES), ("Checked by",))
    rows: dict[int, dict[int, Cell]] = {}
    for row, line in enumerate(lines or LINES, start=1):
        for column, value in enumerate(line, start=1):
            rows.setdefault(row, {})[column] = cell(row, column, changes.get((row, column), value))
    for (row, column), value in changes.items():
        rows.setdefault(row, {})[column] = cell(row, column, value)
    found = typed_on("Orders", SheetCells(rows=rows), written, ("Checked by",))
    return [(one.cell, one.heading, one.subject, one.text) for one in found]


def cell(row: int, column: int, value: object) -> Cell:
    number = float(value) if isinstance(value, int | float) else value
    assert number is None or isinstance(number, str | float)
    return Cell(row=row, column=column, value=number, kind="", style=0, is_formula=False, kept_text=None)


def test_a_sheet_as_it_was_written_has_nothing_typed() -> None:
    assert typed({}) == []


def test_a_number_typed_over_ours_is_told_though_it_stands_elsewhere_too() -> None:
    assert typed({(3, 3): 4}) == [("C3", "Quantity", "TE-1", "4")]


def test_columns_that_people_are_asked_to_fill_do_not_count() -> None:
    assert typed({(3, 4): "A. B."}) == []


def test_sorted_rows_are_not_typed() -> None:
    assert typed({}, [LINES[0], LINES[1], LINES[4], LINES[2], LINES[3]]) == []


def test_moved_columns_are_not_typed() -> None:
    assert typed({}, [[line[0], *line[:0:-1]] if len(line) > 1 else line for line in LINES]) == []


def test_a_column_of_a_reviewer_s_own_is_told_by_its_heading() -> None:
    assert typed({(2, 5): "Buyer", (4, 5): "C. D."}) == [("E4", "Buyer", "TE-2", "C. D.")]


def test_a_line_of_a_reviewer_s_own_is_told_cell_by_cell() -> None:
    assert typed({(7, 1): "see also", (7, 3): "letter 5"}) == [
        ("A7", "Line", "", "see also"),
        ("C7", "Quantity", "see also", "letter 5"),
    ]


def test_a_heading_that_was_typed_over_is_told_and_one_that_was_added_is_not() -> None:
    assert typed({(2, 4): "mine"}) == [("D2", "", "", "mine")]
    assert typed({(2, 5): "mine"}) == []


def test_a_changed_title_is_told_without_a_heading() -> None:
    assert typed({(1, 1): "Orders, approved"}) == [("A1", "", "", "Orders, approved")]


def test_of_a_cell_that_was_emptied_the_line_is_known() -> None:
    assert typed({(3, 3): None}) == [("A3", "", "TE-1", "")]


def test_of_lines_that_read_alike_that_of_the_same_row_is_meant() -> None:
    lines: list[list[object]] = [["Line", "Verdict"], ["x", "sized"], ["x", "sized"], ["x", "sized"]]
    written = written_on(sheet_of(lines), ())
    rows = {
        row: {column: cell(row, column, value) for column, value in enumerate(line, start=1)}
        for row, line in enumerate(lines, start=1)
    }
    rows[3][2] = cell(3, 2, "no")
    assert [one.written_row for one in typed_on("S", SheetCells(rows=rows), written, ())] == [3]


def test_a_line_is_remembered_as_text() -> None:
    line = Written(row=12, is_heading=True, digests=("0a1b2c3d", "ffffffff"))
    assert written_line(line.as_text()) == line
    with pytest.raises(ValueError, match="h12"):
        written_line("h12:0a1b2c3")


@pytest.mark.parametrize(
    "one,other", [(9.25, 9.250000000000002), (9, 9.0), ("a \n b", "a b"), ("_x005F_x0041_", "_x0041_"), (None, "")]
)
def test_what_another_program_makes_of_a_value_is_the_same_value(*, one: object, other: object) -> None:
    assert plain(one) == plain(other)


def test_the_place_is_said_as_a_person_finds_it() -> None:
    typed = Typed(sheet="Orders", row=3, column=3, text="4", heading="Quantity", subject="TE-1")
    assert typed.where == "Orders C3, Quantity of TE-1"
    assert replace(typed, heading="", subject="").where == "Orders C3"
