"""Tables on our sheets read back."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest
from openpyxl import Workbook

from thermowell_index.ooxml import Package
from thermowell_index.writer.sheet_table import SheetLine, date_of, lines_of_table


def _lines(tmp_path: Path, *rows: Sequence[object]) -> list[SheetLine] | None:
    book = Workbook()
    for row in rows:
        book.worksheets[0].append(list(row))
    book.save(tmp_path / "t.xlsx")
    with Package.open(tmp_path / "t.xlsx") as package:
        found = lines_of_table(package, package.read("Sheet"), ("tag", "comment"), ("tag", "comment", "rule"))
        return None if found is None else list(found)


def test_lines_are_read_by_headings_and_other_columns_are_kept(tmp_path: Path) -> None:
    lines = _lines(
        tmp_path,
        ["Title"],
        ["Comment", "By", "Tag"],
        ["x", "A. B.", "TE-1", "beside"],
        [None, None, None],
        [2.0, date(2024, 6, 1), 0.5],
    )
    assert lines is not None
    assert [(line.row, dict(line.shown), list(line.others)) for line in lines] == [
        (3, {"tag": "TE-1", "comment": "x"}, [("By", "A. B."), ("column D", "beside")]),
        (5, {"tag": "0.5", "comment": "2"}, [("By", "2024-06-01")]),
    ]


def test_of_two_columns_with_one_heading_the_left_one_counts(tmp_path: Path) -> None:
    lines = _lines(tmp_path, ["Tag", "Comment", "Comment"], ["TE-1", "left", "right"])
    assert lines is not None
    assert (lines[0].shown["comment"], list(lines[0].others)) == ("left", [("Comment", "right")])


def test_a_sheet_without_the_headings_has_no_table(tmp_path: Path) -> None:
    assert _lines(tmp_path, ["Tag", "Rule"], ["TE-1", "x"]) is None


@pytest.mark.parametrize(
    "date_1904,expected",
    [(False, date(2024, 6, 1)), (True, date(2028, 6, 2))],  # the two systems stand 1462 days apart
)
def test_a_day_is_counted_from_the_workbook_s_own_start(*, date_1904: bool, expected: date) -> None:
    assert date_of(45444.0, date_1904=date_1904) == expected
