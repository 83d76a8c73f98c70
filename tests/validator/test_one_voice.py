"""A fault that many rows of a sheet have is said once, with its tags; what a cause has spoken of is not said again."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.findings import Finding
from thermowell_index.judge import judge
from thermowell_index.registry import RULES, Folds

SAYS_SPRING = {"sensor_mounting": "spring loaded"}
SHORT = {"bore_depth": "7.5", "probe_length": ""}


def of(rule: str, said: list[Finding]) -> list[tuple[str, int, bool]]:
    return [(one.found, len(one.tags), one.withholds) for one in said if one.rule == rule]


@pytest.mark.parametrize(
    "rows,said",
    [
        ([SAYS_SPRING] * 10, [("10 rows: sensor mounting spring loaded", 10, True)]),
        ([*[SAYS_SPRING] * 10, *[{}] * 90], [("10 rows: sensor mounting spring loaded", 10, True)]),
        ([*[SAYS_SPRING] * 9, *[{}] * 2], [("sensor mounting spring loaded", 1, True)] * 9),
        ([*[SAYS_SPRING] * 10, *[{}] * 91], [("sensor mounting spring loaded", 1, True)] * 10),
        (
            [*[SAYS_SPRING] * 8, *[{"sensor_mounting": "SL"}] * 4, {"sensor_mounting": "sprung"}, {"sensor_mounting": "S/L"}],
            [("14 rows: sensor mounting spring loaded (8); sensor mounting SL (4); sensor mounting sprung; and 1 more", 14, True)],
        ),
    ],
    ids=["a whole column", "a tenth, on the limit", "nine, below the limit", "less than a tenth", "several words"],
)  # fmt: skip
def test_a_fault_of_a_whole_column_is_said_once(
    findings: Callable[..., list[Finding]], rows: list[dict[str, Any]], said: list[tuple[str, int, bool]]
) -> None:
    assert of("mounting_not_stated", findings(*rows)) == said


def test_a_fault_on_fifty_rows_is_a_habit_whatever_their_share(judged: Callable[..., list[Finding]]) -> None:
    few, many = (judged([*[SHORT] * number, *[{}] * 510]) for number in (49, 50))

    assert len(of("insertion_copied_as_bore", few)) == 49
    assert [count for _, count, _ in of("insertion_copied_as_bore", many)] == [50]


def test_sheets_fold_by_themselves(findings: Callable[..., list[Finding]]) -> None:
    rows = [{**SAYS_SPRING, "sheet": sheet} for sheet in ("North", "South") for _ in range(10)]

    assert [len(one.tags) for one in findings(*rows) if one.rule == "mounting_not_stated"] == [10, 10]


def test_rows_that_a_fault_withholds_are_not_folded_with_those_that_it_does_not(
    findings: Callable[..., list[Finding]],
) -> None:
    dead = {"overall_length": ("dead formula", "#REF!", "")}
    rows = [*[dead] * 10, *[{**dead, "bore_depth": ""}] * 10]

    assert sorted((len(one.tags), one.withholds) for one in findings(*rows) if one.rule == "dead_formula") == [
        (10, False),
        (10, True),
    ]


def test_a_folded_finding_leaves_out_the_rows_that_its_cause_speaks_of(findings: Callable[..., list[Finding]]) -> None:
    wide = {"bore_diameter": "0.385"}
    rows = [*[wide] * 10, {"bore_diameter": "0.385", "tip_diameter": "0.38"}]

    (one,) = [one for one in findings(*rows) if one.rule == "sheath_rattles"]

    assert one.tags == tuple(f"TE-{number}" for number in range(101, 111))


def test_a_folded_finding_says_what_to_expect_of_each(findings: Callable[..., list[Finding]]) -> None:
    rows = [{"bore_depth": "1", "tip_thickness": "40", "overall_length": ""}] * 10
    expected = {one.field: one.expected for one in findings(*rows) if one.rule == "implausible_length"}

    assert expected == {
        "bore_depth": "bore depth from 1.5 in to 120 in",
        "tip_thickness": "tip thickness from 0.04 in to 2 in",
    }


@pytest.mark.parametrize(
    "rule", [rule for rule in RULES.values() if rule.folds is Folds.REPEATED], ids=lambda r: r.name
)
def test_no_error_that_keeps_no_length_back_is_hidden_in_a_fold(rule: Any) -> None:
    assert rule.severity != "error" or rule.withholds != "no"


def test_an_error_on_many_rows_asks_for_a_look_at_each(build: Callable[..., Any]) -> None:
    table = build([{"overall_length": ("dead formula", "#REF!", "")}] * 10)

    judge(table, BUILT_IN)

    assert set(table.frame["verdict"]) == {"review"}


def test_a_warning_on_many_rows_leaves_their_verdict_alone(build: Callable[..., Any]) -> None:
    table = build([{"bore_diameter": "0.385"}] * 10)

    judge(table, BUILT_IN)

    assert set(table.frame["verdict"]) == {"sized"}
