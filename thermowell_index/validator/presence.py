"""What is missing: only these checks speak of blanks."""

from collections.abc import Mapping

import pandas as pd

from thermowell_index.basis import ARRANGEMENTS, GEOMETRY, MOUNTINGS, PRACTICE, Basis
from thermowell_index.dictionary import FIELD
from thermowell_index.findings import Severity
from thermowell_index.records.assembly import WITH_UNION
from thermowell_index.records.words import ADJUSTABLE_WORDS, cells_say
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import PROBLEM_STATES, Frame, Hits
from thermowell_index.validator.well import is_surveyed, quieter_where
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
ARRANGEMENT_WORDS = "one of: " + ARRANGEMENTS.replace("|", ", ")
NO_LENGTH = ("nipple_length", "second_nipple_length", "extension_length", "installed_length")


def _has_problem(frame: Frame, *names: str) -> "pd.Series[bool]":
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
    problem = _has_problem(frame, "bore_depth", "measured_bore_depth", "overall_length", "tip_thickness")
    return frame["bore_depth_used_mm"].isna() & ~problem & ~frame["is_in_kind"]


def _mounting_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    adjustable = cells_say(ADJUSTABLE_WORDS, frame["sensor_mounting"])
    return adjustable.map({True: HEIGHT_WANTED, False: MOUNTING_WORDS})


