"""The order schedule: what groups, what does not, and totals that reconcile."""

from typing import Any

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.sizing.schedule import (
    HeldLine,
    destinations,
    held_lines,
    order_lines,
    part_lines,
    schedule,
    totals,
)

NAN = float("nan")
IN = 25.4


def row(**changes: Any) -> dict[str, Any]:
    """Return a row that is ordered, changed by keyword."""
    return {
        "sheet": "Utilities",
        "row": 6,
        "tag": "TE-1001",
        "service": "Wash water",
        "verdict": "sized",
        "reason": "",
        "probe_length_order_mm": 9.25 * IN,
        "increment_unit": "in",
        "mounting": "spring-loaded fitting",
        "plane": "from end of mounting thread to tip, spring relaxed",
        "sheath_diameter_text": "1/4 in",
        "sheath_diameter_mm": 6.35,
        "sensor_type": "RTD Pt100",
        "element_count": "1",
        "sheath_material": "316 SS",
        "thread_text": "1/2 NPT",
        "quantity": 1,
        "extension_parts": "",
        **changes,
    }


def frame(*rows: dict[str, Any]) -> pd.DataFrame:
    """Return rows as a table."""
    return pd.DataFrame(list(rows))


@pytest.mark.parametrize(
    "changes",
    [
        {"mounting": "fixed fitting"},
        {"plane": "from sealing face of the collar to tip, spring relaxed"},
        {"probe_length_order_mm": 9.5 * IN},
        {"increment_unit": "mm"},
        {"sheath_diameter_mm": 6.0},
        {"sensor_type": "TC type K"},
        {"element_count": "2"},
        {"sheath_material": "alloy 600"},
        {"thread_text": "3/4 NPT"},
    ],
    ids=lambda changes: next(iter(changes)),
)
def test_sensors_that_differ_in_one_thing_stand_on_two_lines(changes: dict[str, Any]) -> None:
    assert len(order_lines(frame(row(), row(**changes)))) == 2


@pytest.mark.parametrize(
    "changes",
    [
        {"probe_length_order_mm": 9.25 * IN + 1e-9},
        {"sheath_diameter_text": "0.250"},
        {"sensor_type": "rtd pt-100"},
        {"sheath_material": "316SS"},
        {"thread_text": '1/2" NPT (M)'},
        {"verdict": "review"},
        {"service": "Brine"},
    ],
    ids=lambda changes: next(iter(changes)),
)
def test_what_a_buyer_would_not_tell_apart_stands_on_one_line(changes: dict[str, Any]) -> None:
    assert [line.quantity for line in order_lines(frame(row(), row(**changes)))] == [2]


def test_a_sensor_is_bought_alike_with_an_extension_and_without() -> None:
    contained = row()["plane"] + ", extension included"
    (line,) = order_lines(frame(row(), row(tag="TE-1002", plane=contained)))
    assert (line.quantity, line.plane) == (2, contained)
    left_out = row(plane=row()["plane"] + ", extension not included")
    assert len(order_lines(frame(row(), left_out))) == 2


def test_a_diameter_that_was_not_read_is_told_by_its_text() -> None:
    lines = order_lines(
        frame(
            row(sheath_diameter_mm=NAN, sheath_diameter_text="TBD"),
            row(sheath_diameter_mm=NAN, sheath_diameter_text="tbd"),
            row(),
        )
    )
    assert sorted(line.quantity for line in lines) == [1, 2]


def test_a_line_names_its_tags_with_their_count_and_those_under_review() -> None:
    line = order_lines(frame(row(), row(tag="TE-2", quantity=2, verdict="review")))[0]
    assert (line.quantity, line.tags, line.review_tags) == (3, ("TE-1001", "TE-2 (2)"), ("TE-2 (2)",))


def test_lines_stand_by_mounting_diameter_and_length() -> None:
    rows = [row(probe_length_order_mm=length * IN) for length in (12.0, 9.25, 9.0)]
    assert [line.order_length_mm for line in order_lines(frame(*rows))] == [9.0 * IN, 9.25 * IN, 12.0 * IN]


