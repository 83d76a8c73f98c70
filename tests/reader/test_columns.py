from collections.abc import Callable, Mapping
from fractions import Fraction
from typing import Any

import pytest

from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.heading_map import MappedHeading
from thermowell_index.reader.columns import Dictionary, fits, is_mapped, name_columns
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.layout import find_headings
from thermowell_index.reader.neighbours import column_unit
from thermowell_index.table import TableRead

MakeGrid = Callable[..., Grid]
Named = Callable[..., TableRead]
FITS = {entry.name: entry.fits for entry in FIELDS if entry.fits is not None}


@pytest.fixture
def named(grid: MakeGrid, headings: HeadingDictionary) -> Named:
    """The columns of a table written as text."""

    def name(text: str, mapped: Mapping[str, MappedHeading] | None = None, **more: Any) -> TableRead:
        made = grid(text)
        block = find_headings(made, headings)[0]
        table = TableRead(table_id=0, sheet="Sheet", heading_row=block.last_row, first_row=block.data_row)
        name_columns(table, block, made, Dictionary(fields=FIELD, fits_mm=FITS, **more), None, mapped or {})
        return table

    return name


def letters(table: TableRead) -> dict[str, int]:
    return {name: read.column for name, read in table.columns.items()}


def test_a_heading_that_fits_one_field_names_its_column(named: Named) -> None:
    table = named("Tag | Service | Bore depth\nTE-1 | a | 9")
    assert letters(table) == {"tag": 1, "service": 2, "bore_depth": 3}
    assert table.columns["bore_depth"].why == "heading"


@pytest.mark.parametrize(
    "values,field", [("0.26", "bore_diameter"), ("0.385", "bore_diameter"), ("9", "bore_depth"), ("12.5", "bore_depth")]
)
def test_the_values_tell_a_bore_diameter_from_a_depth(named: Named, values: str, field: str) -> None:
    table = named(f"Tag | Service | Bore (in)\nTE-1 | a | {values}\nTE-2 | b | {values}")
    assert table.columns[field].column == 3
    assert table.columns[field].why.startswith("its values, heading fits bore d")


def test_the_values_tell_a_tip_from_its_diameter(named: Named) -> None:
    assert "tip_thickness" in named("Tag | Service | Tip (in)\nTE-1 | a | 0.25").columns
    assert "tip_diameter" in named("Tag | Service | Tip (in)\nTE-1 | a | 0.625").columns
    assert named("Tag | Service | Tip (in)\nTE-1 | a | 0.375").undecided == [
        (3, "Tip (in)", ("tip_diameter", "tip_thickness"))
    ]


def test_without_a_unit_either_unit_may_make_a_value_fit(named: Named) -> None:
    assert "bore_depth" in named("Tag | Service | Bore\nTE-1 | a | 235").columns


def test_a_column_that_fits_two_fields_takes_the_one_that_is_free(named: Named) -> None:
    table = named("Tag | Nipple length (in) | Nipple (in)\nTE-1 | 4 | 4")
    assert table.columns["nipple_length"].column == 2
    table = named("Tag | Service | Depth (in) | Insertion length (in)\nTE-1 | a | 9 | 7")
    assert table.undecided == [(3, "Depth (in)", ("bore_depth",))]


def test_the_other_field_with_a_column_of_its_own_leaves_the_free_one(named: Named) -> None:
    table = named("Tag | Bore depth (in) | Bore (in)\nTE-1 | 9 | 1.8\nTE-2 | 9 | 2")
    assert table.columns["bore_diameter"].why == "the other field it fits has a column of its own"


def test_lengths_that_no_value_can_tell_apart_stay_undecided(named: Named) -> None:
    table = named("Tag | Service | Length (in)\nTE-1 | a | 9")
    assert [(column, heading) for column, heading, _ in table.undecided] == [(3, "Length (in)")]
    assert "bore_depth" in table.undecided[0][2]


def test_an_undecided_column_without_a_length_in_it_is_of_no_concern(named: Named) -> None:
    table = named("Tag | Bore depth (in) | Length (in)\nTE-1 | 9 |\nTE-2 | 9 | see drawing")
    assert table.undecided == []


def test_words_alike_for_two_texts_go_to_the_first(named: Named) -> None:
    table = named("Tag | Bore depth (in) | Line size / Schedule\nTE-1 | 9 | 4 in, 40")
    assert "line_size" in table.columns


