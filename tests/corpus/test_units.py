"""Which unit a bare number has, and which decimal mark a sheet uses."""

from collections.abc import Callable

from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.table import CellState, IndexTable

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]


def test_a_unit_in_the_cell_wins_over_the_heading(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-101 | Feed    | 241 mm              | 235mm
        TE-102 | Feed    | 9-1/4"              | 9
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-101 | Feed | 241 | 235
        3 | TE-102 | Feed | 234.95 | 228.6
    """)


def test_a_unit_column_serves_its_row_and_a_blank_in_it_none(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Units | Overall length | Bore depth
        TE-101 | in    | 9.25           | 9
        TE-102 | mm    | 241            | 235
        TE-103 |       | 241            | 235
        TE-104 | cm    | 24.1           | 23.5
    """)
    assert read() == rows("""
        row | tag A | length unit B | overall length C | bore depth D
        2 | TE-101 | in | 234.95 | 228.6
        3 | TE-102 | mm | 241 | 235
        4 | TE-103 |  | [no unit] | [no unit]
        5 | TE-104 | cm | 241 | 235
    """)


def test_a_unit_column_called_unit_is_told_from_the_plant_unit_by_its_values(
    sheet: Sheet, read: Read, rows: Rows
) -> None:
    sheet("""
        Unit | Tag    | Unit | Overall length | Bore depth
        100  | TE-101 | mm   | 241            | 235
        100  | TE-102 | mm   | 166            | 160
    """)
    assert read() == rows("""
        row | area A | tag B | length unit C | overall length D | bore depth E
        2 | 100 | TE-101 | mm | 241 | 235
        3 | 100 | TE-102 | mm | 166 | 160
    """)


def test_a_note_in_the_title_block_serves_the_sheet(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        TEMPERATURE INDEX
        Notes: | 1. All dimensions are in millimetres unless noted.

    """)
    sheet(
        """
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 241            | 235
    """,
        row=5,
    )
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        6 | TE-101 | Feed | 241 | 235
    """)


def test_a_note_below_the_table_serves_the_sheet(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 9.25           | 9
    """)
    sheet("Note: all lengths in inches", row=5)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-101 | Feed | 234.95 | 228.6
    """)


def test_a_note_on_line_sizes_says_nothing_of_lengths(sheet: Sheet, read: Read) -> None:
    sheet("Notes: 1. All dimensions are in mm unless noted; line sizes are in inches.")
    sheet("Unit 100 nominal pipe sizes are in inches.", row=2)
    sheet(
        """
        Tag    | Line size | Overall length | Bore depth
        TE-101 | 4         | 241            | 235
    """,
        row=4,
    )
    assert [line[3:] for line in read()[1:]] == [["241", "235"]]


def test_a_note_on_nipples_alone_gives_the_wells_no_unit(sheet: Sheet, read: Read) -> None:
    sheet("Note: nipple lengths are in inches")
    sheet(
        """
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 241            | 235
    """,
        row=3,
    )
    assert [line[3:] for line in read()[1:]] == [["[no unit]", "[no unit]"]]


def test_notes_that_contradict_each_other_give_no_unit(sheet: Sheet, read: Read) -> None:
    sheet("All dimensions in mm\nAll lengths in inches")
    sheet(
        """
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 241            | 235
    """,
        row=4,
    )
    assert [line[3:] for line in read()[1:]] == [["[no unit]", "[no unit]"]]


def test_each_table_of_a_sheet_has_the_unit_noted_above_it(sheet: Sheet, read: Read) -> None:
    sheet("AREA 1 - dimensions in inches")
    sheet(
        """
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 9.25           | 9
    """,
        row=2,
    )
    sheet("AREA 2 - dimensions in mm", row=6)
    sheet(
        """
        Tag    | Service | Bore depth | Tip thickness
        TE-201 | Feed    | 235        | 6
    """,
        row=7,
    )
    assert [line[3:] for line in read() if line[0].isdigit()] == [["234.95", "228.6"], ["235", "6"]]


