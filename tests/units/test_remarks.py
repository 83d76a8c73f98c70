"""Words instead of a number, in the languages of the indexes."""

import pytest

from thermowell_index.units import is_placeholder
from thermowell_index.units.remarks import Remark, canonical, remarks_of
from thermowell_index.units.vocabulary import CONFIRMING, DOUBTING, NEUTRAL, PLACEHOLDERS


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "\u00a0", "-", "--", "—", "_", "?", "??", "x", "X?", ".", "…", "/", "TBD", "T.B.D.", "tbd?",
        "(TBD)", "[HOLD]", "<TBD>", "HOLD", "HOLD 3", "hold-1", "Hold no. 2", "HOLD #4", "LATER", "N/A", "NA",
        "n.a.", "n. a.", "none given", "to be confirmed", "entfällt", "k. A.", "k.A.", "zu klären", "folgt", "s.o.",
        "sans objet", "à définir", "inconnu", "néant", "por definir", "no aplica", "pendiente", "da definire",
        "non disponibile", "não aplicável", "a definir", "n.v.t.", "onbekend", "n.t.b.", "nog te bepalen", "SPÄTER",
    ],
)  # fmt: skip
def test_a_placeholder_is_known_in_seven_languages(text: str) -> None:
    assert is_placeholder(text)


@pytest.mark.parametrize(
    "text", ["0", "9.25", "235 mm", "#N/A", "none of them", "HOLD 9 1/4", "see note", "in", "*", "1/4", "n"]
)
def test_other_text_is_no_placeholder(text: str) -> None:
    assert not is_placeholder(text)


@pytest.mark.parametrize("words", [PLACEHOLDERS, CONFIRMING, DOUBTING, NEUTRAL])
def test_the_lists_are_spelled_as_they_are_looked_up(words: frozenset[str]) -> None:
    assert [word for word in words if canonical(word) != word] == []


def test_no_word_confirms_and_doubts() -> None:
    assert not (CONFIRMING & DOUBTING)
    assert not (NEUTRAL & (CONFIRMING | DOUBTING))


def test_every_remark_beside_a_number_must_be_known() -> None:
    assert remarks_of("", dividers="") == frozenset()
    assert remarks_of("OD (verified), TBC", dividers="(),") == frozenset(Remark)
    assert remarks_of("verified by phone", dividers="") is None


def test_a_dash_is_a_sign_unless_it_parts_words() -> None:
    assert remarks_of("-", dividers="") is None
    assert remarks_of("as-built", dividers="") == frozenset({Remark.CONFIRMING})
    assert remarks_of("- verified", dividers="-") == frozenset({Remark.CONFIRMING})
