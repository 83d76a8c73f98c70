"""Tags that may have been renamed, split or merged: proposed with the reason, never assumed."""

import re
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from thermowell_index.findings import one_tag
from thermowell_index.revisions.matching import RowMatch, agreement
from thermowell_index.revisions.memory import RowMemory

LEAST_AGREEMENT = 0.75
LEAST_CELLS = 4
CLEAR_LEAD = 0.1
# A cell tells rows apart where at most so many of those gone, and of those added, bear it.
MOST_ALIKE = 3
NAMES = ("tag", "well_tag")
_LISTED = re.compile(r"[/&+,;]")


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """What rows that are gone may have become; `before` and `now` are places in the two lists of rows."""

    kind: str
    before: tuple[int, ...]
    now: tuple[int, ...]
    why: str


def propose(before: Sequence[RowMemory], now: Sequence[RowMemory], match: RowMatch) -> list[Proposal]:
    """Return the proposals: tags that name each other, rows of one loop, rows whose cells agree as no others do."""
    gone, added = list(match.gone), list(match.added)
    found: list[Proposal] = []
    for way in (_by_names, _by_loop, _by_cells):
        found += way(before, now, gone, added)
        used_before = {place for proposal in found for place in proposal.before}
        used_now = {place for proposal in found for place in proposal.now}
        gone = [place for place in gone if place not in used_before]
        added = [place for place in added if place not in used_now]
    return found


def _by_names(
    before: Sequence[RowMemory], now: Sequence[RowMemory], gone: Sequence[int], added: Sequence[int]
) -> list[Proposal]:
    """Return the rows whose tag is a list of tags, as TE-210/211, with the rows that bear those."""
    merged = [
        Proposal(kind="merged", before=named, now=(place,), why=f"the tag {now[place].tag} names them")
        for place in added
        if len(named := _named(now[place].tag, before, gone)) > 1
    ]
    split = [
        Proposal(kind="split", before=(place,), now=named, why=f"the tag {before[place].tag} names them")
        for place in gone
        if len(named := _named(before[place].tag, now, added)) > 1
    ]
    return merged + split


def _named(tag: str, rows: Sequence[RowMemory], places: Sequence[int]) -> tuple[int, ...]:
    """Return the rows that a list of tags names; a part that is no whole tag takes the place of the first one's end."""
    first, *others = (part.strip() for part in _LISTED.split(tag))
    names = {one_tag(name) for name in (first, *others, *(first[: -len(part)] + part for part in others if part))}
    return tuple(place for place in places if others and one_tag(rows[place].tag) in names)


def _by_loop(
    before: Sequence[RowMemory], now: Sequence[RowMemory], gone: Sequence[int], added: Sequence[int]
) -> list[Proposal]:
    old: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    new: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for places, rows, groups in ((gone, before, old), (added, now, new)):
        for place in places:
            if rows[place].letters:
                groups[rows[place].letters, rows[place].loop].append(place)
    found = []
    for key in old.keys() & new.keys():
        kind = _kind(len(old[key]), len(new[key]))
        if kind:
            why = "the same function letters and loop number"
            if kind == "renamed":
                why += f"; {_share(before[old[key][0]], now[new[key][0]])} of the cells agree"
            found.append(Proposal(kind=kind, before=tuple(old[key]), now=tuple(new[key]), why=why))
    return sorted(found, key=lambda proposal: proposal.before)


def _kind(gone: int, added: int) -> str:
    if gone == 1:
        return "renamed" if added == 1 else "split"
    return "merged" if added == 1 else ""


def _by_cells(
    before: Sequence[RowMemory], now: Sequence[RowMemory], gone: Sequence[int], added: Sequence[int]
) -> list[Proposal]:
    scores = {
        (old, new): agreement(before[old], now[new], NAMES)
        for old, new in _sharing_a_rare_cell(before, now, gone, added)
        if len((before[old].cells.keys() & now[new].cells.keys()) - set(NAMES)) >= LEAST_CELLS
    }
    of_old: defaultdict[int, list[float]] = defaultdict(list)
    of_new: defaultdict[int, list[float]] = defaultdict(list)
    for (old, new), score in scores.items():
        of_old[old].append(score)
        of_new[new].append(score)
    found = []
    for (old, new), score in scores.items():
        if score >= LEAST_AGREEMENT and _leads(score, of_old[old]) and _leads(score, of_new[new]):
            why = f"{_share(before[old], now[new])} of the cells agree, and no other row's do as well"
            found.append(Proposal(kind="renamed", before=(old,), now=(new,), why=why))
    return found


def _sharing_a_rare_cell(
    before: Sequence[RowMemory], now: Sequence[RowMemory], gone: Sequence[int], added: Sequence[int]
) -> list[tuple[int, int]]:
    """Return the pairs of rows that share a cell which few others bear; wells of one size share the rest."""
    old, new = _by_cell(before, gone), _by_cell(now, added)
    pairs = {
        pair
        for cell in old.keys() & new.keys()
        if len(old[cell]) <= MOST_ALIKE and len(new[cell]) <= MOST_ALIKE
        for pair in product(old[cell], new[cell])
    }
    return sorted(pairs)


def _by_cell(rows: Sequence[RowMemory], places: Sequence[int]) -> dict[tuple[str, str], list[int]]:
    found: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for place in places:
        for cell in rows[place].cells.items():
            if cell[0] not in NAMES:
                found[cell].append(place)
    return found


def _leads(score: float, rivals: Sequence[float]) -> bool:
    """Return whether a score is the best of all and the next best well below."""
    best = sorted(rivals, reverse=True)[:2]
    return score == best[0] and (len(best) == 1 or score - best[1] >= CLEAR_LEAD)


def _share(one: RowMemory, other: RowMemory) -> str:
    return f"{100 * agreement(one, other, NAMES):.0f} %"
