"""Who widens the chain of each row, by how much and on which side."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thermowell_index.sizing.assembly import Flags, Lengths
from thermowell_index.sizing.tolerance import stack

BORE_DEPTH = "bore depth"
ASSUMED_TIP = "assumed tip"
PROBE_LENGTH = "probe length"
EXTENSION = "extension"
THREAD_MAKE_UP = "thread make-up"
HOT_GROWTH = "hot growth"
CREDIBLE_RANGE = "credible range of what is not known"
CONTRIBUTORS = (BORE_DEPTH, ASSUMED_TIP, PROBE_LENGTH, EXTENSION, THREAD_MAKE_UP, HOT_GROWTH, CREDIBLE_RANGE)
ALL_BUT_RANGES = tuple(name for name in CONTRIBUTORS if name not in {ASSUMED_TIP, CREDIBLE_RANGE})
TOLERANCES = (*ALL_BUT_RANGES, ASSUMED_TIP)


@dataclass(frozen=True, kw_only=True)
class Contributions:
    """Amounts that take compression away and that add it, one column each [mm], and whose they are."""

    minus_mm: NDArray[np.float64]
    plus_mm: NDArray[np.float64]
    names: tuple[str, ...]

    def stacked(self, of: Collection[str] = CONTRIBUTORS, *, worst_case: bool) -> tuple[Lengths, Lengths]:
        """Stack of the named contributors, what takes compression away first [mm]."""
        columns = [column for column, name in enumerate(self.names) if name in of]
        minus_mm = stack(self.minus_mm[:, columns], worst_case=worst_case)
        plus_mm = stack(self.plus_mm[:, columns], worst_case=worst_case)
        return minus_mm, plus_mm

    def widest(self, *, worst_case: bool) -> NDArray[np.object_]:
        """Name of the contributor whose two sides together are widest; empty where none has any width."""
        sides = [self.stacked((name,), worst_case=worst_case) for name in CONTRIBUTORS]
        width_mm = np.nan_to_num(np.column_stack([minus_mm + plus_mm for minus_mm, plus_mm in sides]))
        names = np.array(CONTRIBUTORS, dtype=object)[np.argmax(width_mm, axis=1)]
        return np.where(np.max(width_mm, axis=1) > 0.0, names, "")


def contributions(
    *, lengths: Mapping[str, Lengths], joints: NDArray[np.float64], tip_is_assumed: Flags
) -> Contributions:
    """Every contributor of every row, side by side.

    Parameters
    ----------
    lengths : mapping of name to array of float, shape (n,)
        Tolerances, turns and growth under the names of the sizing inputs; NaN makes a row's
        stack NaN, but for the growth, where it is none, and for the turn of a thread that is not there [mm].
    joints : array of float, shape (n, 3)
        Joints by thread, see `joints_by_thread`; NaN makes the row's stack NaN [-].
    tip_is_assumed : array of bool, shape (n,)
        Whether the range of an assumed tip contributes [-].

    Returns
    -------
    Contributions
        One column for every amount, and for every single joint [mm].

    Raises
    ------
    KeyError
        If a length is missing from the mapping.

    Notes
    -----
    A bore deeper than stated takes compression away, a shallower one adds it; a bore that grows
    more than the sheath takes it away.

    Source: geometry.

    Examples
    --------
    Bore and probe of 3 mm and 4 mm each way, and no joint:

    >>> names = ("bore_second_mm", "tip_thinner_mm", "tip_thicker_mm", "extension_tolerance_mm", "growth_mm",
    ...          "well_turn_mm", "extension_turn_mm", "seat_turn_mm", "carried_minus_mm", "carried_plus_mm")
    >>> lengths = dict.fromkeys(names, np.array([0.0])) | {
    ...     "bore_deeper_mm": np.array([3.0]), "bore_shallower_mm": np.array([3.0]),
    ...     "probe_tolerance_mm": np.array([4.0])}
    >>> parts = contributions(lengths=lengths, joints=np.zeros((1, 3)), tip_is_assumed=np.array([False]))
    >>> parts.stacked(worst_case=False), parts.stacked(worst_case=True)
    ((array([5.]), array([5.])), (array([7.]), array([7.])))
    """
    growth_mm = np.nan_to_num(lengths["growth_mm"])
    sides: list[tuple[str, Lengths, Lengths]] = [
        (BORE_DEPTH, lengths["bore_deeper_mm"], lengths["bore_shallower_mm"]),
        (BORE_DEPTH, lengths["bore_second_mm"], lengths["bore_second_mm"]),
        (
            ASSUMED_TIP,
            np.where(tip_is_assumed, lengths["tip_thinner_mm"], 0.0),
            np.where(tip_is_assumed, lengths["tip_thicker_mm"], 0.0),
        ),
        (PROBE_LENGTH, lengths["probe_tolerance_mm"], lengths["probe_tolerance_mm"]),
        (EXTENSION, lengths["extension_tolerance_mm"], lengths["extension_tolerance_mm"]),
        *((THREAD_MAKE_UP, turn_mm, turn_mm) for turn_mm in _turns(lengths, joints)),
        (HOT_GROWTH, np.maximum(growth_mm, 0.0), np.maximum(-growth_mm, 0.0)),
        (CREDIBLE_RANGE, lengths["carried_minus_mm"], lengths["carried_plus_mm"]),
    ]
    return Contributions(
        minus_mm=np.column_stack([minus_mm for _, minus_mm, _ in sides]),
        plus_mm=np.column_stack([plus_mm for _, _, plus_mm in sides]),
        names=tuple(name for name, _, _ in sides),
    )


def _turns(lengths: Mapping[str, Lengths], joints: NDArray[np.float64]) -> list[Lengths]:
    """One turn for every joint: in the well, two places in union or coupling, under the sensor; NaN if impossible."""
    families = (
        (joints[:, 0], 1, lengths["well_turn_mm"]),
        (joints[:, 1], 1, lengths["extension_turn_mm"]),
        (joints[:, 1], 2, lengths["extension_turn_mm"]),
        (joints[:, 2], 1, lengths["seat_turn_mm"]),
    )
    return [
        np.where(count >= place, turn_mm, np.where(np.isnan(count), np.nan, 0.0)) for count, place, turn_mm in families
    ]
