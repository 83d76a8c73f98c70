"""What a heading means: groups, merged cells, units and numbers below it, words that fit two fields."""

from collections.abc import Callable

import pytest
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.errors import SettingsError, WorkbookError
from thermowell_index.heading_map import MappedHeading
from thermowell_index.table import IndexTable

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


def test_a_column_without_a_heading_that_holds_tags_is_the_tag(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
               | Service | Overall length (in) | Bore depth (in)
        TE-101 | Feed    | 9.25                | 9
        TT-102 | Feed    | 6.25                | 6
    """)
    assert read() == rows("""
        row | tag A | service B | overall length C | bore depth D
        2 | TE-101 | Feed | 234.95 | 228.6
        3 | TT-102 | Feed | 158.75 | 152.4
    """)


def test_an_unknown_heading_over_tags_is_the_tag(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Item | Name   | Overall length (in) | Bore depth (in)
        1    | TE-101 | 9.25                | 9
        2    | TE-102 | 6.25                | 6
    """)
    assert read() == rows("""
        row | tag B | overall length C | bore depth D
        2 | TE-101 | 234.95 | 228.6
        3 | TE-102 | 158.75 | 152.4
    """)


def test_units_in_group_headings(sheet: Sheet, read: Read, rows: Rows) -> None:
    page = sheet("""
        TAG    | THERMOWELL (mm) |            |         | PROBE (in)
               | Overall         | Bore depth | Tip thk | Length
        TE-101 | 241             | 235        | 6       | 9 1/4
    """)
    page.merge_cells("B1:D1")
    assert read() == rows("""
        row | tag A | overall length B | bore depth C | tip thickness D | probe length E
        3 | TE-101 | 241 | 235 | 6 | 234.95
    """)


def test_a_second_heading_row_in_another_language_with_its_own_abbreviations(
    sheet: Sheet, read: Read, rows: Rows
) -> None:
    sheet("""
        Tag  | Bore depth         | Overall length
        N°   | Profondeur perçage | Longueur totale
        (-)  | (mm)               | (mm)
        1    | 2                  | 3
        TE-1 | 235                | 241
    """)
    assert read() == rows("""
        row | tag A | bore depth B | overall length C
        5 | TE-1 | 235 | 241
    """)


def test_a_row_of_units_with_words_for_pieces_and_temperature(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag  | Line size | Bore depth | Overall length | Design temp | Qty | Sensor
             | in        | mm         | mm             | deg C       | pcs |
        TE-1 | 4         | 235        | 241            | 100         | 1   | RTD
    """)
    assert read() == rows("""
        row | tag A | line size B | bore depth C | overall length D | design temperature E | quantity wanted F | sensor type G
        3 | TE-1 | 4 | 235 | 241 | 100 | 1 | RTD
    """)


def test_group_headings_repeated_in_every_column(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Instrument | Thermowell         | Thermowell     | Thermowell | Sensor
        Tag        | Length overall, mm | Bore depth, mm | Tip, mm    | Type
        TE-1       | 241                | 235            | 6          | RTD
    """)
    assert read() == rows("""
        row | tag A | overall length B | bore depth C | tip thickness D | sensor type E
        3 | TE-1 | 241 | 235 | 6 | RTD
    """)


def test_a_heading_right_of_a_merged_group_is_not_of_the_group(sheet: Sheet, read: Read) -> None:
    page = sheet("""
        TAG  | EXTENSION |        |             | THERMOWELL      |
             | Type      | Length | Length      | Bore depth (in) | Tip thk (in)
        TE-1 | Nipple    | 4      | 9           | 9               | 0.25
    """)
    page.merge_cells("B1:C1")
    head = read()[0]
    assert head[1:4] == ["tag A", "extension arrangement B", "extension length C"]
    assert not [cell for cell in head if cell.startswith("extension length C+")]
    assert [cell for cell in head if cell.startswith("? D")]


