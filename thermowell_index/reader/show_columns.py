"""Which column was read as which field, as text to look at and as a heading map to edit."""

import json
from collections.abc import Iterator, Sequence

from thermowell_index.columns_read import column_lines
from thermowell_index.ooxml import column_letters
from thermowell_index.table import ColumnRead, Frame, IndexTable, SheetRead, TableRead

WIDEST_HEADING = 34
MAP_OPENING = """\
# Heading map: which heading is which field. Edit it and give it to the check with --columns.
# field = "heading"    field = "column F"    field = {heading = "heading", unit = "mm"}    ignore = ["heading"]
"""


def show_columns(table: IndexTable) -> str:
    """Return what was read as what: every sheet, every column, its unit, three samples; and what was not read."""
    parts = []
    for sheet in table.sheets:
        if not sheet.is_read:
            parts.append(f"sheet {sheet.name!r}: passed over: {sheet.reason}")
            continue
        parts += [_table_text(read, table) for read in sheet.tables]
        parts += [line for line in (_hidden_text(sheet),) if line]
    return "\n\n".join(parts) + "\n"


def _hidden_text(sheet: SheetRead) -> str:
    if not sheet.hidden_rows and not sheet.hidden_columns:
        return ""
    return (
        f"sheet {sheet.name!r}: {sheet.hidden_rows} hidden rows and {sheet.hidden_columns} hidden columns are read too"
    )


def _table_text(read: TableRead, table: IndexTable) -> str:
    rows = [int(row) for row in table.frame.loc[table.frame["table_id"] == read.table_id, "row"]]
    where = f"rows {rows[0]} to {rows[-1]}, {len(rows)} read" if rows else "no rows"
    repeated = f", repeated in {', '.join(map(str, read.repeated_headings))}" if read.repeated_headings else ""
    title = f"sheet {read.sheet!r}: headings in row {read.heading_row}{repeated}; {where}"
    head = ("column", "heading", "read as", "unit", "why", "samples")
    body = [
        (
            column_letters(line.column),
            _short(line.heading, WIDEST_HEADING),
            line.meaning,
            line.unit,
            line.why,
            " | ".join(line.samples),
        )
        for line in column_lines(read, table.frame)
    ]
    return "\n".join([title, *_aligned([head, *body])])


def _short(text: str, width: int) -> str:
    return text if len(text) <= width else text[: width - 3] + "..."


def _aligned(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    widths = [max(len(row[place]) for row in rows) for place in range(len(rows[0]))]
    for row in rows:
        yield "  " + "  ".join(text.ljust(width) for text, width in zip(row, widths, strict=True)).rstrip()


def column_map_text(table: IndexTable) -> str:
    """Return a heading map (TOML) that says what was read as what, ready to edit."""
    sections = [_section(sheet, table.frame) for sheet in table.sheets if sheet.is_read]
    passed = [f"# sheet {sheet.name!r} was passed over: {sheet.reason}" for sheet in table.sheets if not sheet.is_read]
    return "\n".join([MAP_OPENING, *sections, *passed]).rstrip() + "\n"


def _section(sheet: SheetRead, frame: Frame) -> str:
    """Return the section of one sheet; of several tables each field is named by the first that has it."""
    named: dict[str, str] = {}
    remarks: list[str] = []
    unread: dict[str, None] = {}
    for read in sheet.tables:
        for column in sorted(read.columns.values(), key=lambda column: column.column):
            _add_entry(column, _name(column, read, frame), read, named, remarks)
        remarks += [
            f"# {column.field} = {_name(column, read, frame)}  # a second column, compared with the first"
            for column in read.second_columns
        ]
        for number, heading, fields in read.undecided:
            where = json.dumps(f"column {column_letters(number)}")
            remarks.append(f"# UNDECIDED: {heading!r} in column {column_letters(number)}; take the # off one line")
            remarks += [f"# {field} = {where}" for field in fields]
        unread.update(dict.fromkeys(heading for _, heading in read.unread if heading))
    if unread:
        remarks.append(f"# not read: {', '.join(json.dumps(heading, ensure_ascii=False) for heading in unread)}")
    return "\n".join([f"[{_quoted(sheet.name)}]", *named.values(), *remarks, ""])


def _add_entry(column: ColumnRead, name: str, read: TableRead, named: dict[str, str], remarks: list[str]) -> None:
    entry = f"{column.field} = {name}"
    if column.why == "parts of a tag":
        remarks.append(f"# tag: joined from the columns {column.heading}")
    elif column.field not in named:
        named[column.field] = entry
    elif named[column.field] != entry:
        remarks.append(f"# {entry}  # in the table with headings in row {read.heading_row}")


def _name(column: ColumnRead, read: TableRead, frame: Frame) -> str:
    """Return a column's heading, or its letter where another column bears the same heading or it has none."""
    headings = [other.heading for other in column_lines(read, frame)]
    if column.heading and headings.count(column.heading) == 1:
        return _quoted(column.heading)
    return _quoted(f"column {column_letters(column.column)}")


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
