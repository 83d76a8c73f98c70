"""Checks on tubes in one piece with their neck."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

TUBE = {
    "shank_form": "form 2G",
    "length_unit": "mm",
    "overall_length": "305",
    "insertion_length": "160",
    "bore_depth": "",
    "tip_thickness": "",
    "extension_arrangement": "neck tube",
    "extension_length": "145",
    "sensor_mounting": "flanged insert",
    "probe_length": "",
    "spring_travel": "10",
}
CONFIRMED = {**TUBE, "basis": {"standard_insert": {"tube_lengths_confirmed": "yes"}}}
FORM_4 = {**TUBE, "shank_form": "form 4", "overall_length": "200", "insertion_length": "", "extension_length": "165"}
LOOSE = {**TUBE, "sensor_mounting": "spring-loaded insert"}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "neck_in_length_not_stated": [
        (
            "fires where nothing says what the total contains",
            {**LOOSE, "insertion_length": "", "overall_length": "300"},
            ["error TE-101 overall_length"],
        ),
        ("fires on lengths that do not add up", {**LOOSE, "overall_length": "302"}, ["error TE-101 overall_length"]),
        ("is sound on the rounding of a millimetre", {**LOOSE, "overall_length": "306.4"}, []),
        ("is sound where insertion and neck make the total", LOOSE, []),
        ("is sound where total and neck are the standard's", {**LOOSE, "insertion_length": ""}, []),
        ("is silent of a well that is no tube", {**LOOSE, "insertion_length": "", "shank_form": "form 4"}, []),
        ("is silent without a neck", {**LOOSE, "extension_length": "", "extension_arrangement": "none"}, []),
    ],
    "standard_length_from_memory": [
        ("is said of a plate insert of the table", [TUBE, {}], ["warning TE-101 shank_form"]),
        ("is sound once it is confirmed", [CONFIRMED, {}], []),
        ("is silent of a loose insert with its own neck", [LOOSE, {}], []),
    ],
    "standard_neck_taken": [
        (
            "is noted of a neck without a length",
            [{**FORM_4, "extension_length": ""}, {}],
            ["note TE-101 extension_length"],
        ),
        ("is sound of a neck with its length", [FORM_4, {}], []),
        ("is silent of a tube in one piece", [TUBE, {}], []),
    ],
}


@pytest.mark.parametrize(
    "rule,rows,facts",
    [
        pytest.param(rule, rows, facts, id=f"{rule}: {title}")
        for rule, cases in CASES.items()
        for title, rows, facts in cases
    ],
)
def test_a_check_speaks_where_it_should_and_nowhere_else(
    speak: Callable[..., list[str]], rule: str, rows: Any, facts: list[str]
) -> None:
    assert speak(rule, rows) == facts
