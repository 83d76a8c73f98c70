"""Sensor against bore, and tags against each other."""

import re

import numpy as np
import pandas as pd

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.words import DUPLEX, SURFACE, cells_say, each_distinct, says_no
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.well import EPSILON_MM, by_unit

INCH_DECIMALS = 3


def _is_exact(text: str) -> bool:
    """Whether a diameter is written as a measure, not as a nominal size (1/4, 0.25, 6)."""
    decimals = re.search(r"\d[.,](\d+)", text)
    if decimals is None:
        return False
    return len(decimals.group(1)) >= INCH_DECIMALS or "mm" in text


def _wider(frame: Frame, basis: Basis) -> "pd.Series[str]":
    least = basis.choice("limit.sheath_clearance")
    return pd.Series(f"a bore at least {least} wider than the sheath", index=frame.index, dtype=object)


@rule(
    severity=Severity.ERROR,
    field="bore_diameter",
    needs=("bore_diameter_mm", "sheath_diameter_mm"),
    expected=_wider,
    action="check both diameters; gauge the bore with a rod of the sheath's diameter",
    source="common practice, no source, for the least clearance; bores of 0.260 and 0.385 in for 1/4 and 3/8 in sheaths are read in neutral tables",
    condition="bore narrower than the sheath, or (diameters in decimals) wider by less than 0.005 in",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip"),
    folds=Folds.REPEATED,
)
def sheath_will_not_enter(frame: Frame, basis: Basis) -> Hits:
    """The sheath is too thick for the bore.

    It will not go in, or it sticks once it is hot. A bore written as the sheath's own nominal size (1/4, 6 mm) is not meant here.
    """
    clearance = frame["bore_diameter_mm"] - frame["sheath_diameter_mm"]
    exact = each_distinct(frame["bore_diameter_text"], _is_exact)
    tight = clearance < basis.length_mm("limit.sheath_clearance") - EPSILON_MM
    return (clearance < -EPSILON_MM) | (tight & exact)


@rule(
    severity=Severity.NOTE,
    field="bore_diameter",
    needs=("bore_diameter_mm", "sheath_diameter_mm"),
    expected="the drilled diameter, as 0.260 in for a 1/4 in sheath",
    action="none, if this sheet writes bores by the size of the sheath that they take",
    source="common practice, no source; bores of 0.260 and 0.385 in for 1/4 and 3/8 in sheaths are read in neutral tables",
    condition="bore and sheath diameter are the same nominal size",
    folds=Folds.ALWAYS,
)
def nominal_bore_diameter(frame: Frame, basis: Basis) -> Hits:
    """Bore diameters are written as the nominal size of the sheath.

    A "1/4 in bore" is how people write 0.260 in. Whether the sheath goes in was not checked for these rows.
    """
    same = (frame["bore_diameter_mm"] - frame["sheath_diameter_mm"]).abs() <= EPSILON_MM
    return same & ~each_distinct(frame["bore_diameter_text"], _is_exact)


