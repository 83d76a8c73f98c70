"""Where the copy goes, and what may not be overwritten."""

from pathlib import Path
from shutil import copyfile

import pytest
from openpyxl import Workbook

from thermowell_index.errors import OutputError
from thermowell_index.writer import Target, target_for


@pytest.mark.parametrize(
    "name,is_own,expected",
    [
        ("INDEX.xlsx", False, "INDEX_checked.xlsx"),
        ("INDEX_checked.xlsx", True, "INDEX_checked-2.xlsx"),
        ("INDEX_checked-2.xlsx", True, "INDEX_checked-3.xlsx"),
        ("INDEX_checked-9.xlsx", True, "INDEX_checked-10.xlsx"),
        ("INDEX_checked.xlsx", False, "INDEX_checked_checked.xlsx"),
        ("renamed.xlsx", True, "renamed_checked.xlsx"),
        ("INDEX.xlsm", False, "INDEX_checked.xlsm"),
        ("INDEX.XLSM", False, "INDEX_checked.xlsm"),
        ("INDEX.csv", False, "INDEX_checked.xlsx"),
        ("INDEX.ods", False, "INDEX_checked.xlsx"),
    ],
)
def test_the_copy_is_named_after_the_index(*, tmp_path: Path, name: str, is_own: bool, expected: str) -> None:
    assert target_for(tmp_path / name, None, is_own=is_own) == Target(path=tmp_path / expected, previous=None)


def test_a_name_or_a_folder_can_be_given(tmp_path: Path) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    assert target_for(tmp_path / "INDEX.xlsx", folder, is_own=False).path == folder / "INDEX_checked.xlsx"
    assert target_for(tmp_path / "INDEX.xlsx", folder / "a.xlsx", is_own=False).path == folder / "a.xlsx"


def test_a_checked_workbook_at_the_target_is_the_previous_run(index_path: Path, checked_path: Path) -> None:
    assert target_for(index_path, None, is_own=False).previous == checked_path


def test_another_workbook_at_the_target_is_refused(index_path: Path) -> None:
    Workbook().save(index_path.with_name("INDEX_checked.xlsx"))
    with pytest.raises(OutputError, match=r"INDEX_checked\.xlsx: exists and was not made by this program"):
        target_for(index_path, None, is_own=False)


def test_a_file_that_is_no_workbook_at_the_target_is_refused(index_path: Path) -> None:
    index_path.with_name("INDEX_checked.xlsx").write_text("notes")
    with pytest.raises(OutputError, match="was not made by this program"):
        target_for(index_path, None, is_own=False)


def test_the_input_is_never_the_target(index_path: Path, checked_path: Path) -> None:
    copyfile(checked_path, index_path)
    with pytest.raises(OutputError, match="is the input itself"):
        target_for(index_path, index_path, is_own=True)


def test_a_missing_folder_is_said(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="there is no folder"):
        target_for(tmp_path / "INDEX.xlsx", tmp_path / "none" / "a.xlsx", is_own=False)


def test_a_name_that_does_not_suit_the_format_is_refused(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match=r"must be named \.xlsm"):
        target_for(tmp_path / "INDEX.xlsm", tmp_path / "a.xlsx", is_own=False)