def test_a_unit_column_is_told_from_the_plant_unit(named: Named) -> None:
    assert named("Tag | Unit | Bore depth\nTE-1 | mm | 9").columns["length_unit"].column == 2
    assert named("Tag | Unit | Bore depth\nTE-1 | 200 | 9").columns["area"].column == 2


def test_a_second_column_of_equal_standing_is_kept_for_comparison(named: Named) -> None:
    table = named("Tag | Bore depth | Bore depth | Bore depth | Service | Description\nTE-1 | 9 | 9 | 9 | a | b")
    assert letters(table)["bore_depth"] == 2
    assert [column.column for column in table.second_columns] == [3, 4]
    assert table.unread == [(6, "Description")]


def test_a_column_of_lesser_standing_is_not_read(named: Named) -> None:
    table = named("Tag | Bore depth | Insertion length | Insertion length calc.\nTE-1 | 9 | 9 | 9")
    assert table.second_columns == []
    assert table.unread == [(4, "Insertion length calc.")]


@pytest.mark.parametrize(
    "heading",
    [
        "Bore depth calc.",
        "Bore depth (vendor dwg)",
        "Vendor bore depth",
        "Bore depth vendor",
        "Bore depth per data sheet",
        "Bore depth P&ID",
        "Bore depth 2",
        "Bore depth contractor",
        "Bore depth check",
    ],
)
def test_no_second_figure_of_a_bore_depth_is_passed_over(named: Named, heading: str) -> None:
    seconds = named(f"Tag | Bore depth | {heading}\nTE-1 | 9 | 8").second_columns
    assert [(column.field, column.column) for column in seconds] == [("bore_depth", 3)]


@pytest.mark.parametrize(
    "heading,length,is_lagging", [("T (in)", "2", True), ("T (in)", "0.25", False), ("T", "2", False)]
)
def test_the_letter_t_beside_u_is_the_lagging_length(
    *, named: Named, heading: str, length: str, is_lagging: bool
) -> None:
    table = named(f"Tag | U (in) | {heading} | Bore depth (in)\nTE-1 | 7.5 | {length} | 9\nTE-2 | 7.5 | | 9")
    assert ("lagging_length" in table.columns) == is_lagging


@pytest.mark.parametrize(
    "first,second,is_of_the_well",
    [("1 NPT", '2" 300# RF', True), ("1/2 NPT", '1/2" NPT', False), ("1 NPT", "see note", False)],
)
def test_a_connection_without_an_owner_is_the_wells_where_no_instrument_has_such(
    *, named: Named, first: str, second: str, is_of_the_well: bool
) -> None:
    table = named(f"Tag | Connection | Bore depth (in)\nTE-1 | {first} | 9\nTE-2 | {second} | 9")
    assert ("well_connection" in table.columns) == is_of_the_well


@pytest.mark.parametrize(
    "heading,second,is_thread",
    [
        ("Anschl. oben", "M20x1,5", True),
        ("Cable entry", "M20x1.5", False),
        ("Anschl. oben", "1/2 NPT", True),
        ("Anschl. oben", "none", False),
    ],
)
def test_threads_of_an_instruments_size_are_known_by_their_values(
    *, named: Named, heading: str, second: str, is_thread: bool
) -> None:
    table = named(f"Tag | {heading} | Bore depth (in)\nTE-1 | G 1/2 | 9\nTE-2 | {second} | 9")
    assert ("instrument_thread" in table.columns) == is_thread


def test_ticks_are_no_second_figure(named: Named) -> None:
    table = named("Tag | Bore depth | Bore depth P&ID\nTE-1 | 9 | ok\nTE-2 | 9 | ok")
    assert table.unread == [(3, "Bore depth P&ID")]


def test_the_users_map_wins_and_gives_the_unit(named: Named) -> None:
    mapped = {
        "bore_depth": MappedHeading(headings=("column C",), unit="mm"),
        "tag": MappedHeading(headings=("Name",)),
        "ignore": MappedHeading(headings=("Service",)),
    }
    table = named("Name | Service | X (in) | Bore depth | Tip thickness\n7 | a | 9 | 9 | 6\n8 | b | 9 | 9 | 6", mapped)
    assert letters(table) == {"tag": 1, "bore_depth": 3, "tip_thickness": 5}
    assert (table.columns["bore_depth"].unit, table.columns["bore_depth"].unit_from) == ("mm", "heading map")
    assert table.second_columns == []
    assert table.unread == [(2, "Service"), (4, "Bore depth")]


