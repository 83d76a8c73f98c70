"""The user's heading map: which heading is which field, for every sheet or for one."""

import re
import tomllib
from collections.abc import Mapping
from pathlib import Path

from thermowell_index.dictionary import FIELD
from thermowell_index.errors import SettingsError

EVERY_SHEET = "every sheet"
COLUMN = re.compile(r"column [A-Za-z]{1,3}", re.IGNORECASE)


def read_column_map(path: Path) -> dict[str, dict[str, str]]:
    """Return sheet name -> field -> heading text or `column X`; the sheet `*` stands for every sheet.

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
    found: dict[str, dict[str, str]] = {}
    for sheet, entries in data.items():
        if isinstance(entries, Mapping):
            found["*" if sheet == EVERY_SHEET else sheet] = _entries(sheet, entries, wrong)
        else:
            wrong.append(f"{sheet}: is not a section with a sheet's name")
    if wrong:
        raise SettingsError(f"{path}: wrong in the heading map: " + "; ".join(wrong))
    return found


def _entries(sheet: str, entries: Mapping[str, object], wrong: list[str]) -> dict[str, str]:
    found: dict[str, str] = {}
    for field, heading in entries.items():
        if field not in FIELD:
            wrong.append(f"{sheet}.{field}: no such field")
        elif not isinstance(heading, str):
            wrong.append(f"{sheet}.{field}: {heading!r} is not a heading in quotes")
        elif heading.strip():
            found[field] = " ".join(heading.split())
    return found
