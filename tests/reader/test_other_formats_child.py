import builtins
import datetime as dt
import json
import resource
import runpy
import sys
from types import SimpleNamespace
from typing import Any

import pytest

from thermowell_index.reader import other_formats_child
from thermowell_index.reader.other_formats_child import main


class Book:
    """Two sheets, as the library gives them."""

    sheet_names = ("Index", "Chart")
    sheets_metadata = (
        SimpleNamespace(name="Index", visible="Kind.Visible", typ="Kind.WorkSheet"),
        SimpleNamespace(name="Chart", visible="Kind.Hidden", typ="Kind.ChartSheet"),
    )

    @staticmethod
    def get_sheet_by_index(_number: int) -> Any:
        values = [["TE-1", 9.25, True, dt.date(2024, 1, 4), dt.datetime(2024, 1, 4, 5)], [dt.timedelta(hours=2), ""]]  # noqa: DTZ001 - a cell has no time zone
        return SimpleNamespace(merged_cell_ranges=None, to_python=lambda **_more: values)


@pytest.fixture(autouse=True)
def _no_limit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(resource, "setrlimit", lambda *_args: None)


def test_the_sheets_are_written_as_json(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("python_calamine.CalamineWorkbook.from_path", lambda _path: Book())
    main("index.ods")
    index, chart = json.loads(capsys.readouterr().out)
    assert index == {
        "name": "Index",
        "visible": True,
        "rows": [
            ["TE-1", 9.25, True, ["date", "2024-01-04"], ["date", "2024-01-04T05:00:00"]],
            [["date", "2:00:00"], ""],
        ],
        "merges": [],
    }
    assert chart == {"name": "Chart", "visible": False, "rows": [], "merges": []}


def test_a_damaged_file_ends_the_process_with_a_word() -> None:
    with pytest.raises(SystemExit, match="Error: "):
        main("/nowhere/index.ods")


def test_a_system_without_limits_does_without(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = builtins.__import__

    def without(name: str, *args: Any, **more: Any) -> Any:
        if name == "resource":
            raise ImportError
        return usual(name, *args, **more)

    set_limits: list[object] = []
    monkeypatch.setattr(resource, "setrlimit", lambda *args: set_limits.append(args))
    monkeypatch.setattr(builtins, "__import__", without)
    other_formats_child._limit_memory()  # noqa: SLF001 - what it does shows nowhere else
    assert set_limits == []


def test_it_runs_as_a_script(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("python_calamine.CalamineWorkbook.from_path", lambda _path: Book())
    monkeypatch.setattr(sys, "argv", ["child", "index.ods"])
    runpy.run_path(str(other_formats_child.__file__), run_name="__main__")
    assert [sheet["name"] for sheet in json.loads(capsys.readouterr().out)] == ["Index", "Chart"]
