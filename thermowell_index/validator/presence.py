"""What is missing: only these checks speak of blanks."""

from collections.abc import Mapping

import pandas as pd

from thermowell_index.basis import MOUNTINGS, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.words import ADJUSTABLE_WORDS, cells_say
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import PROBLEM_STATES, Frame, Hits
from thermowell_index.wording import row_lengths

CELL_FAULTS = (
    "unit_not_known",
    "units_disagree",
    "date_for_dimension",
    "range_for_dimension",
    "unreadable_dimension",
    "dead_formula",
    "two_columns_differ",
    "implausible_length",
)
MOUNTING_WORDS = "one of: " + MOUNTINGS.replace("|", ", ")
HEIGHT_WANTED = "the mounting is known, an adjustable (compression) fitting; its height above the well's face is not: profile.adjustable_fitting.seat_offset in the design basis"


def has_problem(frame: Frame, *names: str) -> "pd.Series[bool]":
    """Return which rows have a cell in trouble in one of the columns."""
    found = pd.Series(data=False, index=frame.index)
    for name in names:
        found |= frame[f"{name}_state"].isin(PROBLEM_STATES)
    return found


@rule(
    severity=Severity.NOTE,
    field="tag",
    expected="a column for each field, if it is known",
    action="none needed; add the column where the plant has the data",
    source=PRACTICE,
    condition="a table has no column for a field that checks or sizing use",
    folds=Folds.ALWAYS,
)
def column_absent(frame: Frame, basis: Basis) -> Hits:
    """The index has no column for some fields, and what needs them was not checked."""
    return frame["detail_column_absent"] != ""


@rule(
    severity=Severity.ERROR,
    field="tag",
    expected="a tag",
    action="give the row its tag, or delete the row",
    source=PRACTICE,
    condition="a line of the table with dimensions and no tag",
    withholds=Withholds.ALWAYS,
)
def dimensions_without_tag(frame: Frame, basis: Basis) -> Hits:
    """A row has dimensions and no tag, so nobody can say which well they belong to."""
    return frame["tag"] == ""


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="a bore depth, or an overall length with or without a tip thickness",
    action="look for the well's drawing; else measure the bore with the sensor withdrawn and the well left in place",
    source=PRACTICE,
    condition="no bore depth, no overall length, and no well row to join",
    withholds=Withholds.ALWAYS,
    yields_to=CELL_FAULTS,
    is_the_reason=True,
)
def bore_depth_unknown(frame: Frame, basis: Basis) -> Hits:
    """There is no way to the depth of the bore.

    Neither the bore depth nor the well's overall length is stated on this row or on a row of its well.
    """
    problem = has_problem(frame, "bore_depth", "measured_bore_depth", "overall_length", "tip_thickness")
    return frame["bore_depth_used_mm"].isna() & ~problem & ~frame["is_in_kind"]


def _mounting_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    adjustable = cells_say(ADJUSTABLE_WORDS, frame["sensor_mounting"])
    return adjustable.map({True: HEIGHT_WANTED, False: MOUNTING_WORDS})


