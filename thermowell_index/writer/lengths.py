"""Lengths as the cells of a sheet hold and show them.

What is shown is what is stored, to 1/64 in or better: a fraction format is used only for a length that is a whole
number of 64ths, because a format such as `# ?/?` would show 9-9/32 as 9 2/7.
"""

from enum import StrEnum

NANOMETRES_PER_MM = 1_000_000
NANOMETRES_PER_INCH = 25_400_000
SIXTY_FOURTH_NM = NANOMETRES_PER_INCH // 64

FRACTION = "# ??/??"
INCHES = "0.00##"
INCH_LIMIT = "0.00"
WHOLE_MM = "0"
MM = "0.0##"
MM_LIMIT = "0.0"


class Shown(StrEnum):
    """How a computed length is meant to be read."""

    LENGTH = "length"
    LIMIT = "limit"


def in_unit(length_mm: float, unit: str) -> float:
    """Return a length in inches or millimetres, snapped to the nanometre so that 9-1/4 in comes out as 9.25 exactly."""
    return _nanometres(length_mm) / (NANOMETRES_PER_INCH if unit == "in" else NANOMETRES_PER_MM)


def number_format(length_mm: float, unit: str, *, in_fractions: bool, shown: Shown) -> str:
    """Return the number format for a length; limits come out of tolerances and are always decimals."""
    nanometres = _nanometres(length_mm)
    if shown is Shown.LIMIT:
        return INCH_LIMIT if unit == "in" else MM_LIMIT
    if unit != "in":
        return MM if nanometres % NANOMETRES_PER_MM else WHOLE_MM
    if in_fractions and nanometres % SIXTY_FOURTH_NM == 0:
        return FRACTION
    return INCHES


def limit_text(length_mm: float, unit: str) -> str:
    """Return a length that comes out of tolerances as text: 0.01 in or 0.1 mm is as fine as it is meant."""
    return f"{in_unit(length_mm, unit):.{2 if unit == 'in' else 1}f} {unit}"


def _nanometres(length_mm: float) -> int:
    return round(length_mm * NANOMETRES_PER_MM)
