"""Which rows are points, and why the others are not."""

from collections.abc import Callable

import pytest

from thermowell_index.basis import BUILT_IN
from thermowell_index.records.build import build_records
from thermowell_index.records.points import unknown_states
from thermowell_index.table import IndexTable

ReadRows = Callable[..., IndexTable]
Row = dict[str, object]
NO_INSTRUMENT = "not a temperature instrument"
POINT: Row = {
    "tag": "TE-101",
    "type": None,
    "status": None,
    "remarks": None,
    "bore_depth (in)": 9,
    "sensor type": "RTD",
}


def reasons(read_rows: ReadRows, *rows: Row) -> dict[str, str]:
    table = read_rows(*rows)
    build_records(table, BUILT_IN)
    return dict(zip(table.frame["tag"], table.frame["reason"], strict=True))


def test_a_sensor_in_a_well_is_a_point(read_rows: ReadRows) -> None:
    assert reasons(read_rows, POINT) == {"TE-101": ""}


@pytest.mark.parametrize(
    "change,reason",
    [
        ({"tag": "PT-101"}, "not a temperature instrument"),
        (
            {"tag": "X-7", "sensor type": None, "bore_depth (in)": None, "type": "valve", "remarks": "new"},
            NO_INSTRUMENT,
        ),
        ({"tag": "TG-101"}, "not a sensor in a well: gauge"),
        ({"type": "bimetal thermometer"}, "not a sensor in a well: bimetal thermometer"),
        ({"sensor type": "skin RTD", "bore_depth (in)": None}, "no thermowell: skin RTD"),
        ({"sensor type": "skin RTD"}, "no thermowell: skin RTD"),
        ({"type": "Glasthermometer"}, "not a sensor in a well: Glasthermometer"),
        ({"tag": "TCV-101", "sensor type": None}, NO_INSTRUMENT),
        ({"thermowell (Y/N)": "N", "bore_depth (in)": None}, "no thermowell, by its column"),
        ({"service": "Deleted - was reflux"}, "service 'Deleted - was reflux'"),
        ({"status": "deleted"}, "status 'deleted'"),
        ({"status": "future"}, "status 'future'"),
        ({"remarks": "deleted"}, "remark 'deleted'"),
    ],
)
def test_a_row_that_is_no_point_says_why(read_rows: ReadRows, change: Row, reason: str) -> None:
    # a second, sound row keeps the columns filled
    found = reasons(read_rows, POINT | {"tag": "TE-999"}, POINT | change)
    assert found[str(change.get("tag", "TE-101"))] == ("" if change.get("tag") == "PT-101" else reason)


def test_a_tag_of_another_quantity_with_a_temperature_sensor_is_a_point(read_rows: ReadRows) -> None:
    assert reasons(read_rows, POINT | {"tag": "PT-101", "sensor type": "RTD"}) == {"PT-101": ""}
    assert reasons(read_rows, POINT | {"tag": "PT-101", "sensor type": None}) == {
        "PT-101": "not a temperature instrument"
    }


@pytest.mark.parametrize(
    "kind,role",
    [
        ("Temperature transmitter", "kin"),
        ("Thermowell", "well"),
        ("RTD in thermowell", "element"),
        ("Temperature element", "element"),
        ("Pressure gauge", "unknown"),
    ],
)
def test_the_type_says_what_a_row_is_where_the_tag_does_not(read_rows: ReadRows, kind: str, role: str) -> None:
    table = read_rows(POINT | {"tag": "X-7", "type": kind, "sensor type": None})
    build_records(table, BUILT_IN)
    assert table.frame["role"].tolist() == [role]


def test_of_a_loop_the_element_is_the_point(read_rows: ReadRows) -> None:
    bare: Row = {"bore_depth (in)": None, "sensor type": None}
    rows = (POINT, POINT | {"tag": "TT-101"} | bare, POINT | {"tag": "TW-101", "sensor type": None})
    assert reasons(read_rows, *rows) == {
        "TE-101": "",
        "TT-101": "another row of a loop that has its sensor on a row of its own",
        "TW-101": "well row, joined to its sensor",
    }


def test_a_transmitter_that_alone_holds_the_data_is_the_point(read_rows: ReadRows) -> None:
    bare: Row = {"bore_depth (in)": None, "sensor type": None}
    rows = (POINT | {"tag": "TT-101"}, POINT | {"tag": "TI-101"} | bare, POINT | {"tag": "TW-101", "sensor type": None})
    assert reasons(read_rows, *rows) == {
        "TT-101": "",
        "TI-101": "no sensor and no well on this row",
        "TW-101": "well row, joined to its sensor",
    }


def test_of_two_transmitter_rows_the_fuller_one_is_the_point(read_rows: ReadRows) -> None:
    rows = (POINT | {"tag": "TI-101", "sensor type": None}, POINT | {"tag": "TT-101"})
    assert reasons(read_rows, *rows) == {
        "TI-101": "another row of a loop that has its sensor on a row of its own",
        "TT-101": "",
    }


def test_a_well_without_a_sensor_row_is_none_where_sensors_have_rows(read_rows: ReadRows) -> None:
    rows = (POINT, POINT | {"tag": "TW-200", "sensor type": None})
    assert reasons(read_rows, *rows)["TW-200"] == "well row without a sensor row"


def test_wells_alone_are_the_points_of_a_list_of_wells(read_rows: ReadRows) -> None:
    assert reasons(read_rows, POINT | {"tag": "TW-200", "sensor type": None}) == {"TW-200": ""}


def test_a_placeholder_in_the_well_tag_names_no_well(read_rows: ReadRows) -> None:
    table = read_rows(POINT | {"well tag": "TBD"})
    build_records(table, BUILT_IN)
    assert (table.frame.at[0, "well_tag"], table.frame.at[0, "well_key"]) == ("", "")


def test_an_unknown_status_is_live_and_said(read_rows: ReadRows) -> None:
    table = read_rows(POINT | {"status": "purple"})
    build_records(table, BUILT_IN)
    assert table.frame["is_point"].tolist() == [True]
    assert unknown_states(table.frame).tolist() == [True]
