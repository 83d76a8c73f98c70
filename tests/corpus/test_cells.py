"""What a length cell holds: text numbers, fractions, dates, errors, formulas, formats, placeholders, doubt."""

import datetime as dt
from collections.abc import Callable

import pytest
from openpyxl import Workbook
from openpyxl.utils.datetime import CALENDAR_MAC_1904
from openpyxl.worksheet.worksheet import Worksheet

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]

ONE_ROW = """
    Tag    | Service | Overall length (in) | Bore depth (in)
    TE-101 | Feed    | 9.25                | x
"""


@pytest.mark.parametrize(
    "cell,length",
    [
        (9, "228.6"),
        ("9", "228.6"),
        ("'9", "228.6"),
        ("9 1/4", "234.95"),
        ("9-1/4", "234.95"),
        ("9.1/4", "234.95"),
        ("9¼", "234.95"),
        ("9 ¼ in.", "234.95"),
        ('9-1/4"', "234.95"),
        ("9\N{NO-BREAK SPACE}1/4\N{DOUBLE PRIME}", "234.95"),
        ("9\N{EN DASH}1/4''", "234.95"),
        ("0'-9 1/4\"", "234.95"),
        ("1'-3\"", "381"),
        ("\N{FULLWIDTH DIGIT NINE}.25", "234.95"),
        ("235mm", "235"),
        ("23,5 cm", "235"),
        ("9 (field verified)", "228.6"),
        ("9.25 as built", "234.95"),
        ("9.25*", "234.95"),
        ("TBD", ""),
        ("HOLD", ""),
        ("N/A", ""),
        ("-", ""),
        ("?", ""),
        ("   ", ""),
        ("9/10", "[range]"),
        ("230/250", "[range]"),
        ("9 or 10", "[range]"),
        ("~9", "[doubtful]"),
        ("9 est.", "[doubtful]"),
        ("9 TBC", "[doubtful]"),
        ("(9)", "[doubtful]"),
        ("9 from drawing 3", "[unreadable]"),
        ("nine", "[unreadable]"),
        ("9 1/3", "[unreadable]"),
        ("#REF!", "[dead formula]"),
        ("#N/A", "[dead formula]"),
        ("9-Jan", "[date]"),
        ("2024-01-09", "[date]"),
        (True, "[unreadable]"),
        (-9, "[unreadable]"),
        (dt.datetime(2024, 1, 9), "[date]"),  # noqa: DTZ001 - a cell has no time zone
        (dt.date(2024, 1, 9), "[date]"),
        ("=9+0", "[dead formula]"),
    ],
)
def test_a_bore_depth_cell_is_read_or_refused(sheet: Sheet, read: Read, cell: object, length: str) -> None:
    page = sheet(ONE_ROW)
    page["D2"] = cell  # type: ignore[assignment]  # whatever a cell can hold
    assert read()[1][4] == length


def test_a_percentage_is_no_length(sheet: Sheet, read: Read) -> None:
    page = sheet(ONE_ROW)
    page["D2"] = 9
    page["D2"].number_format = "0%"
    assert read()[1][4] == "[unreadable]"


def test_a_date_in_a_1904_workbook_is_named_by_its_own_calendar(
    book: Workbook, sheet: Sheet, index: Callable[..., object]
) -> None:
    book.epoch = CALENDAR_MAC_1904
    page = sheet(ONE_ROW)
    page["D2"] = dt.date(2024, 1, 4)
    page["D2"].number_format = "d-mmm"
    frame = index().frame  # type: ignore[attr-defined]  # an IndexTable
    assert frame["bore_depth_text"].tolist() == ["2024-01-04"]
    assert frame["bore_depth_note"].tolist() == ["1/4"]


def test_an_error_cell_is_dead(sheet: Sheet, read: Read) -> None:
    page = sheet(ONE_ROW)
    page["D2"] = "#DIV/0!"
    page["D2"].data_type = "e"
    assert read()[1][4] == "[dead formula]"


def test_the_cell_keeps_text_unit_and_where_the_unit_is_from(sheet: Sheet, index: Callable[..., object]) -> None:
    page = sheet(ONE_ROW)
    page["D2"] = "235 mm verified"
    frame = index().frame  # type: ignore[attr-defined]  # an IndexTable
    kept = ("text", "unit", "unit_from", "note", "row_id")
    assert [frame.at[0, f"bore_depth_{part}"] for part in kept] == ["235 mm verified", "mm", "cell", "verified", 0]
    assert [frame.at[0, f"overall_length_{part}"] for part in kept] == ["9.25 in", "in", "heading", "", 0]


def test_what_a_number_format_shows_stands_beside_what_is_stored(sheet: Sheet, index: Callable[..., object]) -> None:
    page = sheet(ONE_ROW)
    page["D2"] = 9.19
    page["D2"].number_format = "# ?/?"
    frame = index().frame  # type: ignore[attr-defined]  # an IndexTable
    assert frame["bore_depth_mm"].round(4).tolist() == [233.426]
    assert frame["bore_depth_shown_mm"].round(4).tolist() == [233.68]
    assert frame["overall_length_shown_mm"].isna().all()
