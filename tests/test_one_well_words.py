"""Findings on one well speak of no sheet, column, row, cell or index."""

import re
from typing import Any

import pytest

from thermowell_index.one_well import size_probe
from thermowell_index.one_well_words import NOT_FOR_ONE, WORDS, finding_text
from thermowell_index.registry import RULES

OF_A_SHEET = re.compile(r"\b(?:columns?|sheets?|headings?|rows?|cells?|title block)\b|\bindex\b(?!\.)")


@pytest.mark.parametrize("rule", WORDS)
def test_words_replace_those_of_a_check_that_there_is(rule: str) -> None:
    assert rule in RULES
    assert not OF_A_SHEET.search(" ".join(vars(WORDS[rule]).values()))


# What makes checks speak of a well that is typed: of lengths, words, threads and what does not add up.
WELLS: list[dict[str, Any]] = [
    {"bore_depth": "9"},
    {"bore_depth": "9 in"},
    {"bore_depth": "9 in", "sensor_mounting": "spring loaded", "extension_arrangement": "gooseneck"},
    {"bore_depth": "9 in", "extension_arrangement": "none", "nipple_length": "4 in"},
    {"bore_depth": "9 in", "extension_arrangement": "nipple and union", "extension_length": "4 in"},
    {"bore_depth": "9 in", "extension_arrangement": "nipple", "sensor_mounting": "spring-loaded fitting"},
    {"bore_depth": "9 in", "extension_arrangement": "nipple", "sensor_mounting": "spring-loaded insert"},
    {"bore_depth": "9 in", "extension_arrangement": "neck tube", "sensor_mounting": "flanged insert"},
    {"bore_depth": "9 in", "instrument_thread": "M20x1.5"},
    {"bore_depth": "9 in", "instrument_thread": "1/2 BSP"},
    {"bore_depth": "9 in", "instrument_thread": "3-1/2 NPT"},
    {"bore_depth": "9 in", "instrument_thread": "1/2 NPT", "extension_thread": "3/4 NPT",
     "extension_arrangement": "nipple", "nipple_length": "4 in", "sensor_mounting": "spring-loaded insert"},
    {"bore_depth": "9.25 in", "overall_length": "9.25 in", "tip_thickness": "0.25 in"},
    {"bore_depth": "8 in", "overall_length": "9.25 in", "tip_thickness": "0.25 in", "insertion_length": "8 in"},
    {"bore_depth": "7.5 in", "insertion_length": "7.5 in", "overall_length": "9.25 in"},
    {"overall_length": "9.25 in", "insertion_length": "9.5 in", "tip_thickness": "0.25 in"},
    {"overall_length": "92.5 in", "insertion_length": "7.5 in", "tip_thickness": "0.25 in"},
    {"bore_depth": "9/10 in"},
    {"bore_depth": "see drawing"},
    {"bore_depth": "9'"},
    {"bore_depth": "229 in"},
    {"bore_depth": "1 in"},
    {"bore_depth": "9 in", "bore_diameter": "1/4 in", "sheath_diameter": "1/4 in"},
    {"bore_depth": "9 in", "probe_length": "8 in", "tip_contact": "yes"},
    {"bore_depth": "9 in", "probe_length": "8 in"},
    {"bore_depth": "9 in", "probe_length": "12 in"},
    {"probe_length": "9 in", "replaced_in_kind": "yes"},
    {"measured_bore_depth": "8 in", "bore_depth": "9 in"},
    {"bore_depth": "9 in", "remarks": "bore measured 8.5 in"},
    {"bore_depth": "9 in", "spring_travel": "0.2 in"},
    {"overall_length": "9.25 in", "spring_travel": "0.5 in"},
    {"bore_depth": "9 in", "sensor_mounting": "compression fitting"},
    {"bore_depth": "9 in", "design_temperature": "600 C", "insertion_length": "30 in", "well_material": "QX-1"},
]  # fmt: skip


@pytest.mark.parametrize("values", WELLS)
def test_no_finding_on_one_well_speaks_of_a_sheet(values: dict[str, Any]) -> None:
    sized = size_probe(**values)
    said = [finding_text(one) for one in sized.findings if one.rule not in NOT_FOR_ONE]
    spoken = [text for text in said if OF_A_SHEET.search(text)]
    assert spoken == []
