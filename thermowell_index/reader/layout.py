"""Where the tables of a sheet are: heading rows below title blocks, one to three rows high, and what they name."""

import itertools
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary, Match, stacked
from thermowell_index.units import unit_of_words

HEIGHT = 4
LEAST_FIELDS = 3
# A group heading spans a part of the table; what spans more than this share of the columns is a title.
TITLE_SHARE = 0.7
SURE = 0.75


@dataclass(frozen=True, kw_only=True)
class HeadingBlock:
    """The heading rows of one table and the texts that stand above each column, top to bottom."""

    first_row: int
    last_row: int
    data_row: int
    texts: Mapping[int, tuple[str, ...]]
    units: Mapping[int, str]
    candidates: Mapping[int, tuple[Match, ...]]

    @property
    def signature(self) -> tuple[tuple[int, tuple[str, ...]], ...]:
        """Return what tells a repeated heading from another table's."""
        return tuple(sorted((column, tuple(text.upper() for text in texts)) for column, texts in self.texts.items()))


def find_headings(grid: Grid, dictionary: HeadingDictionary) -> list[HeadingBlock]:
    """Return the heading blocks of a sheet from top to bottom."""
    blocks: list[HeadingBlock] = []
    row, last = 1, grid.last_row
    while row <= last:
        is_worth_a_look = not _holds_a_tag(grid, row, blocks) and _may_be_heading(grid, row)
        block = _block_at(grid, row, dictionary) if is_worth_a_look else None
        if block is None:
            row += 1
        else:
            blocks.append(block)
            row = block.data_row
    return blocks


def _holds_a_tag(grid: Grid, row: int, blocks: list[HeadingBlock]) -> bool:
    """Whether a row below a heading has a number in the tag column, as tags have and headings have not."""
    for column, found in blocks[-1].candidates.items() if blocks else ():
        if found[0].field == "tag":
            return any(mark.isdigit() for mark in grid.text(row, column))
    return False


def _may_be_heading(grid: Grid, row: int) -> bool:
    """Whether a row is worth a look: it holds words, and few numbers."""
    cells = grid.cells.rows.get(row)
    if not cells:
        return False
    words = sum(isinstance(cell.value, str) and bool(re.search(r"[^\W\d_]", cell.value)) for cell in cells.values())
    numbers = sum(isinstance(cell.value, float) for cell in cells.values())
    return words > 0 and words >= 2 * numbers


def _block_at(grid: Grid, row: int, dictionary: HeadingDictionary) -> HeadingBlock | None:
    best: tuple[float, int, dict[int, tuple[str, ...]]] | None = None
    for last_row in range(row, min(row + HEIGHT, grid.last_row + 1)):
        if last_row > row and not _may_be_heading(grid, last_row):
            break
        texts = _stack(grid, row, last_row)
        count = _named(texts, dictionary)
        if count >= LEAST_FIELDS and (best is None or count > best[0] + 0.01):
            best = (count, last_row, texts)
    if best is None or not grid.own_texts(row):
        return None
    _, last_row, texts = best
    if row < last_row and _named(_stack(grid, row + 1, last_row), dictionary) >= best[0]:
        return None  # the first row adds nothing: it is a title above the heading
    candidates = {column: found for column, stack in texts.items() if (found := _candidates(stack, dictionary))}
    data_row, units = _units_below(grid, last_row, texts)
    return HeadingBlock(
        first_row=row, last_row=last_row, data_row=data_row, texts=texts, units=units, candidates=candidates
    )


def _stack(grid: Grid, first_row: int, last_row: int) -> dict[int, tuple[str, ...]]:
    """Return the heading texts above each column; a group heading stands above every column it spans."""
    columns = sorted({column for row in range(first_row, last_row + 1) for column in grid.own_texts(row)})
    covered = {
        column
        for first, left, last, right in grid.cells.merges
        if first <= last_row and last >= first_row
        for column in range(left, min(right, left + 500) + 1)
    }
    columns = sorted({*columns, *(column for column in covered if grid.text(last_row, column))})
    stacks: dict[int, list[str]] = {column: [] for column in columns}
    for row in range(first_row, last_row + 1):
        for column, text in _spread(grid, row, last_row, columns).items():
            stacks[column].append(text)
    return {column: tuple(texts) for column, texts in stacks.items() if texts}


