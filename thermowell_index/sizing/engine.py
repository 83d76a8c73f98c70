"""Every row of an index sized at once: from dimensions and tolerances to the length to order."""

from dataclasses import dataclass

import numpy as np
import pandas as pd

from thermowell_index.sizing.assembly import Flags, Lengths
from thermowell_index.sizing.chain import first_touch
from thermowell_index.sizing.contributors import (
    ALL_BUT_RANGES,
    ASSUMED_TIP,
    CREDIBLE_RANGE,
    TOLERANCES,
    Contributions,
    contributions,
)
from thermowell_index.sizing.inputs import INPUT_COLUMNS, Rows, read_rows
from thermowell_index.sizing.order import (
    NANOMETRES_IN_A_MILLIMETRE,
    fit_window,
    fixed_window,
    order_from_list,
    order_on_increment,
)

__all__ = ["INPUT_COLUMNS", "size_table"]

NO_LONGEST_MM = 1e7
"""Far beyond any probe: an adjustable fitting takes what is longer than the least length."""


@dataclass(frozen=True, kw_only=True)
class _Fit:
    """The window that one pair of stacks leaves, and the length that is ordered from it."""

    minus_mm: Lengths
    plus_mm: Lengths
    shortest_mm: Lengths
    longest_mm: Lengths
    computed_mm: Lengths
    order_mm: Lengths


