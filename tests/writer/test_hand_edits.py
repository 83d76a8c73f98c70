"""What people typed over our cells and beside the tables is said and kept."""

from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.ooxml import Package
from thermowell_index.pipeline import CheckResult, Settings, check_workbook
from thermowell_index.revisions.previous import PreviousRun
from thermowell_index.writer import read_previous

DAY = "2024-06-01"
SOUND = {
    "tag": "TE-101",
    "bore_depth (in)": "9",
    "overall_length (in)": "9-1/4",
    "sensor_mounting": "spring-loaded fitting",
    "extension_arrangement": "none",
}
FAULTY = SOUND | {"tag": "TE-102", "bore_depth (in)": "12"}
KEPT = "does not count and is kept in the Remarks register"


@pytest.fixture
def index(index_file: Callable[..., Path]) -> Path:
    """Return the path of an index whose answer stands beside it."""
    rows = [SOUND | {"tag": f"TE-{number}"} for number in range(201, 209)]
    path = index_file(SOUND, FAULTY, *rows)
    check_workbook(path, Settings(date=DAY))
    return path


def answer(index: Path) -> Path:
    return index.with_name("index_checked.xlsx")


def change(path: Path, edit: Callable[[Workbook], object]) -> None:
    book = load_workbook(path)
    edit(book)
    book.save(path)


def cell_below(sheet: Worksheet, heading: str, first: str, row: int = 1) -> str:
    """Return the address of a cell below a heading, in the table whose first heading is named."""
    top = next(number for number in range(1, 60) if sheet.cell(number, 1).value == first)
    column = next(number for number in range(1, 30) if sheet.cell(top, number).value == heading)
    return str(sheet.cell(top + row, column).coordinate)


def previous(path: Path, *, is_input: bool = False) -> PreviousRun:
    with Package.open(path) as package:
        run = read_previous(package, is_input=is_input)
    assert run is not None
    return run


def again(index: Path) -> CheckResult:
    return check_workbook(index, Settings(date=DAY, previous=answer(index)))


@pytest.mark.parametrize("is_input", [True, False])
def test_an_answer_as_it_was_written_has_nothing_to_say(*, index: Path, is_input: bool) -> None:
    run = previous(answer(index), is_input=is_input)
    assert (list(run.said), list(run.own_lines)) == ([], [])


@pytest.mark.parametrize("heading", ["Severity", "Tag", "Found", "Expected", "Explanation", "Action", "Change"])
def test_what_is_typed_over_a_finding_is_said_and_kept(index: Path, heading: str) -> None:
    place = cell_below(load_workbook(answer(index))["Discrepancies"], heading, "Finding")
    change(answer(index), lambda book: book["Discrepancies"].__setitem__(place, "my own words"))
    result = again(index)
    subject = "" if heading == "Tag" else " of TE-102"
    assert list(result.said) == [
        f"index_checked.xlsx: Discrepancies {place}, {heading}{subject}: 'my own words', typed by hand, {KEPT}"
    ]
    kept = [line for line in result.report.history.own_lines if "my own words" in line]
    assert len(kept) == 1
    register = load_workbook(answer(index))["Remarks register"]
    assert kept[0] in [cell.value for row in register for cell in row]
    assert any(
        result.said[0] in str(cell.value) for row in load_workbook(answer(index))["Check summary"] for cell in row
    )


def test_a_severity_typed_over_ours_does_not_open_the_gate(index: Path) -> None:
    place = cell_below(load_workbook(answer(index))["Discrepancies"], "Severity", "Finding")
    change(answer(index), lambda book: book["Discrepancies"].__setitem__(place, "note"))
    assert {str(one.severity) for one in previous(answer(index)).findings.values() if one.tag == "TE-102"} == {"error"}


