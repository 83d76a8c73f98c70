"""What reviewers wrote on the previous run, carried over to this one by the findings' identity."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Cell, Package, SheetCells
from thermowell_index.writer.marks import own_sheets, state_of
from thermowell_index.writer.state import Identity, State

DISCREPANCIES_SHEET = "discrepancies"
DISPOSITIONS = ("open", "accepted", "to correct", "to survey", "no issue", "lapsed")
CLEARED = "cleared"
FINDING_PREFIX = "F-"

_MUST_HAVE = ("finding", "rule", "disposition")
_MOST_OCCURRENCES = 50


@dataclass(frozen=True, kw_only=True)
class PreviousRun:
    """The findings of an earlier run with their remarks, and the fingerprint of the index it read."""

    findings: Mapping[str, Finding]
    content_fingerprint: str


def read_previous(package: Package) -> PreviousRun | None:
    """Return what a checked workbook says of its run, None for any other workbook.

    The sheet is known by its hidden mark and the columns by their headings, wherever a person moved them.

    Raises
    ------
    WorkbookError
        The sheet is damaged.

    """
    name = own_sheets(package).get(DISCREPANCIES_SHEET)
    if name is None:
        return None
    state = state_of(package) or State()
    findings: dict[str, Finding] = {}
    for identifier, shown in _lines(package, package.read(name)):
        finding = _finding(identifier, shown, state.identities.get(identifier))
        if identifier not in findings or _has_remarks(finding):
            findings[identifier] = finding
    return PreviousRun(findings=findings, content_fingerprint=state.content_fingerprint)


def carry(findings: Sequence[Finding], previous: PreviousRun | None, *, same_content: bool) -> list[Finding]:
    """Return the findings with what the previous run says of them, and those that are gone since, as cleared.

    With the very same index given back (`same_content`) a Change stays what it was.
    """
    if previous is None:
        return list(findings)
    carried = [_carried(finding, previous.findings.get(finding.id), same_content=same_content) for finding in findings]
    present = {finding.id for finding in findings}
    gone = [
        replace(finding, change=CLEARED)
        for identifier, finding in previous.findings.items()
        if identifier not in present
    ]
    return carried + gone


def overlay(older: PreviousRun, newer: PreviousRun) -> PreviousRun:
    """Return two earlier runs as one: the newer says what was found, and no remark of the older is lost."""
    findings = dict(older.findings)
    for identifier, finding in newer.findings.items():
        before = findings.get(identifier)
        takes_remarks = before is not None and not _has_remarks(finding)
        findings[identifier] = _with_remarks(finding, before) if before is not None and takes_remarks else finding
    return PreviousRun(findings=findings, content_fingerprint=newer.content_fingerprint)


def _carried(finding: Finding, before: Finding | None, *, same_content: bool) -> Finding:
    if before is None:
        return replace(finding, change="new")
    return replace(_with_remarks(finding, before), change=_change(finding, before, same_content=same_content))


def _change(finding: Finding, before: Finding, *, same_content: bool) -> str:
    if before.change == CLEARED:
        return "new"
    if same_content:
        return before.change
    return "open" if _plain(finding.found) == _plain(before.found) else "changed"


def _with_remarks(finding: Finding, before: Finding) -> Finding:
    return replace(
        finding,
        disposition=before.disposition,
        reviewer=before.reviewer,
        reviewed_on=before.reviewed_on,
        comment=before.comment,
    )


def _has_remarks(finding: Finding) -> bool:
    return finding.disposition != "open" or bool(finding.reviewer or finding.reviewed_on or finding.comment)


def _plain(text: str) -> str:
    return " ".join(text.split())


def _lines(package: Package, cells: SheetCells) -> Iterator[tuple[str, Mapping[str, str]]]:
    """Yield the identity of each finding with its cells by heading."""
    columns: dict[str, int] = {}
    for number in sorted(cells.rows):
        words = {column: shown_text(cell, package) for column, cell in cells.rows[number].items()}
        if not columns:
            headings = {text.casefold(): column for column, text in sorted(words.items(), reverse=True)}
            columns = headings if all(name in headings for name in _MUST_HAVE) else {}
        elif (identifier := words.get(columns["finding"], "")).startswith(FINDING_PREFIX):
            yield identifier, {name: words.get(column, "") for name, column in columns.items()}


def shown_text(cell: Cell, package: Package) -> str:
    """Return what a person reads in a cell: dates in ISO form, whole numbers without a decimal point."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, float) and not isinstance(value, bool):
        if package.is_date(cell.style):
            return date_of(value, date_1904=package.date_1904).isoformat()
        return str(int(value)) if value.is_integer() else str(value)
    return str(value).strip()


def date_of(serial: float, *, date_1904: bool) -> date:
    """Return the day that a workbook counts as a serial number."""
    return (date(1904, 1, 1) if date_1904 else date(1899, 12, 30)) + timedelta(days=int(serial))


def _finding(identifier: str, shown: Mapping[str, str], identity: Identity | None) -> Finding:
    tag = shown.get("tag", "")
    known = identity or _guessed_identity(identifier, tag, shown)
    row = shown.get("row", "")
    return Finding(
        severity=_severity(shown.get("severity", "")),
        rule=known.rule,
        tag="" if known.is_folded else tag,
        well_tag=known.well_tag,
        sheet=known.subject_sheet,
        row=int(row) if row.isdecimal() else None,
        cell=shown.get("cell", ""),
        field=known.field,
        found=shown.get("found", ""),
        expected=shown.get("expected", ""),
        explanation=shown.get("explanation", ""),
        action=shown.get("action", ""),
        tags=known.tags,
        row_ids=(),
        withholds=False,
        folded=known.is_folded,
        occurrence=known.occurrence,
        change=shown.get("change", "") or "open",
        disposition=shown.get("disposition", "") or "open",
        reviewer=shown.get("reviewer", ""),
        reviewed_on=shown.get("reviewed on", ""),
        comment=shown.get("comment", ""),
    )


def _severity(text: str) -> Severity:
    return Severity(text) if text in set(Severity) else Severity.NOTE


def _guessed_identity(identifier: str, tag: str, shown: Mapping[str, str]) -> Identity:
    """Return an identity from what Discrepancies shows, for a workbook whose hidden sheet was removed.

    The occurrence is the one that gives the identity back; a well tag cannot be had from the sheet.
    """
    guess = Identity(
        well_tag="",
        occurrence=0,
        is_folded=not shown.get("cell", "") and not shown.get("row", ""),
        rule=shown.get("rule", "").replace(" ", "_"),
        field=shown.get("field", "").replace(" ", "_"),
        subject_sheet=shown.get("sheet", ""),
        tags=(tag,) if tag else (),
    )
    for occurrence in range(_MOST_OCCURRENCES):
        candidate = replace(guess, occurrence=occurrence)
        if _identifier(candidate, tag) == identifier:
            return candidate
    return guess


def _identifier(identity: Identity, tag: str) -> str:
    return Finding(
        severity=Severity.NOTE,
        rule=identity.rule,
        tag=tag,
        well_tag=identity.well_tag,
        sheet=identity.subject_sheet,
        row=None,
        cell="",
        field=identity.field,
        found="",
        expected="",
        explanation="",
        action="",
        tags=(),
        row_ids=(),
        withholds=False,
        folded=identity.is_folded,
        occurrence=identity.occurrence,
    ).id
