"""The registry of checks: one fault, one function; and the runner that turns hits into findings."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

import pandas as pd

from thermowell_index.basis import Basis
from thermowell_index.findings import Finding, Severity
from thermowell_index.table import Frame, Hits, IndexTable, word
from thermowell_index.wording import listed, shown, where

Check: TypeAlias = Callable[[Frame, Basis], Hits]
Texts: TypeAlias = Callable[[Frame, Basis], "pd.Series[str] | pd.DataFrame"]
Groups: TypeAlias = Callable[[Frame, Basis], "pd.Series[str]"]
Words: TypeAlias = str | Texts

# In `yields_to`: whatever else keeps the row's length back.
ANY_CAUSE = "whatever withholds the row"


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
    REPEATED = "what repeats"


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
    found: Texts | None
    action: str
    source: str
    withholds: Withholds
    lesser_withholds: bool
    folds: Folds
    group: Groups | None
    scope: Scope
    yields_to: tuple[str, ...]
    is_the_reason: bool
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
    found: Texts | None = None,
    withholds: Withholds = Withholds.NEVER,
    lesser_withholds: bool = False,
    folds: Folds = Folds.NEVER,
    group: Groups | None = None,
    scope: Scope = Scope.POINTS,
    yields_to: tuple[str, ...] = (),
    is_the_reason: bool = False,
) -> Callable[[Check], Check]:
    """Register a check under its function's name.

    A check returns which rows have the fault: a Series for `field`, or a DataFrame with a column for each field that it
    looks at. Values are true and false, or the word of a severity where one rule has two. `expected`, `found` and
    `group` are given the same rows as the check, and only when it hit one.

    `needs` are frame columns that must be filled in a row before the check sees it. A check that `folds` gives one
    finding a sheet with the list of its tags: for all its hits, for its notes alone, for what repeats over many rows.
    Rows of one `group` become one finding; rows whose group is empty have their own. A hit of less than the rule's
    severity withholds only with `lesser_withholds`. A check that `yields_to` others says nothing of a row that they
    speak of. One that `is_the_reason` says why a row can have no length at all, and cannot be switched off.
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
            found=found,
            action=action,
            source=source,
            withholds=withholds,
            lesser_withholds=lesser_withholds,
            folds=folds,
            group=group,
            scope=scope,
            yields_to=yields_to,
            is_the_reason=is_the_reason,
            condition=condition,
            check=check,
        )
        return check

    return register


def switches() -> Mapping[str, bool]:
    """Return every check's name, and whether the design basis may switch it off."""
    return {name: not entry.is_the_reason for name, entry in RULES.items()}


def changed_checks(basis: Basis) -> list[str]:
    """Return one sentence for each check that the design basis switches off or makes louder or quieter."""
    sentences = []
    for name, choice in basis.rules.items():
        entry = RULES[name]
        if choice.off:
            sentences.append(f"The check {entry.plain_name!r} is switched off: {choice.off.rstrip('.')}.")
        elif choice.severity and choice.severity != entry.severity:
            change = f"speaks as {choice.severity} instead of {entry.severity}"
            sentences.append(f"The check {entry.plain_name!r} {change}, by the design basis.")
    return sentences


def run(rules: Iterable[Rule], table: IndexTable, basis: Basis, earlier: Iterable[Finding] = ()) -> list[Finding]:
    """Return the findings of some rules; what an earlier finding of a named rule says of a row is not said again."""
    listed = [entry for entry in rules if entry.name not in basis.rules or not basis.rules[entry.name].off]
    hits = {entry.name: _hits_of(entry, table.frame, basis) for entry in listed}
    spoken: dict[str, set[int]] = {name: set(found.index) for name, found in hits.items()}
    withheld_by: dict[int, set[str]] = {}
    for entry in listed:
        for row_id in _withheld_rows(entry, hits[entry.name], table.frame):
            withheld_by.setdefault(row_id, set()).add(entry.name)
    for finding in earlier:
        spoken.setdefault(finding.rule, set()).update(finding.row_ids)
        if finding.withholds:
            for row_id in finding.row_ids:
                withheld_by.setdefault(row_id, set()).add(finding.rule)
    findings: list[Finding] = []
    for entry in listed:
        own = _without_consequences(entry, hits[entry.name], spoken, withheld_by)
        if not own.empty:
            findings += _RuleRun(entry, table, basis, own).findings()
    return findings


