"""What a run adds to the story of an index: all that its workbook shows of it and remembers for the next run."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from thermowell_index.revisions.comparison import Comparison
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import BasisSignOff, RegisterEntry, TouchReading
from thermowell_index.revisions.run_register import RunLine
from thermowell_index.revisions.sample import Sample


@dataclass(frozen=True, kw_only=True)
class History:
    """The rows remembered, the register of runs, what changed, and what reviewers signed or left behind.

    `own_lines` are lines that reviewers wrote on Discrepancies without a finding; `said` is what could not be recovered
    from the previous workbook, a line each, and `said_then` what the run said of which this one is the same again.
    `compared_with` is the name of the previous workbook. `input_notes` say what could not be read of an index that is
    no .xlsx, a line each.
    """

    rows: Sequence[RowMemory] = ()
    runs: Sequence[RunLine] = ()
    basis_entries: Mapping[str, str] = field(default_factory=dict)
    comparison: Comparison | None = None
    register: Sequence[RegisterEntry] = ()
    own_lines: Sequence[str] = ()
    basis_sign_off: BasisSignOff = field(default_factory=BasisSignOff)
    sample: Sample = field(default_factory=Sample)
    touch_readings: Sequence[TouchReading] = ()
    said: Sequence[str] = ()
    said_then: Sequence[str] = ()
    input_notes: Sequence[str] = ()
    compared_with: str = ""

    @property
    def all_said(self) -> list[str]:
        """Return what this run says and what it says again, a line each."""
        return list(dict.fromkeys((*self.said_then, *self.said)))
