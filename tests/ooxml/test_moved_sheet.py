"""A sheet rewritten for another workbook."""

import pytest

from thermowell_index.errors import OutputError
from thermowell_index.ooxml.moved_sheet import Shift, move_sheet

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
SHIFT = Shift(styles=[0, 41, 42], differential=[7, 8], strings=[b"<t>zero</t>", b"<r><t>o</t></r><r><t>ne</t></r>"])


def moved(inside: str, kept: dict[tuple[int, int], int] | None = None) -> str:
    data = f'<worksheet xmlns="{NS}">{inside}</worksheet>'.encode()
    return move_sheet(data, SHIFT, kept or {}, "part").decode().partition(">")[2].removesuffix("</worksheet>")


@pytest.mark.parametrize(
    "before, after",
    [
        (
            '<sheetData><row r="1" s="2"><c r="A1" s="1"><v>5</v></c><c r="B1"><v>6</v></c></row></sheetData>',
            '<sheetData><row r="1" s="42"><c r="A1" s="41"><v>5</v></c><c r="B1"><v>6</v></c></row></sheetData>',
        ),
        (
            '<sheetData><row><c t="s" s="2"><v>1</v></c><c t="s"><v>0</v></c></row></sheetData>',
            (
                '<sheetData><row><c t="inlineStr" s="42"><is><r><t>o</t></r><r><t>ne</t></r></is></c>'
                '<c t="inlineStr"><is><t>zero</t></is></c></row></sheetData>'
            ),
        ),
        ('<cols><col min="1" max="2" style="1"/></cols>', '<cols><col min="1" max="2" style="41"/></cols>'),
        ('<cols><col min="1" max="2"/></cols>', '<cols><col min="1" max="2"/></cols>'),
        ('<cfRule type="cellIs" dxfId="1"/>', '<cfRule type="cellIs" dxfId="8"/>'),
        (
            '<sheetViews><sheetView tabSelected="1" workbookViewId="0"/></sheetViews>',
            '<sheetViews><sheetView tabSelected="0" workbookViewId="0"/></sheetViews>',
        ),
        ('<hyperlinks><hyperlink ref="A1" location="B1"/></hyperlinks>',) * 2,
        (
            '<sheetData><row r="1"><c r="A1" s="99"/></row></sheetData>',
            '<sheetData><row r="1"><c r="A1" s="0"/></row></sheetData>',
        ),
    ],
)
def test_numbers_are_those_of_the_other_workbook(before: str, after: str) -> None:
    assert moved(before) == after


def test_a_cell_bears_the_style_that_it_is_to_keep() -> None:
    rows = '<sheetData><row r="1"><c r="A1" s="1"><v>1</v></c><c r="B1"><v>2</v></c></row></sheetData>'
    assert moved(rows, {(1, 1): 12, (1, 2): 0}) == rows.replace('s="1"', 's="12"').replace('"B1"', '"B1" s="0"')


def test_a_cell_that_is_not_there_cannot_keep_a_style() -> None:
    with pytest.raises(OutputError, match="no cell C9 to keep a style in"):
        moved("<sheetData/>", {(9, 3): 1})
