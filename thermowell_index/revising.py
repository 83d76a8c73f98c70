"""A run set against the run before: earlier answers read, rows matched, remarks carried, the story told."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from pathlib import Path

import numpy as np

from thermowell_index.basis import Basis
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.errors import WorkbookError
from thermowell_index.findings import Finding, Verdict, one_tag
from thermowell_index.ooxml import Package
from thermowell_index.registry import RULES
from thermowell_index.revisions.carry import Carried, ThisRun, carry_over, with_remarks_of
from thermowell_index.revisions.compare import Differences, compare
from thermowell_index.revisions.comparison import Comparison
from thermowell_index.revisions.history import History
from thermowell_index.revisions.lapse import former_basis_decision
from thermowell_index.revisions.matching import RowMatch, match_rows
from thermowell_index.revisions.memory import RowMemory, remember
from thermowell_index.revisions.previous import LAPSED, BasisSignOff, PreviousRun, is_decided
from thermowell_index.revisions.proposals import propose
from thermowell_index.revisions.run_register import RunLine, appended, counts_of, joined
from thermowell_index.revisions.sample import draw
from thermowell_index.revisions.slides import Limits, RowsNow, slid_since
from thermowell_index.table import Frame, IndexTable, whole
from thermowell_index.writer import RunInfo, columns_in_words, read_previous

LOUDEST_RULE = "changed_after_order"


@dataclass(frozen=True, kw_only=True)
class Earlier:
    """What came before: the run to compare with, remarks of all earlier answers laid over it.

    `is_input` says that it is the input itself given back, not a run named beside it; `input_notes` are those of the
    index that an answer given back was made from.
    """

    run: PreviousRun | None = None
    is_input: bool = False
    name: str = ""
    input_notes: Sequence[str] = ()


@dataclass(frozen=True, kw_only=True)
class Revised:
    """The findings with their remarks, the story of the index, and what a run calls itself."""

    findings: Sequence[Finding]
    history: History
    info: RunInfo


def earlier_runs(opened: Package, named: Path | None, at_target: Path | None, *, is_own: bool) -> Earlier:
    """Return the run to compare with: the one that is named, else the input when it is an answer, else the target's.

    Remarks in the others are laid over it, for each of them will be overtaken by this run's answer.

    Raises
    ------
    WorkbookError
        The file that is named holds no earlier run.

    """
    own = read_previous(opened, is_input=True) if is_own else None
    if own is not None:
        own = replace(own, said=[*own.said, *columns_in_words(opened)])
    notes = own.input_notes if own is not None else ()
    target = None if at_target is None else _read(at_target)
    if named is not None:
        run = _read(named, must_be=True)
        if run is not None and not (is_own and _is_same_file(named, opened)):
            for other in (target, own):
                run = with_remarks_of(run, other, other_is_newer=True) if other else run
            return Earlier(run=run, name=named.name, input_notes=notes)
    if own is not None:
        run = with_remarks_of(own, target, other_is_newer=False) if target else own
        return Earlier(run=run, is_input=True, name=opened.path.name, input_notes=notes)
    return Earlier(run=target, name=at_target.name if at_target and target else "")


def _read(path: Path, *, must_be: bool = False) -> PreviousRun | None:
    with Package.open(path) as package:
        run = read_previous(package)
    if run is None and must_be:
        raise WorkbookError(f"{path}: is not a checked workbook of an earlier run")
    return run


def _is_same_file(path: Path, opened: Package) -> bool:
    return path.read_bytes() == opened.data


def enter_earlier(frame: Frame, cells: Sequence[Mapping[str, str]], previous: PreviousRun | None, basis: Basis) -> None:
    """Add to each row what only the run before tells: the length it was ordered with, and what slid from row to row."""
    enter_ordered_lengths(frame, previous)
    enter_slides(frame, cells, previous, basis)


def enter_ordered_lengths(frame: Frame, previous: PreviousRun | None) -> None:
    """Add the length each row was ordered with: as the index states it, else as the run had it when it was ordered."""
    remembered = _ordered_before(previous)
    lengths = frame["ordered_length_mm"].to_numpy(dtype=float, copy=True)
    for place, (tag, well_tag, order) in enumerate(
        zip(frame["tag"], frame["well_tag"], frame["order_number"], strict=True)
    ):
        before = remembered.get((one_tag(str(tag)), one_tag(str(well_tag))))
        if np.isnan(lengths[place]) and before is not None and str(order).strip():
            was_ordered = before.order_number and before.length_when_ordered_mm is not None
            length = before.length_when_ordered_mm if was_ordered else before.order_mm
            lengths[place] = np.nan if length is None else length
    frame["length_when_ordered_mm"] = lengths


SLIDING = ("overall_length", "bore_depth", "measured_bore_depth", "insertion_length", "lagging_length", "probe_length")


def enter_slides(frame: Frame, cells: Sequence[Mapping[str, str]], previous: PreviousRun | None, basis: Basis) -> None:
    """Add what slid from row to row since the previous run, in words; rows are known by tag and well tag."""
    if previous is None or not previous.rows:
        return
    places = _places_before(previous)
    tags = zip(frame["tag"], frame["well_tag"], strict=True)
    now = RowsNow(
        cells=cells,
        tables=[int(table) for table in frame["table_id"]],
        before=[places.get((one_tag(str(tag)), one_tag(str(well))), -1) for tag, well in tags],
    )
    limits = Limits(
        rows=int(basis.number("family.slid_since_rows")), farthest=int(basis.number("family.slid_farthest"))
    )
    labels = {name: FIELD[name].label for name in SLIDING}
    frame["slid_since"] = slid_since(now, previous, labels, limits)


def _ordered_before(previous: PreviousRun | None) -> dict[tuple[str, str], RowMemory]:
    """Return the rows of the previous run by tag and well tag, those that stand once."""
    return {key: previous.rows[place] for key, place in _places_before(previous).items()} if previous else {}


def _places_before(previous: PreviousRun) -> dict[tuple[str, str], int]:
    keys = [(one_tag(row.tag), one_tag(row.well_tag)) for row in previous.rows]
    counts = Counter(keys)
    return {key: place for place, key in enumerate(keys) if counts[key] == 1 and key[0]}


def revise(
    findings: Sequence[Finding],
    earlier: Earlier,
    *,
    table: IndexTable,
    cells: Sequence[Mapping[str, str]],
    info: RunInfo,
    basis: Basis,
    stated_revision: str = "",
) -> Revised:
    """Return the findings with the remarks of earlier runs, and all that the answer says of other issues.

    `stated_revision` is the one that the user gave: an answer given back as another revision is another issue.
    """
    rows = remember(table.frame, cells, FIELDS)
    current = [_with_fingerprint(finding, rows) for finding in findings]
    previous = earlier.run
    is_same = previous is not None and earlier.is_input and _is_same_run(previous, info, stated_revision)
    if previous is None:
        now, carried = ThisRun(rows=rows, match=RowMatch(), date=info.date), Carried(findings=current)
    else:
        match = match_rows(previous.rows, rows) if previous.rows else RowMatch()
        proposals = propose(previous.rows, rows, match)
        now = ThisRun(rows=rows, match=match, proposals=proposals, date=info.date, is_same=is_same)
        carried = carry_over(current, previous, now)
    ordered = sorted(carried.findings, key=lambda finding: finding.rule != LOUDEST_RULE)
    known = _same_info(info, previous) if is_same and previous is not None else info
    entries = basis_entries(basis)
    return Revised(
        findings=ordered,
        info=known,
        history=History(
            rows=rows,
            runs=_runs(previous, _run_line(known, carried, table.frame)),
            basis_entries=entries,
            comparison=_comparison(previous, now, carried, table, info, entries),
            register=carried.register,
            own_lines=previous.own_lines if previous else (),
            basis_sign_off=_basis_sign_off(previous, info),
            sample=draw(
                rows,
                _unflagged(rows, carried.findings),
                (previous.sample_seed if previous else "") or info.content_fingerprint,
                previous.hand_values if previous else (),
            ),
            touch_readings=previous.touch_readings if previous else (),
            compared_with=known.previous_name,
            said_then=previous.said_then if is_same and previous else (),
            said=[*(previous.said if previous else ()), *carried.said],
        ),
    )


def _with_fingerprint(finding: Finding, rows: Sequence[RowMemory]) -> Finding:
    if finding.folded or not finding.row_ids:
        return finding
    return replace(finding, inputs_fingerprint=rows[finding.row_ids[0]].fingerprint)


def _is_same_run(previous: PreviousRun, info: RunInfo, stated_revision: str) -> bool:
    """Return whether the index, the design basis and the program are those of the previous run."""
    if not previous.runs or stated_revision not in {"", previous.runs[-1].revision}:
        return False
    last = previous.runs[-1]
    return (last.content_fingerprint, last.basis_fingerprint, last.program_version) == (
        info.content_fingerprint,
        info.basis_fingerprint,
        info.program_version,
    )


def _same_info(info: RunInfo, previous: PreviousRun) -> RunInfo:
    """Return what the run calls itself when an answer was given back unchanged: by the index it was made from."""
    last = previous.runs[-1]
    return replace(
        info,
        input_name=last.input_name,
        input_sha256=last.input_sha256,
        revision=last.revision,
        previous_name=previous.compared_with,
    )


def _runs(previous: PreviousRun | None, line: RunLine) -> list[RunLine]:
    """Return the register of runs with this one added; no line of an earlier answer is lost."""
    return appended(joined(previous.runs, previous.other_runs) if previous else (), line)


def _run_line(info: RunInfo, carried: Carried, frame: Frame) -> RunLine:
    live = [finding for finding in carried.findings if finding.change != "cleared"]
    return RunLine(
        date=info.date,
        input_name=info.input_name,
        revision=info.revision,
        input_sha256=info.input_sha256,
        program_version=info.program_version,
        basis_name=info.basis_name,
        basis_fingerprint=info.basis_fingerprint,
        content_fingerprint=info.content_fingerprint,
        previous_name=info.previous_name,
        **counts_of(live, [str(verdict) for verdict in frame["verdict"]]),
    )


def _comparison(
    previous: PreviousRun | None,
    now: ThisRun,
    carried: Carried,
    table: IndexTable,
    info: RunInfo,
    entries: Mapping[str, str],
) -> Comparison | None:
    if previous is None:
        return None
    if now.is_same:
        return previous.comparison
    last = previous.runs[-1] if previous.runs else None
    return compare(
        Differences(
            previous=previous,
            now=now,
            cell_of=lambda place, field: _cell(table, place, field),
            label_of=lambda field: FIELD[field].label if field in FIELD else field.replace("_", " "),
            rule_name=lambda rule: RULES[rule].plain_name if rule in RULES else rule.replace("_", " "),
            basis_entries=entries,
            basis_changed=last is not None and last.basis_fingerprint != info.basis_fingerprint,
            version_changed=last is not None and last.program_version != info.program_version,
            lapsed=carried.lapsed,
            after_order=[
                finding for finding in carried.findings if finding.rule == LOUDEST_RULE and finding.change != "cleared"
            ],
        )
    )


def _cell(table: IndexTable, place: int, field: str) -> str:
    """Return the address of a row's own cell, not of a joined one; empty where the issue has no such column."""
    column = table.tables[whole(table.frame, place, "table_id")].columns.get(field)
    return f"{_letters(column.column)}{whole(table.frame, place, 'row')}" if column else ""


