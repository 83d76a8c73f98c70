from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.dictionary import FIELD, FIELDS, LENGTH_FIELDS
from thermowell_index.errors import SettingsError, WorkbookError
from thermowell_index.heading_map import MappedHeading
from thermowell_index.ooxml import Package
from thermowell_index.reader.columns import Dictionary
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.workbook import ReadSettings, read_workbook
from thermowell_index.table import CellState, IndexTable

FITS = {entry.name: entry.fits for entry in FIELDS if entry.fits is not None}
Read = Callable[..., IndexTable]
HEAD = ["Tag", "Service", "Overall length (in)", "Bore depth (in)"]


@pytest.fixture
def read(package_of: Callable[..., Package], headings: HeadingDictionary) -> Read:
    """Reads the lines of a sheet called Index; `change` has the last word on it."""

    def make(*lines: list[object], change: Callable[[Any], object] = lambda _: None, **more: Any) -> IndexTable:
        def fill(sheet: Any) -> None:
            sheet.title = "Index"
            for line in lines:
                sheet.append(line)
            change(sheet)

        settings = ReadSettings(dictionary=Dictionary(fields=FIELD, fits_mm=FITS), headings=headings, **more)
        return read_workbook(package_of(fill), settings)

    return make


def test_every_field_has_its_columns_in_the_frame(read: Read) -> None:
    frame = read(HEAD, ["TE-101", "Feed", 9.25, 9]).frame
    for name in LENGTH_FIELDS:
        parts = ("mm", "state", "text", "unit", "unit_from", "note", "shown_mm", "row_id")
        assert {f"{name}_{part}" for part in parts} <= set(frame.columns)
    assert {entry.name for entry in FIELDS} - set(LENGTH_FIELDS) <= set(frame.columns)
    assert frame.at[0, "tip_thickness_state"] == CellState.ABSENT
    assert frame.at[0, "tip_thickness_row_id"] == -1


def test_a_row_knows_where_it_stands(read: Read) -> None:
    def hide(sheet: Any) -> None:
        sheet.row_dimensions[3].hidden = True

    table = read(HEAD, ["TE-101", "Feed", 9.25, 9], ["TE-102", "Feed", 9.25, 9], change=hide)
    assert table.frame["row"].tolist() == [2, 3]
    assert table.frame["is_hidden"].tolist() == [False, True]
    assert table.address(1, "bore_depth") == ("Index", 3, 4)
    assert table.sheets[0].hidden_rows == 1


def test_lines_that_are_no_rows_are_noted_with_the_reason(read: Read) -> None:
    table = read(HEAD, ["TE-101", "Feed", 9.25, 9], [None], ["Total", 1])
    assert table.sheets[0].passed_rows == {4: "total or count"}


def test_title_lines_are_kept(read: Read) -> None:
    table = read(["NORTH UNIT", None, "Rev. B"], HEAD, ["TE-101", "Feed", 9.25, 9])
    assert table.title_lines == ["NORTH UNIT", "Rev. B"]


def test_a_row_counts_in_the_unit_of_its_bore_depth(read: Read) -> None:
    table = read(HEAD, ["TE-101", "Feed", 9.25, 9], ["TE-102", "Feed", "241 mm", "235 mm"], ["TE-103", "x", None, None])
    assert table.frame["unit"].tolist() == ["in", "mm", "in"]


def test_without_any_length_a_row_counts_in_the_unit_of_the_sheet(read: Read) -> None:
    bare = ["Tag", "Service", "Overall length", "Bore depth"]
    row = ["TE-101", "Feed", "TBD", "TBD"]
    assert read(bare, row).frame["unit"].tolist() == [""]
    assert read(["Dimensions in mm"], bare, row).frame["unit"].tolist() == ["mm"]
    assert read(bare, row, default_unit="in").frame["unit"].tolist() == ["in"]


def test_a_table_that_shows_fractions_is_known(read: Read) -> None:
    assert read(HEAD, ["TE-101", "Feed", "9 1/4", 9]).frame["in_fractions"].tolist() == [True]


def test_a_protected_sheet_is_known(read: Read) -> None:
    def protect(sheet: Any) -> None:
        sheet.protection.sheet = True

    assert read(HEAD, ["TE-101", "Feed", 9.25, 9], change=protect).sheets[0].is_protected


def test_a_repeated_heading_is_noted(read: Read) -> None:
    table = read(HEAD, ["TE-101", "Feed", 9.25, 9], HEAD, ["TE-102", "Feed", 9.25, 9])
    assert table.tables[0].repeated_headings == [3]
    assert table.tables[0].last_row == 4


def test_an_index_without_tags_says_so(read: Read) -> None:
    with pytest.raises(WorkbookError, match="headings in row 1 name dimensions, but there is no column of tags"):
        read(["Service", "Overall length (in)", "Bore depth (in)"], ["Feed", 9.25, 9])


def test_an_index_without_lengths_says_so(read: Read) -> None:
    with pytest.raises(WorkbookError, match="its headings name no dimension of a well, an extension or a sensor"):
        read(["Tag", "Service", "Remarks"], ["TE-101", "Feed", "x"])


def test_a_map_for_a_sheet_that_is_not_asked_for_is_left_alone(read: Read) -> None:
    mapped = {"Other": {"tag": MappedHeading(headings=("Tag",))}, "*": {"remarks": MappedHeading(headings=("Words",))}}
    row = ["TE-101", "Feed", 9.25, 9]
    assert len(read(HEAD, row, column_map=mapped, only_sheets=("Index",)).frame) == 1
    with pytest.raises(SettingsError, match="sheet 'Other' has no heading 'Tag' for tag"):
        read(HEAD, row, column_map=mapped)


def test_a_heading_of_the_map_makes_a_heading_row_of_unknown_words(read: Read) -> None:
    mapped = {
        "Index": {
            "tag": MappedHeading(headings=("Alpha",)),
            "bore_depth": MappedHeading(headings=("Beta",), unit="in"),
            "service": MappedHeading(headings=("Gamma",)),
        }
    }
    table = read(["Alpha", "Beta", "Gamma"], ["TE-101", 9, "Feed"], column_map=mapped)
    assert table.frame["bore_depth_mm"].round(4).tolist() == [228.6]


def test_words_of_columns_that_are_not_read_are_kept_beside_the_row(read: Read) -> None:
    table = read([*HEAD, "Vendor"], ["TE-101", "Feed", 9.25, 9, "on a 4 in nipple"])
    assert any("on a 4 in nipple" in str(value) for value in table.frame.loc[0])
