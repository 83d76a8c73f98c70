"""Where the tables of a sheet are: heading rows below title blocks, one to three rows high, and what they name."""

import itertools
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import column_letters
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary, Match, stacked
from thermowell_index.units import unit_of_words

HEIGHT = 4
LEAST_FIELDS = 3
TAGS = frozenset({"tag", "well_tag"})
LEAST_LENGTHS = 2
# A group heading spans a part of the table; what spans more than this share of the columns is a title.
TITLE_SHARE = 0.7
SURE = 0.75
NEAR = 0.05
LABELS_WITHIN = 12


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


def why_no_table(grid: Grid, dictionary: HeadingDictionary) -> str:
    """Return why no table was found on a sheet."""
    for column in range(1, LABELS_WITHIN + 1):
        labels = {row: text for row in grid.rows() if (text := grid.text(row, column))}
        found = [match for text in labels.values() for match in dictionary.matches(text)[:1] if match.score == 1.0]
        fields = {match.field for match in found}
        has_length = any(dictionary.is_length(field) for field in fields)
        if TAGS & fields and has_length and len(fields) > LEAST_FIELDS:
            return (
                f"its labels run down column {column_letters(column)}, one column a tag; "
                "looked for headings in a row with the tags below them"
            )
    return "no heading row with a tag and two more known headings"


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
    last_row = _last_heading_row(grid, row, dictionary)
    if last_row is None or not grid.own_texts(row):
        return None
    last_row = _with_other_languages(grid, row, last_row, dictionary)
    texts = _stack(grid, row, last_row)
    candidates = {column: found for column, stack in texts.items() if (found := _candidates(stack, dictionary))}
    _refuse_two_side_by_side(grid, last_row, candidates, dictionary)
    data_row, units = _units_below(grid, last_row, texts)
    return HeadingBlock(
        first_row=row, last_row=last_row, data_row=data_row, texts=texts, units=units, candidates=candidates
    )


def _last_heading_row(grid: Grid, row: int, dictionary: HeadingDictionary) -> int | None:
    """Return the row down to which the heading that begins at a row names most; None where none begins there."""
    best: tuple[float, int] | None = None
    for last_row in range(row, min(row + HEIGHT, grid.last_row + 1)):
        if last_row > row and not _may_be_heading(grid, last_row):
            break
        count = _named(_stack(grid, row, last_row), dictionary)
        if count >= LEAST_FIELDS and (best is None or count > best[0] + 0.01):
            best = (count, last_row)
    if best is None:
        return None
    count, last_row = best
    if row < last_row and _named(_stack(grid, row + 1, last_row), dictionary) >= count:
        return None  # the first row adds nothing: it is a title above the heading
    return last_row


def _with_other_languages(grid: Grid, first_row: int, last_row: int, dictionary: HeadingDictionary) -> int:
    """Return the last of the rows that say the whole heading again, as in a second language.

    Raises
    ------
    WorkbookError
        The second names other lengths than the first: no telling which of the two is right.

    """
    last = last_row
    while last < grid.last_row and _may_be_heading(grid, last + 1):
        below = _stack(grid, last + 1, last + 1)
        if _named(below, dictionary) < LEAST_FIELDS or not _names_a_tag(below, dictionary):
            break
        above = _stack(grid, first_row, last)
        for column in sorted(set(above) & set(below)):
            one, other = (_sure_length(texts[column], dictionary) for texts in (above, below))
            if one and other and one != other:
                raise WorkbookError(
                    f"{grid.package.path}: sheet {grid.name!r}: the heading rows {last} and {last + 1} disagree: "
                    f"column {column_letters(column)} is {above[column][-1]!r} and {below[column][-1]!r}; "
                    "looked for one heading"
                )
        last += 1
    return last


def _sure_length(texts: tuple[str, ...], dictionary: HeadingDictionary) -> str:
    """Return the one length that heading texts name word for word, empty where they do not."""
    found = _candidates(texts, dictionary)
    is_sure = bool(found) and found[0].score == 1.0 and len(_rivals(found)) == 1
    return found[0].field if is_sure and dictionary.is_length(found[0].field) else ""


def _refuse_two_side_by_side(
    grid: Grid, row: int, candidates: Mapping[int, tuple[Match, ...]], dictionary: HeadingDictionary
) -> None:
    """Raise where two tables stand on the same rows: the values of one would be taken for the other's."""
    seen: dict[str, int] = {}
    tags: list[int] = []
    for column in sorted(candidates):
        match = candidates[column][0]
        if match.field == "tag" and match.score >= SURE:
            tags.append(column)
        elif dictionary.is_length(match.field) and match.score == 1.0 and tags:
            first = seen.setdefault(match.field, tags[-1])
            if first != tags[-1]:
                raise WorkbookError(
                    f"{grid.package.path}: sheet {grid.name!r}: two tables stand side by side, heading row {row}, "
                    f"tags in columns {column_letters(first)} and {column_letters(tags[-1])}; "
                    "put one below the other or on a sheet of its own"
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
    may_carry = row < last_row and not _merges_sideways(grid, row)
    for column in columns:
        text = grid.text(row, column)
        if text:
            found[column] = text
            carried = text if may_carry and not _spans_down(grid, row, column) else ""
        elif carried and grid.own_texts(last_row).get(column) and not grid.is_covered(row, column):
            found[column] = carried
        else:
            carried = ""
    return {column: text for column, text in found.items() if column in own or not _is_title(text, found, columns)}


def _merges_sideways(grid: Grid, row: int) -> bool:
    """Whether a row merges cells side by side; its groups then say themselves how far they reach."""
    return any(top <= row <= bottom and right > left for top, left, bottom, right in grid.cells.merges)


def _spans_down(grid: Grid, row: int, column: int) -> bool:
    return grid.anchor(row + 1, column) == grid.anchor(row, column) and grid.is_covered(row + 1, column)


def _is_title(text: str, found: Mapping[int, str], columns: list[int]) -> bool:
    span = sum(other == text for other in found.values())
    return len(columns) >= 2 * LEAST_FIELDS and span > TITLE_SHARE * len(columns)


def _named(texts: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> float:
    """Return how many fields the texts name; 0 where neither a tag nor two lengths are among them.

    A match that is not sure counts half.
    """
    fields: dict[str, float] = {}
    for stack in texts.values():
        for match in _candidates(stack, dictionary)[:1]:
            fields[match.field] = max(fields.get(match.field, 0.0), match.score)
    lengths = sum(dictionary.is_length(name) and score >= SURE for name, score in fields.items())
    if not TAGS & set(fields) and lengths < LEAST_LENGTHS:
        return 0.0
    return sum(1.0 if score >= SURE else 0.5 for score in fields.values())


def _names_a_tag(texts: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> bool:
    return any(found[0].field in TAGS for stack in texts.values() if (found := _candidates(stack, dictionary)))


def _rivals(found: tuple[Match, ...]) -> tuple[Match, ...]:
    """Return the matches that are as good as the best."""
    return tuple(match for match in found if match.score >= found[0].score - NEAR)


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
    return found[0].score - 0.03 * (len(_rivals(found)) - 1)


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
