"""What a remark says of the bore."""

import pytest

from thermowell_index.records.bore_remarks import bore_remark


@pytest.mark.parametrize(
    "remark,depths_mm",
    [
        ("bore measured 8-1/2", [215.9]),
        ('Actual bore 8 1/2"', [215.9]),
        ("bore 8\u00bd in", [215.9]),
        ("probe bottoms at 8.5", [215.9]),
        ("B=8.5 measured", [215.9]),
        ("rod 215 mm", [215.0]),
        ("rod stopped at 215 mm", [215.0]),
        ("site says 150 mm deep", [150.0]),
        ("sensor stuck at 7 in", [177.8]),
        ("well depth 230 mm", [230.0]),
        ("Bohrung 215,9 mm gemessen", [215.9]),
        ("per\u00e7age mesur\u00e9 230 mm", [230.0]),
        ("Bore depth measured 2019: 8.5 in (was 9)", [215.9]),
        ("bore 9 in, measured 8.5 in", [228.6, 215.9]),
        ("bore dia 7 mm", []),
        ("orifice plate bore 82 mm", []),
        ("line bore 150 mm", []),
        ("bore 0.385 in", []),
        ("bore measured 10/81", []),
        ("bore measured 12-03-2019", []),
        ("bore checked in 2019", []),
        ("bore per dwg 12", []),
        ("bore as TW-101", []),
        ("bore reduced - plugged 2 in", []),
        ("depth of water 40 m", []),
        ("new sensor 8-1/2 long fitted", []),
        ("", []),
    ],
)
def test_a_depth_among_the_words(remark: str, depths_mm: list[float]) -> None:
    assert [length for _, length in bore_remark(remark, "in").depths] == pytest.approx(depths_mm)


@pytest.mark.parametrize(
    "remark,lengths_mm",
    [
        ("TW measured 8-1/2", [215.9]),
        ("measured 230 mm", [230.0]),
        ("measured temp 150", []),
        ("actual 12 bar", []),
        ("measured 450 C", []),
        ("insertion measured 8.5", []),
        ("U measured, 8.5", []),
        ("found OK 2019", []),
    ],
)
def test_a_measured_length_without_a_word_for_which(remark: str, lengths_mm: list[float]) -> None:
    assert [length for _, length in bore_remark(remark, "in").measured] == pytest.approx(lengths_mm)


def test_a_number_without_any_unit_is_no_length() -> None:
    assert bore_remark("bore 8.5", "").depths == ()


CLOSED = """
Obstruction at 9 inches, could not withdraw rod further | Hindernis bei 150 mm | Obstruction à 150 mm | Blockage at 8 in
| Only 8 in free | nur 200 mm frei | Bore restricted | Foreign object in bore | Old element tip stuck in bore
| Bushing in bore
| Sleeve fitted in bore, 1 in | Spacer 1 in at bottom of bore | Schutzrohr verschlossen | Fremdkörper in der Bohrung
| Tip cut off | TIP BROKEN OFF | scale in bottom of well | sludge in well | Bohrung nicht frei | Spitze abgebrochen
| Abgebrochener Fühler steckt in der Bohrung | Alésage encrassé | Ancien capteur cassé dans le puits
"""
HARMLESS = (
    "Sludge line temperature | Scale thickness | Bottom of sludge drum | No obstruction found | Bore not obstructed"
    " | Bore cleaned, no blockage | Gland by vendor | Spacer in store"
)


@pytest.mark.parametrize("remark", " ".join(CLOSED.split()).split(" | "))
def test_what_stands_in_a_bore_is_seen(remark: str) -> None:
    assert bore_remark(remark, "in").closed


@pytest.mark.parametrize("remark", HARMLESS.split(" | "))
def test_a_bore_said_to_be_free_is(remark: str) -> None:
    assert not bore_remark(remark, "in").closed


@pytest.mark.parametrize(
    "remark",
    ["Lengths estimated", "Do not use these lengths", "Bohrungstiefe falsch", "Cotes non vérifiées",
     "Re-bored to 12.5 in", "See TE-105 for lengths", "Schutzrohr undicht, auszutauschen", "Puits à remplacer",
     "element seized", "Dims to follow", "lengths assumed", "Guess - no drawing", "Dwg not as built",
     "medidas por confirmar", "Boordiepte te controleren"],
)  # fmt: skip
def test_remarks_that_doubt_the_lengths(remark: str) -> None:
    assert bore_remark(remark, "in").doubt


@pytest.mark.parametrize(
    "remark,word",
    [
        ("well plugged", "PLUGGED"),
        ("TW bent", "BENT"),
        ("bottom 2 in full of scale", "FULL OF SCALE"),
        ("coke build-up", "COKE BUILD-UP"),
        ("Bohrung verstopft", "VERSTOPFT"),
        ("doigt de gant bouch\u00e9", "BOUCHE"),
        ("vaina obstruida", "OBSTRUIDA"),
        ("pozzetto ostruito", "OSTRUITO"),
        ("bore reduced by scale", "BORE REDUCED"),
        ("bore blocked, cannot be cleaned", "BLOCKED"),
        ("plug & chain", ""),
        ("adjacent well plugged", ""),
        ("local gauge removed, well plugged elsewhere", ""),
        ("bushing at bottom", "BUSHING AT BOTTOM"),
        ("line plugged in 2012", ""),
        ("reduced tip well", ""),
        ("bore not plugged", ""),
        ("bore free of debris", ""),
        ("bore was plugged, cleaned", ""),
        ("not to scale", ""),
    ],
)
def test_a_bore_that_is_no_longer_free(remark: str, word: str) -> None:
    assert bore_remark(remark, "in").closed == word


@pytest.mark.parametrize(
    "remark,is_doubt",
    [
        ("bore depth to be confirmed", True),
        ("check bore", True),
        ("drawing wrong, see survey", True),
        ("not per drawing", True),
        ("TW replaced 2019", True),
        ("replaced with longer well", True),
        ("bore confirmed", False),
        ("check well thread", False),
        ("sensor replaced 2019", False),
        ("verify tag", False),
        ("cable length to be confirmed", False),
        ("insulation cladding cut back", False),
        ("well cut back 1 in", True),
        ("bore depth unconfirmed", True),
    ],
)
def test_words_that_ask_to_confirm(remark: str, is_doubt: bool) -> None:  # noqa: FBT001 - a column of the table
    assert bool(bore_remark(remark, "in").doubt) == is_doubt


@pytest.mark.parametrize(
    "remark,lengths_mm",
    [
        ("OAL per nameplate 375", [375.0]),
        ("O/A measured 14-3/4 in", [374.65]),
        ("overall length was 300", []),
        ("old OAL 300", []),
        ("O/A per dwg 1234", []),
        ("probe overall 300", []),
        ("overall 12 bar", []),
    ],
)
def test_an_overall_length_among_the_words(remark: str, lengths_mm: list[float]) -> None:
    assert [length for _, length in bore_remark(remark, "mm").overalls] == pytest.approx(lengths_mm)


def test_a_sensor_that_stops_short_by_a_length() -> None:
    assert bore_remark("probe 20 mm short of bottom", "mm").falls_short
