"""Remarks of the previous run: read wherever a person left them, and carried over."""

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
from thermowell_index.writer import PreviousRun, Report, carry, overlay, read_previous, write_checked
from thermowell_index.writer.carry_over import date_of

REMARKS = {"disposition": "accepted", "reviewer": "A. B.", "reviewed_on": "2024-06-01", "comment": "drawing is right"}


def _run(*findings: Finding) -> PreviousRun:
    return PreviousRun(findings={finding.id: finding for finding in findings}, content_fingerprint="x")


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


@pytest.mark.parametrize(
    "change_before,found_before,same_content,change",
    [
        ("new", "bore depth 13", False, "open"),
        ("open", "bore depth 13", False, "open"),
        ("changed", "bore  depth\n13", False, "open"),
        ("new", "bore depth 14", False, "changed"),
        ("cleared", "bore depth 13", False, "new"),
        ("new", "bore depth 13", True, "new"),
        ("open", "bore depth 13", True, "open"),
        ("changed", "bore depth 13", True, "changed"),
        ("cleared", "bore depth 13", True, "new"),
    ],
)
def test_the_change_of_a_finding_that_was_there_before(
    *, make_finding: Callable[..., Finding], change_before: str, found_before: str, same_content: bool, change: str
) -> None:
    before = make_finding(found=found_before, change=change_before, **REMARKS)
    carried = carry([make_finding(found="bore depth 13")], _run(before), same_content=same_content)
    assert [(entry.change, entry.found) for entry in carried] == [(change, "bore depth 13")]
    assert {name: getattr(carried[0], name) for name in REMARKS} == REMARKS


@pytest.mark.parametrize("same_content", [False, True])
def test_a_finding_that_was_not_there_before_is_new(
    *, make_finding: Callable[..., Finding], same_content: bool
) -> None:
    carried = carry([make_finding()], _run(), same_content=same_content)
    assert [(entry.change, entry.disposition) for entry in carried] == [("new", "open")]


def test_a_finding_that_is_gone_is_cleared_and_keeps_its_remarks(make_finding: Callable[..., Finding]) -> None:
    carried = carry([], _run(make_finding(**REMARKS)), same_content=False)
    assert [(entry.change, entry.comment) for entry in carried] == [("cleared", "drawing is right")]


def test_a_finding_that_comes_back_keeps_its_remarks(make_finding: Callable[..., Finding]) -> None:
    cleared = carry([], _run(make_finding(**REMARKS)), same_content=False)
    back = carry([make_finding()], _run(*cleared), same_content=False)
    assert [(entry.change, entry.reviewer) for entry in back] == [("new", "A. B.")]


def test_without_a_previous_run_findings_stay_as_they_are(make_finding: Callable[..., Finding]) -> None:
    assert carry([make_finding()], None, same_content=False) == [make_finding()]


def test_of_two_earlier_runs_the_newer_counts_and_no_remark_is_lost(make_finding: Callable[..., Finding]) -> None:
    older = _run(
        make_finding(**REMARKS), make_finding(rule="gone", comment="kept"), make_finding(rule="both", comment="a")
    )
    newer = _run(make_finding(found="13"), make_finding(rule="both", comment="b"), make_finding(rule="later"))
    both = overlay(older, newer)
    remarks = {finding.rule: (finding.found[:2], finding.comment) for finding in both.findings.values()}
    assert remarks == {
        "bore_deeper_than_well": ("13", "drawing is right"),
        "gone": ("bo", "kept"),
        "both": ("bo", "b"),
        "later": ("bo", ""),
    }


def test_a_client_s_workbook_has_no_previous_run(index_path: Path) -> None:
    with Package.open(index_path) as package:
        assert read_previous(package) is None


def test_findings_come_back_with_their_identity(checked_path: Path, report: Report) -> None:
    previous = _previous(checked_path)
    assert previous.content_fingerprint == "content-1"
    assert previous.findings == {
        finding.id: replace(finding, row_ids=(), withholds=False) for finding in report.findings
    }
    assert all(finding.id == identifier for identifier, finding in previous.findings.items())


