"""The sample for a check by hand."""

from collections.abc import Callable

import pytest

from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import HandValue
from thermowell_index.revisions.sample import draw, in_words, size_of, verdict_on

Row = Callable[..., RowMemory]


@pytest.mark.parametrize(
    "unflagged,drawn",
    [(0, 0), (5, 5), (13, 13), (14, 13), (260, 13), (261, 14), (1200, 60), (1201, 60), (9000, 60)],
)
def test_one_in_twenty_is_drawn_at_least_13_at_most_60(*, unflagged: int, drawn: int) -> None:
    assert size_of(unflagged) == drawn


def test_a_seed_draws_the_same_rows_wherever_they_stand(make_row: Row) -> None:
    rows = [make_row(f"TE-{number}", number) for number in range(300)]
    first = draw(rows, range(300), "seed")
    turned = draw(rows[::-1], range(300), "seed")
    other = draw(rows, range(300), "another seed")
    tags = [
        {listed[place].tag for place in sample.places}
        for listed, sample in ((rows, first), (rows[::-1], turned), (rows, other))
    ]
    assert tags[0] == tags[1]
    assert tags[0] != tags[2]
    assert len(first.places) == 15


def test_only_unflagged_rows_are_drawn(make_row: Row) -> None:
    rows = [make_row(f"TE-{number}", number) for number in range(40)]
    assert set(draw(rows, range(20, 40), "seed").places) <= set(range(20, 40))


def test_a_new_row_leaves_the_others_in_the_sample(make_row: Row) -> None:
    rows = [make_row(f"TE-{number}", number) for number in range(40)]
    before = {rows[place].tag for place in draw(rows[:-1], range(39), "seed").places}
    after = {rows[place].tag for place in draw(rows, range(40), "seed").places}
    assert len(before - after) <= 1


def test_a_hand_value_stays_with_its_row_and_is_laid_aside_when_the_row_changed(make_row: Row) -> None:
    rows = [make_row("TE-1"), make_row("TE-2", 6)]
    values = [
        HandValue(key="TE1", well_key="TW1", tag="TE-1", inputs=rows[0].fingerprint, answer="", value="9"),
        HandValue(key="TE2", well_key="TW2", tag="TE-2", inputs="older inputs", answer="", value="8"),
        HandValue(key="TE9", well_key="", tag="TE-9", inputs="i", answer=""),
    ]
    sample = draw(rows, [0, 1], "seed", values)
    assert [sample.values[place].value for place in (0, 1)] == ["9", ""]
    assert [(value.tag, value.value) for value in sample.earlier] == [("TE-2", "8")]
    assert sample.values[0].answer == "228.600000"
    assert in_words(sample, rows) == "2 of 2 unflagged sized rows drawn for a check by hand, 1 checked."


@pytest.mark.parametrize(
    "value,verdict",
    [
        ("9", "agrees"),
        ("228.6 mm", "agrees"),
        ("9-1/4", "differs by 1/4 in"),
        ("8.5", "differs by -1/2 in"),
        ("ask", "cannot be read"),
        ("", ""),
    ],
)
def test_a_hand_value_is_compared_with_the_length_to_order(*, make_row: Row, value: str, verdict: str) -> None:
    assert verdict_on(value, make_row("TE-1")) == verdict


def test_what_differs_is_named(make_row: Row) -> None:
    row = make_row("TE-1")
    value = HandValue(key="TE1", well_key="TW1", tag="TE-1", inputs=row.fingerprint, answer="", value="10")
    assert in_words(draw([row], [0], "s", [value]), [row]).endswith("1 checked; TE-1 differs by 1 in.")
    assert verdict_on("9", make_row("TE-1", order_mm=None)) == ""
    withheld = [make_row("TE-2", order_mm=None)]
    assert draw(withheld, [0], "s").values[0].answer == ""
