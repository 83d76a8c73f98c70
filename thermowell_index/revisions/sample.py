"""A random sample of the rows that nothing was found on, for a check by hand: a systematic error raises no flag."""

import hashlib
import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import HandValue
from thermowell_index.units import DimensionState, format_length, parse_dimension, to_mm

ONE_IN = 20
LEAST = 13
MOST = 60
AGREES = "agrees"
AGREES_MM = 0.05


@dataclass(frozen=True, kw_only=True)
class Sample:
    """The rows drawn, by their place, with what was calculated by hand; and hand values of rows that are not in it."""

    seed: str = ""
    unflagged: int = 0
    places: Sequence[int] = ()
    values: Mapping[int, HandValue] = field(default_factory=dict)
    earlier: Sequence[HandValue] = ()


def size_of(unflagged: int) -> int:
    """Return how many rows are drawn: 1 in 20, at least 13, at most 60, never more than there are."""
    return min(unflagged, max(LEAST, min(MOST, math.ceil(unflagged / ONE_IN))))


def draw(
    rows: Sequence[RowMemory], unflagged: Collection[int], seed: str, hand_values: Sequence[HandValue] = ()
) -> Sample:
    """Draw the sample.

    Each row has a number that the seed and its tag make; the rows with the least numbers are drawn. So a sample is the
    same again for the same seed, and from issue to issue only rows that are new or gone change it.
    """
    chosen = sorted(sorted(unflagged, key=lambda place: _number(rows[place], seed, place))[: size_of(len(unflagged))])
    left = [value for value in hand_values if value.is_filled]
    values: dict[int, HandValue] = {}
    for place in chosen:
        row = rows[place]
        mine = HandValue(key=row.key, well_key=row.well_key, tag=row.tag, inputs=row.fingerprint, answer=_answer(row))
        given = next((value for value in left if _is_for(value, row)), None)
        if given is not None:
            left.remove(given)
            mine = replace(given, tag=row.tag, answer=mine.answer)
        values[place] = mine
    return Sample(seed=seed, unflagged=len(unflagged), places=chosen, values=values, earlier=left)


def verdict_on(value: str, row: RowMemory) -> str:
    """Return whether a hand value agrees with the length to order, in words; empty where there is none."""
    if not value or row.order_mm is None:
        return ""
    typed = parse_dimension(value)
    if typed.state is not DimensionState.VALUE or typed.number is None:
        return "cannot be read"
    off_mm = to_mm(typed.number, typed.unit or row.unit) - row.order_mm
    if abs(off_mm) <= AGREES_MM:
        return AGREES
    return f"differs by {format_length(off_mm, row.unit, fractions=row.in_fractions)}"


def in_words(sample: Sample, rows: Sequence[RowMemory]) -> str:
    """Return how far the check by hand has come, in a sentence."""
    verdicts = [verdict_on(sample.values[place].value, rows[place]) for place in sample.places]
    off = [
        f"{rows[place].tag} {verdict}"
        for place, verdict in zip(sample.places, verdicts, strict=True)
        if verdict not in {"", AGREES}
    ]
    done = sum(1 for verdict in verdicts if verdict)
    said = f"{len(sample.places)} of {sample.unflagged} unflagged sized rows drawn for a check by hand, {done} checked"
    return f"{said}; {'; '.join(off)}." if off else f"{said}."


def _is_for(value: HandValue, row: RowMemory) -> bool:
    """Return whether a hand value was calculated for the row in the state it is in now."""
    return (value.key, value.well_key, value.inputs) == (row.key, row.well_key, row.fingerprint)


def _answer(row: RowMemory) -> str:
    return "" if row.order_mm is None else f"{row.order_mm:.6f}"


def _number(row: RowMemory, seed: str, place: int) -> tuple[str, int]:
    return hashlib.sha256(f"{seed}\x1f{row.key}\x1f{row.well_key}".encode()).hexdigest(), place
