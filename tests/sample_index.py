"""The generator of sample_data: an invented plant's instrument index with one of each trouble among sound rows.

`python tests/sample_index.py` writes the workbook anew. Plant, tags, documents and people's initials are invented.
"""

import datetime as dt
import io
import re
import zipfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape

from openpyxl import Workbook
from openpyxl.comments import Comment
from openpyxl.formatting.rule import Rule
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.styles.differential import DifferentialStyle
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.table import Table, TableStyleInfo
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.start import workbook_bytes

SAMPLE = Path(__file__).parents[1] / "sample_data" / "marrowdale_instrument_index.xlsx"
COVER, INCH, METRIC, REVISIONS = "Cover", "U310-330", "U340", "Revisions"
FRACTION = "# ?/??"
FONT = "Calibri"
THIN = Side(style="thin", color="FF7F7F7F")
BOX = Border(left=THIN, right=THIN, top=THIN, bottom=THIN)
GREY = PatternFill("solid", fgColor="FFD9D9D9")
PALE = PatternFill("solid", fgColor="FFEDEDED")
DARK = PatternFill("solid", fgColor="FF44546A")
CENTRED = Alignment(horizontal="center", vertical="center", wrap_text=True)
FIRST_DAY = (1980, 1, 1, 0, 0, 0)
Row = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class Formula:
    """A formula and the result that a spreadsheet program stored with it."""

    text: str
    result: float | str


@dataclass(frozen=True, kw_only=True)
class Section:
    """A line across the table that opens a part of the plant."""

    title: str


@dataclass(frozen=True, kw_only=True)
class Heading:
    """One column: its key, its group heading (empty: none), its heading, its width."""

    key: str
    group: str
    text: str
    width: float


INCH_HEADINGS = tuple(
    Heading(key=key, group=group, text=text, width=width)
    for key, group, text, width in (
        ("item", "", "Item", 6),
        ("tag", "", "Tag No.", 14),
        ("service", "", "Service", 26),
        ("line", "", "Line / equipment", 16),
        ("size", "", "Line size\n(NPS)", 8),
        ("type", "", "Instr. type", 13),
        ("well_tag", "Thermowell", "Tag", 13),
        ("connection", "Thermowell", "Process conn.", 13),
        ("overall", "Thermowell", "Overall length\n(in)", 9),
        ("bore", "Thermowell", "Bore depth\n(in)", 9),
        ("found", "Thermowell", "As found bore depth\n(in)", 9),
        ("tip", "Thermowell", "Tip thk\n(in)", 7),
        ("insertion", "Thermowell", "Insertion U\n(in)", 9),
        ("lagging", "Thermowell", "Lagging T\n(in)", 8),
        ("bore_diameter", "Thermowell", "Bore dia\n(in)", 7),
        ("thread", "Thermowell", "Instr. conn.", 11),
        ("mounting", "Sensor", "Mounting", 14),
        ("element", "Sensor", "Element", 12),
        ("sheath", "Sensor", "Sheath OD\n(in)", 7),
        ("existing", "Sensor", "Existing length", 9),
        ("travel", "Sensor", "Spring travel\n(in)", 8),
        ("arrangement", "Extension", "Arrangement", 17),
        ("nipple", "Extension", "Nipple length\n(in)", 8),
        ("extension", "Extension", "Length\n(in)", 8),
        ("installed", "Extension", "Installed\n(in)", 8),
        ("extension_thread", "Extension", "Thread", 10),
        ("quantity", "", "Qty", 5),
        ("status", "", "Status", 11),
        ("remarks", "", "Remarks", 28),
    )
)
METRIC_HEADINGS = tuple(
    Heading(key=key, group="", text=text, width=width)
    for key, text, width in (
        ("tag", "Instrument no.", 15),
        ("service", "Description", 28),
        ("size", "Line DN", 8),
        ("form", "Well form", 10),
        ("connection", "Process connection", 15),
        ("overall", "TW OAL", 9),
        ("bore", "Drilled depth", 11),
        ("tip", "Bottom thickness", 10),
        ("insertion", "Immersion length", 10),
        ("bore_diameter", "Bore dia", 8),
        ("mounting", "Mounting method", 17),
        ("sheath", "Sheath dia", 8),
        ("arrangement", "Neck type", 11),
        ("extension", "Neck length", 9),
        ("existing", "Insert length", 9),
        ("insulation", "Insulation (in)", 10),
        ("element", "Element", 16),
        ("remarks", "Remark", 26),
    )
)
PACKAGE_HEADINGS = {
    "tag": "Tag no.",
    "service": "Service",
    "overall": "Overall length",
    "insertion": "Insertion length",
    "immersion": "Immersion depth",
    "length": "Length",
    "bore_diameter": "Bore dia",
    "remarks": "Remarks",
}
LENGTHS = frozenset(
    ["overall", "bore", "found", "tip", "insertion", "lagging", "travel", "nipple", "extension", "installed"]
)
DIAMETERS = frozenset(["bore_diameter", "sheath"])