def _spread(grid: Grid, row: int, last_row: int, columns: list[int]) -> dict[int, str]:
    """Return a heading row's text over each column: a merged one over its range, a group's over blanks beside it."""
    found: dict[int, str] = {}
    carried = ""
    own = grid.own_texts(row)
    for column in columns:
        text = grid.text(row, column)
        if text:
            found[column] = text
            carried = text if row < last_row and not _spans_down(grid, row, column) else ""
        elif carried and row < last_row and grid.own_texts(last_row).get(column) and not grid.is_covered(row, column):
            found[column] = carried
        else:
            carried = ""
    return {column: text for column, text in found.items() if column in own or not _is_title(text, found, columns)}


def _spans_down(grid: Grid, row: int, column: int) -> bool:
    return grid.anchor(row + 1, column) == grid.anchor(row, column) and grid.is_covered(row + 1, column)


def _is_title(text: str, found: Mapping[int, str], columns: list[int]) -> bool:
    span = sum(other == text for other in found.values())
    return len(columns) >= 2 * LEAST_FIELDS and span > TITLE_SHARE * len(columns)


def _named(texts: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> float:
    """Return how many fields the texts name, 0 where no tag is among them; a sure match counts a little more."""
    fields: dict[str, float] = {}
    for stack in texts.values():
        for match in _candidates(stack, dictionary)[:1]:
            fields[match.field] = max(fields.get(match.field, 0.0), match.score)
    if not {"tag", "well_tag"} & set(fields):
        return 0.0
    return sum(1.0 if score >= SURE else 0.5 for score in fields.values())


def _candidates(stack: Iterable[str], dictionary: HeadingDictionary) -> tuple[Match, ...]:
    """Return the fields that a column's heading may name, by its best reading, with or without its groups."""
    best: tuple[Match, ...] = ()
    for reading in stacked(tuple(stack)):
        found = dictionary.matches(reading)
        if found and (not best or _fit(found) > _fit(best)):
            best = found
    return best


def _fit(found: tuple[Match, ...]) -> float:
    """Return how well a reading fits: its score, less when two fields fit alike."""
    rivals = sum(match.score >= found[0].score - 0.05 for match in found)
    return found[0].score - 0.03 * (rivals - 1)


def _units_below(grid: Grid, last_row: int, texts: Mapping[int, tuple[str, ...]]) -> tuple[int, dict[int, str]]:
    """Return the first row below a heading's row of units and row of column numbers, and the units found."""
    row, units = last_row + 1, {}
    for _ in range(2):
        below = {column: text for column, text in grid.own_texts(row).items() if column in texts}
        if not below:
            break
        found = {
            column: unit
            for column, text in below.items()
            if (unit := unit_of_words(f"({text})") or unit_of_words(text))
        }
        is_units = bool(found) and all(column in found or _is_filler(text) for column, text in below.items())
        if not is_units and not _are_column_numbers(list(below.values())):
            break
        units.update(found)
        row += 1
    return row, units


def _is_filler(text: str) -> bool:
    return bool(
        re.fullmatch(
            r"[-\u2013\u2014/.()\[\] ]*|°?\s*[CFK]|deg\.? ?[CF]|(?:bar|psi|kPa)[ag]?|text|NPS|DN|no\.?|ea\.?"
            r"|[A-Z]{1,2}",
            text,
            re.IGNORECASE,
        )
    )


def _are_column_numbers(texts: list[str]) -> bool:
    if len(texts) < LEAST_FIELDS:
        return False
    numbers = [int(text.strip("()")) for text in texts if re.fullmatch(r"\(?\d{1,3}\)?", text)]
    return len(numbers) == len(texts) and all(b - a == 1 for a, b in itertools.pairwise(numbers))
