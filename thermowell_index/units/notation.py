"""Characters and numbers of a dimension as many hands type them.

`plain_text` brings look-alike characters to one spelling; `read_number` reads one number, exactly, or refuses it.
"""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

HARD_SPACE = "\u00a0"

_HARD_SPACES = "\u00a0\u2007\u2009\u202f"
_ZERO_WIDTH = "\u200b\u200c\u200d\u2060\ufeff"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212"
_DOUBLE_QUOTES = "\u2033\u201c\u201d\u201e\u201f\u02ba\u3003"
_SINGLE_QUOTES = "\u2032\u2018\u2019\u201b\u00b4`\u02b9"
_SLASHES = "\u2044\u2215"
_FULL_WIDTH = {code: code - 0xFEE0 for code in range(0xFF01, 0xFF5F)}
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_SUPERSCRIPT = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_SUBSCRIPT = "₀₁₂₃₄₅₆₇₈₉"

_SPELLINGS = str.maketrans(
    _FULL_WIDTH
    | {ord(char): HARD_SPACE for char in _HARD_SPACES}
    | {ord(char): " " for char in _ZERO_WIDTH}
    | {ord(char): "-" for char in _DASHES}
    | {ord(char): '"' for char in _DOUBLE_QUOTES}
    | {ord(char): "'" for char in _SINGLE_QUOTES}
    | {ord(char): "/" for char in _SLASHES}
    # the blanks keep "9¼" from becoming 91/4
    | {ord(char): f" {fraction} " for char, fraction in _VULGAR.items()}
)
_DIGITS = str.maketrans(_SUPERSCRIPT + _SUBSCRIPT, "0123456789" * 2)
_RAISED_FRACTION = re.compile(f"([{_SUPERSCRIPT}]+)[/{_SLASHES}]([{_SUBSCRIPT}]+)")

# What a number may look like; `read_number` decides whether it is one.
FRACTION = r"[0-9]{1,3} ?/ ?[0-9]{1,3}"
MIXED = rf"[0-9]{{1,4}}(?: ?- ?| |\.){FRACTION}"
SINGLE = r"(?:[0-9]+(?:[.,'][0-9]+)*|\.[0-9]+)"
NUMBER = rf"(?:{MIXED}|{FRACTION}|{SINGLE})"

_MIXED = re.compile(r"(?:(?P<whole>[0-9]{1,4})(?: ?- ?| |\.))?(?P<over>[0-9]{1,3}) ?/ ?(?P<under>[0-9]{1,3})")
# the limits keep out what no cell holds as a number (and what float64 could not hold either)
_DECIMALS = r"(?:(?P<mark>[.,])(?P<decimals>[0-9]{1,20}))?"
_PLAIN = re.compile(rf"(?P<whole>[0-9]{{0,9}}){_DECIMALS}")
_GROUPED = re.compile(
    rf"(?P<whole>[1-9][0-9]{{0,2}}(?P<separator>[\u00a0 .,'])[0-9]{{3}}(?:(?P=separator)[0-9]{{3}})?){_DECIMALS}"
)
_THOUSANDS_OR_DECIMALS = re.compile(r"[1-9][0-9]{0,2}(?P<mark>[.,])[0-9]{3}")
_DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64, 128})


@dataclass(frozen=True, kw_only=True, slots=True)
class Number:
    """One number: `value` is None where thousands and decimals cannot be told apart (`is_ambiguous`)."""

    value: Fraction | None
    decimal_mark: str | None = None
    is_ambiguous: bool = False
    is_bare_fraction: bool = False


def plain_text(text: str) -> str:
    """Bring look-alike characters to one spelling, without changing what the text says.

    Dashes become `-`, primes and quotes `"` and `'` (two of these `"`), fraction characters ` 1/4 `, full-width
    characters ASCII, blanks one blank. Hard and thin blanks stay apart as U+00A0: they group digits. Line breaks stay.
    """
    spelled = _RAISED_FRACTION.sub(lambda match: f" {'/'.join(match.groups())} ".translate(_DIGITS), text)
    spelled = spelled.translate(_SPELLINGS).replace("''", '"')
    spelled = "".join(" " if unicodedata.category(char) == "Zs" and char != HARD_SPACE else char for char in spelled)
    return re.sub(r" +", " ", spelled).strip()


def read_number(text: str, *, decimal_mark: str | None = None) -> Number | None:
    """Read one number, exactly; None for anything that is not surely one number.

    Parameters
    ----------
    text : str
        Plain text (`plain_text`) with nothing beside the number.
    decimal_mark : str or None
        The mark of the column, where it is known; asked only when the text itself does not tell.

    Returns
    -------
    Number or None

    Notes
    -----
    Fractions are proper and their denominator is a power of two up to 128. Decimals and thousands:

    - a mark followed by other than three digits, after a zero or after four digits and more, is the decimal mark;
    - with two kinds of marks the last is the decimal mark; a mark that comes twice groups thousands;
    - `1.234` alone has a decimal point unless the column says comma; `1,234` alone is ambiguous unless it says either;
    - an apostrophe or a hard blank groups thousands; an ordinary blank does only before a decimal mark.
    """
    if match := _MIXED.fullmatch(text.replace(HARD_SPACE, " ")):
        return _mixed_fraction(match)
    if match := _THOUSANDS_OR_DECIMALS.fullmatch(text):
        return _thousands_or_decimals(text, mark=match["mark"], column_mark=decimal_mark)
    if match := _GROUPED.fullmatch(text):
        return _grouped(match)
    match = _PLAIN.fullmatch(text)
    if match is None or not text or text.startswith(","):
        return None
    return _decimal(match["whole"], match["decimals"], mark=match["mark"])


def _mixed_fraction(match: re.Match[str]) -> Number | None:
    over, under = int(match["over"]), int(match["under"])
    if under not in _DENOMINATORS or not 0 < over < under:
        return None
    value = int(match["whole"] or 0) + Fraction(over, under)
    return Number(value=value, is_bare_fraction=match["whole"] is None)


def _thousands_or_decimals(text: str, *, mark: str, column_mark: str | None) -> Number:
    if column_mark is None and mark == ",":
        return Number(value=None, is_ambiguous=True)
    is_decimal = mark == (column_mark or ".")
    return Number(value=Fraction(text.replace(mark, "." if is_decimal else "")))


def _grouped(match: re.Match[str]) -> Number | None:
    whole, separator, mark = match["whole"], match["separator"], match["mark"]
    if mark == separator or (separator == " " and mark is None):
        return None
    if mark is None and separator in ".,":
        mark = "," if separator == "." else "."
    return _decimal(whole.replace(separator, ""), match["decimals"], mark=mark)


def _decimal(whole: str, decimals: str | None, *, mark: str | None) -> Number:
    return Number(value=Fraction(f"{whole or 0}.{decimals or 0}"), decimal_mark=mark)
