"""The command line: arguments in, exit status out, one line for what stops a run."""

import io
import json
import os
import runpy
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from openpyxl import load_workbook

import thermowell_index.cli
import thermowell_index.start
from thermowell_index import __version__
from thermowell_index.cli import SIZE_LENGTHS, SIZE_WORDS, build_parser, main

Capture = pytest.CaptureFixture[str]
IndexFile = Callable[..., Path]
SOUND = {
    "tag": "TE-101",
    "service": "wash water",
    "line": "W-12",
    "bore_depth (in)": 9,
    "spring_travel (in)": 1,
    "sensor_mounting": "spring-loaded fitting",
    "extension_arrangement": "none",
}
FAULTY = SOUND | {"tag": "TE-102", "bore_depth (in)": "9/10"}
DOUBTED = SOUND | {"tag": "TE-102", "bore_depth (in)": "~9"}


def refused(arguments: list[object], capsys: Capture) -> str:
    """Run a command that cannot be done; return its one line."""
    assert main([str(argument) for argument in arguments]) == 2
    out = capsys.readouterr()
    assert out.out == ""
    assert out.err.startswith("thermowell-index: ")
    assert out.err.count("\n") == 1
    return out.err


def checked(path: Path, *options: object) -> int:
    return main(["check", str(path), *map(str, options)])


# --- exit status of check


@pytest.mark.parametrize(
    "second,options,status",
    [
        (SOUND | {"tag": "TE-102"}, [], 0),
        (SOUND | {"tag": "TE-102"}, ["--fail-on", "warning"], 0),
        (DOUBTED, [], 0),
        (DOUBTED, ["--fail-on", "warning"], 1),
        (DOUBTED, ["--fail-on", "never"], 0),
        (FAULTY, [], 1),
        (FAULTY, ["--fail-on", "error"], 1),
        (FAULTY, ["--fail-on", "warning"], 1),
        (FAULTY, ["--fail-on", "never"], 0),
    ],
)
def test_the_exit_status_goes_by_the_loudest_finding_and_the_severity_chosen(
    index_file: IndexFile, second: dict[str, object], options: list[str], status: int
) -> None:
    assert checked(index_file(SOUND, second), *options) == status


def test_sheets_are_called_by_the_names_that_they_bear(index_file: IndexFile, capsys: Capture) -> None:
    own = {name: [{"mine": "keep"}] for name in ("Discrepancies", "Check summary", "Remarks register")}
    path = index_file(sheets={"Index": [SOUND, FAULTY], **own})
    checked(path)
    answer = path.with_name("index_checked.xlsx")
    book = load_workbook(answer)
    book["Discrepancies (2)"]["A1"] = "looked at"
    book["Discrepancies (2)"].delete_rows(6, 1)
    book.save(answer)
    capsys.readouterr()
    checked(path)
    lines = capsys.readouterr().out.splitlines()
    assert [line for line in lines if "kept in the Remarks register (2)" in line and "Discrepancies (2) A1" in line]
    assert [line for line in lines if "taken out of Discrepancies (2) by hand" in line]
    assert [
        line for line in lines if line.startswith(("look first: Check summary (2) (", "to decide: Discrepancies (2)"))
    ]
    summary = [str(cell.value) for row in load_workbook(answer)["Check summary (2)"] for cell in row]
    assert any("kept in the Remarks register (2)" in text for text in summary)
    assert not any("(2) (2)" in text for text in [*lines, *summary])


def test_a_run_says_what_it_found_and_where_it_wrote(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND, FAULTY, SOUND | {"tag": "PT-9", "bore_depth (in)": None})
    assert checked(path, "--json", path.with_suffix(".json")) == 1
    out = capsys.readouterr()
    lines = out.out.splitlines()
    assert lines[0] == "3 rows: 1 sized, 0 review, 1 withheld, 1 not applicable"
    assert lines[1].startswith("findings: 1 error, ")
    assert lines[2:4] == [f"written: {path.with_name('index_checked.xlsx')}", f"written: {path.with_suffix('.json')}"]
    assert out.err == ""
    assert set(json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))) >= {"run", "rows", "findings"}


