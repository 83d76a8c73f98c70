"""Numeric cells: the number, and the unit and text that their number format prints around it."""

import math
import re
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache

from thermowell_index.units.dimension import Dimension, parse_dimension
from thermowell_index.units.quantities import DimensionState

_LITERAL = re.compile(r'"([^"]*)"|\\(.)')
_INVISIBLE = re.compile(r"\[[^\]]*\]|[_*].")
_PLACES = re.compile(r"[#0?](?:.*[#0?1-9])?")
_NUMBER_PLACES = re.compile(r"[#0?.,/ 1-9]+(?:E[+-]0+)?")
_FRACTION_PLACES = re.compile(r"(?P<whole>[#0?]+)? *(?P<over>[#0?]+) ?/ ?(?P<under>[#0?]{1,5}|[1-9][0-9]{0,4})")
_DECIMAL_PLACES = re.compile(r"(?:#,##|#)?0+(?:\.(?P<fixed>0{0,9})(?P<optional>#{0,9}))?")
_GENERAL = frozenset({"", "general", "@"})
_BEYOND_ANY_LENGTH = 1e9
_LONGEST_FORMAT = 255  # what a spreadsheet accepts [memory]
_FIRST_STAND_IN = 0xE000  # private use: no format contains these characters


@dataclass(frozen=True, kw_only=True, slots=True)
class _Format:
    """One section of a number format: printed text before, digit places, printed text behind."""

    lead: str = ""
    places: str = ""
    tail: str = ""


@lru_cache(maxsize=65536)
def dimension_of_number(value: float, number_format: str) -> Dimension:
    """Read a numeric cell: what it stores, with the unit and the remarks that its number format prints.

    Parameters
    ----------
    value : float
        The stored number, in the printed unit or, without one, in the unit the caller finds elsewhere. [unit]
    number_format : str
        The cell's format code. [-]

    Returns
    -------
    Dimension
        UNREADABLE for a negative number or one beyond any length, and for a format that prints no plain number (a
        date, a percentage, a text of unknown meaning). [unit]

    Notes
    -----
    A spreadsheet keeps 15 significant digits; the number is the exact fraction that these digits write.

    Source: common practice, no source.

    Examples
    --------
    >>> dimension_of_number(9.1875, '0.00" in"').number, dimension_of_number(9.1875, '0.00" in"').unit
    (Fraction(147, 16), 'in')
    """
    digits = f"{value:.15g}"
    printed = _printed(value, number_format)
    if printed is None or not 0 <= value < _BEYOND_ANY_LENGTH:
        return Dimension(state=DimensionState.UNREADABLE, text=digits)
    words = parse_dimension(f"{printed.lead}1{printed.tail}")
    return Dimension(
        state=words.state,
        text=f"{printed.lead}{digits}{printed.tail}".strip(),
        number=None if words.number is None else Fraction(digits),
        unit=words.unit,
        note=words.note,
    )


def shown_number(value: float, number_format: str) -> Fraction | None:
    """Give the number that a fraction or fixed-decimal format shows; None for any other format.

    Parameters
    ----------
    value : float
        The stored number; negative and endless ones, and those beyond any length, give None. [unit]
    number_format : str
        The cell's format code. [-]

    Returns
    -------
    Fraction or None
        The shown number. [unit]

    Notes
    -----
    A format with free denominator shows the last continued-fraction convergent that has room in its places:
    123.456 is shown as 123 1/2, 123 26/57, 123 57/125 with one, two and three.

    Source: these three published at support.microsoft.com, "Display numbers as fractions".

    Examples
    --------
    >>> shown_number(9.28125, "# ?/?")
    Fraction(65, 7)
    """
    shown = _shown(value, number_format)
    return None if shown is None else shown[0]


