"""What a heading means: its words in one normal form, scored against the wordings of every field."""

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass, replace
from functools import lru_cache

from thermowell_index.heading_map import folded
from thermowell_index.reader.vocabulary import (
    ALTERING,
    CHECKS,
    COMPOUND,
    FILLERS,
    FROM_ELSEWHERE,
    MEASURED,
    ON_PAPER,
    ON_SITE,
    OTHER_THINGS,
    OWNERS,
    PHRASES,
    QUALIFIERS,
    REMARKING,
    SUPERSEDED,
    UNIT_WORDS,
    WANTED,
    WORDS,
)
from thermowell_index.table import NOT_MEASURED, Field, Kind

ALONE_IN_BRACKETS = re.compile(r"[\[(]\s*(?P<word>[A-Z]{1,2}|INS|[\"″”']+|DEG\.? ?[CF])\.?\s*[\])]")
WORD_DIVIDED = re.compile(r"(?<=\w)-[^\S\r\n]*[\r\n]+\s*(?=\w)")
PLUS = re.compile(r"[+&]|\b(?:plus|and|und|et|y|e|en)\b", re.IGNORECASE)
WORD = re.compile(r"[A-Z0-9]+(?:'[A-Z]+)?")


def _plain(text: str) -> str:
    folded = unicodedata.normalize("NFKD", text.replace("ß", "ss"))
    return "".join(mark for mark in folded if not unicodedata.combining(mark)).upper()


CAMEL = re.compile(r"(?<=[a-z])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")


def spelt_apart(text: str) -> str:
    """Return a heading with the words of a database's column name apart: at underscores, and at capitals inside a word.

    >>> spelt_apart("TW_OAL_IN"), spelt_apart("BoreDepth_mm")
    ('TW OAL IN', 'Bore Depth mm')
    """
    is_name = bool(re.fullmatch(r"\w+", text.strip())) and ("_" in text or bool(re.search(r"[a-z][A-Z]", text)))
    return CAMEL.sub(" ", text.replace("_", " ")).strip() if is_name else text.replace("_", " ")


@lru_cache(maxsize=4096)
def normal_words(text: str) -> tuple[str, ...]:
    """Return a heading's words in capitals, abbreviations spelt out, units, marks and filler words gone.

    >>> normal_words('T/W O/A LG. (mm)')
    ('WELL', 'OVERALL', 'LENGTH')
    """
    plain = _plain(spelt_apart(text))
    for pattern, meaning in PHRASES:
        plain = pattern.sub(meaning, plain)
    plain = ALONE_IN_BRACKETS.sub(_without_letters, plain)
    words: list[str] = []
    for word in WORD.findall(plain):
        words += _meaning(word)
    kept = [word for word in words if word not in FILLERS and word not in UNIT_WORDS]
    return tuple(kept)


def _without_letters(match: re.Match[str]) -> str:
    """Drop a letter or a unit that stands alone in brackets; keep an abbreviation that is known."""
    word = match["word"]
    return match[0] if word in WORDS and word != "INS" else " "


def _meaning(word: str) -> list[str]:
    """Return what one written word stands for; a compound is two words."""
    if word in WORDS:
        return WORDS[word].split()
    compound = COMPOUND.fullmatch(word)
    if compound is None:
        return [word]
    return [*_meaning(compound["first"]), *_meaning(compound["second"])]


@dataclass(frozen=True)
class Match:
    """A field that a heading may name, and how well the wording fits (1 is word for word)."""

    field: str
    score: float
    order: int


# Words that say how a figure was found: alone they may name a length, beside other words they name none.
SOURCES = MEASURED | ON_SITE | QUALIFIERS
LEAST_SCORE = 0.6
PART = 0.9
LETTERS_DROPPED = 0.9
WELL_DROPPED = 0.98
CHECK_SCORE = 0.5
OLD_SCORE = 0.7
# Words that beside a letter name no length: the letter may be of any.
TELLING_NOTHING = frozenset({"LENGTH", "DEPTH", "WELL"})


