"""What reviewers said in an earlier run, carried over to this one: kept, lapsed, or laid down in the register."""

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from thermowell_index.findings import Finding, one_tag
from thermowell_index.revisions.folding import Voices, voices_of, why_the_row_lapsed
from thermowell_index.revisions.lapse import former_decision, why_lapsed
from thermowell_index.revisions.matching import RowMatch
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import (
    CLEARED,
    LAPSED,
    BasisSignOff,
    HandValue,
    PreviousRun,
    RegisterEntry,
    has_remarks,
)
from thermowell_index.revisions.proposals import Proposal
from thermowell_index.revisions.run_register import joined
from thermowell_index.revisions.wording import same_wording

NEW, STILL_OPEN, CHANGED = "new", "open", "changed"
_LIST = re.compile(r"[,;\n]+")


@dataclass(frozen=True, kw_only=True)
class ThisRun:
    """What this run is: its rows, how they match the earlier ones, and whether the index is the very same."""

    rows: Sequence[RowMemory]
    match: RowMatch
    proposals: Sequence[Proposal] = ()
    date: str = ""
    is_same: bool = False


@dataclass(kw_only=True)
class Carried:
    """The findings with their remarks, the register, the findings whose sign-off lapsed, and what has to be said."""

    findings: list[Finding] = field(default_factory=list)
    register: list[RegisterEntry] = field(default_factory=list)
    lapsed: list[Finding] = field(default_factory=list)
    said: list[str] = field(default_factory=list)


def carry_over(findings: Sequence[Finding], previous: PreviousRun, now: ThisRun) -> Carried:
    """Return the findings with what the earlier run says of them, and those that are gone since."""
    partners = _partners(findings, previous, now)
    paired = {before.id for before in partners.values()}
    taken = set(previous.findings) | {entry.finding.id for entry in previous.register}
    voices = voices_of(findings, list(previous.findings.values()), now.match)
    carried = Carried()
    for place, finding in enumerate(findings):
        before = partners.get(place)
        if before is not None and _has_same_subject(finding, before):
            named = replace(finding, occurrence=before.occurrence)
        else:
            named = _with_free_id(finding, taken)
        taken.add(named.id)
        if before is None:
            carried.findings.append(_in_another_voice(named, voices, previous, now, carried))
        else:
            carried.findings.append(_judged(named, before, previous, now, carried))
    _take_from_register(carried, previous, now)
    told_singly = (voices.earlier_fold_of(finding) for place, finding in enumerate(findings) if place not in partners)
    # The rows of an unfolded finding have findings of their own now, with what was decided of all.
    settled = paired | {fold.id for fold in told_singly if fold is not None}
    for before in previous.findings.values():
        if before.id not in settled:
            _lay_down(before, previous, now, voices, carried)
    return carried


def _has_same_subject(finding: Finding, before: Finding) -> bool:
    return replace(finding, occurrence=0).id == replace(before, occurrence=0).id


def _with_free_id(finding: Finding, taken: Iterable[str]) -> Finding:
    """Return a finding that is new with a number that no earlier finding of its kind bears."""
    used, numbered = set(taken), replace(finding, occurrence=0)
    while numbered.id in used:
        numbered = replace(numbered, occurrence=numbered.occurrence + 1)
    return numbered


def _partners(findings: Sequence[Finding], previous: PreviousRun, now: ThisRun) -> dict[int, Finding]:
    """Return the earlier finding that each of this run's continues, by its place in the list."""
    by_subject: defaultdict[tuple[object, ...], list[Finding]] = defaultdict(list)
    for before in previous.findings.values():
        by_subject[_subject_before(before)].append(before)
    takers: defaultdict[tuple[object, ...], list[int]] = defaultdict(list)
    for place, finding in enumerate(findings):
        takers[_subject_now(finding, previous, now)].append(place)
    found: dict[int, Finding] = {}
    for subject, places in takers.items():
        found.update(_paired(findings, places, by_subject.get(subject, [])))
    used = {before.id for before in found.values()}
    for place, finding in enumerate(findings):
        by_name = previous.findings.get(finding.id)
        if place not in found and by_name is not None and by_name.id not in used and _is_adrift(by_name):
            found[place] = by_name
    return found


def _is_adrift(before: Finding) -> bool:
    """Return whether an earlier finding is known by its name alone, not by a row that was remembered."""
    return not before.row_ids


def _subject_before(before: Finding) -> tuple[object, ...]:
    if before.folded:
        return before.rule, before.field, before.sheet
    return before.rule, before.field, before.row_ids[0] if before.row_ids else None


def _subject_now(finding: Finding, previous: PreviousRun, now: ThisRun) -> tuple[object, ...]:
    if finding.folded:
        return finding.rule, finding.field, now.match.sheets.get(finding.sheet, finding.sheet)
    place = now.match.pairs.get(finding.row_ids[0]) if previous.rows and finding.row_ids else None
    return finding.rule, finding.field, -1 if place is None else place


