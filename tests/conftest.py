"""An index as a test writes it: one mapping a row, heading -> cell, underscores for blanks in the headings."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import pandas as pd
import pytest
from openpyxl import Workbook

from thermowell_index.basis import BUILT_IN
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.findings import Finding
from thermowell_index.ooxml import Package
from thermowell_index.pipeline import CheckResult, Settings, check_workbook
from thermowell_index.reader.columns import Dictionary
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.workbook import ReadSettings, read_workbook
from thermowell_index.table import IndexTable

INCH = 25.4
Row = Mapping[str, object]
HEADINGS = HeadingDictionary(FIELDS)
DICTIONARY = Dictionary(fields=FIELD, fits_mm={entry.name: entry.fits for entry in FIELDS if entry.fits is not None})


def _workbook(sheets: Mapping[str, Sequence[Row]], title: Sequence[str]) -> Workbook:
    book = Workbook()
    del book["Sheet"]
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for line in title:
            sheet.append([line])
        headings = list(dict.fromkeys(heading for row in rows for heading in row))
        sheet.append([heading.replace("_", " ") for heading in headings])
        for row in rows:
            sheet.append([row.get(heading) for heading in headings])
    return book


@pytest.fixture
def index_file(tmp_path: Path) -> Callable[..., Path]:
    """Writes rows as the sheet Index of a workbook, or several sheets by name; `change` has the last word on it."""

    def write(
        *rows: Row,
        sheets: Mapping[str, Sequence[Row]] | None = None,
        title: Sequence[str] = (),
        name: str = "index.xlsx",
        change: Callable[[Workbook], object] = lambda _: None,
    ) -> Path:
        book = _workbook(sheets or {"Index": rows}, title)
        change(book)
        book.save(tmp_path / name)
        return tmp_path / name

    return write


@dataclass(frozen=True)
class Checked:
    """What a run over a few rows says, in small facts."""

    result: CheckResult

    @property
    def table(self) -> pd.DataFrame:
        return self.result.table

    @property
    def findings(self) -> Sequence[Finding]:
        return self.result.findings

    def row(self, tag: str) -> pd.Series:
        found = self.table[self.table["tag"] == tag]
        assert len(found) == 1, f"{len(found)} rows are tagged {tag}"
        return found.iloc[0]

    def inches(self, tag: str, name: str) -> float:
        return round(float(self.row(tag)[f"{name}_mm"]) / INCH, 4)

    def verdicts(self) -> dict[str, str]:
        return dict(zip(self.table["tag"], self.table["verdict"], strict=True))

    def orders(self) -> dict[str, float | None]:
        """Length to order by tag [in], None where there is none."""
        lengths = zip(self.table["tag"], self.table["probe_length_order_mm"], strict=True)
        return {tag: None if pd.isna(length) else round(length / INCH, 4) for tag, length in lengths}

    def hits(self) -> list[tuple[str, str, str]]:
        """(rule, tag, cell) of all findings of single rows but notes, in the order of the rows."""
        single = [found for found in self.findings if not found.folded and found.severity != "note"]
        return [(found.rule, found.tag, found.cell) for found in sorted(single, key=lambda one: one.row or 0)]

    def notes(self) -> dict[str, tuple[str, ...]]:
        """Tags by rule of what repeats over a sheet."""
        return {found.rule: found.tags for found in self.findings if found.folded}

    def found(self, rule: str) -> Finding:
        one, *more = [found for found in self.findings if found.rule == rule]
        assert not more, f"{rule} speaks {len(more) + 1} times"
        return one


@pytest.fixture
def check(index_file: Callable[..., Path], tmp_path: Path) -> Callable[..., Checked]:
    """Checks rows without writing an answer; `basis` is the text of a design-basis file."""

    def run(*rows: Row, basis: str = "", **more: object) -> Checked:
        settings = None
        if basis:
            (tmp_path / "basis.toml").write_text(basis, encoding="utf-8")
            settings = Settings(basis=tmp_path / "basis.toml")
        return Checked(check_workbook(index_file(*rows, **more), settings, write=False))

    return run


@pytest.fixture
def read_rows(index_file: Callable[..., Path]) -> Iterator[Callable[..., IndexTable]]:
    """Reads rows into a table, as the pipeline does before it judges them."""
    opened: list[Package] = []

    def read(*rows: Row, **more: object) -> IndexTable:
        opened.append(Package.open(index_file(*rows, **more)))
        unit = BUILT_IN.choice("index.unit") or None
        return read_workbook(opened[-1], ReadSettings(dictionary=DICTIONARY, headings=HEADINGS, default_unit=unit))

    yield read
    for package in opened:
        package.close()
