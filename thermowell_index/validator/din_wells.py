"""Tubes of the DIN forms in one piece with their neck, and lengths of the standard that come from memory."""

import pandas as pd

from thermowell_index.basis import GEOMETRY, Basis
from thermowell_index.findings import Severity
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.standard_inserts import FORM_4_SOURCE, TUBE_SOURCE
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.presence import CELL_FAULTS, stated

SHOWN = {
    "form": "shank_form",
    "overall length": "overall_length_text",
    "insertion length": "insertion_length_text",
    "bore depth": "bore_depth_text",
    "neck": "extension_length_text",
    "installed length": "installed_length_text",
}


def _tube_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return stated(frame, SHOWN).str.removeprefix("; ")


@rule(
    severity=Severity.ERROR,
    field="overall_length",
    found=_tube_found,
    expected="a total length that is insertion length + neck, or a bore depth measured from the head's end of the tube",
    action="state insertion length and neck beside the tube's total length; else measure the bore with the insert withdrawn and the tube left in place",
    source=GEOMETRY,
    condition="a tube of form 2G, 2F, 3G or 3F with an insert: its lengths do not say whether its neck is in them",
    withholds=Withholds.ALWAYS,
    yields_to=(*CELL_FAULTS, "insertion_longer_than_well"),
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def neck_in_length_not_stated(frame: Frame, basis: Basis) -> Hits:
    """The neck of a tube in one piece may be in its length already, or have to be added.

    The two readings differ by the whole neck, 80 to 145 mm and more.
    """
    return frame["neck_is_open"] & ~frame["is_in_kind"]


@rule(
    severity=Severity.WARNING,
    field="shank_form",
    expected="necks and insert lengths that you have confirmed with the standard or the sensor's maker",
    action="confirm the lengths listed in the Design basis before ordering, then set standard_insert.tube_lengths_confirmed to yes",
    source=TUBE_SOURCE,
    condition="the neck or the insert length of a tube of form 2G, 2F or 3F is the standard's, which comes from memory",
    folds=Folds.ALWAYS,
)
def standard_length_from_memory(frame: Frame, basis: Basis) -> Hits:
    """Lengths of tubes in one piece are the standard's, as remembered: no published text of them was found."""
    is_confirmed = basis.choice("standard_insert.tube_lengths_confirmed") == "yes"
    return frame["insert_is_remembered"] & (not is_confirmed)


@rule(
    severity=Severity.NOTE,
    field="extension_length",
    expected="the length of each neck",
    action="measure the neck where it may be another: the insert is longer or shorter by the difference",
    source=FORM_4_SOURCE,
    condition="a plate insert in a form 4 well of the standard's table whose neck has no length",
    folds=Folds.ALWAYS,
)
def standard_neck_taken(frame: Frame, basis: Basis) -> Hits:
    """Form 4 wells whose neck has no length are taken with the standard's, 165 mm."""
    return frame["neck_is_standard"]
