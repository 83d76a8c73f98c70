"""Read, validate, size, write: the only module that knows all of them."""

import hashlib
import os
import re
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from pathlib import Path

import numpy as np
import pandas as pd

from thermowell_index import __version__
from thermowell_index.basis import BUILT_IN, Basis, read_basis
from thermowell_index.column_map import read_column_map
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.errors import WorkbookError
from thermowell_index.findings import Finding, Severity, Verdict
from thermowell_index.ooxml import Package
from thermowell_index.reader.columns import Dictionary
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.workbook import ReadSettings, read_workbook
from thermowell_index.records.build import build_records
from thermowell_index.records.relations import add_relations
from thermowell_index.registry import RULES, Rule, numbered, row_length, run
from thermowell_index.report_text import CAUTIONS, assumed_sentences, basis_rows, profile_rows
from thermowell_index.sizing.engine import size_table
from thermowell_index.sizing.schedule import schedule
from thermowell_index.sizing.working import working_text
from thermowell_index.table import Frame, IndexTable, Kind, number, whole, word
from thermowell_index.validator import AFTER_SIZING, BEFORE_SIZING, FAMILIES
from thermowell_index.validator.schema import confirm_schema
from thermowell_index.writer import (
    Report,
    RunInfo,
    carry,
    is_own_output,
    overlay,
    read_previous,
    strip_own,
    target_for,
    write_checked,
    write_json,
)

