"""Which lines are rows: sections, totals, legends, footers, blank lines, merged records, tags in several columns."""

from collections.abc import Callable

from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]


def test_sections_subtotals_blank_rows_and_footers_are_no_rows(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag      | Service | Overall length (in) | Bore depth (in) | Remarks
        UNIT 200 |         |                     |                 |
        TE-201   | Feed    | 9.25                | 9               |
        TE-202   | Feed    | 9.25                | 9               | new
        Subtotal | 2       |                     |                 |
        UNIT 300: REACTION SECTION
        TE-301   | Return  | 6.25                | 6               |
    """)
    sheet(
        """
        TE-302   | Return  | 6.25                | 6               |
        Total    | 4       |                     |                 |
        Number of points: 4
        * dimensions to be confirmed on site
        NOTES:
        1. All wells are of bar stock.
        2. See TE-999 for the typical drawing.
        Page 1 of 1
        End of index
    """,
        row=12,
    )
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D | remarks E
        3   | TE-201 | Feed   | 234.95 | 228.6 |
        4   | TE-202 | Feed   | 234.95 | 228.6 | new
        7   | TE-301 | Return | 158.75 | 152.4 |
        12  | TE-302 | Return | 158.75 | 152.4 |
    """)


def test_totals_with_sums_below_the_lengths_are_no_rows(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
        TE-202 | Feed    | 9.25                | 9
        TOTAL  |         | =SUM(C2:C3)         | =SUM(D2:D3)
               | Average | 9.25                | 9
    """)
    assert [line[1] for line in read()[1:]] == ["TE-201", "TE-202"]


def test_a_section_merged_across_the_table_is_no_row(sheet: Sheet, read: Read) -> None:
    page = sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        21-TE-900 AND FOLLOWING: TANK FARM
        TE-201 | Feed    | 9.25                | 9
    """)
    page.merge_cells("A2:D2")
    assert [line[1] for line in read()[1:]] == ["TE-201"]


def test_a_merged_record_counts_once_on_its_first_row(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
               | to reactor |                  |
        TE-202 | Return  | 6.25                | 6
    """)
    for column in "ACD":
        page.merge_cells(f"{column}2:{column}3")
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-201 | Feed | 234.95 | 228.6
        4 | TE-202 | Return | 158.75 | 152.4
    """)


def test_the_second_line_of_a_record_that_is_not_merged_is_no_row(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service    | Overall length (in) | Bore depth (in)
        TE-201 | Feed       | 9.25                | 9
               | to reactor |                     |
        TE-202 | Return     | 6.25                | 6
    """)
    assert [line[1] for line in read()[1:]] == ["TE-201", "TE-202"]


def test_a_vertical_merge_of_area_service_and_line_fills_its_rows(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Area | Line No. | Service | Tag    | Overall length (in) | Bore depth (in)
        100  | P-1      | Feed    | TE-201 | 9.25                | 9
             |          |         | TE-202 | 6.25                | 6
        200  | P-2      | Steam   | TE-203 | 6.25                | 6
    """)
    for column in "ABC":
        page.merge_cells(f"{column}2:{column}3")
    assert read() == rows("""
        row | area A | line number B | service C | tag D | overall length E | bore depth F
        2 | 100 | P-1 | Feed  | TE-201 | 234.95 | 228.6
        3 | 100 | P-1 | Feed  | TE-202 | 158.75 | 152.4
        4 | 200 | P-2 | Steam | TE-203 | 158.75 | 152.4
    """)


def test_a_vertical_merge_of_a_length_does_not_fill_the_rows_below(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
        TE-202 | Return  |                     | 6
    """)
    page.merge_cells("C2:C3")
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-201 | Feed | 234.95 | 228.6
        3 | TE-202 | Return |  | 152.4
    """)


