"""Thread designations, engagement against the published tables, and which threads mate."""

import math
from fractions import Fraction

import pytest

from thermowell_index.threads import Thread, engagement_mm, mates, parse_thread, turn_mm

HALF = Fraction(1, 2)


def thread(text: str) -> Thread:
    read = parse_thread(text)
    assert read is not None, text
    assert read.text == text
    return read


@pytest.mark.parametrize(
    "text,family,size,gender",
    [
        ("1/2 NPT", "NPT", HALF, None),
        ('1/2" NPT', "NPT", HALF, None),
        ("1/2NPT", "NPT", HALF, None),
        ("1/2 in. NPT", "NPT", HALF, None),
        ("½ FNPT", "NPT", HALF, "female"),
        ("1/2 MNPT", "NPT", HALF, "male"),
        ('1/2" NPT (M)', "NPT", HALF, "male"),
        ('1/2" (F)NPT', "NPT", HALF, "female"),
        ("NPT 1/2 F", "NPT", HALF, "female"),
        ("M 1/2 NPT", "NPT", HALF, "male"),
        ('1/2"NPT-M', "NPT", HALF, "male"),
        ("1/2 NPT/F", "NPT", HALF, "female"),
        ("1/2 NPT INT.", "NPT", HALF, "female"),
        ("1/2 NPT-F", "NPT", HALF, None),
        ("1/2 NPTF", "NPT", HALF, None),
        ("1/2 N.P.T.", "NPT", HALF, None),
        ("1/2-14 NPT", "NPT", HALF, None),
        ("1/2 NPT thread", "NPT", HALF, None),
        ("0.5 NPT", "NPT", HALF, None),
        ("0,5 NPT", "NPT", HALF, None),
        ("DN15 NPT", "NPT", HALF, None),
        ('3/4" NPT', "NPT", Fraction(3, 4), None),
        ('1" NPT', "NPT", Fraction(1), None),
        ("1-11 1/2 NPT", "NPT", Fraction(1), None),
        ("1-1/2 NPT", "NPT", Fraction(3, 2), None),
        ("1 1/2-11.5 NPT", "NPT", Fraction(3, 2), None),
        ("2-1/2 NPT", "NPT", Fraction(5, 2), None),
        ("1/2 NPSM", "NPSM", HALF, None),
        ("1/2 NPSL", "NPSL", HALF, None),
        ("G1/2 A", "G", HALF, "male"),
        ("G 1/2 B", "G", HALF, "male"),
        ('G 1/2"', "G", HALF, None),
        ("G½", "G", HALF, None),
        ("G 1/2 Innengewinde", "G", HALF, "female"),
        ("BSPP 1/2", "G", HALF, None),
        ("1/2 BSP parallel", "G", HALF, None),
        ("1/2 BSPT", "R", HALF, None),
        ("BSPT 1/2 female", "Rc", HALF, "female"),
        ("R 1/2", "R", HALF, None),
        ('R 1/2" (M)', "R", HALF, "male"),
        ("Rc 1/2", "Rc", HALF, "female"),
        ("RP 1/2", "Rp", HALF, "female"),
        ("M20x1.5", "M", Fraction(20), None),
        ("M20 x 1,5", "M", Fraction(20), None),
        ("m18X1.5", "M", Fraction(18), None),
        ("M 20 × 1.5", "M", Fraction(20), None),  # noqa: RUF001 - a look-alike on purpose
        ("M20", "M", Fraction(20), None),
        ("M20x1.5 female", "M", Fraction(20), "female"),
        ("M20x1.5-6H", "M", Fraction(20), "female"),
        ("M20x1.5-6g", "M", Fraction(20), "male"),
        ("M20x1.5-6G", "M", Fraction(20), None),
    ],
)
def test_a_designation_is_read(text: str, family: str, size: Fraction, gender: str | None) -> None:
    read = thread(text)
    assert (read.family, read.size, read.gender) == (family, size, gender)


@pytest.mark.parametrize(
    "text",
    [
        "", "TBD", "NPT", "MNPT", "1/2", '1/2"', "1/2 BSP", "1/2 NPS", "1/2 UNF", "1/2-18 NPT", "15 NPT",
        "1/3 NPT", "DN17 NPT", "1/2 NPT x 3/4 NPT", "1/2 x 3/4 NPT", "1/2 NPT M F", "M NPT 1/2 F", "R 1/2 F",
        "Rc 1/2 male", "NPT 1/2 A", "M20x15", "M0x1", "M20x0", "M20x1.5-6H male", "M20x1.5x30", "1/2 NPTM",
        "flange 1/2 NPT", "M" + "9" * 5000, "9" * 5000 + " NPT",
    ],
)  # fmt: skip
def test_what_is_not_surely_one_thread_is_refused(text: str) -> None:
    assert parse_thread(text) is None