def shown_text(value: float, number_format: str) -> str | None:
    """Write the number that a fraction or fixed-decimal format shows; None for any other format.

    Parameters
    ----------
    value : float
        The stored number; negative and endless ones, and those beyond any length, give None. [unit]
    number_format : str
        The cell's format code. [-]

    Returns
    -------
    str or None
        The digits as shown, without grouping marks and printed words. [unit]

    Notes
    -----
    See `shown_number`. A fixed denominator is not reduced.

    Source: support.microsoft.com, "Display numbers as fractions".

    Examples
    --------
    >>> shown_text(9.19, "# ?/?"), shown_text(0.25, "# ?/16"), shown_text(9.25, "0.0")
    ('9 1/5', '4/16', '9.3')
    """
    shown = _shown(value, number_format)
    return None if shown is None else shown[1]


def _printed(value: float, number_format: str) -> _Format | None:
    """Take the section for a positive number or zero apart; None where it prints no plain number."""
    if number_format.strip().casefold() in _GENERAL:
        return _Format(places="0")
    if len(number_format) > _LONGEST_FORMAT:
        return None
    literals: list[str] = []

    def stand_in(match: re.Match[str]) -> str:
        literals.append(match[1] if match[2] is None else match[2])
        return "".join(chr(_FIRST_STAND_IN + len(literals) - 1))

    def restored(text: str) -> str:
        return re.sub("[\ue000-\uf8ff]", lambda match: literals[ord(match[0]) - _FIRST_STAND_IN], text)

    sections = _INVISIBLE.sub("", _LITERAL.sub(stand_in, number_format)).split(";")
    section = sections[2] if value == 0 and len(sections) > 2 else sections[0]  # noqa: PLR2004 - the third is zero's
    places = _PLACES.search(section)
    if places is None or not _NUMBER_PLACES.fullmatch(restored(places[0])):
        return None
    return _Format(
        lead=restored(section[: places.start()]), places=restored(places[0]), tail=restored(section[places.end() :])
    )


def _shown(value: float, number_format: str) -> tuple[Fraction, str] | None:
    printed = _printed(value, number_format)
    if printed is None or not 0 <= value < _BEYOND_ANY_LENGTH:
        return None
    stored = Fraction(f"{value:.15g}")
    if match := _FRACTION_PLACES.fullmatch(printed.places):
        return _shown_fraction(stored, whole_places=match["whole"], under=match["under"])
    match = _DECIMAL_PLACES.fullmatch(printed.places)
    if match is None or number_format.strip().casefold() in _GENERAL:
        return None
    fixed, optional = len(match["fixed"] or ""), len(match["optional"] or "")
    digits = Decimal(f"{value:.15g}").quantize(Decimal(1).scaleb(-fixed - optional), rounding=ROUND_HALF_UP)
    text = f"{digits:f}"
    while optional and text.endswith("0"):
        text, optional = text[:-1], optional - 1
    return Fraction(digits), text.rstrip(".")


def _shown_fraction(stored: Fraction, *, whole_places: str | None, under: str) -> tuple[Fraction, str]:
    if under.isdigit() and int(under):
        over, denominator = int(stored * int(under) + Fraction(1, 2)), int(under)
    else:
        shown = _last_convergent(stored, largest_denominator=10 ** len(under) - 1)
        over, denominator = shown.numerator, shown.denominator
    whole, rest = divmod(over, denominator) if whole_places else (0, over)
    fraction = f"{rest}/{denominator}" if rest or not whole_places else ""
    keeps_whole = whole or not fraction or "0" in (whole_places or "")
    text = " ".join(part for part in (str(whole) if keeps_whole else "", fraction) if part)
    return Fraction(over, denominator), text


def _last_convergent(number: Fraction, *, largest_denominator: int) -> Fraction:
    before, last = (1, 0), (math.floor(number), 1)
    rest = number - math.floor(number)
    while rest:
        step = math.floor(1 / rest)
        rest = 1 / rest - step
        following = (step * last[0] + before[0], step * last[1] + before[1])
        if following[1] > largest_denominator:
            break
        before, last = last, following
    return Fraction(*last)
