"""The sensor of every row: its profile, and what sizing takes from it."""

from collections.abc import Callable

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.basis import BUILT_IN, Basis, SensorProfile
from thermowell_index.records.assembly import INSERTS
from thermowell_index.records.din_wells import take_standard_inserts
from thermowell_index.records.words import COLLAR, cells_say
from thermowell_index.sizing.schedule import CONTAINS_EXTENSION
from thermowell_index.table import GONE, Frame

Floats = NDArray[np.float64]
NM_IN_MM = 1_000_000
USUAL_PROFILES = {
    "spring-loaded fitting": "spring_loaded_fitting",
    "spring-loaded insert": "spring_loaded_insert",
    "flanged insert": "flanged_insert",
    "fixed fitting": "fixed_fitting",
    "adjustable fitting": "adjustable_fitting",
}


def add_profile(frame: Frame, basis: Basis) -> None:
    """Add what the sensor's profile says: plane, seat, spring, increment, standard lengths."""
    on_collar = frame["seat_is_shoulder"] | cells_say(COLLAR, frame["sensor_mounting"])
    is_collar = (frame["mounting"] == "spring-loaded fitting") & on_collar
    usual = frame["mounting"].map(lambda mounting: USUAL_PROFILES.get(str(mounting), ""))
    usual = usual.mask(is_collar, "collar_fitting")
    frame["profile"] = frame["named_profile"].where(frame["named_profile"] != "", usual)
    frame["own_profile"] = frame["named_profile"].map(lambda name: "" if name in BUILT_IN.profiles else str(name))
    reader = _ProfileReader(frame, basis)
    frame["plane"] = [
        _plane(profile, has_extension=has_extension)
        for profile, has_extension in zip(reader.each(), _has_extension(frame), strict=True)
    ]
    _add_seat(frame, reader)
    _add_spring(frame, reader)
    _add_increment(frame, reader)
    one_piece = frame["is_din_form"] & frame["mounting"].isin(INSERTS) & (frame["arrangement"] == "none")
    frame.loc[one_piece, "seat_turn_mm"] = 0.0  # a tube in one piece with its neck: the head seats on a shoulder
    take_standard_inserts(frame, basis)


class _ProfileReader:
    """Entries of each row's profile, one look-up a profile."""

    def __init__(self, frame: Frame, basis: Basis) -> None:
        self._names = [str(name) for name in frame["profile"]]
        self._profiles = basis.profiles

    def numbers(self, value: Callable[[SensorProfile], float]) -> Floats:
        """Return a number of each row's profile, NaN where it has none."""
        known = {name: value(profile) for name, profile in self._profiles.items()}
        return np.array([known.get(name, np.nan) for name in self._names], dtype=float)

    def words(self, value: Callable[[SensorProfile], str]) -> list[str]:
        """Return a text of each row's profile, empty where it has none."""
        return [value(self._profiles[name]) if name else "" for name in self._names]

    def flags(self, value: Callable[[SensorProfile], bool]) -> NDArray[np.bool_]:
        """Return a yes or no of each row's profile."""
        return np.asarray(self.numbers(lambda profile: float(value(profile))) > 0.0)

    def each(self) -> list[SensorProfile | None]:
        """Return each row's profile, None where it has none."""
        return [self._profiles[name] if name else None for name in self._names]

    def lists(self) -> list[tuple[float, ...] | None]:
        """Return the standard lengths [mm] of each row's profile, None where it comes in any."""
        return [self._profiles[name].standard_lengths_mm or None if name else None for name in self._names]


def _has_extension(frame: Frame) -> NDArray[np.bool_]:
    return np.asarray(((frame["arrangement"] != "none") | (frame["given_installed_mm"] > 0)).to_numpy(bool))


def _plane(profile: SensorProfile | None, *, has_extension: bool) -> str:
    """Return the plane that a row's length is measured from, and whether the length contains the extension."""
    if profile is None:
        return ""
    if profile.contains_extension == "no":
        without = profile.plane.replace(CONTAINS_EXTENSION, "").replace("extension and head included", "head included")
        return without if "extension" in without else without + ", extension not included"
    is_said = not has_extension or "extension" in profile.plane
    return profile.plane if is_said else profile.plane + CONTAINS_EXTENSION


def _add_seat(frame: Frame, reader: _ProfileReader) -> None:
    """Add seat offset and target compression.

    A fixed fitting with a parallel thread has no known seat, nor has a collar in words beside a taper thread.
    """
    engagement = frame["engagement_seat_mm"].to_numpy(float)
    by_thread = reader.flags(lambda profile: profile.seat_offset == "engagement")
    on_collar = ((frame["mounting"] == "fixed fitting") & frame["seat_is_shoulder"]).to_numpy(bool)
    stated = reader.numbers(lambda profile: profile.length_mm("seat_offset"))
    is_usual = (frame["profile"] == "collar_fitting") & (frame["named_profile"] == "")
    has_no_face = is_usual & ~frame["seat_is_shoulder"]
    stated = np.where(has_no_face, np.nan, stated)
    frame["seat_offset_mm"] = np.where(by_thread, np.where(on_collar, np.nan, -engagement), stated)
    frame["heads_that_go"] = reader.words(lambda profile: "|".join(profile.heads))
    without = reader.flags(lambda profile: profile.contains_extension == "no")
    frame["length_leaves_out_extension"] = without
    frame["length_is_solid"] = reader.flags(lambda profile: profile.spring_state == "solid")
    aims_by_thread = reader.flags(lambda profile: profile.target_compression == "engagement")
    aimed = reader.numbers(lambda profile: profile.length_mm("target_compression"))
    frame["target_compression_mm"] = np.where(aims_by_thread, engagement, aimed)


