"""Worked examples, calculated by hand: 1/2 NPT with 1/2 in engagement and a pitch of 1/14 in, root-sum-square."""

from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.sizing.engine import INPUT_COLUMNS, size_table
from thermowell_index.sizing.inputs import LENGTH_COLUMNS

INCH = 25.4
FORM_4_INSERTS = (285.0, 315.0, 345.0, 375.0, 435.0, 585.0)
QUARTER_INCH_NM, FIVE_MM_NM = 6_350_000, 5_000_000
HANGS_ON_THE_ORDER = [
    "probe_length_order_mm",
    "compression_min_mm",
    "compression_nominal_mm",
    "compression_max_mm",
    "gap_mm",
    "margin_mm",
    "first_touch_mm",
]
Inputs = Callable[..., pd.DataFrame]


def sized(inputs: pd.DataFrame, *, worst_case: bool = False) -> pd.Series:
    return size_table(inputs, worst_case=worst_case).iloc[0]


def in_inches(row: pd.Series, *names: str) -> list[float]:
    return [round(float(row[name]) / INCH, 3) for name in names]


def compression(row: pd.Series) -> list[float]:
    return in_inches(row, "compression_min_mm", "compression_nominal_mm", "compression_max_mm")


def assumed_tip(**changes: object) -> dict[str, object]:
    """An assumed tip of 1/4 in that is credible from 3/16 to 3/8 in."""
    return {
        "bore_depth_basis": "overall less assumed tip",
        "tip_thinner_mm": INCH / 16,
        "tip_thicker_mm": INCH / 8,
    } | changes


def form_4(length_mm: float, **changes: object) -> dict[str, object]:
    """DIN weld-in well of form 4, +2/0 on its length, neck tube 165, seat 10 up in the head, travel 10, all mm."""
    return {
        "mounting": "flanged insert",
        "arrangement": "neck tube",
        "bore_depth_mm": length_mm - 5.0,
        "bore_deeper_mm": 2.0,
        "bore_shallower_mm": 0.0,
        "installed_mm": 165.0,
        "seat_offset_mm": 10.0,
        "target_compression_mm": np.nan,
        "travel_mm": 10.0,
        "probe_tolerance_mm": 1.0,
        "increment_nm": FIVE_MM_NM,
        "standard_lengths": FORM_4_INSERTS,
    } | changes


def test_a_fitting_straight_in_the_well_is_as_long_as_the_bore_is_deep(sizing_inputs: Inputs) -> None:
    # Overall 9-1/4 less tip 1/4: B 9. Zs = 9 - 1/2 = 8-1/2; P = 8-1/2 + 1/2 = 9; c = 9 - 8-1/2 = 1/2.
    # S of bore 1/16, tip 1/32, probe 1/16, thread 1/14 = sqrt(.003906 + .000977 + .003906 + .005102) = .1179.
    row = sized(sizing_inputs(bore_depth_basis="overall less tip", bore_second_mm=INCH / 32))
    assert in_inches(row, "probe_length_computed_mm", "probe_length_order_mm", "seat_plane_mm") == [9.0, 9.0, 8.5]
    assert compression(row) == [0.382, 0.5, 0.618]
    assert in_inches(row, "stack_minus_mm", "stack_plus_mm") == [0.118, 0.118]


def test_limits_and_margin_follow_from_preload_travel_and_stack(sizing_inputs: Inputs) -> None:
    # S = sqrt(2/16² + 1/14²) = .1137. Preload 1/8, reserve 1/20. Shortest 8.5 + .125 + .1137 = 8.7387;
    # longest 8.5 + 1 - .05 - .1137 = 9.3363. Margin min(.3863 - .125, .95 - .6137) = .2613.
    row = sized(sizing_inputs())
    assert in_inches(row, "shortest_fit_mm", "longest_fit_mm", "window_mm") == [8.739, 9.336, 0.598]
    assert in_inches(row, "margin_mm", "preload_used_mm", "reserve_used_mm") == [0.261, 0.125, 0.05]


def test_the_margin_is_what_is_left_at_the_nearer_end(sizing_inputs: Inputs) -> None:
    # Travel 7/8: preload 7/64, reserve 7/160. Over preload .3863 - .1094 = .2769; under reserve
    # .875 - .04375 - .6137 = .2175.
    assert in_inches(sized(sizing_inputs(travel_mm=0.875 * INCH)), "margin_mm") == [0.218]


def test_the_thread_end_of_a_fitting_stands_flush_at_first_touch(sizing_inputs: Inputs) -> None:
    # d = P - (B + X) = 9 - 9 = 0; a bore of 8-7/8 is ordered 9 (tie of 8-3/4 and 9 to the longer): d = 1/8.
    assert sized(sizing_inputs())["first_touch_mm"] == 0.0
    assert in_inches(sized(sizing_inputs(bore_depth_mm=8.875 * INCH)), "first_touch_mm") == [0.125]


