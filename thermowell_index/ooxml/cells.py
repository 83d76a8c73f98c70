"""The cells of one sheet, read in one pass: value, style, whether a formula stands behind it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.addresses import LAST_COLUMN, LAST_ROW, cell_address, column_number, parse_range
from thermowell_index.ooxml.markup import feed, is_true, make_parser
from thermowell_index.ooxml.texts import Text, TextCollector, decode

Range = tuple[int, int, int, int]
"""First row, first column, last row, last column."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell as it is stored.

    ``kind`` is ``n`` number, ``s`` text, ``b`` truth value, ``e`` error (the value is its text), ``d`` date in ISO
    form, or '' when the cell holds no value. ``kept_text`` is the text without its struck-out runs, None when no run
    is struck out.
    """

    row: int
    column: int
    value: str | float | bool | None
    kind: str
    style: int
    is_formula: bool
    kept_text: str | None

    @property
    def address(self) -> str:
        """Address such as F12."""
        return cell_address(self.row, self.column)

    @property
    def is_used(self) -> bool:
        """Whether it holds a value or a formula; a cell that is only formatted does not."""
        return self.is_formula or self.value is not None


@dataclass(frozen=True, kw_only=True)
class SheetCells:
    """What stands on one sheet."""

    rows: Mapping[int, Mapping[int, Cell]]
    merges: tuple[Range, ...] = ()
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    tables: tuple[Range, ...] = ()
    auto_filter: Range | None = None
    last_column: int = 0
    last_row: int = 0
    is_protected: bool = False


@dataclass(kw_only=True)
class _Gathered:
    """What the pass has met so far."""

    rows: dict[int, dict[int, Cell]] = field(default_factory=dict)
    merges: list[Range] = field(default_factory=list)
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    auto_filter: Range | None = None
    last_column: int = 0
    last_row: int = 0
    is_protected: bool = False


class CellCounter:
    """Rows and columns of a sheet; those without an address of their own follow the one before."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.row = 0
        self.column = 0
        self._columns: dict[str, int] = {}

    def enter_row(self, attributes: Mapping[str, str]) -> int:
        """Take the start of a row."""
        text = attributes.get("r")
        self.row = self.row + 1 if text is None else int(text) if text.isdecimal() else 0
        self.column = 0
        if not 1 <= self.row <= LAST_ROW:
            raise WorkbookError(f"{self.where}: a row {text or self.row} lies outside the sheet")
        return self.row

    def enter_cell(self, attributes: Mapping[str, str]) -> int:
        """Take the start of a cell."""
        text = attributes.get("r")
        if text is None:
            self.column += 1
        else:
            letters = text.rstrip("0123456789")
            self.column = self._columns.get(letters) or self._learn(letters, text)
        if self.column > LAST_COLUMN:
            raise WorkbookError(f"{self.where}: row {self.row} has a cell outside the sheet")
        return self.column

    def _learn(self, letters: str, text: str) -> int:
        try:
            number = self._columns[letters] = column_number(letters)
        except ValueError as error:
            raise WorkbookError(f"{self.where}: {text!r} is no cell of a sheet") from error
        return number