def well(insertion: float, lagging: float | None = None, *, flanged: bool = False) -> dict[str, Any]:
    """Return a bar-stock well in inches: its head is 1-3/4 in long, 2-1/4 in of a flanged one, its tip 1/4 in."""
    overall = insertion + (lagging or 0.0) + (2.25 if flanged else 1.75)
    return {
        "connection": "2 in 300# RF" if flanged else "1 in NPT",
        "overall": overall,
        "bore": overall - 0.25,
        "tip": 0.25,
        "insertion": insertion,
        "lagging": lagging,
        "bore_diameter": 0.26,
        "thread": "1/2 NPT",
    }


def sensor(
    tag: str, service: str, dimensions: Mapping[str, Any], existing: str | float | None = None, **more: Any
) -> Row:
    """Return the row of a temperature element in inches: a spring-loaded fitting without extension unless told else."""
    return {
        "tag": tag,
        "service": service,
        "type": "Temp. element",
        "mounting": "S/L fitting",
        "element": "RTD Pt100",
        "sheath": 0.25,
        "arrangement": "None",
        "quantity": 1,
        "status": "Live",
        **dimensions,
        "existing": existing,
        **more,
    }


def other(tag: str, service: str, kind: str, **more: Any) -> Row:
    """Return the row of an instrument that has no sensor in a well of its own."""
    return {"tag": tag, "service": service, "type": kind, "status": "Live", **more}


FITTING, INSERT, FIXED = "S/L fitting", "S/L insert", "Fixed fitting"
NO_BORE: Row = {"bore": None, "tip": None}
NO_WELL: Row = dict.fromkeys(("connection", "overall", "bore", "tip", "insertion", "lagging", "bore_diameter"))
DATE_FOR_BORE = dt.datetime(2004, 9, 1)  # noqa: DTZ001 - what 9-1/4 becomes when it is typed into a cell; it has no zone


def inch_rows() -> list[Row | Section]:
    """Return the lines of the inch sheet, sound and troubled ones as they stand in the plant's order."""
    return [*_feed_preheat(), *_reaction(), *_fractionation()]


def _feed_preheat() -> list[Row | Section]:
    return [
        Section(title="310 FEED PREHEAT"),
        other("310-PT-100", "Feed pump discharge", "Press. transmitter", line="P-3101"),
        other("310-FT-100", "Feed flow", "Flow transmitter", line='4"-FD-31001', size=4),
        sensor("310-TE-101", "Feed to E-3101", well(7.5), '9"', line='4"-FD-31001', size=4),
        other("310-TT-101", "Feed to E-3101", "Temp. transmitter"),
        sensor("310-TE-102", "Feed from E-3101", NO_WELL, '12"', line='4"-FD-31002', size=4, well_tag="310-TW-102"),
        other("310-TW-102", "Feed from E-3101", "Thermowell", **{**well(10.5), "bore": None}),
        other("310-LT-103", "Feed drum level", "Level transmitter", line="V-3101"),
        sensor("310-TE-104", "Feed drum", well(4.5), '9"', mounting=INSERT, arrangement="Nipple", nipple=4,
               line="V-3101"),
        sensor("310-TE-105", "Steam to E-3102", well(4.5), '9"', arrangement="Nipple & union", installed=3,
               line='3"-MS-31005', size=3),
        sensor("310-TE-106", "Condensate from E-3102", well(7.5), '15"', mounting=INSERT,
               arrangement="Nipple-union-nipple", installed=6, line='2"-CO-31006', size=2),
        other("310-TI-107", "Feed, local", "Bimetal dial thermometer", **well(4.5)),
        sensor("310-TE-108", "Feed at battery limit", well(7.5), '9"', found=9.03125,
               remarks="Bore gauged, well left in place"),
        sensor("310-TE-109", "Hot oil supply", {**well(10.5), **NO_BORE}, '12"', line='6"-HO-31009', size=6),
        sensor("310-TE-110", "Hot oil return", well(9), '9-3/4"', mounting=FIXED, line='6"-HO-31010', size=6),
        other("310-PDT-111", "E-3101 tube side", "Diff. press. transmitter"),
        sensor("310-TE-112", "Hot oil expansion vessel", well(10.5, 3), '15"', line="V-3102"),
        sensor("310-TE-113", "E-3101 shell", well(12, flanged=True), '14"', line="E-3101"),
        sensor("310-TE-114", "Old feed bypass", well(7.5), '9"', status="Deleted"),
        sensor("310-TE-115", "Old feed filter", well(7.5), '9"', struck=True, remarks="struck out at Rev B"),
        sensor("310-TE-116", "Old feed tank", well(4.5), '6"', status=None, remarks="Deleted, see MOC 14"),
    ]  # fmt: skip


