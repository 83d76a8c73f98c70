"""The window of probe lengths that fit, and the length inside it that can be ordered.

Lengths are compared as whole nanometres: every 64th of an inch (396 875 nm) and every
hundredth of a millimetre is a whole number of them, so that 9.25 in held as 234.95 mm
rounds as 9.25 in does.
"""

import numpy as np
from numpy.typing import NDArray

from thermowell_index.sizing.assembly import Flags, Lengths

NANOMETRES_IN_A_MILLIMETRE = 1_000_000
LONGEST_COMPARABLE_MM = 1e9  # beyond this a whole number of nanometres is no longer exact, and no well is


def default_preload(*, travel_mm: Lengths) -> Lengths:
    """Least compression wanted of a spring whose maker states none.

    Parameters
    ----------
    travel_mm : array of float, shape (n,)
        Spring travel from relaxed to solid; NaN where it is not known [mm].

    Returns
    -------
    array of float, shape (n,)
        Preload; NaN where the travel is not known [mm].

    Raises
    ------
    TypeError
        If the travel is not a number.

    Notes
    -----
    preload = max(travel / 8, 1 mm).

    Source: common practice, no source.

    Examples
    --------
    >>> default_preload(travel_mm=np.array([25.4, 4.0]))
    array([3.175, 1.   ])
    """
    return np.maximum(travel_mm / 8.0, 1.0)


def default_reserve(*, travel_mm: Lengths) -> Lengths:
    """Travel that must stay unused in a spring whose maker states none.

    Parameters
    ----------
    travel_mm : array of float, shape (n,)
        Spring travel from relaxed to solid; NaN where it is not known [mm].

    Returns
    -------
    array of float, shape (n,)
        Reserve; NaN where the travel is not known [mm].

    Raises
    ------
    TypeError
        If the travel is not a number.

    Notes
    -----
    reserve = max(travel / 20, 0.5 mm).

    Source: common practice, no source.

    Examples
    --------
    >>> default_reserve(travel_mm=np.array([25.4, 4.0]))
    array([1.27, 0.5 ])
    """
    return np.maximum(travel_mm / 20.0, 0.5)


def fit_window(
    *,
    seat_plane_mm: Lengths,
    travel_mm: Lengths,
    preload_mm: Lengths,
    reserve_mm: Lengths,
    minus_mm: Lengths,
    plus_mm: Lengths,
) -> tuple[Lengths, Lengths]:
    """Shortest and longest probe whose spring is neither slack nor solid anywhere within the tolerances.

    Parameters
    ----------
    seat_plane_mm : array of float, shape (n,)
        Seat plane above the bottom of the bore; NaN where it is not known [mm].
    travel_mm : array of float, shape (n,)
        Spring travel; NaN where it is not known [mm].
    preload_mm : array of float, shape (n,)
        Least compression wanted; NaN where it is not known [mm].
    reserve_mm : array of float, shape (n,)
        Travel that must stay unused; NaN where it is not known [mm].
    minus_mm : array of float, shape (n,)
        Stack of what takes compression away; NaN where it is not known [mm].
    plus_mm : array of float, shape (n,)
        Stack of what adds compression; NaN where it is not known [mm].

    Returns
    -------
    shortest_mm : array of float, shape (n,)
        Shortest that fits, a bare limit and on no increment [mm].
    longest_mm : array of float, shape (n,)
        Longest that fits; less than the shortest where the tolerances eat the whole travel [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    shortest = Zs + preload + S-; longest = Zs + travel - reserve - S+.

    Source: geometry.

    Examples
    --------
    A seat plane at 370 mm, a travel of 10 mm, 1 mm of preload and reserve, and 2 mm of tolerance each way:

    >>> one = np.array([1.0])
    >>> fit_window(seat_plane_mm=370 * one, travel_mm=10 * one, preload_mm=one, reserve_mm=one,
    ...            minus_mm=2 * one, plus_mm=2 * one)
    (array([373.]), array([377.]))
    """
    shortest_mm = seat_plane_mm + preload_mm + minus_mm
    longest_mm = seat_plane_mm + travel_mm - reserve_mm - plus_mm
    return shortest_mm, longest_mm


def fixed_window(
    *, seat_plane_mm: Lengths, least_gap_mm: Lengths, most_gap_mm: Lengths, plus_mm: Lengths
) -> tuple[Lengths, Lengths]:
    """Shortest and longest probe without a spring that neither wedges in the bore nor stands off too far.

    Parameters
    ----------
    seat_plane_mm : array of float, shape (n,)
        Seat plane above the bottom of the bore; NaN where it is not known [mm].
    least_gap_mm : array of float, shape (n,)
        Gap under the tip that must be left within the tolerances; NaN where it is not known [mm].
    most_gap_mm : array of float, shape (n,)
        Nominal gap under the tip beyond which the sensor is slow and reads low; NaN where it is not known [mm].
    plus_mm : array of float, shape (n,)
        Stack of what takes the gap away; NaN where it is not known [mm].

    Returns
    -------
    shortest_mm : array of float, shape (n,)
        Shortest that fits [mm].
    longest_mm : array of float, shape (n,)
        Longest that fits [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    shortest = Zs - most gap; longest = Zs - least gap - S+.

    Source: geometry.

    Examples
    --------
    >>> one = np.array([1.0])
    >>> fixed_window(seat_plane_mm=216 * one, least_gap_mm=2 * one, most_gap_mm=12 * one, plus_mm=3 * one)
    (array([204.]), array([211.]))
    """
    return seat_plane_mm - most_gap_mm, seat_plane_mm - least_gap_mm - plus_mm


