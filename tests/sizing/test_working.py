import re
from collections.abc import Callable, Mapping
from math import sqrt

import numpy as np
import pandas as pd
import pytest

from thermowell_index.sizing.engine import size_table
from thermowell_index.sizing.working import working_text

INCH = 25.4
Inputs = Callable[..., pd.DataFrame]
Case = tuple[dict[str, object], dict[str, object]]
HALF_NPT: dict[str, object] = dict.fromkeys(
    ("engagement_well_mm", "engagement_top_mm", "engagement_union_mm"), INCH / 2
)
NUMBER = r"-?\d+\.\d+"


def in_decimals(length_mm: float) -> str:
    return f"{length_mm / INCH:.3f} in"


def in_millimetres(length_mm: float) -> str:
    return f"{length_mm:.2f} mm"


def working(
    inputs: pd.DataFrame,
    parts: Mapping[str, object] | None = None,
    *,
    show: Callable[[float], str] = in_decimals,
    worst_case: bool = False,
) -> list[str]:
    row: Mapping[str, object] = {**inputs.iloc[0], **size_table(inputs, worst_case=worst_case).iloc[0], **(parts or {})}
    text = working_text(row, show)
    assert "\n" not in text
    return text.split("; ")


def redone(sentence: str) -> tuple[float, float, int]:
    """Number before the equals sign, the one that the numbers behind it give, and how many they are."""
    left, right = sentence.split(" = ", maxsplit=1)
    printed = float(re.findall(NUMBER, left)[-1])
    total, count = 0.0, 0
    if right.startswith("middle of"):
        low, high = (float(number) for number in re.findall(NUMBER, right))
        return printed, (low + high) / 2, 2
    for sign, term in re.findall(r"(plus |less |^)(.*?)(?= plus | less |$)", right):
        amounts = [
            float(re.findall(NUMBER, amount)[0])
            for amount in term.split(", ")
            if re.search(NUMBER, amount)
            for _ in range(turns_in(amount))
        ]
        count += len(amounts)
        if term.startswith("root-sum-square of"):
            total += sqrt(sum(amount**2 for amount in amounts))
        elif term.startswith("sum of"):
            total += sum(amounts)
        elif amounts:
            total += -amounts[0] if sign == "less " else amounts[0]
    return printed, total, count


def turns_in(amount: str) -> int:
    turns = re.search(r"(\d+) thread turns? of", amount)
    return int(turns[1]) if turns else 1


def assert_redone(sentences: list[str], *, unit: float) -> None:
    """Every equation, redone from its printed numbers, gives its printed result to the printed digit."""
    equations = [sentence for sentence in sentences if " = " in sentence]
    assert len(equations) >= 6
    for sentence in equations:
        printed, result, count = redone(sentence)
        assert printed == pytest.approx(result, abs=unit / 2 * (count + 1) + 1e-9), sentence


def test_a_fitting_straight_in_the_well_is_worked_from_bore_to_margin(sizing_inputs: Inputs) -> None:
    # By hand: S- = sqrt(.0625² + .0313² + .0625² + .0714²) = .118; see the engine's first worked example.
    sentences = working(
        sizing_inputs(bore_depth_basis="overall less tip", bore_second_mm=INCH / 32),
        {"overall_length_mm": 9.25 * INCH, "tip_thickness_mm": INCH / 4},
    )
    stack = "root-sum-square of bore depth 0.062 in, tip 0.031 in, probe length 0.062 in, 1 thread turn of 0.071 in"
    assert sentences == [
        "bore depth 9.000 in = overall length 9.250 in less tip 0.250 in",
        "no extension",
        "probe lengths are from end of mounting thread to tip, spring relaxed",
        "seat plane 8.500 in = bore depth 9.000 in less engagement of the fitting 0.500 in",
        f"tolerances that take away 0.118 in = {stack}",
        f"tolerances that add 0.118 in = {stack}",
        "shortest 8.743 in = seat plane 8.500 in plus preload 0.125 in plus tolerances that take away 0.118 in",
        (
            "longest 9.332 in = seat plane 8.500 in plus travel 1.000 in less reserve 0.050 in "
            "less tolerances that add 0.118 in"
        ),
        "computed 9.000 in = seat plane 8.500 in plus target compression 0.500 in",
        "order 9.000 in, on the 0.250 in increment the length nearest to computed from shortest to longest",
        "compression 0.500 in = order 9.000 in less seat plane 8.500 in",
        "least compression 0.382 in = compression 0.500 in less tolerances that take away 0.118 in",
        "most compression 0.618 in = compression 0.500 in plus tolerances that add 0.118 in",
        "left over preload 0.257 in = least compression 0.382 in less preload 0.125 in",
        "left under reserve 0.332 in = travel 1.000 in less reserve 0.050 in less most compression 0.618 in",
        "margin 0.257 in, the lesser of the two",
        "first touch 0.000 in = order 9.000 in less bore depth 9.000 in, thread end off the face",
    ]


