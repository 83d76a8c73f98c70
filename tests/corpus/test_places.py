"""Where a table stands on its sheet, and which sheets hold one."""

from collections.abc import Callable

import pytest
from openpyxl import Workbook
from openpyxl.worksheet.table import Table
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.errors import WorkbookError

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Points = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]

PLAIN = """
Tag No. | Service | Overall Length (in) | Bore Depth (in)
TE-101  | Feed    | 9.25                | 9
TE-102  | Return  | 6.25                | 6
"""


def test_a_table_begins_at_the_first_cell(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet(PLAIN)
    assert read() == rows("""
        row | tag A  | service B | overall length C | bore depth D
        2   | TE-101 | Feed      | 234.95           | 228.6
        3   | TE-102 | Return    | 158.75           | 152.4
    """)


def test_a_table_stands_right_of_column_a_and_far_down(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet(PLAIN, row=41, column=6)
    assert read() == rows("""
        row | tag F  | service G | overall length H | bore depth I
        42  | TE-101 | Feed      | 234.95           | 228.6
        43  | TE-102 | Return    | 158.75           | 152.4
    """)


def test_a_high_title_block_with_revision_box_and_notes_stands_above(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        NORTH UNIT - TEMPERATURE INSTRUMENT INDEX
        | | | | | Rev | Date       | By | Description
        | | | | | B   | 2021-01-02 | XX | Tag numbers and bore depths revised
        | | | | | A   | 2020-01-02 | XX | First issue
        Document no. | 4711-IDX-01
        Notes: | 1. Overall length from data sheets. | | 2. Service as on the flow sheet.
        Prepared: | XX | Checked: | YY
    """)
    page.merge_cells("A1:I1")
    sheet(PLAIN, row=12, column=2)
    assert read() == rows("""
        row | tag B  | service C | overall length D | bore depth E
        13  | TE-101 | Feed      | 234.95           | 228.6
        14  | TE-102 | Return    | 158.75           | 152.4
    """)


def test_two_tables_of_one_heading_stand_below_each_other(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet(PLAIN)
    sheet("AREA 200", row=6)
    sheet(
        """
        Tag No. | Service | Overall Length (in) | Bore Depth (in)
        TE-201  | Steam   | 12.25               | 12
    """,
        row=8,
    )
    assert read() == rows("""
        row | tag A  | service B | overall length C | bore depth D
        2   | TE-101 | Feed      | 234.95           | 228.6
        3   | TE-102 | Return    | 158.75           | 152.4
        9   | TE-201 | Steam     | 311.15           | 304.8
    """)


def test_two_tables_of_different_headings_and_units_stand_below_each_other(
    sheet: Sheet, read: Read, rows: Rows
) -> None:
    sheet(PLAIN)
    sheet(
        """
        Item  | Instrument Tag | Bore depth [mm] | Tip thickness [mm]
        1     | TE-201         | 235             | 6
    """,
        row=7,
        column=2,
    )
    assert read() == rows("""
        = Index
        row | tag A  | service B | overall length C | bore depth D
        2   | TE-101 | Feed      | 234.95           | 228.6
        3   | TE-102 | Return    | 158.75           | 152.4
        = Index
        row | tag C  | bore depth D | tip thickness E
        8   | TE-201 | 235          | 6
    """)


def test_two_tables_side_by_side_are_two(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet(PLAIN)
    sheet(
        """
        Tag No. | Service | Overall Length (mm) | Bore Depth (mm)
        TE-301  | Reflux  | 241                 | 235
    """,
        column=7,
    )
    assert read() == rows("""
        = Index
        row | tag A  | service B | overall length C | bore depth D
        2   | TE-101 | Feed      | 234.95           | 228.6
        3   | TE-102 | Return    | 158.75           | 152.4
        = Index
        row | tag G  | service H | overall length I | bore depth J
        2   | TE-301 | Reflux    | 241              | 235
    """)


def test_a_well_schedule_beside_a_sensor_schedule_in_another_order(sheet: Sheet, points: Points, rows: Rows) -> None:
    sheet("""
        WELLS  |                     |          | | SENSORS |
        TW Tag | Overall length (in) | Tip (in) | | TE Tag  | Sheath dia (in)
        TW-101 | 9.25                | 0.25     | | TE-102  | 0.25
        TW-102 | 12.25               | 0.25     | | TE-101  | 0.25
    """)
    assert points() == rows("""
        TW-101 | well row, joined to its sensor | 228.6 | overall less tip
        TW-102 | well row, joined to its sensor | 304.8 | overall less tip
        TE-102 |                                | 304.8 | overall less tip
        TE-101 |                                | 228.6 | overall less tip
    """)


def test_one_table_with_a_blank_column_in_it_stays_one(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        TE Tag | Overall length (in) | | TT Tag | Service
        TE-101 | 9.25                | | TT-101 | Feed
        TE-102 | 12.25               | | TT-102 | Return
    """)
    assert read() == rows("""
        row | tag A  | overall length B | service E
        2   | TE-101 | 234.95           | Feed
        3   | TE-102 | 311.15           | Return
    """)


def test_three_columns_over_and_over_are_three_tables(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag  | Overall length (in) | Tag  | Overall length (in) | Tag  | Overall length (in)
        TE-1 | 9.25                | TE-3 | 12.25               | TE-5 | 15.25
        TE-2 | 9.25                | TE-4 | 12.25               |      |
    """)
    assert [line[1] for line in read() if line[0] in {"2", "3"}] == ["TE-1", "TE-2", "TE-3", "TE-4", "TE-5"]


def test_two_tables_with_nothing_between_them_get_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Tag    | Overall length (in)
        TE-101 | Feed    | 9.25                | TE-301 | 12.25
    """)
    with pytest.raises(
        WorkbookError, match=r"sheet 'Index': two tables stand side by side.* columns A and D"
    ) as failure:
        read()
    assert "\n" not in str(failure.value)


def test_every_sheet_is_read_by_its_own_heading_and_unit(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet(PLAIN, name="Area 1")
    sheet(
        """
        Tiefe Bohrung (mm) | Tag | Gesamtlänge (mm)
        120                | TE-9 | 126
    """,
        name="Area 2",
        row=3,
    )
    assert read() == rows("""
        = Area 1
        row | tag A  | service B | overall length C | bore depth D
        2   | TE-101 | Feed      | 234.95           | 228.6
        3   | TE-102 | Return    | 158.75           | 152.4
        = Area 2
        row | bore depth A | tag B | overall length C
        4   | 120          | TE-9  | 126
    """)


def test_cover_legend_revision_log_and_pivot_sheets_are_passed_over(
    sheet: Sheet, read: Read, passed: Callable[..., dict[str, str]], rows: Rows
) -> None:
    sheet("INSTRUMENT INDEX~Unit 100\nDocument | 4711\nTag list and well lengths", name="Cover")
    sheet("Abbreviation | Meaning\nTE | Temperature element\nTW | Thermowell\nO/A | Overall length", name="Legend")
    sheet("Rev | Date | By | Description | Tag\nA | 2020-01-02 | XX | First issue | all", name="Revisions")
    sheet("Row labels | Count of Tag\nRTD | 12\nTC | 30\nGrand Total | 42", name="Pivot")
    sheet(PLAIN)
    assert read()[0] == rows("row | tag A | service B | overall length C | bore depth D")[0]
    assert set(passed()) == {"Cover", "Legend", "Revisions", "Pivot"}


def test_an_index_of_other_instruments_without_any_length_is_passed_over(
    sheet: Sheet, read: Read, passed: Callable[..., dict[str, str]]
) -> None:
    sheet(PLAIN)
    sheet("Tag | Service | Range | Remarks\nPT-1 | Feed | 0-10 bar | -\nFT-2 | Feed | 0-10 t/h | -", name="Others")
    assert len(read()) == 3
    assert "no dimension" in passed()["Others"]


def test_hidden_rows_and_columns_are_read_and_counted(
    sheet: Sheet, read: Read, rows: Rows, index: Callable[..., object]
) -> None:
    page = sheet(PLAIN)
    page.row_dimensions[3].hidden = True
    page.column_dimensions["D"].hidden = True
    assert read() == rows("""
        row | tag A  | service B | overall length C | bore depth D
        2   | TE-101 | Feed      | 234.95           | 228.6
        3   | TE-102 | Return    | 158.75           | 152.4
    """)
    found = index().sheets[0]  # type: ignore[attr-defined]  # an IndexTable
    assert (found.hidden_rows, found.hidden_columns) == (1, 1)


def test_filtered_rows_are_read(sheet: Sheet, read: Read) -> None:
    page = sheet(PLAIN)
    page.auto_filter.ref = "A1:D3"
    page.auto_filter.add_filter_column(1, ["Feed"])
    page.row_dimensions[3].hidden = True
    assert [line[1] for line in read()[1:]] == ["TE-101", "TE-102"]


def test_a_list_object_is_read(sheet: Sheet, read: Read) -> None:
    page = sheet(PLAIN)
    page.add_table(Table(displayName="Points", ref="A1:D3"))
    assert [line[1] for line in read()[1:]] == ["TE-101", "TE-102"]


def test_an_empty_sheet_gets_one_line(sheet: Sheet, read: Read) -> None:
    sheet("")
    with pytest.raises(WorkbookError, match=r"layout\.xlsx: no instrument index found.*Index: empty"):
        read()


def test_an_index_without_a_tag_column_gets_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Service | Overall Length (in) | Bore Depth (in) | Tip (in)
        Feed    | 9.25                | 9               | 0.25
    """)
    with pytest.raises(WorkbookError, match=r"Index: .*no column of tags") as failure:
        read()
    assert "\n" not in str(failure.value)


def test_a_transposed_sheet_gets_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag No.             | TE-101 | TE-102 | TE-103
        Service             | Feed   | Return | Steam
        Overall Length (in) | 9.25   | 6.25   | 12.25
        Bore Depth (in)     | 9      | 6      | 12
        Tip Thickness (in)  | 0.25   | 0.25   | 0.25
    """)
    with pytest.raises(WorkbookError, match="Index: its labels run down") as failure:
        read()
    assert "\n" not in str(failure.value)


def test_a_sheet_that_is_not_there_gets_one_line(sheet: Sheet, read: Read) -> None:
    sheet(PLAIN)
    with pytest.raises(WorkbookError, match="no sheet 'Area 9'; there are Index"):
        read(only_sheets=("Area 9",))


def test_only_the_sheets_that_are_asked_for_are_read(
    sheet: Sheet, read: Read, passed: Callable[..., dict[str, str]]
) -> None:
    sheet(PLAIN, name="One")
    sheet(PLAIN, name="Two")
    assert len(read(only_sheets=("Two",))) == 3
    assert passed(only_sheets=("Two",)) == {"One": "not asked for"}


def test_a_heading_without_rows_gets_one_line(sheet: Sheet, read: Read) -> None:
    sheet("Tag No. | Service | Overall Length (in) | Bore Depth (in)")
    with pytest.raises(WorkbookError, match="the index on Index has a heading row and no rows below it"):
        read()


def test_a_chart_sheet_has_no_cells(book: Workbook, sheet: Sheet, passed: Callable[..., dict[str, str]]) -> None:
    sheet(PLAIN)
    book.create_chartsheet("Chart")
    assert passed() == {"Chart": "a chartsheet, it has no cells"}


def test_two_heading_rows_with_two_units_get_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Overall length (in) | Bore depth (in) | Tip thickness (in)
        Tag    | Overall length (mm) | Bore depth (mm) | Tip thickness (mm)
        TE-101 | 9.25                | 9               | 0.25
    """)
    with pytest.raises(WorkbookError, match=r"heading rows 1 and 2 disagree: column B is 'Overall length .in.' and"):
        read()
