"""Cells, colours and links spliced into a sheet."""

import pytest

from thermowell_index.errors import OutputError
from thermowell_index.ooxml import CellLook, NewCell, SheetEdit
from thermowell_index.ooxml.markup import apply_splices
from thermowell_index.ooxml.sheet_edit import by_row, check_cells, range_text, sheet_splices, wanted_cells
from thermowell_index.ooxml.sheet_layout import read_layout
from thermowell_index.ooxml.style_sheet import StyleSheet

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STYLES = (
    f'<styleSheet xmlns="{NS}"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills>'
    '<borders count="1"><border/></borders><cellXfs count="3"><xf/><xf numFmtId="2"/><xf numFmtId="14"/></cellXfs>'
    "</styleSheet>"
)


def sheet(rows: str, before: str = "", after: str = "") -> bytes:
    return f'<worksheet xmlns="{NS}">{before}<sheetData>{rows}</sheetData>{after}</worksheet>'.encode()


def edited(data: bytes, edit: SheetEdit) -> str:
    layout = read_layout(data, "sheet", by_row(wanted_cells(edit)), frozenset(edit.widths))
    check_cells(layout, edit.cells, "Index")
    return apply_splices(data, sheet_splices(data, layout, edit, StyleSheet(STYLES.encode(), "styles"))).decode()


def rows_of(text: str) -> str:
    return text.partition("<sheetData>")[2].partition("</sheetData>")[0]


def cells(*addresses: tuple[int, int]) -> SheetEdit:
    return SheetEdit(cells={address: NewCell(value=1) for address in addresses})


@pytest.mark.parametrize(
    "before, after",
    [
        ('<row r="2"><c r="A2"/></row>', '<row r="2"><c r="A2"/><c r="B2"><v>1</v></c></row>'),
        ('<row r="2"><c r="C2"/></row>', '<row r="2"><c r="B2"><v>1</v></c><c r="C2"/></row>'),
        ('<row r="2"><c r="B2" s="1"/></row>', '<row r="2"><c r="B2" s="1"><v>1</v></c></row>'),
        ('<row r="2" ht="30"/>', '<row r="2" ht="30" ><c r="B2"><v>1</v></c></row>'),
        ("", '<row r="2"><c r="B2"><v>1</v></c></row>'),
        ('<row r="1"/><row r="3"/>', '<row r="1"/><row r="2"><c r="B2"><v>1</v></c></row><row r="3"/>'),
        ("<row/><row><c/></row>", '<row/><row><c/><c r="B2"><v>1</v></c></row>'),
    ],
)
def test_a_new_cell_stands_in_its_place(before: str, after: str) -> None:
    assert rows_of(edited(sheet(before), cells((2, 2)))) == after


def test_several_cells_of_a_row_keep_their_order() -> None:
    made = rows_of(edited(sheet('<row r="1"><c r="B1"/></row>'), cells((1, 4), (1, 1), (1, 3), (9, 2))))
    assert [made.index(f'r="{address}"') for address in ("A1", "B1", "C1", "D1", "B9")] == sorted(
        made.index(f'r="{address}"') for address in ("A1", "B1", "C1", "D1", "B9")
    )


def test_a_list_of_rows_without_content_is_opened() -> None:
    data = f'<worksheet xmlns="{NS}"><sheetData/></worksheet>'.encode()
    assert '<sheetData ><row r="1"><c r="A1"><v>1</v></c></row></sheetData>' in edited(data, cells((1, 1)))


def test_only_colouring_an_empty_list_of_rows_adds_a_cell() -> None:
    data = f'<worksheet xmlns="{NS}"><sheetData/></worksheet>'.encode()
    assert edited(data, SheetEdit()) == data.decode()
    assert '<c r="A1" s="3"></c>' in edited(data, SheetEdit(fills={(1, 1): "FFFFC7CE"}))


def test_a_cell_looks_like_the_one_it_is_told_to() -> None:
    edit = SheetEdit(cells={(1, 2): NewCell(value=1, look=CellLook(like=(3, 1)))})
    assert '<c r="B1" s="2"><v>1</v></c>' in edited(sheet('<row r="3"><c r="A3" s="2"/></row>'), edit)


def test_a_colour_changes_the_style_and_nothing_else() -> None:
    rows = '<row r="1"><c r="A1" s="1" t="str"><f>B1</f><v>x</v></c><c r="B1"><v>2</v></c></row>'
    made = edited(sheet(rows), SheetEdit(fills={(1, 1): "FFFFC7CE", (1, 2): "FFFFC7CE"}))
    assert rows_of(made) == (
        '<row r="1"><c r="A1" s="3" t="str"><f>B1</f><v>x</v></c><c r="B1" s="4"><v>2</v></c></row>'
    )