CASES: dict[str, Case] = {
    "fitting on a union": (
        {"arrangement": "nipple and union", "installed_mm": 3 * INCH, "extension_tolerance_mm": INCH / 16},
        {"nipple_length_mm": 2 * INCH, "union_length_mm": 2 * INCH},
    ),
    "fitting on a coupling": (
        {"arrangement": "nipple and coupling", "installed_mm": 4.875 * INCH, "well_turn_mm": INCH / 11.5},
        {"nipple_length_mm": 4 * INCH, "coupling_length_mm": 1.875 * INCH},
    ),
    "insert on two nipples": (
        {"mounting": "spring-loaded insert", "arrangement": "nipple-union-nipple", "installed_mm": 8 * INCH},
        {"nipple_length_mm": 4 * INCH, "second_nipple_length_mm": 4 * INCH, "union_length_mm": 2 * INCH},
    ),
    "insert on a nipple, middle of the window": (
        {
            "mounting": "spring-loaded insert",
            "arrangement": "nipple",
            "installed_mm": 3 * INCH,
            "target_compression_mm": np.nan,
            "growth_mm": 1.5,
        },
        {"nipple_length_mm": 4 * INCH},
    ),
    "flanged insert on a neck tube": (
        {
            "mounting": "flanged insert",
            "arrangement": "neck tube",
            "bore_depth_mm": 195.0,
            "installed_mm": 165.0,
            "seat_offset_mm": 10.0,
            "bore_deeper_mm": 2.0,
            "bore_shallower_mm": 0.0,
            "travel_mm": 10.0,
            "target_compression_mm": np.nan,
            "standard_lengths": (345.0, 375.0, 435.0),
        },
        {"neck_length_mm": 165.0},
    ),
    "assumed tip within the range": (
        {"bore_depth_basis": "overall less assumed tip", "tip_thinner_mm": INCH / 16, "tip_thicker_mm": INCH / 8},
        {"overall_length_mm": 9.25 * INCH, "tip_thickness_mm": INCH / 4},
    ),
    "assumed tip that decides": (
        {
            "bore_depth_basis": "overall less assumed tip",
            "tip_thinner_mm": INCH / 16,
            "tip_thicker_mm": INCH / 8,
            "travel_mm": INCH / 2,
        },
        {"overall_length_mm": 9.25 * INCH, "tip_thickness_mm": INCH / 4},
    ),
    "fixed fitting": ({"mounting": "fixed fitting", "stated_probe_mm": 8 * INCH}, {}),
    "fixed fitting under an assumed tip": (
        {
            "mounting": "fixed fitting",
            "bore_depth_basis": "overall less assumed tip",
            "tip_thinner_mm": INCH / 16,
            "tip_thicker_mm": INCH / 8,
            "increment_nm": 3_175_000,
        },
        {"overall_length_mm": 9.25 * INCH, "tip_thickness_mm": INCH / 4},
    ),
    "stated probe, sheath that grows": ({"stated_probe_mm": 9.5 * INCH, "growth_mm": -2.0}, {}),
}


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("worst_case", [False, True])
@pytest.mark.parametrize("show,unit", [(in_decimals, 0.001), (in_millimetres, 0.01)])
def test_every_number_can_be_redone_from_the_printed_ones(
    sizing_inputs: Inputs, case: str, show: Callable[[float], str], unit: float, *, worst_case: bool
) -> None:
    changes, parts = CASES[case]
    assert_redone(
        working(sizing_inputs(**changes), HALF_NPT | parts, show=show, worst_case=worst_case),
        unit=unit,
    )


def extension_sentence(sizing_inputs: Inputs, case: str) -> str:
    changes, parts = CASES[case]
    return working(sizing_inputs(**changes), HALF_NPT | parts)[1]


def test_every_joint_of_an_extension_is_named(sizing_inputs: Inputs) -> None:
    assert extension_sentence(sizing_inputs, "insert on two nipples") == (
        "extension 8.000 in = nipple 4.000 in less engagement 0.500 in at the well "
        "less engagement 0.500 in at the union plus union 2.000 in plus second nipple 4.000 in "
        "less engagement 0.500 in at the union less engagement 0.500 in at the head"
    )
    assert extension_sentence(sizing_inputs, "fitting on a coupling") == (
        "extension 4.875 in = nipple 4.000 in less engagement 0.500 in at the well "
        "less engagement 0.500 in at the coupling plus coupling 1.875 in"
    )
    assert extension_sentence(sizing_inputs, "flanged insert on a neck tube") == (
        "extension 6.496 in = neck tube 6.496 in"
    )


