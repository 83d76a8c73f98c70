"""Sheets of our own moved into a client's workbook."""

from collections.abc import Callable, Mapping
from io import BytesIO

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.chart import BarChart, Reference
from openpyxl.styles import Font
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.table import Table

from thermowell_index.errors import OutputError
from thermowell_index.ooxml import Package, make_copy

Plain = Callable[..., Package]
STRICT = "http://purl.oclc.org/ooxml"


def saved(book: Workbook) -> bytes:
    buffer = BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def copied(
    package: Package,
    book: bytes,
    keepers: Mapping[str, Mapping[tuple[int, int], tuple[str, tuple[int, int]]]] | None = None,
) -> Package:
    data = make_copy(package, edits={}, new_sheets=book, marks={}, author="x", style_keepers=keepers)
    return Package.from_bytes(data, package.path)


def chart_book() -> bytes:
    book = Workbook()
    sheet = book.create_sheet("Spares plan", 0)
    del book["Sheet"]
    for row in (["Length", "Wells"], [9.0, 4], [9.25, 7]):
        sheet.append(row)
    chart = BarChart()
    chart.add_data(Reference(sheet, min_col=2, min_row=2, max_row=3))
    sheet.add_chart(chart, "D2")
    sheet.add_table(Table(displayName="Lines", ref="A1:B3"))
    return saved(book)


def test_values_looks_and_rules_arrive(client: Package, new_sheets: bytes) -> None:
    book = load_workbook(BytesIO(copied(client, new_sheets).data))
    wanted = load_workbook(BytesIO(new_sheets))
    assert book.sheetnames == ["Index", "Line list", "Hidden notes", "Discrepancies", "Kept looks"]
    for name in wanted.sheetnames:
        for row in wanted[name].iter_rows():
            for cell in row:
                other = book[name][cell.coordinate]
                assert (other.value, other.number_format) == (cell.value, cell.number_format)
                assert (other.font.b, other.font.color and other.font.color.rgb) == (
                    cell.font.b,
                    cell.font.color and cell.font.color.rgb,
                )
                assert other.fill.fgColor.rgb == cell.fill.fgColor.rgb
    sheet = book["Discrepancies"]
    assert sheet["B2"].hyperlink.target == "#'Index'!A8"
    assert sheet["A2"].comment.text == "ours"
    assert sheet.data_validations.dataValidation[0].formula1 == '"open,accepted"'
    [formatting] = sheet.conditional_formatting
    assert formatting.rules[0].dxf.font.b
    assert sheet.freeze_panes == "A2"
    assert sheet.auto_filter.ref == "A1:D2"
    assert sheet.print_title_rows == "$1:$1"
    assert sheet.column_dimensions["A"].width == 22
    assert list(sheet.tables) == ["Findings"]
    assert book["Kept looks"].sheet_state == "hidden"
    assert book["Index"].print_title_rows == "$6:$7", "names of the client's sheets stay theirs"


def test_parts_of_the_client_stay_as_they_were(client: Package, new_sheets: bytes) -> None:
    copy = copied(client, new_sheets)
    differing = {name for name in client.part_names if copy.part(name) != client.part(name)}
    assert differing == {"[Content_Types].xml", "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/styles.xml"}


def test_charts_and_tables_get_names_of_their_own(client: Package) -> None:
    copy = copied(client, chart_book())
    sheet = load_workbook(BytesIO(copy.data))["Spares plan"]
    assert copy.target(copy.sheet("Spares plan").part, "drawing") == "xl/drawings/drawing2.xml"
    assert copy.target("xl/drawings/drawing2.xml", "chart") == "xl/charts/chart1.xml"
    assert list(sheet.tables) == ["Lines_2"]
    assert copy.part("xl/drawings/drawing1.xml") == client.part("xl/drawings/drawing1.xml")
    assert copy.has_part("xl/drawings/drawing2.xml")
    tables = [copy.part(name) for name in copy.part_names if "/tables/" in name]
    assert [b'id="1"' in tables[0], b'id="2"' in tables[1]] == [True, True]


