"""The sheet Field survey, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.answers import Survey, SurveyEntry, SurveyLine, SurveyQuestion
from thermowell_index.ooxml import Package
from thermowell_index.writer import write_checked
from thermowell_index.writer.field_survey import HEADINGS
from thermowell_index.writer.report import Report

ENTRY = SurveyEntry(
    tag="TE-1003",
    question="bore depth",
    unit="in",
    first="9-1/4",
    second="9-3/16",
    by="AB",
    on="2024-05-01",
    duty="trip",
    remark="hot",
    taken="2024-05-03",
    place="Field survey H9",
)
QUESTION = SurveyQuestion(label="bore depth", how="with a rod", is_on_form=True, releases=2, concerns=3)


def _line(**changes: Any) -> SurveyLine:
    values: dict[str, Any] = {
        "tag": "TE-1003",
        "place": "Steam header, Utilities row 8",
        "question": "bore depth",
        "rod": "1/4 in",
        "within": "± 1/4 in",
        "unit": "in",
        "why": "bore deeper than well",
        "also": "",
        "choices": (),
        "entry": None,
        **changes,
    }
    return SurveyLine(**values)


@pytest.fixture
def sheet_of(index_path: Path, make_report: Callable[..., Report]) -> Callable[[Survey], Worksheet]:
    """Writes a survey and reads its sheet."""

    def write(survey: Survey) -> Worksheet:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(make_report(survey=survey), package, target)
        sheet = load_workbook(target)["Field survey"]
        assert isinstance(sheet, Worksheet)
        return sheet

    return write


def _texts(sheet: Worksheet) -> list[list[object]]:
    return [[value for value in row if value is not None] for row in sheet.iter_rows(values_only=True)]


def _row_of(sheet: Worksheet, tag: str) -> int:
    return next(row for row in range(1, sheet.max_row + 1) if sheet.cell(row, 2).value == tag)


def test_nothing_to_measure_is_said_and_no_form_printed(sheet_of: Callable[[Survey], Worksheet]) -> None:
    texts = _texts(sheet_of(Survey()))
    assert ["No row waits for a measurement."] in texts
    assert list(HEADINGS) not in texts


def test_the_cautions_and_the_questions_stand_above_the_form(sheet_of: Callable[[Survey], Worksheet]) -> None:
    texts = _texts(sheet_of(Survey(questions=(QUESTION,), lines=(_line(),))))
    assert ["A length is valid for the stated sensor profile only."] in texts
    assert texts.index(["bore depth", 2, 3, "with a rod"]) < texts.index(list(HEADINGS))


def test_a_line_has_boxes_high_enough_to_write_in_that_keep_a_fraction_as_text(
    sheet_of: Callable[[Survey], Worksheet],
) -> None:
    sheet = sheet_of(Survey(questions=(QUESTION,), lines=(_line(also="installed length"),)))
    row = _row_of(sheet, "TE-1003")
    values = [sheet.cell(row, column).value for column in range(1, len(HEADINGS) + 1)]
    assert values[:7] == [
        1,
        "TE-1003",
        "Steam header, Utilities row 8",
        "bore depth",
        "1/4 in",
        "± 1/4 in",
        "in",
    ]
    assert values[7:13] == [None] * 6
    assert values[13] == "bore deeper than well; also waits for installed length"
    box = sheet.cell(row, HEADINGS.index("First reading") + 1)
    assert (box.number_format, box.border.left.style) == ("@", "thin")
    assert (sheet.row_dimensions[row].height or 0) >= 36


def test_the_form_begins_on_a_page_of_its_own_with_its_headings_on_each(
    sheet_of: Callable[[Survey], Worksheet],
) -> None:
    sheet = sheet_of(Survey(questions=(QUESTION,), lines=(_line(),)))
    heading_row = _row_of(sheet, "Tag")
    assert [mark.id for mark in sheet.row_breaks.brk] == [heading_row - 3]
    assert sheet.print_title_rows == f"${heading_row}:${heading_row}"


def test_words_to_choose_from_are_a_drop_down(sheet_of: Callable[[Survey], Worksheet]) -> None:
    sheet = sheet_of(Survey(lines=(_line(question="sensor mounting", choices=("flanged insert", "fixed fitting")),)))
    choices = sheet.data_validations.dataValidation[0]
    assert choices.formula1 == '"flanged insert,fixed fitting"'
    assert str(choices.sqref) == f"H{_row_of(sheet, 'TE-1003')}"


def test_what_was_written_in_is_shown_again(sheet_of: Callable[[Survey], Worksheet]) -> None:
    survey = Survey(taken=(_line(entry=ENTRY),), left_over=(_line(tag="TE-9", entry=ENTRY),))
    sheet = sheet_of(survey)
    row = _row_of(sheet, "TE-1003")
    assert [sheet.cell(row, column).value for column in (8, 9, 10, 11, 12, 13, 15)] == [
        "9-1/4",
        "9-3/16",
        "AB",
        "2024-05-01",
        "trip",
        "hot",
        "2024-05-03",
    ]
    titles = [line for line in _texts(sheet) if len(line) == 1]
    assert titles.index(["Taken into this answer"]) < titles.index(["Written in, not taken, and not asked any more"])


@pytest.mark.parametrize(
    "rows,sentence",
    [
        (1, "1 row waits for what no measurement settles; see Discrepancies."),
        (4, "4 rows wait for what no measurement settles; see Discrepancies."),
    ],
)
def test_rows_that_no_measurement_settles_are_counted(
    sheet_of: Callable[[Survey], Worksheet], rows: int, sentence: str
) -> None:
    assert [sentence] in _texts(sheet_of(Survey(unsettled_rows=rows)))
