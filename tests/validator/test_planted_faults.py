"""Faults of every kind planted in a large index of clean rows: all are found, and clean rows are left alone.

Run alone it prints the measure: `pytest tests/validator/test_planted_faults.py -s`.
"""

import random
from collections import defaultdict
from collections.abc import Callable, Iterator
from itertools import count
from typing import Any

import pytest

from thermowell_index.findings import Finding, Severity
from thermowell_index.registry import RULES

Row = dict[str, Any]
EACH = 20
CLEAN_ROWS = 3500
ALLOWED_FALSE_PER_100 = 0.5
ALLOWED_SHARE = 0.05
THREADED = {"1 NPT": (1.0625, 0.75), "3/4 NPT": (0.875, 0.6875), '1" SW': (1.25, 1.0)}
FLANGES = {"1-1/2": (2.25, 1.25, 1.0), "2": (2.5, 1.5, 1.0), "3": (3.0, 1.5, 1.0)}
MATERIALS = ("316 SS", "304 SS", "A105", "F11", "")
SERVICES = ("Wash water", "Brine", "Steam", "Condensate", "Air", "Quench oil")


def text(length: float) -> str:
    return f"{length:g}"


def well(rnd: random.Random) -> Row:
    """A clean inch well: threaded, socket weld or flanged, with or without lagging."""
    lagging = rnd.choice([0, 0, 0, 2, 3])
    if rnd.random() < 0.6:
        connection = rnd.choice(list(THREADED))
        head, insertion, size = 1.75, rnd.choice([2.5, 4.5, 7.5, 10.5, 13.5, 16.5]), ""
        root, tip_diameter = THREADED[connection]
    else:
        size = rnd.choice(list(FLANGES))
        head, root, tip_diameter = FLANGES[size]
        connection, insertion = f'{size}" 300# RF flange', rnd.choice([4, 7, 9, 10, 12, 13, 16])
    form = rnd.choice(["tapered", "straight", "stepped", ""])
    overall = insertion + lagging + head
    return {
        "well_connection": connection, "connection_size": size, "shank_form": form, "well_material": rnd.choice(MATERIALS),
        "overall_length": text(overall), "bore_depth": text(overall - 0.25), "tip_thickness": "0.25",
        "insertion_length": text(insertion), "lagging_length": text(lagging) if lagging else "",
        "bore_diameter": rnd.choice(["0.260", "0.260", "1/4"]), "root_diameter": text(root),
        "tip_diameter": text(root if form == "straight" else tip_diameter),
        "insulation_thickness": text(lagging - 0.5) if lagging else "",
    }  # fmt: skip


def sensor(rnd: random.Random, depth: float) -> Row:
    """A clean sensor for a bore of this depth, its length sometimes stated."""
    kind = rnd.choice(["fitting", "fitting", "insert", "union", "fixed"])
    nipple = rnd.choice([2, 3, 4, 6])
    right = {"fitting": depth, "insert": depth + nipple - 1, "union": depth + nipple + 1, "fixed": depth - 0.75}[kind]
    return {
        "sensor_mounting": {"insert": "spring-loaded insert", "fixed": "fixed fitting"}.get(kind, "spring-loaded fitting"),
        "extension_arrangement": {"insert": "nipple", "union": "nipple and union"}.get(kind, "none"),
        "nipple_length": text(nipple) if kind in {"insert", "union"} else "",
        "instrument_thread": rnd.choice(["1/2 NPT", "1/2 NPT", "1/2 NPT F"]),
        "sensor_type": rnd.choice(["RTD Pt100", "TC type K", "TC type J"]), "sheath_diameter": "0.25",
        "spring_travel": "" if kind == "fixed" else "1",
        "probe_length": text(right) if rnd.random() < 0.5 else "",
        "design_temperature": rnd.choice(["", "150 C", "250 C"]), "withdrawal_clearance": rnd.choice(["", "72"]),
        "calibration_interval": rnd.choice(["", "24 months"]),
    }  # fmt: skip


def clean(rnd: random.Random, **changes: Any) -> Row:
    """A clean row as indexes have them: now and then a dimension that the others make up for is missing."""
    row = well(rnd)
    row |= sensor(rnd, float(row["bore_depth"]))
    hidden = rnd.choice(
        [
            (),
            (),
            (),
            ("bore_depth",),
            ("tip_thickness",),
            ("insertion_length", "lagging_length", "insulation_thickness"),
            ("overall_length",),
        ]
    )
    row |= dict.fromkeys(hidden, "")
    place = {"service": rnd.choice(SERVICES), "line_size": f'{rnd.choice([6, 8, 10, 12])}"', "pipe_schedule": "40"}
    return row | place | changes


