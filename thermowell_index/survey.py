"""What to ask in the field: the measurement that each withheld row waits for, ranked by the rows it releases."""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from thermowell_index.answers import FIELD_SURVEY, Survey, SurveyEntry, SurveyLine, SurveyQuestion
from thermowell_index.basis import MOUNTINGS, Basis
from thermowell_index.findings import Finding, Severity
from thermowell_index.records.tags import take_apart
from thermowell_index.records.words import ADJUSTABLE_WORDS, says
from thermowell_index.registry import RULES
from thermowell_index.sizing.contributors import CREDIBLE_RANGE
from thermowell_index.sizing.exactness import bore_exactness, extension_exactness
from thermowell_index.table import Frame, flag, whole, word
from thermowell_index.units import format_length

BORE, INSTALLED, TRAVEL, MOUNTING = "bore depth", "installed length", "spring travel", "sensor mounting"
THREAD, HEIGHT = "thread at the well", "height of the compression fitting"
COARSEST = {"in": (25.4 / 16, 4), "mm": (1.0, 6)}
"""Step [mm] that an exactness is rounded down to, and the most steps that are told: common practice, no source."""


@dataclass(frozen=True, kw_only=True)
class Question:
    """One thing to find out. `field` is what the answer is entered as, empty where it is not asked on the form."""

    label: str
    how: str
    field: str = ""
    choices: tuple[str, ...] = ()


QUESTIONS: Mapping[str, Question] = {
    question.label: question
    for question in (
        Question(
            label=BORE,
            field="measured_bore_depth",
            how="Withdraw the sensor, leave the well in place. Put a clean rod of the stated diameter in until it "
            "stops, mark it at the open face of the well (instrument end), and measure from the mark to the rod's end.",
        ),
        Question(
            label=INSTALLED,
            field="installed_length",
            how="Everything made up: from the open face of the well to the face that the sensor or the connection "
            "head is screwed on to.",
        ),
        Question(
            label=TRAVEL,
            field="spring_travel",
            how="On the sensor in hand: press the tip in from relaxed until the spring is solid, and measure how far "
            "it moved.",
        ),
        Question(
            label=MOUNTING,
            field="sensor_mounting",
            how="Look how the sensor is held, and write one of: " + MOUNTINGS.replace("|", ", ") + ".",
            choices=tuple(MOUNTINGS.split("|")),
        ),
        Question(
            label=THREAD,
            how="Not measured: size, family and gender of the thread that the sensor or the extension is screwed into, "
            "from the well's drawing or marking, into the index' column for the instrument thread.",
        ),
        Question(
            label="unit of the lengths",
            how="Not in the field: write the unit into the heading, the title block or the design basis (index.unit).",
        ),
        Question(
            label="meaning of a length beside a union",
            how="Not in the field: bought or installed, in the design basis (extension.union_length_means). One "
            "measured installed length compared with the index shows which.",
        ),
        Question(
            label="standard extension",
            how="Not in the field: the plant's standard bought nipple, in the design basis "
            "(extension.standard_length), if there is one.",
        ),
        Question(
            label="seat height of the plate",
            how="Not in the field: from the connection head's drawing into the design basis "
            "(profile.flanged_insert.seat_offset).",
        ),
        Question(
            label=HEIGHT,
            how="Not in the field: how high the fitting stands off the face once made up, from its maker's drawing "
            "into the design basis (profile.adjustable_fitting.seat_offset).",
        ),
        Question(
            label="seat plane of the collar",
            how="Not in the field: from the sensor's data sheet, gasket included, into the design basis "
            "(profile.collar_fitting.seat_offset).",
        ),
    )
}

# What settles each fault, the first that the form can ask before what a document can.
SETTLES: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(
        (
            "bore_depth_unknown",
            "bore_deeper_than_well",
            "tip_does_not_add_up",
            "lagging_left_out",
            "bore_from_flange_face",
            "insertion_copied_as_bore",
            "one_well_two_depths",
            "tip_assumed",
            "old_sensor_denies_bore_depth",
            "remark_gives_another_depth",
            "bore_not_free",
            "head_longer_than_any",
        ),
        (BORE,),
    ),
    "fitting_onto_bare_nipple": (INSTALLED,),
    "extension_not_stated": (INSTALLED,),
    "no_extension_but_a_length": (INSTALLED,),
    "nipple_shorter_than_threads": (INSTALLED,),
    "second_nipple_not_stated": (INSTALLED,),
    "installed_shorter_than_union": (INSTALLED,),
    "engagement_not_taken_off": (INSTALLED,),
    "extension_without_length": (INSTALLED, "standard extension"),
    "union_basis_not_stated": (INSTALLED, "meaning of a length beside a union"),
    "mounting_not_stated": (MOUNTING,),
    "remark_denies_mounting": (MOUNTING,),
    "unit_not_known": ("unit of the lengths",),
    "units_disagree": ("unit of the lengths",),
    "seat_height_not_known": ("seat height of the plate",),
    "shoulder_thread_as_taper": ("seat plane of the collar",),
    "thread_not_known": (THREAD,),
    "well_row_says_otherwise": (INSTALLED,),
    "remark_denies_extension": (INSTALLED,),
}
BY_FIELD: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("bore_depth", "measured_bore_depth", "overall_length", "tip_thickness"), (BORE,)),
    **dict.fromkeys(("nipple_length", "second_nipple_length", "extension_length", "installed_length"), (INSTALLED,)),
    "spring_travel": (TRAVEL,),
}
CELL_FAULTS = frozenset(
    {
        "date_for_dimension",
        "range_for_dimension",
        "unreadable_dimension",
        "dead_formula",
        "two_columns_differ",
        "implausible_length",
        "unit_slip",
        "foot_mark_for_inch",
    }
)
BY_CONTRIBUTOR: Mapping[str, str] = {
    "bore depth": BORE,
    "assumed tip": BORE,
    "extension": INSTALLED,
    "thread make-up": INSTALLED,
}


