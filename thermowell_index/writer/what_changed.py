"""The sheet What changed: this issue against the previous run, the loudest first."""

from openpyxl import Workbook

from thermowell_index.findings import Severity
from thermowell_index.revisions.comparison import Block
from thermowell_index.writer.page import BOLD_FONT, SEVERITY_FILLS, Page
from thermowell_index.writer.report import Report

TITLE = "What changed"
HINT = "Rows are matched by tag and well tag, never by where they stand."
WIDTHS = (17.0, 14.5, 14.5, 14.5, 18.5, 18.5, 21.0, 43.5)
# Span of each column of a block, by how many it has.
SPANS = {
    3: (2, 3, 3),
    4: (1, 2, 2, 3),
    5: (1, 1, 1, 1, 4),
    8: (1, 1, 1, 1, 1, 1, 1, 1),
}
LOUD_SPANS = (1, 1, 1, 2, 2, 1)
NUMBERS = ("Row", "Row: was", "Row: is")


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet; there is one only where a previous run was given."""
    comparison = report.history.comparison
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    for sentence in () if comparison is None else comparison.sentences:
        page.sentence(sentence)
    page.skip()
    for block in () if comparison is None else comparison.blocks:
        _write(page, block)
    page.finish(report)


def _write(page: Page, block: Block) -> None:
    count = len(block.headings)
    spans = (1,) * count
    if block.headings[-1] not in NUMBERS:
        spans = LOUD_SPANS if block.is_loud and count == len(LOUD_SPANS) else SPANS.get(count, spans)
    page.section(block.title)
    page.headings(block.headings, spans, NUMBERS)
    for line in block.lines:
        row = page.line(line, spans)
        if block.is_loud:
            page.sheet.cell(row, 1).fill = SEVERITY_FILLS[Severity.ERROR]
            page.sheet.cell(row, 1).font = BOLD_FONT
    page.skip()
