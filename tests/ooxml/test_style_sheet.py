"""Looks appended to a style part."""

from io import BytesIO
from zipfile import ZipFile

import pytest
from openpyxl import Workbook
from openpyxl.styles import Font

from thermowell_index.errors import OutputError
from thermowell_index.ooxml import CellLook, style_sheet
from thermowell_index.ooxml.markup import Element, parse
from thermowell_index.ooxml.number_formats import FIRST_CUSTOM
from thermowell_index.ooxml.style_sheet import StyleSheet
from thermowell_index.ooxml.style_table import read_style_table

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
FONTS = '<fonts count="2"><font><sz val="11"/></font><font><b/><sz val="9"/></font></fonts>'
FILLS = (
    '<fills count="2"><fill><patternFill patternType="none"/></fill>'
    '<fill><patternFill patternType="gray125"/></fill></fills>'
)
XFS = (
    '<cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>'
    '<xf numFmtId="14" fontId="1" fillId="0" borderId="0" xfId="0"><alignment horizontal="left" indent="2"/>'
    '<protection locked="0"/></xf><xf numFmtId="2" fontId="1" fillId="0" borderId="0" xfId="0"><protection locked="0"/>'
    "</xf></cellXfs>"
)
STYLES = (
    f'<styleSheet xmlns="{NS}">{FONTS}{FILLS}<borders count="1"><border/></borders>{XFS}<dxfs count="0"/></styleSheet>'
)


def sheet(data: str = STYLES) -> StyleSheet:
    return StyleSheet(data.encode(), "styles")


def xf(styles: StyleSheet, index: int) -> Element:
    group = parse(styles.to_bytes(), "styles").find("cellXfs")
    assert group is not None
    assert int(group.attributes["count"]) == len(group.children)
    return group.children[index]


def test_what_is_not_added_to_stays_byte_for_byte() -> None:
    assert sheet().to_bytes() == STYLES.encode()


def test_old_styles_stay_where_they_are() -> None:
    styles = sheet()
    styles.filled(1, "FFFFC7CE")
    made = styles.to_bytes().decode()
    assert FONTS in made
    assert XFS.removeprefix('<cellXfs count="3">').removesuffix("</cellXfs>") in made
    assert made.index("<fills") < made.index("<borders") < made.index("<cellXfs")


def test_a_fill_keeps_the_rest_of_the_look() -> None:
    styles = sheet()
    index = styles.filled(1, "FFFFC7CE")
    assert index == 3
    made = xf(styles, index)
    assert made.attributes["numFmtId"] == "14"
    assert made.attributes["applyFill"] == "1"
    assert [child.name for child in made.children] == ["alignment", "protection"]
    assert read_style_table(styles.to_bytes(), "styles").fills == {3: "FFFFC7CE"}


def test_the_same_look_is_made_once() -> None:
    styles = sheet()
    assert styles.filled(1, "FFFFC7CE") == styles.filled(1, "FFFFC7CE")
    assert styles.filled(2, "FFFFC7CE") != styles.filled(1, "FFFFC7CE")
    assert styles.styled(1, CellLook(like=(7, 1))) == 1
    again = StyleSheet(styles.to_bytes(), "styles")
    assert again.filled(1, "FFFFC7CE") == styles.filled(1, "FFFFC7CE")
    assert again.to_bytes() == styles.to_bytes()


def test_number_formats_are_found_or_added() -> None:
    styles = sheet()
    assert xf(styles, styles.styled(0, CellLook(number_format="0.00"))).attributes["numFmtId"] == "2"
    added = styles.styled(0, CellLook(number_format='0.000" in"'))
    other = styles.styled(0, CellLook(number_format="# ??/16"))
    assert xf(styles, added).attributes["numFmtId"] == "164"
    assert xf(styles, other).attributes["numFmtId"] == "165"
    table = read_style_table(styles.to_bytes(), "styles")
    assert table.number_format(added) == '0.000" in"'
    assert styles.to_bytes().startswith(f'<styleSheet xmlns="{NS}"><numFmts count="2">'.encode())


def test_a_date_format_does_not_get_an_id_whose_look_depends_on_the_locale() -> None:
    styles = sheet()
    index = styles.styled(0, CellLook(number_format="yyyy-mm-dd"))
    assert int(xf(styles, index).attributes["numFmtId"]) >= FIRST_CUSTOM


