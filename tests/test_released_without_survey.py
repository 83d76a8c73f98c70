"""How many rows need no survey where tips and extensions are missing: measured on a generated index."""

import random
from collections.abc import Callable
from typing import Any

import pytest

Check = Callable[..., Any]
ROWS, FEWER = 400, 120
MISSING = 0.3
# The plant buys nipples of one length to a quarter of an inch: what the design basis may then say of those not stated.
NIPPLES = '[extension]\nnipple_credible_least = "3-7/8 in"\nnipple_credible_most = "4-1/8 in"\n'


def plant(seed: int, count: int = ROWS) -> list[dict[str, object]]:
    """Wells known by overall length and tip, half of them with extensions; three of ten tips and lengths missing."""
    rnd = random.Random(seed)  # noqa: S311 - a generated index, no secret
    rows: list[dict[str, object]] = []
    for number in range(count):
        kind = rnd.choice(["none", "none", "nipple", "nipple and union"])
        mounting = "spring-loaded insert" if kind == "nipple" else "spring-loaded fitting"
        overall = rnd.choice([4, 6, 7.5, 9, 10.5, 12, 15, 18]) + rnd.choice([0.25, 0.25, 0.25, 0.375])
        rows.append(
            {
                "tag": f"TE-{1001 + number}",
                "overall_length (in)": overall,
                "tip_thickness (in)": None if rnd.random() < MISSING else 0.25,
                "mounting": mounting,
                "extension": kind,
                "nipple_length (in)": None if kind == "none" or rnd.random() < MISSING else 4,
                "spring_travel (in)": 1,
            }
        )
    return rows


def waiting(rows: list[dict[str, object]]) -> set[str]:
    """Rows of which a tip or an extension's length is missing."""
    return {
        str(row["tag"])
        for row in rows
        if row["tip_thickness (in)"] is None or (row["extension"] != "none" and row["nipple_length (in)"] is None)
    }


def released(done: Any, tags: set[str]) -> float:
    """Share of some rows that have a length and are not asked for."""
    asked = {line.tag for line in done.result.report.survey.lines}
    frame = done.result.table
    sized = set(frame.loc[frame["probe_length_order_mm"].notna(), "tag"])
    return len((tags & sized) - asked) / len(tags)


@pytest.mark.parametrize("basis,least", [("", 0.6), (NIPPLES, 0.9)])
def test_most_rows_with_a_missing_tip_or_extension_need_no_survey(check: Check, basis: str, least: float) -> None:
    rows = plant(20)
    tags = waiting(rows)
    share = released(check(*rows, basis=basis), tags)
    assert share >= least, f"{len(tags)} rows lack a tip or an extension length; {share:.1%} need no survey"


def test_no_length_given_for_a_missing_dimension_misses_the_well(check: Check) -> None:
    """Each length given for an unknown presses the spring rightly with any credible value in its place."""
    rows = plant(21, FEWER)
    given = check(*rows, basis=NIPPLES).result.table.set_index("tag")["probe_length_order_mm"]
    for tip, nipple in ((0.1875, 3.875), (0.375, 4.125), (0.375, 3.875), (0.1875, 4.125)):
        full = [
            row
            | {"tip_thickness (in)": row["tip_thickness (in)"] or tip}
            | ({} if row["extension"] == "none" else {"nipple_length (in)": row["nipple_length (in)"] or nipple})
            for row in rows
        ]
        known = check(*full).result.table.set_index("tag")
        compression = (given - known["seat_plane_mm"])[given.notna()]
        assert len(compression) > FEWER / 2
        assert (compression >= known["preload_used_mm"].reindex(compression.index)).all()
        assert (compression <= (known["travel_mm"] - known["reserve_used_mm"]).reindex(compression.index)).all()
