"""The chart of stated against computed lengths on the Check summary."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any
from zipfile import ZipFile

from openpyxl import Workbook, load_workbook

from thermowell_index.answers import ResidualGroup, Residuals
from thermowell_index.ooxml import Package
from thermowell_index.writer import strip_own, write_checked
from thermowell_index.writer.report import Report
from thermowell_index.writer.residual_chart import SECTION

GROUPS = (
    ResidualGroup(label="fitting, area 1", rows=5, fits=3, most_often="as computed", most_often_rows=3, counts=(0, 2, 3)),  # noqa: E501 - a line a group
    ResidualGroup(label="insert", rows=1, fits=0, most_often="1/2 in shorter", most_often_rows=1, counts=(1, 0, 0)),
)  # fmt: skip
RESIDUALS = Residuals(steps=("\u22121/2", "\u22121/4", "0"), groups=GROUPS)


def charts_of(sheet: Any) -> list[Any]:
    return list(sheet._charts)  # noqa: SLF001 - openpyxl has no other way to a sheet's charts


def written(client: Workbook, report: Report, folder: Path) -> Path:
    client.save(folder / "index.xlsx")
    target = folder / "answer.xlsx"
    with Package.open(folder / "index.xlsx") as package:
        write_checked(report, package, target)
    return target


def test_the_numbers_stand_under_the_chart_that_shows_them(
    client_book: Workbook, make_report: Callable[..., Report], tmp_path: Path
) -> None:
    path = written(client_book, make_report(residuals=RESIDUALS, majority_unit="in"), tmp_path)
    sheet = load_workbook(path)["Check summary"]
    lines = {row[0].value: [cell.value for cell in row] for row in sheet.iter_rows() if row[0].value}
    (chart,) = charts_of(sheet)
    head = next(row for row in range(1, sheet.max_row) if sheet.cell(row, 1).value == "Stated less computed (in)")

    assert SECTION in lines
    assert lines["fitting, area 1"][:8] == ["fitting, area 1", None, None, 5, 3, "as computed", None, 3]
    assert lines["Stated less computed (in)"][1:3] == ["fitting, area 1", "insert"]
    assert [sheet.cell(head + place, 2).value for place in (1, 2, 3)] == [None, 2, 3]
    assert [one.val.numRef.f for one in chart.series] == [
        f"'Check summary'!${letter}${head + 1}:${letter}${head + 3}" for letter in "BC"
    ]
    assert chart.anchor._from.row < head  # noqa: SLF001 - as above
    section = next(row for row in range(1, head) if sheet.cell(row, 1).value == SECTION)
    assert [one.id for one in sheet.row_breaks.brk] == [section - 1], "it begins a page, so that none ends in it"


def test_there_is_no_chart_where_no_length_is_stated(
    client_book: Workbook, make_report: Callable[..., Report], tmp_path: Path
) -> None:
    sheet = load_workbook(written(client_book, make_report(), tmp_path))["Check summary"]

    assert charts_of(sheet) == []
    assert SECTION not in {cell.value for cell in sheet["A"]}


def test_the_chart_goes_with_its_sheet(
    client_book: Workbook, make_report: Callable[..., Report], tmp_path: Path
) -> None:
    path = written(client_book, make_report(residuals=RESIDUALS, majority_unit="in"), tmp_path)
    with Package.open(path) as package:
        stripped = strip_own(package)
    with ZipFile(BytesIO(stripped)) as archive:
        left = [name for name in archive.namelist() if "/charts/" in name or "/drawings/drawing" in name]

    assert left == []
