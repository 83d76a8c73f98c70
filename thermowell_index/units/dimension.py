"""One dimension cell: a value, a missing one, a doubtful one, several, or nothing that can be read."""

import re
from dataclasses import dataclass
from fractions import Fraction

from thermowell_index.units.notation import HARD_SPACE, plain_text
from thermowell_index.units.quantities import UNIT, DimensionState, read_quantity, unit_named
from thermowell_index.units.remarks import Remark, is_placeholder, remarks_of

_FIRST_DIGIT = re.compile(r"\.?[0-9]")
_LETTER_AND_POINT = re.compile(r"[^\W\d_ØøΦφ]\.$")
_TAIL = re.compile(rf"\.?\s*(?P<unit>{UNIT})?(?P<rest>.*)", re.DOTALL)
# The day or the year in a note in brackets: "(measured 10/81)"; "9/16" may be a fraction and is none.
_DATE_IN_NOTE = re.compile(
    r"(?<=[^\W\d_'.])['.]?\s+(?:(?:in|on|am|im|le|el|il|op|em)\s+)?"
    r"(?:\d{1,2}/(?!(?:02|04|08|16|32|64)\b)\d\d|\d{1,2}/(?:19|20)\d\d|(?:\d{1,2}[./-]){2}(?:19|20)?\d\d|(?:19|20)\d\d)"
    r"(?=\s*[)\]]\s*$)",
    re.IGNORECASE,
)
_OPENING = ("(", "[")
_CLOSING = (")", "]")
_ONE_BRACKET = re.compile(r"[(\[]([^()\[\]]*)[)\]]?")


@dataclass(frozen=True, kw_only=True, slots=True)
class Dimension:
    """What one cell says.

    Attributes
    ----------
    state : DimensionState
        Only VALUE is a length to work with.
    text : str
        The cell as written.
    number : Fraction or None
        The exact number, in `unit`; given for VALUE and DOUBTFUL. [unit]
    unit : str or None
        `in`, `mm`, `cm`, `m` or `ft` where the cell says so itself. Feet and inches are given in inches.
    note : str
        The confirming or doubting note, as written.
    decimal_mark : str or None
        `.` or `,` where the text leaves no doubt which one it uses: evidence for its column.
    ambiguous : bool
        Unreadable only because thousands and decimals cannot be told apart: `1,234`.
    """

    state: DimensionState
    text: str
    number: Fraction | None = None
    unit: str | None = None
    note: str = ""
    decimal_mark: str | None = None
    ambiguous: bool = False


@dataclass(frozen=True, kw_only=True, slots=True)
class _Cell:
    """A cell taken apart; `is_bracketed` where number and unit stand in brackets.

    `has_shared_point` where a point ends a word and may begin the number: "dia.6", "ca.230".
    """

    lead: str
    digits: str
    unit: str | None
    rest: str
    is_bracketed: bool
    has_shared_point: bool


