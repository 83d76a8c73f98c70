"""The sample index end to end: every length and every finding as worked out by hand.

In the comments B is the bore depth, X the installed length, e = 1/2 in the engagement of 1/2 NPT, P the order length.
A fitting and a loose insert want P = B + X, on a quarter of an inch, or on 5 mm where the bore is metric.
"""

import io
import runpy
from math import sqrt
from pathlib import Path
from typing import NamedTuple

import openpyxl
import pytest

from thermowell_index.cli import main
from thermowell_index.pipeline import CheckResult, Settings, check_workbook

GENERATOR = runpy.run_path(str(Path(__file__).with_name("sample_index.py")))
SAMPLE: Path = GENERATOR["SAMPLE"]
INCH, METRIC = "U310-330", "U340"
MM_IN_AN_INCH = 25.4
STATED, MEASURED = "stated", "measured"
LESS_TIP, LESS_ASSUMED_TIP = "overall less tip", "overall less assumed tip"
SIZED, REVIEW, WITHHELD = "sized", "review", "withheld"


class Lengths(NamedTuple):
    """What is known of one point, in the unit of its sheet; None is blank."""

    tag: str
    bore: float | None
    basis: str
    installed: float | None
    order: float | None
    verdict: str


NOT_KNOWN = None, ""
INCH_POINTS = (
    Lengths("310-TE-101", 9, STATED, 0, 9, SIZED),  # 9-1/4 - 1/4 = 9
    Lengths("310-TE-102", 12, LESS_TIP, 0, 12, SIZED),  # its well's row: 12-1/4 - 1/4 = 12
    Lengths("310-TE-104", 6, STATED, 3, 9, SIZED),  # X = 4 - 1/2 - 1/2 = 3; 6 + 3
    Lengths("310-TE-105", 6, STATED, 3, 9, SIZED),  # installed length given; 6 + 3
    Lengths("310-TE-106", 9, STATED, 6, 15, SIZED),  # installed length given; 9 + 6
    Lengths("310-TE-108", 9.03125, MEASURED, 0, 9, SIZED),  # as found 9-1/32; nearest quarter 9
    Lengths("310-TE-109", 12, LESS_ASSUMED_TIP, 0, 12, SIZED),  # 12-1/4 - 1/4 assumed
    # fixed: longest = 10-1/2 - 1/2 - 1/16 - 0.1136 = 9.824; the quarter below is 9-3/4
    Lengths("310-TE-110", 10.5, STATED, 0, 9.75, SIZED),
    Lengths("310-TE-112", 15, STATED, 0, 15, SIZED),  # 10-1/2 + 3 + 1-3/4 - 1/4 = 15
    Lengths("310-TE-113", 14, STATED, 0, 14, SIZED),  # 12 + 2-1/4 - 1/4 = 14
    Lengths("320-TE-201", 6, STATED, 3, None, WITHHELD),  # fitting on a nipple of 4: X = 3
    Lengths("320-TE-202", 15, STATED, 3, None, WITHHELD),  # 4 less 1/2 and 1/2, also for 3/4 NPT
    Lengths("320-TE-203", 15, STATED, 0, None, WITHHELD),
    Lengths("320-TE-204", 12, STATED, 0, None, WITHHELD),
    Lengths("320-TE-205", 6, STATED, 0, None, WITHHELD),  # X = 1 - 1/2 - 1/2: the ends meet
    Lengths("320-TE-206", 6, STATED, 0, None, WITHHELD),
    Lengths("320-TE-207", 9, STATED, 0, None, WITHHELD),
    Lengths("320-TE-208", 9, STATED, 0, None, WITHHELD),
    Lengths("320 TE 208", 12, STATED, 0, None, WITHHELD),
    Lengths("320-TE-209", 9, STATED, 0, 9, REVIEW),
    Lengths("320-TE-210", 9, STATED, 0, 9, REVIEW),  # stated 8-1/2: c = 8-1/2 - (9 - 1/2) = 0
    Lengths("320-TE-211", 9, STATED, 0, 9, REVIEW),  # stated 9-1/2: c = 1, the whole travel
    Lengths("320-TE-212", 9, STATED, 0, 9, REVIEW),  # stated 8-5/8: c = 1/8, least 1/8 - 0.114 < 1/8 of preload
    Lengths("320-TE-213", 9, STATED, 0, 9, REVIEW),  # stated 9-3/8: c = 7/8, most 7/8 + 0.114 > 0.95
    # fixed: longest = 9 - 1/2 - 1/16 - 0.1136 = 8.324; the quarter below is 8-1/4
    Lengths("320-TE-214", 9, STATED, 0, 8.25, REVIEW),  # stated 8-1/2: gap = 8-1/2 - 8-1/2 = 0
    Lengths("320-TE-215", 9, STATED, 0, 8.25, REVIEW),  # stated 7-3/4: gap = 3/4, more than 1/2
    Lengths("320-TE-216", 9, STATED, 0, None, WITHHELD),  # travel 1/4 - 0.059 < 2 x 0.114
    # travel 3/4, tip 3/16 to 3/8: 8.5 + 0.094 + 0.176 = 8.770 to 8.5 + 0.7125 - 0.239 = 8.974, and no quarter between;
    # with the usual tip 9 fits
    Lengths("320-TE-217", 9, LESS_ASSUMED_TIP, 0, 9, REVIEW),
    Lengths("", 12, STATED, 0, None, WITHHELD),
    Lengths("320-TE-218", *NOT_KNOWN, 0, None, WITHHELD),
    Lengths("320-TE-219", 15, STATED, 0, None, WITHHELD),
    Lengths("320-TE-220", 12, STATED, 0, None, WITHHELD),
    Lengths("320-TE-221", 9, STATED, None, None, WITHHELD),
    Lengths("320-TE-222", 9, STATED, None, None, WITHHELD),
    Lengths("320-TE-223", 9, STATED, None, None, WITHHELD),  # 4 in bought adds 5 in, 4 in installed adds 4
    Lengths("320-TE-224", 6, STATED, 0, 6, SIZED),  # 6-1/4 - 1/4
    Lengths("320-TE-225", 6, STATED, 0, 6, REVIEW),
    Lengths("320-TE-226", *NOT_KNOWN, 0, None, WITHHELD),
    Lengths("320-TE-227", *NOT_KNOWN, 0, None, WITHHELD),
    Lengths("320-TE-228", *NOT_KNOWN, 0, None, WITHHELD),
    Lengths("320-TE-229", 9.25, STATED, 0, None, WITHHELD),
    Lengths("320-TE-230", 8.5, STATED, 0, None, WITHHELD),  # 9-1/4 - 8-1/2 = 3/4, tip 1/4
    Lengths("320-TE-231", 9, STATED, 0, None, WITHHELD),  # U 9 > 9-1/4 - 1/2
    Lengths("320-TE-232", 9, STATED, 0, None, WITHHELD),  # 9 + 3 = 12-1/4 - 1/4
    Lengths("320-TE-233", 8.75, STATED, 0, None, WITHHELD),  # U 9 - tip 1/4
    Lengths("320-TE-234", 7.5, STATED, 0, None, WITHHELD),
    Lengths("320-TE-235", 9, STATED, 0, None, WITHHELD),  # its well's row: 10
    Lengths("330-TE-301", 9, STATED, 0, 9, SIZED),
    Lengths("330-TE-302", 12.5, STATED, 0, 12.5, SIZED),  # 10-1/2 + 2-1/4 - 1/4
    Lengths("330-TE-303", 9, STATED, 6, 15, SIZED),  # X = 3 + 3 - 4 x 1/2 + 2 = 6
    Lengths("330-TE-304", 9, STATED, 2.5, 11.5, SIZED),  # X = 3-1/2 - 1/2 - 1/2
    Lengths("330-TE-305", 15.5, STATED, 0, 15.5, SIZED),  # 13-1/2 + 2-1/4 - 1/4
    Lengths("330-TE-306", 11, STATED, 0, 11, SIZED),  # 11-1/4 - 1/4
    Lengths("330-TE-307", 6, STATED, 0, 6, SIZED),
    Lengths("330-TE-308", 5.96875, MEASURED, 0, 6, SIZED),  # as found 5-31/32
    Lengths("330-TE-309", 12, STATED, 3.5, 15.5, SIZED),
    # fixed: longest = 18 - 1/2 - 1/16 - 0.1136 = 17.324; the quarter below is 17-1/4
    Lengths("330-TE-310", 18, STATED, 0, 17.25, SIZED),
)
METRIC_POINTS = (
    Lengths("340-TE-401", 235, STATED, 0, 235, SIZED),
    Lengths("340-TE-403", 228, STATED, 0, 230, SIZED),  # nearest 5 mm
    Lengths("340-TT-404", 285, STATED, 0, 285, SIZED),
    Lengths("340-TE-405", 235.5, STATED, 0, 235, SIZED),
    # flanged inserts: form 4, total length + 175 mm
    Lengths("340-TE-406", 195, LESS_TIP, 165, 375, SIZED),  # 200 - 5; 200 + 175
    Lengths("340-TE-407", 255, STATED, 165, 435, SIZED),  # 260 + 175
    Lengths("340-TE-408", 405, LESS_ASSUMED_TIP, 165, 585, SIZED),  # 410 - 5; 410 + 175
    Lengths("340-TE-409", 200, STATED, 120, 320, SIZED),  # loose insert: 200 + 120
    Lengths("340-TE-410", 234.95, STATED, 0, 234.95, SIZED),  # 9-1/4 in, on a quarter of an inch
    Lengths("340-TE-411", 235, STATED, 0, 235, SIZED),  # 23.5 cm
    Lengths("340-TE-421", 220, STATED, 165, None, WITHHELD),
    Lengths("340-TE-422", *NOT_KNOWN, 0, None, WITHHELD),
    Lengths("340-TE-423", *NOT_KNOWN, 0, None, WITHHELD),
    Lengths("340-TE-424", 17.5, LESS_ASSUMED_TIP, 0, None, WITHHELD),  # 23.5, in cm most likely, less 6
    Lengths("340-TE-425", 235, STATED, 0, 235, REVIEW),
    Lengths("K341-TE-501", 229, LESS_ASSUMED_TIP, 0, 230, SIZED),  # 235 - 6; nearest 5 mm
    Lengths("K341-TE-502", 279, LESS_ASSUMED_TIP, 0, 280, SIZED),  # 285 - 6
    Lengths("K341-TE-503", 229, LESS_ASSUMED_TIP, 0, 230, REVIEW),
    Lengths("K341-TE-504", 329, LESS_ASSUMED_TIP, 0, 330, SIZED),  # 335 - 6
)
NOT_APPLICABLE = (
    *("310-PT-100", "310-FT-100", "310-TT-101", "310-TW-102", "310-LT-103", "310-TI-107", "310-PDT-111"),
    *("310-TE-114", "310-TE-115", "310-TE-116", "320-PT-200", "320-FT-208", "320-LT-213", "320-TW-235"),
    *("330-FT-300", "330-LT-305", "330-PT-308", "330-TW-311"),
    *("340-PT-402", "340-LT-412", "340-FV-413", "340-TE-414", "340-TI-415", "K341-PT-502"),
)
# The turn of 1/2 NPT is 1/14 in. A spring of 1 in keeps 1/8 in as preload and 1/20 in as reserve.
ONE_JOINT = sqrt(2 * (1 / 16) ** 2 + (1 / 14) ** 2)  # bore, probe, the fitting's thread
TWO_JOINTS = sqrt(3 * (1 / 16) ** 2 + 2 * (1 / 14) ** 2)  # with the extension and the nipple's thread in the well
FOUR_JOINTS = sqrt(3 * (1 / 16) ** 2 + 4 * (1 / 14) ** 2)
WINDOWS = {
    "310-TE-101": (8.5 + 1 / 8 + ONE_JOINT, 8.5 + 1 - 1 / 20 - ONE_JOINT),
    "310-TE-104": (8.5 + 1 / 8 + TWO_JOINTS, 8.5 + 1 - 1 / 20 - TWO_JOINTS),
    "330-TE-303": (14.5 + 1 / 8 + FOUR_JOINTS, 14.5 + 1 - 1 / 20 - FOUR_JOINTS),
    # the tip can be 1/16 thinner or 1/8 thicker than the 1/4 assumed
    "310-TE-109": (11.5 + 1 / 8 + ONE_JOINT + 1 / 16, 11.5 + 1 - 1 / 20 - ONE_JOINT - 1 / 8),
    "310-TE-110": (10 - 1 / 2, 10 - 1 / 16 - ONE_JOINT),
}
SINGLE_FINDINGS = {
    ("fitting_onto_bare_nipple", "320-TE-201", "extension_arrangement", "error"),
    ("threads_do_not_mate", "320-TE-202", "instrument_thread", "error"),
    ("thread_not_known", "320-TE-203", "instrument_thread", "error"),
    ("shoulder_thread_as_taper", "320-TE-204", "instrument_thread", "error"),
    ("nipple_shorter_than_threads", "320-TE-205", "nipple_length", "error"),
    ("insert_with_nothing_to_press_it", "320-TE-206", "extension_arrangement", "warning"),
    ("sheath_will_not_enter", "320-TE-207", "bore_diameter", "error"),
    ("tag_twice", "320-TE-208", "tag", "error"),
    ("tag_twice", "320 TE 208", "tag", "error"),
    ("well_tag_of_another_loop", "320-TE-209", "well_tag", "warning"),
    ("tip_never_touches", "320-TE-210", "probe_length", "error"),
    ("spring_goes_solid", "320-TE-211", "probe_length", "error"),
    ("tip_may_not_touch", "320-TE-212", "probe_length", "warning"),
    ("spring_may_go_solid", "320-TE-213", "probe_length", "warning"),
    ("fixed_sensor_bottoms", "320-TE-214", "probe_length", "error"),
    ("fixed_sensor_stands_off", "320-TE-215", "probe_length", "warning"),
    # 8-1/2 and 8-5/8 are short by about e, 9-1/2 and 9-3/8 long by it; the fixed 8-1/2 is 1/8 over 9 - 1/2 - 1/8
    *(("length_tells_its_mistake", f"320-TE-{number}", "probe_length", "warning") for number in range(210, 215)),
    ("no_length_fits", "320-TE-216", "bore_depth", "error"),
    ("tip_assumed", "320-TE-217", "tip_thickness", "warning"),
    ("dimensions_without_tag", "", "tag", "error"),
    ("bore_depth_unknown", "320-TE-218", "bore_depth", "error"),
    ("mounting_not_stated", "320-TE-219", "sensor_mounting", "error"),
    ("mounting_not_stated", "320-TE-220", "sensor_mounting", "error"),
    ("extension_not_stated", "320-TE-221", "extension_arrangement", "error"),
    ("extension_without_length", "320-TE-222", "extension_length", "error"),
    ("union_basis_not_stated", "320-TE-223", "extension_length", "error"),
    ("unit_not_known", "320-TE-225", "probe_length", "error"),
    ("date_for_dimension", "320-TE-226", "bore_depth", "error"),
    ("range_for_dimension", "320-TE-227", "bore_depth", "warning"),
    ("dead_formula", "320-TE-228", "bore_depth", "error"),
    ("bore_deeper_than_well", "320-TE-229", "bore_depth", "error"),
    ("tip_does_not_add_up", "320-TE-230", "bore_depth", "error"),
    ("insertion_longer_than_well", "320-TE-231", "insertion_length", "error"),
    ("lagging_left_out", "320-TE-232", "bore_depth", "error"),
    ("bore_from_flange_face", "320-TE-233", "bore_depth", "error"),
    ("insertion_copied_as_bore", "320-TE-234", "bore_depth", "warning"),
    ("one_well_two_depths", "320-TE-235", "bore_depth", "error"),
    ("not_a_sensor_in_a_well", "310-TI-107", "sensor_type", "note"),
    ("not_a_sensor_in_a_well", "330-TW-311", "sensor_type", "note"),
    ("seat_height_not_known", "340-TE-421", "sensor_mounting", "error"),
    ("range_for_dimension", "340-TE-422", "bore_depth", "error"),
    ("unreadable_dimension", "340-TE-423", "bore_depth", "error"),
    ("implausible_length", "340-TE-424", "overall_length", "error"),
    ("units_disagree", "340-TE-425", "insulation_thickness", "error"),
    ("two_columns_differ", "K341-TE-503", "insertion_length", "error"),
}
INCH_TAGS = {point.tag for point in INCH_POINTS}
METRIC_TAGS = {point.tag for point in METRIC_POINTS}
PACKAGE_TAGS = {tag for tag in METRIC_TAGS if tag.startswith("K341")}
WITHOUT_SPRING = {"310-TE-110", "320-TE-214", "320-TE-215", "330-TE-310"}
TRAVEL_STATED = {"320-TE-216", "320-TE-217"}
MOUNTING_UNKNOWN = {"320-TE-219", "320-TE-220"}
WITH_NECK = {"340-TE-406", "340-TE-407", "340-TE-408", "340-TE-409", "340-TE-421"}
FOLDED_FINDINGS = {
    ("travel_assumed", INCH): INCH_TAGS - WITHOUT_SPRING - TRAVEL_STATED - MOUNTING_UNKNOWN,
    ("tip_assumed", INCH): {"310-TE-109"},
    ("status_word_not_known", INCH): {"320-TE-224"},
    ("column_absent", METRIC): METRIC_TAGS,
    ("travel_assumed", METRIC): METRIC_TAGS,
    ("tip_assumed", METRIC): {"340-TE-408", *PACKAGE_TAGS},
    ("blank_extension_is_none", METRIC): METRIC_TAGS - WITH_NECK - PACKAGE_TAGS,
    ("mounting_from_basis", METRIC): PACKAGE_TAGS,
    ("extension_from_basis", METRIC): PACKAGE_TAGS,
    ("unnamed_length_column", METRIC): PACKAGE_TAGS,
}


