"""Text as cells hold it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.ooxml.texts import LONGEST_TEXT, Text, decode, encode, read_shared_strings

NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STRUCK = "<rPr><strike/></rPr>"
BOLD = "<rPr><b/></rPr>"


def read(entry: str) -> Text:
    [text] = read_shared_strings(f'<sst xmlns="{NS}"><si>{entry}</si></sst>'.encode(), "part")
    return text


def test_phonetic_runs_are_left_out() -> None:
    assert read('<t>東京</t><rPh sb="0" eb="2"><t>とうきょう</t></rPh><phoneticPr fontId="1"/>') == Text(text="東京")


def test_runs_make_one_text() -> None:
    text = read(f'<r><t xml:space="preserve">over </t></r><r>{BOLD}<t>all</t></r>')
    assert (text.text, text.kept) == ("over all", None)


@pytest.mark.parametrize(
    "entry, kept",
    [
        (f"<r>{STRUCK}<t>235</t></r><r>{BOLD}<t>240</t></r>", "240"),
        (f"<r><t>240</t></r><r>{STRUCK}<t>235</t></r>", "240"),
        (f"<r>{STRUCK}<t>235</t></r>", ""),
        ('<r><rPr><strike val="0"/></rPr><t>235</t></r>', None),
        ('<r><rPr><strike val="true"/></rPr><t>235</t></r><r><t>1</t></r>', "1"),
    ],
)
def test_struck_runs_are_not_kept(entry: str, kept: str | None) -> None:
    assert read(entry).kept == kept


def test_in_a_struck_cell_a_run_without_a_font_is_struck() -> None:
    assert read(f"<r><t>235</t></r><r>{BOLD}<t>240</t></r>").kept_when_struck == "240"


def test_an_empty_entry_is_empty_text() -> None:
    assert read("") == Text(text="")
    assert read("<t/>") == Text(text="")


@pytest.mark.parametrize(
    "stored, text",
    [
        ("a_x000D_b", "a\rb"),
        ("_x005F_x000D_", "_x000D_"),
        ("_x00e9_", "é"),
        ("_xD83D__xDE00_", "\U0001f600"),
        ("_xD83D_", "\ufffd"),
        ("_x12_", "_x12_"),
        ("plain_", "plain_"),
    ],
)
def test_escapes_are_resolved(stored: str, text: str) -> None:
    assert decode(stored) == text


@given(st.text(st.characters(min_codepoint=32, blacklist_categories=["Cs"], blacklist_characters="\ufffe\uffff")))
def test_text_survives_being_stored(text: str) -> None:
    assert decode(encode(text)) == text


def test_text_that_looks_escaped_stays_as_it_is() -> None:
    assert decode(encode("tag _x0041_ _x0042_")) == "tag _x0041_ _x0042_"


def test_text_too_long_for_a_cell_is_cut() -> None:
    assert len(encode("é" * (LONGEST_TEXT + 5))) == LONGEST_TEXT


def test_control_characters_are_taken_out() -> None:
    assert encode("a\x00\x1fb\r\nc\rd\te\ud800\uffff") == "ab\nc\nd\te"