def test_a_fitting_on_nipple_and_union_counts_three_threads(sizing_inputs: Inputs) -> None:
    # B 7, X 3: Zs = 7 + 3 - 1/2 = 9-1/2, P 10, c 1/2. S = sqrt(3/16² + 3/14²) = sqrt(.011719 + .015306) = .1644.
    row = sized(
        sizing_inputs(
            bore_depth_mm=7 * INCH,
            arrangement="nipple and union",
            installed_mm=3 * INCH,
            extension_tolerance_mm=INCH / 16,
        )
    )
    assert in_inches(row, "probe_length_order_mm") == [10.0]
    assert compression(row) == [0.336, 0.5, 0.664]
    assert row[["well_joints", "extension_joints", "seat_joints"]].tolist() == [1.0, 1.0, 1.0]


def test_a_fitting_on_a_bare_nipple_gets_no_length(sizing_inputs: Inputs) -> None:
    # Male onto male: no such joint.
    row = sized(sizing_inputs(arrangement="nipple", installed_mm=3 * INCH))
    assert row[[*HANGS_ON_THE_ORDER, "probe_length_computed_mm", "shortest_fit_mm", "stack_minus_mm"]].isna().all()


def test_a_fitting_on_a_bare_nipple_of_given_length_is_sized(sizing_inputs: Inputs) -> None:
    row = sized(sizing_inputs(arrangement="nipple", installed_mm=3 * INCH, installed_is_given=True))
    assert in_inches(row, "probe_length_order_mm") == [12.0]


def test_a_loose_insert_on_a_nipple_is_bore_and_extension_long(sizing_inputs: Inputs) -> None:
    # B 9, nipple 4: X = 4 - 1/2 - 1/2 = 3; Zs = 9 + 3 - 1/2 = 11-1/2; P 12, c 1/2; two threads.
    # S = sqrt(3/16² + 2/14²) = sqrt(.011719 + .010204) = .1481; the gap under the head is the compression.
    row = sized(
        sizing_inputs(
            mounting="spring-loaded insert",
            arrangement="nipple",
            installed_mm=3 * INCH,
            extension_tolerance_mm=INCH / 16,
        )
    )
    assert in_inches(row, "probe_length_order_mm", "first_touch_mm") == [12.0, 0.5]
    assert compression(row) == [0.352, 0.5, 0.648]


def test_a_loose_insert_on_two_nipples_and_a_union(sizing_inputs: Inputs) -> None:
    # B 9, bought nipples 4 + 4: X = 8 - 1/2 - 1 - 1/2 + 2 = 8; Zs = 16-1/2; P 17; four threads.
    # S = sqrt(3/16² + 4/14²) = sqrt(.011719 + .020408) = .1792.
    row = sized(
        sizing_inputs(
            mounting="spring-loaded insert",
            arrangement="nipple-union-nipple",
            installed_mm=8 * INCH,
            extension_tolerance_mm=INCH / 16,
        )
    )
    assert in_inches(row, "probe_length_order_mm", "stack_minus_mm") == [17.0, 0.179]


@pytest.mark.parametrize("length,insert", [(140, 315), (170, 345), (200, 375), (260, 435), (410, 585), (110, 285)])
def test_a_form_4_well_takes_the_insert_of_the_published_table(
    sizing_inputs: Inputs, length: float, insert: float
) -> None:
    # Published: insert = L + 175. Zs = (L - 5) + 165 + 10 = L + 170, so c = 5 of a travel of 10 mm.
    row = sized(sizing_inputs(**form_4(length)))
    assert row["probe_length_order_mm"] == insert
    assert row["compression_nominal_mm"] == row["first_touch_mm"] == 5.0


@pytest.mark.parametrize("insertion,insert", [(160, 315), (250, 405), (400, 555)])
def test_a_one_piece_tube_with_neck_is_sized_from_its_own_bore_depth(
    sizing_inputs: Inputs, insertion: float, insert: float
) -> None:
    # Form 2G (lengths from memory, no source): insertion + neck 145 in one piece, bottom taken as 5 mm, seat 10 mm up:
    # Zs = insertion + 145 - 5 + 10, insert = insertion + 155: c 5. The head's parallel thread has no turn.
    one_piece = {"arrangement": "none", "installed_mm": 0.0, "seat_turn_mm": 0.0}
    inputs = sizing_inputs(**form_4(insertion + 145, standard_lengths=(315.0, 405.0, 555.0)) | one_piece)
    row = sized(inputs)
    assert row[["probe_length_order_mm", "compression_nominal_mm"]].tolist() == [insert, 5.0]