def _paired(findings: Sequence[Finding], places: Sequence[int], candidates: Sequence[Finding]) -> dict[int, Finding]:
    """Return pairs of findings of one row, rule and field: those that read the same first."""
    left = list(candidates)
    found: dict[int, Finding] = {}
    for is_near in (_reads_the_same, _is_as_loud, _is_any):
        for place in places:
            match = next((before for before in left if place not in found and is_near(findings[place], before)), None)
            if match is not None:
                found[place] = match
                left.remove(match)
    return found


def _reads_the_same(finding: Finding, before: Finding) -> bool:
    return finding.severity is before.severity and same_wording(finding.found, before.found)


def _is_as_loud(finding: Finding, before: Finding) -> bool:
    return finding.severity is before.severity


def _is_any(_finding: Finding, _before: Finding) -> bool:
    return True


def _in_another_voice(
    finding: Finding, voices: Voices, previous: PreviousRun, now: ThisRun, carried: Carried
) -> Finding:
    """Return a finding that no earlier one is like: new, unless its fault was told of these rows in another voice."""
    fold = voices.earlier_fold_of(finding)
    if fold is None:
        told = voices.share_told_before(finding)
        return replace(finding, change=NEW if not told else STILL_OPEN if told == 1.0 else CHANGED)
    why = why_the_row_lapsed(finding, fold, previous.rows, now.rows, now.match)
    return _kept_or_lapsed(replace(finding, change=STILL_OPEN), fold, why, now, carried)


def _judged(finding: Finding, before: Finding, previous: PreviousRun, now: ThisRun, carried: Carried) -> Finding:
    change = _change(finding, before, is_same=now.is_same)
    return _with_decision(replace(finding, change=change), before, previous, now, carried)


def _change(finding: Finding, before: Finding, *, is_same: bool) -> str:
    if before.change == CLEARED:
        return NEW
    if is_same:
        return before.change
    return STILL_OPEN if same_wording(finding.found, before.found) else CHANGED


def _with_decision(finding: Finding, before: Finding, previous: PreviousRun, now: ThisRun, carried: Carried) -> Finding:
    """Return a finding with the remarks on an earlier one; the decision lapses when it was made on other inputs."""
    why = why_lapsed(finding, before, previous, now.rows, now.match)
    return _kept_or_lapsed(finding, before, why, now, carried)


def _kept_or_lapsed(finding: Finding, before: Finding, why: str, now: ThisRun, carried: Carried) -> Finding:
    kept = with_remarks(finding, before)
    if not why:
        return kept
    former = former_decision(before, why, now.date)
    lapsed = replace(kept, disposition=LAPSED, former_decision=former)
    carried.lapsed.append(lapsed)
    return lapsed


def with_remarks(finding: Finding, before: Finding) -> Finding:
    """Return a finding with the remarks that a reviewer made on another."""
    return replace(
        finding,
        disposition=before.disposition,
        reviewer=before.reviewer,
        reviewed_on=before.reviewed_on,
        comment=before.comment,
        former_decision=before.former_decision,
        own_columns=before.own_columns,
    )


def _lay_down(before: Finding, previous: PreviousRun, now: ThisRun, voices: Voices, carried: Carried) -> None:
    """Put an earlier finding that this run does not make where it belongs: cleared, or into the register."""
    fold = voices.fold_with(before)
    if fold is not None:
        if has_remarks(before):
            carried.register.append(_for_the_register(before, previous, f"one of {len(fold.tags)} rows told together"))
        return
    place = _row_now(before, previous, now)
    is_there = _sheet_is_there(before, now) if before.folded else place is not None
    is_fresh = before.change != CLEARED or now.is_same
    if not is_there and has_remarks(before):
        carried.register.append(_for_the_register(before, previous, _may_be(before, now)))
    elif has_remarks(before) or is_fresh:
        row_ids = (place,) if place is not None and not before.folded else ()
        carried.findings.append(replace(before, change=CLEARED, row_ids=row_ids))


def _for_the_register(before: Finding, previous: PreviousRun, may_be: str) -> RegisterEntry:
    cleared = replace(before, change=CLEARED, row_ids=())
    return RegisterEntry(finding=_without_own_columns(cleared), last_seen=previous.issue, may_be=may_be)


def _without_own_columns(finding: Finding) -> Finding:
    """Return a finding for the register, which has no columns of a reviewer's own: they stand in its comment."""
    said = [finding.comment, *(f"{heading}: {text}" for heading, text in finding.own_columns if text)]
    return replace(finding, comment="; ".join(text for text in said if text), own_columns=())


def _row_now(before: Finding, previous: PreviousRun, now: ThisRun) -> int | None:
    """Return the place of the row that an earlier finding spoke of, None when it is gone."""
    if before.row_ids and previous.rows:
        return now.match.now_of.get(before.row_ids[0])
    tag = one_tag(before.tag)
    return next((place for place, row in enumerate(now.rows) if tag and one_tag(row.tag) == tag), None)


def _sheet_is_there(before: Finding, now: ThisRun) -> bool:
    return before.sheet in {*now.match.sheets.values(), *(row.sheet for row in now.rows)}


