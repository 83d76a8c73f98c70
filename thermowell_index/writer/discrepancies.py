"""The sheet Discrepancies: one row a finding, for one decision a row."""

from collections.abc import Sequence
from typing import cast

from openpyxl import Workbook
from openpyxl.cell.cell import Cell
from openpyxl.worksheet.hyperlink import Hyperlink
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.findings import Finding, Severity
from thermowell_index.revisions.previous import CLEARED, LAPSED
from thermowell_index.writer.marks import sheet_reference
from thermowell_index.writer.page import (
    A3_PAPER,
    BOLD_FONT,
    LINK_FONT,
    MUTED_FONT,
    SEVERITY_FILLS,
    Page,
)
from thermowell_index.writer.remark_cells import add_drop_down, write_date
from thermowell_index.writer.remark_sheets import DISCREPANCIES_HEADINGS, FORMER_DECISION
from thermowell_index.writer.report import Report

TITLE = "Discrepancies"
HEADINGS = tuple(name for name in DISCREPANCIES_HEADINGS if name != FORMER_DECISION)
WIDTHS = (12.5, 8.0, 13.0, 10.5, 5.5, 6.0, 11.0, 13.0, 18.0, 17.0, 31.0, 23.0, 8.5, 10.5, 9.0, 10.5, 20.0)
FURTHER_WIDTH = 14.0
# Columns of prose give way to further ones, down to this share: a page that is wider prints below 7 points.
GIVES_WAY = frozenset({"Found", "Expected", "Explanation", "Action", "Comment"})
LEAST_SHARE = 0.6
HINT = (
    "Decide in the columns Disposition to Comment; the next run carries them over. Cell leads to the cell in the index."
)
TAGS_SHOWN = 8
LOUDEST_RULE = "changed_after_order"
NOTHING_FOUND = "Nothing was found."

_SEVERITY, _CELL, _REVIEWED_ON = (
    HEADINGS.index("Severity") + 1,
    HEADINGS.index("Cell") + 1,
    HEADINGS.index("Reviewed on") + 1,
)
_DISPOSITION = HEADINGS.index("Disposition") + 1


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    sheet = book.create_sheet(name)
    findings = in_order(report)
    more = _further_headings(findings)
    page = Page(sheet=sheet, widths=widths(len(more)))
    page.title(TITLE, report, HINT)
    heading_row = page.headings((*HEADINGS, *more), numbers=("Row",))
    for finding in findings:
        said = dict((*finding.own_columns, (FORMER_DECISION, finding.former_decision)))
        row = page.line((*_values(finding, report), *(said.get(heading, "") for heading in more)))
        _dress(sheet, row, finding, date_1904=report.date_1904)
    last = max(page.next_row - 1, heading_row + 1)
    if findings:
        add_drop_down(sheet, _DISPOSITION, heading_row + 1, last)
    else:
        page.sentence(NOTHING_FOUND)
    sheet.auto_filter.ref = f"A{heading_row}:{sheet.cell(last, len(HEADINGS) + len(more)).coordinate}"
    sheet.freeze_panes = sheet.cell(heading_row + 1, HEADINGS.index("Sheet") + 1).coordinate
    page.finish(report, repeated_row=heading_row, paper=A3_PAPER)


def widths(further: int) -> tuple[float, ...]:
    """Return the widths of the columns, with so many beyond the usual ones."""
    prose = sum(width for heading, width in zip(HEADINGS, WIDTHS, strict=True) if heading in GIVES_WAY)
    share = max(LEAST_SHARE, 1.0 - FURTHER_WIDTH * further / prose)
    usual = (width * (share if name in GIVES_WAY else 1.0) for name, width in zip(HEADINGS, WIDTHS, strict=True))
    return (*(round(width, 1) for width in usual), *[FURTHER_WIDTH] * further)


def _further_headings(findings: Sequence[Finding]) -> list[str]:
    """Return the headings beyond the usual ones: former decisions where one has lapsed, then reviewers' own columns."""
    own = dict.fromkeys(heading for finding in findings for heading, _ in finding.own_columns)
    former = [FORMER_DECISION] if any(finding.former_decision for finding in findings) else []
    return [*former, *own]


def in_order(report: Report) -> list[Finding]:
    """Return the findings loudest first, then by sheet as the tabs stand and by row; what was cleared comes last."""
    tabs = {sheet.name: number for number, sheet in enumerate(report.table.sheets)}
    return sorted(
        report.findings,
        key=lambda finding: (
            finding.change == CLEARED,
            finding.severity.rank,
            finding.rule != LOUDEST_RULE,
            tabs.get(finding.sheet, len(tabs)),
            finding.sheet,
            finding.row or 0,
            finding.rule,
            finding.field,
            finding.id,
        ),
    )


def tag_text(finding: Finding) -> str:
    """Return the tag, or the first of many; every row names in its own Findings column what it shares with others."""
    tags: Sequence[str] = [tag for tag in (finding.tags if finding.folded else (finding.tag,)) if tag]
    more = len(tags) - TAGS_SHOWN
    if more > 1:
        return f"{', '.join(tags[:TAGS_SHOWN])} and {more} more"
    return ", ".join(tags)


def _values(finding: Finding, report: Report) -> tuple[str | int | None, ...]:
    return (
        finding.id,
        finding.severity.value,
        tag_text(finding),
        finding.sheet,
        finding.row,
        finding.cell,
        report.field_label(finding.field),
        report.rule_name(finding.rule),
        finding.found,
        finding.expected,
        finding.explanation,
        finding.action,
        finding.change,
        finding.disposition,
        finding.reviewer,
        finding.reviewed_on,
        finding.comment,
    )


def _dress(sheet: Worksheet, row: int, finding: Finding, *, date_1904: bool) -> None:
    is_live = finding.change != CLEARED
    if not is_live:
        for column in range(1, len(HEADINGS) + 1):
            sheet.cell(row, column).font = MUTED_FONT
    elif finding.severity in SEVERITY_FILLS:
        sheet.cell(row, _SEVERITY).fill = SEVERITY_FILLS[finding.severity]
        if finding.severity is Severity.ERROR:
            sheet.cell(row, _SEVERITY).font = BOLD_FONT
    if is_live and finding.cell and finding.sheet:
        _add_link(_cell(sheet, row, _CELL), sheet_reference(finding.sheet, finding.cell))
    if finding.disposition == LAPSED and is_live:
        sheet.cell(row, _DISPOSITION).font = BOLD_FONT
    write_date(_cell(sheet, row, _REVIEWED_ON), finding.reviewed_on, date_1904=date_1904)


def _cell(sheet: Worksheet, row: int, column: int) -> Cell:
    """Return a cell of a finding's row, none of which is merged."""
    return cast("Cell", sheet.cell(row, column))


def _add_link(cell: Cell, place: str) -> None:
    text = cell.value
    cell.hyperlink = Hyperlink(ref=cell.coordinate, location=place, display=str(text))
    cell.value = text
    cell.font = LINK_FONT
