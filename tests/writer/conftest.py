"""An invented index, as a client's workbook and as the report of a run over it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pandas as pd
import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Package
from thermowell_index.sizing.schedule import schedule
from thermowell_index.table import ColumnRead, IndexTable, SheetRead, TableRead
from thermowell_index.writer.checked import write_checked
from thermowell_index.writer.report import BasisRow, Report, RunInfo

NAN = float("nan")
IN = 25.4

HEADINGS = ("TAG NO.", "SERVICE", "WELL O/A LENGTH", "BORE DEPTH", "EXTENSION", "SENSOR", "REMARKS")
FIELDS = ("tag", "service", "overall_length", "bore_depth", "extension_arrangement", "sensor_type", "remarks")
INCH_ROWS: tuple[tuple[Any, ...], ...] = (
    ("TE-1001", "Wash water inlet", "9-1/4", "9", "none", "RTD Pt100", None),
    ("TE-1002", "Wash water return", "9-1/4", None, "none", "RTD Pt100", "=not a formula"),
    ("TE-1003", "Steam header", "12-1/4", "13", "nipple 4 in", "TC type K", None),
    ("PT-1003", "Steam header pressure", None, None, None, None, None),
    ("TE-1004", "Condensate tank & drum", "6-1/4", None, "union", "RTD Pt100", "check on site"),
    ("TE-1005", "Brine cooler outlet", "10-1/2", None, "none", "TC type K", None),
)
MM_ROWS: tuple[tuple[Any, ...], ...] = (
    ("TE-2001", "Mixer jacket", 235, 229, "none", "RTD Pt100", None),
    ("TE-2002", "Mixer vent", 235, 229, "none", "RTD Pt100", "spare in store"),
    ("TE-2003", "Mixer outlet", "TBD", "TBD", "none", "RTD Pt100", None),
)
HEADING_ROW = 5

ROW_COLUMNS = (
    "bore_depth_used_mm",
    "extension_installed_mm",
    "probe_length_computed_mm",
    "probe_length_order_mm",
    "shortest_fit_mm",
    "longest_fit_mm",
    "compression_min_mm",
    "compression_nominal_mm",
    "compression_max_mm",
    "margin_mm",
    "first_touch_mm",
)
FITTING_PLANE = "from end of mounting thread to tip, spring relaxed"


def _dress(sheet: Worksheet, rows: int) -> None:
    line = Side(style="thin", color="FF808080")
    for column in range(1, len(HEADINGS) + 1):
        cell = sheet.cell(HEADING_ROW, column)
        cell.font = Font(name="Arial", size=9, bold=True, color="FFFFFFFF")
        cell.fill = PatternFill("solid", fgColor="FF305496")
        cell.alignment = Alignment(wrap_text=True, horizontal="center", vertical="center")
        cell.border = Border(left=line, right=line, top=line, bottom=line)
        for row in range(HEADING_ROW + 1, HEADING_ROW + 1 + rows):
            body = sheet.cell(row, column)
            body.font = Font(name="Arial", size=9)
            body.border = Border(left=line, right=line, top=line, bottom=line)
    sheet.row_dimensions[HEADING_ROW].height = 38
    for letter, width in zip("ABCDEFG", (12, 26, 12, 10, 14, 13, 22), strict=True):
        sheet.column_dimensions[letter].width = width


def _fill(sheet: Worksheet, title: str, rows: tuple[tuple[Any, ...], ...]) -> None:
    sheet["A1"], sheet["A2"] = "EXAMPLE PLANT", title
    sheet["A3"] = "Revision C"
    sheet.merge_cells("A2:G2")
    for column, heading in enumerate(HEADINGS, start=1):
        sheet.cell(HEADING_ROW, column, heading)
    for row, values in enumerate(rows, start=HEADING_ROW + 1):
        for column, value in enumerate(values, start=1):
            cell = sheet.cell(row, column, value)
            if isinstance(value, str):
                cell.data_type = "s"
    _dress(sheet, len(rows))


@pytest.fixture
def client_book() -> Workbook:
    """Return the client's workbook, to be changed by a test and saved."""
    book = Workbook()
    cover = book.worksheets[0]
    cover.title = "Cover"
    cover["B2"] = "Instrument index"
    _fill(book.create_sheet("Utilities"), "Instrument index, utilities (dimensions in inches)", INCH_ROWS)
    _fill(book.create_sheet("Mixing"), "Instrument index, mixing (dimensions in mm)", MM_ROWS)
    return book


@pytest.fixture
def index_path(client_book: Workbook, tmp_path: Path) -> Path:
    """Return the path of the client's workbook."""
    path = tmp_path / "INDEX.xlsx"
    client_book.save(path)
    return path


