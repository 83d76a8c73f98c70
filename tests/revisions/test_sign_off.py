"""Where a review stands."""

from collections.abc import Callable

import pytest

from thermowell_index.findings import Finding, Severity
from thermowell_index.revisions.sign_off import as_lines, sign_off, state_of

Found = Callable[..., Finding]


@pytest.mark.parametrize(
    "disposition,state",
    [
        ("open", "open"),
        ("accepted", "decided"),
        ("to correct", "decided"),
        ("to survey", "decided"),
        ("no issue", "decided"),
        ("lapsed", "lapsed"),
        ("done", "open"),
    ],
)
def test_a_disposition_means_a_state(*, disposition: str, state: str) -> None:
    assert state_of(disposition, "A. B.") == state


@pytest.mark.parametrize("disposition,state", [("accepted", "open"), ("to survey", "open"), ("lapsed", "lapsed")])
def test_a_decision_that_nobody_signed_is_none(*, disposition: str, state: str) -> None:
    assert state_of(disposition, " ") == state


def test_findings_are_counted_by_severity_and_reviewer(make_finding: Found) -> None:
    state = sign_off(
        [
            make_finding("TE-1"),
            make_finding("TE-2", disposition="accepted", reviewer="A. B."),
            make_finding("TE-3", disposition="lapsed", reviewer="A. B."),
            make_finding("TE-4", disposition="to survey", severity=Severity.NOTE),
            make_finding("TE-5", change="cleared"),
            make_finding("TE-6", disposition="done", reviewer="C. D."),
        ]
    )
    assert as_lines(state) == [
        ("error", [2, 1, 1]),
        ("warning", [0, 0, 0]),
        ("note", [1, 0, 0]),
        ("A. B.", [0, 1, 1]),
    ]
    assert state.open_errors == 3
    assert state.sentences() == [
        "3 errors are open, 1 of them lapsed: not signed off.",
        "1 decided to survey: still to be done.",
        "1 decision bears no reviewer's name and counts as open.",
        "Disposition 'done' (1 x) is none of the choices; it counts as open.",
    ]


def test_one_open_error_and_none(make_finding: Found) -> None:
    assert sign_off([make_finding("TE-1")]).sentences() == ["1 error is open: not signed off."]
    decided = sign_off([make_finding("TE-1", disposition="no issue", reviewer="A. B.")])
    assert (decided.open_errors, decided.sentences()) == (0, ["No error is open."])
