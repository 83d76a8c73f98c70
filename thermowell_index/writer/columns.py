"""The columns of answers beside an index table."""

import math
from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from thermowell_index.errors import OutputError
from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import CellLook, NewCell, SheetCells, SheetEdit, column_letters
from thermowell_index.table import SheetRead, TableRead
from thermowell_index.writer.lengths import Shown, in_unit, number_format
from thermowell_index.writer.report import Report

LAST_COLUMN = 16_384

Record: TypeAlias = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class AnswerColumn:
    """One column: its heading, the frame column behind it, how its length is shown (None for words), its width."""

    heading: str
    source: str
    shown: Shown | None = None
    width: float = 13.0

    def heading_in(self, unit: str) -> str:
        """Return the heading with the unit where a length is meant."""
        return self.heading if self.shown is None else f"{self.heading} ({unit})"


COLUMNS: tuple[AnswerColumn, ...] = (
    AnswerColumn(heading="Bore depth used", source="bore_depth_used_mm", shown=Shown.LENGTH),
    AnswerColumn(heading="Bore depth basis", source="bore_depth_basis", width=24.0),
    AnswerColumn(heading="Extension installed", source="extension_installed_mm", shown=Shown.LENGTH),
    AnswerColumn(heading="Probe length computed", source="probe_length_computed_mm", shown=Shown.LENGTH, width=15.0),
    AnswerColumn(heading="Probe length to order", source="probe_length_order_mm", shown=Shown.LENGTH, width=15.0),
    AnswerColumn(heading="Shortest that fits", source="shortest_fit_mm", shown=Shown.LIMIT),
    AnswerColumn(heading="Longest that fits", source="longest_fit_mm", shown=Shown.LIMIT),
    AnswerColumn(heading="Compression min", source="compression_min_mm", shown=Shown.LIMIT),
    AnswerColumn(heading="Compression nominal", source="compression_nominal_mm", shown=Shown.LENGTH),
    AnswerColumn(heading="Compression max", source="compression_max_mm", shown=Shown.LIMIT),
    AnswerColumn(heading="Margin", source="margin_mm", shown=Shown.LIMIT, width=9.0),
    AnswerColumn(heading="First touch", source="first_touch_mm", shown=Shown.LENGTH, width=9.0),
    AnswerColumn(heading="Working", source="working", width=60.0),
    AnswerColumn(heading="Verdict", source="verdict", width=14.0),
    AnswerColumn(heading="Findings", source="findings", width=60.0),
)


def first_column(cells: SheetCells, rows: Collection[int]) -> int:
    """Return the column that the answers start in: right of everything, one blank column apart from a list object.

    A merged heading that reaches further right than any value would hide what is written on its rows, so it counts.
    """
    written = sorted(rows)
    merged = [
        last for top, _, bottom, last in cells.merges if bisect_left(written, top) < bisect_right(written, bottom)
    ]
    last = max([cells.last_column, *merged, *(area[3] for area in cells.tables)])
    touches_list = any(area[3] == last for area in cells.tables)
    return last + (2 if touches_list else 1)


def annotate(sheet: SheetRead, cells: SheetCells, report: Report, edit: SheetEdit) -> tuple[int, int]:
    """Put the answers of one sheet into its edit; return the first and last column they take.

    Raises
    ------
    OutputError
        The sheet has no room left on its right.

    """
    records = _records_by_table(report)
    start = first_column(cells, _written_rows(sheet, records))
    lanes = _lanes(sheet, records)
    width = len(COLUMNS) * (1 + max(lanes.values(), default=0))
    end = start + width - 1
    if end > LAST_COLUMN:
        raise OutputError(f"sheet {sheet.name!r}: no room for {width} columns right of its last column")
    words = findings_in_words(report)
    for table in sheet.tables:
        first = start + lanes[table.table_id] * len(COLUMNS)
        _put_headings(table, first, report, edit, cells, whose=_whose(table) if width > len(COLUMNS) else "")
        for row_id, record in records[table.table_id]:
            _put_answers(table, first, {**record, "findings": words.get(row_id, "")}, report, edit)
    edit.widths.update({start + offset: COLUMNS[offset % len(COLUMNS)].width for offset in range(width)})
    return start, end


def _lanes(sheet: SheetRead, records: Mapping[int, list[tuple[int, Record]]]) -> dict[int, int]:
    """Return by table how many sets of answers stand left of its own: of tables side by side each has a set."""
    taken: list[set[int]] = []
    lanes: dict[int, int] = {}
    for table in sheet.tables:
        rows = {table.heading_row, *table.repeated_headings, *(int(row["row"]) for _, row in records[table.table_id])}
        free = (lane for lane, others in enumerate(taken) if not others & rows)
        lane = lanes[table.table_id] = next(free, len(taken))
        if lane == len(taken):
            taken.append(set())
        taken[lane] |= rows
    return lanes


def _whose(table: TableRead) -> str:
    """Return the words that tell the answers of one table from those of a table beside it."""
    read = table.columns.get("tag") or table.columns["well_tag"]
    return f" [tags in column {column_letters(read.column)}]"


