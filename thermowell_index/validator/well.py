"""Lengths of one well that contradict each other."""

import numpy as np
import pandas as pd

from thermowell_index.answers import FIELD_SURVEY
from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import Frame, Hits

# Lengths in millimetres made of fractions of an inch differ in the last binary digits [mm].
from thermowell_index.validator.connections import is_flanged, is_threaded
from thermowell_index.wording import row_lengths

EPSILON_MM = 1e-6
MEASURE = "measure the bore with a rod of the sensor's diameter, the sensor withdrawn and the well left in place, and correct the index"


# What tells that a bore depth is none, before anything is made of it.
BORE_CAUSES = (
    "implausible_length",
    "foot_mark_for_inch",
    "unit_slip",
    "values_slid_against_tags",
    "bore_deeper_than_well",
    "tip_does_not_add_up",
    "insertion_longer_than_well",
    "head_longer_than_any",
    "lagging_left_out",
    "bore_from_flange_face",
    "head_left_out",
    "insertion_copied_as_bore",
    "one_well_two_depths",
)


def by_unit(frame: Frame, basis: Basis, inch: str, metric: str) -> "pd.Series[str]":
    """Return of two limits of the design basis the one for each row's unit, as it is written there."""
    return frame["unit"].map(lambda unit: basis.choice(metric if unit == "mm" else inch)).astype(object)


def own_bore(frame: Frame) -> "pd.Series[float]":
    """Return the bore depth that the index itself states: as found, else as drawn [mm]."""
    return frame["measured_bore_depth_mm"].fillna(frame["bore_depth_mm"])


def is_surveyed(frame: Frame, name: str) -> "pd.Series[bool]":
    """Return in which rows a length was read at the well for a Field survey: it settles what other cells contradict."""
    return frame[f"{name}_unit_from"] == FIELD_SURVEY


def quieter_where(settled: "pd.Series[bool]", hits: "pd.Series[bool]") -> "pd.Series[str]":
    """Return hits as errors, those that a reading at the well has settled as warnings."""
    severity = settled.map({True: Severity.WARNING.value, False: Severity.ERROR.value})
    return severity.where(hits, "")


def _on_bore(frame: Frame, hit: "pd.Series[bool]") -> pd.DataFrame:
    """Return hits on the cell that gives the bore depth: the measured one where there is one."""
    is_measured = frame["measured_bore_depth_mm"].notna()
    return pd.DataFrame({"bore_depth": hit & ~is_measured, "measured_bore_depth": hit & is_measured})


def _from_documents(frame: Frame, hit: "pd.Series[bool]") -> pd.DataFrame:
    """Return hits on a bore depth that a document gives; one that was read at the well is what it is."""
    return _on_bore(frame, hit & ~is_surveyed(frame, "measured_bore_depth"))


def sum_limit(frame: Frame, basis: Basis) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    """Return by how much overall length, bore depth and tip of each row may disagree [mm]."""
    is_metric = (frame["unit"] == "mm").to_numpy(bool)
    return np.where(is_metric, basis.length_mm("limit.sum_metric"), basis.length_mm("limit.sum_inch"))


def _adds_up(frame: Frame, basis: Basis) -> "pd.Series[bool]":
    """Return which rows have a stated bore depth that the overall length less the tip confirms."""
    difference = (frame["overall_length_mm"] - frame["tip_used_mm"] - own_bore(frame)).abs()
    return difference <= sum_limit(frame, basis) + EPSILON_MM


def _below_overall(frame: Frame, basis: Basis) -> "pd.Series[str]":
    most = row_lengths(frame["overall_length_mm"] - basis.length_mm("limit.bore_below_overall"), frame)
    near = (own_bore(frame) - frame["overall_length_mm"]).abs() <= basis.length_mm("limit.copied_overall") + EPSILON_MM
    hint = near.map({True: "; it equals the overall length: copied as bore depth", False: ""})
    return "at most " + most + hint


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("overall_length_mm",),
    expected=_below_overall,
    action=MEASURE,
    source=GEOMETRY,
    condition="bore depth above overall length less 1/8 in",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", "values_slid_against_tags"),
)
def bore_deeper_than_well(frame: Frame, basis: Basis) -> Hits:
    """The bore is as deep as the well is long, or deeper.

    A well has a bottom. One of the two lengths is wrong, or one was copied into the other's column.
    """
    most = frame["overall_length_mm"] - basis.length_mm("limit.bore_below_overall")
    return _on_bore(frame, own_bore(frame) > most + EPSILON_MM)


