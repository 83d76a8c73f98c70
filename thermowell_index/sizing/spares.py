"""The fewest lengths to keep in stock that serve every sized well: interval stabbing, solved exactly.

Lengths are compared as whole nanometres. Every well accepts the lengths from its shortest to its longest that fits; a
plan is a set of lengths that has one inside every well's range. Of the plans with the fewest lengths the one with the
largest least margin is taken, of those the one whose lengths most wells order already, then the longer lengths.
"""

from collections import Counter, deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from thermowell_index.sizing.assembly import Lengths
from thermowell_index.sizing.order import LONGEST_COMPARABLE_MM, NANOMETRES_IN_A_MILLIMETRE

Whole: TypeAlias = NDArray[np.int64]
Cost: TypeAlias = tuple[int, int, int]


@dataclass(frozen=True, kw_only=True)
class StockLengths:
    """A plan: its lengths from the shortest up, and for every well the length with the largest margin.

    `served_by` holds positions in `lengths_mm`; `margins_mm` is what each well has left there on its tighter side;
    `fits` tells for every well (row) which lengths (column) lie in its range at all.
    """

    lengths_mm: Lengths
    served_by: NDArray[np.intp]
    margins_mm: Lengths
    fits: NDArray[np.bool_]

    @property
    def least_margin_mm(self) -> float:
        """Return the least margin that any well has [mm]."""
        return float(self.margins_mm.min())

    def lost_without(self, place: int) -> NDArray[np.bool_]:
        """Return which wells no length of the plan serves once the length at that place is struck out."""
        is_only_one: NDArray[np.bool_] = self.fits.sum(axis=1) == 1
        return self.fits[:, place] & is_only_one


def fewest_lengths(
    *,
    shortest_mm: Lengths,
    longest_mm: Lengths,
    order_mm: Lengths,
    increment_nm: int,
    standard_lengths_mm: tuple[float, ...] | None = None,
) -> StockLengths:
    """Fewest lengths that serve every well, of one kind of sensor.

    Parameters
    ----------
    shortest_mm : array of float, shape (n,)
        Shortest that fits each well, itself included [mm].
    longest_mm : array of float, shape (n,)
        Longest that fits each well, itself included [mm].
    order_mm : array of float, shape (n,)
        Length that each well would be ordered on its own: it says which lengths are common already [mm].
    increment_nm : int
        Increment that the lengths are multiples of; not looked at where there is a list [nm].
    standard_lengths_mm : tuple of float, shape (m,), optional
        Lengths that can be had, where the maker has a list [mm].

    Returns
    -------
    StockLengths
        The plan; it is empty for no wells [mm].

    Raises
    ------
    ValueError
        If a limit is not known, or a well has no length on the increment or list inside its range.

    Notes
    -----
    Fewest points that stab every interval [shortest, longest], the points on a grid. The largest least margin m is
    the largest whole number of nanometres for which [shortest + m, longest - m] can be stabbed by as few points,
    found by bisection. Among those plans a shortest path over the grid, from one point to the next so that no
    interval lies between, makes (count, -wells that order the length already, -length) least.

    Source: interval stabbing, a textbook result of discrete geometry; geometry.

    Examples
    --------
    Three wells of which the first two share a length on the 5 mm increment:

    >>> plan = fewest_lengths(shortest_mm=np.array([221.0, 226.0, 300.0]), longest_mm=np.array([236.0, 241.0, 312.0]),
    ...                       order_mm=np.array([230.0, 235.0, 305.0]), increment_nm=5_000_000)
    >>> plan.lengths_mm, plan.served_by, plan.least_margin_mm
    (array([230., 305.]), array([0, 0, 1]), 4.0)
    """
    shortest, longest, order = (_nanometres(lengths_mm) for lengths_mm in (shortest_mm, longest_mm, order_mm))
    if not shortest.size:
        return _plan(np.array([], dtype=np.int64), shortest, longest)
    grid = _listed(standard_lengths_mm) if standard_lengths_mm else _multiples(shortest, longest, increment_nm)
    first, last = _between(grid, shortest, longest)
    if (first > last).any():
        msg = f"{int((first > last).sum())} wells have no length that can be had inside their range"
        raise ValueError(msg)
    fewest = _count(first, last)
    margin = _largest(
        int((longest - shortest).min()) // 2, lambda least: _serves(grid, shortest, longest, least, fewest)
    )
    ordered = Counter(order.tolist())
    costs = [(1, -ordered[length], -length) for length in grid.tolist()]
    chosen = _cheapest(*_between(grid, shortest + margin, longest - margin), costs)
    return _plan(grid[chosen], shortest, longest)


