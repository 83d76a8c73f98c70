"""Read, validate, size, write: the only module that knows all of them."""

import hashlib
import os
import re
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path

import pandas as pd

from thermowell_index import __version__
from thermowell_index.answers import Substitutes, SurveyEntry
from thermowell_index.basis import BUILT_IN, Basis
from thermowell_index.basis_file import read_basis
from thermowell_index.column_map import read_column_map
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.errors import SettingsError
from thermowell_index.findings import Finding, Severity
from thermowell_index.judge import judge
from thermowell_index.ooxml import Package
from thermowell_index.reader.columns import Dictionary
from thermowell_index.reader.formats import OpenedIndex, open_index
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.show_columns import column_map_text, show_columns
from thermowell_index.reader.workbook import ReadSettings, read_workbook
from thermowell_index.records.words import KNOWN_WORDS
from thermowell_index.registry import RULES, changed_checks, switches
from thermowell_index.report_text import CAUTIONS, assumed_sentences, basis_rows, profile_rows, standard_rows
from thermowell_index.revising import LOUDEST_RULE, earlier_runs, enter_earlier, revise
from thermowell_index.revisions.memory import own_cells
from thermowell_index.sizing.first_touch import touch_cards
from thermowell_index.sizing.schedule import schedule
from thermowell_index.sizing.spares_plan import spares_plan
from thermowell_index.sizing.substitutes import substitutes
from thermowell_index.stock import read_stock
from thermowell_index.survey import survey
from thermowell_index.survey_answers import Answer, admitted, enter, read_survey, read_survey_file
from thermowell_index.table import IndexTable, Kind
from thermowell_index.validator.residuals import residuals
from thermowell_index.writer import (
    FIELD_SURVEY_SHEET,
    Report,
    RunInfo,
    is_own_output,
    own_sheets,
    strip_own,
    target_for,
    write_checked,
    write_json,
)