Progress = Callable[[str], None]
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
REVISION = re.compile(r"\brev(?:ision)?\.?\s*(?:no\.?)?\s*[:=]?\s*([A-Z0-9]{1,4})\b", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class Settings:
    """What a run is told beside its input; every entry has a usual value."""

    out: Path | None = None
    json: Path | None = None
    basis: Path | None = None
    columns: Path | None = None
    previous: Path | None = None
    sheets: Collection[str] = ()
    date: str | None = None


@dataclass(frozen=True, kw_only=True)
class CheckResult:
    """What a run found: the table with a row for each index row, the findings, and where they were written."""

    table: pd.DataFrame
    findings: Sequence[Finding]
    report: Report
    written: Path | None

    def worst(self) -> Severity | None:
        """Return the severity of the loudest live finding, None where there is none."""
        live = [finding.severity for finding in self.report.live_findings]
        return min(live, key=lambda severity: severity.rank) if live else None


def check_workbook(
    path: Path | str, settings: Settings | None = None, *, write: bool = True, progress: Progress = lambda stage: None
) -> CheckResult:
    """Check an index workbook, size its sensors, and write the annotated copy.

    Parameters
    ----------
    path : Path or str
        The index workbook (.xlsx or .xlsm). It is never written to. [-]
    settings : Settings, optional
        Where to write, and the design basis, heading map and previous run to use. [-]
    write : bool
        False only checks: nothing is written. [-]
    progress : callable
        Is told the name of each stage as it begins. [-]

    Returns
    -------
    CheckResult
        Its table has one row an index row; lengths are in columns that end in `_mm`. [mm]

    Raises
    ------
    ThermowellIndexError
        The input cannot be read or holds no index, a settings file is wrong, or the answer cannot be written.

    """
    chosen = settings or Settings()
    source = Path(path)
    basis = read_basis(chosen.basis) if chosen.basis else BUILT_IN
    column_map = read_column_map(chosen.columns) if chosen.columns else {}
    progress("open")
    with Package.open(source) as opened:
        is_own = is_own_output(opened)
        target = target_for(source, chosen.out, is_own=is_own) if write else None
        package = Package.from_bytes(strip_own(opened), source) if is_own else opened
        previous_path = chosen.previous or (target.previous if target else None)
        progress("read")
        table = read_workbook(package, _read_settings(basis, column_map, chosen.sheets))
        progress("check")
        findings = _judge(table, basis)
        content = _content_fingerprint(table)
        previous = read_previous(opened) if is_own else None
        if previous_path is not None:
            with Package.open(previous_path) as earlier:
                older = read_previous(earlier)
            if older is None:
                raise WorkbookError(f"{previous_path}: is not a checked workbook of an earlier run")
            previous = overlay(older, previous) if previous else older
        same = is_own and previous is not None and previous.content_fingerprint == content
        carried = carry(findings, previous, same_content=same)
        info = RunInfo(
            input_name=source.name,
            input_sha256=opened.sha256,
            revision=_revision(table),
            program_version=__version__,
            date=chosen.date or _today(),
            basis_name=basis.name,
            basis_fingerprint=_basis_fingerprint(basis),
            content_fingerprint=content,
            previous_name=previous_path.name if previous_path else (source.name if is_own else ""),
        )
        report = _report(table, carried, basis, info)
        if target is not None:
            progress("write")
            write_checked(report, package, target.path)
    if chosen.json is not None:
        write_json(report, chosen.json)
    return CheckResult(
        table=table.frame, findings=report.findings, report=report, written=target.path if target is not None else None
    )


def _read_settings(basis: Basis, column_map: Mapping[str, Mapping[str, str]], sheets: Collection[str]) -> ReadSettings:
    fits = {entry.name: entry.fits for entry in FIELDS if entry.fits is not None}
    least, most = basis.length_mm("limit.bore_depth_least"), basis.length_mm("limit.bore_depth_most")
    fits |= {"bore_depth": (least, most), "measured_bore_depth": (least, most)}
    return ReadSettings(
        dictionary=Dictionary(fields=FIELD, fits_mm=fits),
        headings=HeadingDictionary(FIELDS),
        only_sheets=tuple(sheets),
        column_map=column_map,
        default_unit=basis.choice("index.unit") or None,
    )


def _judge(table: IndexTable, basis: Basis) -> list[Finding]:
    """Complete the table with records, sizes and verdicts; return the findings."""
    build_records(table, basis)
    add_relations(table, basis.length_mm("limit.one_well"))
    confirm_schema(table.frame)
    findings = run(_rules(BEFORE_SIZING), table, basis)
    _size(table, basis, _withheld_rows(findings))
    findings += run(_rules(AFTER_SIZING), table, basis, earlier=findings)
    _conclude(table, findings)
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
    new = [name for name in sized.columns if name not in frame.columns]
    table.frame = pd.concat([frame, sized[new]], axis=1)


def _conclude(table: IndexTable, findings: Sequence[Finding]) -> None:
    """Add verdict, reason and Working; empty the lengths of withheld rows."""
    frame = table.frame
    withheld = _withheld_rows(findings)
    loud = {
        row_id
        for finding in findings
        if not finding.folded and finding.severity is not Severity.NOTE
        for row_id in finding.row_ids
    }
    is_withheld = frame["is_point"] & (frame.index.isin(list(withheld)) | frame["probe_length_order_mm"].isna())
    frame["verdict"] = np.select(
        [~frame["is_point"], is_withheld, frame.index.isin(list(loud))],
        [Verdict.NOT_APPLICABLE.value, Verdict.WITHHELD.value, Verdict.REVIEW.value],
        Verdict.SIZED.value,
    )
    frame.loc[is_withheld | ~frame["is_point"], list(RESULT_LENGTHS)] = np.nan
    frame.loc[~frame["is_point"], ["bore_depth_used_mm", "extension_installed_mm"]] = np.nan
    frame.loc[~frame["is_point"] | frame["bore_depth_used_mm"].isna(), "bore_depth_basis"] = ""
    causes: dict[int, list[str]] = {}
    for finding in findings:
        if finding.withholds:
            for row_id in finding.row_ids:
                causes.setdefault(row_id, []).append(RULES[finding.rule].plain_name)
    frame["reason"] = [
        reason if verdict == Verdict.NOT_APPLICABLE else "; ".join(dict.fromkeys(causes.get(row_id, [])))
        for row_id, reason, verdict in zip(frame.index, frame["reason"], frame["verdict"], strict=True)
    ]
    _check_reasons(frame)
    _add_working(frame)
    _add_parts(frame)


def _check_reasons(frame: Frame) -> None:
    """A row is never withheld without a finding that says why."""
    silent = frame[(frame["verdict"] == Verdict.WITHHELD) & (frame["reason"] == "")]
    if not silent.empty:
        first = silent.iloc[0]
        msg = f"row {first['row']} of {first['sheet']} is withheld and no rule says why"
        raise RuntimeError(msg)


WORKING_COLUMNS = {
    "bore_depth_mm": "bore_depth_used_mm",
    "installed_mm": "extension_installed_mm",
    "tip_thickness_mm": "tip_used_mm",
    "nipple_length_mm": "first_nipple_mm",
    "second_nipple_length_mm": "second_nipple_mm",
    "neck_length_mm": "neck_mm",
    "engagement_union_mm": "engagement_top_mm",
    "probe_length_plane": "plane",
}


def _add_working(frame: Frame) -> None:
    rows = frame.index[frame["verdict"] != Verdict.NOT_APPLICABLE]
    renamed = frame.drop(columns=list(WORKING_COLUMNS), errors="ignore").rename(
        columns={old: new for new, old in WORKING_COLUMNS.items()}
    )
    renamed["bore_depth_note"] = _bore_notes(frame)
    renamed["extension_note"] = np.where(
        frame["extension_is_standard"], "the plant's standard nipple, by the design basis", ""
    )
    renamed = renamed[
        [name for name in renamed.columns if not name.endswith(("_text", "_state", "_note_", "_unit_from"))]
    ]
    texts = pd.Series("", index=frame.index, dtype=object)
    for row_id, row in zip(rows, renamed.loc[rows].to_dict("records"), strict=True):
        show = partial(row_length, row_id=int(row_id), frame=frame)
        texts.at[row_id] = working_text({str(key): value for key, value in row.items()}, show)
    frame["working"] = texts


def _bore_notes(frame: Frame) -> list[str]:
    """Return for each row from which other row its well's lengths came."""
    fields = {"stated": "bore_depth", "measured": "measured_bore_depth"}
    notes = []
    for row_id in frame.index:
        field = fields.get(word(frame, row_id, "bore_depth_basis"), "overall_length")
        source = whole(frame, row_id, f"{field}_row_id")
        place = "" if source in {row_id, -1} else _place(frame, source)
        notes.append(f"from {place}" if place else "")
    return notes


def _place(frame: Frame, row_id: int) -> str:
    return f"{word(frame, row_id, 'tag')}, {word(frame, row_id, 'sheet')} row {whole(frame, row_id, 'row')}"


def _add_parts(frame: Frame) -> None:
    """Add the parts that an extension is bought as."""
    frame["extension_parts"] = [_parts(row_id, frame) for row_id in frame.index]


def _parts(row_id: int, frame: Frame) -> str:
    arrangement, thread = word(frame, row_id, "arrangement"), word(frame, row_id, "thread_text")
    lengths = [number(frame, row_id, name) for name in ("first_nipple_mm", "second_nipple_mm")]
    parts = [f"nipple {thread} x {row_length(length, row_id, frame)}" for length in lengths if not np.isnan(length)]
    if parts:
        parts += [f"union {thread}"] if "union" in arrangement else []
        parts += [f"coupling {thread}"] if "coupling" in arrangement else []
    return "; ".join(parts)


def _in_order(findings: Collection[Finding]) -> list[Finding]:
    return sorted(
        findings,
        key=lambda finding: (
            finding.severity.rank,
            finding.sheet,
            finding.row or 0,
            finding.rule,
            finding.field,
            finding.occurrence,
        ),
    )


def _content_fingerprint(table: IndexTable) -> str:
    """Return what tells one state of an index from another: every cell that was read, in order."""
    frame = table.frame
    names = [f"{entry.name}_text" if entry.kind is Kind.LENGTH else entry.name for entry in FIELDS]
    parts = ["\x1e".join(map(str, row)) for row in frame[["sheet", "row", *names]].itertuples(index=False)]
    return hashlib.sha256("\x1f".join(parts).encode()).hexdigest()


def _basis_fingerprint(basis: Basis) -> str:
    entries = [f"{entry.key}={entry.value}" for entry in basis]
    profiles = [repr(profile) for profile in basis.profiles.values()]
    return hashlib.sha256("\n".join([*entries, *profiles]).encode()).hexdigest()[:16]


def _revision(table: IndexTable) -> str:
    """Return the revision that the title block names, empty where it names none."""
    for line in table.title_lines:
        match = REVISION.search(line)
        if match and not re.fullmatch(r"(?:NO|BY|DATE|OF)", match.group(1), re.IGNORECASE):
            return match.group(1)
    return ""


def _today() -> str:
    epoch = os.environ.get("SOURCE_DATE_EPOCH")
    moment = datetime.fromtimestamp(int(epoch), UTC) if epoch and epoch.isdigit() else datetime.now(UTC)
    return moment.date().isoformat()


def _report(table: IndexTable, findings: Sequence[Finding], basis: Basis, info: RunInfo) -> Report:
    units = {}
    for table_id in table.tables:
        rows = table.frame[table.frame["table_id"] == table_id]
        points = rows[rows["is_point"]] if rows["is_point"].any() else rows
        units[table_id] = _majority(points["unit"].tolist())
    fractions = {int(table_id): bool(rows["in_fractions"].any()) for table_id, rows in table.frame.groupby("table_id")}
    return Report(
        table=table,
        findings=tuple(findings),
        run=info,
        schedule=schedule(table.frame),
        basis_rows=basis_rows(basis),
        profile_rows=profile_rows(basis),
        assumed=assumed_sentences(table.frame, findings, RULES),
        cautions=CAUTIONS,
        rule_names={name: entry.plain_name for name, entry in RULES.items()},
        rule_titles={name: entry.title for name, entry in RULES.items()},
        field_labels={entry.name: entry.label for entry in FIELDS},
        sheet_units=units,
        sheet_in_fractions={table_id: fractions.get(table_id, False) for table_id in table.tables},
    )


def _majority(units: Sequence[str]) -> str:
    known = [unit for unit in units if unit]
    return max(("in", "mm"), key=known.count) if known else "mm"
