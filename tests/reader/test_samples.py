from collections.abc import Callable

import pytest

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.samples import samples_of, unread_lengths

MakeGrid = Callable[..., Grid]


def test_samples_are_the_first_three_different_values(grid: MakeGrid) -> None:
    made = grid("a | 1 |\na | 2 | what a very long text this is\nb | 3 |\nc | 4 |\nd | 5 |")
    assert samples_of(made, [1, 2, 3], range(1, 6)) == {
        1: ("a", "b", "c"),
        2: ("1", "2", "3"),
        3: ("what a very long text...",),
    }


@pytest.mark.parametrize(
    "heading,unit,cells,is_length",
    [
        ("Dim K (in)", "in", ["9", "8.5", "12"], True),
        ("Dim K", None, ["9 in", "230 mm"], True),
        ("Dim K", None, ["9", "8.5"], False),
        ("Dim K (in)", "in", ["9", "", "TBD"], False),
        ("Dim K (in)", "in", ["9", "8", "7", "6", "see dwg"], True),
        ("Dim K (in)", "in", ["9", "8", "7", "see dwg"], False),
        ("Dim K (mm)", "mm", ["3048", "1"], True),
        ("Dim K (mm)", "mm", ["3049", "0.9"], False),
        ("Nozzle length (mm)", "mm", ["150", "150"], False),
        ("Elevation (m)", "m", ["2", "3"], False),
        ("Vendor length (mm)", "mm", ["150", "150"], False),
    ],
)
def test_a_column_of_lengths_below_an_unknown_heading(
    grid: MakeGrid,
    heading: str,
    unit: str | None,
    cells: list[str],
    is_length: bool,  # noqa: FBT001 - a column of the table
) -> None:
    made = grid("\n".join(f"x | {cell}" for cell in cells))
    assert bool(unread_lengths(made, {2: heading}, {2: unit}, range(1, len(cells) + 1))) == is_length
