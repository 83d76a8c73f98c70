"""Tip, wall and shank of a well."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding
from thermowell_index.validator.nominal_sizes import pipe_size

METRIC = {
    "length_unit": "mm",
    "overall_length": "235",
    "bore_depth": "229",
    "tip_thickness": "6",
    "insertion_length": "190",
    "bore_diameter": "6.5",
    "root_diameter": "25",
    "tip_diameter": "12.5",
    "sheath_diameter": "6",
    "spring_travel": "25",
    "probe_length": "230",
}
FLANGED = {"well_connection": '1-1/2" 300# RF flange', "connection_size": "1-1/2"}
NO_TIP = {"tip_thickness": ""}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "tip_too_thin": [
        ("fires on a stated tip", {"tip_thickness": "0.15"}, ["warning TE-101 tip_thickness"]),
        ("fires on what is left", {**NO_TIP, "bore_depth": "9.1"}, ["warning TE-101 bore_depth"]),
        ("is sound on the limit of 3/16 in", [{"tip_thickness": "0.1875"}, {"length_unit": "mm", "tip_thickness": "4.8"}], []),
        ("is sound", {}, []),
        ("is silent of a tube", {"tip_thickness": "0.1", "shank_form": "fabricated tube"}, []),
        ("is silent of a DIN form", {"tip_thickness": "0.1", "shank_form": "form 2G"}, []),
        ("is silent where nothing tells", {**NO_TIP, "overall_length": ""}, []),
    ],
    "tip_too_thick": [
        ("fires among thin tips", [{**NO_TIP, "bore_depth": "8.5"}, *[NO_TIP] * 5], ["warning TE-101 bore_depth"]),
        ("fires among wells with stated tips", [{**NO_TIP, "bore_depth": "8.5"}, *[{}] * 5], ["warning TE-101 bore_depth"]),
        ("fires on a stated tip that agrees", [{"bore_depth": "8.5", "tip_thickness": "0.75"}, *[NO_TIP] * 5], ["warning TE-101 bore_depth"]),
        ("fires on a stated tip alone", [{"bore_depth": "", "tip_thickness": "0.75"}, *[NO_TIP] * 5], ["warning TE-101 tip_thickness"]),
        ("is sound on the limit of 1/2 in", [{**NO_TIP, "bore_depth": "8.75"}, *[NO_TIP] * 5], []),
        ("is silent where others are as thick", [{**NO_TIP, "bore_depth": "8.5"}] * 7, []),
        ("is silent among too few", [{**NO_TIP, "bore_depth": "8.5"}, *[NO_TIP] * 4], []),
        ("is sound", NO_TIP, []),
    ],
    "bore_wider_than_tip": [
        ("fires on a bore as wide as the tip", {"bore_diameter": "0.75"}, ["error TE-101 bore_diameter"]),
        ("is sound on any wall, the limit is none", {"bore_diameter": "0.7"}, []),
    ],
    "wall_too_thin": [
        ("fires on a thin wall", {"tip_diameter": "0.49"}, ["warning TE-101 tip_diameter"]),
        ("is sound on the limit of 0.12 in", {"tip_diameter": "0.5"}, []),
        ("is sound on the limit of 3 mm", METRIC, []),
        ("fires on a metric row below it", {**METRIC, "tip_diameter": "12.4"}, ["warning TE-101 tip_diameter"]),
        ("is silent of a DIN form", {**METRIC, "tip_diameter": "12", "shank_form": "form 4"}, []),
        ("is silent of the standard's own pairs of tip and bore", {**METRIC, "bore_diameter": "7"}, []),
        ("is sound", {}, []),
    ],
    "shank_does_not_match": [
        ("fires on a tapered shank that does not taper", {"tip_diameter": "1.0"}, ["warning TE-101 shank_form"]),
        ("fires on a stepped shank without a step", {"shank_form": "stepped", "tip_diameter": "1.0"}, ["warning TE-101 shank_form"]),
        ("fires on a straight shank that narrows", {"shank_form": "straight"}, ["warning TE-101 shank_form"]),
        ("is sound on the limit of 1/32 in", {"tip_diameter": "0.96875"}, []),
        ("is sound on the limit of 1/16 in", {"shank_form": "straight", "tip_diameter": "0.9375"}, []),
        ("is silent of other words", {"shank_form": "form 4", "tip_diameter": "1.0"}, []),
        ("is sound", {}, []),
    ],
    "root_too_big_for_hole": [
        ("fires under a 1 NPT", {"root_diameter": "1.1"}, ["error TE-101 root_diameter"]),
        ("fires under a 3/4 NPT with its size beside it", {"well_connection": "NPT threaded", "connection_size": "3/4"}, ["error TE-101 root_diameter"]),
        ("fires under a 1/2 NPT", {"well_connection": "1/2 NPT", "root_diameter": "0.7"}, ["error TE-101 root_diameter"]),
        ("fires in a flange's nozzle", {**FLANGED, "root_diameter": "1.75"}, ["error TE-101 root_diameter"]),
        ("is sound in the lightest nozzle of the size", {**FLANGED, "root_diameter": "1.68"}, []),
        ("is sound on the limit of 1.08 in", {"root_diameter": "1.08"}, []),
        ("is silent of other threads", [{"well_connection": "G 1/2", "root_diameter": "1.5"}, {"well_connection": "1-1/2 NPT", "root_diameter": "1.5"}, {"well_connection": "socket weld", "root_diameter": "1.5"}], []),
        ("is silent of a flange of unknown size", {**FLANGED, "connection_size": "", "root_diameter": "3"}, []),
        ("is sound", [{}, {**FLANGED, "root_diameter": "1.5"}], []),
    ],
    "outside_stress_standard": [
        ("is noted once a family", [{"insertion_length": "30", "overall_length": "32"}] * 2, ["note TE-101+TE-102 insertion_length"]),
        ("is noted of a thin tip, a wide bore and a steep taper", [{"tip_diameter": "0.35"}, {"bore_diameter": "0.9"}, {"root_diameter": "1.4"}], ["note TE-101 insertion_length", "note TE-102 insertion_length", "note TE-103 insertion_length"]),
        ("is sound on the limit", [{"insertion_length": "2.5"}, {"insertion_length": "24"}, {"tip_diameter": "0.58"}], []),
        ("lets a stepped shank narrow", {"shank_form": "stepped", "root_diameter": "1.4"}, []),
        ("is silent of a DIN form", {"shank_form": "form 4", "insertion_length": "30"}, []),
        ("is sound", {}, []),
    ],
}  # fmt: skip


@pytest.mark.parametrize(
    "rule,rows,facts",
    [
        pytest.param(rule, rows, facts, id=f"{rule}: {title}")
        for rule, cases in CASES.items()
        for title, rows, facts in cases
    ],
)
def test_a_check_speaks_where_it_should_and_nowhere_else(
    speak: Callable[..., list[str]], rule: str, rows: Any, facts: list[str]
) -> None:
    assert speak(rule, rows) == facts


def test_the_hole_of_a_flange_is_the_bore_of_the_lightest_pipe_of_its_size(
    findings: Callable[..., list[Finding]],
) -> None:
    """NPS 1-1/2 in schedule 10S: 48.3 mm outside, 2.77 mm wall, 42.8 mm bore (ASME B36.19M through the library)."""
    pipe = pipe_size(1.5, "10S")
    said = findings({**FLANGED, "root_diameter": "1.75"})

    assert pipe is not None
    assert (round(pipe.outside_mm, 1), round(pipe.wall_mm, 2), round(pipe.bore_mm, 1)) == (48.3, 2.77, 42.8)
    assert [one.expected for one in said if one.rule == "root_too_big_for_hole"] == [
        "a root no thicker than the hole of 1.6835 in that it passes"
    ]


@pytest.mark.parametrize(
    "rule,rows,found",
    [
        ("tip_too_thin", [{"tip_thickness": "0.15", "bore_depth": "9.1"}], "tip thickness 0.15"),
        ("tip_too_thin", [{**NO_TIP, "bore_depth": "9.1"}], "0.15 in of metal: overall length less bore depth"),
        ("wall_too_thin", [{"tip_diameter": "0.49"}], "wall 0.115 in: tip diameter 0.49, bore diameter 0.260"),
        ("outside_stress_standard", [{"insertion_length": "30", "overall_length": "31.75", "bore_depth": "31.5", "bore_diameter": "0.9"}], "1 row: insertion length, bore diameter outside the standard's limits"),
    ],
)  # fmt: skip
def test_what_was_found_is_said_with_its_numbers(
    findings: Callable[..., list[Finding]], rule: str, rows: list[dict[str, Any]], found: str
) -> None:
    assert [one.found for one in findings(*rows) if one.rule == rule] == [found]


def test_a_thick_tip_is_told_what_the_other_wells_have(findings: Callable[..., list[Finding]]) -> None:
    said = findings({**NO_TIP, "bore_depth": "8.25"}, *[NO_TIP] * 5)

    assert [one.expected for one in said if one.rule == "tip_too_thick"] == [
        "about 0.25 in of metal at the tip, as in the other wells"
    ]
