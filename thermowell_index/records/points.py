"""Which rows are temperature points in wells, and why the others are not."""

from collections.abc import Hashable, Mapping

import pandas as pd

from thermowell_index.dictionary import SENSOR_FIELDS, WELL_FIELDS
from thermowell_index.records.tags import TagParts, take_apart
from thermowell_index.records.words import (
    SENSORS,
    STEMS,
    SURFACE,
    TEMPERATURE,
    each_distinct,
    folded,
    remark_deletes,
    says,
    says_no,
    service_says_gone,
    state_of,
    tag_says_gone,
)
from thermowell_index.table import GONE, REMARK_JOINT, Frame
from thermowell_index.units import is_placeholder

WELL_DIMENSIONS = ("measured_bore_depth", "bore_depth", "overall_length")
# Fields that speak of the sensor itself, by which a transmitter's or a well's row shows that it stands for the point.
SENSOR_SIGNS = ("sensor_mounting", "sheath_diameter", "probe_length", "sensor_type")
DESCRIBING = ("sensor_type", "instrument_type", "sensor_mounting", "head_type")
KINDS = ("sensor_type", "instrument_type")
SAYING_NO_WELL = (
    "sensor_mounting",
    "well_connection",
    "instrument_type",
    "sensor_type",
    "well_tag",
    "remarks",
    "shank_form",
)

LOOKED_AT = tuple(
    dict.fromkeys((*DESCRIBING, *SAYING_NO_WELL, "row_status", "tag", "service", "has_well", "role", "is_struck"))
)


def has_any(frame: Frame, fields: tuple[str, ...]) -> "pd.Series[bool]":
    """Return which rows have something in one of the fields: a text, or a length cell that is not blank."""
    found = pd.Series(data=False, index=frame.index)
    for name in fields:
        if f"{name}_state" in frame:
            found |= ~frame[f"{name}_state"].isin(GONE)
        else:
            found |= each_distinct(frame[name], lambda text: bool(text) and not is_placeholder(text)).astype(bool)
    return found


def add_tag_parts(frame: Frame) -> None:
    """Add what the tags say: key, role, loop; and the well tag's key."""
    parts = [take_apart(str(tag)) for tag in frame["tag"]]
    frame["tag_key"] = [part.key for part in parts]
    frame["letters"] = [part.letters for part in parts]
    frame["loop"] = [part.loop for part in parts]
    frame["loop_without_suffix"] = [part.loop_without_suffix for part in parts]
    frame["twins"] = [part.count for part in parts]
    wells = ["" if is_placeholder(str(tag)) else str(tag) for tag in frame["well_tag"]]
    frame["well_tag"] = wells
    frame["well_key"] = [take_apart(tag).key if tag else "" for tag in wells]
    frame["well_loop"] = [take_apart(tag).loop_without_suffix if tag else "" for tag in wells]
    frame["role"] = [
        _role(part, kind, sensor)
        for part, kind, sensor in zip(parts, frame["instrument_type"], frame["sensor_type"], strict=True)
    ]
    named = frame["tag_key"].isin(set(frame["well_key"]) - {""})  # as the well of another row, whatever its letters
    frame.loc[named & frame["role"].isin(["unknown", "other"]), "role"] = "well"


def _role(part: TagParts, kind: str, sensor: str) -> str:
    """Return what a row is, by its letters, and by its type where the letters say nothing of temperature."""
    if part.role not in {"unknown", "other"}:
        return part.role
    if says(SENSORS, sensor):
        return "element"
    if says(TEMPERATURE, kind):
        return _role_by_type(folded(kind))
    return part.role


def _role_by_type(kind: str) -> str:
    if says(SENSORS, kind):
        return "element"
    if "WELL" in kind and "ELEMENT" not in kind:
        return "well"
    words = ("TRANSMIT", "INDICAT", "SWITCH", "CONTROL", "ALARM", "RECORD", "UMFORMER", "TRANSMET")
    return "kin" if any(word in kind for word in words) else "element"


def judge_points(frame: Frame) -> None:
    """Add `is_point` (a sensor in a well to be sized, or withheld) and `reason` (why a row is none)."""
    has_well = has_any(frame, WELL_DIMENSIONS)
    looked_at = frame[[*LOOKED_AT]].to_dict("records")
    frame["reason"] = [_reason(row, has_well=bool(has)) for row, has in zip(looked_at, has_well, strict=True)]
    frame["is_stem"] = frame["reason"].str.startswith("not a sensor")
    _judge_kin(frame)
    frame["is_point"] = frame["reason"] == ""


