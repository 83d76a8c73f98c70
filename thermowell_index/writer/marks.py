"""How this program knows its own sheets and columns again: by hidden defined names, never by a title.

A defined name follows its sheet and its columns when a person renames the one or moves the other.
"""

import re
from collections.abc import Collection, Mapping
from pathlib import Path

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package, SheetCells, column_letters, parse_range, strip
from thermowell_index.writer.columns import COLUMNS
from thermowell_index.writer.flags import FILLS, Place
from thermowell_index.writer.state import State, read_state

AUTHOR = "thermowell-index"
PREFIX = "_thermowell_index_"
COLUMNS_PREFIX = f"{PREFIX}columns_"
SHEET_PREFIX = f"{PREFIX}sheet_"
STATE_SHEET = "state"
FIELD_SURVEY_SHEET = "field_survey"

_REFERENCE = re.compile(r"(?:'((?:[^']|'')+)'|([^'!]+))!(.+)")
_LONGEST_SHEET_NAME = 31


def sheet_reference(name: str, cells: str) -> str:
    """Return a reference to cells of a sheet, its name quoted."""
    quoted = name.replace("'", "''")
    return f"'{quoted}'!{cells}"


def free_name(title: str, taken: Collection[str]) -> str:
    """Return the title of a new sheet, numbered when the client has a sheet of that name: `Discrepancies (2)`."""
    used = {name.casefold() for name in taken}
    name, number = title, 2
    while name.casefold() in used:
        ending = f" ({number})"
        name = title[: _LONGEST_SHEET_NAME - len(ending)] + ending
        number += 1
    return name


def is_own_output(package: Package) -> bool:
    """Return whether a workbook is a checked workbook of this program."""
    return any(name.startswith(PREFIX) for name in package.defined_names)


def own_sheets(package: Package) -> dict[str, str]:
    """Return the names that our sheets bear now, by what they are."""
    present = {sheet.name for sheet in package.sheets}
    found = {}
    for name, reference in package.defined_names.items():
        if name.startswith(SHEET_PREFIX):
            sheet, _ = _split(reference)
            if sheet in present:
                found[name.removeprefix(SHEET_PREFIX)] = sheet
    return found


def own_columns(package: Package) -> dict[str, tuple[int, int]]:
    """Return the first and last column of our answers, by sheet."""
    present = {sheet.name for sheet in package.sheets}
    found = {}
    for name, reference in package.defined_names.items():
        if name.startswith(COLUMNS_PREFIX):
            sheet, cells = _split(reference)
            if sheet in present and "#REF!" not in cells:
                _, first, _, last = parse_range(cells)
                found[sheet] = first, last
    return found


def state_of(package: Package) -> State | None:
    """Return what the hidden sheet of a checked workbook remembers, None without one."""
    name = own_sheets(package).get(STATE_SHEET)
    return None if name is None else read_state(package.read(name))


def strip_own(package: Package) -> bytes:
    """Return the workbook as it was before this program annotated it.

    Raises
    ------
    WorkbookError
        Our sheets are damaged, or a person put a column of their own among ours, which would be lost.

    """
    spans = own_columns(package)
    state = state_of(package)
    kept_styles = state.kept_styles if state else {}
    names = [sheet.name for sheet in package.sheets if sheet.name in spans or sheet.name in kept_styles]
    cells = {name: package.read(name) for name in names}
    for name, span in spans.items():
        _refuse_foreign_columns(package.path, name, cells[name], span)
    return strip(
        package,
        sheets=list(own_sheets(package).values()),
        columns=spans,
        marks=[name for name in package.defined_names if name.startswith(PREFIX)],
        author=AUTHOR,
        restore={
            name: _original_styles(package, cells[name], kept_styles[name]) for name in names if name in kept_styles
        },
    )


def _refuse_foreign_columns(path: Path, name: str, cells: SheetCells, span: tuple[int, int]) -> None:
    ours = tuple(column.heading for column in COLUMNS)
    used: dict[int, bool] = {}
    for row in cells.rows.values():
        for column, cell in row.items():
            if span[0] <= column <= span[1] and cell.is_used:
                used[column] = used.get(column, False) or str(cell.value).startswith(ours)
    for column, is_ours in sorted(used.items()):
        if not is_ours:
            raise WorkbookError(
                f"{path}: sheet {name!r}: column {column_letters(column)} stands among the answers and has none of "
                "their headings; move it to the left, or give it its heading back"
            )


def _original_styles(package: Package, cells: SheetCells, kept: Mapping[Place, int]) -> dict[Place, int]:
    """Return the style to give back to each cell that bears one of our colours.

    A row that a person inserted or sorted has moved cells away from where we coloured them: such a cell takes the style
    that was kept for another cell of its column. A cell whose colour a person changed is left alone.
    """
    by_column = {column: style for (_, column), style in kept.items()}
    return {place: kept.get(place, by_column[place[1]]) for place in _coloured(package, cells) if place[1] in by_column}


def _coloured(package: Package, cells: SheetCells) -> list[Place]:
    ours = set(FILLS.values())
    return [
        (row, column)
        for row, line in cells.rows.items()
        for column, cell in line.items()
        if package.fill(cell.style) in ours
    ]


def _split(reference: str) -> tuple[str, str]:
    match = _REFERENCE.fullmatch(reference.strip())
    if match is None:
        return "", "#REF!"
    return (match[1] or match[2] or "").replace("''", "'"), match[3]


def marks_for(sheets: Mapping[str, str], columns: Mapping[str, str]) -> dict[str, str]:
    """Return the hidden names of a new checked workbook: of our sheets by what they are, of our columns by sheet."""
    names = {f"{SHEET_PREFIX}{what}": sheet_reference(name, "$A$1") for what, name in sheets.items()}
    for number, (sheet, span) in enumerate(columns.items(), start=1):
        names[f"{COLUMNS_PREFIX}{number}"] = sheet_reference(sheet, span)
    return names