def size_table(inputs: pd.DataFrame, *, worst_case: bool = False) -> pd.DataFrame:
    """Probe length to order of every row, the window around it and what widens that window.

    Parameters
    ----------
    inputs : DataFrame, n rows
        One row a point, NaN or an empty text where something is not known. Columns:

        - mounting, arrangement : in the words of `Mounting` and `Arrangement` [-]
        - installed_is_given : bool, whether the installed length was given or measured [-]
        - bore_depth_mm, installed_mm, seat_offset_mm : the chain to the seat plane [mm]
        - bore_depth_basis : in the words of `bore_depth`; only `overall less assumed tip` is looked at [-]
        - bore_deeper_mm, bore_shallower_mm : how much deeper or shallower than stated the bore can be [mm]
        - bore_second_mm : a second contributor to the bore, alike on both sides (a stated tip); else 0 [mm]
        - tip_thinner_mm, tip_thicker_mm : credible range around an assumed tip; not looked at otherwise [mm]
        - carried_minus_mm, carried_plus_mm : what the credible ranges of unknowns (extension, engagement) can take
          away from the compression, and add to it, as a whole; 0 where all is known [mm]
        - extension_tolerance_mm : of the extension as a whole; 0 without one [mm]
        - well_turn_mm, extension_turn_mm, seat_turn_mm : one turn of the nipple's thread in the well, of
          the nipple's thread in a union or coupling, and of the sensor's or head's own thread wherever it
          sits; 0 for a thread that seats on a shoulder; NaN is allowed where there is no such joint [mm]
        - maker_shorter_mm : by how much the maker's length is shorter than from the seat plane to the tip of the
          relaxed spring: the extension where it is not contained, the travel where it is measured solid; else 0 [mm]
        - target_compression_mm : NaN takes the middle of the window; not looked at for a fixed fitting [mm]
        - travel_mm : of the spring; not looked at for a fixed fitting [mm]
        - preload_mm, reserve_mm : NaN takes `default_preload` and `default_reserve` [mm]
        - probe_tolerance_mm : of the probe as delivered [mm]
        - growth_mm : hot growth of the bore over the sheath, negative where the sheath grows more; NaN is none [mm]
        - increment_nm : increment to order on, whole nanometres; not looked at where there is a list [nm]
        - standard_lengths : object, a tuple of lengths to order from, or None [mm]
        - bottom_gap_mm, least_gap_mm, most_gap_mm : under the tip, looked at for a fixed fitting only [mm]
        - stated_probe_mm : probe length that the index states; NaN where it states none [mm]

    worst_case : bool, default False
        Whether tolerances are added up plainly instead of root-sum-square [-].

    Returns
    -------
    DataFrame, n rows
        With the index of `inputs`. Where something that the row needs is not known, every length
        is NaN. Where no length fits, those that hang on the length to order are NaN. Columns:

        - probe_length_computed_mm, probe_length_order_mm, shortest_fit_mm, longest_fit_mm, window_mm [mm]
        - compression_min_mm, compression_nominal_mm, compression_max_mm : of the length to order; NaN for a
          fixed fitting [mm]
        - gap_mm : under the tip of a fixed fitting; NaN for the others [mm]
        - margin_mm : the lesser of what is left of preload and reserve; NaN for a fixed fitting [mm]
        - first_touch_mm : fitting: stand-off of the thread end when the tip first touches; insert: gap
          under the plate or head; NaN for a fixed fitting [mm]
        - seat_plane_mm, stack_minus_mm, stack_plus_mm : as used for the window [mm]
        - worst_minus_mm, worst_plus_mm : plain sums, for information [mm]
        - assumed_tip_decides : bool, the tip is assumed and no one length serves its whole range [-]
        - widest_contributor : name of the widest contributor, empty where there is none [-]
        - stated_compression_min_mm, stated_compression_nominal_mm, stated_compression_max_mm [mm]
        - stated_gap_min_mm, stated_gap_nominal_mm, stated_gap_max_mm : the same of a fixed fitting [mm]
        - preload_used_mm, reserve_used_mm : with the defaults filled in [mm]
        - well_joints, extension_joints, seat_joints : joints counted, NaN where they cannot be made [-]
        - worst_case : bool, as asked [-]

    Raises
    ------
    KeyError
        If columns are missing from `inputs`, naming all of them.

    Notes
    -----
    Zs = B + X + s; P = Zs + target; shortest = Zs + preload + S-; longest = Zs + travel - reserve - S+.
    An adjustable fitting: P = Zs; shortest = Zs + S-, and the least length to order that is no shorter; no longest.
    A fixed fitting: P = Zs - bottom gap; shortest = Zs - most gap; longest = Zs - least gap - S+, and the
    longest length to order that fits. An assumed tip and the range of any other unknown move both limits inward by
    the whole range; where no length is left and the tip is all that is not known, it is one more contributor to the
    stack and `assumed_tip_decides` is True.
    Every step works element by element, so a row has the same digits alone and among many; lengths are
    returned to a whole nanometre.

    Source: geometry; root-sum-square stacking is common practice, no source.

    Examples
    --------
    A bore of 9 in, a fitting of 1/2 NPT (1/2 in engagement, one turn 1/14 in), a spring of 1 in:

    >>> row = dict.fromkeys(INPUT_COLUMNS, 0.0) | {
    ...     "mounting": "spring-loaded fitting", "arrangement": "none", "bore_depth_basis": "stated",
    ...     "installed_is_given": False, "bore_depth_mm": 228.6, "bore_deeper_mm": 1.5875,
    ...     "bore_shallower_mm": 1.5875, "probe_tolerance_mm": 1.5875, "seat_turn_mm": 25.4 / 14,
    ...     "seat_offset_mm": -12.7, "target_compression_mm": 12.7, "travel_mm": 25.4, "preload_mm": np.nan,
    ...     "reserve_mm": np.nan, "increment_nm": 6_350_000, "standard_lengths": None, "stated_probe_mm": np.nan}
    >>> sized = size_table(pd.DataFrame([row]))
    >>> [round(float(sized[name].iloc[0]) / 25.4, 3) for name in (
    ...     "probe_length_order_mm", "compression_min_mm", "compression_nominal_mm", "compression_max_mm")]
    [9.0, 0.386, 0.5, 0.614]
    """
    rows = read_rows(inputs=inputs)
    parts = contributions(lengths=rows.lengths, joints=rows.joints, tip_is_assumed=rows.tip_is_assumed)
    fit, decides = _fit_over_ranges(rows, parts, worst_case=worst_case)
    is_fit = np.isfinite(fit.computed_mm + fit.shortest_mm + fit.longest_mm)
    known = is_fit & (rows.has_list | (rows.increment_nm > 0))
    is_sprung = ~(rows.is_fixed | rows.is_adjustable)
    worst_minus_mm, worst_plus_mm = parts.stacked(worst_case=True)
    lengths = {
        **_fit_lengths(rows, fit),
        **_ordered_lengths(rows, fit),
        **_stated_lengths(rows, fit),
        "seat_plane_mm": rows.seat_plane_mm,
        "worst_minus_mm": worst_minus_mm,
        "worst_plus_mm": worst_plus_mm,
        "preload_used_mm": np.where(is_sprung, rows.preload_mm, np.nan),
        "reserve_used_mm": np.where(is_sprung, rows.reserve_mm, np.nan),
    }
    return pd.DataFrame(
        {
            **{name: np.where(known, _to_a_nanometre(length_mm), np.nan) for name, length_mm in lengths.items()},
            "assumed_tip_decides": decides & known,
            "widest_contributor": np.where(known, parts.widest(worst_case=worst_case), ""),
            "well_joints": rows.joints[:, 0],
            "extension_joints": rows.joints[:, 1],
            "seat_joints": rows.joints[:, 2],
            "worst_case": np.full(len(inputs), worst_case),
        },
        index=inputs.index,
    )


