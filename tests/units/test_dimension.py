"""Every printed form of a length is read back exactly; every near miss is refused, never misread."""

import re
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermowell_index.units import Dimension, DimensionState, parse_dimension

NINE_AND_A_QUARTER = Fraction(37, 4)


def value_of(text: str, *, decimal_mark: str | None = None) -> tuple[Fraction | None, str | None]:
    read = parse_dimension(text, decimal_mark=decimal_mark)
    assert read.state is DimensionState.VALUE, read
    assert read.text == text
    return read.number, read.unit


def state_of(text: str) -> str:
    return parse_dimension(text).state.value


@pytest.mark.parametrize(
    "text",
    [
        "9.25", "9 1/4", "9-1/4", "9 - 1/4", "9- 1/4", "9 -1/4", "9.1/4", "9  1/4", "9 1 / 4", "9 4/16", "9¼",
        "9 ¼", "9-¼", "9¹⁄₄", "9 1⁄4", "９．２５", "９ １／４", "9\u00a01/4", "9\u20091/4", "9\u202f1/4", "9\u20131/4",  # noqa: RUF001 - a look-alike on purpose
        "9\u22121/4", "9\u20111/4", "9,25", "'9.25", "'9 1/4", '"9.25"', "“9.25”", "  9.25 ", "9.25.", "09.25",
        "Ø9.25", "⌀ 9 1/4", "9.25 OD", "9.250", "DIA. 9.25", "9.25 dia", "9.25 I.D.", "9.25\u200b", "\ufeff9.25",
        "9,2500",
    ],
)  # fmt: skip
def test_a_bare_number_has_no_unit(text: str) -> None:
    assert value_of(text) == (NINE_AND_A_QUARTER, None)


@pytest.mark.parametrize(
    "text",
    [
        '9.25"', '9-1/4"', '9 1/4 "', "9-1/4 in", "9 1/4 inch", "9 1/4 inches", "9¼″", "9¼''", "9 ¼ in.",
        "9.25 IN.", "9.25In", "9,25 Zoll", "9 1/4 pouces", "9 1/4 pulg.", "9,25 polegadas", "9,25 pollici",
        "9,25 duim", "9.25´´", '9.1/4"', "0'-9 1/4\"", "0' 9.25\"", "0 ft 9 1/4 in", "0 ft. 9-1/4 in.", "0’-9¼”",  # noqa: RUF001 - a look-alike on purpose
        '"9.25""', '9.25" OD', "'9 1/4\"",
    ],
)  # fmt: skip
def test_an_inch_is_known_in_every_spelling(text: str) -> None:
    assert value_of(text) == (NINE_AND_A_QUARTER, "in")


@pytest.mark.parametrize(
    "text,number,unit",
    [
        ("235", Fraction(235), None),
        ("235 mm", Fraction(235), "mm"),
        ("235mm", Fraction(235), "mm"),
        ("235 MM.", Fraction(235), "mm"),
        ("235 millimètres", Fraction(235), "mm"),
        ("235\nmm", Fraction(235), "mm"),
        ("235,5 mm", Fraction(471, 2), "mm"),
        ("23.5 cm", Fraction(47, 2), "cm"),
        ("23,5 cm", Fraction(47, 2), "cm"),
        ("0.235 m", Fraction(47, 200), "m"),
        ("0,235 m", Fraction(47, 200), "m"),
        ("0.235 metres", Fraction(47, 200), "m"),
        ("12 1/2 mm", Fraction(25, 2), "mm"),
        (".25", Fraction(1, 4), None),
        ("9.", Fraction(9), None),
        ("0", Fraction(0), None),
        ("9''", Fraction(9), "in"),
        ("9'", Fraction(9), "ft"),
        ("1.5 ft", Fraction(3, 2), "ft"),
        ("1'-3\"", Fraction(15), "in"),
        ("1'3\"", Fraction(15), "in"),
        ("1 ft 3 in", Fraction(15), "in"),
        ("1 foot 3.5 in", Fraction(31, 2), "in"),
        ('3/4"', Fraction(3, 4), "in"),
        ("1/4", Fraction(1, 4), None),
        ("⅜", Fraction(3, 8), None),
        ("⁵⁄₁₆", Fraction(5, 16), None),  # noqa: RUF001 - a look-alike on purpose
        ("9⁵⁄₁₆", Fraction(149, 16), None),  # noqa: RUF001 - a look-alike on purpose
        ("9/16", Fraction(9, 16), None),
        ("9 127/128", Fraction(1279, 128), None),
        ("Ø6", Fraction(6), None),
        ("Ø.25", Fraction(1, 4), None),
        ("Ø 6 mm", Fraction(6), "mm"),
        ("6 mm OD", Fraction(6), "mm"),
        ("6 mm dia", Fraction(6), "mm"),
        ("0.260 DIA", Fraction(13, 50), None),
        ('1/4" OD', Fraction(1, 4), "in"),
    ],
)
def test_what_a_cell_says_is_read_exactly(text: str, number: Fraction, unit: str | None) -> None:
    assert value_of(text) == (number, unit)


