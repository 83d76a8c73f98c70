import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

import pytest

from thermowell_index.reader.cells import Reading, read_length_text
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.lengths import (
    Declared,
    Length,
    decimal_mark_of,
    first_readings,
    joined_columns,
    lengths,
    settled_readings,
    shows_fractions,
)
from thermowell_index.table import CellState, ColumnRead

MakeGrid = Callable[..., Grid]
BORE_MM = (38.1, 3048.0)


def column(unit: str | None = None, unit_from: str = "heading") -> ColumnRead:
    return ColumnRead(field="bore_depth", column=1, heading="Bore depth", unit=unit, unit_from=unit_from, why="heading")


def read(
    texts: Sequence[str],
    unit: str | None = None,
    unit_from: str = "heading",
    by_row: Sequence[str | None] | None = None,
    title: str | None = None,
    default: str | None = None,
) -> list[Length]:
    readings = [read_length_text(text, None) for text in texts]
    declared = Declared(by_row=by_row or [None] * len(texts), title=title, default=default)
    return lengths(readings, column(unit, unit_from), declared, BORE_MM)


def test_the_first_source_that_answers_gives_the_unit() -> None:
    every = {"unit": "in", "by_row": ["in"], "title": "in", "default": "in"}
    assert [length.unit_from for length in read(["235 mm"], **every)] == ["cell"]  # type: ignore[arg-type]  # by name
    assert [length.unit_from for length in read(["9"], "in", by_row=["in"])] == ["unit column"]
    assert [length.unit_from for length in read(["9"], "in", title="in")] == ["heading"]
    assert [length.unit_from for length in read(["9"], title="in", default="in")] == ["title block"]
    assert [length.unit_from for length in read(["9"], default="in")] == ["design basis"]


def test_without_a_unit_there_is_no_length() -> None:
    (length,) = read(["9"])
    assert (length.state, length.unit, math.isnan(length.value_mm)) == (CellState.NO_UNIT, "", True)


def test_zero_needs_no_unit() -> None:
    (length,) = read(["0"])
    assert (length.state, length.value_mm) == (CellState.VALUE, 0.0)


def test_the_unit_of_the_heading_map_comes_before_all_but_the_cell() -> None:
    one, other = read(["9", "9 in"], "mm", "heading map", by_row=["in", "in"])
    assert (one.value_mm, other.value_mm) == (9.0, 228.6)


def test_declared_units_that_differ_are_settled_by_a_value_that_only_one_makes_plausible() -> None:
    assert [length.state for length in read(["235"], "mm", title="in")] == [CellState.VALUE]
    assert [length.state for length in read(["9"], "mm", title="in")] == [CellState.UNITS_DISAGREE]


def test_a_value_that_either_unit_makes_plausible_goes_with_its_column() -> None:
    assert [length.state for length in read(["100"], "mm", title="in")] == [CellState.UNITS_DISAGREE]
    assert [length.state for length in read(["100", "235"], "mm", title="in")] == [CellState.VALUE, CellState.VALUE]


def test_a_value_that_no_unit_makes_plausible_is_left_to_the_limits() -> None:
    assert [length.state for length in read(["99999"], "mm", title="in")] == [CellState.VALUE]


def test_a_blank_has_no_part_in_a_disagreement() -> None:
    assert [length.state for length in read(["", "235"], "mm", title="in")] == [CellState.MISSING, CellState.VALUE]


def test_no_nipple_is_as_short_as_its_inches_taken_for_millimetres() -> None:
    declared = Declared(by_row=[None], title="mm", default=None)
    nipple = ColumnRead(field="nipple_length", column=1, heading="", unit="in", unit_from="heading", why="heading")
    (length,) = lengths([read_length_text("4", None)], nipple, declared, (0.0, 914.4))
    assert length.state is CellState.VALUE
    assert length.value_mm == pytest.approx(101.6)


def test_a_title_that_gives_way_does_not_contradict_a_heading() -> None:
    declared = Declared(by_row=[None], title="mm", default=None, title_gives_way=True)
    (length,) = lengths([read_length_text("60", None)], column("in"), declared, BORE_MM)
    assert length.state is CellState.VALUE
    assert length.value_mm == pytest.approx(1524.0)


def test_a_fraction_of_a_metric_unit_is_unreadable() -> None:
    assert [length.state for length in read(["235 1/2"], "mm")] == [CellState.UNREADABLE]


