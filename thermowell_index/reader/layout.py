"""Where the tables of a sheet are: heading rows below title blocks, one to three rows high, and what they name."""

import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import column_letters
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.heading_rows import (
    LEAST_COUNT,
    LEAST_FIELDS,
    TAGS,
    best_rivals,
    candidates_of,
    count_named,
    heading_texts,
    names_a_tag,
)
from thermowell_index.reader.headings import HeadingDictionary, Match, speaks_of_an_extension
from thermowell_index.units import unit_of_words

HEIGHT = 4
LABELS_WITHIN = 12
LOOK_BELOW = 6
MOST_NAMED = 8
TEMPERATURE_TAG = re.compile(r"(?:[\w.=+]*[-_ /])?T[A-Z]{0,4}[-_ ./]*\d{2,}[\w./&-]{0,8}", re.IGNORECASE)


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
    return _unknown_headings(grid, dictionary) or "no heading row with a tag and two more known headings"


def _unknown_headings(grid: Grid, dictionary: HeadingDictionary) -> str:
    """Return what stands beside the heading of a tag that has tags below it and no known length beside it."""
    for row in grid.rows():
        texts = heading_texts(grid, row, row)
        below = range(row + 1, min(row + 1 + LOOK_BELOW, grid.last_row + 1))
        if names_a_tag(texts, dictionary) and any(_is_data(grid, lower, texts, dictionary) for lower in below):
            unknown = [text for (text,) in texts.values() if not dictionary.matches(text)]
            named = ", ".join(map(repr, unknown[:MOST_NAMED]))
            return f"row {row} has a tag and no known length beside it; not known: {named or 'none'}"
    return ""


def disagreement(blocks: Sequence[HeadingBlock], dictionary: HeadingDictionary) -> str:
    """Return how two headings with no row between them disagree on what their columns are; empty where none do."""
    for one, other in itertools.pairwise(blocks):
        first, second = _sure_columns(one), _sure_columns(other)
        moved = [name for name in first if name in second and first[name] != second[name]]
        has_all = TAGS & set(first) and TAGS & set(second) and any(map(dictionary.is_length, moved))
        if other.first_row == one.data_row and has_all and len(moved) > 1:
            name, rows = moved[0], (one.last_row, other.last_row)
            letters = [column_letters(found[name]) for found in (first, second)]
            return (
                f"its headings in rows {rows[0]} and {rows[1]} disagree: {name.replace('_', ' ')} is column "
                f"{letters[0]} in one and column {letters[1]} in the other"
            )
    return ""


def _sure_columns(block: HeadingBlock) -> dict[str, int]:
    """Return the column of each field that a heading names without a rival."""
    found = {column: match for column, match in block.candidates.items() if len(best_rivals(match)) == 1}
    return {match[0].field: column for column, match in found.items()}


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
    texts = heading_texts(grid, row, last_row)
    texts.update(_second_units(grid, last_row, texts))
    candidates = {column: found for column, stack in texts.items() if (found := candidates_of(stack, dictionary))}
    data_row, units = _units_below(grid, last_row, texts)
    return HeadingBlock(
        first_row=row, last_row=last_row, data_row=data_row, texts=texts, units=units, candidates=candidates
    )


def _last_heading_row(grid: Grid, row: int, dictionary: HeadingDictionary) -> int | None:
    """Return the row down to which the heading that begins at a row names most; None where none begins there."""
    best: tuple[float, int] | None = None
    texts: dict[int, tuple[str, ...]] = {}
    for last_row in range(row, min(row + HEIGHT, grid.last_row + 1)):
        if last_row > row and not (_may_be_heading(grid, last_row) and not _is_data(grid, last_row, texts, dictionary)):
            break
        texts = heading_texts(grid, row, last_row)
        count = count_named(texts, dictionary)
        is_enough = count >= LEAST_COUNT or (count > 1 and _has_data_below(grid, last_row, texts, dictionary))
        if is_enough and (best is None or count > best[0] + 0.01):
            best = (count, last_row)
    if best is None:
        return None
    count, last_row = best
    if _is_below_groups(grid, last_row, dictionary):
        last_row += 1
    return None if row < last_row and _adds_nothing(grid, row, last_row, count, dictionary) else last_row


def _is_below_groups(grid: Grid, row: int, dictionary: HeadingDictionary) -> bool:
    """Whether all that stands in the row below a heading row divides headings that are merged side by side."""
    texts = grid.own_texts(row + 1)
    groups = [(left, right) for top, left, bottom, right in grid.cells.merges if top <= row == bottom and right > left]
    if not texts or not _may_be_heading(grid, row + 1):
        return False
    if _is_data(grid, row + 1, heading_texts(grid, row, row), dictionary):
        return False
    return all(any(left <= column <= right for left, right in groups) for column in texts)


def _adds_nothing(grid: Grid, row: int, last_row: int, count: float, dictionary: HeadingDictionary) -> bool:
    """Whether a heading reads the same without its first row, which then is a title above it."""
    lower = heading_texts(grid, row + 1, last_row)
    if count_named(lower, dictionary) < count or _tells_apart(grid, row, last_row, lower, dictionary):
        return False
    for column, texts in heading_texts(grid, row, last_row).items():
        found, less = candidates_of(texts, dictionary), candidates_of(lower.get(column, ()), dictionary)
        is_sure = bool(found) and found[0].score == 1.0 and len(best_rivals(found)) == 1
        if is_sure and bool(less) and (less[0].field != found[0].field or len(best_rivals(less)) > 1):
            return False
    return True