def test_the_users_map_may_leave_the_unit_to_the_heading(named: Named) -> None:
    mapped = {"bore_depth": MappedHeading(headings=("X (in)",)), "spring_travel": MappedHeading(headings=("none",))}
    table = named("Tag | Service | X (in) | Tip thickness\nTE-1 | a | 9 | 6", mapped)
    assert (table.columns["bore_depth"].unit, table.columns["bore_depth"].unit_from) == ("in", "heading")


def test_a_column_is_known_by_its_words_where_its_heading_is_not(named: Named) -> None:
    known = {"sensor_mounting": lambda texts: set(texts) == {"springy"}}
    text = "Tag | Bore depth | How\nTE-1 | 9 | springy"
    assert named(text, known_words=known).columns["sensor_mounting"].why == "its words"
    both = "Tag | Bore depth | How | Type\nTE-1 | 9 | springy | springy"
    assert "sensor_mounting" not in named(both, known_words=known).columns
    stated = "Tag | Bore depth | Sensor mounting | How\nTE-1 | 9 | x | springy"
    assert named(stated, known_words=known).columns["sensor_mounting"].column == 3


def test_a_column_headed_well_that_holds_well_tags_is_the_well_tag(named: Named) -> None:
    assert named("Tag | Thermowell | Bore depth\nTE-1 | TW-1 | 9").columns["well_tag"].why == "its values"


def test_a_table_of_wells_is_known_by_its_well_tags(grid: MakeGrid, headings: HeadingDictionary) -> None:
    made = grid("Well No. | Service | Bore depth\nTW-1 | a | 9")
    (block,) = find_headings(made, headings)
    table = TableRead(table_id=0, sheet="Sheet", heading_row=1, first_row=2)
    tag = name_columns(table, block, made, Dictionary(fields=FIELD, fits_mm=FITS), None, {})
    assert tag is not None
    assert tag.parts == (1,)
    assert "tag" not in table.columns


@pytest.mark.parametrize(
    "text,unit",
    [
        ("Tag | Service | Bore depth (in)\n | | mm\nTE-1 | a | 9", ("mm", "row of units")),
        ("Tag | Service | Bore depth (in)\nTE-1 | a | 9", ("in", "heading")),
        ("Tag | Service | Bore depth\nTE-1 | a | 9", (None, "")),
    ],
)
def test_a_row_of_units_comes_before_the_heading(
    grid: MakeGrid, headings: HeadingDictionary, text: str, unit: tuple[str | None, str]
) -> None:
    (block,) = find_headings(grid(text), headings)
    assert column_unit(block, 3) == unit


def test_a_number_fits_in_its_unit_or_in_either() -> None:
    assert fits((38.1, 3048.0), Fraction(9), "in")
    assert not fits((38.1, 3048.0), Fraction(9), "mm")
    assert fits((38.1, 3048.0), Fraction(9), None)


def test_a_mapped_heading_means_a_column_by_text_by_levels_or_by_letter(
    grid: MakeGrid, headings: HeadingDictionary
) -> None:
    made = grid("TAG | NIPPLE | SERVICE | TIP\n | Length | | Thickness\nTE-1 | 9 | a | 6", merges=["A1:A2", "C1:C2"])
    (block,) = find_headings(made, headings)
    for heading in ("length", "Nipple  Length", "NIPPLE / Length", "column b"):
        assert is_mapped(MappedHeading(headings=(heading,)), block, 2)
    assert not is_mapped(MappedHeading(headings=("Nipple depth",)), block, 2)


@pytest.mark.parametrize(
    "cell,field", [("4", "nipple_length"), ("1/2 NPT", "extension_thread"), ("M20x1.5", "extension_thread")]
)
def test_a_nipple_size_is_a_length_or_a_thread(named: Named, cell: str, field: str) -> None:
    assert field in named(f"Tag | Bore depth (in) | Nipple size (in)\nTE-1 | 9 | {cell}").columns


def test_a_nipple_size_that_may_be_either_stays_undecided(named: Named) -> None:
    assert named("Tag | Bore depth (in) | Nipple size (in)\nTE-1 | 9 | 1").undecided[0][0] == 3