@dataclass(frozen=True, kw_only=True)
class Cause:
    """Why a row waits, and the questions any one of which settles it."""

    rule: str
    found: str
    settled_by: tuple[str, ...]


def survey(frame: Frame, findings: Iterable[Finding], basis: Basis, entries: Sequence[SurveyEntry] = ()) -> Survey:
    """Return what to ask; `entries` are lines of an earlier form, shown again where they are still asked."""
    causes = _causes(frame, findings)
    written = {(take_apart(entry.tag).key, entry.question): entry for entry in entries}
    questions = _ranked(causes)
    rank = {question.label: place for place, question in enumerate(questions)}
    lines = sorted(_lines(frame, causes, basis, written), key=lambda line: (rank[line.question], line.also != ""))
    return Survey(
        questions=tuple(questions),
        lines=tuple(lines),
        taken=tuple(_past_line(frame, entry) for entry in entries if entry.taken),
        left_over=tuple(
            _past_line(frame, entry)
            for key, entry in written.items()
            if not entry.taken and key not in {(take_apart(line.tag).key, line.question) for line in lines}
        ),
        unsettled_rows=sum(any(not cause.settled_by for cause in listed) for listed in causes.values()),
    )


def _causes(frame: Frame, findings: Iterable[Finding]) -> dict[int, list[Cause]]:
    """Return by row that wants a sensor why it waits: what withholds it, and an assumed tip that decides."""
    causes: dict[int, list[Cause]] = {}
    for finding in findings:
        is_tip = finding.rule == "tip_assumed" and finding.severity is Severity.WARNING and not finding.folded
        if (finding.withholds or is_tip) and finding.change != "cleared":
            for row_id in finding.row_ids:
                if whole(frame, row_id, "quantity") == 0:
                    continue
                settled_by = _settled_by(frame, row_id, finding)
                causes.setdefault(row_id, []).append(
                    Cause(rule=finding.rule, found=finding.found, settled_by=settled_by)
                )
    return causes


def _settled_by(frame: Frame, row_id: int, finding: Finding) -> tuple[str, ...]:
    if finding.rule == "no_length_fits":
        labels = _narrows(frame, row_id)
    elif finding.rule == "mounting_not_stated" and says(ADJUSTABLE_WORDS, word(frame, row_id, "sensor_mounting")):
        labels = (HEIGHT,)
    elif finding.rule in CELL_FAULTS:
        labels = BY_FIELD.get(finding.field, ())
    else:
        labels = SETTLES.get(finding.rule, ())
    is_slip = finding.rule in CELL_FAULTS  # of the reading itself: it has to be read again
    return tuple(label for label in labels if is_slip or not _is_measured(frame, row_id, label))


def _narrows(frame: Frame, row_id: int) -> tuple[str, ...]:
    """Return the measurement that narrows what takes up most of a row's window, none where it is narrow already."""
    if flag(frame, row_id, "travel_is_carried"):
        return (TRAVEL,)
    if flag(frame, row_id, "engagement_is_carried") and word(frame, row_id, "widest_contributor") == CREDIBLE_RANGE:
        return (THREAD,)
    label = BY_CONTRIBUTOR.get(word(frame, row_id, "widest_contributor"), "")
    is_open = {
        BORE: word(frame, row_id, "bore_depth_basis") != "measured",
        INSTALLED: word(frame, row_id, "arrangement") != "none" and not flag(frame, row_id, "installed_is_given"),
    }
    return (label,) if is_open.get(label, False) else ()


def _is_measured(frame: Frame, row_id: int, label: str) -> bool:
    """Whether a row has the answer from the field already, so that asking for it again settles nothing."""
    column = f"{QUESTIONS[label].field}_unit_from"
    return column in frame and word(frame, row_id, column) == FIELD_SURVEY


