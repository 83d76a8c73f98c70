"""Markup of a new cell."""

import math

import numpy as np
import pytest

from thermowell_index.ooxml.cell_markup import cell_markup, is_blank
from thermowell_index.ooxml.edits import Value


@pytest.mark.parametrize(
    "value, expected",
    [
        (9.25, "<v>9.25</v>"),
        (9.0, "<v>9</v>"),
        (7, "<v>7</v>"),
        (0.1 + 0.2, "<v>0.30000000000000004</v>"),
        (1e22, "<v>1e+22</v>"),
        (np.float64(2.5), "<v>2.5</v>"),
        (np.int64(4), "<v>4</v>"),
    ],
)
def test_a_number_is_written_in_full(value: float, expected: str) -> None:
    assert cell_markup((3, 2), value, 0, "") == f'<c r="B3">{expected}</c>'.encode()


@pytest.mark.parametrize("text", ["=1+1", "+5", "-5", "@x", "  9 1/4 ", "00123"])
def test_text_stays_text(text: str) -> None:
    made = cell_markup((1, 1), text, 4, "").decode()
    assert made == f'<c r="A1" s="4" t="inlineStr"><is><t xml:space="preserve">{text}</t></is></c>'


def test_markup_in_text_is_escaped() -> None:
    assert b"a &lt;b&gt; &amp; _x005F_x0041_ c</t>" in cell_markup((1, 1), "a <b> & _x0041_\x07 c", 0, "")


def test_a_truth_value_is_no_number() -> None:
    assert cell_markup((1, 1), value=True, style=0, prefix="") == b'<c r="A1" t="b"><v>1</v></c>'


@pytest.mark.parametrize("value", [None, "", "\x00", math.nan, math.inf])
def test_what_has_no_value_is_blank(value: Value) -> None:
    assert is_blank(value)
    assert cell_markup((1, 1), value, 5, "") == b'<c r="A1" s="5"></c>'


def test_names_bear_the_prefix_of_the_sheet() -> None:
    assert cell_markup((1, 1), "a", 0, "x") == (
        b'<x:c r="A1" t="inlineStr"><x:is><x:t xml:space="preserve">a</x:t></x:is></x:c>'
    )
