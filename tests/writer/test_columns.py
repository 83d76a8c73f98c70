"""The columns of answers beside the tables, as openpyxl reads them from the written workbook."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.styles import Font
from openpyxl.worksheet.table import Table
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index import check_workbook
from thermowell_index.errors import OutputError
from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Package, SheetCells
from thermowell_index.writer import write_checked
from thermowell_index.writer.columns import COLUMNS, findings_in_words, first_column
from thermowell_index.writer.lengths import FRACTION
from thermowell_index.writer.report import Report

HEADINGS_IN_INCHES = [
    "Bore depth used (in)",
    "Bore depth basis",
    "Extension installed (in)",
    "Probe length computed (in)",
    "Probe length to order (in)",
    "Shortest that fits (in)",
    "Longest that fits (in)",
    "Compression min (in)",
    "Compression nominal (in)",
    "Compression max (in)",
    "Margin (in)",
    "First touch (in)",
    "Working",
    "Verdict",
    "Findings",
]
FIRST = 8


def _row(sheet: Worksheet, row: int, first: int = FIRST) -> list[Any]:
    return [sheet.cell(row, column).value for column in range(first, first + len(COLUMNS))]


def _answer(sheet: Worksheet, row: int, heading: str) -> Any:
    return sheet.cell(row, FIRST + [column.heading for column in COLUMNS].index(heading)).value


def _written(book: Workbook, report: Report, folder: Path) -> Workbook:
    source, target = folder / "CLIENT.xlsx", folder / "CLIENT_checked.xlsx"
    book.save(source)
    with Package.open(source) as package:
        write_checked(report, package, target)
    return load_workbook(target)


def test_the_headings_stand_on_the_heading_row_in_the_unit_of_the_table(checked_book: Workbook) -> None:
    assert _row(checked_book["Utilities"], 5) == HEADINGS_IN_INCHES
    assert _row(checked_book["Mixing"], 5) == [text.replace("(in)", "(mm)") for text in HEADINGS_IN_INCHES]


def test_the_headings_are_repeated_where_the_page_repeats_them(
    client_book: Workbook, report: Report, tmp_path: Path
) -> None:
    report.table.tables[0].repeated_headings.append(13)
    assert _row(_written(client_book, report, tmp_path)["Utilities"], 13) == HEADINGS_IN_INCHES


def test_lengths_are_numbers_in_the_unit_of_the_table(checked_book: Workbook) -> None:
    sheet = checked_book["Utilities"]
    assert (_answer(sheet, 6, "Probe length to order"), _answer(sheet, 7, "Bore depth used")) == (9, 9.28125)
    assert _answer(checked_book["Mixing"], 6, "Probe length to order") == 230


def test_a_64th_is_shown_as_a_fraction_where_the_sheet_has_fractions(checked_book: Workbook) -> None:
    assert checked_book["Utilities"].cell(7, FIRST).number_format == FRACTION


def test_a_row_without_a_well_has_a_verdict_and_a_reason_only(checked_book: Workbook) -> None:
    answers = _row(checked_book["Utilities"], 9)
    assert [text for text in answers if text is not None] == [
        "not applicable: a pressure transmitter",
        "not applicable",
    ]


def test_a_withheld_row_opens_its_working_with_the_reason(checked_book: Workbook) -> None:
    sheet = checked_book["Utilities"]
    assert _answer(sheet, 8, "Working") == "withheld: bore depth 13 in, overall length 12-1/4 in"
    assert _answer(sheet, 8, "Probe length computed") is None


def test_a_reason_stands_before_the_working_it_belongs_to(
    client_book: Workbook, report: Report, tmp_path: Path
) -> None:
    report.table.frame.loc[2, "working"] = "bore depth 13 in as stated"
    working = _answer(_written(client_book, report, tmp_path)["Utilities"], 8, "Working")
    assert working == "withheld: bore depth 13 in, overall length 12-1/4 in; bore depth 13 in as stated"


def test_the_findings_of_a_row_are_named_with_their_severity_loudest_first(checked_book: Workbook) -> None:
    sheet = checked_book["Utilities"]
    assert _answer(sheet, 8, "Findings") == "error: bore deeper than well"
    assert _answer(sheet, 11, "Findings") == "warning: tip may not touch"


def test_findings_of_one_severity_are_named_once_each(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    twice = [make_finding(), make_finding(field="overall_length"), make_finding(rule="date_for_dimension")]
    assert findings_in_words(make_report(findings=twice)) == {2: "error: bore deeper than well, date for dimension"}


@pytest.mark.parametrize(
    "changes,said",
    [
        ({"severity": Severity.WARNING}, {}),
        ({"severity": Severity.NOTE, "well_tag": "1 NPT"}, {}),
        ({"severity": Severity.WARNING, "well_tag": "area 1"}, {2: "warning: bore deeper than well"}),
        ({"severity": Severity.WARNING, "withholds": True}, {2: "warning: bore deeper than well"}),
        ({"severity": Severity.ERROR}, {2: "error: bore deeper than well"}),
    ],
    ids=["a whole sheet", "a note of a family", "what some rows share", "what withholds", "an error"],
)
def test_a_finding_of_a_whole_sheet_is_not_repeated_on_each_row(
    make_finding: Callable[..., Finding],
    make_report: Callable[..., Report],
    changes: dict[str, Any],
    said: dict[int, str],
) -> None:
    folded = make_finding(**{"folded": True, "withholds": False, "well_tag": "", **changes})

    assert findings_in_words(make_report(findings=[folded])) == said


def test_a_cleared_finding_is_not_named_on_its_row(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    assert findings_in_words(make_report(findings=[make_finding(change="cleared")])) == {}


def test_the_columns_look_like_the_table_they_stand_beside(checked_book: Workbook) -> None:
    sheet = checked_book["Utilities"]
    heading, body = sheet.cell(5, FIRST), sheet.cell(6, FIRST)
    assert (heading.fill.fgColor.rgb, heading.font.b, heading.alignment.wrap_text) == ("FF305496", True, True)
    assert (body.font.name, body.border.bottom.style) == ("Arial", "thin")


def test_a_table_without_a_known_unit_is_answered_in_millimetres(
    client_book: Workbook, make_report: Callable[..., Report], tmp_path: Path
) -> None:
    book = _written(client_book, make_report(sheet_units={1: "mm"}, sheet_in_fractions={}), tmp_path)
    assert book["Utilities"].cell(5, FIRST).value == "Bore depth used (mm)"


def test_undecided_and_unread_headings_count_as_the_table_s_last_column(
    client_book: Workbook, report: Report, tmp_path: Path
) -> None:
    table = report.table.tables[0]
    table.unread.append((6, "SENSOR"))
    table.undecided.append((7, "REMARKS", ("remarks", "service")))
    del table.columns["remarks"], table.columns["sensor_type"]
    client_book["Utilities"]["G5"].font = Font(name="Courier New")
    assert _written(client_book, report, tmp_path)["Utilities"].cell(5, FIRST).font.name == "Courier New"


def test_the_columns_stand_one_blank_column_apart_from_a_list_object(
    client_book: Workbook, report: Report, tmp_path: Path
) -> None:
    client_book["Mixing"].add_table(Table(displayName="MixingPoints", ref="A5:G8"))
    assert _row(_written(client_book, report, tmp_path)["Mixing"], 5, first=9)[0] == "Bore depth used (mm)"


@pytest.mark.parametrize(
    "cells,expected",
    [
        (SheetCells(rows={}, last_column=7), 8),
        (SheetCells(rows={}, last_column=7, merges=((5, 7, 5, 9),)), 10),
        (SheetCells(rows={}, last_column=7, merges=((1, 1, 2, 20),)), 8),
        (SheetCells(rows={}, last_column=7, tables=((5, 1, 9, 7),)), 9),
        (SheetCells(rows={}, last_column=9, tables=((5, 1, 9, 7),)), 10),
    ],
)
def test_the_first_column_is_right_of_all_that_would_hide_it(cells: SheetCells, expected: int) -> None:
    assert first_column(cells, {5, 6, 7}) == expected


def test_a_sheet_without_room_is_refused(client_book: Workbook, report: Report, tmp_path: Path) -> None:
    client_book["Utilities"].cell(1, 16_380, "far")
    with pytest.raises(OutputError, match="'Utilities': no room for 15 columns"):
        _written(client_book, report, tmp_path)


def test_every_original_cell_is_unchanged(client_book: Workbook, checked_book: Workbook) -> None:
    for sheet in client_book.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                assert checked_book[sheet.title][cell.coordinate].value == cell.value


def test_text_that_opens_with_a_sign_stays_text(client_book: Workbook, report: Report, tmp_path: Path) -> None:
    report.table.frame.loc[0, "working"] = "=1+1"
    cell = _written(client_book, report, tmp_path)["Utilities"].cell(6, FIRST + 12)
    assert (cell.value, cell.data_type) == ("=1+1", "s")


def test_severities_are_named_in_words(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    findings = [make_finding(severity=severity, rule=severity.name.lower()) for severity in reversed(Severity)]
    assert findings_in_words(make_report(findings=findings)) == {2: "error: error; warning: warning; note: note"}


def test_tables_side_by_side_have_a_set_of_answers_each(index_file: Callable[..., Path]) -> None:
    def put_beside(book: Workbook) -> None:
        for column, heading in enumerate(("Tag", "Overall length (in)", "Tip thickness (in)"), start=5):
            book["Index"].cell(1, column, heading)
        book["Index"]["E2"], book["Index"]["F2"], book["Index"]["G2"] = "TE-201", 12.25, 0.25

    source = index_file({"Tag": "TE-101", "Overall_length_(in)": 9.25, "Tip_thickness_(in)": 0.25}, change=put_beside)
    check_workbook(source)
    first = source.with_name("index_checked.xlsx")
    check_workbook(first)
    for path in (first, source.with_name("index_checked-2.xlsx")):
        sheet = load_workbook(path)["Index"]
        ordered = {
            sheet.cell(1, column).value: sheet.cell(2, column).value
            for column in range(8, sheet.max_column + 1)
            if "to order" in str(sheet.cell(1, column).value)
        }
        assert ordered == {
            "Probe length to order (in) [tags in column A]": 9,
            "Probe length to order (in) [tags in column E]": 12,
        }
        assert sheet.max_column == 7 + 2 * len(COLUMNS)
