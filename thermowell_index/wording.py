"""Where a finding points to, and cells and lengths as a reader sees them."""

import math
from collections import Counter
from collections.abc import Iterable
from functools import lru_cache

import pandas as pd

from thermowell_index.dictionary import FIELD
from thermowell_index.table import Frame, IndexTable, flag, number, whole, word
from thermowell_index.units import format_length


def where(table: IndexTable, row_id: int, field: str) -> tuple[str, int, str]:
    """Return sheet, row and cell that a finding points to: the field's cell, else the row's tag cell."""
    place = table.address(row_id, field) or table.address(row_id, "tag") or table.address(row_id, "well_tag")
    if place is None:
        return word(table.frame, row_id, "sheet"), whole(table.frame, row_id, "row"), ""
    sheet, row, column = place
    return sheet, row, f"{_letters(column)}{row}"


def _letters(column: int) -> str:
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def shown(name: str, row_id: int, frame: Frame) -> str:
    """Return a field with its text as typed, or a computed length in the row's unit."""
    field = name.removesuffix("_mm").removesuffix("_state").removesuffix("_text")
    if field in FIELD:
        column = f"{field}_text" if f"{field}_text" in frame else field
        text = word(frame, row_id, column).strip()
        return f"{FIELD[field].label} {text}" if text else ""
    if name.endswith("_mm") and name in frame and not math.isnan(length := number(frame, row_id, name)):
        return f"{field.replace('_', ' ')} {row_length(length, row_id, frame)}"
    return ""


@lru_cache(maxsize=65536)
def _length_text(length_mm: float, unit: str, *, fractions: bool) -> str:
    return format_length(length_mm, unit, fractions=fractions)


def row_length(length_mm: float, row_id: int, frame: Frame) -> str:
    """Return a length in the unit and manner (fractions or decimals) of its row."""
    return _length_text(length_mm, word(frame, row_id, "unit") or "mm", fractions=flag(frame, row_id, "in_fractions"))


def row_lengths(lengths_mm: "pd.Series[float]", frame: Frame) -> "pd.Series[str]":
    """Return lengths as text, each in the unit and manner of its row; empty where there is none."""
    return pd.Series(
        [
            "" if math.isnan(length) else _length_text(length, unit or "mm", fractions=bool(fractions))
            for length, unit, fractions in zip(lengths_mm, frame["unit"], frame["in_fractions"], strict=True)
        ],
        index=frame.index,
        dtype=object,
    )


SHOWN_OF_MANY = 3


def listed(texts: Iterable[str]) -> str:
    """Return the text that all rows share, else the most frequent ones with how often they stand."""
    counts = Counter(texts)
    if len(counts) == 1:
        return next(iter(counts))
    most = [f"{text} ({count})" if count > 1 else text for text, count in counts.most_common(SHOWN_OF_MANY)]
    more = len(counts) - len(most)
    return "; ".join([*most, *([f"and {more} more"] if more else [])])