def test_a_given_extension_is_said_to_be_given(sizing_inputs: Inputs) -> None:
    sentences = working(sizing_inputs(arrangement="nipple", installed_mm=76.2, installed_is_given=True))
    assert sentences[1] == "extension 3.000 in, given as installed"


def test_an_extension_whose_parts_are_not_known_is_named_by_its_arrangement(sizing_inputs: Inputs) -> None:
    sentences = working(sizing_inputs(arrangement="nipple and union", installed_mm=76.2), {"nipple_length_mm": 50.8})
    assert sentences[1] == "extension 3.000 in, nipple and union"


def test_where_a_length_comes_from_stands_behind_it(sizing_inputs: Inputs) -> None:
    sentences = working(sizing_inputs(), {"bore_depth_note": "data sheet 12", "extension_note": "plant standard"})
    assert sentences[:2] == ["bore depth 9.000 in, stated, data sheet 12", "no extension, plant standard"]


def test_a_bore_depth_without_its_parts_is_named_by_its_basis(sizing_inputs: Inputs) -> None:
    assert working(sizing_inputs(bore_depth_basis="overall less tip"))[0] == "bore depth 9.000 in, overall less tip"


@pytest.mark.parametrize(
    "changes,plane",
    [
        ({}, "end of mounting thread to tip, spring relaxed"),
        ({"seat_offset_mm": 2.0}, "sealing face of the mounting thread to tip, spring relaxed"),
        ({"mounting": "fixed fitting"}, "end of mounting thread to tip"),
        ({"mounting": "spring-loaded insert"}, "the insert's own seat to tip, spring relaxed"),
        ({"mounting": "flanged insert"}, "underside of the insert's plate to tip, spring relaxed"),
    ],
)
def test_the_plane_of_the_probe_length_is_said(sizing_inputs: Inputs, changes: dict[str, object], plane: str) -> None:
    assert working(sizing_inputs(**changes))[2] == f"probe lengths are from {plane}"


def test_a_profile_may_name_its_own_plane(sizing_inputs: Inputs) -> None:
    sentences = working(sizing_inputs(), {"probe_length_plane": "from underside of the hexagon to tip"})
    assert sentences[2] == "probe lengths are from underside of the hexagon to tip"


def test_a_seat_that_is_no_engagement_is_called_seat_offset(sizing_inputs: Inputs) -> None:
    insert = working(sizing_inputs(mounting="spring-loaded insert"))
    collar = working(sizing_inputs(seat_offset_mm=2.54))
    assert insert[3] == "seat plane 8.500 in = bore depth 9.000 in less seat offset 0.500 in"
    assert collar[3] == "seat plane 9.100 in = bore depth 9.000 in plus seat offset 0.100 in"


@pytest.mark.parametrize(
    "changes,reason",
    [
        ({"mounting": ""}, "no length: mounting not known"),
        ({"mounting": "clip"}, "no length: mounting not known"),
        ({"arrangement": ""}, "no length: arrangement not known"),
        ({"arrangement": "reducer"}, "no length: arrangement not known"),
        ({"arrangement": "nipple"}, "no length: a spring-loaded fitting cannot be screwed onto a nipple"),
        ({"travel_mm": np.nan}, "no length: spring travel not known"),
        ({"bore_depth_mm": np.nan, "bore_deeper_mm": np.nan}, "no length: bore depth, bore tolerance not known"),
        ({"installed_mm": np.nan}, "no length: installed length not known"),
        ({"mounting": "fixed fitting", "most_gap_mm": np.nan}, "no length: most gap not known"),
        (
            {"mounting": "fixed fitting", "travel_mm": np.nan, "seat_offset_mm": None},
            "no length: seat offset not known",
        ),
        ({"increment_nm": 0}, "no length is given"),
    ],
)
def test_a_row_without_a_length_says_why(sizing_inputs: Inputs, changes: dict[str, object], reason: str) -> None:
    assert working(sizing_inputs(**changes))[-1] == reason


def test_a_row_without_a_length_still_shows_bore_and_extension(sizing_inputs: Inputs) -> None:
    sentences = working(sizing_inputs(mounting="", arrangement="nipple", installed_mm=76.2))
    assert sentences[:2] == ["bore depth 9.000 in, stated", "extension 3.000 in, nipple"]


def test_a_bore_or_extension_that_is_not_known_is_said(sizing_inputs: Inputs) -> None:
    sentences = working(sizing_inputs(bore_depth_mm=np.nan, installed_mm=np.nan))
    assert sentences[:2] == ["bore depth not known", "installed length of the extension not known"]


def test_an_arrangement_that_is_not_known_is_the_reason(sizing_inputs: Inputs) -> None:
    assert working(sizing_inputs(arrangement="", installed_mm=np.nan))[-1] == "no length: installed length not known"
