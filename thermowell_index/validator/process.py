"""The well in the pipe: how far the tip stands in the stream, what the stem conducts away, how hot the element gets."""

import math
import re

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.growth import EXPANSION
from thermowell_index.records.words import cells_say, each_distinct, folded
from thermowell_index.registry import Folds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.conduction import fin_parameter, two_fin_error_share
from thermowell_index.validator.nominal_sizes import nominal_pipe_size, pipe_size
from thermowell_index.validator.well import BORE_CAUSES, EPSILON_MM
from thermowell_index.wording import row_lengths

NOT_A_STRAIGHT_RUN = r"ELBOW|\bTEE\b|\bBEND\b|VESSEL|DRUM|TANK|COLUMN|TOWER|REACTOR|HEADER|EXCHANGER|BOILER|FURNACE|DUCT|STACK|SEPARATOR|KESSEL|BEHALTER|BEHAELTER|KOLONNE|KRUMMER|BOGEN"
PLACES = ("service", "line_number", "remarks", "well_connection")
RESISTANCE = r"\bRTD|\bPT ?-?100|RESISTANCE|\bPRT\b|WIDERSTAND|TERMORESIST|WEERSTAND|SONDE PT"
FLUIDS = "dimensions of ASME B36.10M and B36.19M pipe, by nominal size and schedule"


def is_straight_run(frame: Frame) -> "pd.Series[bool]":
    """Return which wells sit in a line of a stated size, as far as the words tell: no elbow, no vessel."""
    elsewhere = pd.Series(data=False, index=frame.index)
    for name in PLACES:
        elsewhere |= cells_say(NOT_A_STRAIGHT_RUN, frame[name])
    return ~elsewhere & nominal_sizes(frame).notna()


def nominal_sizes(frame: Frame) -> "pd.Series[float]":
    """Return the nominal line size of each row in inches, NaN where it is not known."""
    return each_distinct(frame["line_size"], nominal_pipe_size).astype(float)


def _pipes(frame: Frame, part: str, schedule: str = "") -> "pd.Series[float]":
    """Return a dimension of each row's pipe [mm], NaN where size or schedule is not known."""
    lengths = []
    for nps, stated in zip(nominal_sizes(frame), frame["pipe_schedule"], strict=True):
        pipe = pipe_size(nps, schedule or str(stated))
        lengths.append(np.nan if pipe is None else float(getattr(pipe, part)))
    return pd.Series(lengths, index=frame.index, dtype=float)


def _immersed(frame: Frame) -> "pd.Series[float]":
    """Return the length in the stream at most: a standoff or wall that is not stated counts as none [mm]."""
    return frame["insertion_length_mm"] - frame["standoff_mm"].fillna(0.0) - _pipes(frame, "wall_mm").fillna(0.0)


def _least_immersed(frame: Frame, basis: Basis) -> "pd.Series[float]":
    is_resistance = cells_say(RESISTANCE, frame["sensor_type"])
    return is_resistance.map(
        {True: basis.length_mm("pipe.immersed_resistance"), False: basis.length_mm("pipe.immersed")}
    )


def _immersed_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "at least " + row_lengths(_least_immersed(frame, basis), frame) + " in the stream"


@rule(
    severity=Severity.WARNING,
    field="insertion_length",
    needs=("insertion_length_mm", "line_size"),
    expected=_immersed_expected,
    action="none for this sensor: its length is that of the well; note it for the next change of the well",
    source="API RP 551 (second-hand, in a public text); " + FLUIDS,
    condition="straight run, insertion less standoff and wall below 2 in (3 in for a resistance element): a note a sheet; insertion no longer than the standoff: a warning",
    folds=Folds.NOTES,
    yields_to=BORE_CAUSES,
)
def tip_short_of_the_stream(frame: Frame, basis: Basis) -> Hits:
    """The tip of the well stands hardly in the stream, or ends in the nozzle.

    The sensor reads the pipe wall as much as the stream. Elbows, vessels and lines without a stated size are not looked at.
    """
    short = _immersed(frame) < _least_immersed(frame, basis) - EPSILON_MM
    never = frame["insertion_length_mm"] <= frame["standoff_mm"] + EPSILON_MM
    straight = is_straight_run(frame)
    return (
        pd.Series("", index=frame.index, dtype=object)
        .mask(straight & short, Severity.NOTE.value)
        .mask(straight & never, Severity.WARNING.value)
    )


