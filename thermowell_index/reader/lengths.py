"""The lengths of one column: decimal mark and unit settled by the column, then converted to millimetres."""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from thermowell_index.ooxml import Cell, Package
from thermowell_index.reader.cells import Reading, read_length, read_length_text
from thermowell_index.reader.columns import fits
from thermowell_index.reader.neighbours import HEADING_MAP
from thermowell_index.table import UNIT_IN_CELL, CellState, ColumnRead
from thermowell_index.units import METRIC, to_mm

FIT_NEARER = 0.9
# Two columns for one field agree within this [mm]: 1/16 in, common practice, no source.
AGREE_MM = 1.5875
ROUNDING_MM = 1e-6
OF_A_DIAMETER = re.compile("[Ø⌀]")
# Below this no length of the field is usual, so a number in the wrong unit shows [mm]: the shortest nipple of the
# smallest thread, a finger's breadth of the others. Common practice, no source.
USUAL_LEAST_MM = {
    "nipple_length": 19.0,
    "second_nipple_length": 19.0,
    "installed_length": 12.7,
    "extension_length": 12.7,
    "lagging_length": 12.7,
    "withdrawal_clearance": 50.8,
}


@dataclass(frozen=True, kw_only=True)
class Declared:
    """Units that a sheet declares: by row, in the title block, and the design basis' for where nothing answers.

    A title block that says "unless noted" gives way to a unit that is written nearer to the figures. `by_section` is
    what a line between the rows declares, and whether its section still lasts: then it goes before the heading, and
    behind all others once another line follows it.
    """

    by_row: Sequence[str | None]
    title: str | None
    default: str | None
    title_gives_way: bool = False
    by_section: Sequence[tuple[str | None, bool]] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """One length cell with its unit settled; `value_mm` is NaN unless the state is a value.

    `drawn_mm` is what the column says that this one goes before; NaN where there is none.
    """

    reading: Reading
    state: CellState
    value_mm: float
    unit: str
    unit_from: str
    column: int
    drawn_mm: float = np.nan

    @property
    def shown_mm(self) -> float:
        """Return the length that the number format shows [mm]; NaN where it shows all that is stored."""
        shown = self.reading.shown
        return to_mm(shown, self.unit) if shown is not None and self.state is CellState.VALUE and self.unit else np.nan


def decimal_mark_of(readings: Sequence[Reading]) -> str | None:
    """Return the decimal mark that the cells of a column (or sheet) agree on, None where they do not or show none."""
    marks = Counter(reading.decimal_mark for reading in readings if reading.decimal_mark)
    return next(iter(marks)) if len(marks) == 1 else None


def first_readings(cells: Sequence[Cell | None], package: Package) -> list[Reading]:
    """Return the cells of a column as read before anything is known of the column."""
    return [read_length(cell, package) for cell in cells]


def settled_readings(
    readings: Sequence[Reading], cells: Sequence[Cell | None], sheet_mark: str | None
) -> list[Reading]:
    """Return the readings with the decimal mark settled by the column, then by the sheet."""
    own = {reading.decimal_mark for reading in readings if reading.decimal_mark}
    mark = next(iter(own)) if len(own) == 1 else (sheet_mark if not own else None)
    if mark is None:
        return list(readings)
    return [
        read_length_text(reading.text, mark)
        if cell is not None and isinstance(cell.value, str) and _has_mark(reading)
        else reading
        for reading, cell in zip(readings, cells, strict=True)
    ]


def _has_mark(reading: Reading) -> bool:
    is_text = reading.state in {CellState.VALUE, CellState.UNREADABLE, CellState.DOUBTFUL}
    return is_text and any(mark in reading.text for mark in ".,")


def lengths(
    readings: Sequence[Reading], column: ColumnRead, declared: Declared, limits_mm: tuple[float, float]
) -> list[Length]:
    """Return each reading with the unit of the first source that answers, or why none does."""
    sections = declared.by_section or [(None, False)] * len(readings)
    pairs = [
        _sources(reading, by_row, section, column, declared)
        for reading, by_row, section in zip(readings, declared.by_row, sections, strict=True)
    ]
    usual_mm = (max(limits_mm[0], USUAL_LEAST_MM.get(column.field, 0.0)), limits_mm[1])
    differ = _disagreements(readings, pairs, usual_mm)
    return [
        _length(reading, sources, is_contested, column)
        for reading, sources, is_contested in zip(readings, pairs, differ, strict=True)
    ]


def _sources(
    reading: Reading, by_row: str | None, section: tuple[str | None, bool], column: ColumnRead, declared: Declared
) -> tuple[tuple[str, str], ...]:
    """Return the units that speak for a cell, nearest first, each with where it comes from."""
    if reading.unit:
        return ((reading.unit, "number format" if reading.is_number else "cell"),)
    if column.unit and column.unit_from == HEADING_MAP:
        return ((column.unit, HEADING_MAP),)
    section_unit, still_lasts = section
    found = (
        (by_row, "unit column"),
        (section_unit if still_lasts else None, "section"),
        (column.unit, column.unit_from),
        (declared.title, "title block"),
        (section_unit, "section"),
    )
    known = tuple((unit, source) for unit, source in found if unit)
    if declared.title_gives_way:
        known = known[:1] + tuple(pair for pair in known[1:] if pair[1] != "title block")
    return known or (((declared.default, "design basis"),) if declared.default else ())


