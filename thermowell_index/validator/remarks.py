"""What the remarks of a row say against its bore depth: a number hidden in words is the one that was found on site."""

import numpy as np
import pandas as pd

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.bore_remarks import BoreRemark, bore_remark
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import CellState, Frame, Hits
from thermowell_index.wording import row_length

EPSILON_MM = 1e-6
# Lengths of a row that a remark may repeat.
LENGTHS = ("overall_length", "bore_depth", "measured_bore_depth", "insertion_length", "probe_length", "nipple_length")


def remarks_on(frame: Frame) -> list[BoreRemark]:
    """Return what the remarks of each row say of its bore, those in columns that were read as no field too."""
    texts = zip(frame["remarks"], frame["other_words"], frame["unit"], strict=True)
    return [
        bore_remark(f"{remark} ; {other}" if other else str(remark), str(unit)) if remark or other else BoreRemark()
        for remark, other, unit in texts
    ]


def _is_measured(frame: Frame) -> "pd.Series[bool]":
    return frame["measured_bore_depth_state"] == CellState.VALUE


def _other_depths(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the bore depths that the remarks give and that are not the one used; empty where there are none."""
    near = basis.length_mm("limit.one_well") + EPSILON_MM
    texts = [
        " and ".join(text.lower() for text, length in said.depths if abs(length - used) > near)
        for said, used in zip(remarks_on(frame), frame["bore_depth_used_mm"], strict=True)
    ]
    return pd.Series(texts, index=frame.index, dtype=object)


def quoted(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the remarks in quotes."""
    both = [
        "; ".join(text for text in (str(remark), str(other)) if text)
        for remark, other in zip(frame["remarks"], frame["other_words"], strict=True)
    ]
    return pd.Series([f"remark {text!r}" for text in both], index=frame.index, dtype=object)


def _depth_in_words(frame: Frame, basis: Basis) -> "pd.Series[str]":
    used = [
        f"; bore depth used {row_length(length, row_id, frame)}"
        for row_id, length in zip(frame.index, frame["bore_depth_used_mm"], strict=True)
    ]
    return quoted(frame, basis) + pd.Series(used, index=frame.index, dtype=object)


@rule(
    severity=Severity.ERROR,
    field="remarks",
    needs=("bore_depth_used_mm",),
    found=_depth_in_words,
    expected="one bore depth",
    action="find out which of the two is right; write a depth that was measured into a column of its own",
    source=PRACTICE,
    condition="a remark gives a bore depth that differs from the one used by more than 1/16 in",
    withholds=Withholds.ALWAYS,
)
def remark_gives_another_depth(frame: Frame, basis: Basis) -> Hits:
    """The remarks give another bore depth than the row.

    Who writes a depth among the remarks has mostly measured it; a sensor cut to the drawing would then not fit.
    """
    return _other_depths(frame, basis) != ""


@rule(
    severity=Severity.ERROR,
    field="remarks",
    needs=("bore_depth_used_mm",),
    found=quoted,
    expected="a bore that is free down to the depth stated, or a measured bore depth",
    action="measure the bore with the well left in place and enter the depth as measured",
    source=PRACTICE,
    condition="a remark says that the well is plugged, blocked, bent or shortened, and no bore depth is measured",
    withholds=Withholds.ALWAYS,
    yields_to=("remark_gives_another_depth",),
)
def bore_not_free(frame: Frame, basis: Basis) -> Hits:
    """The remarks say that the bore is no longer what the drawing says.

    Scale, a stuck tip or a shortened well leave less depth; the sensor would stop short of its seat.
    """
    said = pd.Series([bool(remark.closed) for remark in remarks_on(frame)], index=frame.index)
    return said & ~_is_measured(frame)


def _unmatched(frame: Frame, basis: Basis) -> "pd.Series[bool]":
    """Return the rows whose remarks call a length measured that no length of the row is."""
    near = basis.length_mm("limit.one_well") + EPSILON_MM
    own = frame[[f"{name}_mm" for name in LENGTHS] + ["bore_depth_used_mm"]].to_numpy(float)
    hits = [
        any(not np.any(np.abs(row - length) <= near) for _, length in said.measured)
        for said, row in zip(remarks_on(frame), own, strict=True)
    ]
    return pd.Series(hits, index=frame.index)


@rule(
    severity=Severity.WARNING,
    field="remarks",
    needs=("bore_depth_used_mm",),
    found=quoted,
    expected="lengths that are settled",
    action="settle what the remark asks before the sensor is bought",
    source=PRACTICE,
    condition="a remark asks to confirm the bore, the lengths or the drawing, says that the well was changed, or calls a "
    "length measured that is on the row nowhere; no bore depth is measured",
    folds=Folds.REPEATED,
    yields_to=("remark_gives_another_depth", "bore_not_free"),
)
def remark_doubts_lengths(frame: Frame, basis: Basis) -> Hits:
    """The remarks put the lengths of the well in doubt.

    The length is computed from what the row states; whoever wrote the remark was not sure of that.
    """
    asked = pd.Series([bool(remark.doubt) for remark in remarks_on(frame)], index=frame.index)
    return (asked | _unmatched(frame, basis)) & ~_is_measured(frame)
