from collections.abc import Callable

import pytest

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.sums import adds_up

MakeGrid = Callable[..., Grid]
COLUMNS = {"overall_length": (1, "in"), "tip_thickness": (2, "in"), "bore_depth": (3, "in")}


@pytest.mark.parametrize(
    "lines,is_sum",
    [
        (["9.25 | 0.25 | 9"] * 3, True),
        (["9.25 | 0.25 | 9.0625"] * 3, True),
        (["9.25 | 0.25 | 9.07"] * 3, False),
        (["9.25 | 0.25 | 9"] * 4 + ["9.25 | 0.25 | 6"], True),
        (["9.25 | 0.25 | 9"] * 3 + ["9.25 | 0.25 | 6"], False),
        (["9.25 | 0.25 | 9"] * 2, False),
        (["9.25 | 0.25 | 9", "9.25 | | 9", "9.25 | 0.25 | TBD", "9.25 | 0.25 | 9", "9.25 | 0.25 | 9"], True),
        (["9.25 | 6.35 mm | 9"] * 3, True),
    ],
)
def test_bore_depth_and_tip_are_the_overall_length(grid: MakeGrid, lines: list[str], is_sum: bool) -> None:  # noqa: FBT001 - a column of the table
    made = grid("\n".join(lines))
    assert adds_up(made, COLUMNS, range(1, len(lines) + 1)) == is_sum


def test_nothing_is_told_without_the_other_two_or_a_unit(grid: MakeGrid) -> None:
    made = grid("\n".join(["9.25 | 0.25 | 9"] * 3))
    assert not adds_up(made, {name: COLUMNS[name] for name in ("overall_length", "bore_depth")}, [1, 2, 3])
    assert not adds_up(made, COLUMNS | {"bore_depth": (3, None)}, [1, 2, 3])