@pytest.fixture(scope="module")
def result() -> CheckResult:
    """The sample as checked by the built-in design basis."""
    return check_workbook(SAMPLE, write=False)


def lengths_of(result: CheckResult, sheet: str, unit_mm: float) -> list[Lengths]:
    """Return the points of a sheet as read, in its unit to a millionth, in the order of its rows."""

    def length(value: float) -> float | None:
        return None if value != value else round(value / unit_mm, 6)  # noqa: PLR0124 - NaN is not itself

    points = result.table[(result.table["sheet"] == sheet) & (result.table["verdict"] != "not applicable")]
    return [
        Lengths(
            row["tag"],
            length(row["bore_depth_used_mm"]),
            row["bore_depth_basis"],
            length(row["extension_installed_mm"]),
            length(row["probe_length_order_mm"]),
            row["verdict"],
        )
        for _, row in points.iterrows()
    ]


def test_the_lengths_in_inches_are_those_worked_out_by_hand(result: CheckResult) -> None:
    assert lengths_of(result, INCH, MM_IN_AN_INCH) == list(INCH_POINTS)


def test_the_lengths_in_millimetres_are_those_worked_out_by_hand(result: CheckResult) -> None:
    assert lengths_of(result, METRIC, 1.0) == list(METRIC_POINTS)


