"""How many rows of an index with gaps are released without a survey, and that none of their lengths is wrong.

The index is generated with its true lengths known; then 30 % of the tips and of the extension lengths are left out.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import pytest

Check = Callable[..., Any]
ROWS = 300
LEFT_OUT = 0.3
INCH = 25.4
SEAT_IN = -0.5  # of the sound profiles: make-up of a fitting, what the terminal block presses an insert down
ADDS_IN = {"nipple": -1.0, "nipple and union": 1.0}  # two makings-up of 1/2 in; a union of 2 in
NIPPLES_IN = (3.875, 4.0, 4.125)
TIPS_IN = (0.1875, 0.25, 0.25, 0.25, 0.3125)
TRAVELS_IN = (0.625, 0.75, 1.0, 1.0)
RANGE = '[extension]\nnipple_credible_least = "3-7/8 in"\nnipple_credible_most = "4-1/8 in"\n'


@dataclass(frozen=True, kw_only=True)
class Truth:
    """What stands at the plant, and which of it the index leaves out."""

    bore_in: float
    installed_in: float
    travel_in: float
    lacks_tip: bool
    lacks_extension: bool


def generated(seed: int) -> tuple[list[dict[str, object]], dict[str, Truth]]:
    """Return the rows as the index has them, and the truth by tag."""
    draw = random.Random(seed)  # noqa: S311 - the same index every time
    rows: list[dict[str, object]] = []
    truths = {}
    for number in range(ROWS):
        tag = f"TE-{1000 + number}"
        arrangement = draw.choice(["none", *ADDS_IN])
        has_one = arrangement != "none"
        nipple, tip, overall = draw.choice(NIPPLES_IN), draw.choice(TIPS_IN), draw.randint(16, 80) / 4
        truth = Truth(
            bore_in=overall - tip,
            installed_in=nipple + ADDS_IN[arrangement] if has_one else 0.0,
            travel_in=draw.choice(TRAVELS_IN),
            lacks_tip=draw.random() < LEFT_OUT,
            lacks_extension=draw.random() < LEFT_OUT and has_one,
        )
        truths[tag] = truth
        rows.append(
            {
                "tag": tag,
                "overall_length (in)": overall,
                "tip_thickness (in)": None if truth.lacks_tip else tip,
                "mounting": f"spring-loaded {'insert' if arrangement == 'nipple' else 'fitting'}",
                "extension": arrangement,
                "nipple_length (in)": nipple if has_one and not truth.lacks_extension else None,
                "spring_travel (in)": truth.travel_in,
            }
        )
    return rows, truths


def orders(done: Any) -> dict[str, float]:
    """Return the length to order of each released row, by tag [in]."""
    return {tag: order for tag, order in done.orders().items() if order is not None}


def share(released: dict[str, float], truths: dict[str, Truth], *, lacks: Callable[[Truth], bool]) -> float:
    """Return how many of the rows that lack something are released [1]."""
    tags = {tag for tag, truth in truths.items() if lacks(truth)}
    return len(tags & released.keys()) / len(tags)


def is_anything_missing(truth: Truth) -> bool:
    return truth.lacks_tip or truth.lacks_extension


def is_a_range_served(truth: Truth) -> bool:
    return truth.lacks_extension and truth.travel_in == max(TRAVELS_IN)


def test_most_assumed_tips_need_no_survey_and_no_extension_is_guessed(check: Check) -> None:
    rows, truths = generated(seed=1)
    released = orders(check(*rows))
    assert share(released, truths, lacks=lambda truth: truth.lacks_tip and not truth.lacks_extension) > 0.9
    assert share(released, truths, lacks=lambda truth: truth.lacks_extension) == 0
    assert share(released, truths, lacks=is_anything_missing) > 0.45


def test_a_credible_range_of_extensions_releases_three_rows_of_four_that_have_a_gap(check: Check) -> None:
    rows, truths = generated(seed=1)
    released = orders(check(*rows, basis=RANGE))
    assert share(released, truths, lacks=is_anything_missing) > 0.7
    assert share(released, truths, lacks=is_a_range_served) == 1


@pytest.mark.parametrize("seed", [2, 3])
def test_no_length_released_over_a_gap_misses_the_bottom_or_presses_the_spring_solid(check: Check, seed: int) -> None:
    rows, truths = generated(seed=seed)
    released = orders(check(*rows, basis=RANGE))
    pressed = {
        tag: order - (truths[tag].bore_in + truths[tag].installed_in + SEAT_IN) for tag, order in released.items()
    }
    assert len(pressed) > ROWS / 2
    assert [tag for tag, inches in pressed.items() if not 0 < inches < truths[tag].travel_in] == []