def _nanometres(lengths_mm: Lengths) -> Whole:
    if not (np.abs(lengths_mm) < LONGEST_COMPARABLE_MM).all():
        msg = "a length is not known"
        raise ValueError(msg)
    return np.rint(lengths_mm * NANOMETRES_IN_A_MILLIMETRE).astype(np.int64)


def _listed(standard_lengths_mm: Sequence[float]) -> Whole:
    return np.unique(_nanometres(np.asarray(standard_lengths_mm, dtype=np.float64)))


def _multiples(shortest: Whole, longest: Whole, increment: int) -> Whole:
    """Return the multiples of the increment from the shortest that any well takes to the longest."""
    if increment <= 0:
        msg = "the increment is not known"
        raise ValueError(msg)
    least, most = max(-(-int(shortest.min()) // increment), 1), int(longest.max()) // increment
    return np.arange(least, most + 1, dtype=np.int64) * increment


def _between(grid: Whole, shortest: Whole, longest: Whole) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the places of the first and the last length of the grid in each range, first > last where none is."""
    return np.searchsorted(grid, shortest, side="left"), np.searchsorted(grid, longest, side="right") - 1


def _count(first: NDArray[np.intp], last: NDArray[np.intp]) -> int:
    """Return how few points stab every range: always the last of the range that ends first."""
    count, reached = 0, -1
    for begin, end in sorted(zip(first.tolist(), last.tolist(), strict=True), key=lambda span: span[1]):
        if begin > reached:
            count, reached = count + 1, end
    return count


def _serves(grid: Whole, shortest: Whole, longest: Whole, margin: int, most: int) -> bool:
    """Whether so few points leave every well that margin."""
    first, last = _between(grid, shortest + margin, longest - margin)
    return bool((first <= last).all()) and _count(first, last) <= most


def _largest(limit: int, holds: Callable[[int], bool]) -> int:
    """Return the largest number to a limit that a condition holds for; it holds for 0, and not again once it fails."""
    low, high = 0, limit
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if holds(middle) else (low, middle - 1)
    return low


def _cheapest(first: NDArray[np.intp], last: NDArray[np.intp], costs: Sequence[Cost]) -> list[int]:
    """Return the places of the cheapest points that stab every range, costs compared from the left.

    From one point to the next no range may lie between: so the point before place p stands at or beyond the latest
    beginning of all ranges that end before p. That bound only grows, so a queue of cheapest points behind p is enough.
    """
    bound = [-1] * (len(costs) + 1)
    for begin, end in zip(first.tolist(), last.tolist(), strict=True):
        bound[end + 1] = max(bound[end + 1], begin)
    total: list[Cost] = []
    before: list[int] = []
    queue: deque[int] = deque([-1])
    latest = -1
    for place, cost in enumerate([*costs, (0, 0, 0)]):
        latest = max(latest, bound[place])
        while queue[0] < latest:
            queue.popleft()
        before.append(queue[0])
        total.append(_sum(total[queue[0]], cost) if queue[0] >= 0 else cost)
        while queue and queue[-1] >= 0 and total[queue[-1]] >= total[place]:
            queue.pop()
        queue.append(place)
    return _traced(before)


def _sum(one: Cost, other: Cost) -> Cost:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _traced(before: Sequence[int]) -> list[int]:
    """Return the points of the path that ends behind the grid, from the first on."""
    path, place = [], before[-1]
    while place >= 0:
        path.append(place)
        place = before[place]
    return path[::-1]


def _plan(lengths: Whole, shortest: Whole, longest: Whole) -> StockLengths:
    """Return a plan with the length of each well: the one with the largest margin, of two alike the longer."""
    margins = np.minimum(lengths[None, :] - shortest[:, None], longest[:, None] - lengths[None, :])
    if not lengths.size:
        return StockLengths(
            lengths_mm=np.array([]), served_by=np.array([], dtype=np.intp), margins_mm=np.array([]), fits=margins >= 0
        )
    best = lengths.size - 1 - np.argmax(margins[:, ::-1], axis=1)
    return StockLengths(
        lengths_mm=lengths / NANOMETRES_IN_A_MILLIMETRE,
        served_by=best,
        margins_mm=margins[np.arange(best.size), best] / NANOMETRES_IN_A_MILLIMETRE,
        fits=margins >= 0,
    )
