"""What a finding says was found: the numbers that show the fault, in the words of the trade."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.findings import Finding

INSERT = {
    "sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple", "nipple_length": "4", "probe_length": "12",
}  # fmt: skip
FIXED = {"sensor_mounting": "fixed fitting"}
METRIC = {
    "length_unit": "mm", "overall_length": "235", "bore_depth": "229", "tip_thickness": "6", "insertion_length": "190",
    "bore_diameter": "6.5", "sheath_diameter": "6", "root_diameter": "25", "tip_diameter": "19", "spring_travel": "25",
    "probe_length": "",
}  # fmt: skip


@pytest.mark.parametrize(
    "rule,change,found",
    [
        ("tip_never_touches", {"probe_length": "8.5"}, "probe length 8.5: it reaches the bottom of the bore and no further"),
        ("tip_never_touches", {"probe_length": "8"}, "probe length 8: its tip ends 0.5 in above the bottom of the bore"),
        ("spring_goes_solid", {"probe_length": "11"}, "probe length 11: it would press its spring by 2.5 in, whose travel is 1 in"),
        ("tip_may_not_touch", {"probe_length": "8.7"}, "probe length 8.7: it presses its spring by 0.2 in (0.0864 in to 0.3136 in) of 1 in"),
        ("fixed_sensor_bottoms", {**FIXED, "probe_length": "8.55"}, "probe length 8.55 is 0.05 in longer than the well lets it in; tolerances take up to 0.1136 in more"),
        ("fixed_sensor_stands_off", {**FIXED, "probe_length": "7.9"}, "probe length 7.9 leaves a gap of 0.6 in under its tip; tolerances take up to 0.1136 in more"),
        ("tip_assumed", {"tip_thickness": "", "bore_depth": "", "spring_travel": "0.5", "probe_length": ""}, "tip thickness not stated, 0.25 in taken"),
        ("length_not_computed", {"instrument_thread": "3-1/2 NPT"}, "not known: plane that the probe is measured from, engagement of the thread; thread 3-1/2 NPT"),
        ("changed_after_order", {"ordered_length": "8.5", "order_number": "4500-1"}, "ordered at 8.5 in, order 4500-1"),
        ("no_extension_but_a_length", {"nipple_length": "4"}, "extension arrangement none; nipple length 4"),
        ("extension_without_length", {"extension_arrangement": "nipple and union"}, "extension arrangement nipple and union, no length that can be used"),
        ("nipple_shorter_than_threads", {**INSERT, "nipple_length": "1"}, "nipple of 1 in, its two threads swallow 1 in"),
        ("seat_height_not_known", {"sensor_mounting": "flanged insert", "extension_arrangement": "neck tube", "extension_length": "6"}, "flanged insert; form tapered; overall length 9.25; neck 6"),
        ("not_a_sensor_in_a_well", {"instrument_type": "Bimetal thermometer", "sensor_type": ""}, "Bimetal thermometer"),
        ("travel_assumed", {"spring_travel": ""}, "1 row: taken as 1 in"),
        ("mounting_from_basis", {"sensor_mounting": None}, "1 row: taken as spring-loaded fitting"),
        ("extension_from_basis", {"extension_arrangement": None}, "1 row: taken as none"),
    ],
)  # fmt: skip
def test_what_was_found_shows_the_fault(
    findings: Callable[..., list[Finding]], rule: str, change: dict[str, Any], found: str
) -> None:
    assert [one.found for one in findings(change) if one.rule == rule] == [found]


@pytest.mark.parametrize(
    "rule,change,expected",
    [
        ("measured_against_drawing", {"measured_bore_depth": "8.5"}, "within 1/4 in of the drawing's 9 in; the measured one is used"),
        ("measured_against_drawing", {**METRIC, "measured_bore_depth": "215"}, "within 6 mm of the drawing's 229 mm; the measured one is used"),
        ("sheath_rattles", {"bore_diameter": "0.385"}, "a sheath at most 0.06 in thinner than the bore"),
        ("sheath_rattles", {**METRIC, "bore_diameter": "9"}, "a sheath at most 1.6 mm thinner than the bore"),
        ("tip_too_thin", {"tip_thickness": "0.15", "bore_depth": "9.1", "basis": {"limit": {"tip_thin": "0.2 in"}}}, "0.2 in or more in a well drilled from bar"),
        ("wall_too_thin", {"tip_diameter": "0.45"}, "a wall of 0.12 in or more at the tip of a well drilled from bar"),
    ],
)  # fmt: skip
def test_what_is_expected_is_the_design_basis_limit_in_the_rows_unit(
    findings: Callable[..., list[Finding]], rule: str, change: dict[str, Any], expected: str
) -> None:
    assert [one.expected for one in findings(change) if one.rule == rule] == [expected]
