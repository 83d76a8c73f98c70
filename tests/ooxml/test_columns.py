"""Column widths set and taken back."""

import pytest

from thermowell_index.ooxml.columns import width_removal, width_splices
from thermowell_index.ooxml.markup import apply_splices
from thermowell_index.ooxml.sheet_layout import SheetLayout, read_layout

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
SPAN = (3, 5)
WIDTHS = {3: 12.0, 4: 30.5, 5: 8.0}
OURS = "".join(f'<col min="{c}" max="{c}" width="{w:g}" customWidth="1"/>' for c, w in WIDTHS.items())


def sheet(cols: str, rows: str = "") -> bytes:
    return f'<worksheet xmlns="{NS}">{cols}<sheetData>{rows}</sheetData></worksheet>'.encode()


def layout(data: bytes) -> SheetLayout:
    return read_layout(data, "sheet", lambda _row: (), frozenset(WIDTHS))


def written(data: bytes, widths: dict[int, float] | None = None) -> bytes:
    return apply_splices(data, width_splices(data, layout(data), WIDTHS if widths is None else widths))


def taken_back(data: bytes) -> bytes:
    return apply_splices(data, width_removal(data, layout(data), *SPAN))


@pytest.mark.parametrize(
    "before, after",
    [
        ("", f"<cols>{OURS}</cols>"),
        ('<cols><col min="1" max="2" width="9"/></cols>', f'<cols><col min="1" max="2" width="9"/>{OURS}</cols>'),
        ('<cols><col min="9" max="9" style="1"/></cols>', f'<cols>{OURS}<col min="9" max="9" style="1"/></cols>'),
    ],
)
def test_widths_stand_in_the_order_of_columns(before: str, after: str) -> None:
    assert written(sheet(before)) == sheet(after)


def test_a_wider_span_is_cut_and_its_look_kept() -> None:
    made = written(sheet('<cols><col min="2" max="16384" hidden="1" style="4"/></cols>'), {3: 12.0}).decode()
    assert (
        '<cols><col min="2" max="2" hidden="1" style="4"/>'
        '<col min="3" max="3" style="4" width="12" customWidth="1" phonetic="0"/>'
        '<col min="4" max="16384" hidden="1" style="4"/></cols>'
    ) in made


def test_a_column_in_use_keeps_its_width() -> None:
    data = sheet('<cols><col min="3" max="3" width="5"/></cols>', '<row r="1"><c r="C1"><v>1</v></c></row>')
    assert b'min="3" max="3" width="5"/>' in written(data)
    assert b'min="4" max="4" width="30.5"' in written(data)
    assert written(data, {3: 40.0}) == data


@pytest.mark.parametrize(
    "cols",
    [
        "",
        '<cols><col min="1" max="2" width="9" customWidth="1"/></cols>',
        '<cols><col min="9" max="9" style="1"/></cols>',
        '<cols><col min="1" max="16384" width="9.14"/></cols>',
        '<cols><col min="3" max="16384" style="3" hidden="1"></col></cols>',
        '<cols><col min="1" max="2" width="7"/><col max="40" min="3" width="9"/></cols>',
        '<cols><col min="2" max="4" width="9"/><col min="5" max="7" style="2"/></cols>',
        '<cols><col min="6" max="7" width="9" customWidth="1"/></cols>',
        '<cols><col min="1" max="5" width="9"/></cols>',
    ],
)
def test_widths_are_taken_back_byte_for_byte(cols: str) -> None:
    data = sheet(cols)
    made = written(data)
    assert made != data
    assert taken_back(made) == data


def test_columns_with_a_gap_between_them_are_joined_again() -> None:
    data = sheet('<cols><col min="2" max="100" style="3"/></cols>')
    assert taken_back(written(data, {3: 9.0, 5: 9.0})) == data


def test_what_another_program_made_of_our_widths_is_taken_back() -> None:
    saved = '<cols><col min="1" max="2" width="9"/><col min="3" max="5" width="12.7" customWidth="true"/></cols>'
    assert taken_back(sheet(saved)) == sheet('<cols><col min="1" max="2" width="9"/></cols>')


def test_a_span_that_reaches_beyond_ours_is_left_alone() -> None:
    saved = '<cols><col min="3" max="6" width="12.7" customWidth="1"/></cols>'
    assert taken_back(sheet(saved)) == sheet(saved)


def test_without_widths_there_is_nothing_to_take_back() -> None:
    assert taken_back(sheet("")) == sheet("")


def test_a_span_of_which_nothing_is_left_is_not_given_to_a_neighbour_of_another_look() -> None:
    data = sheet('<cols><col min="1" max="2" style="1"/><col min="3" max="5" style="2"/><col min="6" max="9"/></cols>')
    expected = sheet('<cols><col min="1" max="2" style="1"/><col min="6" max="9"/></cols>')
    assert taken_back(written(data)) == expected