def _row(
    table_id: int, row: int, tag: str, verdict: str, lengths: tuple[float, ...] = (), **changes: Any
) -> dict[str, Any]:
    unit = "in" if table_id == 0 else "mm"
    values = dict(zip(ROW_COLUMNS, [*lengths, *[NAN] * (len(ROW_COLUMNS) - len(lengths))], strict=True))
    return {
        "sheet": ("Utilities", "Mixing")[table_id],
        "row": row,
        "table_id": table_id,
        "tag": tag,
        "well_tag": "",
        "service": "",
        "area": "",
        "unit": unit,
        "in_fractions": unit == "in",
        "bore_depth_basis": "stated" if lengths else "",
        **values,
        "working": "",
        "verdict": verdict,
        "reason": "",
        "mounting": "spring-loaded fitting",
        "arrangement": "none",
        "plane": FITTING_PLANE,
        "profile": "spring_loaded_fitting",
        "sheath_diameter_text": "1/4 in" if unit == "in" else "6 mm",
        "sensor_type": "RTD Pt100",
        "element_count": "",
        "sheath_material": "316 SS",
        "thread_text": "1/2 NPT",
        "quantity": 1,
        "quantity_is_stated": False,
        "nipple_length_text": "",
        "extension_thread_text": "",
        "nipple_length_mm": NAN,
        "extension_parts": "",
        "increment_unit": unit,
        **changes,
    }


def sized_inches(bore_in: float, extension_in: float, order_in: float) -> tuple[float, ...]:
    """Return the eleven lengths of a fitting-mounted row [mm], its limits 0.3 in either side of the order length."""
    return tuple(
        value * IN
        for value in (
            bore_in,
            extension_in,
            order_in,
            order_in,
            order_in - 0.2871,
            order_in + 0.3402,
            0.3871,
            0.5,
            0.6129,
            0.2621,
            0.5,
        )
    )


def index_frame() -> pd.DataFrame:
    """Return the rows of the index with their answers."""
    working = (
        "bore depth 9 in as stated; no extension; seat plane 8-1/2 in = 9 in less engagement 1/2 in; computed 9 in = "
        "seat plane + target compression 1/2 in; order 9 in, on the 1/4 in increment"
    )
    metric = tuple(value for value in (229.0, 0.0, 229.0, 230.0, 221.4, 237.7, 10.8, 13.7, 16.6, 7.625, 13.7))
    return pd.DataFrame(
        [
            _row(0, 6, "TE-1001", "sized", sized_inches(9, 0, 9), working=working, service="Wash water inlet"),
            _row(0, 7, "TE-1002", "sized", sized_inches(9.28125, 0, 9.25), bore_depth_basis="overall less assumed tip"),
            _row(
                0,
                8,
                "TE-1003",
                "withheld",
                (13 * IN, 3 * IN),
                reason="bore depth 13 in, overall length 12-1/4 in",
            ),
            _row(0, 9, "PT-1003", "not applicable", reason="a pressure transmitter"),
            _row(0, 10, "TE-1004", "withheld", (6 * IN,), reason="the union's length is not stated"),
            _row(
                0,
                11,
                "TE-1005",
                "review",
                sized_inches(10, 3, 12.75),
                sensor_type="TC type K",
                extension_parts="nipple 4 in, 1/2 NPT; 2 x union 1/2 NPT",
                quantity=2,
            ),
            _row(1, 6, "TE-2001", "sized", metric),
            _row(1, 7, "TE-2002", "sized", metric, quantity=0, quantity_is_stated=True),
            _row(1, 8, "TE-2003", "withheld", reason="bore depth not known"),
        ]
    )


def index_table() -> IndexTable:
    """Return the index as the reader would hand it on."""
    tables: dict[int, TableRead] = {}
    for table_id, (sheet, count, unit) in enumerate(
        (("Utilities", len(INCH_ROWS), "in"), ("Mixing", len(MM_ROWS), "mm"))
    ):
        columns = {
            field: ColumnRead(
                field=field,
                column=number,
                heading=HEADINGS[number - 1],
                unit=unit if field in {"overall_length", "bore_depth"} else None,
                unit_from="title block" if field in {"overall_length", "bore_depth"} else "",
                why="a wording of the trade",
            )
            for number, field in enumerate(FIELDS, start=1)
        }
        tables[table_id] = TableRead(
            table_id=table_id,
            sheet=sheet,
            heading_row=HEADING_ROW,
            first_row=HEADING_ROW + 1,
            last_row=HEADING_ROW + count,
            columns=columns,
        )
    sheets = [
        SheetRead(name="Cover", is_read=False, reason="no heading row with a tag column"),
        SheetRead(name="Utilities", is_read=True, reason="7 headings known", last_column=7, tables=[tables[0]]),
        SheetRead(
            name="Mixing", is_read=True, reason="7 headings known", last_column=7, tables=[tables[1]], hidden_rows=1
        ),
    ]
    return IndexTable(frame=index_frame(), sheets=sheets, title_lines=["Revision C"], tables=tables)


