"""The registry: which rows a check sees, how its hits become findings, and what the design basis may change of it."""

from collections.abc import Callable, Iterator
from typing import Any

import pandas as pd
import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.basis_file import basis_from
from thermowell_index.errors import SettingsError
from thermowell_index.findings import Finding, Severity, numbered
from thermowell_index.registry import RULES, changed_checks, rule, switches
from thermowell_index.table import IndexTable, TableRead
from thermowell_index.wording import shown, where

Check = Callable[..., Any]
ROW = {
    "tag": "TE-101",
    "overall_length (in)": 9.25,
    "bore_depth (in)": 9,
    "tip_thickness (in)": 0.25,
    "spring_travel (in)": 1,
}
DEEP = ROW | {"bore_depth (in)": 9.25}
LONG = ROW | {"probe_length (in)": 12}


def say(done: Any, name: str) -> list[tuple[str, str, str]]:
    return [(one.severity.value, one.tag, one.cell) for one in done.findings if one.rule == name]


# --- where a finding points to


def test_a_finding_points_to_the_cell_of_its_field(check: Check) -> None:
    assert say(check(DEEP), "bore_deeper_than_well") == [("error", "TE-101", "C2")]


def test_a_finding_of_a_field_without_a_column_points_to_the_tag(check: Check) -> None:
    row = {"tag": "TE-101", "overall_length (in)": "TBD", "service": "wash water"}

    assert say(check(row), "bore_depth_unknown") == [("error", "TE-101", "A2")]


def test_a_finding_of_a_row_without_any_column_points_to_its_line() -> None:
    frame = pd.DataFrame({"sheet": ["Index"], "row": [7], "table_id": [0]})
    table = IndexTable(
        frame=frame,
        sheets=[],
        title_lines=[],
        tables={0: TableRead(table_id=0, sheet="Index", heading_row=1, first_row=2)},
    )

    assert where(table, 0, "bore_depth") == ("Index", 7, "")


def test_columns_beyond_z_have_two_letters(check: Check) -> None:
    fillers = {f"note {number}": "x" for number in range(27)}
    row = {"tag": "TE-101", **fillers, "overall_length (in)": 9.25, "bore_depth (in)": 9.5}

    assert say(check(row), "bore_deeper_than_well") == [("error", "TE-101", "AD2")]


def test_what_was_found_is_shown_as_typed(check: Check) -> None:
    row = DEEP | {"bore_depth (in)": "9 1/4", "overall_length (in)": "9 1/4"}

    assert check(row).found("bore_deeper_than_well").found == "bore depth 9 1/4 in; overall length 9 1/4 in"


def test_a_blank_is_found_blank(check: Check) -> None:
    row = {"tag": "TE-101", "overall_length (in)": None, "bore_depth (in)": None, "service": "wash water"}

    assert check(row, ROW | {"tag": "TE-102"}).found("bore_depth_unknown").found == "blank"


def test_a_computed_length_is_shown_in_the_rows_unit(check: Check) -> None:
    frame = check(ROW).table

    assert shown("bore_depth_used_mm", 0, frame) == "bore depth used 9 in"
    assert shown("installed_length_mm", 0, frame) == ""
    assert shown("mounting", 0, frame) == ""


# --- numbers


def finding(**changes: Any) -> Finding:
    plain = {
        "severity": Severity.ERROR,
        "rule": "tag_twice",
        "tag": "TE-1",
        "well_tag": "",
        "sheet": "Index",
        "row": 2,
        "cell": "A2",
        "field": "tag",
        "found": "",
        "expected": "",
        "explanation": "",
        "action": "",
        "tags": ("TE-1",),
        "row_ids": (0,),
        "withholds": False,
        "folded": False,
    }
    return Finding(**{**plain, **changes})


def test_findings_of_one_identity_are_numbered() -> None:
    assert [one.occurrence for one in numbered([finding(), finding(row=3), finding(tag="TE-2")])] == [0, 1, 0]


def test_groups_of_one_sheet_have_identities_of_their_own() -> None:
    groups = [finding(folded=True, tag="", well_tag=group) for group in ("", "one", "two")]

    assert len({one.id for one in groups}) == 3


# --- what the design basis may change


@pytest.mark.parametrize("severity", ["error", "warning", "note"])
def test_the_basis_makes_a_check_louder_or_quieter(check: Check, severity: str) -> None:
    done = check(LONG, basis=f'[rules.spring_goes_solid]\nseverity = "{severity}"')

    assert say(done, "spring_goes_solid") == [(severity, "TE-101", "F2")]


def test_a_quieter_check_still_withholds(check: Check) -> None:
    done = check(DEEP, basis='[rules."bore deeper than well"]\nseverity = "note"')

    assert say(done, "bore_deeper_than_well") == [("note", "TE-101", "C2")]
    assert done.verdicts() == {"TE-101": "withheld"}


