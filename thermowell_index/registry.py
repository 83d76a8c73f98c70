"""The registry of checks: one fault, one function; and the runner that turns hits into findings."""

import math
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeAlias

import pandas as pd

from thermowell_index.basis import Basis
from thermowell_index.dictionary import FIELD
from thermowell_index.findings import Finding, Severity
from thermowell_index.table import Frame, Hits, IndexTable, flag, number, whole, word
from thermowell_index.units import format_length

Check: TypeAlias = Callable[[Frame, Basis], Hits]
Words: TypeAlias = "str | Callable[[Frame, Basis], pd.Series[str]]"


class Withholds(StrEnum):
    """Whether a hit keeps the row's length back."""

    NEVER = "no"
    ALWAYS = "yes"
    WHEN_NEEDED = "where the length needs the cell"


class Folds(StrEnum):
    """Which hits become one finding a sheet with the list of its tags."""

    NEVER = "none"
    NOTES = "notes"
    ALWAYS = "all"


class Scope(StrEnum):
    """Which rows a check looks at."""

    POINTS = "points in wells"
    STEMS = "stems that are no sensors"


@dataclass(frozen=True, kw_only=True)
class Rule:
    """One check: its name is the fault."""

    name: str
    severity: Severity
    field: str
    needs: tuple[str, ...]
    expected: Words
    action: str
    source: str
    withholds: Withholds
    lesser_withholds: bool
    folds: Folds
    scope: Scope
    yields_to: tuple[str, ...]
    condition: str
    check: Check

    @property
    def plain_name(self) -> str:
        """Return the name as the sheets show it."""
        return self.name.replace("_", " ")

    @property
    def title(self) -> str:
        """Return the first line of the explanation."""
        return (self.check.__doc__ or "").strip().split("\n", maxsplit=1)[0]

    @property
    def explanation(self) -> str:
        """Return the whole explanation as one paragraph."""
        return " ".join((self.check.__doc__ or "").split())


RULES: dict[str, Rule] = {}


def rule(  # noqa: PLR0913 - one keyword a column of the list of rules
    *,
    severity: Severity,
    field: str,
    expected: Words,
    action: str,
    source: str,
    condition: str,
    needs: tuple[str, ...] = (),
    withholds: Withholds = Withholds.NEVER,
    lesser_withholds: bool = False,
    folds: Folds = Folds.NEVER,
    scope: Scope = Scope.POINTS,
    yields_to: tuple[str, ...] = (),
) -> Callable[[Check], Check]:
    """Register a check under its function's name.

    A check returns which rows have the fault: a Series for `field`, or a DataFrame with a column for each field that it
    looks at. Values are true and false, or the word of a severity where one rule has two.

    `needs` are frame columns that must be filled in a row before the check sees it. A check that `folds` gives one
    finding a sheet with the list of its tags, for all its hits or for its notes alone. A hit of less than the rule's severity withholds only with
    `lesser_withholds`. A check that `yields_to` others says nothing of a row that they speak of.
    """

    def register(check: Check) -> Check:
        name = check.__name__
        if name in RULES:
            msg = f"two rules are named {name}"
            raise ValueError(msg)
        RULES[name] = Rule(
            name=name,
            severity=severity,
            field=field,
            needs=needs,
            expected=expected,
            action=action,
            source=source,
            withholds=withholds,
            lesser_withholds=lesser_withholds,
            folds=folds,
            scope=scope,
            yields_to=yields_to,
            condition=condition,
            check=check,
        )
        return check

    return register


def run(rules: Iterable[Rule], table: IndexTable, basis: Basis, earlier: Iterable[Finding] = ()) -> list[Finding]:
    """Return the findings of some rules; what an earlier finding of a named rule says of a row is not said again."""
    listed = list(rules)
    findings: list[Finding] = []
    for entry in listed:
        frame = _rows_for(entry, table.frame)
        if not frame.empty:
            findings += _RuleRun(entry, table, basis, frame).findings()
    return _without_consequences(findings, [*earlier, *findings], {entry.name: entry for entry in listed})


def _without_consequences(findings: list[Finding], causes: list[Finding], rules: dict[str, Rule]) -> list[Finding]:
    spoken = {(finding.rule, row_id) for finding in causes for row_id in finding.row_ids}
    return [
        finding
        for finding in findings
        if finding.folded
        or not any((cause, row_id) in spoken for cause in rules[finding.rule].yields_to for row_id in finding.row_ids)
    ]


def _rows_for(entry: Rule, frame: Frame) -> Frame:
    present = frame["is_point"] if entry.scope is Scope.POINTS else frame["is_stem"]
    for need in entry.needs:
        column = frame[need]
        present = present & column.notna() & (column.astype(object) != "")
    return frame[present]


