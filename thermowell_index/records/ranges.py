"""Unknowns with a credible range, carried through the length as an interval: extensions and engagements.

Where one length to order serves the whole range, nothing hangs on what is not known, and the row needs no survey.
Where none does, an extension stays unknown and the row is withheld.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.basis import Basis
from thermowell_index.records.assembly import EXTENSION_LENGTHS
from thermowell_index.records.old_sensor import OLD_SENSOR, extension_bounds, take_its_tolerances, with_probe
from thermowell_index.sizing.chain import installed_length
from thermowell_index.sizing.engine import size_table
from thermowell_index.sizing.tolerance import taper_joints
from thermowell_index.table import GONE, CellState, Frame
from thermowell_index.wording import row_lengths

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
SIDES = ("carried_minus_mm", "carried_plus_mm")
BY_BASIS, BOUGHT_OR_INSTALLED = "credible range of the design basis", "bought or installed"


def carry_ranges(frame: Frame, basis: Basis) -> None:
    """Add `carried_minus_mm` and `carried_plus_mm`, and the extensions that one length to order serves in any case.

    Such a row gets the middle of its range as installed length, and `extension_range` says where the range is from.
    """
    engagement = _engagement(frame, basis)
    frame["carried_minus_mm"] = engagement
    frame["carried_plus_mm"] = engagement
    frame["engagement_is_carried"] = engagement > 0
    frame["extension_range"] = frame["extension_tried"] = ""
    frame["extension_least_mm"] = np.nan
    frame["extension_most_mm"] = np.nan
    least, most, source = _with_old_sensor(frame, basis, *_extensions(frame, basis))
    is_range = np.isfinite(least + most) & (source != "")
    rows = frame.index[is_range & (most >= least)]
    denied = frame.index[is_range & (most < least)]
    frame.loc[denied, "extension_tried"] = "; the sensor in place denies the credible range of the design basis"
    if len(rows):
        places = frame.index.get_indexer(rows)
        _carry(frame, basis, rows, (least[places], most[places]), source[places])


def _engagement(frame: Frame, basis: Basis) -> Floats:
    """Return by how much threads that the index does not state can move the seat plane, either way [mm]."""
    each = np.nan_to_num(basis.length_mm("tolerance.engagement_unstated"))
    joints = taper_joints(
        mounting=frame["mounting"].to_numpy(dtype=object),
        arrangement=frame["arrangement"].to_numpy(dtype=object),
        is_given=frame["installed_is_given"].to_numpy(bool),
    )
    is_open = frame["thread_is_assumed"].to_numpy(bool) & ~frame["seat_is_shoulder"].to_numpy(bool)
    return np.where(is_open, np.nan_to_num(joints) * each, 0.0)


def _carry(
    frame: Frame, basis: Basis, rows: "pd.Index[int]", bounds: tuple[Floats, Floats], source: NDArray[np.object_]
) -> None:
    least, most = bounds
    tried = frame.loc[rows].copy()
    tried["installed_mm"] = (least + most) / 2.0
    tried["bore_depth_mm"] = tried["bore_depth_used_mm"]
    cancels = tried["length_leaves_out_extension"].to_numpy(bool)
    by_sum = tried.index[source == OLD_SENSOR]
    take_its_tolerances(tried, basis, by_sum)
    tried.loc[by_sum, "extension_tolerance_mm"] = 0.0
    for side in SIDES:
        tried[side] = tried[side] + np.where(cancels | (source == OLD_SENSOR), 0.0, (most - least) / 2.0)
    tried["maker_shorter_mm"] = tried["maker_shorter_mm"].where(~cancels, tried["installed_mm"])
    sized = size_table(tried, worst_case=basis.choice("tolerance.stack") == "worst case")
    serves = sized["probe_length_order_mm"].notna().to_numpy(bool) & tried["bore_depth_used_mm"].notna().to_numpy(bool)
    served, open_rows = tried.index[serves], tried.index[~serves]
    shortest, longest = (
        row_lengths(pd.Series(bound, index=rows)[open_rows], frame.loc[open_rows]) for bound in (least, most)
    )
    frame.loc[open_rows, "extension_tried"] = "; no length serves all of " + shortest + " to " + longest
    frame.loc[served, "extension_installed_mm"] = tried.loc[served, "installed_mm"]
    taken = [*SIDES, *OF_PARTS, "maker_shorter_mm"]
    frame.loc[served, taken] = tried.loc[served, taken]
    known = served.intersection(by_sum)
    frame.loc[known, "needed_fields"] = frame.loc[known, "needed_fields"].map(with_probe)
    frame.loc[served, "extension_least_mm"] = least[serves]
    frame.loc[served, "extension_most_mm"] = most[serves]
    frame.loc[served, "extension_range"] = source[serves]


def _extensions(frame: Frame, basis: Basis) -> tuple[Floats, Floats, NDArray[np.object_]]:
    """Return the shortest and the longest that an extension of unknown length can be [mm], and how that is known."""
    is_open = np.isnan(frame["extension_installed_mm"].to_numpy(float)) & _cells_are_sound(frame)
    number = frame["extension_length_mm"].fillna(frame["worded_nipple_mm"]).to_numpy(float)
    arrangement = frame["arrangement"].to_numpy(dtype=object)
    is_either = is_open & (arrangement == "nipple and union") & ~np.isnan(number)
    as_bought = _made_up(frame, basis, nipple=number, least=True)
    has_none = frame[[f"{name}_state" for name in EXTENSION_LENGTHS]].isin(GONE).all(axis=1).to_numpy(bool)
    is_silent = has_none & frame["worded_nipple_mm"].isna().to_numpy(bool)
    is_coupled = (arrangement == "nipple and coupling") & frame["first_nipple_mm"].notna().to_numpy(bool)
    in_range = is_open & ~is_either & (is_silent | is_coupled)
    shortest, longest = (_by_range(frame, basis, least=least) for least in (True, False))
    least = np.select([is_either, in_range], [np.fmin(as_bought, number), shortest], np.nan)
    most = np.select([is_either, in_range], [np.fmax(as_bought, number), longest], np.nan)
    source = np.select([is_either, in_range], [BOUGHT_OR_INSTALLED, BY_BASIS], "").astype(object)
    return least, most, np.where(is_either & np.isnan(as_bought), "", source)


# Tolerances of the parts, which give way to that of their sum where the sensor in place tells it.
OF_PARTS = (
    "bore_deeper_mm",
    "bore_shallower_mm",
    "bore_second_mm",
    "tip_thinner_mm",
    "tip_thicker_mm",
    "extension_tolerance_mm",
)


def _with_old_sensor(
    frame: Frame, basis: Basis, least: Floats, most: Floats, source: NDArray[np.object_]
) -> tuple[Floats, Floats, NDArray[np.object_]]:
    """Return the range of each open extension, where the sensor in place tells more: from it, or cut down by it."""
    shortest, longest, has_found = extension_bounds(frame, basis)
    is_open = np.isnan(frame["extension_installed_mm"].to_numpy(float)) & _cells_are_sound(frame)
    is_named = ~frame["arrangement"].isin(["", "none"]).to_numpy(bool)
    tells = is_open & is_named & np.isfinite(shortest + longest) & (longest > 0)
    by_sum = tells & has_found
    is_denied = by_sum & ((shortest > most) | (longest < least))
    cut = tells & ~has_found & (source != "")
    whole, crossed = by_sum & ~is_denied, cut | is_denied
    return (
        np.select([whole, crossed], [shortest, np.fmax(least, shortest)], least),
        np.select([whole, crossed], [longest, np.fmin(most, longest)], most),
        np.select([by_sum, cut], [OLD_SENSOR, source + f" and {OLD_SENSOR}"], source).astype(object),
    )


def _cells_are_sound(frame: Frame) -> Flags:
    states = [f"{name}_state" for name in EXTENSION_LENGTHS]
    sound = frame[states].isin((*GONE, CellState.VALUE)).all(axis=1) & frame["well_thread_known"]
    return np.asarray((sound & frame["extension_thread_known"]).to_numpy(bool))


def _by_range(frame: Frame, basis: Basis, *, least: bool) -> Floats:
    end = "least" if least else "most"
    nipple = frame["first_nipple_mm"].fillna(basis.length_mm(f"extension.nipple_credible_{end}")).to_numpy(float)
    return _made_up(frame, basis, nipple=nipple, least=least)


def _made_up(frame: Frame, basis: Basis, *, nipple: Floats, least: bool) -> Floats:
    """Return what the extension adds with nipples of this length; neck and coupling at one end of their ranges [mm]."""
    end = "least" if least else "most"
    coupling = basis.length_mm("extension.coupling_length")
    if np.isnan(coupling):
        coupling = basis.length_mm(f"extension.coupling_credible_{end}")
    top = frame["engagement_top_mm"].to_numpy(float)
    count = len(frame)
    return installed_length(
        arrangement=frame["arrangement"].to_numpy(dtype=object),
        nipple_mm=nipple,
        second_nipple_mm=nipple,
        engagement_well_mm=frame["engagement_well_mm"].to_numpy(float),
        engagement_top_mm=top,
        engagement_union_mm=top,
        coupling_mm=np.full(count, coupling),
        union_mm=np.full(count, basis.length_mm("extension.union_length")),
        neck_mm=np.full(count, basis.length_mm(f"extension.neck_credible_{end}")),
        given_mm=np.full(count, np.nan),
    )
