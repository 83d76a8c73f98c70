"""What a heading means: groups, merged cells, units and numbers below it, words that fit two fields."""

from collections.abc import Callable

import pytest
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.errors import SettingsError, WorkbookError
from thermowell_index.heading_map import MappedHeading

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]


def test_merged_group_headings_over_one_row(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        TAG    | THERMOWELL |      |      |      | SENSOR |      |       | REMARKS
               | BORE       | O/A  | TIP  | U    | TYPE   | DIA. | LENGTH |
        TE-101 | 9          | 9.25 | 0.25 | 7.5  | RTD    | 0.25 | 9      | new
    """)
    for merged in ("A1:A2", "B1:E1", "F1:H1", "I1:I2"):
        page.merge_cells(merged)
    page["A1"], page["I1"] = "TAG", "REMARKS"
    page["B2"], page["C2"], page["D2"], page["E2"] = "BORE DEPTH (IN)", "O/A (IN)", "TIP THK (IN)", "U (IN)"
    page["G2"], page["H2"] = "DIA. (IN)", "LENGTH (IN)"
    assert read() == rows("""
        row | tag A | bore depth B | overall length C | tip thickness D | insertion length E | sensor type F | sheath diameter G | probe length H | remarks I
        3 | TE-101 | 228.6 | 234.95 | 6.35 | 190.5 | RTD | 6.35 | 228.6 | new
    """)


def test_group_headings_that_are_not_merged(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        GENERAL |         | THERMOWELL     |                 |                    |                    | EXTENSION |
        Tag No. | Service | Overall Length | Tip Thickness   | Insertion Length   | Instrument Conn.   | Type      | Length
                |         | in             | in              | in                 |                    |           | in
        TE-101  | Feed    | 9.25           | 0.25            | 7.5                | 1/2" NPT           | Nipple    | 4
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | tip thickness D | insertion length E | instrument thread F | extension arrangement G | extension length H
        4 | TE-101 | Feed | 234.95 | 6.35 | 190.5 | 1/2" NPT | Nipple | 101.6
    """)


def test_three_heading_rows_with_units_and_column_numbers_below(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        INSTRUMENT  |         | THERMOWELL DATA |            |           |
        TAG         | SERVICE | LENGTHS         |            |           | MATERIAL
                    |         | OVERALL         | BORE DEPTH | INSERTION |
                    |         | mm              | mm         | mm        |
        1           | 2       | 3               | 4          | 5         | 6
        TE-101      | Feed    | 241             | 235        | 190       | 316L
    """)
    for merged in ("A1:B1", "C1:F1", "C2:E2", "A2:A3", "B2:B3", "F2:F3"):
        page.merge_cells(merged)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D | insertion length E | well material F
        6 | TE-101 | Feed | 241 | 235 | 190 | 316L
    """)


def test_column_numbers_stand_above_the_units(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Service | Overall length | Bore depth
        (1)    | (2)     | (3)            | (4)
        -      | -       | [in]           | [in]
        TE-101 | Feed    | 9.25           | 9
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        4 | TE-101 | Feed | 234.95 | 228.6
    """)


def test_line_breaks_hyphenation_and_abbreviations(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        TAG~NO. | T/W~O.A.L.~(INS) | T/W BORE~DEPTH~(INS) | TIP~THK.~(INS) | INSERT'N~LGTH~"U" (INS) | BORE~Ø~(INS) | SHEATH~O.D.~(INS) | SPRING TRA-~VEL (INS)
        TE-101 | 9.25 | 9 | 0.25 | 7.5 | 0.26 | 0.25 | 1
    """)
    assert read() == rows("""
        row | tag A | overall length B | bore depth C | tip thickness D | insertion length E | bore diameter F | sheath diameter G | spring travel H
        2 | TE-101 | 234.95 | 228.6 | 6.35 | 190.5 | 6.604 | 6.35 | 25.4
    """)


def test_a_column_called_bore_is_told_by_its_values(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Overall (in) | Bore (in) | Tip (in)
        TE-101 | 9.25         | 0.26      | 0.25
        TE-102 | 6.25         | 0.385     | 0.25
    """)
    assert read() == rows("""
        row | tag A | overall length B | bore diameter C | tip thickness D
        2 | TE-101 | 234.95 | 6.604 | 6.35
        3 | TE-102 | 158.75 | 9.779 | 6.35
    """)


def test_a_column_called_bore_with_depths_is_a_depth(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Overall (mm) | Bore (mm) | Bore Dia (mm)
        TE-101 | 241          | 235       | 7
        TE-102 | 166          | 160       | 7
    """)
    assert read() == rows("""
        row | tag A | overall length B | bore depth C | bore diameter D
        2 | TE-101 | 241 | 235 | 7
        3 | TE-102 | 166 | 160 | 7
    """)


