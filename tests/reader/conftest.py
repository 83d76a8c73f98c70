"""Sheets written as text, as one grid: a line is a row, `|` parts the cells, a plain number becomes a number."""

import re
from collections.abc import Callable, Iterator, Sequence
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.dictionary import FIELDS
from thermowell_index.ooxml import Package
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary

HEADINGS = HeadingDictionary(FIELDS)


def _value(cell: str) -> str | float | None:
    if re.fullmatch(r"-?\d+(?:\.\d+)?", cell):
        return float(cell)
    return cell.removeprefix("'").replace("~", "\n") or None


@pytest.fixture
def headings() -> HeadingDictionary:
    """The wordings of the data dictionary."""
    return HEADINGS


@pytest.fixture
def package_of() -> Iterator[Callable[..., Package]]:
    """Saves a workbook that a function fills and opens it as a package."""
    opened: list[Package] = []

    def make(fill: Callable[[Worksheet], object]) -> Package:
        book = Workbook()
        sheet = book[book.sheetnames[0]]
        fill(sheet)
        buffer = BytesIO()
        book.save(buffer)
        opened.append(Package.from_bytes(buffer.getvalue(), Path("index.xlsx")))
        return opened[-1]

    yield make
    for package in opened:
        package.close()


@pytest.fixture
def grid(package_of: Callable[..., Package]) -> Callable[..., Grid]:
    """Makes a grid of cells written as text; `change` has the last word on the sheet."""

    def make(text: str, *, merges: Sequence[str] = (), change: Callable[[Worksheet], object] = lambda _: None) -> Grid:
        def fill(sheet: Worksheet) -> None:
            for row, line in enumerate((line for line in text.splitlines() if line.strip()), start=1):
                for column, cell in enumerate(line.split("|"), start=1):
                    if cell.strip():
                        sheet.cell(row, column, _value(cell.strip()))
            for area in merges:
                sheet.merge_cells(area)
            change(sheet)

        return Grid(package_of(fill), "Sheet")

    return make