def _tells_apart(
    grid: Grid,
    row: int,
    last_row: int,
    lower: Mapping[int, tuple[str, ...]],
    dictionary: HeadingDictionary,
) -> bool:
    """Whether a heading's first row tells two columns of one length apart, or that a column is of the extension."""
    stacks: dict[tuple[str, ...], set[tuple[str, ...]]] = {}
    for column, texts in heading_texts(grid, row, last_row).items():
        below = lower.get(column, ())
        if below and speaks_of_an_extension(texts) and not speaks_of_an_extension(below):
            return True
        found = candidates_of(below, dictionary)
        if len(texts) > len(below) and found and dictionary.is_length(found[0].field):
            stacks.setdefault(below, set()).add(texts)
    return any(len(different) > 1 for different in stacks.values())


def _is_data(grid: Grid, row: int, above: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> bool:
    """Whether a row has a number in a column whose heading above names the tag, as tags have."""
    for column, texts in above.items():
        found = candidates_of(texts, dictionary)
        if found and found[0].field in TAGS and not grid.is_covered(row, column):
            text = grid.text(row, column)
            if any(mark.isdigit() for mark in text) and not _are_column_numbers([*grid.own_texts(row).values()]):
                return True
    return False


def _has_data_below(grid: Grid, row: int, texts: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> bool:
    """Whether a short heading names a length word for word, and a row soon below it has a tag."""
    below = range(row + 1, min(row + 1 + LOOK_BELOW, grid.last_row + 1))
    if not any(_sure_length(stack, dictionary) for stack in texts.values()):
        return False
    if names_a_tag(texts, dictionary):
        return any(_is_data(grid, lower, texts, dictionary) for lower in below)
    return any(TEMPERATURE_TAG.fullmatch(text) for lower in below for text in grid.own_texts(lower).values())


def _with_other_languages(grid: Grid, first_row: int, last_row: int, dictionary: HeadingDictionary) -> int:
    """Return the last of the rows that say the whole heading again, as in a second language.

    Raises
    ------
    WorkbookError
        The second names other lengths or other units than the first: no telling which of the two is right.

    """
    last = last_row
    while last < grid.last_row and _may_be_heading(grid, last + 1):
        above, below = heading_texts(grid, first_row, last), heading_texts(grid, last + 1, last + 1)
        pairs = [
            (column, _sure_length(above[column], dictionary), _sure_length(below[column], dictionary))
            for column in sorted(set(above) & set(below))
        ]
        if _is_data(grid, last + 1, above, dictionary) or not any(other for _, _, other in pairs):
            break
        is_whole = count_named(below, dictionary) >= LEAST_COUNT and names_a_tag(below, dictionary)
        differing = [column for column, one, other in pairs if one and other and one != other]
        other_units = [
            column for column, one, other in pairs if one == other != "" and _units_differ(above, below, column)
        ]
        if (differing or other_units) and is_whole:
            column = [*differing, *other_units][0]
            raise WorkbookError(
                f"{grid.package.path}: sheet {grid.name!r}: the heading rows {last} and {last + 1} disagree: "
                f"column {column_letters(column)} is {above[column][-1]!r} and {below[column][-1]!r}; "
                "looked for one heading"
            )
        if differing or not any(one == other != "" for _, one, other in pairs):
            break
        last += 1
    return last


def _units_differ(above: Mapping[int, tuple[str, ...]], below: Mapping[int, tuple[str, ...]], column: int) -> bool:
    one, other = (unit_of_words(texts[column][-1]) for texts in (above, below))
    return one is not None and other is not None and one != other


def _sure_length(texts: tuple[str, ...], dictionary: HeadingDictionary) -> str:
    """Return the one length that heading texts name word for word, empty where they do not."""
    found = candidates_of(texts, dictionary)
    is_sure = bool(found) and found[0].score == 1.0 and len(best_rivals(found)) == 1
    return found[0].field if is_sure and dictionary.is_length(found[0].field) else ""


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


def _second_units(grid: Grid, last_row: int, texts: Mapping[int, tuple[str, ...]]) -> dict[int, tuple[str, ...]]:
    """Return the headings of columns that have none: the one on the left, where the row of units gives another unit."""
    units = {
        column: unit for column, text in grid.own_texts(last_row + 1).items() if (unit := unit_of_words(f"({text})"))
    }
    return {
        column: texts[column - 1]
        for column, unit in units.items()
        if column not in texts and column - 1 in texts and units.get(column - 1, unit) != unit
    }


def _is_filler(text: str) -> bool:
    return bool(
        re.fullmatch(
            r"[-\u2013\u2014/.()\[\] ]*|[(\[]?(?:°?\s*[CFK]|deg\.? ?[CF]|(?:bar|psi|kPa|MPa)[ag]?(?: ?\(?[ag]\)?)?"
            r"|text|NPS|DN|no\.?|nr\.?|ea\.?|pcs\.?|pc\.?|st(?:ck|k)?\.?|qty|%|months?|years?|[A-Z]{1,2})[)\]]?",
            text,
            re.IGNORECASE,
        )
    )


def _are_column_numbers(texts: list[str]) -> bool:
    if len(texts) < LEAST_FIELDS:
        return False
    numbers = [int(text.strip("()")) for text in texts if re.fullmatch(r"\(?\d{1,3}\)?", text)]
    return len(numbers) == len(texts) and all(b - a == 1 for a, b in itertools.pairwise(numbers))
