"""The hidden sheet: what it keeps, and what it makes of damage."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from openpyxl import load_workbook

from thermowell_index.findings import Finding, one_tag
from thermowell_index.ooxml import Cell, Package, SheetCells
from thermowell_index.revisions.comparison import Block, Comparison
from thermowell_index.revisions.history import History
from thermowell_index.revisions.memory import RowMemory
from thermowell_index.revisions.previous import BasisSignOff, HandValue, RegisterEntry
from thermowell_index.revisions.sample import Sample
from thermowell_index.writer import Report, write_checked
from thermowell_index.writer.marks import state_of
from thermowell_index.writer.state import LONGEST_TEXT, State, read_state


def _cells(*lines: tuple[str | float | None, ...]) -> SheetCells:
    return SheetCells(
        rows={
            row: {
                column: Cell(row, column, value, "s", row, is_formula=False, kept_text=None)
                for column, value in enumerate(line, start=1)
            }
            for row, line in enumerate(lines, start=1)
        }
    )


def _bare(finding: Finding) -> Finding:
    """Return a finding without what the rule says again in every run."""
    return replace(finding, explanation="", action="", withholds=False)


@pytest.fixture
def state_after(index_path: Path) -> Callable[[Report], State]:
    """Return a function that writes a report and reads the hidden sheet back."""

    def write(report: Report) -> State:
        target = index_path.with_name("OUT.xlsx")
        with Package.open(index_path) as package:
            write_checked(report, package, target)
        with Package.open(target) as package:
            state = state_of(package)
        assert state is not None
        return state

    return write


def test_the_style_of_a_flagged_cell_is_that_of_its_keeper() -> None:
    state = read_state(_cells(("content", "abc"), ("style", "Utilities", "D8", "kept")))
    assert state.kept_styles == {"Utilities": {(8, 4): 2}}
    assert state.content_fingerprint == "abc"


def test_sheets_with_answers_are_kept_with_their_first_column() -> None:
    state = read_state(_cells(("sheet", 1.0, "Utilities", 8.0), ("sheet", "2", "Mixing"), ("sheet", "3", "X", 0.5)))
    assert {number: (one.name, one.first_column) for number, one in state.annotated.items()} == {"1": ("Utilities", 8)}


def test_lines_that_mean_nothing_are_passed_over_and_damaged_records_are_counted() -> None:
    state = read_state(
        _cells(
            ("style", "Utilities", "D8"),
            ("something", "else"),
            (None,),
            (),
            ("row", "{"),
            ("run", "{}"),
            ("finding", "{}"),
            ("comparison", "[]"),
            ("register", "{}"),
            ("basis sign-off", None),
        )
    )
    assert (state.kept_styles, state.findings, state.damaged) == ({}, {}, 6)


def test_all_that_is_remembered_is_read_back(
    make_report: Callable[..., Report],
    make_finding: Callable[..., Finding],
    state_after: Callable[[Report], State],
) -> None:
    rows = [
        RowMemory(
            tag="TE-1", well_tag="", key=one_tag("TE-1"), well_key="", loop="1", letters="TE", sheet="Utilities", row=6,
            cells={"remarks": "=not a formula _x0041_"},
        )
    ]  # fmt: skip
    value = HandValue(key="TE1", well_key="", tag="TE-1", inputs="i", answer="228.6", value="9")
    found = make_finding(own_columns=(("Action by", "site"),), former_decision="a\nb", row_ids=(2, 5))
    history = History(
        rows=rows,
        basis_entries={"a.b": "1"},
        comparison=Comparison(sentences=["s"], blocks=[Block(title="t", headings=("a",), lines=[("x",)])]),
        register=[RegisterEntry(finding=make_finding(rule="gone"), last_seen="A", may_be="TE-2", carry_to="TE-3")],
        own_lines=["a line"],
        basis_sign_off=BasisSignOff(fingerprint="f", disposition="accepted"),
        sample=Sample(seed="seed", earlier=[value]),
    )
    state = state_after(make_report(findings=[found], history=history))
    assert state.findings == {found.id: _bare(found)}
    assert state.register == [replace(history.register[0], finding=_bare(make_finding(rule="gone")))]
    assert (state.rows, state.basis_entries, state.comparison) == (rows, {"a.b": "1"}, history.comparison)
    assert (state.own_lines, state.basis_sign_off) == (["a line"], history.basis_sign_off)
    assert (state.hand_values, state.sample_seed, state.damaged) == ([value], "seed", 0)


def test_a_record_longer_than_a_cell_goes_on_in_the_next(
    make_finding: Callable[..., Finding],
    make_report: Callable[..., Report],
    state_after: Callable[[Report], State],
    index_path: Path,
) -> None:
    tags = tuple(f"TE-{number:05}" for number in range(9000))
    state = state_after(make_report(findings=[make_finding(folded=True, tag="", tags=tags)]))
    assert next(iter(state.findings.values())).tags == tags
    hidden = load_workbook(index_path.with_name("OUT.xlsx"))["Thermowell index state"]
    assert max(len(str(cell.value or "")) for row in hidden.iter_rows() for cell in row) <= LONGEST_TEXT