def _reaction() -> list[Row | Section]:
    return [
        Section(title="320 REACTION"),
        other("320-PT-200", "Reactor head", "Press. transmitter", line="R-3201"),
        sensor("320-TE-201", "Reactor head", well(4.5), None, arrangement="Nipple", nipple=4),
        sensor("320-TE-202", "Reactor upper bed", well(13.5), None, mounting=INSERT, arrangement="Nipple", nipple=4,
               extension_thread="3/4 NPT"),
        sensor("320-TE-203", "Reactor lower bed", well(13.5), None, thread="1/2 BSP"),
        sensor("320-TE-204", "Reactor outlet", well(10.5), None, thread="G 1/2"),
        sensor("320-TE-205", "Reactor jacket inlet", well(4.5), None, mounting=INSERT, arrangement="Nipple", nipple=1),
        sensor("320-TE-206", "Reactor jacket outlet", well(4.5), None, mounting=INSERT, thread="1/2 NPT (F)"),
        sensor("320-TE-207", "Quench inlet", well(7.5), None, sheath=0.375),
        sensor("320-TE-208", "Quench outlet", well(7.5), None),
        other("320-FT-208", "Quench flow", "Flow transmitter"),
        sensor("320 TE 208", "Quench outlet", well(10.5), None, remarks="from vendor list"),
        sensor("320-TE-209", "Recycle gas", well(7.5), '9"', well_tag="310-TW-101"),
        sensor("320-TE-210", "Recycle gas cooler in", well(7.5), '8-1/2"'),
        sensor("320-TE-211", "Recycle gas cooler out", well(7.5), '9-1/2"'),
        sensor("320-TE-212", "Separator", well(7.5), '8-5/8"'),
        sensor("320-TE-213", "Separator liquid", well(7.5), '9-3/8"'),
        other("320-LT-213", "Separator level", "Level transmitter"),
        sensor("320-TE-214", "Purge gas", well(7.5), '8-1/2"', mounting=FIXED),
        sensor("320-TE-215", "Purge gas KO drum", well(7.5), '7-3/4"', mounting=FIXED),
        sensor("320-TE-216", "Make-up gas", well(7.5), None, travel=0.25),
        sensor("320-TE-217", "Make-up gas heater", {**well(7.5), **NO_BORE}, None, travel=0.75),
        sensor("", "Reactor spare nozzle", well(10.5), None),
        sensor("320-TE-218", "Regenerator head", NO_WELL, None),
        sensor("320-TE-219", "Regenerator bed", well(13.5), None, mounting="Spring loaded"),
        sensor("320-TE-220", "Regenerator outlet", well(10.5), None, mounting=None),
        sensor("320-TE-221", "Regeneration gas", well(7.5), None, mounting=INSERT, arrangement="TBD"),
        sensor("320-TE-222", "Regeneration heater", well(7.5), None, mounting=INSERT, arrangement="Nipple"),
        sensor("320-TE-223", "Regeneration cooler", well(7.5), None, arrangement="Nipple & union", extension=4),
        sensor("320-TE-224", "Catalyst hopper", well(4.5), '6"', status="Mothballed"),
        sensor("320-TE-225", "Catalyst transfer", well(4.5), 6),
        sensor("320-TE-226", "Effluent to E-3203", {**well(7.75), "bore": DATE_FOR_BORE}, None),
        sensor("320-TE-227", "Effluent from E-3203", {**well(7.5), "bore": "~9"}, None),
        sensor("320-TE-228", "Effluent to V-3204",
               {**well(7.5), "bore": Formula(text="=VLOOKUP(B{row},#REF!,3,FALSE)", result="#REF!")}, None),
        sensor("320-TE-229", "Wash water", {**well(7.5), "bore": 9.25, "tip": None}, None),
        sensor("320-TE-230", "Wash water heater", {**well(7.5), "bore": 8.5}, None),
        sensor("320-TE-231", "Flare header", {**well(7.5), "insertion": 9}, None),
        sensor("320-TE-232", "Reactor feed furnace", {**well(7.5, 3), "bore": 9}, None),
        sensor("320-TE-233", "Furnace outlet", {**well(9, flanged=True), "bore": 8.75}, None),
        sensor("320-TE-234", "Furnace stack", {**well(7.5), "bore": 7.5}, None),
        sensor("320-TE-235", "Furnace convection", {**NO_WELL, "bore": 9}, None, well_tag="320-TW-235"),
        other("320-TW-235", "Furnace convection", "Thermowell", **well(8.5)),
    ]  # fmt: skip


