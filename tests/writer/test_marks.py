"""Our own sheets and columns, known by hidden names and taken out again."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from openpyxl import load_workbook
from openpyxl.styles import PatternFill

from thermowell_index.findings import Severity
from thermowell_index.ooxml import Package
from thermowell_index.writer import Report, is_own_output, strip_own, write_checked
from thermowell_index.writer.flags import FILLS
from thermowell_index.writer.marks import (
    columns_in_words,
    free_name,
    own_columns,
    own_sheets,
    sheet_reference,
    state_of,
)

OURS = ("Discrepancies", "Check summary", "Order schedule", "Spares plan")


def test_a_checked_workbook_is_known_by_its_marks_and_a_client_s_is_not(index_path: Path, checked_path: Path) -> None:
    with Package.open(index_path) as client, Package.open(checked_path) as checked:
        assert (is_own_output(client), is_own_output(checked)) == (False, True)


def test_our_sheets_and_columns_are_found(checked_path: Path) -> None:
    with Package.open(checked_path) as checked:
        assert tuple(own_sheets(checked).values())[:4] == OURS
        assert own_columns(checked) == {"Utilities": (8, 22), "Mixing": (8, 22)}


def test_the_marks_are_hidden_names(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    names = [name for name in book.defined_names.values() if name.name.startswith("_thermowell_index_")]
    assert len(names) == len(book.sheetnames) - 3 + 2
    assert all(name.hidden for name in names)


def test_stripping_gives_the_client_s_sheets_back_byte_for_byte(index_path: Path, checked_path: Path) -> None:
    with Package.open(index_path) as client, Package.open(checked_path) as checked:
        stripped = Package.from_bytes(strip_own(checked), checked_path)
        assert [sheet.name for sheet in stripped.sheets] == [sheet.name for sheet in client.sheets]
        for sheet in client.sheets:
            assert stripped.part(stripped.sheet(sheet.name).part) == client.part(sheet.part)
        assert not is_own_output(stripped)


def test_a_second_run_on_the_output_writes_the_same_sheets_again(checked_path: Path, report: Report) -> None:
    again = checked_path.with_name("INDEX_checked-2.xlsx")
    with Package.open(checked_path) as first:
        write_checked(report, Package.from_bytes(strip_own(first), checked_path), again)
        with Package.open(again) as second:
            assert [sheet.name for sheet in second.sheets] == [sheet.name for sheet in first.sheets]
            for sheet in first.sheets:
                assert second.part(second.sheet(sheet.name).part) == first.part(sheet.part)


def test_stripping_survives_another_program_s_saving(checked_path: Path) -> None:
    load_workbook(checked_path).save(checked_path)
    with Package.open(checked_path) as saved:
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    cells = stripped.read("Utilities")
    assert cells.last_column == 7
    assert stripped.fill(cells.rows[8][4].style) is None


def test_a_coloured_cell_that_moved_takes_the_look_of_its_column(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    book["Utilities"].move_range("A8:G8", rows=12)
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    assert stripped.fill(stripped.read("Utilities").rows[20][4].style) is None


def test_a_colour_that_a_person_put_over_ours_stays(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    book["Utilities"]["D8"].fill = PatternFill("solid", fgColor="FF00B050")
    book["Utilities"]["A6"].fill = PatternFill("solid", fgColor=FILLS[Severity.ERROR])
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    rows = stripped.read("Utilities").rows
    assert stripped.fill(rows[8][4].style) == "FF00B050"
    assert stripped.fill(rows[6][1].style) == FILLS[Severity.ERROR]


def test_sheets_and_columns_that_a_person_deleted_are_passed_over(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    del book["Check summary"], book["Mixing"]
    names = book.defined_names
    names["_thermowell_index_sheet_check_summary"].attr_text = "#REF!"
    names["_thermowell_index_columns_1"].attr_text = "Utilities!#REF!"
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        assert "check_summary" not in own_sheets(saved)
        assert own_columns(saved) == {}
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    assert [sheet.name for sheet in stripped.sheets] == ["Cover", "Utilities"]


def test_without_the_hidden_sheet_stripping_still_takes_out_the_rest(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    del book["Thermowell index state"]
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        assert state_of(saved) is None
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    assert len(stripped.sheets) == 3


def test_a_column_that_a_person_put_among_ours_stays(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    sheet = book["Mixing"]
    sheet.insert_cols(10)
    sheet["J5"], sheet["J6"] = "Ordered by", "A. B."
    book.defined_names["_thermowell_index_columns_2"].attr_text = "Mixing!$H:$W"
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        assert columns_in_words(saved) == ["sheet Mixing: column J stood among the answers; it was kept"]
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    rows = stripped.read("Mixing").rows
    assert {column: cell.value for column, cell in rows[6].items() if column > 7 and cell.is_used} == {10: "A. B."}
    assert {column for row in stripped.read("Utilities").rows.values() for column in row} <= set(range(1, 8))


def test_a_coloured_cell_whose_column_shifted_takes_the_look_of_its_neighbour(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    sheet = book["Utilities"]
    sheet.insert_cols(2)
    book.defined_names["_thermowell_index_columns_1"].attr_text = "Utilities!$I:$W"
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        assert saved.fill(saved.read("Utilities").rows[8][5].style) is not None
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    cells = stripped.read("Utilities")
    assert stripped.fill(cells.rows[8][5].style) is None
    assert cells.rows[8][5].style == cells.rows[9][5].style


def test_a_renamed_sheet_loses_our_colours_all_the_same(checked_path: Path) -> None:
    book = load_workbook(checked_path)
    book["Utilities"].title = "Rev B"
    book.defined_names["_thermowell_index_columns_1"].attr_text = "'Rev B'!$H:$V"
    book.save(checked_path)
    with Package.open(checked_path) as saved:
        stripped = Package.from_bytes(strip_own(saved), checked_path)
    assert stripped.fill(stripped.read("Rev B").rows[8][4].style) is None


@pytest.mark.parametrize(
    "taken,expected",
    [
        ([], "Discrepancies"),
        (["discrepancies"], "Discrepancies (2)"),
        (["Discrepancies", "Discrepancies (2)"], "Discrepancies (3)"),
    ],
)
def test_a_taken_name_is_numbered(taken: list[str], expected: str) -> None:
    assert free_name("Discrepancies", taken) == expected


def test_a_numbered_name_stays_within_the_longest_that_a_sheet_may_have() -> None:
    assert free_name("x" * 31, ["x" * 31]) == "x" * 27 + " (2)"


def test_a_sheet_with_an_apostrophe_is_found_again(
    index_path: Path, tmp_path: Path, make_report: Callable[..., Report]
) -> None:
    name = "Operator's list"
    book = load_workbook(index_path)
    book["Utilities"].title = name
    book.save(index_path)
    report = make_report(findings=[])
    report.table.sheets[1].name = report.table.tables[0].sheet = name
    report.table.frame["sheet"] = report.table.frame["sheet"].replace("Utilities", name)
    target = tmp_path / "out.xlsx"
    with Package.open(index_path) as package:
        write_checked(replace(report), package, target)
    with Package.open(target) as checked:
        assert own_columns(checked)[name] == (8, 22)
    assert sheet_reference(name, "$A$1") == "'Operator''s list'!$A$1"