@pytest.mark.parametrize(
    "text,number,mark",
    [
        ("235,5", Fraction(471, 2), ","),
        ("9.25", Fraction(37, 4), "."),
        ("0,250", Fraction(1, 4), ","),
        ("0.250", Fraction(1, 4), "."),
        ("1234,567", Fraction(1234567, 1000), ","),
        ("1,2345", Fraction(12345, 10000), ","),
        ("1 234,5", Fraction(2469, 2), ","),
        ("1 234.5", Fraction(2469, 2), "."),
        ("1,234.5", Fraction(2469, 2), "."),
        ("1.234,5", Fraction(2469, 2), ","),
        ("1'234.5", Fraction(2469, 2), "."),
        ("1,234,567", Fraction(1234567), "."),
        ("1.234.567", Fraction(1234567), ","),
        ("1.234.567,8", Fraction(12345678, 10), ","),
        ("1'234", Fraction(1234), None),
        ("1\u202f234", Fraction(1234), None),
        ("1.234", Fraction(1234, 1000), None),
        ("9 1/4", Fraction(37, 4), None),
        ("235", Fraction(235), None),
    ],
)
def test_the_text_tells_its_decimal_mark_where_it_can(text: str, number: Fraction, mark: str | None) -> None:
    read = parse_dimension(text)
    assert (read.state, read.number, read.decimal_mark) == (DimensionState.VALUE, number, mark)


def test_a_comma_before_three_digits_is_settled_by_the_column_alone() -> None:
    alone = parse_dimension("1,234")
    assert (alone.state, alone.ambiguous, alone.number) == (DimensionState.UNREADABLE, True, None)
    assert value_of("1,234", decimal_mark=".") == (Fraction(1234), None)
    assert value_of("1,234 mm", decimal_mark=",") == (Fraction(1234, 1000), "mm")


def test_a_point_before_three_digits_is_a_decimal_point_unless_the_column_says_comma() -> None:
    assert value_of("1.234") == value_of("1.234", decimal_mark=".") == (Fraction(1234, 1000), None)
    assert value_of("1.234", decimal_mark=",") == (Fraction(1234), None)


@pytest.mark.parametrize("text", ["235,5", "9.25", "1.234,5", "0,250", "9 1/4"])
@pytest.mark.parametrize("mark", [".", ","])
def test_what_the_text_tells_itself_the_column_does_not_change(text: str, mark: str) -> None:
    assert value_of(text, decimal_mark=mark) == value_of(text)


def test_only_a_lost_decimal_mark_is_called_ambiguous() -> None:
    assert [text for text in ("1,234", "~12,345", "9 1/3", "230/250", "TBD") if parse_dimension(text).ambiguous] == [
        "1,234",
        "~12,345",
    ]


@pytest.mark.parametrize(
    "text,note",
    [
        ("235 (field verified)", "field verified"),
        ("235 as built", "as built"),
        ("235 As-Built", "As-Built"),
        ("as built: 235", "as built"),
        ("235 - verified", "verified"),
        ("235 mm, gemessen", "gemessen"),
        ("235 vor Ort gemessen", "vor Ort gemessen"),
        ("235 mm (vérifié)", "vérifié"),
        ("235 medido en campo", "medido en campo"),
        ("235 misurato", "misurato"),
        ("235 conferido", "conferido"),
        ("235 gemeten", "gemeten"),
        ("235*", "*"),
        ("235 **", "**"),
        ("235\nmeasured", "measured"),
        ("235 mm OD measured", "OD measured"),
        ("235 OD", ""),
        ("235 (meas'd 10/81)", "meas'd"),
        ("235 (verified in 2019)", "verified"),
        ("235 (as built 01-02-19)", "as built"),
    ],
)
def test_a_confirming_note_is_kept_beside_the_value(text: str, note: str) -> None:
    read = parse_dimension(text)
    assert (read.state, read.number, read.note) == (DimensionState.VALUE, Fraction(235), note)