def _fractionation() -> list[Row | Section]:
    return [
        Section(title="330 FRACTIONATION"),
        other("330-FT-300", "Column feed", "Flow transmitter"),
        sensor("330-TE-301", "Column feed", well(7.5), '9"', bore="9", tip="1/4"),
        sensor("330-TE-302", "Column top", well(10.5, flanged=True), '12-1/2"', overall='12 3/4"'),
        sensor("330-TE-303", "Column tray 12", well(7.5), None, mounting=INSERT,
               arrangement="Nipple-union-nipple, 2 x 3 in"),
        sensor("330-TE-304", "Column tray 24", well(7.5), "11-1/2 in", mounting=INSERT, arrangement="Nipple",
               nipple="3-1/2"),
        sensor("330-TE-305", "Column bottom", well(13.5, flanged=True), '15-1/2"', quantity=2, element="TC type K"),
        other("330-LT-305", "Column level", "Level transmitter"),
        sensor("330-TE-306", "Reboiler return", well(7.5, 2), "0'-11\"", overall="11¼"),
        sensor("330-TE-307", "Overhead condenser", well(4.5), '6"', bore="6 (verified)"),
        sensor("330-TE-308", "Reflux drum", well(4.5), None, found=5.96875),
        other("330-PT-308", "Reflux drum", "Press. transmitter"),
        sensor("330-TE-309", "Reflux", well(10.5), None, arrangement="Nipple & union", installed="3-1/2"),
        sensor("330-TE-310", "Product rundown", well(16.5), None, mounting=FIXED),
        other("330-TW-311", "Product cooler", "Test thermowell, plugged", **well(4.5)),
    ]  # fmt: skip


def metric(tag: str, service: str, bore: str | float | None = None, **more: Any) -> Row:
    """Return a row of the metric sheet: a spring-loaded fitting in a well with a bottom of 6 mm."""
    is_number = isinstance(bore, int | float)
    return {
        "tag": tag,
        "service": service,
        "form": "Tapered",
        "connection": "G 1 male",
        "overall": bore + 6 if isinstance(bore, int | float) else None,
        "bore": bore,
        "tip": 6 if is_number else None,
        "insertion": bore - 40 if isinstance(bore, int | float) else None,
        "bore_diameter": 6.6,
        "mounting": "Spring-loaded fitting",
        "sheath": 6,
        "element": "Pt100",
        **more,
    }


def form_4(tag: str, service: str, overall: float, **more: Any) -> Row:
    """Return a row with a flanged insert in a well of form 4: a bottom of 5 mm, a neck of 165 mm."""
    standard = {
        "overall": overall,
        "tip": 5,
        "form": "4F",
        "connection": "DN 25 PN 40 flanged",
        "mounting": "Flanged insert (DIN)",
        "arrangement": "Neck tube",
        "extension": 165,
    }
    return metric(tag, service, **{**standard, **more})


