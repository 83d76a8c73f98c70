"""Sensor against bore, and tags against each other."""

import re

import pandas as pd

from thermowell_index.basis import Basis
from thermowell_index.findings import Severity
from thermowell_index.registry import Withholds, rule
from thermowell_index.table import Frame, Hits

EPSILON_MM = 1e-6
INCH_DECIMALS = 3


def _is_exact(text: str) -> bool:
    """Whether a diameter is written as a measure, not as a nominal size (1/4, 0.25, 6)."""
    decimals = re.search(r"\d[.,](\d+)", text)
    if decimals is None:
        return False
    return len(decimals.group(1)) >= INCH_DECIMALS or "mm" in text


@rule(
    severity=Severity.ERROR,
    field="bore_diameter",
    needs=("bore_diameter_mm", "sheath_diameter_mm"),
    expected="a bore at least 0.005 in (0.13 mm) wider than the sheath",
    action="check both diameters; gauge the bore with a rod of the sheath's diameter",
    source="common practice, no source, for the least clearance; bores of 0.260 and 0.385 in for 1/4 and 3/8 in sheaths are read in neutral tables",
    condition="bore narrower than the sheath, or (diameters in decimals) wider by less than 0.005 in",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length",),
)
def sheath_will_not_enter(frame: Frame, basis: Basis) -> Hits:
    """The sheath is too thick for the bore."""
    clearance = frame["bore_diameter_mm"] - frame["sheath_diameter_mm"]
    exact = frame["bore_diameter_text"].map(lambda text: _is_exact(str(text)))
    tight = clearance < basis.length_mm("limit.sheath_clearance") - EPSILON_MM
    return (clearance < -EPSILON_MM) | (tight & exact)


def _twins(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "one live row for each tag; " + frame["detail_tag_twice"]


@rule(
    severity=Severity.ERROR,
    field="tag",
    needs=("detail_tag_twice",),
    expected=_twins,
    action="find out which row is built, and delete or rename the other",
    source="ISA-5.1 [memory]: one tag, one function",
    condition="two live rows with one tag: dimensions differ, error; are the same, warning",
    withholds=Withholds.ALWAYS,
)
def tag_twice(frame: Frame, basis: Basis) -> Hits:
    """Two live rows bear the same tag.

    Tags that differ only in case, dash and blanks are one tag.
    """
    return frame["twins_differ"].map({True: Severity.ERROR.value, False: Severity.WARNING.value})


@rule(
    severity=Severity.WARNING,
    field="well_tag",
    needs=("detail_well_tag_of_another_loop",),
    expected="the well of the row's own loop",
    action="check which well the sensor is in",
    source="ISA-5.1 [memory]: element and well of one loop have its number",
    condition="the well tag's loop number is that of another live point",
)
def well_tag_of_another_loop(frame: Frame, basis: Basis) -> Hits:
    """The well tag belongs to another loop that has a sensor of its own."""
    return frame["detail_well_tag_of_another_loop"] != ""
