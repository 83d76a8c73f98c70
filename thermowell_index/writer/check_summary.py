"""The sheet Check summary: what was read, how it was read, what came out, what was assumed, and the cautions."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from openpyxl import Workbook

from thermowell_index.columns_read import ColumnLine, column_lines
from thermowell_index.findings import Severity, Verdict
from thermowell_index.ooxml import column_letters
from thermowell_index.revisions.previous import said_of_basis
from thermowell_index.revisions.sample import in_words
from thermowell_index.revisions.sign_off import STATES, as_lines, sign_off
from thermowell_index.table import SheetRead, TableRead
from thermowell_index.writer.page import BOLD_FONT, SEVERITY_FILLS, Page
from thermowell_index.writer.report import Report
from thermowell_index.writer.residual_chart import write_residuals

TITLE = "Check summary"
WIDTHS = (23.0, 12.0, 31.0, 23.0, 11.5, 22.0, 10.5, 29.0)
WIDE = sum(1 for _ in WIDTHS)
VERDICT_MEANINGS = {
    Verdict.SIZED: "a length to order is given",
    Verdict.REVIEW: "a length is given, and something needs a look before it is bought",
    Verdict.WITHHELD: "no length is given; the row says why",
    Verdict.NOT_APPLICABLE: "the row is no sensor in a well",
}
REGISTER_OF_RUNS = (
    "Run",
    "Date",
    "Input",
    "SHA-256 of the input",
    "Revision",
    "Program, design basis",
    "Rows",
    "Counts",
)
CHANGES = ("new", "open", "changed", "cleared")

Line: TypeAlias = Sequence[str | float | None]


def build(book: Workbook, name: str, report: Report) -> None:
    """Add the sheet."""
    page = Page(sheet=book.create_sheet(name), widths=WIDTHS)
    page.title(TITLE, report)
    _write_sign_off(page, report)
    _write_cautions(page, report)
    _write_verdicts(page, report)
    _write_findings(page, report)
    if report.residuals is not None:
        write_residuals(page, report.residuals, report.majority_unit)
    _write_assumed(page, report)
    _write_sheets(page, report)
    _write_columns(page, report)
    _write_run(page, report)
    _write_register(page, report)
    page.finish(report)


def _write_sign_off(page: Page, report: Report) -> None:
    """Write where the review stands, as of this run."""
    state = sign_off(report.findings)
    page.section("Sign-off")
    for number, sentence in enumerate(state.sentences()):
        page.sentence(sentence)
        if number == 0 and state.open_errors:
            cell = page.sheet.cell(page.next_row - 1, 1)
            cell.font, cell.fill = BOLD_FONT, SEVERITY_FILLS[Severity.ERROR]
    page.headings(("Severity or reviewer", *STATES), numbers=STATES)
    for label, counts in as_lines(state):
        page.line((label, *counts))
    page.skip()
    for sentence in _signed_elsewhere(report):
        page.sentence(sentence)
    page.skip()


def _signed_elsewhere(report: Report) -> Iterator[str]:
    """Yield what is signed on other sheets, and what could not be read back from the previous workbook."""
    history = report.history
    basis = history.basis_sign_off
    yield f"Design basis: {said_of_basis(basis)}"
    if history.sample.places:
        yield in_words(history.sample, history.rows)
    if history.register:
        count = len(history.register)
        yield f"Remarks on rows that are no longer in the index: {count}, on their own sheet."
    yield from map(report.in_names, history.all_said)
    for sheet, count in report.unnoted.items():
        yield report.in_names(
            f"{sheet}: {count} flagged cell{'' if count == 1 else 's'} with a conversation (threaded comment) got no "
            "note; what was found there stands on Discrepancies alone"
        )


def _write_register(page: Page, report: Report) -> None:
    """Write a line a run; earlier lines stay as they were written."""
    if not report.history.runs:
        return
    page.section("Run register")
    page.headings(REGISTER_OF_RUNS, numbers=("Rows",))
    for number, run in enumerate(report.history.runs, start=1):
        counts = (
            f"{run.errors} errors, {run.warnings} warnings, {run.notes} notes; {run.sized} sized, {run.review} review, "
            f"{run.withheld} withheld, {run.not_applicable} not applicable"
        )
        page.line(
            (
                f"{number}, after {run.previous_name}" if run.previous_name else f"{number}, the first",
                run.date,
                run.input_name,
                run.input_sha256,
                run.revision or "not stated",
                f"{run.program_version}; {run.basis_name} {run.basis_fingerprint}",
                run.rows,
                counts,
            )
        )
    page.skip()


def _write_run(page: Page, report: Report) -> None:
    run = report.run
    page.section("Run")
    for label, value in (
        ("input", run.input_name),
        ("revision", run.revision or "not stated"),
        ("SHA-256 of the input", run.input_sha256),
        ("program version", run.program_version),
        ("date", run.date),
        ("design basis", f"{run.basis_name} (fingerprint {run.basis_fingerprint})"),
        ("fingerprint of the index", run.content_fingerprint),
        ("previous run", run.previous_name or "none"),
    ):
        page.line((label, value), (1, WIDE - 1))
    page.skip()


def _write_cautions(page: Page, report: Report) -> None:
    page.section("Cautions")
    for caution in report.cautions:
        page.sentence(caution)
    page.skip()


def _write_verdicts(page: Page, report: Report) -> None:
    rows = len(report.table.frame)
    counts = Counter(str(verdict) for verdict in report.table.frame["verdict"])
    page.section("Verdicts")
    page.headings(("Verdict", "Rows", "Share of the rows", "What it means"), (1, 1, 1, 3), ("Rows",))
    for verdict in Verdict:
        count = counts[verdict.value]
        page.line((verdict.value, count, share(count, rows), VERDICT_MEANINGS[verdict]), (1, 1, 1, 3))
    page.line(("rows read", rows, share(rows, rows), ""), (1, 1, 1, 3))
    page.skip()
    with_own = rows_with_own_findings(report)
    live = rows - counts[Verdict.NOT_APPLICABLE.value]
    page.sentence(
        f"{with_own} of the {live} rows with a sensor in a well ({share(with_own, live)}) carry an error or a warning "
        "of their own."
    )
    page.skip()


def share(count: int, of: int) -> str:
    """Return a share in percent, a dash where there is nothing to share."""
    return f"{100 * count / of:.1f} %" if of else "-"


def rows_with_own_findings(report: Report) -> int:
    """Return how many rows have an error or a warning that speaks of that row, not of a sheet."""
    verdicts = report.table.frame["verdict"]
    rows = {
        row_id
        for finding in report.live_findings
        if not finding.folded and finding.severity is not Severity.NOTE
        for row_id in finding.row_ids
    }
    return sum(1 for row_id in rows if verdicts.get(row_id) != Verdict.NOT_APPLICABLE)


def _write_findings(page: Page, report: Report) -> None:
    page.section("Findings")
    page.headings(("Severity", "Now", "Against the previous run"), (1, 1, 2), ("Now",))
    for severity in Severity:
        changes = Counter(finding.change for finding in report.findings if finding.severity is severity)
        now = sum(number for change, number in changes.items() if change != "cleared")
        row = page.line((severity.value, now, _in_words(changes)), (1, 1, 2))
        if severity in SEVERITY_FILLS:
            page.sheet.cell(row, 1).fill = SEVERITY_FILLS[severity]
    page.skip()
    counts = Counter((finding.severity, finding.rule) for finding in report.live_findings)
    if counts:
        page.headings(("Rule", "Findings", "What is wrong", "Severity"), (1, 1, 4, 1), ("Findings",))
    for (severity, rule), count in sorted(counts.items(), key=lambda item: (item[0][0].rank, -item[1], item[0][1])):
        title = report.rule_titles.get(rule, "")
        page.line((report.rule_name(rule), count, title, severity.value), (1, 1, 4, 1))
    page.skip()


def _in_words(changes: Counter[str]) -> str:
    return ", ".join(f"{changes[change]} {change}" for change in CHANGES if changes[change]) or "-"


def _write_assumed(page: Page, report: Report) -> None:
    page.section("What was assumed")
    for sentence in report.assumed or ("Nothing beyond the design basis.",):
        page.sentence(sentence)
    page.skip()


def _write_sheets(page: Page, report: Report) -> None:
    page.section("Sheets of the workbook")
    page.headings(("Sheet", "Read", "Index rows", "Why", "Remarks"), (1, 1, 1, 2, 3), ("Index rows",))
    rows = Counter(str(sheet) for sheet in report.table.frame["sheet"])
    for sheet in report.table.sheets:
        read = "read" if sheet.is_read else "passed over"
        page.line((sheet.name, read, rows[sheet.name], sheet.reason, _remarks(sheet)), (1, 1, 1, 2, 3))
    page.skip()


def _remarks(sheet: SheetRead) -> str:
    remarks = []
    if sheet.is_protected:
        remarks.append("protected: annotated all the same, and still protected")
    if sheet.state != "visible":
        remarks.append("the sheet is hidden")
    for number, what in ((sheet.hidden_rows, "row"), (sheet.hidden_columns, "column")):
        if number:
            remarks.append(f"{number} hidden {what}{'' if number == 1 else 's'}, read like the others")
    passed = Counter(sheet.passed_rows.values())
    remarks += [
        f"{count} row{'' if count == 1 else 's'} passed over: {reason}" for reason, count in sorted(passed.items())
    ]
    return "; ".join(remarks)


def _write_columns(page: Page, report: Report) -> None:
    page.section("Which heading was read as which field")
    names = ("Sheet", "Column", "Heading as typed", "Read as", "Unit", "Why", "Row", "Sample values")
    page.headings(names, numbers=("Row",))
    for sheet in report.table.sheets:
        for table in sheet.tables:
            for line in column_lines(table, report.table.frame):
                page.line(_column_line(line, table))
    page.skip()


def _column_line(line: ColumnLine, table: TableRead) -> Line:
    """Return one column of a table with its place, as `--show-columns` prints it."""
    place = (table.sheet, column_letters(line.column), line.heading)
    return *place, line.meaning, line.unit, line.why, table.heading_row, " | ".join(line.samples)
