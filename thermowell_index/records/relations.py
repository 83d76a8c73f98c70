"""What rows say of each other: one well on several rows, one tag twice, a well of another loop; columns absent."""

from collections.abc import Callable, Iterable

import pandas as pd

from thermowell_index.dictionary import FIELD
from thermowell_index.records.growth import temperature_deg_c
from thermowell_index.records.points import unknown_states
from thermowell_index.records.words import arrangement_of, mounting_of
from thermowell_index.table import Frame, IndexTable, flag, whole, word
from thermowell_index.units import format_length

CHECKED = (
    "overall_length",
    "bore_depth",
    "tip_thickness",
    "insertion_length",
    "bore_diameter",
    "sheath_diameter",
    "instrument_thread",
    "probe_length",
    "well_connection",
)
# Lengths in millimetres made of fractions of an inch differ in the last binary digits [mm].
EPSILON_MM = 1e-6
COMPARED = ("bore_depth_used_mm", "overall_length_mm", "tip_thickness_mm", "extension_installed_mm", "probe_length_mm")


def add_relations(table: IndexTable, one_well_mm: float) -> None:
    """Add what the checks need to know of other rows; `one_well_mm` is by how much two rows of one well may differ."""
    frame = table.frame
    _add_sheet_details(table)
    _add_other_depths(frame, one_well_mm)
    _add_other_words(frame, one_well_mm)
    _add_twins(frame, one_well_mm)
    _add_foreign_wells(frame)
    _add_well_remarks(frame)
    _add_temperature(table)


def _add_temperature(table: IndexTable) -> None:
    """Add the design temperature in degrees Celsius, NaN where it is not stated with a unit."""
    headings = {table_id: read.columns.get("design_temperature") for table_id, read in table.tables.items()}
    words = {table_id: column.heading if column else "" for table_id, column in headings.items()}
    table.frame["design_temperature_deg_c"] = [
        temperature_deg_c(str(text), words[table_id])
        for text, table_id in zip(table.frame["design_temperature"], table.frame["table_id"], strict=True)
    ]


def _add_sheet_details(table: IndexTable) -> None:
    frame = table.frame
    absent, undecided, unread = {}, {}, {}
    for table_id, read in table.tables.items():
        labels = [FIELD[name].label for name in CHECKED if name not in read.columns]
        absent[table_id] = "no column for " + ", ".join(labels) if labels else ""
        undecided[table_id] = "; ".join(
            f"column {_letters(column)} {heading!r} fits {' and '.join(FIELD[name].label for name in fields)}"
            for column, heading, fields in read.undecided
        )
        unread[table_id] = "; ".join(
            f"column {_letters(column)} {heading!r}, values like {' | '.join(read.samples.get(column, ()))}"
            for column, heading in read.unread
            if column in read.unread_lengths
        )
    frame["detail_column_absent"] = frame["table_id"].map(absent)
    frame["detail_unnamed_length_column"] = frame["table_id"].map(undecided)
    if "has_undecided" in frame:
        frame.loc[~frame["has_undecided"].astype(bool), "detail_unnamed_length_column"] = ""
    frame["detail_length_column_not_read"] = frame["table_id"].map(unread)
    is_unknown = unknown_states(frame)
    words = (
        frame.loc[is_unknown, "row_status"]
        .groupby(frame["sheet"])
        .unique()
        .map(lambda found: ", ".join(map(repr, found)))
    )
    frame["detail_status_word_not_known"] = frame["sheet"].map(words).where(is_unknown, "")


def _letters(column: int) -> str:
    first, rest = divmod(column - 1, 26)
    return (_letters(first) if first else "") + chr(65 + rest)


def _add_other_depths(frame: Frame, one_well_mm: float) -> None:
    """Add to each point the depths and overall lengths that other rows of its well state, where they differ."""
    frame["detail_other_depths"] = ""
    is_well_row = frame["reason"].str.startswith("well row")
    derived = frame["overall_length_mm"] - frame["tip_thickness_mm"]
    own = frame["measured_bore_depth_mm"].fillna(frame["bore_depth_mm"]).fillna(derived)
    joined = frame["well_row_id"].map(lambda row_id: word(frame, row_id, "tag_key") if row_id >= 0 else "")
    key = frame["well_key"].where(frame["well_key"] != "", joined)
    key = key.where(~is_well_row, frame["tag_key"])
    alone = "row " + frame.index.astype(str).to_series(index=frame.index)
    key = key.where((key != "") | ~frame["is_point"], alone)
    is_kin = frame["reason"].str.startswith("another row")
    key = key.where(~is_kin, _wells_of_kin(frame, key))
    of_one_well = (frame["is_point"] | is_well_row | is_kin) & (key != "")
    for what, lengths in (("", own), ("overall length ", frame["overall_length_mm"])):
        members = of_one_well & lengths.notna()
        for _, group in lengths[members].groupby(key[members], sort=False):
            if len(group) > 1 and group.max() - group.min() > one_well_mm + EPSILON_MM:
                for row_id in group.index[frame.loc[group.index, "is_point"]]:
                    if not frame.at[row_id, "detail_other_depths"]:
                        frame.at[row_id, "detail_other_depths"] = _depths(frame, group, row_id, what)


def _wells_of_kin(frame: Frame, key: "pd.Series[str]") -> "pd.Series[str]":
    """Return for other rows of a loop the key of their well: the one they name, else that of the one sensor there."""
    points = frame[frame["is_point"]]
    wells = {loop: set(group) for loop, group in key[points.index].groupby(points["loop"])}
    found = [
        own or (next(iter(wells[loop])) if len(wells.get(loop, ())) == 1 else "")
        for own, loop in zip(frame["well_key"], frame["loop"], strict=True)
    ]
    return pd.Series(found, index=frame.index, dtype=object)


