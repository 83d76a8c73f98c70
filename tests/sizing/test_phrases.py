import numpy as np
import pandas as pd
import pytest

from thermowell_index.sizing.phrases import Phrases, Term


def phrases(**row: object) -> Phrases:
    return Phrases(row=row, show="{:.1f} mm".format)


@pytest.mark.parametrize("value", [np.nan, None, pd.NA, "9"])
def test_what_is_no_number_is_not_known(value: object) -> None:
    assert not phrases(travel_mm=value).knows("travel_mm")
    assert not phrases().knows("travel_mm")


@pytest.mark.parametrize("value", [3, 3.0, np.int64(3), np.float64(3)])
def test_a_number_of_any_kind_is_known(value: object) -> None:
    assert phrases(travel_mm=value).length("travel_mm") == 3.0


@pytest.mark.parametrize("value", [np.nan, None, pd.NA, 3.0])
def test_what_is_no_text_is_no_word(value: object) -> None:
    assert phrases(mounting=value).word("mounting") == ""


def test_all_keys_must_be_known() -> None:
    assert phrases(a=1.0, b=2.0).knows("a", "b")
    assert not phrases(a=1.0, b=np.nan).knows("a", "b")


def test_a_sum_names_what_is_added_and_what_is_taken_off() -> None:
    terms = [Term("nipple", 100.0), Term("engagement", -12.5, " at the well"), Term("union", 50.0)]
    expected = "extension 137.5 mm = nipple 100.0 mm less engagement 12.5 mm at the well plus union 50.0 mm"
    assert phrases().equation("extension", 137.5, terms) == expected


def test_a_part_of_no_length_is_left_out() -> None:
    terms = [Term("bore depth", 200.0), Term("extension", 0.0)]
    assert phrases().equation("seat plane", 200.0, terms) == "seat plane 200.0 mm = bore depth 200.0 mm"


def test_a_part_that_is_not_known_leaves_the_result_alone() -> None:
    terms = [Term("nipple", 100.0), Term("engagement", np.nan)]
    assert phrases().equation("extension", 137.5, terms) == "extension 137.5 mm"


def test_a_term_is_taken_off_by_its_sign() -> None:
    assert phrases(gap_mm=3.0).term("gap", "gap_mm", sign=-1) == Term("gap", -3.0, "")