def _sum_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    by_sum = row_lengths(frame["overall_length_mm"] - frame["tip_thickness_mm"], frame)
    return "bore depth " + by_sum + " = overall length less tip thickness"


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("overall_length_mm", "tip_thickness_mm"),
    expected=_sum_expected,
    action=MEASURE,
    source=GEOMETRY,
    condition="overall length, bore depth and tip disagree by more than 1/16 in (1.5 mm on metric rows); a warning beside a Field survey reading of the bore",
    withholds=Withholds.ALWAYS,
    yields_to=(
        "lagging_left_out",
        "bore_from_flange_face",
        "insertion_copied_as_bore",
        "implausible_length",
        "unit_slip",
        "values_slid_against_tags",
        "one_well_two_depths",
    ),
)
def tip_does_not_add_up(frame: Frame, basis: Basis) -> Hits:
    """Overall length, bore depth and tip thickness are all stated and do not add up.

    One of the three is wrong, and nothing on the row says which. Where a measured depth stands beside the drawing's, the measured one is used and
    the two are compared instead; of a bore as deep as the well is long that is said, and not this. A reading taken for the Field survey is used,
    and that the others do not fit it is a warning.
    """
    off = (frame["overall_length_mm"] - own_bore(frame) - frame["tip_thickness_mm"]).abs()
    is_confirmed = frame["measured_bore_depth_mm"].notna() & frame["bore_depth_mm"].notna()
    is_copied = own_bore(frame) > frame["overall_length_mm"] - basis.length_mm("limit.copied_overall") - EPSILON_MM
    hits = _on_bore(frame, (off > sum_limit(frame, basis) + EPSILON_MM) & ~is_confirmed & ~is_copied)
    return hits.apply(lambda hit: quieter_where(is_surveyed(frame, "measured_bore_depth"), hit))


def _with_head(frame: Frame, basis: Basis) -> "pd.Series[str]":
    by_overall = frame["overall_length_mm"] - frame["tip_used_mm"]
    inside = by_overall.fillna(own_bore(frame) + _head_length(frame, basis))
    return "about " + row_lengths(inside, frame) + ", the head of the well included"


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("insertion_length_mm",),
    expected=_with_head,
    action=MEASURE,
    source=GEOMETRY,
    condition="bore depth equals insertion length less tip within 1/8 in: on a threaded or socket-weld well without an overall length, or on any but a flanged one whose tip is not stated and whose overall length leaves more than 1/2 in below that bore",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", "lagging_left_out", "one_well_two_depths"),
    folds=Folds.REPEATED,
)
def head_left_out(frame: Frame, basis: Basis) -> Hits:
    """The bore depth is the insertion length less the tip: the head of the well was left out.

    A threaded or welded well has a head above its connection, which the bore goes through; a sensor of that length would be short by it.
    """
    near = basis.length_mm("limit.flange_signature") + EPSILON_MM
    from_face = (own_bore(frame) - (frame["insertion_length_mm"] - frame["tip_used_mm"])).abs() <= near
    overall = frame["overall_length_mm"]
    has_usual_head = overall.isna() & _head_length(frame, basis).notna()
    is_left_over = overall - own_bore(frame) > basis.length_mm("limit.tip_thick") + EPSILON_MM
    has_head = has_usual_head | (is_left_over & frame["tip_thickness_mm"].isna())
    return _from_documents(frame, from_face & has_head & ~is_flanged(frame))


def _insertion_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    most = row_lengths(frame["overall_length_mm"] - basis.length_mm("limit.insertion_below_overall"), frame)
    return "insertion and lagging length together at most " + most


@rule(
    severity=Severity.ERROR,
    field="insertion_length",
    needs=("insertion_length_mm", "overall_length_mm"),
    expected=_insertion_expected,
    action="check whether two columns are swapped, and correct the one that is wrong",
    source=GEOMETRY,
    condition="insertion plus lagging length above overall length less 1/2 in; a warning beside a Field survey reading of the bore",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", "values_slid_against_tags"),
)
def insertion_longer_than_well(frame: Frame, basis: Basis) -> Hits:
    """The well is longer below its connection than it is altogether.

    Columns may be swapped, or the overall length is another well's. Where the bore depth was read for the Field survey the sensor's length does
    not hang on it, and it is a warning.
    """
    together = frame["insertion_length_mm"] + frame["lagging_length_mm"].fillna(0.0)
    most = frame["overall_length_mm"] - basis.length_mm("limit.insertion_below_overall")
    return quieter_where(is_surveyed(frame, "measured_bore_depth"), together > most + EPSILON_MM)


def _above_connection(frame: Frame) -> "pd.Series[float]":
    """Return what the well is long above its connection, its lagging length taken off [mm]."""
    reach = frame["overall_length_mm"].fillna(own_bore(frame))
    return reach - frame["insertion_length_mm"] - frame["lagging_length_mm"].fillna(0.0)