def test_a_bare_length_stays_undecided(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Tip thickness (in) | Length (in)
        TE-101 | Feed    | 0.25               | 9
    """)
    head = read()[0]
    assert head[:4] == ["row", "tag A", "service B", "tip thickness C"]
    assert head[4].startswith("? D ")
    assert "bore depth" in head[4]
    assert "insertion length" in head[4]


def test_a_bare_length_beside_an_overall_length_stays_undecided(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Overall length (in) | TW Length (in) | Tip thickness (in)
        TE-101 | 9.25                | 7.5            | 0.25
    """)
    assert [cell for cell in read()[0] if cell.startswith("? C")]


@pytest.mark.parametrize("heading", ["Size (in)", "L (in)", "Dimension (in)", "S (in)", "A (in)", "B (in)"])
def test_a_letter_or_a_size_alone_names_no_bore_depth(sheet: Sheet, read: Read, heading: str) -> None:
    sheet(f"""
        Tag    | Service | Overall length (in) | {heading}
        TE-101 | Feed    | 9.25                | 9
    """)
    assert not [cell for cell in read()[0] if cell.startswith(("bore", "insertion", "probe"))]


def test_two_columns_of_one_field_that_agree_are_one(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Bore depth (in) | Tip (in) | Bore depth (in)
        TE-101 | 9               | 0.25     | 9.05
        TE-102 | 9               | 0.25     |
        TE-103 |                 | 0.25     | 6
        TE-104 | 9               | 0.25     | 7
    """)
    assert read() == rows("""
        row | tag A | bore depth B+D | tip thickness C
        2 | TE-101 | 228.6 | 6.35
        3 | TE-102 | 228.6 | 6.35
        4 | TE-103 | 152.4 | 6.35
        5 | TE-104 | [two columns differ] | 6.35
    """)


def test_drawing_and_as_found_columns_are_told_apart(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Bore depth (drawing) mm | Bore depth (as found) mm | Overall length mm
        TE-101 | 235                     | 229                      | 241
    """)
    assert read() == rows("""
        row | tag A | bore depth B | measured bore depth C | overall length D
        2 | TE-101 | 235 | 229 | 241
    """)


def test_a_row_that_repeats_the_heading_is_no_row(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-101 | Feed    | 9.25                | 9
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-102 | Feed    | 6.25                | 6
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-101 | Feed | 234.95 | 228.6
        4 | TE-102 | Feed | 158.75 | 152.4
    """)


def test_two_heading_rows_that_disagree_get_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in) | Tip thickness (in)
        Tag    | Service | Bore depth (in) | Overall length (in) | Insertion length (in)
        TE-101 | Feed    | 9.25                | 9               | 0.25
    """)
    with pytest.raises(WorkbookError, match="sheet 'Index': the heading rows 1 and 2 disagree: column C") as failure:
        read()
    assert "\n" not in str(failure.value)


def test_a_heading_map_by_text_and_by_letter_wins(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Service | Dim. A (in) | Length (in)
        TE-101 | Feed    | 9.25        | 9
    """)
    mapped = {
        "Index": {
            "overall_length": MappedHeading(headings=("Dim. A (in)",)),
            "bore_depth": MappedHeading(headings=("column D",), unit="mm"),
            "ignore": MappedHeading(headings=("Service",)),
        }
    }
    assert read(column_map=mapped) == rows("""
        row | tag A | overall length C | bore depth D
        2 | TE-101 | 234.95 | 9
    """)


def test_a_heading_map_that_names_what_is_not_there_gets_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in)
        TE-101 | Feed    | 9.25
    """)
    mapped = {
        "Index": {"bore_depth": MappedHeading(headings=("Depth",))},
        "Other": {"tag": MappedHeading(headings=("Tag",))},
    }
    with pytest.raises(SettingsError, match="sheet 'Index' has no heading 'Depth' for bore_depth; sheet 'Other' has"):
        read(column_map=mapped)


def test_a_well_group_says_whose_length_and_material(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        Tag    | Thermowell |          |           |          | Temperature element |        |
               | Tag        | Material | Bore dia. | Bore depth | Type              | Length | Sheath material
               |            |          | mm        | mm       |                     | mm     |
        TE-101 | TW-101     | 316L     | 7         | 235      | RTD                 | 235    | 321
    """)
    page.merge_cells("A1:A2")
    page.merge_cells("B1:E1")
    page.merge_cells("F1:H1")
    assert read() == rows("""
        row | tag A | well tag B | well material C | bore diameter D | bore depth E | sensor type F | probe length G | sheath material H
        4 | TE-101 | TW-101 | 316L | 7 | 235 | RTD | 235 | 321
    """)
