"""A workbook as a whole."""

import hashlib
from collections.abc import Callable

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package, SheetInfo

Plain = Callable[..., Package]
NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def workbook(inside: str, *, namespaces: str = "") -> dict[str, str]:
    return {"xl/workbook.xml": f'<workbook xmlns="{NS}" xmlns:r="{RELATIONS}"{namespaces}>{inside}</workbook>'}


def relations(*entries: str) -> dict[str, str]:
    listed = "".join(entries)
    namespace = "http://schemas.openxmlformats.org/package/2006/relationships"
    return {"xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{namespace}">{listed}</Relationships>'}


SHEET = f'<Relationship Id="rId1" Type="{RELATIONS}/worksheet" Target="worksheets/sheet1.xml"/>'
TAB = '<sheet name="Index" sheetId="1" r:id="rId1"/>'


def test_tabs_are_listed_in_their_order(client: Package) -> None:
    assert [(sheet.name, sheet.state, sheet.kind) for sheet in client.sheets] == [
        ("Index", "visible", "worksheet"),
        ("Line list", "visible", "worksheet"),
        ("Hidden notes", "hidden", "worksheet"),
    ]


def test_an_ordinary_index_is_read(client: Package) -> None:
    sheet = client.read("Index")
    row = sheet.rows[8]
    assert (row[1].value, row[3].value, row[5].value, row[5].is_formula) == ("TE-8", 243.0, 28.6, True)
    assert row[2].value == "Line 8 & <drain> µ"
    assert row[7].value is False
    assert (sheet.rows[9][6].kind, sheet.rows[9][6].value) == ("e", "#DIV/0!")
    assert client.number_format(row[3].style) == '0.0" mm"'
    assert not client.is_date(row[3].style)
    assert client.is_struck(sheet.rows[10][1].style)
    assert client.fill(sheet.rows[7][1].style) == "FFD9E1F2"
    assert client.fill(row[1].style) is None
    assert set(sheet.merges) == {(1, 3, 2, 6), (12, 6, 13, 6)}
    assert (sheet.last_row, sheet.last_column) == (19, 7)
    assert sheet.hidden_rows == {14}
    assert sheet.hidden_columns == {4}
    assert sheet.auto_filter == (7, 1, 19, 7)


def test_tables_and_protection_are_read(client: Package) -> None:
    sheet = client.read("Line list")
    assert sheet.tables == ((1, 1, 3, 2),)
    assert sheet.is_protected
    assert client.read("Index").tables == ()


def test_the_digest_is_that_of_the_file(client: Package) -> None:
    assert client.sha256 == hashlib.sha256(client.path.read_bytes()).hexdigest()


def test_a_package_is_closed_after_use(client: Package) -> None:
    with client as package:
        assert package.has_part("xl/workbook.xml")
    with pytest.raises(ValueError, match="closed"):
        package.part("xl/workbook.xml")


def test_only_names_of_the_whole_workbook_are_listed(client: Package) -> None:
    assert client.defined_names == {"Areas": "'Line list'!$A$2:$A$3"}


def test_the_date_system_is_read(plain: Plain) -> None:
    assert not plain().date_1904
    assert plain(parts=workbook(f'<workbookPr date1904="1"/><sheets>{TAB}</sheets>')).date_1904


def test_a_strict_workbook_is_read(plain: Plain) -> None:
    strict = "http://purl.oclc.org/ooxml"
    package_namespace = "http://schemas.openxmlformats.org/package/2006/relationships"
    base = f"{strict}/officeDocument/relationships"
    parts = {
        "_rels/.rels": (
            f'<Relationships xmlns="{package_namespace}"><Relationship Id="a" Type="{base}/officeDocument" '
            'Target="/xl/workbook.xml"/></Relationships>'
        ),
        "xl/workbook.xml": (
            f'<workbook xmlns="{strict}/spreadsheetml/main" xmlns:r="{base}"><sheets>{TAB}</sheets></workbook>'
        ),
        **relations(f'<Relationship Id="rId1" Type="{base}/worksheet" Target="worksheets/sheet1.xml"/>'),
        "xl/worksheets/sheet1.xml": (
            f'<worksheet xmlns="{strict}/spreadsheetml/main"><sheetData><row r="1"><c r="A1" t="d">'
            "<v>2024-02-01</v></c></row></sheetData></worksheet>"
        ),
    }
    package = plain(parts=parts)
    [sheet] = package.sheets
    assert sheet == SheetInfo(name="Index", part="xl/worksheets/sheet1.xml", state="visible", kind="worksheet")
    assert package.read("Index").rows[1][1].value == "2024-02-01"


def test_part_names_do_not_tell_capitals_from_small_letters(plain: Plain) -> None:
    package = plain(parts=relations(SHEET.replace("worksheets/sheet1", "Worksheets/Sheet1")))
    assert package.read("Index").rows == {}


def test_a_chart_sheet_has_no_cells(plain: Plain) -> None:
    package = plain(parts=relations(SHEET.replace("/worksheet", "/chartsheet")))
    assert package.sheets[0].kind == "chartsheet"
    with pytest.raises(WorkbookError, match="'Index' is a chartsheet; it has no cells"):
        package.read("Index")


def test_an_unknown_sheet_is_named(client: Package) -> None:
    with pytest.raises(WorkbookError, match=r"index\.xlsx: has no sheet 'Indx'"):
        client.read("Indx")


@pytest.mark.parametrize(
    "parts, message",
    [
        (workbook(""), "has no sheets"),
        (workbook("<sheets/>"), "has no sheets"),
        (workbook('<sheets><sheet name="Index" r:id="rId9"/></sheets>'), "the sheet 'Index' has no part"),
        (workbook('<sheets><sheet name="Index"/></sheets>'), "the sheet 'Index' has no part"),
        (relations(SHEET.replace("sheet1", "sheet9")), "the sheet 'Index' has no part"),
        ({"xl/workbook.xml": "<document/>"}, "its main part is a document"),
        ({"xl/workbook.xml": "<workbook"}, "xl/workbook.xml: is damaged"),
    ],
)
def test_a_workbook_that_does_not_hold_together_is_refused(plain: Plain, parts: dict[str, str], message: str) -> None:
    with pytest.raises(WorkbookError, match=message):
        plain(parts=parts)


def test_a_binary_workbook_is_named_so(plain: Plain) -> None:
    root = (
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
        f'<Relationship Id="a" Type="{RELATIONS}/officeDocument" Target="xl/workbook.bin"/></Relationships>'
    )
    with pytest.raises(WorkbookError, match="binary workbook"):
        plain(parts={"_rels/.rels": root, "xl/workbook.bin": b"\x00"})


def test_a_table_without_a_range_is_refused(plain: Plain) -> None:
    parts = {
        "xl/worksheets/_rels/sheet1.xml.rels": relations(
            f'<Relationship Id="rId1" Type="{RELATIONS}/table" Target="../tables/table1.xml"/>'
        )["xl/_rels/workbook.xml.rels"],
        "xl/tables/table1.xml": f'<table xmlns="{NS}"/>',
    }
    with pytest.raises(WorkbookError, match=r"table1\.xml: '' is no cell address"):
        plain(parts=parts).read("Index")


def test_a_missing_part_is_named(client: Package) -> None:
    with pytest.raises(WorkbookError, match=r"the part 'xl/none\.xml' is missing"):
        client.part("xl/none.xml")


def test_a_workbook_without_styles_shows_numbers_as_general(plain: Plain) -> None:
    package = plain()
    assert package.number_format(0) == "General"
    assert not package.is_date(0)
    assert not package.is_struck(0)
