"""What fitters wrote on First touch is carried over, or kept where its line is another one now."""

from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.pipeline import CheckResult, Settings, check_workbook
from thermowell_index.revisions.previous import TouchReading
from thermowell_index.writer.touch_readings import placed

ROW = {
    "bore_depth (in)": "9",
    "overall_length (in)": "9-1/4",
    "sensor_mounting": "spring-loaded fitting",
    "extension_arrangement": "none",
}
FOUND = ("1/16 in", "J. K.", "2024-05-04")


def rows(*bores: str) -> list[dict[str, str]]:
    return [ROW | {"tag": f"TE-{number}", "bore_depth (in)": bore} for number, bore in enumerate(bores, start=1)]


def table(sheet: Worksheet) -> tuple[int, dict[str, int]]:
    row = next(row for row in range(1, 40) if sheet.cell(row, 1).value == "Tag")
    return row, {str(cell.value): number for number, cell in enumerate(sheet[row], start=1)}


def shown(path: Path) -> dict[str, tuple[object, ...]]:
    sheet = load_workbook(path)["First touch"]
    top, columns = table(sheet)
    return {
        str(sheet.cell(row, columns["Tag"]).value): tuple(
            sheet.cell(row, columns[name]).value for name in ("Found", "By", "On")
        )
        for row in range(top + 1, sheet.max_row + 1)
        if sheet.cell(row, columns["Found"]).value
    }


@pytest.fixture
def read(index_file: Callable[..., Path]) -> Path:
    """Return an answer in which TE-1 and TE-2 were read, a column was put in, and the rows were sorted."""
    index = index_file(*rows("9", "9", "8-3/4"))
    check_workbook(index, Settings(date="2024-06-01"))
    path = index.with_name("index_checked.xlsx")
    book: Workbook = load_workbook(path)
    sheet = book["First touch"]
    top, columns = table(sheet)
    for row in (top + 1, top + 2):
        for name, text in zip(("Found", "By", "On"), FOUND, strict=True):
            sheet.cell(row, columns[name], text)
    lines = [[cell.value for cell in sheet[row]] for row in (top + 2, top + 3, top + 1)]
    for row, line in enumerate([[cell.value for cell in sheet[top]], *lines], start=top):
        for column, value in enumerate([line[0], "Van" if row == top else None, *line[1:]], start=1):
            sheet.cell(row, column).value = value
    book.save(path)
    return path


def test_readings_stay_with_their_line_and_go_to_the_register_where_it_changed(
    read: Path, index_file: Callable[..., Path]
) -> None:
    def run(*bores: str, name: str) -> CheckResult:
        return check_workbook(index_file(*rows(*bores), name=name), Settings(date="2024-07-01", previous=read))

    same = run("9", "9", "8", name="b.xlsx")
    assert shown(read.with_name("b_checked.xlsx")) == {"TE-1": FOUND, "TE-2": FOUND}
    assert (list(same.said), list(same.report.history.own_lines)) == ([], [])
    moved = run("8-1/2", "9", "8", name="c.xlsx")
    assert shown(read.with_name("c_checked.xlsx")) == {"TE-2": FOUND}
    kept = "First touch, TE-1, probe length 9 in: Found: 1/16 in; By: J. K.; On: 2024-05-04"
    assert list(moved.report.history.own_lines) == [kept]
    assert list(moved.said) == [
        "First touch: what was found for TE-1 stands in the Remarks register, for the line is another one now"
    ]
    assert kept in [
        cell.value for row in load_workbook(read.with_name("c_checked.xlsx"))["Remarks register"] for cell in row
    ]


def test_of_two_readings_of_one_line_each_is_kept() -> None:
    one, other = (TouchReading(line="a", tag="TE-1", length="9 in", written=(("Found", text),)) for text in "xy")
    assert placed(["b", "a"], [one, other]) == ({1: one}, [other])