def test_the_other_rows_are_not_applicable(result: CheckResult) -> None:
    rows = result.table[result.table["verdict"] == "not applicable"]
    assert tuple(rows["tag"]) == NOT_APPLICABLE


@pytest.mark.parametrize("tag", WINDOWS)
def test_the_window_is_the_one_worked_out_by_hand(result: CheckResult, tag: str) -> None:
    row = result.table[result.table["tag"] == tag].iloc[0]
    window = (row["shortest_fit_mm"] / MM_IN_AN_INCH, row["longest_fit_mm"] / MM_IN_AN_INCH)
    assert window == pytest.approx(WINDOWS[tag], abs=1e-6)


def test_each_trouble_is_found_and_nothing_else(result: CheckResult) -> None:
    found = [
        (finding.rule, finding.tag, finding.field, str(finding.severity))
        for finding in result.findings
        if not finding.folded
    ]
    assert len(found) == len(set(found))
    assert set(found) == SINGLE_FINDINGS


def test_what_repeats_over_a_sheet_is_one_finding_with_its_tags(result: CheckResult) -> None:
    found = {(finding.rule, finding.sheet): set(finding.tags) for finding in result.findings if finding.folded}
    assert found == FOLDED_FINDINGS


def test_a_finding_points_to_a_cell_on_the_row_of_its_tag(result: CheckResult) -> None:
    workbook = openpyxl.load_workbook(SAMPLE)
    tag_columns = {INCH: "B", METRIC: "A"}
    for finding in result.findings:
        if not finding.folded:
            tag = workbook[finding.sheet][f"{tag_columns[finding.sheet]}{finding.row}"].value
            assert (tag or "", finding.cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")) == (finding.tag, str(finding.row))


def test_most_rows_have_no_finding_of_their_own(result: CheckResult) -> None:
    own = {row_id for finding in result.findings if not finding.folded for row_id in finding.row_ids}
    assert len(own) < len(result.table) / 2


def test_a_design_basis_fills_the_gaps_it_is_asked_to_fill(tmp_path: Path) -> None:
    basis = tmp_path / "design_basis.toml"
    basis.write_text(
        '[index]\nmounting_of_blank = "spring-loaded fitting"\n[extension]\nstandard_length = "4 in"\n'
        'union_length_means = "installed"\n',
        encoding="utf-8",
    )
    result = check_workbook(SAMPLE, Settings(basis=basis), write=False)
    orders = dict(zip(result.table["tag"], result.table["probe_length_order_mm"] / MM_IN_AN_INCH, strict=True))
    notes = {finding.rule: finding.tags for finding in result.findings if finding.folded and finding.sheet == INCH}
    assert notes["blank_mounting_from_basis"] == ("320-TE-220",)
    assert notes["standard_extension_taken"] == ("320-TE-222",)
    assert orders["320-TE-220"] == pytest.approx(12)  # a fitting in a bore of 12
    assert orders["320-TE-222"] == pytest.approx(12)  # 9 + 4 - 1/2 - 1/2
    assert orders["320-TE-223"] == pytest.approx(13)  # 9 + 4 installed


def test_the_revision_is_read_from_the_title_block(result: CheckResult) -> None:
    assert result.report.run.revision == "C"


def test_the_command_writes_the_answer_and_leaves_the_index_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = SAMPLE.read_bytes()
    answer = tmp_path / "answer.xlsx"
    assert main(["check", str(SAMPLE), "--out", str(answer)]) == 1
    assert f"written: {answer}" in capsys.readouterr().out
    assert SAMPLE.read_bytes() == before
    assert {INCH, METRIC, "Discrepancies", "Order schedule"} <= set(openpyxl.load_workbook(answer).sheetnames)


def test_the_workbook_is_what_its_generator_writes() -> None:
    """After a change: run `python tests/sample_index.py`."""
    assert contents(SAMPLE.read_bytes()) == contents(GENERATOR["sample_bytes"]())


def test_the_generator_writes_the_same_bytes_every_time() -> None:
    assert GENERATOR["sample_bytes"]() == GENERATOR["sample_bytes"]()


def test_every_formula_has_a_stored_result() -> None:
    formulas, results = (openpyxl.load_workbook(SAMPLE, data_only=only) for only in (False, True))
    places = [
        (sheet.title, cell.coordinate)
        for sheet in formulas
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    ]
    assert len(places) > len(INCH_POINTS)
    assert [place for place in places if results[place[0]][place[1]].value is None] == []


def contents(workbook: bytes) -> list[object]:
    """Return what stands in a workbook and how it looks, whichever version of the library wrote it."""
    found: list[object] = []
    for only_results in (False, True):
        for sheet in openpyxl.load_workbook(io.BytesIO(workbook), data_only=only_results):
            found += [
                (sheet.title, cell.coordinate, cell.value, cell.number_format, cell.font.strike, cell.fill.fgColor.rgb)
                for row in sheet.iter_rows()
                for cell in row
            ]
            found += [str(merged) for merged in sheet.merged_cells.ranges]
            found += [(letters, one.width) for letters, one in sheet.column_dimensions.items()]
            found += [sheet.freeze_panes, sheet.auto_filter.ref, sheet.print_title_rows, list(sheet.tables)]
    return found
