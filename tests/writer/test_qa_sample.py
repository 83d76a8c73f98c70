"""The sheet QA sample, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from thermowell_index.ooxml import Package
from thermowell_index.revisions.history import History
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import HandValue
from thermowell_index.revisions.sample import Sample, draw
from thermowell_index.writer import Report, read_previous, write_checked
from thermowell_index.writer.remark_sheets import HAND_VALUE_HEADINGS, sample_name

INCH = 25.4


def _row(tag: str, well_row: int = -1, **cells: str) -> RowMemory:
    return RowMemory(
        tag=tag,
        well_tag="",
        key=tag.replace("-", ""),
        well_key="",
        loop="",
        letters="TE",
        sheet="Utilities",
        row=6,
        cells={"tag": tag, "remarks": "as built", **cells},
        inputs="i",
        order_mm=9 * INCH,
        well_row=well_row,
        unit="in",
        in_fractions=True,
    )


ROWS = [_row("TE-1001", 1, bore_depth="9"), _row("TW-1001", overall_length="9-1/4", bore_depth="9")]


@pytest.fixture
def book_of(index_path: Path, make_report: Callable[..., Report]) -> Callable[[Sample], Workbook]:
    """Return a function that writes a sample and reads the workbook back."""

    def write(sample: Sample) -> Workbook:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(make_report(history=History(rows=ROWS, sample=sample)), package, target)
        return load_workbook(target)

    return write


def _drawn(**written: str) -> Sample:
    value = HandValue(key="TE1001", well_key="", tag="TE-1001", inputs=ROWS[0].fingerprint, answer="", **written)
    return draw(ROWS, [0], "0123456789abcdefghij", [value])


def test_a_row_stands_with_all_its_inputs_beside_the_answer(book_of: Callable[[Sample], Workbook]) -> None:
    sheet = book_of(_drawn())["QA sample"]
    assert tuple(cell.value for cell in sheet[7]) == HAND_VALUE_HEADINGS
    values: dict[str, Any] = dict(zip(HAND_VALUE_HEADINGS, (cell.value for cell in sheet[8]), strict=True))
    assert values["What the index says"].split("\n") == [
        "bore depth 9",
        "overall length 9-1/4 (from TW-1001)",
        "taken as: mounting spring-loaded fitting, extension none",
        "lengths are from end of mounting thread to tip, spring relaxed",
    ]
    assert str(values["Working"]).startswith("bore depth 9 in as stated")
    assert (values["Place"], values["Length to order"], values["Length by hand"]) == ("Utilities, row 6", "9 in", None)
    assert str(sheet["A5"].value).endswith("Seed of the draw: 0123456789abcdef.")


def test_a_hand_value_is_text_and_is_compared(book_of: Callable[[Sample], Workbook]) -> None:
    sheet = book_of(_drawn(value="9-1/4", checked_by="G. H.", checked_on="2024-06-01", comment="hm"))["QA sample"]
    assert [sheet.cell(8, column).value for column in (7, 8, 9, 11)] == ["9-1/4", "differs by 1/4 in", "G. H.", "hm"]
    assert sheet.cell(8, 7).number_format == "@"


def test_hand_values_of_other_rows_are_kept_below(book_of: Callable[[Sample], Workbook]) -> None:
    old = [
        HandValue(key="TE9", well_key="", tag="TE-9", inputs="x", answer="228.600000", value="9"),
        HandValue(key="TE8", well_key="", tag="TE-8", inputs="x", answer="", comment="no drawing"),
    ]
    sheet = book_of(Sample(seed="s", earlier=old))["QA sample"]
    lines = [[value for value in row if value is not None] for row in sheet.iter_rows(values_only=True)]
    assert [sample_name(old[0]), "TE-9", "228.6 mm", "9"] in lines
    assert [sample_name(old[1]), "TE-8", "no drawing"] in lines


@pytest.mark.parametrize(
    "key,value,shown", [("TE1001", "9", "9 in"), ("TE9", "9 in", "9 in"), ("TE9", "230 mm", "228.6 mm")]
)
def test_a_length_of_then_is_in_the_unit_of_its_row_or_of_its_hand_value(
    *, book_of: Callable[[Sample], Workbook], key: str, value: str, shown: str
) -> None:
    old = HandValue(key=key, well_key="", tag="TE-X", inputs="x", answer="228.600000", value=value)
    sheet = book_of(Sample(seed="s", earlier=[old]))["QA sample"]
    lines = [[value for value in row if value is not None] for row in sheet.iter_rows(values_only=True)]
    assert [sample_name(old), "TE-X", shown, value] in lines


def test_a_line_of_the_sample_that_was_taken_out_keeps_its_hand_value(
    book_of: Callable[[Sample], Workbook], index_path: Path
) -> None:
    book = book_of(_drawn(value="9", checked_by="G. H."))
    book["QA sample"].delete_rows(8)
    book.save(index_path.with_name("OUT.xlsx"))
    with Package.open(index_path.with_name("OUT.xlsx")) as package:
        previous = read_previous(package)
    assert previous is not None
    assert [(value.value, value.checked_by) for value in previous.hand_values] == [("9", "G. H.")]


def test_with_nothing_drawn_there_is_no_such_sheet(book_of: Callable[[Sample], Workbook]) -> None:
    assert "QA sample" not in book_of(Sample()).sheetnames