def test_a_run_says_where_to_look_in_its_answer(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND, FAULTY)
    assert checked(path) == 1
    lines = capsys.readouterr().out.splitlines()[3:]
    assert [line.partition(":")[0] for line in lines] == ["look first", "to decide", "to measure", "to buy"]
    assert lines[1].startswith("to decide: Discrepancies (1 error")


def test_a_run_names_no_order_and_no_decision_where_there_is_none(index_file: IndexFile, capsys: Capture) -> None:
    assert checked(index_file({"tag": "PT-9", "service": "Header", "bore_depth (in)": None})) == 0
    words = [line.partition(":")[0] for line in capsys.readouterr().out.splitlines()]
    assert "look first" in words
    assert not {"to decide", "to measure", "to buy"} & set(words)


def test_the_help_names_every_format_that_is_read(capsys: Capture) -> None:
    with pytest.raises(SystemExit):
        main(["check", "--help"])
    said = " ".join(capsys.readouterr().out.split())
    assert all(suffix in said for suffix in (".xlsx", ".xlsm", ".xlsb", ".xls,", ".ods", ".csv"))


def test_a_second_run_takes_the_first_as_the_previous_one_and_says_so(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND)
    checked(path)
    capsys.readouterr()
    assert checked(path) == 0
    assert "carried over from index_checked.xlsx" in capsys.readouterr().out


def test_a_length_that_no_longer_fits_what_was_ordered_is_status_1_whatever_was_chosen(
    index_file: IndexFile, capsys: Capture
) -> None:
    ordered = SOUND | {"ordered_length (in)": 9, "order_number": "4500"}
    checked(index_file(ordered))
    capsys.readouterr()
    assert checked(index_file(ordered | {"bore_depth (in)": 8}), "--fail-on", "never") == 1
    assert "a length no longer fits what was ordered" in capsys.readouterr().out


def test_the_status_of_a_review_is_1_while_errors_are_open(index_file: IndexFile, capsys: Capture) -> None:
    sound, faulty = index_file(SOUND), index_file(FAULTY, name="faulty.xlsx")
    checked(sound)
    checked(faulty)
    capsys.readouterr()
    assert main(["status", str(sound.with_name("index_checked.xlsx"))]) == 0
    assert main(["status", str(faulty.with_name("faulty_checked.xlsx"))]) == 1
    assert "open" in capsys.readouterr().out


# --- what cannot be done


