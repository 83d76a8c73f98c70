"""The sheet Order schedule: identical sensors and parts on one line, what is held, and totals that reconcile."""

from collections.abc import Sequence
from itertools import zip_longest

from openpyxl import Workbook

from thermowell_index.units import format_length
from thermowell_index.writer.order_data import OrderSchedule, SensorLine
from thermowell_index.writer.page import BOLD_FONT, Page, in_rows
from thermowell_index.writer.report import Report

TITLE = "Order schedule"
HINT = (
    "A length is valid only for the plane it is measured from and the stated sensor. What is not stated has to be "
    "agreed with the maker before ordering. Special: the length is not on the list of the sensor's standard lengths. "
    "Extension parts name the tags whose nipple has no known length."
)
HEADINGS = (
    "Line",
    "Quantity",
    "Probe length to order",
    "Measured",
    "Mounting",
    "Sheath diameter",
    "Sensor type",
    "Elements",
    "Sheath material",
    "Mounting thread",
    "Tags",
    "Look at before ordering",
)
WIDTHS = (5.5, 8.5, 11.0, 24.0, 15.0, 10.0, 13.0, 9.0, 11.0, 11.0, 38.0, 20.0)
NOT_STATED = "not stated"
SPECIAL = ", special"


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    heading_row = _write_sensors(page, report.schedule)
    _write_parts(page, report.schedule)
    _write_held(page, report.schedule)
    _write_totals(page, report.schedule)
    page.sheet.freeze_panes = f"A{heading_row + 1}"
    page.finish(report)


def _write_sensors(page: Page, schedule: OrderSchedule) -> int:
    heading_row = page.headings(HEADINGS, numbers=("Line", "Quantity"))
    for number, line in enumerate(schedule.sensors, start=1):
        values = _sensor(number, line)
        tags = (in_rows(line.tags, WIDTHS[-2]), in_rows(line.review_tags, WIDTHS[-1]))
        for index, texts in enumerate(zip_longest(*tags, fillvalue="")):
            row = page.line((*(values if index == 0 else [None] * len(values)), *texts))
            page.sheet.cell(row, HEADINGS.index("Probe length to order") + 1).font = BOLD_FONT
    if not schedule.sensors:
        page.sentence("No sensor can be ordered.")
    page.skip()
    return heading_row


def _sensor(number: int, line: SensorLine) -> Sequence[str | float | None]:
    unit = line.increment_unit
    return (
        number,
        line.quantity,
        format_length(line.order_length_mm, unit, fractions=unit == "in") + (SPECIAL if line.is_special else ""),
        line.plane or NOT_STATED,
        line.mounting or NOT_STATED,
        line.sheath_diameter or NOT_STATED,
        line.sensor_type or NOT_STATED,
        line.element_count or NOT_STATED,
        line.sheath_material or NOT_STATED,
        line.thread or NOT_STATED,
    )


def _write_parts(page: Page, schedule: OrderSchedule) -> None:
    if not schedule.parts:
        return
    page.section("Extension parts")
    spans = (1, 1, 3, 7)
    page.headings(("Line", "Quantity", "Part", "Tags"), spans, ("Line", "Quantity"))
    for number, line in enumerate(schedule.parts, start=1):
        for index, text in enumerate(in_rows(line.tags, sum(WIDTHS[-spans[-1] :]))):
            page.line((number, line.quantity, line.part, text) if index == 0 else (None, None, None, text), spans)
    page.skip()


def _write_held(page: Page, schedule: OrderSchedule) -> None:
    if not schedule.held:
        return
    page.section("Held: no length can be given yet")
    spans = (3, 1, 1, 1, 6)
    page.headings(("Tag", "Service", "Sheet", "Row", "Why"), spans, ("Row",))
    for line in schedule.held:
        page.line((line.tag or "no tag", line.service, line.sheet, line.row, line.reason), spans)
    page.skip()


def _write_totals(page: Page, schedule: OrderSchedule) -> None:
    totals = schedule.totals
    page.section("Totals")
    spans = (3, 1)
    page.headings(("Rows", "Count"), spans, ("Count",))
    for label, count in (
        ("ordered", totals.ordered),
        ("withheld", totals.withheld),
        ("not wanted (quantity zero)", totals.not_wanted),
        ("not applicable", totals.not_applicable),
    ):
        page.line((label, count), spans)
    row = page.line(("rows read", totals.rows), spans)
    for column in (1, sum(spans)):
        page.sheet.cell(row, column).font = BOLD_FONT
    page.skip()
    page.sentence(f"The {totals.ordered} rows ordered want {totals.sensors} sensors.")