@pytest.mark.parametrize(
    "text,note",
    [
        ("~9.25", "~"),
        ("≈9.25", "≈"),
        ("9.25?", "?"),
        ("9.25 ???", "???"),
        ("(9.25)?", "?"),
        ("(9.25)", "in brackets"),
        ("9 1/4 est.", "est."),
        ("9.25 EST", "EST"),
        ("approx 9.25", "approx"),
        ("approx. 9 1/4", "approx."),
        ("9 1/4 TBC", "TBC"),
        ("9.25 (to be confirmed)", "to be confirmed"),
        ("9.25 or so", "or so"),
        ("ca.9,25", "ca."),
        ("9.25 not verified", "not verified"),
        ("9.25 verified (TBC)", "verified (TBC)"),
        ("ca. 9,25", "ca."),
        ("9,25 zu prüfen", "zu prüfen"),
        ("9,25 nicht gemessen", "nicht gemessen"),
        ("env. 9,25", "env."),
        ("9,25 à confirmer", "à confirmer"),
        ("aprox. 9,25", "aprox."),
        ("9,25 por confirmar", "por confirmar"),
        ("9,25 da verificare", "da verificare"),
        ("9,25 não verificado", "não verificado"),
        ("ongeveer 9,25", "ongeveer"),
    ],
)
def test_a_doubting_note_takes_the_value_away_but_keeps_the_number(text: str, note: str) -> None:
    read = parse_dimension(text)
    assert (read.state, read.number, read.note) == (DimensionState.DOUBTFUL, NINE_AND_A_QUARTER, note)


@pytest.mark.parametrize(
    "text",
    [
        "230/250", "230 / 250 mm", "9 - 10", "9-10", "9–10", "9 to 10", "9 TO 10", "9 or 10", "9 bis 10",  # noqa: RUF001 - a look-alike on purpose
        "9 oder 10", "9 à 10", "9 a 10", "9 ou 10", "9 tot 10", "9 of 10", "9 and 10", "9 & 10", "9; 10", "9, 10",
        "9..10", "9 … 10", '9" or 10"', "9 1/4 - 9 1/2", "230 mm / 250 mm", "230 240", "1 234", "230\n240", "1/3",
        "9 1/4 (230)", "1/25", "51/2", "203/8", '101/4"', '5",5"', "235 mm / 235 mm", '0.1" / 2 mm', "10 (10)", "225/9",
        "230/240/250", "16/8", "6/8 mm", "1'-3", "1.5' 3\"",
        "235 mm [9.5 in]", "9-1/4 in (230 mm)",
    ],
)  # fmt: skip
def test_two_numbers_are_a_range(text: str) -> None:
    read = parse_dimension(text)
    assert (read.state, read.number) == (DimensionState.RANGE, None)


@pytest.mark.parametrize(
    "text,number,unit",
    [
        ("9-1/4 in (235 mm)", NINE_AND_A_QUARTER, "in"),
        ("235 mm [9.25 in]", Fraction(235), "mm"),
        ('9.25" / 235 mm', NINE_AND_A_QUARTER, "in"),
        ("235 mm = 9-1/4 in", Fraction(235), "mm"),
        ("1'-3\" (381 mm)", Fraction(15), "in"),
        ("235 mm (9-1/4 in) verified", Fraction(235), "mm"),
        ("9 1/4 (235)", NINE_AND_A_QUARTER, "in"),
        ("235 [9-1/4]", Fraction(235), "mm"),
        ("9.25 / 235", NINE_AND_A_QUARTER, "in"),
        ('9.25" (235)', NINE_AND_A_QUARTER, "in"),
        ("235 (9.25 in)", Fraction(235), "mm"),
        # 1/32 in is 0.79375 mm: 9.25 in is 234.95 mm
        ("9.25 in (235.74375 mm)", NINE_AND_A_QUARTER, "in"),
    ],
)
def test_one_length_in_two_units_is_the_first(text: str, number: Fraction, unit: str) -> None:
    assert value_of(text) == (number, unit)


def test_two_units_that_differ_by_more_than_a_thirty_second_are_a_range() -> None:
    assert state_of("9.25 in (235.74376 mm)") == "range"


