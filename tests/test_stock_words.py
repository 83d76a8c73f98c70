"""Which lines of a store name a sensor that can be taken."""

import pytest

from thermowell_index.stock_words import why_no_sensor, why_taken


@pytest.mark.parametrize(
    "text",
    [
        "RTD Pt100, spring-loaded fitting",
        "RTD for thermowell 9 in",
        "3-wire RTD",
        "Spring-loaded RTD",
        "TC K ungrounded",
        "Thermocouple type K with 2 m cable",
        "RTD Pt100, head mounted transmitter",
        "SENSOR, TEMP, RTD PT100, INSERT",
        "Messeinsatz",
        "Widerstandsthermometer",
        "Termopar tipo K",
        "Sonde Pt100",
        "Sonda RTD Pt100 simple",
        "K",
        "Temp element assembly duplex with TW",
        "RTD Pt100 on nipple-union-nipple",
        "mineral filled thermocouple",
        "Mineral insulated cable thermocouple K",
        "Termorresistencia",
        "Temperaturfühler",
        "Einschraubelement Pt100",
        "Screw-in RTD",
        "Plug-in RTD",
        "Wire-wound Pt100",
        "Pipe clamp RTD",
        "Sensor TW-101",
    ],
)
def test_a_sensor_is_known_by_its_words(text: str) -> None:
    assert why_no_sensor([text, ""], is_bare=False) == ""


@pytest.mark.parametrize(
    "text,thing",
    [
        ("Gate valve 1/2 NPT", "a valve"),
        ("Kugelhahn", "a valve"),
        ("Válvula de bola", "a valve"),
        ("Pressure gauge 100 mm", "a gauge"),
        ("Manometer", "a gauge"),
        ("Thermowell for Pt100", "a thermowell"),
        ("Thermowell 9 in U, RTD bore 0.26", "a thermowell"),
        ("RTD thermowell", "a thermowell"),
        ("Schutzrohr", "a thermowell"),
        ("Vaina 1/2 NPT", "a thermowell"),
        ("Pocket for thermometer", "a thermowell"),
        ("Pipe nipple 1/2 NPT x 12 in", "a pipe"),
        ("Nipple 4 in", "a nipple"),
        ("Union 1/2 NPT", "a union"),
        ("Bolt M6", "a bolt"),
        ("Cable, RTD extension", "a cable"),
        ("RTD Pt100 extension cable", "a cable"),
        ("Extension lead RTD Pt100", "a cable"),
        ("Head, connection, RTD", "a head"),
        ("Thermocouple connection head", "a head"),
        ("Gasket for insert", "a gasket"),
        ("Bimetal thermometer", "a dial thermometer"),
        ("Plug 1/2 NPT", "a plug"),
        ("Transmitter for Pt100", "a transmitter"),
        ("RTD transmitter", "a transmitter"),
        ("Spring for RTD", "a spring alone"),
        ("Compression fitting 1/4 in", "a fitting alone"),
    ],
)
def test_another_thing_is_named(text: str, thing: str) -> None:
    assert why_no_sensor([text, ""], is_bare=False) == f"its words name {thing}"


def test_another_thing_in_either_of_two_cells_decides() -> None:
    assert why_no_sensor(["RTD spare", "Thermowell"], is_bare=False) == "its words name a thermowell"


@pytest.mark.parametrize(
    "words,is_bare,why",
    [
        (["Thermometer", ""], False, "its words name no sensor"),
        (["", ""], False, "its words name no sensor"),
        (["", ""], True, ""),
    ],
)
def test_without_a_word_for_a_sensor_only_a_bare_list_is_one(words: list[str], *, is_bare: bool, why: str) -> None:
    assert why_no_sensor(words, is_bare=is_bare) == why


@pytest.mark.parametrize(
    "text,mark",
    [
        ("RTD SCRAP / DAMAGED", "scrap"),
        ("RTD damaged", "damaged"),
        ("RTD, defective", "defective"),
        ("RTD (reserved for TE-777)", "reserved"),
        ("in quarantine", "quarantine"),
        ("Do not use", "do not use"),
        ("reserviert", "reserviert"),
        ("dañado", "danado"),
    ],
)
def test_what_is_spoilt_or_bespoken_is_told_by_its_mark(text: str, mark: str) -> None:
    assert why_taken(["S-1", text]) == f"it is marked '{mark}'"


@pytest.mark.parametrize("text", ["RTD, unreserved", "not damaged", "non-defective", "RTD Pt100"])
def test_what_is_sound_has_no_mark(text: str) -> None:
    assert why_taken([text]) == ""
