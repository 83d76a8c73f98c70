"""A store's list read: what is there, how long and how thick it is, how it is held, and how many there are."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from thermowell_index.answers import PassedOver, StockItem, StoreList
from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.reader.cells import Reading, read_length
from thermowell_index.reader.formats import open_index
from thermowell_index.reader.grid import Grid
from thermowell_index.stock_columns import Columns, columns_of, headings_on, like_lengths
from thermowell_index.stock_description import described
from thermowell_index.stock_item import WORDS, Line, as_item, why_unusable
from thermowell_index.stock_lengths import measured
from thermowell_index.stock_words import why_no_sensor, why_taken
from thermowell_index.units import unit_of_words

LOOKED_FOR = "a heading row with length, or descriptions that state it, and item or quantity"


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
        It cannot be read, or has no heading row with a length, or descriptions that state it, and an item or a
        quantity.

    """
    with open_index(path).package as package:
        grids = [Grid(package, sheet.name) for sheet in package.sheets if sheet.kind == "worksheet"]
        found = [(grid, columns) for grid in grids if (columns := _list_on(grid)) is not None]
        others = [grid for grid in grids if grid not in [read for read, _ in found]]
        if not found:
            raise WorkbookError(f"{path}: no store's list in it; looked for {LOOKED_FOR}{_seen(others)}")
        lines = [line for grid, columns in found for line in _lines(grid, columns, package)]
    return StoreList(
        name=path.name,
        items=tuple(line for line in lines if isinstance(line, StockItem)),
        passed_over=tuple(line for line in lines if isinstance(line, PassedOver)),
        notes=(*_notes(found), *_unread(others)),
    )


def _list_on(grid: Grid) -> Columns | None:
    """Return the columns of a list; without a column of lengths it is one where a description states a length."""
    columns = columns_of(grid)
    if columns is None or "length" in columns.places:
        return columns
    texts = (grid.text(row, columns.places["description"]) for row in grid.rows() if row > columns.row)
    return columns if any(described(text).length.is_known for text in texts) else None


def _seen(grids: Sequence[Grid]) -> str:
    """Return in words the headings of sheets that are no list here, which may name a length."""
    seen = [repr(text) for grid in grids for text in like_lengths(headings_on(grid))]
    return f"; headings that may name a length: {', '.join(seen)}" if seen else ""


def _unread(grids: Sequence[Grid]) -> Iterator[str]:
    """Yield a line for each sheet that looks like a list and is not read."""
    for grid in grids:
        if headings := headings_on(grid):
            what = _seen([grid]) or f"; its headings: {', '.join(map(repr, headings))}"
            yield f"{grid.name}: passed over, since there is no heading row with length and item or quantity{what}."


def _notes(found: Sequence[tuple[Grid, Columns]]) -> Iterator[str]:
    """Yield what has to be known of the list as a whole."""
    for grid, columns in found:
        if "length" not in columns.places:
            yield f"{grid.name}: no length column was found, lengths are those in the descriptions{_seen([grid])}."
        if "quantity" not in columns.places:
            yield f"{grid.name}: no quantity column was found: how many there are is not stated, and none is set aside."


def _lines(grid: Grid, columns: Columns, package: Package) -> Iterator[StockItem | PassedOver]:
    """Yield the items, and of lines that cannot be used their place and why; a line that is repeated counts once."""
    lines = list(_read(grid, columns, package))
    is_bare = not any(line.text(field) for line in lines for field in WORDS)
    first: dict[tuple[tuple[int, str], ...], Line] = {}
    for line in lines:
        texts = grid.own_texts(line.row)
        same = first.setdefault(tuple(texts.items()), line)
        why = (
            why_no_sensor([line.description, line.text("type")], is_bare=is_bare)
            or why_taken(list(texts.values()))
            or why_unusable(line)
            or (f"the same as row {same.row}, counted once" if same is not line else "")
        )
        yield PassedOver(line.place, line.name, why) if why else as_item(line)


def _read(grid: Grid, columns: Columns, package: Package) -> Iterator[Line]:
    """Yield the lines of a list; a unit in a column of its own goes before those of the headings."""
    rows = [row for row in grid.rows() if row > columns.row and grid.own_texts(row)]
    lengths = _readings(grid, rows, columns, "length", package)
    diameters = _readings(grid, rows, columns, "diameter", package)
    for row, length, diameter in zip(rows, lengths, diameters, strict=True):
        texts = {field: grid.text(row, column) for field, column in columns.places.items()}
        by_row, by_heading = unit_of_words(texts.get("unit", "")), columns.units.get("length")
        yield Line(
            sheet=grid.name,
            row=row,
            texts=texts,
            length_cell=length,
            length=measured(length, by_row or by_heading),
            diameter=measured(diameter, by_row or columns.units.get("diameter") or by_heading),
            said=described(texts.get("description") or texts.get("item", "")),
        )


def _readings(grid: Grid, rows: Sequence[int], columns: Columns, name: str, package: Package) -> list[Reading]:
    """Return the cells of a column, its decimal mark settled by those of them that show it."""
    column = columns.places.get(name)
    cells = [grid.cell(row, column) if column else None for row in rows]
    readings = [read_length(cell, package) for cell in cells]
    marks = {reading.decimal_mark for reading in readings if reading.decimal_mark}
    return [read_length(cell, package, next(iter(marks))) for cell in cells] if len(marks) == 1 else readings