@pytest.mark.parametrize(
    "text",
    [
        "-9", "- 9", "−9.25", "-1/4", "+235", "235 ±1", "235 +2/-0", "<230", "> 230", "min 230", "9 5/4", "9 1/3",  # noqa: RUF001 - a look-alike on purpose
        "9 4/4", "9 0/4", "9 1/0", "9-1/4-", "9 1/256", "2 x 4 in", "2x4", "6×150", "#REF!", "#N/A", "#DIV/0!",  # noqa: RUF001 - a look-alike on purpose
        "9.25E0", "1E3", "1e-3", "235 see note 3", "235 rev B", "235 M", "M20x1.5", "1/2 NPT", "DN50", "L=235",
        "No. 9", "9th", "#9", "235)", "(235", "235,", "235 -", "235()", ",25", "1.234.56", "1,23,456", "1.2.3",
        "12.345.67", "'9'", '"9', "1'-14\"", "1'-12\"", "1'011\"", "9²", "9⅓", "٣", "235 mmm", "235 in mm",
        "in 235", "2004-09-01", "1/9/2004", "nine", "235 mm see drawing", "2 off 235", "∞", "nan", "inf", "0x10",
        "1_000", "mm", "9 1/4 in long", "OD.25", "1 ft.3 in", "dia.6", "*/0.4", "235 ./", "as-built-235",
        "9.25 in (1.2.3 mm)",
        "9 1/4 (measured 9/16)",
        "235 (per dwg 2019)",
        "9.25 measured 2019",
    ],
)  # fmt: skip
def test_anything_else_is_refused(text: str) -> None:
    assert parse_dimension(text) == Dimension(state=DimensionState.UNREADABLE, text=text)


@pytest.mark.parametrize("text", ["", "  ", "TBD", "HOLD 3", "n.a.", "--", "?", "'TBD"])
def test_a_placeholder_is_a_missing_value(text: str) -> None:
    assert parse_dimension(text) == Dimension(state=DimensionState.MISSING, text=text)


WHOLES = st.integers(min_value=0, max_value=400)
SIXTY_FOURTHS = st.integers(min_value=1, max_value=63)
BETWEEN = st.sampled_from([" ", "-", " - ", ".", "\u00a0", "\u2009", "\u2013", "\u2212", "  "])
SLASH = st.sampled_from(["/", " / ", "\u2044"])
SUFFIX = st.sampled_from(
    [("", None), (" ", None), (" in", "in"), ('"', "in"), (" in.", "in"), ("″", "in"), ("''", "in"), (" INCHES", "in"),
     (" mm", "mm"), ("mm", "mm"), (" MM.", "mm"), (" cm", "cm"), (" m", "m"), (" ft", "ft")]
)  # fmt: skip
LEAD = st.sampled_from(["", " ", "Ø", "Ø ", "\u00a0"])


@settings(deadline=None)
@given(whole=WHOLES, over=SIXTY_FOURTHS, between=BETWEEN, slash=SLASH, lead=LEAD, suffix=SUFFIX)
def test_every_printed_fraction_reads_back_exactly(
    whole: int, over: int, between: str, slash: str, lead: str, suffix: tuple[str, str | None]
) -> None:
    fraction = Fraction(over, 64)
    printed = f"{lead}{whole}{between}{fraction.numerator}{slash}{fraction.denominator}{suffix[0]}"
    assert value_of(printed) == (whole + fraction, suffix[1])


@settings(deadline=None)
@given(
    digits=st.decimals(min_value=0, max_value=4000, places=3, allow_nan=False),
    places=st.sampled_from([1, 2]),
    mark=st.sampled_from([".", ","]),
    lead=LEAD,
    suffix=SUFFIX,
)
def test_every_printed_decimal_reads_back_exactly(
    digits: float, places: int, mark: str, lead: str, suffix: tuple[str, str | None]
) -> None:
    printed = f"{digits:.{places}f}"
    text = f"{lead}{printed.replace('.', mark)}{suffix[0]}"
    assert value_of(text) == (Fraction(printed), suffix[1])


@settings(deadline=None)
@given(
    feet=st.integers(0, 30),
    inches=st.integers(0, 11),
    over=st.integers(0, 63),
    dash=st.sampled_from(["", " ", "-", " - "]),
)
def test_every_printed_foot_and_inch_reads_back_exactly(feet: int, inches: int, over: int, dash: str) -> None:
    fraction = Fraction(over, 64)
    rest = f" {fraction}" if over else ""
    assert value_of(f"{feet}'{dash}{inches}{rest}\"") == (12 * feet + inches + fraction, "in")


