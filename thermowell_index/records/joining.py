"""Well data of another row (a TW row, another sheet) joined to the sensor's row, with where it came from."""

from collections.abc import Mapping

import numpy as np
import pandas as pd

from thermowell_index.dictionary import FIELD, SENSOR_FIELDS, WELL_FIELDS
from thermowell_index.records.points import WELL_DIMENSIONS, has_any
from thermowell_index.records.tags import take_apart
from thermowell_index.table import GONE, Frame, Kind, whole, word

JOINED = ("data_sheet_number", *WELL_FIELDS, *(name for name in SENSOR_FIELDS if FIELD[name].group == "assembly"))
PARTS = ("mm", "state", "text", "unit", "unit_from", "note", "shown_mm", "drawn_mm", "row_id", "typed", "at")


def join_wells(frame: Frame) -> None:
    """Fill the well data that a sensor's row lacks from its well's row: by well tag, else by loop number."""
    frame["well_row_id"] = -1
    donors = frame[(frame["role"] == "well") & has_any(frame, WELL_FIELDS) & _is_live_donor(frame)]
    other_rows = frame[frame["reason"].str.startswith("another row") & has_any(frame, WELL_DIMENSIONS)]
    by_tag, by_loop = _first_by(donors, "tag_key"), _first_by(donors, "loop")
    wells, kin = _by_base(donors), _by_base(other_rows)
    for row_id in frame.index[frame["is_point"]]:
        loop, base = word(frame, row_id, "loop"), word(frame, row_id, "loop_without_suffix")
        if well := word(frame, row_id, "well_tag"):
            donor = by_tag.get(word(frame, row_id, "well_key"), by_loop.get(take_apart(well).loop))
        else:
            donor = by_loop.get(loop, _only_one(wells, base, loop))
        if donor is None:
            donor = _of_the_same_well(frame, _only_one(kin, base, loop), row_id)
        if donor is not None and donor != row_id:
            frame.at[row_id, "well_row_id"] = donor
    _copy(frame)


def _of_the_same_well(frame: Frame, donor: int | None, row_id: int) -> int | None:
    """Return a row of the same loop unless it or the sensor's row names another well."""
    if donor is None:
        return None
    own, other = word(frame, row_id, "well_key"), word(frame, donor, "well_key")
    return donor if own == other or not (own and other) else None


def _by_base(rows: Frame) -> dict[str, dict[str, int]]:
    """Return for each loop number without suffix the rows of it by their whole loop number, the first of each."""
    found: dict[str, dict[str, int]] = {}
    for row_id, base, loop in zip(rows.index, rows["loop_without_suffix"], rows["loop"], strict=True):
        found.setdefault(str(base), {}).setdefault(str(loop), int(row_id))
    return found


def _only_one(rows: Mapping[str, Mapping[str, int]], base: str, loop: str) -> int | None:
    """Return the row of a loop number, if there is one alone and it does not bear another suffix."""
    found = rows.get(base, {})
    if loop in found:
        return found[loop]
    if len(found) != 1:
        return None
    other, row_id = next(iter(found.items()))
    bare = {base, f"{base}|"}
    return row_id if other in bare or loop in bare else None


def _is_live_donor(frame: Frame) -> "pd.Series[bool]":
    return frame["reason"].str.startswith(("well row", "not a sensor")) | (frame["reason"] == "")


def _first_by(rows: Frame, column: str) -> dict[str, int]:
    found: dict[str, int] = {}
    for key, row_id in zip(rows[column], rows.index, strict=True):
        found.setdefault(str(key), int(row_id))
    return found


def _copy(frame: Frame) -> None:
    """Copy each field of the joined well row that the sensor's own row leaves blank, and what slid among the wells."""
    takers = frame.index[frame["well_row_id"] >= 0]
    if takers.empty:
        return
    donors = frame.loc[takers, "well_row_id"].to_numpy()
    for name in JOINED:
        if FIELD[name].kind is Kind.LENGTH:
            own = frame.loc[takers, f"{name}_state"].isin(GONE).to_numpy()
            given = ~frame.loc[donors, f"{name}_state"].isin(GONE).to_numpy()
            columns = [f"{name}_{part}" for part in PARTS]
        else:
            own = (frame.loc[takers, name] == "").to_numpy()
            given = (frame.loc[donors, name] != "").to_numpy()
            columns = [name, f"{name}_at"]
        chosen = np.flatnonzero(own & given)
        for column in frame.columns.intersection(columns):
            frame.loc[takers[chosen], column] = frame.loc[donors[chosen], column].to_numpy()
    if "slid_since" in frame:
        own_slides, slides = (frame.loc[rows, "slid_since"].to_numpy(dtype=object) for rows in (takers, donors))
        frame.loc[takers, "slid_since"] = np.where(own_slides == "", slides, own_slides)
    _take_unit(frame, takers, donors)


def _take_unit(frame: Frame, takers: "pd.Index[int]", donors: "np.ndarray[tuple[int], np.dtype[np.int64]]") -> None:
    """Let a row whose bore depth came from its well's row count in that row's unit."""
    for taker, donor in zip(takers, donors, strict=True):
        sources = {whole(frame, taker, f"{name}_row_id") for name in WELL_DIMENSIONS}
        if int(donor) in sources:
            frame.at[taker, "unit"] = word(frame, int(donor), "unit")
