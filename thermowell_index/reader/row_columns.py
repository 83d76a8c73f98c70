"""The frame columns of one table's rows: each field's values, and the cells that they were read from."""

from collections.abc import Mapping, Sequence

import numpy as np

from thermowell_index.reader.cells import day_or_text
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.lengths import Length
from thermowell_index.table import GONE, REMARK_JOINT, UNIT_IN_CELL, CellState, ColumnRead
from thermowell_index.units import METRIC, is_placeholder

FILLED_DOWN = ("area", "service", "line_number", "line_size")


def text_columns(name: str, column: ColumnRead | None, grid: Grid, rows: Sequence[int]) -> dict[str, Sequence[object]]:
    """Return the frame columns of one field of words, with where each text stands."""
    if column is None:
        return {name: [""] * len(rows), f"{name}_at": [None] * len(rows)}
    return {
        name: [_text(grid, row, column, name) for row in rows],
        f"{name}_at": [(grid.name, *grid.anchor(row, column.column)) for row in rows],
    }


def _text(grid: Grid, row: int, column: ColumnRead, name: str) -> str:
    if grid.is_continued(row, column.column) and name not in FILLED_DOWN:
        return ""
    if name == "measured_on":
        return day_or_text(grid.cell(*grid.anchor(row, column.column)), grid.package)
    return " ".join(grid.text(row, column.column).split())


def length_columns(
    name: str, column: Sequence[Length] | None, sheet: str, rows: Sequence[int]
) -> dict[str, Sequence[object]]:
    """Return the frame columns of one length field."""
    count = len(rows)
    if column is None:
        empty = [""] * count
        return {
            f"{name}_mm": np.full(count, np.nan).tolist(),
            f"{name}_state": [CellState.ABSENT] * count,
            f"{name}_text": empty,
            f"{name}_typed": empty,
            f"{name}_unit": empty,
            f"{name}_unit_from": empty,
            f"{name}_note": empty,
            f"{name}_shown_mm": np.full(count, np.nan).tolist(),
            f"{name}_drawn_mm": np.full(count, np.nan).tolist(),
            f"{name}_at": [None] * count,
        }
    return {
        f"{name}_mm": [length.value_mm for length in column],
        f"{name}_state": [length.state for length in column],
        f"{name}_text": [_with_unit(length) for length in column],
        f"{name}_typed": [length.reading.text for length in column],
        f"{name}_unit": [length.unit for length in column],
        f"{name}_unit_from": [length.unit_from for length in column],
        f"{name}_note": [length.reading.note for length in column],
        f"{name}_shown_mm": [length.shown_mm for length in column],
        f"{name}_drawn_mm": [length.drawn_mm for length in column],
        f"{name}_at": [(sheet, row, length.column) for row, length in zip(rows, column, strict=True)],
    }


def _with_unit(length: Length) -> str:
    """Return a cell's text, with the unit that the column gives where the cell has none."""
    text = length.reading.text
    if length.state is CellState.MISSING or length.unit_from == "cell" or not length.unit:
        return text
    return f"{text} {length.unit}" if length.state in {CellState.VALUE, CellState.DOUBTFUL} else text


def row_units(read: Mapping[str, Sequence[Length]], count: int, default: str | None) -> list[str]:
    """Return each row's unit, in or mm: that of its bore depth, else of its overall length, else of any length."""
    order = ["measured_bore_depth", "bore_depth", "overall_length", *read]
    units = [""] * count
    for name in order:
        for number, length in enumerate(read.get(name, ())):
            is_given = length.state not in GONE
            if (
                not units[number]
                and length.unit
                and is_given
                and (name in order[:3] or length.unit_from not in UNIT_IN_CELL)
            ):
                units[number] = "mm" if length.unit in METRIC else "in"
    known = [unit for unit in units if unit]
    common = max(("in", "mm"), key=known.count) if known else ("mm" if default in METRIC else "in" if default else "")
    return [unit or common for unit in units]


def words_in(grid: Grid, row: int, columns: Sequence[int]) -> str:
    """Return the words in a row's cells that were read as no field: they may say what a field's column would."""
    cells = (grid.cell(row, column) for column in columns)
    texts = (cell.value for cell in cells if cell is not None and isinstance(cell.value, str))
    return " | ".join(text for text in texts if any(map(str.isalpha, text)))


def with_more_remarks(first: Sequence[str], grid: Grid, columns: Sequence[int], rows: Sequence[int]) -> list[str]:
    """Return the remarks of each row, with what further columns of remarks say behind those of the first."""
    if not columns:
        return list(first)
    return [
        REMARK_JOINT.join(filter(None, (text, *(" ".join(grid.text(row, column).split()) for column in columns))))
        for text, row in zip(first, rows, strict=True)
    ]


def is_nothing(text: str) -> bool:
    """Whether a cell names no extension: blank, a placeholder, none or nought."""
    plain = text.strip().upper()
    return is_placeholder(text) or plain in {"NO", "N", "NONE", "0", "0.0"}
