"""The sheet What changed, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook

from thermowell_index.findings import Severity
from thermowell_index.ooxml import Package
from thermowell_index.revisions.comparison import Block, Comparison
from thermowell_index.revisions.history import History
from thermowell_index.writer import Report, write_checked
from thermowell_index.writer.flags import FILLS

LOUD = Block(
    title="Changed after it was ordered",
    headings=("Tag", "Sheet", "Row", "Found", "Expected", "What to do"),
    lines=[("TE-1", "Index", 5, "ordered 9 in", "10 in", "stop it")],
    is_loud=True,
)
ODD = Block(title="Odd", headings=("One",), lines=[("x",)])
PLAIN = Block(title="Design basis", headings=("Entry", "Was", "Is"), lines=[("=a", "1", "2")])


@pytest.fixture
def written(index_path: Path, make_report: Callable[..., Report]) -> Callable[[Comparison | None], Path]:
    """Return a function that writes a comparison and gives the path of the answer."""

    def write(comparison: Comparison | None) -> Path:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(make_report(history=History(comparison=comparison)), package, target)
        return target

    return write


def test_sentences_come_first_then_each_part_under_its_title(written: Callable[[Comparison | None], Path]) -> None:
    book = load_workbook(written(Comparison(sentences=["Compared with A."], blocks=[LOUD, PLAIN, ODD])))
    assert book.sheetnames.index("What changed") == book.sheetnames.index("Discrepancies") + 1
    rows = [[value for value in row if value is not None] for row in book["What changed"].iter_rows(values_only=True)]
    assert [row for row in rows if row][3:] == [
        ["Compared with A."],
        ["Changed after it was ordered"],
        list(LOUD.headings),
        ["TE-1", "Index", 5, "ordered 9 in", "10 in", "stop it"],
        ["Design basis"],
        ["Entry", "Was", "Is"],
        ["=a", "1", "2"],
        ["Odd"],
        ["One"],
        ["x"],
    ]


def test_only_what_is_loud_is_coloured(written: Callable[[Comparison | None], Path]) -> None:
    sheet = load_workbook(written(Comparison(sentences=[], blocks=[LOUD, PLAIN])))["What changed"]
    fills = {str(cell.value): cell.fill.fgColor.rgb for row in sheet.iter_rows() for cell in row if cell.value}
    assert fills["TE-1"] == FILLS[Severity.ERROR]
    assert list(fills.values()).count(FILLS[Severity.ERROR]) == 1


def test_without_a_previous_run_there_is_no_such_sheet(written: Callable[[Comparison | None], Path]) -> None:
    assert "What changed" not in load_workbook(written(None)).sheetnames