def _letters(column: int) -> str:
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def basis_entries(basis: Basis) -> dict[str, str]:
    """Return every entry of a design basis as text: assumptions, profiles, and what is said of checks."""
    entries = {entry.key: str(entry.value) for entry in basis}
    for profile in basis.profiles.values():
        for entry in (entry for entry in fields(profile) if entry.repr):
            entries[f"profile.{profile.name}.{entry.name}"] = str(getattr(profile, entry.name))
    entries |= {f"rules.{name}": str(choice) for name, choice in sorted(basis.rules.items())}
    return entries


def _basis_sign_off(previous: PreviousRun | None, info: RunInfo) -> BasisSignOff:
    before = previous.basis_sign_off if previous else None
    if before is None:
        return BasisSignOff(fingerprint=info.basis_fingerprint)
    if before.fingerprint == info.basis_fingerprint or not is_decided(before.disposition):
        return replace(before, fingerprint=info.basis_fingerprint)
    former = former_basis_decision(before, info.date)
    return replace(before, fingerprint=info.basis_fingerprint, disposition=LAPSED, former_decision=former)


def _unflagged(rows: Sequence[RowMemory], findings: Iterable[Finding]) -> list[int]:
    flagged = {
        row_id
        for finding in findings
        if finding.change != "cleared" and not finding.folded
        for row_id in finding.row_ids
    }
    return [
        place
        for place, row in enumerate(rows)
        if row.is_point and row.verdict == Verdict.SIZED.value and place not in flagged
    ]
