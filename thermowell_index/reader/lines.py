"""Which lines below a heading are rows of the index: not sections, totals, legends, footers or second lines."""

import re
from collections.abc import Iterable, Mapping

from thermowell_index.reader.cells import read_length
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.tag_columns import TagColumns
from thermowell_index.table import CellState, ColumnRead

TOTALS = re.compile(
    r"\s*(?:grand |sub[- ]?)?"
    r"(?:totals?|sum|count|average|mean|summe|gesamt|anzahl|mittelwert|durchschnitt|somme|moyenne|suma|promedio|totale"
    r"|media|totaal|gemiddelde|number of|no\. of|qty)\b",
    re.IGNORECASE,
)
FOOTERS = re.compile(
    r"\s*(?:notes?\b|legend|abbreviations?|rev(?:ision)?\b|prepared|checked|approved|page \d|end of|general|hinweis"
    r"|bemerkung|\*+\s|continued|see )",
    re.IGNORECASE,
)
SECTIONS = re.compile(
    r"\s*(?:unit|area|section|plant|train|system|block|package|anlage|bereich|unite|zone|loop group|building|skid)\b",
    re.IGNORECASE,
)
TAIL = re.compile(
    r"\s*(?:notes?\b|legend|abbreviations?|key\b|references?\b|remarks?\b|hinweise?\b|legende|abkurzungen|bemerkungen"
    r"|remarques|notas\b|leyenda|legenda|observaciones)",
    re.IGNORECASE,
)
TAG_LIKE = re.compile(r"(?:[\w.=+]*[-_ /])?[A-Z]{2,5}[-_ ./]*\d{2,}[\w./&-]{0,8}", re.IGNORECASE)
LONGEST_TAG = 60
FEW = 3


def tag_shape(tag: str) -> str:
    """Return a tag's pattern: runs of letters as A, of digits as 9, blanks gone.

    >>> tag_shape("12-TE 101A")
    '9-A9A'
    """
    shape = re.sub(r"[^\W\d_]+", "A", re.sub(r"\s+", "", tag))
    return re.sub(r"\d+", "9", shape)


class Lines:
    """The lines of one table's columns, told from what else stands below its heading."""

    def __init__(self, grid: Grid, tag: TagColumns, columns: Mapping[str, ColumnRead], lengths: frozenset[str]) -> None:
        self._grid = grid
        self._tag_columns = tag
        self._tag = tag.column
        own = {*tag.parts, *tag.others}
        self._others = {name: read.column for name, read in columns.items() if read.column not in own}
        self._lengths = [read.column for name, read in columns.items() if name in lengths]
        self._shapes: set[str] = set()
        self._counts: dict[int, int] = {}
        self._tail = grid.last_row + 1

    def learn(self, rows: Iterable[int]) -> None:
        """Learn the tag patterns of the lines that are filled in well, and where notes and legends follow the last."""
        last = 0
        for row in rows:
            tag, has_lengths = self.tag(row), self._length_cells(row) > 0
            if tag and has_lengths:
                last = row
            is_tag = bool(tag) and len(tag) <= LONGEST_TAG and any(map(str.isdigit, tag))
            if is_tag and (has_lengths or self._filled(row) >= FEW) and not self._is_note(row, tag):
                self._shapes.add(tag_shape(tag))
        texts = ((row, self._grid.own_texts(row)) for row in rows if row > last > 0)
        marks = (row for row, found in texts if found and TAIL.match(found[min(found)]))
        self._tail = next(marks, self._tail)

    def _is_note(self, row: int, tag: str) -> bool:
        return bool(FOOTERS.match(tag) or TOTALS.match(tag)) or self._spans_sideways(row)

    def tag(self, row: int) -> str:
        """Return the tag of a line."""
        return self._tag_columns.text(self._grid, row)

    def why_not(self, row: int) -> str:
        """Return why a line is no row of the index; empty where it is one."""
        texts = self._grid.own_texts(row)
        if not texts:
            return "blank"
        if self._grid.is_continued(row, self._tag):
            return "second line of a merged record"
        if self._spans_sideways(row):
            return "section or note across the table"
        first = texts[min(texts)]
        tag = self.tag(row)
        if not tag:
            return self._why_not_untagged(row, first)
        if TOTALS.match(first) or TOTALS.match(tag):
            return "total or count"
        return self._why_not_tagged(row, tag)

    def _why_not_tagged(self, row: int, tag: str) -> str:
        filled = self._filled(row)
        is_footer = bool(FOOTERS.match(tag)) and tag_shape(tag) not in self._shapes
        if self._length_cells(row) > 0 and not is_footer:
            return ""
        if FOOTERS.match(tag) or len(tag) > LONGEST_TAG:
            return "note or footer"
        if filled == 0 and SECTIONS.match(tag):
            return "section"
        if row > self._tail and filled < FEW - 1:
            return "below a legend or notes"
        return "" if tag_shape(tag) in self._shapes or self._is_new_tag(tag, filled) else "section, note or footer"

    def _is_new_tag(self, tag: str, filled: int) -> bool:
        """Whether a text of no known pattern is a tag all the same: letters and digits, and something beside it."""
        has_both = bool(re.search(r"[^\W\d_]", tag)) and bool(re.search(r"\d", tag))
        is_one_word = len(tag.split()) == 1 or bool(TAG_LIKE.fullmatch(tag))
        return has_both and (filled >= FEW - 1 or (is_one_word and filled > 0))

    def _why_not_untagged(self, row: int, first: str) -> str:
        cells = [self._grid.cell(row, column) for column in self._lengths]
        values = [cell for cell in cells if read_length(cell, self._grid.package).state is not CellState.MISSING]
        if TOTALS.match(first) or (values and all(cell is not None and cell.is_formula for cell in values)):
            return "total or count"
        if FOOTERS.match(first) or not values:
            return "no tag and no dimensions"
        return "" if len(values) > 1 or self._filled(row) >= FEW else "no tag and no dimensions"

    def _spans_sideways(self, row: int) -> bool:
        anchor = self._grid.anchor(row, self._tag)
        right = [column for column in self._others.values() if self._grid.anchor(row, column) == anchor]
        return len(right) >= min(2, len(self._others)) and len(right) > 0

    def _filled(self, row: int) -> int:
        return sum(
            bool(self._grid.text(row, column))
            for column in self._others.values()
            if not self._grid.is_covered(row, column)
        )

    def _length_cells(self, row: int) -> int:
        if row not in self._counts:
            cells = (self._grid.cell(row, column) for column in self._lengths)
            self._counts[row] = sum(
                read_length(cell, self._grid.package).state is not CellState.MISSING
                for cell in cells
                if cell is not None
            )
        return self._counts[row]