@rule(
    severity=Severity.NOTE,
    field="insertion_length",
    needs=("insertion_length_mm", "line_size", "standoff_mm"),
    expected="a tip inside the pipe",
    action="check line size and insertion length; the well may sit in an elbow or a tee",
    source=GEOMETRY + "; " + FLUIDS,
    condition="straight run, insertion less standoff longer than the pipe is wide",
    folds=Folds.ALWAYS,
    yields_to=BORE_CAUSES,
)
def tip_past_the_far_wall(frame: Frame, basis: Basis) -> Hits:
    """The well is longer than its pipe is wide.

    It sits in an elbow or a tee, or line size or insertion length is wrong.
    """
    inside = _pipes(frame, "outside_mm", "40").fillna(_pipes(frame, "outside_mm", "STD"))
    return is_straight_run(frame) & (frame["insertion_length_mm"] - frame["standoff_mm"] > inside + EPSILON_MM)


# Thermal conductivity by material [W/(m K)], 100 to 300 degrees Celsius, rounded [memory, to be confirmed].
CONDUCTIVITY = {
    "austenitic steel 316": 16.0,
    "austenitic steel 304, 321, 347": 17.0,
    "austenitic steel 310": 16.0,
    "ferritic or martensitic steel": 25.0,
    "duplex steel": 17.0,
    "nickel alloy 600": 16.0,
    "nickel alloy 625": 12.0,
    "nickel alloy 825": 13.0,
    "nickel-copper alloy 400": 24.0,
    "nickel alloy C276": 12.0,
    "titanium": 19.0,
    "chromium-molybdenum steel": 38.0,
    "carbon steel": 48.0,
}


def conductivity_of(material: str) -> float:
    """Return the conductivity of a material's words [W/(m K)]; NaN where they name none that is known or several."""
    plain = folded(material)
    found = {name for name, pattern, _ in EXPANSION if plain and re.search(pattern, plain)}
    return CONDUCTIVITY.get(found.pop(), math.nan) if len(found) == 1 else math.nan


def _error_share(row: "tuple[float, float, float, float, float]", basis: Basis) -> float:
    inside_mm, outside_mm, diameter_mm, bore_mm, conductivity = row
    if not (inside_mm > 0 and outside_mm > 0 and diameter_mm > bore_mm >= 0 and conductivity > 0):
        return math.nan
    in_stream, in_air = (
        fin_parameter(
            outside_mm=diameter_mm, inside_mm=bore_mm, film_w_m2k=basis.number(key), conductivity_w_mk=conductivity
        )
        for key in ("pipe.film_coefficient", "pipe.air_film_coefficient")
    )
    if in_stream * inside_mm / 1000 > LONGEST_REACH:
        return 0.0
    return two_fin_error_share(
        inside_mm=inside_mm, outside_mm=outside_mm, inside_fin_per_m=in_stream, outside_fin_per_m=in_air
    )


# Beyond this product of fin parameter and length nothing is left of the error.
LONGEST_REACH = 50.0


def _error_shares(frame: Frame, basis: Basis) -> "pd.Series[float]":
    """Return the share of stream less air that each tip loses; NaN where something for it is not known."""
    inside = frame["insertion_length_mm"] - frame["standoff_mm"].fillna(0.0)
    outside = frame["overall_length_mm"] - frame["insertion_length_mm"]
    diameter = frame[["root_diameter_mm", "tip_diameter_mm"]].mean(axis=1)
    conductivity = each_distinct(frame["well_material"], conductivity_of)
    rows = zip(inside, outside, diameter, frame["bore_diameter_mm"], conductivity, strict=True)
    return pd.Series([_error_share(row, basis) for row in rows], index=frame.index, dtype=float)


