"""What widens a length chain: how tolerances are added up, and which threads can be made up a turn further."""

import numpy as np
from numpy.typing import NDArray

from thermowell_index.sizing.assembly import (
    FITTINGS,
    INSERTS,
    Arrangement,
    Flags,
    Lengths,
    Mounting,
    Words,
    positions,
)

# (nipple in the well, nipple ends in union or coupling, thread under the sensor or its head)
Joints = tuple[int, int, int]

FITTING_JOINTS: dict[Arrangement, Joints] = {
    Arrangement.NONE: (0, 0, 1),
    Arrangement.NIPPLE_AND_COUPLING: (1, 1, 1),
    Arrangement.NIPPLE_AND_UNION: (1, 1, 1),
    Arrangement.NECK_TUBE: (0, 0, 1),
}
INSERT_JOINTS: dict[Arrangement, Joints] = {
    Arrangement.NONE: (0, 0, 1),
    Arrangement.NIPPLE: (1, 0, 1),
    Arrangement.NIPPLE_UNION_NIPPLE: (1, 2, 1),
    Arrangement.NECK_TUBE: (0, 0, 0),
}
OWN_FITTING_JOINT: Joints = (0, 0, 1)
NO_JOINT: Joints = (0, 0, 0)


def stack(contributions: NDArray[np.float64], *, worst_case: bool) -> Lengths:
    """Contributions of one side added up, as root of the sum of squares or as plain sum.

    Parameters
    ----------
    contributions : array of float, shape (n, k)
        One column for every contributor, each the amount it can add to this side; NaN makes the row NaN [mm].
    worst_case : bool
        True adds all amounts, False takes the root of the sum of their squares [-].

    Returns
    -------
    array of float, shape (n,)
        The stack of this side [mm].

    Raises
    ------
    ValueError
        If the contributions are not an array of two dimensions.

    Notes
    -----
    T_wc = sum |t|; T_rss = sqrt(sum t²). The columns are added one after the other, so that
    a row has the same last digit alone and among many.

    Source: common practice, no source.

    Examples
    --------
    >>> amounts = np.array([[0.10, 0.05, 0.03, 0.05]])
    >>> stack(amounts, worst_case=False), stack(amounts, worst_case=True)
    (array([0.126095]), array([0.23]))
    """
    rows, columns = contributions.shape
    total = np.zeros(rows)
    for column in range(columns):
        amount = np.abs(contributions[:, column])
        total = total + (amount if worst_case else amount * amount)
    return total if worst_case else np.sqrt(total)


def joints_by_thread(*, mounting: Words, arrangement: Words, is_given: Flags) -> NDArray[np.float64]:
    """Threads between the face of the well and the seat, counted for each of the three thread families.

    Parameters
    ----------
    mounting : array of str, shape (n,)
        `spring-loaded fitting`, `spring-loaded insert`, `flanged insert`, `fixed fitting`;
        anything else is unknown [-].
    arrangement : array of str, shape (n,)
        `none`, `nipple`, `nipple and coupling`, `nipple and union`, `nipple-union-nipple`,
        `neck tube`; anything else is unknown [-].
    is_given : array of bool, shape (n,)
        Whether the installed length was given or measured, face to face [-].

    Returns
    -------
    array of float, shape (n, 3)
        Joints of a nipple in the well; of nipple ends in a union or coupling; of the sensor's or
        head's own thread, on whatever it sits. NaN where the mounting is unknown, or where sensor
        and extension cannot be screwed together and no installed length is given [-].

    Raises
    ------
    ValueError
        If the arrays do not have one length.

    Notes
    -----
    A fitting is male and needs a female top: the well itself, a coupling, a union. A connection
    head is female and needs a male top: a nipple, a neck tube, or a well whose own top is male.
    The faces of a union seat without play.

    Source: geometry; common practice, no source, for a given length and a neck tube, where
    only the fitting's own thread counts.

    Examples
    --------
    A fitting on a nipple and union: nipple in the well, nipple in the union, fitting in the union.

    >>> joints_by_thread(mounting=["spring-loaded fitting"], arrangement=["nipple and union"],
    ...                  is_given=np.array([False]))
    array([[1., 1., 1.]])
    """
    return _JOINT_TABLE[
        np.asarray(is_given, dtype=np.intp),
        positions(words=mounting, known=list(Mounting)),
        positions(words=arrangement, known=list(Arrangement)),
    ]


def taper_joints(*, mounting: Words, arrangement: Words, is_given: Flags) -> NDArray[np.float64]:
    """Threads between the face of the well and the seat that can be made up a turn further if they are taper threads.

    Parameters
    ----------
    mounting : array of str, shape (n,)
        Sensor mounting, in the words of `joints_by_thread` [-].
    arrangement : array of str, shape (n,)
        Extension arrangement, in the words of `joints_by_thread` [-].
    is_given : array of bool, shape (n,)
        Whether the installed length was given or measured, face to face [-].

    Returns
    -------
    array of float, shape (n,)
        Number of joints; NaN where the mounting is unknown, or where sensor and extension cannot
        be screwed together and no installed length is given [-].

    Raises
    ------
    ValueError
        If the arrays do not have one length.

    Notes
    -----
    A fitting in the well 1; an insert on a nipple 2; a fitting on a nipple and union or coupling 3;
    an insert on a nipple-union-nipple 4; with a given installed length or on a neck tube 1 for a
    fitting, 0 for an insert. A joint that seats on a shoulder is counted here and has a turn of 0 mm.

    Source: common practice, no source.

    Examples
    --------
    >>> taper_joints(mounting=["spring-loaded insert"], arrangement=["nipple-union-nipple"],
    ...              is_given=np.array([False]))
    array([4.])
    """
    by_thread = joints_by_thread(mounting=mounting, arrangement=arrangement, is_given=is_given)
    return by_thread[:, 0] + by_thread[:, 1] + by_thread[:, 2]


def _joint_table() -> NDArray[np.float64]:
    """Joints by given, mounting, arrangement and thread; the last mounting and arrangement are the unknown ones."""
    mountings, arrangements = list(Mounting), list(Arrangement)
    table = np.full((2, len(mountings) + 1, len(arrangements) + 1, 3), np.nan)
    families = ((FITTINGS, FITTING_JOINTS, OWN_FITTING_JOINT), (INSERTS, INSERT_JOINTS, NO_JOINT))
    for family, joints, with_given_length in families:
        for mounting in family:
            table[1, mountings.index(mounting)] = with_given_length
            for arrangement, counts in joints.items():
                table[0, mountings.index(mounting), arrangements.index(arrangement)] = counts
    return table


_JOINT_TABLE = _joint_table()
