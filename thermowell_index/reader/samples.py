"""Sample values of a column, and whether a column that was read as no field holds lengths all the same."""

from collections.abc import Iterable, Mapping, Sequence

from thermowell_index.reader.cells import read_length
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import evidence_of, normal_words
from thermowell_index.reader.vocabulary import OTHER_THINGS, OWNERS
from thermowell_index.table import CellState, TableRead
from thermowell_index.units import to_mm

SAMPLES = 3
WIDEST = 24
LOOKED_AT = 200
LEAST_FILLED, MOST = 2, 0.8
# Lengths of a well or a sensor [mm]: 3/64 in to 10 ft. Common practice, no source.
LEAST_MM, MOST_MM = 1.0, 3048.0
# Words of lengths that a thermowell has no part in.
ELSEWHERE = frozenset(
    {"ELEVATION", "HEIGHT", "LEVEL", "SIZE", "DISTANCE", "COORDINATE", "LINE", "PIPE", "TUBE", "RANGE"}
)
# What a measured length may be of which the heading does not say which.
MAY_BE_MEASURED = ("measured_bore_depth", "overall_length")
# Words that letters stand beside where a heading names a dimension of a drawing: "Dim A", "TW B length".
BESIDE_LETTERS = frozenset(["DIMENSION", "DIMENSIONS", "LENGTH", "DEPTH", "BORE", "OVERALL", "WELL", "HEAD", "TIP"])


def names_a_dimension(heading: str) -> bool:
    """Whether a heading is a letter, or a word for a length, and nothing else: which one only a drawing tells.

    >>> names_a_dimension("TW B-dim"), names_a_dimension("C"), names_a_dimension("Well")
    (True, True, False)
    """
    words = set(normal_words(heading))
    return bool(words - {"WELL"}) and all(len(word) == 1 or word in BESIDE_LETTERS for word in words)


def ask_of_measured(table: TableRead, grid: Grid, units: Mapping[int, str | None], rows: Sequence[int]) -> None:
    """Ask about columns of measured lengths whose headings do not say which: they may decide a bore depth."""
    measured = {column: heading for column, heading in table.unread if evidence_of([heading]) == "measured"}
    asked = unread_lengths(grid, measured, units, rows)
    table.undecided += [(column, measured[column], MAY_BE_MEASURED) for column in asked]
    table.unread = [(column, heading) for column, heading in table.unread if column not in asked]


def samples_of(grid: Grid, columns: Iterable[int], rows: Sequence[int]) -> dict[int, tuple[str, ...]]:
    """Return the first different values of each column."""
    return {column: _samples(grid, column, rows) for column in columns}


def _samples(grid: Grid, column: int, rows: Sequence[int]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    for row in rows:
        text = " ".join(grid.text(row, column).split())
        if text:
            found.setdefault(text if len(text) <= WIDEST else text[: WIDEST - 3] + "...")
        if len(found) == SAMPLES:
            break
    return tuple(found)


def unread_lengths(
    grid: Grid, unread: Mapping[int, str], units: Mapping[int, str | None], rows: Sequence[int]
) -> tuple[int, ...]:
    """Return the columns that no field took and that hold lengths: `units` are what their headings declare."""
    return tuple(
        column
        for column, heading in unread.items()
        if not frozenset(normal_words(heading)) & (OTHER_THINGS | OWNERS | ELSEWHERE)
        and _holds_lengths(grid, column, units.get(column), rows)
    )


def _holds_lengths(grid: Grid, column: int, unit: str | None, rows: Sequence[int]) -> bool:
    readings = [read_length(grid.cell(row, column), grid.package) for row in rows[:LOOKED_AT]]
    filled = [reading for reading in readings if reading.state is not CellState.MISSING]
    lengths = [
        to_mm(reading.number, named)
        for reading in filled
        if reading.state is CellState.VALUE and reading.number is not None and (named := reading.unit or unit)
    ]
    fitting = sum(LEAST_MM <= length <= MOST_MM for length in lengths)
    return len(filled) >= LEAST_FILLED and fitting >= MOST * len(filled)
