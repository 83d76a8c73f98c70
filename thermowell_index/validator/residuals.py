"""Stated probe lengths less the computed ones, counted by step, mounting and area: the plant's own convention shows."""

from collections.abc import Sequence

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.answers import ResidualGroup, Residuals
from thermowell_index.table import Frame
from thermowell_index.units import format_length, to_mm
from thermowell_index.validator.mistakes import does_not_fit, residual

MOST_GROUPS = 7
MOST_STEPS = 40
# Steps that lengths are counted by, finest first, and the residual beyond which all are counted together.
STEPS = {"in": (0.25, 0.5, 1.0), "mm": (5.0, 10.0, 25.0)}
FARTHEST = {"in": 6.0, "mm": 150.0}

Places = NDArray[np.int_]


def residuals(frame: Frame, unit: str) -> Residuals | None:
    """Return how stated lengths lie against computed ones, in steps of a unit; None where no row has both."""
    rows = frame[residual(frame).notna()]
    if rows.empty:
        return None
    lengths = (residual(rows) / to_mm(1, unit)).to_numpy(float)
    far = min(np.abs(lengths).max(), FARTHEST[unit])
    step = next((step for step in STEPS[unit] if 2 * far <= step * MOST_STEPS), STEPS[unit][-1])
    most = round(FARTHEST[unit] / step)
    places = np.clip(np.floor(lengths / step + 0.5), -most, most).astype(int)
    low, high = min(int(places.min()), 0), max(int(places.max()), 0)
    words = {place: _words(place, step, unit, most) for place in range(low, high + 1)}
    fits = ~does_not_fit(rows).to_numpy(bool)
    labels = _labels(rows)
    return Residuals(
        steps=tuple(_short(place, step, unit, most) for place in words),
        groups=tuple(
            _group(label, places[labels == label], fits[labels == label], words) for label in _by_size(labels)
        ),
    )


def _labels(rows: Frame) -> "NDArray[np.object_]":
    """Return by row its mounting and area; those of the smaller groups are put together."""
    areas = rows["area"].astype(object)
    labels = rows["mounting"].astype(object) + (", area " + areas).where(areas != "", "")
    counts = labels.value_counts(sort=False).sort_values(ascending=False, kind="stable")
    if len(counts) > MOST_GROUPS:
        labels = labels.where(labels.isin(counts.index[: MOST_GROUPS - 1]), OTHERS)
    return labels.to_numpy(dtype=object)


OTHERS = "all others"


def _by_size(labels: "NDArray[np.object_]") -> list[str]:
    counts = pd.Series(labels, dtype=object).value_counts(sort=False).sort_values(ascending=False, kind="stable")
    named = [str(label) for label in counts.index]
    return sorted(named, key=lambda label: label == OTHERS)


def _group(label: str, places: Places, fits: NDArray[np.bool_], words: dict[int, str]) -> ResidualGroup:
    counts = [int((places == place).sum()) for place in words]
    usual = _nearest_most(counts, list(words))
    return ResidualGroup(
        label=label,
        rows=len(places),
        fits=int(fits.sum()),
        most_often=words[usual],
        most_often_rows=max(counts),
        counts=tuple(counts),
    )


def _nearest_most(counts: Sequence[int], places: Sequence[int]) -> int:
    """Return the place with the greatest count; of equal ones the nearest to zero."""
    return min(zip(counts, places, strict=True), key=lambda pair: (-pair[0], abs(pair[1])))[1]


def _words(place: int, step: float, unit: str, most: int) -> str:
    if place == 0:
        return "as computed"
    length = format_length(abs(place) * step * to_mm(1, unit), unit, fractions=unit == "in")
    return f"{length} {'or more ' if abs(place) == most else ''}{'longer' if place > 0 else 'shorter'}"


def _short(place: int, step: float, unit: str, most: int) -> str:
    if place == 0:
        return "0"
    length = format_length(abs(place) * step * to_mm(1, unit), unit, fractions=unit == "in").removesuffix(f" {unit}")
    return ("+" if place > 0 else "\u2212") + length + (" or more" if abs(place) == most else "")