def test_an_unknown_sheet_is_named_with_those_that_are_there(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(sheets={"North": [SOUND], "South": [SOUND]})
    line = refused(["check", path, "--sheet", "East"], capsys)
    assert all(word in line for word in (str(path), "'East'", "North", "South"))


def test_one_sheet_alone_is_read_when_it_is_asked_for(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(sheets={"North": [SOUND], "South": [FAULTY]})
    assert checked(path, "--sheet", "North") == 0
    first, *_ = capsys.readouterr().out.splitlines()
    assert first.endswith(": 1 sized, 0 review, 0 withheld, 0 not applicable")


def test_a_file_that_is_not_there_is_named(tmp_path: Path, capsys: Capture) -> None:
    assert "nowhere.xlsx" in refused(["check", tmp_path / "nowhere.xlsx"], capsys)


@pytest.mark.parametrize("content", [b"", b"not a workbook", b"PK\x03\x04 not a workbook"])
def test_a_file_that_is_no_workbook_is_named(tmp_path: Path, capsys: Capture, content: bytes) -> None:
    path = tmp_path / "notes.xlsx"
    path.write_bytes(content)
    assert str(path) in refused(["check", path], capsys)
    assert [found.name for found in tmp_path.iterdir()] == ["notes.xlsx"]


def test_a_workbook_without_an_index_is_named(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file({"colour": "blue", "weight": 9})
    assert "no instrument index found" in refused(["check", path], capsys)


def test_a_target_that_was_not_made_by_this_program_is_left_alone(index_file: IndexFile, capsys: Capture) -> None:
    path, own = index_file(SOUND), index_file(SOUND, name="index_checked.xlsx")
    before = own.read_bytes()
    assert str(own) in refused(["check", path], capsys)
    assert own.read_bytes() == before


def test_a_target_that_is_no_workbook_is_left_alone(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND)
    path.with_name("index_checked.xlsx").write_text("mine", encoding="utf-8")
    refused(["check", path], capsys)
    assert path.with_name("index_checked.xlsx").read_text(encoding="utf-8") == "mine"


def test_the_input_is_never_the_target(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND)
    before = path.read_bytes()
    refused(["check", path, "--out", path], capsys)
    assert path.read_bytes() == before


def test_a_folder_that_is_not_there_is_no_target(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND)
    assert "there is no folder" in refused(["check", path, "--out", path.parent / "no" / "out.xlsx"], capsys)


def test_all_wrong_keys_of_a_design_basis_stand_in_one_line(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND)
    basis = path.with_name("basis.toml")
    basis.write_text('[well]\ntip = "1 in"\n[index]\nunit = "yard"\n', encoding="utf-8")
    line = refused(["check", path, "--basis", basis], capsys)
    assert all(word in line for word in ("basis.toml", "well.tip", "index.unit"))


def test_all_wrong_keys_of_a_heading_map_stand_in_one_line(index_file: IndexFile, capsys: Capture) -> None:
    path = index_file(SOUND)
    columns = path.with_name("columns.toml")
    columns.write_text('loose = 1\n["every sheet"]\nbore = "B"\ntag = 3\n', encoding="utf-8")
    line = refused(["check", path, "--columns", columns], capsys)
    assert all(word in line for word in ("columns.toml", "loose", "bore", "tag"))


def test_a_previous_run_that_is_none_is_named(index_file: IndexFile, capsys: Capture) -> None:
    path, other = index_file(SOUND), index_file(SOUND, name="other.xlsx")
    assert "other.xlsx" in refused(["check", path, "--previous", other], capsys)


def test_a_command_that_is_none_ends_with_status_2(capsys: Capture) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["measure"])
    assert ended.value.code == 2
    assert "invalid choice" in capsys.readouterr().err


def test_no_command_prints_the_help_and_ends_with_status_2(capsys: Capture) -> None:
    assert main([]) == 2
    assert "commands" in capsys.readouterr().out


# --- the other commands


def test_a_well_is_sized_with_its_working(capsys: Capture) -> None:
    assert main(["size", "--overall", "9-1/4 in", "--tip", "1/4 in"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("sized\n")
    assert "bore depth 9 in = overall length" in out


def test_a_well_without_a_length_ends_with_status_1(capsys: Capture) -> None:
    assert main(["size", "--bore", "9 in", "--extension", "nipple", "--mounting", "spring-loaded insert"]) == 1
    assert capsys.readouterr().out.startswith("withheld: extension without length")


def test_a_well_is_sized_by_the_users_basis(tmp_path: Path, capsys: Capture) -> None:
    basis = tmp_path / "basis.toml"
    basis.write_text('[profile.spring_loaded_fitting]\nincrement_inch = "1 in"\n', encoding="utf-8")
    assert main(["size", "--bore", "8-3/4 in", "--basis", str(basis)]) == 0
    assert "1 in increment" in capsys.readouterr().out


def test_a_sensor_in_place_gauges_a_well_that_nobody_measured(capsys: Capture) -> None:
    # B = 9 - 1/4 + 1/2 engagement
    assert main(["size", "--probe", "9 in", "--compression-found", "1/4 in"]) == 0
    assert "9-1/4 in, old sensor in place" in capsys.readouterr().out
    assert main(["size", "--probe", "9-3/8 in", "--in-kind", "yes"]) == 0
    assert "order 9-3/8 in, in kind" in capsys.readouterr().out


def test_checks_are_listed_and_explained(capsys: Capture) -> None:
    assert main(["rules"]) == 0
    assert "bore deeper than well" in capsys.readouterr().out
    assert main(["rules", "bore", "deeper", "than", "well"]) == 0
    assert capsys.readouterr().out.startswith("bore deeper than well\n")


def test_a_check_that_is_none_is_refused(capsys: Capture) -> None:
    assert "bore deeper than well" in refused(["rules", "bore deep than well"], capsys)


def test_the_files_to_begin_with_are_written_and_named(tmp_path: Path, capsys: Capture) -> None:
    assert main(["start", str(tmp_path / "new")]) == 0
    written = [Path(line.removeprefix("written: ")) for line in capsys.readouterr().out.splitlines()]
    assert sorted(written) == sorted((tmp_path / "new").iterdir())


# --- help, version, pipes


@pytest.mark.parametrize("command", ["check", "size", "rules", "start", "status"])
def test_help_mentions_every_option_with_a_word_on_it(command: str, capsys: Capture) -> None:
    with pytest.raises(SystemExit) as ended:
        main([command, "--help"])
    assert ended.value.code == 0
    shown = " ".join(capsys.readouterr().out.split())
    commands = next(action for action in build_parser()._actions if action.choices)  # noqa: SLF001 - the library has no other way
    assert isinstance(commands.choices, dict)
    for action in commands.choices[command]._actions:  # noqa: SLF001 - as above
        assert action.help, action.dest
        assert " ".join((action.help % {"default": action.default}).split()) in shown
        assert all(option in shown for option in action.option_strings)


def test_help_names_every_command_and_the_exit_status(capsys: Capture) -> None:
    for arguments, words in (
        (["--help"], "check size rules start status"),
        (["check", "--help"], "exit status: 0 1 2"),
    ):
        with pytest.raises(SystemExit):
            main(arguments)
        shown = capsys.readouterr().out
        assert all(word in shown for word in words.split())


def test_the_version_is_the_packages(capsys: Capture) -> None:
    with pytest.raises(SystemExit):
        main(["--version"])
    assert capsys.readouterr().out == f"thermowell-index {__version__}\n"


def test_every_field_that_a_well_is_sized_by_has_an_option() -> None:
    given = build_parser().parse_args(["size"])
    assert {*SIZE_LENGTHS.values(), *SIZE_WORDS.values()} <= set(vars(given))


def test_the_package_runs_as_a_module(index_file: IndexFile) -> None:
    path = index_file(SOUND)
    command = [sys.executable, "-m", "thermowell_index", "check", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)  # noqa: S603 - own code
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("1 row")


def test_the_module_hands_its_exit_status_on(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "argv", ["thermowell-index", "rules", "no such check at all"])
    with pytest.raises(SystemExit) as ended:
        runpy.run_module("thermowell_index", run_name="__main__")
    assert ended.value.code == 2


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_a_terminal_sees_the_stages_go_by(index_file: IndexFile, monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = _Terminal()
    monkeypatch.setattr(sys, "stderr", terminal)
    assert checked(index_file(SOUND)) == 0
    assert "4/4" in terminal.getvalue()


def test_a_reader_that_has_seen_enough_ends_a_listing_quietly(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def broken(*_: Any, **__: Any) -> None:
        raise BrokenPipeError

    with (tmp_path / "out").open("w") as out:
        monkeypatch.setattr(sys, "stdout", out)
        monkeypatch.setattr(thermowell_index.cli, "print", broken, raising=False)
        assert main(["rules"]) == 0
        os.write(out.fileno(), b"lost")
    assert (tmp_path / "out").read_text(encoding="utf-8") == ""
