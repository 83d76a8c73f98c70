"""One sheet as a grid of cells: text as shown, merged ranges resolved."""

from collections.abc import Iterator
from copy import copy
from dataclasses import replace
from itertools import product

from thermowell_index.ooxml import Cell, Package, SheetCells

MOST_MERGED = 500
LARGEST_MERGE = 200_000  # cells; a larger range is followed over its first rows only


class Grid:
    """Cells of one sheet, by row and column, with what a merged range covers."""

    def __init__(self, package: Package, sheet: str) -> None:
        self.package = package
        self.name = sheet
        self.cells: SheetCells = package.read(sheet)
        self._anchors: dict[tuple[int, int], tuple[int, int]] = {}
        for first_row, first_column, last_row, last_column in self.cells.merges:
            down = range(first_row, min(last_row, self.cells.last_row) + 1)
            right = range(first_column, min(last_column, first_column + MOST_MERGED) + 1)
            if len(down) * len(right) > LARGEST_MERGE:
                down = range(first_row, first_row + MOST_MERGED)
            self._anchors.update(dict.fromkeys(product(down, right), (first_row, first_column)))

    def strip(self, left: int, right: int) -> "Grid":
        """Return the columns of the sheet from one to another, in their places."""
        part = copy(self)
        part.cells = replace(
            self.cells,
            rows={
                row: {column: cell for column, cell in cells.items() if left <= column <= right}
                for row, cells in self.cells.rows.items()
            },
        )
        return part

    @property
    def last_row(self) -> int:
        """Return the last row with a value."""
        return self.cells.last_row

    def rows(self) -> Iterator[int]:
        """Yield the numbers of the rows that have cells, in order."""
        return iter(sorted(self.cells.rows))

    def cell(self, row: int, column: int) -> Cell | None:
        """Return the cell that stands there, None where there is none."""
        return self.cells.rows.get(row, {}).get(column)

    def anchor(self, row: int, column: int) -> tuple[int, int]:
        """Return the cell that holds the value shown there: the first of a merged range, else itself."""
        return self._anchors.get((row, column), (row, column))

    def is_covered(self, row: int, column: int) -> bool:
        """Whether a merged range that begins elsewhere covers the cell."""
        return self.anchor(row, column) != (row, column)

    def is_continued(self, row: int, column: int) -> bool:
        """Whether a merged range that begins on a row above covers the cell."""
        return self.anchor(row, column)[0] < row

    def text(self, row: int, column: int) -> str:
        """Return what a cell shows as text, of a merged range the anchor's."""
        cell = self.cell(*self.anchor(row, column))
        return "" if cell is None else cell_text(cell)

    def own_texts(self, row: int) -> dict[int, str]:
        """Return the texts that stand in a row by column, merged ranges once, at their anchor."""
        found: dict[int, str] = {}
        for column, cell in self.cells.rows.get(row, {}).items():
            text = cell_text(cell)
            if text and not self.is_covered(row, column):
                found[column] = text
        return found

    def is_struck(self, row: int, column: int) -> bool:
        """Whether a cell's font is struck out."""
        cell = self.cell(row, column)
        return cell is not None and is_struck_out(cell, self.package)


def is_struck_out(cell: Cell, package: Package) -> bool:
    """Whether nothing of a cell stands: its font is struck out, or all of its text is; and no part is left."""
    if cell.kept_text is None:
        return package.is_struck(cell.style)
    return not cell.kept_text.strip()


def cell_text(cell: Cell) -> str:
    """Return a cell's value as text: numbers in their shortest form, what is not struck of a partly struck text."""
    if cell.kept_text is not None and cell.kept_text.strip():
        return cell.kept_text.strip()
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return repr(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)  # noqa: PLR2004 - beyond it floats hold no units
    return value.strip()
