"""The sheet Discrepancies, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Package
from thermowell_index.writer import write_checked
from thermowell_index.writer.discrepancies import HEADINGS, TAGS_SHOWN, in_order, tag_text, widths
from thermowell_index.writer.flags import FILLS
from thermowell_index.writer.report import Report

HEADING_ROW = 5


def _column(sheet: Worksheet, heading: str) -> list[Any]:
    column = HEADINGS.index(heading) + 1
    return [sheet.cell(row, column).value for row in range(HEADING_ROW + 1, sheet.max_row + 1)]


@pytest.fixture
def sheet_of(index_path: Path, make_report: Callable[..., Report]) -> Callable[[list[Finding]], Worksheet]:
    """Return a function that writes findings and reads the sheet back."""

    def write(findings: list[Finding]) -> Worksheet:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(make_report(findings=findings), package, target)
        return load_workbook(target)["Discrepancies"]

    return write


def test_the_headings_are_the_promised_ones(checked_book: Workbook) -> None:
    headings = [cell.value for cell in checked_book["Discrepancies"][HEADING_ROW]]
    assert " | ".join(map(str, headings)) == (
        "Finding | Severity | Tag | Sheet | Row | Cell | Field | Rule | Found | Expected | Explanation | Action "
        "| Change | Disposition | Reviewer | Reviewed on | Comment"
    )


def test_one_row_a_finding_loudest_first_then_as_the_tabs_and_rows_stand(checked_book: Workbook) -> None:
    sheet = checked_book["Discrepancies"]
    assert _column(sheet, "Severity") == ["error", "error", "warning", "note"]
    assert _column(sheet, "Sheet") == ["Utilities", "Mixing", "Utilities", "Utilities"]
    assert _column(sheet, "Row") == [8, 8, 11, None]
    assert _column(sheet, "Rule") == ["bore deeper than well", "bore depth unknown", "tip may not touch", "tip assumed"]


def test_what_was_cleared_comes_last_and_is_not_coloured(
    make_finding: Callable[..., Finding], sheet_of: Callable[[list[Finding]], Worksheet]
) -> None:
    sheet = sheet_of([make_finding(change="cleared"), make_finding(rule="tip_assumed", severity=Severity.NOTE)])
    assert _column(sheet, "Change") == ["new", "cleared"]
    assert sheet["B7"].fill.fill_type is None
    assert sheet["F7"].hyperlink is None


def test_a_sheet_that_is_no_longer_there_sorts_after_the_others(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    report = make_report(findings=[make_finding(sheet="Away", row=1), make_finding()])
    assert [finding.sheet for finding in in_order(report)] == ["Utilities", "Away"]


def test_every_link_leads_to_a_cell_that_is_there(checked_book: Workbook) -> None:
    sheet = checked_book["Discrepancies"]
    links = {row: sheet.cell(row, 6).hyperlink for row in range(6, 10)}
    assert [link.location if link else None for link in links.values()] == [
        "'Utilities'!D8",
        "'Mixing'!D8",
        "'Utilities'!C11",
        None,
    ]
    assert checked_book["Utilities"]["D8"].value == "13"


def test_the_severity_is_coloured_and_in_words(checked_book: Workbook) -> None:
    sheet = checked_book["Discrepancies"]
    assert sheet["B6"].fill.fgColor.rgb == FILLS[Severity.ERROR]
    assert sheet["B8"].fill.fgColor.rgb == FILLS[Severity.WARNING]
    assert sheet["B9"].fill.fill_type is None


def test_the_disposition_is_a_drop_down_on_every_finding(checked_book: Workbook) -> None:
    choices = checked_book["Discrepancies"].data_validations.dataValidation
    assert [(str(entry.sqref), entry.formula1) for entry in choices] == [
        ("N6:N9", '"open,accepted,to correct,to survey,no issue,lapsed"')
    ]


def test_the_headings_are_frozen_filtered_and_repeated_on_paper(checked_book: Workbook) -> None:
    sheet = checked_book["Discrepancies"]
    assert (sheet.freeze_panes, sheet.auto_filter.ref) == ("D6", "A5:Q9")
    assert (sheet.print_title_rows, sheet.page_setup.orientation) == ("$5:$5", "landscape")


def test_remarks_are_written_and_a_day_is_a_day(
    make_finding: Callable[..., Finding], sheet_of: Callable[[list[Finding]], Worksheet]
) -> None:
    remarks = {"disposition": "accepted", "reviewer": "A. B.", "reviewed_on": "2024-06-01", "comment": "=checked"}
    sheet = sheet_of([make_finding(**remarks), make_finding(rule="other", reviewed_on="1 June")])
    disposition, reviewer, reviewed_on, comment = [cell.value for cell in sheet[6]][13:17]
    assert (disposition, reviewer, comment) == ("accepted", "A. B.", "=checked")
    assert isinstance(reviewed_on, datetime)
    assert reviewed_on.date().isoformat() == "2024-06-01"
    assert sheet["P7"].value == "1 June"


def test_without_a_finding_the_sheet_says_so(sheet_of: Callable[[list[Finding]], Worksheet]) -> None:
    assert sheet_of([])["A6"].value == "Nothing was found."


@pytest.mark.parametrize(
    "count,expected",
    [
        (2, "TE-0, TE-1"),
        (TAGS_SHOWN + 1, ", ".join(f"TE-{number}" for number in range(TAGS_SHOWN + 1))),
        (TAGS_SHOWN + 5, ", ".join(f"TE-{number}" for number in range(TAGS_SHOWN)) + " and 5 more"),
    ],
)
def test_a_long_list_of_tags_is_cut_and_counted(
    *, make_finding: Callable[..., Finding], count: int, expected: str
) -> None:
    tags = tuple(f"TE-{number}" for number in range(count))
    assert tag_text(make_finding(folded=True, tag="", tags=tags)) == expected


def test_a_long_explanation_has_the_height_to_be_read(
    make_finding: Callable[..., Finding], sheet_of: Callable[[list[Finding]], Worksheet]
) -> None:
    sheet = sheet_of([make_finding(explanation="The bore cannot be deeper than that. " * 12)])
    height = sheet.row_dimensions[6].height
    assert height is not None
    assert height > 8 * 12


def test_former_decisions_and_reviewers_own_columns_have_columns_where_there_are_any(
    make_finding: Callable[..., Finding], sheet_of: Callable[[list[Finding]], Worksheet]
) -> None:
    lapsed = make_finding(
        disposition="lapsed", former_decision="accepted; lapsed", own_columns=(("Action by", "site"),)
    )
    sheet = sheet_of([lapsed, make_finding(rule="other"), make_finding(rule="changed_after_order")])
    assert [cell.value for cell in sheet[HEADING_ROW]][17:] == ["Former decision", "Action by"]
    assert _column(sheet, "Rule")[0] == "changed after order"
    row = next(row for row in range(6, 9) if sheet.cell(row, 14).value == "lapsed")
    assert (sheet.cell(row, 18).value, sheet.cell(row, 19).value) == ("accepted; lapsed", "site")
    assert sheet.cell(row, 14).font.b
    assert sheet.auto_filter.ref == "A5:S8"


def test_further_columns_leave_the_page_as_wide_as_it_was() -> None:
    usual = sum(widths(0))
    assert [round(sum(widths(further)) - usual) for further in range(4)] == [0, 0, 0, 0]
    assert min(widths(9)) > 0
