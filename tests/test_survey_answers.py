"""A filled-in Field survey given back: what is taken, what is not and why, and that nothing is lost on the way."""

import datetime as dt
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.errors import WorkbookError
from thermowell_index.pipeline import CheckResult, Settings, check_workbook

INCH = 25.4
PIPED = {"extension": "nipple", "nipple_length (in)": 4, "mounting": "spring-loaded insert"}
ASKED = {"tag": "TE-101", "bore_depth (in)": "?", "sensor_type": "RTD", "sheath_diameter (in)": "1/4"}
Fill = Mapping[str, object]


def _heading(sheet: Worksheet, title: str = "To measure") -> int:
    first = next(row for row in range(1, 80) if sheet.cell(row, 1).value == title)
    return first + 2


def fill_in(path: Path, lines: Mapping[str, Fill], change: Callable[[Workbook], object] = lambda _: None) -> Path:
    """Write readings into the form of a checked workbook, by tag and heading."""
    book = load_workbook(path)
    sheet = book["Field survey"]
    top = _heading(sheet)
    columns = {str(cell.value): cell.column or 0 for cell in sheet[top]}
    for row in range(top + 1, sheet.max_row + 1):
        for heading, value in lines.get(str(sheet.cell(row, columns["Tag"]).value), {}).items():
            sheet.cell(row, columns[heading]).value = value  # type: ignore[assignment]
    change(book)
    filled = path.with_name("filled.xlsx")
    book.save(filled)
    return filled


def readings(first: object, second: object = None, **more: object) -> dict[str, object]:
    return {"First reading": first, "Second reading": second, **more}


@pytest.fixture
def given_back(index_file: Callable[..., Path], tmp_path: Path) -> Callable[..., CheckResult]:
    """Runs an index, fills in its form, and runs the index again with it."""

    def run(*rows: dict[str, object], lines: Mapping[str, Fill], **more: Any) -> CheckResult:
        index = index_file(*rows)
        first = check_workbook(index, Settings(out=tmp_path / "first.xlsx", date="2024-05-03"))
        assert first.written is not None
        filled = fill_in(first.written, lines, **more)
        return check_workbook(index, Settings(out=tmp_path / "second.xlsx", survey=filled, date="2024-05-10"))

    return run


GivenBack = Callable[..., CheckResult]


def order_in(result: CheckResult) -> float:
    return round(float(result.table["probe_length_order_mm"].iloc[0]) / INCH, 4)


@pytest.mark.parametrize(
    "first,second",
    [("9", "9"), ("9", "9 1/16"), (9.0, "9"), ("228.6 mm", "9"), ('9"', "9.03"), ("0'-9\"", "9 in")],
)
def test_two_readings_that_agree_enter_as_measured(given_back: GivenBack, first: object, second: object) -> None:
    result = given_back(ASKED, lines={"TE-101": readings(first, second)})
    assert result.table["bore_depth_basis"].tolist() == ["measured"]
    assert order_in(result) == 9.0
    line = result.report.survey.taken[0]
    assert line.entry is not None
    assert (line.tag, line.question, line.entry.taken) == ("TE-101", "bore depth", "2024-05-10")
    assert result.report.survey.lines == ()


def test_the_mean_of_the_readings_is_taken(given_back: GivenBack) -> None:
    result = given_back(ASKED, lines={"TE-101": readings("9", "9 1/16")})
    assert result.table["measured_bore_depth_mm"].iloc[0] == pytest.approx(9.03125 * INCH)


def test_the_working_names_the_form_and_the_table_who_measured_and_when(given_back: GivenBack) -> None:
    result = given_back(ASKED, lines={"TE-101": readings("9", "9", By="AB", On="2024-05-08")})
    row = result.table.iloc[0]
    assert "Field survey, Field survey H" in row["working"]
    assert ", by AB, on 2024-05-08" in row["working"]
    assert (row["measured_by"], row["measured_on"]) == ("AB", "2024-05-08")
    assert row["measured_bore_depth_unit_from"] == "Field survey"


