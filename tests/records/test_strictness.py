"""What the words of an index mean."""

import pytest

from thermowell_index.records.words import arrangement_of, mounting_of, remark_deletes


@pytest.mark.parametrize("remark", ["Superseded by TE-226", "superceded", "SPARE - NOT INSTALLED", "Not installed"])
def test_a_row_that_is_superseded_or_never_installed_is_told_by_its_remark(remark: str) -> None:
    assert remark_deletes(remark, "TE-101")


def test_a_remark_that_deletes_another_tag_leaves_its_row_live() -> None:
    assert not remark_deletes("Deleted TE-105 from this loop", "TE-101")


@pytest.mark.parametrize(
    "text", ["Nipple and elbow", "2 nipples", "Nipple or union", "Nipple (removed)", "Union x 2 + nipple", "?"]
)
def test_a_known_part_in_a_phrase_that_says_more_is_not_taken_alone(text: str) -> None:
    assert arrangement_of(text) == ""


@pytest.mark.parametrize(
    "text,arrangement",
    [('4" XS nipple, 316 SS', "nipple"), ("2 x 4 in nipples and union", "nipple-union-nipple"), ("None req'd", "none")],
)
def test_harmless_words_and_sizes_make_no_difference(text: str, arrangement: str) -> None:
    assert arrangement_of(text) == arrangement


@pytest.mark.parametrize(
    "text,mounting",
    [
        ("Spring-loaded fitting or fixed fitting", ""),
        ("Fixed fitting / spring-loaded fitting", ""),
        ("Fitting w/o spring", "fixed fitting"),
        ("S/L fitting", "spring-loaded fitting"),
    ],
)
def test_a_choice_of_mountings_names_none(text: str, mounting: str) -> None:
    assert mounting_of(text) == mounting
