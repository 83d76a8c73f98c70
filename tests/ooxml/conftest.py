"""Workbooks for the tests of the file format: an index with all that ordinary ones hold, and hand-made parts."""

import re
import zipfile
import zlib
from collections.abc import Callable, Mapping
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule, Rule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.table import Table
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.ooxml import CellLook, NewCell, Package, SheetEdit

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE_RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
CONTENT_TYPES = "http://schemas.openxmlformats.org/package/2006/content-types"
SHEET = "xl/worksheets/sheet1.xml"
TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."
FIRST_DATA_ROW = 8
LAST_DATA_ROW = 19


def zipped(parts: Mapping[str, bytes | str]) -> bytes:
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in parts.items():
            archive.writestr(name, content)
    return buffer.getvalue()


def unzipped(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(BytesIO(data)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def plain_parts(sheet: bytes | str, *, main: str = MAIN, relations: str = RELATIONS) -> dict[str, bytes | str]:
    """The least that makes a workbook, around one sheet part."""
    return {
        "[Content_Types].xml": (
            f'<Types xmlns="{CONTENT_TYPES}"><Default Extension="rels" '
            'ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
            '<Default Extension="xml" ContentType="application/xml"/>'
            f'<Override PartName="/xl/workbook.xml" ContentType="{TYPE}sheet.main+xml"/>'
            f'<Override PartName="/{SHEET}" ContentType="{TYPE}worksheet+xml"/></Types>'
        ),
        "_rels/.rels": (
            f'<Relationships xmlns="{PACKAGE_RELATIONS}"><Relationship Id="rId1" '
            f'Type="{relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>'
        ),
        "xl/workbook.xml": (
            f'<workbook xmlns="{main}" xmlns:r="{relations}"><sheets>'
            '<sheet name="Index" sheetId="1" r:id="rId1"/></sheets></workbook>'
        ),
        "xl/_rels/workbook.xml.rels": (
            f'<Relationships xmlns="{PACKAGE_RELATIONS}"><Relationship Id="rId1" '
            f'Type="{relations}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>'
        ),
        SHEET: sheet,
    }


def sheet_xml(rows: str, *, before: str = "", after: str = "") -> str:
    return f'<worksheet xmlns="{MAIN}" xmlns:r="{RELATIONS}">{before}<sheetData>{rows}</sheetData>{after}</worksheet>'


Plain = Callable[..., Package]


@pytest.fixture
def plain(tmp_path: Path) -> Plain:
    """Package around one hand-made sheet; further parts by name."""

    def make(
        rows: str = "", *, before: str = "", after: str = "", parts: Mapping[str, bytes | str] | None = None
    ) -> Package:
        everything = plain_parts(sheet_xml(rows, before=before, after=after)) | dict(parts or {})
        return Package.from_bytes(zipped(everything), tmp_path / "index.xlsx")

    return make


def tiny_png() -> bytes:
    """A picture of one dot."""

    def chunk(kind: bytes, content: bytes) -> bytes:
        checked = kind + content
        return len(content).to_bytes(4, "big") + checked + zlib.crc32(checked).to_bytes(4, "big")

    header = bytes((0, 0, 0, 1, 0, 0, 0, 1, 8, 2, 0, 0, 0))
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(b"\0\x10\x80\x40"))
        + chunk(b"IEND", b"")
    )


DRAWING = (
    '<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" '
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><xdr:oneCellAnchor><xdr:from><xdr:col>0</xdr:col>'
    "<xdr:colOff>0</xdr:colOff><xdr:row>0</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from>"
    '<xdr:ext cx="400000" cy="200000"/><xdr:pic><xdr:nvPicPr><xdr:cNvPr id="2" name="logo"/>'
    "<xdr:cNvPicPr/></xdr:nvPicPr>"
    f'<xdr:blipFill><a:blip xmlns:r="{RELATIONS}" r:embed="rId1"/><a:stretch><a:fillRect/></a:stretch></xdr:blipFill>'
    '<xdr:spPr><a:prstGeom prst="rect"/></xdr:spPr></xdr:pic><xdr:clientData/></xdr:oneCellAnchor></xdr:wsDr>'
)


def _index_sheet(book: Workbook) -> None:
    sheet = book.active
    assert sheet is not None
    sheet.title = "Index"
    _fill_index(sheet)
    _dress_index(sheet)