def test_an_extension_column_of_words_and_one_of_lengths(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag  | Bore depth (in) | Extension        | Extension (in)
        TE-1 | 9               | Nipple and union | 3
        TE-2 | 9               | None             |
    """)
    assert read() == rows("""
        row | tag A | bore depth B | extension arrangement C | extension length D
        2 | TE-1 | 228.6 | Nipple and union | 76.2
        3 | TE-2 | 228.6 | None |
    """)


@pytest.mark.parametrize("cell,meaning", [('1/2" NPT', "extension thread D"), ('4"', "nipple length D")])
def test_a_nipple_size_is_a_thread_or_a_length(sheet: Sheet, read: Read, cell: str, meaning: str) -> None:
    sheet(f"""
        Tag  | Bore depth (in) | Ext. type | Nipple size
        TE-1 | 9               | Nipple    | {cell}
    """)
    assert read()[0][4] == meaning


def test_columns_with_headings_of_their_own_kind_are_known_by_their_words(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag  | Bore depth (in) | How held              | Parts above the well
        TE-1 | 9               | Spring-loaded fitting | None
        TE-2 | 9               | Spring-loaded insert  | Nipple
    """)
    assert read()[0] == ["row", "tag A", "bore depth B", "sensor mounting C", "extension arrangement D"]


@pytest.mark.parametrize(
    "heading",
    ["Nominal bore (in)", "Bore depth tolerance (in)", "Old bore depth (in)", "Total", "ID", "Bore depth min (in)"],
)
def test_a_heading_of_another_thing_gives_no_bore(sheet: Sheet, read: Read, heading: str) -> None:
    sheet(f"""
        Tag  | Overall length (in) | Tip thickness (in) | {heading}
        TE-1 | 9.25                | 0.25               | 4
    """)
    assert not [cell for cell in read()[0] if "bore" in cell or cell.startswith("overall length D")]


@pytest.mark.parametrize(
    "heading",
    ["Measured bore depth", "Bore depth (as found)", "Field verified bore depth", "As-found depth", "Site measured depth",
     "Bore depth survey", "Bohrungstiefe gemessen", "Profondeur mesurée", "Bore depth verified on site"],
)  # fmt: skip
def test_a_measured_bore_depth_is_told_from_a_stated_one(sheet: Sheet, read: Read, heading: str) -> None:
    sheet(f"""
        Tag  | Bore depth (in) | {heading} (in)
        TE-1 | 9               | 8.75
    """)
    assert read()[0] == ["row", "tag A", "bore depth B", "measured bore depth C"]


def test_a_second_heading_row_that_only_says_more_of_what_is_named_above_belongs_to_it(
    sheet: Sheet, read: Read, rows: Rows
) -> None:
    page = sheet("""
        TAG    | NIPPLE | SERVICE | TIP       | BORE       |
               | LENGTH |         | THICKNESS | DEPTH      | DIA.
        TE-101 | 4 in   | Feed    | 0.25 in   | 9 in       | 0.26 in
    """)
    for merged in ("A1:A2", "C1:C2", "E1:F1"):
        page.merge_cells(merged)
    assert read() == rows("""
        row | tag A | nipple length B | service C | tip thickness D | bore depth E | bore diameter F
        3 | TE-101 | 101.6 | Feed | 6.35 | 228.6 | 6.604
    """)