def test_a_flanged_insert_aims_at_the_middle_of_its_window(sizing_inputs: Inputs) -> None:
    # Zs 370, preload 10/8 = 1.25, reserve 0.5, S- = sqrt(2² + 1²) = 2.236, S+ = 1 (neck tube: no joint):
    # shortest 373.486, longest 370 + 10 - 0.5 - 1 = 378.5, middle 375.993.
    row = sized(sizing_inputs(**form_4(200)))
    names = ["shortest_fit_mm", "longest_fit_mm", "probe_length_computed_mm"]
    assert row[names].astype(float).round(3).tolist() == [373.486, 378.5, 375.993]


def test_a_well_between_two_standard_lengths_fits_none(sizing_inputs: Inputs) -> None:
    # L 230: the rule gives 405, the list jumps from 375 to 435. The limits are still given.
    row = sized(sizing_inputs(**form_4(230)))
    assert row[HANGS_ON_THE_ORDER].isna().all()
    assert row["shortest_fit_mm"] == pytest.approx(403.486, abs=1e-3)
    assert row["widest_contributor"] == "bore depth"


def test_a_fixed_fitting_keeps_its_tip_off_the_bottom(sizing_inputs: Inputs) -> None:
    # B 9: Zs = 8-1/2; computed 8-1/2 - 1/8 = 8-3/8; longest 8-1/2 - 1/16 - .1137 = 8.3238; order 8-1/4, gap 1/4.
    row = sized(sizing_inputs(mounting="fixed fitting", travel_mm=np.nan, target_compression_mm=np.nan))
    assert in_inches(row, "probe_length_computed_mm", "probe_length_order_mm", "gap_mm") == [8.375, 8.25, 0.25]
    assert in_inches(row, "shortest_fit_mm", "longest_fit_mm") == [8.0, 8.324]
    empty = ["compression_min_mm", "compression_nominal_mm", "compression_max_mm", "margin_mm", "first_touch_mm"]
    assert row[[*empty, "preload_used_mm", "reserve_used_mm"]].isna().all()


def test_a_fixed_fitting_takes_the_greatest_length_that_fits(sizing_inputs: Inputs) -> None:
    # Bottom gap 1/2: computed 8; the longest that fits is still 8.3238, so 8-1/4 and not the nearer 8.
    row = sized(sizing_inputs(mounting="fixed fitting", bottom_gap_mm=INCH / 2))
    assert in_inches(row, "probe_length_computed_mm", "probe_length_order_mm") == [8.0, 8.25]


def test_a_collar_fitting_is_not_ordered_at_the_bore_depth(sizing_inputs: Inputs) -> None:
    # G 1/2, gasket 2 mm, B 235, travel 25: Zs = 237, so P 235 would compress by -2 mm. No thread turn.
    # Preload 3.125, reserve 1.25, S 1.5 each way (measured bore 0, probe 1.5): shortest 241.625, longest 259.25,
    # middle 250.4375; order 250, c 13.
    row = sized(
        sizing_inputs(
            bore_depth_mm=235.0,
            bore_deeper_mm=0.0,
            bore_shallower_mm=0.0,
            probe_tolerance_mm=1.5,
            seat_offset_mm=2.0,
            seat_turn_mm=0.0,
            travel_mm=25.0,
            target_compression_mm=np.nan,
            increment_nm=FIVE_MM_NM,
            stated_probe_mm=235.0,
        )
    )
    assert row["stated_compression_nominal_mm"] == -2.0
    assert row["probe_length_computed_mm"] == 250.4375
    assert row[["probe_length_order_mm", "compression_nominal_mm"]].tolist() == [250.0, 13.0]


def test_a_short_spring_takes_a_shorter_probe(sizing_inputs: Inputs) -> None:
    # Travel 1/2: preload 1/16, reserve .025: shortest 8.5 + .0625 + .1137 = 8.676, longest 8.5 + .475 - .1137 = 8.861.
    # P 9 does not fit; 8-3/4 does: c 1/4, from .136 to .364.
    row = sized(sizing_inputs(travel_mm=INCH / 2))
    assert in_inches(row, "probe_length_computed_mm", "probe_length_order_mm") == [9.0, 8.75]
    assert compression(row) == [0.136, 0.25, 0.364]


def test_one_order_length_serves_every_credible_tip(sizing_inputs: Inputs) -> None:
    # Overall 9-1/4, tip 3/16 to 3/8 about 1/4. S without the tip .1137: shortest 8.5 + .125 + .1137 + .0625 = 8.801,
    # longest 8.5 + .95 - .1137 - .125 = 9.211; order 9. The tip widens the compression as a whole:
    # least .5 - .1137 - .0625 = .324, most .5 + .1137 + .125 = .739.
    row = sized(sizing_inputs(**assumed_tip()))
    assert in_inches(row, "probe_length_order_mm", "shortest_fit_mm", "longest_fit_mm") == [9.0, 8.801, 9.211]
    assert compression(row) == [0.324, 0.5, 0.739]
    assert not row["assumed_tip_decides"]