def test_what_a_reviewer_typed_comes_back(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", disposition="to survey", reviewer=7, reviewed_on=date(2024, 6, 1), comment="2.5")
    found = next(entry for entry in _previous(checked_path).findings.values() if entry.tag == "TE-1003")
    assert (found.disposition, found.reviewer, found.reviewed_on, found.comment) == (
        "to survey",
        "7",
        "2024-06-01",
        "2.5",
    )


def test_a_number_and_a_date_in_words_come_back_as_typed(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", reviewed_on="1 June", comment=2.5)
    found = next(entry for entry in _previous(checked_path).findings.values() if entry.tag == "TE-1003")
    assert (found.reviewed_on, found.comment) == ("1 June", "2.5")


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


def test_of_two_rows_of_one_finding_the_one_with_remarks_counts(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    sheet = book["Discrepancies"]
    last = sheet.max_row
    for copy, comment in ((last + 1, "decided"), (last + 2, None)):
        for column in range(1, 18):
            sheet.cell(copy, column, sheet.cell(6, column).value)
        sheet.cell(copy, 17, comment)
    book.save(checked_path)
    assert _previous(checked_path).findings[str(sheet["A6"].value)].comment == "decided"


def test_without_the_hidden_sheet_identities_are_recovered_where_they_can_be(
    index_path: Path, make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    findings = [
        make_finding(well_tag=""),
        make_finding(well_tag="", occurrence=3, found="bore depth 14"),
        make_finding(well_tag="TW-1", field="overall_length", severity=Severity.WARNING),
        make_finding(rule="tip_assumed", tag="", well_tag="", row=None, cell="", folded=True, tags=("TE-1", "TE-2")),
    ]
    target = index_path.with_name("INDEX_checked.xlsx")
    with Package.open(index_path) as package:
        write_checked(make_report(findings=findings), package, target)
    book = load_workbook(target)
    del book["Thermowell index state"]
    book.save(target)
    recovered = {identifier: finding.id == identifier for identifier, finding in _previous(target).findings.items()}
    assert list(recovered.values()).count(True) == 3
    assert recovered[findings[2].id] is False


def test_a_run_that_found_nothing_has_no_findings(index_path: Path, make_report: Callable[..., Report]) -> None:
    target = index_path.with_name("INDEX_checked.xlsx")
    with Package.open(index_path) as package:
        write_checked(make_report(findings=[]), package, target)
    assert _previous(target).findings == {}


def test_a_severity_that_a_person_overwrote_reads_as_a_note(checked_path: Path) -> None:
    _remark(checked_path, "TE-1003", severity="done")
    found = next(entry for entry in _previous(checked_path).findings.values() if entry.tag == "TE-1003")
    assert found.severity is Severity.NOTE


def test_a_sheet_whose_headings_were_removed_has_no_findings(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    book["Discrepancies"].delete_rows(5)
    book.save(checked_path)
    assert _previous(checked_path).findings == {}


@pytest.mark.parametrize(
    "date_1904,expected",
    [(False, date(2024, 6, 1)), (True, date(2028, 6, 2))],  # the two systems stand 1462 days apart
)
def test_a_day_is_counted_from_the_workbook_s_own_start(*, date_1904: bool, expected: date) -> None:
    assert date_of(45444.0, date_1904=date_1904) == expected


def test_a_workbook_that_counts_from_1904_keeps_its_review_dates(
    client_book: Workbook, tmp_path: Path, make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    client_book.epoch = MAC_EPOCH
    source, target = tmp_path / "MAC.xlsx", tmp_path / "MAC_checked.xlsx"
    client_book.save(source)
    with Package.open(source) as package:
        write_checked(make_report(findings=[make_finding(**REMARKS)]), package, target)
    assert [entry.reviewed_on for entry in _previous(target).findings.values()] == ["2024-06-01"]