class _SheetPass:
    """The handlers of one pass over a sheet part."""

    def __init__(self, data: bytes, strings: list[Text], struck: frozenset[int], where: str) -> None:
        self.found = _Gathered()
        self._strings = strings
        self._struck = struck
        self._where = where
        self._counter = CellCounter(where)
        self._cells: dict[int, Cell] = {}
        self._kind = "n"
        self._style = 0
        self._is_formula = False
        self._value: list[str] | None = None
        self._takes_value = False
        self._inline: TextCollector | None = None
        self._on_start: dict[str, Callable[[dict[str, str]], None]] = {}
        self._on_end: dict[str, Callable[[], None]] = {}
        self._parser: Any = make_parser(where)
        self._parser.StartElementHandler = self._start_root
        feed(self._parser, data, where)

    def _start_root(self, qualified: str, _attributes: dict[str, str]) -> None:
        namespace, _, name = qualified.rpartition(" ")
        if name != "worksheet":
            raise WorkbookError(f"{self._where}: is no worksheet but a {name}")
        starts = {
            "row": self._start_row,
            "c": self._start_cell,
            "v": self._start_value,
            "f": self._start_formula,
            "is": self._start_inline,
            "mergeCell": self._merge,
            "col": self._columns,
            "autoFilter": self._filter,
            "sheetProtection": self._protection,
        }
        self._on_start = {f"{namespace} {name}": handler for name, handler in starts.items()}
        ends = {"c": self._end_cell, "v": self._end_value, "is": self._end_inline}
        self._on_end = {f"{namespace} {name}": handler for name, handler in ends.items()}
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._characters

    def _start(self, qualified: str, attributes: dict[str, str]) -> None:
        handler = self._on_start.get(qualified)
        if handler is not None:
            handler(attributes)
        elif self._inline is not None:
            self._inline.start(qualified.rpartition(" ")[2], attributes)

    def _end(self, qualified: str) -> None:
        handler = self._on_end.get(qualified)
        if handler is not None:
            handler()
        elif self._inline is not None:
            self._inline.end(qualified.rpartition(" ")[2])

    def _characters(self, text: str) -> None:
        if self._takes_value and self._value is not None:
            self._value.append(text)
        elif self._inline is not None:
            self._inline.characters(text)

    def _start_row(self, attributes: dict[str, str]) -> None:
        row = self._counter.enter_row(attributes)
        if is_true(attributes.get("hidden")):
            self.found.hidden_rows.add(row)
        self._cells = self.found.rows.setdefault(row, {})

    def _start_cell(self, attributes: dict[str, str]) -> None:
        self._counter.enter_cell(attributes)
        self._kind = attributes.get("t", "n")
        self._style = int(attributes.get("s", 0))
        self._is_formula = False
        self._value = None

    def _start_value(self, _attributes: dict[str, str]) -> None:
        self._value = []
        self._takes_value = True

    def _end_value(self) -> None:
        self._takes_value = False

    def _start_formula(self, _attributes: dict[str, str]) -> None:
        self._is_formula = True

    def _start_inline(self, _attributes: dict[str, str]) -> None:
        self._inline = TextCollector()
        self._value = []

    def _end_inline(self) -> None:
        """Nothing to do: the text is taken at the end of the cell."""

    def _end_cell(self) -> None:
        row, column = self._counter.row, self._counter.column
        kept = None
        value: str | float | bool | None = None
        kind = ""
        if self._value is not None:
            raw = "".join(self._value)
            if self._kind == "n":
                kind, value = _number(raw)
            elif self._kind in {"s", "inlineStr"}:
                kind, value, kept = self._text(raw)
            else:
                kind, value = _other(self._kind, raw)
        self._inline = None
        cell = Cell(row, column, value, kind, self._style, self._is_formula, kept)
        self._cells[column] = cell
        if value is not None or self._is_formula:
            self.found.last_row = max(self.found.last_row, row)
            self.found.last_column = max(self.found.last_column, column)

    def _text(self, raw: str) -> tuple[str, str | None, str | None]:
        """Kind, text and kept text of a shared or inline string."""
        if self._inline is not None:
            text = self._inline.finish()
        elif self._kind == "inlineStr":
            text = Text(text=decode(raw))
        elif not raw.strip():
            return "", None, None
        else:
            text = self._shared(raw)
        return "s", text.text, text.kept_when_struck if self._style in self._struck else text.kept

    def _shared(self, raw: str) -> Text:
        index = int(raw) if raw.strip().isdecimal() else -1
        if not 0 <= index < len(self._strings):
            address = cell_address(self._counter.row, self._counter.column)
            raise WorkbookError(f"{self._where}: {address} refers to a shared text {raw!r} that is not there")
        return self._strings[index]

    def _merge(self, attributes: dict[str, str]) -> None:
        self.found.merges.append(self._range(attributes))

    def _filter(self, attributes: dict[str, str]) -> None:
        self.found.auto_filter = self._range(attributes) if "ref" in attributes else None

    def _range(self, attributes: dict[str, str]) -> Range:
        text = attributes.get("ref", "")
        try:
            return parse_range(text)
        except ValueError as error:
            raise WorkbookError(f"{self._where}: {text!r} is no range of a sheet") from error

    def _columns(self, attributes: dict[str, str]) -> None:
        if is_true(attributes.get("hidden")):
            last = min(int(attributes["max"]), LAST_COLUMN)
            self.found.hidden_columns.update(range(int(attributes["min"]), last + 1))

    def _protection(self, attributes: dict[str, str]) -> None:
        self.found.is_protected = is_true(attributes.get("sheet"))


def _number(raw: str) -> tuple[str, float | str | None]:
    """Kind and value of a number; what is no finite number is kept as the text of an error."""
    if not raw.strip():
        return "", None
    try:
        value = float(raw)
    except ValueError:
        return "e", raw
    return ("n", value) if value - value == 0 else ("e", raw)


def _other(kind: str, raw: str) -> tuple[str, str | float | bool | None]:
    """Kind and value of a cell that is neither a plain number nor a shared or inline text."""
    if kind == "str":
        return "s", decode(raw)
    if not raw.strip():
        return "", None
    if kind == "b":
        return "b", is_true(raw.strip())
    return ("d" if kind == "d" else "e"), raw


def read_cells(
    data: bytes,
    *,
    strings: list[Text],
    struck: frozenset[int],
    tables: tuple[Range, ...],
    where: str,
) -> SheetCells:
    """Read a worksheet part; ``struck`` are the styles whose font is struck out."""
    found = _SheetPass(data, strings, struck, where).found
    return SheetCells(
        rows=found.rows,
        merges=tuple(found.merges),
        hidden_rows=frozenset(found.hidden_rows),
        hidden_columns=frozenset(found.hidden_columns),
        tables=tables,
        auto_filter=found.auto_filter,
        last_column=found.last_column,
        last_row=found.last_row,
        is_protected=found.is_protected,
    )
