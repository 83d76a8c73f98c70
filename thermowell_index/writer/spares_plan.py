"""The sheet Spares plan: the fewest lengths to keep of each kind of sensor, and which tags each of them serves."""

from itertools import zip_longest

from openpyxl import Workbook

from thermowell_index.answers import NO_THREAD, SpareLength, SparesKind
from thermowell_index.units import format_length
from thermowell_index.writer.lengths import limit_text
from thermowell_index.writer.page import BOLD_FONT, Page, in_rows
from thermowell_index.writer.report import Report

TITLE = "Spares plan"
HINT = (
    "The fewest lengths that serve every tag with a length to order. Margin is what is left of the spring's preload "
    "or reserve once all tolerances are taken; of plans with as few lengths this one has the largest least margin. "
    "A sensor bought in kind is not in it: only its own length is proven. Nor is one in a compression fitting, which "
    "takes any longer one."
)
HEADINGS = ("Length to keep", "Tags", "Least margin", "Tightest", "Best for", "Without it no length fits")
WIDTHS = (14.0, 8.0, 13.0, 19.0, 62.0, 40.0)
NOT_STATED = "not stated"


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    page.sentence(_summary(report))
    for kind in report.spares:
        page.skip()
        _write_kind(page, kind)
    page.finish(report)


def _summary(report: Report) -> str:
    if not report.spares:
        return "No well has a length to order, so there is nothing to keep."
    wells = sum(kind.wells for kind in report.spares)
    lengths = sum(len(kind.lengths) for kind in report.spares)
    ordered = sum(kind.ordered_lengths for kind in report.spares)
    return (
        f"{_counted(wells, 'tag')} of {_counted(len(report.spares), 'kind')} of sensor: "
        f"{_counted(lengths, 'length')} to keep, where each tag's own best takes {ordered}."
    )


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" + ("" if count == 1 else "s")


def _write_kind(page: Page, kind: SparesKind) -> None:
    words = (
        kind.mounting,
        kind.sheath_diameter,
        kind.sensor_type,
        kind.element_count,
        kind.sheath_material,
        f"thread {kind.thread}" if kind.thread not in {"", NO_THREAD} else "",
    )
    page.section(", ".join(word for word in words if word))
    page.sentence(
        f"Length measured {kind.plane or NOT_STATED}. {_counted(kind.wells, 'tag')}, "
        f"{_counted(len(kind.lengths), 'length')} to keep; each tag's own best takes {kind.ordered_lengths}."
    )
    page.headings(HEADINGS, numbers=("Tags",))
    for length in kind.lengths:
        _write_length(page, length, kind.increment_unit)


def _write_length(page: Page, length: SpareLength, unit: str) -> None:
    values = (
        format_length(length.length_mm, unit, fractions=unit == "in"),
        len(length.tags),
        limit_text(length.least_margin_mm, unit),
        length.tightest_tag,
    )
    lost = ("all of these",) if length.lost_tags == length.tags else length.lost_tags
    tags = (in_rows(length.tags, WIDTHS[-2]), in_rows(lost, WIDTHS[-1]))
    for index, texts in enumerate(zip_longest(*tags, fillvalue="")):
        row = page.line((*(values if index == 0 else [None] * len(values)), *texts))
        page.sheet.cell(row, 1).font = BOLD_FONT
