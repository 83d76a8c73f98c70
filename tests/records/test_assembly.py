"""How sensors are held and what stands between them and their wells, as far as index and design basis say."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.records.assembly import column_present, length_in_words

Check = Callable[..., Any]
INCH = 25.4
WELL = {"bore_depth (in)": 9, "service": "wash water", "line": "W-12"}
INSERT = WELL | {"sensor_mounting": "spring-loaded insert"}
FITTING = WELL | {"sensor_mounting": "spring-loaded fitting"}
UNION_IS_BOUGHT = '[extension]\nunion_length_means = "bought"'
UNION_IS_INSTALLED = '[extension]\nunion_length_means = "installed"'


def tagged(*rows: dict[str, object]) -> list[dict[str, object]]:
    return [{"tag": f"TE-10{number}"} | row for number, row in enumerate(rows, start=1)]


def installed(done: Any) -> list[float | None]:
    lengths = [float(length) for length in done.table["extension_installed_mm"]]
    return [None if math.isnan(length) else round(length / INCH, 4) for length in lengths]


def rules(done: Any) -> list[str]:
    return [rule for rule, _, _ in done.hits()]


def test_a_column_counts_when_something_stands_in_it(read_rows: Check) -> None:
    rows = tagged(INSERT | {"nipple_length (in)": None}, INSERT | {"nipple_length (in)": "TBD"})
    table = read_rows(*rows)
    assert column_present(table, "sensor_mounting").all()
    assert not column_present(table, "nipple_length").any()
    assert not column_present(table, "extension_length").any()


def test_a_mounting_without_a_column_is_the_basis_value_with_one_note(check: Check) -> None:
    done = check(*tagged(WELL, WELL))
    assert list(done.table["mounting"]) == ["spring-loaded fitting"] * 2
    assert done.notes()["mounting_from_basis"] == ("TE-101", "TE-102")
    assert list(done.verdicts().values()) == ["sized", "sized"]


def test_a_column_with_nothing_in_it_is_no_column(check: Check) -> None:
    done = check(*tagged(WELL | {"sensor_mounting": None}), basis='[index]\nmounting_without_column = "fixed fitting"')
    assert list(done.table["mounting"]) == ["fixed fitting"]


def test_a_blank_mounting_where_other_rows_state_it_is_withheld(check: Check) -> None:
    done = check(*tagged(FITTING, WELL))
    assert list(done.verdicts().values()) == ["sized", "withheld"]
    assert done.hits() == [("mounting_not_stated", "TE-102", "E3")]


def test_a_blank_mounting_takes_the_value_that_the_basis_has_for_blanks(check: Check) -> None:
    done = check(*tagged(FITTING, WELL), basis='[index]\nmounting_of_blank = "fixed fitting"')
    assert list(done.table["mounting"]) == ["spring-loaded fitting", "fixed fitting"]
    assert done.notes()["blank_mounting_from_basis"] == ("TE-102",)


@pytest.mark.parametrize("words", ["Spring loaded", "bayonet cap", "magnetic"])
def test_words_that_name_no_mounting_for_certain_withhold_the_row_and_are_quoted(check: Check, words: str) -> None:
    done = check(*tagged(FITTING, WELL | {"sensor_mounting": words}))
    assert list(done.verdicts().values()) == ["sized", "withheld"]
    assert words in done.found("mounting_not_stated").found


@pytest.mark.parametrize("word", ["-", "N/A", "nil", "no", "None"])
def test_words_for_none_mean_no_extension(check: Check, word: str) -> None:
    done = check(*tagged(FITTING | {"extension_arrangement": word}))
    assert (list(done.table["arrangement"]), installed(done)) == (["none"], [0])
    assert list(done.verdicts().values()) == ["sized"]


@pytest.mark.parametrize("word", ["TBD", "?", "swivel joint"])
def test_words_for_unknown_withhold_the_row(check: Check, word: str) -> None:
    done = check(*tagged(FITTING | {"extension_arrangement": "none"}, FITTING | {"extension_arrangement": word}))
    assert list(done.verdicts().values()) == ["sized", "withheld"]
    assert rules(done) == ["extension_not_stated"]
    assert word in done.found("extension_not_stated").found


def test_a_blank_extension_is_none_where_the_column_never_says_none(check: Check) -> None:
    union = FITTING | {"extension_arrangement": "nipple and union", "nipple_length (in)": 4}
    done = check(*tagged(FITTING, union, FITTING))
    assert list(done.table["arrangement"]) == ["none", "nipple and union", "none"]
    assert done.notes()["blank_extension_is_none"] == ("TE-101", "TE-103")
    assert done.found("blank_extension_is_none").found.startswith("2 rows")


def test_a_blank_extension_is_unknown_where_another_row_says_none(check: Check) -> None:
    done = check(*tagged(FITTING | {"extension_arrangement": "none"}, FITTING))
    assert done.hits() == [("extension_not_stated", "TE-102", "F3")]
    assert list(done.verdicts().values()) == ["sized", "withheld"]


def test_an_insert_with_a_blank_extension_is_unknown(check: Check) -> None:
    union = FITTING | {"extension_arrangement": "nipple and union", "nipple_length (in)": 4}
    done = check(*tagged(union, INSERT))
    assert done.hits() == [("extension_not_stated", "TE-102", "F3")]


def test_a_blank_length_beside_others_is_unknown_for_an_insert_where_no_column_names_the_extension(
    check: Check,
) -> None:
    done = check(*tagged(INSERT | {"nipple_length (in)": 4}, INSERT, FITTING))
    assert list(done.table["arrangement"]) == ["nipple", "", "none"]
    assert list(done.verdicts().values()) == ["sized", "withheld", "sized"]


def test_a_blank_extension_beside_a_length_is_unknown(check: Check) -> None:
    union = FITTING | {"extension_arrangement": "nipple and union", "nipple_length (in)": 4}
    done = check(*tagged(union, FITTING | {"nipple_length (in)": 3}))
    assert list(done.verdicts().values()) == ["sized", "withheld"]


def test_an_extension_without_a_column_is_the_basis_value(check: Check) -> None:
    done = check(
        *tagged(INSERT, INSERT),
        basis='[index]\nextension_without_column = "nipple"\n[extension]\nstandard_length = "4 in"',
    )
    assert installed(done) == [3, 3]
    assert {"extension_from_basis", "standard_extension_taken"} <= set(done.notes())


def test_nipple_lengths_without_an_extension_column_are_nipples(check: Check) -> None:
    done = check(*tagged(INSERT | {"nipple_length (in)": 4}, INSERT | {"nipple_length (in)": 0}))
    assert list(done.table["arrangement"]) == ["nipple", "none"]


def test_extension_lengths_without_an_extension_column_are_unknown(check: Check) -> None:
    done = check(*tagged(FITTING | {"extension_length (in)": 4}, FITTING | {"extension_length (in)": None}))
    assert list(done.verdicts().values()) == ["withheld", "sized"]


def test_a_union_alone_has_a_second_nipple_under_a_head_only(check: Check) -> None:
    union = {"extension_arrangement": "union", "nipple_length (in)": 4}
    done = check(*tagged(FITTING | union, INSERT | union, WELL | union | {"sensor_mounting": "TBD"}))
    assert list(done.table["arrangement"]) == ["nipple and union", "nipple-union-nipple", ""]


def test_an_extension_length_is_a_nipple_as_bought_and_a_neck_tubes_own(check: Check) -> None:
    done = check(
        *tagged(
            INSERT | {"extension_arrangement": "nipple", "extension_length (in)": 4},
            INSERT | {"extension_arrangement": "neck tube", "extension_length (in)": 4},
        )
    )
    assert installed(done) == [3, 4]


def test_a_nipples_extension_length_may_mean_installed(check: Check) -> None:
    done = check(
        *tagged(INSERT | {"extension_arrangement": "nipple", "extension_length (in)": 4}),
        basis='[extension]\nnipple_length_means = "installed"',
    )
    assert installed(done) == [4]


UNION = FITTING | {"extension_arrangement": "nipple and union", "extension_length (in)": 4}


@pytest.mark.parametrize("basis,added", [("", None), (UNION_IS_BOUGHT, 5), (UNION_IS_INSTALLED, 4)])
def test_a_length_beside_a_union_is_unknown_until_the_basis_says_bought_or_installed(
    check: Check, basis: str, added: float | None
) -> None:
    # as bought it adds 4 - 0.5 - 0.5 + 2
    done = check(*tagged(UNION), basis=basis)
    assert installed(done) == [added]
    assert rules(done) == ["union_basis_not_stated"] * (added is None)


@pytest.mark.parametrize("words,added", [("nipple-union-nipple, two 4 in nipples", 8), ("nipple-union-nipple", None)])
def test_one_number_stands_for_both_nipples_only_where_words_or_basis_say_so(
    check: Check, words: str, added: float | None
) -> None:
    done = check(*tagged(INSERT | {"extension_arrangement": words, "nipple_length (in)": 4}))
    assert installed(done) == [added]


@pytest.mark.parametrize(
    "words,second,added,said",
    [
        ("nipple-union-nipple", 6, 10, []),  # 4 + 6 - 4 x 0.5 + 2
        ("nipple-union-nipple", "TBC", None, ["union_basis_not_stated"]),
        ("nipple", 6, None, ["extension_not_stated"]),
        ("none", 6, 0, ["no_extension_but_a_length"]),
    ],
)
def test_a_second_nipple_stands_above_a_union_and_nowhere_else(
    check: Check, words: str, second: object, added: float | None, said: list[str]
) -> None:
    first = {} if words == "none" else {"nipple_length (in)": 4}
    done = check(*tagged(INSERT | first | {"extension_arrangement": words, "second_nipple_length (in)": second}))
    assert (installed(done), rules(done)) == ([added], said)


@pytest.mark.parametrize(
    "words,is_known",
    [
        ('RTD with head and 3" NUN', False),
        ("TC c/w 4 in extension", False),
        ('RTD ext. 3"', False),
        ("RTD with 6 m extension cable", True),
        ('TC, 2" lagging extension', True),
        ("1-1/2 in weld neck flange", True),
    ],
)
def test_an_extension_named_by_another_cell_makes_a_silent_row_unknown(
    *, check: Check, words: str, is_known: bool
) -> None:
    done = check(*tagged(FITTING | {"remarks": words}))
    assert rules(done) == ([] if is_known else ["extension_not_stated"])


@pytest.mark.parametrize("heading,arrangement", [("Halsrohr (mm)", "neck tube"), ("Extension length (mm)", "")])
def test_a_column_of_neck_lengths_says_what_the_extension_is(check: Check, heading: str, arrangement: str) -> None:
    row = {"mounting": "flanged insert", "shank_form": "form 4", "overall_length (mm)": 200, heading: 165}
    assert list(check(*tagged(row)).table["arrangement"]) == [arrangement]


def test_the_size_before_a_nipples_length_is_no_length(check: Check) -> None:
    done = check(*tagged(INSERT | {"extension_arrangement": '1/2" x 4" nipple'}))
    assert installed(done) == [3]


@pytest.mark.parametrize("length,added", [("", None), ("1-7/8 in", 4.875)])
def test_a_coupling_has_no_length_until_the_basis_has_it(check: Check, length: str, added: float | None) -> None:
    # 4 - 0.5 - 0.5 + 1.875 = 4.875
    done = check(
        *tagged(FITTING | {"extension_arrangement": "nipple and coupling", "nipple_length (in)": 4}),
        basis=f'[extension]\ncoupling_length = "{length}"',
    )
    assert (installed(done), rules(done)) == ([added], ["extension_without_length"] * (added is None))


def test_the_plants_standard_extension_serves_where_no_length_stands(check: Check) -> None:
    # 6 - 0.5 - 0.5 + 2 = 7
    done = check(
        *tagged(FITTING | {"extension_arrangement": "nipple and union"}), basis='[extension]\nstandard_length = "6 in"'
    )
    assert (installed(done), done.notes()["standard_extension_taken"]) == ([7], ("TE-101",))
    assert "the plant's standard nipple" in done.row("TE-101")["working"]


def test_an_installed_length_overrides_all_parts(check: Check) -> None:
    done = check(
        *tagged(
            FITTING
            | {"extension_arrangement": "nipple and union", "nipple_length (in)": 4, "installed_length (in)": 5.25}
        )
    )
    assert (installed(done), rules(done)) == ([5.25], [])


@pytest.mark.parametrize("top", ["nipple", "neck tube", "nipple-union-nipple"])
def test_a_fitting_on_a_male_top_is_withheld_without_an_installed_length(check: Check, top: str) -> None:
    done = check(*tagged(FITTING | {"extension_arrangement": top, "nipple_length (in)": 4}), basis=UNION_IS_BOUGHT)
    assert (rules(done), list(done.verdicts().values())) == (["fitting_onto_bare_nipple"], ["withheld"])


@pytest.mark.parametrize("top", ["nipple", "neck tube", "nipple-union-nipple"])
def test_a_fitting_on_a_male_top_with_a_given_installed_length_is_reviewed(check: Check, top: str) -> None:
    done = check(*tagged(FITTING | {"extension_arrangement": top, "installed_length (in)": 4}))
    assert (rules(done), list(done.verdicts().values())) == (["fitting_onto_bare_nipple"], ["review"])
    assert list(done.orders().values()) == [13]


# What stands in the words of an extension, and what its number means where the cell has no unit.
@pytest.mark.parametrize(
    "text,unit,inches,is_pair",
    [
        ("nipple 4 in", "in", 4, False),
        ('4" nipple', "mm", 4, False),
        ("4 in nipple, 1/2 NPT", "in", 4, False),
        ("nipple 1/2 in sch 80 x 6 in", "in", 6, False),
        ("6-1/2 in nipple", "in", 6.5, False),
        ("nipple 3/4", "in", 0.75, False),
        ("nipple 100 mm", "in", 100 / INCH, False),
        ("nipple 10 cm", "in", 100 / INCH, False),
        ("nipple 101,6", "mm", 4, False),
        ("nipple 4", "", None, False),
        ("nipple", "in", None, False),
        ("2 x 4 in nipples and union", "in", 4, True),
        ("two nipples 4 in + union", "in", 4, True),
        ("nipple 4 in, nipple 6 in", "in", None, False),
        ("nipple 4 in, nipple 4 in", "in", 4, False),
        ("nipple, 3000 lb, 4 in", "in", 4, False),
    ],
)
def test_a_length_is_read_from_the_words_of_an_extension(
    text: str, unit: str, inches: float | None, is_pair: object
) -> None:
    length_mm, pair = length_in_words(text, unit)
    assert (None if math.isnan(length_mm) else round(length_mm / INCH, 6)) == (inches and round(inches, 6))
    assert pair is is_pair


def test_words_with_a_length_beside_a_bad_length_cell_do_not_stand_in_for_it(check: Check) -> None:
    done = check(*tagged(INSERT | {"extension_arrangement": "nipple 4 in", "nipple_length (in)": "3/4/5"}))
    assert list(done.verdicts().values()) == ["withheld"]


def test_words_of_the_users_own_profile_name_its_mounting(check: Check) -> None:
    basis = '[profile.short]\nlike = "spring_loaded_insert"\ntravel = "3/4 in"\nwords = ["SLI-S"]'
    done = check(*tagged(WELL | {"sensor_mounting": "type sli-s"}, FITTING), basis=basis)
    assert list(done.table["mounting"]) == ["spring-loaded insert", "spring-loaded fitting"]
    assert [round(length / INCH, 6) for length in done.table["travel_mm"]] == [0.75, 1]


def test_of_several_words_in_a_mounting_cell_the_longest_names_the_profile(check: Check) -> None:
    basis = (
        '[profile.short]\nlike = "spring_loaded_fitting"\nwords = ["SHORT", "TYPE"]\n'
        '[profile.heavy]\nlike = "fixed_fitting"\nwords = ["short heavy"]\n'
    )
    cells = ("Type Short", "Type SHORT  HEAVY", "type heavy")
    done = check(*tagged(*(WELL | {"sensor_mounting": cell} for cell in cells)), basis=basis)
    assert list(done.table["profile"]) == ["short", "heavy", "short"]


@pytest.mark.parametrize(
    "heading,cell,arrangement",
    [
        ("Extension neck overall (mm)", 145, ""),
        ("Extension neck overall (mm)", "-", "none"),
        ("Extension cable (mm)", 145, "none"),
    ],
)
def test_a_column_of_an_extension_that_is_not_read_makes_a_silent_row_unknown(
    check: Check, heading: str, cell: object, arrangement: str
) -> None:
    done = check(*tagged(FITTING | {heading: cell}, FITTING | {heading: cell}))
    assert list(done.table["arrangement"]) == [arrangement] * 2
