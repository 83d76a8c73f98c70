"""The document controller's work as a whole: issue after issue, with reviewers' remarks in between."""

import json
import os
import random
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from openpyxl import Workbook, load_workbook
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.cli import main
from thermowell_index.errors import SettingsError, WorkbookError
from thermowell_index.findings import Finding
from thermowell_index.ooxml import Package
from thermowell_index.pipeline import CheckResult, Settings, check_workbook
from thermowell_index.writer import read_previous
from thermowell_index.writer.answer_json import schema

SOFFICE = shutil.which("soffice")
HEADINGS = (
    "TAG NO.",
    "WELL TAG",
    "OVERALL LENGTH (in)",
    "BORE DEPTH (in)",
    "EXTENSION",
    "ORDERED LENGTH (in)",
    "ORDER NO.",
)
Line = list[Any]
DAY = "2024-06-01"
SHOWN = ("Disposition", "Reviewer", "Reviewed on", "Comment")


def point(number: int, bore: object = 9, overall: object = "9-1/4", **changes: object) -> Line:
    """Return a line of the index."""
    line: dict[str, object] = {
        "tag": f"TE-{number}",
        "well": f"TW-{number}",
        "extension": "none",
        "ordered": None,
        "order": None,
    }
    line |= changes
    return [line["tag"], line["well"], overall, bore, line["extension"], line["ordered"], line["order"]]


def too_deep(number: int, bore: object = 12, **changes: object) -> Line:
    """Return a line with an error on its bore depth."""
    return point(number, bore, **changes)


def write_index(path: Path, lines: Sequence[Line], revision: str = "A", sheet: str = "Index") -> Path:
    book = Workbook()
    page: Worksheet = book.worksheets[0]
    page.title = sheet
    page.append(["EXAMPLE PLANT instrument index"])
    page.append([f"Revision {revision}"])
    page.append(HEADINGS)
    for line in lines:
        page.append(line)
    book.save(path)
    return path


def run(path: Path, previous: Path | None = None, **settings: Any) -> CheckResult:
    return check_workbook(path, Settings(previous=previous, date=DAY, **settings))


def answer(path: Path) -> Path:
    return path.with_name(f"{path.stem}_checked.xlsx")


def heading_row(sheet: Worksheet, first: str) -> int:
    return next(row for row in range(1, 40) if sheet.cell(row, 1).value == first)


def columns_of(sheet: Worksheet, row: int) -> dict[str, int]:
    return {str(sheet.cell(row, column).value): column for column in range(1, sheet.max_column + 1)}


def remark(path: Path, remarks: Mapping[str, Mapping[str, str]], sheet_name: str = "Discrepancies") -> None:
    """Write into the lines of tags, as a reviewer does; a heading that is not there is added."""
    book = load_workbook(path)
    sheet = book[sheet_name]
    first = {"Discrepancies": "Finding", "Remarks register": "Entry", "QA sample": "Sample"}[sheet_name]
    row = heading_row(sheet, first)
    columns = columns_of(sheet, row)
    for line in range(row + 1, sheet.max_row + 1):
        for heading, value in remarks.get(str(sheet.cell(line, columns["Tag"]).value), {}).items():
            if heading not in columns:
                columns[heading] = len(columns) + 1
                sheet.cell(row, columns[heading], heading)
            sheet.cell(line, columns[heading], value)
    book.save(path)


def shown(path: Path, sheet_name: str) -> list[list[Any]]:
    rows = load_workbook(path)[sheet_name].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


def of_tag(result: CheckResult, tag: str) -> Finding:
    (found,) = [one for one in result.findings if one.tag == tag and one.rule == "bore_deeper_than_well"]
    return found


ACCEPTED = {"Disposition": "accepted", "Reviewer": "A. B.", "Reviewed on": "2024-05-02", "Comment": "drawing is right"}


