import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from thermowell_index.sizing.order import (
    default_preload,
    default_reserve,
    fit_window,
    fixed_window,
    order_from_list,
    order_on_increment,
)

INCH = 25.4
QUARTER_INCH_NM = 6_350_000
FORM_4_INSERTS = (285.0, 315.0, 345.0, 375.0, 435.0, 585.0)
sixty_fourths = st.integers(min_value=1, max_value=200 * 64)
millimetres = st.floats(min_value=-50.0, max_value=1500.0)


def on_increment(target: float, shortest: float, longest: float, increment_nm: int = QUARTER_INCH_NM) -> float:
    order_mm = order_on_increment(
        target_mm=np.array([target]),
        shortest_mm=np.array([shortest]),
        longest_mm=np.array([longest]),
        increment_nm=np.array([increment_nm]),
    )
    return float(order_mm[0])


def from_list(target: float, shortest: float, longest: float, standard: tuple[float, ...] = FORM_4_INSERTS) -> float:
    order_mm = order_from_list(
        target_mm=np.array([target]),
        shortest_mm=np.array([shortest]),
        longest_mm=np.array([longest]),
        standard_lengths_mm=standard,
    )
    return float(order_mm[0])


def nearest_by_brute_force(candidates: list[float], target: float, shortest: float, longest: float) -> float:
    """Every candidate tried on whole nanometres; of two as near, the longer."""
    target_nm, shortest_nm, longest_nm = (round(length * 1e6) for length in (target, shortest, longest))
    inside = [round(length * 1e6) for length in candidates if shortest_nm <= round(length * 1e6) <= longest_nm]
    if not inside:
        return math.nan
    return min(inside, key=lambda length_nm: (abs(length_nm - target_nm), -length_nm)) / 1e6


@pytest.mark.parametrize("travel,preload,reserve", [(25.4, 3.175, 1.27), (8.0, 1.0, 0.5), (4.0, 1.0, 0.5)])
def test_a_spring_keeps_a_share_of_its_travel_or_a_least_length(travel: float, preload: float, reserve: float) -> None:
    assert default_preload(travel_mm=np.array([travel]))[0] == pytest.approx(preload)
    assert default_reserve(travel_mm=np.array([travel]))[0] == pytest.approx(reserve)


def test_an_unknown_travel_has_no_preload_and_no_reserve() -> None:
    assert np.isnan(default_preload(travel_mm=np.array([np.nan]))[0])
    assert np.isnan(default_reserve(travel_mm=np.array([np.nan]))[0])


@given(st.floats(0.5, 100.0), st.floats(0.0, 10.0), st.floats(0.0, 10.0))
def test_the_window_holds_exactly_the_lengths_whose_spring_works(travel: float, minus: float, plus: float) -> None:
    shortest, longest = fit_window(
        seat_plane_mm=np.array([200.0]),
        travel_mm=np.array([travel]),
        preload_mm=np.array([1.0]),
        reserve_mm=np.array([0.5]),
        minus_mm=np.array([minus]),
        plus_mm=np.array([plus]),
    )
    assert (shortest[0] - 200.0) - minus == pytest.approx(1.0)
    assert (longest[0] - 200.0) + plus == pytest.approx(travel - 0.5)


def test_the_window_of_a_fixed_fitting_keeps_a_gap_within_its_tolerance() -> None:
    # 8-1/2 in seat plane: shortest 8-1/2 - 1/2 = 8, longest 8-1/2 - 1/16 - 1/8 = 8-5/16
    shortest, longest = fixed_window(
        seat_plane_mm=np.array([8.5 * INCH]),
        least_gap_mm=np.array([INCH / 16]),
        most_gap_mm=np.array([INCH / 2]),
        plus_mm=np.array([INCH / 8]),
    )
    assert shortest[0] / INCH == pytest.approx(8.0)
    assert longest[0] / INCH == pytest.approx(8.3125)


@given(sixty_fourths)
def test_every_64th_of_an_inch_rounds_as_its_exact_fraction(count: int) -> None:
    inches = Fraction(count, 64)
    exact = Fraction(math.floor(inches * 4 + Fraction(1, 2)), 4)  # a tie goes to the longer
    assume(exact > 0)
    assert on_increment(float(inches) * INCH, 0.0, 1e5) == float(exact * Fraction(127, 5))


