from collections.abc import Callable
from typing import Any

import pytest
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.styles import Font

from thermowell_index.ooxml import Cell
from thermowell_index.reader.grid import Grid, cell_text

MakeGrid = Callable[..., Grid]


@pytest.mark.parametrize(
    "value,text",
    [(None, ""), (True, "TRUE"), (False, "FALSE"), (9.0, "9"), (9.25, "9.25"), (1e16, "1e+16"), (" TE-1 ", "TE-1")],
)
def test_a_cell_shows_its_value_as_text(value: str | float | None, text: str) -> None:
    assert cell_text(Cell(1, 1, value, "", 0, is_formula=False, kept_text=None)) == text


def test_of_a_partly_struck_text_the_rest_is_shown() -> None:
    assert cell_text(Cell(1, 1, "9 8.5", "s", 0, is_formula=False, kept_text=" 8.5")) == "8.5"


def test_a_text_that_is_struck_as_a_whole_is_shown_in_full() -> None:
    assert cell_text(Cell(1, 1, "TE-1", "s", 0, is_formula=False, kept_text=" ")) == "TE-1"


def test_a_merged_range_shows_the_text_of_its_first_cell(grid: MakeGrid) -> None:
    made = grid("North | TE-1\n | TE-2", merges=["A1:A2"])
    assert [made.text(row, 1) for row in (1, 2)] == ["North", "North"]
    assert made.anchor(2, 1) == (1, 1)
    assert [made.is_covered(row, 1) for row in (1, 2)] == [False, True]
    assert [made.is_continued(row, 1) for row in (1, 2)] == [False, True]


def test_the_texts_of_a_row_name_a_merged_range_once(grid: MakeGrid) -> None:
    made = grid("Title | | x", merges=["A1:B1"])
    assert made.own_texts(1) == {1: "Title", 3: "x"}
    assert made.own_texts(9) == {}


def test_a_huge_merged_range_is_followed_over_its_first_rows_only(grid: MakeGrid) -> None:
    def far(sheet: Any) -> None:
        sheet["A2000"] = "last"
        sheet.merged_cells.add("B1:SZ1900")

    made = grid("x", change=far)
    assert made.anchor(500, 3) == (1, 2)
    assert made.anchor(501, 3) == (501, 3)


def test_rows_that_have_cells_come_in_order(grid: MakeGrid) -> None:
    made = grid("a\nb", change=lambda sheet: sheet.cell(7, 2, "c"))
    assert list(made.rows()) == [1, 2, 7]
    assert made.last_row == 7


def test_a_cell_is_struck_by_its_font_or_by_all_of_its_text(grid: MakeGrid) -> None:
    def strike(sheet: Any) -> None:
        sheet["A1"].font = Font(strike=True)
        sheet["B1"] = CellRichText(TextBlock(InlineFont(strike=True), "TE-1"))
        sheet["C1"] = CellRichText(TextBlock(InlineFont(strike=True), "TE-1"), " TE-2")

    made = grid("a | b | c", change=strike)
    assert [made.is_struck(1, column) for column in (1, 2, 3, 4)] == [True, True, False, False]
