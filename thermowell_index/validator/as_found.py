"""What was found at the well against what the documents say: a measured length, the sensor in place."""

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.registry import Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.well import BORE_CAUSES, EPSILON_MM, MEASURE, by_unit
from thermowell_index.wording import row_lengths

# Lengths of which one column may say what was measured, and another what is on the drawing.
MEASURED_TOO = (
    "overall_length",
    "insertion_length",
    "lagging_length",
    "nipple_length",
    "second_nipple_length",
    "extension_length",
    "installed_length",
    "probe_length",
)


def _drawn(frame: Frame) -> pd.DataFrame:
    """Return by field what the drawing says beside what was measured [mm]; NaN where only one of the two is there."""
    drawn = {name: frame[f"{name}_drawn_mm"].where(frame[f"{name}_mm"].notna()) for name in MEASURED_TOO}
    drawn["measured_bore_depth"] = frame["bore_depth_mm"].where(frame["measured_bore_depth_mm"].notna())
    return pd.DataFrame(drawn)


def _measured_expected(frame: Frame, basis: Basis) -> pd.DataFrame:
    within = by_unit(frame, basis, "limit.measured_differs", "limit.measured_differs_metric")
    return _drawn(frame).apply(
        lambda drawn: (
            "within " + within + " of the drawing's " + row_lengths(drawn, frame) + "; the measured one is used"
        )
    )


@rule(
    severity=Severity.WARNING,
    field="measured_bore_depth",
    expected=_measured_expected,
    action="make sure that the drawing is this well's: it may have been replaced, or scale lies in the bore; "
    + MEASURE,
    source=PRACTICE,
    condition="a measured length (or one as built) and the drawing's differ by more than 1/4 in (6 mm on metric rows)",
    yields_to=BORE_CAUSES,
)
def measured_against_drawing(frame: Frame, basis: Basis) -> pd.DataFrame:
    """A length that was measured is not the drawing's.

    The well was changed, something lies in the bore, or the drawing is another well's. The measured one is used.
    """
    most = np.where(
        frame["unit"] == "mm",
        basis.length_mm("limit.measured_differs_metric"),
        basis.length_mm("limit.measured_differs"),
    )
    drawn = _drawn(frame)
    return pd.DataFrame({name: (frame[f"{name}_mm"] - drawn[name]).abs() > most + EPSILON_MM for name in drawn})


def _gauge_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    found = frame["compression_found_text"].where(frame["compression_found_mm"].notna(), "")
    known = frame["tip_is_clear"].map({True: ", known not to touch", False: ", known to touch"})
    compressed = (", its spring found compressed by " + found).where(found != "", known)
    probe = "probe in place " + row_lengths(frame["probe_length_mm"], frame) + compressed
    return probe + "; bore depth " + row_lengths(frame["bore_depth_used_mm"], frame) + ", " + frame["bore_depth_basis"]


def _gauge_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "a bore depth " + frame["gauge_limits"] + ", by the sensor in place"


@rule(
    severity=Severity.ERROR,
    field="probe_length",
    needs=("probe_length_mm", "bore_depth_used_mm", "gauge_limits"),
    found=_gauge_found,
    expected=_gauge_expected,
    action=MEASURE + "; see whether the sensor in place is the one that the index states",
    source=GEOMETRY,
    condition="the bore depth lies outside what a probe allows that touches, that is known not to touch, or whose compression was found; all tolerances added up",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", *BORE_CAUSES),
)
def old_sensor_denies_bore_depth(frame: Frame, basis: Basis) -> Hits:
    """The sensor in place contradicts the bore depth.

    Its tip is known to touch, and at this bore depth it could not, or its spring would be solid; or it is known not to
    touch, and here it would have to. One of the lengths is wrong.
    """
    return frame["gauge_denies"]