def test_parts_are_counted_over_all_sensors_and_named_once_a_tag() -> None:
    parts = part_lines(
        frame(
            row(extension_parts="nipple 4 in, 1/2 NPT; 2 x union, 1/2 NPT"),
            row(tag="TE-2", quantity=2, extension_parts="nipple 4 in, 1/2 NPT; nipple 4 in, 1/2 NPT"),
            row(tag="TE-3", verdict="withheld", probe_length_order_mm=NAN, extension_parts="nipple 4 in, 1/2 NPT"),
        )
    )
    assert [(line.part, line.quantity, line.tags) for line in parts] == [
        ("nipple 4 in, 1/2 NPT", 5, ("TE-1001", "TE-2")),
        ("union, 1/2 NPT", 2, ("TE-1001",)),
    ]


@pytest.mark.parametrize(
    "changes,goes_to",
    [
        ({}, "ordered"),
        ({"verdict": "review"}, "ordered"),
        ({"verdict": "withheld", "probe_length_order_mm": NAN}, "withheld"),
        ({"verdict": "review", "probe_length_order_mm": NAN}, "withheld"),
        ({"verdict": "withheld", "probe_length_order_mm": NAN, "quantity": 0}, "withheld"),
        ({"quantity": 0}, "not wanted"),
        ({"verdict": "not applicable", "probe_length_order_mm": NAN, "quantity": 0}, "not applicable"),
    ],
)
def test_where_a_row_goes(*, changes: dict[str, Any], goes_to: str) -> None:
    assert destinations(frame(row(**changes))).tolist() == [goes_to]


def test_a_held_row_is_named_with_its_reason() -> None:
    held = {"verdict": "withheld", "probe_length_order_mm": NAN}
    lines = held_lines(frame(row(), row(tag="TE-2", row=7, reason="no unit", **held), row(tag="TE-3", row=8, **held)))
    assert lines == (
        HeldLine(tag="TE-2", sheet="Utilities", row=7, service="Wash water", reason="no unit"),
        HeldLine(tag="TE-3", sheet="Utilities", row=8, service="Wash water", reason="no length to order"),
    )


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["sized", "review", "withheld", "not applicable"]),
            st.sampled_from([9.0 * IN, 9.25 * IN, NAN]),
            st.integers(0, 3),
        ),
        min_size=1,
        max_size=20,
    )
)
def test_totals_reconcile_with_the_rows_and_the_lines(cases: list[tuple[str, float, int]]) -> None:
    rows = [
        row(verdict=verdict, probe_length_order_mm=length, quantity=quantity, tag=f"TE-{number}")
        for number, (verdict, length, quantity) in enumerate(cases)
    ]
    found = schedule(frame(*rows))
    count = found.totals
    assert count.ordered + count.withheld + count.not_wanted + count.not_applicable == count.rows == len(cases)
    assert sum(line.quantity for line in found.sensors) == count.sensors
    assert sum(len(line.tags) for line in found.sensors) == count.ordered
    assert len(found.held) == count.withheld
    assert totals(frame(*reversed(rows))) == count


def test_sensors_of_a_profile_of_ones_own_are_a_line_of_their_own() -> None:
    lines = order_lines(frame(row(tag="TE-1", own_profile=""), row(tag="TE-2", own_profile="quick_press")))
    assert sorted(line.mounting for line in lines) == [row()["mounting"], f"{row()['mounting']}, quick press"]


@pytest.mark.parametrize(
    "changes,is_special",
    [
        ({}, False),
        ({"standard_lengths": (9.25 * IN, 12 * IN)}, False),
        ({"standard_lengths": (9 * IN, 12 * IN)}, True),
        ({"mounting": "flanged insert", "probe_length_order_mm": 315.0}, False),
        ({"mounting": "flanged insert", "probe_length_order_mm": 360.0}, True),
        ({"mounting": "flanged insert", "probe_length_order_mm": 360.0, "standard_lengths": (360.0,)}, False),
    ],
)
def test_a_length_off_the_sensors_list_is_special(changes: dict[str, Any], is_special: bool) -> None:  # noqa: FBT001 - a column of the table
    assert [line.is_special for line in order_lines(frame(row(**changes)))] == [is_special]
