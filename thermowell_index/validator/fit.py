"""What the sizing shows: stated lengths that do not fit, rows that no length fits, tips that were assumed."""

import math

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.growth import expansion_of
from thermowell_index.registry import ANY_CAUSE, Folds, Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.remarks import quoted, remarks_on
from thermowell_index.validator.well import EPSILON_MM
from thermowell_index.wording import row_lengths

STACK = "geometry and the tolerances of the design basis"
CHECK_LENGTH = "check the length of the sensor in hand and the bore depth; order the computed length"


def _fits(frame: Frame, basis: Basis) -> "pd.Series[str]":
    shortest, longest = row_lengths(frame["shortest_fit_mm"], frame), row_lengths(frame["longest_fit_mm"], frame)
    bounded = "a probe length from " + shortest + " to " + longest
    return bounded.where(longest != "", "a probe length of at least " + shortest)


def _stated(frame: Frame) -> "pd.Series[str]":
    return "probe length " + frame["probe_length_text"].astype(object)


def _past_bottom(frame: Frame) -> "pd.Series[float]":
    """Return by how much each stated probe is longer than it takes to touch [mm]: pressed by its spring, or clamped there."""
    clamped = frame["probe_length_mm"] - frame["probe_length_computed_mm"]
    is_clamped = frame["mounting"] == "adjustable fitting"
    return frame["stated_compression_nominal_mm"].where(~is_clamped, clamped)


def _short_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    past = _past_bottom(frame)
    short = ": its tip ends " + row_lengths(past.abs(), frame) + " above the bottom of the bore"
    return _stated(frame) + short.where(past < -EPSILON_MM, ": it reaches the bottom of the bore and no further")


def _solid_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    pressed, travel = (row_lengths(frame[name], frame) for name in ("stated_compression_nominal_mm", "travel_mm"))
    return _stated(frame) + ": it would press its spring by " + pressed + ", whose travel is " + travel


def _pressed_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    least, nominal, most = (
        row_lengths(frame[f"stated_compression_{name}_mm"], frame) for name in ("min", "nominal", "max")
    )
    travel = row_lengths(frame["travel_mm"], frame)
    return _stated(frame) + ": it presses its spring by " + nominal + " (" + least + " to " + most + ") of " + travel


def _gap_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    least, nominal = frame["stated_gap_min_mm"], frame["stated_gap_nominal_mm"]
    tolerance = row_lengths(nominal - least, frame)
    gap = "leaves a gap of " + row_lengths(nominal, frame) + " under its tip"
    beyond = "is " + row_lengths(nominal.abs(), frame) + " longer than the well lets it in"
    return _stated(frame) + " " + gap.where(nominal >= 0, beyond) + "; tolerances take up to " + tolerance + " more"


@rule(
    severity=Severity.ERROR,
    field="probe_length",
    needs=("probe_length_mm",),
    found=_short_found,
    expected=_fits,
    action=CHECK_LENGTH,
    source=GEOMETRY,
    condition="stated probe length gives a nominal compression of zero or less; in an adjustable fitting it is below the least length",
    yields_to=("implausible_length",),
)
def tip_never_touches(frame: Frame, basis: Basis) -> Hits:
    """The stated probe is too short to touch the bottom of the bore.

    It reads low and slow, and nothing shows it.
    """
    past = _past_bottom(frame) + frame["carried_plus_mm"].fillna(0.0)
    is_clamped = frame["mounting"] == "adjustable fitting"
    return (past < -EPSILON_MM).where(is_clamped, past <= 0)


@rule(
    severity=Severity.ERROR,
    field="probe_length",
    needs=("probe_length_mm", "stated_compression_nominal_mm"),
    found=_solid_found,
    expected=_fits,
    action=CHECK_LENGTH,
    source=GEOMETRY,
    condition="stated probe length gives a nominal compression of the spring's travel or more",
    yields_to=("implausible_length",),
)
def spring_goes_solid(frame: Frame, basis: Basis) -> Hits:
    """The stated probe is so long that its spring is solid before the thread is made up.

    The thread cannot be tightened, or the sheath bends.
    """
    return frame["stated_compression_nominal_mm"] - frame["carried_minus_mm"] >= frame["travel_most_mm"]


@rule(
    severity=Severity.WARNING,
    field="probe_length",
    needs=("probe_length_mm", "stated_compression_nominal_mm"),
    found=_pressed_found,
    expected=_fits,
    action=CHECK_LENGTH,
    source=STACK,
    condition="stated probe touches, and its tolerances can take the preload away",
    yields_to=("implausible_length",),
)
def tip_may_not_touch(frame: Frame, basis: Basis) -> Hits:
    """The stated probe touches on paper, and within its tolerances it may not."""
    return _is_between(frame) & (frame["stated_compression_min_mm"] < frame["preload_used_mm"])


