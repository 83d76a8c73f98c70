"""Verdicts and lengths of whole rows: what is sized, what is withheld, and what a finding does to its row."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import thermowell_index.judge
from thermowell_index.basis import BUILT_IN
from thermowell_index.findings import Severity
from thermowell_index.judge import RESULT_LENGTHS, judge
from thermowell_index.registry import run

Check = Callable[..., Any]
SOUND = {"tag": "TE-101", "bore_depth (in)": 9, "service": "wash water", "line": "W-12", "sensor_type": "RTD"}


def test_limits_are_bare_and_not_on_the_increment(check: Check) -> None:
    # S = sqrt(2 x 0.0625^2 + 0.0714^2) = 0.1136; shortest 8.5 + 0.125 + 0.1136, longest 9.5 - 0.05 - 0.1136
    done = check(SOUND)
    assert done.inches("TE-101", "shortest_fit") == 8.7386
    assert done.inches("TE-101", "longest_fit") == 9.3364


def test_a_tie_goes_to_the_longer(check: Check) -> None:
    # P = 9-1/8, midway between 9 and 9-1/4
    assert check(SOUND | {"bore_depth (in)": "9 1/8"}).orders() == {"TE-101": 9.25}


SHORT_SPRING = {"tag": "TE-101", "overall_length (in)": 9.25, "tip_thickness (in)": None, "spring_travel (in)": 0.75}


def test_an_assumed_tip_that_decides_the_length_is_a_warning_and_review(check: Check) -> None:
    # window of the 3/4 in spring: 0.75 - 0.09375 - 0.0375 - 2 x 0.1136 - 3/16 = 0.204, from 8.77 to 8.97: no quarter
    done = check(SHORT_SPRING)
    assert done.verdicts() == {"TE-101": "review"}
    assert done.hits() == [("tip_assumed", "TE-101", "C2")]
    assert done.orders() == {"TE-101": 9}


def test_an_assumed_tip_that_one_length_serves_is_a_note_for_the_sheet(check: Check) -> None:
    done = check(SHORT_SPRING | {"spring_travel (in)": 1})
    assert done.verdicts() == {"TE-101": "sized"}
    assert done.notes()["tip_assumed"] == ("TE-101",)


# 9 in stated; overall less tip says how much more or less.
@pytest.mark.parametrize(
    "unit,bore,overall,tip,verdict",
    [
        ("in", 9, 9.25, 0.25, "sized"),
        ("in", 9, "9 5/16", 0.25, "sized"),
        ("in", 9, 9.32, 0.25, "withheld"),
        ("mm", 229, 236.5, 6, "sized"),
        ("mm", 229, 236.6, 6, "withheld"),
    ],
)
def test_overall_less_tip_may_differ_from_the_bore_depth_by_its_limit(
    check: Check, unit: str, bore: object, overall: object, tip: float, verdict: str
) -> None:
    row = {"tag": "TE-101", f"bore_depth ({unit})": bore, f"overall_length ({unit})": overall}
    done = check(row | {f"tip_thickness ({unit})": tip})
    assert done.verdicts() == {"TE-101": verdict}
    assert [rule for rule, _, _ in done.hits()] == ["tip_does_not_add_up"] * (verdict == "withheld")


@pytest.mark.parametrize("bore,verdict", [(1.49, "withheld"), (1.5, "sized"), (119, "sized"), (120.1, "withheld")])
def test_a_bore_depth_that_no_well_has_is_withheld(check: Check, bore: float, verdict: str) -> None:
    done = check(SOUND | {"bore_depth (in)": bore})
    assert done.verdicts() == {"TE-101": verdict}
    assert [rule for rule, _, _ in done.hits()] == ["implausible_length"] * (verdict == "withheld")


def test_what_a_cell_holds_beside_its_number_decides_whether_it_is_read(check: Check) -> None:
    cells = ["9 (as built)", "9 verified", "9 *", "9 TBC", "9 est.", "~9", "9 approx.", "9 blue", "9/10 in"]
    rows = [
        {"tag": f"TE-{number}", "bore_depth (in)": cell, "sensor_type": "RTD"} for number, cell in enumerate(cells, 1)
    ]
    done = check(*rows)
    by_cell = dict(zip(cells, done.verdicts().values(), strict=True))
    assert [cell for cell, verdict in by_cell.items() if verdict == "sized"] == cells[:3]
    severities = {
        found.found.removeprefix("bore depth ").removesuffix(" in"): found.severity
        for found in done.findings
        if not found.folded
    }
    assert [severities[cell] for cell in cells[3:7]] == [Severity.WARNING] * 4
    assert severities["9 blue"] is Severity.ERROR


def test_a_formula_without_a_stored_result_is_an_error_and_withheld(check: Check) -> None:
    done = check(SOUND, SOUND | {"tag": "TE-102", "bore_depth (in)": "=B2+1"})
    assert done.verdicts() == {"TE-101": "sized", "TE-102": "withheld"}
    assert done.hits() == [("dead_formula", "TE-102", "B3")]


WITH_A_CELL_NOT_NEEDED = {
    "tag": "TE-101",
    "bore_depth (in)": 9,
    "overall_length (in)": None,
    "insertion_length (in)": None,
}


@pytest.mark.parametrize(
    "field,value",
    [("insertion_length (in)", "6/8/9"), ("insertion_length (in)", "=1/0"), ("overall_length (in)", "#REF!")],
)
def test_a_bad_cell_that_the_length_does_not_need_leaves_the_length(check: Check, field: str, value: str) -> None:
    done = check(WITH_A_CELL_NOT_NEEDED | {field: value})
    assert done.verdicts() == {"TE-101": "review"}
    assert done.orders() == {"TE-101": 9}
    assert [found.severity for found in done.findings if not found.folded] == [Severity.ERROR]


def test_no_way_to_a_bore_depth_is_an_error_and_withheld(check: Check) -> None:
    done = check(SOUND, SOUND | {"tag": "TE-102", "bore_depth (in)": None})
    assert done.hits() == [("bore_depth_unknown", "TE-102", "B3")]
    assert done.verdicts()["TE-102"] == "withheld"


def test_a_folded_finding_leaves_the_verdict_of_its_rows_alone(check: Check) -> None:
    done = check({"tag": "TE-101", "overall_length (in)": 9.25, "tip_thickness (in)": 0.25})
    assert {"mounting_from_basis", "extension_from_basis", "travel_assumed"} <= set(done.notes())
    assert done.verdicts() == {"TE-101": "sized"}


# c = P - 8.5: 0 or less never touches; 1 or more is solid; less 0.1136 below 0.125, plus 0.1136 above 0.95 may be.
@pytest.mark.parametrize(
    "stated,rule,severity",
    [
        (8.5, "tip_never_touches", "error"),
        (8.5625, "tip_may_not_touch", "warning"),
        (8.75, "", ""),
        (9.25, "", ""),
        (9.4375, "spring_may_go_solid", "warning"),
        (9.5, "spring_goes_solid", "error"),
    ],
)
def test_a_stated_length_is_judged_and_the_computed_one_still_given(
    check: Check, stated: float, rule: str, severity: str
) -> None:
    done = check(SOUND | {"probe_length (in)": stated})
    single = [(found.rule, found.severity) for found in done.findings if not found.folded]
    assert [hit for hit in single if hit[0] != "length_tells_its_mistake"] == [(rule, severity)] * bool(rule)
    assert done.verdicts() == {"TE-101": "review" if rule else "sized"}
    assert done.orders() == {"TE-101": 9}


def test_a_withheld_row_shows_bore_depth_and_extension_and_no_other_length(check: Check) -> None:
    done = check(
        {
            "tag": "TE-101",
            "bore_depth (in)": 9,
            "sensor_mounting": "TBD",
            "extension": "nipple",
            "nipple_length (in)": 4,
        },
        {"tag": "TE-102", "bore_depth (in)": 9, "sensor_mounting": "fixed fitting", "extension": "none"},
    )
    row = done.row("TE-101")
    assert (row["verdict"], row["reason"]) == ("withheld", "mounting not stated")
    assert (done.inches("TE-101", "bore_depth_used"), done.inches("TE-101", "extension_installed")) == (9, 3)
    assert row[list(RESULT_LENGTHS)].isna().all()


def test_a_row_that_is_not_applicable_has_no_length_at_all(check: Check) -> None:
    done = check(SOUND, SOUND | {"tag": "PT-101", "sensor_type": None})
    row = done.row("PT-101")
    assert (row["verdict"], row["reason"]) == ("not applicable", "not a temperature instrument")
    assert row[["bore_depth_used_mm", "extension_installed_mm", *RESULT_LENGTHS]].isna().all()
    assert (row["bore_depth_basis"], row["working"], row["extension_parts"]) == ("", "", "")


def test_a_fixed_fitting_has_no_compression_margin_or_first_touch(check: Check) -> None:
    row = check(SOUND | {"sensor_mounting": "fixed fitting"}).row("TE-101")
    empty = [name for name in RESULT_LENGTHS if np.isnan(row[name])]
    assert empty == [
        "compression_min_mm", "compression_nominal_mm", "compression_max_mm", "margin_mm", "first_touch_mm",
    ]  # fmt: skip
    assert "gap 1/4 in" in row["working"] or "gap 0.25 in" in row["working"]


def test_first_touch_is_a_stand_off_for_a_fitting_and_the_gap_under_the_head_for_an_insert(check: Check) -> None:
    # fitting: P - (B + X) = 0; insert on a 4 in nipple: c = 12 - 11.5 = 0.5
    done = check(
        {"tag": "TE-101", "bore_depth (in)": 9, "sensor_mounting": "spring-loaded fitting", "extension": "none"},
        {
            "tag": "TE-102", "bore_depth (in)": 9, "sensor_mounting": "spring-loaded insert",
            "extension": "nipple", "nipple_length (in)": 4,
        },
    )  # fmt: skip
    assert (done.inches("TE-101", "first_touch"), done.inches("TE-102", "first_touch")) == (0, 0.5)


def test_an_assumed_tip_is_6_mm_on_a_metric_row_and_5_mm_in_a_din_well(check: Check) -> None:
    rows = [
        {"tag": f"TE-{n}", "overall_length (mm)": 241, "form": form}
        for n, form in enumerate(["tapered", "DIN 43772 form 2"], 1)
    ]
    done = check(*rows)
    assert [round(length, 6) for length in done.table["bore_depth_used_mm"]] == [235, 236]


def test_the_limits_of_an_assumed_tip_serve_its_whole_range(check: Check) -> None:
    # tip 6, credible from 4.7625 to 9.525 mm; S = sqrt(2 x 1.5875^2 + 1.8143^2) = 2.886; Zs = 235 - 12.7 = 222.3:
    # shortest 222.3 + 3.175 + 2.886 + 1.2375, longest 222.3 + 25.4 - 1.27 - 2.886 - 3.525
    row = check({"tag": "TE-1", "overall_length (mm)": 241, "sensor_type": "RTD"}).row("TE-1")
    assert row["shortest_fit_mm"] == pytest.approx(229.598, abs=0.002)
    assert row["longest_fit_mm"] == pytest.approx(240.019, abs=0.002)


def test_worst_case_by_choice_adds_the_tolerances_up(check: Check) -> None:
    # 0.0625 + 0.0625 + 0.0714 = 0.1964
    done = check(SOUND, basis='[tolerance]\nstack = "worst case"')
    assert done.inches("TE-101", "compression_min") == pytest.approx(0.5 - 0.1964, abs=1e-4)


def test_the_parts_of_an_extension_are_listed_as_they_are_bought(check: Check) -> None:
    insert = {"bore_depth (in)": 9, "sensor_mounting": "spring-loaded insert"}
    done = check(
        {"tag": "TE-1", **insert, "extension": "nipple", "nipple_length (in)": 4, "extension_length (in)": None},
        {"tag": "TE-2", **insert, "extension": "nipple-union-nipple", "nipple_length (in)": 4},
        {"tag": "TE-3", **insert, "extension": "neck tube", "extension_length (in)": 5},
        {
            "tag": "TE-4",
            **insert,
            "sensor_mounting": "fixed fitting",
            "extension": "nipple and union",
            "nipple_length (in)": 3,
        },
        basis='[extension]\nunion_length_means = "bought"',
    )
    assert list(done.table["extension_parts"]) == [
        "nipple 4 in, 1/2 NPT",
        "2 x nipple 4 in, 1/2 NPT; union 1/2 NPT",
        "",
        "nipple 3 in, 1/2 NPT; union 1/2 NPT",
    ]


def test_the_parts_of_an_extension_that_was_measured_are_counted_without_the_nipples_length(check: Check) -> None:
    fitting = {"bore_depth (in)": 9, "sensor_mounting": "spring-loaded fitting"}
    measured = {"extension": "nipple and union", "installed_length (in)": 3}
    done = check(
        {"tag": "TE-1", **fitting, **measured, "quantity": 2},
        {"tag": "TE-2", **fitting, **measured, "nipple_length (in)": 2},
        {
            "tag": "TE-3",
            "bore_depth (in)": 9,
            "sensor_mounting": "spring-loaded insert",
            "extension": "nipple-union-nipple",
            "installed_length (in)": 6,
        },
    )
    parts = [(line.part, line.quantity, line.tags) for line in done.result.report.schedule.parts]
    assert parts == [
        ("nipple 2 in, 1/2 NPT", 1, ("TE-2",)),
        ("nipple whose length is not known", 4, ("TE-1", "TE-3")),
        ("union 1/2 NPT", 4, ("TE-1", "TE-2", "TE-3")),
    ]


def test_the_working_names_the_row_that_the_bore_depth_came_from(check: Check) -> None:
    done = check(
        SOUND | {"bore_depth (in)": None},
        SOUND | {"tag": "TW-101", "sensor_type": None},
    )
    assert "from TW-101, Index row 3" in done.row("TE-101")["working"]


def test_findings_come_loudest_first_then_by_row(check: Check) -> None:
    done = check(
        SOUND | {"bore_depth (in)": "9 est."},
        SOUND | {"tag": "TE-102", "bore_depth (in)": "9/10"},
        SOUND | {"tag": "TE-103", "bore_depth (in)": "8/9"},
    )
    single = [(found.severity.value, found.tag) for found in done.findings if not found.folded]
    assert single == [("error", "TE-102"), ("error", "TE-103"), ("warning", "TE-101")]
    ranks = [found.severity.rank for found in done.findings]
    assert ranks == sorted(ranks)


def test_a_row_withheld_without_a_reason_is_a_fault_of_the_program(
    read_rows: Check, monkeypatch: pytest.MonkeyPatch
) -> None:
    def without(rules: list[Any], *rest: Any, **more: Any) -> list[Any]:
        silenced = ("bore_depth_unknown", "length_not_computed")
        return run([entry for entry in rules if entry.name not in silenced], *rest, **more)

    monkeypatch.setattr(thermowell_index.judge, "run", without)
    with pytest.raises(RuntimeError, match="TE-101, Index row 2 is withheld and no rule says why"):
        judge(read_rows(SOUND | {"bore_depth (in)": None}, SOUND | {"tag": "TE-102"}), BUILT_IN)


# --- what must not depend on how the rows stand

INCH = 25.4
OTHER = {"service": "wash water", "line": "W-12"}
UNKNOWN = OTHER | {"tag": "TE-99"}
FEW = settings(max_examples=6, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
WELLS = st.fixed_dictionaries(
    {
        "overall_length (in)": st.integers(24, 160).map(lambda eighths: eighths / 8),
        "tip_thickness (in)": st.sampled_from([0.25, 0.1875, None]),
        "sensor_mounting": st.sampled_from(["spring-loaded fitting", "spring-loaded insert", "fixed fitting"]),
        "nipple_length (in)": st.sampled_from([3, 4.5, 6]),
    }
)


def rows_of(wells: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """One row a well, each with an extension that its sensor can stand on."""
    tops = {"spring-loaded insert": "nipple", "spring-loaded fitting": "nipple and union", "fixed fitting": "none"}
    bare = {"nipple_length (in)": None}
    return [
        OTHER
        | {"tag": f"TE-{number}", "extension_arrangement": tops[well["sensor_mounting"]]}
        | well
        | (bare if tops[well["sensor_mounting"]] == "none" else {})
        for number, well in enumerate(wells, start=100)
    ]


def digits(done: Any, tag: str) -> list[Any]:
    row = done.row(tag)
    return [row["verdict"], *(float(row[name]) for name in RESULT_LENGTHS if row[name] == row[name])]


@FEW
@given(wells=st.lists(WELLS, min_size=2, max_size=5), seed=st.randoms(use_true_random=False))
def test_the_order_of_the_rows_makes_no_difference(check: Check, wells: list[dict[str, Any]], seed: Any) -> None:
    rows = rows_of(wells)
    mixed = seed.sample(rows, len(rows))
    one, other = check(*rows), check(*mixed)
    for row in rows:
        assert digits(one, row["tag"]) == digits(other, row["tag"])


@FEW
@given(wells=st.lists(WELLS, min_size=2, max_size=5))
def test_a_row_has_the_same_digits_alone_and_among_others(check: Check, wells: list[dict[str, Any]]) -> None:
    rows = rows_of(wells)
    alone, among = check(rows[0]), check(*rows)
    assert digits(alone, rows[0]["tag"]) == digits(among, rows[0]["tag"])


@FEW
@given(wells=st.lists(WELLS, min_size=1, max_size=3), added=st.lists(WELLS, min_size=1, max_size=4))
def test_rows_that_are_added_leave_the_verdicts_of_the_others(
    check: Check, wells: list[dict[str, Any]], added: list[dict[str, Any]]
) -> None:
    rows = [*rows_of(wells), UNKNOWN | {"extension_arrangement": "none", "sensor_mounting": "rigid"}]
    more = rows_of(wells + added)
    before, after = check(*rows), check(*rows[len(wells) :], *more)
    assert {tag: after.verdicts()[tag] for tag in before.verdicts()} == before.verdicts()


def in_millimetres(row: dict[str, Any]) -> dict[str, Any]:
    return {
        heading.replace("(in)", "(mm)"): value * INCH if "(in)" in heading and value is not None else value
        for heading, value in row.items()
    }


@FEW
@given(wells=st.lists(WELLS.filter(lambda well: well["tip_thickness (in)"] is not None), min_size=1, max_size=4))
def test_an_index_in_millimetres_gives_the_lengths_of_the_same_index_in_inches_up_to_the_increment(
    check: Check, wells: list[dict[str, Any]]
) -> None:
    rows = rows_of(wells)
    inch, metric = check(*rows), check(*map(in_millimetres, rows))
    for row in rows:
        one, other = inch.row(row["tag"]), metric.row(row["tag"])
        for name in ("probe_length_computed_mm", "shortest_fit_mm", "longest_fit_mm"):
            assert other[name] == pytest.approx(one[name], abs=1e-3)
        # nearest on 1/4 in and on 5 mm to the same computed length; a fixed fitting takes the longest that fits
        span = 6.35 if one["mounting"] == "fixed fitting" else (6.35 + 5) / 2
        assert abs(other["probe_length_order_mm"] - one["probe_length_order_mm"]) <= span + 1e-6