def metric_rows() -> list[Row]:
    """Return the lines of the metric sheet's own table."""
    return [
        metric("340-TE-401", "Dryer inlet", 235, size=100, existing=235),
        {"tag": "340-PT-402", "service": "Dryer inlet", "size": 100},
        metric("340-TE-403", "Dryer outlet", 228, size=100, existing=230),
        metric("340-TT-404", "Dryer bed", 285, remarks="head-mounted transmitter"),
        metric("340-TE-405", "Regeneration gas", "235,5", overall="242", tip="6,5", size=80),
        form_4("340-TE-406", "Solvent tank T-341", 200, existing=375),
        form_4("340-TE-407", "Solvent tank T-342", 260, bore=255, existing=435),
        form_4("340-TE-408", "Solvent tank T-343", 410, tip=None),
        metric("340-TE-409", "Vacuum receiver", 200, mounting="Spring-loaded insert", arrangement="Neck tube",
               extension=120, existing=320),
        metric("340-TE-410", "Cooling water supply", "9-1/4 in", remarks="imported well"),
        metric("340-TE-411", "Cooling water return", "23.5 cm", overall=241, tip=6),
        {"tag": "340-LT-412", "service": "Vacuum receiver"},
        {"tag": "340-FV-413", "service": "Solvent to dryer"},
        metric("340-TE-414", "Bearing oil", 140, remarks="Deleted, machine removed", struck=True),
        metric("340-TI-415", "Dryer shell skin", mounting=None, element="TC type K", remarks="weld pad, no well",
               form=None, connection=None, bore_diameter=None),
        form_4("340-TE-421", "Solvent tank T-344", 225, bore=220),
        metric("340-TE-422", "Dryer recycle", "230/250"),
        metric("340-TE-423", "Dryer drain", "see dwg 14"),
        metric("340-TE-424", "Filter inlet", overall=23.5),
        metric("340-TE-425", "Filter outlet", 235, insulation=2),
    ]  # fmt: skip


PACKAGE_ROWS: tuple[Row, ...] = tuple(
    {"tag": tag, "service": service, "overall": overall, "insertion": insertion, "immersion": immersion,
     "length": length, "bore_diameter": 6.6}
    for tag, service, overall, insertion, immersion, length in (
        ("K341-TE-501", "Pump casing", 235, 190, 190, 230),
        ("K341-TE-502", "Pump discharge", 285, 240, 240, 280),
        ("K341-PT-502", "Pump discharge", None, None, None, None),
        ("K341-TE-503", "Seal liquid", 235, 190, 215, 230),
        ("K341-TE-504", "After-cooler", 335, 290, 290, 330),
    )
)  # fmt: skip


class Builder:
    """Builds the workbook and remembers the results of its formulas."""

    def __init__(self) -> None:
        self.workbook = Workbook()
        self.workbook.remove(self.workbook.worksheets[0])
        self.results: dict[str, dict[str, float | str]] = {}

    def put(self, sheet: Worksheet, row: int, column: int, value: Any) -> None:
        """Set a cell; of a formula the result is kept for later."""
        cell = sheet.cell(row, column)
        if isinstance(value, Formula):
            self.results.setdefault(sheet.title, {})[cell.coordinate] = value.result
            value = value.text.format(row=row)
        if value not in {None, ""}:
            cell.value = value

    def sheet(self, name: str) -> Worksheet:
        """Add a sheet set up for print."""
        sheet: Worksheet = self.workbook.create_sheet(name)
        sheet.page_setup.orientation, sheet.page_setup.paperSize = "landscape", 8
        sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
        sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        sheet.oddFooter.right.text = "Sheet &P of &N"  # type: ignore[union-attr]  # a sheet made here has its footer
        return sheet


def sample_bytes() -> bytes:
    """Return the sample workbook as a file."""
    builder = Builder()
    _write_cover(builder)
    _write_inch_sheet(builder)
    _write_metric_sheet(builder)
    _write_revisions(builder)
    return with_results(workbook_bytes(builder.workbook), builder)


def with_results(data: bytes, builder: Builder) -> bytes:
    """Return the workbook with the results of its formulas stored, as a spreadsheet program stores them."""
    parts = {f"xl/worksheets/sheet{number}.xml": name for number, name in enumerate(builder.workbook.sheetnames, 1)}
    written = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as source, zipfile.ZipFile(written, "w") as target:
        for name in source.namelist():
            part = source.read(name)
            for place, result in builder.results.get(parts.get(name, ""), {}).items():
                part = _with_result(part.decode(), place, result).encode()
            entry = zipfile.ZipInfo(name, FIRST_DAY)
            entry.compress_type, entry.external_attr = zipfile.ZIP_DEFLATED, 0o600 << 16
            target.writestr(entry, part)
    return written.getvalue()


