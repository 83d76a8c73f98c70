"""One line of a store's list: the sensor that its columns and its description state, or why it cannot be used."""

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from thermowell_index.answers import StockItem
from thermowell_index.reader.cells import Reading
from thermowell_index.records.words import ADJUSTABLE_WORDS, mounting_of, says
from thermowell_index.sizing.elements import agree, element_count_of, element_of, material_of
from thermowell_index.stock_description import Described
from thermowell_index.stock_lengths import Measured
from thermowell_index.table import CellState
from thermowell_index.threads import parse_thread
from thermowell_index.units import is_placeholder

Meaning = TypeVar("Meaning")
WORDS = ("description", "type")
COMPRESSION = "compression fitting"
LONGEST_MM = 3048.0
"""120 in: no sensor of a store is longer, a number of millimetres under a heading of inches is. Common practice."""
SAME_LENGTH_MM = 2.0
"""A length in inches and the same in round millimetres differ by no more: 9 in, 228.6 mm, is written 230 mm."""
SAME_DIAMETER_MM = 0.1
"""The same of a diameter: 1/4 in is 6.35 mm, written 6.4 or 6.3. Geometry."""
BARE_COUNT = re.compile(
    r"(-?\s?\d+)(?:[.,]0+)?(?:\s*(?:pcs?|pieces?|ea|each|off|no|st(?:ü|ue)?ck|stk)\.?)?", re.IGNORECASE
)
NO_PIECE = frozenset({"none", "nil", "zero", "keine", "ninguno", "nessuno", "aucun", "geen", "nenhum"})


@dataclass(frozen=True, kw_only=True)
class Line:
    """What stands in one row: its texts by field, its length and diameter as read, and what its description states."""

    sheet: str
    row: int
    texts: Mapping[str, str]
    length_cell: Reading
    length: Measured
    diameter: Measured
    said: Described

    @property
    def place(self) -> str:
        """Return where it stands."""
        return f"{self.sheet} row {self.row}"

    @property
    def name(self) -> str:
        """Return its item as written: code and description."""
        return ", ".join(dict.fromkeys(text for text in (self.text("item"), self.text("description")) if text))

    def text(self, field: str) -> str:
        """Return the text of a field, empty where it has no column or says that there is none."""
        text = self.texts.get(field, "")
        return "" if is_placeholder(text) else text

    @property
    def description(self) -> str:
        """Return what describes the item; a number of several words does, where nothing else does."""
        return self.text("description") or (item if " " in (item := self.text("item")) else "")

    @property
    def has_described_length(self) -> bool:
        """Whether its length stands in the description alone."""
        return self.length_cell.state is CellState.MISSING and self.said.length.is_known


def why_unusable(line: Line) -> str:
    """Return why the length or the quantity of a line cannot be used, or what it contradicts; empty where it can."""
    return _why_no_length(line) or _why_implausible(line) or next(_contradictions(line), "") or _why_no_quantity(line)


def _why_no_length(line: Line) -> str:
    cell = line.length_cell
    if line.has_described_length or line.length.is_known:
        return ""
    if cell.state is CellState.MISSING:
        return "no length"
    is_bare = cell.state is CellState.VALUE and cell.unit is None and bool(cell.number)
    return f"length {cell.text!r} " + ("has no unit that fits it" if is_bare else "is no length")


def _why_implausible(line: Line) -> str:
    length = length_of(line)
    if length.length_mm <= LONGEST_MM:
        return ""
    return f"length {length.text} is implausible, more than 120 in: look at its unit"


def length_of(line: Line) -> Measured:
    """Return the length of its own column, where that is blank the description's."""
    return line.said.length if line.has_described_length else line.length


def _contradictions(line: Line) -> Iterator[str]:
    """Yield what the description says otherwise than a column of the same line."""
    said, length = line.said, line.said.length if line.said.length.is_known else line.said.mentioned
    if length.differs(line.length, SAME_LENGTH_MM):
        yield f"its description says {length.text}, its length column {line.length.text}"
    if said.diameter.differs(line.diameter, SAME_DIAMETER_MM):
        yield f"its description says {said.diameter.text}, its diameter column {line.diameter.text}"
    if said.thread and _thread_key(line.text("thread")) not in {None, _thread_key(said.thread)}:
        yield f"its description says {said.thread}, its thread column {line.text('thread')}"
    for name, field, meaning in (
        ("mounting", "mounting", mounting_named),
        ("type", "type", element_of),
        ("elements", "elements", lambda text: {0: "", 1: "one element", 2: "two elements"}[element_count_of(text)]),
        ("material", "material", material_of),
    ):
        own, other = meaning(line.text(field)), meaning(line.description)
        if agree(own, other) is False:
            yield f"its description says {other}, its {name} column {own}"


def _thread_key(text: str) -> tuple[object, ...] | None:
    thread = parse_thread(text)
    return (thread.family, thread.size) if thread else None


def _why_no_quantity(line: Line) -> str:
    if "quantity" not in line.texts:
        return ""
    text = line.texts["quantity"]
    count = _count(text)
    if count is None:
        return f"quantity {text!r} is no number" if text else "no quantity"
    return f"quantity {count} is less than none" if count < 0 else ""


def _count(text: str) -> int | None:
    """Return how many a cell says there are, None where it does not say."""
    if text.strip().casefold() in NO_PIECE:
        return 0
    match = BARE_COUNT.fullmatch(text.strip())
    return int(match[1].replace(" ", "")) if match else None


def mounting_named(text: str) -> str:
    """Return the mounting that words name; a fitting that clamps any length is one of its own here."""
    return mounting_of(text) or (COMPRESSION if says(ADJUSTABLE_WORDS, text) else "")


def as_item(line: Line) -> StockItem:
    """Return the sensor of a line that can be used; where a column is silent, what its description states counts."""
    words = [text for text in (line.text("mounting"), line.text("type"), line.description) if text]
    length = length_of(line)
    diameter = line.diameter if line.text("diameter") else line.said.diameter
    return StockItem(
        item=line.text("item") or line.text("description") or f"row {line.row}",
        sheet=line.sheet,
        row=line.row,
        length_mm=length.length_mm,
        unit=length.unit,
        diameter_mm=diameter.length_mm,
        diameter=diameter.text or line.text("diameter"),
        mounting=_first(mounting_named, words) or "",
        kind=", ".join(text for place, text in enumerate(words) if not _is_said(text, words[place + 1 :])),
        thread=line.text("thread") or line.said.thread,
        quantity=_count(line.texts["quantity"]) if "quantity" in line.texts else None,
        element_count=_first(element_count_of, (line.text("elements"), *words)) or 0,
        sheath_material=line.text("material") or _first(material_of, words) or "",
        has_described_length=line.has_described_length,
    )


def _first(meaning: Callable[[str], Meaning], texts: Sequence[str]) -> Meaning | None:
    """Return the first meaning that is found in the texts, None where there is none."""
    return next((found for text in texts if (found := meaning(text))), None)


def _is_said(text: str, later: Sequence[str]) -> bool:
    """Whether one of the later texts says the same and perhaps more."""
    return any(text.casefold() in other.casefold() for other in later)