def order_on_increment(
    *, target_mm: Lengths, shortest_mm: Lengths, longest_mm: Lengths, increment_nm: NDArray[np.int64]
) -> Lengths:
    """Multiple of the increment inside the window that is nearest to the target; of two as near, the longer.

    Parameters
    ----------
    target_mm : array of float, shape (n,)
        Length wanted; the longest that fits where it must never be rounded up. NaN where it is not known [mm].
    shortest_mm : array of float, shape (n,)
        Shortest that fits, itself included; NaN where it is not known [mm].
    longest_mm : array of float, shape (n,)
        Longest that fits, itself included; NaN where it is not known [mm].
    increment_nm : array of int, shape (n,)
        Increment of the profile, as 6 350 000 for 1/4 in; 0 where it is not known [nm].

    Returns
    -------
    array of float, shape (n,)
        Length to order, at least one increment; NaN where none fits or an argument is not known [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    P = k g with k = floor(P_target / g + 1/2), moved into ceil(shortest / g) .. floor(longest / g).

    Source: geometry; the tie to the longer is common practice, no source.

    Examples
    --------
    Halfway between 9 in and 9-1/4 in goes to the longer:

    >>> order_on_increment(target_mm=np.array([9.125 * 25.4]), shortest_mm=np.array([200.0]),
    ...                    longest_mm=np.array([250.0]), increment_nm=np.array([6_350_000])) / 25.4
    array([9.25])
    """
    known = _comparable(target_mm) & _comparable(shortest_mm) & _comparable(longest_mm) & (increment_nm > 0)
    step = np.where(known, increment_nm, 1).astype(np.int64)
    least = np.maximum(-(-_nanometres(shortest_mm) // step), 1)
    most = _nanometres(longest_mm) // step
    nearest = (2 * _nanometres(target_mm) + step) // (2 * step)
    count = np.minimum(np.maximum(nearest, least), most)
    return np.where(known & (least <= most), count * step / NANOMETRES_IN_A_MILLIMETRE, np.nan)


def order_from_list(
    *, target_mm: Lengths, shortest_mm: Lengths, longest_mm: Lengths, standard_lengths_mm: tuple[float, ...]
) -> Lengths:
    """Length of the list inside the window that is nearest to the target; of two as near, the longer.

    Parameters
    ----------
    target_mm : array of float, shape (n,)
        Length wanted; the longest that fits where it must never be rounded up. NaN where it is not known [mm].
    shortest_mm : array of float, shape (n,)
        Shortest that fits, itself included; NaN where it is not known [mm].
    longest_mm : array of float, shape (n,)
        Longest that fits, itself included; NaN where it is not known [mm].
    standard_lengths_mm : tuple of float, shape (m,)
        Lengths on the list, in any order; NaN, zero and less are passed over [mm].

    Returns
    -------
    array of float, shape (n,)
        Length to order; NaN where none fits or an argument is not known [mm].

    Raises
    ------
    ValueError
        If the arrays do not have one shape.

    Notes
    -----
    The list is searched, not rounded to, so a list with gaps has windows that no length fits.

    Source: geometry; the tie to the longer is common practice, no source.

    Examples
    --------
    >>> order_from_list(target_mm=np.array([374.0]), shortest_mm=np.array([373.0]), longest_mm=np.array([377.0]),
    ...                 standard_lengths_mm=(285.0, 315.0, 345.0, 375.0, 435.0, 585.0))
    array([375.])
    """
    known = _comparable(target_mm) & _comparable(shortest_mm) & _comparable(longest_mm)
    on_list = np.unique(_nanometres(np.asarray(standard_lengths_mm, dtype=np.float64)))
    on_list = on_list[on_list > 0]
    if not on_list.size:
        return np.full(target_mm.shape, np.nan)
    target = _nanometres(target_mm)
    above = np.minimum(np.searchsorted(on_list, target, side="left"), on_list.size - 1)
    below = np.maximum(above - 1, 0)
    nearest = np.where(np.abs(target - on_list[below]) < np.abs(on_list[above] - target), below, above)
    least = np.searchsorted(on_list, _nanometres(shortest_mm), side="left")
    most = np.searchsorted(on_list, _nanometres(longest_mm), side="right") - 1
    place = np.minimum(np.maximum(nearest, least), most)
    return np.where(known & (least <= most), on_list[place] / NANOMETRES_IN_A_MILLIMETRE, np.nan)


def _comparable(length_mm: Lengths) -> Flags:
    """Whether a length is known and of a size that nanometres count exactly."""
    return np.abs(length_mm) < LONGEST_COMPARABLE_MM


def _nanometres(length_mm: Lengths) -> NDArray[np.int64]:
    """Length as a whole number of nanometres; 0 where it cannot be compared, for the caller to mask."""
    usable_mm: Lengths = np.where(_comparable(length_mm), length_mm, 0.0)
    return np.rint(usable_mm * NANOMETRES_IN_A_MILLIMETRE).astype(np.int64)
