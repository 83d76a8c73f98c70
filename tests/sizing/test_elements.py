"""Words of a sensor type: one thing written in many ways is one, two things are never made one."""

import pytest

from thermowell_index.sizing.elements import (
    count_key,
    element_count_of,
    element_key,
    element_of,
    material_key,
    material_of,
)

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
        "Termopar tipo K",
        "Tipo K",
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


@pytest.mark.parametrize(
    "text,count",
    [
        ("Duplex", 2),
        ("RTD PT100 DUAL 6MM", 2),
        ("Widerstandsthermometer Pt100 2x", 2),
        ("2xPt100", 2),
        ("2 x type K", 2),
        ("2", 2),
        ("single", 1),
        ("RTD simplex", 1),
        ("1 x Pt100", 1),
        ("1", 1),
        ('RTD 1/2 X 9"', 0),
        ("RTD 6 x 375 mm", 0),
        ("RTD 2 x 375 mm", 0),
        ("individual", 0),
        ("single or duplex", 0),
        ("", 0),
    ],
)
def test_how_many_elements_words_state(text: str, count: int) -> None:
    assert element_count_of(text) == count


@pytest.mark.parametrize(
    "text,material",
    [
        ("316SS", "stainless 316"),
        ("SS316", "stainless 316"),
        ("316 SS", "stainless 316"),
        ("AISI 316", "stainless 316"),
        ("1.4401", "stainless 316"),
        ("316", "stainless 316"),
        ("316L", "stainless 316 l"),
        ("SS 316 L", "stainless 316 l"),
        ("1.4404", "stainless 316 l"),
        ("1.4571", "stainless 316 ti"),
        ("RTD 6mm 316SS spring loaded", "stainless 316"),
        ("Exnel 600", "nickel alloy 600"),
        ("alloy 600", "nickel alloy 600"),
        ("2.4816", "nickel alloy 600"),
        ("Exnel", "nickel alloy"),
        ("sheath Exnel, Exnel 600", "nickel alloy 600"),
        ("Extelloy C-276", "nickel alloy c276"),
        ("316SS, Exnel 600", ""),
        ("RTD 316 mm long", ""),
        ("", ""),
    ],
)
def test_the_sheath_material_in_words(text: str, material: str) -> None:
    assert material_of(text) == material


@pytest.mark.parametrize("text", ["316SS", "316L", "1.4571", "alloy 600", "Exoloy 800HT", "C276", "exnel"])
def test_a_material_s_own_name_means_the_same(text: str) -> None:
    assert material_of(material_of(text)) == material_of(text) != ""
