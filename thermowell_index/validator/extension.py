"""What is not known of the extension, and what is taken for it: only these checks speak of its blanks."""

import pandas as pd

from thermowell_index.basis import ARRANGEMENTS, GEOMETRY, PRACTICE, Basis
from thermowell_index.dictionary import FIELD
from thermowell_index.findings import Severity
from thermowell_index.records.assembly import WITH_UNION
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.presence import CELL_FAULTS, has_problem
from thermowell_index.validator.well import is_surveyed, quieter_where

ARRANGEMENT_WORDS = "one of: " + ARRANGEMENTS.replace("|", ", ")
NO_LENGTH = ("nipple_length", "second_nipple_length", "extension_length", "installed_length")


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
    return "extension arrangement " + typed.astype(object) + ", no length that can be used" + frame["extension_tried"]


WANTED_LENGTHS = {
    "nipple": ("the nipple's length as bought, or the installed length", "nipple_credible"),
    "neck tube": ("the length of the neck tube", "neck_credible"),
    "nipple and coupling": (
        "the nipple's length as bought and the coupling's, or the installed length",
        "nipple_credible",
    ),
}


def _length_wanted(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return which length each extension wants, and which credible range of the design basis would do as well."""
    usual = WANTED_LENGTHS["nipple"]
    found = [WANTED_LENGTHS.get(str(arrangement), usual) for arrangement in frame["arrangement"]]
    texts = [f"{wanted}; or extension.{name}_least and _most in the design basis" for wanted, name in found]
    return pd.Series(texts, index=frame.index, dtype=object)


@rule(
    severity=Severity.ERROR,
    field="extension_length",
    found=_extension_named,
    expected=_length_wanted,
    action="measure the extension face to face at the well; nipples and couplings of one length throughout the plant are said by "
    "extension.standard_length and extension.coupling_length in the design basis",
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
    return named & unknown & ~has_problem(frame, *NO_LENGTH) & ~frame["is_in_kind"]


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


@rule(
    severity=Severity.NOTE,
    field="second_nipple_length",
    expected="the length of the nipple above the union",
    action="confirm that both nipples of these rows are bought alike",
    source="basis: extension.union_length_means",
    condition="nipple, union and nipple with one length as bought, on a sheet that states no second nipple",
    folds=Folds.ALWAYS,
)
def second_nipple_taken(frame: Frame, basis: Basis) -> Hits:
    """Of two nipples one length is stated, and it is taken for both."""
    return frame["second_is_taken"]


@rule(
    severity=Severity.ERROR,
    field="second_nipple_length",
    needs=("first_nipple_mm",),
    expected="the length of the nipple above the union, as other rows of the sheet state it",
    action="state the second nipple, or measure the extension face to face at the well",
    source=PRACTICE,
    condition="nipple, union and nipple with one length, on a sheet where other rows state the second nipple",
    withholds=Withholds.ALWAYS,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def second_nipple_not_stated(frame: Frame, basis: Basis) -> Hits:
    """Of two nipples one has no length, and other rows of the sheet show that the two may differ."""
    is_bought = basis.choice("extension.union_length_means") == "bought"
    return frame["second_is_missing"] & frame["extension_installed_mm"].isna() & is_bought & ~frame["is_in_kind"]


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
    yields_to=(*CELL_FAULTS, "second_nipple_not_stated"),
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
