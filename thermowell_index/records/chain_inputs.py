"""The chain's links of every row: threads, bore depth and its tolerance by basis, installed length."""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.basis import Basis
from thermowell_index.records.assembly import FITTINGS, WITH_UNION
from thermowell_index.records.threads_read import JointThread, read_thread, sensor_thread, thread_in_words
from thermowell_index.records.words import DIN_FORM, says
from thermowell_index.sizing.chain import bore_depth, installed_length
from thermowell_index.table import GONE, CellState, Frame, IndexTable

Floats = NDArray[np.float64]


def add_threads(frame: Frame, basis: Basis) -> None:
    """Add the threads of the well's open end, of the extension and of the sensor's seat, with engagement and turn."""
    default = basis.choice("index.instrument_thread")
    well = [read_thread(text, default) for text in frame["instrument_thread"]]
    own = [read_thread(text, default) for text in frame["extension_thread"]]
    extension = [stated if stated.is_stated else sensor_thread(below) for stated, below in zip(own, well, strict=True)]
    on_top = frame["arrangement"].isin(["nipple", *WITH_UNION, "nipple and coupling", "neck tube"])
    holding = [top if has_top else below for top, below, has_top in zip(extension, well, on_top, strict=True)]
    fitting = [
        _thread_of_fitting(stated, words, default) if mounting in FITTINGS else None
        for stated, words, mounting in zip(
            frame["sensor_thread"], frame["sensor_mounting"], frame["mounting"], strict=True
        )
    ]
    seat = [
        own_thread if own_thread and not joint.is_stated else sensor_thread(joint)
        for joint, own_thread in zip(holding, fitting, strict=True)
    ]
    frame["fitting_joint"] = pd.Series(fitting, index=frame.index, dtype=object)
    frame["held_joint"] = pd.Series(holding, index=frame.index, dtype=object)
    turns = basis.number("tolerance.make_up_turns")
    into_well = [sensor_thread(joint) for joint in well]
    frame["engagement_well_mm"] = [joint.engagement_mm for joint in into_well]
    frame["engagement_top_mm"] = [joint.engagement_mm for joint in extension]
    frame["engagement_seat_mm"] = [joint.engagement_mm for joint in seat]
    frame["well_turn_mm"] = [joint.turn_mm * turns for joint in into_well]
    frame["extension_turn_mm"] = [joint.turn_mm * turns for joint in extension]
    frame["seat_turn_mm"] = [joint.turn_mm * turns for joint in seat]
    frame["seat_is_shoulder"] = [joint.is_shoulder for joint in seat]
    frame["thread_text"] = [_thread_name(joint) for joint in seat]
    frame["well_thread_known"] = [joint.is_known for joint in well]
    frame["extension_thread_known"] = [joint.is_known for joint in own]
    frame["thread_is_assumed"] = [not joint.is_stated for joint in seat]
    frame["well_joint"] = pd.Series(well, index=frame.index, dtype=object)
    frame["extension_joint"] = pd.Series(
        [joint if joint.is_stated else None for joint in own], index=frame.index, dtype=object
    )


def _thread_of_fitting(stated: str, words: str, default: str) -> JointThread | None:
    """Return the thread of a sensor's fitting: that of its column, else that which the mounting's words name."""
    own = read_thread(stated, default)
    return own if own.is_stated else thread_in_words(words)


def _thread_name(joint: JointThread) -> str:
    if joint.thread is None:
        return ""
    size = joint.thread.size
    if joint.thread.family == "M":
        return f"M{float(size):g}x{joint.thread.pitch_mm:g}" if joint.thread.pitch_mm else f"M{float(size):g}"
    whole, part = divmod(size, 1)
    shown = "-".join(str(piece) for piece in (int(whole), part) if piece)
    return (
        f"{shown} {joint.thread.family}" if joint.thread.family.startswith("NP") else f"{joint.thread.family} {shown}"
    )