def test_a_pitch_comes_from_the_text_or_from_the_table() -> None:
    assert [thread(text).pitch_mm for text in ("M20x1.5", "M20", "2-1/2 NPT")] == [1.5, None, None]
    assert thread("2-1/2-8 NPT").pitch_mm == 25.4 / 8
    # ISO 228-1, table 1 (engineeringhardware.com): pitches of G 1/8, 1/4, 3/8, 1/2, 3/4, 1
    published = {"1/8": 0.907, "1/4": 1.337, "3/8": 1.337, "1/2": 1.814, "3/4": 1.814, "1": 2.309}
    for size, pitch_mm in published.items():
        assert thread(f"G {size}").pitch_mm == pytest.approx(pitch_mm, abs=0.0005)


def test_a_thread_is_a_cone_or_a_cylinder() -> None:
    taper = [
        text
        for text in ("1/2 NPT", "1/2 NPSM", "R 1/2", "Rc 1/2", "Rp 1/2", "G 1/2", "M20x1.5")
        if thread(text).is_taper
    ]
    assert taper == ["1/2 NPT", "R 1/2", "Rc 1/2"]
    assert thread("Rp 1/2").is_parallel
    assert not thread("Rp 1/2").seats_on_shoulder
    assert thread("G 1/2").seats_on_shoulder


# ASME B1.20.1, basic dimensions: size, D, threads per inch, L1, L2, E0, E1 (inches);
# piping-designer.com/National_Pipe_Thread and two further public copies; L3 is 3 pitches in these sizes
NPT_PUBLISHED = [
    ("1/8", "0.405", "27", 0.1615, 0.2639, 0.36351, 0.37360),
    ("1/4", "0.540", "18", 0.2278, 0.4018, 0.47739, 0.49163),
    ("3/8", "0.675", "18", 0.2400, 0.4078, 0.61201, 0.62701),
    ("1/2", "0.840", "14", 0.3200, 0.5337, 0.75843, 0.77843),
    ("3/4", "1.050", "14", 0.3390, 0.5457, 0.96768, 0.98887),
    ("1", "1.315", "11.5", 0.4000, 0.6828, 1.21363, 1.23863),
    ("1-1/4", "1.660", "11.5", 0.4200, 0.7068, 1.55713, 1.58338),
    ("1-1/2", "1.900", "11.5", 0.4200, 0.7235, 1.79609, 1.82234),
    ("2", "2.375", "11.5", 0.4360, 0.7565, 2.26902, 2.29627),
]


@pytest.mark.parametrize("size,outside,per_inch,l1,l2,e0,e1", NPT_PUBLISHED)
def test_the_published_npt_table_agrees_with_the_formulas_of_its_standard(
    size: str, outside: str, per_inch: str, l1: float, l2: float, e0: float, e1: float
) -> None:
    diameter, n = float(outside), float(per_inch)
    assert (0.8 * diameter + 6.8) / n == pytest.approx(l2, abs=0.0001), size
    assert diameter - (0.05 * diameter + 1.1) / n == pytest.approx(e0, abs=0.00001)
    assert 16 * (e1 - e0) == pytest.approx(l1, abs=0.0005)


@pytest.mark.parametrize("size,per_inch,l1", [(row[0], row[2], row[3]) for row in NPT_PUBLISHED])
def test_npt_engagement_is_l1_and_l3_to_an_eighth_and_off_by_less_than_a_turn(
    size: str, per_inch: str, l1: float
) -> None:
    npt = thread(f"{size} NPT")
    made_up_mm = 25.4 * (l1 + 3 / float(per_inch))
    assert turn_mm(npt) == pytest.approx(25.4 / float(per_inch))
    assert engagement_mm(npt) / 3.175 == pytest.approx(round(engagement_mm(npt) / 3.175), abs=1e-9)
    assert abs(engagement_mm(npt) - made_up_mm) <= 3.175 / 2
    assert abs(engagement_mm(npt) - made_up_mm) < turn_mm(npt)


def test_half_inch_npt_swallows_half_an_inch() -> None:
    # common practice, no source; L1 + L3 = 0.320 + 3/14 = 0.5343 in, 0.034 in more: half a turn
    assert engagement_mm(thread("1/2 NPT")) == 12.7
    # 3/8, 1/2, 5/8, 3/4 in
    assert [engagement_mm(thread(f"{size} NPT")) for size in ("1/4", "3/4", "1", "2")] == [9.525, 12.7, 15.875, 19.05]


