"""Nominal pipe sizes and the pipes behind them."""

import math

import pytest

from thermowell_index.validator.nominal_sizes import nominal_pipe_size, pipe_size


@pytest.mark.parametrize(
    "text,nps",
    [('6"', 6), ("6 in", 6), ("NPS 6", 6), ("DN150", 6), ("DN 40", 1.5), ("150", 6), ("150 mm", 6), ("1 1/2", 1.5), ('1-1/2"', 1.5), ("3/4", 0.75), ("0.75", 0.75), ("2,5", 2.5), ("24", 24), ('2" 300# RF', 2), ("1-1/2 x 300#", 1.5), ("20 in", 20), ("DN20", 0.75)],
)  # fmt: skip
def test_a_size_is_read_in_inches_or_as_dn(text: str, nps: float) -> None:
    assert nominal_pipe_size(text) == nps


@pytest.mark.parametrize("text", ["", "20", "7", "see P&ID", "DN 7", "6/4/2", "1/0"])
def test_a_size_that_is_none_for_certain_is_not_known(text: str) -> None:
    assert math.isnan(nominal_pipe_size(text))


@pytest.mark.parametrize(
    "nps,schedule,outside,wall,bore",
    [
        (6, "40", 168.3, 7.11, 154.08),
        (2, "SCH 80", 60.3, 5.54, 49.22),
        (10, "STD", 273.0, 9.27, 254.46),
        (1.5, "S40", 48.3, 3.68, 40.94),
    ],
)
def test_a_pipe_is_that_of_its_size_and_schedule(
    nps: float, schedule: str, outside: float, wall: float, bore: float
) -> None:
    """ASME B36.10M through the library, in the values of its public documentation [mm]."""
    pipe = pipe_size(nps, schedule)

    assert pipe is not None
    assert (round(pipe.outside_mm, 2), round(pipe.wall_mm, 2), round(pipe.bore_mm, 2)) == (outside, wall, bore)


@pytest.mark.parametrize("nps,schedule", [(6.0, "unknown"), (6.0, ""), (6.0, "33"), (math.nan, "40"), (7.0, "40")])
def test_there_is_no_pipe_of_other_sizes_and_schedules(nps: float, schedule: str) -> None:
    assert pipe_size(nps, schedule) is None
