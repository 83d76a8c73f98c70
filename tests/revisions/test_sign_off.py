"""Where a review stands."""

from collections.abc import Callable

import pytest

from thermowell_index.findings import Finding, Severity
from thermowell_index.revisions.sign_off import as_lines, sign_off, state_of

Found = Callable[..., Finding]
RULE = "bore deeper than well"


@pytest.mark.parametrize(
    "disposition,reviewer,day,state",
    [
        ("open", "A. B.", "2024-06-01", "open"),
        ("accepted", "A. B.", "2024-06-01", "decided"),
        ("to correct", "A. B.", "1 June", "decided"),
        ("to survey", "A. B.", "2024-06-01", "decided"),
        ("no issue", "A. B.", "2024-06-01", "decided"),
        ("accepted", "", "2024-06-01", "unsigned"),
        ("no issue", "A. B.", "", "unsigned"),
        ("to correct", "", "", "unsigned"),
        ("lapsed", "A. B.", "2024-06-01", "lapsed"),
        ("done", "A. B.", "2024-06-01", "open"),
    ],
)
def test_a_disposition_counts_once_it_is_signed_and_dated(
    *, make_finding: Found, disposition: str, reviewer: str, day: str, state: str
) -> None:
    finding = make_finding("TE-1", disposition=disposition, reviewer=reviewer, reviewed_on=day)
    assert state_of(finding) == state


def test_findings_are_counted_by_severity_and_reviewer(make_finding: Found) -> None:
    state = sign_off(
        [
            make_finding("TE-1"),
            make_finding("TE-2", disposition="accepted", reviewer="A. B.", reviewed_on="2024-06-01"),
            make_finding("TE-7", disposition="no issue", reviewer="A. B."),
            make_finding("TE-3", disposition="lapsed", reviewer="A. B."),
            make_finding("TE-4", disposition="to survey", severity=Severity.NOTE),
            make_finding("TE-5", change="cleared"),
            make_finding("TE-6", disposition="done", reviewer="C. D."),
        ]
    )
    assert as_lines(state) == [
        ("error", [2, 1, 1, 1]),
        ("warning", [0, 0, 0, 0]),
        ("note", [0, 1, 0, 0]),
        ("nobody named", [0, 1, 0, 0]),
        ("A. B.", [0, 1, 1, 1]),
    ]
    assert state.open_errors == 4
    assert state.sentences() == [
        "4 errors are open, 1 of them lapsed, 1 of them decided without reviewer and date: not signed off.",
        f"Decided without both reviewer and date, which does not count: TE-7, {RULE}; TE-4, {RULE}.",
        "Lapsed, to be decided again: TE-3, bore deeper than well.",
        "1 decided to survey: still to be done.",
        "Disposition 'done' (1 x) is none of the choices; it counts as open.",
    ]


def test_one_open_error_and_none(make_finding: Found) -> None:
    assert sign_off([make_finding("TE-1")]).sentences() == ["1 error is open: not signed off."]
    decided = sign_off([make_finding("TE-1", disposition="no issue", reviewer="A. B.", reviewed_on="1")])
    assert (decided.open_errors, decided.sentences()) == (0, ["No error is open."])
