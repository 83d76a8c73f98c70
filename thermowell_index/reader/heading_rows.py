"""The texts of heading rows above each column, and which fields they name."""

from collections.abc import Iterable, Mapping

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import (
    HeadingDictionary,
    Match,
    is_of_another_thing,
    is_under_a_sensor,
    stacked,
)

TAGS = frozenset({"tag", "well_tag"})
LEAST_FIELDS = 3
LEAST_LENGTHS = 2
# A group heading spans a part of the table; what spans more than this share of the columns is a title.
TITLE_SHARE = 0.7
SURE = 0.75
UNSURE = 0.5
CONTESTED = 0.95
# Three fields, some of them contested.
LEAST_COUNT = 2.8
NEAR = 0.05
MOST_COLUMNS = 500


def heading_texts(grid: Grid, first_row: int, last_row: int) -> dict[int, tuple[str, ...]]:
    """Return the heading texts above each column; a group heading stands above every column it spans."""
    columns = sorted({column for row in range(first_row, last_row + 1) for column in grid.own_texts(row)})
    covered = {
        column
        for first, left, last, right in grid.cells.merges
        if first <= last_row and last >= first_row
        for column in range(left, min(right, left + MOST_COLUMNS) + 1)
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
    before = 0
    for column in columns:
        carried = carried if column == before + 1 else ""
        before = column
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


def count_named(texts: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> float:
    """Return how many fields the texts name; 0 where neither a tag nor two lengths are among them.

    A match that is not sure counts half, one with rivals a little less than one.
    """
    fields: dict[str, float] = {}
    for stack in texts.values():
        if found := candidates_of(stack, dictionary):
            weight = UNSURE if found[0].score < SURE else CONTESTED if len(best_rivals(found)) > 1 else 1.0
            fields[found[0].field] = max(fields.get(found[0].field, 0.0), weight)
    lengths = sum(dictionary.is_length(name) and weight > UNSURE for name, weight in fields.items())
    if not TAGS & set(fields) and lengths < LEAST_LENGTHS:
        return 0.0
    return sum(fields.values())


def names_a_tag(texts: Mapping[int, tuple[str, ...]], dictionary: HeadingDictionary) -> bool:
    """Whether one of the texts names the tag."""
    return any(found[0].field in TAGS for stack in texts.values() if (found := candidates_of(stack, dictionary)))


def best_rivals(found: tuple[Match, ...]) -> tuple[Match, ...]:
    """Return the matches that are as good as the best."""
    return tuple(match for match in found if match.score >= found[0].score - NEAR)


def candidates_of(stack: Iterable[str], dictionary: HeadingDictionary) -> tuple[Match, ...]:
    """Return the fields that a column's heading may name, by its best reading, with or without its groups."""
    best: tuple[Match, ...] = ()
    levels = tuple(stack)
    readings = stacked(levels)[:1] if is_of_another_thing(levels) else stacked(levels)
    is_of_a_sensor = is_under_a_sensor(levels)
    for reading in readings:
        found = dictionary.matches(reading)
        if is_of_a_sensor:
            found = tuple(match for match in found if not dictionary.is_of_wells(match.field)) or found
        if found and (not best or _fit(found) > _fit(best)):
            best = found
    return best


def _fit(found: tuple[Match, ...]) -> float:
    """Return how well a reading fits: its score, less when two fields fit alike."""
    return found[0].score - 0.03 * (len(best_rivals(found)) - 1)