Progress = Callable[[str], None]
LONGEST_REVISION = 4
REVISION_LABEL = re.compile(r"rev(?:ision)?\.?\s*(?:no\.?)?\s*:?", re.IGNORECASE)
REVISION = re.compile(r"\brev(?:ision)?\b\.?\s*(?:no\.?)?\s*[:=]?\s*([A-Z0-9]{1,4})\b", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class Settings:
    """What a run is told beside its input; every entry has a usual value."""

    out: Path | None = None
    json: Path | None = None
    basis: Path | None = None
    columns: Path | None = None
    previous: Path | None = None
    survey: Path | None = None
    stock: Path | None = None
    sheets: Collection[str] = ()
    date: str | None = None
    revision: str = ""


@dataclass(frozen=True, kw_only=True)
class CheckResult:
    """What a run found: the table with a row for each index row, the findings, and where they were written."""

    table: pd.DataFrame
    findings: Sequence[Finding]
    report: Report
    written: Path | None
    carried_from: str = ""

    @property
    def said(self) -> Sequence[str]:
        """Return what could not be read back from earlier answers, and what became of remarks, a line each."""
        return [self.report.in_names(line) for line in self.report.history.said]

    @property
    def is_changed_after_order(self) -> bool:
        """Return whether a length no longer fits what was ordered, which is the loudest finding of all."""
        return any(finding.rule == LOUDEST_RULE for finding in self.report.live_findings)

    def worst(self) -> Severity | None:
        """Return the severity of the loudest live finding, None where there is none."""
        live = [finding.severity for finding in self.report.live_findings]
        return min(live, key=lambda severity: severity.rank) if live else None


def check_workbook(
    path: Path | str, settings: Settings | None = None, *, write: bool = True, progress: Progress = lambda _: None
) -> CheckResult:
    """Check an index workbook, size its sensors, and write the annotated copy.

    Parameters
    ----------
    path : Path or str
        The index (.xlsx, .xlsm, .xlsb, .xls, .ods or .csv). It is never written to. [-]
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
    day = run_date(chosen.date)
    source = Path(path)
    basis, settings_read = _user_settings(chosen)
    progress("open")
    index = open_index(source)
    with index.package as opened:
        is_own = is_own_output(opened)
        target = target_for(source, chosen.out, is_own=is_own) if write else None
        package = Package.from_bytes(strip_own(opened), source) if is_own else opened
        progress("read")
        table = read_workbook(package, settings_read)
        at_target = target.previous if target else None
        before = earlier_runs(opened, chosen.previous, at_target, is_own=is_own)
        readings = [*([opened.path] if is_own else []), *filter(None, [chosen.previous or at_target])]
        entries = _enter_survey(table, basis, chosen, readings, day)
        cells = own_cells(table.frame, FIELDS)
        enter_earlier(table.frame, cells, before.run, basis)
        progress("check")
        findings = judge(table, basis)
        info = _run_info(index, table, basis, chosen, previous_name=before.name, day=day)
        revised = revise(
            findings, before, table=table, cells=cells, info=info, basis=basis, stated_revision=chosen.revision
        )
        report = _report(table, revised.findings, basis, revised.info)
        report = replace(
            report,
            assumed=[*index.notes, *before.input_notes, *report.assumed],
            history=replace(revised.history, input_notes=[*index.notes, *before.input_notes]),
            survey=survey(table.frame, findings, basis, entries),
            substitutes=_substitutes(table, basis, chosen.stock),
        )
        if target is not None:
            progress("write")
            report = write_checked(report, package, target.path)
    if chosen.json is not None:
        write_json(report, chosen.json)
    return CheckResult(
        table=table.frame,
        findings=report.findings,
        report=report,
        written=target.path if target is not None else None,
        carried_from=before.name,
    )


def _substitutes(table: IndexTable, basis: Basis, stock: Path | None) -> Substitutes | None:
    if stock is None:
        return None
    own = {name: profile.words for name, profile in basis.profiles.items() if name not in BUILT_IN.profiles}
    clearance_mm = basis.length_mm("limit.sheath_clearance")
    return substitutes(table.frame, read_stock(stock), clearance_mm=clearance_mm, profile_words=own)


def _enter_survey(
    table: IndexTable, basis: Basis, chosen: Settings, answers: Sequence[Path], day: str
) -> list[SurveyEntry]:
    """Enter the readings of a filled-in Field survey, and those that an earlier answer took; return all lines."""
    given = read_survey_file(chosen.survey) if chosen.survey else []
    kept: list[Answer] = []
    for path in answers:
        with Package.open(path) as package:
            form = own_sheets(package).get(FIELD_SURVEY_SHEET)
            kept += read_survey(package, [form]) if form else []
    entering, staying = admitted(given, kept)
    agree_mm = 2 * basis.length_mm("tolerance.bore_measured")
    return [*enter(table, entering, agree_mm=agree_mm, date=day), *staying]


def _run_info(
    index: OpenedIndex, table: IndexTable, basis: Basis, chosen: Settings, *, previous_name: str, day: str
) -> RunInfo:
    return RunInfo(
        input_name=index.package.path.name,
        input_sha256=index.sha256,
        revision=chosen.revision or _revision(table),
        program_version=__version__,
        date=day,
        basis_name=basis.name,
        basis_fingerprint=_basis_fingerprint(basis),
        content_fingerprint=_content_fingerprint(table),
        previous_name=previous_name,
    )


def columns_as_read(path: Path | str, settings: Settings | None = None) -> tuple[str, str]:
    """Return what would be read as what, as text, and the same as a heading map ready to edit; nothing is checked.

    Raises
    ------
    ThermowellIndexError
        The input cannot be read or holds no index, or a settings file is wrong.

    """
    chosen = settings or Settings()
    source = Path(path)
    _, settings_read = _user_settings(chosen)
    with open_index(source).package as opened:
        package = Package.from_bytes(strip_own(opened), source) if is_own_output(opened) else opened
        table = read_workbook(package, settings_read)
        return show_columns(table), column_map_text(table)


def _user_settings(chosen: Settings) -> tuple[Basis, ReadSettings]:
    """Return the design basis of a run, and what its reader is told."""
    basis = read_basis(chosen.basis, switches()) if chosen.basis else BUILT_IN
    column_map = read_column_map(chosen.columns) if chosen.columns else {}
    fits = {entry.name: entry.fits for entry in FIELDS if entry.fits is not None}
    least, most = basis.length_mm("limit.bore_depth_least"), basis.length_mm("limit.bore_depth_most")
    fits |= {"bore_depth": (least, most), "measured_bore_depth": (least, most)}
    settings = ReadSettings(
        dictionary=Dictionary(fields=FIELD, fits_mm=fits, known_words=KNOWN_WORDS),
        headings=HeadingDictionary(FIELDS),
        only_sheets=tuple(chosen.sheets),
        column_map=column_map,
        default_unit=basis.choice("index.unit") or None,
    )
    return basis, settings


def _content_fingerprint(table: IndexTable) -> str:
    """Return what tells one state of an index from another: every cell that was read, in order."""
    frame = table.frame
    names = [f"{entry.name}_text" if entry.kind is Kind.LENGTH else entry.name for entry in FIELDS]
    parts = ["\x1e".join(map(str, row)) for row in frame[["sheet", "row", *names]].itertuples(index=False)]
    return hashlib.sha256("\x1f".join(parts).encode()).hexdigest()


def _basis_fingerprint(basis: Basis) -> str:
    entries = [f"{entry.key}={entry.value}" for entry in basis]
    profiles = [repr(profile) for profile in basis.profiles.values()]
    rules = [f"rules.{name}={choice}" for name, choice in sorted(basis.rules.items())]
    return hashlib.sha256("\n".join([*entries, *profiles, *rules]).encode()).hexdigest()[:16]


def _revision(table: IndexTable) -> str:
    """Return the revision that the title block names, in one cell or beside its label; empty where it names none."""
    lines = table.title_lines
    for line, beside in zip(lines, [*lines[1:], ""], strict=False):
        is_label = REVISION_LABEL.fullmatch(line.strip()) is not None
        match = REVISION.search(
            f"rev {beside.strip()}" if is_label and len(beside.strip()) <= LONGEST_REVISION else line
        )
        if match and not re.fullmatch(r"(?:NO|BY|DATE|OF)", match.group(1), re.IGNORECASE):
            return match.group(1)
    return ""


def run_date(given: str | None) -> str:
    """Return the day of the run: the given one, else that of SOURCE_DATE_EPOCH, else today.

    Raises
    ------
    SettingsError
        The given one is no day.

    """
    if given:
        try:
            return date.fromisoformat(given).isoformat()
        except ValueError as exc:
            raise SettingsError(f"date {given!r}: is no day; write it as YYYY-MM-DD") from exc
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    moment = datetime.fromtimestamp(int(epoch), UTC) if epoch.isdecimal() else datetime.now(UTC)
    return moment.date().isoformat()


def _report(table: IndexTable, findings: Sequence[Finding], basis: Basis, info: RunInfo) -> Report:
    units = {}
    for table_id in table.tables:
        rows = table.frame[table.frame["table_id"] == table_id]
        points = rows[rows["is_point"]] if rows["is_point"].any() else rows
        units[table_id] = _majority(points["unit"].tolist())
    shows = table.frame.groupby("table_id")["in_fractions"].any()
    unit = _majority(list(table.frame.loc[table.frame["is_point"], "unit"]))
    return Report(
        table=table,
        findings=tuple(findings),
        run=info,
        schedule=schedule(table.frame),
        spares=spares_plan(table.frame),
        touch_cards=touch_cards(table.frame),
        residuals=residuals(table.frame, unit),
        majority_unit=unit,
        basis_rows=basis_rows(basis),
        profile_rows=profile_rows(basis),
        standard_rows=standard_rows(),
        assumed=[*changed_checks(basis), *assumed_sentences(table.frame, findings, RULES)],
        cautions=CAUTIONS,
        rule_names={name: entry.plain_name for name, entry in RULES.items()},
        rule_titles={name: entry.title for name, entry in RULES.items()},
        field_labels={entry.name: entry.label for entry in FIELDS},
        sheet_units=units,
        sheet_in_fractions={table_id: bool(shows.get(table_id, default=False)) for table_id in table.tables},
    )


def _majority(units: Sequence[str]) -> str:
    known = [unit for unit in units if unit]
    return max(("in", "mm"), key=known.count) if known else "mm"
