"""The schema of the table: types and single columns, checked by pandera before any rule looks at it.

A breach is a fault of the program, never of the index: what is wrong in the index is a finding.
"""

from functools import cache
from typing import TYPE_CHECKING

from thermowell_index.basis import ADJUSTABLE, ARRANGEMENTS, MOUNTINGS
from thermowell_index.dictionary import FIELDS
from thermowell_index.table import CellState, Frame, Kind

if TYPE_CHECKING:
    import pandera.pandas as pa


@cache
def table_schema() -> "pa.DataFrameSchema":
    """Return the schema: a state, a text and millimetres for each length, text for the other fields, words that are known."""
    import pandera.pandas as pa  # noqa: PLC0415 - half a second that a run without a table need not wait for

    lengths = [entry.name for entry in FIELDS if entry.kind is Kind.LENGTH]
    states = [state.value for state in CellState]
    columns = {
        "sheet": pa.Column(str, pa.Check.str_length(min_value=1)),
        "row": pa.Column(int, pa.Check.ge(1)),
        "unit": pa.Column(str, pa.Check.isin(["in", "mm", ""])),
        "mounting": pa.Column(str, pa.Check.isin(["", *MOUNTINGS.split("|"), ADJUSTABLE])),
        "arrangement": pa.Column(str, pa.Check.isin(["", *ARRANGEMENTS.split("|")])),
        "quantity": pa.Column(int, pa.Check.ge(0)),
        **{entry.name: pa.Column(str) for entry in FIELDS if entry.kind is not Kind.LENGTH},
        **{f"{name}_mm": pa.Column(float, pa.Check.ge(0), nullable=True) for name in lengths},
        **{f"{name}_state": pa.Column(str, pa.Check.isin(states)) for name in lengths},
        **{f"{name}_text": pa.Column(str) for name in lengths},
    }
    checks = [
        pa.Check(
            lambda frame, name=name: frame[f"{name}_mm"].notna() == (frame[f"{name}_state"] == CellState.VALUE),
            name=f"{name} has a value where its state says so",
        )
        for name in lengths
    ]
    return pa.DataFrameSchema(columns, checks=checks, unique=["sheet", "row", "table_id"])


def confirm_schema(frame: Frame) -> None:
    """Raise pandera's SchemaError where the table is not as every rule expects it."""
    table_schema().validate(frame)
