"""What a fitter sees when the tip first touches the bottom of the bore, and what of it is good."""

import numpy as np

from thermowell_index.answers import TouchCard
from thermowell_index.sizing.assembly import FITTINGS, Flags, Lengths, Mounting, is_one_of
from thermowell_index.table import Frame, flag, number, word
from thermowell_index.threads import parse_thread

CLAMPED = "nothing: set the tip on the bottom, clamp the sheath there"
THREAD_END, COLLAR, PLATE = "thread end off the face", "collar off the face", "gap under plate or head"
TIP = "gap under the tip"


def accepted_touch(
    *,
    travel_mm: Lengths,
    preload_mm: Lengths,
    reserve_mm: Lengths,
    seat_to_touch_mm: Lengths,
    make_up_mm: Lengths,
) -> tuple[Lengths, Lengths]:
    """Least and most that may stand off at first touch for the spring to end up neither slack nor solid.

    Parameters
    ----------
    travel_mm : array of float, shape (n,)
        Spring travel; NaN where it is not known [mm].
    preload_mm : array of float, shape (n,)
        Least compression wanted; NaN where it is not known [mm].
    reserve_mm : array of float, shape (n,)
        Travel that must stay unused; NaN where it is not known [mm].
    seat_to_touch_mm : array of float, shape (n,)
        By how much the spring is compressed more, once made up, than what stood off: the engagement of a taper
        fitting, minus the gasket under a collar, 0 for an insert [mm].
    make_up_mm : array of float, shape (n,)
        By how much the thread that is still to be made up can end higher or lower; 0 where it seats on a face [mm].

    Returns
    -------
    least_mm : array of float, shape (n,)
        Least that may stand off; negative where a thread may have gone in before the tip touches [mm].
    most_mm : array of float, shape (n,)
        Most that may stand off [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    c = d + (c - d); preload + turn <= c <= travel - reserve - turn. What was found at first touch holds all other
    tolerances already.

    Source: geometry.

    Examples
    --------
    A spring of 26 mm, 3 mm of preload, 1 mm of reserve, 13 mm of engagement and 2 mm a turn:

    >>> one = np.array([1.0])
    >>> accepted_touch(travel_mm=26 * one, preload_mm=3 * one, reserve_mm=one, seat_to_touch_mm=13 * one,
    ...                make_up_mm=2 * one)
    (array([-8.]), array([10.]))
    """
    least_mm = preload_mm + make_up_mm - seat_to_touch_mm
    most_mm = travel_mm - reserve_mm - make_up_mm - seat_to_touch_mm
    return least_mm, most_mm


def turns_to_tight(*, stand_off_mm: Lengths, engagement_mm: Lengths, pitch_mm: Lengths) -> Lengths:
    """Count of turns of a taper fitting from first touch, or from where its thread takes hold, until it is tight.

    Parameters
    ----------
    stand_off_mm : array of float, shape (n,)
        How far the thread end stands off the face when the tip first touches, negative where it is inside [mm].
    engagement_mm : array of float, shape (n,)
        Engagement of the made-up thread [mm].
    pitch_mm : array of float, shape (n,)
        Pitch of the thread; NaN where it is not known [mm].

    Returns
    -------
    array of float, shape (n,)
        Turns; NaN where something is not known [-].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    turns = (e + min(d, 0)) / pitch: a thread end that stands off is first pushed down on to the face.

    Source: geometry.

    Examples
    --------
    >>> turns_to_tight(stand_off_mm=np.array([3.0, -2.0]), engagement_mm=np.array([12.0, 12.0]),
    ...                pitch_mm=np.array([2.0, 2.0]))
    array([6., 5.])
    """
    return (engagement_mm + np.minimum(stand_off_mm, 0.0)) / pitch_mm


