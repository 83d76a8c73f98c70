import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from thermowell_index.sizing.tolerance import joints_by_thread, stack, taper_joints

FITTING, FIXED = "spring-loaded fitting", "fixed fitting"
INSERT, FLANGED = "spring-loaded insert", "flanged insert"
ARRANGEMENTS = ("none", "nipple", "nipple and coupling", "nipple and union", "nipple-union-nipple", "neck tube")


def count(mounting: str, arrangement: str, *, is_given: bool = False) -> float:
    counted = taper_joints(mounting=[mounting], arrangement=[arrangement], is_given=np.array([is_given]))
    return float(counted[0])


# Worked by hand: sqrt(0.0100 + 0.0025 + 0.0009 + 0.0025) = sqrt(0.0159); sqrt(0.04 + 0.01 + 0.0225) = sqrt(0.0725);
# sqrt(10 x 0.01) = sqrt(0.1). The first also stands in a public text on tolerance stacks.
@pytest.mark.parametrize(
    "amounts,root_sum_square,worst",
    [
        ((0.10, 0.05, 0.03, 0.05), 0.126095, 0.23),
        ((0.20, 0.10, 0.15), 0.269258, 0.45),
        ((0.1,) * 10, 0.316228, 1.0),
    ],
)
def test_a_stack_is_the_root_of_squares_or_the_sum(
    amounts: tuple[float, ...], root_sum_square: float, worst: float
) -> None:
    contributions = np.array([amounts])
    assert stack(contributions, worst_case=False)[0] == pytest.approx(root_sum_square, abs=5e-7)
    assert stack(contributions, worst_case=True)[0] == pytest.approx(worst)


@given(
    hnp.arrays(np.float64, st.tuples(st.integers(1, 40), st.integers(1, 12)), elements=st.floats(0.0, 100.0)),
    st.booleans(),
)
def test_a_row_has_the_same_digits_alone_and_among_many(amounts: np.ndarray, worst_case: bool) -> None:  # noqa: FBT001
    together = stack(amounts, worst_case=worst_case)
    by_columns = stack(np.asfortranarray(amounts), worst_case=worst_case)
    alone = [float(stack(amounts[row : row + 1], worst_case=worst_case)[0]) for row in range(len(amounts))]
    assert together.tolist() == alone == by_columns.tolist()


@given(hnp.arrays(np.float64, (1, 6), elements=st.floats(0.0, 100.0)))
def test_the_root_sum_square_lies_between_the_widest_and_the_sum(amounts: np.ndarray) -> None:
    root, worst = stack(amounts, worst_case=False)[0], stack(amounts, worst_case=True)[0]
    assert amounts.max() - 1e-9 <= root <= worst + 1e-9


def test_a_tolerance_counts_whatever_its_sign() -> None:
    amounts = np.array([[-3.0, 4.0]])
    assert stack(amounts, worst_case=True).tolist() == [7.0]
    assert stack(amounts, worst_case=False).tolist() == [5.0]


def test_nothing_to_stack_is_no_tolerance() -> None:
    assert stack(np.zeros((2, 0)), worst_case=False).tolist() == [0.0, 0.0]


@pytest.mark.parametrize(
    "mounting,arrangement,joints",
    [
        (FITTING, "none", 1),
        (FITTING, "nipple and union", 3),
        (FITTING, "nipple and coupling", 3),
        (FITTING, "neck tube", 1),
        (FIXED, "none", 1),
        (FIXED, "nipple and coupling", 3),
        (INSERT, "none", 1),
        (INSERT, "nipple", 2),
        (INSERT, "nipple-union-nipple", 4),
        (INSERT, "neck tube", 0),
        (FLANGED, "neck tube", 0),
        (FLANGED, "nipple", 2),
    ],
)
def test_every_thread_between_well_and_seat_is_one_joint(mounting: str, arrangement: str, joints: int) -> None:
    assert count(mounting, arrangement) == joints


@pytest.mark.parametrize("arrangement", [*ARRANGEMENTS, ""])
def test_a_given_length_leaves_only_the_fittings_own_joint(arrangement: str) -> None:
    assert [count(mounting, arrangement, is_given=True) for mounting in (FITTING, FIXED, INSERT, FLANGED)] == [
        1,
        1,
        0,
        0,
    ]


@pytest.mark.parametrize(
    "mounting,arrangement",
    [
        (FITTING, "nipple"),
        (FIXED, "nipple"),
        (FITTING, "nipple-union-nipple"),
        (INSERT, "nipple and coupling"),
        (FLANGED, "nipple and union"),
        (FITTING, ""),
        (INSERT, "reducer"),
        ("", "none"),
    ],
)
def test_what_cannot_be_screwed_together_or_is_not_known_has_no_count(mounting: str, arrangement: str) -> None:
    assert np.isnan(count(mounting, arrangement))


def test_an_unknown_mounting_has_no_count_even_with_a_given_length() -> None:
    assert np.isnan(count("", "nipple", is_given=True))


def test_joints_are_told_apart_by_their_thread() -> None:
    by_thread = joints_by_thread(
        mounting=[INSERT, INSERT, FITTING, FITTING],
        arrangement=["nipple", "nipple-union-nipple", "nipple and union", "none"],
        is_given=np.zeros(4, dtype=bool),
    )
    assert by_thread.tolist() == [[1, 0, 1], [1, 2, 1], [1, 1, 1], [0, 0, 1]]
