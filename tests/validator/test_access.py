"""Room for the head, for withdrawal, and for hands."""

import math
from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding
from thermowell_index.validator.access import interval_months

FLANGED = {
    "well_connection": '1-1/2" 300# RF flange',
    "connection_size": "1-1/2",
    "overall_length": "12.25",
    "insertion_length": "10",
    "bore_depth": "12",
    "probe_length": "12",
}
UNION = {"extension_arrangement": "nipple and union", "nipple_length": "4", "probe_length": "14"}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "head_in_the_insulation": [
        ("fires on a head inside it", {"insulation_thickness": "3"}, ["warning TE-101 insulation_thickness"]),
        ("fires on a flanged well of known standoff", {**FLANGED, "standoff": "1", "insulation_thickness": "3"}, ["warning TE-101 insulation_thickness"]),
        ("is silent of a flanged well of unknown standoff", {**FLANGED, "insulation_thickness": "3"}, []),
        ("counts standoff and extension", [{"insulation_thickness": "3", "standoff": "4"}, {**UNION, "insulation_thickness": "3"}], []),
        ("is sound on the limit of 2 in", {"insulation_thickness": "1", "insertion_length": "6.25"}, []),
        ("is sound on the limit of 50 mm", {"length_unit": "mm", "overall_length": "250", "insertion_length": "150", "bore_depth": "244", "tip_thickness": "6", "insulation_thickness": "50"}, []),
        ("is silent without insulation", {"insulation_thickness": "0"}, []),
        ("is sound", {}, []),
    ],
    "no_room_to_withdraw": [
        ("warns of a sprung sensor", {"withdrawal_clearance": "14"}, ["warning TE-101 withdrawal_clearance"]),
        ("is an error for a rigid one", {"withdrawal_clearance": "14", "sensor_mounting": "fixed fitting"}, ["error TE-101 withdrawal_clearance"]),
        ("counts the extension", {**UNION, "withdrawal_clearance": "16"}, ["warning TE-101 withdrawal_clearance"]),
        ("is sound on the limit of 6 in beyond the sensor", {"withdrawal_clearance": "15"}, []),
        ("is sound", {"withdrawal_clearance": "40"}, []),
    ],
    "pulled_often_no_union": [
        ("is noted once a sheet", [{"calibration_interval": "6 months"}, {"calibration_interval": "yearly"}], ["note TE-101+TE-102 calibration_interval"]),
        ("is noted on the limit of a year", {"calibration_interval": "12 months"}, ["note TE-101 calibration_interval"]),
        ("is silent of a longer interval", {"calibration_interval": "2 years"}, []),
        ("is sound with a union", {**UNION, "calibration_interval": "6 months"}, []),
        ("is sound for an insert", {"sensor_mounting": "spring-loaded insert", "calibration_interval": "6 months"}, []),
        ("is silent on words that name no interval", {"calibration_interval": "as required"}, []),
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
    "text,months",
    [("12 months", 12), ("1 yr", 12), ("24M", 24), ("every 2 years", 24), ("quarterly", 3), ("semi-annual", 6), ("jährlich", 12), ("6-monthly", 6), ("4 weeks", 1), ("1,5 Jahre", 18), ("36", 36)],
)  # fmt: skip
def test_an_interval_is_read_in_months(text: str, months: float) -> None:
    assert interval_months(text) == months


@pytest.mark.parametrize("text", ["", "2", "as required", "on failure", "500"])
def test_an_interval_that_is_none_for_certain_is_not_known(text: str) -> None:
    assert math.isnan(interval_months(text))


def test_a_buried_head_is_told_how_far_out_it_must_stand(findings: Callable[..., list[Finding]]) -> None:
    said = [one for one in findings({"insulation_thickness": "3"}) if one.rule == "head_in_the_insulation"]

    assert [(one.found, one.expected) for one in said] == [
        ("the head stands 1.75 in off the pipe, insulation 3", "the head at least 5 in off the pipe")
    ]


def test_the_room_to_withdraw_is_worked_out(findings: Callable[..., list[Finding]]) -> None:
    said = [one.expected for one in findings({"withdrawal_clearance": "14"}) if one.rule == "no_room_to_withdraw"]

    assert said == ["at least 15 in free above the face that the sensor mounts on"]