AS_BUILT = r"\bAS[- ]?BUILT|WIE GEBAUT|TEL QUE CONSTRUIT|CONFORME (?:A OBRA|CONSTRUIDO)|COME COSTRUITO|ZOALS GEBOUWD"


def add_evidence(table: IndexTable) -> None:
    """Add `bore_is_as_built`: the bore depth stands in a column whose heading says that it is as built."""
    built = {
        (read.sheet, column.column)
        for read in table.tables.values()
        for column in (*read.columns.values(), *read.second_columns)
        if column.field == "bore_depth" and column.evidence == "as built"
    }
    places = table.frame.get("bore_depth_at", pd.Series(None, index=table.frame.index, dtype=object))
    table.frame["bore_is_as_built"] = [isinstance(place, tuple) and (place[0], place[2]) in built for place in places]


def add_bore(frame: Frame, basis: Basis) -> None:
    """Add the bore depth used, its basis, its tolerances and the tip that was assumed."""
    is_din = frame["shank_form"].map(lambda text: says(DIN_FORM, str(text))).to_numpy(bool)
    is_metric = (frame["unit"] == "mm").to_numpy(bool)
    assumed = np.select(
        [is_din, is_metric],
        [basis.length_mm("well.tip_thickness_din"), basis.length_mm("well.tip_thickness_metric")],
        basis.length_mm("well.tip_thickness_inch"),
    )
    is_measured = frame["dimension_source"].map(
        lambda text: says("MEASURED|GEMESSEN|MESURE|MEDID|MISURAT|GEMETEN|FIELD VERIF", str(text))
    )
    stated = frame["bore_depth_mm"].to_numpy(float)
    found = frame["measured_bore_depth_mm"].to_numpy(float)
    from_source = is_measured.to_numpy(bool) & np.isnan(found)
    measured = np.where(from_source, stated, found)
    overall, tip = frame["total_length_mm"].to_numpy(float), frame["tip_thickness_mm"].to_numpy(float)
    may_assume = frame["tip_thickness_state"].isin(GONE).to_numpy(bool)
    depth, origin = bore_depth(
        measured_mm=measured,
        stated_mm=stated,
        overall_mm=overall,
        tip_mm=tip,
        assumed_tip_mm=np.where(may_assume, assumed, np.nan),
    )
    unread = ~frame["bore_depth_state"].isin((*GONE, CellState.VALUE)).to_numpy(bool)
    not_measured = np.isnan(measured)
    unread_measured = ~frame["measured_bore_depth_state"].isin((*GONE, CellState.VALUE)).to_numpy(bool)
    blocked = (unread & not_measured) | unread_measured
    origin = np.where(blocked, "", np.asarray(origin, dtype=object))
    frame["bore_depth_used_mm"] = np.where(blocked, np.nan, depth)
    frame["bore_depth_basis"] = origin
    frame["bore_is_blocked"] = blocked
    frame["is_din_form"] = is_din
    frame["tip_used_mm"] = np.where(np.isnan(tip), assumed, tip)
    _add_bore_tolerances(frame, basis, is_din, assumed)


