"""Threads of wells and extensions as the index states them, assumed where it is silent."""

import math
from fractions import Fraction

import pytest

from thermowell_index.records.threads_read import JointThread, read_thread, sensor_thread

HALF_NPT = "1/2 NPT"


@pytest.mark.parametrize("text", ["", "TBD", "-", "flanged", "Socket weld", "SW", "butt weld", "plain", "tube"])
def test_a_blank_or_a_word_for_no_thread_takes_the_default(text: str) -> None:
    joint = read_thread(text, HALF_NPT)
    assert joint == JointThread(read_thread(HALF_NPT, "").thread, is_stated=False, is_known=True)


@pytest.mark.parametrize(
    "text,size", [("1/2", "1/2"), ("0.75", "3/4"), ('3/4"', "3/4"), ("1 in", "1"), ("1-1/2", "3/2")]
)
def test_a_bare_size_is_npt(text: str, size: str) -> None:
    thread = read_thread(text, "G 1/2").thread
    assert thread is not None
    assert (thread.family, thread.size) == ("NPT", Fraction(size))


@pytest.mark.parametrize("text", ["9", "5/8", "20 mm", "0.3"])
def test_a_number_that_is_no_pipe_size_names_no_thread(text: str) -> None:
    assert not read_thread(text, HALF_NPT).is_known


@pytest.mark.parametrize(
    "text,gender", [("NPT", ""), ("FNPT", "female"), ("NPT (M)", "male"), ("NPT female", "female")]
)
def test_npt_without_a_size_is_a_half_inch(text: str, gender: str) -> None:
    joint = read_thread(text, "G 1/2")
    assert joint.thread is not None
    assert (joint.thread.size, joint.thread.family, joint.gender) == (Fraction(1, 2), "NPT", gender)


@pytest.mark.parametrize("text", ["BSP", "bayonet", "special"])
def test_words_that_name_no_thread_are_not_known(text: str) -> None:
    joint = read_thread(text, HALF_NPT)
    assert (joint.thread, joint.is_stated, joint.is_known) == (None, True, False)
    assert (joint.is_shoulder, joint.gender) == (False, "")
    assert math.isnan(joint.engagement_mm)
    assert math.isnan(joint.turn_mm)


@pytest.mark.parametrize("text,is_shoulder", [("1/2 NPT", False), ("R 1/2", False), ("G 1/2", True), ("M20x1.5", True)])
def test_a_parallel_thread_seats_on_a_shoulder_and_swallows_nothing(text: str, is_shoulder: object) -> None:
    joint = read_thread(text, HALF_NPT)
    assert joint.is_shoulder is is_shoulder
    assert (joint.engagement_mm == 0, joint.turn_mm == 0) == (is_shoulder, is_shoulder)


@pytest.mark.parametrize("text,made", [("3/4 NPSM", "3/4"), ("1 NPSM", "1"), ("1-1/4 NPSL", "5/4")])
def test_a_taper_thread_of_the_same_size_goes_into_a_free_fitting_straight_one(text: str, made: str) -> None:
    joint = sensor_thread(read_thread(text, HALF_NPT))
    assert joint.thread is not None
    assert (joint.thread.family, joint.thread.size, joint.is_stated) == ("NPT", Fraction(made), True)


@pytest.mark.parametrize("text", ["1/2 NPT", "G 1/2", "bayonet"])
def test_any_other_thread_is_mated_with_its_like(text: str) -> None:
    joint = read_thread(text, HALF_NPT)
    assert sensor_thread(joint) == joint
