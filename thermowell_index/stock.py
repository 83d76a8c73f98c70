"""A store's list read: what is there, how long and how thick it is, how it is held, and how many there are."""

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from thermowell_index.answers import StockItem, StoreList
from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.reader.cells import Reading, read_length
from thermowell_index.reader.formats import open_index
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.records.words import mounting_of
from thermowell_index.table import CellState, Field, Kind
from thermowell_index.units import format_length, to_mm, unit_of_words

# Heading wordings of a store, common practice, no source.
_WORDINGS: Mapping[str, str] = {
    "item": """ITEM | ITEM NUMBER | ITEM CODE | STOCK NUMBER | STOCK CODE | STORE NUMBER | STORES NUMBER | CODE
        | PART NUMBER | PART | MATERIAL NUMBER | MATERIAL CODE | ARTICLE | ARTICLE NUMBER | CATALOGUE NUMBER | ARTIKEL
        | ARTIKEL NUMBER | MATERIALNUMMER | REFERENCE | CODIGO | CODICE | ARTICULO""",
    "description": """DESCRIPTION | ITEM DESCRIPTION | DESIGNATION | BEZEICHNUNG | BENENNUNG | DESCRIPCION
        | DESCRIZIONE""",
    "length": """LENGTH | PROBE LENGTH | SENSOR LENGTH | INSERT LENGTH | ELEMENT LENGTH | SHEATH LENGTH | NOMINAL LENGTH
        | LAENGE | LANGE | EINSATZLANGE | LONGUEUR | LONGITUD | LUNGHEZZA | COMPRIMENTO | LENGTE | L""",
    "diameter": """DIAMETER | SHEATH DIAMETER | OUTSIDE DIAMETER | SHEATH OUTSIDE DIAMETER | PROBE DIAMETER
        | SENSOR DIAMETER | INSERT DIAMETER | SHEATH""",
    "mounting": """MOUNTING | SENSOR MOUNTING | MOUNTING TYPE | STYLE | FITTING | HELD BY | MONTAGE | BEFESTIGUNG""",
    "type": """TYPE | SENSOR TYPE | ELEMENT TYPE | SENSOR | ELEMENT | KIND | TYP | TIPO | FUEHLERTYP""",
    "thread": """THREAD | MOUNTING THREAD | THREAD SIZE | CONNECTION | PROCESS CONNECTION | CONNECTION THREAD
        | FITTING THREAD | GEWINDE | FILETAGE | ROSCA | FILETTO""",
    "quantity": """QUANTITY | QUANTITY ON HAND | QUANTITY IN STOCK | STOCK QUANTITY | ON HAND | IN STOCK
        | STOCK | AVAILABLE | AVAILABLE QUANTITY | BALANCE | PIECES | MENGE | BESTAND | STUECKZAHL | ANZAHL
        | QUANTITE | CANTIDAD | QUANTITA""",
    "unit": """UNIT | LENGTH UNIT | UNIT OF LENGTH | UNIT OF MEASURE | UOM | EINHEIT | UNITE | UNIDAD""",
}
HEADINGS = HeadingDictionary(
    Field(
        name=name,
        label=name,
        group="store",
        kind=Kind.TEXT,
        headings=tuple(" ".join(wording.split()) for wording in wordings.split("|")),
        help="",
    )
    for name, wordings in _WORDINGS.items()
)
SEARCHED_ROWS = 60
INCHES = frozenset({"in", "ft"})
BARE_COUNT = re.compile(r"(\d+)(?:[.,]0+)?(?:\s*(?:pcs?|pieces?|ea|each|off|no|st(?:ü|ue)?ck|stk)\.?)?", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class _Columns:
    """Where each field stands, and the unit that its heading declares."""

    row: int
    places: Mapping[str, int]
    units: Mapping[str, str | None]


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
        found = [(grid, columns) for grid in grids if (columns := _columns(grid)) is not None]
        if not found:
            raise WorkbookError(
                f"{path}: no store's list in it; looked for a heading row with length and item or quantity"
            )
        lines = [line for grid, columns in found for line in _lines(grid, columns, package)]
    return StoreList(
        name=path.name,
        items=tuple(line for line in lines if isinstance(line, StockItem)),
        passed_over=tuple(line for line in lines if not isinstance(line, StockItem)),
    )


def _columns(grid: Grid) -> _Columns | None:
    """Return the columns of the first row that names a length and an item or a quantity, None where none does."""
    for row in list(grid.rows())[:SEARCHED_ROWS]:
        places: dict[str, int] = {}
        units: dict[str, str | None] = {}
        for column, text in grid.own_texts(row).items():
            matches = HEADINGS.matches(text)
            if matches and matches[0].field not in places:
                places[matches[0].field] = column
                units[matches[0].field] = unit_of_words(text)
        if "length" in places and {"item", "quantity"} & set(places):
            return _Columns(row=row, places=places, units=units)
    return None


def _lines(grid: Grid, columns: _Columns, package: Package) -> Iterator[StockItem | tuple[str, str]]:
    """Yield the items, and of lines that cannot be used their place and why."""
    rows = [row for row in grid.rows() if row > columns.row and grid.own_texts(row)]
    lengths = _readings(grid, rows, columns, "length", package)
    diameters = _readings(grid, rows, columns, "diameter", package)
    for row, length, diameter in zip(rows, lengths, diameters, strict=True):
        texts = {name: grid.text(row, column) for name, column in columns.places.items()}
        by_row, by_heading = unit_of_words(texts.get("unit", "")), columns.units.get("length")
        measured = _measured(length, by_row or by_heading)
        thickness = _measured(diameter, by_row or columns.units.get("diameter") or by_heading)
        why = _why_not(length, measured, texts)
        yield (f"{grid.name} row {row}", why) if why else _item(grid.name, row, texts, measured, thickness)


def _readings(grid: Grid, rows: Sequence[int], columns: _Columns, name: str, package: Package) -> list[Reading]:
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
    if "quantity" in texts and _count(texts["quantity"]) is None:
        return f"quantity {texts['quantity']!r} is no number" if texts["quantity"] else "no quantity"
    return ""


def _count(text: str) -> int | None:
    match = BARE_COUNT.fullmatch(text.strip())
    return int(match[1]) if match else None


def _item(sheet: str, row: int, texts: Mapping[str, str], length: _Measured, diameter: _Measured) -> StockItem:
    words = [text for name in ("mounting", "type", "description") if (text := texts.get(name, ""))]
    count = _count(texts["quantity"]) if "quantity" in texts else None
    return StockItem(
        item=texts.get("item") or texts.get("description") or f"row {row}",
        sheet=sheet,
        row=row,
        length_mm=length.length_mm,
        unit=length.unit,
        diameter_mm=diameter.length_mm,
        diameter=diameter.text or texts.get("diameter", ""),
        mounting=next((found for text in words if (found := mounting_of(text))), ""),
        kind=", ".join(text for place, text in enumerate(words) if not _is_said(text, words[place + 1 :])),
        thread=texts.get("thread", ""),
        quantity=1 if count is None else count,
    )


def _is_said(text: str, later: Sequence[str]) -> bool:
    """Whether one of the later texts says the same and perhaps more."""
    return any(text.casefold() in other.casefold() for other in later)
