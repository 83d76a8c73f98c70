"""Sensor against bore, and tags against each other."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

METRIC = {
    "length_unit": "mm",
    "overall_length": "235",
    "bore_depth": "229",
    "tip_thickness": "6",
    "insertion_length": "190",
    "bore_diameter": "7",
    "sheath_diameter": "6",
    "spring_travel": "25",
    "root_diameter": "25",
    "tip_diameter": "19",
    "probe_length": "230",
}
PAIR = [{"tag": "TE-101A", "well_tag": "TW-101"}, {"tag": "TE-101B", "well_tag": "TW-101"}]
OTHER_WELL = {"overall_length": "12.25", "bore_depth": "12", "insertion_length": "10.5", "probe_length": "12"}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "dimensions_without_well": [
        ("fires on a connection that is none", {"well_connection": "no well"}, ["error TE-101 well_connection"]),
        ("fires on a column that says no", {"has_well": "N"}, ["error TE-101 well_connection"]),
        ("is silent on a type of sensor that is not looked at", {"sensor_type": "RTD, surface mounted"}, []),
        ("is silent on a column that says yes", {"has_well": "Y"}, []),
        ("is silent of a service with the word", {"service": "Surface condenser"}, []),
        ("is sound", {}, []),
    ],
    "sheath_will_not_enter": [
        ("fires on a bore narrower than the sheath", {"bore_diameter": "0.240"}, ["error TE-101 bore_diameter"]),
        ("fires on a nominal size below it", {"bore_diameter": "3/16"}, ["error TE-101 bore_diameter"]),
        ("fires on decimals too near", {"bore_diameter": "0.252"}, ["error TE-101 bore_diameter"]),
        ("fires on millimetres in decimals", {**METRIC, "bore_diameter": "6.1 mm"}, ["error TE-101 bore_diameter"]),
        ("is sound on the limit of 0.005 in", {"bore_diameter": "0.255"}, []),
        ("is silent of the sheath's own nominal size", [{"bore_diameter": "1/4"}, {"bore_diameter": "0.25"}, {**METRIC, "bore_diameter": "6 mm"}], []),
        ("is sound", {}, []),
    ],
    "nominal_bore_diameter": [
        ("is noted once a sheet", [{"bore_diameter": "1/4"}, {"bore_diameter": "0.25"}], ["note TE-101+TE-102 bore_diameter"]),
        ("is silent of decimals", {"bore_diameter": "0.250"}, []),
        ("is sound", {}, []),
    ],
    "sheath_rattles": [
        ("fires on 1/4 in in 0.385", {"bore_diameter": "0.385"}, ["warning TE-101 sheath_diameter"]),
        ("fires on 6 in 9 mm", {**METRIC, "bore_diameter": "9"}, ["warning TE-101 sheath_diameter"]),
        ("is sound on the limit of 0.06 in", {"bore_diameter": "0.31"}, []),
        ("is sound on the limit of 1.6 mm", {**METRIC, "bore_diameter": "7.6"}, []),
        ("is silent of a DIN well's plate insert", {**METRIC, "bore_diameter": "9", "shank_form": "form 4", "sensor_mounting": "flanged insert"}, []),
        ("is sound", {}, []),
        ("is said once where many rows have it", [{"bore_diameter": "0.385"}] * 10, ["warning " + "+".join(f"TE-{n}" for n in range(101, 111)) + " sheath_diameter"]),
    ],
    "two_sensors_one_bore": [
        ("fires on both", PAIR, ["error TE-101A well_tag", "error TE-101B well_tag"]),
        ("is sound where one says duplex", [PAIR[0] | {"element_count": "duplex"}, PAIR[1]], []),
        ("is sound where a remark says duplex", [PAIR[0], PAIR[1] | {"remarks": "dual element with A"}], []),
        ("is noted where many share it, on the limit of four", [{"well_tag": "TW-1"}] * 5, ["note TE-101+TE-102+TE-103+TE-104+TE-105 well_tag"]),
        ("is sound for wells of their own", [{"well_tag": "TW-101"}, {"well_tag": "TW-102"}], []),
        ("is silent without well tags", [{}, {}], []),
    ],
    "tag_twice": [
        ("fires on rows that differ", [{"tag": "TE-1"}, {"tag": "te 1", **OTHER_WELL}], ["error TE-1 tag", "error te 1 tag"]),
        ("warns of rows that are alike", [{"tag": "TE-1"}, {"tag": "TE-1"}], ["warning TE-1 tag", "warning TE-1 tag"]),
        ("is an error where only words differ", [{"tag": "TE-1"}, {"tag": "TE-1", "sensor_mounting": "fixed fitting"}], ["error TE-1 tag", "error TE-1 tag"]),
        ("is silent of the kin of a loop", [{"tag": "TE-1"}, {"tag": "TIT-1"}, {"tag": "TW-1"}], []),
        ("is sound", [{}, {}], []),
    ],
    "well_tag_of_another_loop": [
        ("fires on a neighbour's well", [{"well_tag": "TW-102"}, {}], ["warning TE-101 well_tag"]),
        ("is silent of a loop that has no sensor", {"well_tag": "TW-999"}, []),
        ("is sound", {"well_tag": "TW-101"}, []),
    ],
    "type_contradicts_tag": [
        ("fires on another quantity", {"instrument_type": "Pressure transmitter"}, ["warning TE-101 instrument_type"]),
        ("is silent where temperature is named too", {"instrument_type": "Pressure and temperature element"}, []),
        ("is silent of other words", [{"instrument_type": "Element"}, {"instrument_type": "Vibration-proof element"}], []),
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


def test_twins_are_told_who_shares_the_well(findings: Callable[..., list[Finding]]) -> None:
    said = [one.found for one in findings(*PAIR) if one.rule == "two_sensors_one_bore"]

    assert said == ["well tag TW-101 stands beside TE-101A, TE-101B"] * 2


def test_a_tag_that_stands_twice_is_told_where(findings: Callable[..., list[Finding]]) -> None:
    said = [one.found for one in findings({"tag": "TE-1"}, {"tag": "TE-1"}) if one.rule == "tag_twice"]

    assert said == ["tag TE-1; also Index row 3", "tag TE-1; also Index row 2"]


def test_one_tag_twice_in_a_well_is_said_by_its_tag(voices: Callable[..., list[str]]) -> None:
    assert voices({"tag": "TE-1", "well_tag": "TW-1"}, {"tag": "TE-1", "well_tag": "TW-1"}) == [
        "warning TE-1 tag_twice",
        "warning TE-1 tag_twice",
    ]
