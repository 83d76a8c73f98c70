import datetime as dt
from collections.abc import Callable
from fractions import Fraction
from typing import Any

import pytest
from openpyxl.styles import Font

from thermowell_index.ooxml import Cell
from thermowell_index.reader.cells import MISSING, Reading, read_length, read_length_text
from thermowell_index.reader.grid import Grid
from thermowell_index.table import CellState

MakeGrid = Callable[..., Grid]


@pytest.fixture
def reading(grid: MakeGrid) -> Callable[..., Reading]:
    """Reads one cell of a value and a number format."""

    def read(value: object, code: str = "General", *, is_struck: bool = False) -> Reading:
        def fill(sheet: Any) -> None:
            sheet["A1"] = value
            sheet["A1"].number_format = code
            sheet["A1"].font = Font(strike=is_struck)

        made = grid("", change=fill)
        return read_length(made.cell(1, 1), made.package)

    return read


def test_a_cell_that_is_not_there_is_missing(grid: MakeGrid) -> None:
    assert read_length(None, grid("x").package) is MISSING


def test_a_formatted_cell_without_a_value_is_missing(grid: MakeGrid) -> None:
    made = grid("x")
    assert read_length(Cell(1, 1, None, "", 0, is_formula=False, kept_text=None), made.package) is MISSING


def test_a_number_is_exact_and_keeps_the_unit_of_its_format(reading: Callable[..., Reading]) -> None:
    found = reading(9.1875, '0.00" in"')
    assert (found.state, found.number, found.unit, found.shown) == (
        CellState.VALUE,
        Fraction(147, 16),
        "in",
        Fraction(919, 100),
    )


def test_a_text_is_read_with_the_decimal_mark_of_its_column() -> None:
    assert read_length_text("1,235", ",").number == Fraction("1.235")
    assert read_length_text("1,235", ".").number == 1235
    assert read_length_text("1,235", None).is_ambiguous


@pytest.mark.parametrize("text", ["#REF!", " #N/A ", "#WERT!", "#NV"])
def test_an_error_written_as_text_is_dead(text: str) -> None:
    assert read_length_text(text, None).state is CellState.DEAD


@pytest.mark.parametrize("text", ["9-Jan", "9. Jan. 2024", "Jan-32", "Mai 04", "2024-01-09", "2024-01-09T00:00:00"])
def test_a_date_written_as_text_is_a_date(text: str) -> None:
    assert read_length_text(text, None).state is CellState.DATE


def test_a_formula_without_a_result_says_so(reading: Callable[..., Reading]) -> None:
    found = reading("=A2+1")
    assert (found.state, found.text) == (CellState.DEAD, "formula without a stored result")


def test_a_date_suggests_what_was_typed(reading: Callable[..., Reading]) -> None:
    found = reading(dt.date(2024, 1, 4), "d-mmm")
    assert (found.state, found.text, found.note) == (CellState.DATE, "2024-01-04", "1/4")


def test_a_date_that_no_fraction_explains_suggests_nothing(reading: Callable[..., Reading]) -> None:
    assert reading(dt.date(2024, 5, 23), "d-mmm").note == ""


def test_a_date_beyond_the_calendar_is_a_date_all_the_same(reading: Callable[..., Reading]) -> None:
    found = reading(1e12, "d-mmm")
    assert (found.state, found.text, found.note) == (CellState.DATE, "1000000000000.0", "")


def test_a_date_stored_as_text_of_the_file_format_is_a_date(grid: MakeGrid) -> None:
    made = grid("x")
    cell = Cell(1, 1, "2024-01-09T00:00:00", "d", 0, is_formula=False, kept_text=None)
    assert read_length(cell, made.package).state is CellState.DATE


def test_a_percentage_is_unreadable(reading: Callable[..., Reading]) -> None:
    found = reading(0.5, "0%")
    assert (found.state, found.text) == (CellState.UNREADABLE, "0.5 shown as a percentage")


def test_a_truth_value_is_unreadable(reading: Callable[..., Reading]) -> None:
    assert reading(value=True).state is CellState.UNREADABLE


def test_a_struck_number_is_doubtful_and_says_why(reading: Callable[..., Reading]) -> None:
    found = reading(9, is_struck=True)
    assert (found.state, found.text, found.note) == (CellState.DOUBTFUL, "9 (struck out)", "struck out")
