"""A column that its heading leaves open is told by what the other columns of the table add up to."""

from collections.abc import Mapping, Sequence

from thermowell_index.reader.cells import read_length
from thermowell_index.reader.grid import Grid
from thermowell_index.table import CellState
from thermowell_index.units import to_mm

LEAST_ROWS, MOST = 3, 0.8
# Overall length less tip is the bore depth within this [mm]: 1/16 in, common practice, no source.
NEAR_MM = 1.5875 + 1e-6


def adds_up(grid: Grid, columns: Mapping[str, tuple[int, str | None]], rows: Sequence[int]) -> bool:
    """Whether bore depth and tip thickness are the overall length in most rows; `columns` with their units."""
    if not {"bore_depth", "overall_length", "tip_thickness"} <= columns.keys():
        return False
    lengths = [
        [_length_mm(grid, row, *columns[name]) for name in ("bore_depth", "overall_length", "tip_thickness")]
        for row in rows
    ]
    filled = [
        (bore, overall, tip)
        for bore, overall, tip in lengths
        if bore is not None and overall is not None and tip is not None
    ]
    fitting = sum(abs(overall - tip - bore) <= NEAR_MM for bore, overall, tip in filled)
    return len(filled) >= LEAST_ROWS and fitting >= MOST * len(filled)


def _length_mm(grid: Grid, row: int, column: int, unit: str | None) -> float | None:
    reading = read_length(grid.cell(row, column), grid.package)
    named = reading.unit or unit
    if reading.state is not CellState.VALUE or reading.number is None or not named:
        return None
    return to_mm(reading.number, named)