def _found_above_connection(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return row_lengths(_above_connection(frame), frame) + " above the connection"


@rule(
    severity=Severity.ERROR,
    field="insertion_length",
    needs=("insertion_length_mm",),
    found=_found_above_connection,
    expected="a head of a few inches, the lagging length beside it",
    action="correct the length that is wrong: a figure too many, another unit, or a lagging length left out",
    source=PRACTICE,
    condition="overall length (or bore depth) less insertion and lagging length above 24 in",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", "values_slid_against_tags", "one_well_two_depths"),
)
def head_longer_than_any(frame: Frame, basis: Basis) -> Hits:
    """The well is far longer above its connection than any head: one of its lengths is wrong.

    A decimal point slipped, or one of the two is in another unit; a sensor of that length would be many times too long.
    Where the bore depth was read for the Field survey the sensor's length does not hang on it, and it is a warning.
    """
    too_long = _above_connection(frame) > basis.length_mm("well.head_length_most") + EPSILON_MM
    return quieter_where(is_surveyed(frame, "measured_bore_depth"), too_long)


def _head_length(frame: Frame, basis: Basis) -> "pd.Series[float]":
    lengths = np.select(
        [is_flanged(frame), is_threaded(frame)],
        [basis.length_mm("well.head_length_flanged"), basis.length_mm("well.head_length_threaded")],
        np.nan,
    )
    return pd.Series(lengths, index=frame.index)


def _with_lagging(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "about " + row_lengths(own_bore(frame) + frame["lagging_length_mm"], frame) + ", the lagging length included"


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("lagging_length_mm",),
    expected=_with_lagging,
    action=MEASURE,
    source=GEOMETRY,
    condition="bore depth is short of overall less tip (or of insertion + head less tip) by the lagging length, within 1/8 in",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", "values_slid_against_tags"),
    folds=Folds.REPEATED,
)
def lagging_left_out(frame: Frame, basis: Basis) -> Hits:
    """The bore depth is short by just the lagging length.

    It was worked out from the insertion length and the part that clears the insulation was forgotten.
    """
    near = basis.length_mm("limit.lagging_signature") + EPSILON_MM
    bore, lagging = own_bore(frame), frame["lagging_length_mm"]
    inside = frame["overall_length_mm"] - frame["tip_used_mm"]
    by_overall = (bore + lagging - inside).abs() <= near
    by_insertion = (
        bore - (frame["insertion_length_mm"] + _head_length(frame, basis) - frame["tip_used_mm"])
    ).abs() <= near
    return _from_documents(frame, (lagging > near) & (by_overall | (frame["overall_length_mm"].isna() & by_insertion)))


def _flange_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    head = _head_length(frame, basis)
    inside = (frame["overall_length_mm"] - frame["tip_used_mm"]).fillna(own_bore(frame) + head)
    return "about " + row_lengths(inside, frame) + ", measured from the instrument end"


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("insertion_length_mm",),
    expected=_flange_expected,
    action=MEASURE,
    source=GEOMETRY,
    condition="flanged well, bore depth equals insertion length less tip within 1/8 in",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip", "values_slid_against_tags", "lagging_left_out"),
    folds=Folds.REPEATED,
)
def bore_from_flange_face(frame: Frame, basis: Basis) -> Hits:
    """The bore depth of a flanged well was taken from the flange face, not from the open end.

    It is short by the flange and the part above it, two to four inches.
    """
    near = basis.length_mm("limit.flange_signature") + EPSILON_MM
    from_face = (own_bore(frame) - (frame["insertion_length_mm"] - frame["tip_used_mm"])).abs() <= near
    return _from_documents(frame, is_flanged(frame) & from_face & ~_adds_up(frame, basis))


@rule(
    severity=Severity.WARNING,
    field="bore_depth",
    needs=("insertion_length_mm",),
    expected="deeper than the insertion length by the head of the well",
    action=MEASURE,
    source=PRACTICE,
    condition="bore depth equals insertion length within 1/32 in, and a lagging length or a head is known",
    withholds=Withholds.ALWAYS,
    yields_to=(
        "implausible_length",
        "unit_slip",
        "values_slid_against_tags",
        "bore_from_flange_face",
        "lagging_left_out",
        "insertion_longer_than_well",
    ),
    folds=Folds.REPEATED,
)
def insertion_copied_as_bore(frame: Frame, basis: Basis) -> Hits:
    """The insertion length stands in the column of the bore depth.

    The bore goes on through the head of the well, so a sensor of that length would be short by one and a half to two inches.
    """
    same = (own_bore(frame) - frame["insertion_length_mm"]).abs() <= basis.length_mm(
        "limit.copied_insertion"
    ) + EPSILON_MM
    stated_head = frame["overall_length_mm"] - frame["insertion_length_mm"] - frame["lagging_length_mm"].fillna(0.0)
    has_head = (stated_head > frame["tip_used_mm"] + sum_limit(frame, basis)) | (
        frame["overall_length_mm"].isna() & _head_length(frame, basis).notna()
    )
    return _from_documents(frame, same & ((frame["lagging_length_mm"] > 0) | has_head) & ~_adds_up(frame, basis))


def _other_depths(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "one depth for the well; " + frame["detail_other_depths"]


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("detail_other_depths",),
    expected=_other_depths,
    action=MEASURE,
    source=GEOMETRY,
    condition="two rows of one well give bore depths, or overall lengths, that differ by more than 1/16 in; a warning beside a Field survey reading of the bore",
    withholds=Withholds.ALWAYS,
)
def one_well_two_depths(frame: Frame, basis: Basis) -> Hits:
    """Two rows give the same well different bore depths or overall lengths.

    One bore has one depth. A row whose depth was read for the Field survey keeps its length.
    """
    return quieter_where(is_surveyed(frame, "measured_bore_depth"), frame["detail_other_depths"] != "")
