"""The digits of a cell, from first to last, with their unit: one length, several, or none that can be read."""

import re
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from thermowell_index.units.conversion import millimetres_in
from thermowell_index.units.notation import FRACTION, HARD_SPACE, MIXED, NUMBER, SINGLE, Number, read_number

_UNIT_WORDS = {
    "in": '" in. in inch inches ins zoll pouce pouces po po. pulgada pulgadas pulg pulg. polegada polegadas pol pol. '
    "pollice pollici duim",
    "mm": "mm mm. millimeter millimeters millimetre millimetres millimètre millimètres milímetro milímetros "
    "millimetro millimetri",
    "cm": "cm cm. centimeter centimeters centimetre centimetres",
    "m": "metre metres meter meters",
    "ft": "' ft. ft feet foot fuß fuss pied pieds piedi voet",
}
_UNITS = {word: unit for unit, words in _UNIT_WORDS.items() for word in words.split()}
METRIC = frozenset({"mm", "cm", "m"})
_AGREEING_WITHIN_IN = Fraction(1, 32)
_AGREEING_SHARE = Fraction(1, 10)
_INCHES_IN_A_FOOT = 12
_BOTH = 2

_LONGEST_FIRST = sorted(_UNITS, key=len, reverse=True)
# a capital M is no metre: "235 M" may be anything
UNIT = rf"(?:(?:(?i:{'|'.join(re.escape(word) for word in _LONGEST_FIRST)})|m)(?:(?<=[\"'.])|(?!\w)))"
_FOOT = r"(?:'|(?i:ft(?:\.(?![0-9]))?|feet|foot))"  # "1 ft.3 in" may be 1 ft 3 in or 1 ft 0.3 in
_INCHES = rf"(?:{MIXED}|{FRACTION}|(?:0|[1-9][0-9]?)(?:\.[0-9]+)?)"
_QUANTITY = rf"(?:[0-9]{{1,3}} ?{_FOOT} ?-? ?{_INCHES}|{NUMBER})"
_WITH_UNIT = rf"{NUMBER}(?:\s*{UNIT})?[)\]]?"
_WORDS_BETWEEN = "to|or|and|bis|oder|und|à|a|ou|et|o|y|e|of|en|tot|até"
_BETWEEN = rf"(?:\s*(?:[-/;&(\[~=…]|\.{{2,3}}|,\s)\s*|\s+(?:(?i:{_WORDS_BETWEEN})\s+)?)"

_FEET_AND_INCHES = re.compile(rf"(?P<feet>[0-9]{{1,3}}) ?{_FOOT} ?-? ?(?P<inches>{_INCHES})")
_PAIR = re.compile(rf"(?P<first>{_QUANTITY})\s*(?P<unit>{UNIT})(?:\s*[(\[/=;,]\s*|\s+)(?P<second>{_QUANTITY})")
# With a stroke, nothing that may be a mixed fraction with its blank lost: 51/2 for 5 1/2.
_BARE_PAIR = re.compile(
    rf"(?P<first>{_QUANTITY})(?:\s*[(\[]\s*| ?/ ?(?!(?:2|4|8|16|32|64|128)$))(?P<second>{_QUANTITY})"
)
# Below this a bare pair with a stroke may be a fraction [mm].
_LEAST_BARE_MM = 38
_SEVERAL = re.compile(rf"{_WITH_UNIT}(?:{_BETWEEN}{_WITH_UNIT})+")
_MIXED_OR_SINGLE = re.compile(rf"{SINGLE}|[0-9]+(?: ?- ?| |\.)[0-9]+ ?/ ?[0-9]+")
_DATE = re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}|[0-9]{1,2}/[0-9]{1,2}/(?:[0-9]{2}|[0-9]{4})")


class DimensionState(StrEnum):
    """What a dimension cell turned out to be."""

    VALUE = "value"
    MISSING = "missing"
    DOUBTFUL = "doubtful"
    RANGE = "range"
    UNREADABLE = "unreadable"


@dataclass(frozen=True, kw_only=True, slots=True)
class Quantity:
    """What the digits and their unit say; `number` is exact and stands in `unit`."""

    state: DimensionState
    number: Fraction | None = None
    unit: str | None = None
    decimal_mark: str | None = None
    is_ambiguous: bool = False


