"""Naming the mistake behind a stated length."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding
from thermowell_index.validator.mistakes import residual

# Bore 9 in; with the nipple and union of 4 in the extension adds 5 in and the right length is 14 in.
UNION = {"extension_arrangement": "nipple and union", "nipple_length": "4"}
LAGGING = {"overall_length": "11.25", "bore_depth": "11", "insertion_length": "7.5", "lagging_length": "2"}
# A stated bore of 9 in and no word on the rest: nothing but the length itself can tell.
BARE = {"overall_length": "", "tip_thickness": "", "insertion_length": ""}
FORGOTTEN = {**UNION, "probe_length": "9"}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "length_tells_its_mistake": [
        ("fires on a forgotten extension", FORGOTTEN, ["warning TE-101 probe_length"]),
        ("fires on the limit of 1/8 in", {**UNION, "probe_length": "9.125"}, ["warning TE-101 probe_length"]),
        ("is silent beyond it", {**UNION, "probe_length": "9.2"}, []),
        ("is one finding where three share it", [FORGOTTEN] * 3, ["warning TE-101+TE-102+TE-103 probe_length"]),
        ("is two findings where two share it", [FORGOTTEN] * 2, ["warning TE-101 probe_length", "warning TE-102 probe_length"]),
        ("keeps areas apart", [FORGOTTEN | {"area": f"A{number}"} for number in range(3)], ["warning TE-101 probe_length", "warning TE-102 probe_length", "warning TE-103 probe_length"]),
        ("is silent of a length that fits", {**UNION, "probe_length": "14.25"}, []),
        ("is sound", {}, []),
    ],
}  # fmt: skip


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


@pytest.mark.parametrize(
    "rows,mistake",
    [
        ([FORGOTTEN], "the extension was forgotten"),
        ([{**UNION, "probe_length": "19"}], "the extension was counted twice"),
        ([{**UNION, "overall_length": "", "insertion_length": "", "probe_length": "15"}], "the nipple's bought length was used as installed; or the length was measured under the hexagon"),
        ([{**UNION, **BARE, "probe_length": "14.5"}], "one nipple end was deducted instead of two; or another seat plane was measured from, one engagement further out"),
        ([{**BARE, "probe_length": "9.5"}], "another seat plane was measured from, one engagement further out"),
        ([{**BARE, "probe_length": "8.5"}], "a fixed fitting's length, or a length meant compressed"),
        ([{"spring_travel": "0.5", "probe_length": "9.25"}], "the overall length was used for the bore depth"),
        ([{"probe_length": "7.5"}], "the insertion length was ordered"),
        ([{**LAGGING, "probe_length": "9"}], "the lagging length was forgotten"),
        ([{**BARE, "probe_length": "9.9"}], "the length was measured under the hexagon"),
        ([{**BARE, "probe_length": "6"}, {**BARE, "bore_depth": "6", "probe_length": "6"}], "it is the neighbouring row's length"),
        ([{**BARE, "probe_length": "229"}], "mm and inches were mixed up"),
        ([{**BARE, "bore_depth": "12", "probe_length": "21"}], "the last two digits were swapped"),
    ],
)  # fmt: skip
def test_a_mistake_is_known_by_what_it_leaves(
    findings: Callable[..., list[Finding]], rows: list[dict[str, Any]], mistake: str
) -> None:
    said = [one.found for one in findings(*rows) if one.rule == "length_tells_its_mistake"]

    assert [text.split(": ", 1)[1] for text in said] == [mistake]


def test_the_residual_is_said_with_its_side(findings: Callable[..., list[Finding]]) -> None:
    said = [(one.found, one.expected) for one in findings(FORGOTTEN) if one.rule == "length_tells_its_mistake"]

    assert said == [("5 in shorter than it should be: the extension was forgotten", "about 14 in")]


def test_residuals_are_stated_less_right(build: Callable[..., Any]) -> None:
    frame = build([{"probe_length": "9.25"}, {"probe_length": ""}], sized=True).frame

    assert residual(frame).round(6).fillna(-1.0).tolist() == [6.35, -1.0]
