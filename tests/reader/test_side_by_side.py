from collections.abc import Callable

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.layout import find_headings
from thermowell_index.reader.side_by_side import apart

MakeGrid = Callable[..., Grid]
WELLS_AND_SENSORS = "TW Tag | Bore depth | Tip thickness | | TE Tag | Service | Probe length\n"


def _columns(made: Grid, headings: HeadingDictionary) -> list[list[int]]:
    (block,) = find_headings(made, headings)
    return [sorted(part.texts) for _, part in apart(made, block, made.last_row, headings)]


def test_tables_are_parted_at_a_blank_column(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(f"{WELLS_AND_SENSORS}TW-1 | 9 | 0.25 | | TE-2 | a | 9\nTW-2 | 6 | 0.25 | | TE-1 | b | 6")
    assert _columns(made, headings) == [[1, 2, 3], [5, 6, 7]]


def test_a_table_sees_its_own_columns_only(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(f"{WELLS_AND_SENSORS}TW-1 | 9 | 0.25 | | TE-2 | a | 9")
    (block,) = find_headings(made, headings)
    (wells, _), (sensors, _) = apart(made, block, made.last_row, headings)
    assert (wells.own_texts(2), sensors.own_texts(2)) == (
        {1: "TW-1", 2: "9", 3: "0.25"},
        {5: "TE-2", 6: "a", 7: "9"},
    )


def test_rows_that_speak_of_one_loop_are_one_table(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(f"{WELLS_AND_SENSORS}TW-1 | 9 | 0.25 | | TE-1 | a | 9\nTW-2 | 6 | 0.25 | | TE-2 | b | 6")
    assert _columns(made, headings) == [[1, 2, 3, 5, 6, 7]]


def test_something_in_the_column_between_makes_it_one_table(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(f"{WELLS_AND_SENSORS}TW-1 | 9 | 0.25 | x | TE-2 | a | 9")
    assert _columns(made, headings) == [[1, 2, 3, 5, 6, 7]]


def test_rows_that_speak_of_one_loop_now_and_then_are_refused(grid: MakeGrid, headings: HeadingDictionary) -> None:
    lines = [f"TW-{number} | 9 | 0.25 | | TE-{number if number > 1 else 9} | a | 9" for number in range(1, 5)]
    with pytest.raises(WorkbookError, match="tags in columns A and E"):
        _columns(grid(WELLS_AND_SENSORS + "\n".join(lines)), headings)


def test_a_second_tag_with_the_same_length_after_it_is_refused(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth | Tag | Bore depth\nTE-1 | a | 9 | TE-2 | 6")
    with pytest.raises(WorkbookError, match="tags in columns A and D"):
        _columns(made, headings)


def test_headings_said_over_and_over_are_as_many_tables(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth | Tag | Service | Bore depth\nTE-1 | a | 9 | TE-2 | b | 6")
    assert _columns(made, headings) == [[1, 2, 3], [4, 5, 6]]
