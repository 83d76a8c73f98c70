"""The schema finds faults of the program before a check stumbles over them."""

from collections.abc import Callable
from typing import Any

import pytest
from pandera.errors import SchemaError

from thermowell_index.table import IndexTable
from thermowell_index.validator.schema import confirm_schema


def test_a_built_table_is_as_the_checks_expect_it(build: Callable[..., IndexTable]) -> None:
    confirm_schema(build([{}, {"bore_depth": ""}]).frame)


@pytest.mark.parametrize(
    "column,value",
    [
        ("mounting", "glued"),
        ("arrangement", "hose"),
        ("unit", "ft"),
        ("bore_depth_mm", -1.0),
        ("bore_depth_state", "odd"),
        ("row", 0),
        ("quantity", -1),
    ],
)
def test_a_value_that_no_check_reckons_with_is_refused(
    build: Callable[..., IndexTable], column: str, value: Any
) -> None:
    frame = build([{}]).frame
    frame[column] = value

    with pytest.raises(SchemaError):
        confirm_schema(frame)


def test_a_length_without_its_state_is_refused(build: Callable[..., IndexTable]) -> None:
    frame = build([{}]).frame
    frame["bore_depth_state"] = "missing"

    with pytest.raises(SchemaError, match="bore_depth has a value where its state says so"):
        confirm_schema(frame)


def test_two_rows_at_one_place_are_refused(build: Callable[..., IndexTable]) -> None:
    frame = build([{}, {}]).frame
    frame["row"] = 2

    with pytest.raises(SchemaError):
        confirm_schema(frame)
