"""The sizing inputs of each row: bore depth with its basis and tolerances, threads, installed length, needed cells."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.basis_file import basis_from
from thermowell_index.records.build import build_records

Rows = Callable[..., Any]
INCH = 25.4
POINT = {"tag": "TE-101", "service": "wash water", "line": "W-12"}


@pytest.fixture
def record(read_rows: Rows) -> Rows:
    """The one record that a row becomes."""

    def build(**cells: object) -> Any:
        table = read_rows(POINT | cells)
        build_records(table, BUILT_IN)
        return table.frame.iloc[0]

    return build


def inches(row: Any, name: str) -> float | None:
    length = float(row[f"{name}_mm"])
    return None if math.isnan(length) else round(length / INCH, 5)


OVERALL = {"overall_length": "9-1/4 in"}


@pytest.mark.parametrize(
    "cells,depth,basis",
    [
        (OVERALL, 9, "overall less assumed tip"),
        (OVERALL | {"tip_thickness": "3/16 in"}, 9.0625, "overall less tip"),
        (OVERALL | {"tip_thickness": "3/16 in", "bore_depth": "9 in"}, 9, "stated"),
        (OVERALL | {"bore_depth": "9 in", "measured_bore_depth": "8-15/16 in"}, 8.9375, "measured"),
        ({"bore_depth": "9 in", "dimension_source": "field measured"}, 9, "measured"),
        ({"bore_depth": "9 in", "measured_bore_depth": "8 in", "dimension_source": "measured"}, 8, "measured"),
        ({"bore_depth": "9 in", "dimension_source": "data sheet"}, 9, "stated"),
        ({"tip_thickness": "1/4 in", "insertion_length": "7 in"}, None, ""),
    ],
)
def test_the_bore_depth_comes_from_its_best_source(
    record: Rows, cells: dict[str, object], depth: float | None, basis: str
) -> None:
    row = record(**cells)
    assert (inches(row, "bore_depth_used"), row["bore_depth_basis"]) == (depth, basis)


@pytest.mark.parametrize(
    "cells",
    [
        OVERALL | {"bore_depth": "9 or 10"},
        OVERALL | {"bore_depth": "9 est."},
        {"bore_depth": "9 in", "measured_bore_depth": "8/9"},
        OVERALL | {"tip_thickness": "~1/4"},
    ],
)
def test_a_cell_that_cannot_be_read_is_not_passed_over_for_a_lesser_source(
    record: Rows, cells: dict[str, object]
) -> None:
    assert inches(record(**cells), "bore_depth_used") is None


def test_a_measured_bore_depth_makes_up_for_a_stated_one_that_cannot_be_read(record: Rows) -> None:
    row = record(bore_depth="9/10", measured_bore_depth="9 in")
    assert (inches(row, "bore_depth_used"), row["bore_depth_basis"]) == (9, "measured")


# deeper, shallower, second contributor, tip thinner, tip thicker [in]; common practice, no source
@pytest.mark.parametrize(
    "cells,tolerances",
    [
        ({"measured_bore_depth": "9 in"}, [0.03125, 0.03125, 0, 0, 0]),
        ({"bore_depth": "9 in"}, [0.0625, 0.0625, 0, 0, 0]),
        (OVERALL | {"tip_thickness": "1/4 in"}, [0.0625, 0.0625, 0.03125, 0, 0]),
        (OVERALL, [0.0625, 0.0625, 0, 0.0625, 0.125]),
        ({"tip_thickness": "1/4 in"}, [0, 0, 0, 0, 0]),
    ],
)
def test_each_source_has_its_own_tolerance(record: Rows, cells: dict[str, object], tolerances: list[float]) -> None:
    row = record(**cells)
    names = ("bore_deeper", "bore_shallower", "bore_second", "tip_thinner", "tip_thicker")
    assert [inches(row, name) for name in names] == tolerances


@pytest.mark.parametrize(
    "source,tolerances",
    [("as built", [0.04, 0.14]), ("data sheet", [0.0625, 0.1625]), ("measured", [0.03125, 0.03125])],
)
def test_evidence_and_drill_point_have_entries_of_their_own(
    read_rows: Rows, source: str, tolerances: list[float]
) -> None:
    table = read_rows(POINT | {"bore_depth": "9 in", "source": source})
    entries = {"tolerance": {"bore_as_built": "0.04 in", "drill_point": "0.1 in"}}
    build_records(table, basis_from(entries, name="test", where="test", switches={}))
    row = table.frame.iloc[0]
    assert [inches(row, name) for name in ("bore_deeper", "bore_shallower")] == tolerances


def test_a_heading_that_says_as_built_brings_the_tolerance_of_that(read_rows: Rows) -> None:
    table = read_rows(
        {"tag": "TE-101", "bore_depth_as_built (in)": 9}, {"tag": "TE-102", "bore_depth_as_built (in)": 8}
    )
    basis = basis_from({"tolerance": {"bore_as_built": "0.04 in"}}, name="test", where="test", switches={})
    build_records(table, basis)
    assert [inches(row, "bore_deeper") for _, row in table.frame.iterrows()] == [0.04, 0.04]


def test_a_well_of_a_din_form_may_be_2_mm_longer_and_never_shorter(record: Rows) -> None:
    # DIN 43772, L +2/0 mm (read in a trade reprint); the tip is 5 mm
    row = record(overall_length="250 mm", well_form="DIN 43772 form 2G")
    assert row["bore_depth_used_mm"] == pytest.approx(245)
    assert (row["bore_deeper_mm"], row["bore_shallower_mm"], row["bore_second_mm"]) == (2, 0, 0)


# Engagement: 1/2 in for 1/2 NPT (common practice, no source); 3/4 NPT L1 + L3 = 0.5533 in to 1/8 is 1/2,
# 1 NPT 0.6609 is 5/8 (ASME B1.20.1). One turn is 1/14 and 1/11.5 in.
@pytest.mark.parametrize(
    "thread,engagement,turn",
    [
        (None, 0.5, 1 / 14),
        ("1/2 NPT", 0.5, 1 / 14),
        ("3/4 NPT", 0.5, 1 / 14),
        ("1 NPT", 0.625, 1 / 11.5),
        ("1/2 NPSM", 0.5, 1 / 14),
        ("G 1/2", 0, 0),
        ("M20x1.5", 0, 0),
    ],
)
def test_the_wells_thread_gives_the_engagement_and_the_turn_of_a_fitting(
    record: Rows, thread: str | None, engagement: float, turn: float
) -> None:
    row = record(bore_depth="9 in", instrument_thread=thread)
    assert inches(row, "engagement_seat") == engagement
    assert inches(row, "seat_turn") == round(turn, 5)


@pytest.mark.parametrize(
    "thread,name",
    [
        (None, "1/2 NPT"),
        ("1-1/4 NPT", "1-1/4 NPT"),
        ("1 NPT", "1 NPT"),
        ("G 3/4", "G 3/4"),
        ("M20x1.5", "M20x1.5"),
        ("R 1/2", "R 1/2"),
        ("bayonet", ""),
    ],
)
def test_the_thread_is_named_as_it_is_bought(record: Rows, thread: str | None, name: str) -> None:
    assert record(bore_depth="9 in", instrument_thread=thread)["thread_text"] == name


def test_well_end_and_top_end_of_an_extension_may_have_different_threads(record: Rows) -> None:
    # 6 - 1/2 at the well - 5/8 at the head
    row = record(
        bore_depth="9 in",
        sensor_mounting="spring-loaded insert",
        extension_arrangement="nipple",
        nipple_length="6 in",
        instrument_thread="1/2 NPT",
        extension_thread="1 NPT",
    )
    assert inches(row, "extension_installed") == 4.875
    assert inches(row, "seat_turn") == round(1 / 11.5, 5)


def test_an_assumed_thread_is_marked(record: Rows) -> None:
    assert record(bore_depth="9 in", instrument_thread=None)["thread_is_assumed"]
    assert not record(bore_depth="9 in", instrument_thread="1/2 NPT")["thread_is_assumed"]


@pytest.mark.parametrize(
    "cells,tolerance",
    [
        ({"extension_arrangement": "none"}, 0),
        ({"extension_arrangement": "nipple", "nipple_length": "4 in"}, 0.0625),
        ({"extension_arrangement": "none", "installed_length": "4 in"}, 0.0625),
    ],
)
def test_an_extension_has_one_tolerance_as_a_whole(record: Rows, cells: dict[str, object], tolerance: float) -> None:
    row = record(bore_depth="9 in", sensor_mounting="spring-loaded insert", **cells)
    assert inches(row, "extension_tolerance") == tolerance


NIPPLE = {"bore_depth": "9 in", "sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple"}


@pytest.mark.parametrize(
    "cells,needed",
    [
        ({"bore_depth": "9 in", "overall_length": "9 in"}, "bore_depth"),
        ({"bore_depth": "9 in", "measured_bore_depth": "9 in"}, "measured_bore_depth"),
        (OVERALL, "overall_length|tip_thickness"),
        (NIPPLE | {"nipple_length": "4 in"}, "bore_depth|nipple_length"),
        (NIPPLE | {"extension_length": "4 in"}, "bore_depth|extension_length"),
        (NIPPLE | {"nipple_length": "4 in", "installed_length": "3 in"}, "bore_depth|installed_length"),
        (
            NIPPLE | {"nipple_length": "4 in", "second_nipple_length": "4 in"},
            "bore_depth|nipple_length|second_nipple_length",
        ),
        ({"bore_depth": "9 in", "spring_travel": "1 in"}, "bore_depth|spring_travel"),
        ({"bore_depth": "9 in", "spring_travel": "1 in", "sensor_mounting": "fixed fitting"}, "bore_depth"),
    ],
)
def test_the_cells_that_a_length_hangs_on_are_listed(record: Rows, cells: dict[str, object], needed: str) -> None:
    assert record(**cells)["needed_fields"] == needed


def test_an_insert_from_the_standards_table_hangs_on_the_total_length_too(record: Rows) -> None:
    row = record(
        bore_depth="195 mm",
        overall_length="200 mm",
        sensor_mounting="flanged insert",
        extension_arrangement="neck tube",
        extension_length="165 mm",
        well_form="form 4",
    )
    assert row["needed_fields"] == "bore_depth|overall_length|extension_length"