def _hits_of(entry: Rule, frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return the rows that have a fault, with the severity by field; None where a field of such a row is sound."""
    rows = _rows_for(entry, frame)
    if rows.empty:
        return pd.DataFrame(index=rows.index)
    hits = entry.check(rows, basis)
    by_field = hits if isinstance(hits, pd.DataFrame) else hits.to_frame(entry.field)
    severities = by_field.map(lambda hit: _severity_of(hit, entry))
    return severities[severities.notna().any(axis=1)]


def _severity_of(hit: object, entry: Rule) -> str | None:
    if isinstance(hit, str):
        return hit or None
    return entry.severity.value if bool(hit) else None


def _withheld_rows(entry: Rule, hits: pd.DataFrame, frame: Frame) -> set[int]:
    return {
        int(str(row_id))
        for field in hits.columns
        for row_id, severity in hits[field].dropna().items()
        if _withholds(entry, str(field), Severity(severity), int(str(row_id)), frame)
    }


def _withholds(entry: Rule, field: str, severity: Severity, row_id: int, frame: Frame) -> bool:
    if severity is not entry.severity and not entry.lesser_withholds:
        return False
    if entry.withholds is Withholds.WHEN_NEEDED:
        return field in word(frame, row_id, "needed_fields").split("|")
    return entry.withholds is Withholds.ALWAYS


def _without_consequences(
    entry: Rule, hits: pd.DataFrame, spoken: Mapping[str, set[int]], withheld_by: Mapping[int, set[str]]
) -> pd.DataFrame:
    """Return the hits of rows that no cause of the fault has spoken of."""
    causes = set().union(*(spoken.get(name, set()) for name in entry.yields_to))
    if ANY_CAUSE in entry.yields_to:
        causes |= {row_id for row_id, names in withheld_by.items() if names - {entry.name}}
    return hits[~hits.index.isin(list(causes))]


def _rows_for(entry: Rule, frame: Frame) -> Frame:
    present = frame["is_point"] if entry.scope is Scope.POINTS else frame["is_stem"]
    for need in entry.needs:
        column = frame[need]
        present = present & column.notna() & (column.astype(object) != "")
    return frame[present]


class _RuleRun:
    """One rule over the rows that have what it needs."""

    def __init__(self, entry: Rule, table: IndexTable, basis: Basis, hits: pd.DataFrame) -> None:
        self._rule = entry
        self._table = table
        self._basis = basis
        self._hits = hits
        self._frame = _rows_for(entry, table.frame)
        self._choice = basis.rules[entry.name].severity if entry.name in basis.rules else ""
        self._expected = self._texts(entry.expected)
        self._found = self._texts(entry.found or "")

    def findings(self) -> list[Finding]:
        """Return one finding a hit, or one a sheet, group and severity."""
        found: list[Finding] = []
        for field in map(str, self._hits.columns):
            rows = self._hits[field].dropna()
            groups = self._groups(rows)
            folded = groups[groups != ""]
            keys = [self._table.frame.loc[folded.index, "sheet"], rows[folded.index], self._held(field, rows), folded]
            for (_, severity, _, group), members in folded.groupby(keys, sort=False):
                found.append(self._folded(field, Severity(str(severity)), str(group), members.index))
            for row_id, severity in rows.drop(folded.index).items():
                found.append(self._single(field, Severity(severity), int(str(row_id))))
        return found

    def _texts(self, words: Words) -> "str | pd.Series[str] | pd.DataFrame":
        return words if isinstance(words, str) else words(self._frame, self._basis)

    def _held(self, field: str, rows: "pd.Series[str]") -> "pd.Series[bool]":
        """Return which of the rows the fault withholds: those of one finding are all withheld, or none is."""
        return pd.Series(
            [
                _withholds(self._rule, field, Severity(severity), int(str(row_id)), self._table.frame)
                for row_id, severity in rows.items()
            ],
            index=rows.index,
            dtype=bool,
        )

    def _groups(self, rows: "pd.Series[str]") -> "pd.Series[str]":
        """Return by row the group that it folds into, empty where it has a finding of its own."""
        folds = self._rule.folds
        groups = pd.Series("", index=rows.index, dtype=object)
        if self._rule.group is not None:
            groups = self._rule.group(self._frame, self._basis)[rows.index]
        elif folds in {Folds.ALWAYS, Folds.NOTES}:
            groups = groups.mask(groups == "", WHOLE_SHEET)
        if folds is Folds.REPEATED:
            repeated = self._is_repeated(rows[groups == ""]).reindex(groups.index, fill_value=False)
            return groups.mask(repeated, WHOLE_SHEET)
        return groups.where(rows == Severity.NOTE.value, "") if folds is Folds.NOTES else groups

    def _is_repeated(self, rows: "pd.Series[str]") -> "pd.Series[bool]":
        """Return which rows have a fault that so many rows of their sheet have that it is no slip of one."""
        frame = self._table.frame
        sheets = frame.loc[rows.index, "sheet"]
        counts = rows.groupby([sheets, rows]).transform("size")
        points = sheets.map(frame.loc[frame["is_point"], "sheet"].value_counts())
        least, share = self._basis.number("report.repeats_least"), self._basis.number("report.repeats_share")
        is_many = (counts >= least) & (counts >= share * points)
        is_habit = counts >= self._basis.number("report.repeats_anyway")
        return pd.Series(is_many | is_habit, index=rows.index, dtype=bool)

    def _single(self, field: str, severity: Severity, row_id: int) -> Finding:
        frame = self._table.frame
        sheet, row, cell = where(self._table, row_id, field)
        tag = word(frame, row_id, "tag")
        return Finding(
            severity=self._spoken(severity),
            rule=self._rule.name,
            tag=tag,
            well_tag=word(frame, row_id, "well_tag"),
            sheet=sheet,
            row=row,
            cell=cell,
            field=field,
            found=self._found_text(field, row_id),
            expected=self._expected_of(field, row_id),
            explanation=self._rule.explanation,
            action=self._rule.action,
            tags=(tag,),
            row_ids=(row_id,),
            withholds=_withholds(self._rule, field, severity, row_id, frame),
            folded=False,
        )

    def _folded(self, field: str, severity: Severity, group: str, rows: "pd.Index[int]") -> Finding:
        frame = self._table.frame
        first = int(rows[0])
        tags = tuple(word(frame, int(row_id), "tag") for row_id in rows)
        detail = listed([self._found_text(field, int(row_id)) for row_id in rows]) if self._says_what() else ""
        count = f"{len(tags)} row" + ("" if len(tags) == 1 else "s")
        return Finding(
            severity=self._spoken(severity),
            rule=self._rule.name,
            tag="",
            well_tag="" if group == WHOLE_SHEET else group,
            sheet=word(frame, first, "sheet"),
            row=None,
            cell="",
            field=field,
            found=f"{count}: {detail}" if detail else count,
            expected=listed([self._expected_of(field, int(row_id)) for row_id in rows]),
            explanation=self._rule.explanation,
            action=self._rule.action,
            tags=tags,
            row_ids=tuple(int(row_id) for row_id in rows),
            withholds=_withholds(self._rule, field, severity, first, frame),
            folded=True,
        )

    def _says_what(self) -> bool:
        """Whether a folded finding says more than a count: where its rule or its group has words of its own."""
        has_words = self._rule.found is not None or f"detail_{self._rule.name}" in self._table.frame
        return has_words or self._rule.group is not None or self._rule.folds is Folds.REPEATED

    def _spoken(self, severity: Severity) -> Severity:
        """Return how loud a hit is said: as the design basis chose for the rule, lesser ones at most as loud."""
        if not self._choice:
            return severity
        chosen = Severity(self._choice)
        is_own = severity is self._rule.severity
        return chosen if is_own or chosen.rank > severity.rank else severity

    def _found_text(self, field: str, row_id: int) -> str:
        if isinstance(self._found, str):
            return found_text(self._rule, field, row_id, self._table)
        return _text_at(self._found, field, row_id)

    def _expected_of(self, field: str, row_id: int) -> str:
        return self._expected if isinstance(self._expected, str) else _text_at(self._expected, field, row_id)


def _text_at(texts: "pd.Series[str] | pd.DataFrame", field: str, row_id: int) -> str:
    return str(texts.at[row_id] if isinstance(texts, pd.Series) else texts.at[row_id, field])


# The group of a check whose hits fold by sheet alone.
WHOLE_SHEET = "*"


def found_text(entry: Rule, field: str, row_id: int, table: IndexTable) -> str:
    """Return what stands in the cells that a rule looked at, as typed, with the field names."""
    detail = f"detail_{entry.name}"
    if detail in table.frame and word(table.frame, row_id, detail):
        return word(table.frame, row_id, detail)
    parts = [text for name in (field, *entry.needs) if (text := shown(name, row_id, table.frame))]
    return "; ".join(dict.fromkeys(parts)) or "blank"
