from collections.abc import Callable

import pytest

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.layout import find_headings
from thermowell_index.reader.noted_units import NotedUnit, noted_unit, unit_of_note

MakeGrid = Callable[..., Grid]
HEAD = "Tag | Service | Bore depth"


@pytest.mark.parametrize(
    "note,unit",
    [
        ("All dimensions in mm", "mm"),
        ("Dimensions are in inches unless noted", "in"),
        ("Alle Maße in mm", "mm"),
        ("Toutes les longueurs en mm", "mm"),
        ("Alle lengtes in mm, ook nippels", "mm"),
        ("Nipple lengths in inches", None),
        ("Line sizes in inches", None),
        ("All lengths, nipples too, in inches", "in"),
        ("Temperature in deg C", None),
        ("Dimensions in mm or inches", None),
        ("Lengths and diameters in millimetres", "mm"),
        ("Nipple lengths and diameters in inches", None),
        ("Quote in mm", "mm"),
        ("Vendor to quote in inches", None),
        ("All dimensions in inches except elevations in feet", "in"),
        ("Cotas em mm", "mm"),
        ("Everything in inches", "in"),
        ("mm unless noted", "mm"),
        ("Measurements in inches", "in"),
        ("Bolts measured in mm", None),
        ("Orifice dims in inches", None),
        ("Index unit 38, inches", "in"),
        ("inches", "in"),
        ("Sensors (mm)", "mm"),
        ("Insulated lines \u2013 thermowells [inches]", "in"),
        ("Cable schedule, inches", None),
        ("Nipples (mm)", None),
    ],
)
def test_a_note_declares_a_unit_when_it_speaks_of_all_lengths(note: str, unit: str | None) -> None:
    assert unit_of_note(note) == unit


def unit_in(made: Grid, headings: HeadingDictionary, table: int = 0) -> str | None:
    blocks = find_headings(made, headings)
    ends = [block.first_row - 1 for block in blocks[1:]] + [made.last_row]
    return noted_unit(made, blocks, [(blocks[table], ends[table])]).unit


@pytest.mark.parametrize(
    "note,gives_way",
    [
        ("All dimensions in mm", False),
        ("All dimensions in mm unless noted", True),
        ("ALL DIMENSIONS IN MM U.N.O.", True),
        ("Alle Maße in mm, sofern nicht anders angegeben", True),
    ],
)
def test_a_note_that_says_so_gives_way_to_a_nearer_unit(
    grid: MakeGrid,
    headings: HeadingDictionary,
    note: str,
    gives_way: bool,  # noqa: FBT001 - one of a table
) -> None:
    made = grid(f"{note}\n{HEAD}\nTE-1 | a | 235")
    blocks = find_headings(made, headings)
    noted = noted_unit(made, blocks, [(blocks[0], made.last_row)])
    assert noted == NotedUnit("mm", gives_way=gives_way, notes=(note,))


def test_the_title_block_is_asked(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"Dimensions in mm\n{HEAD}\nTE-1 | a | 235"), headings) == "mm"


def test_a_label_is_read_with_what_stands_beside_it(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"Units: | mm\n{HEAD}\nTE-1 | a | 235"), headings) == "mm"
    assert unit_in(grid(f"Length unit |  | in\n{HEAD}\nTE-1 | a | 9"), headings) == "in"
    assert unit_in(grid(f"Line sizes, inches\n{HEAD}\nTE-1 | a | 9"), headings) is None


def test_the_notes_above_a_row_are_kept(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(f"List of all wells\n{HEAD}\nTE-1 | a | 9\nThese are not yet measured\nTE-2 | a | 9")
    noted = noted_unit(made, find_headings(made, headings), [(find_headings(made, headings)[0], made.last_row)])
    assert noted.above(3) == "List of all wells"
    assert noted.above(5) == "List of all wells ; These are not yet measured"


def test_an_abbreviation_does_not_end_a_clause(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"Dim. in mm\n{HEAD}\nTE-1 | a | 235"), headings) == "mm"


def test_clauses_of_one_note_are_read_apart(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"Line sizes in inches; dimensions in mm\n{HEAD}\nTE-1 | a | 235"), headings) == "mm"


def test_notes_that_differ_declare_nothing(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"Dimensions in mm\nLengths in inches\n{HEAD}\nTE-1 | a | 235"), headings) is None


def test_a_line_below_the_table_is_asked_last(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"{HEAD}\nTE-1 | a | 235\nDimensions in mm"), headings) == "mm"


def test_a_cell_of_the_table_is_no_note(grid: MakeGrid, headings: HeadingDictionary) -> None:
    assert unit_in(grid(f"{HEAD}\nTE-1 | dimensions in mm | 235"), headings) is None


def test_each_table_has_the_note_right_above_it(grid: MakeGrid, headings: HeadingDictionary) -> None:
    text = f"Dimensions in inches\n{HEAD}\nTE-1 | a | 9\nDimensions in mm\nTag | Service | Tip thickness\nTE-2 | b | 6"
    assert [unit_in(grid(text), headings, table) for table in (0, 1)] == ["in", "mm"]


def test_a_table_without_a_note_of_its_own_has_the_one_of_the_title_block(
    grid: MakeGrid, headings: HeadingDictionary
) -> None:
    text = f"Dimensions in inches\n{HEAD}\nTE-1 | a | 9\nTag | Service | Tip thickness\nTE-2 | b | 6"
    assert unit_in(grid(text), headings, 1) == "in"


def test_what_stands_above_the_first_of_two_narrow_tables_is_not_right_above_the_second(
    grid: MakeGrid, headings: HeadingDictionary
) -> None:
    text = "Dimensions in mm\nTag | Bore depth\nTE-1 | 9\nLengths in inches\nTag | Overall length\nTE-2 | 9"
    assert [unit_in(grid(text), headings, table) for table in (0, 1)] == ["mm", "in"]


def test_a_line_between_the_rows_declares_the_unit_of_its_section(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(
        f"{HEAD}\nTE-1 | a | 9\nPackage unit: dimensions in mm\nTE-2 | a | 235\nArea 300 utilities\nTE-3 | a | 9"
    )
    noted = noted_unit(made, find_headings(made, headings), [(find_headings(made, headings)[0], made.last_row)])
    assert [noted.of_section(row) for row in (2, 4, 6)] == [(None, False), ("mm", True), ("mm", False)]


def test_a_line_that_gives_way_declares_no_section(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid(f"{HEAD}\nTE-1 | a | 9\nDimensions in mm unless noted\nTE-2 | a | 235")
    noted = noted_unit(made, find_headings(made, headings), [(find_headings(made, headings)[0], made.last_row)])
    assert noted.of_section(4) == (None, False)
