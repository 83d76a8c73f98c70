"""How far the review of a checked workbook has come."""

from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook

from thermowell_index.cli import main
from thermowell_index.errors import WorkbookError
from thermowell_index.pipeline import Settings, check_workbook
from thermowell_index.review_status import review_status

SOUND = {
    "tag": "TE-101",
    "bore_depth (in)": "9",
    "overall_length (in)": "9-1/4",
    "spring_travel (in)": "1",
    "sensor_mounting": "spring-loaded fitting",
    "extension_arrangement": "none",
}
FAULTY = SOUND | {"tag": "TE-102", "bore_depth (in)": "12"}


@pytest.fixture
def checked(index_file: Callable[..., Path]) -> Path:
    """Return the path of an answer with one error."""
    path = index_file(SOUND, FAULTY, title=["Revision B"])
    check_workbook(path, Settings(date="2024-06-01"))
    return path.with_name("index_checked.xlsx")


def decide(path: Path, disposition: str) -> None:
    book = load_workbook(path)
    sheet = book["Discrepancies"]
    sheet["N6"], sheet["O6"], sheet["P6"] = disposition, "A. B.", "2024-06-02"
    basis = book["Design basis"]
    row = next(row for row in range(1, 12) if basis.cell(row, 1).value == "Fingerprint") + 1
    basis.cell(row, 2, "accepted")
    basis.cell(row, 3, "E. F.")
    book.save(path)


def test_an_open_error_is_status_1(checked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["status", str(checked)]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0] == "index_checked.xlsx (index.xlsx, revision B, checked 2024-06-01)"
    assert lines[1].split() == ["open", "unsigned", "decided", "lapsed"]
    assert lines[2].split() == ["error", "1", "0", "0", "0"]
    assert "1 error is open: not signed off." in lines
    assert "Design basis: open." in lines
    assert "QA sample: 0 of 1 rows agree with a calculation by hand." in lines


@pytest.mark.parametrize("word,status", [("accepted", 0), ("no issue", 0), ("to correct", 0), ("lapsed", 1), ("ok", 1)])
def test_a_decision_made_in_the_workbook_counts_at_once(
    *, checked: Path, word: str, status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    decide(checked, word)
    assert main(["status", str(checked)]) == status
    assert "Design basis: accepted by E. F." in capsys.readouterr().out


def by_hand(path: Path, value: str) -> None:
    book = load_workbook(path)
    sheet = book["QA sample"]
    row = next(row for row in range(1, 20) if sheet.cell(row, 1).value == "Sample") + 1
    sheet.cell(row, 7, value)
    book.save(path)


@pytest.mark.parametrize("value,status", [("9", 0), ("229 mm", 1), ("nine", 1)])
def test_a_length_by_hand_that_is_not_ours_keeps_the_gate_shut(
    *, checked: Path, value: str, status: int, capsys: pytest.CaptureFixture[str]
) -> None:
    decide(checked, "accepted")
    by_hand(checked, value)
    assert main(["status", str(checked)]) == status
    assert ("TE-101" in capsys.readouterr().out) is bool(status)


def test_an_unsigned_decision_keeps_the_gate_shut(checked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    decide(checked, "accepted")
    book = load_workbook(checked)
    book["Discrepancies"]["P6"] = None
    book.save(checked)
    assert main(["status", str(checked)]) == 1
    assert "does not count: TE-102" in capsys.readouterr().out


def test_remarks_of_removed_rows_are_counted(checked: Path, index_file: Callable[..., Path]) -> None:
    decide(checked, "accepted")
    later = index_file(SOUND, name="later.xlsx")
    check_workbook(later, Settings(previous=checked))
    said = review_status(later.with_name("later_checked.xlsx")).as_text()
    assert "Remarks on rows that are no longer in the index: 1." in said


def test_a_copied_list_has_a_status_too(checked: Path, tmp_path: Path) -> None:
    book = load_workbook(checked)
    for name in book.sheetnames:
        if name != "Discrepancies":
            del book[name]
    for name in list(book.defined_names):
        del book.defined_names[name]
    book.save(tmp_path / "list.xlsx")
    status = review_status(tmp_path / "list.xlsx")
    assert status.open_errors == 1
    assert status.as_text().splitlines()[0] == "list.xlsx"


def test_an_index_is_no_checked_workbook(checked: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(WorkbookError, match="is not a checked workbook"):
        review_status(checked.with_name("index.xlsx"))
    assert main(["status", str(checked.with_name("index.xlsx"))]) == 2
    assert capsys.readouterr().err.count("\n") == 1
