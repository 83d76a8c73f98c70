"""What share of assemblies the root-sum-square stack covers, by simulation of a million of them (seeded)."""

import math

import numpy as np

from thermowell_index.sizing.tolerance import stack

ASSEMBLIES = 1_000_000
# fitting in the well: bore 1/16 in, probe 1/16 in, one turn of 1/2 NPT [mm]
TOLERANCES_MM = np.array([1.5875, 1.5875, 25.4 / 14])


def _share_inside(deviations_mm: np.ndarray, limit_mm: float) -> float:
    return float(np.mean(np.abs(deviations_mm.sum(axis=1)) <= limit_mm))


def test_the_stack_covers_three_standard_deviations_when_each_tolerance_is_three() -> None:
    random = np.random.default_rng(20_250_101)
    limit = float(stack(TOLERANCES_MM[np.newaxis, :], worst_case=False)[0])
    deviations = random.normal(0.0, TOLERANCES_MM / 3.0, size=(ASSEMBLIES, 3))
    expected = math.erf(3.0 / math.sqrt(2.0))  # 99.73 % of a normal distribution lie within three standard deviations
    assert abs(_share_inside(deviations, limit) - expected) < 3e-4


def test_the_stack_covers_less_when_tolerances_are_spread_evenly() -> None:
    random = np.random.default_rng(20_250_102)
    equal = np.array([1.0, 1.0, 1.0])
    limit = float(stack(equal[np.newaxis, :], worst_case=False)[0])
    deviations = random.uniform(-equal, equal, size=(ASSEMBLIES, 3))
    # the sum s of three even spreads of +-1 has the density (3 - s^2)/8 up to 1 and (3 - s)^2/16 from 1 to 3, so within
    # the square root of 3 lies 2 x [(3 - 1/3)/8 + (8 - (3 - sqrt 3)^3)/48]
    expected = 2.0 * ((3.0 - 1.0 / 3.0) / 8.0 + (8.0 - (3.0 - math.sqrt(3.0)) ** 3) / 48.0)
    assert abs(expected - 0.9151) < 5e-5
    assert abs(_share_inside(deviations, limit) - expected) < 1e-3


def test_no_assembly_lies_outside_the_worst_case() -> None:
    random = np.random.default_rng(20_250_103)
    limit = float(stack(TOLERANCES_MM[np.newaxis, :], worst_case=True)[0])
    deviations = random.uniform(-TOLERANCES_MM, TOLERANCES_MM, size=(ASSEMBLIES, 3))
    assert _share_inside(deviations, limit) == 1.0
