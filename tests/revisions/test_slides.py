"""Lengths that slid from row to row between two issues."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import pytest

from thermowell_index.findings import Finding
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import PreviousRun
from thermowell_index.revisions.slides import Limits, RowsNow, slid_since

LABELS = {"bore_depth": "bore depth", "overall_length": "overall length"}
LIMITS = Limits(rows=5, farthest=3)
BORES = ("9", "12", "6", "15", "10.5", "7.5", "18", "8.25")


def cells(bores: Sequence[str], **others: Sequence[str]) -> list[dict[str, str]]:
    columns = {"bore_depth": bores, **others}
    return [{name: values[place] for name, values in columns.items()} for place in range(len(bores))]


def before(lines: Sequence[dict[str, str]], **more: Any) -> PreviousRun:
    rows = [
        RowMemory(
            tag=f"TE-{place}", well_tag="", key=f"TE{place}", well_key="", loop="", letters="TE", sheet="Index",
            row=place, cells=line,
        )
        for place, line in enumerate(lines)
    ]  # fmt: skip
    return PreviousRun(findings={}, content_fingerprint="", rows=rows, **more)


def slid(then: Sequence[dict[str, str]], now: Sequence[dict[str, str]], **changes: Any) -> list[str]:
    rows = RowsNow(cells=now, tables=[0] * len(now), before=changes.pop("places", range(len(now))))
    return slid_since(rows, changes.pop("previous", before(then)), LABELS, LIMITS)


@pytest.mark.parametrize(
    "step,row",
    [(1, "row above"), (-1, "row below"), (2, "second row above"), (-3, "third row below")],
)
def test_a_column_that_slid_is_named_with_its_way(step: int, row: str) -> None:
    moved = [BORES[(place - step) % len(BORES)] for place in range(len(BORES))]
    words = f"the bore depth of each is what the {row} it had in the issue before"

    found = slid(cells(BORES), cells(moved))

    whole = range(step, len(BORES)) if step > 0 else range(len(BORES) + step)
    assert found == [words if place in whole else "" for place in range(len(BORES))]


def test_two_columns_that_slid_together_are_named_together() -> None:
    overall = [f"{float(bore) + 0.25:g}" for bore in BORES]
    now = cells(("1", *BORES[:-1]), overall_length=("2", *overall[:-1]))

    found = slid(cells(BORES, overall_length=overall), now)

    assert found[3] == "the bore depth and overall length of each is what the row above it had in the issue before"


@pytest.mark.parametrize(
    "now",
    [
        BORES,
        ("9", *BORES[:4], "7.5", "18", "8.25"),
        tuple(f"{float(bore) + 1:g}" for bore in BORES),
        ("", "", "", "", "", "", "", ""),
    ],
    ids=["unchanged", "four rows, below the limit", "other lengths", "emptied"],
)
def test_what_has_not_slid_is_left_alone(now: Sequence[str]) -> None:
    assert set(slid(cells(BORES), cells(now))) == {""}


def test_five_changed_rows_are_enough() -> None:
    now = ("9", *BORES[:5], "18", "8.25")

    assert [place for place, text in enumerate(slid(cells(BORES), cells(now))) if text] == [1, 2, 3, 4, 5]


def test_a_number_written_another_way_is_the_same_number() -> None:
    now = ("1", "9.0", "12.00", "6", "15", "10 1/2", "7-1/2", "18.0")

    assert slid(cells(BORES), cells(now))[1] != ""


def test_equal_neighbours_do_not_count_as_moved() -> None:
    same = ("9", "9", "9", "9", "9", "9", "9", "12")

    assert set(slid(cells(same), cells(("9", *same[:-1])))) == {""}


def test_tags_that_were_renamed_with_their_service_have_not_slid() -> None:
    services = [f"line {place}" for place in range(len(BORES))]
    now = cells(("1", *BORES[:-1]), service=("new", *services[:-1]))

    assert set(slid(cells(BORES, service=services), now)) == {""}


def test_rows_that_are_new_are_passed_over() -> None:
    now = cells(("1", *BORES[:3], "99", *BORES[3:-1]))

    found = slid(cells(BORES), now, places=[0, 1, 2, 3, -1, 4, 5, 6, 7])

    assert [bool(text) for text in found] == [False, True, True, True, False, True, True, True, True]


def said_before(found: Callable[..., Finding], **changes: Any) -> PreviousRun:
    """A run that said of rows 1 to 7 that their bore depths slid."""
    finding = found(
        "",
        rule="values_slid_against_tags",
        well_tag="the bore depth of each is what the row above it had in the issue before",
        folded=True,
        row_ids=tuple(range(1, 8)),
        **changes,
    )
    return replace(before(cells(("1", *BORES[:-1]))), findings={finding.id: finding})


def test_what_nobody_decided_on_is_said_again(make_finding: Callable[..., Finding]) -> None:
    slid_bores = cells(("1", *BORES[:-1]))

    assert [bool(text) for text in slid([], slid_bores, previous=said_before(make_finding))] == [False] + [True] * 7


@pytest.mark.parametrize("disposition", ["accepted", "no issue", "to correct"])
def test_what_was_decided_is_not_said_again(make_finding: Callable[..., Finding], disposition: str) -> None:
    slid_bores = cells(("1", *BORES[:-1]))
    decided = disposition != "to correct"

    found = slid([], slid_bores, previous=said_before(make_finding, disposition=disposition))

    assert (set(found) == {""}) == decided


def test_what_was_put_right_has_not_slid_back(make_finding: Callable[..., Finding]) -> None:
    assert set(slid([], cells(BORES), previous=said_before(make_finding))) == {""}
