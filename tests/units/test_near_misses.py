"""A length with a slip of the hand in it is refused, or it says another length that anybody would read in it."""

import re
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from thermowell_index.units import DimensionState, parse_dimension

SLIPS = '0123456789/.,- "mx~?'
BELOW = {2, 4, 8, 16, 32, 64, 128}
UNIT = re.compile(r"(?P<body>.*?)[ .]*(?P<unit>mm|m|in|\"|''|)\.?", re.DOTALL)


def proper(above: str, below: str) -> Fraction | None:
    part = Fraction(int(above), int(below)) if int(below) in BELOW else Fraction(1)
    return part if 0 < part < 1 else None


TWO_UNITS = re.compile(r"(?P<inches>\d+(?:\.\d+)?) ?/ ?(?P<mm>\d{2,}(?:\.\d+)?)")
INCH = Fraction("25.4")
PLAIN = re.compile(r"(?P<whole>\d*)(?:[.,](?P<decimals>\d+))?")
GROUPED = re.compile(r"(?P<first>\d{1,3})(?P<mark>[.,]| +)(?P<second>\d{3})(?:(?!(?P=mark))[.,](?P<decimals>\d+))?")
GROUPED_TWICE = re.compile(r"\d{1,3}([.,])\d{3}\1\d{3}")
MIXED = re.compile(r"(?P<whole>\d+)(?: *- *| +|\.)(?P<part>\d+ */ *\d+)")


def as_anybody_reads_it(text: str) -> Fraction | None:
    """The number of a length by plain rules of its own: whole, decimal, grouped by thousands, fraction, mixed."""
    text = text.strip(" ")
    quoted = text[1:].removesuffix('"') if text.startswith('"') and text.endswith('"') else text
    if (pair := TWO_UNITS.fullmatch(quoted)) and abs(Fraction(pair["inches"]) * INCH - Fraction(pair["mm"])) < 1:
        return Fraction(pair["inches"])
    match = UNIT.fullmatch(quoted.strip(" "))
    body, unit = (match["body"], match["unit"]) if match else ("", "")
    if (found := PLAIN.fullmatch(body)) and body:
        return Fraction(f"{found['whole'] or 0}.{found['decimals'] or 0}")
    if found := GROUPED.fullmatch(body):
        return Fraction(f"{found['first']}{found['second']}.{found['decimals'] or 0}")
    if GROUPED_TWICE.fullmatch(body):
        return Fraction(re.sub("[.,]", "", body))
    if found := MIXED.fullmatch(body):
        part = proper(*found["part"].split("/"))
        return None if part is None else int(found["whole"]) + part
    is_fraction = body.count("/") == 1 and not body.replace("/", "").replace(" ", "").strip("0123456789")
    return proper(*body.split("/")) if is_fraction and all(body.split("/")) and unit not in {"mm", "m"} else None


WHOLE = st.sampled_from([1, 5, 9, 12, 235, 1234])
PART = st.sampled_from([2, 4, 8, 16]).flatmap(lambda below: st.integers(1, below - 1).map(lambda n: f"{n}/{below}"))
FORM = st.sampled_from(
    ["{whole} {part}", "{whole}-{part}", "{whole}.25", "{whole},5", "{whole}.0625", "{whole}", "{part}"]
)
PLACE = st.floats(0, 1, exclude_max=True)
SLIP = st.tuples(PLACE, st.sampled_from([*SLIPS, ""]), st.integers(0, 1))


def slipped(text: str, slips: list[tuple[float, str, int]]) -> str:
    for place, typed, lost in slips:
        at = int(place * (len(text) + 1))
        text = text[:at] + typed + text[at + lost :]
    return text


@settings(max_examples=1500, deadline=None, derandomize=True)
@given(
    whole=WHOLE, part=PART, form=FORM, unit=st.sampled_from(["", " mm", '"', " in"]), slips=st.lists(SLIP, max_size=2)
)
def test_a_slip_is_refused_or_says_what_anybody_reads(
    whole: int, part: str, form: str, unit: str, slips: list[tuple[float, str, int]]
) -> None:
    text = slipped(form.format(whole=whole, part=part) + unit, slips)
    read = parse_dimension(text)
    assert read.state is not DimensionState.VALUE or read.number == as_anybody_reads_it(text)