def _to_a_nanometre(length_mm: Lengths) -> Lengths:
    """Round away the last binary digits, so that what is exactly on a limit is neither above nor below it."""
    return np.rint(length_mm * NANOMETRES_IN_A_MILLIMETRE) / NANOMETRES_IN_A_MILLIMETRE + 0.0


def _fit_over_ranges(rows: Rows, parts: Contributions, *, worst_case: bool) -> tuple[_Fit, Flags]:
    """Fit that serves the whole range of all that is not known, else the likeliest tip, and where it is the latter."""
    minus_mm, plus_mm = parts.stacked(ALL_BUT_RANGES, worst_case=worst_case)
    deeper_mm, shallower_mm = parts.stacked((ASSUMED_TIP, CREDIBLE_RANGE), worst_case=True)
    whole_range = _fit(rows, minus_mm + deeper_mm, plus_mm + shallower_mm, deeper_mm=deeper_mm)
    carried_mm = np.add(*parts.stacked((CREDIBLE_RANGE,), worst_case=True))
    decides = rows.tip_is_assumed & np.isnan(whole_range.order_mm) & (carried_mm == 0.0)
    likely_minus_mm, likely_plus_mm = parts.stacked(TOLERANCES, worst_case=worst_case)
    chosen = _fit(
        rows,
        np.where(decides, likely_minus_mm, whole_range.minus_mm),
        np.where(decides, likely_plus_mm, whole_range.plus_mm),
        deeper_mm=np.where(decides, 0.0, deeper_mm),
    )
    return chosen, decides


def _fit(rows: Rows, minus_mm: Lengths, plus_mm: Lengths, *, deeper_mm: Lengths) -> _Fit:
    """Window and order length under these stacks; a fixed fitting must reach a bore that is this much deeper."""
    lengths, seat_plane_mm = rows.lengths, rows.seat_plane_mm
    sprung_shortest_mm, sprung_longest_mm = fit_window(
        seat_plane_mm=seat_plane_mm,
        travel_mm=lengths["travel_mm"],
        preload_mm=rows.preload_mm,
        reserve_mm=rows.reserve_mm,
        minus_mm=minus_mm,
        plus_mm=plus_mm,
    )
    fixed_shortest_mm, fixed_longest_mm = fixed_window(
        seat_plane_mm=seat_plane_mm,
        least_gap_mm=lengths["least_gap_mm"],
        most_gap_mm=lengths["most_gap_mm"] - deeper_mm,
        plus_mm=plus_mm,
    )
    kinds = [rows.is_fixed, rows.is_adjustable]
    shortest_mm = np.select(kinds, [fixed_shortest_mm, seat_plane_mm + minus_mm], sprung_shortest_mm)
    longest_mm = np.select(kinds, [fixed_longest_mm, seat_plane_mm + NO_LONGEST_MM], sprung_longest_mm)
    computed_mm = _computed(rows, middle_mm=(shortest_mm + longest_mm) / 2.0)
    # a fixed fitting goes as near the bottom as it may, an adjustable one sticks out no further than it must
    target_mm = np.select(kinds, [longest_mm, shortest_mm], computed_mm)
    return _Fit(
        minus_mm=minus_mm,
        plus_mm=plus_mm,
        shortest_mm=shortest_mm,
        longest_mm=longest_mm,
        computed_mm=computed_mm,
        order_mm=_order(rows, target_mm=target_mm, shortest_mm=shortest_mm, longest_mm=longest_mm),
    )


