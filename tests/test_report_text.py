"""What a run says in whole sentences."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.basis_file import basis_from
from thermowell_index.registry import RULES
from thermowell_index.report_text import CAUTIONS, assumed_sentences, basis_rows, profile_rows

Check = Callable[..., Any]
ROW = {"service": "wash water", "line": "W-12", "bore_depth (in)": 9}


@pytest.mark.parametrize(
    "words",
    [
        "stress and wake-frequency calculation to the governing code, by a competent engineer",
        "for the stated sensor profile only",
        "never loosen or remove one on a line that is not isolated, drained and released",
        "sensor withdrawn and the well left in place, with a rod of the sensor's diameter",
        "no pressure seal: pressure, hiss or wet at the first turn means a leaking well. Stop, retighten, report.",
        "can trip the plant. Surfaces are hot.",
        "permit, lock-out and hazardous-area rules; unions and nipples can be part of a flameproof enclosure",
        "Local codes and licensed practice prevail.",
    ],
)
def test_every_caution_is_said(words: str) -> None:
    assert any(words in caution for caution in CAUTIONS)


def test_what_was_assumed_is_said_by_sheet_with_the_count(check: Check) -> None:
    done = check({"tag": "TE-101"} | ROW, {"tag": "TE-102"} | ROW)
    sentences = assumed_sentences(done.table, done.findings, RULES)
    title = RULES["mounting_from_basis"].title.rstrip(".")
    assert f"Index: {title} (2 rows: taken as spring-loaded fitting)." in sentences
    assert sentences[-1] == "The thread of 2 rows is not stated; the design basis' thread is taken."


def test_one_row_is_counted_in_the_singular_and_a_stated_thread_not_at_all(check: Check) -> None:
    done = check({"tag": "TE-101"} | ROW, {"tag": "TE-102", "instrument_thread": "1/2 NPT"} | ROW)
    assert "The thread of 1 row is not stated" in assumed_sentences(done.table, done.findings, RULES)[-1]
    done = check({"tag": "TE-102", "instrument_thread": "1/2 NPT"} | ROW)
    assert not any("thread of" in line for line in assumed_sentences(done.table, done.findings, RULES))


def test_the_design_basis_is_shown_entry_by_entry_and_marks_what_the_user_changed() -> None:
    basis = basis_from({"index": {"unit": "mm"}}, name="", where="", switches={})
    rows = {f"{row.section}.{row.entry}": row for row in basis_rows(basis)}
    assert list(rows) == list(basis.entries)
    assert [key for key, row in rows.items() if row.is_changed] == ["index.unit"]
    assert (rows["index.unit"].value, rows["index.unit"].source) == ("mm", "user's design basis")
    assert rows["extension.coupling_length"].value == "not stated"
    assert all(row.source and row.meaning for row in rows.values())


def test_profiles_are_shown_with_words_for_what_is_not_stated() -> None:
    rows = {row["Profile"]: row for row in profile_rows(BUILT_IN)}
    assert len(rows) == len(BUILT_IN.profiles)
    assert rows["flanged insert"]["Seat offset"] == "not stated"
    assert rows["fixed fitting"]["Spring travel"] == "none"
    assert rows["collar fitting"]["Standard lengths (mm)"] == "any"
    assert all(all(row.values()) for row in rows.values())
