"""Cell addresses, there and back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.ooxml.addresses import LAST_COLUMN, cell_address, column_letters, column_number, parse_range


@given(st.integers(1, LAST_COLUMN))
def test_letters_of_a_column_lead_back_to_it(number: int) -> None:
    assert column_number(column_letters(number)) == number


@pytest.mark.parametrize("number, letters", [(1, "A"), (26, "Z"), (27, "AA"), (702, "ZZ"), (16384, "XFD")])
def test_columns_are_spelt_in_letters(number: int, letters: str) -> None:
    assert column_letters(number) == letters


@pytest.mark.parametrize("letters", ["", "XFE", "A1", "Ä", "1"])
def test_letters_that_name_no_column_are_refused(letters: str) -> None:
    with pytest.raises(ValueError, match="names no column"):
        column_number(letters)


@pytest.mark.parametrize(
    "text, expected",
    [
        ("B3", (3, 2, 3, 2)),
        ("$C$4:$A$1", (1, 1, 4, 3)),
        ("2:5", (2, 1, 5, 16384)),
        ("B:C", (1, 2, 1_048_576, 3)),
        (" a1 ", (1, 1, 1, 1)),
    ],
)
def test_a_range_is_read(text: str, expected: tuple[int, int, int, int]) -> None:
    assert parse_range(text) == expected


@pytest.mark.parametrize("text", ["", "A0", "$", "Sheet!A1", "A99999999", "A1048577", "ZZZ1"])
def test_text_that_is_no_range_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"no cell address|names no column"):
        parse_range(text)


def test_an_address_is_letters_and_row() -> None:
    assert cell_address(12, 28) == "AB12"
