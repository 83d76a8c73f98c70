"""A workbook into the one table: every index sheet, every table on it, every row, with where each value came from."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
import pandas as pd

from thermowell_index.errors import SettingsError, WorkbookError
from thermowell_index.heading_map import ANY_SHEET, IGNORE, HeadingMap, MappedHeading, SheetMap, folded
from thermowell_index.ooxml import Cell, Package, SheetInfo
from thermowell_index.reader.columns import Dictionary, is_mapped, name_columns
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary, speaks_of_an_extension
from thermowell_index.reader.layout import HeadingBlock, disagreement, find_headings, why_no_table
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
from thermowell_index.reader.lines import Lines
from thermowell_index.reader.neighbours import column_unit
from thermowell_index.reader.noted_units import NotedUnit, Repetitions, noted_unit
from thermowell_index.reader.row_columns import (
    is_nothing,
    length_columns,
    row_units,
    text_columns,
    with_more_remarks,
    words_in,
)
from thermowell_index.reader.samples import ask_of_measured, names_a_dimension, samples_of, unread_lengths
from thermowell_index.reader.side_by_side import apart
from thermowell_index.reader.tag_columns import TagColumns
from thermowell_index.table import CellState, ColumnRead, IndexTable, Kind, SheetRead, TableRead
from thermowell_index.units import unit_of_words


@dataclass(frozen=True, kw_only=True)
class ReadSettings:
    """What a run tells the reader."""

    dictionary: Dictionary
    headings: HeadingDictionary
    only_sheets: Collection[str] = ()
    column_map: HeadingMap = field(default_factory=dict)
    default_unit: str | None = None


def read_workbook(package: Package, settings: ReadSettings) -> IndexTable:
    """Return the rows of all index sheets of a workbook.

    Raises
    ------
    WorkbookError
        There is no index in it, or a sheet that was asked for is not there: one line that says what was looked for.

    """
    known = [sheet.name for sheet in package.sheets]
    absent = [name for name in settings.only_sheets if name not in known]
    if absent:
        raise WorkbookError(f"{package.path}: no sheet {', '.join(map(repr, absent))}; there are {', '.join(known)}")
    builder = _Builder(package, settings)
    for sheet in package.sheets:
        builder.read_sheet(sheet)
    return builder.table()


# Fields by which a sheet without a dimension is known as one of points, and the share of its tags that others may have.
POINTS_ALONE = frozenset({"sensor_mounting", "extension_arrangement", "well_tag"})
KNOWN_SHARE = 0.2


@dataclass(frozen=True, kw_only=True)
class _Found:
    """A table that was found on a sheet, before its rows are read."""

    grid: Grid
    read: SheetRead
    table: TableRead
    tag: TagColumns
    block: HeadingBlock
    noted: NotedUnit
    repeats: Sequence[tuple[HeadingBlock, int]]


class _Builder:
    """Collects the tables of a workbook sheet by sheet."""

    def __init__(self, package: Package, settings: ReadSettings) -> None:
        self._package = package
        self._settings = settings
        self._sheets: list[SheetRead] = []
        self._tables: dict[int, TableRead] = {}
        self._frames: list[pd.DataFrame] = []
        self._titles: list[str] = []
        self._met: set[tuple[str, str]] = set()
        self._waiting: list[_Found] = []
        entries = settings.dictionary.fields.values()
        self._lengths = frozenset(entry.name for entry in entries if entry.kind is Kind.LENGTH)

    def read_sheet(self, sheet: SheetInfo) -> None:
        """Read a sheet's tables, or note why it is passed over."""
        read = SheetRead(name=sheet.name, is_read=False, reason="", state=sheet.state)
        self._sheets.append(read)
        if self._settings.only_sheets and sheet.name not in self._settings.only_sheets:
            read.reason = "not asked for"
        elif sheet.kind != "worksheet":
            read.reason = f"a {sheet.kind}, it has no cells"
        else:
            self._read_tables(Grid(self._package, sheet.name), read)

    def _read_tables(self, grid: Grid, read: SheetRead) -> None:
        read.last_column = grid.cells.last_column
        read.is_protected = grid.cells.is_protected
        if not grid.cells.rows:
            read.reason = "empty"
            return
        blocks = find_headings(grid, self._headings(grid.name))
        headings = self._settings.headings
        read.reason = disagreement(blocks, headings) if blocks else why_no_table(grid, headings)
        if read.reason:
            return
        self._titles += [
            text for row in grid.rows() if row < blocks[0].first_row for text in grid.own_texts(row).values()
        ]
        ends = [block.first_row - 1 for block in blocks[1:]] + [grid.last_row]
        spans: dict[object, tuple[Grid, list[tuple[HeadingBlock, int]]]] = {}
        repetitions = Repetitions(grid, blocks)
        for block, end in zip(blocks, ends, strict=True):
            for strip, part in apart(grid, block, end, self._settings.headings):
                spans.setdefault(repetitions.key(block, part), (strip, []))[1].append((part, end))
        for strip, repeats in spans.values():
            self._read_block(strip, read, repeats, noted_unit(grid, blocks, repeats))
        read.is_read = bool(read.tables)
        if read.is_read:
            read.reason = ""
        elif not read.reason:
            read.reason = "its headings name no dimension of a well, an extension or a sensor"
        read.hidden_rows = len(grid.cells.hidden_rows)
        read.hidden_columns = len(grid.cells.hidden_columns)

    def _map_of(self, sheet: str) -> SheetMap:
        """Return what the user's heading map says of a sheet."""
        return {**self._settings.column_map.get(ANY_SHEET, {}), **self._settings.column_map.get(sheet, {})}

    def _headings(self, sheet: str) -> HeadingDictionary:
        """Return the dictionary with the headings that the user names for a sheet."""
        names = {
            folded(heading): name
            for name, wanted in self._map_of(sheet).items()
            for heading in wanted.headings
            if name != IGNORE
        }
        return self._settings.headings.with_names(names) if names else self._settings.headings

    def _read_block(
        self, grid: Grid, read: SheetRead, repeats: Sequence[tuple[HeadingBlock, int]], noted: NotedUnit
    ) -> None:
        """Read one table: the rows below its heading, and below each repetition of it."""
        block = repeats[0][0]
        table = TableRead(
            table_id=len(self._tables),
            sheet=grid.name,
            heading_row=block.last_row,
            first_row=block.data_row,
            last_row=repeats[-1][1],
            repeated_headings=[again.last_row for again, _ in repeats[1:]],
        )
        own = self._settings.column_map.get(grid.name, {})
        mapped = self._map_of(grid.name)
        self._met.update((grid.name, name) for name in own if _is_there(own[name], block))
        tag = name_columns(table, block, grid, self._settings.dictionary, noted.unit, mapped)
        if tag is None:
            read.reason = f"its headings in row {table.heading_row} name dimensions, but there is no column of tags"
            return
        found = _Found(grid=grid, read=read, table=table, tag=tag, block=block, noted=noted, repeats=repeats)
        if self._is_index(table):
            self._take(found)
        elif POINTS_ALONE & set(table.columns):
            self._waiting.append(found)

    def _take(self, found: "_Found") -> None:
        """Read the rows of a table that was found."""
        table = found.table
        rows = [row for part, end in found.repeats for row in range(part.data_row, end + 1)]
        units = {column: column_unit(found.block, column)[0] for column in found.block.texts}
        ask_of_measured(table, found.grid, units, rows)
        frame = self._frame(found.grid, found.read, table, found.tag, rows, found.noted)
        self._tables[table.table_id] = table
        found.read.tables.append(table)
        self._look_at_columns(found.grid, table, found.block, frame, found.noted)
        if not frame.empty:
            self._frames.append(frame)

    def _take_points_alone(self) -> None:
        """Read sheets of points without a dimension where wells stand on another sheet and their tags on none."""
        known = {_bare(tag) for frame in self._frames for tag in frame["tag"]}
        for found in self._waiting if self._frames else ():
            first = found.repeats[0][0]
            rows = range(first.data_row, found.repeats[-1][1] + 1)
            tags = {_bare(tag) for row in rows if any(map(str.isdigit, tag := found.tag.text(found.grid, row)))}
            if len(tags & known) <= KNOWN_SHARE * len(tags):
                found.table.table_id = max(self._tables) + 1
                self._take(found)
                found.read.is_read, found.read.reason = True, ""
        order = {sheet.name: place for place, sheet in enumerate(self._sheets)}
        self._frames.sort(key=lambda frame: order[str(frame["sheet"].iloc[0])])

    def _look_at_columns(
        self, grid: Grid, table: TableRead, block: HeadingBlock, frame: pd.DataFrame, noted: NotedUnit
    ) -> None:
        """Keep samples of all columns; mark those that no field took and that hold lengths."""
        rows = [int(row) for row in frame["row"]]
        table.samples = samples_of(grid, [*block.texts, *table.tag_parts], rows)
        units = {column: column_unit(block, column)[0] or noted.unit for column in block.texts}
        lengths = [read.column for name, read in table.columns.items() if name in self._lengths]
        between = {
            column: heading for column, heading in table.unread if lengths and min(lengths) < column < max(lengths)
        }
        names_an_old_length = self._settings.headings.names_an_old_length
        stating = {
            column: heading
            for column, heading in table.unread
            if column_unit(block, column)[0] or names_an_old_length(heading)
        }
        lettered = {column: heading for column, heading in table.unread if names_a_dimension(heading)}
        common = next(iter(frame["unit"].mode()), "") or None
        units.update({column: units[column] or common for column in lettered})
        table.unread_lengths = unread_lengths(grid, between | stating | lettered, units, rows)

    def _is_index(self, table: TableRead) -> bool:
        fields = self._settings.dictionary.fields
        dimensions = [name for name in table.columns if name in self._lengths and fields[name].group != "order"]
        return bool(dimensions or table.undecided)

    def _frame(
        self,
        grid: Grid,
        read: SheetRead,
        table: TableRead,
        tag: TagColumns,
        rows: Sequence[int],
        noted: NotedUnit,
    ) -> pd.DataFrame:
        lines = Lines(grid, tag, table.columns, self._lengths)
        lines.learn(rows)
        reasons = {row: lines.why_not(row) for row in rows}
        kept = [row for row, reason in reasons.items() if not reason]
        read.passed_rows.update({row: reason for row, reason in reasons.items() if reason and reason != "blank"})
        data: dict[str, Sequence[object]] = {
            "sheet": [grid.name] * len(kept),
            "row": kept,
            "table_id": [table.table_id] * len(kept),
            "is_hidden": [row in grid.cells.hidden_rows for row in kept],
            "is_struck": [tag.is_struck(grid, row) for row in kept],
        }
        data.update(self._texts(grid, table, kept))
        data["tag"] = [tag.text(grid, row) for row in kept]
        data["tag_at"] = [(grid.name, *grid.anchor(row, tag.first_column(grid, row))) for row in kept]
        data.update(self._length_columns(grid, table, kept, data, noted))
        return pd.DataFrame(data)

    def _texts(self, grid: Grid, table: TableRead, rows: Sequence[int]) -> dict[str, Sequence[object]]:
        found: dict[str, Sequence[object]] = {}
        for name in self._settings.dictionary.fields:
            if name not in self._lengths:
                found.update(text_columns(name, table.columns.get(name), grid, rows))
        unread = [column for column, _ in table.unread]
        found["other_words"] = [words_in(grid, row, unread) for row in rows]
        undecided = [column for column, _, _ in table.undecided]
        extensions = [
            column
            for column, heading in [*table.unread, *((column, heading) for column, heading, _ in table.undecided)]
            if speaks_of_an_extension(heading.split(" / "))
        ]
        found["has_unread_extension"] = [
            any(not is_nothing(grid.text(row, column)) for column in extensions) for row in rows
        ]
        found["has_undecided"] = [any(grid.text(row, column) for column in undecided) for row in rows]
        more = [column for column, heading in table.unread if self._settings.headings.speaks_of_remarks(heading)]
        found["remarks"] = with_more_remarks(list(map(str, found["remarks"])), grid, more, rows)
        return found

    def _length_columns(
        self,
        grid: Grid,
        table: TableRead,
        rows: Sequence[int],
        data: Mapping[str, Sequence[object]],
        noted: NotedUnit,
    ) -> dict[str, Sequence[object]]:
        declared = Declared(
            by_row=[unit_of_words(str(text)) if text else None for text in data["length_unit"]],
            title=noted.unit,
            title_gives_way=noted.gives_way,
            by_section=[noted.of_section(row) for row in rows],
            default=self._settings.default_unit,
        )
        read = self._read_lengths(grid, table, rows, declared)
        columns: dict[str, Sequence[object]] = {}
        for name in self._lengths:
            columns.update(length_columns(name, read.get(name), grid.name, rows))
        codes = [self._package.number_format(cell.style) for cell in _number_cells(grid, table, rows, self._lengths)]
        columns["notes"] = [noted.above(row) for row in rows]
        columns["in_fractions"] = [shows_fractions(read, codes)] * len(rows)
        columns["unit"] = row_units(read, len(rows), noted.unit or self._settings.default_unit)
        return columns

    def _read_lengths(
        self, grid: Grid, table: TableRead, rows: Sequence[int], declared: Declared
    ) -> dict[str, list[Length]]:
        names = [name for name in table.columns if name in self._lengths]
        reads = [table.columns[name] for name in names] + table.second_columns
        cells = {read.column: [_dimension_cell(grid, row, read.column) for row in rows] for read in reads}
        first = {column: first_readings(found, self._package) for column, found in cells.items()}
        mark = decimal_mark_of([reading for readings in first.values() for reading in readings])
        limits = self._settings.dictionary.fits_mm

        def read_column(column: ColumnRead) -> list[Length]:
            readings = settled_readings(first[column.column], cells[column.column], mark)
            return lengths(readings, column, declared, limits[column.field])

        found = {name: read_column(table.columns[name]) for name in names}
        for name in {column.field: None for column in table.second_columns}:
            columns = [table.columns[name], *(column for column in table.second_columns if column.field == name)]
            found[name] = joined_columns([(column, read_column(column)) for column in columns])
        return found

    def _refuse_unmet_map(self) -> None:
        """Raise where the user's heading map names a sheet or a heading that is not there."""
        asked = self._settings.only_sheets
        unmet = [
            f"sheet {sheet!r} has no heading {' or '.join(map(repr, wanted.headings))} for {name}"
            for sheet, entries in self._settings.column_map.items()
            if sheet != ANY_SHEET and (not asked or sheet in asked)
            for name, wanted in entries.items()
            if (sheet, name) not in self._met
        ]
        if unmet:
            raise SettingsError(f"{self._package.path}: the heading map does not fit: {'; '.join(unmet)}")

    def table(self) -> IndexTable:
        """Return all that was read as one table."""
        self._refuse_unmet_map()
        self._take_points_alone()
        if not self._tables:
            looked = "; ".join(f"{sheet.name}: {sheet.reason}" for sheet in self._sheets)
            raise WorkbookError(
                f"{self._package.path}: no instrument index found; "
                f"looked for a heading row with a tag and dimensions ({looked})"
            )
        if not self._frames:
            names = ", ".join(sheet.name for sheet in self._sheets if sheet.is_read)
            raise WorkbookError(f"{self._package.path}: the index on {names} has a heading row and no rows below it")
        frame = pd.concat(self._frames, ignore_index=True).copy()  # in one piece, columns are added to it
        for name in self._lengths:
            frame[f"{name}_row_id"] = np.where(frame[f"{name}_state"] == CellState.ABSENT, -1, frame.index)
        return IndexTable(frame=frame, sheets=self._sheets, title_lines=self._titles, tables=self._tables)


def _bare(tag: object) -> str:
    return "".join(mark for mark in str(tag).upper() if mark.isalnum())


def _is_there(wanted: MappedHeading, block: HeadingBlock) -> bool:
    return any(is_mapped(wanted, block, column) for column in block.texts)


def _dimension_cell(grid: Grid, row: int, column: int) -> Cell | None:
    return None if grid.is_covered(row, column) else grid.cell(row, column)


def _number_cells(grid: Grid, table: TableRead, rows: Sequence[int], names: Collection[str]) -> list[Cell]:
    columns = [read.column for name, read in table.columns.items() if name in names]
    cells = (grid.cell(row, column) for row in rows for column in columns)
    return [cell for cell in cells if cell is not None and isinstance(cell.value, float)]
