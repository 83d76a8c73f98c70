"""Wells worked by hand: 1/2 NPT, engagement 1/2 in, one turn 1/14 in, root-sum-square, the built-in design basis.

Origin of the cases: common practice, no source, where no other is named; the arithmetic stands beside each.
"""

from collections.abc import Callable, Mapping
from math import sqrt
from typing import Any

import pytest

from thermowell_index import SizedProbe, size_probe
from thermowell_index.basis_file import basis_from
from thermowell_index.registry import switches

INCH = 25.4
Check = Callable[..., Any]
# Tolerances of a stated bore, of the probe and of the extension are 1/16 in each [in].
SIXTEENTH, TURN = 1 / 16, 1 / 14


def sized(changed: Mapping[str, object] | None = None, /, **values: str) -> SizedProbe:
    """Size one well; `changed` is what a design-basis file would say."""
    basis = basis_from(changed or {}, name="basis.toml", where="basis.toml", switches=switches())
    return size_probe(basis=basis, **{"sensor_mounting": "spring-loaded fitting"} | values)


def inches(probe: SizedProbe, *names: str) -> list[float]:
    return [round(probe.lengths_mm[name] / INCH, 3) for name in names]


def compression(probe: SizedProbe) -> list[float]:
    return [round(length, 2) for length in inches(probe, "compression, least", "compression", "compression, most")]


def order(probe: SizedProbe) -> float:
    assert probe.order_mm is not None, probe.reason
    return round(probe.order_mm / INCH, 6)


def loud(probe: SizedProbe) -> list[str]:
    """What is said of the well itself, notes left out."""
    return [
        f"{found.severity} {found.rule}" for found in probe.findings if found.severity != "note" and not found.folded
    ]


def test_1_a_threaded_well_without_extension() -> None:
    # B = 9.25 - 0.25 = 9; Zs = 9 - 0.5 = 8.5; P = 8.5 + 0.5 = 9; c = 9 - 8.5 = 0.5
    probe = sized(overall_length="9.25 in", tip_thickness="0.25 in")
    assert inches(probe, "bore depth", "probe length computed", "probe length to order", "compression") == [
        9,
        9,
        9,
        0.5,
    ]
    assert (probe.verdict, probe.basis, loud(probe)) == ("sized", "overall less tip", [])


def test_2_a_fitting_on_a_nipple_and_union() -> None:
    # X = 2 - 0.5 - 0.5 + 2 = 3; P = 7 + 3 = 10; three taper joints:
    # S = sqrt(3 x 0.0625^2 + 3 x 0.0714^2) = 0.164, so c runs from 0.336 to 0.664
    probe = sized(bore_depth="7 in", extension_arrangement="nipple and union", nipple_length="2 in")
    assert inches(probe, "extension installed", "probe length to order") == [3, 10]
    assert compression(probe) == [0.34, 0.5, 0.66]


def test_3_a_fitting_on_a_bare_nipple_is_withheld() -> None:
    # a nipple ends in a male thread, and so does a fitting: there is no such joint
    probe = sized(bore_depth="9 in", extension_arrangement="nipple 4 in")
    assert (probe.order_mm, probe.reason) == (None, "fitting onto bare nipple")


def test_4_an_insert_in_a_head_on_a_nipple() -> None:
    # X = 4 - 0.5 - 0.5 = 3; Zs = 9 + 3 - 0.5 = 11.5; P = 11.5 + 0.5 = 12
    probe = sized(
        bore_depth="9 in",
        sensor_mounting="spring-loaded insert",
        extension_arrangement="nipple",
        nipple_length="4 in",
    )
    assert inches(probe, "extension installed", "probe length to order", "compression") == [3, 12, 0.5]
    assert loud(probe) == []


UNION_OF_TWO = {
    "bore_depth": "9 in",
    "sensor_mounting": "spring-loaded insert",
    "extension_arrangement": "union",
    "extension_length": "4 in",
}


def test_5_a_bought_set_of_two_nipples_and_a_union() -> None:
    # X = 4 + 4 - 4 x 0.5 + 2 = 8; P = 9 + 8 = 17
    probe = sized({"extension": {"union_length_means": "bought"}}, **UNION_OF_TWO)
    assert inches(probe, "extension installed", "probe length to order") == [8, 17]


def test_5_is_withheld_where_the_basis_does_not_say_bought_or_installed() -> None:
    assert sized(**UNION_OF_TWO).reason == "union basis not stated"


def test_6_a_weld_in_well_of_form_4_takes_its_insert_from_the_list() -> None:
    # B = 200 - 5 = 195; Zs = 195 + 165 + 10 = 370; 375 is on the list; c = 375 - 370 = 5 mm
    probe = sized(
        shank_form="form 4",
        overall_length="200 mm",
        extension_arrangement="neck tube",
        extension_length="165 mm",
        sensor_mounting="flanged insert",
        spring_travel="10 mm",
    )
    assert probe.order_mm == pytest.approx(375)
    assert probe.lengths_mm["compression"] == pytest.approx(5)
    assert (probe.verdict, loud(probe)) == ("sized", [])


