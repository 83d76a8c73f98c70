"""What the remarks of a row say against its bore depth: a number hidden in words is the one that was found on site."""

from collections.abc import Iterator, Sequence

import numpy as np
import pandas as pd

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.bore_remarks import BoreRemark, bore_remark
from thermowell_index.records.extension_remarks import ExtensionRemark, extension_remark
from thermowell_index.records.words import ADJUSTABLE_WORDS, STEMS, cells_say, mounting_of, says
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import REMARK_JOINT, CellState, Frame, Hits
from thermowell_index.validator.well import is_surveyed, quieter_where
from thermowell_index.wording import row_length

EPSILON_MM = 1e-6
# Lengths of a row that a remark may repeat.
LENGTHS = ("overall_length", "bore_depth", "measured_bore_depth", "insertion_length", "probe_length", "nipple_length")


# Where remarks on a well may stand: on its sensor's row, there in columns that were read as no field, on its own rows.
PLACES = ("remarks", "other_words", "well_remarks")


def remark_texts(frame: Frame) -> Iterator[tuple[str, str]]:
    """Yield the remarks of each row with its unit, those in unread columns and those of its well's other rows too."""
    for *texts, unit in frame[[*PLACES, "unit"]].itertuples(index=False):
        yield " ; ".join(str(text) for text in texts if text), str(unit)


def remarks_on(frame: Frame) -> list[BoreRemark]:
    """Return what the remarks of each row say of its bore, those in columns that were read as no field too."""
    return [bore_remark(text, unit) if text else BoreRemark() for text, unit in remark_texts(frame)]


def is_measured(frame: Frame) -> "pd.Series[bool]":
    """Return the rows that have a bore depth measured at the well."""
    return frame["measured_bore_depth_state"] == CellState.VALUE


def _other_depths(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the bore depths and overall lengths that the remarks give and that the row denies; empty without any."""
    near = basis.length_mm("limit.one_well") + EPSILON_MM
    overall = frame["overall_length_mm"].where(~is_measured(frame))
    texts = [
        " and ".join(
            text.lower()
            for text, length, stated in [
                *((*depth, used) for depth in said.depths),
                *((*length, whole) for length in said.overalls),
            ]
            if abs(length - stated) > near
        )
        for said, used, whole in zip(remarks_on(frame), frame["bore_depth_used_mm"], overall, strict=True)
    ]
    return pd.Series(texts, index=frame.index, dtype=object)


def quoted(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the remarks in quotes."""
    every = ["; ".join(str(text) for text in texts if text) for texts in frame[[*PLACES]].itertuples(index=False)]
    return pd.Series([f"remark {text!r}" for text in every], index=frame.index, dtype=object)


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
    condition="a remark gives a bore depth, or an overall length, that differs from the row's by more than 1/16 in",
    withholds=Withholds.ALWAYS,
)
def remark_gives_another_depth(frame: Frame, basis: Basis) -> Hits:
    """The remarks give another bore depth than the row.

    Who writes a depth among the remarks has mostly measured it; a sensor cut to the drawing would then not fit.
    Where the bore depth was read for the Field survey it is a warning.
    """
    return quieter_where(is_surveyed(frame, "measured_bore_depth"), _other_depths(frame, basis) != "")


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
    return said & ~is_measured(frame)


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
    "length measured that is on the row nowhere, and no bore depth is measured; or it says that the extension was changed",
    folds=Folds.REPEATED,
    yields_to=("remark_gives_another_depth", "bore_not_free", "remark_denies_extension"),
)
def remark_doubts_lengths(frame: Frame, basis: Basis) -> Hits:
    """The remarks put the lengths of the well in doubt.

    The length is computed from what the row states; whoever wrote the remark was not sure of that.
    """
    asked = pd.Series([bool(remark.doubt) for remark in remarks_on(frame)], index=frame.index)
    changed = [
        bool(text and extension_remark(text, unit).changed) and arrangement != "none"
        for (text, unit), arrangement in zip(remark_texts(frame), frame["arrangement"], strict=True)
    ]
    return ((asked | _unmatched(frame, basis)) & ~is_measured(frame)) | pd.Series(changed, index=frame.index)


# The lengths that a remark on the extension may repeat, and the arrangements that have the part it names.
EXTENSION_LENGTHS = (
    "nipple_length_mm",
    "second_nipple_length_mm",
    "extension_length_mm",
    "installed_length_mm",
    "first_nipple_mm",
    "neck_mm",
    "extension_installed_mm",
)
WITH_PART = {
    "nipple": ("nipple", "nipple and union", "nipple and coupling", "nipple-union-nipple"),
    "union": ("nipple and union", "nipple-union-nipple"),
    "coupling": ("nipple and coupling",),
    "neck tube": ("neck tube",),
    "elbow": (),
    "another": (),
}


