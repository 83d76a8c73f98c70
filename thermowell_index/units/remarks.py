"""What the words in a dimension cell do to it: no value at all, a confirmed one, or a doubtful one."""

import re
import unicodedata
from enum import StrEnum

from thermowell_index.units.notation import plain_text
from thermowell_index.units.vocabulary import CONFIRMING, DOUBTING, NEUTRAL, PLACEHOLDERS


class Remark(StrEnum):
    """What the words beside a number do to it."""

    CONFIRMING = "confirming"
    DOUBTING = "doubting"
    NEUTRAL = "neutral"


_REMARKS = (
    dict.fromkeys(NEUTRAL, Remark.NEUTRAL)
    | dict.fromkeys(CONFIRMING, Remark.CONFIRMING)
    | dict.fromkeys(DOUBTING, Remark.DOUBTING)
)
_LONGEST_PHRASE = max(len(phrase.split()) for phrase in _REMARKS)
_NUMBERED_HOLD = re.compile(r"hold(?: no| #)? ?[0-9]{1,2}")
_ONLY_MARKS = re.compile(r"[-_./\\?… ]*")


def canonical(text: str) -> str:
    """Small letters without accents, their dots and slashes; dashes and line breaks are blanks."""
    letters = unicodedata.normalize("NFKD", text.casefold())
    letters = "".join(char for char in letters if not unicodedata.combining(char))
    return " ".join(re.sub(r"(?<=\w)(?:\.|/(?=\w))", "", re.sub(r"[-_]", " ", letters)).split())


def is_placeholder(text: str) -> bool:
    """Say whether a text stands for a value that is not there: blank, TBD, HOLD, n/a, `-`, `?` and their like.

    Examples
    --------
    >>> is_placeholder("T.B.D."), is_placeholder("k. A."), is_placeholder("9.25")
    (True, True, False)
    """
    plain = plain_text(text)
    if _ONLY_MARKS.fullmatch(plain):
        return True
    words = canonical(plain.strip("()[]<> ").rstrip("?!: "))
    return words in PLACEHOLDERS or _NUMBERED_HOLD.fullmatch(words) is not None


def remarks_of(text: str, *, dividers: str) -> frozenset[Remark] | None:
    """Tell what the words beside a number say; None as soon as one of them is not known.

    Parameters
    ----------
    text : str
        Plain text before or after a number.
    dividers : str
        Punctuation that only parts the words there; any other is refused (a leading `-` is a sign, not a divider).

    Returns
    -------
    frozenset of Remark or None
    """
    parted = re.sub(r"(?<=[^\W\d])-(?=[^\W\d])", " ", text).translate({ord(mark): " " for mark in dividers})
    words = canonical(re.sub(r"([?*~≈≅ø⌀φ∅])\1*", r" \1 ", parted.casefold())).split()
    if "-" in parted or (text.strip() and not words):
        return None
    found: set[Remark] = set()
    while words:
        for length in range(min(_LONGEST_PHRASE, len(words)), 0, -1):
            if remark := _REMARKS.get(" ".join(words[:length])):
                found.add(remark)
                words = words[length:]
                break
        else:
            return None
    return frozenset(found)