def _with_result(sheet: str, place: str, result: float | str) -> str:
    kind = "" if not isinstance(result, str) else ' t="e"' if result.startswith("#") else ' t="str"'
    shown = escape(result) if isinstance(result, str) else f"{result:.15g}"
    pattern = rf'(<c r="{place}"[^>]*?)(><f>[^<]*</f>)<v\s*(?:/>|></v>)'
    done, count = re.subn(pattern, rf"\g<1>{kind}\g<2><v>{shown}</v>", sheet)
    if count != 1:
        msg = f"{place}: {count} formulas there"
        raise ValueError(msg)
    return done


def _write_cover(builder: Builder) -> None:
    sheet = builder.sheet(COVER)
    sheet.column_dimensions["A"].width, sheet.column_dimensions["B"].width = 30, 60
    sheet.merge_cells("A1:B3")
    sheet["A1"], sheet["A1"].font = "MARROWDALE SOLVENT RECOVERY", Font(name=FONT, size=20, bold=True, color="FFFFFFFF")
    sheet["A1"].fill, sheet["A1"].alignment = DARK, CENTRED
    tags = sum(isinstance(row, Mapping) and bool(row["tag"]) for row in inch_rows())
    last = HEADING_ROW + len(inch_rows())
    last_metric = 5 + len(metric_rows())
    # section lines stand in the first column, so the tag column holds tags alone
    counted = Formula(text=f"=COUNTA('{INCH}'!B{HEADING_ROW + 1}:B{last})", result=tags)
    lines = [
        ("Document", "MRD-300-IX-001"),
        ("Title", "Instrument index, units 310 to 340"),
        ("Issue", "C, issued for sensor replacement"),
        ("Tags in units 310 to 330", counted),
        ("Tags in unit 340", Formula(text=f"=COUNTA('{METRIC}'!A6:A{last_metric})", result=len(metric_rows()))),
    ]
    for row, (label, value) in enumerate(lines, start=5):
        builder.put(sheet, row, 1, label)
        builder.put(sheet, row, 2, value)
        sheet.cell(row, 1).font = Font(name=FONT, bold=True)
        sheet.cell(row, 2).alignment = Alignment(horizontal="left")


HEADING_ROW = 7


def _write_inch_sheet(builder: Builder) -> None:
    sheet = builder.sheet(INCH)
    _write_inch_title(sheet)
    _write_inch_headings(sheet)
    item = 0
    for row, line in enumerate(inch_rows(), start=HEADING_ROW + 1):
        if isinstance(line, Section):
            _write_section(sheet, row, line.title)
            continue
        item += 1
        _write_inch_row(builder, sheet, row, {**line, "item": Formula(text="=COUNTA(B$8:B{row})", result=item)})
    last = HEADING_ROW + len(inch_rows())
    _write_inch_total(builder, sheet, last + 2)
    _dress_inch_sheet(sheet, last)


def _write_inch_title(sheet: Worksheet) -> None:
    sheet.merge_cells("A1:C4")
    sheet["A1"], sheet["A1"].font = (
        "MARROWDALE\nsolvent recovery",
        Font(name=FONT, size=16, bold=True, color="FFFFFFFF"),
    )
    sheet["A1"].fill, sheet["A1"].alignment = DARK, CENTRED
    sheet.merge_cells("D1:U2")
    sheet["D1"], sheet["D1"].font = "INSTRUMENT INDEX - UNITS 310, 320, 330", Font(name=FONT, size=18, bold=True)
    sheet["D1"].alignment = CENTRED
    sheet["D3"], sheet["D4"] = "MRD-300-IX-001 Rev C", "See last page for holds"
    box = (
        ("Rev", "Date", "Description", "By", "Chk"),
        ("A", "04-Mar-2024", "For review", "EK", "TM"),
        ("B", "19-Aug-2024", "As surveyed", "EK", "TM"),
        ("C", "02-Feb-2026", "Sensor replacement", "LR", "TM"),
    )
    for row, texts in enumerate(box, start=1):
        for column, text in zip((22, 23, 25, 28, 29), texts, strict=True):
            sheet.cell(row, column, text).font = Font(name=FONT, size=9, bold=row == 1)
        for column in range(22, 30):
            sheet.cell(row, column).border = BOX
        sheet.merge_cells(start_row=row, start_column=23, end_row=row, end_column=24)
        sheet.merge_cells(start_row=row, start_column=25, end_row=row, end_column=27)


