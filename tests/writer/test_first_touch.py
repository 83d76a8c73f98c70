"""The sheet First touch, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from thermowell_index.answers import TouchCard
from thermowell_index.ooxml import Package
from thermowell_index.writer import write_checked
from thermowell_index.writer.report import Report

IN = 25.4
NAN = float("nan")
PLANE = "from end of mounting thread to tip, spring relaxed"


def _card(**changes: Any) -> TouchCard:
    values: dict[str, Any] = {
        "tag": "TE-1001",
        "place": "wash water, well TW-1001",
        "mounting": "spring-loaded fitting",
        "stands_off": "thread end off the face",
        "length_mm": 9.25 * IN,
        "plane": PLANE,
        "unit": "in",
        "in_fractions": True,
        "expected_mm": 0.125 * IN,
        "least_mm": -0.3036 * IN,
        "most_mm": 0.3786 * IN,
        "turns": 7.0,
        **changes,
    }
    return TouchCard(**values)


def _lines(index_path: Path, report: Report) -> list[list[object]]:
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, target)
    rows = load_workbook(target)["First touch"].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


def test_a_card_says_what_to_see_and_what_is_good(index_path: Path, make_report: Callable[..., Report]) -> None:
    lines = _lines(index_path, make_report(touch_cards=(_card(),)))
    assert [
        "TE-1001",
        "wash water, well TW-1001",
        "9-1/4 in",
        PLANE,
        "thread end off the face",
        "0.12 in",
        "-0.30 in",
        "0.38 in",
        "7.0",
    ] in lines


def test_what_does_not_apply_is_left_blank(index_path: Path, make_report: Callable[..., Report]) -> None:
    card = _card(unit="mm", length_mm=235.0, expected_mm=5.0, least_mm=NAN, most_mm=9.5, turns=NAN)
    line = next(line for line in _lines(index_path, make_report(touch_cards=(card,))) if "235 mm" in line)
    assert line[-2:] == ["5.0 mm", "9.5 mm"]


def test_an_index_with_no_length_has_no_card(index_path: Path, make_report: Callable[..., Report]) -> None:
    assert ["No sensor has a length to order."] in _lines(index_path, make_report())
