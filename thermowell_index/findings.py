"""What is wrong in the data: one finding a fault, with where, what was found, what was expected and what to do."""

import hashlib
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum


class Severity(StrEnum):
    """How much a finding matters, loudest first."""

    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """Return 0 for the loudest."""
        return list(Severity).index(self)


class Verdict(StrEnum):
    """What became of a row."""

    SIZED = "sized"
    REVIEW = "review"
    WITHHELD = "withheld"
    NOT_APPLICABLE = "not applicable"


DASHES_AND_BLANKS = re.compile(r"[\s\-\u2010-\u2015]+")


def one_tag(tag: str) -> str:
    """Return what all spellings of one tag have in common."""
    return DASHES_AND_BLANKS.sub("", tag).upper()


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One fault of one row, or one that repeats over the rows of `tags`.

    `former_decision` says which sign-offs have lapsed and why; `inputs_fingerprint` tells the state of the row that a
    decision was made on; `own_columns` are columns of a reviewer's own beside ours, heading and text.
    """

    severity: Severity
    rule: str
    tag: str
    well_tag: str
    sheet: str
    row: int | None
    cell: str
    field: str
    found: str
    expected: str
    explanation: str
    action: str
    tags: tuple[str, ...]
    row_ids: tuple[int, ...]
    withholds: bool
    folded: bool
    occurrence: int = 0
    change: str = "new"
    disposition: str = "open"
    reviewer: str = ""
    reviewed_on: str = ""
    comment: str = ""
    former_decision: str = ""
    inputs_fingerprint: str = ""
    own_columns: tuple[tuple[str, str], ...] = ()

    @property
    def id(self) -> str:
        """Return the identity that stays the same from run to run: tag, well tag, rule, field.

        A finding that speaks of many rows has the sheet's name in place of the tag, and what the rows have in common in
        place of the well tag; that is empty where it speaks of the whole sheet.
        """
        subject = self.sheet if self.folded else self.tag
        parts = (subject, self.well_tag, self.rule, self.field, str(self.occurrence))
        key = "\x1f".join(part.strip().upper() for part in parts)
        return "F-" + hashlib.sha256(key.encode()).hexdigest()[:10]


def numbered(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings with a running number where several have the same tag, well tag, rule and field."""
    seen: Counter[str] = Counter()
    result = []
    for finding in findings:
        seen[finding.id] += 1
        result.append(replace(finding, occurrence=seen[finding.id] - 1))
    return result