def test_shared_strings_become_inline(plain: Plain) -> None:
    """Other writers than the usual one share strings."""
    shared = plain(
        '<row r="1"><c r="A1" t="s"><v>0</v></c></row>',
        parts={
            "xl/_rels/workbook.xml.rels": (
                '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
                '<Relationship Id="rId1" Type="http://x/worksheet" Target="worksheets/sheet1.xml"/>'
                '<Relationship Id="rId2" Type="http://x/sharedStrings" Target="sharedStrings.xml"/></Relationships>'
            ),
            "xl/sharedStrings.xml": (
                '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>from there</t></si>'
                "</sst>"
            ),
            "xl/workbook.xml": plain().part("xl/workbook.xml").replace(b'name="Index"', b'name="Moved"'),
        },
    )
    copy = copied(plain(), shared.data)
    assert copy.read("Moved").rows[1][1].value == "from there"
    assert not copy.has_part("xl/sharedStrings.xml")


def test_a_cell_keeps_the_style_of_a_client_cell(client: Package, new_sheets: bytes) -> None:
    copy = copied(client, new_sheets, {"Kept looks": {(1, 1): ("Index", (8, 3)), (2, 1): ("Index", (50, 50))}})
    kept = copy.read("Kept looks").rows
    assert kept[1][1].style == client.read("Index").rows[8][3].style
    assert copy.number_format(kept[1][1].style) == '0.0" mm"'
    assert kept[2][1].style == 0


def test_a_sheet_name_that_is_taken_is_refused(client: Package) -> None:
    book = Workbook()
    book.active.title = "LINE LIST"  # type: ignore[union-attr]
    with pytest.raises(OutputError, match="has a sheet 'LINE LIST' already"):
        copied(client, saved(book))


def test_names_of_the_new_book_come_along(client: Package) -> None:
    book = Workbook()
    book.active.title = "New"  # type: ignore[union-attr]
    book.defined_names["Choices"] = DefinedName("Choices", attr_text="New!$A$1", hidden=True)
    copy = copied(client, saved(book))
    assert copy.defined_names["Choices"] == "New!$A$1"
    book.defined_names["Areas"] = DefinedName("Areas", attr_text="New!$A$1")
    with pytest.raises(OutputError, match="defines the name 'Areas' already"):
        copied(client, saved(book))


def test_only_one_tab_is_selected(client: Package) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "New"
    sheet.sheet_view.tabSelected = True
    copy = copied(client, saved(book))
    assert b'tabSelected="1"' not in copy.part(copy.sheet("New").part)


def strict_parts(package: Package) -> dict[str, bytes]:
    """Parts of a plain workbook in the strict form."""
    main, relations = f"{STRICT}/spreadsheetml/main", f"{STRICT}/officeDocument/relationships"
    changed = {}
    for name in package.part_names:
        data = package.part(name).replace(b"http://schemas.openxmlformats.org/spreadsheetml/2006/main", main.encode())
        changed[name] = data.replace(
            b"http://schemas.openxmlformats.org/officeDocument/2006/relationships", relations.encode()
        )
    return changed


def test_sheets_are_translated_for_a_strict_workbook(plain: Plain) -> None:
    strict = plain(parts=strict_parts(plain()))
    copy = copied(strict, chart_book())
    moved = [name for name in copy.part_names if name not in strict.part_names]
    assert any(name.startswith("xl/charts/") for name in moved)
    for name in moved:
        if name.endswith((".xml", ".rels")):
            data = copy.part(name)
            assert b"openxmlformats.org/spreadsheetml/2006/main" not in data
            assert b"openxmlformats.org/officeDocument" not in data
    assert copy.read("Spares plan").rows[3][1].value == 9.25


def test_the_font_of_the_new_book_is_taken_over(client: Package) -> None:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "New"
    sheet["A1"] = "struck"
    sheet["A1"].font = Font(strike=True)
    copy = copied(client, saved(book))
    assert copy.is_struck(copy.read("New").rows[1][1].style)