def _add_well_remarks(frame: Frame) -> None:
    """Add to each point what is remarked of its well on other rows: on the well's, and on its loop's transmitter's."""
    others = frame["other_words"].map(lambda text: f" ; {text}" if text else "")
    said = frame["remarks"].astype(object) + others
    points = frame[frame["is_point"]]
    is_alone = ~points["loop"].duplicated(keep=False)
    kin = said[frame["reason"].str.startswith("another row") & (said != "")]
    by_loop = kin.groupby(frame.loc[kin.index, "loop"]).agg(list)
    frame["well_remarks"] = ""
    for row_id in points.index:
        well = whole(frame, row_id, "well_row_id")
        found = [said[well]] if well >= 0 else []
        if is_alone[row_id]:
            found += by_loop.get(word(frame, row_id, "loop"), [])
        frame.at[row_id, "well_remarks"] = " ; ".join(filter(None, dict.fromkeys(found)))


def _depths(frame: Frame, group: "pd.Series[float]", row_id: int, what: str) -> str:
    others = [other for other in group.index if abs(group[other] - group[row_id]) > EPSILON_MM]
    places = [
        f"{word(frame, other, 'tag')} ({word(frame, other, 'sheet')}, row {whole(frame, other, 'row')})"
        for other in others
    ]
    lengths = [_length(frame, group[other], row_id) for other in others]
    return "; ".join(f"{place} has {what}{length}" for place, length in zip(places, lengths, strict=True))


# What the rows of a sensor and its well may both say of how the sensor is held and extended.
SAID_TWICE = {"sensor_mounting": mounting_of, "extension_arrangement": arrangement_of}
MEASURED_TWICE = ("extension_length", "nipple_length", "second_nipple_length", "installed_length")


def _add_other_words(frame: Frame, limit_mm: float) -> None:
    """Add to each point what its well's row says of mounting and extension and the point's own row denies."""
    name_of = "detail_well_row_says_otherwise"
    frame[name_of] = ""
    for row_id in frame.index[frame["is_point"] & (frame["well_row_id"] >= 0)]:
        donor = whole(frame, row_id, "well_row_id")
        denied = [name for name, read in SAID_TWICE.items() if _says_otherwise(frame, name, (row_id, donor), read)]
        texts = [
            f"{FIELD[name].label} {word(frame, donor, name)!r}, here {word(frame, row_id, name)!r}" for name in denied
        ]
        for name in MEASURED_TWICE:
            lengths_mm = frame[f"{name}_mm"]
            own, other = float(lengths_mm[row_id]), float(lengths_mm[donor])
            if abs(own - other) > limit_mm + EPSILON_MM:
                lengths = _length(frame, other, row_id), _length(frame, own, row_id)
                texts.append(f"{FIELD[name].label} {lengths[0]}, here {lengths[1]}")
        if texts:
            place = f"{word(frame, donor, 'tag')} ({word(frame, donor, 'sheet')}, row {whole(frame, donor, 'row')})"
            frame.at[row_id, name_of] = f"{place} has {'; '.join(texts)}"


def _says_otherwise(frame: Frame, name: str, rows: tuple[int, int], read: Callable[[str], str]) -> bool:
    own, other = (read(word(frame, row_id, name)) for row_id in rows)
    return bool(own and other and own != other)


def _length(frame: Frame, length_mm: float, row_id: int) -> str:
    return format_length(
        float(length_mm), word(frame, row_id, "unit") or "mm", fractions=flag(frame, row_id, "in_fractions")
    )


def _add_twins(frame: Frame, one_well_mm: float) -> None:
    frame["detail_tag_twice"] = ""
    frame["twins_differ"] = False
    points = frame[frame["is_point"] & (frame["tag_key"] != "")]
    twins = points[points["tag_key"].duplicated(keep=False)]
    for _, group in twins.groupby("tag_key", sort=False):
        differ = _differ(group, one_well_mm)
        for row_id in group.index:
            frame.at[row_id, "twins_differ"] = differ
            frame.at[row_id, "detail_tag_twice"] = "also " + _places(group, row_id)


def _places(group: Frame, row_id: int) -> str:
    return ", ".join(
        f"{word(group, other, 'sheet')} row {whole(group, other, 'row')}" for other in group.index if other != row_id
    )


def _differ(group: Frame, limit_mm: float) -> bool:
    lengths = any(_spread(group[name].dropna()) > limit_mm + EPSILON_MM for name in COMPARED)
    words = any(len({word for word in group[name] if word}) > 1 for name in ("mounting", "arrangement"))
    return lengths or words


def _spread(values: Iterable[float]) -> float:
    listed = list(values)
    return max(listed) - min(listed) if listed else 0.0


def _add_foreign_wells(frame: Frame) -> None:
    points = set(frame.loc[frame["is_point"], "loop_without_suffix"])
    foreign = [
        is_point and well != "" and "|T|" in well and well != own and well in points
        for is_point, well, own in zip(frame["is_point"], frame["well_loop"], frame["loop_without_suffix"], strict=True)
    ]
    texts = [
        f"well tag {tag}" if is_foreign else "" for is_foreign, tag in zip(foreign, frame["well_tag"], strict=True)
    ]
    frame["detail_well_tag_of_another_loop"] = texts
