"""Which column was read as which field, as lines to look at: on the command line and in the Check summary alike."""

from collections.abc import Mapping
from dataclasses import dataclass

from thermowell_index.table import ColumnRead, Frame, TableRead


@dataclass(frozen=True, kw_only=True)
class ColumnLine:
    """One column of a table: its number, its heading, what it was read as, its unit, why, and sample values."""

    column: int
    heading: str
    meaning: str
    unit: str = ""
    why: str = ""
    samples: tuple[str, ...] = ()


def column_lines(read: TableRead, frame: Frame) -> list[ColumnLine]:
    """Return all columns of a table, left to right."""
    units = _units_used(read, frame)
    lines = [
        *(_line(column, "", units, read) for column in read.columns.values()),
        *(_line(column, ", second", units, read) for column in read.second_columns),
        *(
            ColumnLine(
                column=column,
                heading=heading,
                meaning="UNDECIDED: " + " or ".join(name.replace("_", " ") for name in fields),
                samples=read.samples.get(column, ()),
            )
            for column, heading, fields in read.undecided
        ),
        *(
            ColumnLine(
                column=column,
                heading=heading,
                meaning="not read",
                why="looks like a length" if column in read.unread_lengths else "",
                samples=read.samples.get(column, ()),
            )
            for column, heading in read.unread
        ),
    ]
    return sorted(lines, key=lambda line: line.column)


def _line(column: ColumnRead, ending: str, units: Mapping[str, str], read: TableRead) -> ColumnLine:
    declared = f"{column.unit} ({column.unit_from})" if column.unit else ""
    return ColumnLine(
        column=column.column,
        heading=column.heading,
        meaning=column.field.replace("_", " ") + ending,
        unit=units.get(column.field) or declared,
        why=column.why,
        samples=read.samples.get(column.column, ()),
    )


def _units_used(read: TableRead, frame: Frame) -> dict[str, str]:
    """Return for each length field the units that its values were read in, each with where it comes from."""
    rows = frame[frame["table_id"] == read.table_id]
    found: dict[str, str] = {}
    for field in read.columns:
        if f"{field}_unit" in rows:
            pairs = zip(rows[f"{field}_unit"], rows[f"{field}_unit_from"], strict=True)
            found[field] = ", ".join(dict.fromkeys(f"{unit} ({origin})" for unit, origin in pairs if unit))
    return found
