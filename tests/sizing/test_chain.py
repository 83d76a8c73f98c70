import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from thermowell_index.sizing.assembly import Lengths
from thermowell_index.sizing.chain import bore_depth, first_touch, installed_length, seat_plane

INCH = 25.4
HALF_NPT_ENGAGEMENT = 0.5 * INCH
UNION = 2.0 * INCH
lengths = st.floats(min_value=0.0, max_value=3000.0)


def one(length_mm: float) -> Lengths:
    return np.array([length_mm])


def depth_of(
    *,
    measured: float = np.nan,
    stated: float = np.nan,
    overall: float = np.nan,
    tip: float = np.nan,
    assumed: float = np.nan,
) -> tuple[float, str]:
    depth_mm, basis = bore_depth(
        measured_mm=one(measured),
        stated_mm=one(stated),
        overall_mm=one(overall),
        tip_mm=one(tip),
        assumed_tip_mm=one(assumed),
    )
    return float(depth_mm[0]), str(basis[0])


def installed_of(arrangement: str, *, given_mm: float = np.nan, **parts_in: float) -> float:
    """Installed length in inches of parts in inches, threads 1/2 NPT, union 2 in."""
    parts = {"nipple": np.nan, "second_nipple": np.nan, "coupling": np.nan, "neck": np.nan} | parts_in
    installed_mm = installed_length(
        arrangement=[arrangement],
        nipple_mm=one(parts["nipple"] * INCH),
        second_nipple_mm=one(parts["second_nipple"] * INCH),
        engagement_well_mm=one(HALF_NPT_ENGAGEMENT),
        engagement_top_mm=one(HALF_NPT_ENGAGEMENT),
        engagement_union_mm=one(HALF_NPT_ENGAGEMENT),
        coupling_mm=one(parts["coupling"] * INCH),
        union_mm=one(UNION),
        neck_mm=one(parts["neck"] * INCH),
        given_mm=one(given_mm),
    )
    return float(installed_mm[0]) / INCH


def test_a_measured_bore_depth_wins() -> None:
    assert depth_of(measured=228.0, stated=229.0, overall=235.0, tip=6.0, assumed=6.35) == (228.0, "measured")


def test_a_stated_bore_depth_wins_over_the_overall_length() -> None:
    assert depth_of(stated=229.0, overall=235.0, tip=7.0) == (229.0, "stated")


def test_a_stated_tip_wins_over_an_assumed_one() -> None:
    assert depth_of(overall=235.0, tip=7.0, assumed=6.0) == (228.0, "overall less tip")


def test_an_assumed_tip_is_named_as_assumed() -> None:
    assert depth_of(overall=235.0, assumed=6.0) == (229.0, "overall less assumed tip")


@pytest.mark.parametrize("known", [{}, {"overall": 235.0}, {"tip": 6.0, "assumed": 6.0}])
def test_no_source_gives_no_depth_and_no_basis(known: dict[str, float]) -> None:
    depth_mm, basis = depth_of(**known)
    assert np.isnan(depth_mm)
    assert basis == ""


def test_every_row_takes_its_own_source() -> None:
    nan = np.nan
    depth_mm, basis = bore_depth(
        measured_mm=np.array([100.0, nan, nan, nan, nan]),
        stated_mm=np.array([101.0, 101.0, nan, nan, nan]),
        overall_mm=np.array([110.0, 110.0, 110.0, 110.0, nan]),
        tip_mm=np.array([7.0, 7.0, 7.0, nan, 7.0]),
        assumed_tip_mm=np.array([6.0, 6.0, 6.0, 6.0, 6.0]),
    )
    assert depth_mm[:4].tolist() == [100.0, 101.0, 103.0, 104.0]
    assert basis.tolist() == ["measured", "stated", "overall less tip", "overall less assumed tip", ""]


