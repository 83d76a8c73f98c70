"""Which number formats show a date."""

import pytest

from thermowell_index.ooxml.number_formats import BUILT_IN, shows_date


@pytest.mark.parametrize(
    "code",
    [
        "d-mmm",
        "DD/MM/YYYY",
        "mm:ss.0",
        "[h]:mm",
        "[mm]:ss.00",
        "[ss].000",
        "h:mm AM/PM",
        "[$-409]d\\-mmm\\-yy;@",
        "[$-F800]dddd\\, mmmm dd\\, yyyy",
        "yyyy\\-mm\\-dd",
        'd. mmmm yyyy" at "h:mm',
        "m/d",
    ],
)
def test_a_date_format_shows_a_date(code: str) -> None:
    assert shows_date(code)


@pytest.mark.parametrize(
    "code",
    [
        "General",
        'General" mm"',
        "General mm",
        "0.0 mm",
        "# ?/? mm",
        '0.0" mm"',
        r"0.0\ \m\m",
        '# ??/16\\"',
        "[Red]0.0;[Blue]-0.0",
        "[$€-2] #,##0.00",
        "@",
        "0%",
        "0.00E+00",
        '"dated "@',
        '"mm',
        "_(* #,##0_)",
        "",
        "0;mm",
    ],
)
def test_a_number_format_shows_no_date(code: str) -> None:
    assert not shows_date(code)


def test_built_in_formats_14_to_22_and_45_to_47_show_dates() -> None:
    dates = {number for number, code in BUILT_IN.items() if shows_date(code) and number not in range(27, 37)}
    assert {number for number in dates if number < 50} == {*range(14, 23), 45, 46, 47}
