"""Where the rows, cells and other elements of a sheet part stand, byte by byte."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.addresses import LAST_COLUMN, parse_range
from thermowell_index.ooxml.cells import CellCounter, Range
from thermowell_index.ooxml.edits import Address
from thermowell_index.ooxml.markup import Element, end_of_tag, feed, is_true, make_parser, parse

# schema order of what follows the rows
TAIL = tuple(
    """
    sheetCalcPr sheetProtection protectedRanges scenarios autoFilter sortState dataConsolidate customSheetViews
    mergeCells phoneticPr conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup
    headerFooter rowBreaks colBreaks customProperties cellWatches ignoredErrors smartTags drawing legacyDrawing
    legacyDrawingHF drawingHF picture oleObjects controls webPublishItems tableParts extLst
    """.split()  # noqa: SIM905  (a list of forty quoted names would fill a page)
)


@dataclass(slots=True, kw_only=True)
class RowSpan:
    """Bytes of a row; ``style`` is the look of cells that it does not hold, None when the column's holds."""

    start: int
    open_end: int
    close_start: int = 0
    end: int = 0
    style: int | None = None
    attribute_count: int = 0
    cell_count: int = 0


@dataclass(slots=True, kw_only=True)
class CellSpan:
    """Bytes of a cell; a blank one that is spelt out has a closing tag, as those have that are made here."""

    start: int
    open_end: int
    style: int
    end: int = 0
    is_used: bool = False
    is_formula: bool = False
    is_spelt_out_blank: bool = False


@dataclass(kw_only=True)
class SheetLayout:
    """What one pass over a sheet part has found.

    Attributes
    ----------
    root
        The sheet without its rows.
    sheet_data
        The element that holds the rows.
    rows, cells
        The rows and cells that were asked for, so far as they exist.
    gaps
        For cells that were asked for and do not exist in a row that does: the byte where they would stand.
    bounds
        Range of all cells that exist, formatted ones included, but for the columns left out and blank cells that were
        asked for and are spelt out; None without any.
    used_columns
        Of the columns that were asked about, those that hold a value or a formula.
    """

    root: Element
    sheet_data: Element
    rows: dict[int, RowSpan] = field(default_factory=dict)
    cells: dict[Address, CellSpan] = field(default_factory=dict)
    gaps: dict[Address, int] = field(default_factory=dict)
    bounds: Range | None = None
    used_columns: set[int] = field(default_factory=set)
    row_numbers: list[int] = field(default_factory=list)
    row_starts: list[int] = field(default_factory=list)

    def style_at(self, address: Address) -> int:
        """Style of a cell that was asked for, or the one that it would have if it existed."""
        cell = self.cells.get(address)
        if cell is not None:
            return cell.style
        return self.default_style(address)

    def default_style(self, address: Address) -> int:
        """Style of a cell that does not exist: that of its row, else of its column."""
        row, column = address
        span = self.rows.get(row)
        if span is not None and span.style is not None:
            return span.style
        return self._column_styles.get(column, 0)

    @cached_property
    def _column_styles(self) -> dict[int, int]:
        styles: dict[int, int] = {}
        for element in self.column_elements():
            style = int(element.attributes.get("style", 0))
            if style:
                first, last = column_span(element)
                styles.update(dict.fromkeys(range(first, last + 1), style))
        return styles

    def column_elements(self) -> list[Element]:
        """List the ``col`` elements, in order."""
        found = self.root.find("cols")
        return [] if found is None else list(found.all("col"))

    def row_gap(self, row: int) -> int:
        """Byte where a row that does not exist would stand."""
        index = bisect_right(self.row_numbers, row)
        return self.row_starts[index] if index < len(self.row_starts) else self.sheet_data.close_start

    def merge_anchor(self, address: Address) -> Address:
        """First cell of the merged range that a cell lies in, or the cell itself."""
        row, column = address
        for first_row, first_column, last_row, last_column in self.merges:
            if first_row <= row <= last_row and first_column <= column <= last_column:
                return first_row, first_column
        return address

    @cached_property
    def merges(self) -> list[Range]:
        """List the merged ranges."""
        found = self.root.find("mergeCells")
        if found is None:
            return []
        return [parse_range(entry.attributes["ref"]) for entry in found.all("mergeCell")]

    def place_of(self, name: str) -> int:
        """Byte where an element that may follow the rows belongs, by the order of the schema."""
        later = set(TAIL[TAIL.index(name) + 1 :])
        after_rows = self.root.children[self.root.children.index(self.sheet_data) + 1 :]
        for child in after_rows:
            # an element with alternative content stands where what it holds stands
            inner = child.descend() if child.name == "AlternateContent" else (child,)
            if any(element.name in later and element.namespace == self.root.namespace for element in inner):
                return child.start
        return self.root.close_start


