"""Flagged cells: coloured by the worst severity, with a note that says in words what was found there."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from typing import TypeAlias

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import parse_range
from thermowell_index.writer.report import Report

Place: TypeAlias = tuple[int, int]

# The error fill is much darker than the warning fill, so that they differ on black-and-white print and to every eye.
FILLS: Mapping[Severity, str] = {Severity.ERROR: "FFF08B64", Severity.WARNING: "FFFFE8A9"}


def flagged(report: Report) -> dict[str, dict[Place, list[Finding]]]:
    """Return the findings that colour a cell, by sheet and cell, loudest first: errors and warnings of one row."""
    places: defaultdict[str, defaultdict[Place, list[Finding]]] = defaultdict(lambda: defaultdict(list))
    for finding in report.live_findings:
        if finding.severity in FILLS and finding.cell and not finding.folded:
            row, column, _, _ = parse_range(finding.cell)
            places[finding.sheet][row, column].append(finding)
    return {sheet: {place: _loudest_first(cells[place]) for place in sorted(cells)} for sheet, cells in places.items()}


def fills(cells: Mapping[Place, Collection[Finding]]) -> dict[Place, str]:
    """Return the colour of each flagged cell of a sheet."""
    return {place: FILLS[min(findings, key=_rank).severity] for place, findings in cells.items()}


def notes(cells: Mapping[Place, Collection[Finding]], report: Report) -> dict[Place, str]:
    """Return one note a flagged cell, with all that was found there."""
    return {place: "\n\n".join(_note(finding, report) for finding in findings) for place, findings in cells.items()}


def _loudest_first(findings: list[Finding]) -> list[Finding]:
    return sorted(findings, key=_rank)


def _rank(finding: Finding) -> int:
    return finding.severity.rank


def _note(finding: Finding, report: Report) -> str:
    lines = [f"{finding.severity}: {report.rule_name(finding.rule)}"]
    lines += [
        f"{name}: {text}"
        for name, text in (("found", finding.found), ("expected", finding.expected), ("do", finding.action))
        if text
    ]
    return "\n".join(lines)
