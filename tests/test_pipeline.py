"""From a workbook to its answer: joined rows, sheets, units, and what is carried over from run to run."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.styles import Font

from thermowell_index import Settings, check_workbook
from thermowell_index.errors import OutputError, WorkbookError
from thermowell_index.findings import Severity

Check = Callable[..., Any]
IndexFile = Callable[..., Path]
INCH = 25.4
OTHER = {"tag": "TE-101", "service": "wash water", "line": "W-12", "sensor_type": None}
SENSOR = OTHER | {"sensor_type": "RTD", "bore_depth (in)": None}
WELL = OTHER | {"tag": "TW-101", "bore_depth (in)": 9}
SOUND = SENSOR | {"bore_depth (in)": 9}


def rules(done: Any) -> list[str]:
    return [rule for rule, _, _ in done.hits()]


# --- which rows are points, and what joins to what


def test_a_well_row_is_joined_to_its_sensor_by_loop_and_the_sensor_is_sized_once(check: Check) -> None:
    done = check(SENSOR, WELL, OTHER | {"tag": "TT-101"}, OTHER | {"tag": "TI-101"})
    assert list(done.verdicts().values()) == ["sized", *["not applicable"] * 3]
    assert done.orders()["TE-101"] == 9


def test_a_well_tag_goes_before_the_loop_number(check: Check) -> None:
    done = check(
        SENSOR | {"well_tag": "TW-55"}, WELL | {"tag": "TW-55", "bore_depth (in)": 6}, WELL | {"bore_depth (in)": 9}
    )
    assert done.orders()["TE-101"] == 6


def test_well_data_on_another_sheet_is_joined_by_well_tag(check: Check) -> None:
    done = check(
        sheets={
            "Sensors": [SENSOR | {"well_tag": "TW-7"}, SOUND | {"tag": "TE-102", "well_tag": None}],
            "Wells": [WELL | {"tag": "TW-7"}],
        }
    )
    assert done.verdicts() == {"TE-101": "sized", "TE-102": "sized", "TW-7": "not applicable"}


def test_a_finding_about_a_joined_well_row_names_its_cell_and_the_sensors_tag(check: Check) -> None:
    done = check(SENSOR, WELL | {"bore_depth (in)": "8 or 9"})
    found = done.found("range_for_dimension")
    assert (found.cell, found.row, found.tag, found.tags) == ("E3", 3, "TE-101", ("TE-101",))


def test_a_sensor_for_which_no_well_data_is_found_is_withheld(check: Check) -> None:
    done = check(SOUND, SENSOR | {"tag": "TE-102"})
    assert (done.verdicts()["TE-102"], done.row("TE-102")["reason"]) == ("withheld", "bore depth unknown")


def test_a_row_with_dimensions_and_no_tag_is_an_error(check: Check) -> None:
    done = check(SOUND, SOUND | {"tag": None, "overall_length (in)": 9.25})
    assert rules(done) == ["dimensions_without_tag"]
    assert list(done.table["verdict"]) == ["sized", "withheld"]


def test_a_transmitter_row_that_alone_holds_well_and_sensor_is_sized(check: Check) -> None:
    assert check(SOUND | {"tag": "TT-101"}).verdicts() == {"TT-101": "sized"}


def test_a_point_is_known_by_its_type_or_its_sensor_where_the_tag_says_nothing(check: Check) -> None:
    def change(book: Workbook) -> None:
        book["Index"]["A2"].value, book["Index"]["A2"].data_type = "=A1.B2-17", "s"

    row = {"tag": "4711", "service": "wash water", "bore_depth (in)": 9, "instrument_type": "temperature element"}
    done = check(row | {"instrument_type": None, "sensor_type": "RTD"}, row, change=change)
    assert done.verdicts() == {"=A1.B2-17": "sized", "4711": "sized"}


def test_tags_that_differ_in_case_dash_and_blanks_are_one_tag(check: Check) -> None:
    done = check(SOUND, SOUND | {"tag": "te 101", "bore_depth (in)": 7})
    assert set(rules(done)) >= {"tag_twice"}
    assert list(done.table["verdict"]) == ["withheld", "withheld"]


def test_a_tag_twice_with_the_same_lengths_is_a_warning(check: Check) -> None:
    done = check(SOUND, SOUND)
    assert [(found.rule, found.severity) for found in done.findings if found.rule == "tag_twice"] == [
        ("tag_twice", Severity.WARNING)
    ] * 2


def test_a_well_tag_of_another_loop_is_a_warning(check: Check) -> None:
    done = check(SOUND | {"well_tag": "TW-102"}, SOUND | {"tag": "TE-102", "well_tag": None})
    found = done.found("well_tag_of_another_loop")
    assert (found.tag, found.severity) == ("TE-101", Severity.WARNING)


@pytest.mark.parametrize(
    "cells",
    [{"status": "DELETED"}, {"remarks": "Deleted per MOC 12"}, {"remarks": "deleted"}, {"status": "spare"}],
)
def test_a_deleted_row_is_not_applicable(check: Check, cells: dict[str, object]) -> None:
    done = check(SOUND | {"status": None, "remarks": None} | cells, SOUND | {"tag": "TE-102"})
    assert done.verdicts() == {"TE-101": "not applicable", "TE-102": "sized"}


def test_deleted_said_of_another_tag_leaves_the_row_live(check: Check) -> None:
    assert check(SOUND | {"remarks": "PT-9 deleted, take its nozzle"}).verdicts() == {"TE-101": "sized"}


def test_a_struck_out_tag_is_not_applicable_and_a_hidden_row_is_read(check: Check) -> None:
    def change(book: Workbook) -> None:
        book["Index"]["A2"].font = Font(strike=True)
        book["Index"].row_dimensions[3].hidden = True

    done = check(SOUND | {"service": "x"}, SOUND | {"tag": "TE-102"}, change=change)
    assert list(done.table["verdict"]) == ["not applicable", "sized"]


def test_an_unknown_status_word_is_one_note_and_the_row_is_live(check: Check) -> None:
    done = check(SOUND | {"status": "zorbed"}, SOUND | {"tag": "TE-102", "status": "zorbed"})
    assert list(done.verdicts().values()) == ["sized", "sized"]
    assert done.notes()["status_word_not_known"] == ("TE-101", "TE-102")
    assert "zorbed" in done.found("status_word_not_known").found


# --- two columns, units


@pytest.mark.parametrize("second,verdict,order", [(9.03, "sized", 9), (8, "sized", 8)])
def test_of_two_columns_the_measured_one_is_used(check: Check, second: float, verdict: str, order: float) -> None:
    row = check(SOUND | {"bore_depth_as_found (in)": second}).row("TE-101")
    assert row["bore_depth_basis"] == "measured"
    assert row["verdict"] in {verdict, "review"}
    assert row["probe_length_order_mm"] == pytest.approx(order * INCH)


@pytest.mark.parametrize("second,verdict", [(9.05, "sized"), (8, "withheld")])
def test_two_columns_of_equal_standing_must_agree(check: Check, second: float, verdict: str) -> None:
    done = check(SOUND | {"well_bore_depth (in)": second})
    assert done.verdicts() == {"TE-101": verdict}
    assert rules(done) == ["two_columns_differ"] * (verdict == "withheld")


def test_a_length_without_a_unit_is_withheld_until_the_basis_says_it(check: Check) -> None:
    row = OTHER | {"tag": "TE-101", "bore_depth": 9}
    done = check(row)
    assert (rules(done), done.verdicts()) == (["unit_not_known"], {"TE-101": "withheld"})
    assert check(row, basis='[index]\nunit = "in"').orders() == {"TE-101": 9}


def test_a_unit_that_only_the_number_format_shows_counts_as_written_in_the_cell(check: Check) -> None:
    def change(book: Workbook) -> None:
        book["Index"]["E2"].number_format = '0.0 "mm"'

    done = check(SOUND | {"bore_depth (in)": 230}, SOUND | {"tag": "TE-102"}, change=change)
    assert done.row("TE-101")["probe_length_order_mm"] == pytest.approx(230)


def test_computed_columns_bear_the_majority_unit_of_their_table(check: Check) -> None:
    rows = [SOUND | {"tag": f"TE-{n}", "bore_depth (in)": cell} for n, cell in enumerate(["230 mm", "9", "231 mm"], 1)]
    assert check(*rows).result.report.sheet_units == {0: "mm"}


# --- extensions headed by one word


def test_tbd_under_extension_is_unknown_and_withheld(check: Check) -> None:
    done = check(SOUND | {"extension": "none"}, SOUND | {"tag": "TE-102", "extension": "TBD"})
    assert done.verdicts() == {"TE-101": "sized", "TE-102": "withheld"}


def test_no_sensor_is_passed_over_in_a_narrow_table(check: Check) -> None:
    narrow = {"tag": "TE-101", "bore_depth (in)": 9, "sensor_type": "RTD"}
    done = check(narrow, narrow | {"tag": "TE-102", "bore_depth (in)": None})
    assert done.verdicts() == {"TE-101": "sized", "TE-102": "withheld"}


# --- answers


def test_rows_that_are_not_applicable_are_in_the_data_with_that_verdict(index_file: IndexFile, tmp_path: Path) -> None:
    path = index_file(SOUND, SENSOR | {"tag": "PT-7", "sensor_type": None, "bore_depth (in)": 3})
    check_workbook(path, Settings(json=tmp_path / "answer.json"))
    rows = json.loads((tmp_path / "answer.json").read_text(encoding="utf-8"))["rows"]
    assert [(row["tag"], row["verdict"], row["probe_length_order_mm"]) for row in rows] == [
        ("TE-101", "sized", 228.6),
        ("PT-7", "not applicable", None),
    ]


def test_a_rule_has_its_python_name_in_the_data_and_blanks_on_the_sheet(index_file: IndexFile, tmp_path: Path) -> None:
    path = index_file(SOUND, SENSOR | {"tag": "TE-102"})
    result = check_workbook(path, Settings(json=tmp_path / "answer.json"))
    found = json.loads((tmp_path / "answer.json").read_text(encoding="utf-8"))["findings"]
    assert "bore_depth_unknown" in {one["rule"] for one in found}
    assert result.written is not None
    cells = {cell.value for line in load_workbook(result.written)["Discrepancies"].iter_rows() for cell in line}
    assert "bore depth unknown" in cells
    assert "bore_depth_unknown" not in cells


def test_the_input_stays_as_it_is_and_nothing_is_written_without_write(index_file: IndexFile) -> None:
    path = index_file(SOUND)
    before = path.read_bytes()
    assert check_workbook(path, write=False).written is None
    assert [found.name for found in path.parent.iterdir()] == [path.name]
    result = check_workbook(path)
    assert result.written == path.with_name("index_checked.xlsx")
    assert path.read_bytes() == before


def decide(path: Path, rule: str, **cells: str) -> None:
    """Write a reviewer's decision on the first finding of a rule."""
    book = load_workbook(path)
    sheet = book["Discrepancies"]
    lines = list(sheet.iter_rows())
    head = next(number for number, line in enumerate(lines) if "Disposition" in [cell.value for cell in line])
    columns = {str(cell.value): number for number, cell in enumerate(lines[head], 1)}
    row = next(number for number, line in enumerate(lines, 1) if rule in [cell.value for cell in line])
    for heading, text in cells.items():
        sheet.cell(row, columns[heading], text)
    book.save(path)


