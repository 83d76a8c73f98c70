"""What the description of a store's item states in one string: length, diameter and thread of the sensor.

All wordings are common practice, no source.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from thermowell_index.reader.cells import read_length_text
from thermowell_index.stock_lengths import Measured, measured
from thermowell_index.threads import parse_thread
from thermowell_index.units.notation import NUMBER, plain_text

WIDEST_SHEATH_MM = 13.0
SHORTEST_SENSOR_MM = 25.0
LEAST_BARE_MM = 120
"""A bare number beside a word for length is of millimetres above this: no sensor is so many inches long."""
UNIT = r"(?:(?:MM|CM)(?=\W|X ?\d|$)|IN(?:CH(?:ES)?)?(?!\w)\.?|ZOLL(?!\w)|\"|'')"
START = r"(?:(?<![\w.,/-])(?<!\W[X\u00d7*] )(?<!\d[X\u00d7*] )|(?<=Ø))"
WIDE = r"(?:O\.?D\.?|DIA(?:M(?:ETER)?)?\.?)"
LONG = r"(?:LG\.?|LONG|LENGTH|LANG|LANGE)(?!\w)"
DIAMETER_BY_LENGTH = re.compile(
    rf"{START}(?P<diameter>{NUMBER})\s*(?P<diameter_unit>{UNIT})?\s*{WIDE}?\s*[X\u00d7*]\s*(?P<length>{NUMBER})\s*(?P<unit>{UNIT})",
    re.IGNORECASE,
)
LENGTH_NAMED = re.compile(
    rf"(?<!\w)(?:L\s*[=:]|LENGTH\s*[=:]?|LG\s*[=:]?)\s*(?P<length>{NUMBER})\s*(?P<unit>{UNIT})?"
    rf"|{START}(?P<before>{NUMBER})\s*(?P<before_unit>{UNIT})?\s*{LONG}",
    re.IGNORECASE,
)
ANY_LENGTH = re.compile(rf"{START}(?P<length>{NUMBER})\s*(?P<unit>{UNIT})", re.IGNORECASE)
# Figures that are no length of the sensor: its thread, its resistance.
THREAD = re.compile(
    r"(?:(?<![\w.,/-])|(?<=[\d\"]X))(?:1[ -]1/[24]|[13]/[248]|[12])\s*(?:\"|''|IN\b\.?)?(?:-\d+(?:[.,]5)?)?[\s-]*"
    r"(?:[MF]?NPT[MF]?|NPS[ML]|BSP ?[TP]?)(?!\w)(?:\s*\([MF]\))?"
    r"|\b(?:G|R|RC|RP) ?-?(?:1[ -]1/[24]|[13]/[248]|1)(?![\w/.])\"?(?: ?[AB](?!\w))?"
    r"|\bM ?\d\d? ?[X\u00d7*] ?\d(?:[.,]\d\d?)?(?![\w.,])",
    re.IGNORECASE,
)
RESISTANCE = re.compile(r"\b(?:PT|CU|NI)[ -]?\d+\b", re.IGNORECASE)
# What is not the sensor's own: a part that has a length of its own, and what the sensor is for or comes with.
PART = r"(?:LEADS?|CABLE|WIRES?|KABEL|NIPPLE|NIP|EXT\w*|NECK|TAIL|WELL|THERMOWELL|TW|U|BORE|HEX|CONDUIT|HEAD|BUSHING)"
PART_BEFORE = re.compile(rf"\b{PART}\b[ =:-]*$", re.IGNORECASE)
PART_BEHIND = re.compile(rf"[ -]*(?:(?:LG|LONG) )?{PART}\b", re.IGNORECASE)
BESIDE = re.compile(r"(?<!\w)(?:FOR|WITH|C/W|W/|FUR|MIT|POUR|AVEC|PARA|CON|PER)(?!\w).*", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class Described:
    """What a description states; not known where it states nothing or two things.

    `length` stands by a word or behind the diameter; `mentioned` is the one figure that can be no diameter.
    """

    length: Measured
    mentioned: Measured
    diameter: Measured
    thread: str


def described(text: str) -> Described:
    """Return what a description states of its item."""
    plain = plain_text(text)
    threads = [match[0] for match in THREAD.finditer(plain)]
    bare = RESISTANCE.sub("|", THREAD.sub("|", plain))
    pairs = list(_pairs(bare))
    own = list(_own_lengths(BESIDE.sub("", bare)))
    return Described(
        length=_only([*(length for _, length in pairs), *_named(bare)]),
        mentioned=_only(length for length in own if length.length_mm >= SHORTEST_SENSOR_MM),
        diameter=_only(diameter for diameter, _ in pairs)
        if pairs
        else _only(length for length in own if length.length_mm <= WIDEST_SHEATH_MM),
        thread=_only_thread(threads),
    )


def _pairs(plain: str) -> Iterator[tuple[Measured, Measured]]:
    """Yield each diameter X length; a unit behind the length alone is the diameter's too."""
    for match in DIAMETER_BY_LENGTH.finditer(plain):
        diameter = _read(match["diameter"], match["diameter_unit"] or match["unit"])
        length = _read(match["length"], match["unit"])
        if diameter.length_mm <= WIDEST_SHEATH_MM and length.length_mm >= SHORTEST_SENSOR_MM:
            yield diameter, length


def _named(plain: str) -> Iterator[Measured]:
    """Yield each length beside a word for it, of the sensor and not of its cable."""
    for match in LENGTH_NAMED.finditer(plain):
        number, unit = match["length"] or match["before"], match["unit"] or match["before_unit"]
        if not _is_of_a_part(plain, match):
            length = _read(number, unit or "mm")
            if unit or length.length_mm > LEAST_BARE_MM:
                yield length


def _own_lengths(plain: str) -> Iterator[Measured]:
    for match in ANY_LENGTH.finditer(re.sub(r"[\u00d7*X](?= ?[\d.])", "|", plain, flags=re.IGNORECASE)):
        if not _is_of_a_part(plain, match):
            yield _read(match["length"], match["unit"])


def _is_of_a_part(plain: str, match: re.Match[str]) -> bool:
    return bool(PART_BEFORE.search(plain[: match.start()]) or PART_BEHIND.match(plain[match.end() :]))


def _read(number: str, unit: str) -> Measured:
    return measured(read_length_text(f"{number} {unit}", None), None)


def _only(found: Iterable[Measured]) -> Measured:
    """Return the one length among the readings, not known where there is none or they differ."""
    by_length = {round(length.length_mm, 3): length for length in found if length.is_known}
    return next(iter(by_length.values())) if len(by_length) == 1 else Measured()


def _only_thread(threads: Iterable[str]) -> str:
    """Return the one thread that is named, whichever end it is on; empty where there are two."""
    known = {(thread.family, thread.size): text for text in threads if (thread := parse_thread(text))}
    return next(iter(known.values())) if len(known) == 1 else ""
