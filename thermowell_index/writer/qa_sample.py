"""The sheet QA sample: rows that nothing was found on, drawn at random, to be calculated again by hand."""

from collections.abc import Sequence
from typing import cast

from openpyxl import Workbook
from openpyxl.cell.cell import Cell
from openpyxl.styles import Border, Side

from thermowell_index.revisions.memory import NAMES_ONLY, RowMemory
from thermowell_index.revisions.previous import HandValue
from thermowell_index.revisions.sample import in_words, verdict_on
from thermowell_index.units import format_length, parse_dimension
from thermowell_index.writer.page import A3_PAPER, BOLD_FONT, MUTED, Page, lines_of
from thermowell_index.writer.remark_cells import write_date
from thermowell_index.writer.remark_sheets import HAND_VALUE_HEADINGS, sample_name
from thermowell_index.writer.report import Report

TITLE = "QA sample"
HINT = (
    "An error that is made everywhere raises no flag. Calculate these rows by hand from what the index says, and write "
    "the length down; the next run carries it over and compares."
)
WIDTHS = (11.5, 13.0, 13.0, 38.0, 66.0, 9.0, 11.0, 10.0, 10.0, 10.5, 22.0)
EARLIER = "Calculated by hand earlier, for rows that are not in this sample or have changed since"
MOST_STEPS = 32  # lines of a row that no program cuts off
_NOT_SHOWN = NAMES_ONLY | {"remarks"}
_BY_HAND = HAND_VALUE_HEADINGS.index("Length by hand") + 1
_CHECKED_ON = HAND_VALUE_HEADINGS.index("Checked on") + 1
_SIDE = Side(style="thin", color=MUTED)
_BOX = Border(left=_SIDE, right=_SIDE, top=_SIDE, bottom=_SIDE)
_TEXT_FORMAT = "@"


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet; there is one only where a row was drawn or a hand value is kept."""
    sample = report.history.sample
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    page.sentence(f"{in_words(sample, report.history.rows)} Seed of the draw: {sample.seed[:16]}.")
    page.skip()
    heading_row = page.headings(HAND_VALUE_HEADINGS)
    for place in sample.places:
        _write_row(page, report, place)
    page.skip()
    if sample.earlier:
        page.section(EARLIER)
        page.headings(HAND_VALUE_HEADINGS)
        for value in sample.earlier:
            page.line(_earlier(value, report.history.rows))
    page.sheet.freeze_panes = f"C{heading_row + 1}"
    page.finish(report, repeated_row=heading_row, paper=A3_PAPER)


def _write_row(page: Page, report: Report, place: int) -> None:
    row, value = report.history.rows[place], report.history.sample.values[place]
    written = page.line(
        (
            sample_name(value),
            row.tag,
            f"{row.sheet}, row {row.row}",
            _step_by_step(inputs_in_words(report, place), WIDTHS[3]),
            _step_by_step(str(report.table.frame["working"].iloc[place]), WIDTHS[4]),
            format_length(row.order_mm or 0.0, row.unit, fractions=row.in_fractions),
            value.value,
            verdict_on(value.value, row),
            value.checked_by,
            value.checked_on,
            value.comment,
        )
    )
    for column in (_BY_HAND, *range(_BY_HAND + 2, len(HAND_VALUE_HEADINGS) + 1)):
        page.sheet.cell(written, column).border = _BOX
    page.sheet.cell(written, _BY_HAND).number_format = _TEXT_FORMAT
    page.sheet.cell(written, _BY_HAND - 1).font = BOLD_FONT
    write_date(cast("Cell", page.sheet.cell(written, _CHECKED_ON)), value.checked_on, date_1904=report.date_1904)


def inputs_in_words(report: Report, place: int) -> str:
    """Return all that the index says of a row and a length could stand on, a field after the other."""
    row = report.history.rows[place]
    parts = _cells(row, report)
    if row.well_row >= 0:
        well = report.history.rows[row.well_row]
        own = set(row.cells)
        parts += [f"{text} (from {well.tag})" for text in _cells(well, report, leaving_out=own)]
    frame = report.table.frame
    taken = f"taken as: mounting {frame['mounting'].iloc[place]}, extension {frame['arrangement'].iloc[place]}"
    return "; ".join([*parts, taken, f"lengths are {frame['plane'].iloc[place]}"])


def _step_by_step(text: str, width: float) -> str:
    """Return a text with a line for each of its parts, where a row can be that high."""
    lines = text.replace("; ", "\n")
    return lines if lines_of(lines, width) <= MOST_STEPS else text


def _cells(row: RowMemory, report: Report, leaving_out: frozenset[str] | set[str] = frozenset()) -> list[str]:
    return [
        f"{report.field_label(field)} {text}"
        for field, text in row.cells.items()
        if field not in _NOT_SHOWN and field not in leaving_out
    ]


def _earlier(value: HandValue, rows: Sequence[RowMemory]) -> tuple[str, ...]:
    remarks = (value.checked_by, value.checked_on, value.comment)
    return sample_name(value), value.tag, "", "", "", _answer_then(value, rows), value.value, "", *remarks


def _answer_then(value: HandValue, rows: Sequence[RowMemory]) -> str:
    """Return the length to order of then, in the unit of its row; of a row that is gone, in that of the hand value."""
    if not value.answer:
        return ""
    row = next((row for row in rows if (row.key, row.well_key) == (value.key, value.well_key)), None)
    if row is not None:
        return format_length(float(value.answer), row.unit, fractions=row.in_fractions)
    unit = parse_dimension(value.value).unit
    return format_length(float(value.answer), "in" if unit in {"in", "ft"} else "mm", fractions=False)
