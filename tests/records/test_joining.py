"""Well data on another row: which row it is taken from, and when it is left alone."""

from collections.abc import Callable
from typing import Any

from thermowell_index.basis import BUILT_IN
from thermowell_index.records.build import build_records
from thermowell_index.table import IndexTable

ReadRows = Callable[..., IndexTable]


def well(tag: str, depth: object, **more: object) -> dict[str, object]:
    return {"tag": tag, "well tag": None, "bore_depth (in)": depth, "sensor type": None, **more}


def sensor(tag: str, well_tag: str | None = None, depth: object = None, **more: object) -> dict[str, object]:
    return {"tag": tag, "well tag": well_tag, "bore_depth (in)": depth, "sensor type": "RTD", **more}


def depths(read_rows: ReadRows, *rows: dict[str, object]) -> dict[str, Any]:
    """Bore depth used of each point [in], None where there is none."""
    table = read_rows(*rows)
    build_records(table, BUILT_IN)
    points = table.frame[table.frame["is_point"]]
    used = points["bore_depth_used_mm"] / 25.4
    return {tag: None if depth != depth else round(depth, 4) for tag, depth in zip(points["tag"], used, strict=True)}  # noqa: PLR0124 - NaN


def test_a_well_row_of_the_same_loop_serves_the_sensor(read_rows: ReadRows) -> None:
    assert depths(read_rows, well("TW-101", 9), sensor("TE-101")) == {"TE-101": 9}


def test_the_well_tag_comes_before_the_loop(read_rows: ReadRows) -> None:
    rows = (well("TW-101", 9), well("TW-900", 6), sensor("TE-101", "TW-900"))
    assert depths(read_rows, *rows) == {"TE-101": 6}


def test_zeros_and_dashes_in_a_well_tag_make_no_difference(read_rows: ReadRows) -> None:
    assert depths(read_rows, well("TW-0101", 9), sensor("TE-55", "tw 101")) == {"TE-55": 9}


def test_a_well_tag_that_no_row_has_joins_no_other_well(read_rows: ReadRows) -> None:
    assert depths(read_rows, well("TW-101", 9), sensor("TE-101", "TW-900")) == {"TE-101": None}


def test_each_suffix_has_its_own_well(read_rows: ReadRows) -> None:
    rows = (well("TW-101A", 9), well("TW-101B", 6), sensor("TE-101A"), sensor("TE-101B"))
    assert depths(read_rows, *rows) == {"TE-101A": 9, "TE-101B": 6}


def test_the_well_of_another_suffix_is_left_alone(read_rows: ReadRows) -> None:
    assert depths(read_rows, well("TW-101B", 6), sensor("TE-101A")) == {"TE-101A": None}


def test_one_well_without_suffix_serves_the_elements_of_its_loop(read_rows: ReadRows) -> None:
    rows = (well("TW-101", 9), sensor("TE-101A"), sensor("TE-101B"))
    assert depths(read_rows, *rows) == {"TE-101A": 9, "TE-101B": 9}


def test_of_two_wells_of_one_loop_none_is_picked_for_a_bare_tag(read_rows: ReadRows) -> None:
    rows = (well("TW-101A", 9), well("TW-101B", 6), sensor("TE-101"))
    assert depths(read_rows, *rows) == {"TE-101": None}


def test_the_transmitter_row_of_a_loop_serves_its_element(read_rows: ReadRows) -> None:
    assert depths(read_rows, well("TT-101", 9), sensor("TE-101", "TW-101")) == {"TE-101": 9}


def test_a_transmitter_row_of_another_well_is_left_alone(read_rows: ReadRows) -> None:
    rows = (well("TT-101", 9, **{"well tag": "TW-900"}), sensor("TE-101", "TW-101"))
    assert depths(read_rows, *rows) == {"TE-101": None}


def test_what_the_sensor_row_states_itself_stays(read_rows: ReadRows) -> None:
    table = read_rows(
        {**well("TW-101", 9), "overall_length (in)": 9.25}, {**sensor("TE-101", depth=8), "overall_length (in)": None}
    )
    build_records(table, BUILT_IN)
    frame = table.frame
    assert (frame.at[1, "bore_depth_text"], frame.at[1, "overall_length_text"]) == ("8 in", "9.25 in")
    assert (frame.at[1, "bore_depth_row_id"], frame.at[1, "overall_length_row_id"]) == (1, 0)


def test_a_row_counts_in_the_unit_of_the_well_row_that_gave_its_depth(read_rows: ReadRows) -> None:
    table = read_rows(well("TW-101", "235 mm"), sensor("TE-101"))
    build_records(table, BUILT_IN)
    assert table.frame.at[1, "unit"] == "mm"


def test_a_struck_or_deleted_well_row_gives_nothing(read_rows: ReadRows) -> None:
    rows = (well("TW-101", 9, status="deleted"), sensor("TE-101", status=None))
    assert depths(read_rows, *rows) == {"TE-101": None}


def test_what_slid_among_the_wells_slid_for_their_sensors(read_rows: ReadRows) -> None:
    table = read_rows(well("TW-101", 9), sensor("TE-101"), sensor("TE-102", depth=9))
    table.frame["slid_since"] = ["bore depth of the row above", "", ""]
    build_records(table, BUILT_IN)
    assert list(table.frame["slid_since"]) == ["bore depth of the row above", "bore depth of the row above", ""]
