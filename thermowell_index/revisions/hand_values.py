"""What was calculated by hand, set against what the program answered."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import HandValue
from thermowell_index.revisions.sample import AGREES, verdict_on


@dataclass(frozen=True, kw_only=True)
class HandCheck:
    """How far the check by hand has come: rows drawn, rows that agree, and those that do not or no longer count."""

    drawn: int = 0
    agreeing: int = 0
    differing: Sequence[str] = ()
    lapsed: Sequence[str] = ()

    def sentences(self) -> Iterator[str]:
        """Yield what has to be said of it, a sentence each."""
        if self.drawn:
            yield f"QA sample: {self.agreeing} of {self.drawn} rows agree with a calculation by hand."
        if self.differing:
            yield f"Calculated by hand, and not the length to order: {'; '.join(self.differing)}: not signed off."
        if self.lapsed:
            yield f"Calculated by hand for rows that have changed since or left the index: {', '.join(self.lapsed)}."


def hand_check(values: Sequence[HandValue], rows: Sequence[RowMemory]) -> HandCheck:
    """Return how the hand values agree with the rows that they were calculated for, in the state these are in."""
    by_state = {(row.key, row.well_key, row.fingerprint): row for row in rows}
    drawn, agreeing = 0, 0
    differing: list[str] = []
    lapsed: list[str] = []
    for value in values:
        row = by_state.get((value.key, value.well_key, value.inputs))
        if row is None:
            lapsed += [value.tag] if value.is_filled else []
            continue
        drawn += 1
        verdict = verdict_on(value.value, row)
        agreeing += verdict == AGREES
        if verdict not in {"", AGREES}:
            who = f", by {value.checked_by}" if value.checked_by else ""
            differing.append(f"{value.tag} {verdict} ({value.value}{who})")
    return HandCheck(drawn=drawn, agreeing=agreeing, differing=differing, lapsed=lapsed)
