"""The annotated copy as a whole."""

import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook

from thermowell_index.errors import OutputError
from thermowell_index.findings import Finding
from thermowell_index.ooxml import Package
from thermowell_index.writer import write_checked
from thermowell_index.writer.report import Report

SOFFICE = shutil.which("soffice")


def test_our_sheets_come_after_the_client_s_in_order(checked_book: Workbook) -> None:
    assert checked_book.sheetnames == [
        "Cover",
        "Utilities",
        "Mixing",
        "Discrepancies",
        "Check summary",
        "Order schedule",
        "Spares plan",
        "Field survey",
        "First touch",
        "Design basis",
        "Thermowell index state",
    ]
    assert checked_book["Thermowell index state"].sheet_state == "veryHidden"


def test_a_client_s_own_sheet_of_that_name_stays_and_ours_is_numbered(
    client_book: Workbook, report: Report, tmp_path: Path
) -> None:
    client_book.create_sheet("Discrepancies")["A1"] = "the client's"
    source, target = tmp_path / "CLIENT.xlsx", tmp_path / "OUT.xlsx"
    client_book.save(source)
    with Package.open(source) as package:
        write_checked(report, package, target)
    book = load_workbook(target)
    assert book["Discrepancies"]["A1"].value == "the client's"
    assert book["Discrepancies (2)"]["A1"].value == "Discrepancies"


def test_the_input_is_not_touched_and_nothing_else_is_left(index_path: Path, report: Report) -> None:
    before = index_path.read_bytes()
    with Package.open(index_path) as package:
        write_checked(report, package, index_path.with_name("OUT.xlsx"))
    assert index_path.read_bytes() == before
    assert sorted(path.name for path in index_path.parent.iterdir()) == ["INDEX.xlsx", "OUT.xlsx"]


def test_the_same_run_gives_the_same_sheets(index_path: Path, report: Report) -> None:
    first, second = index_path.with_name("A.xlsx"), index_path.with_name("B.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, first)
        write_checked(report, package, second)
    assert first.read_bytes() == second.read_bytes()


def test_the_input_is_refused_as_target(index_path: Path, report: Report) -> None:
    with Package.open(index_path) as package, pytest.raises(OutputError):
        write_checked(report, package, index_path)


def test_a_sheet_that_is_flagged_but_holds_no_table_is_coloured_only(
    index_path: Path, make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    report = make_report(findings=[make_finding(sheet="Cover", cell="B2", row=2)])
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, target)
    cover = load_workbook(target)["Cover"]
    assert cover["B2"].comment is not None
    assert (cover.max_row, cover.max_column) == (2, 2)


@pytest.mark.skipif(SOFFICE is None, reason="LibreOffice is not on this machine")
def test_a_spreadsheet_program_opens_the_copy(checked_path: Path, tmp_path: Path) -> None:
    profile = (tmp_path / "profile").as_uri()
    command = [str(SOFFICE), f"-env:UserInstallation={profile}", "--headless", "--convert-to", "xlsx"]
    command += ["--outdir", str(tmp_path / "out"), str(checked_path)]
    subprocess.run(command, check=True, timeout=180, capture_output=True)  # noqa: S603 - a fixed command
    book = load_workbook(tmp_path / "out" / checked_path.name)
    assert book["Utilities"]["L6"].value == 9
    assert book["Discrepancies"]["F6"].hyperlink is not None
