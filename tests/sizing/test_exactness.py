"""How exact a measurement has to be: by hand, and against the sizing itself."""

from typing import Any

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermowell_index.sizing.engine import size_table
from thermowell_index.sizing.exactness import bore_exactness, extension_exactness
from thermowell_index.sizing.inputs import INPUT_COLUMNS

IN = 25.4


def row(**changes: Any) -> dict[str, Any]:
    """Return a fitting of 1/2 NPT in a well without an extension, changed by keyword."""
    return dict.fromkeys(INPUT_COLUMNS, 0.0) | {
        "mounting": "spring-loaded fitting",
        "arrangement": "none",
        "bore_depth_basis": "stated",
        "installed_is_given": False,
        "bore_depth_mm": np.nan,
        "seat_offset_mm": -0.5 * IN,
        "target_compression_mm": 0.5 * IN,
        "travel_mm": IN,
        "preload_mm": IN / 8,
        "reserve_mm": IN / 20,
        "probe_tolerance_mm": IN / 16,
        "seat_turn_mm": IN / 14,
        "most_gap_mm": IN / 2,
        "least_gap_mm": IN / 16,
        "bottom_gap_mm": IN / 8,
        "increment_nm": 6_350_000,
        "standard_lengths": None,
        "stated_probe_mm": np.nan,
        **changes,
    }


def exactness(**changes: Any) -> float:
    return float(bore_exactness(inputs=pd.DataFrame([row(**changes)]))[0])


def test_the_exactness_of_a_bore_is_what_the_spring_leaves() -> None:
    # (1 - 1/8 - 1/20 - 1/4) / 2 = 0.2875 in a side; probe 0.0625 and turn 0.0714 make 0.0949: root 0.27138
    assert exactness() / IN == pytest.approx(0.27138, abs=1e-5)


def test_it_does_not_hang_on_the_bore_as_it_is_known() -> None:
    assert exactness(bore_deeper_mm=50.0, bore_second_mm=9.0, bore_depth_mm=200.0) == exactness()


def test_two_stacks_that_differ_share_the_room() -> None:
    t_mm = exactness(growth_mm=2.0)
    rest = np.hypot(IN / 16, IN / 14)
    room = IN * (1 - 1 / 8 - 1 / 20 - 1 / 4)
    assert np.hypot(t_mm, np.hypot(rest, 2.0)) + np.hypot(t_mm, rest) == pytest.approx(room)


def test_a_fixed_fitting_has_the_gap_to_spare_on_one_side_only() -> None:
    # 1/2 - 1/16 - 1/4 = 0.1875; sqrt(0.1875^2 - 0.0949^2) = 0.16171
    assert exactness(mounting="fixed fitting", travel_mm=np.nan) / IN == pytest.approx(0.16171, abs=1e-5)


def test_plain_sums_ask_for_more() -> None:
    # (0.575 - 2 * (1/16 + 1/14)) / 2 = 0.15357
    found = bore_exactness(inputs=pd.DataFrame([row()]), worst_case=True)[0]
    assert found / IN == pytest.approx(0.15357, abs=1e-5)


@pytest.mark.parametrize(
    "changes",
    [
        {"mounting": ""},
        {"travel_mm": 8.0, "preload_mm": 1.0, "reserve_mm": 0.5},
        {"travel_mm": 12.0, "preload_mm": 1.5, "reserve_mm": 0.6, "probe_tolerance_mm": 3.0},
        {"growth_mm": 13.0},
        {"standard_lengths": (200.0, 230.0)},
        {"increment_nm": 0},
    ],
)
def test_where_no_measurement_is_sure_to_do_there_is_no_exactness(*, changes: dict[str, Any]) -> None:
    assert np.isnan(exactness(**changes))
    assert np.isnan(bore_exactness(inputs=pd.DataFrame([row(**changes)]), worst_case=True)[0])


def test_an_installed_length_that_is_measured_has_no_joints_of_its_own() -> None:
    nipple = {"arrangement": "nipple and union", "well_turn_mm": IN / 14, "extension_turn_mm": IN / 14}
    plain = {"arrangement": "none", "bore_deeper_mm": 1.0, "bore_shallower_mm": 1.0}
    inputs = pd.DataFrame([row(**plain, extension_tolerance_mm=5.0), row(**{**plain, **nipple})])
    found = extension_exactness(inputs=inputs)
    assert found[0] == pytest.approx(found[1])
    assert found[0] < exactness()


@settings(max_examples=60, deadline=None)
@given(st.floats(100.0, 900.0), st.sampled_from(["spring-loaded fitting", "fixed fitting"]))
def test_a_bore_measured_that_exactly_always_has_a_length(bore_mm: float, mounting: str) -> None:
    within = exactness(mounting=mounting)
    known = row(mounting=mounting, bore_depth_mm=bore_mm, bore_deeper_mm=within, bore_shallower_mm=within)
    assert size_table(pd.DataFrame([known]))["probe_length_order_mm"].notna().all()


def test_a_bore_measured_less_exactly_can_be_without_one() -> None:
    wide = exactness() * 1.02
    bores = np.arange(200.0, 215.0, 0.05)
    rows = [row(bore_depth_mm=bore, bore_deeper_mm=wide, bore_shallower_mm=wide) for bore in bores]
    assert size_table(pd.DataFrame(rows))["probe_length_order_mm"].isna().any()
