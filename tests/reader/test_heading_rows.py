from collections.abc import Callable

import pytest

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.heading_rows import (
    best_rivals,
    candidates_of,
    count_named,
    heading_texts,
    names_a_tag,
)
from thermowell_index.reader.headings import HeadingDictionary, Match

MakeGrid = Callable[..., Grid]


def test_a_merged_group_stands_above_each_of_its_columns_and_no_further(grid: MakeGrid) -> None:
    made = grid("TAG | WELL | | NOTE\n | O/A | BORE | x", merges=["A1:A2", "B1:C1"])
    assert heading_texts(made, 1, 2) == {1: ("TAG", "TAG"), 2: ("WELL", "O/A"), 3: ("WELL", "BORE"), 4: ("NOTE", "x")}


def test_a_group_that_is_not_merged_reaches_to_the_next(grid: MakeGrid) -> None:
    made = grid("GENERAL | | WELL | \nTAG | SERVICE | O/A | BORE")
    assert [heading_texts(made, 1, 2)[column][0] for column in (1, 2, 3, 4)] == ["GENERAL", "GENERAL", "WELL", "WELL"]


def test_a_group_ends_at_a_column_without_a_heading(grid: MakeGrid) -> None:
    made = grid("WELL | | | x\nO/A | | BORE | TIP")
    assert heading_texts(made, 1, 2) == {1: ("WELL", "O/A"), 3: ("BORE",), 4: ("x", "TIP")}


def test_what_is_merged_over_most_of_the_table_is_a_title(grid: MakeGrid) -> None:
    made = grid("INDEX\nTAG | SERVICE | O/A | BORE | TIP | U", merges=["A1:F1"])
    texts = heading_texts(made, 1, 2)
    assert texts[1] == ("INDEX", "TAG")
    assert texts[4] == ("BORE",)


def test_fields_are_counted_once_and_unsure_ones_by_half(headings: HeadingDictionary) -> None:
    texts = {1: ("Tag",), 2: ("Bore depth",), 3: ("Bore depth",), 4: ("Bore depth calc.",), 5: ("Line size (NPS)",)}
    assert count_named(texts, headings) == 2.5


def test_a_heading_without_tag_counts_when_it_names_two_lengths(headings: HeadingDictionary) -> None:
    assert count_named({1: ("Service",), 2: ("Bore depth",)}, headings) == 0
    assert count_named({1: ("Service",), 2: ("Bore depth",), 3: ("Overall length",)}, headings) == 3


def test_a_well_tag_is_a_tag(headings: HeadingDictionary) -> None:
    assert names_a_tag({1: ("Service",), 2: ("TW No.",)}, headings)
    assert not names_a_tag({1: ("Service",)}, headings)


def test_the_reading_that_leaves_fewest_rivals_is_taken(headings: HeadingDictionary) -> None:
    assert candidates_of(("Sensor", "Length"), headings)[0].field == "probe_length"
    assert candidates_of(("Vendor data", "Bore depth"), headings)[0].field == "bore_depth"
    assert candidates_of(("Vendor",), headings) == ()


@pytest.mark.parametrize(
    "group,heading",
    [
        ("NOZZLE", "ID"),
        ("VESSEL", "INSIDE DIA"),
        ("CABLE", "LENGTH"),
        ("BIMETAL", "STEM LENGTH"),
        ("LEAD WIRE", "LENGTH"),
    ],
)
def test_a_group_of_another_thing_has_no_field_of_ours(headings: HeadingDictionary, group: str, heading: str) -> None:
    assert candidates_of((group, heading), headings) == ()


def test_a_group_that_names_our_things_too_has_them(headings: HeadingDictionary) -> None:
    assert candidates_of(("VESSEL THERMOWELLS", "Bore depth"), headings)[0].field == "bore_depth"


def test_rivals_are_the_matches_as_good_as_the_best() -> None:
    found = (Match("a", 1.0, 0), Match("b", 0.96, 0), Match("c", 0.9, 0))
    assert best_rivals(found) == found[:2]
