"""The drawing to scale of one well."""

from typing import Any

import pytest

from thermowell_index.drawing import Assembly, column_mm, drawing


def _lines(**changes: float) -> dict[str, str]:
    sound: dict[str, Any] = {
        "bore_depth_mm": 228.6,
        "tip_mm": 6.35,
        "installed_mm": 0.0,
        "seat_plane_mm": 215.9,
        "probe_mm": 228.6,
    }
    return {line[:11].strip(): line[11:] for line in drawing(Assembly(**{**sound, **changes}), 100)}


def test_the_tip_of_an_installed_probe_stands_at_the_bottom_of_the_bore() -> None:
    lines = _lines()
    assert lines["installed"].index(">") == lines["well"].rindex("=")


def test_a_relaxed_probe_reaches_beyond_the_bottom_by_its_compression() -> None:
    lines = _lines()
    per_mm = 88 / (228.6 + 12.7)
    assert lines["installed"].count("^") == round(12.7 * per_mm)
    assert len(lines["as made"]) == len(lines["installed"])


def test_an_extension_stands_left_of_the_open_face() -> None:
    lines = _lines(installed_mm=76.2, seat_plane_mm=292.1, probe_mm=304.8)
    assert lines["well"].startswith("~")
    assert lines["well"].count("~") == round(76.2 * 88 / (304.8 + 12.7))


def test_a_fixed_sensor_ends_short_of_the_bottom() -> None:
    lines = _lines(probe_mm=209.55)
    assert "^" not in lines["installed"]
    assert lines["installed"].index(">") < lines["well"].rindex("=")


def test_a_narrow_terminal_still_gets_a_drawing() -> None:
    assert len(drawing(Assembly(bore_depth_mm=100, tip_mm=6, installed_mm=0, seat_plane_mm=90, probe_mm=100), 10)) == 3


def test_a_character_of_the_drawing_stands_for_one_length() -> None:
    well = Assembly(bore_depth_mm=228.6, tip_mm=6.35, installed_mm=0, seat_plane_mm=215.9, probe_mm=228.6)
    assert column_mm(well, 62) == pytest.approx(241.3 / 50)


def test_a_clamped_sheath_stands_on_the_bottom_and_out_on_top() -> None:
    # 50 columns for 210 of sheath and 10 of tip, 4.4 each: 10 of sheath above the face are 2, the bore of 200 is 45
    well = Assembly(bore_depth_mm=200, tip_mm=10, installed_mm=0, seat_plane_mm=200, probe_mm=210, is_clamped=True)
    face, sheath = drawing(well, 62)
    assert face == "well       " + "  |" + "=" * 46 + "##"
    assert sheath == "clamped    " + "[" + "-" * 47 + ">"
