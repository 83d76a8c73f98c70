"""The words for sensor mountings and extension arrangements, as numbers that an array can be looked up with."""

from collections.abc import Sequence
from enum import StrEnum

import numpy as np
import pandas as pd
from numpy.typing import NDArray

Lengths = NDArray[np.float64]
Flags = NDArray[np.bool_]
Words = NDArray[np.object_] | Sequence[str]


class Mounting(StrEnum):
    """How the sensor is held and what presses its tip to the bottom of the bore."""

    SPRING_LOADED_FITTING = "spring-loaded fitting"
    SPRING_LOADED_INSERT = "spring-loaded insert"
    FLANGED_INSERT = "flanged insert"
    FIXED_FITTING = "fixed fitting"
    ADJUSTABLE_FITTING = "adjustable fitting"


class Arrangement(StrEnum):
    """What stands between the well and the sensor's seat."""

    NONE = "none"
    NIPPLE = "nipple"
    NIPPLE_AND_COUPLING = "nipple and coupling"
    NIPPLE_AND_UNION = "nipple and union"
    NIPPLE_UNION_NIPPLE = "nipple-union-nipple"
    NECK_TUBE = "neck tube"


FITTINGS = (Mounting.SPRING_LOADED_FITTING, Mounting.FIXED_FITTING, Mounting.ADJUSTABLE_FITTING)
INSERTS = (Mounting.SPRING_LOADED_INSERT, Mounting.FLANGED_INSERT)


def positions(*, words: Words, known: Sequence[str]) -> NDArray[np.intp]:
    """Position of every word among the known ones.

    Parameters
    ----------
    words : array of str, shape (n,)
        Words of the rows; blank, NaN or None where there is none [-].
    known : sequence of str
        Words looked for, each once [-].

    Returns
    -------
    array of int, shape (n,)
        Position in `known`; -1 for a blank, a missing or an unknown word [-].

    Raises
    ------
    InvalidIndexError
        If a known word stands twice.

    Notes
    -----
    Source: none needed, a look-up.

    Examples
    --------
    >>> positions(words=["nipple", "", "none"], known=["none", "nipple"])
    array([ 1, -1,  0])
    """
    index = pd.Index([str(word) for word in known], dtype=object)
    return index.get_indexer(pd.Index(words, dtype=object))


def is_one_of(*, words: Words, known: Sequence[str]) -> Flags:
    """Whether every word is one of the known ones.

    Parameters
    ----------
    words : array of str, shape (n,)
        Words of the rows; blank, NaN or None where there is none [-].
    known : sequence of str
        Words looked for, each once [-].

    Returns
    -------
    array of bool, shape (n,)
        False for a blank, a missing or an unknown word [-].

    Raises
    ------
    InvalidIndexError
        If a known word stands twice.

    Notes
    -----
    Source: none needed, a look-up.

    Examples
    --------
    >>> is_one_of(words=["nipple", ""], known=["none", "nipple"])
    array([ True, False])
    """
    return positions(words=words, known=known) >= 0
