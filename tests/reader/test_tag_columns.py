from collections.abc import Callable, Mapping
from typing import Any

import pytest
from openpyxl.styles import Font

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.layout import find_headings
from thermowell_index.reader.tag_columns import TagColumns, find_tag_columns, find_well_tags, hold_no_tags

MakeGrid = Callable[..., Grid]
Tags = Callable[..., list[str] | None]


@pytest.fixture
def tags(grid: MakeGrid, headings: HeadingDictionary) -> Tags:
    """The tags of a sheet's rows; None where it has no tag columns."""

    def found(text: str, claimed: Mapping[int, str] | None = None, **more: Any) -> list[str] | None:
        made = grid(text, **more)
        (block,) = find_headings(made, headings)
        names = {column: matches[0].field for column, matches in block.candidates.items()}
        columns = find_tag_columns(
            block, made, names if claimed is None else claimed, range(block.data_row, made.last_row + 1)
        )
        if columns is None:
            return None
        return [columns.text(made, row) for row in range(block.data_row, made.last_row + 1)]

    return found


def test_a_tag_stands_in_one_column(tags: Tags) -> None:
    assert tags("Tag | Service | Bore depth\nTE-101 | a | 9\n | b | 9") == ["TE-101", ""]


def test_the_number_is_joined_to_the_function_letters_on_its_left(tags: Tags) -> None:
    assert tags("Type | Tag No. | Bore depth | TW No.\nTE | 101 | 9 | TW-101") == ["TE-101"]


def test_area_and_suffix_are_joined_too(tags: Tags) -> None:
    text = "Area | Type | Loop No. | Suffix | Bore depth\n10 | TE | 101 | A | 9\n10 | TI | 102 | | 9"
    assert tags(text) == ["10-TE-101A", "10-TI-102"]


@pytest.mark.parametrize("whole,joined", [("TW 101", "TE 101"), ("TW101", "TE101"), ("TW_101", "TE_101")])
def test_whole_tags_on_the_sheet_say_what_stands_between_the_parts(tags: Tags, whole: str, joined: str) -> None:
    assert tags(f"Type | Loop No. | Bore depth | Well tag\nTE | 101 | 9 | {whole}") == [joined]


def test_letters_that_name_no_temperature_are_no_part_of_a_tag(tags: Tags) -> None:
    assert tags("Type | Tag No. | Bore depth\nRTD | 101 | 9") == ["101"]


def test_a_group_heading_without_letters_below_it_is_not_joined(tags: Tags) -> None:
    text = "TAG | | Service | Bore depth\nElement | Transmitter\nTE-101 | TT-101 | a | 9"
    assert tags(text, merges=["A1:B1"]) == ["TE-101"]


def test_the_next_tag_column_serves_where_the_first_is_blank(tags: Tags) -> None:
    text = "Transmitter tag | Element tag | Loop | Bore depth\nTT-1 | TE-1 | T-1 | 9\nTT-2 | - | T-2 | 9\n | | T-3 | 9"
    assert tags(text) == ["TE-1", "TT-2", "T-3"]


def test_a_column_headed_element_that_holds_tags_names_the_row(tags: Tags) -> None:
    assert tags("Tag No. | Element | Bore depth\nTT-101 | TE-101 | 9") == ["TE-101"]


def test_of_columns_headed_alike_the_one_with_numbers_is_the_tag(tags: Tags) -> None:
    assert tags("Instrument | Tag | Bore depth\nRTD assembly | TE-101 | 9") == ["TE-101"]


def test_a_column_of_temperature_tags_needs_no_heading(tags: Tags) -> None:
    assert tags("Name | Service | Overall length | Bore depth\nTE-101 | a | 9 | 9", {2: "service"}) == ["TE-101"]
    assert tags("| Service | Overall length | Bore depth\nTE-101 | a | 9 | 9", {2: "service"}) == ["TE-101"]


def test_a_column_of_power_station_designations_needs_no_heading_for_tags(tags: Tags) -> None:
    text = "Designation | Service | Overall length | Bore depth\n40LAB20CT194 | a | 9 | 9\n40LAB21CT001 | a | 9 | 9"
    assert tags(text, {1: "service"}) == ["40LAB20CT194", "40LAB21CT001"]


def test_a_column_of_other_tags_is_not_taken_for_one(tags: Tags) -> None:
    assert tags("P&ID | Service | Overall length | Bore depth\nPID-101 | a | 9 | 9", {2: "service"}) is None


def test_a_column_headed_well_that_holds_well_tags_is_the_well_tag(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Thermowell | Service | Bore depth\nTE-101 | TW-101 | a | 9")
    (block,) = find_headings(made, headings)
    assert find_well_tags(block, made, {1: "tag"}, [2]) == 2
    assert find_well_tags(block, made, {1: "tag", 3: "well_tag"}, [2]) is None


def test_a_column_headed_well_that_holds_other_words_is_none(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Tag | Thermowell | Service | Bore depth\nTE-101 | yes | a | 9")
    (block,) = find_headings(made, headings)
    assert find_well_tags(block, made, {1: "tag"}, [2]) is None


@pytest.mark.parametrize("text,untagged", [("yes", {2}), ("TW-101", set()), ("TBD", set()), ("", set())])
def test_a_column_of_well_tags_without_a_number_holds_none(
    grid: MakeGrid, headings: HeadingDictionary, text: str, untagged: set[int]
) -> None:
    made = grid(f"Tag | Thermowell no. | Bore depth\nTE-101 | {text} | 9")
    (block,) = find_headings(made, headings)
    assert hold_no_tags(block, made, {1: "tag", 2: "well_tag"}, [2]) == untagged


def test_a_tag_is_struck_when_all_its_filled_parts_are(grid: MakeGrid) -> None:
    def strike(sheet: Any) -> None:
        for address in ("A1", "B1", "A2"):
            sheet[address].font = Font(strike=True)

    made = grid("TE | 101 |\nTE | 102\n | |\nx", change=strike)
    columns = TagColumns(parts=(1, 2))
    assert [columns.is_struck(made, row) for row in (1, 2, 9)] == [True, False, False]
