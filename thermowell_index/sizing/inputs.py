"""The columns that sizing needs, read into arrays in which NaN is all that stands for "not known"."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.sizing.assembly import FITTINGS, Flags, Lengths, Mounting, is_one_of
from thermowell_index.sizing.chain import OVERALL_LESS_ASSUMED_TIP, seat_plane
from thermowell_index.sizing.order import LONGEST_COMPARABLE_MM, default_preload, default_reserve
from thermowell_index.sizing.tolerance import joints_by_thread

WORD_COLUMNS = ("mounting", "arrangement", "bore_depth_basis")
LENGTH_COLUMNS = (
    "bore_depth_mm",
    "bore_deeper_mm",
    "bore_shallower_mm",
    "bore_second_mm",
    "tip_thinner_mm",
    "tip_thicker_mm",
    "carried_minus_mm",
    "carried_plus_mm",
    "installed_mm",
    "extension_tolerance_mm",
    "well_turn_mm",
    "extension_turn_mm",
    "seat_turn_mm",
    "seat_offset_mm",
    "maker_shorter_mm",
    "target_compression_mm",
    "travel_mm",
    "preload_mm",
    "reserve_mm",
    "probe_tolerance_mm",
    "growth_mm",
    "bottom_gap_mm",
    "least_gap_mm",
    "most_gap_mm",
    "stated_probe_mm",
)
POSITIVE_COLUMNS = ("bore_depth_mm", "travel_mm", "stated_probe_mm")  # zero or less is no such length
INPUT_COLUMNS = (*WORD_COLUMNS, "installed_is_given", *LENGTH_COLUMNS, "increment_nm", "standard_lengths")
MOST_NANOMETRES = 1e15


@dataclass(frozen=True, kw_only=True)
class Rows:
    """What is known of the rows before any tolerance is added."""

    lengths: Mapping[str, Lengths]
    joints: NDArray[np.float64]
    is_fixed: Flags
    is_fitting: Flags
    is_adjustable: Flags
    tip_is_assumed: Flags
    seat_plane_mm: Lengths
    preload_mm: Lengths
    reserve_mm: Lengths
    increment_nm: NDArray[np.int64]
    lists: Mapping[tuple[float, ...], NDArray[np.intp]]
    has_list: Flags


def read_rows(*, inputs: pd.DataFrame) -> Rows:
    """Columns of the sizing inputs as arrays, with the defaults and the seat plane filled in.

    Parameters
    ----------
    inputs : DataFrame, n rows
        The columns that `size_table` describes; infinite lengths, lengths beyond a million metres and
        bore depths, travels and stated probe lengths of zero or less are taken as not known [mm].

    Returns
    -------
    Rows
        Arrays of shape (n,), and the positions of the rows of each list of standard lengths [mm].

    Raises
    ------
    KeyError
        If columns are missing from `inputs`, naming all of them.

    Notes
    -----
    Zs = B + X + s, less what the maker's length leaves out of a relaxed probe with its extension.

    Source: geometry.

    Examples
    --------
    >>> row = dict.fromkeys(INPUT_COLUMNS, 0.0) | {
    ...     "mounting": "fixed fitting", "arrangement": "none", "bore_depth_mm": 228.6, "seat_offset_mm": -12.7}
    >>> read_rows(inputs=pd.DataFrame([row])).seat_plane_mm
    array([215.9])
    """
    missing = [name for name in INPUT_COLUMNS if name not in inputs.columns]
    if missing:
        raise KeyError(f"columns missing from the sizing inputs: {', '.join(missing)}")
    lengths = {name: _numbers(inputs, name, limit=LONGEST_COMPARABLE_MM) for name in LENGTH_COLUMNS}
    for name in POSITIVE_COLUMNS:
        lengths[name] = np.where(lengths[name] > 0.0, lengths[name], np.nan)
    mounting, arrangement, basis = (inputs[name].to_numpy(dtype=object) for name in WORD_COLUMNS)
    is_given = inputs["installed_is_given"].to_numpy(dtype=np.bool_)
    lists, has_list = _by_list(inputs["standard_lengths"].to_numpy(dtype=object))
    return Rows(
        lengths=lengths,
        joints=joints_by_thread(mounting=mounting, arrangement=arrangement, is_given=is_given),
        is_fixed=is_one_of(words=mounting, known=[Mounting.FIXED_FITTING]),
        is_fitting=is_one_of(words=mounting, known=FITTINGS),
        is_adjustable=is_one_of(words=mounting, known=[Mounting.ADJUSTABLE_FITTING]),
        tip_is_assumed=is_one_of(words=basis, known=[OVERALL_LESS_ASSUMED_TIP]),
        seat_plane_mm=seat_plane(
            bore_depth_mm=lengths["bore_depth_mm"],
            installed_mm=lengths["installed_mm"],
            seat_offset_mm=lengths["seat_offset_mm"],
        )
        - lengths["maker_shorter_mm"],
        preload_mm=_or_default(lengths["preload_mm"], default_preload(travel_mm=lengths["travel_mm"])),
        reserve_mm=_or_default(lengths["reserve_mm"], default_reserve(travel_mm=lengths["travel_mm"])),
        increment_nm=np.nan_to_num(_numbers(inputs, "increment_nm", limit=MOST_NANOMETRES)).astype(np.int64),
        lists=lists,
        has_list=has_list,
    )


def _numbers(inputs: pd.DataFrame, name: str, *, limit: float) -> NDArray[np.float64]:
    values = inputs[name].to_numpy(dtype=np.float64, na_value=np.nan)
    return np.where(np.abs(values) < limit, values, np.nan)


def _or_default(given_mm: Lengths, default_mm: Lengths) -> Lengths:
    return np.where(np.isnan(given_mm), default_mm, given_mm)


def _by_list(
    standard_lengths: NDArray[np.object_],
) -> tuple[dict[tuple[float, ...], NDArray[np.intp]], Flags]:
    """Positions of the rows of each list of standard lengths, and which rows have one."""
    places: dict[tuple[float, ...], list[int]] = {}
    has_list = np.zeros(len(standard_lengths), dtype=np.bool_)
    for place, lengths in enumerate(standard_lengths):
        if isinstance(lengths, tuple):
            places.setdefault(lengths, []).append(place)
            has_list[place] = True
    return {lengths: np.array(rows, dtype=np.intp) for lengths, rows in places.items()}, has_list