def _disagreements(
    readings: Sequence[Reading], pairs: Sequence[tuple[tuple[str, str], ...]], limits_mm: tuple[float, float]
) -> list[bool]:
    """Return for each cell whether its declared units differ and nothing settles which of them holds.

    A value that only the nearer unit makes plausible is settled by itself, one that only the farther does contradicts
    the nearer; one that either does goes with the other values of its column.
    """
    votes: dict[tuple[str, str], list[bool]] = {}
    speaking = [_votes(reading, sources, limits_mm) for reading, sources in zip(readings, pairs, strict=True)]
    for cell in speaking:
        for pair, vote in cell:
            if vote is not None:
                votes.setdefault(pair, []).append(vote)
    settled = {pair: sum(cast) / len(cast) >= FIT_NEARER for pair, cast in votes.items()}
    return [any(not (settled.get(pair, False) if vote is None else vote) for pair, vote in cell) for cell in speaking]


def _votes(
    reading: Reading, sources: tuple[tuple[str, str], ...], limits_mm: tuple[float, float]
) -> list[tuple[tuple[str, str], bool | None]]:
    """Return whether a value speaks for the nearest unit against each that differs from it; None: for both."""
    if not reading.number:
        return []
    nearest = sources[0][0] if sources else ""
    found: list[tuple[tuple[str, str], bool | None]] = []
    for farther in dict.fromkeys(unit for unit, _ in sources[1:] if unit != nearest):
        near, far = (fits(limits_mm, reading.number, unit) for unit in (nearest, farther))
        if near or far:
            found.append(((nearest, farther), None if near and far else near))
    return found


def _length(
    reading: Reading,
    sources: tuple[tuple[str, str], ...],
    differ: bool,  # noqa: FBT001 - one of three parallel lists
    column: ColumnRead,
) -> Length:
    state = reading.state
    unit, source = sources[0] if sources else ("", "")
    if state is CellState.VALUE and OF_A_DIAMETER.search(reading.text) and not column.field.endswith("diameter"):
        state = CellState.UNREADABLE
    if state is CellState.VALUE and reading.number == 0:
        return Length(reading=reading, state=state, value_mm=0.0, unit=unit, unit_from=source, column=column.column)
    if state is CellState.VALUE and differ:
        state = CellState.UNITS_DISAGREE
    elif state is CellState.VALUE and not sources:
        state = CellState.NO_UNIT
    elif state is CellState.VALUE and unit in METRIC and source not in UNIT_IN_CELL and "/" in reading.text:
        state = CellState.UNREADABLE  # a bare fraction is of an inch, or two numbers
    is_value = state is CellState.VALUE and reading.number is not None
    value = to_mm(reading.number, unit) if is_value and reading.number is not None else np.nan
    return Length(reading=reading, state=state, value_mm=value, unit=unit, unit_from=source, column=column.column)


def joined_columns(columns: Sequence[tuple[ColumnRead, Sequence[Length]]]) -> list[Length]:
    """Return one column of several for the same field, the first of them first.

    Agreeing values are one. Of differing ones the measured goes before all, and what is as built before what is on
    paper, where the headings say so of each; others are a conflict.
    """
    of = {
        evidence: [lengths for column, lengths in columns if column.evidence == evidence]
        for evidence in ("measured", "as built", "on paper", "")
    }
    measured = of["measured"]
    others = [lengths for column, lengths in columns if column.evidence != "measured"]
    if of["as built"] and of["on paper"] and not of[""]:
        others = [_with_better(_alike(of["on paper"]), _alike(of["as built"]))]
    if measured and others:
        return _with_better(_alike(others), _alike(measured))
    return _alike(measured or others)


def _alike(columns: Sequence[Sequence[Length]]) -> list[Length]:
    """Return one column of several of equal standing."""
    found = list(columns[0])
    for column in columns[1:]:
        found = [_joined(one, other) for one, other in zip(found, column, strict=True)]
    return found


def _joined(one: Length, other: Length) -> Length:
    other = _in_unit_of(one, other)
    if one.state is CellState.VALUE and other.state is CellState.VALUE:
        if _agree(one, other):
            return one
        text = f"{one.reading.text} and {other.reading.text}"
        return replace(one, state=CellState.CONFLICT, value_mm=np.nan, reading=replace(one.reading, text=text))
    return other if one.state is CellState.MISSING else one


def _with_better(column: Sequence[Length], better: Sequence[Length]) -> list[Length]:
    """Return the better figures, with the others where there are none and what those say beside them."""
    return [_better_of(one, best) for one, best in zip(column, better, strict=True)]


def _better_of(one: Length, best: Length) -> Length:
    if best.state is CellState.NO_UNIT:
        best = taken if _agree(one, taken := _in_unit_of(one, best)) else best
    return one if best.state is CellState.MISSING else replace(best, drawn_mm=one.value_mm)


def _in_unit_of(one: Length, other: Length) -> Length:
    """Return a number for which no source gives a unit as one in the unit of what it is compared with."""
    if other.state is not CellState.NO_UNIT or one.state is not CellState.VALUE or other.reading.number is None:
        return other
    value_mm = to_mm(other.reading.number, one.unit)
    return replace(other, state=CellState.VALUE, value_mm=value_mm, unit=one.unit, unit_from=one.unit_from)


def _agree(one: Length, other: Length) -> bool:
    return abs(one.value_mm - other.value_mm) <= AGREE_MM + ROUNDING_MM


def shows_fractions(columns: Mapping[str, Sequence[Length]], formats: Sequence[str]) -> bool:
    """Whether a table shows its lengths in inches as fractions rather than decimals."""
    fractions = sum("?/" in code for code in formats)
    decimals = 0
    for column in columns.values():
        for length in column:
            if length.unit == "in" and length.state is CellState.VALUE:
                fractions += "/" in length.reading.text or any(mark in length.reading.text for mark in "¼½¾⅛⅜⅝⅞\u2044")
                decimals += "." in length.reading.text.rstrip(". ")
    return fractions > decimals
