"""The well in the pipe."""

import math
from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding
from thermowell_index.records.growth import EXPANSION
from thermowell_index.validator.process import CONDUCTIVITY, conductivity_of, hottest_key

THERMOCOUPLE = {"sensor_type": "TC type K"}
SHORT = {"insertion_length": "2.5", "overall_length": "4.25", "bore_depth": "4", "probe_length": "4"}
CARBON = {**SHORT, "well_material": "A105 carbon steel"}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "tip_short_of_the_stream": [
        ("is noted once a sheet", [SHORT, SHORT], ["note TE-101+TE-102 insertion_length"]),
        ("warns of a tip that ends in the nozzle", {"standoff": "7.5"}, ["warning TE-101 insertion_length"]),
        ("takes off standoff and wall", {"standoff": "4.25", "line_size": "DN 150"}, ["note TE-101 insertion_length"]),
        ("is sound on the limit of 3 in", {"standoff": "4.5", "pipe_schedule": ""}, []),
        ("is sound on the limit of 2 in for a thermocouple", {**THERMOCOUPLE, "standoff": "5.5", "pipe_schedule": ""}, []),
        ("is silent of vessels and elbows", [SHORT | {"service": "Reactor bottom"}, SHORT | {"remarks": "in elbow"}], []),
        ("is silent of a line of unknown size", SHORT | {"line_size": "see P&ID"}, []),
        ("is sound", {}, []),
    ],
    "tip_past_the_far_wall": [
        ("is noted of a well longer than its pipe is wide", {"standoff": "0.5", "line_size": '4"'}, ["note TE-101 insertion_length"]),
        ("is noted beyond the sizes of schedule 40", {"standoff": "0", "line_size": '42"', "insertion_length": "43"}, ["note TE-101 insertion_length"]),
        ("is sound on the limit", {"standoff": "1", "insertion_length": "7.625"}, []),
        ("is silent of a tee", {"standoff": "0.5", "line_size": '4"', "remarks": "tee"}, []),
        ("is sound", {"standoff": "1"}, []),
    ],
    "heat_leaks_along_stem": [
        ("is noted of a short well of carbon steel", CARBON, ["note TE-101 insertion_length"]),
        ("is noted once a sheet", [CARBON, CARBON], ["note TE-101+TE-102 insertion_length"]),
        ("is silent of a material that is not known", SHORT | {"well_material": "special"}, []),
        ("is silent of a stem without metal", CARBON | {"bore_diameter": "1.2"}, []),
        ("is sound for a long well", [{}, {"insertion_length": "60", "overall_length": "62", "bore_depth": "61.75"}], []),
        ("is sound below the limit", SHORT | {"insertion_length": "4.5", "overall_length": "6.25"}, []),
    ],
    "element_too_hot": [
        ("fires above the range of class B", {"design_temperature": "610 C"}, ["warning TE-101 design_temperature"]),
        ("fires above the range of a film element", {"design_temperature": "510 C", "sensor_type": "Pt100 thin film"}, ["warning TE-101 design_temperature"]),
        ("fires on degrees Fahrenheit of the heading", {"design_temperature": "1200", "headings": {"design_temperature": "DESIGN TEMP (°F)"}}, ["warning TE-101 design_temperature"]),
        ("fires on a thermocouple", {"design_temperature": "400 C", "sensor_type": "type T thermocouple"}, ["warning TE-101 design_temperature"]),
        ("is sound on the limit", {"design_temperature": "600 C"}, []),
        ("is silent of a temperature without a unit", {"design_temperature": "700"}, []),
        ("is silent of a sensor that is not known", {"design_temperature": "700 C", "sensor_type": "temperature sensor"}, []),
        ("is sound", {"design_temperature": "150 C"}, []),
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
    "sensor,grade,key",
    [
        ("RTD Pt100", "", "hot.wire_class_b"),
        ("Pt100", "A", "hot.wire_class_a"),
        ("Pt100 class AA", "", "hot.wire_class_aa"),
        ("Pt100", "1/3 DIN", "hot.wire_class_aa"),
        ("Pt100 thin film", "class C", "hot.film_class_c"),
        ("TC type J", "class 1", "hot.type_j"),
        ("K", "", "hot.type_k"),
        ("Thermoelement Typ N", "", "hot.type_n"),
        ("temperature sensor", "A", ""),
    ],
)
def test_the_kind_of_element_chooses_its_limit(sensor: str, grade: str, key: str) -> None:
    assert hottest_key(sensor, grade) == key


def test_every_material_that_expands_conducts_too() -> None:
    assert set(CONDUCTIVITY) == {material for material, *_ in EXPANSION}


def test_words_of_two_materials_have_no_conductivity() -> None:
    assert conductivity_of("A105") == 48.0
    assert math.isnan(conductivity_of("A105 or 316 SS"))
    assert math.isnan(conductivity_of(""))


@pytest.mark.parametrize(
    "change,rule,found,expected",
    [
        (SHORT, "tip_short_of_the_stream", "1 row", "at least 3 in in the stream"),
        (CARBON, "heat_leaks_along_stem", "1 row: a tip is off by up to 1.9% of the difference", "a tip off by at most 0.5% of the difference between stream and air (estimate with 200 W/(m2 K) in the stream and 10 in air)"),
        ({"design_temperature": "610 C", "accuracy_class": "B"}, "element_too_hot", "design temperature 610 °C; sensor type RTD Pt100; accuracy class B", "a sensor for the design temperature; this one goes to 600 °C"),
        ({"design_temperature": "610 C"}, "element_too_hot", "design temperature 610 °C; sensor type RTD Pt100", "a sensor for the design temperature; this one goes to 600 °C"),
    ],
)  # fmt: skip
def test_what_was_found_and_expected_is_said_with_its_numbers(
    findings: Callable[..., list[Finding]], change: dict[str, Any], rule: str, found: str, expected: str
) -> None:
    # Carbon steel, 22.2 mm with a bore of 6.6 mm: m = 28.7 and 6.41 1/m, wall off by 1.78/(27.2 + 1.78), over cosh 1.82.
    assert [(one.found, one.expected) for one in findings(change) if one.rule == rule] == [(found, expected)]
