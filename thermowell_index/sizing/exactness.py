"""How exact one measurement has to be for a length to order to exist, whatever is measured."""

from collections.abc import Collection

import numpy as np
import pandas as pd

from thermowell_index.sizing.assembly import Arrangement, Flags, Lengths
from thermowell_index.sizing.contributors import CREDIBLE_RANGE, TOLERANCES, contributions
from thermowell_index.sizing.inputs import Rows, read_rows
from thermowell_index.sizing.order import NANOMETRES_IN_A_MILLIMETRE

BORE_INPUTS = ("bore_deeper_mm", "bore_shallower_mm", "bore_second_mm", "tip_thinner_mm", "tip_thicker_mm")
EXTENSION_INPUTS = ("extension_tolerance_mm", "carried_minus_mm", "carried_plus_mm")


def bore_exactness(*, inputs: pd.DataFrame, worst_case: bool = False) -> Lengths:
    """Widest tolerance, either way, of a measured bore depth that always leaves a length to order.

    Parameters
    ----------
    inputs : DataFrame, n rows
        The sizing inputs that `size_table` describes; the bore depth and its tolerances are not looked at [mm].
    worst_case : bool, default False
        Whether tolerances are added up plainly instead of root-sum-square [-].

    Returns
    -------
    array of float, shape (n,)
        Tolerance either way; NaN where not even an exact measurement is sure to do, or mounting or spring is
        unknown [mm].

    Raises
    ------
    KeyError
        If columns are missing from `inputs`.

    Notes
    -----
    A window at least one increment wide holds a length on the increment wherever it stands: travel - preload -
    reserve - S- - S+ >= increment; of a fixed fitting most gap - least gap - S+ >= increment.

    Source: geometry.

    Examples
    --------
    A spring of 26 mm with 3 mm of preload and reserve each, an increment of 10 mm and a probe of 3 mm tolerance leave
    5 mm for either stack: sqrt(5^2 - 3^2) = 4.

    >>> from thermowell_index.sizing.inputs import INPUT_COLUMNS
    >>> row = dict.fromkeys(INPUT_COLUMNS, 0.0) | {
    ...     "mounting": "spring-loaded fitting", "arrangement": "none", "bore_depth_basis": "", "travel_mm": 26.0,
    ...     "preload_mm": 3.0, "reserve_mm": 3.0, "increment_nm": 10_000_000, "probe_tolerance_mm": 3.0,
    ...     "standard_lengths": None}
    >>> bore_exactness(inputs=pd.DataFrame([row]))
    array([4.])
    """
    return _exactness(inputs, BORE_INPUTS, worst_case=worst_case)


def extension_exactness(*, inputs: pd.DataFrame, worst_case: bool = False) -> Lengths:
    """Widest tolerance, either way, of a measured installed length that always leaves a length to order.

    Parameters
    ----------
    inputs : DataFrame, n rows
        The sizing inputs that `size_table` describes; the installed length, its tolerance and the joints inside the
        extension are not looked at [mm].
    worst_case : bool, default False
        Whether tolerances are added up plainly instead of root-sum-square [-].

    Returns
    -------
    array of float, shape (n,)
        Tolerance either way; NaN where not even an exact measurement is sure to do [mm].

    Raises
    ------
    KeyError
        If columns are missing from `inputs`.

    Notes
    -----
    As `bore_exactness`; what is measured face to face has no joints of its own.

    Source: geometry.

    Examples
    --------
    >>> from thermowell_index.sizing.inputs import INPUT_COLUMNS
    >>> row = dict.fromkeys(INPUT_COLUMNS, 0.0) | {
    ...     "mounting": "spring-loaded insert", "arrangement": "", "bore_depth_basis": "", "travel_mm": 26.0,
    ...     "preload_mm": 3.0, "reserve_mm": 3.0, "increment_nm": 10_000_000, "bore_deeper_mm": 3.0,
    ...     "bore_shallower_mm": 3.0, "standard_lengths": None}
    >>> extension_exactness(inputs=pd.DataFrame([row]))
    array([4.])
    """
    given = inputs.assign(installed_is_given=True)
    given["arrangement"] = given["arrangement"].where(given["arrangement"] != "", Arrangement.NIPPLE.value)
    return _exactness(given, EXTENSION_INPUTS, worst_case=worst_case)


def _exactness(inputs: pd.DataFrame, without: Collection[str], *, worst_case: bool) -> Lengths:
    rows = read_rows(inputs=inputs.assign(**dict.fromkeys(without, 0.0)))
    parts = contributions(lengths=rows.lengths, joints=rows.joints, tip_is_assumed=rows.tip_is_assumed)
    minus_mm, plus_mm = parts.stacked(TOLERANCES, worst_case=worst_case)
    room_mm = _room(rows) - np.add(*parts.stacked((CREDIBLE_RANGE,), worst_case=True))
    minus_mm = np.where(rows.is_fixed, 0.0, minus_mm)
    sides = np.where(rows.is_fixed, 1.0, 2.0)
    if worst_case:
        return _or_unknown((room_mm - minus_mm - plus_mm) / sides)
    return _or_unknown(_under_root(room_mm, minus_mm, plus_mm, rows.is_fixed))


def _room(rows: Rows) -> Lengths:
    """Return what both stacks together may take up [mm]; NaN on a list, whose gaps are wider than a window."""
    lengths = rows.lengths
    sprung_mm = lengths["travel_mm"] - rows.preload_mm - rows.reserve_mm
    fixed_mm = lengths["most_gap_mm"] - lengths["least_gap_mm"]
    increment_mm = np.where(rows.has_list | (rows.increment_nm <= 0), np.nan, rows.increment_nm)
    window_mm: Lengths = np.where(rows.is_fixed, fixed_mm, sprung_mm)
    return window_mm - increment_mm / NANOMETRES_IN_A_MILLIMETRE


def _under_root(room_mm: Lengths, minus_mm: Lengths, plus_mm: Lengths, is_fixed: Flags) -> Lengths:
    """Return t with sqrt(t^2 + S-^2) + sqrt(t^2 + S+^2) = room; of a fixed fitting sqrt(t^2 + S+^2) = room."""
    usable_mm = np.where(room_mm > 0.0, room_mm, np.nan)
    one_side_mm = (usable_mm**2 + minus_mm**2 - plus_mm**2) / (2.0 * usable_mm)
    squared = np.where(is_fixed, usable_mm**2 - plus_mm**2, one_side_mm**2 - minus_mm**2)
    is_split = is_fixed | (one_side_mm >= minus_mm)
    return np.sqrt(np.where(is_split & (squared >= 0.0), squared, np.nan))


def _or_unknown(tolerance_mm: Lengths) -> Lengths:
    return np.where(tolerance_mm >= 0.0, tolerance_mm, np.nan)
