from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest

from thermowell_index.sizing.engine import size_table
from thermowell_index.sizing.phrases import Phrases
from thermowell_index.sizing.working_fit import fit_sentences

INCH = 25.4
Inputs = Callable[..., pd.DataFrame]
ASSUMED = {"bore_depth_basis": "overall less assumed tip", "tip_thinner_mm": INCH / 16, "tip_thicker_mm": INCH / 8}


def sentences(inputs: pd.DataFrame, *, worst_case: bool = False) -> list[str]:
    row = {**inputs.iloc[0], **size_table(inputs, worst_case=worst_case).iloc[0]}
    return fit_sentences(phrases=Phrases(row=row, show=lambda length_mm: f"{length_mm / INCH:.3f} in"))


def starting_with(name: str, found: list[str]) -> str:
    (sentence,) = [sentence for sentence in found if sentence.startswith(f"{name} ")]
    return sentence


def test_turns_of_one_thread_are_counted_and_of_another_listed(sizing_inputs: Inputs) -> None:
    # Nipple of 1 NPT in the well (1/11.5), the other two of 1/2 NPT (1/14)
    found = sentences(sizing_inputs(arrangement="nipple and union", installed_mm=3 * INCH, well_turn_mm=INCH / 11.5))
    assert starting_with("tolerances that add", found).endswith("1 thread turn of 0.087 in, 2 thread turns of 0.071 in")


def test_worst_case_tolerances_are_called_a_sum(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(), worst_case=True)
    expected = "= sum of bore depth 0.062 in, probe length 0.062 in, 1 thread turn of 0.071 in"
    assert starting_with("tolerances that add", found).endswith(expected)


def test_no_tolerance_is_said_to_be_none(sizing_inputs: Inputs) -> None:
    none = dict.fromkeys(("bore_deeper_mm", "bore_shallower_mm", "probe_tolerance_mm", "seat_turn_mm"), 0.0)
    found = sentences(sizing_inputs(**none))
    assert starting_with("tolerances that take away", found) == "tolerances that take away 0.000 in = none"


def test_hot_growth_stands_on_its_own_side(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(growth_mm=-2.54))
    assert "hot growth 0.100 in" in starting_with("tolerances that add", found)
    assert "hot growth" not in starting_with("tolerances that take away", found)


def test_a_tip_range_that_is_served_stands_outside_the_root(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(**ASSUMED))
    assert "= thinner tip 0.062 in plus root-sum-square of" in starting_with("tolerances that take away", found)
    assert "= thicker tip 0.125 in plus root-sum-square of" in starting_with("tolerances that add", found)
    assert "assumed tip" not in starting_with("order", found)


def test_a_tip_range_that_decides_stands_under_the_root_and_is_said(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(**ASSUMED, travel_mm=INCH / 2))
    assert ", assumed tip 0.062 in" in starting_with("tolerances that take away", found)
    assert starting_with("order", found).endswith("for the assumed tip only: no length serves its whole range")


def test_a_fixed_fitting_gets_a_gap_and_no_compression(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(mounting="fixed fitting"))
    assert found[-3:] == [
        "computed 8.375 in = seat plane 8.500 in less bottom gap 0.125 in",
        "order 8.250 in, on the 0.250 in increment the greatest length from shortest to longest",
        "gap 0.250 in = seat plane 8.500 in less order 8.250 in",
    ]


def test_an_insert_touches_with_a_gap_under_its_plate(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(mounting="spring-loaded insert", seat_turn_mm=0.0))
    expected = "first touch 0.500 in = order 9.000 in less seat plane 8.500 in, under the plate or head"
    assert starting_with("first touch", found) == expected


def test_no_length_that_fits_is_said_with_the_widest_contributor(sizing_inputs: Inputs) -> None:
    found = sentences(sizing_inputs(travel_mm=INCH / 8))
    assert found[-1] == (
        "no length on the 0.250 in increment lies from shortest to longest, widest contributor: thread make-up"
    )


def test_no_length_that_fits_blames_nobody_where_nothing_is_wide(sizing_inputs: Inputs) -> None:
    none = dict.fromkeys(("bore_deeper_mm", "bore_shallower_mm", "probe_tolerance_mm", "seat_turn_mm"), 0.0)
    found = sentences(sizing_inputs(**none, standard_lengths=(100.0,)))
    assert found[-1] == "no length of the standard lengths 3.937 in lies from shortest to longest"


@pytest.mark.parametrize(
    "changes,expected",
    [
        (
            {"stated_probe_mm": 9.5 * INCH},
            (
                "compression of the stated length 1.000 in = stated probe length 9.500 in less seat plane 8.500 in, "
                "from 0.886 in to 1.114 in"
            ),
        ),
        (
            {"stated_probe_mm": 8 * INCH, "mounting": "fixed fitting", "travel_mm": np.nan},
            (
                "gap of the stated length 0.500 in = seat plane 8.500 in less stated probe length 8.000 in, "
                "from 0.386 in to 0.614 in"
            ),
        ),
    ],
)
def test_a_stated_length_is_worked_too(sizing_inputs: Inputs, changes: dict[str, object], expected: str) -> None:
    assert sentences(sizing_inputs(**changes))[-1] == expected
