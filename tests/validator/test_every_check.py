"""Every check has its table of cases: where it fires, where it does not, on its limit, and with each need blank."""

import importlib.util
import inspect
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from thermowell_index.basis import Basis
from thermowell_index.registry import ANY_CAUSE, RULES, Withholds, run
from thermowell_index.table import IndexTable

Case = tuple[str, Any, list[str]]


def _tables() -> dict[str, Sequence[Case]]:
    found: dict[str, Sequence[Case]] = {}
    for path in sorted(Path(__file__).parent.glob("test_*.py")):
        if path.name != Path(__file__).name:
            spec = importlib.util.spec_from_file_location(f"cases_of_{path.stem}", path)
            assert spec is not None
            assert spec.loader is not None
            module = importlib.util.module_from_spec(spec)
            spec.loader.exec_module(module)
            found |= getattr(module, "CASES", {})
    return found


TABLES = _tables()
NEEDS = [(rule.name, need) for rule in RULES.values() for need in rule.needs]


@pytest.mark.parametrize("rule", RULES)
def test_every_check_has_a_case_that_fires_and_one_that_does_not(rule: str) -> None:
    cases = TABLES.get(rule, ())

    assert [title for title, _, facts in cases if facts], "no case fires"
    assert [title for title, _, facts in cases if not facts], "no case is sound"


@pytest.mark.parametrize("rule", RULES)
def test_every_check_with_a_limit_has_a_case_on_it(rule: str) -> None:
    text = inspect.getsource(RULES[rule].check)
    has_limit = "basis.length_mm(" in text or "basis.number(" in text

    assert not has_limit or [title for title, *_ in TABLES[rule] if "limit" in title]


def test_no_table_is_of_a_check_that_is_not_there() -> None:
    assert set(TABLES) <= set(RULES)


@pytest.mark.parametrize("rule,need", NEEDS)
def test_a_check_is_silent_where_a_need_is_blank(
    rule: str, need: str, build: Callable[..., IndexTable], choose: Callable[..., Basis]
) -> None:
    rows = next(rows for _, rows, facts in TABLES[rule] if facts)
    listed = [rows] if isinstance(rows, dict) else rows
    table = build(listed, sized=True)
    basis = choose(listed)
    assert run([RULES[rule]], table, basis)

    blank = np.nan if need.endswith(("_mm", "_deg_c")) else ""
    table.frame[need] = blank

    assert run([RULES[rule]], table, basis) == []


@pytest.mark.parametrize("rule", RULES.values(), ids=lambda rule: rule.name)
def test_every_check_is_explained_in_full(rule: Any) -> None:
    assert rule.title.endswith(".")
    assert rule.condition
    assert rule.action
    assert rule.source


def test_a_check_yields_only_to_checks_that_are_there() -> None:
    named = {name for rule in RULES.values() for name in rule.yields_to} - {ANY_CAUSE}

    assert named <= set(RULES)


def test_what_says_why_a_row_has_no_length_withholds_it() -> None:
    assert all(rule.withholds is not Withholds.NEVER for rule in RULES.values() if rule.is_the_reason)


def test_a_sound_row_has_no_finding_of_its_own(voices: Callable[..., list[str]]) -> None:
    assert voices({}) == []
