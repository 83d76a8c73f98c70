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
        ("sensor stuck at 7 in", [177.8]),
        ("well depth 230 mm", [230.0]),
        ("Bohrung 215,9 mm gemessen", [215.9]),
        ("per\u00e7age mesur\u00e9 230 mm", [230.0]),
        ("Bore depth measured 2019: 8.5 in (was 9)", [215.9]),
        ("bore 9 in, measured 8.5 in", [228.6, 215.9]),
        ("bore dia 7 mm", []),
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
    ],
)
def test_words_that_ask_to_confirm(remark: str, is_doubt: bool) -> None:  # noqa: FBT001 - a column of the table
    assert bool(bore_remark(remark, "in").doubt) == is_doubt