def test_a_line_through_the_text_is_taken_away() -> None:
    struck = STYLES.replace("<b/>", "<b/><strike/>")
    styles = sheet(struck)
    index = styles.styled(1, CellLook(is_unstruck=True))
    assert b"<font><b/><sz" in styles.to_bytes()
    assert xf(styles, index).attributes["fontId"] == "2"
    assert styles.styled(0, CellLook(is_unstruck=True)) == 0


def test_fonts_turn_bold_and_plain() -> None:
    styles = sheet()
    bold = styles.styled(0, CellLook(bold=True))
    plain = styles.styled(1, CellLook(bold=False))
    made = styles.to_bytes().decode()
    assert '<font><b/><sz val="11"/></font><font><sz val="9"/></font></fonts>' in made
    assert (xf(styles, bold).attributes["fontId"], xf(styles, plain).attributes["fontId"]) == ("2", "3")


def test_alignment_is_set_over_what_is_there() -> None:
    styles = sheet()
    made = xf(styles, styles.styled(1, CellLook(wrap=True, vertical="top"))).children[0]
    assert made.attributes == {"horizontal": "left", "indent": "2", "vertical": "top", "wrapText": "1"}
    fresh = xf(styles, styles.styled(2, CellLook(horizontal="center", wrap=False)))
    assert [child.name for child in fresh.children] == ["alignment", "protection"]
    assert fresh.children[0].attributes == {"horizontal": "center", "wrapText": "0"}
    bare = xf(styles, styles.styled(0, CellLook(wrap=True)))
    assert bare.children[0].attributes == {"wrapText": "1"}


def test_a_prefixed_part_is_added_to_under_its_prefix() -> None:
    data = STYLES.replace("</", "\0").replace("<", "<x:").replace("\0", "</x:").replace("xmlns=", "xmlns:x=")
    styles = sheet(data)
    index = styles.styled(0, CellLook(fill="FFFFC7CE", bold=True, wrap=True, number_format="0.000"))
    made = xf(styles, index)
    assert made.prefix == "x"
    assert made.children[0].prefix == "x"
    assert read_style_table(styles.to_bytes(), "styles").fills == {index: "FFFFC7CE"}
    assert b"<x:font><x:b/>" in styles.to_bytes()


@pytest.mark.parametrize("inside", ["", "<fonts/><fills/><borders/><cellXfs/><extLst/>"])
def test_lists_that_are_missing_or_empty_are_made(inside: str) -> None:
    styles = sheet(f'<styleSheet xmlns="{NS}">{inside}</styleSheet>')
    index = styles.styled(0, CellLook(fill="FFFFC7CE", bold=True))
    assert index == 1
    root = parse(styles.to_bytes(), "styles")
    names = [child.name for child in root.children]
    assert names[:4] == ["fonts", "fills", "borders", "cellXfs"]
    assert read_style_table(styles.to_bytes(), "styles").fills == {1: "FFFFC7CE"}


def test_a_style_beyond_the_table_counts_as_the_first() -> None:
    styles = sheet()
    assert xf(styles, styles.filled(99, "FFFFC7CE")).attributes["numFmtId"] == "0"


def test_a_full_table_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(style_sheet, "MOST_STYLES", 4)
    styles = sheet()
    styles.filled(0, "FF000001")
    with pytest.raises(OutputError, match="as many cell formats as it can"):
        styles.filled(0, "FF000002")


def test_looks_of_another_workbook_are_taken_over() -> None:
    book = Workbook()
    cell = book.active["A1"]  # type: ignore[index]
    cell.font = Font(bold=True, name="Arial")
    cell.number_format = "0.0000"
    buffer = BytesIO()
    book.save(buffer)
    data = ZipFile(buffer).read("xl/styles.xml")
    styles = sheet()
    indexes, differential = styles.take_over(data, "other")
    assert indexes[0] == 0
    assert differential == []
    made = xf(styles, indexes[1])
    assert read_style_table(styles.to_bytes(), "styles").number_format(indexes[1]) == "0.0000"
    assert made.attributes["xfId"] == "0"
    again = StyleSheet(styles.to_bytes(), "styles")
    assert again.take_over(data, "other") == (indexes, differential)
    assert again.to_bytes() == styles.to_bytes(), "taken over twice, nothing is appended twice"
