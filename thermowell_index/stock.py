"""A store's list read: what is there, how long and how thick it is, how it is held, and how many there are."""

import math
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from thermowell_index.answers import StockItem, StoreList
from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.reader.cells import Reading, read_length
from thermowell_index.reader.formats import open_index
from thermowell_index.reader.grid import Grid
from thermowell_index.records.words import mounting_of
from thermowell_index.sizing.elements import element_count_of, material_of
from thermowell_index.stock_columns import Columns, columns_of
from thermowell_index.stock_words import why_no_sensor, why_taken
from thermowell_index.table import CellState
from thermowell_index.units import format_length, to_mm, unit_of_words

Meaning = TypeVar("Meaning")
WORDS = ("description", "type")
INCHES = frozenset({"in", "ft"})
BARE_COUNT = re.compile(
    r"(-?\s?\d+)(?:[.,]0+)?(?:\s*(?:pcs?|pieces?|ea|each|off|no|st(?:ü|ue)?ck|stk)\.?)?", re.IGNORECASE
)
NO_PIECE = frozenset({"none", "nil", "zero", "keine", "ninguno", "nessuno", "aucun", "geen", "nenhum"})


def read_stock(path: Path) -> StoreList:
    """Return a store's list.

    Parameters
    ----------
    path : Path
        A workbook or delimited text with a heading row: item, length, diameter, type, thread, quantity. [-]

    Returns
    -------
    StoreList
        Lengths and diameters of its usable lines; the others with the reason. [mm]

    Raises
    ------
    WorkbookError
        It cannot be read, or has no heading row with a length and an item or a quantity.

    """
    with open_index(path).package as package:
        grids = [Grid(package, sheet.name) for sheet in package.sheets if sheet.kind == "worksheet"]
        found = [(grid, columns) for grid in grids if (columns := columns_of(grid)) is not None]
        if not found:
            raise WorkbookError(
                f"{path}: no store's list in it; looked for a heading row with length and item or quantity"
            )
        lines = [line for grid, columns in found for line in _lines(grid, columns, package)]
    return StoreList(
        name=path.name,
        items=tuple(line for line in lines if isinstance(line, StockItem)),
        passed_over=tuple(line for line in lines if not isinstance(line, StockItem)),
        notes=tuple(_notes(found)),
    )


def _notes(found: Sequence[tuple[Grid, Columns]]) -> Iterator[str]:
    """Yield what has to be known of the list as a whole."""
    for grid, columns in found:
        if "quantity" not in columns.places:
            yield f"{grid.name}: no quantity column was found: how many there are is not stated, and none is set aside."


def _lines(grid: Grid, columns: Columns, package: Package) -> Iterator[StockItem | tuple[str, str]]:
    """Yield the items, and of lines that cannot be used their place and why."""
    rows = [row for row in grid.rows() if row > columns.row and grid.own_texts(row)]
    lengths = _readings(grid, rows, columns, "length", package)
    diameters = _readings(grid, rows, columns, "diameter", package)
    is_bare = not any(grid.text(row, columns.places[name]) for name in WORDS if name in columns.places for row in rows)
    for row, length, diameter in zip(rows, lengths, diameters, strict=True):
        texts = {name: grid.text(row, column) for name, column in columns.places.items()}
        by_row, by_heading = unit_of_words(texts.get("unit", "")), columns.units.get("length")
        measured = _measured(length, by_row or by_heading)
        thickness = _measured(diameter, by_row or columns.units.get("diameter") or by_heading)
        why = (
            why_no_sensor(_words(texts), is_bare=is_bare)
            or why_taken(list(grid.own_texts(row).values()))
            or _why_not(length, measured, texts)
        )
        yield (f"{grid.name} row {row}", why) if why else _item(grid.name, row, texts, measured, thickness)


def _words(texts: Mapping[str, str]) -> list[str]:
    """Return what a line says of its item; an item number of several words is a description."""
    item = texts.get("item", "")
    return [texts.get(name, "") for name in WORDS] + ([item] if " " in item else [])


