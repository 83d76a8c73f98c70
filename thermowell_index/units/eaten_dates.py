"""Fractions that a spreadsheet took for a date: what was probably typed."""

import datetime as dt
import re

_UNPRINTED = re.compile(r'"[^"]*"|\\.|\[[^\]]*\]|[_*].')
_DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64})
_A_CENTURY = 100


def date_as_typed(when: dt.date, number_format: str) -> str | None:
    """Guess the fraction that was typed into a cell which now holds a date; a suggestion to show, never a length.

    Parameters
    ----------
    when : datetime.date or datetime.datetime
        The date in the cell. [-]
    number_format : str
        The cell's format code: tells which of day, month and year were typed, and in which order. [-]

    Returns
    -------
    str or None
        `1/4` for 4 January shown as day and month, `1/32` for January 1932 shown as month and year, `9-1/4` for
        1 September 2004 shown in full; None where no proper fraction explains the date. [-]

    Notes
    -----
    `1/4` typed becomes 4 January of the current year, `1/32` January 1932, `9-1/4` 1 September 2004 (two-digit years
    00-29 are 20yy). The whole is then the month, the numerator the day, the denominator the year's last two digits.
    Where the day comes first the two swap.

    Source: Microsoft KB Q65904 and learn.microsoft.com (two-digit years); 9-1/4 from an emulation.

    Examples
    --------
    >>> date_as_typed(dt.date(2004, 9, 1), "m/d/yyyy"), date_as_typed(dt.date(2026, 1, 4), "d-mmm")
    ('9-1/4', '1/4')
    """
    shown = _UNPRINTED.sub("", number_format).casefold()
    year = when.year % _A_CENTURY
    if "y" not in shown and {"d", "m"} <= set(shown):
        return _first_proper((when.month, when.day), (when.day, when.month))
    if "d" not in shown and {"y", "m"} <= set(shown):
        return _first_proper((when.month, year))
    orders = [(when.month, when.day), (when.day, when.month)]
    if 0 <= shown.find("d") < shown.find("m"):
        orders.reverse()
    return next((f"{whole}-{over}/{year}" for whole, over in orders if _is_proper(over, year)), None)


def _first_proper(*fractions: tuple[int, int]) -> str | None:
    return next((f"{over}/{under}" for over, under in fractions if _is_proper(over, under)), None)


def _is_proper(over: int, under: int) -> bool:
    return under in _DENOMINATORS and over < under
