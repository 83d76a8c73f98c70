"""The sheet Check summary, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Package
from thermowell_index.revisions.history import History
from thermowell_index.revisions.previous import BasisSignOff, RegisterEntry
from thermowell_index.revisions.run_register import RunLine
from thermowell_index.writer import write_checked
from thermowell_index.writer.check_summary import rows_with_own_findings, share
from thermowell_index.writer.report import Report


def _lines(book: Workbook) -> list[list[Any]]:
    rows = book["Check summary"].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


@pytest.fixture
def lines_of_run(index_path: Path) -> Callable[[Report], list[list[Any]]]:
    """Return a function that writes a report and reads the sheet back."""

    def write(report: Report) -> list[list[Any]]:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(report, package, target)
        return _lines(load_workbook(target))

    return write


def test_the_verdicts_are_counted_and_add_up(checked_book: Workbook) -> None:
    lines = _lines(checked_book)
    counts = {line[0]: line[1] for line in lines if len(line) > 1}
    verdicts = [counts[name] for name in ("sized", "review", "withheld", "not applicable")]
    assert verdicts == [4, 1, 3, 1]
    assert counts["rows read"] == sum(verdicts)


def test_the_share_of_rows_with_a_finding_of_their_own_is_said(checked_book: Workbook) -> None:
    assert ["3 of the 8 rows with a sensor in a well (37.5 %) carry an error or a warning of their own."] in _lines(
        checked_book
    )


def test_the_share_of_nothing_is_a_dash() -> None:
    assert (share(1, 8), share(0, 0)) == ("12.5 %", "-")


def test_notes_folded_and_cleared_findings_and_rows_without_a_well_are_not_counted_as_own(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    findings = [
        make_finding(),
        make_finding(rule="again"),
        make_finding(severity=Severity.NOTE, row_ids=(0,)),
        make_finding(folded=True, row_ids=(1,)),
        make_finding(change="cleared", row_ids=(5,)),
        make_finding(row_ids=(3,)),
    ]
    assert rows_with_own_findings(make_report(findings=findings)) == 1


def test_findings_are_counted_by_severity_rule_and_change(
    make_finding: Callable[..., Finding],
    make_report: Callable[..., Report],
    lines_of_run: Callable[[Report], list[list[Any]]],
) -> None:
    findings = [
        make_finding(change="open"),
        make_finding(change="open", tag="TE-2"),
        make_finding(change="changed", rule="other"),
        make_finding(change="cleared", tag="TE-3"),
    ]
    lines = lines_of_run(make_report(findings=findings))
    assert ["error", 3, "2 open, 1 changed, 1 cleared"] in lines
    assert ["warning", 0, "-"] in lines
    assert ["bore deeper than well", 2, "The bore is deeper than the well is long.", "error"] in lines


def test_every_sheet_is_listed_as_read_or_passed_over_with_the_reason(
    report: Report, lines_of_run: Callable[[Report], list[list[Any]]]
) -> None:
    _, utilities, mixing = report.table.sheets
    utilities.is_protected, utilities.state = True, "hidden"
    mixing.passed_rows.update({3: "section row", 9: "section row", 12: "total"})
    mixing.hidden_columns = 2
    lines = lines_of_run(report)
    remarks = (
        "1 hidden row, read like the others; 2 hidden columns, read like the others; 2 rows passed over: section row; "
        "1 row passed over: total"
    )
    assert ["Cover", "passed over", 0, "no heading row with a tag column"] in lines
    assert [
        "Utilities",
        "read",
        6,
        "7 headings known",
        "protected: annotated all the same, and still protected; the sheet is hidden",
    ] in lines
    assert [
        "Mixing",
        "read",
        3,
        "7 headings known",
        remarks,
    ] in lines


def test_every_heading_is_listed_with_what_it_was_read_as(
    report: Report, lines_of_run: Callable[[Report], list[list[Any]]]
) -> None:
    table = report.table.tables[0]
    table.unread.append((9, "SPARE"))
    table.undecided.append((8, "LENGTH", ("overall_length", "bore_depth")))
    table.samples = {4: ("9", "8 7/8"), 9: ("x",)}
    lines = lines_of_run(report)
    bore = ["Utilities", "D", "BORE DEPTH", "bore depth", "in (title block)", "a wording of the trade", 5, "9 | 8 7/8"]
    assert bore in lines
    assert ["Utilities", "H", "LENGTH", "UNDECIDED: overall length or bore depth", 5] in lines
    assert ["Utilities", "I", "SPARE", "not read", 5, "x"] in lines


def test_the_run_is_told_from_any_other(checked_book: Workbook) -> None:
    told = {str(line[0]): line[1] for line in _lines(checked_book) if len(line) == 2}
    assert told["SHA-256 of the input"] == "0" * 64
    assert (told["revision"], told["program version"], told["previous run"]) == ("C", "0.1.0", "none")
    assert told["design basis"] == "built in (fingerprint a1b2c3d4)"


def test_cautions_and_assumptions_are_said(
    checked_book: Workbook, make_report: Callable[..., Report], lines_of_run: Callable[[Report], list[list[Any]]]
) -> None:
    lines = _lines(checked_book)
    assert ["A length is valid for the stated sensor profile only."] in lines
    assert ["Sensor mounting: spring-loaded fitting on both sheets, which have no such column."] in lines
    assert ["Nothing beyond the design basis."] in lines_of_run(make_report(assumed=[], findings=[]))


def test_open_errors_are_said_first_of_all(checked_book: Workbook) -> None:
    lines = [line for line in _lines(checked_book) if line]
    assert lines[2:5] == [
        ["Sign-off"],
        ["2 errors are open: not signed off."],
        ["Severity or reviewer", "open", "unsigned", "decided", "lapsed"],
    ]
    assert ["error", 2, 0, 0, 0] in lines


def test_what_is_signed_elsewhere_and_what_could_not_be_read_back_is_said(
    make_report: Callable[..., Report],
    make_finding: Callable[..., Finding],
    lines_of_run: Callable[[Report], list[list[Any]]],
) -> None:
    history = History(
        rows=[],
        register=[RegisterEntry(finding=make_finding(comment="x"))],
        basis_sign_off=BasisSignOff(disposition="accepted", reviewer="E. F."),
        said=["a sheet is gone"],
    )
    lines = lines_of_run(make_report(findings=[], history=history))
    assert ["No error is open."] in lines
    assert ["Design basis: accepted by E. F."] in lines
    assert ["Remarks on rows that are no longer in the index: 1, on their own sheet."] in lines
    assert ["a sheet is gone"] in lines


def test_every_run_has_a_line_in_the_register(
    make_report: Callable[..., Report], lines_of_run: Callable[[Report], list[list[Any]]]
) -> None:
    counts = {"rows": 9, "errors": 1, "warnings": 2, "notes": 3, "sized": 4, "review": 1, "withheld": 3}
    first = RunLine(
        date="2024-05-03", input_name="A.xlsx", revision="", input_sha256="0" * 64, program_version="0.1.0",
        basis_name="built in", basis_fingerprint="ab", content_fingerprint="c", previous_name="", not_applicable=1,
        **counts,
    )  # fmt: skip
    second = replace(first, date="2024-06-03", input_name="B.xlsx", revision="B", previous_name="A_checked.xlsx")
    lines = lines_of_run(make_report(history=History(runs=[first, second])))
    said = "1 errors, 2 warnings, 3 notes; 4 sized, 1 review, 3 withheld, 1 not applicable"
    assert ["1, the first", "2024-05-03", "A.xlsx", "0" * 64, "not stated", "0.1.0; built in ab", 9, said] in lines
    assert ["2, after A_checked.xlsx", "2024-06-03", "B.xlsx", "0" * 64, "B", "0.1.0; built in ab", 9, said] in lines
