"""Where the review stands: what is open, decided and lapsed, by severity and by reviewer."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from thermowell_index.findings import Finding, Severity
from thermowell_index.revisions.previous import CLEARED, DECIDED, LAPSED, OPEN, STILL_TO_DO

STATES = (OPEN, "decided", LAPSED)
NOBODY = "nobody named"


@dataclass(frozen=True, kw_only=True)
class SignOff:
    """The count of live findings by severity and by reviewer, in each state of the review.

    `still_to_do` counts decisions to correct or to survey; `odd_words` are dispositions that are none of ours, with how
    often they stand, `unsigned` counts decisions without a reviewer's name: such findings count as open.
    """

    by_severity: Mapping[Severity, Mapping[str, int]]
    by_reviewer: Mapping[str, Mapping[str, int]]
    still_to_do: Mapping[str, int]
    odd_words: Mapping[str, int]
    unsigned: int

    @property
    def open_errors(self) -> int:
        """Return how many errors no decision stands for: open ones and lapsed ones."""
        counts = self.by_severity[Severity.ERROR]
        return counts[OPEN] + counts[LAPSED]

    def sentences(self) -> list[str]:
        """Return what has to be said of it, the verdict first."""
        count = self.open_errors
        if count:
            lapsed = self.by_severity[Severity.ERROR][LAPSED]
            more = f", {lapsed} of them lapsed" if lapsed else ""
            first = f"{count} error{' is' if count == 1 else 's are'} open{more}: not signed off."
        else:
            first = "No error is open."
        said = [first]
        said += [f"{count} decided {word}: still to be done." for word, count in self.still_to_do.items() if count]
        if self.unsigned:
            one = self.unsigned == 1
            said.append(
                f"{self.unsigned} decision{' bears' if one else 's bear'} no reviewer's name and "
                f"count{'s' if one else ''} as open."
            )
        said += [
            f"Disposition {word!r} ({count} x) is none of the choices; it counts as open."
            for word, count in self.odd_words.items()
        ]
        return said


def state_of(disposition: str, reviewer: str) -> str:
    """Return the state of the review that a disposition means; a decision that nobody signed is none."""
    if disposition in DECIDED and reviewer.strip():
        return "decided"
    return LAPSED if disposition == LAPSED else OPEN


def sign_off(findings: Iterable[Finding]) -> SignOff:
    """Return where the review of the live findings stands."""
    live = [finding for finding in findings if finding.change != CLEARED]
    reviewers = sorted({finding.reviewer for finding in live if _state(finding) != OPEN})
    words = Counter(finding.disposition for finding in live)
    return SignOff(
        by_severity={
            severity: _states(finding for finding in live if finding.severity is severity) for severity in Severity
        },
        by_reviewer={
            reviewer or NOBODY: _states(
                finding for finding in live if finding.reviewer == reviewer and _state(finding) != OPEN
            )
            for reviewer in reviewers
        },
        still_to_do={word: words[word] for word in sorted(STILL_TO_DO)},
        unsigned=sum(finding.disposition in DECIDED and _state(finding) == OPEN for finding in live),
        odd_words={word: words[word] for word in sorted(words) if word not in DECIDED | {OPEN, LAPSED}},
    )


def _state(finding: Finding) -> str:
    return state_of(finding.disposition, finding.reviewer)


def _states(findings: Iterable[Finding]) -> dict[str, int]:
    counts = Counter(_state(finding) for finding in findings)
    return {state: counts[state] for state in STATES}


def as_lines(state: SignOff) -> list[tuple[str, Sequence[int]]]:
    """Return the counts as lines: severities, then reviewers, each with its count in every state."""
    lines = [(severity.value, counts) for severity, counts in state.by_severity.items()]
    lines += list(state.by_reviewer.items())
    return [(label, [counts[name] for name in STATES]) for label, counts in lines]