# Published hardware table for 1/2 NPT: installed length of a made-up extension by nipple length, inch.
@pytest.mark.parametrize("nipple,adds", [(2, 1), (3, 2), (4, 3), (6, 5)])
def test_a_nipple_adds_what_the_published_table_says(nipple: float, adds: float) -> None:
    assert installed_of("nipple", nipple=nipple) == pytest.approx(adds)


@pytest.mark.parametrize("nipple,adds", [(2, 3), (3, 4), (4, 5), (6, 7)])
def test_a_nipple_and_union_adds_what_the_published_table_says(nipple: float, adds: float) -> None:
    assert installed_of("nipple and union", nipple=nipple) == pytest.approx(adds)


@pytest.mark.parametrize("nipple,adds", [(2, 4), (3, 6), (4, 8), (6, 12)])
def test_two_equal_nipples_and_a_union_add_what_the_published_table_says(nipple: float, adds: float) -> None:
    assert installed_of("nipple-union-nipple", nipple=nipple, second_nipple=nipple) == pytest.approx(adds)


def test_a_coupling_adds_its_length_less_one_engagement() -> None:
    # 4 - 1/2 in the well - 1/2 in the coupling + coupling 1-7/8 = 4-7/8
    assert installed_of("nipple and coupling", nipple=4, coupling=1.875) == pytest.approx(4.875)


def test_a_neck_tube_adds_its_own_length() -> None:
    assert installed_of("neck tube", neck=6.5) == pytest.approx(6.5)


def test_no_extension_adds_nothing() -> None:
    assert installed_of("none") == 0.0


@pytest.mark.parametrize("nipple,adds", [(1.125, 0.125), (1.0, 0.0)])
def test_the_faces_at_a_close_nipple_almost_touch(nipple: float, adds: float) -> None:
    # Close nipple 1-1/8 - 1/2 - 1/2 = 1/8; a 1 in nipple is swallowed by its two threads.
    assert installed_of("nipple", nipple=nipple) == pytest.approx(adds)


@pytest.mark.parametrize(
    "arrangement,known",
    [
        ("nipple", {}),
        ("nipple and coupling", {"nipple": 4.0}),
        ("nipple and union", {}),
        ("nipple-union-nipple", {"nipple": 4.0}),
        ("neck tube", {"nipple": 4.0}),
        ("", {"nipple": 4.0}),
        ("reducer", {"nipple": 4.0}),
    ],
)
def test_a_part_or_arrangement_that_is_not_known_leaves_the_length_unknown(
    arrangement: str, known: dict[str, float]
) -> None:
    assert np.isnan(installed_of(arrangement, **known))


@pytest.mark.parametrize("arrangement", ["none", "nipple", "nipple and union", ""])
def test_a_given_installed_length_overrides_every_arrangement(arrangement: str) -> None:
    assert installed_of(arrangement, nipple=4, given_mm=50.8) == pytest.approx(2.0)


@given(bore=lengths, installed=lengths, offset=st.floats(min_value=-50.0, max_value=50.0))
def test_the_thread_end_touches_flush_when_the_compression_is_the_engagement(
    bore: float, installed: float, offset: float
) -> None:
    # P = B + X stands on the face: d = 0, and compression P - Zs = -s.
    plane_mm = seat_plane(bore_depth_mm=one(bore), installed_mm=one(installed), seat_offset_mm=one(offset))
    probe_mm = one(bore + installed)
    assert first_touch(probe_mm=probe_mm, bore_depth_mm=one(bore), installed_mm=one(installed))[0] == 0.0
    assert probe_mm[0] - plane_mm[0] == pytest.approx(-offset, abs=1e-9)


@pytest.mark.parametrize("unknown", range(3))
def test_a_seat_plane_needs_all_three(unknown: int) -> None:
    values = [one(228.6), one(76.2), one(-12.7)]
    values[unknown] = one(np.nan)
    plane_mm = seat_plane(bore_depth_mm=values[0], installed_mm=values[1], seat_offset_mm=values[2])
    assert np.isnan(plane_mm[0])
