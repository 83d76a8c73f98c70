"""The values of one row as they stand in a sentence of the working."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from numbers import Real
from typing import NamedTuple


class Term(NamedTuple):
    """One length of a sum: what it is, how much (less than zero is taken off), and where."""

    label: str
    length_mm: float
    place: str = ""


@dataclass(frozen=True, kw_only=True)
class Phrases:
    """A row and the way its lengths are shown."""

    row: Mapping[str, object]
    show: Callable[[float], str]

    def length(self, key: str) -> float:
        """Length or number under this key; NaN where it is missing, blank or no number."""
        value = self.row.get(key)
        return float(value) if isinstance(value, Real) else math.nan

    def word(self, key: str) -> str:
        """Text under this key; empty where it is missing or no text."""
        value = self.row.get(key)
        return str(value) if isinstance(value, str) else ""

    def knows(self, *keys: str) -> bool:
        """Whether there is a number under every one of these keys."""
        return not any(math.isnan(self.length(key)) for key in keys)

    def shown(self, key: str) -> str:
        """Length under this key in the row's unit."""
        return self.show(self.length(key))

    def term(self, label: str, key: str, *, place: str = "", sign: int = 1) -> Term:
        """Length under this key as a part of a sum."""
        return Term(label, sign * self.length(key), place)

    def equation(self, name: str, length_mm: float, terms: Sequence[Term]) -> str:
        """Write a result and the sum it comes from; parts of no length are left out, an unknown part leaves no sum."""
        result = f"{name} {self.show(length_mm)}"
        if any(math.isnan(term.length_mm) for term in terms):
            return result
        first, *others = terms
        text = f"{result} = {first.label} {self.show(first.length_mm)}{first.place}"
        for label, part_mm, place in others:
            if part_mm:
                text += f" {'plus' if part_mm > 0 else 'less'} {label} {self.show(abs(part_mm))}{place}"
        return text