FOOT = r"'[ \xa0]*-?"
LITERAL_READINGS = (
    # marks between the groups of digits, parted by _, and what the groups then say
    (r"", lambda one: [Fraction(one)]),
    (r"[.,]", lambda one, two: [Fraction(f"{one}.{two}")]),
    (r"/", lambda one, two: [Fraction(f"{one}/{two}")]),
    (r"['\xa0]", lambda one, two: [Fraction(one + two)]),
    (FOOT, lambda one, two: [12 * Fraction(one) + Fraction(two)]),
    (r"[- .\xa0]_/", lambda one, two, three: [Fraction(one) + Fraction(f"{two}/{three}")]),
    (r"[^.,]_[.,]|,_\.|\._,", lambda one, two, three: [Fraction(f"{one}{two}.{three}")]),
    (r",_,|\._\.", lambda one, two, three: [Fraction(one + two + three)]),
    (rf"{FOOT}_\.", lambda one, two, three: [12 * Fraction(one) + Fraction(f"{two}.{three}")]),
    (rf"{FOOT}_/", lambda one, two, three: [12 * Fraction(one) + Fraction(f"{two}/{three}")]),
    (
        rf"{FOOT}_[- .\xa0]_/",
        lambda one, two, three, four: [12 * Fraction(one) + Fraction(two) + Fraction(f"{three}/{four}")],
    ),
)


def literal_readings(text: str) -> set[Fraction]:
    """All that a person could take the digits for, by the marks between them."""
    for vulgar, spelled in {"¼": " 1/4 ", "½": " 1/2 ", "″": '"', "''": '"', "–": "-"}.items():  # noqa: RUF001 - on purpose
        text = text.replace(vulgar, spelled)
    text = re.sub(r"(?<![a-z0-9])\.(?=[0-9])", "0.", re.sub(" +", " ", text))
    groups = re.findall(r"[0-9]+", text)
    between = "_".join(mark.strip() or mark for mark in re.findall(r"(?<=[0-9])[^0-9]+(?=[0-9])", text))
    return {
        reading
        for marks, read in LITERAL_READINGS
        if groups and re.fullmatch(marks, between) and not re.search(r"/ ?0+\b", text)
        for reading in read(*groups)
    }


PRINTED = st.sampled_from(
    ["9 1/4", "9-1/4 in", '9.25"', "9¼", "235,5 mm", "1 234,5", "1,234.5", "0'-9 1/4\"", "1'-3\"", "235*", "Ø6 mm",
     "3/4", ".25", "12 5/16 in.", "23.5 cm", "~230", "235 as built", "0.250", "10-1/2", "9 11/64"]
)  # fmt: skip
SLIPS = st.sampled_from("0123456789.,/-' abinxEe?*¼½\u2013()+&\xa0~ODØ")
CUTS = st.lists(st.tuples(st.integers(0, 20), SLIPS), min_size=1, max_size=3)


@settings(deadline=None)
@given(printed=PRINTED, cuts=CUTS, replaces=st.booleans())
def test_a_slip_of_the_hand_is_refused_or_read_as_it_stands(
    printed: str,
    cuts: list[tuple[int, str]],
    replaces: bool,  # noqa: FBT001 - hypothesis passes by name
) -> None:
    text = printed
    for place, char in cuts:
        text = text[:place] + char + text[place + replaces :]
    read = parse_dimension(text)
    if read.state is DimensionState.VALUE:
        assert read.number in literal_readings(text), (text, read)


@settings(deadline=None)
@given(text=st.text(max_size=12))
def test_no_text_ever_raises(text: str) -> None:
    assert parse_dimension(text).text == text


@pytest.mark.parametrize(
    "text,misread",
    [("9 1/4 in", 2.25), ("1 1/2 in", 0.5), ("9¼ in", 9), ("8 5/8 in", 5)],
)
def test_a_unit_library_misreads_mixed_fractions_so_the_number_is_read_here(text: str, misread: float) -> None:
    library: pint.UnitRegistry[float] = pint.UnitRegistry()
    assert library.parse_expression(text).m_as("inch") == misread
    assert value_of(text)[0] != misread