def test_the_order_for_an_assumed_tip_serves_each_tip_of_the_range_alone(sizing_inputs: Inputs) -> None:
    order_mm = sized(sizing_inputs(**assumed_tip()))["probe_length_order_mm"]
    for tip_in in np.linspace(3 / 16, 3 / 8, 13):
        alone = sized(sizing_inputs(bore_depth_mm=(9.25 - tip_in) * INCH))
        assert alone["shortest_fit_mm"] <= order_mm <= alone["longest_fit_mm"]


def test_an_assumed_tip_that_decides_is_said_and_sized_at_the_likeliest(sizing_inputs: Inputs) -> None:
    # Travel 1/2: the window of 8.676 to 8.861 loses 1/16 and 1/8: nothing is left. With the tip under the root:
    # S- = sqrt(.012914 + .003906) = .1297, S+ = sqrt(.012914 + .015625) = .1689; shortest 8.5 + .0625 + .1297 = 8.692,
    # longest 8.5 + .475 - .1689 = 8.806; order 8-3/4; c 1/4, from .120 to .419.
    row = sized(sizing_inputs(**assumed_tip(travel_mm=INCH / 2)))
    assert row["assumed_tip_decides"]
    assert in_inches(row, "probe_length_order_mm", "shortest_fit_mm", "longest_fit_mm") == [8.75, 8.692, 8.806]
    assert compression(row) == [0.12, 0.25, 0.419]


