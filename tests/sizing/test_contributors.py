import numpy as np
import pytest

from thermowell_index.sizing.assembly import Lengths
from thermowell_index.sizing.contributors import ALL_BUT_RANGES, CONTRIBUTORS, Contributions, contributions

NAMES = (
    "bore_deeper_mm",
    "bore_shallower_mm",
    "bore_second_mm",
    "tip_thinner_mm",
    "tip_thicker_mm",
    "carried_minus_mm",
    "carried_plus_mm",
    "probe_tolerance_mm",
    "extension_tolerance_mm",
    "well_turn_mm",
    "extension_turn_mm",
    "seat_turn_mm",
    "growth_mm",
)


def parts_of(*, joints: tuple[float, float, float] = (0, 0, 0), assumed: bool = False, **mm: float) -> Contributions:
    lengths: dict[str, Lengths] = {name: np.array([mm.get(name, 0.0)]) for name in NAMES}
    return contributions(lengths=lengths, joints=np.array([joints], dtype=float), tip_is_assumed=np.array([assumed]))


def sums(parts: Contributions, *, of: tuple[str, ...] = CONTRIBUTORS) -> tuple[float, float]:
    minus_mm, plus_mm = parts.stacked(of, worst_case=True)
    return float(minus_mm[0]), float(plus_mm[0])


@pytest.mark.parametrize(
    "mm,minus,plus",
    [
        ({"bore_deeper_mm": 2.0}, 2.0, 0.0),
        ({"bore_shallower_mm": 2.0}, 0.0, 2.0),
        ({"bore_second_mm": 2.0}, 2.0, 2.0),
        ({"probe_tolerance_mm": 2.0}, 2.0, 2.0),
        ({"extension_tolerance_mm": 2.0}, 2.0, 2.0),
        ({"growth_mm": 2.0}, 2.0, 0.0),
        ({"growth_mm": -2.0}, 0.0, 2.0),
        ({"growth_mm": np.nan}, 0.0, 0.0),
        ({"tip_thinner_mm": 2.0, "tip_thicker_mm": 3.0}, 0.0, 0.0),
    ],
)
def test_every_amount_counts_on_its_own_side(mm: dict[str, float], minus: float, plus: float) -> None:
    assert sums(parts_of(joints=(0, 0, 0), assumed=False, **mm)) == (minus, plus)


def test_an_assumed_tip_that_is_thinner_means_a_deeper_bore() -> None:
    assert sums(parts_of(assumed=True, tip_thinner_mm=2.0, tip_thicker_mm=3.0)) == (2.0, 3.0)


def test_the_assumed_tip_can_be_left_out() -> None:
    parts = parts_of(assumed=True, tip_thinner_mm=2.0, tip_thicker_mm=3.0, probe_tolerance_mm=1.0)
    assert sums(parts, of=ALL_BUT_RANGES) == (1.0, 1.0)


@pytest.mark.parametrize(
    "joints,turns", [((0, 0, 0), 0.0), ((0, 0, 1), 100.0), ((1, 0, 1), 101.0), ((1, 1, 1), 111.0), ((1, 2, 1), 121.0)]
)
def test_every_joint_adds_the_turn_of_its_own_thread(joints: tuple[float, float, float], turns: float) -> None:
    parts = parts_of(joints=joints, well_turn_mm=1.0, extension_turn_mm=10.0, seat_turn_mm=100.0)
    assert sums(parts) == (turns, turns)


def test_joints_that_cannot_be_made_leave_no_stack() -> None:
    assert np.isnan(sums(parts_of(joints=(np.nan, np.nan, np.nan)))).all()


def test_two_turns_of_one_thread_stand_under_the_root_one_by_one() -> None:
    # sqrt(3² + 3²) = 4.2426, not 6
    minus_mm, _ = parts_of(joints=(0, 2, 0), extension_turn_mm=3.0).stacked(worst_case=False)
    assert minus_mm[0] == pytest.approx(4.242641, abs=1e-6)


def test_the_widest_is_measured_by_its_two_sides_together() -> None:
    # Bore 3 deeper and none shallower: 3; probe 2 each way: 4.
    widest = parts_of(bore_deeper_mm=3.0, probe_tolerance_mm=2.0).widest(worst_case=False)
    assert widest.tolist() == ["probe length"]


def test_the_widest_depends_on_how_tolerances_are_added_up() -> None:
    # Two turns of 3 are 4.24 a side under the root and 6 as a sum; the probe is 5 either way.
    parts = parts_of(joints=(0, 2, 0), extension_turn_mm=3.0, probe_tolerance_mm=5.0)
    assert parts.widest(worst_case=False).tolist() == ["probe length"]
    assert parts.widest(worst_case=True).tolist() == ["thread make-up"]


def test_nothing_is_the_widest_where_nothing_is_wide() -> None:
    assert parts_of().widest(worst_case=False).tolist() == [""]
