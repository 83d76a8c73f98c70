"""The sheet Design basis: every assumption with its value and source, and the sensor profiles."""

from typing import cast

from openpyxl import Workbook
from openpyxl.cell.cell import Cell

from thermowell_index.writer.page import BOLD_FONT, Page
from thermowell_index.writer.remark_cells import add_drop_down, write_date
from thermowell_index.writer.remark_sheets import BASIS_SIGN_OFF_HEADINGS
from thermowell_index.writer.report import Report

TITLE = "Design basis"
HEADINGS = ("Section", "Entry", "Value", "What it means", "Source", "Changed")
WIDTHS = (12.0, 26.0, 22.0, 62.0, 40.0, 10.0)
STANDARD_HEADINGS = ("Form", "Total length (mm)", "Insert (mm)", "Neck", "Source", "")
SIGN_OFF_SPANS = (1, 1, 1, 1, 1, 1)
HINT = "Every number a length stands on. Each can be changed with a design-basis file; a changed one is marked."


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    _write_sign_off(page, report)
    heading_row = page.headings(HEADINGS)
    for entry in report.basis_rows:
        changed = "changed" if entry.is_changed else ""
        label = entry.entry.replace("_", " ")
        row = page.line((entry.section, label, entry.value or "not set", entry.meaning, entry.source, changed))
        if entry.is_changed:
            for column in range(1, len(HEADINGS) + 1):
                page.sheet.cell(row, column).font = BOLD_FONT
    page.skip()
    _write_profiles(page, report)
    _write_standard(page, report)
    page.sheet.freeze_panes = f"A{heading_row + 1}"
    page.finish(report, repeated_row=heading_row)


def _write_sign_off(page: Page, report: Report) -> None:
    """Write the line on which the basis as a whole is signed; a sign-off of another basis has lapsed."""
    sign_off = report.history.basis_sign_off
    page.section("Sign-off of the design basis")
    page.headings(BASIS_SIGN_OFF_HEADINGS, SIGN_OFF_SPANS)
    row = page.line(
        (
            report.run.basis_fingerprint,
            sign_off.disposition,
            sign_off.reviewer,
            sign_off.comment,
            sign_off.former_decision,
            sign_off.reviewed_on,
        ),
        SIGN_OFF_SPANS,
    )
    add_drop_down(page.sheet, 2, row, row)
    write_date(
        cast("Cell", page.sheet.cell(row, len(BASIS_SIGN_OFF_HEADINGS))),
        sign_off.reviewed_on,
        date_1904=report.date_1904,
    )
    page.skip()


def _write_profiles(page: Page, report: Report) -> None:
    """Write a block a profile: its lengths are few and its wordings long, so a row a property reads best."""
    page.section("Sensor profiles")
    spans = (2, 4)
    for profile in report.profile_rows:
        for number, (label, text) in enumerate(profile.items()):
            row = page.line((label, text or "not set"), spans)
            if number == 0:
                page.sheet.cell(row, 3).font = BOLD_FONT
        page.skip()


def _write_standard(page: Page, report: Report) -> None:
    """Write the wells of the standard whose insert is known from their length."""
    page.section("Plate inserts of DIN 43772 wells with a form B head")
    page.headings(STANDARD_HEADINGS)
    for row in report.standard_rows:
        page.line((*row, ""))
