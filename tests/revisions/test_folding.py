"""A fault told of single rows in one issue and of many at once in the other: no decision on it is lost."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from thermowell_index.findings import Finding
from thermowell_index.revisions.carry import Carried, ThisRun, carry_over
from thermowell_index.revisions.matching import match_rows
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import PreviousRun, RegisterEntry

Row = Callable[..., RowMemory]
Found = Callable[..., Finding]
DECIDED = {"disposition": "accepted", "reviewer": "A. B.", "reviewed_on": "2024-06-01", "comment": "drawing is right"}
TAGS = ("TE-1", "TE-2", "TE-3")


def _run(
    before: Sequence[Finding], now: Sequence[Finding], rows: Sequence[RowMemory], register: Sequence[RegisterEntry] = ()
) -> Carried:
    earlier = [replace(row, cells={**row.cells, "bore_depth": "9"}) for row in rows]
    previous = PreviousRun(
        findings={finding.id: finding for finding in before}, content_fingerprint="x", rows=earlier, register=register
    )
    return carry_over(now, previous, ThisRun(rows=rows, match=match_rows(earlier, rows), date="2024-07-01"))


def _fold(make_finding: Found, places: Sequence[int], **changes: str) -> Finding:
    tags = tuple(TAGS[place] for place in places)
    return make_finding("", row=None, cell="", tags=tags, row_ids=tuple(places), folded=True, **changes)


def _facts(carried: Carried) -> list[tuple[str, str, str]]:
    return [(one.tag, one.change, one.disposition) for one in carried.findings]


def test_decisions_on_rows_that_are_told_together_go_to_the_register_and_come_back(
    make_row: Row, make_finding: Found
) -> None:
    rows = [make_row(tag) for tag in TAGS]
    singles = [make_finding(tag, place) for place, tag in enumerate(TAGS)]
    decided = [make_finding("TE-1", 0, **DECIDED), *singles[1:]]

    together = _run(decided, [_fold(make_finding, (0, 1, 2))], rows)
    apart = _run(together.findings, singles, rows, together.register)

    assert _facts(together) == [("", "open", "open")]
    assert [(entry.finding.tag, entry.finding.comment, entry.may_be) for entry in together.register] == [
        ("TE-1", "drawing is right", "one of 3 rows told together")
    ]
    assert _facts(apart) == [("TE-1", "open", "accepted"), ("TE-2", "open", "open"), ("TE-3", "open", "open")]
    assert apart.register == []


def test_what_was_decided_of_many_rows_holds_for_each_that_did_not_change(make_row: Row, make_finding: Found) -> None:
    rows = [
        make_row("TE-1"),
        make_row("TE-2", cells={"tag": "TE-2", "well_tag": "TW-2", "bore_depth": "8", "overall_length": "9-1/4"}),
    ]
    fold = _fold(make_finding, (0, 1), **DECIDED)

    carried = _run([fold], [make_finding("TE-1", 0), make_finding("TE-2", 1)], rows)

    assert _facts(carried) == [("TE-1", "open", "accepted"), ("TE-2", "open", "lapsed")]
    assert "bore depth was 9, is 8" in carried.findings[1].former_decision


def test_many_rows_of_which_some_were_told_singly_are_a_changed_finding(make_row: Row, make_finding: Found) -> None:
    rows = [make_row(tag) for tag in TAGS]

    carried = _run([make_finding("TE-1", 0)], [_fold(make_finding, (0, 1, 2))], rows)

    assert _facts(carried) == [("", "changed", "open")]
