"""Unknowns with a credible range: sized where one length serves the whole of it, withheld where none does."""

import math
from collections.abc import Callable
from typing import Any

import pytest

Check = Callable[..., Any]
NIPPLE = {"tag": "TE-101", "bore_depth (in)": 9, "mounting": "spring-loaded insert", "extension": "nipple"}
UNION = {"tag": "TE-101", "bore_depth (in)": 9, "mounting": "spring-loaded fitting", "extension": "nipple and union"}
NARROW = '[extension]\nnipple_credible_least = "3-7/8 in"\nnipple_credible_most = "4-1/8 in"\n'
WIDE = '[extension]\nnipple_credible_least = "3 in"\nnipple_credible_most = "4 in"\n'


def row(done: Any) -> tuple[str, float | None]:
    frame = done.result.table
    order = float(frame["probe_length_order_mm"].iloc[0])
    return str(frame["verdict"].iloc[0]), None if math.isnan(order) else round(order / 25.4, 4)


def rules(done: Any) -> list[str]:
    return [finding.rule for finding in done.result.findings]


def test_an_extension_without_length_is_withheld_while_the_basis_has_no_range(check: Check) -> None:
    done = check(NIPPLE)
    assert row(done) == ("withheld", None)
    assert "extension_without_length" in rules(done)


def test_one_length_that_serves_the_whole_range_is_given_and_said(check: Check) -> None:
    # X from 2-7/8 to 3-1/8 in, the middle 3: P = 9 + 3
    done = check(NIPPLE, basis=NARROW)
    assert row(done) == ("sized", 12)
    assert "extension_range_carried" in rules(done)
    assert "extension_without_length" not in rules(done)
    working = done.result.table["working"].iloc[0]
    assert "extension 3 in, nipple, the middle of 2.875 in to 3.125 in, credible range of the design basis" in working
    assert "credible range 0.125 in plus root-sum-square" in working


def test_where_no_length_serves_the_whole_range_the_row_is_withheld_and_asked_for(check: Check) -> None:
    done = check(NIPPLE, basis=WIDE)
    assert row(done) == ("withheld", None)
    assert "extension_without_length" in rules(done)
    assert [line.question for line in done.result.report.survey.lines] == ["installed length"]
    assert "no length serves all of 2 in to 3 in" in done.found("extension_without_length").found


def test_a_length_to_order_given_for_a_range_fits_both_of_its_ends(check: Check) -> None:
    ends = [check(NIPPLE | {"nipple_length (in)": n}).result.table.iloc[0] for n in (3.875, 4.125)]
    order = check(NIPPLE, basis=NARROW).result.table["probe_length_order_mm"].iloc[0]
    assert all(end["shortest_fit_mm"] <= order <= end["longest_fit_mm"] for end in ends)


@pytest.mark.parametrize(
    "travel,expected",
    [
        # bought 4 in and union adds 4 - 1/2 - 1/2 + 2 = 5 in, installed 4 in: one inch apart
        (1, ("withheld", None)),
        # Zs 13; least 13 + 5/16 preload + 1/2 range + 0.16 = 13.97: the next quarter inch of a long spring
        (2.5, ("sized", 14)),
    ],
)
def test_bought_or_installed_are_two_values_that_one_length_may_serve(
    check: Check, travel: float, expected: tuple[str, float | None]
) -> None:
    done = check(UNION | {"extension_length (in)": 4, "spring_travel (in)": travel})
    assert row(done) == expected
    assert ("union_basis_not_stated" in rules(done)) == (expected[1] is None)


@pytest.mark.parametrize("cell", ["~4", "?", "4/5"])
def test_a_doubted_number_beside_the_extension_is_not_carried(check: Check, cell: str) -> None:
    done = check(NIPPLE | {"nipple_length (in)": cell}, basis=NARROW)
    assert row(done)[0] == "withheld" or cell == "?"


def test_a_fitting_on_a_bare_nipple_stays_withheld(check: Check) -> None:
    assert row(check(NIPPLE | {"mounting": "spring-loaded fitting"}, basis=NARROW)) == ("withheld", None)


def test_a_neck_and_a_coupling_have_ranges_of_their_own(check: Check) -> None:
    neck = '[extension]\nneck_credible_least = "143 mm"\nneck_credible_most = "147 mm"\n'
    row_neck = {"tag": "TE-1", "bore_depth (mm)": 200, "mounting": "spring-loaded insert", "extension": "neck tube"}
    assert row(check(row_neck, basis=neck)) == ("sized", round(345 / 25.4, 4))
    coupling = '[extension]\ncoupling_credible_least = "1-7/8 in"\ncoupling_credible_most = "2-1/8 in"\n'
    coupled = UNION | {"extension": "nipple and coupling", "nipple_length (in)": 4}
    # X = 4 - 1/2 - 1/2 + 2 = 5
    assert row(check(coupled, basis=coupling)) == ("sized", 14)


