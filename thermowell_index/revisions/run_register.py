"""The register of runs: a line a run, appended, never rewritten."""

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass

from thermowell_index.findings import Finding, Severity, Verdict


@dataclass(frozen=True, kw_only=True)
class RunLine:
    """One run: what it read, with what, and what came out."""

    date: str
    input_name: str
    revision: str
    input_sha256: str
    program_version: str
    basis_name: str
    basis_fingerprint: str
    content_fingerprint: str
    previous_name: str
    rows: int
    errors: int
    warnings: int
    notes: int
    sized: int
    review: int
    withheld: int
    not_applicable: int

    @property
    def issue(self) -> str:
        """Return the name and revision of the index."""
        return f"{self.input_name}, revision {self.revision}" if self.revision else self.input_name

    def is_same_run(self, other: "RunLine") -> bool:
        """Return whether two runs read the same file, as the same issue, with the same basis and program."""
        return self.what_was_run == other.what_was_run

    @property
    def what_was_run(self) -> tuple[str, ...]:
        """Return what tells one run from another."""
        return (
            self.input_name,
            self.input_sha256,
            self.revision,
            self.content_fingerprint,
            self.basis_fingerprint,
            self.program_version,
        )

    def as_text(self) -> str:
        """Return it as one line of text."""
        return json.dumps(asdict(self), ensure_ascii=False, separators=(",", ":"))


def run_from_text(text: str) -> RunLine:
    """Return what `as_text` wrote.

    Raises
    ------
    ValueError
        The text is damaged.

    """
    try:
        return RunLine(**json.loads(text))
    except TypeError as exc:
        raise ValueError(str(exc)) from exc


def counts_of(findings: Iterable[Finding], verdicts: Sequence[str]) -> dict[str, int]:
    """Return the counts of a run's live findings and verdicts, by the names of a line of the register."""
    severities = Counter(finding.severity for finding in findings)
    met = Counter(str(verdict) for verdict in verdicts)
    return {
        "rows": len(verdicts),
        **{f"{severity.value}s": severities[severity] for severity in Severity},
        **{verdict.value.replace(" ", "_"): met[verdict.value] for verdict in Verdict},
    }


def appended(earlier: Sequence[RunLine], line: RunLine) -> list[RunLine]:
    """Return the register with a run added; a run that repeats the last one in everything is no new run."""
    if earlier and line.is_same_run(earlier[-1]):
        return list(earlier)
    return [*earlier, line]


def joined(one: Sequence[RunLine], other: Sequence[RunLine]) -> list[RunLine]:
    """Return two registers as one: the lines of the other that the one has not are added at its end."""
    return [*one, *(line for line in other if line not in one)]
