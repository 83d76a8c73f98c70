"""Layouts written as text: a sheet as a grid of cells, and what was read of it as a grid of fields.

A line is a row, `|` parts the cells. A plain number becomes a number; behind `'` everything stays text; `~` is a line
break inside a cell; a blank is an empty cell. What comes out names field and column letter above the values: lengths
in mm, a state in brackets where there is no value.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.basis import BUILT_IN
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.heading_map import HeadingMap
from thermowell_index.ooxml import Package
from thermowell_index.reader.columns import Dictionary
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.workbook import ReadSettings, read_workbook
from thermowell_index.records.build import build_records
from thermowell_index.records.words import KNOWN_WORDS
from thermowell_index.table import CellState, ColumnRead, Frame, IndexTable, Kind, TableRead

FITS = {entry.name: entry.fits for entry in FIELDS if entry.fits is not None}
HEADINGS = HeadingDictionary(FIELDS)
Grid = list[list[str]]


def _cells(text: str) -> Grid:
    lines = [line for line in text.splitlines() if line.strip()]
    return [[cell.strip() for cell in line.split("|")] for line in lines]


def _value(cell: str) -> str | float | None:
    if cell.startswith("'"):
        return cell[1:]
    if re.fullmatch(r"-?\d+(?:\.\d+)?", cell):
        return float(cell)
    return cell.replace("~", "\n") or None


def _with_letters(column: ColumnRead, second: ColumnRead | None) -> str:
    letters = "+".join(get_column_letter(read.column) for read in (column, second) if read is not None)
    return f"{FIELD[column.field].label} {letters}"


def _shown(frame: Frame, row_id: int, name: str) -> str:
    if FIELD[name].kind is not Kind.LENGTH:
        return str(frame.at[row_id, name])
    state = str(frame.at[row_id, f"{name}_state"])
    if state == CellState.VALUE:
        return f"{round(float(str(frame.at[row_id, f'{name}_mm'])), 4):.10g}"
    return "" if state == CellState.MISSING else f"[{state}]"


def _second(read: TableRead, name: str) -> ColumnRead | None:
    return next((column for column in read.second_columns if column.field == name), None)


def _rows_of(table: IndexTable, read: TableRead) -> Grid:
    names = sorted(read.columns, key=lambda name: (read.columns[name].column, name != "tag"))
    head = ["row", *(_with_letters(read.columns[name], _second(read, name)) for name in names)]
    head += [
        f"? {get_column_letter(column)} {' or '.join(FIELD[name].label for name in fields)}"
        for column, _, fields in read.undecided
    ]
    frame = table.frame[table.frame["table_id"] == read.table_id]
    blanks = [""] * len(read.undecided)
    rows = [
        [str(frame.at[row_id, "row"]), *(_shown(frame, row_id, name) for name in names), *blanks]
        for row_id in frame.index
    ]
    return [head, *rows]


@pytest.fixture
def book() -> Workbook:
    """The workbook of one layout, still without sheets."""
    made = Workbook()
    del made["Sheet"]
    return made


@pytest.fixture
def sheet(book: Workbook) -> Callable[..., Worksheet]:
    """Adds a sheet to the book, its cells written as text."""

    def add(text: str, *, name: str = "Index", row: int = 1, column: int = 1) -> Worksheet:
        page = book[name] if name in book.sheetnames else book.create_sheet(name)
        for down, line in enumerate(_cells(text)):
            for right, cell in enumerate(line):
                if cell:
                    page.cell(row + down, column + right, _value(cell))
        return page

    return add


@pytest.fixture
def rows() -> Callable[[str], Grid]:
    """The table that must come out, written as text."""
    return _cells


def _settings(
    only_sheets: Sequence[str] = (), column_map: HeadingMap | None = None, default_unit: str | None = None
) -> ReadSettings:
    return ReadSettings(
        dictionary=Dictionary(fields=FIELD, fits_mm=FITS, known_words=KNOWN_WORDS),
        headings=HEADINGS,
        only_sheets=only_sheets,
        column_map=column_map or {},
        default_unit=default_unit,
    )


@pytest.fixture
def index(book: Workbook) -> Iterator[Callable[..., IndexTable]]:
    """Reads the book, or the file that is named."""
    opened: list[Package] = []

    def read(path: Path | None = None, **more: Any) -> IndexTable:
        if path is None:
            buffer = BytesIO()
            book.save(buffer)
            opened.append(Package.from_bytes(buffer.getvalue(), Path("layout.xlsx")))
        else:
            opened.append(Package.open(path))
        return read_workbook(opened[-1], _settings(**more))

    yield read
    for package in opened:
        package.close()


@pytest.fixture
def read(index: Callable[..., IndexTable]) -> Callable[..., Grid]:
    """What is read of the book: for each table a line of fields, then its rows; several are headed by their sheets."""

    def as_grid(path: Path | None = None, **more: object) -> Grid:
        table = index(path, **more)
        several = len(table.tables) > 1
        lines: Grid = []
        for found in table.tables.values():
            lines += [[f"= {found.sheet}"]] if several else []
            lines += _rows_of(table, found)
        return lines

    return as_grid


@pytest.fixture
def passed(index: Callable[..., IndexTable]) -> Callable[..., dict[str, str]]:
    """The sheets that are passed over, and why."""

    def reasons(path: Path | None = None, **more: object) -> dict[str, str]:
        return {found.name: found.reason for found in index(path, **more).sheets if not found.is_read}

    return reasons


@pytest.fixture
def points(index: Callable[..., IndexTable]) -> Callable[..., Grid]:
    """The rows as records: tag, why it is no point (blank where it is one), bore depth used, where that stands."""

    def as_grid(path: Path | None = None, **more: object) -> Grid:
        table = index(path, **more)
        build_records(table, BUILT_IN)
        frame = table.frame
        return [
            [
                str(frame.at[row_id, "tag"]),
                str(frame.at[row_id, "reason"]),
                f"{round(float(str(frame.at[row_id, 'bore_depth_used_mm'])), 4):.10g}",
                str(frame.at[row_id, "bore_depth_basis"]),
            ]
            for row_id in frame.index
        ]

    return as_grid
