"""What a length cell says: a value, nothing, or why it cannot be read."""

import datetime as dt
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from thermowell_index.ooxml import Cell, Package
from thermowell_index.reader.grid import cell_text, is_struck_out
from thermowell_index.table import CellState
from thermowell_index.units import (
    Dimension,
    DimensionState,
    date_as_typed,
    dimension_of_number,
    parse_dimension,
    shown_number,
)

STATES = {
    DimensionState.VALUE: CellState.VALUE,
    DimensionState.MISSING: CellState.MISSING,
    DimensionState.DOUBTFUL: CellState.DOUBTFUL,
    DimensionState.RANGE: CellState.RANGE,
    DimensionState.UNREADABLE: CellState.UNREADABLE,
}
ERROR_TEXT = re.compile(r"#(?:REF!|N/A|VALUE!|NAME\?|DIV/0!|NUM!|NULL!|WERT!|BEZUG!|NV|CALC!|SPILL!)")
MONTHS = "jan|feb|mar|mär|apr|may|mai|jun|jul|aug|sep|oct|okt|nov|dec|dez"
DATE_TEXT = re.compile(
    rf"\d{{1,2}}(?:[-. ]|\. )(?:{MONTHS})[a-z]*\.?(?:[-. ]\d{{2,4}})?"
    rf"|(?:{MONTHS})[a-z]*\.?[-. ]\d{{1,4}}"
    r"|\d{4}-\d{2}-\d{2}(?:[T ].*)?",
    re.IGNORECASE,
)
EPOCH = dt.date(1899, 12, 30)
EPOCH_1904 = dt.date(1904, 1, 1)


def day_or_text(cell: Cell | None, package: Package) -> str:
    """Return what a cell for a day shows: a date as YYYY-MM-DD, anything else as its text."""
    if cell is None:
        return ""
    read = read_length(cell, package)
    return read.text if read.state is CellState.DATE else cell_text(cell)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One length cell as read; `number` is exact and in `unit` (None: bare); `is_number`: the cell holds a number."""

    state: CellState
    text: str = ""
    number: Fraction | None = None
    unit: str | None = None
    note: str = ""
    decimal_mark: str | None = None
    is_ambiguous: bool = False
    shown: Fraction | None = None
    is_number: bool = False


MISSING = Reading(state=CellState.MISSING)


def read_length(cell: Cell | None, package: Package, decimal_mark: str | None = None) -> Reading:
    """Return what a length cell holds; a date, a dead formula and a struck part are told from numbers and text."""
    if cell is None or (cell.value is None and not cell.is_formula):
        return MISSING
    if is_struck_out(cell, package):
        return Reading(state=CellState.DOUBTFUL, text=f"{cell_text(cell)} (struck out)", note="struck out")
    if cell.kind == "e" or cell.value is None:
        shown = str(cell.value) if cell.value is not None else "formula without a stored result"
        return Reading(state=CellState.DEAD, text=shown)
    return _read_value(cell, cell.value, package, decimal_mark)


def _read_value(cell: Cell, value: str | float, package: Package, decimal_mark: str | None) -> Reading:
    text = cell_text(cell)
    if cell.kind == "d":
        return Reading(state=CellState.DATE, text=text)
    if isinstance(value, bool):
        return Reading(state=CellState.UNREADABLE, text=text)
    return _read_number(cell, value, package) if isinstance(value, float) else read_length_text(text, decimal_mark)


@lru_cache(maxsize=65536)
def read_length_text(text: str, decimal_mark: str | None) -> Reading:
    """Return what a text says as a length."""
    if ERROR_TEXT.fullmatch(text.strip()):
        return Reading(state=CellState.DEAD, text=text)
    if DATE_TEXT.fullmatch(text.strip()):
        return Reading(state=CellState.DATE, text=text)
    return _from_dimension(parse_dimension(text, decimal_mark=decimal_mark), text)


def _from_dimension(found: Dimension, text: str, shown: Fraction | None = None, *, is_number: bool = False) -> Reading:
    return Reading(
        state=STATES[found.state],
        text=text,
        number=found.number,
        unit=found.unit,
        note=found.note,
        decimal_mark=found.decimal_mark,
        is_ambiguous=found.ambiguous,
        shown=shown,
        is_number=is_number,
    )


def _read_number(cell: Cell, value: float, package: Package) -> Reading:
    code = package.number_format(cell.style)
    if package.is_date(cell.style):
        when = _date(value, is_1904=package.date_1904)
        typed = date_as_typed(when, code) if when else None
        text = when.isoformat() if when else repr(value)
        return Reading(state=CellState.DATE, text=text, note=typed or "")
    if "%" in code:
        return Reading(state=CellState.UNREADABLE, text=f"{value:.15g} shown as a percentage")
    return _number_as_formatted(value, code, cell_text(cell))


@lru_cache(maxsize=65536)
def _number_as_formatted(value: float, code: str, text: str) -> Reading:
    return _from_dimension(dimension_of_number(value, code), text, shown_number(value, code), is_number=True)


def _date(value: float, *, is_1904: bool) -> dt.date | None:
    try:
        return (EPOCH_1904 if is_1904 else EPOCH) + dt.timedelta(days=int(value))
    except OverflowError:
        return None
