"""Lengths calculated by hand against those to order."""

from collections.abc import Callable
from dataclasses import replace

from thermowell_index.revisions.hand_values import hand_check
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import HandValue

Row = Callable[..., RowMemory]


def value_for(row: RowMemory, value: str, **changes: str) -> HandValue:
    made = HandValue(key=row.key, well_key=row.well_key, tag=row.tag, inputs=row.fingerprint, answer="", value=value)
    return replace(made, **changes)


def test_lengths_by_hand_agree_differ_or_have_lapsed(make_row: Row) -> None:
    rows = [make_row(f"TE-{number}", number) for number in range(1, 6)]
    found = hand_check(
        [
            value_for(rows[0], "9"),
            value_for(rows[1], "9-1/4", checked_by="A. B."),
            value_for(rows[2], "about nine"),
            value_for(rows[3], ""),
            value_for(rows[4], "8", inputs="as it was"),
            value_for(rows[4], "", inputs="as it was before"),
        ],
        rows,
    )
    assert (found.drawn, found.agreeing, found.lapsed) == (4, 1, ["TE-5"])
    assert list(found.differing) == ["TE-2 differs by 1/4 in (9-1/4, by A. B.)", "TE-3 cannot be read (about nine)"]
    assert list(found.sentences()) == [
        "QA sample: 1 of 4 rows agree with a calculation by hand.",
        f"Calculated by hand, and not the length to order: {'; '.join(found.differing)}: not signed off.",
        "Calculated by hand for rows that have changed since or left the index: TE-5.",
    ]


def test_nothing_drawn_says_nothing() -> None:
    assert list(hand_check([], []).sentences()) == []
