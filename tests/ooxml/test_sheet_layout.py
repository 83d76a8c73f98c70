"""Where things stand in a sheet part."""

from collections.abc import Sequence

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.sheet_layout import SheetLayout, read_layout

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
MC = 'xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"'
ROWS = (
    '<row r="2" s="7" customFormat="1"><c r="B2" s="3"><v>1</v></c><c r="D2"/></row>'
    '<row r="5" s="9"/><row r="8"><c r="A8" s="1"></c><c r="E8"><f>A1</f></c></row>'
)


def sheet(rows: str = ROWS, before: str = "", after: str = "") -> bytes:
    return f'<worksheet xmlns="{NS}" {MC}>{before}<sheetData>{rows}</sheetData>{after}</worksheet>'.encode()


def layout(data: bytes, columns: Sequence[int] = (1, 2, 3, 4, 6), watched: Sequence[int] = ()) -> SheetLayout:
    return read_layout(data, "sheet", lambda _row: columns, frozenset(watched))


def test_spans_of_cells_and_gaps_are_found() -> None:
    data = sheet()
    found = layout(data)
    cell = found.cells[2, 2]
    assert data[cell.start : cell.end] == b'<c r="B2" s="3"><v>1</v></c>'
    assert data[cell.start : cell.open_end] == b'<c r="B2" s="3">'
    assert (cell.style, cell.is_used, cell.is_formula) == (3, True, False)
    assert data[found.cells[2, 4].start : found.cells[2, 4].end] == b'<c r="D2"/>'
    assert data[found.gaps[2, 1] :].startswith(b'<c r="B2"')
    assert data[found.gaps[2, 3] :].startswith(b'<c r="D2"')
    assert data[found.gaps[2, 6] :].startswith(b"</row>")
    assert (8, 5) not in found.cells
    assert found.bounds == (2, 2, 8, 5), "a blank cell that is spelt out and asked for does not count"


def test_rows_and_places_of_missing_rows_are_found() -> None:
    data = sheet()
    found = layout(data)
    span = found.rows[5]
    assert data[span.start : span.end] == b'<row r="5" s="9"/>'
    assert data[found.row_gap(3) :].startswith(b'<row r="5"')
    assert data[found.row_gap(9) :].startswith(b"</sheetData>")


def test_offsets_behind_the_rows_hold() -> None:
    data = sheet(after='<mergeCells><mergeCell ref="A1:B2"/></mergeCells><pageMargins left="1"/>')
    found = layout(data)
    merges, margins = found.root.find("mergeCells"), found.root.find("pageMargins")
    assert merges is not None
    assert margins is not None
    assert data[merges.start : merges.open_end] == b"<mergeCells>"
    assert data[merges.close_start : merges.end] == b"</mergeCells>"
    assert data[margins.start : margins.end] == b'<pageMargins left="1"/>'
    assert data[found.root.close_start :] == b"</worksheet>"
    assert found.merge_anchor((2, 2)) == (1, 1)
    assert found.merge_anchor((3, 2)) == (3, 2)


def test_a_missing_cell_looks_like_its_row_else_its_column() -> None:
    found = layout(sheet(before='<cols><col min="2" max="3" style="5"/><col min="4" max="4"/></cols>'))
    assert found.style_at((2, 2)) == 3
    assert found.style_at((2, 3)) == 7
    assert found.style_at((5, 3)) == 5, "the style of a row counts only when the row says so"
    assert found.style_at((8, 4)) == 0
    assert found.style_at((99, 2)) == 5


def test_columns_in_use_are_told() -> None:
    assert layout(sheet(), watched=(1, 2, 5, 9)).used_columns == {2, 5}


@pytest.mark.parametrize(
    "after, name, follower",
    [
        ("<pageMargins/><drawing/><tableParts/>", "legacyDrawing", "<tableParts/>"),
        ("<pageMargins/>", "hyperlinks", "<pageMargins/>"),
        ("<pageMargins/>", "legacyDrawing", "</worksheet>"),
        (
            "<conditionalFormatting><cfRule><extLst/></cfRule></conditionalFormatting><pageMargins/>",
            "hyperlinks",
            "<pageMargins/>",
        ),
        (
            "<drawing/><mc:AlternateContent><mc:Choice><controls/></mc:Choice></mc:AlternateContent>",
            "legacyDrawing",
            "<mc:Alt",
        ),
        ("<mc:AlternateContent><mc:Choice><other/></mc:Choice></mc:AlternateContent>", "legacyDrawing", "</worksheet>"),
    ],
)
def test_an_element_is_placed_in_the_order_of_the_schema(after: str, name: str, follower: str) -> None:
    data = sheet(after=after)
    assert data[layout(data).place_of(name) :].decode().startswith(follower)


def test_rows_out_of_order_are_refused() -> None:
    with pytest.raises(WorkbookError, match="row 3 comes after row 4"):
        layout(sheet('<row r="4"/><row r="3"/>'))


@pytest.mark.parametrize(
    "data, message",
    [(f'<worksheet xmlns="{NS}"/>'.encode(), "no place for rows"), (b"<html/>", "no worksheet but a html")],
)
def test_a_part_without_rows_is_refused(data: bytes, message: str) -> None:
    with pytest.raises(WorkbookError, match=message):
        layout(data)


def test_columns_left_out_do_not_widen_the_bounds() -> None:
    found = read_layout(sheet(), "sheet", lambda _row: (), leaving_out=(4, 5))
    assert found.bounds == (2, 1, 8, 2)


def test_an_empty_sheet_has_no_bounds() -> None:
    for rows in ("", '<row r="3"/>'):
        assert layout(sheet(rows)).bounds is None
    data = f'<worksheet xmlns="{NS}"><sheetData/></worksheet>'.encode()
    assert layout(data).sheet_data.is_self_closed
