"""One sound row of sizing inputs, changed by keyword."""

from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest

INCH = 25.4

SOUND_ROW: dict[str, object] = {
    "mounting": "spring-loaded fitting",
    "arrangement": "none",
    "bore_depth_basis": "stated",
    "installed_is_given": False,
    "bore_depth_mm": 9 * INCH,
    "bore_deeper_mm": INCH / 16,
    "bore_shallower_mm": INCH / 16,
    "bore_second_mm": 0.0,
    "tip_thinner_mm": 0.0,
    "tip_thicker_mm": 0.0,
    "carried_minus_mm": 0.0,
    "carried_plus_mm": 0.0,
    "installed_mm": 0.0,
    "extension_tolerance_mm": 0.0,
    "well_turn_mm": INCH / 14,
    "extension_turn_mm": INCH / 14,
    "seat_turn_mm": INCH / 14,
    "seat_offset_mm": -INCH / 2,
    "maker_shorter_mm": 0.0,
    "target_compression_mm": INCH / 2,
    "travel_mm": INCH,
    "preload_mm": np.nan,
    "reserve_mm": np.nan,
    "probe_tolerance_mm": INCH / 16,
    "growth_mm": 0.0,
    "bottom_gap_mm": INCH / 8,
    "least_gap_mm": INCH / 16,
    "most_gap_mm": INCH / 2,
    "stated_probe_mm": np.nan,
    "increment_nm": 6_350_000,
    "standard_lengths": None,
}


def _sizing_inputs(**changes: object) -> pd.DataFrame:
    """One row: a fitting of 1/2 NPT with a spring of 1 in, straight in a well of 9 in bore depth."""
    unknown = set(changes) - set(SOUND_ROW)
    if unknown:
        raise KeyError(*unknown)
    return pd.DataFrame([SOUND_ROW | changes])


@pytest.fixture(scope="session")
def sizing_inputs() -> Callable[..., pd.DataFrame]:
    return _sizing_inputs
