"""The page layout: text stays text, rows are high enough, paper is set up."""

import pytest
from openpyxl import Workbook

from thermowell_index.writer.page import TALLEST_ROW, Page, height_of, lines_of, put
from thermowell_index.writer.report import Report


@pytest.mark.parametrize("text", ["=1+1", "+1", "-3/4", "@tag", "#REF!"])
def test_text_stays_text_whatever_it_opens_with(text: str) -> None:
    cell = Workbook().worksheets[0]["A1"]
    put(cell, text)
    assert (cell.value, cell.data_type) == (text, "s")


@pytest.mark.parametrize("text,is_quoted", [("=1+1", True), ("9-1/4", False)])
def test_text_that_would_turn_into_a_formula_when_edited_is_quoted(*, text: str, is_quoted: bool) -> None:
    cell = Workbook().worksheets[0]["A1"]
    put(cell, text)
    assert bool(cell.quotePrefix) is is_quoted


def test_characters_that_a_workbook_cannot_hold_are_replaced() -> None:
    cell = Workbook().worksheets[0]["A1"]
    put(cell, "a\x0bb _x000D_")
    assert cell.value == "a b _x005F_x000D_"


def test_the_covered_cells_of_a_merge_take_nothing() -> None:
    sheet = Workbook().worksheets[0]
    sheet.merge_cells("A1:B1")
    put(sheet["B1"], "lost")
    assert sheet["B1"].value is None


@pytest.mark.parametrize(
    "text,width,lines",
    [
        ("", 10, 1),
        ("short", 10, 1),
        ("one two three four", 10, 2),
        ("one\ntwo", 10, 2),
        ("x" * 30, 10, 3),
        ("short " + "x" * 30, 10, 4),
        (7, 1, 1),
    ],
)
def test_the_lines_a_text_takes(text: str | float, width: float, lines: int) -> None:
    assert lines_of(text, width) == lines


def test_a_row_grows_with_its_lines_up_to_what_a_sheet_allows() -> None:
    assert height_of(1) < height_of(2) < height_of(1000) == TALLEST_ROW


def test_the_paper_is_landscape_fitted_and_numbered(report: Report) -> None:
    sheet = Workbook().worksheets[0]
    Page(sheet=sheet, widths=(10.0, 20.0)).finish(report, repeated_row=4)
    setup = sheet.page_setup
    assert (setup.orientation, setup.fitToWidth, setup.fitToHeight) == ("landscape", 1, 0)
    footer = sheet.oddFooter
    assert footer is not None
    assert footer.right is not None
    assert (sheet.print_title_rows, footer.right.text) == ("$4:$4", "page &P of &N")
