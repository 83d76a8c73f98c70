"""The register of runs."""

from dataclasses import replace
from typing import Any

import pytest

from thermowell_index.findings import Severity
from thermowell_index.revisions.run_register import RunLine, appended, counts_of, joined, run_from_text

LINE = RunLine(
    date="2024-06-01",
    input_name="INDEX.xlsx",
    revision="B",
    input_sha256="0" * 64,
    program_version="0.1.0",
    basis_name="built in",
    basis_fingerprint="abc",
    content_fingerprint="def",
    previous_name="",
    rows=3,
    errors=1,
    warnings=0,
    notes=2,
    sized=1,
    review=1,
    withheld=1,
    not_applicable=0,
)


def test_a_run_is_appended_and_earlier_lines_stay() -> None:
    later = replace(LINE, content_fingerprint="ghi", date="2024-07-01")
    assert appended([], LINE) == [LINE]
    assert appended([LINE], later) == [LINE, later]


@pytest.mark.parametrize(
    "name",
    ["input_name", "input_sha256", "revision", "content_fingerprint", "basis_fingerprint", "program_version"],
)
def test_a_run_that_repeats_the_last_in_everything_is_no_new_run(name: str) -> None:
    assert appended([LINE], replace(LINE, date="2024-07-01")) == [LINE]
    changes: dict[str, Any] = {name: "other"}
    assert len(appended([LINE], replace(LINE, **changes))) == 2


def test_counts_are_by_severity_and_verdict() -> None:
    class One:
        severity = Severity.ERROR

    counts = counts_of([One(), One()], ["sized", "withheld", "sized"])  # type: ignore[list-item]
    assert counts == {
        "rows": 3,
        "errors": 2,
        "warnings": 0,
        "notes": 0,
        "sized": 2,
        "review": 0,
        "withheld": 1,
        "not_applicable": 0,
    }


def test_a_line_is_read_back_and_a_damaged_one_is_a_value_error() -> None:
    assert run_from_text(LINE.as_text()) == LINE
    for text in ("{", "{}", "[1]"):
        with pytest.raises(ValueError, match=r"\w"):
            run_from_text(text)


@pytest.mark.parametrize("revision,issue", [("B", "INDEX.xlsx, revision B"), ("", "INDEX.xlsx")])
def test_an_issue_is_named_with_its_revision(*, revision: str, issue: str) -> None:
    assert replace(LINE, revision=revision).issue == issue


def test_of_two_registers_no_line_is_lost_and_none_stands_twice() -> None:
    later = replace(LINE, date="2024-07-01")
    assert joined([LINE], [LINE, later]) == [LINE, later]
