"""From a read table to verdicts: records, checks, sizes, and the working of every row. Knows no workbook."""

from collections import Counter
from collections.abc import Collection, Sequence
from functools import lru_cache, partial

import numpy as np
import pandas as pd

from thermowell_index.answers import FIELD_SURVEY
from thermowell_index.basis import Basis
from thermowell_index.findings import Finding, Severity, Verdict, numbered
from thermowell_index.records.build import build_records
from thermowell_index.records.old_sensor import IN_KIND, OLD_SENSOR
from thermowell_index.records.relations import add_relations
from thermowell_index.registry import RULES, Folds, Rule, run
from thermowell_index.sizing.engine import size_table
from thermowell_index.sizing.working import working_text
from thermowell_index.table import Frame, IndexTable, number, whole, word
from thermowell_index.units import format_length
from thermowell_index.validator import AFTER_SIZING, BEFORE_SIZING, FAMILIES
from thermowell_index.validator.schema import confirm_schema
from thermowell_index.wording import row_length

RESULT_LENGTHS = (
    "probe_length_computed_mm",
    "probe_length_order_mm",
    "shortest_fit_mm",
    "longest_fit_mm",
    "compression_min_mm",
    "compression_nominal_mm",
    "compression_max_mm",
    "margin_mm",
    "first_touch_mm",
)


def judge(table: IndexTable, basis: Basis) -> list[Finding]:
    """Complete the table with records, sizes, verdicts and working; return the findings, loudest first."""
    build_records(table, basis)
    add_relations(table, basis.length_mm("limit.one_well"))
    confirm_schema(table.frame)
    findings = run(_rules(BEFORE_SIZING), table, basis)
    _size(table, basis, _withheld_rows(findings))
    findings += run(_rules(AFTER_SIZING), table, basis, earlier=findings)
    _conclude(table.frame, findings)
    return _in_order(numbered(findings))


def _rules(families: Collection[str]) -> list[Rule]:
    modules = {FAMILIES[name].__name__ for name in families}
    return [entry for entry in RULES.values() if entry.check.__module__ in modules]


def _withheld_rows(findings: Collection[Finding]) -> set[int]:
    return {row_id for finding in findings if finding.withholds for row_id in finding.row_ids}


def _size(table: IndexTable, basis: Basis, withheld: set[int]) -> None:
    """Add the sizes of all points that are not withheld; the others have none."""
    frame = table.frame
    inputs = frame.assign(bore_depth_mm=frame["bore_depth_used_mm"], installed_mm=frame["extension_installed_mm"])
    inputs["mounting"] = inputs["mounting"].where(frame["is_point"] & ~frame.index.isin(list(withheld)), "")
    sized = size_table(inputs, worst_case=basis.choice("tolerance.stack") == "worst case")
    in_kind = sized.index[frame["is_in_kind"] & (inputs["mounting"] != "")]
    for name in ("probe_length_order_mm", "shortest_fit_mm", "longest_fit_mm"):
        sized.loc[in_kind, name] = frame.loc[in_kind, "probe_length_mm"]  # the only length that is proven
    new = [name for name in sized.columns if name not in frame.columns]
    table.frame = pd.concat([frame, sized[new]], axis=1)


def _conclude(frame: Frame, findings: Sequence[Finding]) -> None:
    """Add verdict, reason, working and extension parts; empty the lengths of rows that have none."""
    withheld = _withheld_rows(findings)
    loud = {row_id for finding in findings if _asks_for_a_look(finding) for row_id in finding.row_ids}
    is_withheld = frame["is_point"] & (frame.index.isin(list(withheld)) | frame["probe_length_order_mm"].isna())
    frame["verdict"] = np.select(
        [~frame["is_point"], is_withheld, frame.index.isin(list(loud))],
        [Verdict.NOT_APPLICABLE.value, Verdict.WITHHELD.value, Verdict.REVIEW.value],
        Verdict.SIZED.value,
    )
    _add_reasons(frame, findings)
    _add_working(frame)
    frame.loc[is_withheld | ~frame["is_point"], list(RESULT_LENGTHS)] = np.nan
    frame.loc[~frame["is_point"], ["bore_depth_used_mm", "extension_installed_mm"]] = np.nan
    frame.loc[~frame["is_point"] | frame["bore_depth_used_mm"].isna(), "bore_depth_basis"] = ""
    in_kind = frame["is_in_kind"] & frame["probe_length_order_mm"].notna()
    frame.loc[in_kind, "bore_depth_basis"] = IN_KIND
    frame.loc[in_kind, "bore_depth_used_mm"] = np.nan
    frame["extension_parts"] = [
        _parts(row_id, frame, NIPPLES[arrangement]) if arrangement in NIPPLES else ""
        for row_id, arrangement in zip(frame.index, frame["arrangement"].astype(str), strict=True)
    ]


