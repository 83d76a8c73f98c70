"""Tables beside each other on the same rows, parted by blank columns: told from one table with a gap in it."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import column_letters
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.heading_rows import SURE, TAGS
from thermowell_index.reader.headings import HeadingDictionary, Match
from thermowell_index.reader.layout import HeadingBlock

Value = TypeVar("Value")

LEAST_FIELDS = 2
# Rows of one table speak of one loop in both of its tag columns, those of two tables do so by chance.
ONE_TABLE, TWO_TABLES = 0.9, 0.5
DIGITS = re.compile(r"\d+")
TEMPERATURE_TAG = re.compile(r"(?<![A-Z])C?T[A-Z]{0,4}[-_ ./]*\d")


def apart(
    grid: Grid, block: HeadingBlock, last_row: int, dictionary: HeadingDictionary
) -> list[tuple[Grid, HeadingBlock]]:
    """Return the tables below one heading from the left, each with the part of the sheet that is its own.

    Raises
    ------
    WorkbookError
        Two tables stand there and nothing says where one ends: the values of one would be taken for the other's.

    """
    segments = _with_tags(_segments(grid, block, last_row), block)
    _refuse_mixed(grid, block, segments, last_row)
    found = []
    for number, segment in enumerate(segments):
        left = 1 if number == 0 else segment[0]
        right = segments[number + 1][0] - 1 if number + 1 < len(segments) else max(block.texts)
        part = block if len(segments) == 1 else _part(block, segment)
        _refuse_two_in_one(grid, part, last_row, dictionary)
        found.append((grid if len(segments) == 1 else grid.strip(left, right), part))
    return found


def _segments(grid: Grid, block: HeadingBlock, last_row: int) -> list[list[int]]:
    """Return the columns of a heading in runs, parted where no cell of its rows has anything in it."""
    if sum(_tag_of([column], block) is not None for column in block.texts) <= 1:
        return [sorted(block.texts)]
    rows = range(block.first_row, last_row + 1)
    segments: list[list[int]] = [[]]
    for column in range(min(block.texts), max(block.texts) + 1):
        if column in block.texts or any(grid.text(row, column) for row in rows):
            segments[-1].append(column)
        elif segments[-1]:
            segments.append([])
    return [part for segment in segments for part in _repetitions(segment, block)]


def _repetitions(segment: list[int], block: HeadingBlock) -> list[list[int]]:
    """Return a run in its parts where it says the same headings over and over; else the run."""
    texts = [block.texts.get(column) for column in segment]
    for width in range(LEAST_FIELDS, len(segment) // 2 + 1):
        if len(segment) % width == 0 and texts == texts[:width] * (len(segment) // width):
            return [segment[start : start + width] for start in range(0, len(segment), width)]
    return [segment]


def _with_tags(segments: Sequence[list[int]], block: HeadingBlock) -> list[list[int]]:
    """Return the runs with those joined that are no table by themselves: no tag, or nothing beside it."""
    found: list[list[int]] = []
    for segment in segments:
        fields = {block.candidates[column][0].field for column in segment if column in block.candidates}
        is_table = _tag_of(segment, block) is not None and len(fields) >= LEAST_FIELDS
        if found and not (is_table and _tag_of(found[-1], block) is not None):
            found[-1] += segment
        else:
            found.append([*segment])
    return found


def _tag_of(segment: Sequence[int], block: HeadingBlock) -> int | None:
    """Return the first column of a run whose heading names a tag."""
    for column in segment:
        match = block.candidates.get(column, ())
        if match and match[0].field in TAGS and match[0].score >= SURE:
            return column
    return None


def _refuse_mixed(grid: Grid, block: HeadingBlock, segments: list[list[int]], last_row: int) -> None:
    """Join runs whose rows speak of the same loops; raise where some rows do and some do not."""
    number = 1
    while number < len(segments):
        left, right = (_tag_of(segment, block) for segment in segments[number - 1 : number + 1])
        share = _agreeing(grid, left, right, range(block.data_row, last_row + 1))
        if share >= ONE_TABLE:
            segments[number - 1] += segments.pop(number)
        elif share > TWO_TABLES:
            raise _two_tables(grid, block.last_row, left or 0, right or 0)
        else:
            number += 1


def _agreeing(grid: Grid, left: int | None, right: int | None, rows: range) -> float:
    """Return the share of rows, of those with both tags, in which the two have the same numbers."""
    pairs = [
        (DIGITS.findall(grid.text(row, left)), DIGITS.findall(grid.text(row, right)))
        for row in rows
        if left and right and grid.text(row, left) and grid.text(row, right)
    ]
    return sum(one == other for one, other in pairs) / len(pairs) if pairs else 0.0


def _part(block: HeadingBlock, segment: Sequence[int]) -> HeadingBlock:
    return replace(
        block,
        texts=_of(block.texts, segment),
        units=_of(block.units, segment),
        candidates=_of(block.candidates, segment),
    )


def _of(found: Mapping[int, Value], segment: Sequence[int]) -> dict[int, Value]:
    return {column: found[column] for column in segment if column in found}


def _holds_tags(grid: Grid, block: HeadingBlock, column: int, last_row: int) -> bool:
    """Whether most cells of a column are tags of temperature instruments."""
    texts = [text for row in range(block.data_row, last_row + 1) if (text := grid.text(row, column).strip().upper())]
    return 2 * sum(bool(TEMPERATURE_TAG.search(text)) for text in texts) > len(texts)


def _is_clear(found: Sequence[Match]) -> bool:
    return found[0].score == 1.0 and (len(found) == 1 or found[1].score < 1.0)


def _refuse_two_in_one(grid: Grid, block: HeadingBlock, last_row: int, dictionary: HeadingDictionary) -> None:
    """Raise where a run has two tags and the same length after each of them."""
    seen: dict[str, int] = {}
    tags: list[int] = []
    for column in sorted(block.candidates):
        match = block.candidates[column][0]
        if match.field == "tag" and match.score >= SURE and (not tags or _holds_tags(grid, block, column, last_row)):
            tags.append(column)
        elif dictionary.is_length(match.field) and _is_clear(block.candidates[column]) and tags:
            first = seen.setdefault(match.field, tags[-1])
            if first != tags[-1]:
                raise _two_tables(grid, block.last_row, first, tags[-1])


def _two_tables(grid: Grid, row: int, first: int, second: int) -> WorkbookError:
    return WorkbookError(
        f"{grid.package.path}: sheet {grid.name!r}: two tables stand side by side, heading row {row}, "
        f"tags in columns {column_letters(first)} and {column_letters(second)}; "
        "part them by a blank column, put one below the other or on a sheet of its own"
    )
