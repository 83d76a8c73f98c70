"""Rewrites a sheet of one workbook so that it reads the same inside another."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from thermowell_index.errors import OutputError
from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.ooxml.cells import CellCounter
from thermowell_index.ooxml.edits import Address
from thermowell_index.ooxml.markup import (
    Splice,
    apply_splices,
    end_of_tag,
    feed,
    make_parser,
    map_attributes,
    set_attribute,
)


@dataclass(frozen=True, kw_only=True)
class Shift:
    """What the numbers of the one workbook stand for in the other.

    ``styles`` and ``differential`` hold the index there for each index here, ``strings`` the markup of each shared
    text.
    """

    styles: list[int]
    differential: list[int]
    strings: list[bytes]

    def style(self, value: bytes) -> bytes:
        """Style index there, as an attribute holds it."""
        index = int(value)
        return str(self.styles[index] if index < len(self.styles) else 0).encode()


class _Rewriting:
    """The handlers of one pass over the sheet to be moved."""

    def __init__(self, data: bytes, shift: Shift, kept_styles: Mapping[Address, int], where: str) -> None:
        self.splices: list[Splice] = []
        self.unmet = set(kept_styles)
        self._data = data
        self._shift = shift
        self._kept_styles = kept_styles
        self._counter = CellCounter(where)
        self._text_start: int | None = None
        self._is_shared = False
        self._text: list[str] = []
        self._on_start: dict[str, Callable[[dict[str, str]], None]] = {
            "row": self._start_row,
            "c": self._start_cell,
            "v": self._start_value,
            "col": self._column,
            "sheetView": self._view,
            "cfRule": self._differential,
            "colorFilter": self._differential,
            "sortCondition": self._differential,
        }
        self._parser: Any = make_parser(where)
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._characters
        feed(self._parser, data, where)

    def _start(self, qualified: str, attributes: dict[str, str]) -> None:
        handler = self._on_start.get(qualified.rpartition(" ")[2])
        if handler is not None:
            handler(attributes)

    def _end(self, qualified: str) -> None:
        if self._text_start is not None and qualified.endswith(" v"):
            end = self._data.index(b">", self._parser.CurrentByteIndex) + 1
            content = self._shift.strings[int("".join(self._text))]
            self.splices.append((self._text_start, end, b"<is>" + content + b"</is>"))
            self._text_start = None

    def _characters(self, text: str) -> None:
        if self._text_start is not None:
            self._text.append(text)

    def _change(self, change: Callable[[str, bytes], bytes | None]) -> None:
        """Change attributes of the tag that has just been met."""
        start = self._parser.CurrentByteIndex
        end = end_of_tag(self._data, start)
        tag = self._data[start:end]
        changed = map_attributes(tag, change)
        if changed != tag:
            self.splices.append((start, end, changed))

    def _start_row(self, attributes: dict[str, str]) -> None:
        self._counter.enter_row(attributes)
        self._change(lambda name, value: self._shift.style(value) if name == "s" else None)

    def _start_cell(self, attributes: dict[str, str]) -> None:
        address = (self._counter.row, self._counter.enter_cell(attributes))
        self._is_shared = attributes.get("t") == "s"
        start = self._parser.CurrentByteIndex
        end = end_of_tag(self._data, start)
        tag = self._data[start:end]
        style = self._kept_styles.get(address)
        if style is not None:
            self.unmet.discard(address)
        elif "s" in attributes:
            style = int(self._shift.style(attributes["s"].encode()))
        if style is not None:
            tag = set_attribute(tag, "s", str(style))
        if self._is_shared:
            tag = set_attribute(tag, "t", "inlineStr")
        self.splices.append((start, end, tag))

    def _start_value(self, _attributes: dict[str, str]) -> None:
        if self._is_shared:
            self._text_start = self._parser.CurrentByteIndex
            self._text = []

    def _column(self, _attributes: dict[str, str]) -> None:
        self._change(lambda name, value: self._shift.style(value) if name == "style" else None)

    def _view(self, _attributes: dict[str, str]) -> None:
        # two selected tabs would be edited together
        self._change(lambda name, _value: b"0" if name == "tabSelected" else None)

    def _differential(self, _attributes: dict[str, str]) -> None:
        self._change(
            lambda name, value: str(self._shift.differential[int(value)]).encode() if name == "dxfId" else None
        )


def move_sheet(data: bytes, shift: Shift, kept_styles: Mapping[Address, int], where: str) -> bytes:
    """Sheet part as it has to stand in the other workbook.

    Raises
    ------
    OutputError
        When a cell that shall bear a style of that workbook does not exist.
    """
    found = _Rewriting(data, shift, kept_styles, where)
    if found.unmet:
        address = cell_address(*min(found.unmet))
        raise OutputError(f"{where}: has no cell {address} to keep a style in")
    return apply_splices(data, found.splices)
