import pytest

from thermowell_index.records.tags import take_apart


@pytest.mark.parametrize(
    "tag,letters,role",
    [
        ("TE-101", "TE", "element"),
        ("10-TE-101A", "TE", "element"),
        ("TDE 5", "TDE", "element"),
        ("TW101", "TW", "well"),
        ("T/W-101", "TW", "well"),
        ("T/E 101", "TE", "element"),
        ("TT-101", "TT", "kin"),
        ("TIC-101", "TIC", "kin"),
        ("TG-101", "TG", "gauge"),
        ("TP-101", "TP", "test point"),
        ("PT-101", "PT", "other"),
        ("FIC-20", "FIC", "other"),
        ("101", "", "unknown"),
        ("point 7", "", "unknown"),
        ("101-TE", "TE", "element"),
        ("12-101-TW-A", "TW", "well"),
        ("101-PT", "", "unknown"),
        ("=10LAB10CT001", "CT", "element"),
        ("10PAC10 CT001", "CT", "element"),
        ("10LAB10CP001", "", "unknown"),
        ("TE-101/TT-101", "TE", "element"),
        ("TT-101, TE-101", "TE", "element"),
    ],
)
def test_the_letters_of_a_tag_say_what_its_row_is(tag: str, letters: str, role: str) -> None:
    parts = take_apart(tag)
    assert (parts.letters, parts.role) == (letters, role)


@pytest.mark.parametrize(
    "one,other",
    [
        ("TE-101", "TW-101"),
        ("10-TE-101", "10-T/W-101"),
        ("TE-0101", "TT 101"),
        ("10-TE-101A", "10TW101A"),
        ("te\N{EN DASH}101", "TI_101"),
        ("101-TE", "101-TW"),
        ("TE-101", "101-TW"),
        ("TE-101/TT-101", "TW-101"),
    ],
)
def test_tags_of_one_loop_share_its_number(one: str, other: str) -> None:
    assert take_apart(one).loop == take_apart(other).loop


@pytest.mark.parametrize(
    "one,other", [("10-TE-101", "20-TW-101"), ("TE-101", "PT-101"), ("TE-101A", "TW-101B"), ("TE-11", "TW-1-1")]
)
def test_tags_of_different_loops_do_not(one: str, other: str) -> None:
    is_same_point = take_apart(one).loop == take_apart(other).loop
    assert is_same_point == (one == "TE-11")


def test_a_suffix_is_left_out_of_the_bare_loop() -> None:
    assert take_apart("TE-101A").loop_without_suffix == take_apart("TW-101").loop_without_suffix
    assert take_apart("TE-101A").suffix == "A"


@pytest.mark.parametrize("tag,count", [("TE-101", 1), ("TE-101A", 1), ("TE-101A/B", 2), ("TE-101 A/B/C", 3)])
def test_twins_of_one_tag_are_counted(tag: str, count: int) -> None:
    assert take_apart(tag).count == count


def test_dashes_blanks_and_case_make_no_other_tag() -> None:
    assert len({take_apart(tag).key for tag in ("TE-101", "te 101", "TE\N{NON-BREAKING HYPHEN}101")}) == 1
