"""Lengths in cells: exact values, and formats that show what is stored."""

from fractions import Fraction

import pytest

from thermowell_index.writer.lengths import (
    FRACTION,
    INCH_LIMIT,
    INCHES,
    MM,
    MM_LIMIT,
    WHOLE_MM,
    Shown,
    in_unit,
    number_format,
)

IN = 25.4


@pytest.mark.parametrize("sixty_fourths", [1, 9, 16, 594, 592, 7679])
def test_a_64th_of_an_inch_comes_out_exactly(sixty_fourths: int) -> None:
    assert in_unit(sixty_fourths / 64 * IN, "in") == Fraction(sixty_fourths, 64)


def test_a_length_of_a_float_sum_is_snapped_to_the_nanometre() -> None:
    assert in_unit(0.1 + 0.2, "mm") == 0.3


@pytest.mark.parametrize(
    "length_mm,unit,in_fractions,shown,expected",
    [
        (9.25 * IN, "in", True, Shown.LENGTH, FRACTION),
        (9.28125 * IN, "in", True, Shown.LENGTH, FRACTION),
        (9.2871 * IN, "in", True, Shown.LENGTH, INCHES),
        (9.25 * IN, "in", False, Shown.LENGTH, INCHES),
        (9.25 * IN, "in", True, Shown.LIMIT, INCH_LIMIT),
        (235.0, "mm", False, Shown.LENGTH, WHOLE_MM),
        (234.95, "mm", False, Shown.LENGTH, MM),
        (235.0, "mm", False, Shown.LIMIT, MM_LIMIT),
    ],
)
def test_the_format_follows_the_unit_and_the_value(
    *, length_mm: float, unit: str, in_fractions: bool, shown: Shown, expected: str
) -> None:
    assert number_format(length_mm, unit, in_fractions=in_fractions, shown=shown) == expected
