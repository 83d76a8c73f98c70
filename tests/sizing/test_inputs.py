from collections.abc import Callable

import numpy as np
import pandas as pd
import pytest

from thermowell_index.sizing.inputs import INPUT_COLUMNS, read_rows

Inputs = Callable[..., pd.DataFrame]


@pytest.mark.parametrize("column", INPUT_COLUMNS)
def test_every_column_is_required_by_name(sizing_inputs: Inputs, column: str) -> None:
    with pytest.raises(KeyError, match=column):
        read_rows(inputs=sizing_inputs().drop(columns=[column]))


@pytest.mark.parametrize("bad", [np.inf, -np.inf, 1e9, np.nan, None, pd.NA])
def test_a_length_of_no_credible_size_is_not_known(sizing_inputs: Inputs, bad: object) -> None:
    rows = read_rows(inputs=sizing_inputs(seat_offset_mm=bad))
    assert np.isnan(rows.lengths["seat_offset_mm"]).all()
    assert np.isnan(rows.seat_plane_mm).all()


@pytest.mark.parametrize("column", ["bore_depth_mm", "travel_mm", "stated_probe_mm"])
@pytest.mark.parametrize("value", [0.0, -5.0])
def test_zero_or_less_is_no_depth_no_travel_and_no_probe(sizing_inputs: Inputs, column: str, value: float) -> None:
    assert np.isnan(read_rows(inputs=sizing_inputs(**{column: value})).lengths[column]).all()


def test_a_blank_preload_and_reserve_take_a_share_of_the_travel(sizing_inputs: Inputs) -> None:
    # travel 24 mm: 24/8 = 3, 24/20 = 1.2
    rows = read_rows(inputs=sizing_inputs(travel_mm=24.0))
    assert rows.preload_mm.tolist() == [3.0]
    assert rows.reserve_mm == pytest.approx([1.2])


def test_a_stated_preload_of_nothing_is_kept(sizing_inputs: Inputs) -> None:
    assert read_rows(inputs=sizing_inputs(preload_mm=0.0)).preload_mm.tolist() == [0.0]


@pytest.mark.parametrize("bad", [np.nan, None, np.inf])
def test_an_increment_that_is_not_known_is_nought(sizing_inputs: Inputs, bad: object) -> None:
    assert read_rows(inputs=sizing_inputs(increment_nm=bad)).increment_nm.tolist() == [0]


def test_rows_are_gathered_by_their_list(sizing_inputs: Inputs) -> None:
    long, short = (285.0, 315.0), (100.0,)
    inputs = pd.concat([sizing_inputs(standard_lengths=lengths) for lengths in (long, None, short, long, np.nan)])
    rows = read_rows(inputs=inputs)
    assert {lengths: places.tolist() for lengths, places in rows.lists.items()} == {long: [0, 3], short: [2]}
    assert rows.has_list.tolist() == [True, False, True, True, False]


def test_mountings_and_the_assumed_tip_are_told_by_their_words(sizing_inputs: Inputs) -> None:
    rows = read_rows(inputs=sizing_inputs(mounting="fixed fitting", bore_depth_basis="overall less assumed tip"))
    assert (rows.is_fixed[0], rows.is_fitting[0], rows.tip_is_assumed[0]) == (True, True, True)