def column_span(element: Element) -> tuple[int, int]:
    """First and last column that a ``col`` element speaks of."""
    return int(element.attributes["min"]), min(int(element.attributes["max"]), LAST_COLUMN)


class _RowsPass:
    """The handlers of one pass over the rows of a sheet part."""

    def __init__(
        self,
        data: bytes,
        wanted: Callable[[int], Sequence[int]],
        watched_columns: frozenset[int],
        leaving_out: tuple[int, int],
        where: str,
    ) -> None:
        self.rows: dict[int, RowSpan] = {}
        self.cells: dict[Address, CellSpan] = {}
        self.gaps: dict[Address, int] = {}
        self.used_columns: set[int] = set()
        self.row_numbers: list[int] = []
        self.row_starts: list[int] = []
        self.rows_span = (0, 0)
        self._data = data
        self._wanted = wanted
        self._watched = watched_columns
        self._first_out, self._last_out = leaving_out
        self._where = where
        self._counter = CellCounter(where)
        self._row = RowSpan(start=0, open_end=0)
        self._columns: Sequence[int] = ()
        self._next = 0
        self._cell: CellSpan | None = None
        self._left, self._right, self._top, self._bottom = LAST_COLUMN + 1, 0, 0, 0
        self._on_start: dict[str, Callable[[dict[str, str]], None]] = {}
        self._on_end: dict[str, Callable[[], None]] = {}
        self._parser: Any = make_parser(where)
        self._parser.StartElementHandler = self._start_root
        feed(self._parser, data, where)

    @property
    def bounds(self) -> Range | None:
        """Range of all cells that exist."""
        return (self._top, self._left, self._bottom, self._right) if self._right else None

    def _start_root(self, qualified: str, _attributes: dict[str, str]) -> None:
        namespace, _, name = qualified.rpartition(" ")
        if name != "worksheet":
            raise WorkbookError(f"{self._where}: is no worksheet but a {name}")
        starts = {
            "sheetData": self._start_rows,
            "row": self._start_row,
            "c": self._start_cell,
            "v": self._start_content,
            "is": self._start_content,
            "f": self._start_formula,
        }
        self._on_start = {f"{namespace} {name}": handler for name, handler in starts.items()}
        ends = {"c": self._end_cell, "row": self._end_row, "sheetData": self._end_rows}
        self._on_end = {f"{namespace} {name}": handler for name, handler in ends.items()}
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end

    def _start(self, qualified: str, attributes: dict[str, str]) -> None:
        handler = self._on_start.get(qualified)
        if handler is not None:
            handler(attributes)

    def _end(self, qualified: str) -> None:
        handler = self._on_end.get(qualified)
        if handler is not None:
            handler()

    def _start_rows(self, _attributes: dict[str, str]) -> None:
        open_end = end_of_tag(self._data, self._parser.CurrentByteIndex)
        self.rows_span = (open_end, open_end)

    def _end_rows(self) -> None:
        start = self.rows_span[0]
        self.rows_span = (start, max(start, self._parser.CurrentByteIndex))

    def _start_row(self, attributes: dict[str, str]) -> None:
        previous = self._counter.row
        row = self._counter.enter_row(attributes)
        if row <= previous:
            raise WorkbookError(f"{self._where}: row {row} comes after row {previous}; it cannot be edited")
        start = self._parser.CurrentByteIndex
        self.row_numbers.append(row)
        self.row_starts.append(start)
        self._columns = self._wanted(row)
        self._next = 0
        has_style = is_true(attributes.get("customFormat"))
        self._row = RowSpan(
            start=start,
            open_end=end_of_tag(self._data, start),
            style=int(attributes.get("s", 0)) if has_style else None,
            attribute_count=len(attributes),
        )

    def _end_row(self) -> None:
        row, span = self._counter.row, self._row
        is_closed = self._data[span.open_end - 2] == ord("/")
        span.close_start = span.open_end if is_closed else self._parser.CurrentByteIndex
        span.end = span.open_end if is_closed else self._data.index(b">", span.close_start) + 1
        for column in self._columns[self._next :]:
            self.gaps[row, column] = span.close_start
        if self._columns:
            self.rows[row] = span

    def _start_cell(self, attributes: dict[str, str]) -> None:
        column = self._counter.enter_cell(attributes)
        self._row.cell_count += 1
        columns = self._columns
        while self._next < len(columns) and columns[self._next] < column:
            self.gaps[self._counter.row, columns[self._next]] = self._parser.CurrentByteIndex
            self._next += 1
        if self._next < len(columns) and columns[self._next] == column:
            self._next += 1
            start = self._parser.CurrentByteIndex
            style = int(attributes.get("s", 0))
            self._cell = CellSpan(start=start, open_end=end_of_tag(self._data, start), style=style)
        else:
            self._widen(column)

    def _widen(self, column: int) -> None:
        """Let the bounds take in a cell."""
        if not self._first_out <= column <= self._last_out:
            self._left = min(self._left, column)
            self._right = max(self._right, column)
            self._top = self._top or self._counter.row
            self._bottom = self._counter.row

    def _start_content(self, _attributes: dict[str, str]) -> None:
        if self._cell is not None:
            self._cell.is_used = True
        if self._counter.column in self._watched:
            self.used_columns.add(self._counter.column)

    def _start_formula(self, attributes: dict[str, str]) -> None:
        self._start_content(attributes)
        if self._cell is not None:
            self._cell.is_formula = True

    def _end_cell(self) -> None:
        cell, self._cell = self._cell, None
        if cell is None:
            return
        if self._data[cell.open_end - 2] == ord("/"):
            cell.end = cell.open_end
        else:
            close_start = self._parser.CurrentByteIndex
            cell.end = self._data.index(b">", close_start) + 1
            cell.is_spelt_out_blank = close_start == cell.open_end
        self.cells[self._counter.row, self._counter.column] = cell
        if not cell.is_spelt_out_blank:
            self._widen(self._counter.column)


