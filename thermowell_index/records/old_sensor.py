"""The sensor in place as a gauge: one known to touch bounds the bore depth, one proven in service is bought again.

A probe of relaxed length P whose spring was found compressed by c puts the bottom of the bore at B = P - c - X - s
below the well's face. One that only touches puts it between that of a free spring and that of a solid one; one that
is known not to touch puts it below that of a free spring.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.basis import Basis
from thermowell_index.records.words import confirms, denies_contact
from thermowell_index.sizing.tolerance import taper_joints
from thermowell_index.table import CellState, Frame
from thermowell_index.wording import row_lengths

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
OLD_SENSOR, IN_KIND, ASSUMED_TIP = "old sensor in place", "in kind", "overall less assumed tip"
KNOWN_BETTER = ("measured", "stated", "overall less tip")


def add_old_sensor(frame: Frame, basis: Basis) -> None:
    """Add what the sensor in place tells: `gauge_least_mm` and `gauge_most_mm` of the bore depth, and what follows.

    `gauge_denies` says that no other evidence of the row agrees, `gauge_limits` what it would have to agree with.
    """
    _add_bounds(frame, basis)
    _add_denial(frame)
    _take_compression(frame, basis)
    _narrow_assumed_tip(frame)


def _says(frame: Frame, name: str, basis: Basis, default: str) -> Flags:
    """Return which rows say yes in a column, or are silent where the design basis answers for them."""
    by_basis = basis.choice("index.probe_length_proves") == default
    return np.array([confirms(text) or (by_basis and not text.strip()) for text in frame[name].map(str)], dtype=bool)


def _relaxed(frame: Frame) -> Floats:
    """Return the sprung sensor in place from its seat plane to its tip, spring relaxed [mm]; NaN for any other."""
    is_sprung = ~frame["mounting"].isin(["fixed fitting", "adjustable fitting", ""]).to_numpy(bool)
    relaxed = frame["probe_length_mm"].to_numpy(float) + frame["maker_shorter_mm"].to_numpy(float)
    return np.where(is_sprung, relaxed, np.nan)


def extension_bounds(frame: Frame, basis: Basis) -> tuple[Floats, Floats, Flags]:
    """Return the least and the most that an extension can be by the sensor in place, the bore depth as used [mm].

    A sensor that was found compressed by c tells bore and extension together, X + B = P - c - s, whatever each of them
    is; one that only touches tells them within its travel. The last array tells which rows have a compression found.
    """
    found = frame["compression_found_mm"].to_numpy(float)
    reach = _relaxed(frame) - frame["seat_offset_mm"].to_numpy(float) - frame["bore_depth_used_mm"].to_numpy(float)
    room = _room(frame, basis) - frame["extension_tolerance_mm"].to_numpy(float)
    has_found = ~np.isnan(found)
    touches = _says(frame, "tip_contact", basis, "tip touches")
    travel = frame["travel_most_mm"].mask(frame["travel_is_assumed"]).to_numpy(float)
    least = np.select([has_found, touches], [reach - found - room, reach - travel - room], np.nan)
    most = np.select([has_found, touches], [reach - found + room, reach + room], np.nan)
    return least, most, has_found


def _add_bounds(frame: Frame, basis: Basis) -> None:
    """Add the least and the most that the bore depth can be by the sensor in place, tolerances added up plainly."""
    found = frame["compression_found_mm"].to_numpy(float)
    chain = frame[["extension_installed_mm", "seat_offset_mm"]].sum(axis=1, skipna=False).to_numpy(float)
    touching = _relaxed(frame) - chain
    room = _room(frame, basis)
    has_found = ~np.isnan(found)
    touches = _says(frame, "tip_contact", basis, "tip touches")
    is_clear = frame["tip_contact"].map(lambda text: denies_contact(str(text))).to_numpy(bool) & ~has_found
    below = np.where(np.isnan(touching), np.nan, np.inf)
    most = np.select([has_found, touches, is_clear], [touching - found + room, touching + room, below], np.nan)
    travel = np.where(frame["travel_is_assumed"], np.inf, frame["travel_most_mm"].to_numpy(float))
    slack, solid = touching - room, touching - travel - room
    least = np.select([has_found, touches, is_clear], [slack - found, solid, slack], np.nan)
    frame["tip_is_clear"] = is_clear
    frame["gauge_mm"] = touching - found
    frame["gauge_least_mm"] = least
    frame["gauge_most_mm"] = most


def _room(frame: Frame, basis: Basis) -> Floats:
    """Return by how much the sensor in place can mislead either way [mm]: length, reading, extension, threads."""
    fixed = frame["probe_tolerance_mm"] + frame["extension_tolerance_mm"] + basis.length_mm("tolerance.bore_measured")
    joints, turn_mm = _make_up(frame)
    return np.asarray(fixed.to_numpy(float) + joints * turn_mm)


def _make_up(frame: Frame) -> tuple[Floats, Floats]:
    """Return how many taper joints the sensor in place is made up through, and by how much each may differ [mm]."""
    joints = taper_joints(
        mounting=frame["mounting"].to_numpy(dtype=object),
        arrangement=frame["arrangement"].to_numpy(dtype=object),
        is_given=frame["installed_is_given"].to_numpy(bool),
    )
    turn_mm = frame[["well_turn_mm", "extension_turn_mm", "seat_turn_mm"]].max(axis=1).to_numpy(float)
    return np.nan_to_num(np.asarray(joints, dtype=float)), turn_mm


def _add_denial(frame: Frame) -> None:
    """Add where the bore depth of the other evidence, with its tolerances, lies outside what the sensor allows."""
    depth = frame["bore_depth_used_mm"].to_numpy(float)
    deeper = frame[["bore_deeper_mm", "bore_second_mm", "tip_thinner_mm"]].sum(axis=1).to_numpy(float)
    shallower = frame[["bore_shallower_mm", "bore_second_mm", "tip_thicker_mm"]].sum(axis=1).to_numpy(float)
    least, most = frame["gauge_least_mm"].to_numpy(float), frame["gauge_most_mm"].to_numpy(float)
    frame["gauge_denies"] = (depth + deeper < least) | (depth - shallower > most)
    shallowest = row_lengths(frame["gauge_least_mm"].where(np.isfinite(least)), frame)
    deepest = row_lengths(frame["gauge_most_mm"].where(np.isfinite(most)), frame)
    frame["gauge_limits"] = np.select(
        [np.isfinite(least) & np.isfinite(most), np.isfinite(most), np.isfinite(least)],
        ["from " + shallowest + " to " + deepest, "of at most " + deepest, "of at least " + shallowest],
        "",
    )


def _take_compression(frame: Frame, basis: Basis) -> None:
    """Take the bore depth from the compression found where no better evidence gives one.

    What the sensor in place was made up by is not what the new one will be: its threads differ too.
    """
    is_open = ~frame["bore_depth_basis"].isin(KNOWN_BETTER) & ~frame["bore_is_blocked"] & ~frame["gauge_denies"]
    rows = frame.index[is_open & frame["gauge_mm"].notna() & (frame["gauge_mm"] > 0)]
    frame.loc[rows, "bore_depth_used_mm"] = frame.loc[rows, "gauge_mm"]
    frame.loc[rows, "bore_depth_basis"] = OLD_SENSOR
    take_its_tolerances(frame, basis, rows)
    frame.loc[rows, "needed_fields"] = frame.loc[rows, "needed_fields"].map(with_probe)


def take_its_tolerances(frame: Frame, basis: Basis, rows: "pd.Index[int]") -> None:
    """Give rows that are sized from the compression found the tolerances of that evidence, in place of the drawing's.

    They are those of the probe's length and of its made-up threads, and of the reading.
    """
    joints, turn_mm = _make_up(frame.loc[rows])
    probe_mm = frame.loc[rows, "probe_tolerance_mm"].to_numpy(float)
    is_plain = basis.choice("tolerance.stack") == "worst case"
    together = probe_mm + joints * turn_mm if is_plain else np.hypot(probe_mm, np.sqrt(joints) * turn_mm)
    for side in ("bore_deeper_mm", "bore_shallower_mm"):
        frame.loc[rows, side] = together
    frame.loc[rows, "bore_second_mm"] = basis.length_mm("tolerance.bore_measured")
    frame.loc[rows, ["tip_thinner_mm", "tip_thicker_mm"]] = 0.0


def with_probe(needed: str) -> str:
    """Return the length cells that a row hangs on once the sensor in place tells its bore depth."""
    well = {"bore_depth", "measured_bore_depth", "overall_length", "tip_thickness"}
    others = [name for name in needed.split("|") if name not in well]
    return "|".join(["probe_length", "compression_found", *others])


def _narrow_assumed_tip(frame: Frame) -> None:
    """Cut the range of an assumed tip down to the depths at which the probe in place touches and is not solid.

    One that is known not to touch leaves the deeper part of it.
    """
    bounds = frame[["gauge_least_mm", "gauge_most_mm"]]
    tells = bounds.notna().all(axis=1).to_numpy(bool) & np.isfinite(bounds.to_numpy(float)).any(axis=1)
    is_open = (frame["bore_depth_basis"] == ASSUMED_TIP) & ~frame["gauge_denies"] & tells
    rows = frame.index[is_open]
    part = frame.loc[rows]
    depth = part["bore_depth_used_mm"].to_numpy(float)
    thinner, thicker = part["tip_thinner_mm"].to_numpy(float), part["tip_thicker_mm"].to_numpy(float)
    most = np.minimum(depth + thinner, part["gauge_most_mm"].to_numpy(float))
    least = np.maximum(depth - thicker, part["gauge_least_mm"].to_numpy(float))
    is_range = most > least
    taken = np.where(is_range, np.minimum(np.maximum(depth, least), most), depth)
    frame.loc[rows, "bore_depth_used_mm"] = taken
    frame.loc[rows, "tip_used_mm"] = part["overall_length_mm"].to_numpy(float) - taken
    frame.loc[rows, "tip_thinner_mm"] = np.where(is_range, most - taken, thinner)
    frame.loc[rows, "tip_thicker_mm"] = np.where(is_range, taken - least, thicker)


def take_in_kind(frame: Frame, basis: Basis) -> None:
    """Add `is_in_kind`: lengths that are bought as they are, proven in service, where nothing else leads to one."""
    proven = _says(frame, "replaced_in_kind", basis, "in kind") & (frame["probe_length_state"] == CellState.VALUE)
    has_depth = frame["bore_depth_basis"].isin([*KNOWN_BETTER, OLD_SENSOR])
    leads_nowhere = ~has_depth | frame["extension_installed_mm"].isna() | frame["seat_offset_mm"].isna()
    frame["is_in_kind"] = proven & leads_nowhere & ~frame["gauge_denies"] & (frame["mounting"] != "")
    frame.loc[frame["is_in_kind"], "needed_fields"] = "probe_length"