@pytest.mark.parametrize("changed", [{}, {"extension_arrangement": "none"}])
def test_7_an_insert_in_a_tube_in_one_piece_is_sized_from_the_total_length(changed: dict[str, str]) -> None:
    # B = 250 - 5 = 245; P = B + 0 = 245 mm
    probe = sized(shank_form="2G", overall_length="250 mm", sensor_mounting="spring-loaded insert", **changed)
    assert probe.order_mm == pytest.approx(245)


def test_8_a_fixed_fitting_keeps_a_gap() -> None:
    # Zs = 9 - 0.5 = 8.5; P = 8.5 - 0.125 = 8.375; S+ = sqrt(2 x 0.0625^2 + 0.0714^2) = 0.114;
    # longest = 8.5 - 0.0625 - 0.114 = 8.324; shortest = 8.5 - 0.5 = 8; order 8.25, gap 0.25
    probe = sized(bore_depth="9 in", sensor_mounting="fixed fitting")
    assert inches(probe, "probe length computed", "probe length to order") == [8.375, 8.25]
    assert inches(probe, "shortest that fits", "longest that fits") == [8, 8.324]
    assert "gap 0.25 in = seat plane 8.5 in less order 8.25 in" in probe.working


COLLAR = {"bore_depth": "235 mm", "instrument_thread": "G 1/2", "spring_travel": "25 mm"}
GASKET = {"profile": {"collar_fitting": {"seat_offset": "2 mm"}}}


def test_9_a_collar_fitting_seats_on_its_gasket() -> None:
    # Zs = 235 + 2 = 237; preload 25/8 = 3.125, reserve 25/20 = 1.25, so the middle of the window lies at
    # 237 + (3.125 + 25 - 1.25) / 2 = 250.44; order 250; c = 250 - 237 = 13 mm
    probe = sized(GASKET, **COLLAR)
    assert probe.order_mm == pytest.approx(250)
    assert probe.lengths_mm["compression"] == pytest.approx(13)


def test_9_a_collar_fitting_as_long_as_the_bore_never_touches() -> None:
    # c = 235 - 237 = -2 mm
    probe = sized(GASKET, **COLLAR, probe_length="235 mm")
    assert "error tip_never_touches" in loud(probe)
    assert "its tip ends 2 mm above the bottom of the bore" in probe.findings[0].found


@pytest.mark.parametrize("overall", [{}, {"overall_length": "12.25 in"}])
def test_10_a_bore_measured_from_the_flange_face(overall: dict[str, str]) -> None:
    # U - tip = 10 - 0.25 = 9.75, the bore as stated; U + H - tip = 10 + 2.25 - 0.25 = 12: 2.25 in short
    probe = sized(
        well_connection="2 in 150# RF flanged",
        shank_form="tapered",
        insertion_length="10 in",
        bore_depth="9.75 in",
        **overall,
    )
    assert (probe.order_mm, probe.reason) == (None, "bore from flange face")
    assert "about 12 in" in probe.findings[0].expected


LAGGED = {"well_connection": "3/4 NPT", "insertion_length": "4 in", "lagging_length": "2 in"}


@pytest.mark.parametrize("overall", [{}, {"overall_length": "7.75 in"}])
def test_11_a_bore_depth_without_the_lagging_length(overall: dict[str, str]) -> None:
    # U + T + 1.75 = 4 + 2 + 1.75 = 7.75 overall; bore 7.75 - 0.25 = 7.5 (neutral handbook pattern);
    # 5.5 is 2 in short, which is the lagging length
    probe = sized(bore_depth="5.5 in", **LAGGED, **overall)
    assert (probe.order_mm, probe.reason) == (None, "lagging left out")
    assert "about 7-1/2 in" in probe.findings[0].expected


def test_11_with_the_lagging_length_in_it_the_bore_is_sound() -> None:
    probe = sized(bore_depth="7.5 in", overall_length="7.75 in", **LAGGED)
    assert (order(probe), loud(probe)) == (7.5, [])


def test_12_a_stepped_shank_has_no_effect_on_the_length() -> None:
    # the wall is (0.5 - 0.26) / 2 = 0.12, on the limit and sound; P = B = 9 as for any other shank
    probe = sized(bore_depth="9 in", shank_form="stepped", tip_diameter="0.5 in", bore_diameter="0.260 in")
    assert (order(probe), probe.verdict, loud(probe)) == (9, "sized", [])