def read_layout(
    data: bytes,
    where: str,
    wanted: Callable[[int], Sequence[int]],
    watched_columns: frozenset[int] = frozenset(),
    leaving_out: tuple[int, int] | None = None,
) -> SheetLayout:
    """Find rows and cells of a sheet part; ``wanted`` gives the columns asked for in a row, in ascending order.

    Raises
    ------
    WorkbookError
        When the part is damaged, or its rows are out of order.
    """
    found = _RowsPass(data, wanted, watched_columns, leaving_out or (0, -1), where)
    start, end = found.rows_span
    root = parse(data[:start] + data[end:], where)
    sheet_data = root.find("sheetData")
    if sheet_data is None:
        raise WorkbookError(f"{where}: has no place for rows")
    for element in root.descend():
        _move(element, start, end - start)
    return SheetLayout(
        root=root,
        sheet_data=sheet_data,
        rows=found.rows,
        cells=found.cells,
        gaps=found.gaps,
        bounds=found.bounds,
        used_columns=found.used_columns,
        row_numbers=found.row_numbers,
        row_starts=found.row_starts,
    )


def _move(element: Element, after: int, distance: int) -> None:
    """Put offsets behind the rows back to where they are in the whole part."""
    if element.start >= after:
        element.start += distance
        element.open_end += distance
    if element.close_start >= after:
        element.close_start += distance
        element.end += distance