def _is_between(frame: Frame) -> "pd.Series[bool]":
    """Return which stated probes touch and leave the spring free on paper, for one credible extension and travel at least."""
    nominal = frame["stated_compression_nominal_mm"]
    touches = nominal + frame["carried_plus_mm"] > 0
    return touches & (nominal - frame["carried_minus_mm"] < frame["travel_most_mm"])


@rule(
    severity=Severity.WARNING,
    field="probe_length",
    needs=("probe_length_mm", "stated_compression_nominal_mm"),
    found=_pressed_found,
    expected=_fits,
    action=CHECK_LENGTH,
    source=STACK,
    condition="stated probe leaves the spring free, and its tolerances can use up the reserve",
    yields_to=("implausible_length",),
)
def spring_may_go_solid(frame: Frame, basis: Basis) -> Hits:
    """The stated probe leaves the spring free on paper, and within its tolerances it may not."""
    most = frame["travel_mm"] - frame["reserve_used_mm"]
    return _is_between(frame) & (frame["stated_compression_max_mm"] > most)


@rule(
    severity=Severity.ERROR,
    field="probe_length",
    needs=("probe_length_mm", "stated_gap_nominal_mm"),
    found=_gap_found,
    expected=_fits,
    action=CHECK_LENGTH,
    source=GEOMETRY,
    condition="fixed fitting: stated probe leaves no gap (error), or its tolerances can close it (warning)",
    yields_to=("implausible_length",),
)
def fixed_sensor_bottoms(frame: Frame, basis: Basis) -> Hits:
    """The stated probe of a fixed fitting meets the bottom before its thread is tight.

    It wedges, and the thread leaks.
    """
    closes = frame["stated_gap_min_mm"] < 0
    none = frame["stated_gap_nominal_mm"] <= 0
    return (
        pd.Series("", index=frame.index, dtype=object)
        .mask(closes, Severity.WARNING.value)
        .mask(none, Severity.ERROR.value)
    )


@rule(
    severity=Severity.WARNING,
    field="probe_length",
    needs=("probe_length_mm", "stated_gap_nominal_mm"),
    found=_gap_found,
    expected=_fits,
    action=CHECK_LENGTH,
    source="common practice, no source",
    condition="fixed fitting: stated probe leaves a gap of more than 1/2 in",
    yields_to=("implausible_length",),
)
def fixed_sensor_stands_off(frame: Frame, basis: Basis) -> Hits:
    """The stated probe of a fixed fitting ends far above the bottom of the bore, and reads slow and low."""
    return frame["stated_gap_nominal_mm"] > basis.length_mm("fixed.most_gap") + 1e-6


@rule(
    severity=Severity.WARNING,
    field="remarks",
    needs=("remarks", "probe_length_mm", "stated_compression_nominal_mm"),
    found=quoted,
    expected=_fits,
    action="measure the bore with a rod of the sensor's diameter, the sensor withdrawn and the well left in place",
    source=GEOMETRY,
    condition="a remark says that the sensor in place does not reach the bottom, or is too long, and by the row's lengths it fits",
    folds=Folds.REPEATED,
)
def remark_denies_fit(frame: Frame, basis: Basis) -> Hits:
    """The sensor in place is said not to fit, and by the lengths of the row it does.

    Then the bore is deeper or shallower than stated, the extension is another, or the sensor in place is not the one stated.
    """
    said = remarks_on(frame)
    compression = frame["stated_compression_nominal_mm"]
    short = pd.Series([bool(remark.falls_short) for remark in said], index=frame.index)
    long = pd.Series([bool(remark.stands_out) for remark in said], index=frame.index)
    return (short & (compression > 0)) | (long & (compression < frame["travel_mm"]))


def _window(frame: Frame, basis: Basis) -> "pd.Series[str]":
    width = row_lengths(frame["window_mm"].clip(lower=0), frame)
    return (
        "a length to order between shortest and longest; the window is "
        + width
        + " wide, most of it lost to: "
        + frame["widest_contributor"]
    )


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("probe_length_computed_mm",),
    expected=_window,
    action="measure what takes up most of the window; rounding does not help",
    source=STACK,
    condition="no multiple of the increment, or no length of the list, lies between shortest and longest",
    withholds=Withholds.ALWAYS,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def no_length_fits(frame: Frame, basis: Basis) -> Hits:
    """No length that can be ordered is sure to fit.

    The tolerances leave a window that no multiple of the increment, or no length of the list, falls into.
    """
    return frame["probe_length_order_mm"].isna()


