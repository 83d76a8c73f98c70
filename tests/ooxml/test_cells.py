"""Cells as they are stored, in ordinary and in odd markup."""

from collections.abc import Callable

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Cell, Package

Plain = Callable[..., Package]
NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


def cell(package: Package, row: int = 1, column: int = 1) -> Cell:
    return package.read("Index").rows[row][column]


@pytest.mark.parametrize(
    "markup, kind, value",
    [
        ('<c r="A1"><v>9.25</v></c>', "n", 9.25),
        ('<c r="A1" t="n"><v>1E-3</v></c>', "n", 0.001),
        ('<c r="A1" t="b"><v>1</v></c>', "b", True),
        ('<c r="A1" t="b"><v>0</v></c>', "b", False),
        ('<c r="A1" t="e"><v>#N/A</v></c>', "e", "#N/A"),
        ('<c r="A1" t="d"><v>2024-02-01</v></c>', "d", "2024-02-01"),
        ('<c r="A1" t="str"><f>"a"</f><v>a_x000D_</v></c>', "s", "a\r"),
        ('<c r="A1" t="str"><f>""</f><v></v></c>', "s", ""),
        ('<c r="A1" t="inlineStr"><is><t xml:space="preserve"> 9 1/4 </t></is></c>', "s", " 9 1/4 "),
        ('<c r="A1" t="inlineStr"><is><r><t>9</t></r><r><t>.5</t></r></is></c>', "s", "9.5"),
        ('<c r="A1" t="inlineStr"><v>text</v></c>', "s", "text"),
        ('<c r="A1" t="inlineStr"><is><t/></is></c>', "s", ""),
        ('<c r="A1"><v>many</v></c>', "e", "many"),
        ('<c r="A1"><v>NaN</v></c>', "e", "NaN"),
        ('<c r="A1"><v> </v></c>', "", None),
        ('<c r="A1" t="b"><v/></c>', "", None),
        ('<c r="A1" t="s"><v/></c>', "", None),
        ('<c r="A1" s="3"/>', "", None),
        ("<c r='A1' t=\"str\"><v><![CDATA[<9>]]></v></c>", "s", "<9>"),
    ],
)
def test_a_value_is_read_by_its_kind(plain: Plain, markup: str, kind: str, value: object) -> None:
    found = cell(plain(f'<row r="1">{markup}</row>'))
    assert (found.kind, found.value) == (kind, value)
    assert type(found.value) is type(value)


def test_a_shared_string_is_looked_up(plain: Plain) -> None:
    shared = (
        f'<sst xmlns="{NS}"><si><t>one</t></si><si><r><rPr><strike/></rPr><t>235</t></r><r><t>240</t></r></si></sst>'
    )
    package = plain('<row r="1"><c r="A1" t="s"><v>1</v></c></row>', parts=with_strings(shared))
    assert cell(package) == Cell(1, 1, "235240", "s", 0, False, "240")  # noqa: FBT003  (a record as it is)


@pytest.mark.parametrize("index", ["2", "-1", "x"])
def test_a_shared_string_that_is_not_there_is_refused(plain: Plain, index: str) -> None:
    package = plain(f'<row r="1"><c r="A1" t="s"><v>{index}</v></c></row>')
    with pytest.raises(WorkbookError, match="sheet 'Index': A1 refers to a shared text"):
        package.read("Index")


def with_strings(shared: str) -> dict[str, str]:
    relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    rels = (
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        f'<Relationship Id="rId1" Type="{relations}/worksheet" Target="worksheets/sheet1.xml"/>'
        f'<Relationship Id="rId2" Type="{relations}/sharedStrings" Target="SharedStrings.xml"/></Relationships>'
    )
    return {"xl/_rels/workbook.xml.rels": rels, "xl/sharedStrings.xml": shared}


def test_formulas_are_told_apart_from_values(plain: Plain) -> None:
    rows = (
        '<row r="1"><c r="A1"><f>1+1</f></c><c r="B1"><f t="shared" ref="B1:B2" si="0">A1*2</f><v>4</v></c></row>'
        '<row r="2"><c r="B2"><f t="shared" si="0"/><v>6</v></c><c r="C2"><v>6</v></c></row>'
    )
    sheet = plain(rows).read("Index")
    assert (sheet.rows[1][1].value, sheet.rows[1][1].is_formula, sheet.rows[1][1].is_used) == (None, True, True)
    assert (sheet.rows[1][2].value, sheet.rows[1][2].is_formula) == (4.0, True)
    assert (sheet.rows[2][2].value, sheet.rows[2][2].is_formula) == (6.0, True)
    assert not sheet.rows[2][3].is_formula


