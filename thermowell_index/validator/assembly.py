"""What cannot be screwed together, or only by luck."""

from dataclasses import replace

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.assembly import FEMALE_TOPS, FITTINGS, INSERTS, MALE_TOPS
from thermowell_index.records.threads_read import JointThread
from thermowell_index.records.words import folded
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.threads import mates
from thermowell_index.validator.well import EPSILON_MM, is_surveyed, quieter_where
from thermowell_index.wording import row_lengths

ENDS = "a female end for a fitting (the well itself, a coupling, a union), a male end for the head of an insert"


@rule(
    severity=Severity.ERROR,
    field="extension_arrangement",
    needs=("mounting", "arrangement"),
    expected=ENDS,
    action="find out what stands on the well; a union or coupling may be missing from the index, or the sensor is an insert",
    source=GEOMETRY,
    condition="a fitting on a nipple, neck tube or nipple-union-nipple: without an installed length an error, with one a warning",
    withholds=Withholds.ALWAYS,
    folds=Folds.REPEATED,
)
def fitting_onto_bare_nipple(frame: Frame, basis: Basis) -> Hits:
    """A male fitting is to be screwed onto a male end.

    Its thread needs a female one. With an installed length given the length can be computed all the same, and only the words are in doubt.
    """
    hit = frame["mounting"].isin(FITTINGS) & frame["arrangement"].isin(MALE_TOPS)
    severity = frame["installed_is_given"].map({True: Severity.WARNING.value, False: Severity.ERROR.value})
    return severity.where(hit, "")


@rule(
    severity=Severity.ERROR,
    field="extension_arrangement",
    needs=("detail_well_row_says_otherwise",),
    expected="one mounting and one extension for the sensor and its well",
    action="find out at the well what stands on it, and correct the row that is wrong",
    source=GEOMETRY,
    condition="the row of the well gives another mounting, extension, or length of the extension (by more than 1/16 in) than the sensor's own row",
    withholds=Withholds.ALWAYS,
)
def well_row_says_otherwise(frame: Frame, basis: Basis) -> Hits:
    """The rows of a sensor and of its well say different things of what stands between them.

    One assembly is built one way, and nothing tells which row is right. An extension whose installed length was read for the
    Field survey is as it was found, and it is a warning.
    """
    is_measured = is_surveyed(frame, "installed_length")
    return quieter_where(is_measured, pd.Series(data=True, index=frame.index))


# Thread of a connection head [mm]: the top end of a neck tube. EN 50446 [memory].
HEAD_THREAD_MM = 24


def _clash(well: JointThread, extension: JointThread | None, mounting: str, arrangement: str) -> str:
    """Return why two threads of a row cannot be screwed together; empty when they can."""
    takes_male = (arrangement == "none" and mounting in FITTINGS) or arrangement in NIPPLES
    if takes_male and well.gender == "male":
        return "male on male: the well's top is male and so is what is screwed onto it"
    if extension is None or extension.thread is None or well.thread is None or arrangement in {"none", ""}:
        return ""
    is_head_end = extension.thread.family == "M" and extension.thread.size == HEAD_THREAD_MM
    if not well.is_stated or (arrangement == "neck tube" and is_head_end):
        return ""
    # An extension's thread is stated for its top end, whose gender says nothing of the end in the well.
    return mates(replace(extension.thread, gender=None), replace(well.thread, gender=None)) or ""


NIPPLES = ("nipple", "nipple and coupling", "nipple and union", "nipple-union-nipple")


def _fitting_clash(fitting: JointThread | None, held: JointThread) -> str:
    """Return why the thread that a mounting's words name does not go into what holds it; empty when it does."""
    if fitting is None or fitting.thread is None or held.thread is None or not held.is_stated:
        return ""
    return mates(replace(fitting.thread, gender=None), replace(held.thread, gender=None)) or ""


