"""Wordings compared: what only tells where a row stands does not count."""

import re

_PLACES = re.compile(r"\b(?:rows?|cell|column)\s+[A-Z]{0,3}\d+(?:\s*(?:,|and|to)\s*\d+)*", re.IGNORECASE)
_COUNT = re.compile(r"^\d+ rows?(?:: )?")


def same_wording(one: str, other: str) -> bool:
    """Return whether two wordings say the same, wherever the rows stand that they speak of."""
    return plain(one) == plain(other)


def plain(text: str) -> str:
    """Return a wording without line breaks and row numbers."""
    return _PLACES.sub("row", " ".join(text.split()))


def detail(text: str) -> str:
    """Return what a finding on many rows says beside their count."""
    return plain(_COUNT.sub("", text))
