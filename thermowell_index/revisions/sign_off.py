"""Where the review stands: what is open, decided and lapsed, by severity and by reviewer."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from thermowell_index.findings import Finding, Severity
from thermowell_index.revisions.previous import CLEARED, DECIDED, LAPSED, OPEN, STILL_TO_DO

UNSIGNED, DECIDED_STATE = "unsigned", "decided"
STATES = (OPEN, UNSIGNED, DECIDED_STATE, LAPSED)
NOBODY = "nobody named"
MOST_NAMED = 8


@dataclass(frozen=True, kw_only=True)
class SignOff:
    """The count of live findings by severity and by reviewer, in each state of the review.

    A decision counts once it is signed with a reviewer and a date. `lapsed` and `unsigned` name such findings.
    `still_to_do` counts decisions to correct or to survey; `odd_words` are dispositions that are none of ours, with how
    often they stand: such a finding counts as open.
    """

    by_severity: Mapping[Severity, Mapping[str, int]]
    by_reviewer: Mapping[str, Mapping[str, int]]
    still_to_do: Mapping[str, int]
    odd_words: Mapping[str, int]
    lapsed: Sequence[str] = ()
    unsigned: Sequence[str] = ()

    @property
    def open_errors(self) -> int:
        """Return how many errors no signed decision stands for: open, unsigned and lapsed ones."""
        counts = self.by_severity[Severity.ERROR]
        return counts[OPEN] + counts[UNSIGNED] + counts[LAPSED]

    def sentences(self) -> list[str]:
        """Return what has to be said of it, the verdict first."""
        count = self.open_errors
        if count:
            counts = self.by_severity[Severity.ERROR]
            more = "".join(
                f", {counts[state]} of them {how}"
                for state, how in ((LAPSED, "lapsed"), (UNSIGNED, "decided without reviewer and date"))
                if counts[state]
            )
            first = f"{count} error{' is' if count == 1 else 's are'} open{more}: not signed off."
        else:
            first = "No error is open."
        said = [first]
        for names, what in (
            (self.unsigned, "Decided without both reviewer and date, which does not count"),
            (self.lapsed, "Lapsed, to be decided again"),
        ):
            if names:
                rest = len(names) - MOST_NAMED
                said.append(f"{what}: {'; '.join(names[:MOST_NAMED])}" + (f"; and {rest} more." if rest > 0 else "."))
        said += [f"{count} decided {word}: still to be done." for word, count in self.still_to_do.items() if count]
        said += [
            f"Disposition {word!r} ({count} x) is none of the choices; it counts as open."
            for word, count in self.odd_words.items()
        ]
        return said


def state_of(finding: Finding) -> str:
    """Return the state of the review of a finding; a decision that nobody signed and dated is none yet."""
    if finding.disposition in DECIDED:
        return DECIDED_STATE if finding.reviewer and finding.reviewed_on else UNSIGNED
    return LAPSED if finding.disposition == LAPSED else OPEN


def sign_off(findings: Iterable[Finding]) -> SignOff:
    """Return where the review of the live findings stands."""
    live = [finding for finding in findings if finding.change != CLEARED]
    reviewers = sorted({finding.reviewer for finding in live if state_of(finding) != OPEN})
    words = Counter(finding.disposition for finding in live)
    return SignOff(
        by_severity={
            severity: _states(finding for finding in live if finding.severity is severity) for severity in Severity
        },
        by_reviewer={
            reviewer or NOBODY: _states(
                finding for finding in live if finding.reviewer == reviewer and state_of(finding) != OPEN
            )
            for reviewer in reviewers
        },
        still_to_do={word: words[word] for word in sorted(STILL_TO_DO)},
        odd_words={word: words[word] for word in sorted(words) if word not in DECIDED | {OPEN, LAPSED}},
        lapsed=_named(live, LAPSED),
        unsigned=_named(live, UNSIGNED),
    )


def _named(findings: Iterable[Finding], state: str) -> list[str]:
    """Return the findings of one state by tag and rule, loudest first."""
    those = sorted((one for one in findings if state_of(one) == state), key=lambda one: (one.severity.rank, one.tag))
    return [f"{one.tag or one.sheet}, {one.rule.replace('_', ' ')}" for one in those]


def _states(findings: Iterable[Finding]) -> dict[str, int]:
    counts = Counter(state_of(finding) for finding in findings)
    return {state: counts[state] for state in STATES}


def as_lines(state: SignOff) -> list[tuple[str, Sequence[int]]]:
    """Return the counts as lines: severities, then reviewers, each with its count in every state."""
    lines = [(severity.value, counts) for severity, counts in state.by_severity.items()]
    lines += list(state.by_reviewer.items())
    return [(label, [counts[name] for name in STATES]) for label, counts in lines]