def _may_be(before: Finding, now: ThisRun) -> str:
    """Return the tags that the row of an earlier finding is proposed to have become."""
    tags = [
        now.rows[new].tag
        for proposal in now.proposals
        if before.row_ids and before.row_ids[0] in proposal.before
        for new in proposal.now
    ]
    return ", ".join(dict.fromkeys(tags))


def _take_from_register(carried: Carried, previous: PreviousRun, now: ThisRun) -> None:
    """Give the remarks in the register to findings whose row is back, or to the tags that a person named."""
    for entry in previous.register:
        tags = [tag for tag in _LIST.split(entry.carry_to) if tag.strip()] or [entry.finding.tag]
        missing = [tag for tag in tags if not _give(entry, one_tag(tag), carried, previous, now)]
        if missing:
            carried.register.append(replace(entry, carry_to=", ".join(missing) if entry.carry_to else ""))
        if missing and entry.carry_to:
            carried.said.append(
                f"{entry.finding.id}: the remarks on {entry.finding.tag} stay in the register, because "
                f"{', '.join(missing)} has no finding of the same rule without remarks"
            )


def _give(entry: RegisterEntry, tag: str, carried: Carried, previous: PreviousRun, now: ThisRun) -> bool:
    for place, finding in enumerate(carried.findings):
        if _takes(finding, entry.finding, tag):
            carried.findings[place] = _with_decision(finding, entry.finding, previous, now, carried)
            return True
    return False


def _takes(finding: Finding, before: Finding, tag: str) -> bool:
    if has_remarks(finding) or finding.change == CLEARED or finding.folded is not before.folded:
        return False
    subject = finding.sheet == before.sheet if finding.folded else one_tag(finding.tag) == tag
    return subject and (finding.rule, finding.field) == (before.rule, before.field)


def overlay(older: PreviousRun, newer: PreviousRun) -> PreviousRun:
    """Return two earlier runs as one: the newer says what was found, and no remark of the older is lost."""
    return with_remarks_of(newer, older, other_is_newer=False)


def with_remarks_of(base: PreviousRun, other: PreviousRun, *, other_is_newer: bool) -> PreviousRun:
    """Return an earlier run with the remarks of another laid over it.

    `base` says what was found. Where both have remarks on one finding, the newer's stand and the older's are kept as a
    former decision.
    """
    findings = dict(base.findings)
    for identifier, said in other.findings.items():
        if has_remarks(said):
            mine = findings.get(identifier)
            findings[identifier] = (
                replace(said, change=CLEARED, row_ids=())
                if mine is None
                else _merged(mine, said, other, other_is_newer=other_is_newer)
            )
        elif identifier not in findings and not other_is_newer:
            findings[identifier] = replace(said, row_ids=())
    return replace(
        base,
        findings=findings,
        other_runs=joined(base.other_runs, [line for line in other.runs if line not in base.runs]),
        register=list(_each_once((*base.register, *other.register))),
        hand_values=_hand_values(base, other, other_is_newer=other_is_newer),
        basis_sign_off=_basis_sign_off(base, other, other_is_newer=other_is_newer),
        touch_readings=list(dict.fromkeys((*base.touch_readings, *other.touch_readings))),
        own_lines=list(dict.fromkeys((*base.own_lines, *other.own_lines))),
        said=list(dict.fromkeys((*base.said, *other.said))),
    )


def _merged(mine: Finding, said: Finding, other: PreviousRun, *, other_is_newer: bool) -> Finding:
    if not has_remarks(mine):
        return replace(with_remarks(mine, said), inputs_fingerprint=said.inputs_fingerprint)
    if _remarks_of(mine) == _remarks_of(said):
        return mine
    winner, loser, when = (
        (said, mine, "before") if other_is_newer else (mine, said, f"in {other.name or 'another file'}")
    )
    result = replace(with_remarks(mine, winner), inputs_fingerprint=winner.inputs_fingerprint)
    return replace(result, former_decision=former_decision(loser, when, "", winner))


def _remarks_of(finding: Finding) -> tuple[object, ...]:
    return finding.disposition, finding.reviewer, finding.reviewed_on, finding.comment, finding.own_columns


def _each_once(entries: Iterable[RegisterEntry]) -> Iterator[RegisterEntry]:
    seen: set[tuple[object, ...]] = set()
    for entry in entries:
        key = (entry.finding.id, _remarks_of(entry.finding))
        if key not in seen:
            seen.add(key)
            yield entry


def _hand_values(base: PreviousRun, other: PreviousRun, *, other_is_newer: bool) -> list[HandValue]:
    """Return the hand values of two runs, one a row; where both have one the newer counts."""
    found: dict[tuple[str, str, str], HandValue] = {}
    for run in (base, other) if other_is_newer else (other, base):
        for entry in run.hand_values:
            if entry.is_filled:
                found[entry.key, entry.well_key, entry.inputs] = entry
    return list(found.values())


def _basis_sign_off(base: PreviousRun, other: PreviousRun, *, other_is_newer: bool) -> BasisSignOff | None:
    first, second = (other, base) if other_is_newer else (base, other)
    for sign_off in (first.basis_sign_off, second.basis_sign_off):
        if sign_off is not None and sign_off.is_filled:
            return sign_off
    return first.basis_sign_off or second.basis_sign_off
