"""Lengths between a unit and millimetres, and as a person writes them."""

import functools
import math
from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

_DECIMALS = {"mm": 2, "cm": 3, "m": 5, "in": 4, "ft": 5}
_SIXTY_FOURTHS = 64
_ON_A_SIXTY_FOURTH_IN = Fraction(1, 10**6)


@functools.cache
def _pint_length() -> "pint.Quantity[Fraction]":
    """One millimetre in exact arithmetic; pint costs 0.3 s, which a run that converts nothing need not wait for."""
    import pint  # noqa: PLC0415 - see above

    return pint.UnitRegistry(non_int_type=Fraction).Quantity(Fraction(1), "mm")


@functools.cache
def millimetres_in(unit: str) -> Fraction:
    """Give the exact number of millimetres in one unit of length.

    Parameters
    ----------
    unit : str
        `in`, `ft`, `mm`, `cm` or `m`. [-]

    Returns
    -------
    Fraction
        The factor. [mm]

    Raises
    ------
    ValueError
        The unit is none of the five.

    Notes
    -----
    Source: the unit definitions of pint.

    Examples
    --------
    >>> millimetres_in("in")
    Fraction(127, 5)
    """
    if unit not in _DECIMALS:
        raise ValueError(f"length unit {unit!r}, expected one of {', '.join(_DECIMALS)}")
    return 1 / Fraction(_pint_length().to(unit).magnitude)


def to_mm(number: Fraction | float, unit: str) -> float:
    """Convert a length to millimetres, rounded once, to the nearest float64.

    Parameters
    ----------
    number : Fraction or float
        Length in `unit`; NaN stays NaN. [unit]
    unit : str
        `in`, `ft`, `mm`, `cm` or `m`. [-]

    Returns
    -------
    float
        The length. [mm]

    Raises
    ------
    ValueError
        The unit is none of the five.

    Notes
    -----
    1 in = 25.4 mm exactly.

    Source: the unit definitions of pint, whose factor is used.

    Examples
    --------
    >>> to_mm(Fraction(37, 4), "in")
    234.95
    """
    if isinstance(number, float) and not math.isfinite(number):
        return number
    return float(Fraction(number) * millimetres_in(unit))


def format_length(mm: float, unit: str, *, fractions: bool) -> str:
    """Write a length in a unit as the trade does.

    Parameters
    ----------
    mm : float
        Length; NaN is written as `unknown`. [mm]
    unit : str
        `in`, `ft`, `mm`, `cm` or `m`. [-]
    fractions : bool
        Inches as whole and fraction where the length is on a 64th within 1e-6 in; else decimals. [-]

    Returns
    -------
    str
        Number and unit. [-]

    Raises
    ------
    ValueError
        The unit is none of the five.

    Notes
    -----
    Decimals are rounded to 0.01 mm, 0.0001 in or their like, trailing zeros left out.

    Source: common practice, no source.

    Examples
    --------
    >>> format_length(234.95, "in", fractions=True), format_length(234.95, "mm", fractions=False)
    ('9-1/4 in', '234.95 mm')
    """
    if not math.isfinite(mm):
        return "unknown"
    # 234.95 is held as the nearest binary number: its shortest decimal is what was meant
    length = Fraction(repr(float(mm))) / millimetres_in(unit)
    if fractions and unit == "in":
        nearest = Fraction(round(length * _SIXTY_FOURTHS), _SIXTY_FOURTHS)
        if abs(length - nearest) <= _ON_A_SIXTY_FOURTH_IN:
            return f"{_mixed(nearest)} in"
    return f"{_decimals(length, _DECIMALS[unit])} {unit}"


def _mixed(length: Fraction) -> str:
    sign = "-" if length < 0 else ""
    whole, rest = divmod(abs(length), 1)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole}-{rest}" if whole else f"{sign}{rest}"


def _decimals(length: Fraction, places: int) -> str:
    digits = f"{float(round(length, places)):.{places}f}".rstrip("0").rstrip(".")
    return "0" if digits == "-0" else digits
