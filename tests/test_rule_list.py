"""The list of checks in words."""

import pytest

from thermowell_index.errors import SettingsError
from thermowell_index.registry import RULES, Folds, Withholds
from thermowell_index.rule_list import as_markdown, by_family, explain, limits_of, listing

WIDTH = 100


def test_the_listing_has_every_check_once_within_its_width() -> None:
    lines = listing(WIDTH).splitlines()
    assert all(len(line) <= WIDTH for line in lines)
    for rule in RULES.values():
        named = [line for line in lines if line.startswith(f"  {rule.severity:<8} {rule.plain_name} ")]
        assert len(named) == 1, rule.name


def test_a_title_without_room_ends_in_dots() -> None:
    wide = max(len(rule.plain_name) for rule in RULES.values())
    assert all(line.endswith("...") for line in listing(wide + 30).splitlines() if line.startswith("  error"))


def test_families_hold_all_checks() -> None:
    listed = [rule.name for rules in by_family().values() for rule in rules]
    assert sorted(listed) == sorted(RULES)


@pytest.mark.parametrize("name", ["bore deeper than well", "bore-deeper-than-well", " Bore_Deeper_Than_Well "])
def test_a_check_is_explained_by_any_spelling_of_its_name(name: str) -> None:
    text = explain(name, WIDTH)
    assert text.startswith("bore deeper than well\n")
    assert "A well has a bottom." in text
    for label in ("severity:    error", "fires when:", "withholds:", "one finding:", "to do:", "source:"):
        assert label in text


@pytest.mark.parametrize("withholds", list(Withholds))
@pytest.mark.parametrize("folds", list(Folds))
def test_every_kind_of_check_can_be_explained(withholds: Withholds, folds: Folds) -> None:
    kinds = [rule for rule in RULES.values() if (rule.withholds, rule.folds) == (withholds, folds)]
    for rule in kinds:
        assert rule.plain_name in explain(rule.name, WIDTH)


@pytest.mark.parametrize(
    "rule,keys",
    [
        ("bore_deeper_than_well", ["limit.bore_below_overall"]),
        ("wall_too_thin", ["limit.wall_inch", "limit.wall_metric"]),
        ("tip_too_thick", ["limit.tip_thick", "limit.tip_usual_most", "family.least_rows"]),
        ("two_columns_differ", []),
    ],
)
def test_the_limits_of_a_check_are_the_entries_of_the_design_basis_that_it_asks_for(rule: str, keys: list[str]) -> None:
    assert limits_of(RULES[rule]) == keys


def test_limits_that_are_put_together_are_found() -> None:
    assert "limit.stress_bore_most" in limits_of(RULES["outside_stress_standard"])
    assert "family.head_flanged_least" in limits_of(RULES["head_length_out_of_family"])


def test_limits_are_named_with_their_values() -> None:
    text = explain("wall too thin", WIDTH)

    assert "limits:      limit.wall_inch (0.12 in), limit.wall_metric (3 mm)" in text
    assert "limits:" not in explain("two columns differ", WIDTH)


def test_a_name_that_is_none_brings_the_nearest() -> None:
    with pytest.raises(SettingsError, match="there is no check 'bore deper than well'; near: bore deeper than well"):
        explain("bore deper than well", WIDTH)


def test_a_name_that_is_near_to_none_says_how_to_list_them() -> None:
    with pytest.raises(SettingsError, match="no check 'xyzzyq'; list them with: thermowell-index rules"):
        explain("xyzzyq", WIDTH)


def test_the_table_of_checks_has_a_row_each_with_four_cells() -> None:
    head, rule_line, *rows = as_markdown().splitlines()
    assert (head, rule_line) == ("| check | severity | fires when | source |", "| --- | --- | --- | --- |")
    assert len(rows) == len(RULES)
    assert all(row.replace("\\|", "").count("|") == 5 for row in rows)
