from pathlib import Path

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.reader.delimited import read_delimited

PATH = Path("index.csv")
TEXT = "Messstelle;Benennung;Bohrungstiefe (mm)\nTE-101;Dämpfe über Größe;235,5\nTE-102;Abfluß;160\n"


@pytest.mark.parametrize(
    "encoding",
    ["utf-8", "utf-8-sig", "utf-16", "utf-32", "utf-16-le", "utf-16-be", "cp1252", "cp850", "mac_roman"],
)
def test_the_encoding_is_found(encoding: str) -> None:
    found = read_delimited(TEXT.encode(encoding), PATH)
    assert found.rows[1] == ["TE-101", "Dämpfe über Größe", "235,5"]


def test_an_east_european_encoding_is_found() -> None:
    text = TEXT.replace("Dämpfe über Größe", "Żółć dopływ")
    found = read_delimited(text.encode("cp1250"), PATH)
    assert (found.encoding, found.rows[1][1]) == ("cp1250", "Żółć dopływ")


@pytest.mark.parametrize("mark,name", [(",", "commas"), (";", "semicolons"), ("\t", "tabs"), ("|", "bars")])
def test_the_delimiter_is_found(mark: str, name: str) -> None:
    text = "INDEX\n" + TEXT.replace(",", ".").replace(";", mark)
    found = read_delimited(text.encode(), PATH)
    assert (found.delimiter, found.delimiter_name) == (mark, name)
    assert found.rows[0] == ["INDEX"]
    assert found.rows[2][0] == "TE-101"


def test_a_first_line_may_state_the_delimiter() -> None:
    found = read_delimited(b"sep=;\na;b,c\n", PATH)
    assert found.rows == [["a", "b,c"]]


def test_quoted_cells_may_hold_marks_and_line_breaks() -> None:
    found = read_delimited(b'Tag,Service,Bore depth\nTE-1,"feed, hot\nside","9-1/4"""\n', PATH)
    assert found.rows[1] == ["TE-1", "feed, hot\nside", '9-1/4"']


def test_one_column_is_no_table() -> None:
    with pytest.raises(
        WorkbookError, match=r"index\.csv: no delimiter found; looked for commas, semicolons, tabs, bars"
    ):
        read_delimited(b"TE-101\nTE-102\n", PATH)


def test_a_web_page_is_refused() -> None:
    with pytest.raises(WorkbookError, match="is a web page or an XML file"):
        read_delimited(b" <html><table></table></html>", PATH)


def test_binary_data_is_refused() -> None:
    with pytest.raises(WorkbookError, match="is no text and no workbook"):
        read_delimited(bytes(range(256)) * 9, PATH)


def test_numbers_taken_apart_at_their_decimal_commas_are_refused() -> None:
    text = "Tag,Service,Overall length,Bore depth\nTE-101,Feed,241,5,235\nTE-102,Feed,241,5,235\n"
    with pytest.raises(WorkbookError, match="line 2 has more cells than the line of headings"):
        read_delimited(text.encode(), PATH)


def test_a_field_without_end_is_refused() -> None:
    text = "sep=;\na;b;c\n" + "x" * (1 << 21)
    with pytest.raises(WorkbookError, match="cannot be read as delimited text"):
        read_delimited(text.encode(), PATH)


def test_two_columns_are_a_table_where_nearly_all_lines_have_them() -> None:
    found = read_delimited(b"Description,Qty\nRTD 9 in,2\nRTD 12 in,1\n", Path("store.csv"))
    assert (found.rows, found.delimiter) == ([["Description", "Qty"], ["RTD 9 in", "2"], ["RTD 12 in", "1"]], ",")


def test_a_text_with_a_comma_now_and_then_is_no_table_of_two_columns() -> None:
    with pytest.raises(WorkbookError, match="no delimiter found"):
        read_delimited(b"Dear all,\nplease find the list\nbelow, as asked\nand as agreed\n", Path("note.csv"))
