"""What sizing takes from a sensor's profile."""

from collections.abc import Callable
from typing import Any

import pytest

Check = Callable[..., Any]

BARE = {"tag": "TE-1", "bore_depth (in)": 9}
UNION = BARE | {"mounting": "spring-loaded fitting", "extension": "nipple and union", "nipple_length (in)": 2}
PROFILE = "[profile.spring_loaded_fitting]\n"


def first(done: Any) -> Any:
    return done.result.table.iloc[0]


def test_preload_and_reserve_of_a_profile_go_before_the_rule_of_thumb(check: Check) -> None:
    plain, own = first(check(BARE)), first(check(BARE, basis=PROFILE + 'preload = "1/4 in"\nreserve = "1/8 in"\n'))
    # 1/4 - 1/8 and 1/8 - 1/20 of a spring of 1 in
    assert own["shortest_fit_mm"] - plain["shortest_fit_mm"] == pytest.approx(25.4 / 8)
    assert plain["longest_fit_mm"] - own["longest_fit_mm"] == pytest.approx(25.4 * 0.075)


@pytest.mark.parametrize("depth,tolerance", [(9, 1.5), (20, 3.0), (60, 3.0)])
def test_the_tolerance_is_that_of_the_longest_the_probe_can_be(check: Check, depth: float, tolerance: float) -> None:
    steps = 'probe_tolerances = [["10 in", "1.5 mm"], ["40 in", "3 mm"]]\n'
    assert first(check(BARE | {"bore_depth (in)": depth}, basis=PROFILE + steps))["probe_tolerance_mm"] == tolerance


def test_a_length_that_leaves_the_extension_out_is_the_bore_depth_and_says_so(check: Check) -> None:
    with_it, without = first(check(UNION)), first(check(UNION, basis=PROFILE + 'contains_extension = "no"\n'))
    # X = 2 - 1/2 - 1/2 + 2 = 3
    assert with_it["probe_length_order_mm"] / 25.4 == pytest.approx(12)
    assert without["probe_length_order_mm"] / 25.4 == pytest.approx(9)
    assert with_it["plane"] == "from end of mounting thread to tip, spring relaxed, extension included"
    assert without["plane"] == "from end of mounting thread to tip, spring relaxed, extension not included"
    assert without["compression_nominal_mm"] == pytest.approx(with_it["compression_nominal_mm"])
    assert "less extension, which the maker's length leaves out 3 in" in without["working"]


def test_a_length_measured_with_the_spring_solid_is_shorter_by_the_travel(check: Check) -> None:
    solid = first(check(BARE, basis=PROFILE + 'spring_state = "solid"\n'))
    assert solid["probe_length_order_mm"] / 25.4 == pytest.approx(8)
    assert solid["compression_nominal_mm"] / 25.4 == pytest.approx(0.5)
    assert solid["first_touch_mm"] == pytest.approx(0)
    assert solid["plane"] == "from end of mounting thread to tip, spring solid"


@pytest.mark.parametrize(
    "lines,plane",
    [
        ("", "from underside of the plate to tip, springs relaxed, head included, extension not included"),
        ('plane = "from plate to tip"\n', "from plate to tip, extension not included"),
        ('plane = "from plate to tip, extension excluded"\n', "from plate to tip, extension excluded"),
    ],
)
def test_a_plane_without_the_extension_says_so_once(check: Check, lines: str, plane: str) -> None:
    basis = '[profile.flanged_insert]\nseat_offset = "12 mm"\ncontains_extension = "no"\n' + lines
    neck = {"mounting": "flanged insert", "extension": "neck tube", "neck_length (in)": 6}
    assert first(check(BARE | neck, basis=basis))["plane"] == plane


ADJUSTABLE = BARE | {"mounting": "compression fitting"}


def test_an_adjustable_fitting_is_withheld_until_its_height_is_stated(check: Check) -> None:
    assert first(check(ADJUSTABLE))["verdict"] == "withheld"


@pytest.mark.parametrize("words", ["compression fitting", "Compr. ftg"])
def test_the_height_of_a_compression_fitting_is_asked_for_and_not_its_mounting(check: Check, words: str) -> None:
    (finding,) = [one for one in check(BARE | {"mounting": words}).result.findings if one.withholds]
    assert finding.rule == "mounting_not_stated"
    assert finding.expected.startswith("the mounting is known, an adjustable (compression) fitting; its height")


def test_a_collar_named_in_the_mountings_words_never_has_a_taper_threads_seat(check: Check) -> None:
    collar = BARE | {"mounting": "collar fitting, parallel thread"}
    assert (first(check(collar))["profile"], first(check(collar))["verdict"]) == ("collar_fitting", "withheld")
    seat = '[profile.collar_fitting]\nseat_offset = "2 mm"\n'
    taper = check(collar, basis=seat)  # the thread taken is a taper one
    assert [one.rule for one in taper.result.findings if one.withholds] == ["shoulder_thread_as_taper"]
    known = first(check(collar | {"instrument_thread": "G 1/2"}, basis=seat))
    assert known["plane"] == "from sealing face of the collar to tip, spring relaxed"
    assert (known["verdict"], known["seat_offset_mm"]) == ("sized", 2)


def test_an_adjustable_fitting_is_ordered_to_its_least_length(check: Check) -> None:
    done = check(ADJUSTABLE, basis='[profile.adjustable_fitting]\nseat_offset = "2 in"\n')
    row = first(done)
    # 9 + 2 + sqrt(2/16^2 + 1/14^2) = 11.1136
    assert (row["verdict"], row["probe_length_order_mm"] / 25.4) == ("sized", pytest.approx(11.25))
    assert "no longest: the fitting clamps the sheath wherever it is pushed to the bottom" in row["working"]
    assert done.result.report.spares == ()
