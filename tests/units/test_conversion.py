"""Lengths to millimetres, against pint and against exact arithmetic, and back to text."""

import math
import subprocess
import sys
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermowell_index.units import format_length, parse_dimension, to_mm

UNITS = ("in", "ft", "mm", "cm", "m")
REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()


@settings(deadline=None)
@given(number=st.floats(min_value=0, max_value=1e5), unit=st.sampled_from(UNITS))
def test_a_conversion_agrees_with_the_unit_library(number: float, unit: str) -> None:
    assert to_mm(number, unit) == pytest.approx(
        REGISTRY.Quantity(number, unit).to("mm").magnitude, rel=1e-14, abs=1e-300
    )


def test_an_inch_is_exactly_25_4_mm_and_rounds_once() -> None:
    assert to_mm(1, "in") == 25.4
    assert to_mm(Fraction(37, 4), "in") == to_mm(9.25, "in") == 234.95  # 9.25 x 25.4
    # 1 ft is 304.8 mm; two float products make it 304.79999999999995
    assert to_mm(1.0, "ft") == 304.8
    assert (to_mm(23.5, "cm"), to_mm(Fraction(47, 200), "m"), to_mm(235, "mm")) == (235.0, 235.0, 235.0)


def test_a_length_that_is_not_known_stays_so() -> None:
    assert math.isnan(to_mm(math.nan, "in"))
    assert format_length(math.nan, "in", fractions=True) == "unknown"


def test_a_unit_that_is_no_length_is_refused() -> None:
    with pytest.raises(ValueError, match="length unit 'lb'"):
        to_mm(1.0, "lb")
    with pytest.raises(ValueError, match="length unit 'MM'"):
        format_length(1.0, "MM", fractions=False)


@pytest.mark.parametrize(
    "mm,unit,fractions,text",
    [
        (234.95, "in", True, "9-1/4 in"),
        (234.95, "in", False, "9.25 in"),
        (228.6, "in", True, "9 in"),
        (6.35, "in", True, "1/4 in"),
        (0.0, "in", True, "0 in"),
        (-12.7, "in", True, "-1/2 in"),
        (-38.1, "in", True, "-1-1/2 in"),
        (235.0, "in", True, "9.252 in"),  # 235 / 25.4 = 9.25197, no 64th
        (0.396875, "in", True, "1/64 in"),
        (235.0, "mm", True, "235 mm"),
        (234.95, "mm", False, "234.95 mm"),
        (-0.001, "mm", False, "0 mm"),
        (13.5714, "mm", False, "13.57 mm"),
        (235.0, "cm", False, "23.5 cm"),
        (235.0, "m", False, "0.235 m"),
        (381.0, "ft", False, "1.25 ft"),
    ],
)
def test_a_length_is_written_as_the_trade_does(mm: float, unit: str, fractions: bool, text: str) -> None:  # noqa: FBT001
    assert format_length(mm, unit, fractions=fractions) == text


def test_a_length_off_a_64th_by_more_than_a_millionth_of_an_inch_is_written_in_decimals() -> None:
    assert format_length(234.95 + 0.9e-6 * 25.4, "in", fractions=True) == "9-1/4 in"
    assert format_length(228.6 + 1.1e-6 * 25.4, "in", fractions=True) == "9 in"  # 9.0000 in
    assert format_length(25.4 * (9 + 1 / 64) + 1.1e-6 * 25.4, "in", fractions=True) == "9.0156 in"


@settings(deadline=None)
@given(sixty_fourths=st.integers(min_value=1, max_value=120 * 64))
def test_every_64th_is_written_exactly_and_read_back(sixty_fourths: int) -> None:
    length_in = Fraction(sixty_fourths, 64)
    read = parse_dimension(format_length(to_mm(length_in, "in"), "in", fractions=True))
    assert (read.number, read.unit) == (length_in, "in")


def test_the_unit_library_is_loaded_only_to_convert() -> None:
    code = "import sys, thermowell_index.threads; sys.exit('pint' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0  # noqa: S603 - our own code