def metric(rnd: random.Random, **changes: Any) -> Row:
    """A clean metric row, its lengths rounded as drawings do."""
    insertion = rnd.choice([65, 115, 190, 265, 340])
    row = {
        "length_unit": "mm", "well_connection": rnd.choice(["G 1 threaded", "1 NPT", "SW"]), "connection_size": "",
        "shank_form": "tapered", "well_material": "1.4571", "overall_length": text(insertion + 45),
        "bore_depth": text(insertion + 39 + rnd.choice([-1, 0, 0, 1])), "tip_thickness": "6",
        "insertion_length": text(insertion), "lagging_length": "", "bore_diameter": rnd.choice(["6.5", "7"]),
        "root_diameter": "24", "tip_diameter": "18", "instrument_thread": "1/2 NPT",
        "sensor_mounting": "spring-loaded fitting", "extension_arrangement": "none", "sensor_type": "Pt100",
        "sheath_diameter": "6", "spring_travel": "25", "probe_length": "", "line_size": "DN 200", "pipe_schedule": "40",
    }  # fmt: skip
    return row | changes


BASE: Row = {
    "well_connection": "1 NPT", "connection_size": "", "shank_form": "tapered", "well_material": "316 SS", "overall_length": "9.25",
    "bore_depth": "9", "tip_thickness": "0.25", "insertion_length": "7.5", "lagging_length": "", "bore_diameter": "0.260",
    "root_diameter": "1.0625", "tip_diameter": "0.75", "instrument_thread": "1/2 NPT", "line_size": '10"', "pipe_schedule": "40",
    "sensor_mounting": "spring-loaded fitting", "extension_arrangement": "none", "sensor_type": "RTD Pt100",
    "sheath_diameter": "0.25", "spring_travel": "1", "probe_length": "9", "service": "Wash water",
}  # fmt: skip
LAGGING = {
    "overall_length": "7.75",
    "insertion_length": "4",
    "lagging_length": "2",
    "bore_depth": "7.5",
    "probe_length": "7.5",
}
FLANGED = {
    "well_connection": '1-1/2" 300# RF flange',
    "connection_size": "1-1/2",
    "overall_length": "12.25",
    "insertion_length": "10",
    "bore_depth": "12",
    "probe_length": "12",
}
INSERT = {
    "sensor_mounting": "spring-loaded insert",
    "extension_arrangement": "nipple",
    "nipple_length": "4",
    "probe_length": "12",
}
UNION = {"extension_arrangement": "nipple and union", "nipple_length": "4", "probe_length": "14"}
NO_DEPTH = {"bore_depth": "", "overall_length": "", "tip_thickness": "", "probe_length": ""}
PLATE = {
    "sensor_mounting": "flanged insert",
    "extension_arrangement": "neck tube",
    "extension_length": "6",
    "probe_length": "",
}

