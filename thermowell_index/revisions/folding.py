"""One fault in another voice: told row by row in one issue and once for many rows in the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from thermowell_index.findings import Finding
from thermowell_index.revisions.lapse import input_changes
from thermowell_index.revisions.matching import RowMatch
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import CLEARED, is_decided

Subject = tuple[str, str, int]


@dataclass(frozen=True)
class Voices:
    """Which finding speaks of a fault of a row, by its place: of the earlier issue's rows there, of this one's here."""

    singles_before: Mapping[Subject, Finding]
    folds_before: Mapping[Subject, Finding]
    folds_now: Mapping[Subject, Finding]
    match: RowMatch

    def earlier_fold_of(self, finding: Finding) -> Finding | None:
        """Return the earlier finding on many rows that spoke of the row of a single one."""
        old = None if finding.folded or not finding.row_ids else self.match.pairs.get(finding.row_ids[0])
        return None if old is None else self.folds_before.get((finding.rule, finding.field, old))

    def share_told_before(self, finding: Finding) -> float:
        """Return of how many of its rows a finding on many says what was said of them singly before, as a share."""
        places = [self.match.pairs.get(place, -1) for place in finding.row_ids] if finding.folded else []
        told = [place for place in places if (finding.rule, finding.field, place) in self.singles_before]
        return len(told) / len(places) if places else 0.0

    def fold_with(self, before: Finding) -> Finding | None:
        """Return this issue's finding on many rows that tells an earlier single one's fault too."""
        new = None if before.folded or not before.row_ids else self.match.now_of.get(before.row_ids[0])
        return None if new is None else self.folds_now.get((before.rule, before.field, new))


def voices_of(findings: Sequence[Finding], before: Sequence[Finding], match: RowMatch) -> Voices:
    """Return which findings of two issues speak of which faults."""
    standing = [finding for finding in before if finding.change != CLEARED]
    return Voices(
        singles_before=_by_subject([finding for finding in standing if not finding.folded]),
        folds_before=_by_subject([finding for finding in standing if finding.folded]),
        folds_now=_by_subject([finding for finding in findings if finding.folded]),
        match=match,
    )


def _by_subject(findings: Sequence[Finding]) -> dict[Subject, Finding]:
    return {(finding.rule, finding.field, place): finding for finding in findings for place in finding.row_ids}


def why_the_row_lapsed(
    finding: Finding, fold: Finding, before: Sequence[RowMemory], now: Sequence[RowMemory], match: RowMatch
) -> str:
    """Return why a decision on many rows no longer holds for one of them; empty where it does."""
    if not is_decided(fold.disposition):
        return ""
    place = finding.row_ids[0]
    return "; ".join(input_changes(before, now, match.pairs[place], place))