def _asks_for_a_look(finding: Finding) -> bool:
    """Whether a finding makes its rows review: one of their own, or an error, however many rows have it."""
    if finding.folded:
        return finding.severity is Severity.ERROR and RULES[finding.rule].folds is Folds.REPEATED
    return finding.severity is not Severity.NOTE


def _add_reasons(frame: Frame, findings: Sequence[Finding]) -> None:
    """Add why a row is withheld; RuntimeError where one is and no rule says why, which is a fault of the program."""
    causes: dict[int, list[str]] = {}
    for finding in findings:
        if finding.withholds:
            for row_id in finding.row_ids:
                causes.setdefault(row_id, []).append(RULES[finding.rule].plain_name)
    frame["reason"] = [
        reason if verdict == Verdict.NOT_APPLICABLE else "; ".join(dict.fromkeys(causes.get(row_id, [])))
        for row_id, reason, verdict in zip(frame.index, frame["reason"], frame["verdict"], strict=True)
    ]
    silent = frame.index[(frame["verdict"] == Verdict.WITHHELD) & (frame["reason"] == "")]
    if len(silent):
        raise RuntimeError(f"{_place(frame, silent[0])} is withheld and no rule says why")


WORKING_COLUMNS = {
    "bore_depth_used_mm": "bore_depth_mm",
    "extension_installed_mm": "installed_mm",
    "total_length_mm": "overall_length_mm",
    "tip_used_mm": "tip_thickness_mm",
    "first_nipple_mm": "nipple_length_mm",
    "second_nipple_mm": "second_nipple_length_mm",
    "neck_mm": "neck_length_mm",
    "plane": "probe_length_plane",
}


GAUGE = ("probe_length", "compression_found")
NOT_IN_WORKING = ("_text", "_state", "_typed", "_unit_from", "_row_id", "_at")


def _add_working(frame: Frame) -> None:
    unused = [name for name in frame.columns if name.endswith(NOT_IN_WORKING)]
    kept = frame.drop(columns=[*unused, *WORKING_COLUMNS.values()], errors="ignore")
    renamed = kept.rename(columns=WORKING_COLUMNS).copy()
    renamed["withheld_for"] = frame["reason"]
    renamed["engagement_union_mm"] = frame["engagement_top_mm"]
    renamed["bore_depth_note"] = _bore_notes(frame)
    standard = "the plant's standard nipple, by the design basis"
    renamed["extension_note"] = np.select(
        [frame["extension_is_standard"], frame["neck_in_total"], frame["neck_is_standard"]],
        [standard, "the neck is part of the tube", "the standard's, since the row gives it no length"],
        _range_notes(frame),
    )
    rows = frame.index[frame["verdict"] != Verdict.NOT_APPLICABLE]
    texts = pd.Series("", index=frame.index, dtype=object)
    for row_id, row in zip(rows, renamed.loc[rows].to_dict("records"), strict=True):
        show = partial(_shown, unit=str(row["unit"]) or "mm", fractions=bool(row["in_fractions"]))
        texts.at[row_id] = working_text({str(key): value for key, value in row.items()}, show)
    frame["working"] = texts


def _survey_note(frame: Frame, row_id: int) -> str:
    """Return who read an installed length for the Field survey, and where; empty for any other extension."""
    is_read = word(frame, row_id, "installed_length_unit_from") == FIELD_SURVEY
    return word(frame, row_id, "installed_length_note") if is_read else ""