def test_rows_and_cells_without_an_address_are_counted_on(plain: Plain) -> None:
    sheet = plain(
        "<row><c><v>1</v></c><c><v>2</v></c></row><row r='4'/><row><c r='C5'><v>3</v></c><c><v>4</v></c></row>"
    )
    cells = {found.address: found.value for row in sheet.read("Index").rows.values() for found in row.values()}
    assert cells == {"A1": 1.0, "B1": 2.0, "C5": 3.0, "D5": 4.0}


def test_the_last_row_and_column_hold_something(plain: Plain) -> None:
    rows = (
        '<row r="2"><c r="B2"><v>1</v></c><c r="H2" s="4"/></row><row r="3"><c r="C3"><f>A1</f></c></row>'
        '<row r="90"><c r="A90" s="1"/></row>'
    )
    sheet = plain(rows, before='<dimension ref="A1:XFD1048576"/>').read("Index")
    assert (sheet.last_row, sheet.last_column) == (3, 3)
    assert sheet.rows[90][1].style == 1


def test_an_empty_sheet_has_no_last_row(plain: Plain) -> None:
    sheet = plain().read("Index")
    assert (sheet.rows, sheet.last_row, sheet.last_column) == ({}, 0, 0)


def test_what_surrounds_the_cells_is_read(plain: Plain) -> None:
    sheet = plain(
        '<row r="1" hidden="1"/><row r="2" hidden="true"/><row r="3" hidden="0"/>',
        before='<cols><col min="2" max="4" hidden="1"/><col min="6" max="99999" width="9"/></cols>',
        after='<sheetProtection sheet="1"/><autoFilter ref="A7:G9"/><mergeCells><mergeCell ref="C1:F2"/></mergeCells>',
    ).read("Index")
    assert sheet.hidden_rows == {1, 2}
    assert sheet.hidden_columns == {2, 3, 4}
    assert sheet.is_protected
    assert sheet.auto_filter == (7, 1, 9, 7)
    assert sheet.merges == ((1, 3, 2, 6),)


def test_a_protection_that_is_off_protects_nothing(plain: Plain) -> None:
    assert not plain(after='<sheetProtection sheet="0"/>').read("Index").is_protected


def test_prefixed_names_and_foreign_elements_are_told_apart(plain: Plain) -> None:
    sheet = (
        f'<x:worksheet xmlns:x="{NS}" xmlns:o="urn:other"><x:sheetData><x:row r="1"><x:c r="A1"><o:v>7</o:v>'
        "<x:v>8</x:v></x:c></x:row></x:sheetData><o:mergeCell ref='A1:B1'/></x:worksheet>"
    )
    found = plain(parts={"xl/worksheets/sheet1.xml": sheet}).read("Index")
    assert found.rows[1][1].value == 8.0
    assert found.merges == ()


@pytest.mark.parametrize(
    "rows, message",
    [
        ('<row r="99999999"><c r="A99999999"/></row>', "row 99999999 lies outside"),
        ('<row r="x"/>', "row x lies outside"),
        ('<row r="1"><c r="AAAA1"/></row>', "'AAAA1' is no cell"),
        ('<row r="1"><c r="XFD1"/><c/></row>', "outside the sheet"),
        ("</sheetData><mergeCells><mergeCell ref='?'/></mergeCells><sheetData>", "is no range"),
    ],
)
def test_a_cell_outside_the_sheet_is_refused(plain: Plain, rows: str, message: str) -> None:
    with pytest.raises(WorkbookError, match=message):
        plain(rows).read("Index")


def test_a_part_that_is_no_worksheet_is_refused(plain: Plain) -> None:
    with pytest.raises(WorkbookError, match="is no worksheet but a html"):
        plain(parts={"xl/worksheets/sheet1.xml": "<html/>"}).read("Index")


@pytest.mark.parametrize(
    "sheet, message",
    [
        (f'<!DOCTYPE worksheet [<!ENTITY l "lol">]><worksheet xmlns="{NS}"/>', "document type"),
        (f'<worksheet xmlns="{NS}"><sheetData><row r="1">', "damaged"),
        (f'<?xml version="1.0" encoding="UTF-16"?><worksheet xmlns="{NS}"/>'.encode("utf-16"), "UTF-16"),
        (f'<?xml version="1.0" encoding="windows-1252"?><worksheet xmlns="{NS}"/>', "windows-1252"),
    ],
)
def test_a_sheet_that_is_unsafe_or_damaged_is_refused(plain: Plain, sheet: str | bytes, message: str) -> None:
    with pytest.raises(WorkbookError, match=rf"index.xlsx: sheet 'Index': .*{message}"):
        plain(parts={"xl/worksheets/sheet1.xml": sheet}).read("Index")


def test_a_far_cell_costs_nothing(plain: Plain) -> None:
    sheet = plain('<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>2</v></c></row>')
    assert sum(map(len, sheet.read("Index").rows.values())) == 2