@pytest.mark.parametrize("sheath,reason", [("1/4 in", ""), ("3/8 in", "sheath will not enter")])
def test_12_its_bore_takes_a_quarter_inch_sheath_only(sheath: str, reason: str) -> None:
    # 0.260 - 0.250 = 0.010, above the least clearance of 0.005; 0.260 - 0.375 is below nothing
    assert sized(bore_depth="9 in", bore_diameter="0.260 in", sheath_diameter=sheath).reason == reason


def test_13_a_spring_of_half_an_inch_takes_a_shorter_sensor() -> None:
    # Zs = 8.5; preload 1/16, reserve 0.025, S = 0.114: 8.676 to 8.861 fits, and of the quarters only 8.75;
    # c = 8.75 - 8.5 = 0.25, from 0.25 - 0.114 = 0.136 to 0.364
    probe = sized(bore_depth="9 in", spring_travel="1/2 in")
    assert (order(probe), compression(probe)) == (8.75, [0.14, 0.25, 0.36])


def test_14_one_order_length_serves_every_credible_tip() -> None:
    # tip 3/16 to 3/8: B = 9.0625 to 8.875, so c of a 9 in sensor is 0.4375 to 0.625; less and plus 0.114
    # that is 0.324 to 0.739, inside 0.125 to 0.95
    probe = sized(overall_length="9.25 in")
    assert (order(probe), compression(probe), probe.verdict) == (9, [0.32, 0.5, 0.74], "sized")
    assert loud(probe) == []
    assert "tip_assumed" in [found.rule for found in probe.findings]


CLOSE = {"bore_depth": "9 in", "sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple"}


def test_15_the_faces_on_a_close_nipple_almost_touch() -> None:
    # 1-1/8 - 2 x 1/2 = 1/8 in between the faces: more than 1/16, less than 1/4; P = 9.125, a tie to the longer
    probe = sized(nipple_length="1-1/8 in", **CLOSE)
    assert (loud(probe), probe.verdict, order(probe)) == (["warning nipple_shorter_than_threads"], "review", 9.25)


def test_15_a_nipple_of_one_inch_is_all_thread() -> None:
    # 1 - 2 x 1/2 = 0
    probe = sized(nipple_length="1 in", **CLOSE)
    assert (loud(probe), probe.order_mm) == (["error nipple_shorter_than_threads"], None)


def peers(bore_depth: object) -> list[dict[str, object]]:
    """Nine wells with a bore of 9-1/16 in, and one more, under a heading that says inch."""
    sound = [{"tag": f"TE-20{number}", "bore_depth (in)": 9.0625, "sensor_type": "RTD"} for number in range(1, 10)]
    return [*sound, {"tag": "TE-108", "bore_depth (in)": bore_depth, "sensor_type": "RTD"}]


def test_16_a_bore_depth_of_230_in_an_inch_column_is_withheld(check: Check) -> None:
    # 230 / 25.4 = 9.06, which is what its peers have
    run = check(*peers(230))
    assert run.verdicts()["TE-108"] == "withheld"
    assert [(rule, tag) for rule, tag, _ in run.hits() if rule != "implausible_length"] == [("unit_slip", "TE-108")]


def test_16_a_unit_in_the_cell_is_no_disagreement_with_the_heading(check: Check) -> None:
    # 230 mm on a row in mm: the 5 mm increment, P = B = 230
    run = check(*peers("230 mm"))
    assert run.row("TE-108")["probe_length_order_mm"] == pytest.approx(230)
    assert run.hits() == []


def test_17_a_duplex_element_on_one_row_is_one_sensor(check: Check) -> None:
    run = check({"tag": "TE-101A/B", "well_tag": "TW-101", "bore_depth (in)": 9, "number_of_elements": "duplex"})
    assert (run.orders(), int(run.row("TE-101A/B")["quantity"])) == ({"TE-101A/B": 9}, 1)


def test_17_two_sensors_in_one_well_are_an_error(check: Check) -> None:
    # one bore takes one sensor: unless one of the rows says duplex the second has no hole
    twin = {"well_tag": "TW-101", "bore_depth (in)": 9, "sensor_type": "RTD"}
    run = check({"tag": "TE-101A", **twin}, {"tag": "TE-101B", **twin})
    assert [(rule, tag) for rule, tag, _ in run.hits()] == [
        ("two_sensors_one_bore", "TE-101A"),
        ("two_sensors_one_bore", "TE-101B"),
    ]


def test_18_a_bimetal_thermometer_is_a_stem_and_not_a_sensor(check: Check) -> None:
    run = check(
        {"tag": "TE-101", "bore_depth (in)": 9, "sensor_type": "bimetal thermometer"},
        {"tag": "TI-102", "bore_depth (in)": 9, "sensor_type": "bimetal thermometer"},
        {"tag": "TE-103", "bore_depth (in)": 9, "sensor_type": "RTD"},
    )
    assert list(run.verdicts().values()) == ["not applicable", "not applicable", "sized"]
    assert [found.tag for found in run.findings if found.rule == "not_a_sensor_in_a_well"] == ["TE-101", "TI-102"]