def touch_cards(frame: Frame) -> tuple[TouchCard, ...]:
    """Return a card for every row that has a length to order, and wants a sensor.

    Parameters
    ----------
    frame : DataFrame of n rows
        One row a line of the index, sized: lengths in columns that end in `_mm` [mm].

    Returns
    -------
    tuple of TouchCard
        In the order of the index [mm].

    Raises
    ------
    KeyError
        If columns are missing from `frame`.

    Notes
    -----
    See `accepted_touch` and `turns_to_tight`; a fitting without a spring has its gap under the tip instead.

    Source: geometry.

    Examples
    --------
    >>> import pandas as pd
    >>> touch_cards(pd.DataFrame({"probe_length_order_mm": [float("nan")], "quantity": [1]}))
    ()
    """
    rows = frame[frame["probe_length_order_mm"].notna() & (frame["quantity"] > 0)]
    if rows.empty:
        return ()
    mounting = rows["mounting"].to_numpy(dtype=object)
    is_fixed = is_one_of(words=mounting, known=[Mounting.FIXED_FITTING])
    is_fitting = is_one_of(words=mounting, known=FITTINGS) & ~is_fixed
    is_collar = rows["seat_is_shoulder"].astype(bool) | (rows["profile"] == "collar_fitting")
    is_taper = is_fitting & ~is_collar.to_numpy(dtype=np.bool_)
    touch_mm = _column(rows, "first_touch_mm")
    least_mm, most_mm = accepted_touch(
        travel_mm=_column(rows, "travel_mm"),
        preload_mm=_column(rows, "preload_used_mm"),
        reserve_mm=_column(rows, "reserve_used_mm"),
        seat_to_touch_mm=np.where(is_fitting, -_column(rows, "seat_offset_mm"), 0.0),
        make_up_mm=np.where(is_taper, _column(rows, "seat_turn_mm"), 0.0),
    )
    turns = turns_to_tight(
        stand_off_mm=touch_mm, engagement_mm=_column(rows, "engagement_seat_mm"), pitch_mm=_pitches(rows, is_taper)
    )
    expected_mm = np.where(is_fixed, _column(rows, "gap_mm"), touch_mm)
    least_mm = np.where(is_fixed, _column(rows, "least_gap_mm"), least_mm)
    most_mm = np.where(is_fixed, _column(rows, "most_gap_mm"), most_mm)
    is_clamped = is_one_of(words=mounting, known=[Mounting.ADJUSTABLE_FITTING])
    expected_mm, least_mm, most_mm, turns = (
        np.where(is_clamped, np.nan, lengths) for lengths in (expected_mm, least_mm, most_mm, turns)
    )
    words = np.select([is_clamped, is_fixed, is_taper, is_fitting], [CLAMPED, TIP, THREAD_END, COLLAR], PLATE)
    values = zip(rows.index, words, expected_mm, least_mm, most_mm, turns, strict=True)
    return tuple(_card(frame, int(row_id), str(what), *map(float, lengths)) for row_id, what, *lengths in values)


def _column(rows: Frame, name: str) -> Lengths:
    return rows[name].to_numpy(dtype=np.float64)


def _pitches(rows: Frame, is_taper: Flags) -> Lengths:
    threads = [parse_thread(str(text)) for text in rows["thread_text"]]
    pitch_mm = np.array([thread.pitch_mm if thread and thread.pitch_mm else np.nan for thread in threads])
    return np.where(is_taper, pitch_mm, np.nan)


def _card(
    frame: Frame, row_id: int, stands_off: str, expected_mm: float, least_mm: float, most_mm: float, turns: float
) -> TouchCard:
    well, service = word(frame, row_id, "well_tag"), word(frame, row_id, "service")
    return TouchCard(
        tag=word(frame, row_id, "tag"),
        place=", ".join(part for part in (service, f"well {well}" if well else "") if part),
        mounting=word(frame, row_id, "mounting"),
        stands_off=stands_off,
        length_mm=number(frame, row_id, "probe_length_order_mm"),
        plane=word(frame, row_id, "plane"),
        unit=word(frame, row_id, "increment_unit"),
        in_fractions=flag(frame, row_id, "in_fractions"),
        expected_mm=expected_mm,
        least_mm=least_mm,
        most_mm=most_mm,
        turns=turns,
    )
