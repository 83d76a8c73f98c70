"""Tubes in one piece with their neck, and the plate inserts of the standard's table. Lengths in mm.

Form 4: DIN 43772 as reprinted by the trade, insert = total + 175. Forms 2G, 2F, 3F: insert = insertion + neck + 10
[memory]. By the chain: bottom 5, seat 10 and 5 of the springs' 10 give 315 of a total of 305, and 375 of 200 + 165.
"""

from typing import Any

import pytest

from thermowell_index import size_probe
from thermowell_index.basis_file import basis_from
from thermowell_index.records.din_wells import din_form

PLATE: dict[str, Any] = {"sensor_mounting": "flanged insert"}
LOOSE: dict[str, Any] = {"sensor_mounting": "spring-loaded insert"}
NECK: dict[str, Any] = {"extension_arrangement": "neck tube", "extension_length": "145 mm"}
NECK_80 = NECK | {"extension_length": "80 mm"}


@pytest.mark.parametrize(
    "text,form",
    [
        ("2G", "2G"),
        ("form 2 F", "2F"),
        ("DIN 43772 Form 3F", "3F"),
        ("DIN 43772-4", "4"),
        ("Form 4F", "4"),
        ("Bauform 3-G", "3G"),
        ("forme 4", "4"),
        ("4", "4"),
        ("tapered", ""),
        ("straight 3/4", ""),
        ("4 in", ""),
        ("DIN 43772 Form 8", ""),
        ("platform 4", ""),
        ("", ""),
    ],
)
def test_a_form_is_known_by_its_digit_and_letter(text: str, form: str) -> None:
    assert din_form(text) == form


@pytest.mark.parametrize(
    "cells,order",
    [
        (PLATE | {"shank_form": "2G", "overall_length": "305 mm"}, 315),
        (PLATE | {"shank_form": "2G", "overall_length": "305 mm", "extension_arrangement": "none"}, 315),
        (PLATE | {"shank_form": "2G", "overall_length": "305 mm", "extension_arrangement": "neck tube"}, 315),
        (PLATE | {"shank_form": "2G", "overall_length": "305 mm"} | NECK, 315),
        (PLATE | {"shank_form": "2G", "insertion_length": "400 mm"} | NECK, 555),
        (PLATE | {"shank_form": "2G", "insertion_length": "250 mm"}, 405),
        (PLATE | {"shank_form": "2F", "insertion_length": "315 mm"} | NECK_80, 405),
        (PLATE | {"shank_form": "3F", "overall_length": "545 mm", "insertion_length": "465 mm"} | NECK_80, 555),
        (LOOSE | {"shank_form": "2G", "overall_length": "300 mm", "insertion_length": "155 mm"} | NECK, 295),
        (LOOSE | {"shank_form": "3G", "insertion_length": "155 mm"} | NECK, 295),
        (LOOSE | {"shank_form": "2G", "bore_depth": "295 mm", "insertion_length": "155 mm"} | NECK, 295),
    ],
)
def test_an_insert_in_a_tube_in_one_piece_is_sized_from_the_total_with_the_neck(cells: Any, order: float) -> None:
    probe = size_probe(**cells)
    assert probe.verdict == "sized"
    assert probe.order_mm == pytest.approx(order)


@pytest.mark.parametrize(
    "cells",
    [
        LOOSE | {"shank_form": "2G", "overall_length": "300 mm"} | NECK,
        LOOSE | {"shank_form": "2G", "bore_depth": "295 mm"} | NECK,
        LOOSE | {"shank_form": "2G", "overall_length": "280 mm", "insertion_length": "155 mm"} | NECK,
    ],
)
def test_a_neck_that_may_be_in_the_length_or_not_withholds(cells: Any) -> None:
    probe = size_probe(**cells)
    assert (probe.verdict, probe.reason) == ("withheld", "neck in length not stated")


def test_a_neck_on_top_of_a_length_that_leaves_it_out_is_added() -> None:
    # B = 150 below the connection, as insertion less bottom says; P = 150 + 145
    probe = size_probe(**LOOSE, shank_form="2G", bore_depth="150 mm", insertion_length="155 mm", **NECK)
    assert probe.order_mm == pytest.approx(295)


@pytest.mark.parametrize("total", ["300 mm", "306 mm", "400 mm"])
def test_a_plate_insert_off_the_standards_table_is_withheld(total: str) -> None:
    probe = size_probe(**PLATE, shank_form="2G", overall_length=total)
    assert (probe.verdict, probe.reason) == ("withheld", "seat height not known")


def test_the_working_says_what_the_total_is_made_of() -> None:
    working = size_probe(**PLATE, shank_form="2G", insertion_length="160 mm").working
    assert "overall length 305 mm less assumed tip 5 mm" in working
    assert "the total being insertion length 160 mm and neck 145 mm of the standard" in working
    assert "no extension, the neck is part of the tube" in working


def test_a_form_4_well_takes_the_standard_neck() -> None:
    probe = size_probe(**PLATE, shank_form="form 4", overall_length="200 mm", extension_arrangement="neck tube")
    assert [probe.order_mm, probe.lengths_mm["extension installed"]] == pytest.approx([375, 165])


def test_a_seat_height_of_the_basis_leaves_the_bottom_that_the_standard_gives() -> None:
    seat = {"profile": {"flanged_insert": {"seat_offset": "10 mm"}}}
    basis = basis_from(seat, name="test", where="test", switches={})
    sized = size_probe(basis=basis, shank_form="form 4", overall_length="260 mm", extension_arrangement="neck tube",
                       extension_length="165 mm", spring_travel="10 mm", **PLATE)  # fmt: skip
    assert sized.order_mm == 435