def _computed(rows: Rows, *, middle_mm: Lengths) -> Lengths:
    target_mm = rows.lengths["target_compression_mm"]
    sprung_mm = np.where(np.isnan(target_mm), middle_mm, rows.seat_plane_mm + target_mm)
    fixed_mm = rows.seat_plane_mm - rows.lengths["bottom_gap_mm"]
    return np.select([rows.is_fixed, rows.is_adjustable], [fixed_mm, rows.seat_plane_mm], sprung_mm)


def _order(rows: Rows, *, target_mm: Lengths, shortest_mm: Lengths, longest_mm: Lengths) -> Lengths:
    order_mm = order_on_increment(
        target_mm=target_mm, shortest_mm=shortest_mm, longest_mm=longest_mm, increment_nm=rows.increment_nm
    )
    for standard_lengths_mm, places in rows.lists.items():
        order_mm[places] = order_from_list(
            target_mm=target_mm[places],
            shortest_mm=shortest_mm[places],
            longest_mm=longest_mm[places],
            standard_lengths_mm=standard_lengths_mm,
        )
    return order_mm


def _fit_lengths(rows: Rows, fit: _Fit) -> dict[str, Lengths]:
    longest_mm = np.where(rows.is_adjustable, np.nan, fit.longest_mm)
    return {
        "probe_length_computed_mm": fit.computed_mm,
        "probe_length_order_mm": fit.order_mm,
        "shortest_fit_mm": fit.shortest_mm,
        "longest_fit_mm": longest_mm,
        "window_mm": longest_mm - fit.shortest_mm,
        "stack_minus_mm": fit.minus_mm,
        "stack_plus_mm": fit.plus_mm,
    }


def _ordered_lengths(rows: Rows, fit: _Fit) -> dict[str, Lengths]:
    """Compression, gap and margin of the length to order."""
    has_no_spring = rows.is_fixed | rows.is_adjustable
    compression_mm = np.where(has_no_spring, np.nan, fit.order_mm - rows.seat_plane_mm)
    least_mm, most_mm = compression_mm - fit.minus_mm, compression_mm + fit.plus_mm
    usable_mm = rows.lengths["travel_mm"] - rows.reserve_mm
    stand_off_mm = first_touch(
        probe_mm=fit.order_mm + rows.lengths["maker_shorter_mm"],
        bore_depth_mm=rows.lengths["bore_depth_mm"],
        installed_mm=rows.lengths["installed_mm"],
    )
    touch_mm = np.where(rows.is_fitting, stand_off_mm, compression_mm)
    return {
        "compression_min_mm": least_mm,
        "compression_nominal_mm": compression_mm,
        "compression_max_mm": most_mm,
        "gap_mm": np.where(rows.is_fixed, rows.seat_plane_mm - fit.order_mm, np.nan),
        "margin_mm": np.minimum(least_mm - rows.preload_mm, usable_mm - most_mm),
        "first_touch_mm": np.where(has_no_spring, np.nan, touch_mm),
    }


def _stated_lengths(rows: Rows, fit: _Fit) -> dict[str, Lengths]:
    """Compression or gap of the length that the index states."""
    past_seat_mm = rows.lengths["stated_probe_mm"] - rows.seat_plane_mm
    compression_mm = np.where(rows.is_fixed | rows.is_adjustable, np.nan, past_seat_mm)
    gap_mm = np.where(rows.is_fixed, -past_seat_mm, np.nan)
    return {
        "stated_compression_min_mm": compression_mm - fit.minus_mm,
        "stated_compression_nominal_mm": compression_mm,
        "stated_compression_max_mm": compression_mm + fit.plus_mm,
        "stated_gap_min_mm": gap_mm - fit.plus_mm,
        "stated_gap_nominal_mm": gap_mm,
        "stated_gap_max_mm": gap_mm + fit.minus_mm,
    }
