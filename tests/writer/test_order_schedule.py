"""The sheet Order schedule, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path

import pandas as pd
from openpyxl import Workbook, load_workbook

from thermowell_index.ooxml import Package
from thermowell_index.sizing.schedule import schedule
from thermowell_index.writer import write_checked
from thermowell_index.writer.report import Report


def _lines(book: Workbook) -> list[list[object]]:
    rows = book["Order schedule"].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


def test_every_length_stands_beside_the_plane_it_is_measured_from(checked_book: Workbook) -> None:
    assert [
        2,
        1,
        "9-1/4 in",
        "from end of mounting thread to tip, spring relaxed",
        "spring-loaded fitting",
        "1/4 in",
        "RTD Pt100",
        "not stated",
        "316 SS",
        "1/2 NPT",
        "TE-1002",
    ] in _lines(checked_book)


def test_a_metric_length_is_written_in_millimetres(checked_book: Workbook) -> None:
    assert "230 mm" in {line[2] for line in _lines(checked_book) if len(line) > 9}


def test_a_row_under_review_is_named_to_be_looked_at_before_ordering(checked_book: Workbook) -> None:
    line = next(line for line in _lines(checked_book) if "12-3/4 in" in line)
    assert (line[1], line[-2:]) == (2, ["TE-1005 (2)", "TE-1005 (2)"])


def test_parts_and_held_rows_are_listed(checked_book: Workbook) -> None:
    lines = _lines(checked_book)
    assert [2, 4, "union 1/2 NPT", "TE-1005"] in lines
    assert ["TE-1004", "Utilities", 10, "the union's length is not stated"] in lines


def test_the_totals_reconcile_with_the_rows_read(checked_book: Workbook) -> None:
    totals = {str(line[0]): line[1] for line in _lines(checked_book) if len(line) == 2}
    parts = [totals[name] for name in ("ordered", "withheld", "not wanted (quantity zero)", "not applicable")]
    assert parts == [4, 3, 1, 1]
    assert totals["rows read"] == 9
    assert ["The 4 rows ordered want 5 sensors."] in _lines(checked_book)


def test_an_index_with_nothing_to_order_says_so(
    index_path: Path, frame: pd.DataFrame, make_report: Callable[..., Report]
) -> None:
    nothing = schedule(frame[frame["verdict"] == "not applicable"])
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(make_report(schedule=nothing), package, target)
    lines = _lines(load_workbook(target))
    assert ["No sensor can be ordered."] in lines
    assert ["Extension parts"] not in lines
    assert ["Held: no length can be given yet"] not in lines


def test_a_long_list_of_tags_goes_on_in_the_rows_below(
    index_path: Path, frame: pd.DataFrame, make_report: Callable[..., Report]
) -> None:
    one = frame.loc[[5]].assign(extension_parts="union 1/2 NPT", quantity=1)
    many = pd.concat([one.assign(tag=f"TE-{number:05}") for number in range(600)], ignore_index=True)
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(make_report(schedule=schedule(many)), package, target)
    sheet = load_workbook(target)["Order schedule"]
    end = next(row for row in range(6, 100) if sheet.cell(row, 1).value == "Extension parts")
    texts = [str(sheet.cell(row, 11).value) for row in range(6, end) if sheet.cell(row, 11).value]
    assert len(texts) > 3
    assert ", ".join(texts) == ", ".join(many["tag"])
    assert all((sheet.row_dimensions[row].height or 0) < 310 for row in range(6, end))
    assert sheet["B6"].value == 600
    assert sheet["B7"].value is None
    assert [sheet.cell(end + 2, column).value for column in (1, 2, 3)] == [1, 600, "union 1/2 NPT"]


def test_a_length_off_the_sensors_list_is_marked(
    index_path: Path, frame: pd.DataFrame, make_report: Callable[..., Report]
) -> None:
    one = frame.loc[[5]].assign(standard_lengths=pd.Series([(100.0,)], index=[5], dtype=object))
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(make_report(schedule=schedule(one)), package, target)
    assert str(load_workbook(target)["Order schedule"]["C6"].value).endswith(", special")