def _write_inch_headings(sheet: Worksheet) -> None:
    groups: dict[str, list[int]] = {}
    for column, heading in enumerate(INCH_HEADINGS, start=1):
        sheet.column_dimensions[get_column_letter(column)].width = heading.width
        for row in (HEADING_ROW - 1, HEADING_ROW):
            cell = sheet.cell(row, column)
            cell.font, cell.fill, cell.border = Font(name=FONT, size=9, bold=True), GREY, BOX
            cell.alignment = CENTRED
        if heading.group:
            groups.setdefault(heading.group, []).append(column)
            sheet.cell(HEADING_ROW, column, heading.text)
        else:
            sheet.cell(HEADING_ROW - 1, column, heading.text)
            sheet.merge_cells(start_row=HEADING_ROW - 1, end_row=HEADING_ROW, start_column=column, end_column=column)
    for group, columns in groups.items():
        sheet.cell(HEADING_ROW - 1, columns[0], group)
        sheet.merge_cells(
            start_row=HEADING_ROW - 1, end_row=HEADING_ROW - 1, start_column=columns[0], end_column=columns[-1]
        )
    sheet.row_dimensions[HEADING_ROW].height = 42


def _write_section(sheet: Worksheet, row: int, title: str) -> None:
    cell = sheet.cell(row, 1, title)
    cell.font, cell.fill = Font(name=FONT, size=10, bold=True), PALE
    sheet.merge_cells(start_row=row, end_row=row, start_column=1, end_column=len(INCH_HEADINGS))


def _write_inch_row(builder: Builder, sheet: Worksheet, row: int, line: Row) -> None:
    overall, tip, bore = line.get("overall"), line.get("tip"), line.get("bore")
    if line["tag"] in FORMULA_ROWS and isinstance(overall, float) and isinstance(tip, float):
        line = {**line, "bore": Formula(text="=I{row}-L{row}", result=overall - tip)}
    for column, heading in enumerate(INCH_HEADINGS, start=1):
        builder.put(sheet, row, column, line.get(heading.key))
        cell = sheet.cell(row, column)
        cell.font = Font(name=FONT, size=9, strike=bool(line.get("struck")))
        cell.border = BOX
        if heading.key in LENGTHS:
            cell.number_format, cell.alignment = FRACTION, Alignment(horizontal="right")
        elif heading.key in DIAMETERS:
            cell.number_format = "0.00#"
    if bore is DATE_FOR_BORE:
        sheet.cell(row, BORE_COLUMN).number_format = "m/d/yyyy"


FORMULA_ROWS = frozenset(["310-TE-101", "310-TE-112", "310-TE-113", "320-TE-209", "330-TE-305"])
BORE_COLUMN = [heading.key for heading in INCH_HEADINGS].index("bore") + 1


def _write_inch_total(builder: Builder, sheet: Worksheet, row: int) -> None:
    rows = [line for line in inch_rows() if isinstance(line, Mapping)]
    builder.put(sheet, row, 1, "Total temperature elements")
    count = sum("TE" in line["tag"] for line in rows)
    builder.put(sheet, row, 5, Formula(text=f'=COUNTIF(B{HEADING_ROW + 1}:B{row - 2},"*TE*")', result=count))
    sheet.cell(row, 1).font = Font(name=FONT, size=9, bold=True)


