"""The fewest stock lengths: small cases by hand and by brute force, larger ones by an integer programme."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from thermowell_index.sizing.spares import StockLengths, fewest_lengths

STEP_NM = 5_000_000
NM = 1_000_000
Wells = list[tuple[int, int, int]]
"""Shortest [nm], longest [nm], steps of the length ordered."""


def plan_of(wells: Wells, standard: tuple[float, ...] | None = None) -> StockLengths:
    shortest, longest, steps = (np.array(column, dtype=np.float64) for column in zip(*wells, strict=True))
    return fewest_lengths(
        shortest_mm=shortest / NM,
        longest_mm=longest / NM,
        order_mm=steps * STEP_NM / NM,
        increment_nm=STEP_NM,
        standard_lengths_mm=standard,
    )


def steps_of(plan: StockLengths) -> tuple[int, ...]:
    return tuple(round(length * NM) // STEP_NM for length in plan.lengths_mm.tolist())


def by_brute_force(wells: Wells, grid: list[int]) -> tuple[int, ...]:
    """Return the best plan of all that there are: fewest, largest least margin, most common, longest."""

    def least_margin(plan: tuple[int, ...]) -> int:
        return min(
            max(min(step * STEP_NM - shortest, longest - step * STEP_NM) for step in plan)
            for shortest, longest, _ in wells
        )

    for count in range(1, len(wells) + 1):
        plans = [plan for plan in combinations(grid, count) if least_margin(plan) >= 0]
        if plans:
            return max(
                plans,
                key=lambda plan: (
                    least_margin(plan),
                    sum(1 for _, _, ordered in wells if ordered in plan),
                    sum(plan),
                    plan,
                ),
            )
    raise AssertionError


@st.composite
def some_wells(draw: st.DrawFn) -> Wells:
    """Draw a few wells whose ordered length lies in their range."""
    wells = []
    for _ in range(draw(st.integers(1, 6))):
        ordered = draw(st.integers(2, 9))
        below, above = draw(st.integers(0, 9 * NM)), draw(st.integers(0, 9 * NM))
        wells.append((ordered * STEP_NM - below, ordered * STEP_NM + above, ordered))
    return wells


@settings(max_examples=300, deadline=None)
@given(some_wells())
def test_no_plan_is_better_than_the_one_found(wells: Wells) -> None:
    expected = by_brute_force(wells, list(range(1, 12)))
    found = steps_of(plan_of(wells))
    value = [_value(wells, plan) for plan in (found, expected)]
    assert value[0] == value[1]


def _value(wells: Wells, plan: tuple[int, ...]) -> tuple[int, int, int, int]:
    least = min(max(min(s * STEP_NM - a, b - s * STEP_NM) for s in plan) for a, b, _ in wells)
    return len(plan), least, sum(ordered in plan for _, _, ordered in wells), sum(plan)


def _programme(first: NDArray[np.intp], last: NDArray[np.intp], cost: NDArray[np.float64]) -> float | None:
    """Return the least cost of points that stab every range of places, None where there are none."""
    if (first > last).any():
        return None
    rows = np.array(
        [[begin <= place <= end for place in range(cost.size)] for begin, end in zip(first, last, strict=True)]
    )
    found = milp(
        cost,
        constraints=LinearConstraint(rows.astype(float), lb=1.0),
        integrality=np.ones(cost.size, dtype=np.int64),
        bounds=Bounds(0, 1),
    )
    assert found.success
    return float(found.fun)


@pytest.mark.parametrize("seed", range(6))
def test_an_integer_programme_finds_no_better_plan_for_some_hundred_wells(seed: int) -> None:
    random = np.random.default_rng(seed)
    ordered = random.integers(20, 90, 200)
    order = ordered * STEP_NM
    shortest, longest = order - random.integers(0, 15 * NM, 200), order + random.integers(0, 15 * NM, 200)
    plan = plan_of(list(zip(shortest.tolist(), longest.tolist(), ordered.tolist(), strict=True)))
    steps = np.array(steps_of(plan))
    grid = np.arange(1, 100) * STEP_NM
    least = round(plan.least_margin_mm * NM)

    def places(margin: int) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        return np.searchsorted(grid, shortest + margin), np.searchsorted(grid, longest - margin, side="right") - 1

    ones = np.ones(grid.size)
    assert _programme(*places(0), ones) == len(steps)
    assert _programme(*places(least), ones) == len(steps)
    tighter = _programme(*places(least + 1), ones)
    assert tighter is None or tighter > len(steps)
    common = np.bincount(ordered, minlength=101)[1:100]
    many = 1000.0
    cheapest = _programme(*places(least), many * ones - common)
    assert cheapest == pytest.approx(many * len(steps) - common[steps - 1].sum())


def test_one_length_serves_wells_whose_ranges_overlap() -> None:
    # 221..236 and 226..241 share 230 and 235; least margin 4 at 230 (230 - 226), 1 at 235 (236 - 235)
    plan = plan_of([(221 * NM, 236 * NM, 46), (226 * NM, 241 * NM, 47)])
    assert (plan.lengths_mm.tolist(), plan.least_margin_mm) == ([230.0], 4.0)


def test_of_plans_with_one_margin_the_lengths_already_common_are_taken() -> None:
    # 225, 230 and 235 all fit 200..260 with room; the well at 300 +- 1 holds the least margin down to 1 mm
    wide = [(200 * NM, 260 * NM, 45), (200 * NM, 260 * NM, 45), (200 * NM, 260 * NM, 47)]
    plan = plan_of([*wide, (299 * NM, 301 * NM, 60)])
    assert plan.lengths_mm.tolist() == [225.0, 300.0]


def test_of_plans_alike_the_longer_lengths_are_taken() -> None:
    plan = plan_of([(224 * NM, 231 * NM, 60), (299 * NM, 301 * NM, 60)])
    assert plan.lengths_mm.tolist() == [230.0, 300.0]


def test_a_length_on_the_limit_serves_the_well() -> None:
    plan = plan_of([(230 * NM, 232 * NM, 46), (228 * NM, 230 * NM, 46)])
    assert (plan.lengths_mm.tolist(), plan.least_margin_mm) == ([230.0], 0.0)


def test_a_nanometre_beyond_the_limit_does_not() -> None:
    plan = plan_of([(230 * NM + 1, 235 * NM, 47), (228 * NM, 230 * NM, 46)])
    assert plan.lengths_mm.tolist() == [230.0, 235.0]


def test_quarter_inches_held_in_millimetres_are_exact() -> None:
    one = np.array([9.25 * 25.4])
    plan = fewest_lengths(shortest_mm=one, longest_mm=one, order_mm=one, increment_nm=6_350_000)
    assert (plan.lengths_mm.tolist(), plan.least_margin_mm) == ([234.95], 0.0)


def test_lengths_come_from_the_list_where_there_is_one() -> None:
    plan = plan_of([(310 * NM, 320 * NM, 63), (340 * NM, 350 * NM, 69)], standard=(345.0, 285.0, 315.0))
    assert plan.lengths_mm.tolist() == [315.0, 345.0]


def test_a_well_is_lost_when_its_only_length_is_struck_out() -> None:
    plan = plan_of([(221 * NM, 229 * NM, 45), (224 * NM, 251 * NM, 48), (246 * NM, 254 * NM, 50)])
    assert plan.lengths_mm.tolist() == [225.0, 250.0]
    assert [plan.lost_without(place).tolist() for place in (0, 1)] == [[True, False, False], [False, False, True]]


def test_a_well_takes_the_length_with_the_larger_margin_and_of_two_alike_the_longer() -> None:
    plan = plan_of([(224 * NM, 226 * NM, 45), (234 * NM, 236 * NM, 47), (220 * NM, 240 * NM, 46)])
    # 225 and 235 leave the third well 5 mm each
    assert (plan.served_by.tolist(), plan.margins_mm.tolist()) == ([0, 1, 1], [1.0, 1.0, 5.0])


def test_no_wells_make_an_empty_plan() -> None:
    none = np.array([])
    plan = fewest_lengths(shortest_mm=none, longest_mm=none, order_mm=none, increment_nm=STEP_NM)
    assert (plan.lengths_mm.size, plan.served_by.size, plan.margins_mm.size, plan.fits.shape) == (0, 0, 0, (0, 0))


@pytest.mark.parametrize(
    "shortest,longest,increment,why",
    [
        (231.0, 234.0, STEP_NM, "no length"),
        (float("nan"), 234.0, STEP_NM, "not known"),
        (231.0, 240.0, 0, "increment"),
    ],
)
def test_what_cannot_be_planned_is_refused(*, shortest: float, longest: float, increment: int, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        fewest_lengths(
            shortest_mm=np.array([shortest]),
            longest_mm=np.array([longest]),
            order_mm=np.array([235.0]),
            increment_nm=increment,
        )
