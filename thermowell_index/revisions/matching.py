"""Which row of this issue is which of the issue before: by tag, well tag and what the cells say, never by place."""

from bisect import bisect_left
from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from thermowell_index.revisions.memory import RowMemory

SAME_SHEET = 0.01  # decides only between rows whose cells agree equally well


@dataclass(frozen=True, kw_only=True)
class RowMatch:
    """Rows by their place in the two lists: `pairs` is this issue's row -> the row it was before."""

    pairs: Mapping[int, int] = field(default_factory=dict)
    added: Sequence[int] = ()
    gone: Sequence[int] = ()
    moved: Sequence[int] = ()
    sheets: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def now_of(self) -> dict[int, int]:
        """Return the earlier row -> this issue's row."""
        return {old: new for new, old in self.pairs.items()}


def match_rows(before: Sequence[RowMemory], now: Sequence[RowMemory]) -> RowMatch:
    """Match the rows of two issues.

    Rows of one tag and well tag are one row; then rows of one tag alone, whose well tag was filled in or changed. Of
    several rows of one tag those whose cells agree best belong together. A row without a tag is the same row only where
    all its cells are.
    """
    pairs: dict[int, int] = {}
    _pair(before, now, pairs, lambda row: (row.key, row.well_key) if row.key else None)
    _pair(before, now, pairs, lambda row: row.key or None)
    _pair(before, now, pairs, lambda row: (row.well_key, *sorted(row.cells.items())) if not row.key else None)
    sheets = _renamed_sheets(before, now, pairs)
    taken = set(pairs.values())
    return RowMatch(
        pairs=pairs,
        added=[place for place in range(len(now)) if place not in pairs],
        gone=[place for place in range(len(before)) if place not in taken],
        moved=_moved(before, now, pairs, sheets),
        sheets=sheets,
    )


def agreement(one: RowMemory, other: RowMemory, leaving_out: Iterable[str] = ()) -> float:
    """Return the share of the filled cells of two rows that are the same, from 0 to 1."""
    names = (one.cells.keys() | other.cells.keys()) - set(leaving_out)
    same = sum(1 for name in names if one.cells.get(name) == other.cells.get(name))
    return same / len(names) if names else 0.0


def _pair(
    before: Sequence[RowMemory],
    now: Sequence[RowMemory],
    pairs: dict[int, int],
    key_of: Callable[[RowMemory], Hashable | None],
) -> None:
    """Add pairs of rows that have the same key and no partner yet."""
    taken = set(pairs.values())
    waiting: defaultdict[Hashable, list[int]] = defaultdict(list)
    for place, row in enumerate(before):
        if place not in taken and (key := key_of(row)) is not None:
            waiting[key].append(place)
    takers: defaultdict[Hashable, list[int]] = defaultdict(list)
    for place, row in enumerate(now):
        if place not in pairs and (key := key_of(row)) in waiting:
            takers[key].append(place)
    for key, places in takers.items():
        candidates = waiting[key]
        if len(places) == len(candidates) == 1:
            pairs[places[0]] = candidates[0]
        else:
            pairs.update(_best_pairs(before, now, candidates, places))


def _best_pairs(
    before: Sequence[RowMemory], now: Sequence[RowMemory], candidates: Sequence[int], places: Sequence[int]
) -> dict[int, int]:
    """Return pairs of several rows of one tag, those that agree best first."""
    scores = sorted(
        (
            -agreement(before[old], now[new]) - SAME_SHEET * (before[old].sheet == now[new].sheet),
            candidates.index(old),
            places.index(new),
        )
        for old in candidates
        for new in places
    )
    found: dict[int, int] = {}
    for _, old, new in scores:
        if places[new] not in found and candidates[old] not in found.values():
            found[places[new]] = candidates[old]
    return found


def _renamed_sheets(before: Sequence[RowMemory], now: Sequence[RowMemory], pairs: Mapping[int, int]) -> dict[str, str]:
    """Return this issue's sheet names -> the name each had before, told by where most of its rows stood."""
    old_names, new_names = {row.sheet for row in before}, {row.sheet for row in now}
    found = {name: name for name in new_names & old_names}
    votes: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for new, old in pairs.items():
        if before[old].sheet not in new_names and now[new].sheet not in old_names:
            votes[now[new].sheet][before[old].sheet] += 1
    for name, counts in votes.items():
        best = max(sorted(counts), key=lambda candidate: counts[candidate])
        if best not in found.values():
            found[name] = best
    return found


def _moved(
    before: Sequence[RowMemory], now: Sequence[RowMemory], pairs: Mapping[int, int], sheets: Mapping[str, str]
) -> list[int]:
    """Return the rows that stand elsewhere among the others: the fewest whose move explains the new order."""
    moved = [new for new, old in pairs.items() if sheets.get(now[new].sheet) != before[old].sheet]
    stayed: defaultdict[str, list[int]] = defaultdict(list)
    for new in sorted(set(pairs) - set(moved), key=lambda place: (now[place].sheet, now[place].row)):
        stayed[now[new].sheet].append(new)
    for places in stayed.values():
        kept = _longest_rising([before[pairs[place]].row for place in places])
        moved += [place for position, place in enumerate(places) if position not in kept]
    return sorted(moved)


def _longest_rising(rows: Sequence[int]) -> set[int]:
    """Return the positions of a longest rising run of numbers, which need not be neighbours."""
    tails: list[int] = []
    tail_positions: list[int] = []
    previous: list[int] = []
    for position, row in enumerate(rows):
        slot = bisect_left(tails, row)
        previous.append(tail_positions[slot - 1] if slot else -1)
        tails[slot : slot + 1] = [row]
        tail_positions[slot : slot + 1] = [position]
    chosen: set[int] = set()
    position = tail_positions[-1] if tail_positions else -1
    while position >= 0:
        chosen.add(position)
        position = previous[position]
    return chosen