@rule(
    severity=Severity.ERROR,
    field="sensor_mounting",
    expected=_mounting_expected,
    action='look at the sensor and write which of the four it is ("spring loaded" alone may be a fitting or an insert); blank cells alone can be answered at once, by index.mounting_of_blank in the design basis, and a compression fitting by profile.adjustable_fitting.seat_offset',
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


@rule(
    severity=Severity.ERROR,
    field="extension_arrangement",
    expected=ARRANGEMENT_WORDS,
    action="state what stands between the well and the sensor, or none",
    source=PRACTICE,
    condition="the arrangement is unknown and no installed length is given",
    withholds=Withholds.ALWAYS,
    yields_to=("mounting_not_stated",),
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def extension_not_stated(frame: Frame, basis: Basis) -> Hits:
    """What stands between the well and the sensor is not known.

    An extension adds between one and twelve inches. A blank is none only on a sheet that never says none in words.
    """
    is_unknown = (frame["arrangement"] == "") & frame["given_installed_mm"].isna()
    return is_unknown & ~frame["neck_is_open"] & ~frame["is_in_kind"]


def _lengths_of_none(frame: Frame, basis: Basis) -> "pd.Series[str]":
    texts = "extension arrangement " + frame["extension_arrangement"].astype(object)
    for name in NO_LENGTH:
        beside = f"; {FIELD[name].label} " + frame[f"{name}_text"].astype(object)
        texts += beside.where(frame[f"{name}_mm"] > 0, "")
    return texts


@rule(
    severity=Severity.ERROR,
    field="extension_arrangement",
    found=_lengths_of_none,
    expected="an arrangement where there is a length, or no length where there is none",
    action="find out whether anything stands between the well and the sensor, and correct the cell that is wrong",
    source=GEOMETRY,
    condition="none in words, beside an extension, nipple or installed length of more than zero; a warning where the installed length was read for the Field survey",
    withholds=Withholds.ALWAYS,
    folds=Folds.REPEATED,
)
def no_extension_but_a_length(frame: Frame, basis: Basis) -> Hits:
    """The row says that there is no extension, and gives the length of one.

    An installed length that was read for the Field survey is used, whatever the words say.
    """
    has_length = pd.Series(data=False, index=frame.index)
    for name in NO_LENGTH:
        has_length |= frame[f"{name}_mm"] > 0
    says_none = (frame["arrangement"] == "none") & (frame["arrangement_from"] == "index") & ~frame["neck_in_total"]
    return quieter_where(is_surveyed(frame, "installed_length"), says_none & has_length)


@rule(
    severity=Severity.NOTE,
    field="extension_arrangement",
    expected="none in words where there is none",
    action="confirm that a blank means no extension on this sheet",
    source=PRACTICE,
    condition="blank arrangements on a sheet that never says none in words",
    folds=Folds.ALWAYS,
)
def blank_extension_is_none(frame: Frame, basis: Basis) -> Hits:
    """Blank extensions are taken as none, since this sheet never says none in words."""
    return frame["arrangement_from"] == "blank cell"


def _arrangement_taken(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "taken as " + frame["arrangement"].astype(object)


@rule(
    severity=Severity.NOTE,
    field="extension_arrangement",
    found=_arrangement_taken,
    expected="a column for the extension",
    action="confirm the design basis' value, or add the column",
    source="basis: index.extension_without_column",
    condition="a table has no column for the extension, or nothing in it",
    folds=Folds.ALWAYS,
)
def extension_from_basis(frame: Frame, basis: Basis) -> Hits:
    """The sheet has no column for the extension; the design basis' value is taken for all rows."""
    return frame["arrangement_from"] == "basis, no column"


def _extension_named(frame: Frame, basis: Basis) -> "pd.Series[str]":
    typed = frame["extension_arrangement"].where(frame["extension_arrangement"] != "", frame["arrangement"])
    return "extension arrangement " + typed.astype(object) + ", no length that can be used"


@rule(
    severity=Severity.ERROR,
    field="extension_length",
    found=_extension_named,
    expected="the nipple's length as bought, or the installed length",
    action="measure the extension face to face at the well, or set extension.standard_length or extension.coupling_length in the design basis",
    source="geometry; installed lengths of published hardware tables run from 1 to 12 in",
    condition="an extension is named without a length, and the design basis has none",
    withholds=Withholds.ALWAYS,
    yields_to=(*CELL_FAULTS, "union_basis_not_stated", "fitting_onto_bare_nipple", "threads_do_not_mate"),
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def extension_without_length(frame: Frame, basis: Basis) -> Hits:
    """An extension is named and its length is not."""
    named = ~frame["arrangement"].isin(["", "none"])
    unknown = frame["extension_installed_mm"].isna() & frame["well_thread_known"] & frame["extension_thread_known"]
    return named & unknown & ~_has_problem(frame, *NO_LENGTH) & ~frame["is_in_kind"]


@rule(
    severity=Severity.NOTE,
    field="extension_length",
    expected="the length of each extension",
    action="confirm the plant's standard extension for these rows",
    source="basis: extension.standard_length",
    condition="an extension without a length where the design basis names the plant's standard",
    folds=Folds.ALWAYS,
)
def standard_extension_taken(frame: Frame, basis: Basis) -> Hits:
    """Extensions without a length are taken as the plant's standard one."""
    return frame["extension_is_standard"]


def _beside_union(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the length that stands beside a union, in whichever column or in words."""
    named = "extension arrangement " + frame["extension_arrangement"].astype(object)
    for name in ("nipple_length", "extension_length"):
        text = frame[f"{name}_text"].where(frame[f"{name}_mm"].notna(), "").astype(object)
        named = named.where(text == "", f"{FIELD[name].label} " + text + ", " + named)
    return named


@rule(
    severity=Severity.ERROR,
    field="extension_length",
    found=_beside_union,
    expected="bought or installed, said by the column's heading or by the design basis",
    action="set extension.union_length_means in the design basis to bought or installed",
    source="published hardware table: a bought 4 in nipple and union adds 5 in, two nipples and a union 8 in",
    condition="one length beside a union, or one number for two nipples, that may be bought or installed",
    withholds=Withholds.ALWAYS,
    yields_to=CELL_FAULTS,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def union_basis_not_stated(frame: Frame, basis: Basis) -> Hits:
    """A length beside a union may be the nipple's as bought, or the whole extension's as installed.

    The two differ by one half to four inches.
    """
    has_number = (
        frame["extension_length_mm"].notna() | frame["nipple_length_mm"].notna() | frame["worded_nipple_mm"].notna()
    )
    open_length = frame["extension_installed_mm"].isna() & ~frame["is_in_kind"]
    return frame["arrangement"].isin(WITH_UNION) & has_number & open_length


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