def test_a_fixed_fitting_under_an_assumed_tip_serves_the_whole_range(sizing_inputs: Inputs) -> None:
    # Zs 8.5 (tip 1/4). Thinnest tip: shortest 8.5 + 1/16 - 1/2 = 8.0625; thickest tip: longest
    # 8.5 - 1/16 - .1137 - 1/8 = 8.199.
    # No quarter inch lies between, eighths do: 8-1/8. Gap 8.5 - 8.125 = 3/8.
    quarter = sized(sizing_inputs(**assumed_tip(mounting="fixed fitting")))
    eighth = sized(sizing_inputs(**assumed_tip(mounting="fixed fitting", increment_nm=QUARTER_INCH_NM // 2)))
    assert quarter["assumed_tip_decides"]
    assert not eighth["assumed_tip_decides"]
    assert in_inches(eighth, "shortest_fit_mm", "longest_fit_mm") == [8.062, 8.199]
    assert in_inches(eighth, "probe_length_order_mm", "gap_mm") == [8.125, 0.375]
    # At the likeliest tip: shortest 8, longest 8.5 - 1/16 - .1689 = 8.269; order 8-1/4.
    assert in_inches(quarter, "shortest_fit_mm", "longest_fit_mm", "probe_length_order_mm") == [8.0, 8.269, 8.25]


def test_a_tip_range_is_not_looked_at_where_the_tip_is_not_assumed(sizing_inputs: Inputs) -> None:
    plain = size_table(sizing_inputs())
    ranged = size_table(sizing_inputs(tip_thinner_mm=np.nan, tip_thicker_mm=50.0))
    pd.testing.assert_frame_equal(plain, ranged)


def test_a_close_nipple_still_adds_an_eighth(sizing_inputs: Inputs) -> None:
    # Close nipple 1-1/8 - 1/2 - 1/2 = 1/8: Zs = 9 + 1/8 - 1/2 = 8-5/8; P 9-1/8; tie of 9 and 9-1/4 to the longer.
    row = sized(sizing_inputs(mounting="spring-loaded insert", arrangement="nipple", installed_mm=INCH / 8))
    assert in_inches(row, "probe_length_computed_mm", "probe_length_order_mm") == [9.125, 9.25]


def test_worst_case_adds_the_tolerances_up(sizing_inputs: Inputs) -> None:
    # 1/16 + 1/16 + 1/14 = .1964; the plain sum is shown either way.
    plain, worst = sized(sizing_inputs()), sized(sizing_inputs(), worst_case=True)
    assert in_inches(worst, "stack_minus_mm", "stack_plus_mm") == [0.196, 0.196]
    assert in_inches(plain, "worst_minus_mm", "worst_plus_mm") == [0.196, 0.196]
    assert worst["worst_case"]
    assert not plain["worst_case"]


def test_hot_growth_counts_on_one_side_only(sizing_inputs: Inputs) -> None:
    # S- = sqrt(2/16² + 1/14² + .1²) = sqrt(.012914 + .01) = .1514; S+ stays .1137. A sheath that grows more: reversed.
    deeper, longer = (sized(sizing_inputs(growth_mm=growth * INCH)) for growth in (0.1, -0.1))
    assert in_inches(deeper, "stack_minus_mm", "stack_plus_mm") == [0.151, 0.114]
    assert in_inches(longer, "stack_minus_mm", "stack_plus_mm") == [0.114, 0.151]


def test_a_growth_that_is_not_known_is_none(sizing_inputs: Inputs) -> None:
    pd.testing.assert_frame_equal(size_table(sizing_inputs()), size_table(sizing_inputs(growth_mm=np.nan)))


def test_a_deeper_bore_takes_away_and_a_shallower_one_adds(sizing_inputs: Inputs) -> None:
    row = sized(sizing_inputs(bore_deeper_mm=2.0, bore_shallower_mm=0.0, probe_tolerance_mm=0.0, seat_turn_mm=0.0))
    assert row[["stack_minus_mm", "stack_plus_mm"]].tolist() == [2.0, 0.0]


def test_a_stated_length_is_judged_by_its_own_compression(sizing_inputs: Inputs) -> None:
    # Stated 9-1/2 on a seat plane of 8-1/2: c 1, from .886 to 1.114: solid at a travel of 1.
    row = sized(sizing_inputs(stated_probe_mm=9.5 * INCH))
    names = ["stated_compression_min_mm", "stated_compression_nominal_mm", "stated_compression_max_mm"]
    assert in_inches(row, *names) == [0.886, 1.0, 1.114]
    assert row[["stated_gap_min_mm", "stated_gap_nominal_mm", "stated_gap_max_mm"]].isna().all()


def test_a_stated_length_of_a_fixed_fitting_is_judged_by_its_gap(sizing_inputs: Inputs) -> None:
    # Stated 8-3/4 on a seat plane of 8-1/2: the tip is 1/4 past the bottom; S- only widens the far side.
    row = sized(sizing_inputs(mounting="fixed fitting", stated_probe_mm=8.75 * INCH, growth_mm=0.1 * INCH))
    assert in_inches(row, "stated_gap_min_mm", "stated_gap_nominal_mm", "stated_gap_max_mm") == [-0.364, -0.25, -0.099]
    assert np.isnan(row["stated_compression_nominal_mm"])


def test_a_stated_length_is_judged_even_where_no_length_fits(sizing_inputs: Inputs) -> None:
    row = sized(sizing_inputs(travel_mm=INCH / 8, stated_probe_mm=9 * INCH))
    assert np.isnan(row["probe_length_order_mm"])
    assert in_inches(row, "stated_compression_nominal_mm") == [0.5]


@pytest.mark.parametrize(
    "changes,widest",
    [
        ({"bore_deeper_mm": 3.0}, "bore depth"),
        ({"probe_tolerance_mm": 3.0}, "probe length"),
        ({"extension_tolerance_mm": 3.0}, "extension"),
        ({}, "thread make-up"),
        ({"growth_mm": -5.0}, "hot growth"),
        (assumed_tip(), "assumed tip"),
        (
            {"bore_deeper_mm": 0.0, "bore_shallower_mm": 0.0, "probe_tolerance_mm": 0.0, "seat_turn_mm": 0.0},
            "",
        ),
    ],
)
def test_the_widest_contributor_is_named(sizing_inputs: Inputs, changes: dict[str, object], widest: str) -> None:
    assert sized(sizing_inputs(**changes))["widest_contributor"] == widest


def test_several_threads_together_are_one_contributor(sizing_inputs: Inputs) -> None:
    # Three turns under one root are .1237 a side, more than an extension of 1/10; one turn alone is less.
    changes = {"extension_tolerance_mm": INCH / 10, "installed_mm": 3 * INCH}
    union = sized(sizing_inputs(arrangement="nipple and union", **changes))
    given_length = sized(sizing_inputs(arrangement="nipple and union", installed_is_given=True, **changes))
    assert union["widest_contributor"] == "thread make-up"
    assert given_length["widest_contributor"] == "extension"


@pytest.mark.parametrize("bad", [np.nan, np.inf, -np.inf, 1e200])
@pytest.mark.parametrize(
    "column",
    [
        "bore_depth_mm",
        "bore_deeper_mm",
        "bore_shallower_mm",
        "bore_second_mm",
        "installed_mm",
        "extension_tolerance_mm",
        "seat_turn_mm",
        "seat_offset_mm",
        "travel_mm",
        "probe_tolerance_mm",
        "increment_nm",
    ],
)
def test_a_need_that_is_not_known_leaves_every_length_empty(sizing_inputs: Inputs, column: str, bad: float) -> None:
    row = sized(sizing_inputs(**{column: bad}))
    lengths = [name for name in row.index if name.endswith("_mm")]
    assert row[lengths].isna().all()
    assert not row["assumed_tip_decides"]
    assert row["widest_contributor"] == ""


@pytest.mark.parametrize("column", ["bottom_gap_mm", "least_gap_mm", "most_gap_mm"])
def test_a_gap_is_needed_by_a_fixed_fitting_only(sizing_inputs: Inputs, column: str) -> None:
    assert np.isnan(sized(sizing_inputs(mounting="fixed fitting", **{column: np.nan}))["probe_length_order_mm"])
    assert in_inches(sized(sizing_inputs(**{column: np.nan})), "probe_length_order_mm") == [9.0]


@pytest.mark.parametrize("column", ["tip_thinner_mm", "tip_thicker_mm"])
def test_an_assumed_tip_without_a_range_leaves_every_length_empty(sizing_inputs: Inputs, column: str) -> None:
    row = sized(sizing_inputs(**assumed_tip(**{column: np.nan})))
    assert np.isnan(row["probe_length_computed_mm"])
    assert not row["assumed_tip_decides"]


@pytest.mark.parametrize("column", ["well_turn_mm", "extension_turn_mm"])
def test_the_turn_of_a_thread_that_is_not_there_is_not_needed(sizing_inputs: Inputs, column: str) -> None:
    assert in_inches(sized(sizing_inputs(**{column: np.nan})), "probe_length_order_mm") == [9.0]


def test_an_increment_is_not_needed_beside_a_list(sizing_inputs: Inputs) -> None:
    assert sized(sizing_inputs(**form_4(200, increment_nm=np.nan)))["probe_length_order_mm"] == 375.0


@pytest.mark.parametrize("changes", [{"mounting": ""}, {"mounting": None}, {"arrangement": ""}, {"travel_mm": 0.0}])
def test_an_unknown_word_or_a_spring_without_travel_gets_no_length(
    sizing_inputs: Inputs, changes: dict[str, object]
) -> None:
    assert np.isnan(sized(sizing_inputs(**changes))["probe_length_computed_mm"])


def test_stated_preload_and_reserve_win_over_the_defaults(sizing_inputs: Inputs) -> None:
    row = sized(sizing_inputs(preload_mm=2.0, reserve_mm=3.0))
    assert row[["preload_used_mm", "reserve_used_mm"]].tolist() == [2.0, 3.0]
    assert row["shortest_fit_mm"] == pytest.approx(8.5 * INCH + 2.0 + row["stack_minus_mm"], abs=2e-6)


def test_missing_columns_are_named_together(sizing_inputs: Inputs) -> None:
    with pytest.raises(KeyError, match="travel_mm, standard_lengths"):
        size_table(sizing_inputs().drop(columns=["travel_mm", "standard_lengths"]))


def test_the_answer_has_the_index_of_the_question(sizing_inputs: Inputs) -> None:
    inputs = pd.concat([sizing_inputs(), sizing_inputs()]).set_axis(["TE-101", "TE-101"])
    assert size_table(inputs).index.tolist() == ["TE-101", "TE-101"]


def test_no_rows_are_no_answer(sizing_inputs: Inputs) -> None:
    assert len(size_table(sizing_inputs().iloc[:0])) == 0


# What holds of every row

quarters = st.sampled_from([QUARTER_INCH_NM, FIVE_MM_NM])
depths_64ths = st.integers(min_value=2 * 64, max_value=60 * 64)
tolerances = st.floats(0.0, 4.0)


@given(st.floats(30.0, 1500.0), st.floats(0.0, 300.0), tolerances, tolerances, st.floats(6.0, 60.0), quarters)
def test_the_order_lies_in_the_window_and_no_other_there_is_nearer(
    sizing_inputs: Inputs, bore: float, installed: float, deeper: float, probe: float, travel: float, increment: int
) -> None:
    row = sized(
        sizing_inputs(
            bore_depth_mm=bore,
            installed_mm=installed,
            bore_deeper_mm=deeper,
            probe_tolerance_mm=probe,
            travel_mm=travel,
            increment_nm=increment,
        )
    )
    step = increment / 1e6
    first = int(row["shortest_fit_mm"] // step) - 1
    multiples = [count * step for count in range(first, first + 20)]
    inside = [mm for mm in multiples if row["shortest_fit_mm"] - 1e-6 <= mm <= row["longest_fit_mm"] + 1e-6]
    if not inside:
        assert np.isnan(row["probe_length_order_mm"])
        return
    distances = [abs(mm - row["probe_length_computed_mm"]) for mm in inside]
    assert row["shortest_fit_mm"] <= row["probe_length_order_mm"] <= row["longest_fit_mm"]
    assert abs(row["probe_length_order_mm"] - row["probe_length_computed_mm"]) <= min(distances) + 2e-6


@given(
    st.floats(30.0, 1500.0),
    st.floats(0.0, 100.0),
    st.sampled_from(["spring-loaded fitting", "fixed fitting", "spring-loaded insert"]),
    quarters,
)
def test_a_deeper_bore_never_gets_a_shorter_probe(
    sizing_inputs: Inputs, bore: float, more: float, mounting: str, increment: int
) -> None:
    shallow, deep = (
        sized(sizing_inputs(bore_depth_mm=depth_mm, mounting=mounting, increment_nm=increment))
        for depth_mm in (bore, bore + more)
    )
    for name in ("probe_length_computed_mm", "shortest_fit_mm", "longest_fit_mm"):
        assert deep[name] >= shallow[name]
    assert not deep["probe_length_order_mm"] < shallow["probe_length_order_mm"]


@given(depths_64ths)
def test_an_index_in_inches_and_its_copy_in_millimetres_agree_to_an_increment(
    sizing_inputs: Inputs, count: int
) -> None:
    # The copy holds the bore to 0.1 mm. On the same increment the order moves by one step at most, and only next to
    # a tie; on 5 mm each is within half a step of the computed length, 6.35/2 + 5/2 + 0.05 mm apart at most.
    bore_mm = count * 0.396875
    inches = sized(sizing_inputs(bore_depth_mm=bore_mm))
    copied = sized(sizing_inputs(bore_depth_mm=round(bore_mm, 1)))
    metric = sized(sizing_inputs(bore_depth_mm=round(bore_mm, 1), increment_nm=FIVE_MM_NM))
    same = inches["probe_length_order_mm"] == copied["probe_length_order_mm"]
    from_tie_mm = abs((bore_mm / 6.35) % 1 - 0.5) * 6.35
    assert same or from_tie_mm <= 0.051
    assert abs(inches["probe_length_order_mm"] - copied["probe_length_order_mm"]) <= 6.35 + 1e-6
    assert abs(inches["probe_length_order_mm"] - metric["probe_length_order_mm"]) <= 5.725 + 1e-6


@given(depths_64ths)
def test_the_order_on_64ths_is_that_of_exact_fractions(sizing_inputs: Inputs, count: int) -> None:
    # P = B = count/64 in; the nearest 16/64, a tie to the longer: 16 x floor((count + 8) / 16).
    row = sized(sizing_inputs(bore_depth_mm=count / 64 * INCH))
    assert row["probe_length_order_mm"] == (count + 8) // 16 * 6_350_000 / 1_000_000


@given(depths_64ths)
def test_a_probe_that_just_reaches_the_bottom_compresses_by_exactly_nothing(sizing_inputs: Inputs, count: int) -> None:
    # Stated length = seat plane = bore - 1/2 in, worked in whole nanometres: 1/64 in is 396 875 nm.
    stated_mm = (count * 396_875 - 12_700_000) / 1_000_000
    row = sized(sizing_inputs(bore_depth_mm=count / 64 * INCH, stated_probe_mm=stated_mm))
    assert row["stated_compression_nominal_mm"] == 0.0


def many(rows: int) -> pd.DataFrame:
    """Rows of every kind, unknown and impossible ones among them, drawn with a fixed seed."""
    draw = np.random.default_rng(20)
    tolerance_columns = [name for name in INPUT_COLUMNS if "tolerance" in name or "turn" in name or "bore_" in name]
    columns: dict[str, object] = {name: draw.uniform(0.0, 2.0, rows) for name in tolerance_columns}
    columns |= {name: draw.uniform(0.0, 3.0, rows) for name in ("tip_thinner_mm", "tip_thicker_mm", "preload_mm")}
    columns |= {
        name: np.where(draw.random(rows) < 0.2, draw.uniform(0.0, 4.0, rows), 0.0)
        for name in ("carried_minus_mm", "carried_plus_mm", "maker_shorter_mm")
    }
    columns |= {name: draw.uniform(0.5, 9.0, rows) for name in ("bottom_gap_mm", "least_gap_mm", "reserve_mm")}
    columns |= {
        "mounting": draw.choice(
            [
                "spring-loaded fitting",
                "spring-loaded insert",
                "flanged insert",
                "fixed fitting",
                "adjustable fitting",
                "",
            ],
            rows,
        ),
        "arrangement": draw.choice(["none", "nipple", "nipple and union", "nipple-union-nipple", "neck tube"], rows),
        "installed_is_given": draw.random(rows) < 0.3,
        "bore_depth_mm": draw.uniform(50.0, 800.0, rows),
        "bore_depth_basis": draw.choice(["stated", "overall less assumed tip"], rows),
        "installed_mm": draw.uniform(0.0, 300.0, rows),
        "seat_offset_mm": draw.uniform(-20.0, 20.0, rows),
        "target_compression_mm": np.where(draw.random(rows) < 0.5, draw.uniform(2.0, 15.0, rows), np.nan),
        "travel_mm": np.where(draw.random(rows) < 0.9, draw.uniform(5.0, 40.0, rows), np.nan),
        "growth_mm": draw.uniform(-1.0, 1.0, rows),
        "most_gap_mm": draw.uniform(10.0, 20.0, rows),
        "stated_probe_mm": draw.uniform(50.0, 1000.0, rows),
        "increment_nm": draw.choice([QUARTER_INCH_NM, FIVE_MM_NM], rows),
        "standard_lengths": [FORM_4_INSERTS if listed else None for listed in draw.random(rows) < 0.1],
    }
    return pd.DataFrame(columns)


@pytest.mark.parametrize("worst_case", [False, True])
def test_a_row_has_the_same_bits_alone_and_among_a_hundred_thousand(*, worst_case: bool) -> None:
    inputs = many(100_000)
    together = size_table(inputs, worst_case=worst_case)
    assert together["probe_length_order_mm"].notna().sum() > 10_000
    assert 0 < together["assumed_tip_decides"].sum() < 100_000
    for row in range(0, 100_000, 3_571):
        alone = size_table(inputs.iloc[[row]], worst_case=worst_case)
        pd.testing.assert_frame_equal(alone, together.iloc[[row]], check_exact=True)


@given(st.permutations(range(40)))
def test_the_order_of_the_rows_does_not_matter(order: list[int]) -> None:
    inputs = many(40)
    shuffled = size_table(inputs.iloc[order])
    pd.testing.assert_frame_equal(shuffled, size_table(inputs).iloc[order], check_exact=True)


@given(st.integers(0, 39), st.sampled_from(LENGTH_COLUMNS), st.sampled_from([np.nan, np.inf, -1.0, 0.0, 1e308]))
def test_nothing_that_a_cell_may_hold_disturbs_its_neighbours(row: int, column: str, value: float) -> None:
    inputs = many(40)
    inputs.loc[row, column] = value
    others = [other for other in range(40) if other != row]
    expected = size_table(many(40)).loc[others]
    pd.testing.assert_frame_equal(size_table(inputs).loc[others], expected, check_exact=True)


def test_a_credible_range_moves_both_limits_by_the_whole_of_it(sizing_inputs: Inputs) -> None:
    plain, ranged = sized(sizing_inputs()), sized(sizing_inputs(carried_minus_mm=2.0, carried_plus_mm=1.5))
    assert ranged["shortest_fit_mm"] - plain["shortest_fit_mm"] == pytest.approx(2.0)
    assert plain["longest_fit_mm"] - ranged["longest_fit_mm"] == pytest.approx(1.5)
    assert ranged["probe_length_order_mm"] == plain["probe_length_order_mm"]


def test_a_range_that_no_one_length_serves_leaves_none(sizing_inputs: Inputs) -> None:
    # window of the sound row: 1 - 1/8 - 1/20 - 2 x 0.1136 = 0.598 in; bought or installed differ by 1 in
    row = sized(sizing_inputs(carried_minus_mm=INCH / 2, carried_plus_mm=INCH / 2))
    assert np.isnan(row["probe_length_order_mm"])
    assert row["widest_contributor"] == "credible range of what is not known"


def test_an_assumed_tip_does_not_decide_alone_where_something_else_is_not_known(sizing_inputs: Inputs) -> None:
    tip = {"bore_depth_basis": "overall less assumed tip", "tip_thinner_mm": 1.6, "tip_thicker_mm": 3.2}
    narrow = tip | {"travel_mm": 0.6 * INCH}
    assert bool(sized(sizing_inputs(**narrow))["assumed_tip_decides"])
    both = sized(sizing_inputs(**narrow, carried_minus_mm=0.5, carried_plus_mm=0.5))
    assert (bool(both["assumed_tip_decides"]), np.isnan(both["probe_length_order_mm"])) == (False, True)


ADJUSTABLE = {"mounting": "adjustable fitting", "seat_offset_mm": 2 * INCH, "travel_mm": np.nan}


def test_an_adjustable_fitting_has_a_least_length_and_no_longest(sizing_inputs: Inputs) -> None:
    # Zs = 9 + 2 = 11 in; S- = sqrt(2 x (1/16)^2 + (1/14)^2) = 0.1136; the next quarter inch is 11-1/4
    row = sized(sizing_inputs(**ADJUSTABLE))
    assert row["shortest_fit_mm"] / INCH == pytest.approx(11.1136, abs=1e-4)
    assert row["probe_length_order_mm"] == 11.25 * INCH
    none = ["longest_fit_mm", "window_mm", "compression_nominal_mm", "margin_mm", "first_touch_mm", "gap_mm"]
    assert row[none].isna().all()


def test_an_adjustable_fitting_takes_the_least_listed_length_that_is_long_enough(sizing_inputs: Inputs) -> None:
    listed = sizing_inputs(**ADJUSTABLE)
    listed["standard_lengths"] = [(250.0, 300.0, 400.0)]
    assert sized(listed)["probe_length_order_mm"] == 300.0


def test_a_length_that_leaves_something_out_is_shorter_by_it_and_presses_the_same(sizing_inputs: Inputs) -> None:
    whole = sized(sizing_inputs(installed_mm=3 * INCH, installed_is_given=True))
    bare = sized(sizing_inputs(installed_mm=3 * INCH, installed_is_given=True, maker_shorter_mm=3 * INCH))
    assert whole["probe_length_order_mm"] - bare["probe_length_order_mm"] == pytest.approx(3 * INCH)
    same = ["compression_min_mm", "compression_nominal_mm", "compression_max_mm", "margin_mm", "first_touch_mm"]
    assert bare[same].astype(float).tolist() == pytest.approx(whole[same].astype(float).tolist())
