import numpy as np

from thermowell_index.sizing.assembly import FITTINGS, INSERTS, Mounting, is_one_of, positions


def test_a_blank_missing_or_unknown_word_has_no_position() -> None:
    words = np.array(["", np.nan, None, "reducer", "nipple"], dtype=object)
    assert positions(words=words, known=["nipple"]).tolist() == [-1, -1, -1, -1, 0]


def test_a_word_is_known_by_its_text_alone() -> None:
    assert is_one_of(words=["fixed fitting", "Fixed fitting"], known=[Mounting.FIXED_FITTING]).tolist() == [True, False]


def test_every_mounting_is_a_fitting_or_an_insert() -> None:
    assert sorted((*FITTINGS, *INSERTS)) == sorted(Mounting)
