"""What an earlier run and its reviewers left, read wherever a person moved it."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.utils.datetime import MAC_EPOCH

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Package
from thermowell_index.revisions.history import History
from thermowell_index.revisions.previous import PreviousRun, RegisterEntry
from thermowell_index.writer import Report, read_previous, write_checked
from thermowell_index.writer.carry_over import disposition_of

REMARKS = {"disposition": "accepted", "reviewer": "A. B.", "reviewed_on": "2024-06-01", "comment": "drawing is right"}


def _previous(path: Path) -> PreviousRun:
    with Package.open(path) as package:
        previous = read_previous(package)
    assert previous is not None
    return previous


def _remark(path: Path, tag: str, **remarks: Any) -> None:
    """Write into the row of a tag, as a reviewer does."""
    book = load_workbook(path)
    sheet = book["Discrepancies"]
    columns = {str(sheet.cell(5, column).value): column for column in range(1, sheet.max_column + 1)}
    for row in range(6, sheet.max_row + 1):
        if sheet.cell(row, columns["Tag"]).value == tag:
            for name, value in remarks.items():
                sheet.cell(row, columns[name.replace("_", " ").capitalize()], value)
    book.save(path)


def _of_tag(path: Path, tag: str) -> Finding:
    return next(entry for entry in _previous(path).findings.values() if entry.tag == tag)


@pytest.fixture
def written(index_path: Path, make_report: Callable[..., Report]) -> Callable[..., Path]:
    """Return a function that writes a report, changed by keyword, and gives the path of the answer."""

    def write(**changes: Any) -> Path:
        target = index_path.with_name("INDEX_checked.xlsx")
        with Package.open(index_path) as package:
            write_checked(make_report(**changes), package, target)
        return target

    return write


def test_a_client_s_workbook_has_no_previous_run(index_path: Path) -> None:
    with Package.open(index_path) as package:
        assert read_previous(package) is None


def test_findings_come_back_with_their_identity(checked_path: Path, report: Report) -> None:
    previous = _previous(checked_path)
    assert (previous.content_fingerprint, previous.name, previous.issue) == (
        "content-1",
        "INDEX_checked.xlsx",
        "INDEX_checked.xlsx",
    )
    assert previous.findings == {finding.id: replace(finding, withholds=False) for finding in report.findings}
    assert previous.said == []


def test_what_a_reviewer_typed_comes_back(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", disposition="To  survey ", reviewer=7, reviewed_on=date(2024, 6, 1), comment="2.5")
    found = _of_tag(checked_path, "TE-1003")
    assert (found.disposition, found.reviewer, found.reviewed_on, found.comment) == (
        "to survey",
        "7",
        "2024-06-01",
        "2.5",
    )


def test_a_number_and_a_date_in_words_come_back_as_typed(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", reviewed_on="1 June", comment=2.5)
    found = _of_tag(checked_path, "TE-1003")
    assert (found.reviewed_on, found.comment) == ("1 June", "2.5")


@pytest.mark.parametrize(
    "typed,read", [("", "open"), ("ACCEPTED", "accepted"), (" no  issue", "no issue"), ("Closed out", "Closed out")]
)
def test_a_disposition_is_read_in_any_spelling_and_another_word_is_kept(*, typed: str, read: str) -> None:
    assert disposition_of(typed) == read


def test_what_a_person_overwrote_beside_the_remarks_is_read_from_the_hidden_sheet(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", severity="done", found="nothing", change="old", cell="ZZ1")
    found = _of_tag(checked_path, "TE-1003")
    assert (found.severity, found.change, found.cell) == (Severity.ERROR, "new", "D8")


def test_remarks_survive_a_renamed_sheet_and_moved_columns(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", comment="moved")
    book = load_workbook(checked_path)
    sheet = book["Discrepancies"]
    sheet.title = "QA list"
    book.defined_names["_thermowell_index_sheet_discrepancies"].attr_text = "'QA list'!$A$1"
    sheet.insert_cols(1)
    sheet.move_range("B5:B9", cols=20)
    book.save(checked_path)
    assert "moved" in {finding.comment for finding in _previous(checked_path).findings.values()}


def test_a_finding_on_two_lines_keeps_the_remarks_of_both(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    sheet = book["Discrepancies"]
    last = sheet.max_row
    for copy, comment in ((last + 1, "decided"), (last + 2, None), (last + 3, "and so")):
        for column in range(1, 18):
            sheet.cell(copy, column, sheet.cell(6, column).value)
        sheet.cell(copy, 17, comment)
    book.save(checked_path)
    found = _previous(checked_path).findings[str(sheet["A6"].value)]
    assert (found.comment, found.former_decision) == ("decided", "open on a second line: and so")


def test_without_the_hidden_sheet_identities_are_recovered_where_they_can_be(
    written: Callable[..., Path], make_finding: Callable[..., Finding]
) -> None:
    findings = [
        make_finding(well_tag=""),
        make_finding(well_tag="", occurrence=3, found="bore depth 14"),
        make_finding(well_tag="TW-1", field="overall_length", severity=Severity.WARNING),
        make_finding(rule="tip_assumed", tag="", well_tag="", row=None, cell="", folded=True, tags=("TE-1", "TE-2")),
    ]
    target = written(findings=findings)
    book = load_workbook(target)
    del book["Thermowell index state"]
    book["Discrepancies"]["B6"] = "whatever"
    book.save(target)
    previous = _previous(target)
    recovered = {identifier: finding.id == identifier for identifier, finding in previous.findings.items()}
    assert list(recovered.values()).count(True) == 3
    assert recovered[findings[2].id] is False
    assert Severity.NOTE in {finding.severity for finding in previous.findings.values()}
    assert [line.partition(" was ")[0] for line in previous.said] == ["INDEX_checked.xlsx: sheet Discrepancies"]


def test_a_run_that_found_nothing_has_no_findings(written: Callable[..., Path]) -> None:
    previous = _previous(written(findings=[]))
    assert (previous.findings, previous.own_lines) == ({}, [])


def test_a_sheet_whose_headings_were_removed_gives_the_remarks_of_the_last_run(
    written: Callable[..., Path], make_finding: Callable[..., Finding]
) -> None:
    target = written(findings=[make_finding(**REMARKS)])
    book = load_workbook(target)
    book["Discrepancies"].delete_rows(5)
    book.save(target)
    previous = _previous(target)
    assert [finding.comment for finding in previous.findings.values()] == ["drawing is right"]
    lost, typed = previous.said
    assert lost == "INDEX_checked.xlsx: sheet Discrepancies has lost its headings; remarks are those of the last run"
    assert "4 texts typed by hand (N5, O5, P5, Q5)" in typed
    assert "drawing is right" in previous.own_lines[0]


def test_a_sheet_that_was_taken_out_gives_the_remarks_of_the_last_run(
    written: Callable[..., Path], make_finding: Callable[..., Finding]
) -> None:
    target = written(findings=[make_finding(**REMARKS)])
    book = load_workbook(target)
    del book["Discrepancies"]
    book.save(target)
    previous = _previous(target)
    assert [finding.comment for finding in previous.findings.values()] == ["drawing is right"]
    assert previous.said == ["INDEX_checked.xlsx: the sheet of findings is gone; remarks are those of the last run"]


def test_lines_taken_out_are_missed_and_named(
    written: Callable[..., Path], make_finding: Callable[..., Finding]
) -> None:
    target = written(findings=[make_finding(tag=f"TE-{number}") for number in range(12)])
    book = load_workbook(target)
    book["Discrepancies"].delete_rows(6, 10)
    book.save(target)
    previous = _previous(target)
    assert len(previous.findings) == 12
    assert "10 findings taken out of Discrepancies by hand" in previous.said[0]
    assert previous.said[0].count("F-") == 8


def test_a_damaged_record_of_the_hidden_sheet_is_said(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    hidden = book["Thermowell index state"]
    row = next(row for row in range(1, hidden.max_row + 1) if hidden.cell(row, 1).value == "finding")
    hidden.cell(row, 2, "{")
    book.save(checked_path)
    assert _previous(checked_path).said == [
        "INDEX_checked.xlsx: 1 records of the hidden sheet are damaged and were passed over"
    ]


def test_a_line_of_a_reviewer_s_own_is_kept(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    sheet = book["Discrepancies"]
    row = sheet.max_row + 1
    sheet.cell(row, 3, "TE-9")
    sheet.cell(row, 17, "new well")
    sheet.cell(row + 1, 1, "QA")
    book.save(checked_path)
    assert _previous(checked_path).own_lines == ["tag: TE-9; comment: new well"]


def test_the_register_is_read_back_with_what_a_person_wrote_in_it(
    written: Callable[..., Path], make_finding: Callable[..., Finding]
) -> None:
    entries = [RegisterEntry(finding=make_finding(**REMARKS)), RegisterEntry(finding=make_finding(rule="other"))]
    target = written(history=History(register=entries, own_lines=["tag: TE-9; comment: x"]))
    book = load_workbook(target)
    sheet = book["Remarks register"]
    sheet["G6"], sheet["N6"] = "No issue", "TE-5"
    sheet["A7"] = None
    book.save(target)
    previous = _previous(target)
    first, second = previous.register
    assert (first.finding.disposition, first.finding.reviewed_on, first.carry_to) == ("no issue", "2024-06-01", "TE-5")
    assert second.finding.rule == "other"
    assert previous.own_lines == ["tag: TE-9; comment: x"]


def test_a_workbook_that_counts_from_1904_keeps_its_review_dates(
    client_book: Workbook, tmp_path: Path, make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    client_book.epoch = MAC_EPOCH
    source, target = tmp_path / "MAC.xlsx", tmp_path / "MAC_checked.xlsx"
    client_book.save(source)
    with Package.open(source) as package:
        write_checked(make_report(findings=[make_finding(**REMARKS)]), package, target)
    assert [entry.reviewed_on for entry in _previous(target).findings.values()] == ["2024-06-01"]
