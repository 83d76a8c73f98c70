"""When a sign-off lapses, and how that is said."""

from collections.abc import Iterator, Mapping, Sequence

from thermowell_index.findings import Finding
from thermowell_index.revisions.matching import RowMatch
from thermowell_index.revisions.memory import NAMES_ONLY, RowMemory
from thermowell_index.revisions.previous import BasisSignOff, PreviousRun, decision_in_words, is_decided
from thermowell_index.revisions.wording import detail, same_wording

MOST_NAMED = 6


def why_lapsed(
    finding: Finding, before: Finding, previous: PreviousRun, rows: Sequence[RowMemory], match: RowMatch
) -> str:
    """Return why the decision on an earlier finding no longer holds, empty where it does."""
    if not is_decided(before.disposition):
        return ""
    if finding.folded:
        return _why_folded(finding, before, previous, rows, match)
    if not (finding.inputs_fingerprint and before.inputs_fingerprint):
        return "" if same_wording(finding.found, before.found) else "what was found reads differently"
    if finding.inputs_fingerprint == before.inputs_fingerprint:
        return ""
    return _what_changed(finding, before, previous, rows, match)


def former_decision(before: Finding, why: str, date: str, successor: Finding | None = None) -> str:
    """Return the former decisions with one more: who decided what and when, and why it lapsed."""
    earlier = (successor or before).former_decision
    line = f"{decision_in_words(before)}; lapsed {date}: {why}" if date else f"{decision_in_words(before)} {why}"
    if not date and before.comment:
        line += f": {before.comment}"
    if line in earlier or (not date and decision_in_words(before) in earlier):
        return earlier
    return f"{earlier}\n{line}" if earlier else line


def former_basis_decision(before: BasisSignOff, date: str) -> str:
    """Return the former sign-offs of the design basis with one more, which lapsed because the basis is another."""
    line = f"{decision_in_words(before)}; lapsed {date}: the design basis is another one"
    return f"{before.former_decision}\n{line}" if before.former_decision else line


def _why_folded(
    finding: Finding, before: Finding, previous: PreviousRun, rows: Sequence[RowMemory], match: RowMatch
) -> str:
    """Return why a decision on many rows no longer holds: it speaks of the rows that it was made on, and of no more."""
    if not same_wording(detail(finding.found), detail(before.found)):
        return "what was found reads differently"
    if not previous.rows:
        return ""
    known = set(before.row_ids)
    joined = [rows[place].tag for place in finding.row_ids if match.pairs.get(place) not in known]
    return f"it speaks of more rows: {_some(joined)}" if joined else ""


def _some(words: Sequence[str], between: str = ", ") -> str:
    more = len(words) - MOST_NAMED
    return between.join(words[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def _what_changed(
    finding: Finding, before: Finding, previous: PreviousRun, rows: Sequence[RowMemory], match: RowMatch
) -> str:
    place = finding.row_ids[0]
    old = match.pairs.get(place)
    changes = list(input_changes(previous.rows, rows, old, place)) if old is not None else []
    if changes:
        return _some(changes, "; ")
    inputs_are_same = finding.inputs_fingerprint.partition("-")[0] == before.inputs_fingerprint.partition("-")[0]
    return "the length moved, though no cell of the row changed" if inputs_are_same else "an input of the row changed"


def input_changes(before: Sequence[RowMemory], now: Sequence[RowMemory], old: int, new: int) -> Iterator[str]:
    """Yield which inputs of a row differ, its own cells first, then those of its well's row."""
    yield from changed_cells(before[old].cells, now[new].cells)
    old_well, new_well = before[old].well_row, now[new].well_row
    if old_well >= 0 and new_well >= 0:
        for change in changed_cells(before[old_well].cells, now[new_well].cells):
            yield f"{now[new_well].tag}: {change}"
    elif old_well != new_well:
        yield "well data now stands on another row" if new_well >= 0 else "well data of another row is gone"


def changed_cells(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[str]:
    """Yield which cells that a length or a check looks at differ."""
    for name in dict.fromkeys((*before, *now)):
        was, now_is = before.get(name, ""), now.get(name, "")
        if name not in NAMES_ONLY and was != now_is:
            yield f"{name.replace('_', ' ')} was {was or 'blank'}, is {now_is or 'blank'}"
