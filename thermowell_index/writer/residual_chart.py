"""The part of Check summary that shows how stated lengths lie against computed ones: a table a group, and a chart."""

from typing import Final

from openpyxl.chart import BarChart, Reference
from openpyxl.chart.shapes import GraphicalProperties
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.answers import Residuals
from thermowell_index.writer.page import Page

SECTION = "Stated probe lengths against computed ones"
HINT = (
    "Each row's stated probe length less the length computed for it. Where many rows of one mounting and area stand at "
    "one value that is not as computed, it is a convention of the plant and no slip: one decision settles them all."
)
GROUP_HEADINGS = ("Mounting and area", "Rows", "Fit", "Most often", "Rows so")
GROUP_SPANS = (3, 1, 1, 2, 1)
STEP_HEADING = "Stated less computed"
# Apart in grey as in colour: they alternate between dark and light.
COLOURS: Final = ("1F4E79", "C55A11", "7F9DB9", "7F6000", "BFBFBF", "548235", "D9B38C")
CHART_HEIGHT_CM: Final = 9.5
CHART_WIDTH_CM: Final = 26.0
CHART_ROWS: Final = 20


def write_residuals(page: Page, residuals: Residuals, unit: str) -> None:
    """Write the section: a line a group, the chart, and the numbers behind it."""
    page.break_page()  # so that none goes through the chart
    page.section(SECTION)
    page.sentence(HINT)
    page.headings(GROUP_HEADINGS, GROUP_SPANS, ("Rows", "Fit", "Rows so"))
    for group in residuals.groups:
        page.line((group.label, group.rows, group.fits, group.most_often, group.most_often_rows), GROUP_SPANS)
    page.skip()
    chart_row = page.next_row
    page.next_row += CHART_ROWS
    labels = [group.label for group in residuals.groups]
    first = page.headings((f"{STEP_HEADING} ({unit})", *labels), numbers=labels)
    for place, step in enumerate(residuals.steps):
        page.line((step, *(group.counts[place] or None for group in residuals.groups)))
    page.sheet.add_chart(_chart(page.sheet, first, page.next_row - 1, len(labels), unit), f"A{chart_row}")
    page.skip()


def _chart(sheet: Worksheet, first: int, last: int, groups: int, unit: str) -> BarChart:
    chart = BarChart()
    chart.type, chart.grouping, chart.overlap, chart.gapWidth = "col", "stacked", 100, 30
    chart.add_data(Reference(sheet, min_col=2, max_col=1 + groups, min_row=first, max_row=last), titles_from_data=True)
    chart.set_categories(Reference(sheet, min_col=1, min_row=first + 1, max_row=last))
    for series, colour in zip(chart.series, COLOURS, strict=False):
        series.graphicalProperties = GraphicalProperties(solidFill=colour)
    chart.x_axis.title, chart.y_axis.title = f"stated less computed probe length ({unit})", "rows"
    chart.x_axis.delete = chart.y_axis.delete = False
    chart.x_axis.tickLblPos = "low"
    chart.y_axis.number_format, chart.y_axis.majorGridlines = "0", None
    chart.legend.position = "b"
    chart.height, chart.width = CHART_HEIGHT_CM, CHART_WIDTH_CM  # type: ignore[assignment]  # the stubs know whole ones
    return chart