def _dress_inch_sheet(sheet: Worksheet, last: int) -> None:
    """Add what a real index has beside its cells: filter, drop-down, colour rule, note, frozen panes, print titles."""
    letters = {heading.key: get_column_letter(column) for column, heading in enumerate(INCH_HEADINGS, start=1)}
    end = get_column_letter(len(INCH_HEADINGS))
    sheet.auto_filter.ref = f"A{HEADING_ROW}:{end}{last}"
    mounting = DataValidation(type="list", formula1='"S/L fitting,S/L insert,Fixed fitting"', allow_blank=True)
    mounting.add(f"{letters['mounting']}{HEADING_ROW + 1}:{letters['mounting']}{last}")
    sheet.add_data_validation(mounting)
    deleted = DifferentialStyle(font=Font(color="FF808080", italic=True))
    formula = f'${letters["status"]}{HEADING_ROW + 1}="Deleted"'
    sheet.conditional_formatting.add(
        f"A{HEADING_ROW + 1}:{end}{last}", Rule("expression", formula=[formula], dxf=deleted)
    )
    row = next(row for row in range(HEADING_ROW, last) if sheet.cell(row, 2).value == "310-TE-108")
    note = Comment("Gauged with a 1/4 in rod during the last outage.", "LR", height=60, width=180)
    sheet[f"{letters['found']}{row}"].comment = note
    sheet.freeze_panes = f"C{HEADING_ROW + 1}"
    sheet.print_title_rows = f"{HEADING_ROW - 1}:{HEADING_ROW}"


def _write_metric_sheet(builder: Builder) -> None:
    sheet = builder.sheet(METRIC)
    sheet["A1"], sheet["A1"].font = "UNIT 340 SOLVENT DRYING", Font(name="Arial", size=14, bold=True)
    sheet["A2"] = "Thermometer wells and inserts"
    sheet["A3"], sheet["A3"].font = "ALL DIMENSIONS IN mm", Font(name="Arial", size=9, italic=True)
    for column, heading in enumerate(METRIC_HEADINGS, start=1):
        sheet.cell(5, column, heading.text).alignment = CENTRED
        sheet.column_dimensions[get_column_letter(column)].width = heading.width
    sheet.row_dimensions[5].height = 30
    keys = [heading.key for heading in METRIC_HEADINGS]
    _write_plain_rows(sheet, 6, keys, metric_rows())
    last = 5 + len(metric_rows())
    table = Table(displayName="Wells340", ref=f"A5:{get_column_letter(len(keys))}{last}")
    table.tableStyleInfo = TableStyleInfo(name="TableStyleLight1", showRowStripes=True)
    sheet.add_table(table)
    _write_package_list(sheet, last + 3)
    sheet.freeze_panes = "B6"
    sheet.print_title_rows = "5:5"


def _write_package_list(sheet: Worksheet, row: int) -> None:
    """Write the list that came with a package: another hand's headings, no word of mounting or extension."""
    sheet.cell(row, 1, "PACKAGE K-341 VACUUM SKID").font = Font(name="Arial", size=11, bold=True)
    for column, text in enumerate(PACKAGE_HEADINGS.values(), start=1):
        cell = sheet.cell(row + 1, column, text)
        cell.font, cell.fill, cell.alignment = Font(name="Arial", size=9, bold=True), GREY, CENTRED
    _write_plain_rows(sheet, row + 2, list(PACKAGE_HEADINGS), PACKAGE_ROWS)


def _write_plain_rows(sheet: Worksheet, first: int, keys: Sequence[str], rows: Sequence[Row]) -> None:
    for row, line in enumerate(rows, start=first):
        for column, key in enumerate(keys, start=1):
            cell = sheet.cell(row, column)
            if line.get(key) is not None:
                cell.value = line[key]
            cell.font = Font(name="Arial", size=9, strike=bool(line.get("struck")))


def _write_revisions(builder: Builder) -> None:
    sheet = builder.sheet(REVISIONS)
    for row, texts in enumerate(_revisions(), start=1):
        for column, text in enumerate(texts, start=1):
            sheet.cell(row, column, text).font = Font(name=FONT, bold=row == 1)
    for letter, width in zip("ABCD", (8, 14, 70, 8), strict=True):
        sheet.column_dimensions[letter].width = width


def _revisions() -> Iterator[tuple[str, ...]]:
    yield ("Rev", "Date", "What changed", "By")
    yield ("A", "04-Mar-2024", "First issue for review", "EK")
    yield ("B", "19-Aug-2024", "Feed filter bypass taken out; bores gauged in unit 310", "EK")
    yield ("C", "02-Feb-2026", "Issued for sensor replacement; vacuum skid list added", "LR")


if __name__ == "__main__":
    SAMPLE.parent.mkdir(exist_ok=True)
    SAMPLE.write_bytes(sample_bytes())