# One row each: what is changed on a sound row so that just this check has to speak of it.
ON_A_ROW: dict[str, Row] = {
    "unit_not_known": {"bore_depth": ("no unit", "9", "")},
    "units_disagree": {"bore_depth": ("units disagree", "9", "")},
    "date_for_dimension": {"bore_depth": ("date", "4-Sep", "9-1/4")},
    "range_for_dimension": {"bore_depth": "9/9.5 in"},
    "unreadable_dimension": {"bore_depth": "see drawing"},
    "dead_formula": {"bore_depth": ("dead formula", "#REF!", "")},
    "two_columns_differ": {"bore_depth": ("two columns differ", "9 and 10", "")},
    "implausible_length": {"bore_depth": "1", "overall_length": "", "tip_thickness": ""},
    "unit_slip": {"bore_depth": "229", "overall_length": "", "tip_thickness": ""},
    "shown_not_stored": {"bore_depth": "8.94", "bore_depth_shown": "9"},
    "dimensions_without_tag": {"tag": ""},
    "bore_depth_unknown": NO_DEPTH,
    "mounting_not_stated": {"sensor_mounting": "spring loaded"},
    "extension_not_stated": {"extension_arrangement": "TBD"},
    "no_extension_but_a_length": {"extension_arrangement": "none", "nipple_length": "4"},
    "extension_without_length": {"extension_arrangement": "nipple and union", "probe_length": ""},
    "union_basis_not_stated": {"extension_arrangement": "nipple and union", "extension_length": "4", "probe_length": ""},
    "seat_height_not_known": PLATE,
    "bore_deeper_than_well": {"bore_depth": "9.25"},
    "tip_does_not_add_up": {"bore_depth": "8"},
    "insertion_longer_than_well": {"insertion_length": "9.5"},
    "head_longer_than_any": {"overall_length": "38", "bore_depth": "", "tip_thickness": "", "probe_length": ""},
    "lagging_left_out": LAGGING | {"bore_depth": "5.5"},
    "bore_from_flange_face": FLANGED | {"bore_depth": "9.75"},
    "insertion_copied_as_bore": {"bore_depth": "7.5"},
    "head_left_out": {"overall_length": "", "bore_depth": "7.25"},
    "measured_against_drawing": {"measured_bore_depth": "8.5", "probe_length": "8.5"},
    "tip_too_thin": {"tip_thickness": "0.15", "bore_depth": "9.1"},
    "tip_too_thick": {"tip_thickness": "", "bore_depth": "8.25", "probe_length": "8.25"},
    "bore_wider_than_tip": {"bore_diameter": "0.75"},
    "wall_too_thin": {"tip_diameter": "0.45"},
    "shank_does_not_match": {"shank_form": "straight"},
    "root_too_big_for_hole": {"root_diameter": "1.25"},
    "head_length_out_of_family": {"insertion_length": "5"},
    "fitting_onto_bare_nipple": INSERT | {"sensor_mounting": "spring-loaded fitting"},
    "threads_do_not_mate": INSERT | {"extension_thread": "3/4 NPT"},
    "thread_not_known": {"instrument_thread": "1/2 BSP"},
    "shoulder_thread_as_taper": {"instrument_thread": "M20x1.5"},
    "nipple_shorter_than_threads": INSERT | {"nipple_length": "1"},
    "insert_with_nothing_to_press_it": {"sensor_mounting": "spring-loaded insert", "instrument_thread": "1/2 NPT female"},
    "engagement_not_taken_off": INSERT | {"installed_length": "4"},
    "installed_shorter_than_union": UNION | {"nipple_length": "", "installed_length": "0.75", "probe_length": ""},
    "installed_differs_from_parts": INSERT | {"installed_length": "6"},
    "head_in_the_insulation": {"insulation_thickness": "3"},
    "no_room_to_withdraw": {"withdrawal_clearance": "12"},
    "pulled_often_no_union": {"calibration_interval": "6 months"},
    "sheath_will_not_enter": {"bore_diameter": "0.240"},
    "nominal_bore_diameter": {"bore_diameter": "1/4"},
    "sheath_rattles": {"bore_diameter": "0.385"},
    "type_contradicts_tag": {"instrument_type": "Pressure transmitter"},
    "element_too_hot": {"design_temperature": "650 C"},
    "tip_short_of_the_stream": {"standoff": "6"},
    "tip_past_the_far_wall": {"line_size": '3"', "standoff": "0"},
    "heat_leaks_along_stem": {"well_material": "A105", "insertion_length": "2.5", "overall_length": "4.25", "bore_depth": "4", "probe_length": "4"},
    "outside_stress_standard": {"tip_diameter": "2", "root_diameter": "2.1", "well_connection": "socket weld"},
    "tip_never_touches": {"probe_length": "8"},
    "old_sensor_denies_bore_depth": {"tip_contact": "yes", "probe_length": "8"},
    "spring_goes_solid": {"probe_length": "11.3"},
    "tip_may_not_touch": {"probe_length": "8.7"},
    "spring_may_go_solid": {"probe_length": "9.4"},
    "fixed_sensor_bottoms": {"sensor_mounting": "fixed fitting", "probe_length": "8.5"},
    "fixed_sensor_stands_off": {"sensor_mounting": "fixed fitting", "probe_length": "7.9"},
    "no_length_fits": {"spring_travel": "0.25", "probe_length": ""},
    "tip_assumed": {"tip_thickness": "", "bore_depth": "", "spring_travel": "0.5", "probe_length": ""},
    "hot_growth_eats_margin": {"design_temperature": "600 C", "sensor_type": "TC type K", "sheath_material": "alloy C276", "insertion_length": "30", "overall_length": "31.75", "bore_depth": "31.5", "probe_length": ""},
    "hot_growth_not_reckoned": {"design_temperature": "600 C", "sensor_type": "TC type K", "well_material": "QX-1", "insertion_length": "30", "overall_length": "31.75", "bore_depth": "31.5", "probe_length": ""},
    "length_not_computed": {"instrument_thread": "3-1/2 NPT"},
    "length_tells_its_mistake": UNION | {"probe_length": "9"},
    "changed_after_order": {"ordered_length": "8.5", "order_number": "4500-1"},
    "length_off_the_price_list": PLATE | {"length_unit": "mm", "overall_length": "200", "bore_depth": "195", "tip_thickness": "5", "insertion_length": "", "extension_length": "165", "ordered_length": "380", "bore_diameter": "7", "sheath_diameter": "6", "root_diameter": "24", "tip_diameter": "12.5", "shank_form": "form 4", "well_connection": "weld-in", "spring_travel": "10"},
    "not_a_sensor_in_a_well": {"sensor_type": "bimetal thermometer"},
    "status_word_not_known": {"row_status": "QWERTY"},
    "row_on_hold": {"row_status": "HOLD"},
    "foot_mark_for_inch": {"bore_depth": "9'", "overall_length": "", "tip_thickness": "", "insertion_length": "", "probe_length": ""},
    "remark_gives_another_depth": {"remarks": "bore measured 8-1/2 in"},
    "fewer_sensors_than_tags": {"tag": "TE-{number}A/B", "quantity_wanted": "1"},
    "quantity_not_read": {"quantity_wanted": "as req'd"},
    "remark_denies_fit": {"remarks": "element too short"},
    "remark_denies_extension": INSERT | {"remarks": "nipple removed"},
    "note_doubts_bore_depths": {"notes": "Bore depths in this list are preliminary"},
    "note_denies_bore_depths": {"notes": "Bore depths measured from flange face"},
    "dimensions_are_a_guess": {"dimension_source": "estimated"},
    "dimensions_without_well": {"well_connection": "strap-on, no well"},
    "remark_denies_mounting": {"remarks": "mounting: fixed fitting"},
    "remark_says_not_used": {"remarks": "redundant"},
    "bore_not_free": {"remarks": "well plugged 2 in up"},
    "remark_doubts_lengths": {"remarks": "bore depth to be verified on site"},
}  # fmt: skip
# Rows that only together show a fault.
TOGETHER: dict[str, list[Row]] = {
    "one_well_two_depths": [{"well_tag": "{well}"}, {"well_tag": "{well}", "bore_depth": "10", "overall_length": "10.25", "probe_length": "10", "insertion_length": "8.5"}],
    "well_row_says_otherwise": [{"tag": "TW-{number}", "extension_arrangement": "nipple", "sensor_mounting": "", "probe_length": "", "sheath_diameter": ""}, {"tag": "TE-{number}"}],
    "two_sensors_one_bore": [{"well_tag": "{well}"}, {"well_tag": "{well}"}],
    "tag_twice": [{"tag": "{tag}"}, {"tag": "{tag}", "sensor_mounting": "fixed fitting", "probe_length": ""}],
    "well_tag_of_another_loop": [{"tag": "TE-{number}1", "well_tag": "TW-{number}2"}, {"tag": "TE-{number}2"}],
    "odd_one_in_family": [*[{"well_material": "M{number}", "overall_length": ""}] * 5, {"well_material": "M{number}", "overall_length": "", "insertion_length": "7"}],
    "run_of_copied_values": [{"line_size": f'{size}"'} for size in (4, 4, 4, 6, 6, 6, 8, 8, 8, 8)],
}  # fmt: skip
# Whole sheets: what every row of a sheet of its own has.
ON_A_SHEET: dict[str, Row] = {
    "column_absent": {"tip_thickness": None},
    "mounting_from_basis": {"sensor_mounting": None},
    "extension_from_basis": {"extension_arrangement": None},
    "blank_extension_is_none": {"extension_arrangement": ""},
    "travel_assumed": {"spring_travel": ""},
    "unnamed_length_column": {"is_undecided": True},
    "length_column_not_read": {"is_unread_length": True},
}
# Which of the planted rows have the fault, where not all of them do.
HAVE_THE_FAULT = {
    "well_row_says_otherwise": slice(1, None),
    "odd_one_in_family": slice(-1, None),
    "well_tag_of_another_loop": slice(1),
    "blank_extension_is_none": slice(3),
}
# These need a design basis of their own; their tables of cases cover them.
BY_BASIS = {
    "blank_mounting_from_basis",
    "standard_extension_taken",
    "second_nipple_taken",
    "second_nipple_not_stated",
    "extension_range_carried",
    "length_taken_in_kind",
    "head_does_not_go_with_sensor",
}
# These speak of DIN wells, of which the generated index has none; their tables of cases cover them.
OF_DIN_WELLS = {"neck_in_length_not_stated", "standard_length_from_memory", "standard_neck_taken"}
INSERTIONS = (2.5, 4.5, 7.5, 10.5, 13.5, 4.5, 10.5, 2.5, 7.5, 13.5, 4.5, 7.5)


