"""The unit that a heading names, and the words that only look like one."""

import pytest

from thermowell_index.units import unit_of_words


@pytest.mark.parametrize(
    "text,unit",
    [
        ("mm", "mm"),
        ("(mm)", "mm"),
        ("OVERALL LENGTH (MM)", "mm"),
        ("Length mm", "mm"),
        ("L/mm", "mm"),
        ("Bore depth\n[mm]", "mm"),
        ("all dimensions in mm unless noted", "mm"),
        ("Alle Maße in mm", "mm"),
        ("Toutes les cotes en mm", "mm"),
        ("Medidas em mm", "mm"),
        ("Longueur en millimètres", "mm"),
        ("DD/MM/YYYY, lengths in mm", "mm"),
        ("cm", "cm"),
        ("Length [cm]", "cm"),
        ("in", "in"),
        ("In.", "in"),
        ("[in.]", "in"),
        ("INCHES", "in"),
        ("LENGTH, IN", "in"),
        ("LENGTH - IN", "in"),
        ("Length/in", "in"),
        ("BORE DEPTH IN", "in"),
        ("TIP THK. IN.", "in"),
        ("Lagging Ext. in", "in"),
        ("Length in. (U)", "in"),
        ("Insertion length U (in)", "in"),
        ("Units = in", "in"),
        ("All dimensions are in in. unless noted", "in"),
        ("Lengths are in inches.", "in"),
        ("Zoll", "in"),
        ("pouces", "in"),
        ("cotes en pouces (po)", "in"),
        ("pulgadas", "in"),
        ("Comprimento (pol.)", "in"),
        ("lunghezza in pollici", "in"),
        ("lengte in duim", "in"),
        ('Bore "', "in"),
        ('Bore (")', "in"),
        ("Bore ('')", "in"),
        ('"', "in"),
        ("m", "m"),
        ("Length (m)", "m"),
        ("All dimensions in metres", "m"),
        ("ft", "ft"),
        ("Length [ft]", "ft"),
        ("all dimensions in feet unless noted", "ft"),
    ],
)
def test_a_heading_names_its_unit(text: str, unit: str) -> None:
    assert unit_of_words(text) == unit


@pytest.mark.parametrize(
    "text",
    [
        "", "Bore depth", "INSERTION", "INSERTION LENGTH", "IN STOCK", "in service", "MIN", "hammer", "IN/OUT",
        "OUT/IN", "PLUG IN", "Built-in", "Date in", "M", "M20", "M20 x 1.5", "flow meter", "6 mm sheath",
        "tolerance ±2 mm", "1-inch connection", '4" NPT', 'Length for 1/2" bore', 'the "bore"', "Date (DD/MM/YYYY)",
        "YYYY-MM-DD", "hh:mm", "DD-MM", "YY.MM", "mm:ss", "mm²", "mm2", "mm H2O", "mmHg", "(in H2O)", "in. w.c.",
        "In Betrieb", "pole", "foot valve",
    ],
)  # fmt: skip
def test_a_heading_without_a_unit_names_none(text: str) -> None:
    assert unit_of_words(text) is None


@pytest.mark.parametrize(
    "text", ["in (mm)", "Bore depth (mm / in)", "in / mm", "length in (mm)", "inches [mm]", "mm or inches"]
)
def test_a_heading_with_two_units_names_none(text: str) -> None:
    assert unit_of_words(text) is None
