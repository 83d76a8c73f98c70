"""Room to work: head above the insulation, clearance to withdraw, wires that are twisted each time."""

import re

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.assembly import FITTINGS, WITH_UNION
from thermowell_index.records.words import each_distinct, folded
from thermowell_index.registry import Folds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.connections import is_flanged
from thermowell_index.validator.well import BORE_CAUSES, EPSILON_MM
from thermowell_index.wording import row_lengths

WORDED_INTERVALS = {
    r"WEEK|WOECHENT|WOCHENT|HEBDO|SEMANAL": 0.25,
    r"HALF[- ]?YEAR|SEMI[- ]?ANNUAL|SIX[- ]MONTH|HALBJ|SEMESTR": 6.0,
    r"MONTHLY|MONATLICH|MENSUEL|MENSUAL|MENSILE": 1.0,
    r"QUARTER|VIERTELJ|TRIMEST": 3.0,
    r"ANNUAL|YEARLY|EVERY YEAR|EACH YEAR|JAEHRLICH|JAHRLICH|ANNUEL|ANUAL|ANNUALE": 12.0,
}
INTERVAL = re.compile(
    r"(?P<number>\d+(?:[.,]\d+)?) ?-?(?P<unit>M|MO|MOS|MON|MONTHS?|MONATE?|MOIS|MESES|MESI|Y|YR|YRS|YEARS?|JAHRE?|ANS?|ANOS?|ANNI|W|WKS?|WEEKS?)(?:LY)?\b\.?"
)
MONTHS_IN = {"Y": 12.0, "J": 12.0, "A": 12.0, "W": 0.25, "M": 1.0}
# A bare number is of months where it can hardly be of years.
BARE_MONTHS = range(3, 61)


def interval_months(text: str) -> float:
    """Return a calibration interval in months; NaN where the words name none for certain.

    >>> interval_months("1 year"), interval_months("quarterly"), interval_months("24")
    (12.0, 3.0, 24.0)
    """
    plain = folded(text)
    match = INTERVAL.search(plain)
    if match:
        return float(match["number"].replace(",", ".")) * MONTHS_IN[match["unit"][0]]
    for pattern, months in WORDED_INTERVALS.items():
        if re.search(pattern, plain):
            return months
    return float(plain) if plain.isdigit() and int(plain) in BARE_MONTHS else np.nan


def _outside_insulation(frame: Frame) -> "pd.Series[float]":
    """Return the length from the pipe to the head: standoff, well above its connection, extension [mm]."""
    above = frame["overall_length_mm"] - frame["insertion_length_mm"]
    standoff = frame["standoff_mm"].fillna(0.0).mask(is_flanged(frame) & frame["standoff_mm"].isna())
    return standoff + above + frame["extension_installed_mm"]


def _head_clear(frame: Frame, basis: Basis) -> "pd.Series[float]":
    lengths = np.where(
        frame["unit"] == "mm", basis.length_mm("access.head_clear_metric"), basis.length_mm("access.head_clear_inch")
    )
    return pd.Series(lengths, index=frame.index)


def _head_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    least = frame["insulation_thickness_mm"] + _head_clear(frame, basis)
    return "the head at least " + row_lengths(least, frame) + " off the pipe"


def _head_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return (
        "the head stands "
        + row_lengths(_outside_insulation(frame), frame)
        + " off the pipe, insulation "
        + frame["insulation_thickness_text"].astype(object)
    )


@rule(
    severity=Severity.WARNING,
    field="insulation_thickness",
    needs=("insulation_thickness_mm", "overall_length_mm", "insertion_length_mm", "extension_installed_mm"),
    found=_head_found,
    expected=_head_expected,
    action="take a longer extension, and size the sensor again with it",
    source=PRACTICE,
    condition="standoff, overall less insertion length and extension together below insulation + 2 in (50 mm); flanged wells only with their standoff",
    folds=Folds.REPEATED,
    yields_to=BORE_CAUSES,
)
def head_in_the_insulation(frame: Frame, basis: Basis) -> Hits:
    """The connection head ends inside the insulation or hard above it.

    A transmitter in the head is cooked, and no spanner fits under it.
    """
    least = frame["insulation_thickness_mm"] + _head_clear(frame, basis)
    has_insulation = frame["insulation_thickness_mm"] > 0
    return has_insulation & (_outside_insulation(frame) < least - EPSILON_MM)


def _room(frame: Frame, basis: Basis) -> "pd.Series[float]":
    sensor = frame["bore_depth_used_mm"] + frame["extension_installed_mm"]
    return sensor + basis.length_mm("access.withdrawal_extra")


def _room_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "at least " + row_lengths(_room(frame, basis), frame) + " free above the face that the sensor mounts on"


@rule(
    severity=Severity.ERROR,
    field="withdrawal_clearance",
    needs=("withdrawal_clearance_mm", "bore_depth_used_mm", "extension_installed_mm", "mounting"),
    expected=_room_expected,
    action="check the clearance at the well; a sensor that bends, or one in two parts, may be the answer",
    source=GEOMETRY,
    condition="clearance above the mounting face (the union, where there is one) below bore depth + extension + 6 in: a rigid sensor (fixed fitting) error, a sprung one warning",
    yields_to=BORE_CAUSES,
)
def no_room_to_withdraw(frame: Frame, basis: Basis) -> Hits:
    """There is not enough room above the well to draw the sensor out.

    It cannot be put in either, unless its sheath may be bent on the way.
    """
    is_short = frame["withdrawal_clearance_mm"] < _room(frame, basis) - EPSILON_MM
    is_rigid = frame["mounting"] == "fixed fitting"
    severity = is_rigid.map({True: Severity.ERROR.value, False: Severity.WARNING.value})
    return severity.where(is_short, "")


@rule(
    severity=Severity.NOTE,
    field="calibration_interval",
    needs=("calibration_interval", "mounting", "arrangement"),
    expected="a union or an insert where a sensor is often pulled",
    action="consider a nipple and union, or an insert, when the sensor is next renewed; it changes the length",
    source=PRACTICE,
    condition="a fitting that turns with its head, no union, recalibrated every 12 months or more often",
    folds=Folds.ALWAYS,
)
def pulled_often_no_union(frame: Frame, basis: Basis) -> Hits:
    """Sensors that are often pulled have to be turned out with their head and wires.

    The wires are parted or twisted each time.
    """
    months = each_distinct(frame["calibration_interval"], interval_months)
    turned = frame["mounting"].isin(FITTINGS) & ~frame["arrangement"].isin(WITH_UNION)
    return turned & (months <= basis.number("access.often_months"))