@pytest.mark.parametrize(
    "first,second,why",
    [
        ("9", "9 1/8", "the two readings differ, measure again"),
        ("9", None, "a second reading is wanted"),
        ("9", "about 9", "'about 9' is no length"),
        ("0", "0", "'0' is no length"),
        ("9", "235 mm", "the two readings differ, measure again"),
    ],
)
def test_what_cannot_be_taken_stays_on_the_form_with_the_reason(
    given_back: GivenBack, first: object, second: object, why: str
) -> None:
    result = given_back(ASKED, lines={"TE-101": readings(first, second, Remark="hot")})
    assert result.table["verdict"].tolist() == ["withheld"]
    entry = result.report.survey.lines[0].entry
    assert entry is not None
    assert (entry.taken, entry.remark) == ("", f"hot; not taken: {why}")
    assert result.report.survey.taken == ()


def test_a_reading_without_a_unit_anywhere_is_not_taken(given_back: GivenBack) -> None:
    result = given_back(ASKED, lines={"TE-101": readings("9", "9", Unit=None)})
    entry = result.report.survey.lines[0].entry
    assert entry is not None
    assert entry.remark == "not taken: '9' has no unit"


def test_a_reason_is_not_said_twice(given_back: GivenBack) -> None:
    told = "not taken: the two readings differ, measure again"
    result = given_back(ASKED, lines={"TE-101": readings("9", "10", Remark=told)})
    entry = result.report.survey.lines[0].entry
    assert entry is not None
    assert entry.remark == told


def test_an_installed_length_from_the_field_releases_its_row(given_back: GivenBack) -> None:
    row = {**ASKED, "bore_depth (in)": 9, "extension": "nipple and union", "mounting": "spring-loaded fitting"}
    result = given_back(row, lines={"TE-101": readings("3", "3")})
    assert order_in(result) == 12.0


def test_a_spring_travel_from_the_field_releases_its_row(given_back: GivenBack) -> None:
    row = {**ASKED, "bore_depth (in)": 9, "spring_travel (in)": "est. 1"}
    assert order_in(given_back(row, lines={"TE-101": readings("1", "1")})) == 9.0


def test_a_mounting_from_the_field_releases_its_row(given_back: GivenBack) -> None:
    row = {**ASKED, "bore_depth (in)": 9, "mounting": "spring loaded"}
    assert order_in(given_back(row, lines={"TE-101": readings("fixed fitting")})) == 8.25


def test_a_day_that_was_typed_as_a_date_is_shown_as_one(given_back: GivenBack) -> None:
    day = dt.date(2024, 5, 9)
    result = given_back(ASKED, lines={"TE-101": readings("9", "9", By="A. N.", On=day)})
    assert result.table["measured_on"].tolist() == ["2024-05-09"]


def test_a_reading_that_is_a_slip_of_the_unit_is_asked_for_again(given_back: GivenBack) -> None:
    result = given_back(ASKED, lines={"TE-101": readings("229", "229")})
    assert result.table["verdict"].tolist() == ["withheld"]
    assert [(line.tag, line.question) for line in result.report.survey.lines] == [("TE-101", "bore depth")]


def test_an_installed_length_from_the_field_settles_what_a_remark_says(given_back: GivenBack) -> None:
    row = {**ASKED, "bore_depth (in)": 9, **PIPED, "remarks": "union added"}
    result = given_back(row, lines={"TE-101": readings("5", "5", By="AB")})
    assert result.table["verdict"].tolist() == ["review"]
    assert "extension 5 in, given as installed, Field survey, Field survey H" in result.table["working"].iloc[0]
    assert [(one.rule, one.severity.value) for one in result.findings if one.field == "remarks"] == [
        ("remark_denies_extension", "warning")
    ]


