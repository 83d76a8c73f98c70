"""What a tag says: its function, and the loop it belongs to.

Function letters: ISA-5.1, first letter T for temperature, then E element, W well, T transmit, I indicate, P test point,
G glass or gauge (read in public summaries of the standard).
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from thermowell_index.records.words import folded

DASHES = re.compile("[\u2010-\u2015\u2212]")
SLASHED = re.compile(r"(?<![A-Z])T ?/ ?([EWT])(?=[-_ ./]*\d)")  # T/W-101 is TW-101
GROUP = re.compile(r"(?<![A-Z])([A-Z]{1,6})(?=[-_ ./]*\d)")
NUMBER_FIRST = re.compile(
    r"(?P<before>(?:.*[^0-9])?)(?P<number>\d{2,})[-_ ./]*(?P<letters>[A-Z]{2,6})(?:[-_ ./]+(?P<suffix>[A-Z]))?"
)
TEMPERATURE = re.compile(r"T[DMJKXZ]?[EWTIGPSCVYRAHLXZU]{1,5}|TD")
# First letters of other measured quantities with functions behind them.
# A measuring point of a power plant's identification system: system, number, CT for temperature, number [memory].
POWER_PLANT_POINT = re.compile(r"(?<![A-Z])[A-Z]{3} ?\d{2} ?(?P<kind>C[A-Z]) ?\d{3}(?!\d)")
OTHERS = re.compile(
    r"(?:P|PD|F|FF|FQ|L|LD|A|S|V|Z|H|X|W|WD|Q|J|U|I|D)[ACEGIRSTVYHLQXZO]{1,4}|(?:FO|RO|PSE|PSV|PRV|BDV|ESDV|SDV|XV|MOV|HV)"
)


@dataclass(frozen=True, slots=True)
class TagParts:
    """A tag taken apart: `letters` are its function letters, `loop` is the same for all functions of one loop."""

    key: str
    letters: str
    loop: str
    loop_without_suffix: str
    number: str
    suffix: str
    count: int

    @property
    def role(self) -> str:
        """Return what the letters say the row is.

        Element, well, kin (of a temperature loop), gauge, test point, other or unknown.
        """
        if not self.letters:
            return "unknown"
        if self.letters == "CT":
            return "element"
        if not self.letters.startswith("T") or not TEMPERATURE.fullmatch(self.letters):
            return "other"
        rest = self.letters[1:].lstrip("D")
        if "E" in rest:
            return "element"
        if rest.startswith("W"):
            return "well"
        return "other" if rest.endswith("V") else {"G": "gauge", "P": "test point"}.get(rest, "kin")


def _number_first(plain: str, key: str) -> TagParts:
    """Return the parts of a tag whose letters stand behind its number, as in 101-TE or 12-101-TW-A."""
    match = NUMBER_FIRST.fullmatch(plain)
    if match is None or not TEMPERATURE.fullmatch(match["letters"]):
        return TagParts(key, "", key, key, key, "", 1)
    prefix = re.sub(r"[^A-Z0-9]", "", match["before"])
    digits, suffix = match["number"].lstrip("0"), match["suffix"] or ""
    base = f"{prefix}|T|{digits}"
    return TagParts(key, match["letters"], f"{base}|{suffix}", base, digits, suffix, 1)


@lru_cache(maxsize=262144)
def take_apart(tag: str) -> TagParts:
    """Return the parts of a tag; dashes, blanks and case make no difference."""
    plain = SLASHED.sub(r"T\1", DASHES.sub("-", folded(tag)))
    key = re.sub(r"[\s-]", "", plain)
    point = POWER_PLANT_POINT.search(plain)
    if point:
        return TagParts(key, "CT" if point["kind"] == "CT" else "", key, key, key, "", 1)
    found = [match for match in GROUP.finditer(plain) if TEMPERATURE.fullmatch(match.group(1))]
    if not found:
        found = [match for match in GROUP.finditer(plain) if OTHERS.fullmatch(match.group(1))]
    if not found:
        return _number_first(plain, key)
    elements = [match for match in found if match.group(1) in {"TE", "TDE"}]
    chosen = (elements or [found[-1] if TEMPERATURE.fullmatch(found[-1].group(1)) else found[0]])[-1]
    behind = [match.start() for match in found if match.start() > chosen.start()]
    before, after = plain[: chosen.start()], plain[chosen.end() : min(behind, default=len(plain))].rstrip("/&,+ ")
    prefix = re.sub(r"[^A-Z0-9]", "", before)
    number_and_rest = re.sub(r"[\s\-_.]", "", after)
    number = re.match(r"\d+", number_and_rest)
    digits = number.group().lstrip("0") if number else ""
    suffix = number_and_rest[number.end() :] if number else number_and_rest
    twins = re.fullmatch(r"([A-Z])((?:[/&,+][A-Z])+)", suffix)
    first = chosen.group(1)[0]
    base = f"{prefix}|{first}|{digits}"
    return TagParts(
        key=key,
        letters=chosen.group(1),
        loop=f"{base}|{suffix}",
        loop_without_suffix=base,
        number=digits,
        suffix=suffix,
        count=1 + len(re.findall(r"[A-Z]", twins.group(2))) if twins else 1,
    )
