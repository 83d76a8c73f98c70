"""Workbooks that a spreadsheet program saved; what they are and where they come from is in office/ORIGIN.md."""

from collections.abc import Callable
from pathlib import Path

OFFICE = Path(__file__).with_name("office")
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]


def test_a_title_block_with_merged_groups(read: Read, rows: Rows) -> None:
    assert read(OFFICE / "title_block.xlsx") == rows("""
        row | tag B | service C | overall length D | bore depth E | tip thickness F | sensor type G | probe length H | remarks I
        11 | TE-101 | Feed   | 234.95 | 228.6 | 6.35 | RTD | 228.6 |
        12 | TE-102 | Return | 158.75 | 152.4 | 6.35 | RTD | 152.4 | existing
        14 | TE-103 | Steam  | 311.15 |       | 6.35 | TC  |       | note 1
    """)


def test_german_headings_commas_and_a_unit_in_the_number_format(read: Read, rows: Rows) -> None:
    assert read(OFFICE / "german.xlsx") == rows("""
        row | tag A | service B | overall length C | bore depth D | tip thickness E | bore diameter F | row status G | remarks H
        5 | 10-TE-101 | Dampf        | 241.5 | 235.5  | 6    | 7     | neu      |
        6 | 10-TE-102 | Kondensat    | 166.5 | 160.5  | 6    | 7     |          | geprüft
        7 | 10-TE-103 | Speisewasser | 241   | 235    | 6    | 7     | entfällt |
        8 | 10-TE-104 | Luft         | 241.3 | 234.95 | 6.35 | 6.604 |          |
    """)


def test_struck_hidden_and_filtered_rows(read: Read, rows: Rows) -> None:
    assert read(OFFICE / "struck.xlsx") == rows("""
        row | tag A | service B | overall length C | bore depth D | remarks E
        2 | TE-101 | Feed | 234.95     | 228.6      |
        3 | TE-102 | Feed | 234.95     | 228.6      | deleted by rev. 2
        4 | TE-103 | Feed | [doubtful] | [doubtful] |
        5 | TE-104 | Feed | 234.95     | 215.9      |
        6 | TE-105 | Feed | 158.75     | 152.4      |
    """)


def test_struck_and_deleted_rows_are_no_points(points: Read) -> None:
    found = points(OFFICE / "struck.xlsx")
    assert [line[:2] for line in found if line[1]] == [
        ["TE-102", "remark 'deleted by rev. 2'"],
        ["TE-103", "struck out"],
    ]


def test_formulas_errors_dates_and_fraction_formats(read: Read, rows: Rows) -> None:
    assert read(OFFICE / "formulas.xlsx") == rows("""
        row | tag A | service B | overall length C | tip thickness D | bore depth E
        2 | TE-101 | Feed | 234.95  | 6.35 | 228.6
        3 | TE-102 | Feed | 158.75  | 6.35 | 152.4
        4 | TE-103 | Feed | 158.75  | 6.35 | [dead formula]
        5 | TE-104 | Feed | 158.75  | 6.35 | [date]
        6 | TE-105 | Feed | 233.426 | 6.35 | 233.426
        7 | TE-106 | Feed | 311.15  | 6.35 | [dead formula]
    """)


def test_sensors_and_wells_on_two_sheets(read: Read, points: Read, rows: Rows) -> None:
    assert read(OFFICE / "sheets.xlsx") == rows("""
        = Sensors
        row | area A | tag B  | well tag C | sensor type D | sheath diameter E | sensor mounting F
        2   | 100    | TE-101 | TW-101     | RTD           | 6                 | Spring-loaded fitting
        3   | 100    | TE-102 | TW-102     | RTD           | 6                 | Spring-loaded fitting
        4   | 200    | TE-201 | TW-201     | TC type K     | 6                 | Fixed fitting
        = Wells
        row | well tag C | overall length D | bore depth E | length unit F
        4   | TW-201     | 234.95           | 228.6        | in
        5   | TW-102     | 166              | 160          | mm
        6   | TW-101     | 241              | 235          | mm
    """)
    assert [line for line in points(OFFICE / "sheets.xlsx") if not line[1]] == [
        ["TE-101", "", "235", "stated"],
        ["TE-102", "", "160", "stated"],
        ["TE-201", "", "228.6", "stated"],
    ]


def test_a_tag_in_three_columns(read: Read, rows: Rows) -> None:
    assert read(OFFICE / "parts.xlsx") == rows("""
        row | tag A      | service D | overall length E | bore depth F
        3   | 21-TE-201  | Feed      | 234.95           | 228.6
        4   | 21-TE-202A | Steam     | 158.75           | 152.4
        5   | 21-TW-202A | Steam     | 158.75           | 152.4
    """)


def test_a_workbook_that_counts_days_from_1904(index: Callable[..., object]) -> None:
    frame = index(OFFICE / "old_days.xlsx").frame  # type: ignore[attr-defined]  # an IndexTable
    assert frame["bore_depth_text"].tolist() == ["2024-01-04", "9 in"]
    assert frame["bore_depth_note"].tolist() == ["1/4", ""]
