"""What an earlier run left behind: its findings with the reviewers' remarks, and what it remembered of the index."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from thermowell_index.findings import Finding
from thermowell_index.revisions.comparison import Comparison
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.run_register import RunLine

OPEN = "open"
LAPSED = "lapsed"
CLEARED = "cleared"
DISPOSITIONS = (OPEN, "accepted", "to correct", "to survey", "no issue", LAPSED)
DECIDED = frozenset(DISPOSITIONS) - {OPEN, LAPSED}
STILL_TO_DO = frozenset({"to correct", "to survey"})


@dataclass(frozen=True, kw_only=True)
class RegisterEntry:
    """The remarks on a finding whose row is no longer in the index, or whose fault is told once for many rows.

    `last_seen` names the issue that still had it; `may_be` the tags that it may have become, or that it is told with
    others; `carry_to` is the tag that a person names to have the remarks there.
    """

    finding: Finding
    last_seen: str = ""
    may_be: str = ""
    carry_to: str = ""


@dataclass(frozen=True, kw_only=True)
class BasisSignOff:
    """The sign-off of the design basis as a whole."""

    fingerprint: str = ""
    disposition: str = OPEN
    reviewer: str = ""
    reviewed_on: str = ""
    comment: str = ""
    former_decision: str = ""

    @property
    def is_filled(self) -> bool:
        """Return whether anything was written."""
        return self.disposition != OPEN or bool(
            self.reviewer or self.reviewed_on or self.comment or self.former_decision
        )


@dataclass(frozen=True, kw_only=True)
class HandValue:
    """What somebody calculated by hand for one row; `inputs` tells the state of the row it was calculated for."""

    key: str
    well_key: str
    tag: str
    inputs: str
    answer: str
    value: str = ""
    checked_by: str = ""
    checked_on: str = ""
    comment: str = ""

    @property
    def is_filled(self) -> bool:
        """Return whether anything was written."""
        return bool(self.value or self.checked_by or self.checked_on or self.comment)


@dataclass(frozen=True, kw_only=True)
class TouchReading:
    """What a fitter wrote on one line of First touch: `line` tells that line from others, `written` by heading."""

    line: str
    tag: str
    length: str
    written: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class PreviousRun:
    """The findings of an earlier run with their remarks, and all else that it remembered.

    A finding's `row_ids` are places in `rows`. `other_runs` are runs in the registers of other answers that this run's
    answer will take the place of. `said` is what could not be recovered from the workbook, a line each, and `said_then`
    what its run had to say of the one before.
    """

    findings: Mapping[str, Finding]
    content_fingerprint: str
    name: str = ""
    rows: Sequence[RowMemory] = ()
    runs: Sequence[RunLine] = ()
    other_runs: Sequence[RunLine] = ()
    basis_entries: Mapping[str, str] = field(default_factory=dict)
    comparison: Comparison | None = None
    basis_sign_off: BasisSignOff | None = None
    hand_values: Sequence[HandValue] = ()
    register: Sequence[RegisterEntry] = ()
    touch_readings: Sequence[TouchReading] = ()
    own_lines: Sequence[str] = ()
    sample_seed: str = ""
    said: Sequence[str] = ()
    said_then: Sequence[str] = ()
    input_notes: Sequence[str] = ()
    compared_with: str = ""

    @property
    def issue(self) -> str:
        """Return the name of the issue that the run read."""
        return self.runs[-1].issue if self.runs else self.name


def has_remarks(finding: Finding) -> bool:
    """Return whether a reviewer said anything of a finding, now or before a sign-off lapsed."""
    return finding.disposition != OPEN or bool(
        finding.reviewer
        or finding.reviewed_on
        or finding.comment
        or finding.former_decision
        or any(text for _, text in finding.own_columns)
    )


def is_decided(disposition: str) -> bool:
    """Return whether a disposition is a decision, in whatever word."""
    return disposition not in {OPEN, LAPSED}


def decision_in_words(finding: Finding | BasisSignOff) -> str:
    """Return a decision with who made it and when."""
    parts = [finding.disposition]
    if finding.reviewer:
        parts.append(f"by {finding.reviewer}")
    if finding.reviewed_on:
        parts.append(f"on {finding.reviewed_on}")
    return " ".join(parts)


def said_of_basis(sign_off: BasisSignOff) -> str:
    """Return the sign-off of the design basis as a sentence's end."""
    who = f" by {sign_off.reviewer}" if sign_off.reviewer else ""
    return f"{sign_off.disposition}{who}".rstrip(".") + "."
