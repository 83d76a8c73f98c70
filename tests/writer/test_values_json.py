"""What was read of each row, as data: the cell of every value, its text as typed, its unit and where that is from."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from openpyxl import Workbook

from thermowell_index import check_workbook
from thermowell_index.writer.answer_json import as_data, schema

Values = Callable[..., dict[str, dict[str, dict[str, Any]]]]


@pytest.fixture
def values(index_file: Callable[..., Path]) -> Values:
    """The values read by tag, for rows as a test writes them; the answer keeps to its schema."""

    def read(*rows: dict[str, object], **more: object) -> dict[str, dict[str, dict[str, Any]]]:
        data = as_data(check_workbook(index_file(*rows, **more), write=False).report)
        Draft202012Validator(schema()).validate(data)
        return {row["tag"]: row["values"] for row in data["rows"]}

    return read


def _row(tag: str, **more: object) -> dict[str, object]:
    return {"Tag": tag, "Overall_length_(in)": 9.25, "Bore_depth_(in)": "9", "Tip_thickness_(in)": "1/4", **more}


def test_a_length_says_its_cell_its_text_and_where_its_unit_is_from(values: Values) -> None:
    found = values(_row("TE-1", **{"Tip_thickness_(in)": "6.35 mm (verified)"}))["TE-1"]
    assert found["bore_depth"] == {
        "sheet": "Index",
        "cell": "C2",
        "text": "9",
        "value_mm": 228.6,
        "unit": "in",
        "unit_from": "heading",
        "state": "value",
    }
    tip = found["tip_thickness"]
    assert (tip["text"], tip["unit"], tip["unit_from"], tip["note"]) == ("6.35 mm (verified)", "mm", "cell", "verified")


def test_only_fields_with_something_in_them_are_there(values: Values) -> None:
    found = values(_row("TE-1", Service="", Remarks="new"), _row("TE-2", **{"Bore_depth_(in)": None}))
    assert list(found["TE-1"]) == ["tag", "remarks", "overall_length", "bore_depth", "tip_thickness"]
    assert "bore_depth" not in found["TE-2"]


def test_a_placeholder_is_something_and_has_no_unit(values: Values) -> None:
    bore = values(_row("TE-1", **{"Bore_depth_(in)": "TBD"}))["TE-1"]["bore_depth"]
    assert (bore["text"], bore["state"], bore["value_mm"], bore["unit"]) == ("TBD", "missing", None, None)


def test_a_unit_that_only_the_number_format_prints(values: Values) -> None:
    def print_unit(book: Workbook) -> None:
        book["Index"]["B2"].number_format = '0.00" in"'

    found = values(_row("TE-1"), change=print_unit)["TE-1"]["overall_length"]
    assert (found["text"], found["unit_from"]) == ("9.25", "number format")


def test_unit_column_and_title_note(values: Values) -> None:
    row = {"Tag": "TE-1", "Overall_length": 235, "Tip_thickness": 6}
    assert values(row, title=["All dimensions in mm"])["TE-1"]["overall_length"]["unit_from"] == "title block"
    assert values({**row, "Length_unit": "mm"})["TE-1"]["overall_length"]["unit_from"] == "unit column"


def test_values_of_the_well_row_name_its_sheet(values: Values) -> None:
    sensor = {"Tag": "TE-101", "Sensor_mounting": "spring-loaded fitting", "Probe_length_(in)": 9}
    well = {
        "Tag": "TW-101",
        "Overall_length_(in)": 9.25,
        "Tip_thickness_(in)": 0.25,
        "Instrument_connection": "1/2 NPT",
    }
    found = values(sheets={"Sensors": [sensor], "Wells": [well]})["TE-101"]
    places = {name: (value["sheet"], value["cell"]) for name, value in found.items()}
    assert places["overall_length"] == ("Wells", "B2")
    assert places["instrument_thread"] == ("Wells", "D2")
    assert places["probe_length"] == ("Sensors", "C2")


def test_a_second_column_names_its_own_cell(values: Values) -> None:
    rows = ({**_row("TE-1"), "Tip_thickness_(in)_": None}, {**_row("TE-2", **{"Tip_thickness_(in)": None})})
    found = values(rows[0], {**rows[1], "Tip_thickness_(in)_": 0.25})["TE-2"]["tip_thickness"]
    assert found["cell"] == "E3"


def test_a_tag_that_is_joined_names_all_its_cells(values: Values) -> None:
    row = {"Area": "12", "Function": "TE", "Loop_No.": "101", "Overall_length_(in)": 9.25, "Tip_thickness_(in)": 0.25}
    other = {**row, "Loop_No.": "102"}
    (tag, found), *_ = values(row, other).items()
    assert found["tag"]["text"] == tag
    assert set(found["tag"]["cell"].split("+")) >= {"B2", "C2"}


def test_a_text_of_a_merged_cell_names_the_cell_that_holds_it(values: Values) -> None:
    def merge(book: Workbook) -> None:
        book["Index"].merge_cells("E2:E3")

    found = values(_row("TE-1", Service="Feed"), _row("TE-2", Service="Feed"), change=merge)["TE-2"]["service"]
    assert found == {"sheet": "Index", "cell": "E2", "text": "Feed"}
