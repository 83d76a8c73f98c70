"""Materials whose expansion is known by their words."""

import math

import pytest

from thermowell_index.records.growth import expansion_of


@pytest.mark.parametrize(
    "words,expansion",
    [
        *((text, 16.5) for text in ("316", "316L", "SS316", "AISI 316L", "1.4401", "1.4404", "1.4571", "316Ti")),
        *((text, 14.0) for text in ("alloy 600", "Alloy600", "nickel 600", "Nimetal-600", "600", "2.4816", "N06600")),
        *((text, 13.3) for text in ("alloy 625", "nickel alloy 625", "2.4856")),
        *((text, 15.0) for text in ("alloy 825", "nickel-825", "2.4858")),
        ("304 SS", 17.5),
    ],
)
def test_a_material_is_known_by_its_words(words: str, expansion: float) -> None:
    assert expansion_of(words) == pytest.approx(expansion * 1e-6)


@pytest.mark.parametrize(
    "words", ["", "ceramic", "CL 600", "Class 600", "600#", "A182 flange 600 lb", "316 / alloy 600", "6000"]
)
def test_a_material_that_is_not_known_or_of_which_two_are_named_has_none(words: str) -> None:
    assert math.isnan(expansion_of(words))
