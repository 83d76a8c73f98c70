"""Look-alike characters brought to one spelling; single numbers."""

import pytest

from thermowell_index.units.notation import plain_text, read_number


@pytest.mark.parametrize(
    "text,plain",
    [
        ("9¼″", '9 1/4 "'),
        ("９．２５", "9.25"),  # noqa: RUF001 - a look-alike on purpose
        ("9\u2009\u00bd", "9\u00a0 1/2"),
        ("1’–3”", "1'-3\""),  # noqa: RUF001 - a look-alike on purpose
        ("9''", '9"'),
        ("⁵⁄₁₆", "5/16"),  # noqa: RUF001 - a look-alike on purpose
        ("9²", "9²"),
        ("  9   in ", "9 in"),
        ("9\n10", "9\n10"),
    ],
)
def test_characters_are_brought_to_one_spelling(text: str, plain: str) -> None:
    assert plain_text(text) == plain


@pytest.mark.parametrize(
    "text",
    [
        "",
        ".",
        ",",
        "1.",
        ",5",
        "9 1/4 in",
        "9 ",
        "1.234,567,8",
        "1,234 567",
        "9" * 10,
        "0." + "9" * 21,
        "1.234.567.890",
        "9" * 5000,
    ],
)
def test_what_is_not_one_number_is_refused(text: str) -> None:
    assert read_number(text) is None


def test_a_fraction_without_a_whole_says_so() -> None:
    fraction, mixed = read_number("1/4"), read_number("9 1/4")
    assert fraction is not None
    assert mixed is not None
    assert (fraction.is_bare_fraction, mixed.is_bare_fraction) == (True, False)
