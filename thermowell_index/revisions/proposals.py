"""Tags that may have been renamed, split or merged: proposed with the reason, never assumed."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from thermowell_index.revisions.matching import RowMatch, agreement
from thermowell_index.revisions.memory import RowMemory

LEAST_AGREEMENT = 0.75
LEAST_CELLS = 4
CLEAR_LEAD = 0.1
MOST_COMPARISONS = 250_000
NAMES = ("tag", "well_tag")


@dataclass(frozen=True, kw_only=True)
class Proposal:
    """What rows that are gone may have become; `before` and `now` are places in the two lists of rows."""

    kind: str
    before: tuple[int, ...]
    now: tuple[int, ...]
    why: str


def propose(before: Sequence[RowMemory], now: Sequence[RowMemory], match: RowMatch) -> list[Proposal]:
    """Return the proposals: rows of one loop number first, then rows whose cells agree and no other row's do as well."""
    found = _by_loop(before, now, match)
    used_before = {place for proposal in found for place in proposal.before}
    used_now = {place for proposal in found for place in proposal.now}
    gone = [place for place in match.gone if place not in used_before]
    added = [place for place in match.added if place not in used_now]
    if len(gone) * len(added) <= MOST_COMPARISONS:
        found += _by_cells(before, now, gone, added)
    return found


def _by_loop(before: Sequence[RowMemory], now: Sequence[RowMemory], match: RowMatch) -> list[Proposal]:
    gone: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    added: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for places, rows, groups in ((match.gone, before, gone), (match.added, now, added)):
        for place in places:
            if rows[place].letters:
                groups[rows[place].letters, rows[place].loop].append(place)
    found = []
    for key in gone.keys() & added.keys():
        kind = _kind(len(gone[key]), len(added[key]))
        if kind:
            why = "the same function letters and loop number"
            if kind == "renamed":
                why += f"; {_share(before[gone[key][0]], now[added[key][0]])} of the cells agree"
            found.append(Proposal(kind=kind, before=tuple(gone[key]), now=tuple(added[key]), why=why))
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
        for old in gone
        for new in added
        if len((before[old].cells.keys() & now[new].cells.keys()) - set(NAMES)) >= LEAST_CELLS
    }
    found = []
    for (old, new), score in scores.items():
        rivals = [other for pair, other in scores.items() if pair != (old, new) and (pair[0] == old or pair[1] == new)]
        if score >= LEAST_AGREEMENT and score - max(rivals, default=0.0) >= CLEAR_LEAD:
            why = f"{_share(before[old], now[new])} of the cells agree, and no other row's do as well"
            found.append(Proposal(kind="renamed", before=(old,), now=(new,), why=why))
    return found


def _share(one: RowMemory, other: RowMemory) -> str:
    return f"{100 * agreement(one, other, NAMES):.0f} %"