def _tip_taken(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "tip thickness not stated, " + row_lengths(frame["tip_used_mm"], frame) + " taken"


@rule(
    severity=Severity.NOTE,
    field="tip_thickness",
    needs=("probe_length_computed_mm",),
    found=_tip_taken,
    expected="the tip thickness of each well",
    action="none where one length serves every credible tip; else measure the bore depth",
    source="basis: well.tip_thickness_inch, well.tip_thickness_metric, well.tip_credible_least, well.tip_credible_most",
    condition="an assumed tip is used: one length to order serves the credible range, a note a sheet; none does, a warning",
    folds=Folds.NOTES,
)
def tip_assumed(frame: Frame, basis: Basis) -> Hits:
    """The tip thickness is not stated and a usual one was assumed.

    Where one length to order serves every credible tip, nothing hangs on it. Where none does, the bore has to be measured.
    """
    assumed = (frame["bore_depth_basis"] == "overall less assumed tip") & frame["probe_length_order_mm"].notna()
    decides = frame["assumed_tip_decides"].astype(bool)
    severity = decides.map({True: Severity.WARNING.value, False: Severity.NOTE.value})
    return severity.where(assumed, "")


def _range_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    shortest, longest = row_lengths(frame["extension_least_mm"], frame), row_lengths(frame["extension_most_mm"], frame)
    return "an extension from " + shortest + " to " + longest + ", " + frame["extension_range"]


@rule(
    severity=Severity.NOTE,
    field="extension_length",
    needs=("extension_range", "probe_length_order_mm"),
    found=_range_found,
    expected="the length of each extension",
    action="none: the length to order serves the whole range",
    source="basis: extension.nipple_credible_least and _most, and those of necks and couplings; extension.union_length_means",
    condition="the length of an extension is not known, and one length to order serves its whole credible range",
    folds=Folds.ALWAYS,
)
def extension_range_carried(frame: Frame, basis: Basis) -> Hits:
    """The length of an extension is not known, and nothing hangs on it: one length to order serves every credible one."""
    return frame["extension_range"] != ""


def _growth_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return (
        "hot growth "
        + row_lengths(frame["growth_mm"].abs(), frame)
        + ", margin "
        + row_lengths(frame["margin_mm"], frame)
    )


@rule(
    severity=Severity.WARNING,
    field="design_temperature",
    needs=("growth_mm", "margin_mm"),
    found=_growth_found,
    expected="hot growth of at most a quarter of the margin",
    action="check materials and temperature; a sheath of the well's own material, or a spring of more travel, takes it away",
    source="linear expansion of well and sheath; the share is common practice, no source",
    condition="growth of the well over the sheath between 20 °C and the design temperature uses more than 25 % of the margin",
    folds=Folds.REPEATED,
)
def hot_growth_eats_margin(frame: Frame, basis: Basis) -> Hits:
    """Well and sheath grow so differently that the heat takes up much of the spring's margin.

    Contact that is made cold can be lost hot.
    """
    return frame["growth_mm"].abs() > basis.number("mistake.growth_share") * frame["margin_mm"] + 1e-6


def _materials_not_known(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return which of the two materials says nothing of its growth, with its words."""
    texts = [
        "; ".join(
            f"{what} material {str(text)!r} not known" if str(text).strip() else f"{what} material not stated"
            for what, text in (("well", well), ("sheath", sheath))
            if math.isnan(expansion_of(str(text)))
        )
        for well, sheath in zip(frame["well_material"], frame["sheath_material"], strict=True)
    ]
    return pd.Series(texts, index=frame.index, dtype=object)


@rule(
    severity=Severity.NOTE,
    field="design_temperature",
    needs=("growth_open_mm", "margin_mm"),
    found=_materials_not_known,
    expected="the materials of well and sheath, by a standard's name",
    action="state both materials; until then hot growth is taken as none",
    source="linear expansion of well and sheath; coefficients from memory, to be confirmed",
    condition="a design temperature at which growth could use more than 25 % of the margin, and a material that is not stated or not known",
    folds=Folds.ALWAYS,
)
def hot_growth_not_reckoned(frame: Frame, basis: Basis) -> Hits:
    """Hot growth was left out, since a material is not known, and it could take up much of the spring's margin."""
    return frame["growth_open_mm"] > basis.number("mistake.growth_share") * frame["margin_mm"] + 1e-6


LINKS = {
    "bore_depth_used_mm": "bore depth",
    "extension_installed_mm": "installed length of the extension",
    "seat_offset_mm": "plane that the probe is measured from",
    "seat_turn_mm": "engagement of the thread",
}


def _not_known(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return which links of the chain are not known, with the thread as typed."""
    texts = [
        ", ".join(dict.fromkeys(label for name, label in LINKS.items() if np.isnan(row[name]))) or "spring or thread"
        for row in frame[[*LINKS]].to_dict("records")
    ]
    threads = frame["instrument_thread"].astype(object)
    return (
        "not known: "
        + pd.Series(texts, index=frame.index, dtype=object)
        + ("; thread " + threads).where(threads != "", "")
    )


@rule(
    severity=Severity.ERROR,
    field="tag",
    found=_not_known,
    expected="bore depth, extension, thread and seat that lead to a length",
    action="look at the row's working: it ends at what is not known",
    source=GEOMETRY,
    condition="no length comes out and no other check says why",
    withholds=Withholds.ALWAYS,
    yields_to=(ANY_CAUSE,),
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def length_not_computed(frame: Frame, basis: Basis) -> Hits:
    """Something that the length needs is not known, such as the engagement of a thread of an unusual size."""
    return frame["probe_length_order_mm"].isna()
