"""The annotated copy: the client's workbook with answers beside its tables and our sheets after its own."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from io import BytesIO
from pathlib import Path

from openpyxl import Workbook

from thermowell_index.findings import Finding
from thermowell_index.ooxml import Package, SheetEdit, column_letters, parse_range, write_copy
from thermowell_index.writer import (
    check_summary,
    design_basis,
    discrepancies,
    field_survey,
    first_touch,
    order_schedule,
    qa_sample,
    register,
    spares_plan,
    state,
    substitutes,
    what_changed,
)
from thermowell_index.writer.carry_over import BASIS_SHEET, DISCREPANCIES_SHEET, REGISTER_SHEET, SAMPLE_SHEET
from thermowell_index.writer.columns import annotate
from thermowell_index.writer.flags import Place, fills, flagged, notes
from thermowell_index.writer.hand_edits import written_beside
from thermowell_index.writer.marks import AUTHOR, FIELD_SURVEY_SHEET, STATE_SHEET, free_name, marks_for
from thermowell_index.writer.note_edits import NOTES, unnoted_cells, written_notes
from thermowell_index.writer.remark_sheets import WRITTEN_IN
from thermowell_index.writer.report import Report
from thermowell_index.writer.written import Written, written_on

STATE_TITLE = "Thermowell index state"


@dataclass(frozen=True, kw_only=True)
class NewSheet:
    """One of our sheets: what it is, its title, how it is written, and whether a run has anything for it."""

    what: str
    title: str
    build: Callable[[Workbook, str, Report], None]
    is_wanted: Callable[[Report], bool] = lambda _: True


PLAIN_SHEETS: tuple[NewSheet, ...] = (
    NewSheet(
        what="what_changed",
        title=what_changed.TITLE,
        build=what_changed.build,
        is_wanted=lambda report: report.history.comparison is not None,
    ),
    NewSheet(what="check_summary", title=check_summary.TITLE, build=check_summary.build),
    NewSheet(what="order_schedule", title=order_schedule.TITLE, build=order_schedule.build),
    NewSheet(what="spares_plan", title=spares_plan.TITLE, build=spares_plan.build),
    NewSheet(what=FIELD_SURVEY_SHEET, title=field_survey.TITLE, build=field_survey.build),
    NewSheet(what="first_touch", title=first_touch.TITLE, build=first_touch.build),
    NewSheet(
        what="substitutes",
        title=substitutes.TITLE,
        build=substitutes.build,
        is_wanted=lambda report: report.substitutes is not None,
    ),
    NewSheet(
        what=SAMPLE_SHEET,
        title=qa_sample.TITLE,
        build=qa_sample.build,
        is_wanted=lambda report: bool(report.history.sample.places or report.history.sample.earlier),
    ),
    NewSheet(
        what=REGISTER_SHEET,
        title=register.TITLE,
        build=register.build,
        is_wanted=lambda report: bool(report.history.register or report.history.own_lines),
    ),
    NewSheet(what=BASIS_SHEET, title=design_basis.TITLE, build=design_basis.build),
)


def write_checked(report: Report, package: Package, target: Path) -> Report:
    """Write the annotated copy of a workbook, and return the report as written; the workbook itself is not touched.

    `package` is the index without answers of ours: a checked workbook is stripped first.

    Raises
    ------
    OutputError
        The copy cannot be written there, or a sheet has no room for the answers.

    """
    report = first_touch.with_readings_kept(replace(report, date_1904=package.date_1904))
    flags = flagged(report)
    edits, spans = _edits(report, package, flags)
    wanted = [sheet for sheet in PLAIN_SHEETS if sheet.is_wanted(report)]
    titles = _titles(wanted)
    names = _names(package, titles)
    renamed = {title: names[what] for what, title in titles.items() if names[what] != title}
    report = replace(report, unnoted=unnoted_cells(package, edits), renamed=renamed)
    beside = written_beside(report.table.sheets, package, edits, spans)
    beside[NOTES] = written_notes(package, edits)
    book, keepers = _new_sheets(report, names, flags, wanted, spans, beside)
    write_copy(
        package,
        target,
        edits=edits,
        new_sheets=book,
        marks=marks_for(names, spans),
        author=AUTHOR,
        style_keepers={names[STATE_SHEET]: keepers},
    )
    return report


def _edits(
    report: Report, package: Package, flags: dict[str, dict[Place, list[Finding]]]
) -> tuple[dict[str, SheetEdit], dict[str, str]]:
    """Return the edit of each index sheet, and the columns that the answers take there."""
    edits: dict[str, SheetEdit] = {}
    spans: dict[str, str] = {}
    for sheet in report.table.sheets:
        cells_flagged = flags.get(sheet.name, {})
        if not (sheet.tables or cells_flagged):
            continue
        edit = edits[sheet.name] = SheetEdit(fills=fills(cells_flagged), notes=notes(cells_flagged, report))
        if sheet.tables:
            first, last = annotate(sheet, package.read(sheet.name), report, edit)
            spans[sheet.name] = f"${column_letters(first)}:${column_letters(last)}"
    return edits, spans


def _titles(wanted: Sequence[NewSheet]) -> dict[str, str]:
    titles = {DISCREPANCIES_SHEET: discrepancies.TITLE, **{sheet.what: sheet.title for sheet in wanted}}
    return {**titles, STATE_SHEET: STATE_TITLE}


def _names(package: Package, titles: Mapping[str, str]) -> dict[str, str]:
    """Return a name for each of our sheets that no other sheet bears."""
    taken = [sheet.name for sheet in package.sheets]
    names: dict[str, str] = {}
    for what, title in titles.items():
        names[what] = free_name(title, [*taken, *names.values()])
    return names


def _new_sheets(
    report: Report,
    names: dict[str, str],
    flags: dict[str, dict[Place, list[Finding]]],
    wanted: Sequence[NewSheet],
    spans: dict[str, str],
    beside: Mapping[str, Sequence[Written]],
) -> tuple[bytes, dict[Place, tuple[str, Place]]]:
    """Return a workbook of our sheets, and which cells of the hidden one keep which style."""
    book = Workbook()
    for sheet in book.worksheets:
        book.remove(sheet)
    discrepancies.build(book, names[DISCREPANCIES_SHEET], report)
    for new in wanted:
        new.build(book, names[new.what], report)
    built = [DISCREPANCIES_SHEET, *(new.what for new in wanted)]
    ours = {what: written_on(book[names[what]], WRITTEN_IN.get(what, ())) for what in built}
    keepers = state.build(
        book,
        names[STATE_SHEET],
        content_fingerprint=report.run.content_fingerprint,
        findings=report.findings,
        flagged=flags,
        history=report.history,
        annotated={name: parse_range(span)[1] for name, span in spans.items()},
        written={**ours, **beside},
    )
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue(), keepers