@pytest.fixture
def first(tmp_path: Path) -> Path:
    """Return the path of an index whose answer stands beside it, TE-3 accepted."""
    path = write_index(tmp_path / "A.xlsx", [point(1), point(2), too_deep(3), too_deep(4), point(5)])
    run(path)
    remark(answer(path), {"TE-3": ACCEPTED})
    return path


def test_a_sign_off_holds_while_the_row_stays_as_it_is(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [point(9), point(5), too_deep(3), point(1), too_deep(4, 13)], "B")
    found = of_tag(run(second, answer(first)), "TE-3")
    assert (found.disposition, found.reviewer, found.comment, found.change) == (
        "accepted",
        "A. B.",
        "drawing is right",
        "open",
    )


def test_the_data_carry_what_a_reviewer_said(first: Path, tmp_path: Path) -> None:
    run(first, json=tmp_path / "a.json")
    data = json.loads((tmp_path / "a.json").read_text(encoding="utf-8"))
    said = {
        one["tag"]: [one[name] for name in ("disposition", "reviewer", "reviewed_on", "comment")]
        for one in data["findings"]
        if one["rule"] == "bore_deeper_than_well"
    }
    assert said == {"TE-3": list(ACCEPTED.values()), "TE-4": ["open", None, None, None]}


def test_a_sign_off_lapses_in_sight_of_all_when_an_input_changed(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [too_deep(3, 11), too_deep(4)], "B")
    found = of_tag(run(second, answer(first)), "TE-3")
    assert (found.disposition, found.change) == ("lapsed", "changed")
    said = "accepted by A. B. on 2024-05-02; lapsed 2024-06-01: bore depth was 12 in, is 11 in"
    assert found.former_decision == said
    sheet = load_workbook(answer(second))["Discrepancies"]
    columns = columns_of(sheet, heading_row(sheet, "Finding"))
    assert said in [sheet.cell(row, columns["Former decision"]).value for row in range(1, sheet.max_row + 1)]
    assert said in [line[-1] for line in shown(answer(second), "What changed") if line]


def test_a_changed_order_number_or_quantity_leaves_a_sign_off_alone(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [too_deep(3, order="4500-1"), too_deep(4)], "B")
    assert of_tag(run(second, answer(first)), "TE-3").disposition == "accepted"


def test_an_answer_given_back_is_the_same_byte_for_byte(first: Path, tmp_path: Path) -> None:
    run(answer(first))
    again = tmp_path / "A_checked-2.xlsx"
    third = tmp_path / "A_checked-3.xlsx"
    run(again)
    assert again.read_bytes() == third.read_bytes()
    second = write_index(tmp_path / "B.xlsx", [point(1), too_deep(3)], "B")
    remark(answer(first), {"TE-4": {"Severity": "none"}})
    assert [line for line in run(second, answer(first)).said if "'none', typed by hand" in line]
    assert list(run(answer(second)).said) == []
    assert answer(second).read_bytes() == (tmp_path / "B_checked-2.xlsx").read_bytes()
    fresh = write_index(tmp_path / "F.xlsx", [point(1), too_deep(3)])
    for _ in range(2):
        run(fresh)
    run(answer(fresh))
    assert answer(fresh).read_bytes() == (tmp_path / "F_checked-2.xlsx").read_bytes()


def test_what_could_not_be_read_of_a_text_file_is_said_again_where_its_answer_is_given_back(tmp_path: Path) -> None:
    path = tmp_path / "A.csv"
    path.write_text("Tag;Service;Bore depth (in)\nTE-1;water;9\nTE-2;water;12\n", encoding="utf-8")
    assert "read as text" in run(path).report.assumed[0]
    run(answer(path))
    assert answer(path).read_bytes() == (tmp_path / "A_checked-2.xlsx").read_bytes()


