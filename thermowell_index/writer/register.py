"""The sheet Remarks register: what reviewers said of rows that are gone or told together, and lines of their own."""

from typing import cast

from openpyxl import Workbook
from openpyxl.cell.cell import Cell

from thermowell_index.revisions.previous import RegisterEntry
from thermowell_index.writer.page import A3_PAPER, Page
from thermowell_index.writer.remark_cells import add_drop_down, write_date
from thermowell_index.writer.remark_sheets import OWN_LINES_HEADING, REGISTER_HEADINGS
from thermowell_index.writer.report import Report

TITLE = "Remarks register"
HINT = (
    "Remarks on rows that are no longer in the index, or whose fault is told once for many rows. They come back when "
    "the row does, or is told singly. To move one, write the tag that shall have it in Carry over to: the next run "
    "gives it to that tag's finding of the same rule."
)
WIDTHS = (6.5, 13.0, 12.0, 13.0, 15.0, 22.0, 11.0, 10.0, 10.5, 24.0, 28.0, 18.0, 14.0, 14.0)
_DISPOSITION = REGISTER_HEADINGS.index("Disposition") + 1
_REVIEWED_ON = REGISTER_HEADINGS.index("Reviewed on") + 1


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet; there is one only where something has to be kept."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    heading_row = _write_entries(page, report) if report.history.register else None
    if report.history.own_lines:
        page.section(OWN_LINES_HEADING)
        for line in report.history.own_lines:
            page.sentence(line)
    page.finish(report, repeated_row=heading_row if not report.history.own_lines else None, paper=A3_PAPER)


def _write_entries(page: Page, report: Report) -> int:
    """Write the entries; return the row of their headings."""
    heading_row = page.headings(REGISTER_HEADINGS)
    for number, entry in enumerate(report.history.register, start=1):
        row = page.line(_values(number, entry, report))
        day = cast("Cell", page.sheet.cell(row, _REVIEWED_ON))
        write_date(day, entry.finding.reviewed_on, date_1904=report.date_1904)
    add_drop_down(page.sheet, _DISPOSITION, heading_row + 1, page.next_row - 1)
    page.sheet.freeze_panes = f"C{heading_row + 1}"
    page.skip()
    return heading_row


def _values(number: int, entry: RegisterEntry, report: Report) -> tuple[str, ...]:
    finding = entry.finding
    return (
        f"R-{number}",
        finding.tag or "all of the sheet",
        finding.sheet,
        report.field_label(finding.field),
        report.rule_name(finding.rule),
        finding.found,
        finding.disposition,
        finding.reviewer,
        finding.reviewed_on,
        finding.comment,
        finding.former_decision,
        entry.last_seen,
        entry.may_be,
        entry.carry_to,
    )