def test_remarks_columns_and_lines_that_are_carried_over_anyhow_are_not_said(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Discrepancies"]
        for heading in ("Disposition", "Reviewer", "Reviewed on", "Comment"):
            sheet[cell_below(sheet, heading, "Finding")] = "x"
        row = sheet.max_row + 1
        sheet.cell(5, sheet.max_column + 1, "Asked")
        sheet.cell(6, sheet.max_column, "yesterday")
        sheet.cell(row, 3, "TE-900 too")

    change(answer(index), edit)
    assert [line for line in previous(answer(index)).said if "typed by hand" in line] == []


@pytest.mark.parametrize(
    "sheet,heading,first",
    [
        ("Order schedule", "Quantity", "Line"),
        ("First touch", "Expected", "Tag"),
        ("QA sample", "Agrees", "Sample"),
        ("Design basis", "Value", "Section"),
        ("Check summary", "Rows", "Verdict"),
    ],
)
def test_what_is_typed_on_our_other_sheets_is_said_and_kept(
    *, index: Path, sheet: str, heading: str, first: str
) -> None:
    place = cell_below(load_workbook(answer(index))[sheet], heading, first)
    change(answer(index), lambda book: book[sheet].__setitem__(place, 4711))
    run = previous(answer(index))
    assert [line for line in run.said if f"{sheet} {place}, {heading}" in line and KEPT in line] == list(run.said)
    assert [line for line in run.own_lines if "4711" in line] == list(run.own_lines)
    assert len(run.said) == len(run.own_lines) == 1


def test_a_column_of_a_buyer_s_own_is_kept(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Order schedule"]
        place = sheet[cell_below(sheet, "Line", "Line")]
        sheet.cell(place.row - 1, 14, "Buyer")
        sheet.cell(place.row, 14, "E. F.")

    change(answer(index), edit)
    assert [line.partition(": ")[2] for line in previous(answer(index)).own_lines] == ["Buyer: E. F."]


def test_a_remark_on_a_line_that_the_run_did_not_write_is_kept(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["QA sample"]
        sheet[cell_below(sheet, "Comment", "Sample", 12)] = "all of them on Monday"

    change(answer(index), edit)
    run = previous(answer(index))
    assert [line.partition(": ")[2] for line in run.own_lines] == ["Comment: all of them on Monday"]
    assert len(run.said) == 1


def test_many_cells_of_one_column_are_said_in_one_line_and_all_kept(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["First touch"]
        for row in range(1, 6):
            sheet[cell_below(sheet, "Expected", "Tag", row)] = f"{row}/16 in"

    change(answer(index), edit)
    run = previous(answer(index))
    assert len(run.said) == 1
    assert "First touch: 5 texts typed by hand under Expected" in run.said[0]
    assert len(run.own_lines) == 5


@pytest.mark.parametrize("is_input", [True, False])
def test_what_is_typed_over_an_answer_beside_the_index_is_said_by_tag(*, index: Path, is_input: bool) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Index"]
        column = next(cell.column for cell in sheet[1] if cell.value == "Verdict")
        sheet.cell(3, column, "fine by me")

    change(answer(index), edit)
    run = previous(answer(index), is_input=is_input)
    assert [line.partition(": ")[2] for line in run.own_lines] == ["Verdict: fine by me"]
    assert ["Verdict of TE-102: 'fine by me'" in line for line in run.said] == [True]


def test_a_column_beside_the_answers_is_kept_where_another_issue_is_read(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Index"]
        sheet.cell(1, sheet.max_column + 1, "To do")
        sheet.cell(4, sheet.max_column, "call the site")

    change(answer(index), edit)
    assert list(previous(answer(index)).own_lines) == ["Index, row 4, TE-201: To do: call the site"]
    given_back = check_workbook(answer(index), Settings(date=DAY))
    assert list(given_back.report.history.own_lines) == []
    sheet = load_workbook(index.with_name("index_checked-2.xlsx"))["Index"]
    assert "call the site" in [cell.value for cell in sheet[4]]


def test_an_index_cell_edited_in_an_earlier_answer_is_said_where_another_issue_is_read(index: Path) -> None:
    change(answer(index), lambda book: book["Index"].__setitem__("B3", "8"))
    (said,) = again(index).said
    assert said == (
        "index_checked.xlsx: cells of the index were edited there after its run (Index, row 3); what is read is the "
        "new issue alone"
    )
    assert list(check_workbook(answer(index), Settings(date=DAY)).said) == []


def test_rows_of_the_index_sorted_by_a_person_are_no_edits(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Index"]
        rows = [[cell.value for cell in row] for row in sheet.iter_rows(min_row=2)]
        for number, row in enumerate(reversed(rows), start=2):
            for column, value in enumerate(row, start=1):
                sheet.cell(number, column).value = value

    change(answer(index), edit)
    assert list(previous(answer(index)).said) == []


def test_what_was_kept_once_is_kept_in_every_later_answer(index: Path) -> None:
    change(answer(index), lambda book: book["Check summary"].__setitem__("A3", "approved, G. H."))
    first = list(again(index).report.history.own_lines)
    second = again(index)
    assert (list(second.report.history.own_lines), list(second.said)) == (first, [])


def answer_cells(sheet: Worksheet, row: int, *headings: str) -> list[str]:
    columns = {str(cell.value): str(cell.coordinate).rstrip("1") for cell in sheet[1]}
    return [f"{columns[heading]}{row}" for heading in headings]


@pytest.mark.parametrize("is_input", [True, False])
def test_answers_that_changed_places_are_said_and_kept(*, index: Path, is_input: bool) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Index"]
        one, other = answer_cells(sheet, 4, "Shortest that fits (in)", "Longest that fits (in)")
        sheet[one].value, sheet[other].value = sheet[other].value, sheet[one].value

    change(answer(index), edit)
    run = previous(answer(index), is_input=is_input)
    assert [line.partition(": ")[0] for line in run.own_lines] == ["Index, row 4, TE-201"]
    assert ["typed by hand" in line for line in run.said] == [True, True]


@pytest.mark.parametrize("is_input", [True, False])
def test_answers_that_were_emptied_are_said(*, index: Path, is_input: bool) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Index"]
        for row in (4, 6):
            (place,) = answer_cells(sheet, row, "Probe length to order (in)")
            sheet[place].value = None
        book["Discrepancies"][cell_below(book["Discrepancies"], "Found", "Finding")].value = None

    change(answer(index), edit)
    run = previous(answer(index), is_input=is_input)
    assert list(run.said) == [
        "index_checked.xlsx: Discrepancies: what was emptied by hand is written anew (row 6, TE-102)",
        "index_checked.xlsx: Index: what was emptied by hand is written anew (rows 4, TE-201, 6, TE-203)",
    ]
    assert list(run.own_lines) == []


def test_columns_of_answers_that_a_person_moved_are_no_edits(index: Path) -> None:
    def edit(book: Workbook) -> None:
        sheet = book["Index"]
        for row in range(1, sheet.max_row + 1):
            one, other = answer_cells(sheet, 1, "Working", "Verdict")
            one, other = f"{one.rstrip('1')}{row}", f"{other.rstrip('1')}{row}"
            if row > 1:
                sheet[one].value, sheet[other].value = sheet[other].value, sheet[one].value
        one, other = answer_cells(sheet, 1, "Working", "Verdict")
        sheet[one].value, sheet[other].value = "Verdict", "Working"

    change(answer(index), edit)
    assert list(previous(answer(index)).said) == []