def test_a_new_cell_can_be_coloured() -> None:
    edit = SheetEdit(cells={(1, 1): NewCell(value=1)}, fills={(1, 1): "FFFFC7CE"})
    assert rows_of(edited(sheet(""), edit)) == '<row r="1"><c r="A1" s="3"><v>1</v></c></row>'


@pytest.mark.parametrize(
    "dimension, bounds, expected",
    [
        ("A1:C3", '<row r="3"><c r="A3"/></row>', "A1:E5"),
        ("A1", "", "E5"),
        ("C9:G12", '<row r="9"><c r="C9"/></row>', "C5:G12"),
        ("A1:XFD1048576", '<row r="9"><c r="C9"/></row>', "A1:XFD1048576"),
    ],
)
def test_the_stated_range_is_widened(dimension: str, bounds: str, expected: str) -> None:
    data = sheet(bounds, before=f'<dimension ref="{dimension}"/>')
    assert f'<dimension ref="{expected}"/>' in edited(data, cells((5, 5)))


def test_links_are_added_in_the_order_of_the_schema() -> None:
    edit = SheetEdit(cells={(1, 1): NewCell(value="F-1", link="'Discrepancies (2)'!A5"), (1, 2): NewCell(value=1)})
    link = '<hyperlink ref="A1" location="\'Discrepancies (2)\'!A5"/>'
    assert f"</sheetData><hyperlinks>{link}</hyperlinks><pageMargins/>" in edited(
        sheet("", after="<pageMargins/>"), edit
    )
    held = sheet("", after='<hyperlinks><hyperlink ref="B9"/></hyperlinks>')
    assert f'<hyperlinks><hyperlink ref="B9"/>{link}</hyperlinks>' in edited(held, edit)


@pytest.mark.parametrize("content", ["<v>1</v>", "<f>A1</f>", "<is><t>x</t></is>"])
def test_a_cell_that_holds_something_is_not_overwritten(content: str) -> None:
    data = sheet(f'<row r="2"><c r="B2">{content}</c></row>')
    with pytest.raises(OutputError, match="sheet 'Index': B2 holds a value already"):
        edited(data, cells((2, 2)))


def test_a_cell_inside_a_merged_range_is_refused() -> None:
    data = sheet("", after='<mergeCells><mergeCell ref="B2:D3"/><mergeCell ref="A1:XFD1"/></mergeCells>')
    with pytest.raises(OutputError, match="C2 lies inside a merged range"):
        edited(data, cells((2, 3)))
    with pytest.raises(OutputError, match="C2 lies inside a merged range"):
        edited(data, cells((2, 3), *((9, column) for column in range(1, 20))))
    assert "B2" in edited(data, cells((2, 2)))


def test_a_column_beyond_the_sheet_is_refused() -> None:
    with pytest.raises(OutputError, match="no room for a new column"):
        edited(sheet(""), cells((1, 16385)))


def test_a_prefixed_sheet_is_edited_under_its_prefix() -> None:
    data = (
        f'<x:worksheet xmlns:x="{NS}"><x:sheetData><x:row r="1"/><x:row r="2"><x:c r="A2"/></x:row></x:sheetData>'
        "</x:worksheet>"
    ).encode()
    edit = cells((1, 1), (2, 2), (3, 1))
    edit.cells[3, 2] = NewCell(value="a", link="A1")
    edit.widths[2] = 9.0
    assert edited(data, edit) == (
        f'<x:worksheet xmlns:x="{NS}"><x:cols><x:col min="2" max="2" width="9" customWidth="1"/></x:cols><x:sheetData>'
        '<x:row r="1" ><x:c r="A1"><x:v>1</x:v></x:c></x:row><x:row r="2"><x:c r="A2"/><x:c r="B2"><x:v>1</x:v></x:c>'
        '</x:row><x:row r="3"><x:c r="A3"><x:v>1</x:v></x:c><x:c r="B3" t="inlineStr"><x:is>'
        '<x:t xml:space="preserve">a</x:t></x:is></x:c></x:row></x:sheetData><x:hyperlinks>'
        '<x:hyperlink ref="B3" location="A1"/></x:hyperlinks></x:worksheet>'
    )


def test_a_range_of_one_cell_is_its_address() -> None:
    assert range_text((2, 2, 2, 2)) == "B2"
    assert range_text((2, 2, 3, 2)) == "B2:B3"
