"""The sheet Design basis, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path

from openpyxl import Workbook

from thermowell_index.ooxml import Package
from thermowell_index.revisions.history import History
from thermowell_index.revisions.previous import BasisSignOff
from thermowell_index.writer import Report, read_previous, write_checked


def _lines(book: Workbook) -> list[list[object]]:
    rows = book["Design basis"].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


def test_every_assumption_stands_with_value_meaning_and_source(checked_book: Workbook) -> None:
    assert [
        "well",
        "tip thickness inch",
        "1/4 in",
        "assumed tip of a row in inches",
        "common practice, no source",
    ] in _lines(checked_book)


def test_a_changed_assumption_is_marked_in_words_and_bold(checked_book: Workbook) -> None:
    sheet = checked_book["Design basis"]
    changed = [row for row in range(6, sheet.max_row + 1) if sheet.cell(row, 6).value == "changed"]
    assert [sheet.cell(row, 2).value for row in changed] == ["union length means"]
    assert [sheet.cell(row, 3).font.b for row in changed] == [True]


def test_a_profile_says_what_is_not_set(checked_book: Workbook) -> None:
    lines = _lines(checked_book)
    assert ["plane", "from end of mounting thread to tip, spring relaxed"] in lines
    assert ["seat offset", "not set"] in lines


def test_the_basis_has_a_sign_off_line_of_its_own(index_path: Path, make_report: Callable[..., Report]) -> None:
    signed = BasisSignOff(disposition="accepted", reviewer="E. F.", reviewed_on="2024-06-01", comment="agreed")
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(make_report(history=History(basis_sign_off=signed)), package, target)
        with Package.open(target) as checked:
            previous = read_previous(checked)
    assert previous is not None
    assert previous.basis_sign_off == BasisSignOff(
        fingerprint="a1b2c3d4", disposition="accepted", reviewer="E. F.", reviewed_on="2024-06-01", comment="agreed"
    )
