"""The design basis: all assumptions and sensor profiles of a run, and which of them the user changed."""

import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from thermowell_index.assumptions import (
    ARRANGEMENTS,
    ASSUMPTIONS,
    GEOMETRY,
    MOUNTINGS,
    PRACTICE,
    Assumption,
    length_in_mm,
)

__all__ = [
    "ADJUSTABLE",
    "ADJUSTABLE_PROFILE",
    "ARRANGEMENTS",
    "BUILT_IN",
    "GEOMETRY",
    "MOUNTINGS",
    "PRACTICE",
    "PROFILES",
    "PROFILE_WORDS",
    "Assumption",
    "Basis",
    "RuleChoice",
    "SensorProfile",
    "in_capitals",
    "sections",
]


@dataclass(frozen=True, kw_only=True)
class SensorProfile:
    """One kind of sensor: what its length is measured from, what its spring does, which lengths it comes in.

    Lengths are text with a unit; an empty one is not known. `seat_offset` is from the mounting face to the seat plane,
    outward positive; the word `engagement` stands for minus the make-up of the mounting thread. `travel_least` and
    `travel_most` are the range of a travel that is not known, an empty `preload` or `reserve` the rule of thumb's.
    `probe_tolerances` are steps, up to which length which tolerance; none: that of the design basis. A row takes the
    profile whose `words` stand in its mounting cell, else the usual one of its mounting. `stated`: what the user gave.
    """

    name: str
    mounting: str
    thread: str
    plane: str
    seat_offset: str
    target_compression: str
    travel: str
    increment_inch: str
    increment_metric: str
    standard_lengths_mm: tuple[float, ...]
    source: str
    travel_least: str = ""
    travel_most: str = ""
    preload: str = ""
    reserve: str = ""
    contains_extension: str = "yes"
    spring_state: str = "relaxed"
    probe_tolerances: tuple[tuple[str, str], ...] = ()
    heads: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    # Not shown: what is stated shows in the values, and a set has no order to print it in.
    stated: frozenset[str] = field(default=frozenset(), repr=False)

    def length_mm(self, name: str) -> float:
        """Return one of the profile's lengths [mm], NaN where it is not known or is a word."""
        text = str(getattr(self, name))
        return length_in_mm(text) if text not in PROFILE_WORDS else float("nan")

    def tolerance_steps_mm(self) -> list[tuple[float, float]]:
        """Return up to which probe length which tolerance holds [mm], as stated; the last holds beyond it too."""
        return [(length_in_mm(length), length_in_mm(tolerance)) for length, tolerance in self.probe_tolerances]


PROFILE_WORDS = ("", "engagement", "middle")


def in_capitals(text: str) -> str:
    """Return a text in capitals without accents, blanks single: as words are compared."""
    plain = unicodedata.normalize("NFKD", text.replace("ß", "ss"))
    return " ".join("".join(mark for mark in plain if not unicodedata.combining(mark)).upper().split())


PROFILES: tuple[SensorProfile, ...] = (
    SensorProfile(
        name="spring_loaded_fitting",
        mounting="spring-loaded fitting",
        thread="taper",
        plane="from end of mounting thread to tip, spring relaxed",
        seat_offset="engagement",
        target_compression="engagement",
        travel="1 in",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="collar_fitting",
        mounting="spring-loaded fitting",
        thread="parallel",
        plane="from sealing face of the collar to tip, spring relaxed",
        seat_offset="",
        target_compression="middle",
        travel="1 in",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="spring_loaded_insert",
        mounting="spring-loaded insert",
        thread="any",
        plane="from underside of the terminal block to tip, spring relaxed, extension included",
        seat_offset="-1/2 in",
        target_compression="1/2 in",
        travel="1 in",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="flanged_insert",
        mounting="flanged insert",
        thread="any",
        plane="from underside of the plate to tip, springs relaxed, extension and head included",
        seat_offset="",
        target_compression="middle",
        travel="10 mm",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source="DIN 43735 plate and springs; travel from memory, to be confirmed",
    ),
    SensorProfile(
        name="fixed_fitting",
        mounting="fixed fitting",
        thread="taper",
        plane="from end of mounting thread to tip",
        seat_offset="engagement",
        target_compression="",
        travel="",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="adjustable_fitting",
        mounting="adjustable fitting",
        thread="any",
        plane="from end of sheath at the head to tip, the fitting clamped anywhere above its least length",
        seat_offset="",
        target_compression="",
        travel="",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
)

ADJUSTABLE = "adjustable fitting"
ADJUSTABLE_PROFILE = "adjustable_fitting"


@dataclass(frozen=True, kw_only=True)
class RuleChoice:
    """What the user's file says of one check: another severity, or that it is off and why; empty is not said."""

    severity: str = ""
    off: str = ""


@dataclass(frozen=True)
class Basis:
    """All assumptions and profiles of one run, and what the user chose of the checks."""

    entries: Mapping[str, Assumption]
    profiles: Mapping[str, SensorProfile]
    changed: frozenset[str] = frozenset()
    name: str = "built in"
    rules: Mapping[str, RuleChoice] = field(default_factory=dict)

    def length_mm(self, key: str) -> float:
        """Return the length of an entry [mm], NaN where it is left empty."""
        return self.entries[key].length_mm

    def number(self, key: str) -> float:
        """Return the number of an entry."""
        return float(self.entries[key].value)

    def choice(self, key: str) -> str:
        """Return the word of an entry, empty where none is chosen."""
        return str(self.entries[key].value)

    def __iter__(self) -> Iterator[Assumption]:
        return iter(self.entries.values())


BUILT_IN = Basis({entry.key: entry for entry in ASSUMPTIONS}, {profile.name: profile for profile in PROFILES})


def sections(basis: Basis) -> Iterable[tuple[str, list[Assumption]]]:
    """Yield each section's name with its entries, in the order of the dictionary."""
    grouped: dict[str, list[Assumption]] = {}
    for entry in basis:
        grouped.setdefault(entry.section, []).append(entry)
    return grouped.items()
