"""The sheet First touch: a line a sensor to take along to the well, with what is good when the tip first touches."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from openpyxl import Workbook

from thermowell_index.answers import TouchCard
from thermowell_index.units import format_length
from thermowell_index.writer.field_survey import BOX, TEXT_FORMAT
from thermowell_index.writer.lengths import limit_text
from thermowell_index.writer.page import BOLD_FONT, Page, height_of
from thermowell_index.writer.page import NUMBERS as RIGHT
from thermowell_index.writer.remark_sheets import TOUCH_BOXES, TOUCH_LINE
from thermowell_index.writer.report import Report
from thermowell_index.writer.touch_readings import as_own_line, in_words, placed, touch_line

TITLE = "First touch"
HINT = (
    "Let the sensor down by hand until its tip touches the bottom, hold it there without pressing, and measure what "
    "stands off. Outside what is good: do not tighten, note what was found, and have length and bore checked. What is "
    "written in Found, By and On is carried over by the next run."
)
TURNS_NOTE = (
    "Turns to tight are counted from first touch, or from where the thread takes hold when its end stands off: push it "
    "down on to the face first. A negative stand-off: the thread is in by that much when the tip touches. A fitting "
    "without a spring must come tight before its tip touches."
)
HEADINGS = (
    TOUCH_LINE[0],
    "Where",
    *TOUCH_LINE[1:],
    *TOUCH_BOXES,
)
WIDTHS = (15.0, 22.0, 11.0, 28.0, 16.0, 10.0, 10.0, 10.0, 8.0, 11.0, 9.0, 10.0)
NUMBERS = ("Expected", "Good from", "to", "Turns to tight")
LEAST_LINES = 2
FIRST_BOX = HEADINGS.index(TOUCH_BOXES[0]) + 1


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    page.sentence(TURNS_NOTE)
    for caution in report.cautions:
        page.sentence(caution)
    page.skip()
    heading_row = page.headings(HEADINGS, numbers=NUMBERS)
    readings, _ = placed(_lines(report.touch_cards), report.history.touch_readings)
    for place, card in enumerate(report.touch_cards):
        _write_card(page, card, dict(readings[place].written) if place in readings else {})
    if not report.touch_cards:
        page.sentence("No sensor has a length to order.")
    page.sheet.freeze_panes = page.sheet.cell(heading_row + 1, 2).coordinate
    page.finish(report, repeated_row=heading_row)


def with_readings_kept(report: Report) -> Report:
    """Return a report in which what was read at first touch and fits no line any more is laid down, and said."""
    _, lost = placed(_lines(report.touch_cards), report.history.touch_readings)
    if not lost:
        return report
    history = report.history
    own_lines = list(dict.fromkeys((*history.own_lines, *map(as_own_line, lost))))
    return replace(report, history=replace(history, own_lines=own_lines, said=[*history.said, in_words(lost)]))


def _lines(cards: Sequence[TouchCard]) -> list[str]:
    return [touch_line(dict(zip(HEADINGS, _texts(card), strict=False))) for card in cards]


def _texts(card: TouchCard) -> tuple[str, ...]:
    return (
        card.tag,
        card.place,
        format_length(card.length_mm, card.unit, fractions=card.unit == "in"),
        card.plane,
        card.stands_off,
        *(_shown(length_mm, card.unit) for length_mm in (card.expected_mm, card.least_mm, card.most_mm)),
        "" if math.isnan(card.turns) else f"{card.turns:.1f}",
    )


def _write_card(page: Page, card: TouchCard, found: Mapping[str, str]) -> None:
    row = page.line((*_texts(card), *(found.get(name, "") for name in TOUCH_BOXES)))
    sheet = page.sheet
    sheet.row_dimensions[row].height = max(sheet.row_dimensions[row].height or 0.0, height_of(LEAST_LINES))
    for heading in ("Tag", "Probe length"):
        page.looks.put_on(sheet.cell(row, HEADINGS.index(heading) + 1), font=BOLD_FONT)
    for heading in NUMBERS:
        page.looks.put_on(sheet.cell(row, HEADINGS.index(heading) + 1), alignment=RIGHT)
    for column in range(FIRST_BOX, len(HEADINGS) + 1):
        page.looks.put_on(sheet.cell(row, column), border=BOX, number_format=TEXT_FORMAT)


def _shown(length_mm: float, unit: str) -> str:
    return "" if math.isnan(length_mm) else limit_text(length_mm, unit)