class Planted:
    """The index that is generated, and what was planted where."""

    def __init__(self, seed: int) -> None:
        self.rows: list[Row] = []
        self.faults: dict[str, list[set[str]]] = defaultdict(list)
        self.clean: set[str] = set()
        self._random = random.Random(seed)  # noqa: S311 - the same index every time
        self._numbers = count(1000)
        for _ in range(CLEAN_ROWS):
            self._add_clean()
        for rule in (*ON_A_ROW, *TOGETHER, *ON_A_SHEET, "values_slid_against_tags"):
            for number in range(EACH):
                self._plant(rule, number)

    def _tag(self) -> str:
        return f"TE-{next(self._numbers)}"

    def _add_clean(self, sheet: str = "") -> None:
        is_metric = self._random.random() < 0.25
        row = (metric if is_metric else clean)(self._random)
        tag = self._tag()
        self.rows.append(
            row | {"tag": tag, "sheet": sheet or ("Metric" if is_metric else f"Area {len(self.rows) % 4}")}
        )
        self.clean.add(tag)

    def _plant(self, rule: str, number: int) -> None:
        rows = list(self._faulty(rule))
        whole = rule == "values_slid_against_tags" or rule in ON_A_SHEET
        sheet = f"{rule} {number}" if whole else f"Area {number % 4}"
        for row in rows:
            self.rows.append({"sheet": sheet} | row)
            if not whole and rule != "run_of_copied_values":
                self._add_clean(sheet)  # clean rows around every fault
        self.faults[rule].append({str(row["tag"]) for row in rows[HAVE_THE_FAULT.get(rule, slice(None))]})

    def _faulty(self, rule: str) -> Iterator[Row]:
        names = {"well": f"TW-{next(self._numbers)}", "tag": self._tag(), "number": str(next(self._numbers))}
        if rule == "values_slid_against_tags":
            yield from self._slid()
            return
        sheet = [ON_A_SHEET[rule]] * 3 if rule in ON_A_SHEET else []
        if rule == "blank_extension_is_none":
            sheet.append(UNION)  # a column that is blank from top to bottom is none at all
        changes = sheet or TOGETHER.get(rule) or [ON_A_ROW[rule]]
        for change in changes:
            filled = {key: value.format(**names) if isinstance(value, str) else value for key, value in change.items()}
            yield BASE | {"tag": self._tag()} | filled

    def _slid(self) -> Iterator[Row]:
        for place, insertion in enumerate(INSERTIONS):
            bore = INSERTIONS[place - 1] + 1.5
            lengths = {
                "insertion_length": text(insertion),
                "overall_length": text(insertion + 1.75),
                "bore_depth": text(bore),
            }
            yield BASE | {"tag": self._tag(), "probe_length": ""} | lengths


