"""Remarks of an earlier run carried over, lapsed, or laid down in the register."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import pytest

from thermowell_index.findings import Finding, Severity
from thermowell_index.revisions.carry import Carried, ThisRun, carry_over, overlay, with_remarks_of
from thermowell_index.revisions.matching import match_rows
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import BasisSignOff, HandValue, PreviousRun, RegisterEntry
from thermowell_index.revisions.proposals import propose

Row = Callable[..., RowMemory]
Found = Callable[..., Finding]
REMARKS = {"disposition": "accepted", "reviewer": "A. B.", "reviewed_on": "2024-06-01", "comment": "drawing is right"}
NO_REMARKS = {"disposition": "open", "reviewer": "", "reviewed_on": "", "comment": ""}


def _before(rows: Sequence[RowMemory], *findings: Finding, **changes: Any) -> PreviousRun:
    return PreviousRun(
        findings={finding.id: finding for finding in findings}, content_fingerprint="x", rows=rows, **changes
    )


def _carry(previous: PreviousRun, rows: Sequence[RowMemory], *findings: Finding, is_same: bool = False) -> Carried:
    match = match_rows(previous.rows, rows)
    proposals = propose(previous.rows, rows, match)
    now = ThisRun(rows=rows, match=match, proposals=proposals, date="2024-07-01", is_same=is_same)
    return carry_over(findings, previous, now)


def _remarks(finding: Finding) -> dict[str, str]:
    return {name: getattr(finding, name) for name in REMARKS}


@pytest.mark.parametrize(
    "change_before,found_before,is_same,change",
    [
        ("new", "bore depth 13", False, "open"),
        ("open", "bore depth 13", False, "open"),
        ("changed", "bore  depth\n13", False, "open"),
        ("new", "bore depth 14", False, "changed"),
        ("cleared", "bore depth 13", False, "new"),
        ("new", "bore depth 13", True, "new"),
        ("open", "bore depth 13", True, "open"),
        ("changed", "bore depth 13", True, "changed"),
        ("cleared", "bore depth 13", True, "new"),
    ],
)
def test_the_change_of_a_finding_that_was_there_before(
    *, make_row: Row, make_finding: Found, change_before: str, found_before: str, is_same: bool, change: str
) -> None:
    before = make_finding("TE-1", found=found_before, change=change_before, **REMARKS)
    previous = _before([make_row("TE-1")], before)
    carried = _carry(previous, [make_row("TE-1")], make_finding("TE-1", found="bore depth 13"), is_same=is_same)
    assert [(entry.change, entry.found) for entry in carried.findings] == [(change, "bore depth 13")]
    assert _remarks(carried.findings[0]) == REMARKS


def test_a_finding_that_was_not_there_before_is_new(make_row: Row, make_finding: Found) -> None:
    carried = _carry(_before([make_row("TE-1")]), [make_row("TE-1")], make_finding("TE-1"))
    assert [(entry.change, entry.disposition) for entry in carried.findings] == [("new", "open")]


def test_a_finding_that_is_gone_is_cleared_and_keeps_its_remarks(make_row: Row, make_finding: Found) -> None:
    carried = _carry(_before([make_row("TE-1")], make_finding("TE-1", **REMARKS)), [make_row("TE-1")])
    assert [(entry.change, entry.comment, entry.row_ids) for entry in carried.findings] == [
        ("cleared", "drawing is right", (0,))
    ]
    assert carried.register == []


@pytest.mark.parametrize("is_same,count", [(False, 0), (True, 1)])
def test_a_cleared_finding_without_remarks_is_shown_once(
    *, make_row: Row, make_finding: Found, is_same: bool, count: int
) -> None:
    previous = _before([make_row("TE-1")], make_finding("TE-1", change="cleared"))
    assert len(_carry(previous, [make_row("TE-1")], is_same=is_same).findings) == count


def test_a_finding_that_comes_back_keeps_its_remarks(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    cleared = _carry(_before(rows, make_finding("TE-1", **REMARKS)), rows).findings
    back = _carry(_before(rows, *cleared), rows, make_finding("TE-1")).findings
    assert [(entry.change, entry.reviewer) for entry in back] == [("new", "A. B.")]


def test_a_sign_off_lapses_when_an_input_of_its_row_changed(make_row: Row, make_finding: Found) -> None:
    old, new = make_row("TE-1"), make_row("TE-1", cells={"bore_depth": "10", "overall_length": "9-1/4"})
    carried = _carry(
        _before([old], make_finding("TE-1", **REMARKS)), [new], make_finding("TE-1", inputs_fingerprint="inputs-2")
    )
    (finding,) = carried.findings
    assert (finding.disposition, finding.reviewer, finding.comment) == ("lapsed", "A. B.", "drawing is right")
    assert finding.former_decision == (
        "accepted by A. B. on 2024-06-01; lapsed 2024-07-01: well tag was TW-1, is blank; bore depth was 9, is 10"
    )
    assert carried.lapsed == [finding]


def test_a_lapsed_sign_off_stays_lapsed_and_says_so_once(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    before = make_finding("TE-1", disposition="lapsed", former_decision="accepted; lapsed", inputs_fingerprint="old")
    carried = _carry(_before(rows, before), rows, make_finding("TE-1"))
    assert (carried.findings[0].disposition, carried.findings[0].former_decision) == ("lapsed", "accepted; lapsed")
    assert carried.lapsed == []


def test_a_second_lapse_is_added_below_the_first(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    before = make_finding("TE-1", **REMARKS, former_decision="no issue by C. D.; lapsed", inputs_fingerprint="old-1")
    former = _carry(_before(rows, before), rows, make_finding("TE-1")).findings[0].former_decision
    assert former.split("\n") == [
        "no issue by C. D.; lapsed",
        "accepted by A. B. on 2024-06-01; lapsed 2024-07-01: an input of the row changed",
    ]


def test_an_open_finding_with_a_comment_does_not_lapse(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    before = make_finding("TE-1", comment="asked the site", inputs_fingerprint="old")
    (finding,) = _carry(_before(rows, before), rows, make_finding("TE-1")).findings
    assert (finding.disposition, finding.comment) == ("open", "asked the site")


def test_remarks_follow_their_row_where_a_tag_stands_twice(make_row: Row, make_finding: Found) -> None:
    short, long = make_row("TE-1", 5, cells={"bore_depth": "9"}), make_row("TE-1", 6, cells={"bore_depth": "12"})
    first = make_finding("TE-1", 0, comment="of the short one")
    second = make_finding("TE-1", 1, occurrence=1, comment="of the long one")
    carried = _carry(
        _before([short, long], first, second),
        [long, short],
        make_finding("TE-1", 0),
        make_finding("TE-1", 1, occurrence=1),
    )
    assert [entry.comment for entry in carried.findings] == ["of the long one", "of the short one"]
    assert [entry.id for entry in carried.findings] == [second.id, first.id]


def test_a_new_finding_takes_no_number_that_an_earlier_one_bears(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1", 5), make_row("TE-1", 6, cells={"bore_depth": "12"})]
    before = make_finding("TE-1", 1, comment="second row")
    carried = _carry(_before(rows, before), rows, make_finding("TE-1", 0), make_finding("TE-1", 1, occurrence=1))
    assert {entry.id: (entry.row_ids, entry.comment) for entry in carried.findings} == {
        before.id: ((1,), "second row"),
        replace(before, occurrence=1).id: ((0,), ""),
    }


def test_remarks_stay_with_a_row_whose_well_tag_changed(make_row: Row, make_finding: Found) -> None:
    before = make_finding("TE-1", well_tag="", **REMARKS)
    now = make_finding("TE-1", inputs_fingerprint="inputs-2")
    (finding,) = _carry(_before([make_row("TE-1", well_tag="")], before), [make_row("TE-1")], now).findings
    assert (finding.id, finding.disposition, finding.change) == (now.id, "lapsed", "open")


def test_two_findings_of_one_row_pair_by_what_they_say_then_by_severity(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    before = [
        make_finding("TE-1", found="a", comment="of a"),
        make_finding("TE-1", found="b", occurrence=1, severity=Severity.WARNING, comment="of b"),
    ]
    now = [make_finding("TE-1", found="c", severity=Severity.WARNING), make_finding("TE-1", found="a", occurrence=1)]
    assert [entry.comment for entry in _carry(_before(rows, *before), rows, *now).findings] == ["of b", "of a"]
    odd = [make_finding("TE-1", found="c", severity=Severity.NOTE)]
    assert [entry.comment for entry in _carry(_before(rows, before[0]), rows, *odd).findings] == ["of a"]


def _folded(make_finding: Found, places: tuple[int, ...], **changes: Any) -> Finding:
    return make_finding("", folded=True, row=None, cell="", well_tag="", row_ids=places, found="2 rows", **changes)


def test_a_decision_on_many_rows_holds_while_no_row_joins(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1", 5), make_row("TE-2", 6)]
    previous = _before(rows, _folded(make_finding, (0, 1), **REMARKS))
    fewer = _carry(previous, rows[:1], _folded(make_finding, (0,)))
    assert fewer.findings[0].disposition == "accepted"
    more = _carry(previous, [*rows, make_row("TE-3", 7)], _folded(make_finding, (0, 1, 2)))
    assert more.findings[0].former_decision.endswith("it speaks of more rows: TE-3")
    many = [*rows, *(make_row(f"TE-{number}", number) for number in range(3, 12))]
    assert (
        _carry(previous, many, _folded(make_finding, tuple(range(11))))
        .findings[0]
        .former_decision.endswith("TE-3, TE-4, TE-5, TE-6, TE-7, TE-8 and 3 more")
    )


def test_a_decision_on_many_rows_lapses_when_it_reads_differently(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    before = replace(_folded(make_finding, (0,), **REMARKS), found="2 rows: no column for bore depth")
    now = replace(_folded(make_finding, (0,)), found="3 rows: no column for tip thickness")
    assert _carry(_before(rows, before), rows, now).findings[0].disposition == "lapsed"
    unremembered = replace(before, row_ids=(), found="2 rows")
    same = replace(now, found="1 row")
    assert _carry(_before([], unremembered), rows, same).findings[0].disposition == "accepted"


def test_a_note_on_a_renamed_sheet_keeps_its_remarks(make_row: Row, make_finding: Found) -> None:
    before = _folded(make_finding, (0,), sheet="Rev A", comment="agreed")
    now = _folded(make_finding, (0,), sheet="Rev B")
    (finding,) = _carry(
        _before([make_row("TE-1", sheet="Rev A")], before), [make_row("TE-1", sheet="Rev B")], now
    ).findings
    assert (finding.comment, finding.change) == ("agreed", "open")


@pytest.mark.parametrize("sheet,is_there", [("Index", True), ("Old", False)])
def test_a_note_of_a_sheet_that_is_gone_goes_to_the_register(
    *, make_row: Row, make_finding: Found, sheet: str, is_there: bool
) -> None:
    before = _folded(make_finding, (0,), sheet=sheet, comment="agreed")
    carried = _carry(_before([make_row("TE-9", sheet=sheet)], before), [make_row("TE-1")])
    assert (len(carried.findings), len(carried.register)) == (int(is_there), int(not is_there))


def test_remarks_on_a_row_that_vanished_go_to_the_register(make_row: Row, make_finding: Found) -> None:
    before = make_finding("TE-1", **REMARKS, own_columns=(("Action by", "site"), ("Priority", "")))
    carried = _carry(_before([make_row("TE-1")], before, name="B_checked.xlsx"), [make_row("TE-1A"), make_row("TE-1B")])
    assert carried.findings == []
    (entry,) = carried.register
    assert (entry.finding.disposition, entry.finding.comment) == ("accepted", "drawing is right; Action by: site")
    assert (entry.last_seen, entry.may_be) == ("B_checked.xlsx", "TE-1A, TE-1B")


def test_a_finding_without_remarks_on_a_row_that_vanished_is_cleared(make_row: Row, make_finding: Found) -> None:
    carried = _carry(_before([make_row("TE-1")], make_finding("TE-1")), [make_row("TE-2")])
    assert ([entry.change for entry in carried.findings], carried.register) == (["cleared"], [])


def test_remarks_come_back_from_the_register_with_their_row(make_row: Row, make_finding: Found) -> None:
    entry = RegisterEntry(finding=make_finding("TE-1", None, change="cleared", **REMARKS))
    previous = _before([make_row("TE-2")], register=[entry])
    back = _carry(previous, [make_row("TE-1")], make_finding("TE-1"))
    assert (_remarks(back.findings[0]), back.findings[0].change, back.register) == (REMARKS, "new", [])
    other = _carry(previous, [make_row("TE-1")], make_finding("TE-1", inputs_fingerprint="inputs-2"))
    assert (other.findings[0].disposition, other.register) == ("lapsed", [])
    away = _carry(previous, [make_row("TE-2")])
    assert (away.register, away.said) == ([entry], [])


def test_remarks_go_to_the_tags_that_a_person_names(make_row: Row, make_finding: Found) -> None:
    entry = RegisterEntry(finding=make_finding("TE-1", None, **REMARKS), carry_to="te 1A; TE-1C")
    rows = [make_row("TE-1A", 5), make_row("TE-1B", 6)]
    carried = _carry(_before([], register=[entry]), rows, make_finding("TE-1A", 0), make_finding("TE-1B", 1))
    assert [finding.disposition for finding in carried.findings] == ["accepted", "open"]
    assert [left.carry_to.strip() for left in carried.register] == ["TE-1C"]
    assert len(carried.said) == 1
    assert "the remarks on TE-1 stay in the register" in carried.said[0]


def test_remarks_in_the_register_never_overwrite_others(make_row: Row, make_finding: Found) -> None:
    rows = [make_row("TE-1")]
    entry = RegisterEntry(finding=make_finding("TE-1", None, comment="older", occurrence=3))
    previous = _before(rows, make_finding("TE-1", comment="newer"), register=[entry])
    carried = _carry(previous, rows, make_finding("TE-1"))
    assert ([finding.comment for finding in carried.findings], carried.register) == (["newer"], [entry])


def test_a_note_in_the_register_comes_back_with_its_sheet(make_row: Row, make_finding: Found) -> None:
    entry = RegisterEntry(finding=_folded(make_finding, (), comment="agreed"))
    rows = [make_row("TE-1")]
    carried = _carry(_before(rows, register=[entry]), rows, _folded(make_finding, (0,)))
    assert ([finding.comment for finding in carried.findings], carried.register) == (["agreed"], [])


def test_without_memory_findings_are_matched_by_name_and_lapse_by_what_they_say(
    make_row: Row, make_finding: Found
) -> None:
    before = make_finding("TE-1", None, **REMARKS, inputs_fingerprint="")
    rows = [make_row("TE-1")]
    same = _carry(_before([], before), rows, make_finding("TE-1")).findings
    other = _carry(_before([], before), rows, make_finding("TE-1", found="bore depth 8")).findings
    assert (same[0].disposition, other[0].disposition) == ("accepted", "lapsed")
    gone = _carry(_before([], before), rows)
    vanished = _carry(_before([], before), [make_row("TE-2")])
    assert ([entry.change for entry in gone.findings], len(vanished.register)) == (["cleared"], 1)


def test_of_two_earlier_runs_the_newer_counts_and_no_remark_is_lost(make_finding: Found) -> None:
    older = _before(
        [],
        make_finding("TE-1", **REMARKS),
        make_finding("TE-2", comment="kept"),
        make_finding("TE-3", comment="a"),
        make_finding("TE-4"),
    )
    newer = _before([], make_finding("TE-1", found="13"), make_finding("TE-3", comment="b"), make_finding("TE-5"))
    both = {finding.tag: finding for finding in overlay(older, newer).findings.values()}
    assert {tag: (finding.found[:2], finding.comment) for tag, finding in both.items()} == {
        "TE-1": ("13", "drawing is right"),
        "TE-2": ("bo", "kept"),
        "TE-3": ("bo", "b"),
        "TE-4": ("bo", ""),
        "TE-5": ("bo", ""),
    }
    assert both["TE-2"].change == "cleared"
    assert both["TE-3"].former_decision == "open in another file: a"


def test_a_newer_file_of_remarks_wins_and_the_older_remark_is_kept(make_finding: Found) -> None:
    base = _before([], make_finding("TE-1", **REMARKS), make_finding("TE-2"))
    other = _before([], make_finding("TE-1", disposition="no issue", reviewer="C. D.", inputs_fingerprint="i-2"))
    once = with_remarks_of(base, other, other_is_newer=True)
    (finding, second) = once.findings.values()
    assert (finding.disposition, finding.inputs_fingerprint) == ("no issue", "i-2")
    assert finding.former_decision == "accepted by A. B. on 2024-06-01 before: drawing is right"
    assert second.disposition == "open"
    again = with_remarks_of(base, once, other_is_newer=True)
    assert again.findings[finding.id].former_decision == finding.former_decision
    assert with_remarks_of(once, once, other_is_newer=True).findings == once.findings


def test_registers_hand_values_and_sign_offs_of_two_runs_are_joined(make_finding: Found) -> None:
    entry = RegisterEntry(finding=make_finding("TE-1", None, comment="x"))
    mine = HandValue(key="TE1", well_key="", tag="TE-1", inputs="i", answer="", value="9")
    theirs = replace(mine, value="10")
    blank = replace(mine, key="TE2", value="")
    signed = BasisSignOff(fingerprint="f", disposition="accepted")
    one = _before([], register=[entry], hand_values=[mine, blank], basis_sign_off=BasisSignOff(), own_lines=["a"])
    other = _before([], register=[entry], hand_values=[theirs], basis_sign_off=signed, own_lines=["a", "b"], said=["s"])
    newer, older = (with_remarks_of(one, other, other_is_newer=flag) for flag in (True, False))
    assert (newer.register, newer.own_lines, newer.said) == ([entry], ["a", "b"], ["s"])
    assert ([value.value for value in newer.hand_values], [value.value for value in older.hand_values]) == (
        ["10"],
        ["9"],
    )
    assert (newer.basis_sign_off, older.basis_sign_off) == (signed, signed)
    neither = with_remarks_of(_before([]), _before([]), other_is_newer=True)
    assert neither.basis_sign_off is None
