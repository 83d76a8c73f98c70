"""What an earlier run and its reviewers left in a checked workbook, read back."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Package
from thermowell_index.revisions.lapse import former_decision
from thermowell_index.revisions.previous import (
    CLEARED,
    DISPOSITIONS,
    OPEN,
    BasisSignOff,
    HandValue,
    PreviousRun,
    RegisterEntry,
    has_remarks,
)
from thermowell_index.writer.hand_edits import hand_edits
from thermowell_index.writer.marks import own_sheets, state_of
from thermowell_index.writer.remark_sheets import (
    BASIS_SIGN_OFF_HEADINGS,
    BASIS_SIGN_OFF_MUST_HAVE,
    DISCREPANCIES_HEADINGS,
    HAND_VALUE_HEADINGS,
    REGISTER_HEADINGS,
    sample_name,
)
from thermowell_index.writer.sheet_table import SheetLine, lines_of_table
from thermowell_index.writer.state import State
from thermowell_index.writer.touch_readings import TOUCH_SHEET, read_touch_readings

__all__ = ["CLEARED", "DISPOSITIONS", "read_previous"]

DISCREPANCIES_SHEET = "discrepancies"
REGISTER_SHEET = "register"
SAMPLE_SHEET = "qa_sample"
BASIS_SHEET = "design_basis"
FINDING_PREFIX = "F-"

_MUST_HAVE = ("finding", "rule", "disposition")
_MOST_OCCURRENCES = 50
_OURS = tuple(name.casefold() for name in DISCREPANCIES_HEADINGS)
_MOST_NAMED = 8


@dataclass(kw_only=True)
class _Remarks:
    """What stands on the sheets of remarks."""

    findings: dict[str, Finding] = field(default_factory=dict)
    own_lines: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)


def read_previous(package: Package, *, is_input: bool = False) -> PreviousRun | None:
    """Return what a checked workbook says of its run, None for any other workbook.

    Sheets are known by their hidden marks and columns by their headings, wherever a person moved them. A workbook that
    has no marks but a sheet with the headings of Discrepancies, copied there, gives its remarks all the same. What was
    typed over our cells is kept as lines of the reviewers' own; `is_input` says that the workbook is itself the index.

    Raises
    ------
    WorkbookError
        A sheet is damaged.

    """
    sheets = own_sheets(package)
    state = state_of(package)
    name = sheets.get(DISCREPANCIES_SHEET) or (None if sheets else _copied_sheet(package))
    if name is None and state is None:
        return None
    said = _said_of_state(package, state, name)
    known = state or State()
    remarks = _remarks(package, name, known)
    edits = hand_edits(package, known, is_input=is_input)
    own_lines = dict.fromkeys((*known.own_lines, *remarks.own_lines, *edits.lines))
    return PreviousRun(
        findings=remarks.findings,
        content_fingerprint=known.content_fingerprint,
        name=package.path.name,
        rows=known.rows,
        runs=known.runs,
        basis_entries=known.basis_entries,
        comparison=known.comparison,
        basis_sign_off=_basis_sign_off(package, sheets.get(BASIS_SHEET), known.basis_sign_off),
        hand_values=_hand_values(package, sheets.get(SAMPLE_SHEET), known.hand_values),
        register=_register(package, sheets.get(REGISTER_SHEET), known.register),
        touch_readings=read_touch_readings(package, sheets.get(TOUCH_SHEET)),
        own_lines=list(own_lines),
        sample_seed=known.sample_seed,
        said_then=known.said,
        input_notes=known.input_notes,
        compared_with=known.compared_with,
        said=[*said, *remarks.said, *edits.said],
    )


def _copied_sheet(package: Package) -> str | None:
    """Return the first sheet that has the headings of Discrepancies."""
    for sheet in package.sheets:
        if sheet.kind == "worksheet" and lines_of_table(package, package.read(sheet.name), _MUST_HAVE, _OURS):
            return sheet.name
    return None


def _said_of_state(package: Package, state: State | None, sheet: str | None) -> list[str]:
    name = package.path.name
    if state is None:
        return [
            (
                f"{name}: sheet {sheet} was known by its headings alone; what the run remembered of the index is not "
                "there, so a sign-off stands where its finding reads the same"
            )
        ]
    if sheet is None:
        return [f"{name}: the sheet of findings is gone; remarks are those of the last run"]
    if state.damaged:
        return [f"{name}: {state.damaged} records of the hidden sheet are damaged and were passed over"]
    return []


def _remarks(package: Package, sheet: str | None, state: State) -> _Remarks:
    """Return the findings with what stands on Discrepancies; those whose line is gone as the last run left them."""
    found = _Remarks()
    lines = None if sheet is None else lines_of_table(package, package.read(sheet), _MUST_HAVE, _OURS)
    if sheet is not None and lines is None:
        found.said.append(
            f"{package.path.name}: sheet {sheet} has lost its headings; remarks are those of the last run"
        )
    for line in lines or ():
        identifier = line.shown.get("finding", "")
        if not identifier.startswith(FINDING_PREFIX):
            _keep_own_line(line, found)
            continue
        finding = _with_line(state.findings.get(identifier) or _guessed(identifier, line.shown), line)
        before = found.findings.get(identifier)
        found.findings[identifier] = finding if before is None else _both(before, finding)
    missing = [identifier for identifier in state.findings if identifier not in found.findings]
    if missing and lines is not None:
        found.said.append(
            f"{package.path.name}: {len(missing)} finding{'' if len(missing) == 1 else 's'} taken out of {sheet} by "
            f"hand ({_some(missing)}); the remarks are those of the last run"
        )
    found.findings.update({identifier: state.findings[identifier] for identifier in missing})
    return found


def _some(words: Sequence[str]) -> str:
    more = len(words) - _MOST_NAMED
    return ", ".join(words[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def _keep_own_line(line: SheetLine, found: _Remarks) -> None:
    """Keep a line that a reviewer added, unless it is one of ours that speaks of nothing."""
    parts = [f"{name}: {text}" for name, text in (*line.shown.items(), *line.others) if text]
    if len(parts) > 1 or any(line.shown.get(name) for name in ("comment", "tag", "reviewer")):
        found.own_lines.append("; ".join(parts))


def _both(one: Finding, other: Finding) -> Finding:
    """Return a finding that stands on two lines with the remarks of both."""
    if not has_remarks(other) or other == one:
        return one
    if not has_remarks(one):
        return other
    return replace(one, former_decision=former_decision(other, "on a second line", "", one))


def _with_line(finding: Finding, line: SheetLine) -> Finding:
    shown = line.shown
    return replace(
        finding,
        expected=finding.expected or shown.get("expected", ""),
        explanation=shown.get("explanation", ""),
        action=shown.get("action", ""),
        disposition=disposition_of(shown.get("disposition", "")),
        reviewer=shown.get("reviewer", ""),
        reviewed_on=shown.get("reviewed on", ""),
        comment=shown.get("comment", ""),
        former_decision=shown.get("former decision", "") or finding.former_decision,
        own_columns=tuple(line.others),
    )


def disposition_of(text: str) -> str:
    """Return a disposition in our spelling; a word of a person's own stays as it is."""
    plain = " ".join(text.split())
    return plain.casefold() if plain.casefold() in DISPOSITIONS else plain or OPEN


