"""What fitters wrote on First touch, carried over to the next run's list, or kept where its line is another one now."""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from thermowell_index.ooxml import Package
from thermowell_index.revisions.previous import TouchReading
from thermowell_index.writer.remark_sheets import TOUCH_BOXES, TOUCH_LINE
from thermowell_index.writer.sheet_table import lines_of_table
from thermowell_index.writer.written import digest, plain

TOUCH_SHEET = "first_touch"


def touch_line(texts: Mapping[str, str]) -> str:
    """Return what tells one line of the list from another: its tag, length, and what is good; never where it stands."""
    return digest("\x1f".join(plain(texts.get(name, "")) for name in TOUCH_LINE))


def read_touch_readings(package: Package, sheet: str | None) -> list[TouchReading]:
    """Return what is written in the boxes of the list, wherever a person moved its rows and columns."""
    if sheet is None:
        return []
    names = {name.casefold(): name for name in (*TOUCH_LINE, *TOUCH_BOXES)}
    lines = lines_of_table(package, package.read(sheet), [name.casefold() for name in TOUCH_LINE], names)
    found = []
    for line in lines or ():
        texts = {names[name]: text for name, text in line.shown.items()}
        written = tuple((name, texts[name]) for name in TOUCH_BOXES if texts.get(name))
        if written and texts.get("Tag"):
            length = texts.get("Probe length", "")
            found.append(TouchReading(line=touch_line(texts), tag=texts["Tag"], length=length, written=written))
    return found


def placed(
    lines: Sequence[str], readings: Sequence[TouchReading]
) -> tuple[dict[int, TouchReading], list[TouchReading]]:
    """Return the reading of each line of this run's list, by its place, and those that belong to none of them."""
    waiting: defaultdict[str, list[TouchReading]] = defaultdict(list)
    for reading in readings:
        waiting[reading.line].append(reading)
    kept = {place: waiting[line].pop(0) for place, line in enumerate(lines) if waiting.get(line)}
    return kept, [reading for line in waiting.values() for reading in line]


def as_own_line(reading: TouchReading) -> str:
    """Return a reading as a line for the Remarks register."""
    said = "; ".join(f"{name}: {text}" for name, text in reading.written)
    return f"First touch, {reading.tag}, probe length {reading.length}: {said}"


def in_words(lost: Sequence[TouchReading]) -> str:
    """Return which readings are no longer on the list, in a sentence."""
    tags = ", ".join(dict.fromkeys(reading.tag for reading in lost))
    return f"First touch: what was found for {tags} stands in the Remarks register, for the line is another one now"
