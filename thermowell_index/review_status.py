"""How far the review of a checked workbook has come, told from the workbook as reviewers left it."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.revisions.previous import PreviousRun, said_of_basis
from thermowell_index.revisions.sample import differing
from thermowell_index.revisions.sign_off import STATES, SignOff, as_lines, sign_off
from thermowell_index.writer import read_previous

LABEL_WIDTH = 22
COUNT_WIDTH = 9


@dataclass(frozen=True, kw_only=True)
class ReviewStatus:
    """The state of the review of one checked workbook; `differing` are the hand values that do not agree."""

    name: str
    issue: str
    checked_on: str
    sign_off: SignOff
    differing: Sequence[str]
    others: Sequence[str]

    @property
    def is_released(self) -> bool:
        """Return whether no error is open and no length calculated by hand differs."""
        return not self.open_errors and not self.differing

    @property
    def open_errors(self) -> int:
        """Return how many errors are open or have lapsed."""
        return self.sign_off.open_errors

    def as_text(self) -> str:
        """Return it as it is printed."""
        issue = f" ({self.issue}, checked {self.checked_on})" if self.checked_on else ""
        lines = [f"{self.name}{issue}"]
        lines.append(f"{'':{LABEL_WIDTH}}" + "".join(f"{state:>{COUNT_WIDTH}}" for state in STATES))
        for label, counts in as_lines(self.sign_off):
            lines.append(f"{label:{LABEL_WIDTH}}" + "".join(f"{count:>{COUNT_WIDTH}}" for count in counts))
        hand = [f"Calculated by hand: {'; '.join(self.differing)}: not signed off."] if self.differing else []
        return "\n".join([*lines, *self.sign_off.sentences(), *hand, *self.others])


def review_status(path: Path) -> ReviewStatus:
    """Return how far the review of a checked workbook has come.

    Raises
    ------
    WorkbookError
        It cannot be read, or is no checked workbook.

    """
    with Package.open(path) as package:
        run = read_previous(package)
    if run is None:
        raise WorkbookError(f"{path}: is not a checked workbook")
    return ReviewStatus(
        name=path.name,
        issue=run.issue,
        checked_on=run.runs[-1].date if run.runs else "",
        sign_off=sign_off(run.findings.values()),
        differing=differing(run.hand_values, run.rows),
        others=list(_others(run)),
    )


def _others(run: PreviousRun) -> Sequence[str]:
    basis = run.basis_sign_off
    lines = []
    if basis is not None:
        lines.append(f"Design basis: {said_of_basis(basis)}")
    filled = [value for value in run.hand_values if value.value]
    if run.hand_values:
        lines.append(f"QA sample: {len(filled)} of {len(run.hand_values)} rows calculated by hand.")
    if run.register:
        lines.append(f"Remarks on rows that are no longer in the index: {len(run.register)}.")
    return [*lines, *run.said]
