"""What a run remembers of each index row, so that the next run can compare and match."""

import hashlib
import json
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from thermowell_index.table import GONE, CellState, Field, Frame, Kind

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
_REMEMBERED = (
    *(
        "tag",
        "well_tag",
        "tag_key",
        "well_key",
        "loop_without_suffix",
        "letters",
        "sheet",
        "row",
        "is_point",
        "verdict",
    ),
    *ANSWERS,
    *("length_when_ordered_mm", "order_number", "well_row_id", "unit", "in_fractions"),
)
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
    rows: Iterable[Any] = frame[list(_REMEMBERED)].itertuples(
        index=False, name="Row"
    )  # a column at a time: rows are many
    return [
        RowMemory(
            tag=str(row.tag),
            well_tag=str(row.well_tag),
            key=str(row.tag_key),
            well_key=str(row.well_key),
            loop=str(row.loop_without_suffix),
            letters=str(row.letters),
            sheet=str(row.sheet),
            row=int(row.row),
            cells=cells[position],
            inputs=inputs[position],
            is_point=bool(row.is_point),
            verdict=str(row.verdict),
            computed_mm=_length(row.probe_length_computed_mm),
            order_mm=_length(row.probe_length_order_mm),
            shortest_mm=_length(row.shortest_fit_mm),
            longest_mm=_length(row.longest_fit_mm),
            length_when_ordered_mm=_when_ordered(row),
            order_number=str(row.order_number).strip(),
            well_row=place.get(int(row.well_row_id), -1),
            unit=str(row.unit) or "mm",
            in_fractions=bool(row.in_fractions),
        )
        for position, row in enumerate(rows)
    ]


def _when_ordered(row: Any) -> float | None:  # noqa: ANN401 - a named tuple of the frame's columns
    """Return the length a row was ordered with; one that was ordered since the last run was ordered as it is now."""
    stated = _length(row.length_when_ordered_mm)
    if stated is not None or not str(row.order_number).strip():
        return stated
    return _length(row.probe_length_order_mm)


def _length(length: float) -> float | None:
    return round(float(length), 6) if math.isfinite(length) else None


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
        if state in GONE
        else f"{state}: {' '.join(str(text).split())}"
        for length, state, text in zip(frame[f"{name}_mm"], frame[f"{name}_state"], frame[f"{name}_text"], strict=True)
    ]


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:FINGERPRINT_LENGTH]