@given(sixty_fourths)
def test_the_limits_themselves_fit_on_every_quarter_inch(count: int) -> None:
    quarter = count / 4 * INCH
    assert on_increment(quarter, quarter, quarter) == pytest.approx(quarter, abs=1e-9)


@pytest.mark.parametrize("held", [234.95, 9.25 * 25.4, float(np.float64(234.9) + 0.05), 25.4 * 37 / 4])
def test_nine_and_a_quarter_inch_is_ordered_as_such_however_it_came_about(held: float) -> None:
    assert on_increment(held, held, held) == 234.95


@given(millimetres, millimetres, st.floats(0.0, 60.0), st.sampled_from([QUARTER_INCH_NM, 5_000_000, 1_000_000]))
def test_the_order_is_the_nearest_multiple_inside_the_window(
    target: float, shortest: float, width: float, increment_nm: int
) -> None:
    multiples = [k * increment_nm / 1e6 for k in range(1, 1_600_000_000 // increment_nm)]
    expected = nearest_by_brute_force(multiples, target, shortest, shortest + width)
    assert on_increment(target, shortest, shortest + width, increment_nm) == pytest.approx(expected, nan_ok=True)


@given(millimetres, millimetres, st.floats(0.0, 60.0))
def test_the_order_from_a_list_is_the_nearest_inside_the_window(target: float, shortest: float, width: float) -> None:
    expected = nearest_by_brute_force(list(FORM_4_INSERTS), target, shortest, shortest + width)
    assert from_list(target, shortest, shortest + width) == pytest.approx(expected, nan_ok=True)


def test_a_tie_goes_to_the_longer() -> None:
    assert on_increment(9.125 * INCH, 8 * INCH, 10 * INCH) == pytest.approx(9.25 * INCH)
    assert from_list(300.0, 0.0, 1000.0) == 315.0


def test_a_length_that_must_not_be_rounded_up_is_the_greatest_up_to_the_longest() -> None:
    assert on_increment(211.4, 200.0, 211.4) == pytest.approx(8.25 * INCH)  # 209.55; 215.9 would be too long
    assert from_list(374.0, 300.0, 374.0) == 345.0


def test_a_window_between_two_multiples_has_no_length() -> None:
    assert np.isnan(on_increment(231.0, 229.0, 233.0))  # between 228.6 and 234.95
    assert np.isnan(from_list(400.0, 376.0, 434.0))


def test_a_window_turned_inside_out_has_no_length() -> None:
    assert np.isnan(on_increment(228.6, 229.0, 228.0))
    assert np.isnan(from_list(375.0, 376.0, 374.0))


def test_no_length_is_ordered_that_is_not_longer_than_nothing() -> None:
    assert np.isnan(on_increment(0.0, -20.0, 3.0))
    assert on_increment(0.0, -20.0, 20.0) == pytest.approx(6.35)
    assert np.isnan(from_list(0.0, -5.0, 5.0, (0.0, -2.0, math.nan)))


def test_the_limits_themselves_fit_on_a_list() -> None:
    assert from_list(375.0, 375.0, 375.0) == 375.0
    assert from_list(300.0, 375.0, 400.0) == 375.0
    assert from_list(400.0, 360.0, 375.0) == 375.0


def test_an_empty_list_fits_nothing() -> None:
    assert np.isnan(from_list(375.0, 0.0, 1000.0, ()))


def test_the_order_of_a_list_does_not_matter() -> None:
    assert from_list(380.0, 300.0, 500.0, (585.0, 375.0, 285.0, 375.0)) == 375.0


@pytest.mark.parametrize("bad", [math.nan, math.inf, 1e300])
@pytest.mark.parametrize("place", range(3))
def test_a_length_that_is_not_known_gives_no_order(bad: float, place: int) -> None:
    target, shortest, longest = (bad if place == at else mm for at, mm in enumerate((228.6, 220.0, 240.0)))
    assert np.isnan(on_increment(target, shortest, longest))
    assert np.isnan(from_list(target, shortest, longest, (228.6,)))


@pytest.mark.parametrize("increment_nm", [0, -6_350_000])
def test_an_increment_that_is_not_known_gives_no_order(increment_nm: int) -> None:
    assert np.isnan(on_increment(228.6, 220.0, 240.0, increment_nm))