def test_a_row_with_dimensions_and_no_tag_stays(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
               | Steam   | 12.25               | 12
        TE-202 | Return  | 6.25                | 6
    """)
    assert [line[:3] for line in read()[1:]] == [["2", "TE-201", "Feed"], ["3", "", "Steam"], ["4", "TE-202", "Return"]]


def test_a_tag_in_two_columns_is_joined_with_the_separator_of_the_sheet(sheet: Sheet, read: Read) -> None:
    sheet("""
        Function | Number | Well Tag | Service | Overall length (in) | Bore depth (in)
        TE       | 201    | TW-201   | Feed    | 9.25                | 9
        TE       | 202    | TW-202   | Steam   | 6.25                | 6
    """)
    assert [line[1] for line in read()[1:]] == ["TE-201", "TE-202"]


def test_a_tag_in_three_columns_under_one_group_is_joined(sheet: Sheet, read: Read) -> None:
    page = sheet("""
        TAG NUMBER |      |     | Service | Overall length (in) | Bore depth (in)
        Unit | Func. | No. |    |                     |
        21   | TE    | 201 | Feed    | 9.25                | 9
        21   | TE    | 202A | Steam  | 6.25                | 6
    """)
    page.merge_cells("A1:C1")
    assert [line[1] for line in read()[1:]] == ["21-TE-201", "21-TE-202A"]


def test_separator_columns_between_the_parts_of_a_tag_are_used(sheet: Sheet, read: Read) -> None:
    page = sheet("""
        TAG NUMBER | | | | | Service | Overall length (in) | Bore depth (in)
        21 | _ | TE | _ | 201  | Feed   | 9.25                | 9
        21 | _ | TE | _ | 202A | Steam  | 6.25                | 6
    """)
    page.merge_cells("A1:E1")
    assert [line[1] for line in read()[1:]] == ["21_TE_201", "21_TE_202A"]


def test_of_several_tags_on_a_row_the_element_names_it(sheet: Sheet, read: Read) -> None:
    sheet("""
        Loop  | Transmitter Tag | Element Tag | Well Tag | Service | Overall length (in) | Bore depth (in)
        T-201 | TT-201          | TE-201      | TW-201   | Feed    | 9.25                | 9
        T-202 | TT-202          |             | TW-202   | Steam   | 6.25                | 6
        T-203 |                 |             | TW-203   | Steam   | 6.25                | 6
    """)
    assert [line for line in read()[0] if line.startswith(("tag", "well tag"))] == ["tag C", "well tag D"]
    assert [line[1] for line in read()[1:]] == ["TE-201", "TT-202", "T-203"]


def test_a_tag_that_begins_with_an_equals_sign_stays_as_it_is(sheet: Sheet, read: Read) -> None:
    page = sheet("""
        Kennzeichen | Benennung | Gesamtlänge (mm) | Bohrungstiefe (mm)
        x | Speisewasser | 241 | 235
        y | Dampf        | 166 | 160
    """)
    for address, tag in (("A2", "=10LAB10CT001"), ("A3", "=10LAB20CT002")):
        page[address].value = tag
        page[address].data_type = "s"
    assert [line[1] for line in read()[1:]] == ["=10LAB10CT001", "=10LAB20CT002"]


def test_partly_struck_cells_are_read_as_what_is_not_struck(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
    """)
    page["D2"] = CellRichText(TextBlock(InlineFont(strike=True), "9"), " 8.5")
    page["A2"] = CellRichText(TextBlock(InlineFont(strike=True), "TE-200"), TextBlock(InlineFont(), " TE-201"))
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-201 | Feed | 234.95 | 215.9
    """)


def test_a_struck_length_is_doubtful(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
    """)
    page["D2"].font = Font(strike=True)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-201 | Feed | 234.95 | [doubtful]
    """)


def test_a_last_row_without_lengths_is_still_a_row(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-201 | Feed    | 9.25                | 9
        PT-201 | Feed    |                     |
        TE-202 |         |                     |
    """)
    assert [line[1] for line in read()[1:]] == ["TE-201", "PT-201", "TE-202"]


def test_a_legend_beside_and_below_the_table_gives_no_row(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in) | | Legend
        TE-201 | Feed    | 9.25                | 9               | | TE | temperature element
        TE-202 | Feed    | 9.25                | 9               | | TW | thermowell
    """)
    sheet(
        """
        LEGEND
        TE | Temperature element
        TW | Thermowell
        RTD-3 | Three-wire resistance element
    """,
        row=6,
    )
    assert [line[1] for line in read()[1:]] == ["TE-201", "TE-202"]


def test_a_thinly_filled_row_with_a_tag_stays_a_row(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag     | Overall length (in) | Bore depth (in) | Sensor type
        TE-0101 | 9.25                | 9               | RTD
        TE 0102 |                     |                 | RTD
        TE-0103 | 9.25                | 9               | RTD
    """)
    assert [line[1] for line in read()[1:]] == ["TE-0101", "TE 0102", "TE-0103"]


def test_an_area_merged_over_hundreds_of_rows_fills_them(sheet: Sheet, index: Callable[..., object]) -> None:
    lines = "\n".join(f"| TE-{number} | 9" for number in range(1000, 1700))
    page = sheet(f"Area | Tag | Bore depth (in)\n{lines}")
    page["A2"] = "North"
    page.merge_cells("A2:A701")
    frame = index().frame  # type: ignore[attr-defined]  # an IndexTable
    assert set(frame["area"]) == {"North"}
    assert len(frame) == 700


def test_a_page_footer_with_a_subtotal_is_no_row(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag         | Service | Bore depth (in) | Tip Thk. (in)
        TE-101      | Feed    | 9               | 0.25
        TE-102      | Feed    | 9               | 0.25
        Page 1 of 3 |         | Subtotal        | 2
        TE-103      | Feed    | 9               | 0.25
    """)
    assert [row[0] for row in read()] == ["row", "2", "3", "5"]