def _add_spring(frame: Frame, reader: _ProfileReader) -> None:
    """Add the travel: the index' own, else the profile's, which counts as assumed unless the user stated it."""
    is_silent = frame["spring_travel_state"].isin(GONE).to_numpy(bool)
    is_sprung = ~frame["mounting"].isin(["fixed fitting", "adjustable fitting", ""]).to_numpy(bool)
    is_built_in = reader.flags(lambda profile: "travel" not in profile.stated)
    frame["travel_is_assumed"] = is_silent & is_sprung & is_built_in
    travel = reader.numbers(lambda profile: profile.length_mm("travel"))
    least = reader.numbers(lambda profile: profile.length_mm("travel_least"))
    most = reader.numbers(lambda profile: profile.length_mm("travel_most"))
    is_carried = is_silent & is_sprung & np.isfinite(least) & np.isfinite(most)
    frame["travel_is_carried"] = is_carried
    frame["travel_is_assumed"] &= ~is_carried
    stated = np.where(is_silent, travel, frame["spring_travel_mm"].to_numpy(float))
    frame["travel_mm"] = np.where(is_carried, least, stated)
    frame["travel_most_mm"] = np.where(is_carried, most, stated)


def _add_increment(frame: Frame, reader: _ProfileReader) -> None:
    """Add the increment by the unit of the row, and the list of standard lengths where the profile has one."""
    is_metric = (frame["unit"] == "mm").to_numpy(bool)
    inch = reader.numbers(lambda profile: profile.length_mm("increment_inch"))
    metric = reader.numbers(lambda profile: profile.length_mm("increment_metric"))
    increment = np.nan_to_num(np.where(is_metric, metric, inch))
    frame["increment_nm"] = np.rint(increment * NM_IN_MM).astype(np.int64)
    frame["increment_unit"] = np.where(is_metric, "mm", "in")
    frame["standard_lengths"] = pd.Series(reader.lists(), index=frame.index, dtype=object)


def add_constants(frame: Frame, basis: Basis) -> None:
    """Add the inputs that are the same for every row."""
    frame["probe_tolerance_mm"] = _probe_tolerance(frame, basis)
    frame["bottom_gap_mm"] = basis.length_mm("fixed.bottom_gap")
    frame["least_gap_mm"] = basis.length_mm("fixed.least_gap")
    frame["most_gap_mm"] = basis.length_mm("fixed.most_gap")
    travel, most = frame["travel_mm"].to_numpy(float), frame["travel_most_mm"].to_numpy(float)
    reader = _ProfileReader(frame, basis)
    preload = reader.numbers(lambda profile: profile.length_mm("preload"))
    reserve = reader.numbers(lambda profile: profile.length_mm("reserve"))
    usual_preload = np.maximum(most / 8.0, basis.length_mm("spring.least_preload"))
    usual_reserve = np.maximum(travel / 20.0, basis.length_mm("spring.least_reserve"))
    frame["preload_mm"] = np.where(np.isnan(preload), usual_preload, preload)
    frame["reserve_mm"] = np.where(np.isnan(reserve), usual_reserve, reserve)
    frame["stated_probe_mm"] = frame["probe_length_mm"]


def add_maker_length(frame: Frame) -> None:
    """Add by how much the maker's length is shorter than from the seat plane to the tip, spring relaxed."""
    extension = np.where(frame["length_leaves_out_extension"], frame["extension_installed_mm"], 0.0)
    frame["maker_shorter_mm"] = extension + np.where(frame["length_is_solid"], frame["travel_mm"], 0.0)


def _probe_tolerance(frame: Frame, basis: Basis) -> Floats:
    """Return each probe's tolerance [mm]: its profile's step at the longest it can be, else the design basis'."""
    usual = basis.length_mm("tolerance.probe")
    chain = frame[["bore_depth_used_mm", "extension_installed_mm", "seat_offset_mm"]].sum(axis=1).to_numpy(float)
    longest = chain + np.nan_to_num(frame["travel_most_mm"].to_numpy(float))
    steps = {name: profile.tolerance_steps_mm() for name, profile in basis.profiles.items()}
    return np.array(
        [_step(steps.get(str(name), []), length, usual) for name, length in zip(frame["profile"], longest, strict=True)]
    )


def _step(steps: list[tuple[float, float]], length_mm: float, usual_mm: float) -> float:
    """Return the tolerance of the first step that reaches a length; the last step's beyond it."""
    if not steps:
        return usual_mm
    return next((tolerance for limit, tolerance in steps if length_mm <= limit), steps[-1][1])