def test_a_travel_that_is_not_known_is_carried_from_its_least_to_its_most(check: Check) -> None:
    travel = '[profile.spring_loaded_fitting]\ntravel_least = "1/2 in"\ntravel_most = "1 in"\n'
    done = check({"tag": "TE-1", "bore_depth (in)": 9}, basis=travel)
    # long spring: shortest 8.5 + 1/8 + 0.1136 = 8.7386; short spring: longest 8.5 + 1/2 - 0.025 - 0.1136 = 8.8614
    frame = done.result.table
    assert frame["shortest_fit_mm"].iloc[0] / 25.4 == pytest.approx(8.7386, abs=1e-4)
    assert frame["longest_fit_mm"].iloc[0] / 25.4 == pytest.approx(8.8614, abs=1e-4)
    assert row(done) == ("sized", 8.75)
    assert "travel_assumed" not in rules(done)
    assert "least travel 0.5 in" in frame["working"].iloc[0]


def test_an_engagement_of_a_thread_that_is_not_stated_is_carried(check: Check) -> None:
    basis = '[tolerance]\nengagement_unstated = "1/16 in"\n'
    plain, ranged = (check({"tag": "TE-1", "bore_depth (in)": 9}, basis=text).result.table for text in ("", basis))
    assert ranged["shortest_fit_mm"].iloc[0] - plain["shortest_fit_mm"].iloc[0] == pytest.approx(25.4 / 16)
    stated = {"tag": "TE-1", "bore_depth (in)": 9, "instrument_thread": "1/2 NPT"}
    known = check(stated, basis=basis).result.table
    assert known["shortest_fit_mm"].iloc[0] == pytest.approx(plain["shortest_fit_mm"].iloc[0])


FOUND = NIPPLE | {"probe_length (in)": 12, "compression_found (in)": 0.5}


def test_the_sensor_in_place_tells_bore_and_extension_together(check: Check) -> None:
    # P = 12 was compressed by 1/2: bore and extension make 12 - 1/2 + 1/2 (seat offset) - 0 = 12 less the offset
    done = check(FOUND)
    assert row(done) == ("sized", 12)
    assert "extension_range_carried" in rules(done)
    working = done.result.table["working"].iloc[0]
    assert "old sensor in place" in working
    assert "compression found 0.0312 in" in working


@pytest.mark.parametrize("bore", [8.5, 9.25])
def test_what_the_bore_depth_is_does_not_matter_where_the_sum_is_known(check: Check, bore: float) -> None:
    assert row(check(FOUND | {"bore_depth (in)": bore})) == row(check(FOUND))


def test_a_bore_from_an_assumed_tip_will_do_where_the_sum_is_known(check: Check) -> None:
    without = {key: value for key, value in FOUND.items() if key != "bore_depth (in)"}
    assert row(check(without | {"overall_length (in)": 9.25})) == ("sized", 12)


def test_a_range_that_the_sensor_in_place_denies_is_said_to_be_denied(check: Check) -> None:
    done = check(FOUND | {"probe_length (in)": 14}, basis=WIDE)
    assert row(done) == ("withheld", None)
    assert "the sensor in place denies the credible range" in done.found("extension_without_length").found


def test_a_sensor_known_only_to_touch_tells_too_little_alone(check: Check) -> None:
    assert row(check(NIPPLE | {"probe_length (in)": 12, "tip_contact": "yes"})) == ("withheld", None)


def test_a_sensor_that_touches_cuts_a_range_down(check: Check) -> None:
    # X from 2 to 3; P = 12.6 touches and is not solid: B + X - 1/2 from 11.6 to 12.6, X at least 3.1 less 0.237 around:
    # the middle is 2.93, so P = 11.93
    assert row(check(NIPPLE, basis=WIDE)) == ("withheld", None)
    done = check(NIPPLE | {"probe_length (in)": 12.6, "tip_contact": "yes", "spring_travel (in)": 1}, basis=WIDE)
    assert row(done) == ("review", 12)
    assert "credible range of the design basis and old sensor in place" in done.result.table["working"].iloc[0]


@pytest.mark.parametrize(
    "change", [{"probe_length (in)": 8}, {"extension": "extension"}, {"mounting": "fixed fitting"}]
)
def test_a_sensor_in_place_that_leads_to_no_extension_leaves_the_row_withheld(
    check: Check, change: dict[str, object]
) -> None:
    assert row(check(FOUND | change)) == ("withheld", None)
