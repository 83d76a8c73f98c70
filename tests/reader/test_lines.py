from collections.abc import Callable

import pytest

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.lines import Lines, tag_shape
from thermowell_index.reader.tag_columns import TagColumns
from thermowell_index.table import ColumnRead

MakeGrid = Callable[..., Grid]
LENGTHS = frozenset({"overall_length", "bore_depth"})
FIELDS = ("tag", "service", "overall_length", "bore_depth", "remarks")


def column(field: str, number: int) -> ColumnRead:
    return ColumnRead(field=field, column=number, heading=field, unit="in", unit_from="heading", why="heading")


@pytest.fixture
def why_not(grid: MakeGrid) -> Callable[..., dict[int, str]]:
    """Why lines of a table of five columns are no rows; those that are rows are left out."""

    def reasons(text: str, **more: object) -> dict[int, str]:
        made = grid(text, **more)
        columns = {name: column(name, number) for number, name in enumerate(FIELDS, start=1)}
        lines = Lines(made, TagColumns(parts=(1,)), columns, LENGTHS)
        rows = range(1, made.last_row + 2)
        lines.learn(rows)
        return {row: reason for row in rows if (reason := lines.why_not(row))}

    return reasons


ROW = "TE-101 | Feed | 9.25 | 9"


def test_a_filled_line_is_a_row_and_an_empty_one_is_blank(why_not: Callable[..., dict[int, str]]) -> None:
    assert why_not(ROW) == {2: "blank"}


@pytest.mark.parametrize(
    "line,reason",
    [
        ("UNIT 200", "section"),
        ("Total | 4", "total or count"),
        ("Grand total | | 100 | 90", "total or count"),
        (" | Average | 9 | 9", "total or count"),
        ("Notes: see drawing", "note or footer"),
        ("Prepared by XX", "note or footer"),
        (f"{'a long note ' * 6} | x", "note or footer"),
        ("Legend", "note or footer"),
        ("Tank farm 2", "section, note or footer"),
        (" | to reactor", "no tag and no dimensions"),
        (" | note | 9", "no tag and no dimensions"),
        (" | Note 3 | 9 | 9", "no tag and no dimensions"),
        (" | all wells | =C1 | =D1", "total or count"),
    ],
)
def test_a_line_of_another_kind_is_no_row(why_not: Callable[..., dict[int, str]], line: str, reason: str) -> None:
    assert why_not(f"{ROW}\n{line}\n{ROW}") == {2: reason, 4: "blank"}


@pytest.mark.parametrize(
    "line",
    [
        "TE-102",
        "X 7 | | 9.25 | 9",
        "PT-102 | Feed",
        "TE 0102 | Feed",
        "9 | Feed | | | note",
        "AREA 5 | | 9 | 9",
        " | Feed | 9.25 | 9",
        " | Feed | 9.25 | | note",
    ],
)
def test_a_line_that_may_be_a_point_is_a_row(why_not: Callable[..., dict[int, str]], line: str) -> None:
    expected = {2: "section, note or footer", 4: "blank"} if line.startswith("9 ") else {4: "blank"}
    assert why_not(f"{ROW}\n{line}\n{ROW}") == expected


def test_thin_lines_below_a_legend_are_no_rows(why_not: Callable[..., dict[int, str]]) -> None:
    text = f"{ROW}\nLEGEND\nRTD-3 | three wires\nTE-102 | Feed | | | live\nTE-103 | a | 9 | 9"
    assert why_not(text) == {2: "note or footer", 6: "blank"}
    text = f"{ROW}\nLEGEND\nRTD-3 | three wires\nTE-102 | Feed | | | live"
    assert why_not(text) == {2: "note or footer", 3: "below a legend or notes", 5: "blank"}


def test_a_line_merged_across_the_table_is_a_section(why_not: Callable[..., dict[int, str]]) -> None:
    assert why_not(f"{ROW}\nTE-900 AND ABOVE", merges=["A2:D2"])[2] == "section or note across the table"


def test_the_second_line_of_a_merged_record_is_no_row(why_not: Callable[..., dict[int, str]]) -> None:
    assert why_not(f"{ROW}\n | to reactor", merges=["A1:A2"])[2] == "second line of a merged record"


@pytest.mark.parametrize(
    "tag,shape", [("12-TE 101A", "9-A9A"), ("=10LAB10CT001", "=9A9A9"), ("TE-101", "A-9"), ("", "")]
)
def test_the_shape_of_a_tag_is_its_runs_of_letters_and_digits(tag: str, shape: str) -> None:
    assert tag_shape(tag) == shape