def test_the_same_run_gives_the_same_bytes(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [point(1), too_deep(3, 11)], "B")
    for name in ("one.xlsx", "two.xlsx"):
        run(second, answer(first), out=tmp_path / name)
    assert (tmp_path / "one.xlsx").read_bytes() == (tmp_path / "two.xlsx").read_bytes()


def test_the_bytes_do_not_hang_on_the_process_that_writes_them(first: Path, tmp_path: Path) -> None:
    for seed in ("1", "2"):
        command = [sys.executable, "-m", "thermowell_index", "check", str(first), "--previous", str(answer(first))]
        command += ["--date", DAY, "--out", str(tmp_path / f"{seed}.xlsx")]
        environment = os.environ | {"PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)}
        subprocess.run(command, check=False, capture_output=True, env=environment)  # noqa: S603 - own code
    assert (tmp_path / "1.xlsx").read_bytes() == (tmp_path / "2.xlsx").read_bytes()


def test_the_clock_is_source_date_epoch_where_no_date_is_given(first: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    assert check_workbook(first, Settings(date="2024-06-02"), write=False).report.run.date == "2024-06-02"
    assert check_workbook(first, write=False).report.run.date == "2023-11-14"
    monkeypatch.delenv("SOURCE_DATE_EPOCH")
    assert check_workbook(first, write=False).report.run.date <= date.today().isoformat()  # noqa: DTZ011 - a day or more
    with pytest.raises(SettingsError, match="is no day"):
        check_workbook(first, Settings(date="1 June"), write=False)


def test_remarks_on_a_row_that_vanished_are_kept_and_come_back_with_it(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [point(1)], "B")
    run(second, answer(first))
    assert "drawing is right" in [value for line in shown(answer(second), "Remarks register") for value in line]
    third = write_index(tmp_path / "C.xlsx", [point(1), point(2)], "C")
    run(third, answer(second))
    fourth = write_index(tmp_path / "D.xlsx", [point(1), too_deep(3)], "D")
    found = of_tag(run(fourth, answer(third)), "TE-3")
    assert (found.disposition, found.comment) == ("accepted", "drawing is right")
    assert "Remarks register" not in load_workbook(answer(fourth)).sheetnames


def test_a_rename_is_proposed_and_remarks_move_when_a_person_says_so(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [too_deep(3, tag="TE-3A", well="TW-3"), too_deep(4)], "B")
    result = run(second, answer(first))
    assert of_tag(result, "TE-3A").disposition == "open"
    proposed = [line for line in shown(answer(second), "What changed") if line[:1] == ["renamed"]]
    assert [line[1:3] for line in proposed] == [["TE-3", "TE-3A"]]
    remark(answer(second), {"TE-3": {"Carry over to": "TE-3A"}}, "Remarks register")
    assert of_tag(run(answer(second)), "TE-3A").comment == "drawing is right"


def test_what_was_ordered_is_the_loudest_finding_and_sets_the_exit_status(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    one = write_index(tmp_path / "A.xlsx", [point(1, order="4500-1"), too_deep(2)])
    run(one)
    two = write_index(tmp_path / "B.xlsx", [too_deep(2), point(1, 10, "10-1/4", order="4500-1")], "B")
    assert main(["check", str(two), "--previous", str(answer(one)), "--fail-on", "never", "--date", DAY]) == 1
    assert "no longer fits what was ordered" in capsys.readouterr().out
    sheet = load_workbook(answer(two))["Discrepancies"]
    row = heading_row(sheet, "Finding") + 1
    columns = columns_of(sheet, row - 1)
    assert (sheet.cell(row, columns["Tag"]).value, sheet.cell(row, columns["Rule"]).value) == (
        "TE-1",
        "changed after order",
    )
    three = write_index(tmp_path / "C.xlsx", [point(1, 10, "10-1/4", order="4500-1")], "C")
    again = run(three, answer(two))
    assert [one.found for one in again.findings if one.rule == "changed_after_order"] == [
        "ordered at 9 in, order 4500-1"
    ]
    assert main(["check", str(three), "--out", str(tmp_path / "free.xlsx"), "--fail-on", "never"]) == 0


def test_the_register_of_runs_is_appended_never_rewritten(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [point(1)], "B")
    run(second, answer(first))
    third = write_index(tmp_path / "C.xlsx", [point(2)], "")
    result = run(third, answer(second), revision="C1")
    assert [(line.input_name, line.revision, line.rows) for line in result.report.history.runs] == [
        ("A.xlsx", "A", 5),
        ("B.xlsx", "B", 1),
        ("C.xlsx", "C1", 1),
    ]
    again = run(third, answer(first), revision="C1")
    assert [line.input_name for line in again.report.history.runs] == ["A.xlsx", "B.xlsx", "C.xlsx"]


def test_an_issue_with_another_name_or_revision_alone_has_its_line_in_the_register(first: Path, tmp_path: Path) -> None:
    renamed = tmp_path / "B.xlsx"
    renamed.write_bytes(first.read_bytes())
    run(renamed, answer(first))
    run(renamed, answer(renamed))
    again = run(answer(renamed), revision="C")
    runs = again.report.history.runs
    assert [(line.input_name, line.revision) for line in runs] == [
        ("A.xlsx", "A"),
        ("B.xlsx", "A"),
        ("B_checked.xlsx", "C"),
    ]
    assert len(run(tmp_path / "B_checked-2.xlsx", revision="C").report.history.runs) == len(runs)


def test_remarks_in_an_answer_that_is_written_over_are_kept_beside_the_named_previous_run(
    first: Path, tmp_path: Path
) -> None:
    second = write_index(tmp_path / "B.xlsx", [too_deep(3), too_deep(4)], "B")
    run(second, answer(first))
    remark(answer(second), {"TE-4": {"Disposition": "to survey", "Reviewer": "C. D."}})
    result = run(second, answer(first))
    assert (of_tag(result, "TE-3").disposition, of_tag(result, "TE-4").disposition) == ("accepted", "to survey")
    assert result.carried_from == "A_checked.xlsx"


def test_a_column_that_is_gone_is_said_cell_by_cell(first: Path, tmp_path: Path) -> None:
    second = write_index(tmp_path / "B.xlsx", [point(1), point(2)], "B")
    book = load_workbook(second)
    book["Index"].delete_cols(3)
    book.save(second)
    run(second, answer(first))
    gone = [line for line in shown(answer(second), "What changed") if "overall length" in line]
    assert [(line[0], line[3:6]) for line in gone] == [
        ("TE-1", ["overall length", "9-1/4 in", "blank"]),
        ("TE-2", ["overall length", "9-1/4 in", "blank"]),
    ]


def test_naming_the_input_itself_as_previous_run_changes_nothing(first: Path, tmp_path: Path) -> None:
    run(answer(first), answer(first))
    other = tmp_path / "other"
    other.mkdir()
    run(answer(first), out=other)
    assert (tmp_path / "A_checked-2.xlsx").read_bytes() == (other / "A_checked-2.xlsx").read_bytes()


def test_an_answer_edited_and_given_back_is_compared_with_its_own_run(first: Path) -> None:
    book = load_workbook(answer(first))
    book["Index"]["D6"] = 8
    book.save(answer(first))
    result = run(answer(first))
    found = of_tag(result, "TE-3")
    assert (found.change, found.comment) == ("cleared", "drawing is right")
    assert result.report.history.comparison is not None
    assert "1 cell changed" in result.report.history.comparison.sentences[1]
    assert len(result.report.history.runs) == 2


def test_another_design_basis_lapses_its_sign_off_and_says_what_it_changed(first: Path, tmp_path: Path) -> None:
    book = load_workbook(answer(first))
    sheet = book["Design basis"]
    row = heading_row(sheet, "Fingerprint") + 1
    sheet.cell(row, 2, "accepted")
    sheet.cell(row, 3, "E. F.")
    book.save(answer(first))
    same = run(write_index(tmp_path / "B.xlsx", [point(1)], "B"), answer(first))
    assert (same.report.history.basis_sign_off.disposition, same.report.history.basis_sign_off.reviewer) == (
        "accepted",
        "E. F.",
    )
    basis = tmp_path / "basis.toml"
    basis.write_text('[tolerance]\nprobe = "1/8 in"\n', encoding="utf-8")
    third = write_index(tmp_path / "C.xlsx", [point(1)], "C")
    result = run(third, answer(tmp_path / "B.xlsx"), basis=basis)
    signed = result.report.history.basis_sign_off
    assert (signed.disposition, signed.former_decision) == (
        "lapsed",
        "accepted by E. F.; lapsed 2024-06-01: the design basis is another one",
    )
    lines = shown(answer(third), "What changed")
    assert ["tolerance.probe", "1/16 in", "1/8 in"] in lines
    assert any("moved 0 lengths to order and 1 ranges that fit" in str(line) for line in lines)
    fourth = run(third, answer(third), basis=basis)
    assert fourth.report.history.basis_sign_off.former_decision == signed.former_decision


def test_a_hand_value_is_carried_over_and_compared(first: Path, tmp_path: Path) -> None:
    remark(answer(first), {"TE-1": {"Length by hand": "9", "Checked by": "G. H."}}, "QA sample")
    remark(answer(first), {"TE-2": {"Length by hand": "8-3/4"}}, "QA sample")
    second = write_index(tmp_path / "B.xlsx", [point(2), point(1), point(7)], "B")
    run(second, answer(first))
    sheet = load_workbook(answer(second))["QA sample"]
    row = heading_row(sheet, "Sample")
    columns = columns_of(sheet, row)
    agrees = {
        sheet.cell(line, columns["Tag"]).value: sheet.cell(line, columns["Agrees"]).value
        for line in range(row + 1, row + 4)
    }
    assert agrees == {"TE-1": "agrees", "TE-2": "differs by -1/4 in", "TE-7": None}
    third = write_index(tmp_path / "C.xlsx", [point(1, 10, "10-1/4")], "C")
    run(third, answer(second))
    lines = shown(answer(third), "QA sample")
    kept = [line[1] for line in lines if line and str(line[0]).startswith("Q-")]
    assert kept[0] == "TE-1"
    assert sorted(kept[1:]) == ["TE-1", "TE-2"]
    fourth = run(write_index(tmp_path / "D.xlsx", [point(1, 10, "10-1/4")], "D"), answer(third))
    kept_still = sorted((one.tag, one.value) for one in fourth.report.history.sample.earlier)
    assert kept_still == [("TE-1", "9"), ("TE-2", "8-3/4")]


def test_reviewers_own_columns_and_lines_are_carried_over(first: Path, tmp_path: Path) -> None:
    remark(answer(first), {"TE-4": {"Action by": "field team"}})
    book = load_workbook(answer(first))
    sheet = book["Discrepancies"]
    sheet.cell(sheet.max_row + 1, 3, "TE-5")
    sheet.cell(sheet.max_row, 17, "is to be replaced")
    book.save(answer(first))
    second = write_index(tmp_path / "B.xlsx", [too_deep(3), too_deep(4)], "B")
    run(second, answer(first))
    sheet = load_workbook(answer(second))["Discrepancies"]
    assert "Action by" in columns_of(sheet, heading_row(sheet, "Finding"))
    third = write_index(tmp_path / "C.xlsx", [too_deep(3), too_deep(4)], "C")
    run(third, answer(second))
    everything = json.dumps(
        shown(answer(third), "Discrepancies") + shown(answer(third), "Remarks register"), default=str
    )
    assert "field team" in everything
    assert everything.count("tag: TE-5; comment: is to be replaced") == 1


def test_a_line_taken_out_of_discrepancies_is_missed_and_counts_as_open(
    first: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = load_workbook(answer(first))
    sheet = book["Discrepancies"]
    sheet.delete_rows(heading_row(sheet, "Finding") + 1, 2)
    book.save(answer(first))
    assert main(["status", str(answer(first))]) == 1
    out = capsys.readouterr().out
    assert "2 errors are open: not signed off." in out
    assert "2 findings taken out of Discrepancies by hand" in out


def test_discrepancies_copied_to_another_workbook_is_a_previous_run(first: Path, tmp_path: Path) -> None:
    book = Workbook()
    book.worksheets[0].title = "Notes"
    copied = book.create_sheet("QA list")
    for row in load_workbook(answer(first))["Discrepancies"].iter_rows(values_only=True):
        copied.append(row)
    book.save(tmp_path / "list.xlsx")
    second = write_index(tmp_path / "B.xlsx", [too_deep(4), too_deep(3)], "B")
    result = run(second, tmp_path / "list.xlsx")
    assert [line for line in result.said if "QA list was known by its headings alone" in line] == list(result.said)
    with Package.open(tmp_path / "list.xlsx") as package:
        previous = read_previous(package)
    assert previous is not None
    assert {one.tag: one.comment for one in previous.findings.values()}["TE-3"] == "drawing is right"
    with pytest.raises(WorkbookError, match="is not a checked workbook of an earlier run"):
        run(second, first)


def test_edits_that_move_things_about_lose_nothing(first: Path, tmp_path: Path) -> None:
    book = load_workbook(answer(first))
    sheet = book["Discrepancies"]
    row = heading_row(sheet, "Finding")
    lines = [[sheet.cell(number, column).value for column in range(1, 18)] for number in range(row, sheet.max_row + 1)]
    order = [16, 13, *range(13), 14, 15]
    for offset, line in enumerate([lines[0], *lines[:0:-1]]):
        for column, source in enumerate(order, start=1):
            sheet.cell(row + offset, column, line[source])
    sheet.column_dimensions["C"].hidden = True
    sheet.title = "Sorted"
    book.defined_names["_thermowell_index_sheet_discrepancies"].attr_text = "Sorted!$A$1"
    book.save(answer(first))
    second = write_index(tmp_path / "B.xlsx", [too_deep(4), too_deep(3)], "B")
    found = of_tag(run(second, answer(first)), "TE-3")
    assert (found.disposition, found.comment) == ("accepted", "drawing is right")


def test_a_column_put_among_the_answers_stays_and_is_said(first: Path) -> None:
    book = load_workbook(answer(first))
    sheet = book["Index"]
    sheet.insert_cols(10)
    sheet["J3"], sheet["J4"] = "SITE NOTE", "ask"
    book.defined_names["_thermowell_index_columns_1"].attr_text = "Index!$H:$W"
    book.save(answer(first))
    result = run(answer(first))
    assert list(result.said) == ["sheet Index: column J stood among the answers; it was kept"]
    again = load_workbook(first.with_name("A_checked-2.xlsx"))["Index"]
    assert (again["J3"].value, again["J4"].value, again["K3"].value) == ("SITE NOTE", "ask", "Bore depth used (in)")


@pytest.mark.parametrize(
    "lines", [[point(1)], [too_deep(1), point(2, order="1", ordered=7), point(2)], [["PT-1", "PW-1", 8]]]
)
def test_every_answer_keeps_to_the_schema(*, tmp_path: Path, lines: list[Line]) -> None:
    Draft202012Validator.check_schema(schema())
    validator = Draft202012Validator(schema())
    one = write_index(tmp_path / "A.xlsx", lines)
    stock = tmp_path / "stock.csv"
    stock.write_text("Item,Length (in),Diameter (in),Quantity\nP-9,9,1/4,2\n", encoding="utf-8")
    run(one, json=tmp_path / "a.json", stock=stock)
    two = write_index(tmp_path / "B.xlsx", [too_deep(7), point(1, 10)], "B")
    run(two, answer(one), json=tmp_path / "b.json")
    for name in ("a.json", "b.json"):
        data = json.loads((tmp_path / name).read_text(encoding="utf-8"))
        assert [error.message for error in validator.iter_errors(data)] == []
    del data["rows"][0]["verdict"]
    assert len(list(validator.iter_errors(data))) == 1


@pytest.mark.skipif(SOFFICE is None, reason="LibreOffice is not on this machine")
def test_remarks_survive_being_saved_by_a_spreadsheet_program(first: Path, tmp_path: Path) -> None:
    remark(answer(first), {"TE-4": {"Disposition": "Accepted ", "Reviewed on": "1.6.2024"}})
    command = [str(SOFFICE), f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}", "--headless"]
    command += ["--convert-to", "xlsx", "--outdir", str(tmp_path / "office"), str(answer(first))]
    subprocess.run(command, check=True, timeout=180, capture_output=True)  # noqa: S603 - a fixed command
    saved = tmp_path / "office" / answer(first).name
    second = write_index(tmp_path / "B.xlsx", [too_deep(4), too_deep(3, 11)], "B")
    result = run(second, saved)
    assert list(result.said) == []
    assert (of_tag(result, "TE-4").disposition, of_tag(result, "TE-4").reviewed_on) == ("accepted", "1.6.2024")
    assert "bore depth was 12 in, is 11 in" in of_tag(result, "TE-3").former_decision
    assert len(run(saved).report.history.runs) == 1


# --- three revisions in a row


def everything_said(path: Path) -> str:
    """Return all text of the sheets on which remarks may stand."""
    book = load_workbook(path)
    names = [name for name in ("Discrepancies", "Remarks register") if name in book.sheetnames]
    return json.dumps([list(row) for name in names for row in book[name].iter_rows(values_only=True)], default=str)


def edited(lines: list[Line], chance: random.Random) -> list[Line]:
    """Return the next issue: cells changed, rows put in, taken out and moved about."""
    result = [list(line) for line in lines if chance.random() > 0.2]
    for line in result:
        if chance.random() < 0.3:
            line[3] = chance.choice([8, 9, 12, 13, "TBD", None])
    numbers = {line[0] for line in lines}
    fresh = [number for number in range(40) if f"TE-{number}" not in numbers and chance.random() < 0.06]
    result += [too_deep(number, chance.choice([9, 12])) for number in fresh]
    if chance.random() < 0.5 and result:
        result.append(list(chance.choice(result)))
    chance.shuffle(result)
    return result or [point(99)]


def remark_at_random(path: Path, chance: random.Random, said: list[str]) -> None:
    book = load_workbook(path)
    sheet = book["Discrepancies"]
    row = heading_row(sheet, "Finding")
    columns = columns_of(sheet, row)
    for line in range(row + 1, sheet.max_row + 1):
        if sheet.cell(line, columns["Change"]).value and chance.random() < 0.5:
            word = f"remark {len(said)} end"
            before = sheet.cell(line, columns["Comment"]).value
            sheet.cell(line, columns["Comment"], f"{before}; {word}" if before else word)
            sheet.cell(line, columns["Disposition"], chance.choice(["accepted", "to correct", "no issue", "lapsed"]))
            sheet.cell(line, columns["Reviewer"], chance.choice(["A. B.", "C. D."]))
            said.append(word)
    book.save(path)


@settings(max_examples=4, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(seed=st.integers(0, 10_000))
def test_three_revisions_in_a_row_lose_nothing(seed: int, tmp_path_factory: pytest.TempPathFactory) -> None:
    chance = random.Random(seed)  # noqa: S311 - a test's own draw
    folder = tmp_path_factory.mktemp("issues")
    lines = [too_deep(number, chance.choice([8, 12])) for number in range(0, 24, 2)]
    said: list[str] = []
    previous: Path | None = None
    for revision in "ABCD":
        path = write_index(folder / f"{revision}.xlsx", lines, revision)
        result = run(path, previous)
        previous = answer(path)
        text = everything_said(previous)
        assert [word for word in said if word not in text] == []
        assert len({one.id for one in result.findings}) == len(result.findings)
        issues = [(line.input_name, line.revision) for line in result.report.history.runs]
        assert issues == [(f"{letter}.xlsx", letter) for letter in "ABCD"[: len(issues)]]
        assert len(issues) == "ABCD".index(revision) + 1
        remark_at_random(previous, chance, said)
        lines = edited(lines, chance) if chance.random() < 0.7 else lines
    assert said


def test_a_decision_is_found_on_the_row_that_it_was_made_on(make_issue: Callable[[list[Line]], Path]) -> None:
    one = make_issue([too_deep(number) for number in range(10)])
    run(one)
    remark(answer(one), {f"TE-{number}": {"Comment": f"of {number} alone"} for number in range(10)})
    two = make_issue([too_deep(number) for number in (7, 3, 11, 0, 9, 1)])
    comments = {one.tag: one.comment for one in run(two, answer(one)).report.live_findings if not one.folded}
    assert comments == {
        "TE-7": "of 7 alone",
        "TE-3": "of 3 alone",
        "TE-11": "",
        "TE-0": "of 0 alone",
        "TE-9": "of 9 alone",
        "TE-1": "of 1 alone",
    }


BORES = (9, 12, 6, 15, 10, 7, 18, 8)


def bores(path: Path, depths: Sequence[object], revision: str) -> Path:
    lines = [point(number, bore, overall=None) for number, bore in enumerate(depths)]
    return write_index(path, lines, revision)


def slid_tags(result: CheckResult) -> list[str]:
    return [tag for one in result.report.live_findings if one.rule == "values_slid_against_tags" for tag in one.tags]


def test_a_column_that_slid_against_the_tags_is_withheld_until_it_is_put_right(tmp_path: Path) -> None:
    first = bores(tmp_path / "A.xlsx", BORES, "A")
    second = bores(tmp_path / "B.xlsx", (20, *BORES[:-1]), "B")
    run(first)
    slid = run(second, answer(first))
    again = run(answer(second))
    mended = bores(tmp_path / "C.xlsx", BORES, "C")

    assert slid_tags(slid) == slid_tags(again) == [f"TE-{number}" for number in range(1, 8)]
    assert list(slid.table["verdict"]) == ["sized", *["withheld"] * 7]
    assert slid_tags(run(mended, answer(second))) == []


def test_a_column_that_slid_on_purpose_is_accepted_once(tmp_path: Path) -> None:
    first = bores(tmp_path / "A.xlsx", BORES, "A")
    second = bores(tmp_path / "B.xlsx", (20, *BORES[:-1]), "B")
    run(first)
    run(second, answer(first))
    book = load_workbook(answer(second))
    sheet = book["Discrepancies"]
    columns = columns_of(sheet, heading_row(sheet, "Finding"))
    for row in range(1, sheet.max_row + 1):
        if sheet.cell(row, columns["Rule"]).value == "values slid against tags":
            sheet.cell(row, columns["Disposition"], "accepted")
    book.save(answer(second))
    third = bores(tmp_path / "C.xlsx", (20, *BORES[:-1]), "C")

    assert slid_tags(run(third, answer(second))) == []


@pytest.fixture
def make_issue(tmp_path: Path) -> Callable[[list[Line]], Path]:
    """Return a function that writes the next issue."""
    names = iter("ABCDEFG")

    def make(lines: list[Line]) -> Path:
        name = next(names)
        return write_index(tmp_path / f"{name}.xlsx", lines, name)

    return make
