"""Records as a whole: which sensor a row has, its increment and its spring, and how many are wanted."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.records.build import build_records

Check = Callable[..., Any]
INCH = 25.4
WELL = {"tag": "TE-101", "service": "wash water", "line": "W-12", "bore_depth (in)": 9}


def rules(done: Any) -> list[str]:
    return [rule for rule, _, _ in done.hits()]


# --- increment


@pytest.mark.parametrize(
    "depth,step_mm", [("9 in", 6.35), ("0.75 ft", 6.35), ("230 mm", 5), ("23 cm", 5), ("0.23 m", 5)]
)
def test_the_increment_goes_by_the_unit_in_which_the_bore_depth_is_given(
    check: Check, depth: str, step_mm: float
) -> None:
    row = check(WELL | {"bore_depth (in)": depth, "insertion_length (in)": 7}).row("TE-101")
    assert row["increment_nm"] / 1e6 == step_mm
    order = row["probe_length_order_mm"] / step_mm
    assert order == pytest.approx(round(order))


def test_a_list_of_standard_lengths_of_the_profile_is_ordered_from(check: Check) -> None:
    # 8.74 to 9.34 in is 222.0 to 237.1 mm
    basis = "[profile.spring_loaded_fitting]\nstandard_lengths_mm = [200, 225, 236, 250]"
    assert check(WELL, basis=basis).row("TE-101")["probe_length_order_mm"] == 225


def test_a_list_with_no_length_that_fits_withholds_the_row(check: Check) -> None:
    basis = "[profile.spring_loaded_fitting]\nstandard_lengths_mm = [200, 250]"
    done = check(WELL, basis=basis)
    assert (rules(done), done.verdicts()) == (["no_length_fits"], {"TE-101": "withheld"})


# --- spring


def test_a_spring_travel_of_the_index_goes_before_the_profiles(check: Check) -> None:
    done = check(WELL | {"spring_travel (in)": 0.5}, WELL | {"tag": "TE-102"})
    assert [length / INCH for length in done.table["travel_mm"]] == [0.5, 1]
    assert done.notes()["travel_assumed"] == ("TE-102",)


def test_preload_and_reserve_follow_the_travel_and_have_a_least(check: Check) -> None:
    # 25.4 / 8 and 25.4 / 20; 5 / 8 is less than 1 mm, 5 / 20 less than 0.5 mm
    done = check(WELL, WELL | {"tag": "TE-102", "spring_travel (mm)": 5})
    assert done.table["preload_mm"].round(4).tolist() == [3.175, 1]
    assert done.table["reserve_mm"].round(4).tolist() == [1.27, 0.5]


# --- parallel threads


def test_a_parallel_thread_without_a_stated_seat_plane_is_withheld(check: Check) -> None:
    done = check(WELL | {"instrument_thread": "G 1/2"})
    assert (rules(done), done.verdicts()) == (["shoulder_thread_as_taper"], {"TE-101": "withheld"})


def test_a_parallel_thread_is_sized_once_the_profile_states_its_seat(check: Check) -> None:
    # Zs = 9 + 0.0625, the middle of preload and reserve 1/8 + 0.95 over 2 = 0.5375: P = 9.6 in
    done = check(WELL | {"instrument_thread": "G 1/2"}, basis='[profile.collar_fitting]\nseat_offset = "1/16 in"')
    assert done.inches("TE-101", "probe_length_computed") == pytest.approx(9.6, abs=1e-4)


def test_a_fixed_fitting_with_a_parallel_thread_has_no_known_seat(check: Check) -> None:
    done = check(WELL | {"instrument_thread": "M20x1.5", "sensor_mounting": "fixed fitting"})
    assert (rules(done), done.verdicts()) == (["shoulder_thread_as_taper"], {"TE-101": "withheld"})


# --- flanged inserts and tubes in one piece

PLATE = {"tag": "TE-101", "service": "wash water", "sensor_mounting": "flanged insert", "overall_length (mm)": 200}
NECK = {"extension_arrangement": "neck tube", "extension_length (mm)": 165}


@pytest.mark.parametrize(
    "cells,order",
    [
        (PLATE | NECK | {"well_form": "form 4"}, 375),
        (PLATE | NECK | {"well_form": None}, 375),
        (PLATE | {"well_form": "form 4", "line": "W-12"}, None),
        (PLATE | {"well_form": "form 4", "extension_arrangement": "neck tube"}, 375),
        (PLATE | NECK | {"well_form": "form 4", "overall_length (mm)": 210}, None),
        (PLATE | NECK | {"well_form": None, "extension_length (mm)": 150}, None),
        (PLATE | NECK | {"well_form": "form 4", "extension_length (mm)": 150}, None),
        (
            PLATE | {"well_form": "form 4", "extension_arrangement": "neck tube", "extension_length (mm)": "150/165"},
            None,
        ),
        (PLATE | {"well_form": "tapered", "extension_arrangement": "neck tube"}, None),
    ],
)
def test_a_flanged_insert_takes_the_standards_table_only_where_form_or_neck_and_total_length_are_the_standards(
    check: Check, cells: dict[str, object], order: float | None
) -> None:
    length = float(check(cells).row("TE-101")["probe_length_order_mm"])
    assert (None if math.isnan(length) else round(length, 4)) == order


def test_a_flanged_insert_with_a_stated_seat_needs_no_table(check: Check) -> None:
    # Zs = 204 + 150 + 12 = 366; the springs of 10 mm aim at the middle, 371.0; of 366 to 376 in steps of 5 it is 370
    done = check(
        PLATE | {"overall_length (mm)": None, "bore_depth (mm)": 204} | NECK | {"extension_length (mm)": 150},
        basis='[profile.flanged_insert]\nseat_offset = "12 mm"',
    )
    assert done.row("TE-101")["probe_length_order_mm"] == pytest.approx(370)


def test_a_loose_insert_in_a_tube_in_one_piece_with_its_neck_has_no_turning_joint(check: Check) -> None:
    # B = 250 - 5; the head seats on a shoulder: S+ is the probe's 1/16 in alone, as such a tube is never shorter
    tube = {"overall_length (mm)": 250, "tip_thickness (mm)": 5, "well_form": "2G"}
    row = check(PLATE | {"sensor_mounting": "spring-loaded insert"} | tube).row("TE-101")
    assert row["probe_length_order_mm"] == pytest.approx(245)
    assert row["compression_max_mm"] - row["compression_nominal_mm"] == pytest.approx(1.5875)


# --- quantities


@pytest.mark.parametrize(
    "cells,quantity",
    [
        ({"tag": "TE-101"}, 1),
        ({"tag": "TE-101A/B"}, 2),
        ({"tag": "TE-101A/B", "number_of_elements": "duplex"}, 1),
        ({"tag": "TE-101A/B", "sensor_type": "duplex RTD"}, 1),
        ({"tag": "TE-101A/B", "quantity": 5}, 5),
        ({"tag": "TE-101", "quantity": 0}, 0),
        ({"tag": "TE-101", "quantity": "as required"}, 1),
    ],
)
def test_a_row_wants_one_sensor_for_each_tag_on_it_unless_it_says_otherwise(
    read_rows: Check, cells: dict[str, object], quantity: int
) -> None:
    table = read_rows(WELL | cells)
    build_records(table, BUILT_IN)
    assert table.frame["quantity"].tolist() == [quantity]


def test_a_quantity_is_read_with_its_words_and_what_is_no_number_is_one_and_said(read_rows: Check) -> None:
    two = ["2 off", "2off", "x2", "2x", "2 ea.", "2.0", "qty 2", "two", "two off", "Two (2)", "2 (two)"]
    two += ["1+1 spare", "1 + 1", "2 (incl. 1 spare)", "2 incl. spares"]
    none, one = ("no", "None", "not req'd", "nil", "0 off"), ("yes", "", "1 ea")
    said = ["1/2", "-2", "-1", "1.5", "(2)", "two (3)", "1 +", "6 (2 spares)", "as req'd", "TBD", "hold", "N/A", "-"]
    texts = [*two, *none, *one, *said]
    table = read_rows(*(WELL | {"tag": f"TE-{200 + n}", "quantity": text} for n, text in enumerate(texts)))
    build_records(table, BUILT_IN)
    assert table.frame["quantity"].tolist() == [2] * len(two) + [0] * len(none) + [1] * len([*one, *said])
    assert table.frame["quantity_unread"].tolist() == [text in said for text in texts]


def test_a_quantity_that_is_no_number_is_looked_at_before_it_is_ordered_and_the_totals_reconcile(check: Check) -> None:
    texts = (1, "two", "hold", -1, 1.5, "N/A", 0)
    done = check(*(WELL | {"tag": f"TE-{n}", "quantity": text} for n, text in enumerate(texts, start=1)))
    schedule = done.result.report.schedule
    (line,) = schedule.sensors
    assert (line.quantity, line.review_tags) == (1 + 2 + 4, ("TE-3", "TE-4", "TE-5", "TE-6"))
    assert (schedule.totals.ordered, schedule.totals.not_wanted, schedule.totals.sensors) == (6, 1, 7)