_SEVERAL_LENGTHS = Quantity(state=DimensionState.RANGE)
_UNREADABLE = Quantity(state=DimensionState.UNREADABLE)


def unit_named(word: str | None) -> str | None:
    """Give the unit that a unit word or mark stands for."""
    return None if word is None else _UNITS.get(word.casefold(), "m")


def read_quantity(digits: str, unit: str | None, *, decimal_mark: str | None) -> Quantity:
    """Read digits and unit as one length, feet and inches, one length in two units, or a range.

    Parameters
    ----------
    digits : str
        Plain text from the first digit of the cell to the last.
    unit : str or None
        The unit behind the last digit.
    decimal_mark : str or None
        The mark of the column, where known.

    Returns
    -------
    Quantity
        VALUE, RANGE or UNREADABLE.
    """
    one = _one_length(digits, unit, decimal_mark)
    if one is not None:
        return one
    blank = digits.replace(HARD_SPACE, " ")
    if match := _PAIR.fullmatch(blank):
        return _pair(match["first"], unit_named(match["unit"]), match["second"], unit, decimal_mark)
    if (match := _BARE_PAIR.fullmatch(blank)) and (pair := _bare_pair(match, unit, decimal_mark)):
        return pair
    if _MIXED_OR_SINGLE.fullmatch(blank) or _DATE.fullmatch(blank):
        return _UNREADABLE
    return _SEVERAL_LENGTHS if _SEVERAL.fullmatch(blank) else _UNREADABLE


def _one_length(digits: str, unit: str | None, decimal_mark: str | None) -> Quantity | None:
    if (match := _FEET_AND_INCHES.fullmatch(digits.replace(HARD_SPACE, " "))) and unit == "in":
        inches = read_number(match["inches"])
        return _feet_and_inches(int(match["feet"]), inches)
    number = read_number(digits, decimal_mark=decimal_mark)
    if number is None:
        return None
    if "'" in digits and unit in {"in", "ft"}:
        return _UNREADABLE  # 1'011": a thousand or a foot
    if number.is_ambiguous:
        return Quantity(state=DimensionState.UNREADABLE, is_ambiguous=True)
    if number.is_bare_fraction and unit in METRIC:
        return _SEVERAL_LENGTHS
    return Quantity(state=DimensionState.VALUE, number=number.value, unit=unit, decimal_mark=number.decimal_mark)


def _feet_and_inches(feet: int, inches: Number | None) -> Quantity:
    if inches is None or inches.value is None or inches.value >= _INCHES_IN_A_FOOT:
        return _UNREADABLE
    return Quantity(
        state=DimensionState.VALUE,
        number=feet * _INCHES_IN_A_FOOT + inches.value,
        unit="in",
        decimal_mark=inches.decimal_mark,
    )


def _pair(first: str, first_unit: str | None, second: str, second_unit: str | None, mark: str | None) -> Quantity:
    """One length in two units is the first, if they agree within 1/32 in; else these are two lengths.

    A second unit that is not written is the other one of inches and millimetres.
    """
    named = second_unit or ("mm" if first_unit == "in" else "in")
    one, other = _one_length(first, first_unit, mark), _one_length(second, named, mark)
    if one is None or other is None:
        return _UNREADABLE
    lengths_mm = [
        quantity.number * millimetres_in(quantity.unit)
        for quantity in (one, other)
        if quantity.number is not None and quantity.unit is not None
    ]
    is_pair = len(lengths_mm) == _BOTH and one.unit != other.unit
    within_mm = min(_AGREEING_WITHIN_IN * millimetres_in("in"), max(lengths_mm, default=Fraction(0)) * _AGREEING_SHARE)
    return one if is_pair and max(lengths_mm) - min(lengths_mm) <= within_mm else _SEVERAL_LENGTHS


def _bare_pair(match: re.Match[str], unit: str | None, mark: str | None) -> Quantity | None:
    """Two numbers, the first without a unit, are one length where one is the inches and the other the millimetres."""
    for units in (("in", "mm"), ("mm", "in")):
        if unit in {None, units[1]}:
            found = _pair(match["first"], units[0], match["second"], units[1], mark)
            if found.number is not None and found.number * millimetres_in(units[0]) >= _LEAST_BARE_MM:
                return found
    return None
