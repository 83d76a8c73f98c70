from collections.abc import Callable

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.layout import find_headings, why_no_table

MakeGrid = Callable[..., Grid]


def test_a_heading_stands_below_title_lines(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("TEMPERATURE INDEX\nRev | B\nTag | Service | Bore depth\nTE-1 | Feed | 9")
    (block,) = find_headings(made, headings)
    assert (block.first_row, block.last_row, block.data_row) == (3, 3, 4)


def test_rows_of_units_and_of_column_numbers_belong_to_the_heading(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth\n1 | 2 | 3\n - | | mm\nTE-1 | Feed | 235")
    (block,) = find_headings(made, headings)
    assert (block.last_row, block.data_row, block.units) == (1, 4, {3: "mm"})


def test_numbers_that_do_not_count_up_are_no_column_numbers(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth\n1 | 2 | 9\n2 | 2 | 9")
    assert find_headings(made, headings)[0].data_row == 2


def test_a_repeated_heading_has_the_same_signature(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth\nTE-1 | a | 9\nTAG | SERVICE | BORE DEPTH\nTE-2 | b | 9")
    one, other = find_headings(made, headings)
    assert one.signature == other.signature


def test_two_headings_in_two_languages_are_one(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth\nMessstelle | Einsatz | Bohrungstiefe\nTE-1 | a | 9")
    assert [(block.first_row, block.last_row) for block in find_headings(made, headings)] == [(1, 2)]


def test_a_second_row_of_other_words_is_not_taken_for_a_heading(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Service | Bore depth\nx | y | Overall length\nTE-1 | a | 9")
    assert find_headings(made, headings)[0].last_row == 1


def test_headings_that_disagree_are_refused_in_one_line(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Bore depth | Overall length\nTag | Overall length | Bore depth\nTE-1 | 9 | 9.25")
    with pytest.raises(WorkbookError, match="heading rows 1 and 2 disagree: column B is 'Bore depth' and 'Overall"):
        find_headings(made, headings)


def test_a_short_heading_counts_only_above_tags(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert len(find_headings(grid("Tag | Bore depth\nTE-1 | 9"), headings)) == 1
    assert len(find_headings(grid("Overall length | Bore depth\nTE-101 | 9"), headings)) == 1
    assert find_headings(grid("Tag | Bore depth\nsee note | all"), headings) == []
    assert find_headings(grid("Tag | Service\nTE-1 | Feed"), headings) == []


def test_a_data_row_is_no_second_heading_row(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Bore depth | How held\nTE-1 | 9 | Spring-loaded fitting")
    assert find_headings(made, headings)[0].last_row == 1


def test_labels_that_run_down_are_said(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("| Tag | TE-1\n| Service | Feed\n| Overall length | 9\n| Bore depth | 9\n| Tip thickness | 1")
    assert why_no_table(made, headings).startswith("its labels run down column B, one column a tag")


def test_a_sheet_of_other_things_has_no_heading(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Abbreviation | Meaning\nTE | element")
    assert why_no_table(made, headings) == "no heading row with a tag and two more known headings"


def test_a_column_without_a_heading_whose_unit_differs_is_of_the_heading_on_its_left(
    grid: MakeGrid, headings: HeadingDictionary
) -> None:
    made = grid("Tag | Service | Bore depth |\n | | in | mm\nTE-1 | Feed | 9 | 229")
    (block,) = find_headings(made, headings)
    assert (block.texts[4], block.units) == (("Bore depth",), {3: "in", 4: "mm"})


def test_headings_beside_a_tag_that_are_not_known_are_named(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Dim A (in) | Dim B (in)\nTE-101 | 9.25 | 9")
    assert find_headings(made, headings) == []
    assert why_no_table(made, headings) == (
        "row 1 has a tag and no known length beside it; not known: 'Dim A (in)', 'Dim B (in)'"
    )