def _guessed(identifier: str, shown: Mapping[str, str]) -> Finding:
    """Return a finding from what Discrepancies shows, for a workbook without the hidden sheet.

    The occurrence is the one that gives the identity back; a well tag cannot be had from the sheet.
    """
    tag, row, severity = shown.get("tag", ""), shown.get("row", ""), shown.get("severity", "").casefold()
    is_folded = not shown.get("cell", "") and not row
    guess = Finding(
        severity=Severity(severity) if severity in set(Severity) else Severity.NOTE,
        rule=shown.get("rule", "").replace(" ", "_"),
        tag="" if is_folded else tag,
        well_tag="",
        sheet=shown.get("sheet", ""),
        row=int(row) if row.isdecimal() else None,
        cell=shown.get("cell", ""),
        field=shown.get("field", "").replace(" ", "_"),
        found=shown.get("found", ""),
        expected="",
        explanation="",
        action="",
        tags=(tag,) if tag else (),
        row_ids=(),
        withholds=False,
        folded=is_folded,
        change=shown.get("change", "") or OPEN,
    )
    for occurrence in range(_MOST_OCCURRENCES):
        candidate = replace(guess, occurrence=occurrence)
        if candidate.id == identifier:
            return candidate
    return guess


def _register(package: Package, sheet: str | None, known: Sequence[RegisterEntry]) -> list[RegisterEntry]:
    """Return the register with what a person wrote on its sheet since."""
    lines = {line.shown.get("entry", ""): line for line in _table(package, sheet, REGISTER_HEADINGS, ("entry", "rule"))}
    found = []
    for number, entry in enumerate(known, start=1):
        line = lines.get(f"R-{number}")
        if line is None:
            found.append(entry)
            continue
        finding = replace(
            entry.finding,
            disposition=disposition_of(line.shown.get("disposition", "")),
            reviewer=line.shown.get("reviewer", ""),
            reviewed_on=line.shown.get("reviewed on", ""),
            comment=line.shown.get("comment", ""),
        )
        found.append(replace(entry, finding=finding, carry_to=line.shown.get("carry over to", "")))
    return found


def _basis_sign_off(package: Package, sheet: str | None, known: BasisSignOff | None) -> BasisSignOff | None:
    for line in _table(package, sheet, BASIS_SIGN_OFF_HEADINGS, BASIS_SIGN_OFF_MUST_HAVE):
        shown = line.shown
        return BasisSignOff(
            fingerprint=shown.get("fingerprint", ""),
            disposition=disposition_of(shown.get("disposition", "")),
            reviewer=shown.get("reviewer", ""),
            reviewed_on=shown.get("reviewed on", ""),
            comment=shown.get("comment", ""),
            former_decision=shown.get("former decision", "") or (known.former_decision if known else ""),
        )
    return known


def _hand_values(package: Package, sheet: str | None, known: Sequence[HandValue]) -> list[HandValue]:
    lines = {line.shown.get("sample", ""): line for line in _table(package, sheet, HAND_VALUE_HEADINGS, ("sample",))}
    found = []
    for value in known:
        line = lines.get(sample_name(value))
        if line is None:
            found.append(value)
            continue
        shown = line.shown
        found.append(
            replace(
                value,
                value=shown.get("length by hand", ""),
                checked_by=shown.get("checked by", ""),
                checked_on=shown.get("checked on", ""),
                comment=shown.get("comment", ""),
            )
        )
    return found


def _table(package: Package, sheet: str | None, headings: Iterable[str], must_have: Sequence[str]) -> list[SheetLine]:
    if sheet is None:
        return []
    ours = [heading.casefold() for heading in headings]
    return list(lines_of_table(package, package.read(sheet), must_have, ours) or ())
