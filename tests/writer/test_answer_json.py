"""The answer as data: exactly the keys that are promised."""

import json
from pathlib import Path
from typing import Any

import pytest

from thermowell_index.errors import OutputError
from thermowell_index.writer import Report, write_json

ROW_KEYS = (
    "tag",
    "sheet",
    "row",
    "bore_depth_mm",
    "bore_depth_basis",
    "extension_installed_mm",
    "probe_length_computed_mm",
    "probe_length_order_mm",
    "shortest_fit_mm",
    "longest_fit_mm",
    "compression_min_mm",
    "compression_nominal_mm",
    "compression_max_mm",
    "margin_mm",
    "first_touch_mm",
    "verdict",
    "working",
    "values",
)
FINDING_KEYS = (
    "id",
    "severity",
    "tag",
    "sheet",
    "row",
    "cell",
    "field",
    "rule",
    "found",
    "expected",
    "explanation",
    "action",
    "change",
    "disposition",
    "reviewer",
    "reviewed_on",
    "comment",
    "tags",
)


@pytest.fixture
def answer(report: Report, tmp_path: Path) -> Any:
    path = tmp_path / "answer.json"
    write_json(report, path)
    return json.loads(path.read_text(encoding="utf-8"))


def test_the_keys_are_the_promised_ones_in_their_order(answer: Any) -> None:
    assert list(answer) == ["run", "rows", "findings"]
    assert {tuple(row) for row in answer["rows"]} == {ROW_KEYS}
    assert {tuple(finding) for finding in answer["findings"]} == {FINDING_KEYS}
    assert answer["run"]["input_name"] == "INDEX.xlsx"


def test_every_row_is_there_with_its_verdict(answer: Any) -> None:
    assert [row["verdict"] for row in answer["rows"]].count("not applicable") == 1
    assert len(answer["rows"]) == 9


def test_lengths_are_millimetres_to_the_nanometre(answer: Any) -> None:
    second = answer["rows"][1]
    assert (second["bore_depth_mm"], second["probe_length_order_mm"]) == (235.74375, 234.95)


def test_what_does_not_apply_is_null(answer: Any) -> None:
    transmitter = answer["rows"][3]
    assert {key for key, value in transmitter.items() if value not in (None, {})} == {"tag", "sheet", "row", "verdict"}


def test_a_folded_finding_lists_its_tags(answer: Any) -> None:
    folded = answer["findings"][2]
    assert (folded["tag"], folded["cell"], folded["tags"]) == (None, None, ["TE-1002", "TE-1005"])


def test_the_same_report_gives_the_same_bytes(report: Report, tmp_path: Path) -> None:
    first, second = tmp_path / "a.json", tmp_path / "b.json"
    write_json(report, first)
    write_json(report, second)
    assert first.read_bytes() == second.read_bytes()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.json", "b.json"]


def test_a_folder_that_is_not_there_is_said(report: Report, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="cannot write there"):
        write_json(report, tmp_path / "none" / "a.json")
