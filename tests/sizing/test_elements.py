"""Words of a sensor type: one thing written in many ways is one, two things are never made one."""

import pytest

from thermowell_index.sizing.elements import count_key, element_key, element_of, material_key

ALIKE = [
    ["RTD Pt100", "Pt-100", "PT 100", "pt100", "Pt100 RTD", "RTD, PT-100", "RTD (Pt100)", "Pt 100 ohm"],
    [
        "TC type K",
        "Type K",
        "K",
        "T/C K",
        "thermocouple, type K",
        "TC-K",
        "Type-K T/C",
        "K-type",
        "K type thermocouple",
    ],
    ["TC type E", "Type E", "E"],
    ["type T", "T"],
    ["Pt1000", "PT-1000"],
    ["Pt100 3-wire", "RTD Pt100, 3 wire"],
    ["Pt100 class A", "PT 100, Class A"],
    ["RTD"],
    ["thermocouple", "TC"],
    [""],
]


@pytest.mark.parametrize("texts", ALIKE)
def test_one_kind_in_many_hands_is_one(texts: list[str]) -> None:
    assert len({element_key(text) for text in texts}) == 1


def test_different_kinds_stay_apart() -> None:
    assert len({element_key(texts[0]) for texts in ALIKE}) == len(ALIKE)


@pytest.mark.parametrize("text", ["K-type", "type K", "TYPEK", "typ K"])
def test_the_word_type_is_not_taken_for_a_letter(text: str) -> None:
    assert element_of(text) == "thermocouple K"


def test_two_letters_name_none() -> None:
    assert element_of("TC type K or type J") == "thermocouple"


def test_counts_in_words_and_numbers() -> None:
    assert count_key("Simplex") == count_key("1") == count_key("single")
    assert count_key("duplex") == count_key("2") == count_key("dual")
    assert len({count_key(text) for text in ("", "1", "2", "3")}) == 4


def test_a_grade_is_the_steel_and_an_l_is_another() -> None:
    assert {material_key(text) for text in ("316 SS", "SS316", "AISI 316", "316 stainless steel")} == {"316"}
    assert len({material_key(text) for text in ("316", "316L", "304", "Alloy 600", "316/304", "")}) == 6
