"""What was read of each row, as data: every value with its cell, its text as typed, its unit and where that is from."""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from thermowell_index.ooxml import column_letters
from thermowell_index.table import CellState, IndexTable, Place

NANOMETRE_DIGITS = 6

Value: TypeAlias = Mapping[str, Any]


def values_read(table: IndexTable, fields: Sequence[str]) -> list[dict[str, Value]]:
    """Return for each row the fields that have something in them, with what was read there."""
    rows: list[dict[str, Value]] = [{} for _ in table.frame.index]
    for name in (field for field in fields if f"{field}_at" in table.frame):
        is_length = f"{name}_state" in table.frame
        for row, value in zip(rows, _lengths(table, name) if is_length else _texts(table, name), strict=True):
            if value:
                row[name] = value
    return rows


def _texts(table: IndexTable, name: str) -> Iterator[Value]:
    """Yield the words of one field, row for row; nothing where there are none."""
    frame = table.frame
    parts = {table_id: read.tag_parts for table_id, read in table.tables.items() if len(read.tag_parts) > 1}
    for text, place, table_id in zip(frame[name], frame[f"{name}_at"], frame["table_id"], strict=True):
        if not text:
            yield {}
            continue
        cell = _cell(place)
        if name == "tag" and place is not None and place[2] == parts.get(table_id, (0,))[0]:
            cell = "+".join(f"{column_letters(column)}{place[1]}" for column in parts[table_id])
        yield {"sheet": place[0] if place else None, "cell": cell, "text": text}


def _lengths(table: IndexTable, name: str) -> Iterator[Value]:
    """Yield the lengths of one field, row for row; nothing where a cell is blank or there is no column."""
    parts = ("mm", "state", "typed", "unit", "unit_from", "note", "at")
    columns = (table.frame[f"{name}_{part}"] for part in parts)
    for value_mm, state, typed, unit, unit_from, note, place in zip(*columns, strict=True):
        if state == CellState.ABSENT or not typed:
            yield {}
            continue
        is_unit = bool(unit) and state != CellState.MISSING
        value = {
            "sheet": place[0] if place else None,
            "cell": _cell(place),
            "text": typed,
            "value_mm": round(value_mm, NANOMETRE_DIGITS) if not math.isnan(value_mm) else None,
            "unit": unit if is_unit else None,
            "unit_from": unit_from if is_unit else None,
            "state": str(state),
        }
        yield {**value, "note": note} if note else value


def _cell(place: Place | None) -> str | None:
    return f"{column_letters(place[2])}{place[1]}" if place else None