def test_the_tersest_abbreviations(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        TAG    | SVCE | TW OAL (") | TW BD (") | TW TT (") | TW U (") | TW T (") | EL Ø (") | EL LG (") | STAT
        TE-101 | Feed | 9.25       | 9         | 0.25      | 7.5      | 2        | 0.25     | 9         | live
    """)
    assert read() == rows("""
        row | tag A  | service B | overall length C | bore depth D | tip thickness E | insertion length F | lagging length G | sheath diameter H | probe length I | row status J
        2   | TE-101 | Feed      | 234.95           | 228.6        | 6.35            | 190.5              | 50.8             | 6.35              | 228.6          | live
    """)


STEMS = """
    Tag    | Well O/A (in) | STEM LG. (in) | Tip thickness (in) | Immersion (in) | Sensor lgth. (in)
    TE-101 | 9.25          | {0}           | 0.25               | 7.5            | 9
    TE-102 | 12.25         | {1}           | 0.25               | 10.5           | 12
    TE-103 | 6.25          | {2}           | 0.25               | 4.5            | 6
"""


def test_a_stem_length_that_is_overall_less_tip_is_the_bore_depth(sheet: Sheet, read: Read) -> None:
    sheet(STEMS.format(9, 12, 6))
    assert "bore depth C" in read()[0]


def test_a_stem_length_that_adds_up_to_nothing_is_left_open_and_no_taken_field_is_offered(
    sheet: Sheet, read: Read
) -> None:
    sheet(STEMS.format(8, 11, 5))
    assert read()[0][-1] == "? C bore depth"


def test_a_heading_of_a_length_over_words_of_extensions_is_the_extension(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Overall length (in) | Stand-off hardware | Nipple length (in)
        TE-101 | 9.25                | Nipple             | 4
        TE-102 | 9.25                | Nipple and union   | 4
        TE-103 | 9.25                | None               |
    """)
    assert read()[0] == ["row", "tag A", "overall length B", "extension arrangement C", "nipple length D"]


def test_installed_below_a_group_is_the_extension_s_and_alone_it_is_left_open(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Overall length (in) | EXTENSION |
               |                     | TYPE      | INSTALLED (in)
        TE-101 | 9.25                | Nipple    | 3
    """)
    assert "installed length D" in read()[0]


def test_installed_alone_is_left_open_over_lengths_and_nothing_over_words(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Overall length (in) | INSTALLED (in)
        TE-101 | 9.25                | 9
    """)
    sheet(
        """
        Tag    | Overall length (in) | INSTALLED
        TE-201 | 9.25                | yes
    """,
        name="Other",
    )
    first, _, _, other, *_ = read()[1:]
    assert first[-1] == "? C installed length or probe length"
    assert not [cell for cell in other if cell.startswith("?")]


def test_a_length_below_a_group_is_the_overall_length_where_bore_and_tip_add_up_to_it(
    sheet: Sheet, read: Read, rows: Rows
) -> None:
    page = sheet("""
               | THERMOWELL |      |      | SENSOR |
        TAG    | LENGTH     | BORE | TIP  | LENGTH | DIA
               | in         | in   | in   | in     | in
        TE-101 | 9.25       | 9    | 0.25 | 12     | 0.25
        TE-102 | 12.25      | 12   | 0.25 | 15     | 0.25
        TE-103 | 6.25       | 6    | 0.25 | 9      | 0.25
    """)
    page.merge_cells("B1:D1")
    page.merge_cells("E1:F1")
    assert read() == rows("""
        row | tag A  | overall length B | bore depth C | tip thickness D | probe length E | sheath diameter F
        4   | TE-101 | 234.95           | 228.6        | 6.35            | 304.8          | 6.35
        5   | TE-102 | 311.15           | 304.8        | 6.35            | 381            | 6.35
        6   | TE-103 | 158.75           | 152.4        | 6.35            | 228.6          | 6.35
    """)


def test_references_to_notes_in_headings_are_passed_over(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag No. (Note 1) | U (Note 2) in. | Bore Depth (Notes 3, 4) in. | O/A Lg. (4) in. | Tip Thk. * in. | Notes
        TE-101           | 7.5            | 9                           | 9.25            | 0.25           | new
    """)
    assert read() == rows("""
        row | tag A  | insertion length B | bore depth C | overall length D | tip thickness E | remarks F
        2   | TE-101 | 190.5              | 228.6        | 234.95           | 6.35            | new
    """)


def test_lengths_from_a_flange_face_and_from_the_top(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Well length from flange face (mm) | Well bore depth from top (mm) | Element length (mm)
        TE-101 | 250                               | 300                           | 300
    """)
    assert read() == rows("""
        row | tag A  | insertion length B | bore depth C | probe length D
        2   | TE-101 | 250                | 300          | 300
    """)


def test_tables_continued_on_a_second_page_below_its_title(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        INSTRUMENT INDEX | Page 1 of 2
        Tag    | Service | Overall length (in) | Tip thickness (in)
        TE-101 | Feed    | 9.25                | 0.25
        INSTRUMENT INDEX | Page 2 of 2
        Tag    | Service | Overall length (in) | Tip thickness (in)
        TE-102 | Feed    | 9.25                | 0.25
        Total  | 2
    """)
    assert read() == rows("""
        row | tag A  | service B | overall length C | tip thickness D
        3   | TE-101 | Feed      | 234.95           | 6.35
        6   | TE-102 | Feed      | 234.95           | 6.35
    """)


def test_the_overall_length_of_a_sensor_is_none_of_the_well(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
                | THERMOWELL      |          | SENSOR   |
        Tag     | Bore depth (in) | OAL (in) | OAL (in) | Sensor overall length (in)
        TE-101  | 9               | 9.25     | 14       | 14
        TE-102  | 9               | 9.25     | 14       | 14
    """)
    assert read() == rows("""
        row | tag A | bore depth B | overall length C
        3 | TE-101 | 228.6 | 234.95
        4 | TE-102 | 228.6 | 234.95
    """)


def test_a_group_that_names_the_element_may_hold_its_well_too(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
                | TEMPERATURE ELEMENT |               |
        Tag     | OAL (in)            | Tip Thk. (in) | Sheath OD (in)
        TE-101  | 9.25                | 0.25          | 0.25
        TE-102  | 9.25                | 0.25          | 0.25
    """)
    assert read() == rows("""
        row | tag A | overall length B | tip thickness C | sheath diameter D
        3 | TE-101 | 234.95 | 6.35 | 6.35
        4 | TE-102 | 234.95 | 6.35 | 6.35
    """)


def test_drawing_and_as_found_over_the_same_lengths(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
                | DRAWING  |          | AS FOUND |
        Tag     | OAL (in) | Tip (in) | OAL (in) | Remarks
        TE-101  | 9.25     | 0.25     | 10.25    | new
        TE-102  | 9.25     | 0.25     | n/m      | new
    """)
    assert read() == rows("""
        row | tag A | overall length B+D | tip thickness C | remarks E
        3 | TE-101 | 260.35 | 6.35 | new
        4 | TE-102 | 234.95 | 6.35 | new
    """)


def test_two_headings_that_disagree_are_refused_in_one_line(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag             | Service | Bore depth (in)
        Bore depth (in) | Tag     | Service
        9               | TE-101  | Feed
    """)
    with pytest.raises(WorkbookError, match="rows 1 and 2 disagree: tag is column A in one and column B in the other"):
        read()


def test_two_units_side_by_side_below_one_heading_are_compared(sheet: Sheet, read: Read, rows: Rows) -> None:
    sheet("""
        Tag    | Overall length |     | Bore depth |
               | in             | mm  | in         | mm
        TE-101 | 9.25           | 235 | 9          | 229
        TE-102 | 9.25           | 335 | 9          | 229
    """)
    assert read() == rows("""
        row | tag A | overall length B+C | bore depth D+E
        3 | TE-101 | 234.95 | 228.6
        4 | TE-102 | [two columns differ] | 228.6
    """)


def test_a_measured_length_that_is_not_named_is_asked_about(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Rod reading measured (in) | Overall length (in) | Tip thickness (in)
        TE-101 | 9.5                       | 9.25                | 0.25
        TE-102 | 9                         | 9.25                | 0.25
    """)
    assert read()[0][-1] == "? B measured bore depth or overall length"


def test_depth_to_bottom_is_the_bore_depth(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Measured depth to bottom (in) | Overall length (in)
        TE-101 | 9                             | 9.25
    """)
    assert read()[0][2] == "measured bore depth B"


def test_columns_headed_by_letters_are_said_not_to_be_read(sheet: Sheet, index: Callable[..., IndexTable]) -> None:
    sheet("""
        Tag    | Overall length (mm) | A   | Dim C | Remarks
        TE-101 | 241                 | 235 | 6     | x
        TE-102 | 241                 | 235 | 6     |
    """)
    assert index().tables[0].unread_lengths == (3, 4)


def test_a_group_that_names_the_extension_is_part_of_the_heading(sheet: Sheet, read: Read) -> None:
    sheet("""
                |                 | Tube prolongateur |
        Repère  | Perçage prof. (mm) | Type           | Longueur (mm)
        TE-101  | 200             | lisse             | 145
        TE-102  | 200             | lisse             | 145
    """)
    assert read()[0][-1].startswith("? D")


def test_kinds_of_instruments_headed_instrument_are_no_tags(sheet: Sheet, read: Read) -> None:
    lines = "\n".join(f"WTW{number:03}-TE | PT100 | 9" for number in range(1, 10))
    sheet("Ref. | Instrument | Bore depth (in)\n" + lines)
    assert read()[0] == ["row", "tag A", "instrument type B", "bore depth C"]


def test_years_below_installed_are_no_lengths(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Bore depth (mm) | Installed
        TE-101 | 230             | 1987
        TE-102 | 230             | 2004
        TE-103 | 330             | 2011
    """)
    assert read()[0] == ["row", "tag A", "bore depth B"]


def test_a_repeated_heading_with_units_of_its_own_is_read_by_them(sheet: Sheet, read: Read) -> None:
    sheet("""
        Tag    | Bore depth | Tip thk
               | in         | in
        TE-101 | 9          | 0.25
        Tag    | Bore depth | Tip thk
               | mm         | mm
        TE-201 | 65         | 6
    """)
    assert [line for line in read() if line[0] in {"3", "6"}] == [
        ["3", "TE-101", "228.6", "6.35"],
        ["6", "TE-201", "65", "6"],
    ]


def test_a_repeated_heading_below_a_note_of_its_own_is_read_by_it(sheet: Sheet, read: Read) -> None:
    sheet("""
        Unit 100 - dimensions in inches
        Tag    | Bore depth | Tip thk
        TE-101 | 9          | 0.25
        Unit 200 - dimensions in mm
        Tag    | Bore depth | Tip thk
        TE-201 | 65         | 6
    """)
    assert [line for line in read() if line[0] in {"3", "6"}] == [
        ["3", "TE-101", "228.6", "6.35"],
        ["6", "TE-201", "65", "6"],
    ]


@pytest.mark.parametrize("group", ["OLD WELL", "PROPOSED", "PREVIOUS T/W", "REPLACED WELL"])
def test_a_group_of_wells_that_do_not_stand_there_gives_no_lengths(
    sheet: Sheet, read: Read, rows: Rows, group: str
) -> None:
    sheet(f"""
               | {group}         |          | WELL            |          | SENSOR
        Tag    | Bore depth (in) | Tip thk (in) | Bore depth (in) | Tip thk (in) | Mounting
        TE-101 | 9               | 0.25     | 10              | 0.375    | spring-loaded fitting
        TE-102 | 9               | 0.25     | 12              | 0.375    | spring-loaded fitting
    """)
    assert read() == rows("""
        row | tag A | bore depth D | tip thickness E | sensor mounting F
        3 | TE-101 | 254 | 9.525 | spring-loaded fitting
        4 | TE-102 | 304.8 | 9.525 | spring-loaded fitting
    """)