def _readings(grid: Grid, rows: Sequence[int], columns: Columns, name: str, package: Package) -> list[Reading]:
    """Return the cells of a column, its decimal mark settled by those of them that show it."""
    column = columns.places.get(name)
    cells = [grid.cell(row, column) if column else None for row in rows]
    readings = [read_length(cell, package) for cell in cells]
    marks = {reading.decimal_mark for reading in readings if reading.decimal_mark}
    return [read_length(cell, package, next(iter(marks))) for cell in cells] if len(marks) == 1 else readings


@dataclass(frozen=True, kw_only=True)
class _Measured:
    """A length as the store gives it; NaN where it cannot be used."""

    length_mm: float = math.nan
    unit: str = ""

    @property
    def text(self) -> str:
        """Return it in its own unit, empty where it is not known."""
        is_inch = self.unit == "in"
        return "" if math.isnan(self.length_mm) else format_length(self.length_mm, self.unit, fractions=is_inch)


def _measured(reading: Reading, declared: str | None) -> _Measured:
    """Return a reading as a length; a bare fraction is of an inch, whatever the heading says, so it is not used."""
    unit = reading.unit or declared
    if reading.state is not CellState.VALUE or not reading.number or reading.number < 0 or unit is None:
        return _Measured()
    if reading.unit is None and unit not in INCHES and "/" in reading.text:
        return _Measured()
    return _Measured(length_mm=to_mm(reading.number, unit), unit="in" if unit in INCHES else "mm")


def _why_not(length: Reading, measured: _Measured, texts: Mapping[str, str]) -> str:
    """Return why a line cannot be used, empty where it can."""
    if length.state is CellState.MISSING:
        return "no length"
    if math.isnan(measured.length_mm):
        is_bare = length.state is CellState.VALUE and length.unit is None and bool(length.number)
        return f"length {length.text!r} " + ("has no unit that fits it" if is_bare else "is no length")
    return _why_no_quantity(texts["quantity"]) if "quantity" in texts else ""


def _why_no_quantity(text: str) -> str:
    count = _count(text)
    if count is None:
        return f"quantity {text!r} is no number" if text else "no quantity"
    return f"quantity {count} is less than none" if count < 0 else ""


def _count(text: str) -> int | None:
    """Return how many a cell says there are, None where it does not say."""
    if text.strip().casefold() in NO_PIECE:
        return 0
    match = BARE_COUNT.fullmatch(text.strip())
    return int(match[1].replace(" ", "")) if match else None


def _item(sheet: str, row: int, texts: Mapping[str, str], length: _Measured, diameter: _Measured) -> StockItem:
    words = [text for name in ("mounting", "type", "description") if (text := texts.get(name, ""))]
    return StockItem(
        item=texts.get("item") or texts.get("description") or f"row {row}",
        sheet=sheet,
        row=row,
        length_mm=length.length_mm,
        unit=length.unit,
        diameter_mm=diameter.length_mm,
        diameter=diameter.text or texts.get("diameter", ""),
        mounting=_first(mounting_of, words) or "",
        kind=", ".join(text for place, text in enumerate(words) if not _is_said(text, words[place + 1 :])),
        thread=texts.get("thread", ""),
        quantity=_count(texts["quantity"]) if "quantity" in texts else None,
        element_count=_first(element_count_of, (texts.get("elements", ""), *words)) or 0,
        sheath_material=texts.get("material", "") or _first(material_of, words) or "",
    )


def _first(meaning: Callable[[str], Meaning], texts: Sequence[str]) -> Meaning | None:
    """Return the first meaning that is found in the texts, None where there is none."""
    return next((found for text in texts if (found := meaning(text))), None)


def _is_said(text: str, later: Sequence[str]) -> bool:
    """Whether one of the later texts says the same and perhaps more."""
    return any(text.casefold() in other.casefold() for other in later)
