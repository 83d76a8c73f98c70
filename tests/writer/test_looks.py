"""Looks are made once and copied."""

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font

from thermowell_index.writer.looks import Looks

BOLD, TALL = Font(name="Arial", bold=True), Alignment(vertical="top")


def test_a_look_that_was_put_on_once_is_put_on_alike_and_leaves_the_rest_as_it_is() -> None:
    book, looks = Workbook(), Looks()
    sheet = book.worksheets[0]
    for row in (1, 2, 3):
        looks.put_on(sheet.cell(row, 1), font=BOLD)
    sheet["A2"].number_format = "@"
    for row in (1, 2):
        looks.put_on(sheet.cell(row, 1), alignment=TALL)
    assert [sheet.cell(row, 1).font.bold for row in (1, 2, 3)] == [True, True, True]
    assert [sheet.cell(row, 1).alignment.vertical for row in (1, 2, 3)] == ["top", "top", None]
    assert [sheet.cell(row, 1).number_format for row in (1, 2, 3)] == ["General", "@", "General"]