def test_a_run_over_its_own_answer_keeps_decisions_and_appends_nothing(index_file: IndexFile) -> None:
    path = index_file(SOUND, SENSOR | {"tag": "TE-102"})
    first = check_workbook(path).written
    assert first is not None
    decide(first, "bore depth unknown", Disposition="to survey", Reviewer="QA", Comment="ask the site")
    result = check_workbook(first)
    assert result.written == path.with_name("index_checked-2.xlsx")
    found = next(one for one in result.findings if one.rule == "bore_depth_unknown")
    assert (found.disposition, found.reviewer, found.comment) == ("to survey", "QA", "ask the site")
    again = load_workbook(result.written)
    assert again.sheetnames == load_workbook(first).sheetnames
    assert again["Index"].max_column == load_workbook(first)["Index"].max_column


def test_a_changed_index_says_new_open_and_cleared(index_file: IndexFile) -> None:
    path = index_file(SOUND, SENSOR | {"tag": "TE-102"}, SENSOR | {"tag": "TE-103"})
    check_workbook(path)
    path = index_file(SENSOR, SENSOR | {"tag": "TE-102"}, SOUND | {"tag": "TE-103"})
    result = check_workbook(path)
    changes = {found.tag: found.change for found in result.findings if found.rule == "bore_depth_unknown"}
    assert changes == {"TE-101": "new", "TE-102": "open", "TE-103": "cleared"}


