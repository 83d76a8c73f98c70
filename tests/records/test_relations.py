"""What rows say of each other."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.records.build import build_records
from thermowell_index.records.relations import add_relations

Read = Callable[..., Any]
ROW = {"tag": "TE-101", "overall_length (in)": 9.25, "bore_depth (in)": 9, "service": "wash water"}
ONE_WELL_MM = 1.5875


def related(read_rows: Read, *rows: Any, **more: Any) -> Any:
    """The frame with its relations, with the row's tag as index."""
    table = read_rows(*rows, **more)
    build_records(table, BUILT_IN)
    add_relations(table, ONE_WELL_MM)
    return table.frame.set_index("tag", drop=False)


def test_fields_without_a_column_are_named_once_for_their_table(read_rows: Read) -> None:
    frame = related(read_rows, ROW, {**ROW, "tag": "TE-102"})

    assert set(frame["detail_column_absent"]) == {
        (
            "no column for tip thickness, insertion length, bore diameter, sheath diameter, instrument thread, "
            "probe length, well connection"
        )
    }


def test_a_heading_that_fits_two_lengths_is_named_with_both(read_rows: Read) -> None:
    rows = [
        {"tag": f"TE-{number}", "service": "water", "L (in)": 9.25, "tip_thickness (in)": 0.25}
        for number in range(101, 104)
    ]
    frame = related(read_rows, *rows)

    assert frame["detail_unnamed_length_column"].str.match(r"column C 'L \(in\)' fits .* and ").all()


def test_unknown_status_words_are_listed_for_their_rows(read_rows: Read) -> None:
    rows = [
        {**ROW, "status": word, "tag": f"TE-{number}"} for number, word in enumerate(("QWERTY", "live", "ZXCV"), 101)
    ]
    frame = related(read_rows, *rows)

    assert frame["detail_status_word_not_known"].tolist() == ["'QWERTY', 'ZXCV'", "", "'QWERTY', 'ZXCV'"]


@pytest.mark.parametrize("depth,differs", [(9.0625, False), (9.07, True)])
def test_two_rows_of_one_well_may_differ_by_the_limit(read_rows: Read, depth: float, differs: bool) -> None:  # noqa: FBT001
    frame = related(
        read_rows, {**ROW, "well_tag": "TW-1"}, {**ROW, "tag": "TE-102", "bore_depth (in)": depth, "well_tag": "TW-1"}
    )

    assert (frame["detail_other_depths"] != "").tolist() == [differs, differs]


@pytest.mark.parametrize(
    "other", [{"overall_length (in)": 10.25, "tip_thickness (in)": 0.25}, {"overall_length (in)": 10.25}]
)
def test_overall_lengths_of_one_well_that_differ_are_named(read_rows: Read, other: dict[str, float]) -> None:
    lengths = {"bore_depth (in)": None, "overall_length (in)": 9.25, "tip_thickness (in)": 0.25}
    rows = [
        {**ROW, **lengths, "well_tag": "TW-1"},
        {**ROW, **lengths, "tip_thickness (in)": None, **other, "tag": "TE-102", "well_tag": "TW-1"},
    ]
    frame = related(read_rows, *rows)

    assert (frame["detail_other_depths"] != "").all()


def test_a_row_that_agrees_with_no_other_names_them_all(read_rows: Read) -> None:
    depths = {"TE-101": 9, "TE-102": 9, "TE-103": 10}
    rows = [{**ROW, "tag": tag, "bore_depth (in)": depth, "well_tag": "TW-1"} for tag, depth in depths.items()]
    frame = related(read_rows, *rows)

    assert frame.at["TE-103", "detail_other_depths"] == (
        "TE-101 (Index, row 2) has 9 in; TE-102 (Index, row 3) has 9 in"
    )
    assert frame.at["TE-101", "detail_other_depths"] == "TE-103 (Index, row 4) has 10 in"


def test_a_well_of_another_live_loop_is_named(read_rows: Read) -> None:
    frame = related(read_rows, {**ROW, "well_tag": "TW-102"}, {**ROW, "tag": "TE-102", "well_tag": "TW-102"})

    assert frame["detail_well_tag_of_another_loop"].tolist() == ["well tag TW-102", ""]


@pytest.mark.parametrize(
    "change,differ",
    [
        ({}, False),
        ({"bore_depth (in)": 9.0625}, False),
        ({"bore_depth (in)": 9.1}, True),
        ({"sensor_mounting": "fixed fitting"}, True),
    ],
)
def test_rows_with_one_tag_know_of_each_other_and_whether_they_differ(
    read_rows: Read,
    change: dict[str, object],
    differ: bool,  # noqa: FBT001
) -> None:
    row = {**ROW, "sensor_mounting": "spring-loaded fitting"}
    frame = related(read_rows, row, {**row, **change})

    assert frame["detail_tag_twice"].tolist() == ["also Index row 3", "also Index row 2"]
    assert frame["twins_differ"].tolist() == [differ, differ]


@pytest.mark.parametrize(
    "heading,text,degrees",
    [
        ("design_temperature (°C)", "250", 250.0),
        ("design_temperature", "482 F", 250.0),
        ("design_temperature", "250", -1.0),
        ("other", "250 C", -1.0),
    ],
)
def test_the_design_temperature_is_in_degrees_celsius_where_its_unit_is_known(
    read_rows: Read, heading: str, text: str, degrees: float
) -> None:
    frame = related(read_rows, {**ROW, heading: text})

    assert frame["design_temperature_deg_c"].fillna(-1.0).tolist() == [pytest.approx(degrees)]