def _range_notes(frame: Frame) -> list[str]:
    """Return where each extension's length comes from: the middle of a range that it stands for, or a reading."""
    return [
        f"the middle of {row_length(least, row_id, frame)} to {row_length(most, row_id, frame)}, {source}"
        if source
        else _survey_note(frame, row_id)
        for row_id, least, most, source in frame[
            ["extension_least_mm", "extension_most_mm", "extension_range"]
        ].itertuples(name=None)
    ]


@lru_cache(maxsize=65536)
def _shown(length_mm: float, *, unit: str, fractions: bool) -> str:
    """Return a length as text; a workbook's workings show the same lengths again and again."""
    return format_length(length_mm, unit, fractions=fractions)


def _bore_notes(frame: Frame) -> list[str]:
    """Return for each row from which other row its well's lengths came, empty where they are its own."""
    fields = {"stated": "bore_depth", "measured": "measured_bore_depth"}
    notes = []
    for row_id in frame.index:
        field = fields.get(word(frame, row_id, "bore_depth_basis"), "overall_length")
        if word(frame, row_id, "bore_depth_basis") == OLD_SENSOR:
            notes.append(_gauge_note(frame, row_id))
            continue
        source = whole(frame, row_id, f"{field}_row_id")
        if word(frame, row_id, f"{field}_unit_from") == FIELD_SURVEY:
            notes.append(word(frame, row_id, f"{field}_note"))
        else:
            placed = "" if source in {row_id, -1} else f"from {_place(frame, source)}"
            notes.append(_total_note(frame, row_id) or placed)
    return notes


def _total_note(frame: Frame, row_id: int) -> str:
    """Return what the total length of a tube in one piece is made of, empty where it is stated or there is none."""
    if np.isnan(number(frame, row_id, "total_neck_mm")):
        return ""
    insertion, neck = (
        row_length(number(frame, row_id, name), row_id, frame) for name in ("insertion_length_mm", "total_neck_mm")
    )
    standard = " of the standard" if frame.at[row_id, "neck_is_remembered"] else ""
    return f"the total being insertion length {insertion} and neck {neck}{standard}"


def _gauge_note(frame: Frame, row_id: int) -> str:
    probe, found = (row_length(number(frame, row_id, f"{name}_mm"), row_id, frame) for name in GAUGE)
    return f"whose relaxed length of {probe} was found compressed by {found}, extension and seat offset taken off"


def _place(frame: Frame, row_id: int) -> str:
    return f"{word(frame, row_id, 'tag')}, {word(frame, row_id, 'sheet')} row {whole(frame, row_id, 'row')}"


NIPPLES = {"nipple": 1, "nipple and coupling": 1, "nipple and union": 1, "nipple-union-nipple": 2}
NIPPLE_OF_UNKNOWN_LENGTH = "nipple whose length is not known"


def _parts(row_id: int, frame: Frame, nipples: int) -> str:
    """Return the parts that an extension is bought as, so many nipples among them."""
    arrangement, thread = word(frame, row_id, "arrangement"), word(frame, row_id, "thread_text")
    lengths = [number(frame, row_id, name) for name in ("first_nipple_mm", "second_nipple_mm")]
    known = [f"nipple {row_length(length, row_id, frame)}, {thread}" for length in lengths if not np.isnan(length)]
    counts = Counter([*known, *[NIPPLE_OF_UNKNOWN_LENGTH] * (nipples - len(known))])
    parts = [f"{count} x {nipple}" if count > 1 else nipple for nipple, count in counts.items()]
    parts += [f"{part} {thread}" for part in ("union", "coupling") if part in arrangement]
    return "; ".join(parts)


def _in_order(findings: Collection[Finding]) -> list[Finding]:
    return sorted(findings, key=_loudness)


def _loudness(finding: Finding) -> tuple[int, str, int, str, str, int]:
    return finding.severity.rank, finding.sheet, finding.row or 0, finding.rule, finding.field, finding.occurrence
