"""Lengths that moved from row to row between two issues: many tags bear what their neighbours had the time before."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby, product

from thermowell_index.findings import Finding
from thermowell_index.revisions.previous import CLEARED, STILL_TO_DO, PreviousRun, is_decided
from thermowell_index.units import is_placeholder, parse_dimension

RULE = "values_slid_against_tags"
SINCE = "in the issue before"
# A point that has moved together with these bears another tag now; its lengths have not slid.
MOVE_TOGETHER = ("service", "line_number", "well_tag")
ORDINALS = {1: "", 2: "second ", 3: "third "}

Cells = Mapping[str, str]
Values = Sequence[object]


@dataclass(frozen=True, kw_only=True)
class RowsNow:
    """The rows of this issue in their order: own cells, table, and the place of each in the issue before (-1: none)."""

    cells: Sequence[Cells]
    tables: Sequence[int]
    before: Sequence[int]


@dataclass(frozen=True, kw_only=True)
class Limits:
    """From how many changed neighbours on a column has slid, and by how many rows at most it is looked for."""

    rows: int
    farthest: int


def slid_since(now: RowsNow, previous: PreviousRun, labels: Mapping[str, str], limits: Limits) -> list[str]:
    """Return by row what slid since the issue before, in words; empty for rows where nothing did.

    What was said of a row before is said again while its lengths are as they were and nobody has decided otherwise.
    Rows that were in doubt then are no measure of what moved since.
    """
    said = [one for one in previous.findings.values() if one.rule == RULE and one.change != CLEARED]
    in_doubt = {place for finding in said for place in finding.row_ids}
    words = _said_again(now, said, previous, labels)
    for table in dict.fromkeys(now.tables):
        rows = [
            row
            for row, place in enumerate(now.before)
            if now.tables[row] == table and place >= 0 and place not in in_doubt
        ]
        for row, text in _slid_in(rows, now, previous, labels, limits).items():
            words[row] = words[row] or text
    return words


def _said_again(now: RowsNow, said: Sequence[Finding], previous: PreviousRun, labels: Mapping[str, str]) -> list[str]:
    open_words = {
        place: finding.well_tag
        for finding in said
        if finding.well_tag.endswith(SINCE) and not _is_released(finding.disposition)
        for place in finding.row_ids
    }
    return [
        open_words[place]
        if place in open_words and all(cells.get(name) == previous.rows[place].cells.get(name) for name in labels)
        else ""
        for cells, place in zip(now.cells, now.before, strict=True)
    ]


def _is_released(disposition: str) -> bool:
    return is_decided(disposition) and disposition not in STILL_TO_DO


def _slid_in(
    rows: Sequence[int], now: RowsNow, previous: PreviousRun, labels: Mapping[str, str], limits: Limits
) -> dict[int, str]:
    """Return by row of one table what slid, by the step and the fields that the most rows show."""
    cells_now = [now.cells[row] for row in rows]
    cells_then = [previous.rows[now.before[row]].cells for row in rows]
    found: dict[int, dict[str, set[int]]] = {}
    for step, name in product(_steps(limits.farthest), labels):
        values, then = _values(cells_now, name), _values(cells_then, name)
        places = set(_runs(values, then, step, limits.rows))
        if places and not _moved_together(places, cells_now, cells_then, step):
            found.setdefault(step, {})[name] = places
    texts: dict[int, str] = {}
    for step, by_field in sorted(found.items(), key=lambda one: -max(map(len, one[1].values()))):
        fields = " and ".join(labels[name] for name in by_field)
        for place in sorted(set().union(*by_field.values())):
            texts.setdefault(rows[place], _words(fields, step))
    return texts


def _steps(farthest: int) -> list[int]:
    return [sign * step for step in range(1, farthest + 1) for sign in (1, -1)]


def _words(fields: str, step: int) -> str:
    where = "above" if step > 0 else "below"
    return f"the {fields} of each is what the {ORDINALS[abs(step)]}row {where} it had {SINCE}"


def _values(cells: Sequence[Cells], name: str) -> list[object]:
    return [_value(one.get(name, "")) for one in cells]


@lru_cache(maxsize=65536)
def _value(text: str) -> object:
    """Return what a cell is compared by: a number however it is written, else its text; None for no value."""
    if is_placeholder(text) or not text.strip():
        return None
    reading = parse_dimension(text)
    return (reading.number, reading.unit) if reading.number is not None else text.casefold()


def _runs(values: Values, then: Values, step: int, least: int) -> Iterator[int]:
    """Yield the places of runs of neighbours that bear another row's value, enough of them one that they had not."""

    def bears(place: int) -> bool:
        other = place - step
        is_there = 0 <= other < len(then) and values[place] is not None
        return is_there and values[place] == then[other]

    for is_borne, group in groupby(range(len(values)), key=bears):
        places = list(group)
        if is_borne and sum(values[place] != then[place] for place in places) >= least:
            yield from places


def _moved_together(
    places: Collection[int], cells_now: Sequence[Cells], cells_then: Sequence[Cells], step: int
) -> bool:
    """Whether most of the rows brought service, line or well along, so that tags were renamed and no length slid."""
    return any(
        2
        * sum(
            cells_now[place].get(name) == cells_then[place - step].get(name)
            and cells_now[place].get(name) != cells_then[place].get(name)
            for place in places
        )
        >= len(places)
        for name in MOVE_TOGETHER
    )
