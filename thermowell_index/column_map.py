"""The user's heading map: a file that says which heading is which field, for every sheet or for one."""

import tomllib
from collections.abc import Mapping
from pathlib import Path

from thermowell_index.dictionary import FIELD
from thermowell_index.errors import SettingsError
from thermowell_index.heading_map import ANY_SHEET, IGNORE, MappedHeading
from thermowell_index.table import Kind
from thermowell_index.units import unit_of_words

EVERY_SHEET = "every sheet"
KEYS = frozenset({"heading", "unit"})


def read_column_map(path: Path) -> dict[str, dict[str, MappedHeading]]:
    """Return sheet name -> field -> heading; the sheet `*` stands for every sheet.

    An entry is `field = "heading"`, `field = "column F"`, `field = ["one", "or another"]` or
    `field = {heading = "heading", unit = "mm"}`; `ignore = ["heading", "column G"]` names columns to leave alone.

    Raises
    ------
    SettingsError
        The file cannot be read, is no TOML, or has wrong keys: all of them in one line.

    """
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as exc:
        raise SettingsError(f"{path}: cannot read the heading map: {exc}") from exc
    wrong: list[str] = []
    found: dict[str, dict[str, MappedHeading]] = {}
    for sheet, entries in data.items():
        if isinstance(entries, Mapping):
            found[ANY_SHEET if sheet == EVERY_SHEET else sheet] = _entries(sheet, entries, wrong)
        else:
            wrong.append(f"{sheet}: is not a section with a sheet's name")
    if wrong:
        raise SettingsError(f"{path}: wrong in the heading map: " + "; ".join(wrong))
    return found


def _entries(sheet: str, entries: Mapping[str, object], wrong: list[str]) -> dict[str, MappedHeading]:
    found: dict[str, MappedHeading] = {}
    for field, entry in entries.items():
        where = f"{sheet}.{field}"
        if field not in FIELD and field != IGNORE:
            wrong.append(f"{where}: no such field")
            continue
        mapped = _mapped(where, field, entry, wrong)
        if mapped.headings:
            found[field] = mapped
    return found


def _mapped(where: str, field: str, entry: object, wrong: list[str]) -> MappedHeading:
    """Return one entry; what is wrong in it is added to the list."""
    if not isinstance(entry, Mapping) or field == IGNORE:
        return MappedHeading(headings=_headings(where, entry, wrong))
    wrong += [f"{where}.{key}: no such key; heading and unit are known" for key in entry if key not in KEYS]
    if "heading" not in entry:
        wrong.append(f"{where}: has no heading")
    headings = _headings(f"{where}.heading", entry.get("heading", ""), wrong)
    return MappedHeading(headings=headings, unit=_unit(where, field, entry, wrong))


def _headings(where: str, entry: object, wrong: list[str]) -> tuple[str, ...]:
    listed = entry if isinstance(entry, list) else [entry]
    texts = [heading for heading in listed if isinstance(heading, str)]
    if len(texts) < len(listed):
        wrong.append(f"{where}: {entry!r} is not a heading in quotes, nor a list of them")
        return ()
    return tuple(" ".join(text.split()) for text in texts if text.strip())


def _unit(where: str, field: str, entry: Mapping[str, object], wrong: list[str]) -> str | None:
    if "unit" not in entry:
        return None
    unit = unit_of_words(str(entry["unit"]))
    if unit is None:
        wrong.append(f"{where}.unit: {entry['unit']!r} is no unit of length; write in, mm, cm, m or ft")
    elif FIELD[field].kind is not Kind.LENGTH:
        wrong.append(f"{where}.unit: {FIELD[field].label} is no length")
    return unit