@pytest.mark.parametrize("chosen,said", [("error", "warning"), ("note", "note")])
def test_a_lesser_hit_is_never_made_louder(check: Check, chosen: str, said: str) -> None:
    twins = [ROW, ROW]
    done = check(*twins, basis=f'[rules.tag_twice]\nseverity = "{chosen}"')

    assert [one.severity for one in done.findings if one.rule == "tag_twice"] == [said, said]


def test_a_check_that_is_off_is_silent_and_the_length_is_given(check: Check) -> None:
    off = '[rules.bore_deeper_than_well]\noff = "bores of this plant are stated to the tip"\n'
    done = check(DEEP, basis=off + '[rules.tip_does_not_add_up]\noff = "the same."')

    assert done.hits() == []
    assert done.orders() == {"TE-101": 9.25}


def test_what_was_changed_is_said_with_its_reason() -> None:
    given = {
        "rules": {
            "tip too thin": {"off": "old wells, all known."},
            "sheath-rattles": {"severity": "note"},
            "tag_twice": {"severity": "error"},
        }
    }

    assert changed_checks(basis_from(given, name="b", where="b", switches=switches())) == [
        "The check 'tip too thin' is switched off: old wells, all known.",
        "The check 'sheath rattles' speaks as note instead of warning, by the design basis.",
    ]
    assert changed_checks(BUILT_IN) == []


@pytest.mark.parametrize(
    "given,problem",
    [
        ({"no_such": {"off": "x"}}, "rules.no_such: there is no such check; list them with: thermowell-index rules"),
        ({"tip_too_thin": "off"}, "rules.tip_too_thin: is not a section"),
        ({"tip_too_thin": {"reason": "x"}}, "rules.tip_too_thin: reason: no such entry; there are severity, off"),
        (
            {"tip_too_thin": {"severity": "loud"}},
            "rules.tip_too_thin: severity: 'loud' is none of error, warning, note",
        ),
        ({"tip_too_thin": {"off": True}}, 'rules.tip_too_thin: off: needs the reason as text, off = "..."'),
        ({"tip_too_thin": {"off": " "}}, 'rules.tip_too_thin: off: needs the reason as text, off = "..."'),
        (
            {"bore_depth_unknown": {"off": "x"}},
            ("rules.bore_depth_unknown: off: this check says why a row can have no length, and cannot be switched off"),
        ),
    ],
)
def test_a_wrong_choice_is_named(given: dict[str, object], problem: str) -> None:
    with pytest.raises(SettingsError) as raised:
        basis_from({"rules": given}, name="b", where="b.toml", switches=switches())

    assert str(raised.value) == f"b.toml: wrong in the design basis: {problem}"


def test_all_wrong_choices_stand_in_one_line() -> None:
    given = {"rules": {"no_such": {"off": "x"}, "tip_too_thin": {"off": True}}, "spring": {"no_such": 1}}

    with pytest.raises(SettingsError, match=r"rules\.no_such: .*; rules\.tip_too_thin: .*; spring\.no_such: "):
        basis_from(given, name="b", where="b.toml", switches=switches())


def test_no_check_is_off_that_a_withheld_row_needs() -> None:
    """With everything off that may be, every row still gets a length or a reason for having none."""
    may = [name for name, is_free in switches().items() if is_free]

    assert {"bore_depth_unknown", "mounting_not_stated", "no_length_fits", "length_not_computed"}.isdisjoint(may)


# --- registration


@pytest.fixture
def registered() -> Iterator[set[str]]:
    before = set(RULES)
    yield before
    for name in set(RULES) - before:
        del RULES[name]


def test_a_name_is_used_once(registered: set[str]) -> None:
    def tag_twice(_frame: Any, _basis: Any) -> Any:
        """Not needed."""

    with pytest.raises(ValueError, match="two rules are named tag_twice"):
        rule(severity=Severity.NOTE, field="tag", expected="", action="", source="", condition="")(tag_twice)
    assert set(RULES) == registered


def test_a_check_reads_as_its_name_and_docstring(registered: set[str]) -> None:
    @rule(severity=Severity.NOTE, field="tag", expected="", action="", source="", condition="")
    def some_new_fault(_frame: Any, _basis: Any) -> Any:
        """Say what is wrong.

        And why that
        matters.
        """

    entry = RULES[some_new_fault.__name__]
    assert "some_new_fault" not in registered
    assert (entry.plain_name, entry.title) == ("some new fault", "Say what is wrong.")
    assert entry.explanation == "Say what is wrong. And why that matters."
    assert entry.check is some_new_fault