def _written_rows(sheet: SheetRead, records: Mapping[int, list[tuple[int, Record]]]) -> set[int]:
    headings = {row for table in sheet.tables for row in (table.heading_row, *table.repeated_headings)}
    return headings | {int(record["row"]) for table in sheet.tables for _, record in records[table.table_id]}


def findings_in_words(report: Report) -> dict[int, str]:
    """Return what was found on each row, loudest first: `error: bore deeper than well; note: tip assumed`.

    What holds for a whole sheet and keeps no length back is on Discrepancies and the Check summary, not on each of its
    rows; nor is a note of many rows.
    """
    names: defaultdict[int, defaultdict[Severity, list[str]]] = defaultdict(lambda: defaultdict(list))
    for finding in filter(_is_of_the_row, report.live_findings):
        for row_id in finding.row_ids:
            names[row_id][finding.severity].append(_named(finding, report))
    return {
        row_id: "; ".join(
            f"{severity}: {', '.join(dict.fromkeys(by_severity[severity]))}"
            for severity in Severity
            if severity in by_severity
        )
        for row_id, by_severity in names.items()
    }


def _is_of_the_row(finding: Finding) -> bool:
    """Whether a finding is worth a word on each of its rows: its own, what holds it back, what only some rows share."""
    if not finding.folded or finding.withholds or finding.severity is Severity.ERROR:
        return True
    return finding.well_tag != "" and finding.severity is not Severity.NOTE


def _named(finding: Finding, report: Report) -> str:
    return report.rule_name(finding.rule)


def _records_by_table(report: Report) -> defaultdict[int, list[tuple[int, Record]]]:
    sources = [column.source for column in COLUMNS if column.source != "findings"]
    names = [*dict.fromkeys(("table_id", "row", "reason", *sources))]
    grouped: defaultdict[int, list[tuple[int, Record]]] = defaultdict(list)
    for row_id, *values in report.table.frame[names].itertuples(name=None):
        record = dict(zip(names, values, strict=True))
        grouped[int(record["table_id"])].append((int(row_id), record))
    return grouped


def _put_headings(
    table: TableRead, start: int, report: Report, edit: SheetEdit, cells: SheetCells, *, whose: str
) -> None:
    unit = report.sheet_units.get(table.table_id) or "mm"
    for row in (table.heading_row, *table.repeated_headings):
        look = CellLook(like=(row, _model_heading(table, row, cells)), wrap=True, bold=True)
        for offset, column in enumerate(COLUMNS):
            edit.cells[row, start + offset] = NewCell(value=column.heading_in(unit) + whose, look=look)


def _model_heading(table: TableRead, row: int, cells: SheetCells) -> int:
    """Return the rightmost heading that stands on the row itself; the covered half of a merged one has no look."""
    filled = cells.rows.get(row, {})
    standing = [column for column in _heading_columns(table) if column in filled and filled[column].is_used]
    return max(standing, default=last_table_column(table))


def last_table_column(table: TableRead) -> int:
    """Return the rightmost column with a heading."""
    return max(_heading_columns(table), default=1)


def _heading_columns(table: TableRead) -> Iterator[int]:
    yield from (column.column for column in table.columns.values())
    yield from (column.column for column in table.second_columns)
    yield from (column for column, *_ in table.undecided)
    yield from (column for column, _ in table.unread)


def _put_answers(table: TableRead, start: int, record: Record, report: Report, edit: SheetEdit) -> None:
    unit = report.sheet_units.get(table.table_id) or "mm"
    in_fractions = bool(report.sheet_in_fractions.get(table.table_id, False))
    row = int(record["row"])
    like = (row, last_table_column(table))
    for offset, column in enumerate(COLUMNS):
        if column.shown is None:
            cell = NewCell(
                value=_words(column, record) or None,
                look=CellLook(like=like, wrap=False, horizontal="left", is_unstruck=True),
            )
        else:
            cell = _length_cell(record[column.source], unit, like, in_fractions=in_fractions, shown=column.shown)
        edit.cells[row, start + offset] = cell


def _words(column: AnswerColumn, record: Record) -> str:
    """Return a cell of words; the Working of a row without a length opens with the reason."""
    text = str(record[column.source]).strip()
    reason = str(record["reason"]).strip()
    if column.source != "working" or not reason:
        return text
    verdict = str(record["verdict"])
    return f"{verdict}: {reason}" + (f"; {text}" if text else "")


def _length_cell(length_mm: float, unit: str, like: tuple[int, int], *, in_fractions: bool, shown: Shown) -> NewCell:
    if math.isnan(length_mm):
        return NewCell(value=None, look=CellLook(like=like))
    code = number_format(length_mm, unit, in_fractions=in_fractions, shown=shown)
    look = CellLook(like=like, number_format=code, wrap=False, horizontal="right", is_unstruck=True)
    return NewCell(value=in_unit(length_mm, unit), look=look)
