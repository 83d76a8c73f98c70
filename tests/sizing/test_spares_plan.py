"""The spares plan of an index: what makes a kind, which rows count, which tags are named."""

from typing import Any

import pandas as pd
import pytest

from thermowell_index.answers import SparesKind
from thermowell_index.sizing.spares_plan import spares_plan

NAN = float("nan")


def row(tag: str, shortest: float, longest: float, order: float, **changes: Any) -> dict[str, Any]:
    """Return a row with a length, changed by keyword."""
    return {
        "sheet": "Mixing",
        "row": 6,
        "tag": tag,
        "shortest_fit_mm": shortest,
        "longest_fit_mm": longest,
        "probe_length_order_mm": order,
        "increment_nm": 5_000_000,
        "increment_unit": "mm",
        "standard_lengths": None,
        "mounting": "spring-loaded fitting",
        "plane": "from end of mounting thread to tip, spring relaxed",
        "sheath_diameter_text": "6 mm",
        "sheath_diameter_mm": 6.0,
        "sensor_type": "RTD Pt100",
        "element_count": "1",
        "sheath_material": "316 SS",
        "thread_text": "1/2 NPT",
        **changes,
    }


def plan(*rows: dict[str, Any]) -> tuple[SparesKind, ...]:
    return spares_plan(pd.DataFrame(list(rows)))


def test_a_plan_names_who_is_served_who_is_lost_and_who_is_tightest() -> None:
    kind = plan(row("TE-1", 221, 229, 225), row("TE-2", 224, 251, 240), row("TE-3", 246, 254, 250))[0]
    assert (kind.wells, kind.ordered_lengths, kind.mounting, kind.thread) == (3, 3, "spring-loaded fitting", "1/2 NPT")
    assert [
        (length.length_mm, length.tags, length.lost_tags, length.least_margin_mm, length.tightest_tag)
        for length in kind.lengths
    ] == [
        # TE-2 has 1 mm to spare at 225 (225 - 224) and at 250 (251 - 250); of two alike the longer
        (225.0, ("TE-1",), ("TE-1",), 4.0, "TE-1"),
        (250.0, ("TE-2", "TE-3"), ("TE-3",), 1.0, "TE-2"),
    ]


@pytest.mark.parametrize(
    "changes",
    [
        {"sheath_diameter_mm": 6.35, "sheath_diameter_text": "1/4 in"},
        {"mounting": "fixed fitting"},
        {"sensor_type": "TC type K"},
        {"thread_text": "3/4 NPT"},
        {"standard_lengths": (225.0, 230.0)},
        {"increment_nm": 10_000_000},
    ],
)
def test_sensors_that_a_buyer_tells_apart_share_no_length(*, changes: dict[str, Any]) -> None:
    kinds = plan(row("TE-1", 221, 236, 230), row("TE-2", 221, 236, 230, **changes))
    assert [kind.wells for kind in kinds] == [1, 1]


def test_the_kind_with_the_most_wells_stands_first() -> None:
    kinds = plan(
        row("TE-1", 221, 236, 230, mounting="fixed fitting"), row("TE-2", 221, 236, 230), row("TE-3", 221, 236, 230)
    )
    assert [kind.wells for kind in kinds] == [2, 1]


def test_a_row_without_a_length_is_passed_over_and_one_that_is_not_wanted_counts() -> None:
    kinds = plan(row("TE-1", NAN, NAN, NAN), row("TE-2", 221, 236, 230, quantity=0))
    assert [length.tags for length in kinds[0].lengths] == [("TE-2",)]


def test_a_tag_on_two_rows_is_told_apart_by_its_place() -> None:
    kinds = plan(row("TE-1", 221, 236, 230), row("TE-1", 221, 236, 230, row=9), row("TE-2", 221, 236, 230))
    assert kinds[0].lengths[0].tags == ("TE-1 (Mixing row 6)", "TE-1 (Mixing row 9)", "TE-2")


def test_an_index_without_lengths_has_no_plan() -> None:
    assert plan(row("TE-1", NAN, NAN, NAN)) == ()