def test_the_shown_length_stands_beside_a_value_only() -> None:
    reading = Reading(state=CellState.VALUE, text="9.19", number=Fraction("9.19"), shown=Fraction(46, 5))
    declared = Declared(by_row=[None], title=None, default=None)
    assert lengths([reading], column("in"), declared, BORE_MM)[0].shown_mm == pytest.approx(233.68)
    assert math.isnan(lengths([reading], column(), declared, BORE_MM)[0].shown_mm)
    assert math.isnan(read(["9"], "in")[0].shown_mm)


def test_a_decimal_mark_holds_when_all_cells_agree() -> None:
    commas, points = read_length_text("9,5", None), read_length_text("9.25", None)
    assert decimal_mark_of([commas, commas]) == ","
    assert decimal_mark_of([commas, points]) is None
    assert decimal_mark_of([read_length_text("9", None)]) is None


@pytest.mark.parametrize(
    "texts,sheet_mark,number",
    [
        (["'1,235", "9,5"], None, Fraction("1.235")),
        (["'1,235", "9.5"], ",", 1235),
        (["'1,235"], ",", Fraction("1.235")),
        (["'1,235"], None, None),
        (["'1,235", "9,5", "9.5"], ",", None),
    ],
)
def test_the_column_settles_the_mark_before_the_sheet(
    grid: MakeGrid, texts: Sequence[str], sheet_mark: str | None, number: Fraction | None
) -> None:
    made = grid("\n".join(f"'{text.strip(chr(39))}" for text in texts))
    cells = [made.cell(row, 1) for row in range(1, len(texts) + 1)]
    settled = settled_readings(first_readings(cells, made.package), cells, sheet_mark)
    assert settled[0].number == number


def test_two_columns_agree_within_a_sixteenth_of_an_inch() -> None:
    one, other = read(["9", "9", "", "9", "nine"], "in"), read(["9.0625", "9.07", "6", "", "9"], "in")
    joined = joined_columns([(column("in"), one), (column("in"), other)])
    assert [length.state for length in joined] == [
        CellState.VALUE,
        CellState.CONFLICT,
        CellState.VALUE,
        CellState.VALUE,
        CellState.UNREADABLE,
    ]
    assert joined[1].reading.text == "9 and 9.07"
    assert joined[2].value_mm == pytest.approx(152.4)


def test_a_table_shows_fractions_when_more_cells_do_than_decimals() -> None:
    assert shows_fractions({"bore_depth": read(["9 1/4", "9½", "9.5"], "in")}, [])
    assert not shows_fractions({"bore_depth": read(["9.25", "9"], "in")}, [])
    assert shows_fractions({"bore_depth": read(["9.25"], "in")}, ["# ?/?", "# ??/??"])
    assert not shows_fractions({"bore_depth": read(["235.5"], "mm")}, [])


def joined(first: str, second: str, *, of: tuple[str, str], unit: str | None = "in") -> Length:
    columns = [replace(column("in"), evidence=evidence) for evidence in of]
    return joined_columns([(columns[0], read([first], "in")), (columns[1], read([second], unit))])[0]


@pytest.mark.parametrize(
    "first,second,of,inches",
    [
        ("9", "8", ("", "measured"), 8),
        ("9", "n/m", ("", "measured"), 9),
        ("9", "", ("", "measured"), 9),
        ("9", "8", ("on paper", "as built"), 8),
        ("9", "8", ("as built", "on paper"), 9),
    ],
)
def test_the_better_evidence_goes_before_the_other(first: str, second: str, of: tuple[str, str], inches: float) -> None:
    assert joined(first, second, of=of).value_mm == pytest.approx(inches * 25.4)


def test_what_the_drawing_says_is_kept_beside_what_was_measured() -> None:
    assert joined("9", "8", of=("", "measured")).drawn_mm == pytest.approx(9 * 25.4)


@pytest.mark.parametrize(
    "second,of,unit,state",
    [
        ("8", ("", "as built"), "in", CellState.CONFLICT),
        ("8", ("", ""), None, CellState.CONFLICT),
        ("9", ("", ""), None, CellState.VALUE),
        ("9", ("", "measured"), None, CellState.VALUE),
        ("8", ("", "measured"), None, CellState.NO_UNIT),
        ("~8", ("", "measured"), "in", CellState.DOUBTFUL),
    ],
)
def test_a_second_figure_that_settles_nothing_is_no_length(
    second: str, of: tuple[str, str], unit: str | None, state: CellState
) -> None:
    assert joined("9", second, of=of, unit=unit).state is state