# ISO 7-1, table 1, read from reprints of the identical JIS B 0203:1999: size, threads per 25.4 mm, gauge length,
# its tolerance (1 turn), fitting allowance, useful thread, all mm
ISO_7_PUBLISHED = [
    ("1/8", 28, 3.97, 0.91, 2.5, 6.47),
    ("1/4", 19, 6.01, 1.34, 3.7, 9.71),
    ("3/8", 19, 6.35, 1.34, 3.7, 10.05),
    ("1/2", 14, 8.16, 1.81, 5.0, 13.16),
    ("3/4", 14, 9.53, 1.81, 5.0, 14.53),
    ("1", 11, 10.39, 2.31, 6.4, 16.79),
    ("1-1/4", 11, 12.70, 2.31, 6.4, 19.10),
    ("1-1/2", 11, 12.70, 2.31, 6.4, 19.10),
    ("2", 11, 15.88, 2.31, 7.5, 23.38),
]


@pytest.mark.parametrize("size,per_inch,gauge,one_turn,allowance,useful", ISO_7_PUBLISHED)
def test_r_engagement_is_the_gauge_length_and_the_wrenching(
    size: str, per_inch: int, gauge: float, one_turn: float, allowance: float, useful: float
) -> None:
    taper = thread(f"R {size}")
    assert gauge + allowance == pytest.approx(useful)
    assert turn_mm(taper) == pytest.approx(25.4 / per_inch) == pytest.approx(one_turn, abs=0.005)
    # wrenching is what the fitting allowance leaves beyond the 1-1/4 turns of a wide internal thread;
    # the table prints the allowance to 0.1 mm and the gauge length to 0.01 mm
    wrenching_mm = allowance - 1.25 * turn_mm(taper)
    assert engagement_mm(taper) == pytest.approx(gauge + wrenching_mm, abs=0.055)
    assert engagement_mm(taper) < useful
    assert engagement_mm(thread(f"Rc {size}")) == engagement_mm(thread(f"Rp {size}")) == engagement_mm(taper)


def test_half_inch_r_swallows_its_gauge_length_and_a_turn_and_a_half() -> None:
    # 8.16 + 1.5 x 25.4/14 = 10.88 mm
    assert engagement_mm(thread("R 1/2")) == pytest.approx(8.16 + 1.5 * 25.4 / 14)


@pytest.mark.parametrize("text", ["G 1/2", "M20x1.5", "M20", "1/2 NPSM", "1/2 NPSL", "G 5/8"])
def test_a_thread_on_a_shoulder_swallows_nothing_and_stops_surely(text: str) -> None:
    assert (engagement_mm(thread(text)), turn_mm(thread(text))) == (0.0, 0.0)


@pytest.mark.parametrize("text", ["2-1/2 NPT", "R 3"])
def test_a_size_without_a_table_has_no_engagement(text: str) -> None:
    assert math.isnan(engagement_mm(thread(text)))
    assert math.isnan(turn_mm(thread(text)))


@pytest.mark.parametrize(
    "male,female,reason",
    [
        ("1/2 NPT", "1/2 NPT", None),
        ("1/2 NPT (M)", "1/2 NPT (F)", None),
        ("1/2 NPT", "1/2 NPSM", None),
        ("R 1/2", "Rc 1/2", None),
        ("R 1/2", "Rp 1/2", None),
        ("G 1/2 A", "G 1/2", None),
        ("M20x1.5", "M20x1.5", None),
        ("M20x1.5", "M20", None),
        ("1/2 NPT (F)", "1/2 NPT (M)", None),  # they still screw together, the other way round
        ("Rc 1/2", "R 1/2", None),
        ("1/2 NPT", "G 1/2", "NPT on G"),
        ("1/2 NPT", "Rc 1/2", "NPT on Rc"),
        ("M20x1.5", "1/2 NPT", "M on NPT"),
        ("G 1/2", "Rp 1/2", "G on Rp"),
        ("R 1/2", "G 1/2", "taper on parallel"),
        ("1/2 NPT", "1/2 NPSL", "taper on parallel"),
        ("1/2 NPSM", "1/2 NPT", "parallel on taper"),
        ("1/2 NPT", "3/4 NPT", "sizes differ"),
        ("M18x1.5", "M20x1.5", "sizes differ"),
        ("M20x1.5", "M20x2", "pitches differ"),
        ("1/2 MNPT", "1/2 MNPT", "male on male"),
        ("1/2 FNPT", "1/2 FNPT", "female on female"),
    ],
)
def test_threads_mate_or_the_reason_is_said(male: str, female: str, reason: str | None) -> None:
    assert mates(thread(male), thread(female)) == reason
