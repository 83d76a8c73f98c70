"""What a run remembers of each index row, so that the next run can compare and match."""

import hashlib
import json
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from thermowell_index.table import CellState, Field, Frame, Kind, number, whole, word

# Fields that name a point or its order and are no input of a length or a check: a change there leaves a decision be.
NAMES_ONLY = frozenset(
    {
        "tag",
        "service",
        "area",
        "line_number",
        "length_unit",
        "measured_by",
        "measured_on",
        "quantity_wanted",
        "ordered_length",
        "order_number",
    }
)
ANSWERS = ("probe_length_computed_mm", "probe_length_order_mm", "shortest_fit_mm", "longest_fit_mm")
FINGERPRINT_LENGTH = 12
ANSWER_DIGITS = 4  # a tenth of a micrometre: no length moves by less


@dataclass(frozen=True, kw_only=True)
class RowMemory:
    """One index row as a run read and answered it.

    `cells` are the row's own cells as typed, blanks left out; `inputs` is the fingerprint of all that it was judged by,
    the cells of its well's row included; `well_row` is that row's place in the list, -1 without one. Lengths are in
    millimetres, None where there is none; `length_when_ordered_mm` is the ordered length, or the length to order of the
    run in which the order number first stood there.
    """

    tag: str
    well_tag: str
    key: str
    well_key: str
    loop: str
    letters: str
    sheet: str
    row: int
    cells: Mapping[str, str]
    inputs: str = ""
    is_point: bool = False
    verdict: str = ""
    computed_mm: float | None = None
    order_mm: float | None = None
    shortest_mm: float | None = None
    longest_mm: float | None = None
    length_when_ordered_mm: float | None = None
    order_number: str = ""
    well_row: int = -1
    unit: str = "mm"
    in_fractions: bool = False

    @property
    def answer(self) -> str:
        """Return what tells one answer from another."""
        lengths = (self.order_mm, self.shortest_mm, self.longest_mm)
        return _digest("|".join("" if length is None else f"{length:.{ANSWER_DIGITS}f}" for length in lengths))

    @property
    def fingerprint(self) -> str:
        """Return what tells the state of the row that a decision on it was made on: inputs, then the answer."""
        return f"{self.inputs}-{self.answer}"

    def as_text(self) -> str:
        """Return it as one line of text."""
        return json.dumps(asdict(self), ensure_ascii=False, separators=(",", ":"))


def row_from_text(text: str) -> RowMemory:
    """Return what `as_text` wrote.

    Raises
    ------
    ValueError
        The text is damaged.

    """
    try:
        return RowMemory(**json.loads(text))
    except TypeError as exc:
        raise ValueError(str(exc)) from exc


def own_cells(frame: Frame, fields: Iterable[Field]) -> list[dict[str, str]]:
    """Return for each row its own cells as typed, by field; blank ones are left out.

    It has to be asked before well data of other rows is joined.
    """
    columns = {entry.name: frame[_text_column(entry)].astype(str).tolist() for entry in fields}
    rows: list[dict[str, str]] = [{} for _ in range(len(frame))]
    for name, texts in columns.items():
        for cells, text in zip(rows, texts, strict=True):
            if plain := " ".join(text.split()):
                cells[name] = plain
    return rows


def remember(frame: Frame, cells: Sequence[Mapping[str, str]], fields: Sequence[Field]) -> list[RowMemory]:
    """Return what is remembered of each row of a judged and sized table."""
    inputs = _inputs(frame, fields)
    place = {row_id: position for position, row_id in enumerate(frame.index)}
    return [
        RowMemory(
            tag=word(frame, row_id, "tag"),
            well_tag=word(frame, row_id, "well_tag"),
            key=word(frame, row_id, "tag_key"),
            well_key=word(frame, row_id, "well_key"),
            loop=word(frame, row_id, "loop_without_suffix"),
            letters=word(frame, row_id, "letters"),
            sheet=word(frame, row_id, "sheet"),
            row=whole(frame, row_id, "row"),
            cells=cells[position],
            inputs=inputs[position],
            is_point=bool(frame.at[row_id, "is_point"]),
            verdict=word(frame, row_id, "verdict"),
            computed_mm=_length(frame, row_id, "probe_length_computed_mm"),
            order_mm=_length(frame, row_id, "probe_length_order_mm"),
            shortest_mm=_length(frame, row_id, "shortest_fit_mm"),
            longest_mm=_length(frame, row_id, "longest_fit_mm"),
            length_when_ordered_mm=_when_ordered(frame, row_id),
            order_number=word(frame, row_id, "order_number").strip(),
            well_row=place.get(whole(frame, row_id, "well_row_id"), -1),
            unit=word(frame, row_id, "unit") or "mm",
            in_fractions=bool(frame.at[row_id, "in_fractions"]),
        )
        for row_id, position in place.items()
    ]


def _when_ordered(frame: Frame, row_id: Any) -> float | None:  # noqa: ANN401 - a label of the frame's index
    """Return the length a row was ordered with; one that was ordered since the last run was ordered as it is now."""
    stated = _length(frame, row_id, "length_when_ordered_mm")
    if stated is not None or not word(frame, row_id, "order_number").strip():
        return stated
    return _length(frame, row_id, "probe_length_order_mm")


def _length(frame: Frame, row_id: Any, name: str) -> float | None:  # noqa: ANN401 - a label of the frame's index
    length = number(frame, row_id, name)
    return round(length, 6) if math.isfinite(length) else None


def _text_column(entry: Field) -> str:
    return f"{entry.name}_text" if entry.kind is Kind.LENGTH else entry.name


def _inputs(frame: Frame, fields: Sequence[Field]) -> list[str]:
    """Return the fingerprint of each row's inputs: a length counts by its value, not by how it is written."""
    columns = []
    for entry in fields:
        if entry.name in NAMES_ONLY:
            continue
        if entry.kind is Kind.LENGTH:
            columns.append(_length_inputs(frame, entry.name))
        else:
            columns.append([" ".join(str(text).split()).casefold() for text in frame[entry.name]])
    return [_digest("\x1f".join(values)) for values in zip(*columns, strict=True)]


def _length_inputs(frame: Frame, name: str) -> list[str]:
    return [
        f"{length:.6f}"
        if state == CellState.VALUE
        else ""
        if state in {CellState.MISSING, CellState.ABSENT}
        else f"{state}: {' '.join(str(text).split())}"
        for length, state, text in zip(frame[f"{name}_mm"], frame[f"{name}_state"], frame[f"{name}_text"], strict=True)
    ]


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:FINGERPRINT_LENGTH]