def _clashes(frame: Frame) -> "pd.Series[str]":
    columns = (frame[name] for name in ("well_joint", "extension_joint", "mounting", "arrangement"))
    of_extension = [_clash(*parts) for parts in zip(*columns, strict=True)]
    of_fitting = [_fitting_clash(*joints) for joints in zip(frame["fitting_joint"], frame["held_joint"], strict=True)]
    found = [first or second for first, second in zip(of_extension, of_fitting, strict=True)]
    return pd.Series(found, index=frame.index, dtype=object)


def _how_they_clash(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return both threads as typed and why they do not go together."""
    female_top = frame["mounting"].isin(INSERTS) & frame["arrangement"].isin(FEMALE_TOPS)
    clashes = _clashes(frame)
    why = clashes.where(clashes != "", female_top.map({True: "a head on a female end", False: ""}))
    well, extension = frame["instrument_thread"].astype(object), frame["extension_thread"].astype(object)
    threads = ("thread of the well " + well + "; ").where(well != "", "") + (
        "thread of the extension " + extension + "; "
    ).where(extension != "", "")
    held = frame["mounting"].where(frame["mounting"] != "", frame["sensor_mounting"]).astype(object)
    return held + ", extension " + frame["arrangement"].astype(object) + "; " + threads + why


@rule(
    severity=Severity.ERROR,
    field="instrument_thread",
    found=_how_they_clash,
    expected="threads that screw together and seal",
    action="check both threads at the well and correct the index; an adapter is part of the extension and has a length",
    source="ASME B1.20.1, ISO 7-1, ISO 228-1: families, sizes and genders",
    condition="taper on parallel, NPT on G, R or M, sizes differ, male on male, a head on a female end: an error; a warning where the extension was measured for the Field survey",
    withholds=Withholds.ALWAYS,
    folds=Folds.REPEATED,
)
def threads_do_not_mate(frame: Frame, basis: Basis) -> Hits:
    """Two threads of the assembly do not screw together, or would leak.

    An extension whose installed length was read for the Field survey stands there made up: the words are wrong or the joint leaks, and the
    length does not hang on it.
    """
    is_made_up = is_surveyed(frame, "installed_length") & (frame["arrangement"] != "none")
    female_top = frame["mounting"].isin(INSERTS) & frame["arrangement"].isin(FEMALE_TOPS) & ~frame["installed_is_given"]
    return quieter_where(is_made_up, (_clashes(frame) != "") | female_top)


@rule(
    severity=Severity.ERROR,
    field="instrument_thread",
    expected="a thread such as 1/2 NPT, G 1/2 or M20x1.5",
    action="state size and family of the thread",
    source=PRACTICE,
    condition="a thread that the chain goes through is written in words that name none for certain",
    withholds=Withholds.ALWAYS,
    needs=("mounting", "arrangement"),
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def thread_not_known(frame: Frame, basis: Basis) -> Hits:
    """A thread is stated in words that name no thread for certain.

    Its engagement is part of the length. BSP alone can be taper or parallel.
    """
    through_well = (frame["mounting"].isin(FITTINGS) & (frame["arrangement"] == "none")) | (
        ~frame["arrangement"].isin(["none", "neck tube"]) & ~frame["installed_is_given"]
    )
    through_top = frame["arrangement"].isin([*FEMALE_TOPS, "nipple", "nipple-union-nipple"]) & (
        ~frame["installed_is_given"] | frame["mounting"].isin(FITTINGS)
    )
    return (~frame["well_thread_known"] & through_well) | (~frame["extension_thread_known"] & through_top)


@rule(
    severity=Severity.ERROR,
    field="instrument_thread",
    expected="a sensor profile that states the plane its length is measured from",
    action="set profile.collar_fitting.seat_offset in the design basis, gasket included, and state the parallel thread where the index does not",
    source=GEOMETRY,
    condition="a fitting with a parallel thread (G, M) and no profile that states its seat plane, or one with a collar whose thread is not stated",
    withholds=Withholds.ALWAYS,
    needs=("mounting",),
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def shoulder_thread_as_taper(frame: Frame, basis: Basis) -> Hits:
    """A fitting with a parallel thread seats on its collar, not in its thread.

    Measured from the thread end or from the sealing face, its length differs by some 15 mm.
    """
    no_seat = frame["seat_offset_mm"].isna() & ~frame["is_in_kind"]
    on_collar = frame["seat_is_shoulder"] | ((frame["profile"] == "collar_fitting") & (frame["named_profile"] == ""))
    return frame["mounting"].isin(FITTINGS) & on_collar & no_seat


def _nipple_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    swallowed = frame["engagement_well_mm"] + frame["engagement_top_mm"]
    return (
        "nipple of "
        + row_lengths(frame["first_nipple_mm"], frame)
        + ", its two threads swallow "
        + row_lengths(swallowed, frame)
    )


def _nipple_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    least, better = basis.choice("limit.nipple_faces"), basis.choice("limit.nipple_close")
    return pd.Series(
        f"longer than its two threads by at least {least}, better {better}", index=frame.index, dtype=object
    )


@rule(
    severity=Severity.ERROR,
    field="nipple_length",
    needs=("first_nipple_mm", "engagement_well_mm", "engagement_top_mm"),
    found=_nipple_found,
    expected=_nipple_expected,
    action="check the nipple's length; a close nipple of 1/2 NPT is 1-1/8 in",
    source="ASME B1.20.1 engagement; nipple lengths of ASTM A733 [memory]",
    condition="nipple less both engagements below 1/16 in: error; below 1/4 in: warning",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "fitting_onto_bare_nipple"),
    folds=Folds.REPEATED,
)
def nipple_shorter_than_threads(frame: Frame, basis: Basis) -> Hits:
    """A nipple is no longer than the threads that swallow it.

    Its two mates would meet before the threads are tight.
    """
    bare = frame["first_nipple_mm"] - frame["engagement_well_mm"] - frame["engagement_top_mm"]
    meets = bare < basis.length_mm("limit.nipple_faces") - EPSILON_MM
    close = bare < basis.length_mm("limit.nipple_close") - EPSILON_MM
    made_up = ~frame["installed_is_given"]
    return (
        pd.Series("", index=frame.index, dtype=object)
        .mask(close & made_up, Severity.WARNING.value)
        .mask(meets & made_up, Severity.ERROR.value)
    )


@rule(
    severity=Severity.WARNING,
    field="extension_arrangement",
    expected="a nipple or neck that the head is screwed onto",
    action="find out what carries the connection head",
    source=PRACTICE,
    condition="an insert without extension on a well whose top is known to be female",
    withholds=Withholds.ALWAYS,
    folds=Folds.REPEATED,
)
def insert_with_nothing_to_press_it(frame: Frame, basis: Basis) -> Hits:
    """An insert is pressed down by its connection head, and nothing carries the head.

    The well's top is female and the index names no extension.
    """
    female = frame["well_joint"].map(lambda joint: joint.is_stated and joint.gender == "female")
    return frame["mounting"].isin(INSERTS) & (frame["arrangement"] == "none") & female


def _made_up_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "about " + row_lengths(_made_up(frame), frame) + " once both ends of the nipple are screwed in"


def _made_up(frame: Frame) -> "pd.Series[float]":
    """Return what the nipple, with its union or coupling, adds once made up [mm]; NaN for other arrangements."""
    length = frame["nipple_length_mm"] - frame["engagement_well_mm"] - frame["engagement_top_mm"]
    union, coupling = frame["arrangement"] == "nipple and union", frame["arrangement"] == "nipple and coupling"
    more = pd.Series(np.nan, index=frame.index)
    more = more.mask(frame["arrangement"] == "nipple", 0.0)
    return length + more.mask(union | coupling, frame["union_length_mm"])


def _union_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "at least what the union alone adds, " + row_lengths(frame["union_length_mm"], frame)


@rule(
    severity=Severity.ERROR,
    field="installed_length",
    needs=("given_installed_mm", "union_length_mm"),
    expected=_union_expected,
    action="measure the extension face to face at the well; the number may be a pipe size",
    source="geometry; basis: extension.union_length",
    condition="an installed length with a union below what the union alone adds",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip"),
    folds=Folds.REPEATED,
)
def installed_shorter_than_union(frame: Frame, basis: Basis) -> Hits:
    """An extension with a union is given a length that is shorter than the union."""
    return (frame["given_installed_mm"] > 0) & (frame["given_installed_mm"] < frame["union_length_mm"] - EPSILON_MM)


@rule(
    severity=Severity.WARNING,
    field="installed_length",
    needs=("installed_length_mm", "nipple_length_mm", "arrangement"),
    expected=_made_up_expected,
    action="measure the extension face to face at the well, and correct the length that is wrong",
    source="geometry; engagement of ASME B1.20.1",
    condition="installed length differs from what its own parts give, made up, by more than 1/2 in",
    yields_to=("implausible_length", "unit_slip"),
    folds=Folds.REPEATED,
)
def installed_differs_from_parts(frame: Frame, basis: Basis) -> Hits:
    """The installed length of the extension is not what its own nipple gives once it is made up.

    A length given as installed is used as it stands, and goes before the parts; but one of the two is wrong, or a part is missing.
    """
    differs = (frame["installed_length_mm"] - _made_up(frame)).abs() > basis.length_mm(
        "limit.installed_differs"
    ) + EPSILON_MM
    off_bought = (frame["installed_length_mm"] - frame["nipple_length_mm"]).abs()
    return differs & (off_bought > basis.length_mm("limit.installed_is_bought") + EPSILON_MM)


@rule(
    severity=Severity.WARNING,
    field="installed_length",
    needs=("installed_length_mm", "nipple_length_mm", "arrangement"),
    expected=_made_up_expected,
    action="measure the extension face to face at the well, or state the bought length alone",
    source="ASME B1.20.1: each made-up end of 1/2 NPT swallows about 1/2 in",
    condition="installed length equals the bought nipple within 1/16 in, on taper threads, where parts made up give another length",
    withholds=Withholds.ALWAYS,
    yields_to=("implausible_length", "unit_slip"),
    folds=Folds.REPEATED,
)
def engagement_not_taken_off(frame: Frame, basis: Basis) -> Hits:
    """The installed length of the extension is the nipple's length as bought.

    What the threads swallow was not taken off, so the length comes out too long, about an inch for a nipple of 1/2 NPT.
    """
    near = basis.length_mm("limit.installed_is_bought") + EPSILON_MM
    is_copied = (frame["installed_length_mm"] - frame["nipple_length_mm"]).abs() <= near
    is_taper = frame["engagement_well_mm"] > 0
    from_documents = ~is_surveyed(frame, "installed_length")
    return from_documents & is_copied & is_taper & ((_made_up(frame) - frame["nipple_length_mm"]).abs() > near)


def _heads_that_go(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "one of the heads of the sensor's profile: " + frame["heads_that_go"].str.replace("|", ", ")


@rule(
    severity=Severity.WARNING,
    field="head_type",
    needs=("head_type", "heads_that_go"),
    expected=_heads_that_go,
    action="check that the sensor goes into this head, or add the head to its profile",
    source="basis: profile heads",
    condition="the connection head is none of those that the user's sensor profile goes with",
)
def head_does_not_go_with_sensor(frame: Frame, basis: Basis) -> Hits:
    """The connection head is none of those that the sensor's profile names.

    Its seat may be at another height, and then the length is another too.
    """
    rows = zip(frame["head_type"], frame["heads_that_go"], strict=True)
    goes = [any(folded(word) in folded(str(head)) for word in str(words).split("|")) for head, words in rows]
    return pd.Series([not fits for fits in goes], index=frame.index)