def _thinner(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return (
        "a sheath at most "
        + by_unit(frame, basis, "limit.clearance_inch", "limit.clearance_metric")
        + " thinner than the bore"
    )


@rule(
    severity=Severity.WARNING,
    field="sheath_diameter",
    needs=("bore_diameter_mm", "sheath_diameter_mm"),
    expected=_thinner,
    action="check both diameters; a sheath or a sleeve that fills the bore reads faster and lasts longer",
    source=PRACTICE,
    condition="bore wider than the sheath by more than 0.06 in (1.6 mm on metric rows); not the flanged inserts of DIN wells, whose tips are thickened",
    folds=Folds.REPEATED,
    yields_to=("implausible_length", "unit_slip", "bore_wider_than_tip"),
)
def sheath_rattles(frame: Frame, basis: Basis) -> Hits:
    """The bore is much wider than the sheath.

    The sensor is slow, and it vibrates in the flow.
    """
    most = np.where(
        frame["unit"] == "mm", basis.length_mm("limit.clearance_metric"), basis.length_mm("limit.clearance_inch")
    )
    thickened = frame["is_din_form"] & (frame["mounting"] == "flanged insert")
    return (frame["bore_diameter_mm"] - frame["sheath_diameter_mm"] > most + EPSILON_MM) & ~thickened


TWO_IN_ONE = r"DUPLEX|DUAL|DOUBLE|DOPPEL|TWIN|DOBLE|DOPPI|DUBBEL|2 ?X|TWO ELEMENTS"
MOST_TAGS_OF_A_WELL = 4


def _is_duplex(frame: Frame) -> "pd.Series[bool]":
    said = cells_say(DUPLEX, frame["element_count"])
    for name in ("sensor_type", "instrument_type", "remarks", "service"):
        said = said | cells_say(TWO_IN_ONE, frame[name])
    return said


def _sharing(frame: Frame) -> "pd.Series[int]":
    """Return how many tags name each row's well; 0 where one of them says duplex."""
    is_named = frame["well_key"] != ""
    wells = frame["well_key"].where(is_named)
    tags = frame["tag_key"].groupby(wells).transform("nunique").fillna(0)
    duplex = _is_duplex(frame).groupby(wells).transform("any").fillna(value=False).astype(bool)
    return tags.where(is_named & ~duplex, 0)


def _other_tags(frame: Frame, basis: Basis) -> "pd.Series[str]":
    tags = frame["tag"].groupby(frame["well_key"]).transform(lambda group: ", ".join(dict.fromkeys(group)))
    return "well tag " + frame["well_tag"].astype(object) + " stands beside " + tags.astype(object)


def _type_not_tag(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return frame["well_key"].where(_sharing(frame) > MOST_TAGS_OF_A_WELL, "")


@rule(
    severity=Severity.ERROR,
    field="well_tag",
    needs=("well_key", "tag_key"),
    found=_other_tags,
    expected="one sensor a bore, or a duplex sensor said in words",
    action="find out whether it is one duplex sensor or two wells, and say so in the index",
    source=PRACTICE,
    condition="two to four live tags name one well and none of them says duplex; more of them, one note: then it is no well's tag",
    group=_type_not_tag,
    yields_to=("tag_twice",),
)
def two_sensors_one_bore(frame: Frame, basis: Basis) -> Hits:
    """Two sensors are to stand in one bore.

    The second has no hole. Either they are the two elements of one duplex sensor, or one of the well tags is wrong.
    """
    sharing = _sharing(frame)
    return (
        pd.Series("", index=frame.index, dtype=object)
        .mask(sharing > 1, Severity.ERROR.value)
        .mask(sharing > MOST_TAGS_OF_A_WELL, Severity.NOTE.value)
    )


def _twins(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "tag " + frame["tag"].astype(object) + "; " + frame["detail_tag_twice"]


@rule(
    severity=Severity.ERROR,
    field="tag",
    needs=("detail_tag_twice",),
    found=_twins,
    expected="one live row for each tag",
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
    folds=Folds.REPEATED,
)
def well_tag_of_another_loop(frame: Frame, basis: Basis) -> Hits:
    """The well tag belongs to another loop that has a sensor of its own."""
    return frame["detail_well_tag_of_another_loop"] != ""


NAMING_NO_WELL = ("sensor_mounting", "well_connection", "well_tag")


def _words_without_well(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return of each row the words that say that there is no well; empty where none do."""
    found = pd.Series("", index=frame.index, dtype=object)
    for name in reversed(NAMING_NO_WELL):
        found = found.mask(cells_say(SURFACE, frame[name]), frame[name].map(repr).astype(object))
    return found.mask(frame["has_well"].map(lambda text: says_no(str(text))), "no thermowell, by its column")


@rule(
    severity=Severity.ERROR,
    field="well_connection",
    found=_words_without_well,
    expected="a sensor in a drilled well, or no dimensions of one",
    action="find out whether there is a thermowell: correct the words, or take the dimensions out",
    source=PRACTICE,
    condition="mounting, connection or a column of its own name a sensor on a surface, in a bearing, or without a well, and the row has dimensions of one",
    withholds=Withholds.ALWAYS,
    folds=Folds.REPEATED,
)
def dimensions_without_well(frame: Frame, basis: Basis) -> Hits:
    """The words of the row say that there is no thermowell, and it has the dimensions of one."""
    return _words_without_well(frame, basis) != ""


OTHER_QUANTITIES = r"\b(?:PRESSURE|FLOW|LEVEL)\b.*(?:TRANSMIT|INDICAT|GAUGE|SWITCH|ELEMENT|METER|SENSOR)|DRUCK|DURCHFLUSS|FULLSTAND|FUELLSTAND|(?:TRANSMETTEUR|CAPTEUR|TRANSMISOR|SENSOR) DE (?:PRESSION|DEBIT|NIVEAU|PRESION|CAUDAL|NIVEL)"
THIS_QUANTITY = r"TEMP|THERM|TERM|\bRTD|\bT/?C\b|PT ?-?100|\bT[EITW]\b"


@rule(
    severity=Severity.WARNING,
    field="instrument_type",
    needs=("instrument_type", "letters"),
    expected="a temperature instrument, as the letters of the tag say",
    action="find out whether the tag or the type is wrong",
    source="ISA-5.1: the first letter T is temperature (read in public summaries of the standard)",
    condition="the type names another measured quantity and not temperature",
    folds=Folds.REPEATED,
)
def type_contradicts_tag(frame: Frame, basis: Basis) -> Hits:
    """The tag says temperature and the type of the instrument says something else."""
    kind = frame["instrument_type"]
    other = cells_say(OTHER_QUANTITIES, kind) & ~cells_say(THIS_QUANTITY, kind)
    return frame["letters"].str.startswith("T") & other