@rule(
    severity=Severity.ERROR,
    field="sensor_mounting",
    expected=_mounting_expected,
    action='look at the sensor and write which of the four it is ("spring loaded" alone may be a fitting or an insert); blank cells alone can be answered at once, by index.mounting_of_blank in the design basis, a compression fitting by profile.adjustable_fitting.seat_offset, and words that the plant uses for one kind of sensor by the words of a sensor profile',
    source=PRACTICE,
    condition="the mounting is blank where other rows state it, or is a word that names none of the four for certain, or a compression fitting whose height the design basis does not state",
    withholds=Withholds.ALWAYS,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def mounting_not_stated(frame: Frame, basis: Basis) -> Hits:
    """How the sensor is held is not known, or how high its compression fitting stands.

    A spring-loaded fitting, an insert and a fixed fitting measure their length from different planes. "Spring loaded" alone can be two of them.
    """
    return frame["mounting"] == ""


def _mounting_taken(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "taken as " + frame["mounting"].astype(object)


@rule(
    severity=Severity.NOTE,
    field="sensor_mounting",
    found=_mounting_taken,
    expected="a column that says how each sensor is held",
    action="confirm the design basis' value, or add the column",
    source="basis: index.mounting_without_column",
    condition="a table has no column for the mounting, or nothing in it",
    folds=Folds.ALWAYS,
)
def mounting_from_basis(frame: Frame, basis: Basis) -> Hits:
    """The sheet does not say how its sensors are held; the design basis' mounting is taken for all of them."""
    return frame["mounting_from"] == "basis, no column"


@rule(
    severity=Severity.NOTE,
    field="sensor_mounting",
    found=_mounting_taken,
    expected="a mounting in every row",
    action="confirm the design basis' value for blanks",
    source="basis: index.mounting_of_blank",
    condition="the mounting is blank and the design basis has a value for blanks",
    folds=Folds.ALWAYS,
)
def blank_mounting_from_basis(frame: Frame, basis: Basis) -> Hits:
    """The mounting of some rows is blank; the design basis' value for blanks is taken for them."""
    return (frame["mounting_from"] == "basis, blank cell") & (frame["mounting"] != "")


def stated(frame: Frame, columns: Mapping[str, str]) -> "pd.Series[str]":
    """Return what each row states in some columns, as `; form 2G; neck 145`: the label, then the text; blanks left out."""
    texts = pd.Series("", index=frame.index, dtype=object)
    for label, name in columns.items():
        words = frame[name].astype(object)
        texts += (f"; {label} " + words).where(words != "", "")
    return texts


PLATE = {"form": "shank_form", "overall length": "overall_length_text", "neck": "extension_length_text"}


def _plate_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "flanged insert" + stated(frame, PLATE)


@rule(
    severity=Severity.ERROR,
    field="sensor_mounting",
    found=_plate_found,
    expected="a seat height in the sensor profile, or a form 4, 2G, 2F or 3F well, or a 165 mm neck, with a total length of the standard's table",
    action="set profile.flanged_insert.seat_offset in the design basis, from the connection head's drawing",
    source="DIN 43772 form 4 table (read in a trade reprint)",
    condition="a flanged insert without a seat height, and no hit in the standard's table",
    withholds=Withholds.ALWAYS,
    needs=("bore_depth_used_mm",),
    yields_to=CELL_FAULTS,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def seat_height_not_known(frame: Frame, basis: Basis) -> Hits:
    """The plate of a flanged insert sits in the head at a height that is not known.

    Heads differ by five millimetres and more, which is half the travel of the springs.
    """
    return (frame["mounting"] == "flanged insert") & frame["seat_offset_mm"].isna() & ~frame["is_in_kind"]


@rule(
    severity=Severity.NOTE,
    field="probe_length",
    needs=("probe_length_mm",),
    expected="a measured bore depth, from which the length could be computed",
    action="see that the length in the index is that of the sensor in place, on the sensor itself, before it is bought again",
    source="basis: index.probe_length_proves; the index' own column",
    condition="a length said to be proven in service is bought again as it is, where no bore depth or extension leads to one",
    folds=Folds.ALWAYS,
)
def length_taken_in_kind(frame: Frame, basis: Basis) -> Hits:
    """Lengths of sensors in place, proven in service, are bought again as they are; they were not computed."""
    return frame["is_in_kind"]


def _travel_taken(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "taken as " + row_lengths(frame["travel_mm"], frame)


@rule(
    severity=Severity.WARNING,
    field="spring_travel",
    found=_travel_taken,
    expected="the travel of the sensor's spring",
    action="check the travel on the sensor's data sheet: a spring of 1/2 in travel is solid at bore depth + installed length",
    source="basis: profile travel",
    condition="the index gives no spring travel",
    folds=Folds.ALWAYS,
)
def travel_assumed(frame: Frame, basis: Basis) -> Hits:
    """The spring travel is not stated; the sensor profile's is taken."""
    return frame["travel_is_assumed"]