def test_no_unit_anywhere_is_no_length(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 241            | 235
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-101 | Feed | [no unit] | [no unit]
    """)


def test_a_row_of_units_may_differ_from_column_to_column(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Line size | Overall length | Bore depth | Bore dia. | Design temp.
               | NPS       | mm             | mm         | in        | °C
        TE-101 | 4         | 241            | 235        | 0.26      | 200
    """)
    assert read() == rows("""
        row | tag A | line size B | overall length C | bore depth D | bore diameter E | design temperature F
        3 | TE-101 | 4 | 241 | 235 | 6.604 | 200
    """)


def test_a_unit_that_the_number_format_prints_counts_as_written(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Tag    | Service | Overall length | Bore depth
        TE-101 | Feed    | 9.25           | 235
    """)
    page["C2"].number_format = '0.00" in"'
    page["D2"].number_format = '0 "mm"'
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-101 | Feed | 234.95 | 235
    """)


def test_two_declared_units_that_the_values_settle(sheet: Sheet, read: Read) -> None:
    sheet("Note: all dimensions in inches")
    sheet(
        """
        Tag    | Service | Overall length (mm) | Bore depth (mm)
        TE-101 | Feed    | 3241                | 1235
        TE-102 | Feed    | 3541                | 2235
    """,
        row=3,
    )
    assert [line[4] for line in read()[1:]] == ["1235", "2235"]


def test_two_declared_units_that_the_values_do_not_settle(sheet: Sheet, read: Read) -> None:
    sheet("Note: all dimensions in inches")
    sheet(
        """
        Tag    | Service | Overall length (mm) | Bore depth (mm)
        TE-101 | Feed    | 110                 | 104
    """,
        row=3,
    )
    assert [line[3:] for line in read()[1:]] == [["[units disagree]", "[units disagree]"]]


def test_decimal_commas_are_settled_by_the_column(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Messstelle | Benennung | Gesamtlänge (mm) | Bohrungstiefe (mm) | Bohrungsdurchmesser (mm)
        TE 101     | Dampf     | 241,5            | 235,5              | 7,0
        TE 102     | Dampf     | 1.241,5          | '1.235             | 7,0
        TE 103     | Dampf     | '241             | '1,235             | 7
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D | bore diameter E
        2 | TE 101 | Dampf | 241.5 | 235.5 | 7
        3 | TE 102 | Dampf | 1241.5 | 1235 | 7
        4 | TE 103 | Dampf | 241 | 1.235 | 7
    """)


def test_a_lone_number_with_a_comma_before_three_digits_is_unreadable(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (mm) | Bore depth (mm)
        TE-101 | Feed    | '1,241              | '1,235
    """)
    assert [line[3:] for line in read()[1:]] == [["[unreadable]", "[unreadable]"]]


def test_thousands_are_told_by_the_points_of_the_column(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (mm) | Bore depth (mm)
        TE-101 | Feed    | '1,241.5            | '1,235
        TE-102 | Feed    | '241.5              | '235.5
    """)
    assert [line[3:] for line in read()[1:]] == [["1241.5", "1235"], ["241.5", "235.5"]]


def test_a_design_basis_unit_serves_what_nothing_else_answers(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length | Bore depth (mm)
        TE-101 | Feed    | 9.25           | 235
    """)
    assert [line[3:] for line in read(default_unit="in")[1:]] == [["234.95", "235"]]


def test_a_section_between_the_rows_has_its_own_unit(sheet: Sheet, index: Callable[..., IndexTable]) -> None:
    sheet("""
        Tag    | Service | Bore depth (in) | Tip thk (in) | Mounting
        TE-101 | feed    | 9               | 0.25         | spring-loaded fitting
        TE-102 | feed    | 12              | 0.25         | spring-loaded fitting
        Package unit: dimensions in mm
        TE-103 | feed    | 229             | 6            | spring-loaded fitting
        TE-104 | feed    | 305             | 6            | spring-loaded fitting
        Area 300 utilities
        TE-105 | feed    | 9               | 0.25         | spring-loaded fitting
        TE-106 | feed    | 300             | 6            | spring-loaded fitting
    """)
    frame = index().frame
    assert frame["bore_depth_mm"].round(1).fillna(0).tolist() == [228.6, 304.8, 229.0, 305.0, 228.6, 0]
    assert frame["bore_depth_state"].iloc[-1] == CellState.UNITS_DISAGREE
    assert frame["bore_depth_unit_from"].tolist() == ["heading", "heading", "section", "section", "heading", "heading"]