def _quoted_with_extension(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the remarks in quotes, or without any the cell of the extension."""
    cells = "extension arrangement " + frame["extension_arrangement"].map(repr).astype(object)
    said = quoted(frame, basis)
    return said.where(said != "remark ''", cells)


def _denies(said: ExtensionRemark, arrangement: str, lengths_mm: Sequence[float], near_mm: float) -> bool:
    """Whether a remark takes away a part that the row has, brings one that it has not, or gives another length.

    So does one by which the bore depth holds the extension already.
    """
    has_any = arrangement != "none"
    if said.in_bore and has_any:
        return True
    gone = bool(said.gone) and has_any and (arrangement in WITH_PART.get(said.gone, (arrangement,)))
    came = bool(said.came) and (not has_any if said.came == "extension" else arrangement not in WITH_PART[said.came])
    if said.stands and not has_any:
        return True
    length = said.length_mm is not None and not any(abs(own - said.length_mm) <= near_mm for own in lengths_mm)
    return gone or came or length


@rule(
    severity=Severity.ERROR,
    field="remarks",
    needs=("extension_installed_mm",),
    found=_quoted_with_extension,
    expected="the extension as it stands at the well",
    action="look at the well, and enter the extension and its length as they are",
    source=PRACTICE,
    condition="a remark says that a nipple, union, coupling, neck tube or elbow was taken out or added, or gives it another "
    "length than the row, or that the bore depth holds it; or the cell of the extension says that a part is missing",
    withholds=Withholds.ALWAYS,
)
def remark_denies_extension(frame: Frame, basis: Basis) -> Hits:
    """The remarks say another thing of the extension than the row.

    The extension adds its whole installed length to the sensor; with a part more or less the sensor does not fit.
    Where the installed length was read for the Field survey it is a warning.
    """
    near = basis.length_mm("limit.one_well") + EPSILON_MM
    lengths = frame[[*EXTENSION_LENGTHS]].to_numpy(float).tolist()
    rows = zip(remark_texts(frame), frame["arrangement"], frame["extension_arrangement"], lengths, strict=True)
    hits = [
        (bool(text) and _denies(extension_remark(text, unit), str(arrangement), own, near))
        or (own[-1] > 0 and extension_remark(str(cell), unit).was_there)
        for (text, unit), arrangement, cell, own in rows
    ]
    return quieter_where(is_surveyed(frame, "installed_length"), pd.Series(hits, index=frame.index))


GUESSED = r"ESTIMAT|GUESS|ASSUM|PRESUM|SIMILAR TO|LIKE T[A-Z]*-?\d|TYPICAL|\bT\.?B\.?[CDAV]\b|UNKNOWN|GESCHATZT|ANGENOMMEN|ESTIME|SUPPOS|STIMAT|GESCHAT"


@rule(
    severity=Severity.WARNING,
    field="dimension_source",
    needs=("dimension_source", "bore_depth_used_mm"),
    expected="a drawing, a data sheet, or a measurement",
    action="find the well's drawing, or measure the bore with a rod of the sensor's diameter, the well left in place",
    source=PRACTICE,
    condition="the source of the dimensions is an estimate, an assumption or another well, and no bore depth is measured",
    folds=Folds.REPEATED,
)
def dimensions_are_a_guess(frame: Frame, basis: Basis) -> Hits:
    """The dimensions are said to be estimated, assumed, or another well's.

    The length is computed from what the row states; nobody vouches for that.
    """
    return cells_say(GUESSED, frame["dimension_source"]) & ~is_measured(frame)


SPEAKING_OF_MOUNTING = (
    r"\bMOUNT(?:ING|ED AS)\b|\b(?:SENSOR|ELEMENT|PROBE)S? (?:IS |NOW )+|\bNO SPRING\b|COMPRESSION FITTING (?:USED|FITTED|INSTALLED)"
    r"|\bFIXED FITTING\b|\bSENSOR SCREWED DIRECT"
)


def _named_mounting(remark: str) -> str:
    """Return the mounting that a remark on how the sensor is held names; empty where it names none."""
    if not says(SPEAKING_OF_MOUNTING, remark):
        return ""
    if says(STEMS, remark):
        return "no sensor"
    clamped = "adjustable fitting" if says(ADJUSTABLE_WORDS, remark) else ""
    return clamped or mounting_of(remark)


@rule(
    severity=Severity.ERROR,
    field="remarks",
    needs=("mounting",),
    found=quoted,
    expected="the mounting that the row states",
    action="look how the sensor is held, and correct the row or the remark",
    source=PRACTICE,
    condition="a remark says that the sensor is held in another way than the row states, or that it is none",
    withholds=Withholds.ALWAYS,
)
def remark_denies_mounting(frame: Frame, basis: Basis) -> Hits:
    """The remarks say that the sensor is held in another way.

    Each mounting measures its length from another plane.
    """
    named = [
        next(filter(None, (_named_mounting(one) for one in str(remark).split(REMARK_JOINT))), "")
        for remark in frame["remarks"]
    ]
    return pd.Series(
        [bool(name) and name != own for name, own in zip(named, frame["mounting"], strict=True)], index=frame.index
    )


NOT_USED = (
    r"\b(?:NOT (?:IN USE|REQUIRED|FOUND|EXISTING)|NO LONGER (?:REQUIRED|USED|IN USE|THERE)|DOES ?N.?O?T EXIST|REDUNDANT(?= *(?:$|[-,.;:]))"
    r"|(?:TAKEN )?OUT OF (?:SERVICE|USE)|DISCONNECTED|FUORI SERVIZIO|HORS SERVICE|FUERA DE SERVICIO|AUSSER BETRIEB"
    r"|BUITEN (?:BEDRIJF|GEBRUIK))\b"
)


@rule(
    severity=Severity.WARNING,
    field="remarks",
    needs=("remarks",),
    found=quoted,
    expected="a status that says whether the point is live",
    action="find out whether the point is still used before its sensor is bought",
    source=PRACTICE,
    condition="a remark opens by saying that the point is redundant, out of service, not found or no longer used",
    folds=Folds.REPEATED,
)
def remark_says_not_used(frame: Frame, basis: Basis) -> Hits:
    """The remarks say that the point is not used, and no status takes it out."""
    return cells_say(rf"^\W*(?:(?:TAG|POINT|INSTRUMENT|SENSOR|LOOP|IT|IS) )*(?:{NOT_USED})", frame["remarks"])
