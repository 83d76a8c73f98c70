"""Fractions that a spreadsheet took for a date."""

import datetime as dt

import pytest

from thermowell_index.units import date_as_typed


@pytest.mark.parametrize(
    "when,number_format,typed",
    [
        # typed into a General cell, US settings; Microsoft KB Q65904 for the pattern, 9-1/4 from an emulation
        (dt.date(2024, 1, 4), "d-mmm", "1/4"),
        (dt.date(2026, 5, 8), "d-mmm", "5/8"),
        (dt.date(2026, 11, 16), "d-mmm", "11/16"),
        (dt.date(1932, 1, 1), "mmm-yy", "1/32"),
        (dt.date(2004, 9, 1), "mm-dd-yy", "9-1/4"),
        (dt.date(2002, 1, 1), "m/d/yyyy", "1-1/2"),
        (dt.date(2008, 3, 1), "m/d/yyyy", "3-1/8"),
        (dt.datetime(2002, 10, 1), "mm-dd-yy", "10-1/2"),  # noqa: DTZ001 - a cell has no time zone
        (dt.date(1932, 9, 5), "mm-dd-yy", "9-5/32"),
        (dt.date(1932, 9, 5), "dd/mm/yyyy", "5-9/32"),
        (dt.date(2008, 1, 3), "d/m/yyyy", "3-1/8"),
        (dt.date(2026, 4, 1), "d-mmm", "1/4"),
        (dt.date(2004, 9, 1), "General", "9-1/4"),
        (dt.date(2024, 3, 20), "d-mmm", None),
        (dt.date(2050, 1, 1), "mmm-yy", None),
        (dt.date(2024, 3, 5), "yyyy-mm-dd", None),
        (dt.date(2004, 9, 7), "m/d/yyyy", None),
    ],
)
def test_a_date_names_the_fraction_that_was_probably_typed(
    when: dt.date, number_format: str, typed: str | None
) -> None:
    assert date_as_typed(when, number_format) == typed