class HeadingDictionary:
    """The wordings of all fields, ready to be compared with headings."""

    def __init__(self, fields: Iterable[Field]) -> None:
        self._wordings: list[tuple[str, frozenset[str], int, int]] = []
        self._lengths: set[str] = set()
        self._doubtful: set[str] = set()
        self._of_wells: set[str] = set()
        self._of_sensors: set[str] = set()
        self._another: dict[str, frozenset[str]] = {}
        self._measured: dict[str, str] = {}
        for field in fields:
            if field.kind is Kind.LENGTH:
                self._lengths.add(field.name)
                self._of_wells |= {field.name} if field.group == "well" else set()
                self._of_sensors |= {field.name} if field.group == "sensor" else set()
                self._another[field.name] = _making_another(field)
            if field.measured:
                self._measured[field.name] = field.measured
                self._doubtful |= {field.name} if field.group == "assembly" else set()
            for order, wording in enumerate(field.headings):
                words = frozenset(normal_words(wording))
                self._wordings.append((field.name, words, len(words), order))
        self._names: Mapping[str, str] = {}
        self._memo: dict[tuple[str, ...], tuple[Match, ...]] = {}

    def with_names(self, names: Mapping[str, str]) -> "HeadingDictionary":
        """Return a dictionary that knows some headings, as `heading_map.folded` writes them, as the user names them."""
        named = copy(self)
        named._names = {**self._names, **names}  # noqa: SLF001 - a copy of its own
        return named

    def is_length(self, field: str) -> bool:
        """Whether a field holds lengths."""
        return field in self._lengths

    def is_of_wells(self, field: str) -> bool:
        """Whether a field holds lengths of the well."""
        return field in self._of_wells

    def matches(self, text: str) -> tuple[Match, ...]:
        """Return the fields that a heading may name, best first; those of equal score are equal candidates."""
        if folded(text) in self._names:
            return (Match(self._names[folded(text)], 1.0, 0),)
        if _adds_an_extension(text):
            return ()
        found = self._matches(normal_words(text))
        if WORD_DIVIDED.search(text):
            joined = self._matches(normal_words(WORD_DIVIDED.sub("", text)))
            return max(found, joined, key=lambda matches: matches[0].score if matches else 0.0)
        return found

    def _matches(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        if words not in self._memo:
            scored = self._as_wanted(words) if WANTED & set(words) else self._score(words)
            is_sure = any(match.score >= WELL_DROPPED for match in scored)
            if not is_sure and evidence_of([" ".join(words)]) == "measured":
                texts = tuple(match for match in scored if match.field not in self._lengths)
                self._memo[words] = self._as_measured(words) or texts
            else:
                others = (self._without_qualifiers, self._as_checked, self._as_old_sensor)
                self._memo[words] = scored or next(filter(None, (read(words) for read in others)), ())
        return self._memo[words]

    def _without_qualifiers(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        """Return what the words name when it is passed over where a figure comes from; for lengths also whose it is."""
        kept = tuple(word for word in words if word not in QUALIFIERS | OWNERS and not word.isdigit())
        found = self._score(kept) if kept != words else ()
        return tuple(match for match in found if match.field in self._lengths or not OWNERS & set(words))

    def _as_wanted(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        """Return what the words name when it is passed over that it is wanted; a well's length is not: the well stays.

        What is proposed is not what stands at the plant, save for a sensor's length.
        """
        kept = self._score(tuple(word for word in words if word not in WANTED))
        named = kept if "PROPOSED" not in words else tuple(match for match in kept if match.field in self._of_sensors)
        return tuple(match for match in named if match.field not in self._of_wells) or self._score(words)

    def _as_measured(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        """Return what the words name beside words for measuring, lengths as the field of what was measured.

        Words that name no length name nothing with these; what they name beside a length its values have to tell.
        """
        kept = [word for word in words if word not in SOURCES | OWNERS and not word.isdigit()]
        found = self._score(tuple(kept))
        named = [replace(match, field=self._measured.get(match.field) or match.field) for match in found]
        has_length = any(match.field in self._lengths for match in named)
        return tuple(match for match in named if match.field != NOT_MEASURED) if has_length else ()

    def _as_checked(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        """Return the lengths that the words name beside a word for checking: never the first column of a length."""
        kept = tuple(word for word in words if word not in CHECKS)
        found = self._score(kept) if kept != words else ()
        return tuple(replace(match, score=CHECK_SCORE) for match in found if match.field in self._lengths)

    def _as_old_sensor(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        """Return the length of an old sensor as that of the sensor in place: never the first column of that length."""
        kept = tuple(word for word in words if word not in SUPERSEDED)
        found = self._score(kept) if kept != words and SENSORS & set(words) else ()
        return tuple(replace(match, score=OLD_SCORE) for match in found if match.field in self._of_sensors)

    def speaks_of_remarks(self, text: str) -> bool:
        """Whether a heading names remarks in one of the many ways: client note, site comments, status and remarks."""
        if any(match.field == "remarks" and match.score == 1.0 for match in self.matches(text)):
            return True
        words = set(normal_words(text))
        return bool(words & REMARKING) and not words & (OTHER_THINGS - OWNERS)

    def names_an_old_length(self, text: str) -> bool:
        """Whether a heading names a length that another has taken the place of."""
        words = normal_words(text)
        kept = tuple(word for word in words if word not in SUPERSEDED)
        return kept != words and any(match.field in self._lengths for match in self._score(kept))

    def _score(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        if {"OVERALL", "WELL"} <= set(words) and EXTENSIONS & set(words):
            return ()  # the length of both together is that of neither
        best: dict[str, Match] = {}
        full = list(self._compare(frozenset(words), 1.0))
        if not any(match.score == 1.0 for match in full):
            full += [*self._without_well(words), *self._without_letters(words)]
        for match in full:
            if match.field not in best or match.score > best[match.field].score:
                best[match.field] = match
        return tuple(sorted(best.values(), key=lambda match: (-match.score, match.order)))

    def _without_well(self, words: tuple[str, ...]) -> Iterable[Match]:
        """Yield what the words name when it is not said that the well is meant; that counts for a little less."""
        rest = frozenset(words) - {"WELL"}
        return self._compare(rest, WELL_DROPPED) if "WELL" in words and rest else ()

    def _without_letters(self, words: tuple[str, ...]) -> Iterable[Match]:
        """Yield what the words name when single letters beside them are passed over; that counts for less."""
        spelt = frozenset(word for word in words if len(word) > 1)
        is_telling = bool(spelt - TELLING_NOTHING) and len(spelt) < len(set(words))
        return self._compare(spelt, LETTERS_DROPPED) if is_telling else ()

    def _spoiling(self, name: str) -> frozenset[str]:
        """Return the words beside a field's wording that make something else of it."""
        if name not in self._lengths:
            return OWNERS | OTHER_THINGS
        return ALTERING | OTHER_THINGS | self._another[name]

    def _is_spoilt(self, name: str, more: frozenset[str]) -> bool:
        """Whether words beside a field's wording make another thing of it, or may: a length bought or installed."""
        return bool(more & self._spoiling(name)) or (name in self._doubtful and not more <= HARMLESS)

    def _compare(self, words: frozenset[str], weight: float) -> Iterable[Match]:
        for name, wording, length, order in self._wordings:
            if wording == words:
                yield Match(name, weight, order)
            elif wording < words and not wording <= SOURCES and not self._is_spoilt(name, words - wording):
                score = weight * PART * length / len(words)
                if score >= LEAST_SCORE:
                    yield Match(name, score, order)


def _adds_an_extension(text: str) -> bool:
    """Whether a heading names a well plus what stands on it: the length of both together is that of neither.

    >>> _adds_an_extension("T/W + nipple lg"), _adds_an_extension("T/W nipple lg")
    (True, False)
    """
    sides = [set(normal_words(side)) for side in PLUS.split(text)]
    alone = [side for side in sides if "WELL" not in side]
    return len(alone) < len(sides) and any(EXTENSIONS & side for side in alone)


def evidence_of(texts: Sequence[str]) -> str:
    """Return what a column's heading says of where its figures come from: measured, as built, on paper, or nothing.

    >>> evidence_of(["AS FOUND", "O/A length"]), evidence_of(["Bore (field)"]), evidence_of(["FIELD", "Bore"])
    ('measured', 'measured', '')
    """
    words = {word for text in texts for word in normal_words(text)}
    lowest = set(normal_words(texts[-1])) if texts else set()
    if words & MEASURED or lowest & (ON_SITE - {"ON", "AT", "VOR"}):
        return "measured"
    if "BUILT" in words:
        return "as built"
    return "on paper" if words & ON_PAPER else ""


# A length of one of these is none of the well's.
SENSORS = frozenset({"SENSOR", "ELEMENT", "PROBE", "INSERT", "THERMOCOUPLE", "RTD"})

# Words beside an extension's length that leave open neither what it is nor how it was found.
HARMLESS = frozenset(
    {"TUBE", "WELL", "SENSOR", "ELEMENT", "HEAD", "PIPE", "NUMBER", "NIPPLE", "UNION", "EXTENSION", "LENGTH"}
)
EXTENSIONS = frozenset({"EXTENSION", "NIPPLE", "NECK", "UNION", "COUPLING"})
# Words that make another thing of a length of this group: whose it is, or from where it is measured.
MAKES_ANOTHER = {
    "well": SENSORS | EXTENSIONS | {"THREAD", "THERMOMETER", "TAG", "ORDERED", *WANTED},
    "assembly": frozenset({"OVERALL"}),
    "sensor": frozenset({"OVERALL"}),
    "order": EXTENSIONS | {"WELL", "OVERALL"},
}
BORE_DEPTHS = frozenset({"bore_depth", "measured_bore_depth"})


def _making_another(field: Field) -> frozenset[str]:
    """Return the words that make another thing of one length."""
    return MAKES_ANOTHER.get(field.group, frozenset()) | (FROM_ELSEWHERE if field.name in BORE_DEPTHS else frozenset())


def is_under_a_sensor(texts: Sequence[str]) -> bool:
    """Whether a group heading above a column speaks of a sensor and of no well."""
    words = {word for text in texts[:-1] for word in normal_words(text)}
    return bool(words & SENSORS) and "WELL" not in words


def speaks_of_an_extension(texts: Sequence[str]) -> bool:
    """Whether a column's heading, its groups included, speaks of what stands between the well and the sensor."""
    words = {word for text in texts for word in normal_words(text)}
    return bool(words & EXTENSIONS) and not words & (OTHER_THINGS | {"LAGGING", "INSULATION", "THREAD", "MATERIAL"})


OURS = frozenset(
    {"WELL", "SENSOR", "ELEMENT", "PROBE", "INSERT", "THERMOCOUPLE", "RTD", "EXTENSION", "NIPPLE", "NECK", "SHEATH"}
)


NOT_STANDING = SUPERSEDED | {"PROPOSED", "REPLACED"}


def is_of_another_thing(texts: Sequence[str]) -> bool:
    """Whether a group heading above a column speaks of a nozzle, a cable or the like, and of no well or sensor.

    So does one of what once stood there, or is to: "OLD WELL", "PROPOSED".
    """
    words = {word for text in texts[:-1] for word in normal_words(text)}
    return bool(words & NOT_STANDING) or (bool(words & OTHER_THINGS) and not words & OURS)


def stacked(texts: Sequence[str]) -> list[str]:
    """Return the readings of a column's heading texts: all levels joined, then fewer, the lowest alone at last."""
    levels = list(dict.fromkeys(text.strip() for text in texts if text.strip()))
    return [" ".join(levels[start:]) for start in range(len(levels))]
