"""Where the cells of a table's rows are, and its single values by type."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.records.build import build_records
from thermowell_index.table import PROBLEM_STATES, CellState, flag, number, whole, word

Rows = Callable[..., Any]
SENSOR = {"tag": "TE-101", "service": "wash water", "sensor_type": "RTD", "bore_depth (in)": None}
WELL = {"tag": "TW-101", "service": "wash water", "bore_depth (in)": 9}


def test_an_address_is_the_cell_that_gave_the_field(read_rows: Rows) -> None:
    table = read_rows(SENSOR | {"bore_depth (in)": 9}, title=["INSTRUMENT INDEX"])
    assert table.address(0, "bore_depth") == ("Index", 3, 4)
    assert table.address(0, "tag") == ("Index", 3, 1)


@pytest.mark.parametrize("field", ["overall_length", "remarks"])
def test_a_field_without_a_column_has_no_address(read_rows: Rows, field: str) -> None:
    assert read_rows(SENSOR, WELL).address(0, field) is None


def test_a_value_of_a_joined_row_has_that_rows_address(read_rows: Rows) -> None:
    table = read_rows(sheets={"Index": [SENSOR, SENSOR | {"tag": "TE-9"}], "Wells": [WELL]})
    build_records(table, BUILT_IN)
    assert table.address(0, "bore_depth") == ("Wells", 2, 3)
    assert table.address(1, "bore_depth") == ("Index", 3, 4)


def test_a_value_of_a_joined_row_whose_table_lacks_the_column_has_no_address(read_rows: Rows) -> None:
    table = read_rows(SENSOR | {"bore_depth (in)": 9})
    del table.tables[0].columns["bore_depth"]
    table.frame["bore_depth_at"] = None
    assert table.address(0, "bore_depth") is None


def test_single_values_come_in_their_own_type(read_rows: Rows) -> None:
    frame = read_rows(SENSOR | {"bore_depth (in)": 9}).frame
    assert whole(frame, 0, "row") == 2
    assert number(frame, 0, "bore_depth_mm") == pytest.approx(228.6)
    assert math.isnan(number(frame, 0, "overall_length_mm"))
    assert word(frame, 0, "tag") == "TE-101"
    assert flag(frame, 0, "is_hidden") is False


def test_blanks_and_absent_columns_are_no_problem_states() -> None:
    assert set(CellState) - PROBLEM_STATES == {CellState.VALUE, CellState.MISSING, CellState.ABSENT}
