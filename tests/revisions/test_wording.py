"""Wordings compared."""

import pytest

from thermowell_index.revisions.wording import detail, same_wording


@pytest.mark.parametrize(
    "one,other,is_same",
    [
        ("bore 9", "bore  9\n", True),
        ("bore 9", "bore 10", False),
        ("also Index row 12", "also Index row 14", True),
        ("also Index rows 12, 13", "also Index rows 20, 21", True),
        ("in cell C12", "in cell D4", True),
        ("also A row 12", "also B row 12", False),
        ("24 rows", "25 rows", False),
    ],
)
def test_where_a_row_stands_does_not_count(*, one: str, other: str, is_same: bool) -> None:
    assert same_wording(one, other) is is_same


@pytest.mark.parametrize("text", ["3 rows: no column for bore", "1 row: no column for bore", "no column for bore"])
def test_a_count_of_rows_is_not_part_of_what_is_said(text: str) -> None:
    assert detail(text) == "no column for bore"