def _conduction_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    text = (
        f"a tip off by at most {basis.number('pipe.conduction_share'):.1%} of the difference between stream and air "
        f"(estimate with {basis.number('pipe.film_coefficient'):g} W/(m2 K) in the stream and "
        f"{basis.number('pipe.air_film_coefficient'):g} in air)"
    )
    return pd.Series(text, index=frame.index, dtype=object)


def _conduction_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    worst = _error_shares(frame, basis).groupby(frame["sheet"]).transform("max")
    return worst.map(lambda share: f"a tip is off by up to {share:.1%} of the difference").astype(object)


@rule(
    severity=Severity.NOTE,
    field="insertion_length",
    needs=("insertion_length_mm", "overall_length_mm", "bore_diameter_mm", "well_material"),
    found=_conduction_found,
    expected=_conduction_expected,
    action="none for this sensor: its length is that of the well; note it for the next change of the well",
    source="fin theory as in public heat transfer texts; conductivities and film coefficients are assumptions of the design basis [memory]",
    condition="estimate of what the stem conducts away above 0.5 % of the difference between stream and air; one note a sheet",
    folds=Folds.ALWAYS,
    yields_to=BORE_CAUSES,
)
def heat_leaks_along_stem(frame: Frame, basis: Basis) -> Hits:
    """The well is so short that its metal conducts a noticeable part of the reading away.

    An estimate: a fin in the stream joined to a fin in the air, with assumed heat transfer. It is no correction for the reading.
    """
    return _error_shares(frame, basis) > basis.number("pipe.conduction_share")


FILM = r"FILM|SCHICHT|COUCHE|\bTF\b"
CLASS = re.compile(r"(?:CLASS|CL|KLASSE|CLASSE|CLASE)\.? ?(AA|A|B|C)\b|^(AA|A|B|C)$|(1/3) ?(?:DIN|B\b)")
THERMOCOUPLE = re.compile(r"(?:TYPE|TYP|T/?C|THERMOCOUPLE|THERMOELEMENT|TERMOPAR) ?-? ?([BEJKNRST])\b|^([BEJKNRST])$")


def hottest_key(sensor: str, accuracy: str) -> str:
    """Return which entry of the design basis limits a sensor's temperature, empty where its words name none."""
    plain = folded(sensor)
    couple = THERMOCOUPLE.search(plain)
    if couple:
        return f"hot.type_{(couple[1] or couple[2]).lower()}"
    if not re.search(RESISTANCE, plain):
        return ""
    named = CLASS.search(folded(accuracy)) or CLASS.search(plain)
    grade = "b" if named is None else (named[1] or named[2] or "AA").lower()
    return f"hot.{'film' if re.search(FILM, plain) else 'wire'}_class_{grade}"


def _hottest(frame: Frame, basis: Basis) -> "pd.Series[float]":
    keys = [
        hottest_key(str(sensor), str(grade))
        for sensor, grade in zip(frame["sensor_type"], frame["accuracy_class"], strict=True)
    ]
    return pd.Series([basis.number(key) if key else np.nan for key in keys], index=frame.index, dtype=float)


def _hot_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return _hottest(frame, basis).map(
        lambda limit: f"a sensor for the design temperature; this one goes to {limit:g} °C"
    )


def _hot_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    texts = zip(frame["design_temperature_deg_c"], frame["sensor_type"], frame["accuracy_class"], strict=True)
    return pd.Series(
        [
            f"design temperature {hot:g} °C; sensor type {sensor}" + (f"; accuracy class {grade}" if grade else "")
            for hot, sensor, grade in texts
        ],
        index=frame.index,
        dtype=object,
    )


@rule(
    severity=Severity.WARNING,
    field="design_temperature",
    needs=("design_temperature_deg_c", "sensor_type"),
    found=_hot_found,
    expected=_hot_expected,
    action="check temperature and sensor type; take a thermocouple, or an element made for it",
    source="IEC 60751 and IEC 60584-1 [memory]",
    condition="design temperature above the range of the element's type and class; no class stated counts as B, no film stated as wire-wound",
    folds=Folds.REPEATED,
)
def element_too_hot(frame: Frame, basis: Basis) -> Hits:
    """The process gets hotter than the element is good for.

    It drifts out of its class, then fails.
    """
    return frame["design_temperature_deg_c"] > _hottest(frame, basis)
