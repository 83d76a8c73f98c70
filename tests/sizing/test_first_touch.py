"""What a fitter sees at first touch: worked by hand, and against the compression it leads to."""

from typing import Any

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.sizing.first_touch import accepted_touch, touch_cards, turns_to_tight

IN = 25.4
NAN = float("nan")


def row(**changes: Any) -> dict[str, Any]:
    """Return a fitting of 1/2 NPT in a bore of 9 in with a probe of 9 in and a spring of 1 in, changed by keyword."""
    return {
        "tag": "TE-101",
        "well_tag": "TW-101",
        "service": "wash water",
        "mounting": "spring-loaded fitting",
        "plane": "from end of mounting thread to tip, spring relaxed",
        "increment_unit": "in",
        "in_fractions": True,
        "thread_text": "1/2 NPT",
        "seat_is_shoulder": False,
        "profile": "",
        "probe_length_order_mm": 9 * IN,
        "quantity": 1,
        "first_touch_mm": 0.0,
        "seat_offset_mm": -0.5 * IN,
        "engagement_seat_mm": 0.5 * IN,
        "seat_turn_mm": IN / 14,
        "travel_mm": IN,
        "preload_used_mm": IN / 8,
        "reserve_used_mm": IN / 20,
        "gap_mm": NAN,
        "least_gap_mm": IN / 16,
        "most_gap_mm": IN / 2,
        **changes,
    }


def inches(**changes: Any) -> list[float]:
    """Return expected, least and most [in], and the turns."""
    card = touch_cards(pd.DataFrame([row(**changes)]))[0]
    return [round(value, 4) for value in (card.expected_mm / IN, card.least_mm / IN, card.most_mm / IN, card.turns)]


def test_a_fitting_flush_at_first_touch_takes_seven_turns() -> None:
    # 1/8 + 1/14 - 1/2 = -0.3036; 1 - 1/20 - 1/14 - 1/2 = 0.3786; 1/2 in at 14 threads an inch
    assert inches() == [0.0, -0.3036, 0.3786, 7.0]


def test_a_thread_that_is_in_already_takes_fewer_turns() -> None:
    assert inches(first_touch_mm=-0.125 * IN)[3] == 5.25


def test_a_thread_that_stands_off_takes_no_more_turns_than_its_engagement() -> None:
    assert inches(first_touch_mm=0.125 * IN)[3] == 7.0


def test_an_insert_shows_a_gap_and_has_nothing_to_turn() -> None:
    card = touch_cards(pd.DataFrame([row(mounting="flanged insert", first_touch_mm=5.0, travel_mm=10.0)]))[0]
    assert (card.stands_off, card.expected_mm) == ("gap under plate or head", 5.0)
    assert (card.least_mm, card.most_mm) == (IN / 8, 10.0 - IN / 20)
    assert np.isnan(card.turns)


def test_a_collar_stands_off_by_its_compression_and_the_gasket() -> None:
    # gasket of 2 mm, compression 13 mm: 15 mm off the face; no make-up tolerance on a shoulder
    card = touch_cards(
        pd.DataFrame([row(seat_is_shoulder=True, seat_offset_mm=2.0, first_touch_mm=15.0, thread_text="G 1/2")])
    )[0]
    assert (card.stands_off, card.expected_mm) == ("collar off the face", 15.0)
    assert card.least_mm == pytest.approx(IN / 8 + 2.0)
    assert card.most_mm == pytest.approx(IN - IN / 20 + 2.0)
    assert np.isnan(card.turns)


def test_a_fixed_fitting_shows_the_gap_left_under_its_tip() -> None:
    card = touch_cards(pd.DataFrame([row(mounting="fixed fitting", first_touch_mm=NAN, gap_mm=6.35)]))[0]
    assert (card.stands_off, card.expected_mm, card.least_mm, card.most_mm) == (
        "gap under the tip",
        6.35,
        IN / 16,
        IN / 2,
    )
    assert np.isnan(card.turns)


def test_a_thread_without_a_known_pitch_has_no_turns() -> None:
    assert np.isnan(inches(thread_text="Pg 16")[3])


def test_a_card_names_the_point_and_a_row_without_a_length_has_none() -> None:
    cards = touch_cards(pd.DataFrame([row(), row(tag="TE-102", probe_length_order_mm=NAN), row(well_tag="")]))
    assert [(card.tag, card.place) for card in cards] == [
        ("TE-101", "wash water, well TW-101"),
        ("TE-101", "wash water"),
    ]


@given(st.floats(0.0, 12.0), st.floats(5.0, 60.0), st.floats(-5.0, 15.0))
def test_what_is_good_ends_up_with_preload_and_reserve(offset: float, travel: float, seat: float) -> None:
    one = np.ones(1)
    least, most = accepted_touch(
        travel_mm=travel * one,
        preload_mm=one,
        reserve_mm=one,
        seat_to_touch_mm=seat * one,
        make_up_mm=offset / 12 * one,
    )
    assert least + seat - offset / 12 == pytest.approx(1.0)
    assert most + seat + offset / 12 == pytest.approx(travel - 1.0)


def test_turns_are_not_known_without_a_stand_off() -> None:
    one = np.ones(1)
    assert np.isnan(turns_to_tight(stand_off_mm=np.nan * one, engagement_mm=one, pitch_mm=one)).all()


def test_an_index_without_lengths_has_no_card() -> None:
    assert touch_cards(pd.DataFrame([row(probe_length_order_mm=NAN)])) == ()


def test_a_row_that_wants_no_sensor_has_no_card() -> None:
    cards = touch_cards(pd.DataFrame([row(quantity=0), row(tag="TE-102")]))
    assert [card.tag for card in cards] == ["TE-102"]


def test_a_compression_fitting_is_set_on_the_bottom() -> None:
    nan = float("nan")
    card = touch_cards(pd.DataFrame([row(mounting="adjustable fitting", first_touch_mm=nan, travel_mm=nan)]))[0]
    assert card.stands_off == "nothing: set the tip on the bottom, clamp the sheath there"
    assert np.isnan([card.expected_mm, card.least_mm, card.most_mm, card.turns]).all()
