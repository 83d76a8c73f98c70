"""What a description in one string states: length, diameter, thread."""

import math

import pytest

from thermowell_index.stock_description import described

NAN = math.nan
IN = 25.4


@pytest.mark.parametrize(
    "text,length,diameter,thread",
    [
        ("RTD PT100 DUPLEX 6MM X 375MM 1/2NPT SS316", 375.0, 6.0, "1/2NPT"),
        ('PT100 1/4" X 9" 1/2NPT', 9 * IN, 6.35, "1/2NPT"),
        ('PT 100 1/4" X 9-1/4" 1/2 NPT', 9.25 * IN, 6.35, "1/2 NPT"),
        ('T/C TYPE K 1/4" OD X 12" 1/2 NPT', 12 * IN, 6.35, "1/2 NPT"),
        ("RTD 1/4 IN X 9 IN", 9 * IN, 6.35, ""),
        ("RTD 6x375mm M20x1.5", 375.0, 6.0, "M20x1.5"),
        ("RTD 6,0 \u00d7 375,5 mm G 1/2", 375.5, 6.0, "G 1/2"),
        ("RTD Ø6 x 375 mm", 375.0, 6.0, ""),
        ('RTD 1/4"X9-1/4"X1/2NPT', 9.25 * IN, 6.35, "1/2NPT"),
        ("RTD L=375MM", 375.0, NAN, ""),
        ("RTD 6MM L: 375 mm", 375.0, 6.0, ""),
        ("RTD 375 LG", 375.0, NAN, ""),
        ("RTD 6mm dia 228 mm long", 228.0, 6.0, ""),
        ("RTD 6MM X 375MM, L=375MM", 375.0, 6.0, ""),
        ("RTD with head, 6MM X 375MM", 375.0, 6.0, ""),
        ("RTD 1/4 X 9 1/2NPT", NAN, NAN, "1/2NPT"),
        ('RTD 1/4" 9" 1/2 NPT', NAN, 6.35, "1/2 NPT"),
        ("RTD 9 LG", NAN, NAN, ""),
        ("RTD 6MM X 375MM or 6MM X 400MM", NAN, 6.0, ""),
        ("RTD 6MM X 375MM, L=400MM", NAN, 6.0, ""),
        ("RTD 6 x 0.5 x 375 mm", NAN, NAN, ""),
        ("RTD with cable 2000 mm long", NAN, NAN, ""),
        ("RTD 2000 mm long cable", NAN, NAN, ""),
        ("RTD 100 mm x 200 mm", NAN, NAN, ""),
        ("RTD 1/2 NPT x 1/2 NPT", NAN, NAN, "1/2 NPT"),
        ("RTD 1/2 NPT, head M20x1.5", NAN, NAN, ""),
        ("RTD 6.35 x 1/2 NPT", NAN, NAN, "1/2 NPT"),
        ("", NAN, NAN, ""),
    ],
)
def test_a_description_is_read_where_it_says_one_thing(text: str, length: float, diameter: float, thread: str) -> None:
    found = described(text)
    assert found.length.length_mm == pytest.approx(length, nan_ok=True)
    assert found.diameter.length_mm == pytest.approx(diameter, nan_ok=True)
    assert found.thread == thread


@pytest.mark.parametrize(
    "text,length",
    [
        ('RTD 1/4" 9" 1/2 NPT', 9 * IN),
        ("RTD 9 in", 9 * IN),
        ("RTD 6MM X 375MM", 375.0),
        ("RTD for thermowell 9 in", NAN),
        ("RTD with 48 in leads", NAN),
        ("RTD 9 in, nipple 4 in", 9 * IN),
        ("RTD 9 in, U 7 in", 9 * IN),
        ("RTD 9 in 12 in", NAN),
    ],
)
def test_a_length_that_is_mentioned_may_contradict_a_column(text: str, length: float) -> None:
    assert described(text).mentioned.length_mm == pytest.approx(length, nan_ok=True)