def _fill_index(sheet: Worksheet) -> None:
    sheet["C1"] = "INSTRUMENT INDEX"
    sheet["C1"].font = Font(bold=True, size=16)
    sheet.merge_cells("C1:F2")
    sheet["A4"] = "All dimensions in mm"
    side = Side(style="thin")
    for column, heading in enumerate(("Tag", "Service", "Overall", "Tip", "Bore", "Remarks", "Checked"), start=1):
        cell = sheet.cell(7, column, heading)
        cell.font = Font(bold=True)
        cell.fill = PatternFill("solid", fgColor="FFD9E1F2")
        cell.border = Border(left=side, right=side, top=side, bottom=side)
        cell.alignment = Alignment(wrap_text=True, horizontal="center")
    for row in range(FIRST_DATA_ROW, LAST_DATA_ROW + 1):
        sheet.append([f"TE-{row}", f"Line {row} & <drain> µ", 235.0 + row, 6.4, f"=C{row}-D{row}", None, bool(row % 2)])
        sheet.cell(row, 3).number_format = '0.0" mm"'
        sheet.cell(row, 6).border = Border(bottom=side)
    sheet["A10"].font = Font(strike=True)
    sheet["F9"] = "=1/0"
    sheet.merge_cells("F12:F13")
    sheet["F12"] = "two rows"
    sheet["A8"].comment = Comment("Client's own note", "Lead", width=200, height=90)
    sheet["B8"].hyperlink = "https://example.com/doc?a=1&b=2"


def _dress_index(sheet: Worksheet) -> None:
    sheet.freeze_panes = "B8"
    sheet.auto_filter.ref = f"A7:G{LAST_DATA_ROW}"
    sheet.row_dimensions[14].hidden = True
    sheet.row_dimensions[25].height = 30
    sheet.column_dimensions["A"].width = 14
    sheet.column_dimensions["D"].hidden = True
    sheet.print_title_rows = "6:7"
    sheet.print_area = f"A1:G{LAST_DATA_ROW}"
    validation = DataValidation(type="list", formula1='"a,b"')
    validation.add(f"F8:F{LAST_DATA_ROW}")
    sheet.add_data_validation(validation)
    rule: Rule = CellIsRule(  # type: ignore[no-untyped-call]
        operator="greaterThan", formula=["250"], fill=PatternFill("solid", bgColor="FFFFC7CE")
    )
    sheet.conditional_formatting.add(f"C8:C{LAST_DATA_ROW}", rule)


def _client_parts() -> dict[str, bytes]:
    book = Workbook()
    _index_sheet(book)
    lines = book.create_sheet("Line list")
    for row in (("Line", "Size"), ("L-1", 4), ("L-2", 6)):
        lines.append(row)
    lines.add_table(Table(displayName="Lines", ref="A1:B3"))
    lines.protection.sheet = True
    notes = book.create_sheet("Hidden notes")
    notes.sheet_state = "hidden"
    book.defined_names["Areas"] = DefinedName("Areas", attr_text="'Line list'!$A$2:$A$3")
    buffer = BytesIO()
    book.save(buffer)
    return unzipped(buffer.getvalue())


def _append(parts: dict[str, bytes], name: str, markup: str) -> None:
    """Put markup at the end of a part's root."""
    head, close, tail = parts[name].rpartition(b"</")
    parts[name] = head + markup.encode() + close + tail


def _with_results(parts: dict[str, bytes]) -> None:
    """Give formulas the results that a spreadsheet program stores."""
    data = re.sub(rb"(<f>C(\d+)-D\d+</f>)<v ?/>", rb"\1<v>2\2.6</v>", parts[SHEET])
    parts[SHEET] = re.sub(rb'<c r="F9"([^>]*)><f>1/0</f><v ?/>', rb'<c r="F9"\1 t="e"><f>1/0</f><v>#DIV/0!</v>', data)


def _with_logo(parts: dict[str, bytes]) -> None:
    mark = parts[SHEET].index(b"<legacyDrawing")
    drawing = f'<drawing xmlns:r="{RELATIONS}" r:id="rIdLogo"/>'.encode()
    parts[SHEET] = parts[SHEET][:mark] + drawing + parts[SHEET][mark:]
    relation = f'<Relationship Id="rIdLogo" Type="{RELATIONS}/drawing" Target="/xl/drawings/drawing1.xml"/>'
    _append(parts, "xl/worksheets/_rels/sheet1.xml.rels", relation)
    parts["xl/drawings/drawing1.xml"] = DRAWING.encode()
    parts["xl/drawings/_rels/drawing1.xml.rels"] = (
        f'<Relationships xmlns="{PACKAGE_RELATIONS}"><Relationship Id="rId1" Type="{RELATIONS}/image" '
        'Target="../media/image1.png"/></Relationships>'
    ).encode()
    parts["xl/media/image1.png"] = tiny_png()
    types = (
        '<Default Extension="png" ContentType="image/png"/><Override PartName="/xl/drawings/drawing1.xml" '
        'ContentType="application/vnd.openxmlformats-officedocument.drawing+xml"/>'
    )
    _append(parts, "[Content_Types].xml", types)


