"""How this program knows its own sheets and columns again: by hidden defined names, never by a title.

A defined name follows its sheet and its columns when a person renames the one or moves the other.
"""

import re
from collections.abc import Collection, Iterator, Mapping

from thermowell_index.ooxml import Package, SheetCells, parse_range, strip
from thermowell_index.writer.flags import FILLS, Place
from thermowell_index.writer.own_columns import OwnColumns, sort_out
from thermowell_index.writer.state import State, read_state

AUTHOR = "thermowell-index"
PREFIX = "_thermowell_index_"
COLUMNS_PREFIX = f"{PREFIX}columns_"
SHEET_PREFIX = f"{PREFIX}sheet_"
STATE_SHEET = "state"
FIELD_SURVEY_SHEET = "field_survey"
FAR = 200  # rows within which another cell of a column is taken to look alike

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


def columns_by_number(package: Package) -> dict[str, tuple[str, tuple[int, int]]]:
    """Return the sheet and the columns of each of our hidden names of columns, by its number."""
    spans = own_columns(package)
    return {number: (name, spans[name]) for number, name in _sheets_by_number(package) if name in spans}


def state_of(package: Package) -> State | None:
    """Return what the hidden sheet of a checked workbook remembers, None without one."""
    name = own_sheets(package).get(STATE_SHEET)
    return None if name is None else read_state(package.read(name))


def columns_in_words(package: Package) -> list[str]:
    """Return what a person did to our columns beside the index tables, a sentence each."""
    spans = own_columns(package)
    return [sentence for name, span in spans.items() for sentence in sort_out(name, package.read(name), span).said]


def strip_own(package: Package) -> bytes:
    """Return the workbook as it was before this program annotated it; a column that a person put among ours stays.

    Raises
    ------
    WorkbookError
        Our sheets are damaged.

    """
    spans = own_columns(package)
    state = state_of(package)
    kept_styles = _kept_styles(package, state) if state else {}
    names = [sheet.name for sheet in package.sheets if sheet.name in spans or sheet.name in kept_styles]
    cells = {name: package.read(name) for name in names}
    own = {name: sort_out(name, cells[name], span) for name, span in spans.items()}
    runs = {name: found.runs for name, found in own.items()}
    shifted = _shifted_sheets(package, state, own) if state else set()
    data = strip(
        package,
        sheets=list(own_sheets(package).values()),
        columns={name: found[0] for name, found in runs.items() if found},
        marks=[name for name in package.defined_names if name.startswith(PREFIX)],
        author=AUTHOR,
        restore={
            name: _original_styles(package, cells[name], kept_styles[name], is_shifted=name in shifted)
            for name in names
            if name in kept_styles
        },
    )
    for number in range(1, max(map(len, runs.values()), default=0)):
        with Package.from_bytes(data, package.path) as rest:
            further = {name: found[number] for name, found in runs.items() if number < len(found)}
            data = strip(rest, sheets=(), columns=further, marks=(), author=AUTHOR, restore={})
    return data


def _kept_styles(package: Package, state: State) -> dict[str, dict[Place, int]]:
    """Return the styles that were kept, by the names that the sheets bear now."""
    now = dict(_sheets_by_number(package))
    renamed = {sheet.name: now[number] for number, sheet in state.annotated.items() if number in now}
    return {renamed.get(name, name): styles for name, styles in state.kept_styles.items()}


def _shifted_sheets(package: Package, state: State, own: Mapping[str, OwnColumns]) -> set[str]:
    """Return the sheets on which our columns no longer stand where they were written: columns came in or went."""
    return {
        sheet
        for number, sheet in _sheets_by_number(package)
        if sheet in own and number in state.annotated and own[sheet].first != state.annotated[number].first_column
    }


def _sheets_by_number(package: Package) -> Iterator[tuple[str, str]]:
    """Yield the number in each hidden name of our columns, with the sheet that it refers to now."""
    for name, reference in package.defined_names.items():
        if name.startswith(COLUMNS_PREFIX):
            yield name.removeprefix(COLUMNS_PREFIX), _split(reference)[0]


def _original_styles(
    package: Package, cells: SheetCells, kept: Mapping[Place, int], *, is_shifted: bool
) -> dict[Place, int]:
    """Return the style to give back to each cell that bears one of our colours.

    A row that a person inserted or sorted has moved cells away from where we coloured them: such a cell takes the style
    that was kept for another cell of its column; where whole columns moved, that of the next cell above or below that
    bears none of our colours. A cell whose colour a person changed is left alone.
    """
    coloured = _coloured(package, cells)
    by_column = {column: style for (_, column), style in kept.items()}
    if not is_shifted:
        return {place: kept.get(place, by_column[place[1]]) for place in coloured if place[1] in by_column}
    ours = set(coloured)
    return {place: style for place in coloured if (style := _neighbour_style(cells, place, ours)) is not None}


def _neighbour_style(cells: SheetCells, place: Place, ours: Collection[Place]) -> int | None:
    row, column = place
    near = [
        number
        for number, line in cells.rows.items()
        if abs(number - row) <= FAR and column in line and (number, column) not in ours
    ]
    # Below first: what stands above may be the heading.
    best = min(near, key=lambda number: (abs(number - row), number < row), default=None)
    return None if best is None else cells.rows[best][column].style


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