def test_the_previous_run_can_be_named(index_file: IndexFile, tmp_path: Path) -> None:
    path = index_file(SENSOR, SOUND | {"tag": "TE-102"})
    earlier = tmp_path / "earlier.xlsx"
    check_workbook(path, Settings(out=earlier))
    decide(earlier, "bore depth unknown", Comment="on order")
    result = check_workbook(path, Settings(previous=earlier))
    assert result.report.run.previous_name == "earlier.xlsx"
    assert "on order" in {found.comment for found in result.findings}


def test_a_previous_run_that_is_none_is_refused(index_file: IndexFile) -> None:
    path, other = index_file(SOUND), index_file(SOUND, name="other.xlsx")
    with pytest.raises(WorkbookError, match=r"other\.xlsx: is not a checked workbook"):
        check_workbook(path, Settings(previous=other))


def test_a_clients_own_sheet_called_discrepancies_stays(index_file: IndexFile) -> None:
    path = index_file(sheets={"Index": [SOUND], "Discrepancies": [{"mine": "keep"}]})
    written = check_workbook(path).written
    assert written is not None
    book = load_workbook(written)
    assert book["Discrepancies"]["A2"].value == "keep"
    assert "Discrepancies (2)" in book.sheetnames


def test_any_other_file_at_the_target_is_refused(index_file: IndexFile) -> None:
    path = index_file(SOUND)
    index_file(SOUND, name="index_checked.xlsx")
    with pytest.raises(OutputError, match="was not made by this program"):
        check_workbook(path)