def test_a_word_that_is_no_mounting_is_not_taken(given_back: GivenBack) -> None:
    row = {**ASKED, "bore_depth (in)": 9, "mounting": "spring loaded"}
    result = given_back(row, lines={"TE-101": readings("with a spring")})
    entry = result.report.survey.lines[0].entry
    assert entry is not None
    assert entry.remark == "not taken: 'with a spring' is none of the four words"


def test_a_row_without_a_unit_takes_the_readings(given_back: GivenBack) -> None:
    row = {"tag": "TE-101", "bore_depth": None, "sensor_type": "RTD", "service": "wash water"}
    result = given_back(row, lines={"TE-101": readings("235 mm", "235 mm")})
    assert result.table["unit"].tolist() == ["mm"]
    assert result.table["probe_length_order_mm"].tolist() == [235.0]


def test_a_tag_on_two_rows_and_one_that_is_gone_are_not_guessed(
    index_file: Callable[..., Path], tmp_path: Path
) -> None:
    first = check_workbook(index_file(ASKED, {**ASKED, "tag": "TE-102"}), Settings(out=tmp_path / "first.xlsx"))
    assert first.written is not None
    filled = fill_in(first.written, {"TE-101": readings("9", "9"), "TE-102": readings("9", "9")})
    changed = index_file(ASKED, ASKED, name="changed.xlsx")
    result = check_workbook(changed, Settings(survey=filled), write=False)
    remarks = {line.tag: line.entry.remark for line in result.report.survey.lines if line.entry}
    assert remarks == {"TE-101": "not taken: 2 rows of the index have this tag"}
    left = [(line.tag, line.entry.remark) for line in result.report.survey.left_over if line.entry]
    assert left == [("TE-102", "not taken: no row of the index has this tag")]


def test_a_form_with_columns_moved_and_renamed_sheet_is_read(given_back: GivenBack) -> None:
    def change(book: Workbook) -> None:
        sheet = book["Field survey"]
        sheet.title = "Survey June"
        sheet.delete_cols(10)  # By
        sheet.cell(sheet.max_row + 2, 2).value = "done but for the second"

    result = given_back(ASKED, {**ASKED, "tag": "TE-102"}, lines={"TE-101": readings("9", "9")}, change=change)
    assert order_in(result) == 9.0
    assert [(line.tag, line.entry) for line in result.report.survey.lines] == [("TE-102", None)]


def test_a_run_on_its_own_answer_takes_what_was_taken_again(given_back: GivenBack, tmp_path: Path) -> None:
    result = given_back(ASKED, lines={"TE-101": readings("9", "9", By="AB")})
    assert result.written is not None
    again = check_workbook(result.written, Settings(out=tmp_path / "third.xlsx", date="2024-06-01"))
    entry = again.report.survey.taken[0].entry
    assert entry is not None
    assert (entry.first, entry.second, entry.by, entry.taken) == ("9", "9", "AB", "2024-05-10")
    assert order_in(again) == 9.0


def test_what_was_typed_into_an_answer_is_kept_and_not_used_until_it_is_given_back(
    index_file: Callable[..., Path], tmp_path: Path
) -> None:
    index = index_file(ASKED)
    first = check_workbook(index, Settings(out=tmp_path / "first.xlsx"))
    assert first.written is not None
    fill_in(first.written, {"TE-101": readings("9", "9")}).replace(first.written)
    kept = check_workbook(index, Settings(out=first.written))
    entry = kept.report.survey.lines[0].entry
    assert entry is not None
    assert (entry.first, entry.second, entry.taken) == ("9", "9", "")
    assert kept.table["verdict"].tolist() == ["withheld"]
    used = check_workbook(index, Settings(out=first.written, survey=first.written))
    assert order_in(used) == 9.0


def test_a_workbook_without_a_form_is_refused_in_one_line(index_file: Callable[..., Path]) -> None:
    index = index_file(ASKED)
    with pytest.raises(WorkbookError, match="no Field survey in it"):
        check_workbook(index, Settings(survey=index), write=False)