def _with_calculation_chain(parts: dict[str, bytes]) -> None:
    cells = "".join(f'<c r="E{row}" i="1"/>' for row in range(FIRST_DATA_ROW, LAST_DATA_ROW + 1))
    parts["xl/calcChain.xml"] = f'<calcChain xmlns="{MAIN}">{cells}<c r="F9" i="1"/></calcChain>'.encode()
    relation = f'<Relationship Id="rIdCalc" Type="{RELATIONS}/calcChain" Target="calcChain.xml"/>'
    _append(parts, "xl/_rels/workbook.xml.rels", relation)
    _append(parts, "[Content_Types].xml", f'<Override PartName="/xl/calcChain.xml" ContentType="{TYPE}calcChain+xml"/>')


@pytest.fixture(scope="session")
def client_bytes() -> bytes:
    """An index with title block, logo, merges, stored results, rules, notes, a table, print set-up, protection."""
    parts = _client_parts()
    _with_results(parts)
    _with_logo(parts)
    _with_calculation_chain(parts)
    return zipped(parts)


@pytest.fixture
def client(client_bytes: bytes, tmp_path: Path) -> Package:
    """The index as a file that is opened."""
    path = tmp_path / "index.xlsx"
    path.write_bytes(client_bytes)
    return Package.open(path)


@pytest.fixture(scope="session")
def new_sheets() -> bytes:
    """A workbook with the things that our own sheets hold."""
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Discrepancies"
    sheet.append(["Finding", "Cell", "Disposition", "Found"])
    sheet.append(["F-1", "A8", "open", 12.5])
    sheet["A1"].font = Font(bold=True, color="FF0000FF")
    sheet["A1"].fill = PatternFill("solid", fgColor="FFFFEB9C")
    sheet["D2"].number_format = '0.000" in"'
    sheet["B2"].hyperlink = "#'Index'!A8"
    sheet["A2"].comment = Comment("ours", "someone")
    sheet.column_dimensions["A"].width = 22
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = "A1:D2"
    sheet.print_title_rows = "1:1"
    validation = DataValidation(type="list", formula1='"open,accepted"')
    validation.add("C2:C20")
    sheet.add_data_validation(validation)
    rule: Rule = CellIsRule(  # type: ignore[no-untyped-call]
        operator="equal", formula=['"open"'], font=Font(bold=True), fill=PatternFill(bgColor="FF00FF00")
    )
    sheet.conditional_formatting.add("C2:C20", rule)
    sheet.add_table(Table(displayName="Findings", ref="A1:D2"))
    kept = book.create_sheet("Kept looks")
    kept.append(["Index", 8, 3])
    kept.append(["Index", 9, 12])
    kept.sheet_state = "hidden"
    buffer = BytesIO()
    book.save(buffer)
    return buffer.getvalue()


@pytest.fixture
def edit() -> SheetEdit:
    """New columns right of the index, with colours and notes on it."""
    heading = CellLook(like=(7, 1))
    number = CellLook(like=(8, 3), number_format="0.00", bold=False)
    edit = SheetEdit(widths={8: 18.0, 9: 30.0})
    edit.cells[7, 8] = NewCell(value="Bore depth used (mm)", look=heading)
    edit.cells[7, 9] = NewCell(value="Working", look=heading)
    for row in range(FIRST_DATA_ROW, LAST_DATA_ROW + 1):
        edit.cells[row, 8] = NewCell(value=row * 1.25, look=number)
        edit.cells[row, 9] = NewCell(
            value=f"=B + X, row {row} <&>", look=CellLook(like=(8, 2), wrap=True, vertical="top")
        )
    edit.cells[8, 9] = NewCell(value="see finding", link="'Discrepancies'!A2")
    edit.cells[22, 8] = NewCell(value="below the last row")
    edit.cells[25, 9] = NewCell(value=True)
    edit.fills.update({(8, 3): "FFFFC7CE", (9, 12): "FFFFEB9C", (10, 1): "FFFFC7CE"})
    edit.notes.update({(8, 1): "error: second look", (9, 3): "warning: <thin> & worn", (13, 6): "on a merged cell"})
    return edit
