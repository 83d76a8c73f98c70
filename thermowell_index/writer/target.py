"""Where the annotated copy goes, and what may stand there already."""

import re
from dataclasses import dataclass
from pathlib import Path

from thermowell_index.errors import OutputError, WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.writer.marks import is_own_output

MACRO_SUFFIX = ".xlsm"
_CHECKED = re.compile(r"(?P<stem>.*_checked)(?:-(?P<number>\d+))?")


@dataclass(frozen=True, kw_only=True)
class Target:
    """Where to write; `previous` is the checked workbook that stands there and is replaced."""

    path: Path
    previous: Path | None


def target_for(input_path: Path, out: Path | None, *, is_own: bool) -> Target:
    """Return where the checked copy of an index goes.

    `out` names it, or the folder for it; `is_own` says that the input is itself a checked workbook.

    Raises
    ------
    OutputError
        A file that is not a checked workbook stands there, the folder is missing, or the name is the input's own or
        does not suit the format.

    """
    path = _named(input_path, out, is_own=is_own)
    if path.suffix.casefold() != suffix_for(input_path):
        raise OutputError(f"{path}: the answer to {input_path.name} must be named {suffix_for(input_path)}")
    if not path.parent.is_dir():
        raise OutputError(f"{path}: there is no folder {path.parent}")
    if path.resolve() == input_path.resolve():
        raise OutputError(f"{path}: is the input itself, which is never written to")
    return Target(path=path, previous=_previous_at(path))


def suffix_for(input_path: Path) -> str:
    """Return the suffix of the answer: macros are kept, so a workbook that has them stays one."""
    return MACRO_SUFFIX if input_path.suffix.casefold() == MACRO_SUFFIX else ".xlsx"


def _named(input_path: Path, out: Path | None, *, is_own: bool) -> Path:
    if out is not None and not out.is_dir():
        return out
    folder = input_path.parent if out is None else out
    return folder / f"{_checked_stem(input_path.stem, is_own=is_own)}{suffix_for(input_path)}"


def _checked_stem(stem: str, *, is_own: bool) -> str:
    match = _CHECKED.fullmatch(stem) if is_own else None
    if match is None:
        return f"{stem}_checked"
    return f"{match['stem']}-{int(match['number'] or 1) + 1}"


def _previous_at(path: Path) -> Path | None:
    """Return the path when a checked workbook stands there, None when nothing does."""
    if not path.exists():
        return None
    try:
        with Package.open(path) as package:
            is_ours = is_own_output(package)
    except WorkbookError:
        is_ours = False
    if not is_ours:
        raise OutputError(f"{path}: exists and was not made by this program; move it or name another with --out")
    return path