def test_a_text_file_is_an_index_too(tmp_path: Path) -> None:
    path = tmp_path / "index.csv"
    path.write_text("tag;service;line;bore depth (mm)\nTE-101;wash water;W-12;230,5\n", encoding="utf-8")
    result = check_workbook(path)
    assert result.written == tmp_path / "index_checked.xlsx"
    assert result.table["probe_length_order_mm"].tolist() == [230]
    assert result.table["sheet"].tolist() == ["index"]


@pytest.mark.parametrize(
    "line,revision",
    [("Rev. C", "C"), ("REVISION: 04", "04"), ("rev no. 2A", "2A"), ("Rev by: AB", ""), ("INSTRUMENT INDEX", "")],
)
def test_the_revision_is_read_from_the_title_block(check: Check, line: str, revision: str) -> None:
    assert check(SOUND, title=["EXAMPLE PLANT", line]).result.report.run.revision == revision


def test_the_revision_may_stand_beside_its_label(check: Check) -> None:
    assert check(SOUND, title=["EXAMPLE PLANT", "Rev.:", "4"]).result.report.run.revision == "4"
    assert check(SOUND, title=["EXAMPLE PLANT", "Rev.:", "2021-03-04"]).result.report.run.revision == ""


def test_the_day_of_the_run_can_be_given_or_set_for_a_reproducible_build(
    index_file: IndexFile, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = index_file(SOUND)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "86400")
    assert check_workbook(path, write=False).report.run.date == "1970-01-02"
    assert check_workbook(path, Settings(date="2001-02-03"), write=False).report.run.date == "2001-02-03"
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    assert check_workbook(path, write=False).report.run.date > "2020"


def test_a_design_basis_is_the_same_in_every_process(tmp_path: Path) -> None:
    basis = tmp_path / "basis.toml"
    basis.write_text(
        '[profile.mine]\nlike = "spring_loaded_insert"\ntravel = "25 mm"\nseat_offset = "2 mm"\nwords = ["mine"]\n'
    )
    program = (
        "import sys; from pathlib import Path; from thermowell_index.basis_file import read_basis; "
        "from thermowell_index.pipeline import _basis_fingerprint as told; "
        "from thermowell_index.revising import basis_entries; "
        "basis = read_basis(Path(sys.argv[1]), switches={}); print(told(basis), basis_entries(basis))"
    )
    said = {
        subprocess.run(  # noqa: S603 - this test's own program
            [sys.executable, "-c", program, str(basis)],
            env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, text=True, check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }  # fmt: skip
    assert len(said) == 1


def test_the_loudest_live_finding_is_known(check: Check) -> None:
    assert check(SENSOR, SOUND | {"tag": "TE-102"}).result.worst() is Severity.ERROR
    silent = {"sensor_mounting": "fixed fitting", "extension_arrangement": "none"}
    assert check(SOUND | silent).result.worst() in {Severity.NOTE, None}


def test_the_stages_are_told_as_they_begin(index_file: IndexFile) -> None:
    seen: list[str] = []
    check_workbook(index_file(SOUND), progress=seen.append)
    assert seen == ["open", "read", "check", "write"]


def test_a_list_that_has_tags_of_wells_alone_is_one_of_wells(tmp_path: Path) -> None:
    book = Workbook()
    wells, sensors = book.worksheets[0], book.create_sheet("Sensors")
    wells.append(["Thermowell no.", "Bore depth (in)", "Tip thk (in)"])
    sensors.append(["Tag", "Service", "Well tag", "Mounting", "Extension"])
    for number, depth in ((61, 9), (62, 12)):
        wells.append([f"TH-{number}", depth, 0.25])
        sensors.append([f"TE-{number}1", "feed", f"TH-{number}", "spring-loaded fitting", "none"])
    path = tmp_path / "INDEX.xlsx"
    book.save(path)
    table = check_workbook(path, write=False).table
    orders = (table.set_index("tag")["probe_length_order_mm"].dropna() / INCH).round(6)
    assert dict(orders) == {"TE-611": 9, "TE-621": 12}
