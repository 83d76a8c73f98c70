"""The sheet Spares plan, as openpyxl reads it from the written workbook."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from openpyxl import Workbook, load_workbook

from thermowell_index.answers import SpareLength, SparesKind
from thermowell_index.ooxml import Package
from thermowell_index.writer import write_checked
from thermowell_index.writer.report import Report

IN = 25.4


def _length(**changes: Any) -> SpareLength:
    values: dict[str, Any] = {
        "length_mm": 9.25 * IN,
        "tags": ("TE-1001", "TE-1002"),
        "lost_tags": ("TE-1002",),
        "least_margin_mm": 0.2621 * IN,
        "tightest_tag": "TE-1002",
        **changes,
    }
    return SpareLength(**values)


def _kind(**changes: Any) -> SparesKind:
    values: dict[str, Any] = {
        "mounting": "spring-loaded fitting",
        "plane": "from end of mounting thread to tip, spring relaxed",
        "sheath_diameter": "1/4 in",
        "sensor_type": "RTD Pt100",
        "element_count": "",
        "sheath_material": "316 SS",
        "thread": "1/2 NPT",
        "increment_unit": "in",
        "lengths": (_length(),),
        "wells": 2,
        "ordered_lengths": 2,
        **changes,
    }
    return SparesKind(**values)


def _lines(index_path: Path, report: Report) -> list[list[object]]:
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, target)
    book: Workbook = load_workbook(target)
    rows = book["Spares plan"].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


def test_a_length_stands_with_whom_it_serves_and_who_is_lost(
    index_path: Path, make_report: Callable[..., Report]
) -> None:
    lines = _lines(index_path, make_report(spares=(_kind(),)))
    assert ["9-1/4 in", 2, "0.26 in", "TE-1002", "TE-1001, TE-1002", "TE-1002"] in lines
    assert ["spring-loaded fitting, 1/4 in, RTD Pt100, 316 SS, thread 1/2 NPT"] in lines
    assert ["2 tags of 1 kind of sensor: 1 length to keep, where each tag's own best takes 2."] in lines
    counts = "2 tags, 1 length to keep; each tag's own best takes 2."
    assert [f"Length measured from end of mounting thread to tip, spring relaxed. {counts}"] in lines


def test_a_metric_kind_is_written_in_millimetres_and_all_lost_tags_in_one_word(
    index_path: Path, make_report: Callable[..., Report]
) -> None:
    length = _length(length_mm=230.0, least_margin_mm=7.64, tags=("TE-2001",), lost_tags=("TE-2001",))
    lines = _lines(index_path, make_report(spares=(_kind(increment_unit="mm", lengths=(length,), wells=1, plane=""),)))
    assert ["230 mm", 1, "7.6 mm", "TE-1002", "TE-2001", "all of these"] in lines
    assert any("Length measured not stated." in str(line[0]) for line in lines if line)


def test_an_index_with_no_length_has_nothing_to_keep(index_path: Path, make_report: Callable[..., Report]) -> None:
    assert ["No well has a length to order, so there is nothing to keep."] in _lines(index_path, make_report())


def test_a_long_list_of_tags_goes_on_in_the_rows_below(index_path: Path, make_report: Callable[..., Report]) -> None:
    tags = tuple(f"TE-{number:05}" for number in range(600))
    lines = _lines(index_path, make_report(spares=(_kind(lengths=(_length(tags=tags, lost_tags=()),), wells=600),)))
    texts = [str(line[-1]) for line in lines if line and str(line[-1]).startswith("TE-0")]
    assert len(texts) > 1
    assert ", ".join(texts) == ", ".join(tags)
