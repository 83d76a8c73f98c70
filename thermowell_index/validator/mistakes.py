"""Naming the mistake: what was probably done to a stated probe length that does not fit.

The residual is the stated length less the right one. Every known mistake leaves its own; those that match are listed
together and none is picked.
"""

import math
import re

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.assembly import FITTINGS
from thermowell_index.registry import rule
from thermowell_index.table import Frame, Hits
from thermowell_index.units import parse_dimension, to_mm
from thermowell_index.validator.well import EPSILON_MM
from thermowell_index.wording import row_lengths

MM_IN_AN_INCH = 25.4
LAST_TWO_DIGITS = re.compile(r"(\d)([.,]?)(\d)(?=\D*$)")


def residual(frame: Frame) -> "pd.Series[float]":
    """Return stated less computed probe length of every row that has both [mm], NaN elsewhere."""
    return frame["probe_length_mm"] - frame["probe_length_computed_mm"]


def does_not_fit(frame: Frame) -> "pd.Series[bool]":
    """Return the rows whose stated length does not fit: its spring may be slack or solid, its tip bottom or stand off."""
    slack = frame["stated_compression_min_mm"] < frame["preload_used_mm"] - EPSILON_MM
    solid = frame["stated_compression_max_mm"] > frame["travel_mm"] - frame["reserve_used_mm"] + EPSILON_MM
    bottoms = frame["stated_gap_min_mm"] < -EPSILON_MM
    stands_off = frame["stated_gap_nominal_mm"] > frame["most_gap_mm"] + EPSILON_MM
    return slack | solid | bottoms | stands_off


def _amounts(frame: Frame) -> dict[str, "pd.Series[float]"]:
    """Return by mistake the residual that it leaves in each row [mm]; NaN where it cannot have been made."""
    extension = frame["extension_installed_mm"].where(frame["extension_installed_mm"] > 0)
    is_made_up = frame["first_nipple_mm"].notna() & ~frame["installed_is_given"]
    top, well = frame["engagement_top_mm"].where(is_made_up), frame["engagement_well_mm"].where(is_made_up)
    seat = frame["engagement_seat_mm"].where(frame["engagement_seat_mm"] > 0)
    is_sprung = frame["mounting"] != "fixed fitting"
    insertion, lagging = frame["insertion_length_mm"], frame["lagging_length_mm"]
    return {
        "the extension was forgotten": -extension,
        "the extension was counted twice": extension,
        "the nipple's bought length was used as installed": top + well,
        "one nipple end was deducted instead of two": top,
        "another seat plane was measured from, one engagement further out": seat,
        "a fixed fitting's length, or a length meant compressed": (-seat).where(is_sprung),
        "the overall length was used for the bore depth": frame["tip_used_mm"].where(
            frame["overall_length_mm"].notna()
        ),
        "the insertion length was ordered": (insertion - frame["bore_depth_used_mm"]).where(
            insertion < frame["bore_depth_used_mm"] - EPSILON_MM
        ),
        "the lagging length was forgotten": (-lagging).where(lagging > 0),
    }


def _signatures(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return by mistake which rows bear its signature."""
    near, off = basis.length_mm("mistake.near") + EPSILON_MM, residual(frame)
    found = {words: (off - amount).abs() <= near for words, amount in _amounts(frame).items()}
    hexagon = (off >= basis.length_mm("mistake.hex_least") - EPSILON_MM) & (
        off <= basis.length_mm("mistake.hex_most") + EPSILON_MM
    )
    found["the length was measured under the hexagon"] = hexagon & frame["mounting"].isin(FITTINGS)
    stated, right = frame["probe_length_mm"], frame["probe_length_computed_mm"]
    by_table = right.groupby(frame["table_id"])
    neighbours = [(stated - by_table.shift(step)).abs() <= near for step in (1, -1)]
    found["it is the neighbouring row's length"] = neighbours[0] | neighbours[1]
    slips = [(stated * factor - right).abs() <= near for factor in (MM_IN_AN_INCH, 1 / MM_IN_AN_INCH)]
    found["mm and inches were mixed up"] = slips[0] | slips[1]
    found["the last two digits were swapped"] = (_swapped(frame) - right).abs() <= near
    return pd.DataFrame(found)


def _swapped(frame: Frame) -> "pd.Series[float]":
    """Return the stated lengths with their last two digits swapped [mm], NaN where there are none to swap."""
    lengths = [
        _swapped_mm(str(text), str(unit)) if is_unfit else math.nan
        for text, unit, is_unfit in zip(
            frame["probe_length_text"], frame["probe_length_unit"], does_not_fit(frame), strict=True
        )
    ]
    return pd.Series(lengths, index=frame.index, dtype=float)


def _swapped_mm(text: str, unit: str) -> float:
    swapped = LAST_TWO_DIGITS.sub(r"\3\2\1", text)
    number = parse_dimension(swapped).number if swapped != text else None
    return to_mm(number, unit) if number is not None and unit else math.nan


def _candidates(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return by row all mistakes that would give its stated length; empty where it fits or none is known."""
    signatures = _signatures(frame, basis)[does_not_fit(frame)]
    texts = pd.Series("", index=frame.index, dtype=object)
    for row_id, row in signatures.iterrows():
        texts.at[row_id] = "; or ".join(str(words) for words in signatures.columns[row.to_numpy(bool)])
    return texts


def _mistake_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    off = residual(frame)
    amounts = row_lengths(off.abs(), frame)
    side = pd.Series(np.where(off < 0, " shorter", " longer"), index=frame.index, dtype=object)
    return amounts + side + " than it should be: " + _candidates(frame, basis)


def _mistake_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "about " + row_lengths(frame["probe_length_computed_mm"], frame)


def _shared(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the mistake that several rows of one sheet, area and mounting share, empty where they do not."""
    texts = _candidates(frame, basis)
    keys = frame["mounting"].astype(object) + ": " + texts
    counts = texts.groupby([frame["sheet"], frame["area"], keys]).transform("size")
    is_shared = (texts != "") & (counts >= basis.number("mistake.repeats_least"))
    areas = ("area " + frame["area"].astype(object) + ", ").where(frame["area"] != "", "")
    return (areas + keys).where(is_shared, "")


@rule(
    severity=Severity.WARNING,
    field="probe_length",
    needs=("probe_length_mm", "probe_length_computed_mm"),
    found=_mistake_found,
    expected=_mistake_expected,
    action="ask whoever chose the length which of these was done; the same was then done elsewhere",
    source=GEOMETRY,
    condition="a stated length outside the range that fits, and off by what a known mistake gives, within 1/8 in; one finding where 3 rows of an area and mounting share it",
    group=_shared,
    yields_to=("implausible_length", "unit_slip"),
)
def length_tells_its_mistake(frame: Frame, basis: Basis) -> Hits:
    """A stated length is off by just what a common mistake gives.

    All mistakes that would give it are listed; none is picked.
    """
    return _candidates(frame, basis) != ""
