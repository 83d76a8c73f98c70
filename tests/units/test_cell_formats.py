"""Numeric cells: what is stored, what the number format prints around it, what it shows."""

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermowell_index.units import DimensionState, dimension_of_number, shown_number, shown_text


@pytest.mark.parametrize(
    "value,number",
    [
        (9.1875, Fraction(147, 16)),
        (0.1, Fraction(1, 10)),
        (235.0, Fraction(235)),
        (0.1 + 0.2, Fraction(3, 10)),
        (0, Fraction(0)),
    ],
)
def test_a_stored_number_is_the_fraction_its_15_digits_write(value: float, number: Fraction) -> None:
    read = dimension_of_number(value, "General")
    assert (read.state, read.number, read.unit) == (DimensionState.VALUE, number, None)


@pytest.mark.parametrize(
    "number_format,unit",
    [
        ("General", None),
        ("", None),
        ("@", None),
        ("0.00", None),
        ("# ??/16", None),
        ('0.00" in"', "in"),
        (r"# ?/?\"", "in"),
        ("0.00''", "in"),
        ('0.0" mm"', "mm"),
        (r"0.0 \m\m", "mm"),
        ("0.0 mm", "mm"),
        ('[Red]0.0" mm";[Blue]-0.0" mm"', "mm"),
        ('_(* #,##0.00" cm"_)', "cm"),
        ('"Ø"0.0" mm"', "mm"),
        ('0.0" mm; nominal"', None),
        ("0.00E+00", None),
    ],
)
def test_a_unit_that_the_format_prints_counts_as_written(number_format: str, unit: str | None) -> None:
    if "nominal" in number_format:
        assert dimension_of_number(9.25, number_format).state is DimensionState.DOUBTFUL
    else:
        read = dimension_of_number(9.25, number_format)
        assert (read.state, read.number, read.unit) == (DimensionState.VALUE, Fraction(37, 4), unit)


@pytest.mark.parametrize(
    "value,number_format",
    [
        (-1.0, "0"),
        (math.nan, "0"),
        (math.inf, "0"),
        (1e9, "0"),
        (9.25, "0" * 256),
        (38231.0, "yyyy-mm-dd"),
        (38231.0, "d-mmm"),
        (0.5, "mm:ss.0"),
        (9.25, "0%"),
        (9250.0, "0.00,"),
        (9.25, '"DN"0'),
        (9.25, '"hidden"'),
        (9.25, ";;;"),
        (109.0, r'0"\'-"00\"'),
        (0.0, '0;-0;"TBD"'),
    ],
)
def test_a_format_that_prints_no_plain_number_is_refused(value: float, number_format: str) -> None:
    read = dimension_of_number(value, number_format)
    assert (read.state, read.number) == (DimensionState.UNREADABLE, None)


def test_a_zero_is_printed_by_its_own_section() -> None:
    assert dimension_of_number(0.0, '0" in";-0;0" mm"').unit == "mm"
    assert dimension_of_number(0.0, '0" in";-0').unit == "in"


def test_a_printed_remark_counts_too() -> None:
    assert dimension_of_number(230.0, '"~"0').state is DimensionState.DOUBTFUL
    measured = dimension_of_number(230.0, '0" mm (measured)"')
    assert (measured.state, measured.note, measured.text) == (DimensionState.VALUE, "measured", "230 mm (measured)")


@pytest.mark.parametrize(
    "value,number_format,shown",
    [
        # support.microsoft.com, "Display numbers as fractions": 123.456 in every fraction format
        (123.456, "# ?/?", "123 1/2"),
        (123.456, "# ??/??", "123 26/57"),
        (123.456, "# ???/???", "123 57/125"),
        (123.456, "# ?/2", "123 1/2"),
        (123.456, "# ?/4", "123 2/4"),
        (123.456, "# ?/8", "123 4/8"),
        (123.456, "# ??/16", "123 7/16"),
        (123.456, "# ?/10", "123 5/10"),
        (123.456, "# ??/100", "123 46/100"),
        (0.25, "# ??/16", "4/16"),  # Microsoft KB 893691: sixteenths are not reduced
        (0.3125, "# ?/?", "1/3"),
        (9.28125, "# ?/?", "9 2/7"),
        (9.25, "# ?/?", "9 1/4"),
        (9.0, "# ?/?", "9"),
        (0.0, "# ?/?", "0"),
        (0.25, "0 ?/?", "0 1/4"),
        (9.99, "# ?/8", "10"),
        (9.25, "?/?", "37/4"),
        (9.25, '# ?/?" in"', "9 1/4"),
        (9.25, "0", "9"),
        (9.25, "0.0", "9.3"),
        (9.19, "0.00", "9.19"),
        (9.25, "0.0#", "9.25"),
        (9.5, "0.0##", "9.5"),
        (9.0, "0.##", "9"),
        (1234.5, "#,##0.00", "1234.50"),
        (9.25, "General", None),
        (9.25, "@", None),
        (9.25, "0.00E+00", None),
        (9.25, "yyyy", None),
        (-9.25, "0.0", None),
        (math.nan, "0.0", None),
        (1e300, "0.0", None),
        (9.25, "0." + "0" * 30, None),
    ],
)
def test_a_format_shows_what_a_spreadsheet_shows(value: float, number_format: str, shown: str | None) -> None:
    assert shown_text(value, number_format) == shown
    assert (shown_number(value, number_format) is None) == (shown is None)


@settings(deadline=None)
@given(value=st.floats(min_value=0, max_value=200), places=st.sampled_from([1, 2, 3]))
def test_a_shown_fraction_is_a_best_approximation_with_room_in_its_places(value: float, places: int) -> None:
    shown = shown_number(value, f"# {'?' * places}/{'?' * places}")
    assert shown is not None
    assert shown.denominator < 10**places
    assert abs(shown - Fraction(value)) <= Fraction(1, 2)


@settings(deadline=None)
@given(sixteenths=st.integers(min_value=0, max_value=3200))
def test_a_sixteenth_in_sixteenths_is_shown_as_stored(sixteenths: int) -> None:
    assert shown_number(sixteenths / 16, "# ??/16") == Fraction(sixteenths, 16)