def _own(findings: list[Finding]) -> list[Finding]:
    return [one for one in findings if not one.folded and one.severity is not Severity.NOTE]


@pytest.fixture(scope="module")
def planted() -> Planted:
    return Planted(seed=1)


@pytest.fixture(scope="module")
def said(planted: Planted, judged: Callable[..., list[Finding]]) -> list[Finding]:
    return judged(planted.rows)


def test_every_check_is_planted(planted: Planted) -> None:
    assert set(planted.faults) | BY_BASIS | OF_DIN_WELLS == set(RULES)


def test_every_planted_fault_is_found(planted: Planted, said: list[Finding]) -> None:
    spoken: dict[str, set[str]] = defaultdict(set)
    for one in said:
        spoken[one.rule] |= set(one.tags)
    missed = {
        rule: sum(not tags <= spoken[rule] for tags in planted_tags) for rule, planted_tags in planted.faults.items()
    }

    assert {rule: number for rule, number in missed.items() if number} == {}
    assert [one.rule for one in said].count("dimensions_without_tag") == EACH


def test_clean_rows_are_left_alone(planted: Planted, said: list[Finding]) -> None:
    false = [one for one in _own(said) if one.tag in planted.clean]
    per_100 = 100 * len(false) / len(planted.clean)
    flagged = {one.tag for one in false}

    assert per_100 < ALLOWED_FALSE_PER_100, [(one.rule, one.tag, one.found) for one in false[:10]]
    assert len(flagged) / len(planted.clean) < ALLOWED_SHARE
