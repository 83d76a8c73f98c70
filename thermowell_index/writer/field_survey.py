"""The sheet Field survey: what to find out first, how to measure, and the form to fill in and give back."""

from collections.abc import Sequence

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Side
from openpyxl.worksheet.datavalidation import DataValidation

from thermowell_index.answers import FIELD_SURVEY, SurveyEntry, SurveyLine
from thermowell_index.writer.page import BOLD_FONT, MUTED, Page, height_of
from thermowell_index.writer.remark_sheets import SURVEY_BOXES
from thermowell_index.writer.report import Report

TITLE = FIELD_SURVEY
HINT = (
    "Print it, fill in the boxes, type them in here, and give the workbook back with --survey. Two readings that agree "
    "enter as one measured value."
)
HEADINGS = (
    "No.",
    "Tag",
    "Where",
    "Measure",
    "Rod",
    "Exact to",
    "Unit",
    "First reading",
    "Second reading",
    "By",
    "On",
    "Loop duty",
    "Remark",
    "Why it is asked",
    "Taken",
)
WIDTHS = (5.0, 14.0, 19.0, 11.0, 7.5, 7.5, 5.0, 14.5, 14.5, 8.0, 9.0, 10.0, 17.0, 24.0, 8.0)
WIDE = len(WIDTHS)
BOXES = SURVEY_BOXES
LEAST_LINES = 3
TEXT_FORMAT = "@"
_SIDE = Side(style="thin", color=MUTED)
BOX = Border(left=_SIDE, right=_SIDE, top=_SIDE, bottom=_SIDE)
INDENTED = Alignment(wrap_text=True, vertical="top", horizontal="left", indent=1)
IN_BOX = Alignment(wrap_text=True, vertical="center")
FORM_NOTE = (
    "Exact to: a reading that good is sure to decide. Loop duty: trip, control or indication, filled in before the "
    "sensor is withdrawn. A reading without its own unit is in the unit of its line."
)


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    _write_cautions(page, report)
    _write_questions(page, report)
    heading_row = None
    if report.survey.lines:
        page.break_page()
        heading_row = _write_form(page, "To measure", report.survey.lines)
    if report.survey.taken:
        _write_form(page, "Taken into this answer", report.survey.taken)
    if report.survey.left_over:
        _write_form(page, "Written in, not taken, and not asked any more", report.survey.left_over)
    page.finish(report, repeated_row=heading_row)


def _write_cautions(page: Page, report: Report) -> None:
    page.section("Cautions")
    for caution in report.cautions:
        page.sentence(caution)
    page.skip()


def _write_questions(page: Page, report: Report) -> None:
    page.section("What to find out, by the rows it releases")
    if not report.survey.questions:
        page.sentence("No row waits for a measurement.")
    else:
        spans = (3, 2, 2, 8)
        numbers = ("Rows it releases alone", "Rows it is part of")
        page.headings(("Find out", *numbers, "How"), spans, numbers)
        for question in report.survey.questions:
            row = page.line((question.label, question.releases, question.concerns, question.how), spans)
            page.sheet.cell(row, 1).font = BOLD_FONT
    if report.survey.unsettled_rows:
        count = report.survey.unsettled_rows
        rows = "1 row waits" if count == 1 else f"{count} rows wait"
        page.sentence(report.in_names(f"{rows} for what no measurement settles; see Discrepancies."))
    page.skip()


def _write_form(page: Page, title: str, lines: Sequence[SurveyLine]) -> int:
    page.section(title)
    page.sentence(FORM_NOTE)
    heading_row = page.headings(HEADINGS, numbers=("No.",))
    for number, line in enumerate(lines, start=1):
        row = page.line(_values(number, line))
        _dress(page, row, line)
    page.skip()
    return heading_row


def _values(number: int, line: SurveyLine) -> Sequence[str | float | None]:
    entry = line.entry
    why = f"{line.why}; also waits for {line.also}" if line.also else line.why
    return (
        number,
        line.tag,
        line.place,
        line.question,
        line.rod,
        line.within,
        line.unit,
        *_written(entry),
        why,
        entry.taken if entry else None,
    )


def _written(entry: SurveyEntry | None) -> tuple[str, ...]:
    if entry is None:
        return ("",) * len(BOXES)
    return entry.first, entry.second, entry.by, entry.on, entry.duty, entry.remark


def _dress(page: Page, row: int, line: SurveyLine) -> None:
    """Make the boxes of a line: high enough to write in, text so that 9-1/4 stays what was typed."""
    least = height_of(LEAST_LINES)
    page.sheet.row_dimensions[row].height = max(page.sheet.row_dimensions[row].height or 0.0, least)
    page.looks.put_on(page.sheet.cell(row, HEADINGS.index("Tag") + 1), font=BOLD_FONT)
    for heading in BOXES:
        cell = page.sheet.cell(row, HEADINGS.index(heading) + 1)
        page.looks.put_on(cell, border=BOX, number_format=TEXT_FORMAT, alignment=IN_BOX)
    page.looks.put_on(page.sheet.cell(row, HEADINGS.index("Why it is asked") + 1), alignment=INDENTED)
    if line.choices:
        choices = DataValidation(type="list", formula1=f'"{",".join(line.choices)}"', allow_blank=True)
        choices.add(page.sheet.cell(row, HEADINGS.index("First reading") + 1).coordinate)
        page.sheet.add_data_validation(choices)