class _RuleRun:
    """One rule over the rows that have what it needs."""

    def __init__(self, entry: Rule, table: IndexTable, basis: Basis, frame: Frame) -> None:
        self._rule = entry
        self._table = table
        self._frame = frame
        hits = entry.check(frame, basis)
        self._hits = hits if isinstance(hits, pd.DataFrame) else hits.to_frame(entry.field)
        expected = entry.expected
        self._expected = expected if isinstance(expected, str) else expected(frame, basis)

    def findings(self) -> list[Finding]:
        """Return one finding a hit, or one a sheet and severity."""
        found: list[Finding] = []
        for field in self._hits.columns:
            severities = self._hits[field].map(self._severity)
            rows = severities[severities.notna()]
            folds = rows == Severity.NOTE.value if self._rule.folds is Folds.NOTES else rows.notna()
            folded = rows[folds] if self._rule.folds is not Folds.NEVER else rows[:0]
            sheets = self._table.frame.loc[folded.index, "sheet"]
            for (_, severity), group in folded.groupby([sheets, folded], sort=False):
                found.append(self._folded(str(field), Severity(str(severity)), group))
            for row_id, severity in rows.drop(folded.index).items():
                found.append(self._single(str(field), Severity(severity), int(str(row_id))))
        return found

    def _severity(self, hit: object) -> str | None:
        if isinstance(hit, str):
            return hit or None
        return self._rule.severity.value if bool(hit) else None

    def _single(self, field: str, severity: Severity, row_id: int) -> Finding:
        frame = self._table.frame
        sheet, row, cell = where(self._table, row_id, field)
        tag = word(frame, row_id, "tag")
        return Finding(
            severity=severity,
            rule=self._rule.name,
            tag=tag,
            well_tag=word(frame, row_id, "well_tag"),
            sheet=sheet,
            row=row,
            cell=cell,
            field=field,
            found=found_text(self._rule, field, row_id, self._table),
            expected=self._expected_of(row_id),
            explanation=self._rule.explanation,
            action=self._rule.action,
            tags=(tag,),
            row_ids=(row_id,),
            withholds=self._withholds(field, severity, row_id),
            folded=False,
        )

    def _folded(self, field: str, severity: Severity, rows: "pd.Series[str]") -> Finding:
        frame = self._table.frame
        first = int(rows.index[0])
        tags = tuple(word(frame, int(row_id), "tag") for row_id in rows.index)
        detail = (
            str(self._frame.at[first, f"detail_{self._rule.name}"])
            if f"detail_{self._rule.name}" in self._frame
            else ""
        )
        count = f"{len(tags)} row" + ("" if len(tags) == 1 else "s")
        return Finding(
            severity=severity,
            rule=self._rule.name,
            tag="",
            well_tag="",
            sheet=word(frame, first, "sheet"),
            row=None,
            cell="",
            field=field,
            found=f"{count}: {detail}" if detail else count,
            expected=self._expected_of(first),
            explanation=self._rule.explanation,
            action=self._rule.action,
            tags=tags,
            row_ids=tuple(int(row_id) for row_id in rows.index),
            withholds=False,
            folded=True,
        )

    def _expected_of(self, row_id: int) -> str:
        return self._expected if isinstance(self._expected, str) else str(self._expected.at[row_id])

    def _withholds(self, field: str, severity: Severity, row_id: int) -> bool:
        if severity is not self._rule.severity and not self._rule.lesser_withholds:
            return False
        if self._rule.withholds is Withholds.WHEN_NEEDED:
            return field in word(self._table.frame, row_id, "needed_fields").split("|")
        return self._rule.withholds is Withholds.ALWAYS


def numbered(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings with a running number where several have the same tag, well tag, rule and field."""
    seen: Counter[str] = Counter()
    result = []
    for finding in findings:
        seen[finding.id] += 1
        result.append(replace(finding, occurrence=seen[finding.id] - 1))
    return result


def where(table: IndexTable, row_id: int, field: str) -> tuple[str, int, str]:
    """Return sheet, row and cell that a finding points to: the field's cell, else the row's tag cell."""
    place = table.address(row_id, field) or table.address(row_id, "tag") or table.address(row_id, "well_tag")
    if place is None:
        return word(table.frame, row_id, "sheet"), whole(table.frame, row_id, "row"), ""
    sheet, row, column = place
    return sheet, row, f"{_letters(column)}{row}"


def _letters(column: int) -> str:
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def found_text(entry: Rule, field: str, row_id: int, table: IndexTable) -> str:
    """Return what stands in the cells that a rule looked at, as typed, with the field names."""
    detail = f"detail_{entry.name}"
    if detail in table.frame and word(table.frame, row_id, detail):
        return word(table.frame, row_id, detail)
    parts = [text for name in (field, *entry.needs) if (text := shown(name, row_id, table.frame))]
    return "; ".join(dict.fromkeys(parts)) or "blank"


def shown(name: str, row_id: int, frame: Frame) -> str:
    """Return a field with its text as typed, or a computed length in the row's unit."""
    field = name.removesuffix("_mm").removesuffix("_state").removesuffix("_text")
    if field in FIELD:
        column = f"{field}_text" if f"{field}_text" in frame else field
        text = word(frame, row_id, column).strip()
        return f"{FIELD[field].label} {text}" if text else ""
    if name.endswith("_mm") and name in frame and not math.isnan(length := number(frame, row_id, name)):
        return f"{field.replace('_', ' ')} {row_length(length, row_id, frame)}"
    return ""


def row_length(length_mm: float, row_id: int, frame: Frame) -> str:
    """Return a length in the unit and manner (fractions or decimals) of its row."""
    return format_length(length_mm, word(frame, row_id, "unit") or "mm", fractions=flag(frame, row_id, "in_fractions"))


def row_lengths(lengths_mm: "pd.Series[float]", frame: Frame) -> "pd.Series[str]":
    """Return lengths as text, each in the unit and manner of its row; empty where there is none."""
    return pd.Series(
        [
            "" if math.isnan(length) else format_length(length, unit or "mm", fractions=bool(fractions))
            for length, unit, fractions in zip(lengths_mm, frame["unit"], frame["in_fractions"], strict=True)
        ],
        index=frame.index,
        dtype=object,
    )
