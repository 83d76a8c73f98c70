"""A length as a store gives it: in millimetres, with the unit that it was written in."""

import math
from dataclasses import dataclass

from thermowell_index.reader.cells import Reading
from thermowell_index.table import CellState
from thermowell_index.units import format_length, to_mm

INCHES = frozenset({"in", "ft"})


@dataclass(frozen=True, kw_only=True)
class Measured:
    """A length as the store gives it; NaN where it cannot be used."""

    length_mm: float = math.nan
    unit: str = ""

    @property
    def is_known(self) -> bool:
        """Whether it can be used."""
        return not math.isnan(self.length_mm)

    @property
    def text(self) -> str:
        """Return it in its own unit, empty where it is not known."""
        return format_length(self.length_mm, self.unit, fractions=self.unit == "in") if self.is_known else ""

    def differs(self, other: "Measured", within_mm: float) -> bool:
        """Whether both are known and further apart than two ways of writing one length."""
        return self.is_known and other.is_known and abs(self.length_mm - other.length_mm) > within_mm


def measured(reading: Reading, declared: str | None) -> Measured:
    """Return a reading as a length; a bare fraction is of an inch, whatever the heading says, so it is not used."""
    unit = reading.unit or declared
    if reading.state is not CellState.VALUE or not reading.number or reading.number < 0 or unit is None:
        return Measured()
    if reading.unit is None and unit not in INCHES and "/" in reading.text:
        return Measured()
    return Measured(length_mm=to_mm(reading.number, unit), unit="in" if unit in INCHES else "mm")
