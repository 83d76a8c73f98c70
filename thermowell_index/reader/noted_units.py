"""The unit that a note beside a table declares for its lengths: in the title block, above the table, or below it."""

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.layout import HeadingBlock
from thermowell_index.units import unit_of_words

ABOUT_LENGTHS = re.compile(
    r"dim|length|unit|measurements?\b|everything|\bunless\b|^\W*quote\b|cotas?\b|mass\b|maße|masse|abmess|cotes|medida|läng|misur|afmet|longueur|maten|dimens|longitud|lunghezz"
    r"|compriment|lengte",
    re.IGNORECASE,
)
# A note about these says nothing of the lengths of wells and sensors, unless it speaks of all.
OF_ONE_KIND = re.compile(
    r"nipple|extension|insulation|lagging|sheath|\blines?\b|\bpipes?\b|piping|nozzle|flange|thread|connection|nominal"
    r"|orifice|valve|\bmeters?\b|switch|vessel|diamet|stand-?off|elevation|cable|tip\b|union|bore\b|probe|sensor|nennweite|leitung|durchmesser|tuyau|tuberia",
    re.IGNORECASE,
)
LENGTHS_AND_DIAMETERS = re.compile(
    r"(lengths?|dimensions?|läng\w+|longueurs?|longitude?s?|lunghezze?|comprimentos?|lengtes?|ma(?:ß|ss)e)\s*"
    r"(?:and|&|/|\+|und|et|y|e|en)\s*(?:diam\w*|durchmesser|di[aá]metr\w*)",
    re.IGNORECASE,
)
OF_ALL = re.compile(
    r"\ball\b|everything|\balle[ns]?\b|sämtliche|\btoutes?\b|\btous\b|\btod[oa]s\b|\btutt[ei]\b|other|\bübrigen?\b|unless",
    re.IGNORECASE,
)
# A note that says so itself gives way to a unit that is written nearer to the figures.
GIVES_WAY = re.compile(
    r"unless|otherwise|\bu\.?\s?[no]\.?\s?[no]\b|sofern|soweit|wenn nicht|falls nicht|\bsauf\b|\bsalvo\b|tranne|tenzij",
    re.IGNORECASE,
)
EXCEPTION = re.compile(r"\b(?:except\w*|other than|sauf|salvo|excepto|tranne|außer|ausgenommen)\b.*", re.IGNORECASE)
# A unit alone at the end of a title: "TE SCHEDULE - INCHES", "THERMOWELL LIST (MM)".
AT_THE_END = re.compile(
    r"(?:(?:\s[-\u2013\u2014]|,|^)\s*(?:inch(?:es)?|mm|millimet\w+)|[(\[]\s*(?:inch(?:es)?|in\.?|mm|millimet\w+)\s*[)\]])\s*$",
    re.IGNORECASE,
)
# A title of a table of these: what else it names tells which of them.
OF_THESE = re.compile(
    r"thermo-?wells?|\bsensors?\b|\bT/?W\b|\bTE\b|temperature elements?|thermocouples?|\bRTDs?\b", re.IGNORECASE
)
CLAUSE = re.compile(
    r"[;\n]|(?<!\bdim)(?<!\bdims)(?<!\bdimn)(?<!\bdimns)\.(?=\s|$)|,(?=\s)(?!\s*(?:inch(?:es)?|mm|millimet\w+)\s*$)",
    re.IGNORECASE,
)
SHORT_LINE = 2
LABELLED = 2
LABEL = re.compile(
    r"(?:(?:length|dimension\w*|eng\w*)\s+)?(?:units?|einheit|unit[eé]s?|unidad(?:es)?|unit[àa]|unidades?|eenheid|u\.?o\.?m\.?)"
    r"(?:\s+of\s+(?:measure\w*|lengths?|dimensions?))?\s*:?",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Section:
    """A line of words between the rows of a table: the unit that it declares, and the last one declared up to it."""

    row: int
    text: str
    unit: str | None
    unit_so_far: str | None


@dataclass(frozen=True)
class NotedUnit:
    """A unit that a note declares, and whether the note gives way to a nearer one ("unless noted").

    `notes` are the lines of words above the table, `sections` those between its rows, in order: each declares a unit
    for the rows below it, and one without a unit ends what the line before it declared.
    """

    unit: str | None = None
    gives_way: bool = False
    notes: tuple[str, ...] = ()
    sections: tuple[Section, ...] = ()

    def above(self, row: int) -> str:
        """Return what stands in lines of notes above a row: all above the table, and the last one between the rows."""
        section = self._section(row)
        return " ; ".join((*self.notes, section.text) if section else self.notes)

    def of_section(self, row: int) -> tuple[str | None, bool]:
        """Return the unit that the last line above a row to name one declares, and whether no other line follows it."""
        section = self._section(row)
        return (section.unit_so_far, section.unit is not None) if section else (None, False)

    def _section(self, row: int) -> Section | None:
        place = bisect_left(self.sections, row, key=lambda section: section.row)
        return self.sections[place - 1] if place else None


def noted_unit(grid: Grid, blocks: Sequence[HeadingBlock], own: Sequence[tuple[HeadingBlock, int]]) -> NotedUnit:
    """Return the unit noted for one table; `own` are its heading and the repetitions of it, each with its last row.

    What stands right above the table is asked first, then the sheet's title block, then the lines below it.
    """
    first = own[0][0]
    title, above = _title(grid, blocks), _above(grid, blocks)
    taken = {row for rows in above.values() for row in rows}
    below = [
        row
        for block, last in own
        for row in grid.rows()
        if block.last_row < row <= last and row not in taken and len(grid.own_texts(row)) == 1
    ]
    levels = [row for row in range(first.first_row, first.last_row) if len(grid.own_texts(row)) == 1]
    told = [grid.own_texts(row) for row in dict.fromkeys((*title, *above.get(first.first_row, []), *levels))]
    notes = tuple(text for texts in told for text in texts.values() if _is_of_words(text))
    sections = tuple(_sections(grid, below))
    for rows in (above.get(first.first_row, []), title, below):
        if noted := _declared_in(grid, rows):
            return replace(noted, sections=sections, notes=notes)
    return NotedUnit(sections=sections, notes=notes)


def _is_of_words(text: str) -> bool:
    return len(text.split()) > 1


def _sections(grid: Grid, rows: Iterable[int]) -> Iterator[Section]:
    """Yield the lines of words of some rows that have one text each."""
    so_far = None
    for row in rows:
        text = next(iter(grid.own_texts(row).values()))
        if _is_of_words(text):
            unit = _unit_of_line(text)
            so_far = unit or so_far
            yield Section(row, text, unit, so_far)


def _unit_of_line(text: str) -> str | None:
    declared = _declared([text])
    return declared.unit if declared and not declared.gives_way else None


def _title(grid: Grid, blocks: Sequence[HeadingBlock]) -> list[int]:
    return [row for row in grid.rows() if row < blocks[0].first_row]


def _above(grid: Grid, blocks: Sequence[HeadingBlock]) -> dict[int, list[int]]:
    """Return by the first row of each heading but the first the lines of notes right above it."""
    return {block.first_row: _lines_between(grid, before, block) for before, block in pairwise(blocks)}


def _declared_in(grid: Grid, rows: Iterable[int]) -> NotedUnit | None:
    return _declared([text for row in rows for text in _read_together(list(grid.own_texts(row).values()))])


def _read_together(texts: Sequence[str]) -> Sequence[str]:
    """Return the texts of a line; a label for a unit together with what stands beside it: "Units:" and "in"."""
    if len(texts) == LABELLED and LABEL.fullmatch(texts[0].strip()):
        return [f"{texts[0].strip(' :')}: {texts[1]}"]
    return texts


class Repetitions:
    """Tells a repeated heading from another table's: by its texts, and by the units that stand with it or above it.

    A repetition that is silent of units goes on with those before it.
    """

    def __init__(self, grid: Grid, blocks: Sequence[HeadingBlock]) -> None:
        notes = {blocks[0].first_row: _title(grid, blocks), **_above(grid, blocks)}
        self._noted = {first_row: _declared_in(grid, rows) for first_row, rows in notes.items()}
        self._latest: dict[object, tuple[tuple[tuple[int, str], ...], str]] = {}

    def key(self, block: HeadingBlock, part: HeadingBlock) -> object:
        """Return what is the same for the repetitions of one table's heading; `part` is the table's own columns."""
        units, noted = self._latest.get(part.signature, ((), ""))
        declared = self._noted.get(block.first_row)
        units = tuple(sorted(part.units.items())) or units
        noted = declared.unit or "" if declared else noted
        self._latest[part.signature] = (units, noted)
        return part.signature, units, noted


def _lines_between(grid: Grid, before: HeadingBlock, block: HeadingBlock) -> list[int]:
    """Return the short lines right above a heading and below the one before it, blank rows passed over."""
    rows = range(block.first_row - 1, before.data_row - 1, -1)
    short = takewhile(lambda row: len(grid.own_texts(row)) <= SHORT_LINE, rows)
    return [row for row in short if grid.own_texts(row)]


def _declared(texts: Iterable[str]) -> NotedUnit | None:
    """Return the one unit that notes declare; None where none does, or two differ."""
    found = [(unit, text) for text in texts for clause in CLAUSE.split(text) if (unit := unit_of_note(clause))]
    units = {unit for unit, _ in found}
    if len(units) != 1:
        return None
    return NotedUnit(units.pop(), gives_way=all(GIVES_WAY.search(text) for _, text in found))


def unit_of_note(clause: str) -> str | None:
    """Return the unit that one clause of a note declares for all lengths.

    >>> unit_of_note("All dimensions are in mm unless noted"), unit_of_note("line sizes in inches")
    ('mm', None)
    >>> unit_of_note("TE SCHEDULE REV 7 - INCHES"), unit_of_note("TE ASSEMBLIES (IN.)"), unit_of_note("Line list (mm)")
    ('in', 'in', None)
    """
    clause = LENGTHS_AND_DIAMETERS.sub(r"\1", EXCEPTION.sub("", clause))
    at_the_end = AT_THE_END.search(clause)
    if not ABOUT_LENGTHS.search(clause) and not at_the_end:
        return None
    if OF_ONE_KIND.search(clause) and not OF_ALL.search(clause) and not (at_the_end and OF_THESE.search(clause)):
        return None
    return unit_of_words(at_the_end[0] if at_the_end else clause)
