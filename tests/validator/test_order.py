"""Ordered lengths against what fits and what is on the shelf."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

ORDERED = {"ordered_length": "9", "order_number": "4500-1"}
LISTED = {"basis": {"profile": {"spring_loaded_fitting": {"standard_lengths_mm": [228.6, 304.8]}}}}
FORM_4 = {
    "shank_form": "form 4",
    "length_unit": "mm",
    "overall_length": "200",
    "bore_depth": "195",
    "tip_thickness": "5",
    "extension_length": "165",
    "extension_arrangement": "neck tube",
    "sensor_mounting": "flanged insert",
    "probe_length": "",
    "spring_travel": "",
}
OWN_HEAD = {**FORM_4, "extension_length": "153", "basis": {"profile": {"flanged_insert": {"seat_offset": "12 mm"}}}}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "changed_after_order": [
        ("fires on an order that is too short", {**ORDERED, "ordered_length": "8.5"}, ["error TE-101 ordered_length"]),
        ("fires on an order that is too long", {**ORDERED, "ordered_length": "9.5"}, ["error TE-101 ordered_length"]),
        ("fires without an order number", {"ordered_length": "8.5"}, ["error TE-101 ordered_length"]),
        ("is sound inside the range", ORDERED, []),
        ("is silent of an order number alone", {"order_number": "4500-1"}, []),
    ],
    "length_off_the_price_list": [
        ("is noted of an order beside the list", [{**LISTED, "ordered_length": "9.25"}, {}], ["note TE-101 probe_length"]),
        ("is noted of a plate insert off the standard's lengths", OWN_HEAD, ["note TE-101 probe_length"]),
        ("is sound on the list", [LISTED, {}], []),
        ("is sound for an insert of the standard", FORM_4, []),
        ("is sound for an insert of forms 2 and 3", {**OWN_HEAD, "ordered_length": "405"}, []),
        ("is silent without a list", {}, []),
    ],
    "fewer_sensors_than_tags": [
        ("is noted of one for two tags", [{"tag": "TE-101A/B", "quantity_wanted": "1"}, {}], ["note TE-101A/B quantity_wanted"]),
        ("is silent of one for each", {"tag": "TE-101A/B", "quantity_wanted": "2"}, []),
        ("is silent of a duplex sensor", {"tag": "TE-101A/B", "quantity_wanted": "1", "element_count": "duplex"}, []),
        ("is silent of none", {"tag": "TE-101A/B", "quantity_wanted": "0"}, []),
        ("is silent of one tag", {"quantity_wanted": "1"}, []),
        ("is silent without a quantity", {"tag": "TE-101A/B", "quantity_wanted": ""}, []),
    ],
    "quantity_not_read": [
        ("is noted of words", [{"quantity_wanted": "as req'd"}, {}], ["note TE-101 quantity_wanted"]),
        ("is sound of a number with its word", {"quantity_wanted": "2 off"}, []),
        ("is sound of a no", {"quantity_wanted": "not required"}, []),
        ("is silent without a quantity", {"quantity_wanted": ""}, []),
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


def test_an_order_is_told_the_range_that_fits(findings: Callable[..., list[Finding]]) -> None:
    said = [one.expected for one in findings({**ORDERED, "ordered_length": "8.5"}) if one.rule == "changed_after_order"]

    assert said == ["a length from 8.7386 in to 9.3364 in"]