# Installed length of 1/2 NPT hardware by nipple length as bought [in].
# Source: a published hardware table; common practice.
@pytest.mark.parametrize(
    "arrangement,mounting,installed",
    [
        ("nipple", "spring-loaded insert", {2: 1, 3: 2, 4: 3, 6: 5}),
        ("nipple and union", "spring-loaded fitting", {2: 3, 3: 4, 4: 5, 6: 7}),
        ("nipple-union-nipple", "spring-loaded insert", {2: 4, 3: 6, 4: 8, 6: 12}),
    ],
)
def test_extensions_add_what_the_published_hardware_table_says(
    arrangement: str, mounting: str, installed: dict[int, int]
) -> None:
    for bought, added in installed.items():
        probe = sized(
            {"extension": {"union_length_means": "bought"}},
            bore_depth="9 in",
            sensor_mounting=mounting,
            extension_arrangement=arrangement,
            nipple_length=f"{bought} in",
        )
        assert (bought, inches(probe, "extension installed"), order(probe)) == (bought, [added], 9 + added)


# Total length, bore depth and insert length of weld-in wells of form 4 with a 165 mm neck and a form B head [mm].
# Source: DIN 43772 form 4 table as reprinted by the trade, its misprints put right by insert = total + 175.
@pytest.mark.parametrize(
    "total,bore,insert", [(140, 135, 315), (170, 165, 345), (200, 195, 375), (260, 255, 435), (410, 405, 585)]
)
def test_inserts_of_form_4_wells_are_those_of_the_table(total: int, bore: int, insert: int) -> None:
    probe = sized(
        shank_form="form 4",
        overall_length=f"{total} mm",
        extension_arrangement="neck tube",
        extension_length="165 mm",
        sensor_mounting="flanged insert",
    )
    assert probe.lengths_mm["bore depth"] == pytest.approx(bore)
    assert probe.order_mm == pytest.approx(insert)


# The trade's check values: overall 9-1/4, tip 1/4; and a well of 6-1/4 with the same tip under two extensions.
@pytest.mark.parametrize(
    "values,chain",
    [
        ({"overall_length": "9-1/4 in"}, [9, 0, 9, 0.5]),
        (
            {
                "overall_length": "6-1/4 in",
                "sensor_mounting": "spring-loaded insert",
                "extension_arrangement": "nipple",
                "nipple_length": "4 in",
            },
            [6, 3, 9, 0.5],
        ),
        (
            {
                "overall_length": "6-1/4 in",
                "extension_arrangement": "nipple and union",
                "installed_length": "3 in",
            },
            [6, 3, 9, 0.5],
        ),
    ],
)
def test_the_trades_check_values_come_out(values: dict[str, str], chain: list[float]) -> None:
    probe = sized(tip_thickness="1/4 in", **values)
    names = ("bore depth", "extension installed", "probe length to order", "compression")
    assert inches(probe, *names) == chain


# Taper joints between the well face and the seat, by arrangement.
@pytest.mark.parametrize(
    "mounting,extension,joints",
    [
        ("spring-loaded fitting", {}, 1),
        ("spring-loaded insert", {"extension_arrangement": "nipple", "nipple_length": "4 in"}, 2),
        ("spring-loaded fitting", {"extension_arrangement": "nipple and union", "nipple_length": "4 in"}, 3),
        ("spring-loaded fitting", {"extension_arrangement": "nipple and coupling", "nipple_length": "4 in"}, 3),
        ("spring-loaded insert", {"extension_arrangement": "nipple-union-nipple", "nipple_length": "4 in"}, 4),
        ("spring-loaded fitting", {"extension_arrangement": "nipple and union", "installed_length": "5 in"}, 1),
        ("spring-loaded insert", {"extension_arrangement": "nipple", "installed_length": "3 in"}, 0),
        ("spring-loaded insert", {"extension_arrangement": "neck tube", "extension_length": "3 in"}, 0),
    ],
)
def test_each_taper_joint_may_make_up_one_turn_more_or_less(
    mounting: str, extension: dict[str, str], joints: int
) -> None:
    # S = sqrt(bore^2 + probe^2 + extension^2 + joints x turn^2)
    changed = {"extension": {"union_length_means": "bought", "coupling_length": "1-7/8 in"}}
    probe = sized(changed, bore_depth="9 in", sensor_mounting=mounting, **extension)
    parts = 3 if extension else 2
    least, nominal = inches(probe, "compression, least", "compression")
    assert nominal - least == pytest.approx(sqrt(parts * SIXTEENTH**2 + joints * TURN**2), abs=0.0015)
