"""The sensor in place as a gauge of the bore, and lengths that are bought again in kind."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.records.words import confirms, denies_contact

Check = Callable[..., Any]
INCH = 25.4
BARE = {"tag": "TE-101", "spring_travel (in)": 1, "probe_length (in)": 9}
OVERALL = BARE | {"overall_length (in)": 9.25}


def first(done: Any) -> Any:
    return done.result.table.iloc[0]


def inches(row: Any, name: str) -> float | None:
    length = float(row[f"{name}_mm"])
    return None if math.isnan(length) else round(length / INCH, 4)


def rules(done: Any) -> list[str]:
    return [finding.rule for finding in done.result.findings]


@pytest.mark.parametrize("text", ["yes", "Y", "Ja", "touches", "in kind", "proven in service", "X"])
def test_a_yes_is_understood(text: str) -> None:
    assert confirms(text)


@pytest.mark.parametrize("text", ["", "no", "N", "does not touch", "not proven", "touches?", "TBC", "nein"])
def test_a_no_or_a_doubt_is_no_yes(text: str) -> None:
    assert not confirms(text)


@pytest.mark.parametrize("text", ["no", "N", "nein", "No.", "does not touch", "doesn't bottom", "no contact", "0"])
def test_a_plain_no_says_that_a_tip_is_clear(text: str) -> None:
    assert denies_contact(text)


@pytest.mark.parametrize(
    "text", ["", "yes", "not known", "no record", "not checked", "?", "no?", "N/A", "-", "TBC", "not yet", "no sensor"]
)
def test_a_blank_or_a_doubt_does_not(text: str) -> None:
    assert not denies_contact(text)


def test_a_compression_found_gives_the_bore_depth_where_nothing_else_does(check: Check) -> None:
    row = first(check(BARE | {"compression_found (in)": 0.25}))
    # B = P - c - s = 9 - 1/4 + 1/2 = 9-1/4
    assert (row["bore_depth_basis"], inches(row, "bore_depth_used")) == ("old sensor in place", 9.25)
    assert inches(row, "probe_length_order") == 9.25
    assert "whose relaxed length of 9 in was found compressed by 0.25 in" in row["working"]
    # probe 1/16 and one turn of 1/14 in by which it was made up: 0.0949
    assert (
        "root-sum-square of probe and threads of the old sensor 0.0949 in, compression found 0.0312 in, "
        in row["working"]
    )


def test_without_a_word_about_it_a_probe_length_proves_nothing(check: Check) -> None:
    assert first(check(BARE))["verdict"] == "withheld"


@pytest.mark.parametrize(
    "depth,found,denied",
    [
        # by the sensor B = 9 - c + 1/2; probe 1/16, reading 1/32, one turn 1/14, stated bore 1/16: 0.2277 in all
        (9, 0.5, False),
        (9, 0.28, False),
        (9, 0.26, True),
        (9, 0.74, True),
        (9, 0.72, False),
    ],
)
def test_a_bore_depth_that_the_sensor_in_place_denies_is_withheld(
    check: Check, depth: float, found: float, *, denied: bool
) -> None:
    done = check(BARE | {"bore_depth (in)": depth, "compression_found (in)": found})
    assert ("old_sensor_denies_bore_depth" in rules(done)) == denied
    assert (first(done)["verdict"] == "withheld") == denied
    assert first(done)["bore_depth_basis"] == "stated"


def test_a_probe_that_touches_cannot_stand_in_a_bore_deeper_than_itself(check: Check) -> None:
    # its thread end goes 1/2 in into the well: it reaches to 9-1/2
    deep = BARE | {"bore_depth (in)": 10}
    assert "old_sensor_denies_bore_depth" not in rules(check(deep))
    done = check(deep | {"tip_contact": "yes"})
    assert "old_sensor_denies_bore_depth" in rules(done)
    assert "old_sensor_denies_bore_depth" not in rules(check(deep | {"tip_contact": "no"}))
    assert "old_sensor_denies_bore_depth" in rules(check(deep, basis='[index]\nprobe_length_proves = "tip touches"\n'))


@pytest.mark.parametrize(
    "depth,text,denied",
    [
        # it reaches to 9 + 1/2; probe 1/16, reading 1/32, one turn 1/14, stated bore 1/16: 0.2277 in all
        (9.25, "no", True),
        (9.28, "no", False),
        (9, "does not touch", True),
        (10, "no", False),
        (9, "not known", False),
        (9, "no?", False),
        (9, "", False),
    ],
)
def test_a_probe_that_is_known_not_to_touch_denies_a_bore_in_which_it_would_have_to(
    check: Check, depth: float, text: str, *, denied: bool
) -> None:
    done = check(BARE | {"bore_depth (in)": depth, "tip_contact": text})
    assert ("old_sensor_denies_bore_depth" in rules(done)) == denied
    assert (first(done)["verdict"] == "withheld") == denied


def test_what_a_clear_tip_denies_is_said(check: Check) -> None:
    done = check(BARE | {"bore_depth (in)": 9, "tip_contact": "no"})
    (finding,) = [one for one in done.result.findings if one.rule == "old_sensor_denies_bore_depth"]
    assert finding.found == "probe in place 9 in, known not to touch; bore depth 9 in, stated"
    # 9 + 1/2 - 0.1652
    assert finding.expected == "a bore depth of at least 9.3348 in, by the sensor in place"


def test_a_clear_tip_proves_nothing_of_a_sensor_without_a_spring(check: Check) -> None:
    fixed = {"mounting": "fixed fitting", "bore_depth (in)": 9, "tip_contact": "no"}
    assert "old_sensor_denies_bore_depth" not in rules(check(BARE | fixed))


def test_a_clear_tip_leaves_an_assumed_tip_alone_that_it_is_well_above(check: Check) -> None:
    assumed = OVERALL | {"probe_length (in)": 8.375}
    silent, clear = first(check(assumed)), first(check(assumed | {"tip_contact": "no"}))
    assert silent["tip_thicker_mm"] == pytest.approx(clear["tip_thicker_mm"])
    assert silent["probe_length_order_mm"] == clear["probe_length_order_mm"]


def test_a_clear_tip_leaves_of_an_assumed_tip_the_thinner_ones(check: Check) -> None:
    # its tip ends 8.62 + 1/2 = 9.12 in below the face, less 0.1652 in of tolerances: the bore is 8.9548 in at least
    assumed = OVERALL | {"probe_length (in)": 8.62}
    silent, clear = first(check(assumed)), first(check(assumed | {"tip_contact": "no"}))
    assert inches(clear, "tip_thicker") == pytest.approx(9 - 8.9548, abs=1e-4)
    assert clear["tip_thinner_mm"] == pytest.approx(silent["tip_thinner_mm"])
    assert inches(clear, "bore_depth_used") == 9


def test_a_spring_that_would_be_solid_denies_a_shallow_bore_only_where_its_travel_is_known(check: Check) -> None:
    shallow = BARE | {"bore_depth (in)": 8, "tip_contact": "touches"}
    assert "old_sensor_denies_bore_depth" in rules(check(shallow))
    assert "old_sensor_denies_bore_depth" not in rules(check(shallow | {"spring_travel (in)": None}))


def test_contact_narrows_the_range_of_an_assumed_tip(check: Check) -> None:
    touching = OVERALL | {"probe_length (in)": 8.375, "tip_contact": "yes"}
    wide, narrow = first(check(OVERALL | {"probe_length (in)": None})), first(check(touching))
    assert inches(wide, "bore_depth_used") == inches(narrow, "bore_depth_used") == 9
    assert narrow["tip_thinner_mm"] < wide["tip_thinner_mm"]
    assert narrow["tip_thicker_mm"] == pytest.approx(wide["tip_thicker_mm"])
    # 8-3/8 + 1/2 + 0.1652 (probe 1/16, reading 1/32, one turn 1/14) = 9.0402, and not 9-1/16
    assert narrow["tip_thinner_mm"] / INCH == pytest.approx(0.0402, abs=1e-4)
    assert narrow["shortest_fit_mm"] < wide["shortest_fit_mm"]


IN_KIND = {
    "tag": "TE-101",
    "mounting": "spring-loaded fitting",
    "extension": "nipple and union",
    "bore_depth (in)": 9,
    "probe_length (in)": 12.375,
}


def test_a_length_proven_in_service_is_bought_as_it_is_where_nothing_leads_to_one(check: Check) -> None:
    assert first(check(IN_KIND))["verdict"] == "withheld"
    done = check(IN_KIND | {"replaced_in_kind": "yes"})
    row = first(done)
    assert (row["verdict"], row["bore_depth_basis"], inches(row, "probe_length_order")) == ("sized", "in kind", 12.375)
    assert inches(row, "shortest_fit") == inches(row, "longest_fit") == 12.375
    assert row[["bore_depth_used_mm", "compression_nominal_mm", "margin_mm", "probe_length_computed_mm"]].isna().all()
    assert "length_taken_in_kind" in rules(done)
    assert "in kind: the length in place, proven in service" in row["working"]


def test_the_design_basis_can_say_that_lengths_are_in_kind(check: Check) -> None:
    row = first(check(IN_KIND, basis='[index]\nprobe_length_proves = "in kind"\n'))
    assert inches(row, "probe_length_order") == 12.375


@pytest.mark.parametrize(
    "changes",
    [
        {"replaced_in_kind": "no"},
        {"replaced_in_kind": "yes", "probe_length (in)": "~12"},
        {"replaced_in_kind": "yes", "probe_length (in)": None},
        {"replaced_in_kind": "yes", "mounting": "spring loaded"},
    ],
)
def test_nothing_is_bought_in_kind_without_a_sound_length_and_a_yes(check: Check, changes: dict[str, Any]) -> None:
    assert first(check(IN_KIND | changes))["verdict"] == "withheld"


def test_a_known_bore_depth_goes_before_in_kind_and_judges_the_length(check: Check) -> None:
    done = check(BARE | {"bore_depth (in)": 11, "replaced_in_kind": "yes"})
    assert (first(done)["bore_depth_basis"], inches(first(done), "probe_length_order")) == ("stated", 11)
    assert "tip_never_touches" in rules(done)
