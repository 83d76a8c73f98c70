"""What changed, line by line."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.findings import Finding
from thermowell_index.revisions.carry import ThisRun
from thermowell_index.revisions.compare import Differences, compare
from thermowell_index.revisions.comparison import Comparison
from thermowell_index.revisions.matching import match_rows
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import PreviousRun
from thermowell_index.revisions.proposals import propose

INCH = 25.4
Row = Callable[..., RowMemory]


def _compare(before: list[RowMemory], now: list[RowMemory], **changes: Any) -> Comparison:
    match = match_rows(before, now)
    entries = changes.pop("entries_before", {})
    return compare(
        Differences(
            previous=PreviousRun(
                findings={}, content_fingerprint="x", name="A.xlsx", rows=before, basis_entries=entries, said=["a word"]
            ),
            now=ThisRun(rows=now, match=match, proposals=propose(before, now, match), date="2024-07-01"),
            cell_of=lambda place, field: f"{field}@{place}",
            label_of=lambda field: field.replace("_", " "),
            rule_name=lambda rule: rule.replace("_", " "),
            **changes,
        )
    )


def _lines(comparison: Comparison, title: str) -> list[tuple[str | int | None, ...]]:
    return [line for block in comparison.blocks if block.title.startswith(title) for line in block.lines]


def _longer(make_row: Row, tag: str, row: int = 5, **changes: Any) -> RowMemory:
    cells = {"tag": tag, "bore_depth": "10", "overall_length": "9-1/4", "well_tag": tag.replace("TE", "TW")}
    lengths = {"order_mm": 10 * INCH, "computed_mm": 10 * INCH, "shortest_mm": 9.75 * INCH, "longest_mm": 10.25 * INCH}
    return make_row(tag, row, cells=cells, **lengths, **changes)


def test_a_changed_cell_is_said_with_its_effect_on_the_length(make_row: Row) -> None:
    comparison = _compare([make_row("TE-1")], [_longer(make_row, "TE-1", 9)])
    assert _lines(comparison, "Cells") == [
        ("TE-1", "Index", 9, "bore_depth@0", "bore depth", "9", "10", "to order 9 in -> 10 in")
    ]
    assert _lines(comparison, "Lengths") == [
        ("TE-1", "Index", 9, "9 in", "10 in", "9 in", "10 in", "bore depth was 9, is 10")
    ]
    assert comparison.sentences[:2] == [
        "Compared with A.xlsx.",
        "1 cell changed, 0 rows added, 0 rows deleted, 0 rows moved, 1 length moved, 0 sign-offs lapsed.",
    ]
    assert comparison.sentences[-1] == "a word"


@pytest.mark.parametrize(
    "changes,effect",
    [
        ({}, "none: still 9 in"),
        ({"longest_mm": 9.5 * INCH}, "still 9 in; what fits is now 8.75 in to 9.5 in, was 8.75 in to 9.25 in"),
        ({"order_mm": None, "computed_mm": None, "verdict": "withheld"}, "to order 9 in -> withheld"),
        ({"is_point": False, "order_mm": None, "verdict": "not applicable"}, "to order 9 in -> not applicable"),
        ({"shortest_mm": None}, "still 9 in; what fits is now nothing, was 8.75 in to 9.25 in"),
    ],
)
def test_an_effect_is_said_in_words(*, make_row: Row, changes: dict[str, Any], effect: str) -> None:
    cells = {**make_row("TE-1").cells, "service": "cooler"}
    comparison = _compare([make_row("TE-1")], [make_row("TE-1", cells=cells, **changes)])
    assert [line[-1] for line in _lines(comparison, "Cells")] == [effect]


def test_a_row_without_a_length_has_no_effect(make_row: Row) -> None:
    nothing = {"is_point": False, "order_mm": None, "verdict": "not applicable"}
    before, now = make_row("PT-1", **nothing), make_row("PT-1", **nothing, cells={"service": "air"})
    assert {line[-1] for line in _lines(_compare([before], [now]), "Cells")} == {"none: no length stands on this row"}


def test_a_well_s_row_moves_the_length_of_its_sensor(make_row: Row) -> None:
    well = {"is_point": False, "order_mm": None, "computed_mm": None, "verdict": "not applicable"}
    cells: dict[str, str] = {}
    before = [make_row("TW-1", 5, **well, cells={"bore_depth": "9"}), make_row("TE-1", 6, well_row=0, cells=cells)]
    now = [
        make_row("TW-1", 5, **well, cells={"bore_depth": "10"}),
        make_row("TE-1", 6, well_row=0, cells=cells, order_mm=10 * INCH),
        make_row("TE-2", 7, well_row=0, cells=cells),
    ]
    comparison = _compare(before, now)
    assert [line[-1] for line in _lines(comparison, "Cells")] == ["TE-1: to order 9 in -> 10 in"]
    assert [line[-1] for line in _lines(comparison, "Lengths")] == ["TW-1: bore depth was 9, is 10"]


@pytest.mark.parametrize(
    "before,now,why",
    [
        (-1, 0, "well data now stands on another row"),
        (0, -1, "well data of another row is gone"),
    ],
)
def test_well_data_that_came_or_went_is_said(*, make_row: Row, before: int, now: int, why: str) -> None:
    old = [make_row("TW-1", 5), make_row("TE-1", 6, well_row=before)]
    new = [make_row("TW-1", 5), make_row("TE-1", 6, well_row=now, order_mm=1.0)]
    assert [line[-1] for line in _lines(_compare(old, new), "Lengths")] == [why]


@pytest.mark.parametrize(
    "changes,why",
    [
        ({"basis_changed": True}, "the design basis changed"),
        ({"version_changed": True}, "another version of the program"),
        ({}, "another row of the index changed"),
    ],
)
def test_a_length_that_moved_without_a_change_of_its_cells_names_the_cause(
    *, make_row: Row, changes: dict[str, bool], why: str
) -> None:
    comparison = _compare([make_row("TE-1")], [make_row("TE-1", order_mm=230.0)], **changes)
    assert [line[-1] for line in _lines(comparison, "Lengths")] == [why]


def test_another_design_basis_is_said_with_what_it_changed(make_row: Row) -> None:
    before = [make_row("TE-1"), make_row("TE-2", 6), make_row("TE-3", 7), make_row("TE-4", 8)]
    now = [
        make_row("TE-1", order_mm=230.0, longest_mm=240.0),
        make_row("TE-2", 6, longest_mm=240.0),
        make_row("TE-3", 7, verdict="review"),
        _longer(make_row, "TE-4", 8),
    ]
    comparison = _compare(
        before,
        now,
        basis_changed=True,
        version_changed=True,
        basis_entries={"a.b": "2", "c": "1", "new": "1"},
        entries_before={"a.b": "1", "c": "1", "old_one": "1"},
    )
    assert _lines(comparison, "Design basis") == [
        ("a.b", "1", "2"),
        ("old one", "1", "not there"),
        ("new", "not there", "1"),
    ]
    assert (
        "The design basis is another one. Of 3 rows whose cells are as they were it moved 1 lengths to order and "
        "2 ranges that fit, and changed 1 verdicts." in comparison.sentences
    )
    assert "The previous run was made with another version of the program." in comparison.sentences
    assert [str(line[-1]) for line in _lines(comparison, "Lengths")][1].endswith("; the design basis changed too")


def test_rows_added_deleted_moved_and_proposed_are_listed(make_row: Row) -> None:
    before = [make_row("TE-1", 5), make_row("TE-2", 6), make_row("TE-3", 7)]
    now = [make_row("TE-3", 5), make_row("TE-1", 6), make_row("TE-2A", 7), make_row("", 8, cells={"bore_depth": "1"})]
    comparison = _compare(before, now)
    assert _lines(comparison, "Rows added") == [
        ("TE-2A", "TW-2A", "Index", 7, "sized", "9 in"),
        ("no tag", "", "Index", 8, "sized", "9 in"),
    ]
    assert _lines(comparison, "Rows deleted") == [("TE-2", "TW-2", "Index", 6, "sized", "9 in")]
    assert [line[0] for line in _lines(comparison, "Rows that stand elsewhere")] == ["TE-3"]
    assert [line[:3] for line in _lines(comparison, "Tags")] == [("renamed", "TE-2", "TE-2A")]


def test_a_renamed_sheet_is_said(make_row: Row) -> None:
    comparison = _compare([make_row("TE-1", sheet="A")], [make_row("TE-1", sheet="B")])
    assert "Sheet B is taken as the former sheet A: its rows stand there now." in comparison.sentences


def test_without_memory_only_that_is_said(make_row: Row) -> None:
    comparison = _compare([], [make_row("TE-1")])
    assert comparison.blocks == []
    assert "no longer holds what its run remembered" in comparison.sentences[1]


def test_orders_and_lapsed_sign_offs_come_first(make_row: Row, make_finding: Callable[..., Finding]) -> None:
    comparison = _compare(
        [make_row("TE-1")],
        [make_row("TE-1", order_mm=230.0)],
        after_order=[make_finding("TE-1")],
        lapsed=[make_finding("TE-1", former_decision="older\naccepted; lapsed")],
    )
    assert [(block.title, block.is_loud) for block in comparison.blocks] == [
        ("Changed after it was ordered", True),
        ("Lengths that moved", False),
        ("Sign-offs that lapsed", False),
    ]
    assert _lines(comparison, "Sign-offs")[0][-1] == "accepted; lapsed"
