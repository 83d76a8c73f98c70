"""What a store's list answers, as data."""

from typing import Any

from thermowell_index.answers import ItemUse, Substitutes, TagSubstitutes

NANOMETRE_DIGITS = 6


def substitutes_data(found: Substitutes) -> dict[str, Any]:
    """Return the answer as plain data: by tag what fits, by item whom it serves, and the lines that were not used."""
    return {
        "store": found.store.name,
        "tags": [_tag(tag) for tag in found.tags],
        "notes": list(found.store.notes),
        "items": [_item(use) for use in found.items],
        "passed_over": [passed._asdict() for passed in found.store.passed_over],
    }


def _tag(tag: TagSubstitutes) -> dict[str, Any]:
    return {
        "tag": tag.tag or None,
        "sheet": tag.sheet,
        "row": tag.row,
        "fits": [
            {
                "item": fit.item.item,
                "sheet": fit.item.sheet,
                "row": fit.item.row,
                "length_mm": round(fit.item.length_mm, NANOMETRE_DIGITS),
                "margin_mm": round(fit.margin_mm, NANOMETRE_DIGITS),
                "confirm": list(fit.confirm),
            }
            for fit in tag.fits
        ],
        "set_aside": list(tag.set_aside),
    }


def _item(use: ItemUse) -> dict[str, Any]:
    return {
        "item": use.item.item,
        "sheet": use.item.sheet,
        "row": use.item.row,
        "length_mm": round(use.item.length_mm, NANOMETRE_DIGITS),
        "quantity": use.item.quantity,
        "serves": list(use.serves),
        "also_fits": list(use.also_fits),
    }
