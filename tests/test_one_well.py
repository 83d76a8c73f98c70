"""One well from typed lengths: units, what is reported of it, and its text."""

from math import hypot
from typing import Any

import pytest

from thermowell_index.basis_file import basis_from
from thermowell_index.errors import SettingsError
from thermowell_index.one_well import LENGTHS, size_probe
from thermowell_index.report_text import CAUTIONS


def test_a_field_that_the_dictionary_does_not_have_is_named() -> None:
    with pytest.raises(SettingsError, match="no such field: bore, colour; there are tag, "):
        size_probe(bore="9 in", colour="blue")


def test_a_length_without_a_unit_is_withheld() -> None:
    probe = size_probe(bore_depth="9")
    assert (probe.verdict, probe.reason) == ("withheld", "unit not known")


@pytest.mark.parametrize(
    "depth,unit,order", [("9-1/4", "in", "9-1/4 in"), ("235", "mm", "235 mm"), ("9-1/4 in", "mm", "9-1/4 in")]
)
def test_a_unit_stated_once_serves_the_lengths_without_one(depth: str, unit: str, order: str) -> None:
    assert size_probe(bore_depth=depth, length_unit=unit).shown["probe length to order"] == order


def test_the_design_basis_says_the_unit_of_lengths_without_one_where_nothing_nearer_does() -> None:
    inches = basis_from({"index": {"unit": "in"}}, name="test", where="test", switches={})
    assert size_probe(basis=inches, bore_depth="9-1/4").shown["probe length to order"] == "9-1/4 in"
    assert size_probe(basis=inches, bore_depth="235", length_unit="mm").shown["probe length to order"] == "235 mm"


def test_a_fraction_without_a_unit_is_no_number_of_millimetres() -> None:
    probe = size_probe(bore_depth="9-1/4", length_unit="mm")
    assert (probe.order_mm, [found.rule for found in probe.findings if found.withholds]) == (
        None,
        ["unreadable_dimension"],
    )


def test_two_nipples_and_a_union_are_made_up_of_both() -> None:
    # X = 4 + 4 - 4 x 1/2 + 2 = 8 (published hardware table), P = B + X = 17
    probe = size_probe(
        bore_depth="9 in",
        sensor_mounting="spring-loaded insert",
        extension_arrangement="nipple-union-nipple",
        nipple_length="4 in",
        second_nipple_length="4 in",
    )
    assert probe.shown["probe length to order"] == "17 in"


def test_a_unit_that_is_none_is_refused() -> None:
    with pytest.raises(SettingsError, match="no unit of length: cubits; there are in and mm"):
        size_probe(bore_depth="9", length_unit="cubits")


def test_a_zero_needs_no_unit() -> None:
    probe = size_probe(bore_depth="9 in", lagging_length="0")
    assert probe.verdict == "sized"


@pytest.mark.parametrize(
    "values,order",
    [
        ({"bore_depth": "9 in"}, "9 in"),
        ({"bore_depth": "9 1/4 in"}, "9-1/4 in"),
        ({"bore_depth": "9.25 in"}, "9.25 in"),
        ({"bore_depth": "230 mm"}, "230 mm"),
        ({"bore_depth": "23 cm"}, "230 mm"),
        ({"bore_depth": "230 mm", "spring_travel": "1 in"}, "230 mm"),
        ({"spring_travel": "25.4 mm", "bore_depth": "9 in"}, "9 in"),
        ({"overall_length": "241 mm", "tip_thickness": "1/4 in", "bore_depth": "235 mm"}, "235 mm"),
    ],
)
def test_lengths_are_shown_in_the_unit_and_manner_of_the_wells_own(values: dict[str, Any], order: str) -> None:
    assert size_probe(**values).shown["probe length to order"] == order


@pytest.mark.parametrize(
    "depth,rule",
    [
        ("9/10 in", "range_for_dimension"),
        ("~9 in", "range_for_dimension"),
        ("nine", "unreadable_dimension"),
        ("TBD", "bore_depth_unknown"),
    ],
)
def test_a_length_that_is_none_is_withheld_by_the_same_check_as_in_an_index(depth: str, rule: str) -> None:
    probe = size_probe(bore_depth=depth)
    assert probe.order_mm is None
    assert [found.rule for found in probe.findings if found.withholds] == [rule]


def test_what_is_not_given_is_no_finding() -> None:
    assert "column_absent" not in {found.rule for found in size_probe(bore_depth="9 in").findings}


def test_lengths_that_do_not_apply_are_left_out() -> None:
    probe = size_probe(bore_depth="9 in", sensor_mounting="fixed fitting")
    assert {"margin", "first touch", "compression"}.isdisjoint(probe.shown)
    assert set(probe.shown) == set(probe.lengths_mm) <= set(LENGTHS)


def test_the_text_holds_verdict_lengths_plane_working_and_caution() -> None:
    text = size_probe(bore_depth="9 in").as_text(100)
    lines = text.splitlines()
    assert lines[0] == "sized"
    assert any(line.split() == ["probe", "length", "to", "order", "9", "in"] for line in lines)
    assert "  measured from end of mounting thread to tip, spring relaxed" in lines
    assert "working" in lines
    assert "findings" in lines
    assert CAUTIONS[0].split()[0] in text
    assert all(len(line) <= 100 for line in lines)


def test_the_text_of_a_withheld_well_says_why_and_has_no_plane() -> None:
    text = size_probe(bore_depth="9 in", extension_arrangement="nipple").as_text(100)
    assert text.startswith("withheld: fitting onto bare nipple\n")
    assert "measured from end" not in text
    assert "To do:" in text


def test_the_text_leaves_out_findings_where_there_are_none() -> None:
    basis = basis_from({"profile": {"spring_loaded_fitting": {"travel": "1 in"}}}, name="", where="", switches={})
    probe = size_probe(
        basis=basis,
        bore_depth="9 in",
        sensor_mounting="spring-loaded fitting",
        extension_arrangement="none",
        spring_travel="1 in",
    )
    assert [found.rule for found in probe.findings] == []
    assert "findings" not in probe.as_text(100).splitlines()


def test_a_tag_that_is_given_stands_in_the_findings() -> None:
    assert {found.tag for found in size_probe(tag="TE-7", bore_depth="9").findings if not found.folded} == {"TE-7"}


def test_the_text_says_what_a_character_of_the_drawing_stands_for() -> None:
    text = size_probe(bore_depth="228.6 mm", tip_thickness="6.35 mm").as_text(64)
    assert "one character is 4.85 mm; | open face of the well" in " ".join(text.split())


def test_materials_and_temperature_bring_the_hot_growth_of_one_well() -> None:
    # Mean coefficients of 16.5 and 14.0 x 1e-6 per K from memory: 190 mm x (400 - 20) K x 2.5e-6 = 0.1805 mm
    values: dict[str, Any] = {"insertion_length": "190 mm", "well_material": "316", "sheath_material": "alloy 600"}
    cold = size_probe(bore_depth="230 mm", **values)
    hot = size_probe(bore_depth="230 mm", design_temperature="400 C", **values)
    lost = cold.lengths_mm["compression, least"] - hot.lengths_mm["compression, least"]
    # beside 1/16 in of the bore, 1/16 in of the probe and a turn of 1/14 in, root-sum-square
    others = 25.4 * hypot(1 / 16, 1 / 16, 1 / 14)
    assert lost == pytest.approx(hypot(others, 0.1805) - others, abs=1e-6)