def _reason(row: dict[Hashable, object], *, has_well: bool) -> str:
    """Return why a row can be no point, whatever its kin say; empty where it may be one."""
    texts = {name: str(row[name]) for name in LOOKED_AT}
    if row["is_struck"]:
        return "struck out"
    return _why_gone(texts) or _why_no_sensor(texts, str(row["role"]), has_well=has_well)


def _why_gone(texts: Mapping[str, str]) -> str:
    """Return the status, the tag or the remark by which a row is deleted or not in scope; empty where it is live."""
    if state_of(texts["row_status"]) in {"deleted", "not there"}:
        return f"status {texts['row_status']!r}"
    if tag_says_gone(texts["tag"]):
        return f"tag {texts['tag']!r}"
    if service_says_gone(texts["service"]):
        return f"service {texts['service']!r}"
    return next(
        (f"remark {one!r}" for one in texts["remarks"].split(REMARK_JOINT) if remark_deletes(one, texts["tag"])), ""
    )


def _why_no_sensor(texts: Mapping[str, str], role: str, *, has_well: bool) -> str:
    """Return why a live row is no sensor in a well; empty where it may be one."""
    if role == "other" or (role == "unknown" and not has_well):
        return "not a temperature instrument"
    if role in {"gauge", "test point"} or any(says(STEMS, texts[name]) for name in DESCRIBING):
        return "not a sensor in a well: " + next((texts[name] for name in DESCRIBING if says(STEMS, texts[name])), role)
    if not has_well and says_no(texts["has_well"]):
        return "no thermowell, by its column"
    if any(says(SURFACE, texts[name]) for name in KINDS):
        return "no thermowell: " + next(texts[name] for name in KINDS if says(SURFACE, texts[name]))
    if not has_well and any(says(SURFACE, texts[name]) for name in SAYING_NO_WELL):
        return "no thermowell: " + next(texts[name] for name in SAYING_NO_WELL if says(SURFACE, texts[name]))
    return ""


def _judge_kin(frame: Frame) -> None:
    """Of the rows of one loop keep the sensor's: the element rows, else the one that holds well and sensor."""
    live = frame["reason"] == ""
    is_element = frame["role"].isin(["element", "unknown"])
    with_element = set(frame.loc[live & is_element, "loop"]) | set(frame.loc[live & is_element, "loop_without_suffix"])
    named_wells = set(frame.loc[live & is_element, "well_key"]) - {""}
    signs = has_any(frame, SENSOR_SIGNS)
    has_well = has_any(frame, WELL_DIMENSIONS)
    any_sensor = bool((live & (is_element | ((frame["role"] == "kin") & signs))).any())
    has_kin_element = frame["loop"].isin(with_element) | frame["loop_without_suffix"].isin(with_element)
    well = live & (frame["role"] == "well")
    kin = live & (frame["role"] == "kin")
    belongs = well & (has_kin_element | frame["tag_key"].isin(named_wells))
    frame.loc[belongs, "reason"] = "well row, joined to its sensor"
    frame.loc[kin & has_kin_element, "reason"] = "another row of a loop that has its sensor on a row of its own"
    frame.loc[kin & ~has_kin_element & ~signs & ~has_well, "reason"] = "no sensor and no well on this row"
    _keep_fullest(frame, kin & (frame["reason"] == ""))
    held = set(frame.loc[kin & (frame["reason"] == ""), "loop_without_suffix"])
    held_wells = set(frame.loc[kin & (frame["reason"] == ""), "well_key"]) - {""}
    lone = well & (frame["reason"] == "")
    frame.loc[lone & (frame["loop_without_suffix"].isin(held) | frame["tag_key"].isin(held_wells)), "reason"] = (
        "well row, joined to its sensor"
    )
    frame.loc[lone & (frame["reason"] == "") & ~signs & any_sensor, "reason"] = "well row without a sensor row"


def _keep_fullest(frame: Frame, candidates: "pd.Series[bool]") -> None:
    """Of several rows of one loop that hold data keep the one with the most."""
    rows = frame[candidates]
    counts = sum(
        (has_any(rows, (name,)).astype(int) for name in (*WELL_FIELDS, *SENSOR_FIELDS)),
        start=pd.Series(0, index=rows.index),
    )
    for _, group in rows.groupby("loop", sort=False):
        if len(group) > 1 and len(set(group["tag_key"])) > 1:
            best = counts.loc[group.index].idxmax()
            others = group.index.difference([best])
            frame.loc[others, "reason"] = "another row of a loop that has its sensor on a row of its own"


def unknown_states(frame: Frame) -> "pd.Series[bool]":
    """Return the rows whose status is a word that is not known; they are live."""
    return frame["row_status"].map(lambda text: state_of(str(text)) == "unknown")
