"""The README says what is so: its list of checks, its commands, its options."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from thermowell_index import __version__
from thermowell_index.cli import build_parser, main
from thermowell_index.report_text import CAUTIONS
from thermowell_index.rule_list import as_markdown

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
CHECKS = re.compile(r"<!-- checks: [^>]*-->\n(?P<table>.*?)\n<!-- end of checks -->", re.DOTALL)


def test_the_list_of_checks_is_the_registry_s() -> None:
    found = CHECKS.search(README)
    assert found is not None
    assert found["table"] == as_markdown(), "put the output of rule_list.as_markdown() between the marks"


def test_the_cautions_stand_in_it_word_for_word() -> None:
    plain = " ".join(README.split())
    assert [caution for caution in CAUTIONS if caution not in plain] == []


def _commands() -> list[list[str]]:
    """Return the words of every command of ours that the README gives."""
    lines = re.findall(r"thermowell-index +((?:check|size|rules|start|status)\b[^`\n&|]*)", README)
    return [shlex.split(line) for line in lines]


def test_every_command_it_gives_is_one_that_the_program_takes() -> None:
    parser = build_parser()
    commands = _commands()
    assert len(commands) > 5
    for words in commands:
        parser.parse_args(words)


def test_every_option_it_names_is_one_of_the_program_s(capsys: pytest.CaptureFixture[str]) -> None:
    known = ""
    for command in ("check", "size", "rules", "start", "status"):
        with pytest.raises(SystemExit):
            main([command, "--help"])
        known += capsys.readouterr().out
    named = set(re.findall(r"`(--[a-z-]+)", README))
    assert named
    assert {option for option in named if option not in known} == set()


def test_its_first_command_says_where_the_answer_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    first = re.search(r"thermowell-index (check \S+ --fail-on never)", README)
    assert first is not None
    words = shlex.split(first[1])
    copied = tmp_path / Path(words[1]).name
    shutil.copy(ROOT / words[1], copied)
    assert main([words[0], str(copied), *words[2:]]) == 0
    answer = tmp_path / f"{copied.stem}_checked.xlsx"
    assert f"written: {answer}" in capsys.readouterr().out
    assert f"sample_data/{answer.name}" in README
    assert answer.is_file()


def test_the_version_on_top_of_the_changes_is_the_package_s() -> None:
    versions = re.findall(r"^### (\d+\.\d+\.\d+)", DEVELOPERS, re.MULTILINE)
    assert versions[0] == __version__
    assert f'version = "{__version__}"' in (ROOT / "pyproject.toml").read_text(encoding="utf-8")
