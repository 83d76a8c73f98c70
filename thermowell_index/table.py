"""The one table of a run: its fields, its columns, and where each value came from.

A row is one line of an index table. Every field that has a column in the index gives the frame

    NAME            the text as shown (text fields), or
    NAME_mm         the length [mm], NaN when there is none (length fields), with
    NAME_text       the cell's text as typed,
    NAME_state      a `CellState`,
    NAME_unit       the unit it was typed in,
    NAME_typed      the same without a unit that the cell itself does not state,
    NAME_unit_from  which source gave the unit: the cell, its number format, the row's unit column, a line between the
                    rows (section), a row of units, the heading, the title block,
                    the design basis, the heading map, the field survey,
    NAME_note       a remark that stood in the cell, or what was probably typed,
    NAME_row_id     the table row that the cell stands on (another one where a well's row was joined),
    NAME_at         (sheet, row, column) of the cell, None where there is no such column (text fields have it too).

Fields without a column are there too, empty, with the state `absent`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeAlias, cast

import pandas as pd

Frame: TypeAlias = pd.DataFrame
# Sheet, row and column of a cell.
Place: TypeAlias = tuple[str, int, int]
Hits: TypeAlias = "pd.Series[bool] | pd.Series[str] | pd.DataFrame"


# Between the remarks of several columns.
REMARK_JOINT = " ¦ "


class Kind(StrEnum):
    """What a field's cells hold."""

    TEXT = "text"
    LENGTH = "length"
    SIZE = "nominal size"
    NUMBER = "number"


class CellState(StrEnum):
    """What became of one length cell."""

    VALUE = "value"
    MISSING = "missing"
    ABSENT = "absent"
    DOUBTFUL = "doubtful"
    RANGE = "range"
    DATE = "date"
    DEAD = "dead formula"
    UNREADABLE = "unreadable"
    NO_UNIT = "no unit"
    UNITS_DISAGREE = "units disagree"
    CONFLICT = "two columns differ"


# A unit that only the number format shows counts as written in the cell.
UNIT_IN_CELL = frozenset({"cell", "number format"})

# Of a cell with nothing in it, or that is not there; of one with something that is no value.
GONE = (CellState.MISSING, CellState.ABSENT)
PROBLEM_STATES = frozenset(CellState) - {CellState.VALUE, *GONE}


NOT_MEASURED = "none"


@dataclass(frozen=True, kw_only=True)
class Field:
    """One entry of the data dictionary.

    `headings` are the trade's wordings for it, in words of the normal form that the reader's vocabulary makes;
    `fits` is the plausible range of a length [mm], by which values decide between two headings' meanings; `measured`
    names the field that holds what somebody measured of it, where that is another; NOT_MEASURED: none does.
    """

    name: str
    label: str
    group: str
    kind: Kind
    headings: tuple[str, ...]
    help: str
    fits: tuple[float, float] | None = None
    measured: str = ""


@dataclass(frozen=True, kw_only=True)
class ColumnRead:
    """Which column of a table was read as which field.

    `evidence` is what its heading says of where the figures come from: measured, as built, on paper, or nothing.
    """

    field: str
    column: int
    heading: str
    unit: str | None
    unit_from: str
    why: str
    evidence: str = ""


@dataclass(kw_only=True)
class TableRead:
    """One table on a sheet: its heading row, its columns, the rows where the heading is repeated.

    `second_columns` are further columns of a length that has one, `tag_parts` those that a tag is joined from.
    `samples` are the first different values of each column, `unread_lengths` the columns that were read as no field
    and hold lengths all the same.
    """

    table_id: int
    sheet: str
    heading_row: int
    first_row: int
    last_row: int = 0
    repeated_headings: list[int] = field(default_factory=list)
    columns: dict[str, ColumnRead] = field(default_factory=dict)
    second_columns: list[ColumnRead] = field(default_factory=list)
    undecided: list[tuple[int, str, tuple[str, ...]]] = field(default_factory=list)
    unread: list[tuple[int, str]] = field(default_factory=list)
    tag_parts: tuple[int, ...] = ()
    samples: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    unread_lengths: tuple[int, ...] = ()


@dataclass(kw_only=True)
class SheetRead:
    """One sheet of the workbook: read, or passed over and why."""

    name: str
    is_read: bool
    reason: str
    state: str = "visible"
    last_column: int = 0
    is_protected: bool = False
    tables: list[TableRead] = field(default_factory=list)
    hidden_rows: int = 0
    hidden_columns: int = 0
    passed_rows: dict[int, str] = field(default_factory=dict)


@dataclass(kw_only=True)
class IndexTable:
    """All rows of all index sheets, and how they were read."""

    frame: Frame
    sheets: list[SheetRead]
    title_lines: list[str]
    tables: Mapping[int, TableRead]

    def address(self, row_id: int, name: str) -> Place | None:
        """Return (sheet, row, column) of the cell that gave a field to a row; None where there is no such column."""
        if (place := place_read(self.frame, row_id, name)) is not None:
            return place
        source = row_id
        column_name = f"{name}_row_id"
        if column_name in self.frame:
            source = whole(self.frame, row_id, column_name)
        if source < 0:
            return None
        table = self.tables[whole(self.frame, source, "table_id")]
        column = table.columns.get(name)
        if column is None:
            return None
        return table.sheet, whole(self.frame, source, "row"), column.column


def place_read(frame: Frame, row_id: int, name: str) -> Place | None:
    """Return (sheet, row, column) of the cell that a field was read from; None where it was read from none."""
    column = f"{name}_at"
    return cast("Place | None", frame.at[row_id, column]) if column in frame else None


def whole(frame: Frame, row_id: int, name: str) -> int:
    """Return one cell of a column of whole numbers."""
    return int(cast("int", frame.at[row_id, name]))


def number(frame: Frame, row_id: int, name: str) -> float:
    """Return one cell of a column of lengths [mm], NaN where there is none."""
    return float(cast("float", frame.at[row_id, name]))


def word(frame: Frame, row_id: int, name: str) -> str:
    """Return one cell of a column of texts."""
    return str(frame.at[row_id, name])


def flag(frame: Frame, row_id: int, name: str) -> bool:
    """Return one cell of a column of yes and no."""
    return bool(frame.at[row_id, name])