def parse_dimension(text: str, *, decimal_mark: str | None = None) -> Dimension:
    """Read a dimension as typed: an exact number and its unit, or the reason why not.

    Parameters
    ----------
    text : str
        The cell. [-]
    decimal_mark : str or None
        `.` or `,` where the column has settled it; None while it is unknown. [-]

    Returns
    -------
    Dimension
        The number is exact, in the unit written in the cell, else in the unit the caller finds elsewhere. [unit]

    Notes
    -----
    All digits of the cell together must be one number (or feet and inches, or one length in two units), and every
    word beside it must be known; anything else is refused, never read in part.

    - Fractions: `9 1/4`, `9-1/4`, `9.1/4`, `9¼`, proper, with a power of two up to 128 below the line. Two numbers
      that are no such fraction (`230/250`) are a range, and so is a bare fraction of a metric unit (`6/8 mm`).
    - `235,5`, `9.25`, `1.234,5` tell decimals themselves. `1.234` is a decimal point unless `decimal_mark` is a
      comma. `1,234` is ambiguous unless `decimal_mark` is given: with `.` it is 1234, with `,` 1.234. `0,250` and
      `1234,567` can only be decimals. An ordinary blank parts two numbers (`230 240`) unless decimals follow
      (`1 234,5`); a hard or thin blank groups thousands.
    - The date of a note in brackets, `9.25 (measured 10/81)`, is no second number.
    - Two lengths with two units that agree within 1/32 in and a tenth are the first, else a range. So are two numbers
      of which one is the inches and the other the millimetres: `9.25 (235)`, `235 / 9.25`.

    Source: common practice, no source.

    Examples
    --------
    >>> dimension = parse_dimension('9-1/4"')
    >>> dimension.number, dimension.unit
    (Fraction(37, 4), 'in')
    >>> str(parse_dimension("230/250").state), str(parse_dimension("~230").state)
    ('range', 'doubtful')
    """
    plain = _DATE_IN_NOTE.sub("", _unwrapped(plain_text(text)))
    if is_placeholder(plain):
        return Dimension(state=DimensionState.MISSING, text=text)
    cell = _take_apart(plain)
    remarks = None if cell is None else _remarks_beside(cell)
    if cell is None or remarks is None:
        return Dimension(state=DimensionState.UNREADABLE, text=text)
    quantity = read_quantity(cell.digits, cell.unit, decimal_mark=decimal_mark)
    is_value = quantity.state is DimensionState.VALUE
    is_doubtful = is_value and Remark.DOUBTING in remarks
    return Dimension(
        state=DimensionState.DOUBTFUL if is_doubtful else quantity.state,
        text=text,
        number=quantity.number,
        unit=quantity.unit,
        note=_note(cell) if is_value and remarks - {Remark.NEUTRAL} else "",
        decimal_mark=quantity.decimal_mark,
        ambiguous=quantity.is_ambiguous,
    )


def _unwrapped(plain: str) -> str:
    """Without the apostrophe that marks a cell as text, and without quotes around the whole cell."""
    if plain.startswith("'") and not plain.endswith("'"):
        plain = plain[1:].lstrip()
    if len(plain) > 1 and plain.startswith('"') and plain.endswith('"'):
        plain = plain[1:-1].replace('""', '"').strip()
    return plain


def _take_apart(plain: str) -> _Cell | None:
    first = _FIRST_DIGIT.search(plain)
    if first is None:
        return None
    last = max(index for index, char in enumerate(plain) if char in "0123456789") + 1
    has_shared_point = _LETTER_AND_POINT.search(plain, 0, first.start() + 1) is not None
    start = first.start() + has_shared_point
    lead, digits = plain[:start].rstrip(f" {HARD_SPACE}"), plain[start:last]
    tail = _TAIL.match(plain, last)
    unit, rest = (None, plain[last:]) if tail is None else (tail["unit"], tail["rest"].strip())
    is_bracketed = lead.endswith(_OPENING) and rest.startswith(_CLOSING)
    if is_bracketed or (any(bracket in digits for bracket in _OPENING) and rest.startswith(_CLOSING)):
        rest = rest[1:]
    return _Cell(
        lead=lead[:-1] if is_bracketed else lead,
        digits=digits,
        unit=unit_named(unit),
        rest=rest,
        is_bracketed=is_bracketed,
        has_shared_point=has_shared_point,
    )


def _remarks_beside(cell: _Cell) -> frozenset[Remark] | None:
    """Every word beside the number, known; a number in brackets is a reference, not a dimension to work to."""
    before = remarks_of(cell.lead, dividers=":()")
    behind = remarks_of(cell.rest, dividers=":()[],;-")
    if before is None or behind is None or (cell.has_shared_point and Remark.DOUBTING not in before):
        return None
    return before | behind | (frozenset({Remark.DOUBTING}) if cell.is_bracketed else frozenset())


def _note(cell: _Cell) -> str:
    behind = cell.rest.strip(" ,;:-\n")
    if bracketed := _ONE_BRACKET.fullmatch(behind):
        behind = bracketed[1]
    return " ".join(part for part in (cell.lead.strip(" :"), behind) if part) or "in brackets"