def finding(**changes: Any) -> Finding:
    """Return a finding, changed by keyword."""
    values: dict[str, Any] = {
        "severity": Severity.ERROR,
        "rule": "bore_deeper_than_well",
        "tag": "TE-1003",
        "well_tag": "TW-1003",
        "sheet": "Utilities",
        "row": 8,
        "cell": "D8",
        "field": "bore_depth",
        "found": "bore depth 13; overall length 12-1/4",
        "expected": "less than the overall length",
        "explanation": "The bore cannot be deeper than the well is long. One of the two cells is mistyped.",
        "action": "measure the bore with the well left in place",
        "tags": ("TE-1003",),
        "row_ids": (2,),
        "withholds": True,
        "folded": False,
        **changes,
    }
    return Finding(**values)


def index_findings() -> list[Finding]:
    """Return findings of each severity, one of them folded."""
    return [
        finding(),
        finding(
            severity=Severity.WARNING,
            rule="tip_may_not_touch",
            tag="TE-1005",
            well_tag="",
            row=11,
            cell="C11",
            field="probe_length",
            found="probe length 12-3/4",
            expected="12-1/2 to 13 in",
            tags=("TE-1005",),
            row_ids=(5,),
            withholds=False,
        ),
        finding(
            severity=Severity.NOTE,
            rule="tip_assumed",
            tag="",
            well_tag="",
            row=None,
            cell="",
            field="tip_thickness",
            found="2 rows",
            tags=("TE-1002", "TE-1005"),
            row_ids=(1, 5),
            withholds=False,
            folded=True,
        ),
        finding(
            rule="bore_depth_unknown",
            tag="TE-2003",
            well_tag="",
            sheet="Mixing",
            row=8,
            cell="D8",
            found="bore depth TBD; overall length TBD",
            tags=("TE-2003",),
            row_ids=(8,),
        ),
    ]


def index_report() -> Report:
    """Return the report of a run over the index."""
    table = index_table()
    return Report(
        table=table,
        findings=index_findings(),
        run=RunInfo(
            input_name="INDEX.xlsx",
            input_sha256="0" * 64,
            revision="C",
            program_version="0.1.0",
            date="2024-05-03",
            basis_name="built in",
            basis_fingerprint="a1b2c3d4",
            content_fingerprint="content-1",
            previous_name="",
        ),
        schedule=schedule(table.frame),
        basis_rows=[
            BasisRow(
                section="well",
                entry="tip_thickness_inch",
                value="1/4 in",
                meaning="assumed tip of a row in inches",
                source="common practice, no source",
                is_changed=False,
            ),
            BasisRow(
                section="extension",
                entry="union_length_means",
                value="bought",
                meaning="what one length beside a union means; empty: withheld",
                source="user's design basis",
                is_changed=True,
            ),
        ],
        standard_rows=[("form 4", 200.0, 375.0, "165 mm, on top of the total length", "a table")],
        profile_rows=[{"name": "spring loaded fitting", "plane": FITTING_PLANE, "travel": "1 in", "seat offset": ""}],
        assumed=["Sensor mounting: spring-loaded fitting on both sheets, which have no such column."],
        cautions=[
            "This program sizes sensors; it does not judge whether a well is fit for its process.",
            "A length is valid for the stated sensor profile only.",
        ],
        rule_names={"bore_deeper_than_well": "bore deeper than well"},
        rule_titles={"bore_deeper_than_well": "The bore is deeper than the well is long."},
        field_labels={"bore_depth": "bore depth"},
        sheet_units={0: "in", 1: "mm"},
        sheet_in_fractions={0: True, 1: False},
    )


@pytest.fixture
def make_finding() -> Callable[..., Finding]:
    """Return the builder of a finding."""
    return finding


@pytest.fixture
def frame() -> pd.DataFrame:
    """Return the rows of the index with their answers."""
    return index_frame()


@pytest.fixture
def report() -> Report:
    """Return the report of a run over the index."""
    return index_report()


@pytest.fixture
def make_report() -> Callable[..., Report]:
    """Return a builder of the report, changed by keyword."""

    def make(**changes: Any) -> Report:
        return replace(index_report(), **changes)

    return make


@pytest.fixture
def checked_path(index_path: Path, report: Report) -> Path:
    """Return the path of the annotated copy of the index."""
    target = index_path.with_name("INDEX_checked.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, target)
    return target


@pytest.fixture
def checked_book(checked_path: Path) -> Workbook:
    """Return the annotated copy as another program reads it."""
    return load_workbook(checked_path)
