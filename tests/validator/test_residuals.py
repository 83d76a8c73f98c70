"""Stated lengths less computed ones, as the chart of the Check summary counts them."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.judge import judge
from thermowell_index.table import IndexTable
from thermowell_index.validator.residuals import residuals

Build = Callable[..., IndexTable]


def counted(build: Build, *rows: dict[str, Any], unit: str = "in") -> Any:
    table = build(rows)
    judge(table, BUILT_IN)
    return residuals(table.frame, unit)


def test_each_group_says_what_its_lengths_mostly_are(build: Build) -> None:
    short = {"area": "100", "probe_length": "8.5"}
    insert = {"sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple", "nipple_length": "4"}

    found = counted(build, short, short, {"area": "100"}, {**insert, "probe_length": "12.5"})

    assert found.steps == ("\u22121/2", "\u22121/4", "0", "+1/4", "+1/2")
    assert [(one.label, one.rows, one.fits, one.most_often, one.most_often_rows, one.counts) for one in found.groups] == [
        ("spring-loaded fitting, area 100", 3, 1, "1/2 in shorter", 2, (2, 0, 1, 0, 0)),
        ("spring-loaded insert", 1, 0, "1/2 in longer", 1, (0, 0, 0, 0, 1)),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "stated,steps,most_often",
    [
        ("9.12", ("0",), "as computed"),
        ("9.13", ("0", "+1/4"), "1/4 in longer"),
        ("2", ("\u22126 or more", "0"), "6 in or more shorter"),
        ("20", ("0", "+6 or more"), "6 in or more longer"),
    ],
    ids=["below half a step", "above half a step", "far too short", "far too long"],
)
def test_a_length_counts_with_the_nearest_step_and_far_ones_together(
    build: Build, stated: str, steps: tuple[str, ...], most_often: str
) -> None:
    found = counted(build, {"probe_length": stated})

    assert (found.steps[0], found.steps[-1]) == (steps[0], steps[-1])
    assert found.groups[0].most_often == most_often


def test_metric_lengths_are_counted_in_millimetres(build: Build) -> None:
    metric = {
        "length_unit": "mm", "overall_length": "235", "bore_depth": "229", "tip_thickness": "6", "insertion_length": "190",
        "bore_diameter": "6.5", "sheath_diameter": "6", "root_diameter": "25", "tip_diameter": "19", "spring_travel": "25",
    }  # fmt: skip

    found = counted(build, {**metric, "probe_length": "239"}, unit="mm")

    assert found.steps == ("0", "+5", "+10")
    assert found.groups[0].most_often == "10 mm longer"


def test_smaller_groups_are_put_together(build: Build) -> None:
    rows = [{"area": str(area)} for area in range(1, 10) for _ in range(10 - area)]

    found = counted(build, *rows)

    assert [one.label for one in found.groups] == [
        *(f"spring-loaded fitting, area {area}" for area in range(1, 7)),
        "all others",
    ]
    assert [one.rows for one in found.groups] == [9, 8, 7, 6, 5, 4, 6]


def test_withheld_rows_and_rows_without_a_stated_length_are_not_counted(build: Build) -> None:
    assert counted(build, {"probe_length": ""}, {"sensor_mounting": "spring loaded"}) is None