def _ranked(causes: Mapping[int, Sequence[Cause]]) -> list[SurveyQuestion]:
    """Return the questions that are asked at all, those first that release most rows by themselves."""
    releases: Counter[str] = Counter()
    concerns: Counter[str] = Counter()
    for listed in causes.values():
        sets = [set(cause.settled_by) for cause in listed]
        concerns.update(set().union(*sets))
        releases.update(set.intersection(*sets))
    asked = [
        SurveyQuestion(
            label=label,
            how=question.how,
            is_on_form=question.field != "",
            releases=releases[label],
            concerns=concerns[label],
        )
        for label, question in QUESTIONS.items()
        if concerns[label]
    ]
    return sorted(asked, key=lambda question: (-question.releases, -question.concerns))


def _lines(
    frame: Frame, causes: Mapping[int, Sequence[Cause]], basis: Basis, written: Mapping[tuple[str, str], SurveyEntry]
) -> list[SurveyLine]:
    rows = sorted(row_id for row_id in causes if word(frame, row_id, "tag"))
    within = _within(frame.loc[rows], basis)
    lines = []
    for row_id in rows:
        key = take_apart(word(frame, row_id, "tag")).key
        asked = {label: [cause for cause in causes[row_id] if _on_form(cause) == label] for label in QUESTIONS}
        for label, behind in asked.items():
            if behind:
                line = _line(frame, row_id, label, within.get((row_id, label), ""))
                others = [other for other in _waits_for(causes[row_id]) if other != label]
                lines.append(replace(line, why=_why(behind), also=", ".join(others), entry=written.get((key, label))))
    return lines


def _on_form(cause: Cause) -> str:
    """Return the first question of a cause that the form can ask, empty where it can ask none."""
    return next((label for label in cause.settled_by if QUESTIONS[label].field), "")


def _waits_for(causes: Sequence[Cause]) -> list[str]:
    """Return all that a row waits for, once each; what no question settles is to be corrected in the index."""
    named = [_on_form(cause) or (cause.settled_by or ("correction of the index",))[0] for cause in causes]
    return list(dict.fromkeys(named))


def _why(causes: Sequence[Cause]) -> str:
    return "; ".join(dict.fromkeys(f"{RULES[cause.rule].plain_name} ({cause.found})" for cause in causes))


def _line(frame: Frame, row_id: int, label: str, within: str) -> SurveyLine:
    question = QUESTIONS[label]
    return SurveyLine(
        tag=word(frame, row_id, "tag"),
        place=_place(frame, row_id),
        question=label,
        rod=(word(frame, row_id, "sheath_diameter_text") or "as the sensor") if label == BORE else "",
        within=within,
        unit="" if question.choices else word(frame, row_id, "unit"),
        why="",
        also="",
        choices=question.choices,
        entry=None,
    )


def _place(frame: Frame, row_id: int) -> str:
    """Return where the point is: service, well, line, and where it stands in the index."""
    well = word(frame, row_id, "well_tag")
    line = word(frame, row_id, "line_number")
    parts = (word(frame, row_id, "service"), f"well {well}" if well else "", f"line {line}" if line else "")
    index = f"{word(frame, row_id, 'sheet')} row {word(frame, row_id, 'row')}"
    return ", ".join([*(part for part in parts if part), index])


def _within(rows: Frame, basis: Basis) -> dict[tuple[int, str], str]:
    """Return how exact the bore depth and the installed length of each row must be, as text in the row's unit."""
    if rows.empty:
        return {}
    inputs = rows.assign(bore_depth_mm=rows["bore_depth_used_mm"], installed_mm=rows["extension_installed_mm"])
    worst_case = basis.choice("tolerance.stack") == "worst case"
    read_to = basis.length_mm("tolerance.bore_measured")
    found: dict[tuple[int, str], str] = {}
    for label, lengths_mm in (
        (BORE, bore_exactness(inputs=inputs, worst_case=worst_case)),
        (INSTALLED, extension_exactness(inputs=inputs, worst_case=worst_case)),
    ):
        for row_id, unit, length_mm in zip(rows.index, rows["unit"], lengths_mm.tolist(), strict=True):
            found[int(row_id), label] = _as_read(length_mm, str(unit) or "mm", read_to)
    return found


def _as_read(within_mm: float, unit: str, finest_mm: float) -> str:
    """Return an exactness rounded down to what a rule shows; the finest, where even an exact reading may not do."""
    step_mm, most = COARSEST[unit]
    steps = 0 if math.isnan(within_mm) else min(int(within_mm / step_mm + 1e-9), most)
    length_mm = steps * step_mm if steps else finest_mm
    return f"± {format_length(length_mm, unit, fractions=unit == 'in')}"


def _past_line(frame: Frame, entry: SurveyEntry) -> SurveyLine:
    """Return a line that is filled in and not asked any more; its row may be gone."""
    key = take_apart(entry.tag).key
    row_id = next((row_id for row_id, tag in frame["tag"].items() if take_apart(str(tag)).key == key), None)
    return SurveyLine(
        tag=entry.tag,
        place="" if row_id is None else _place(frame, int(str(row_id))),
        question=entry.question,
        rod="",
        within="",
        unit=entry.unit,
        why="",
        also="",
        choices=(),
        entry=entry,
    )