def _add_bore_tolerances(frame: Frame, basis: Basis, is_din: NDArray[np.bool_], assumed: Floats) -> None:
    origin = frame["bore_depth_basis"].to_numpy(dtype=object)
    from_overall = np.isin(origin, ["overall less tip", "overall less assumed tip"])
    is_stated = origin == "stated"
    said = frame["dimension_source"].map(lambda text: says(AS_BUILT, str(text))).to_numpy(bool)
    is_as_built = said | frame["bore_is_as_built"].to_numpy(bool)
    names = ("bore_measured", "bore_as_built", "bore_stated", "din_deeper", "overall")
    deeper = np.select(
        [origin == "measured", is_stated & is_as_built, is_stated, from_overall & is_din, from_overall],
        [basis.length_mm(f"tolerance.{name}") for name in names],
        0.0,
    )
    frame["bore_deeper_mm"] = deeper
    pointed = np.nan_to_num(np.where(is_stated, basis.length_mm("tolerance.drill_point"), 0.0))
    frame["bore_shallower_mm"] = np.where(from_overall & is_din, 0.0, deeper + pointed)
    frame["bore_second_mm"] = np.where((origin == "overall less tip") & ~is_din, basis.length_mm("tolerance.tip"), 0.0)
    is_assumed = origin == "overall less assumed tip"
    least, most = basis.length_mm("well.tip_credible_least"), basis.length_mm("well.tip_credible_most")
    frame["tip_thinner_mm"] = np.where(is_assumed, np.maximum(assumed - least, 0.0), 0.0)
    frame["tip_thicker_mm"] = np.where(is_assumed, np.maximum(most - assumed, 0.0), 0.0)


def add_installed_length(frame: Frame, basis: Basis) -> None:
    """Add the installed length of the extension and whether it was given rather than made up of parts."""
    count = len(frame)
    given = frame["given_installed_mm"].to_numpy(float)
    frame["installed_is_given"] = ~np.isnan(given)
    frame["union_length_mm"] = np.where(
        frame["arrangement"].isin(WITH_UNION), basis.length_mm("extension.union_length"), np.nan
    )
    frame["coupling_length_mm"] = np.where(
        frame["arrangement"] == "nipple and coupling", basis.length_mm("extension.coupling_length"), np.nan
    )
    top = frame["engagement_top_mm"].to_numpy(float)
    frame["extension_installed_mm"] = installed_length(
        arrangement=frame["arrangement"].to_numpy(dtype=object),
        nipple_mm=frame["first_nipple_mm"].to_numpy(float),
        second_nipple_mm=frame["second_nipple_mm"].to_numpy(float),
        engagement_well_mm=frame["engagement_well_mm"].to_numpy(float),
        engagement_top_mm=top,
        engagement_union_mm=top,
        coupling_mm=np.full(count, basis.length_mm("extension.coupling_length")),
        union_mm=np.full(count, basis.length_mm("extension.union_length")),
        neck_mm=frame["neck_mm"].to_numpy(float),
        given_mm=given,
    )
    has_extension = (frame["arrangement"] != "none").to_numpy(bool) | (given > 0)
    frame["extension_tolerance_mm"] = np.where(has_extension, basis.length_mm("tolerance.extension"), 0.0)


def add_needed(frame: Frame) -> None:
    """Add `needed_fields`: the length cells that a row's length hangs on, joined by a bar."""
    measured = ~frame["measured_bore_depth_state"].isin(GONE)
    stated = ~frame["bore_depth_state"].isin(GONE)
    extended = ~frame["arrangement"].isin(["none"])
    installed = ~frame["installed_length_state"].isin(GONE)
    nipple = ~frame["nipple_length_state"].isin(GONE)
    second_nipple = ~frame["second_nipple_length_state"].isin(GONE)
    travel = ~frame["spring_travel_state"].isin(GONE) & (frame["mounting"] != "fixed fitting")
    flanged = (frame["mounting"] == "flanged insert") & frame["is_standard_insert"]
    derived = frame["total_neck_mm"].notna()
    by_total, by_parts = ["overall_length", "tip_thickness"], ["insertion_length", "extension_length", "tip_thickness"]
    frame["needed_fields"] = [
        "|".join(
            (["measured_bore_depth"] if m else ["bore_depth"] if s else by_parts if d else by_total)
            + (["overall_length"] if f else [])
            + ((["installed_length"] if i else ["nipple_length"] if n else ["extension_length"]) if e else [])
            + (["second_nipple_length"] if second and e and not i else [])
            + (["spring_travel"] if t else [])
        )
        for m, s, d, e, i, n, second, t, f in zip(
            measured, stated, derived, extended, installed, nipple, second_nipple, travel, flanged, strict=True
        )
    ]
