"""The sheet Remarks register, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from thermowell_index.findings import Finding
from thermowell_index.ooxml import Package
from thermowell_index.revisions.history import History
from thermowell_index.revisions.previous import RegisterEntry
from thermowell_index.writer import Report, write_checked
from thermowell_index.writer.remark_sheets import REGISTER_HEADINGS


@pytest.fixture
def book_of(index_path: Path, make_report: Callable[..., Report]) -> Callable[[History], Workbook]:
    """Return a function that writes what is kept and reads the workbook back."""

    def write(history: History) -> Workbook:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(make_report(history=history), package, target)
        return load_workbook(target)

    return write


def test_an_entry_stands_with_its_remarks_and_where_it_was_last_seen(
    make_finding: Callable[..., Finding], book_of: Callable[[History], Workbook]
) -> None:
    finding = make_finding(disposition="accepted", reviewer="A. B.", reviewed_on="2024-06-01", comment="right")
    folded = make_finding(folded=True, tag="", disposition="no issue")
    entries = [
        RegisterEntry(finding=finding, last_seen="A.xlsx, revision A", may_be="TE-1A", carry_to="TE-1B"),
        RegisterEntry(finding=folded),
    ]
    sheet = book_of(History(register=entries))["Remarks register"]
    assert tuple(cell.value for cell in sheet[5]) == REGISTER_HEADINGS
    values: dict[str, Any] = dict(zip(REGISTER_HEADINGS, (cell.value for cell in sheet[6]), strict=True))
    assert isinstance(values.pop("Reviewed on"), datetime)
    assert values == {
        "Entry": "R-1",
        "Tag": "TE-1003",
        "Sheet": "Utilities",
        "Field": "bore depth",
        "Rule": "bore deeper than well",
        "Found": "bore depth 13; overall length 12-1/4",
        "Disposition": "accepted",
        "Reviewer": "A. B.",
        "Comment": "right",
        "Former decision": None,
        "Last seen in": "A.xlsx, revision A",
        "May be now": "TE-1A",
        "Carry over to": "TE-1B",
    }
    assert (sheet["A7"].value, sheet["B7"].value) == ("R-2", "all of the sheet")
    assert [str(one.sqref) for one in sheet.data_validations.dataValidation] == ["G6:G7"]


def test_lines_that_reviewers_added_are_kept_below(book_of: Callable[[History], Workbook]) -> None:
    sheet = book_of(History(own_lines=["tag: TE-9; comment: new well"]))["Remarks register"]
    assert [sheet["A5"].value, sheet["A6"].value] == ["Lines that reviewers added", "tag: TE-9; comment: new well"]


def test_with_nothing_to_keep_there_is_no_such_sheet(book_of: Callable[[History], Workbook]) -> None:
    assert "Remarks register" not in book_of(History()).sheetnames
