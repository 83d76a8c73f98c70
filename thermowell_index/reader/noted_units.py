"""The unit that a note beside a table declares for its lengths: in the title block, above the table, or below it."""

import re
from collections.abc import Iterable, Sequence
from itertools import pairwise, takewhile

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.layout import HeadingBlock
from thermowell_index.units import unit_of_words

ABOUT_LENGTHS = re.compile(
    r"dim|length|unit|mass\b|maße|masse|abmess|cotes|medida|läng|misur|afmet|longueur|maten|dimens|longitud|lunghezz"
    r"|compriment|lengte",
    re.IGNORECASE,
)
# A note about these says nothing of the lengths of wells and sensors, unless it speaks of all.
OF_ONE_KIND = re.compile(
    r"nipple|extension|insulation|lagging|sheath|\blines?\b|\bpipes?\b|piping|nozzle|flange|thread|connection|nominal"
    r"|diamet|stand-?off|elevation|cable|tip\b|union|bore\b|probe|sensor|nennweite|leitung|durchmesser|tuyau|tuberia",
    re.IGNORECASE,
)
OF_ALL = re.compile(
    r"\ball\b|\balle[ns]?\b|sämtliche|\btoutes?\b|\btous\b|\btod[oa]s\b|\btutt[ei]\b|other|\bübrigen?\b|unless",
    re.IGNORECASE,
)
CLAUSE = re.compile(r"[;\n]|\.(?=\s|$)|,(?=\s)")
SHORT_LINE = 2


def noted_unit(grid: Grid, blocks: Sequence[HeadingBlock], own: Sequence[tuple[HeadingBlock, int]]) -> str | None:
    """Return the unit noted for one table; `own` are its heading and the repetitions of it, each with its last row.

    What stands right above the table is asked first, then the sheet's title block, then the lines below it.
    """
    first = own[0][0]
    title = [row for row in grid.rows() if row < blocks[0].first_row]
    above = {block.first_row: _lines_between(grid, before, block) for before, block in pairwise(blocks)}
    taken = {row for rows in above.values() for row in rows}
    below = [
        row
        for block, last in own
        for row in grid.rows()
        if block.data_row <= row <= last and row not in taken and len(grid.own_texts(row)) == 1
    ]
    for rows in (above.get(first.first_row, []), title, below):
        unit = _declared(text for row in rows for text in grid.own_texts(row).values())
        if unit:
            return unit
    return None


def _lines_between(grid: Grid, before: HeadingBlock, block: HeadingBlock) -> list[int]:
    """Return the short lines right above a heading and below the one before it, blank rows passed over."""
    rows = range(block.first_row - 1, before.data_row - 1, -1)
    short = takewhile(lambda row: len(grid.own_texts(row)) <= SHORT_LINE, rows)
    return [row for row in short if grid.own_texts(row)]


def _declared(texts: Iterable[str]) -> str | None:
    """Return the one unit that notes declare; None where none does, or two differ."""
    found = {unit for text in texts for clause in CLAUSE.split(text) if (unit := unit_of_note(clause))}
    return found.pop() if len(found) == 1 else None


def unit_of_note(clause: str) -> str | None:
    """Return the unit that one clause of a note declares for all lengths.

    >>> unit_of_note("All dimensions are in mm unless noted"), unit_of_note("line sizes in inches")
    ('mm', None)
    """
    if not ABOUT_LENGTHS.search(clause):
        return None
    if OF_ONE_KIND.search(clause) and not OF_ALL.search(clause):
        return None
    return unit_of_words(clause)
