"""The sheet Substitutes: which item of the store fits each tag now, and which tags each item serves."""

import math
from typing import cast

from openpyxl import Workbook

from thermowell_index.answers import ItemUse, StockFit, Substitutes, TagSubstitutes
from thermowell_index.units import format_length
from thermowell_index.writer.lengths import limit_text
from thermowell_index.writer.page import BOLD_FONT, Page, in_rows
from thermowell_index.writer.report import Report

TITLE = "Substitutes"
HINT = (
    "What is in the store and fits now: its length lies from shortest to longest, and nothing that is stated "
    "contradicts. What nobody has stated is named, to be confirmed at the shelf before the item is taken. "
    "Pieces are set aside so that as many sensors as can be are served."
)
TAG_HEADINGS = (
    "Tag",
    "Index",
    "Length to order",
    "Shortest",
    "Longest",
    "Items",
    "Set aside",
    "Fits now, least to confirm first, then best margin",
)
ITEM_HEADINGS = ("Item", "Line", "Length", "Diameter", "What it is", "Pieces", "Serves", "Would fit as well")
WIDTHS = (18.0, 17.0, 12.0, 10.0, 22.0, 8.0, 18.0, 62.0)
FITS_SHOWN = 6
NOT_STATED = "not stated"


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet; there is one only where a store's list was given."""
    found = cast("Substitutes", report.substitutes)
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report, HINT)
    page.sentence(_summary(found))
    for note in found.store.notes:
        page.sentence(note)
    page.skip()
    heading_row = _write_tags(page, found)
    page.break_page()  # its heading would be left alone at the foot of the tags' page
    _write_items(page, found)
    _write_passed_over(page, found)
    page.sheet.freeze_panes = f"B{heading_row + 1}"
    page.finish(report)


def _summary(found: Substitutes) -> str:
    served = sum(1 for tag in found.tags if tag.fits)
    set_aside = sum(len(tag.set_aside) for tag in found.tags)
    return (
        f"{found.store.name}: {len(found.store.items)} usable lines. {served} of {len(found.tags)} rows with a length "
        f"have an item that fits; pieces set aside: {set_aside}."
    )


def _write_tags(page: Page, found: Substitutes) -> int:
    page.section("For each tag")
    heading_row = page.headings(TAG_HEADINGS, numbers=("Items",))
    for tag in found.tags:
        if tag.fits:
            row = page.line(_tag(tag))
            page.sheet.cell(row, TAG_HEADINGS.index("Set aside") + 1).font = BOLD_FONT
    without = [tag.tag for tag in found.tags if not tag.fits]
    for number, text in enumerate(in_rows(without, sum(WIDTHS)) if without else []):
        page.sentence(text if number else f"Nothing in the store fits {_counted(len(without))}: {text}")
    page.skip()
    return heading_row


def _counted(count: int) -> str:
    return f"{count} row" + ("" if count == 1 else "s")


def _tag(tag: TagSubstitutes) -> tuple[str | float, ...]:
    return (
        tag.tag,
        f"{tag.sheet} row {tag.row}",
        format_length(tag.order_mm, tag.unit, fractions=tag.unit == "in"),
        limit_text(tag.shortest_mm, tag.unit),
        "any longer" if math.isnan(tag.longest_mm) else limit_text(tag.longest_mm, tag.unit),
        len(tag.fits),
        ", ".join(tag.set_aside),
        _fits(tag),
    )


def _fits(tag: TagSubstitutes) -> str:
    lines = [_fit(fit, tag.unit) for fit in tag.fits[:FITS_SHOWN]]
    more = len(tag.fits) - FITS_SHOWN
    return "\n".join([*lines, *([f"and {more} more"] if more > 0 else [])])


def _fit(fit: StockFit, unit: str) -> str:
    length = format_length(fit.item.length_mm, fit.item.unit, fractions=fit.item.unit == "in")
    confirm = f"; confirm {', '.join(fit.confirm)}" if fit.confirm else ""
    return f"{fit.item.item}: {length}, margin {limit_text(fit.margin_mm, unit)}{confirm}"


def _write_items(page: Page, found: Substitutes) -> None:
    page.section("For each item")
    page.headings(ITEM_HEADINGS, numbers=("Pieces",))
    for use in found.items:
        _write_item(page, use)
    page.skip()


def _write_item(page: Page, use: ItemUse) -> None:
    item = use.item
    what = ", ".join(dict.fromkeys(text for text in (item.mounting, item.kind, item.thread) if text))
    serves, others = in_rows(use.serves, WIDTHS[-2]), in_rows(use.also_fits, WIDTHS[-1])
    for index in range(max(len(serves), len(others))):
        own = (
            item.item,
            f"{item.sheet} row {item.row}",
            format_length(item.length_mm, item.unit, fractions=item.unit == "in"),
            item.diameter or NOT_STATED,
            what or NOT_STATED,
            NOT_STATED if item.quantity is None else item.quantity,
        )
        texts = ["".join(listed[index : index + 1]) for listed in (serves, others)]
        row = page.line((*(own if index == 0 else [None] * len(own)), *texts))
        page.sheet.cell(row, 1).font = BOLD_FONT


def _write_passed_over(page: Page, found: Substitutes) -> None:
    if not found.store.passed_over:
        return
    page.section("Lines of the store's list that were not used")
    spans = (1, 4, 3)
    page.headings(("Line", "Item", "Why"), spans)
    for passed in found.store.passed_over:
        page.line((passed.line, passed.item, passed.reason), spans)
