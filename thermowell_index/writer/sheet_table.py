"""A table on one of our sheets read back, wherever a person moved its columns or rows."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from thermowell_index.ooxml import Cell, Package, SheetCells, column_letters


@dataclass(frozen=True, kw_only=True)
class SheetLine:
    """One line of a table: its row, its texts by heading in small letters, and what stands in columns not ours."""

    row: int
    shown: Mapping[str, str]
    others: Sequence[tuple[str, str]]


def lines_of_table(
    package: Package, cells: SheetCells, must_have: Collection[str], ours: Collection[str]
) -> Iterator[SheetLine] | None:
    """Return the lines below the heading row that has all of `must_have`; None where there is no such row.

    Headings are compared in small letters. Of two columns with one heading the left one counts.
    """
    for number in sorted(cells.rows):
        words = {column: shown_text(cell, package) for column, cell in cells.rows[number].items()}
        headings = {text.casefold(): column for column, text in sorted(words.items(), reverse=True) if text}
        if all(name in headings for name in must_have):
            titles = {column: text for column, text in words.items() if text}
            return _lines(package, cells, number, {name: headings[name] for name in ours if name in headings}, titles)
    return None


def _lines(
    package: Package, cells: SheetCells, heading_row: int, columns: Mapping[str, int], titles: Mapping[int, str]
) -> Iterator[SheetLine]:
    known = set(columns.values())
    for number in sorted(cells.rows):
        if number > heading_row:
            words = {column: shown_text(cell, package) for column, cell in sorted(cells.rows[number].items())}
            if any(words.values()):
                yield SheetLine(
                    row=number,
                    shown={name: words.get(column, "") for name, column in columns.items()},
                    others=[
                        (titles.get(column, f"column {column_letters(column)}"), text)
                        for column, text in words.items()
                        if text and column not in known
                    ],
                )


def shown_text(cell: Cell, package: Package) -> str:
    """Return what a person reads in a cell: dates in ISO form, whole numbers without a decimal point."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, float) and not isinstance(value, bool):
        if package.is_date(cell.style):
            return date_of(value, date_1904=package.date_1904).isoformat()
        return str(int(value)) if value.is_integer() else str(value)
    return str(value).strip()


def date_of(serial: float, *, date_1904: bool) -> date:
    """Return the day that a workbook counts as a serial number."""
    return (date(1904, 1, 1) if date_1904 else date(1899, 12, 30)) + timedelta(days=int(serial))
