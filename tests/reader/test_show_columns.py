from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.column_map import read_column_map
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.ooxml import Package
from thermowell_index.reader.columns import Dictionary
from thermowell_index.reader.headings import HeadingDictionary
from thermowell_index.reader.show_columns import column_map_text, show_columns
from thermowell_index.reader.workbook import ReadSettings, read_workbook
from thermowell_index.table import IndexTable

FITS = {entry.name: entry.fits for entry in FIELDS if entry.fits is not None}
Shown = Callable[..., tuple[IndexTable, Package]]


@pytest.fixture
def shown(package_of: Callable[..., Package], headings: HeadingDictionary) -> Shown:
    """Reads a workbook that a function fills."""

    def read(fill: Callable[[Any], object], **more: Any) -> tuple[IndexTable, Package]:
        package = package_of(fill)
        settings = ReadSettings(dictionary=Dictionary(fields=FIELD, fits_mm=FITS), headings=headings, **more)
        return read_workbook(package, settings), package

    return read


def fill(sheet: Any) -> None:
    sheet.title = "Index"
    for line in (
        ["Tag", "Service", "Length", "Bore depth", "Bore depth", "Vendor", "Tip thickness"],
        ["TE-101", "a very long description of what is measured", 9, "9 in", 9, "x", "6 mm"],
        ["TE-102", "b", 8, 9, "9 in", None, "0.25 in"],
        ["TE-103", "c", 7, 9, 9, None, "0.3 in"],
        ["TE-104", "d", 6, 9, 9, None, "0.4 in"],
    ):
        sheet.append(line)
    sheet.row_dimensions[3].hidden = True
    sheet.parent.create_sheet("Cover")["A1"] = "Instrument index"


def test_every_column_is_shown_with_its_field_unit_and_samples(shown: Shown) -> None:
    table, _ = shown(fill)
    lines = [line.rstrip() for line in show_columns(table).splitlines()]
    assert lines[0] == "sheet 'Index': headings in row 1; rows 2 to 5, 4 read"
    assert [line.split()[:1] for line in lines[2:9]] == [["A"], ["B"], ["C"], ["D"], ["E"], ["F"], ["G"]]
    assert "TE-101 | TE-102 | TE-103" in lines[2]
    assert "a very long descripti... | b | c" in lines[3]
    assert "UNDECIDED: overall length or insertion length or probe length" in lines[4]
    assert "bore depth, second" in lines[6]
    assert "not read" in lines[7]
    assert "mm (cell), in (cell)" in lines[8]
    assert "sheet 'Index': 1 hidden rows and 0 hidden columns are read too" in lines
    assert "sheet 'Cover': passed over: no heading row with a tag and two more known headings" in lines


def test_the_heading_map_reads_the_same_again(shown: Shown, tmp_path: Any) -> None:
    table, _ = shown(fill)
    path = tmp_path / "map.toml"
    path.write_text(column_map_text(table), encoding="utf-8")
    again, _ = shown(fill, column_map=read_column_map(path))
    (read,), (reread,) = table.tables.values(), again.tables.values()
    assert {name: column.column for name, column in reread.columns.items()} == {
        name: column.column for name, column in read.columns.items()
    }


def test_the_heading_map_names_what_is_undecided_unread_and_passed_over(shown: Shown) -> None:
    table, _ = shown(fill)
    lines = column_map_text(table).splitlines()
    assert '["Index"]' in lines
    assert 'tag = "Tag"' in lines
    assert 'bore_depth = "column D"' in lines
    assert '# bore_depth = "column E"  # a second column, compared with the first' in lines
    assert "# UNDECIDED: 'Length' in column C; take the # off one line" in lines
    assert '# insertion_length = "column C"' in lines
    assert '# not read: "Vendor"' in lines
    assert lines[-1].startswith("# sheet 'Cover' was passed over")


def test_of_several_tables_on_a_sheet_the_first_names_a_field(shown: Shown) -> None:
    def two(sheet: Any) -> None:
        for line in (
            ["Type", "Loop No.", "Service", "Bore depth (in)"],
            ["TE", 101, "a", 9],
            ["Type", "Loop No.", "Service", "Bore depth (in)"],
            ["TE", 102, "a", 9],
            ["Tag", "Service", "Depth of bore (mm)"],
            ["TE-103", "b", 235],
        ):
            sheet.append(line)

    table, _ = shown(two)
    text = column_map_text(table)
    assert "# tag: joined from the columns Type + Loop No." in text
    assert 'bore_depth = "Bore depth (in)"' in text
    assert '# bore_depth = "Depth of bore (mm)"  # in the table with headings in row 5' in text
    assert "headings in row 1, repeated in 3; rows 2 to 4, 2 read" in show_columns(table)


def test_a_table_without_rows_says_so(shown: Shown) -> None:
    def bare(sheet: Any) -> None:
        sheet.append(["Tag", "Service", "Bore depth (in)"])
        sheet.append(["TE-101", "a", 9])
        sheet.append(["Tag", "Service", "Tip thickness (in)"])

    table, _ = shown(bare)
    assert "headings in row 3; no rows" in show_columns(table)
