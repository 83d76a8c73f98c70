"""How far the review of a checked workbook has come, told from the workbook as reviewers left it."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.revisions.hand_values import HandCheck, hand_check
from thermowell_index.revisions.previous import PreviousRun, said_of_basis
from thermowell_index.revisions.sign_off import STATES, SignOff, as_lines, sign_off
from thermowell_index.writer import read_previous

LABEL_WIDTH = 22
COUNT_WIDTH = 9


@dataclass(frozen=True, kw_only=True)
class ReviewStatus:
    """The state of the review of one checked workbook."""

    name: str
    issue: str
    checked_on: str
    sign_off: SignOff
    by_hand: HandCheck
    others: Sequence[str]

    @property
    def open_errors(self) -> int:
        """Return how many errors are open, unsigned or have lapsed."""
        return self.sign_off.open_errors

    @property
    def is_signed_off(self) -> bool:
        """Return whether no error is open and no length calculated by hand differs from the one to order."""
        return not (self.open_errors or self.by_hand.differing)

    def as_text(self) -> str:
        """Return it as it is printed."""
        issue = f" ({self.issue}, checked {self.checked_on})" if self.checked_on else ""
        lines = [f"{self.name}{issue}"]
        lines.append(f"{'':{LABEL_WIDTH}}" + "".join(f"{state:>{COUNT_WIDTH}}" for state in STATES))
        for label, counts in as_lines(self.sign_off):
            lines.append(f"{label:{LABEL_WIDTH}}" + "".join(f"{count:>{COUNT_WIDTH}}" for count in counts))
        return "\n".join([*lines, *self.sign_off.sentences(), *self.by_hand.sentences(), *self.others])


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
        by_hand=hand_check(run.hand_values, run.rows),
        others=list(_others(run)),
    )


def _others(run: PreviousRun) -> Sequence[str]:
    basis = run.basis_sign_off
    lines = []
    if basis is not None:
        lines.append(f"Design basis: {said_of_basis(basis)}")
    if run.register:
        lines.append(f"Remarks on rows that are no longer in the index: {len(run.register)}.")
    return [*lines, *run.said]
