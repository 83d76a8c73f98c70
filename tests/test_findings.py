"""What a finding is, and by what it is known from run to run."""

from dataclasses import replace

import pytest

from thermowell_index.findings import Finding, Severity, one_tag

FOUND = Finding(
    severity=Severity.ERROR,
    rule="bore_depth_unknown",
    tag="TE-101",
    well_tag="TW-101",
    sheet="Index",
    row=7,
    cell="C7",
    field="bore_depth",
    found="blank",
    expected="a bore depth",
    explanation="There is no way to the depth of the bore.",
    action="measure it",
    tags=("TE-101",),
    row_ids=(0,),
    withholds=True,
    folded=False,
)


def test_severities_rank_loudest_first() -> None:
    assert sorted(Severity, key=lambda one: one.rank) == [Severity.ERROR, Severity.WARNING, Severity.NOTE]


@pytest.mark.parametrize(
    "change",
    [
        {"sheet": "Another"},
        {"row": 12, "cell": "D12"},
        {"severity": Severity.NOTE},
        {"found": "?", "expected": "a length", "action": "none", "explanation": ""},
        {"tag": "te-101 "},
        {"comment": "seen", "disposition": "accepted", "change": "open"},
    ],
)
def test_the_identity_stays_when_a_row_moves_or_a_wording_changes(change: dict[str, object]) -> None:
    assert replace(FOUND, **change).id == FOUND.id  # type: ignore[arg-type]  # one field at a time


@pytest.mark.parametrize(
    "change",
    [{"tag": "TE-102"}, {"well_tag": "TW-9"}, {"rule": "tip_assumed"}, {"field": "tip_thickness"}, {"occurrence": 1}],
)
def test_tag_well_tag_rule_and_field_make_the_identity(change: dict[str, object]) -> None:
    assert replace(FOUND, **change).id != FOUND.id  # type: ignore[arg-type]  # one field at a time


def test_a_finding_of_a_whole_sheet_is_known_by_the_sheet() -> None:
    folded = replace(FOUND, folded=True, tag="", well_tag="", row=None)
    assert replace(folded, tags=("TE-7", "TE-8")).id == folded.id
    assert replace(folded, sheet="Another").id != folded.id


def test_an_identity_is_short_and_of_one_form() -> None:
    assert FOUND.id.startswith("F-")
    assert len(FOUND.id) == len("F-0123456789")


@pytest.mark.parametrize("spelling", ["te-101", "TE 101", "TE101", "T E\u20131 01"])
def test_spellings_of_one_tag_have_the_same_core(spelling: str) -> None:
    assert one_tag(spelling) == one_tag("TE-101")
