"""The sheet Substitutes and its part of the JSON."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from openpyxl import load_workbook

from thermowell_index.answers import ItemUse, PassedOver, StockFit, StockItem, StoreList, Substitutes, TagSubstitutes
from thermowell_index.ooxml import Package
from thermowell_index.writer import write_checked
from thermowell_index.writer.answer_json import as_data
from thermowell_index.writer.report import Report

IN = 25.4
ITEM = StockItem(
    item="S-101",
    sheet="Store",
    row=4,
    length_mm=9.25 * IN,
    unit="in",
    diameter_mm=6.35,
    diameter="1/4 in",
    mounting="spring-loaded fitting",
    kind="RTD Pt100",
    thread="1/2 NPT",
    quantity=2,
)
BARE = StockItem(
    item="S-102",
    sheet="Store",
    row=5,
    length_mm=235.0,
    unit="mm",
    diameter_mm=float("nan"),
    diameter="",
    mounting="",
    kind="",
    thread="",
    quantity=0,
)


def _tag(**changes: Any) -> TagSubstitutes:
    values: dict[str, Any] = {
        "tag": "TE-1001",
        "sheet": "Utilities",
        "row": 6,
        "unit": "in",
        "order_mm": 9 * IN,
        "shortest_mm": 8.74 * IN,
        "longest_mm": 9.34 * IN,
        "fits": (StockFit(item=ITEM, margin_mm=0.09 * IN, confirm=("thread", "sensor type")),),
        "set_aside": ("S-101",),
        **changes,
    }
    return TagSubstitutes(**values)


def _answer(*tags: TagSubstitutes, bare: StockItem = BARE, **of_store: Any) -> Substitutes:
    return Substitutes(
        store=StoreList(name="store.csv", items=(ITEM, bare), **of_store),
        tags=tags,
        items=(
            ItemUse(item=ITEM, serves=("TE-1001",), also_fits=("TE-1002", "TE-1005")),
            ItemUse(item=bare, serves=(), also_fits=()),
        ),
    )


def _lines(index_path: Path, report: Report) -> list[list[object]]:
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, target)
    rows = load_workbook(target)["Substitutes"].iter_rows(values_only=True)
    return [[value for value in row if value is not None] for row in rows]


def test_a_tag_stands_with_what_fits_it_now(index_path: Path, make_report: Callable[..., Report]) -> None:
    lines = _lines(index_path, make_report(substitutes=_answer(_tag(), _tag(tag="TE-1005", fits=(), set_aside=()))))
    assert [
        "TE-1001",
        "Utilities row 6",
        "9 in",
        "8.74 in",
        "9.34 in",
        1,
        "S-101",
        "S-101: 9-1/4 in, margin 0.09 in; confirm thread, sensor type",
    ] in lines
    assert ["Nothing in the store fits 1 row: TE-1005"] in lines
    summary = "store.csv: 2 usable lines. 1 of 2 rows with a length have an item that fits; pieces set aside: 1."
    assert [summary] in lines


def test_a_long_list_of_tags_without_an_item_goes_on_below(
    index_path: Path, make_report: Callable[..., Report]
) -> None:
    tags = [_tag(tag=f"TE-{number:05}", fits=(), set_aside=()) for number in range(900)]
    lines = _lines(index_path, make_report(substitutes=_answer(*tags)))
    texts = [
        str(line[0]).removeprefix("Nothing in the store fits 900 rows: ") for line in lines if "TE-00" in str(line)
    ]
    assert len(texts) > 1
    assert ", ".join(texts) == ", ".join(tag.tag for tag in tags)


def test_an_item_stands_with_whom_it_serves(index_path: Path, make_report: Callable[..., Report]) -> None:
    lines = _lines(index_path, make_report(substitutes=_answer(_tag())))
    assert [
        "S-101",
        "Store row 4",
        "9-1/4 in",
        "1/4 in",
        "spring-loaded fitting, RTD Pt100, 1/2 NPT",
        2,
        "TE-1001",
        "TE-1002, TE-1005",
    ] in lines
    assert ["S-102", "Store row 5", "235 mm", "not stated", "not stated", 0] in lines


def test_of_many_items_the_best_are_named_and_the_others_counted(
    index_path: Path, make_report: Callable[..., Report]
) -> None:
    many = tuple(StockFit(item=ITEM, margin_mm=float(margin), confirm=()) for margin in range(9, 0, -1))
    lines = _lines(index_path, make_report(substitutes=_answer(_tag(fits=many))))
    text = str(next(line for line in lines if line and line[0] == "TE-1001")[-1])
    assert text.splitlines()[0] == "S-101: 9-1/4 in, margin 0.35 in"
    assert text.splitlines()[-1] == "and 3 more"


def test_lines_that_were_not_used_are_listed(index_path: Path, make_report: Callable[..., Report]) -> None:
    passed = (PassedOver("Store row 9", "S-109, RTD", "no length"),)
    assert ["Store row 9", "S-109, RTD", "no length"] in _lines(
        index_path, make_report(substitutes=_answer(passed_over=passed))
    )


def test_a_list_without_quantities_says_so_and_counts_no_piece(
    index_path: Path, make_report: Callable[..., Report]
) -> None:
    note = "Store: no quantity column was found: how many there are is not stated, and none is set aside."
    found = _answer(_tag(), bare=replace(BARE, quantity=None), notes=(note,))
    report = make_report(substitutes=found)
    lines = _lines(index_path, report)
    assert [note] in lines
    assert ["S-102", "Store row 5", "235 mm", "not stated", "not stated", "not stated"] in lines
    data = as_data(report)["substitutes"]
    assert (data["notes"], data["items"][1]["quantity"]) == ([note], None)


def test_without_a_store_s_list_there_is_no_sheet_and_no_data(index_path: Path, report: Report) -> None:
    target = index_path.with_name("OUT.xlsx")
    with Package.open(index_path) as package:
        write_checked(report, package, target)
    assert "Substitutes" not in load_workbook(target).sheetnames
    assert "substitutes" not in as_data(report)


def test_the_data_says_the_same(make_report: Callable[..., Report]) -> None:
    passed = (PassedOver("Store row 9", "S-109, RTD", "no length"),)
    data = as_data(make_report(substitutes=_answer(_tag(), passed_over=passed)))["substitutes"]
    assert data["store"] == "store.csv"
    assert data["tags"] == [
        {
            "tag": "TE-1001",
            "sheet": "Utilities",
            "row": 6,
            "fits": [
                {
                    "item": "S-101",
                    "sheet": "Store",
                    "row": 4,
                    "length_mm": 234.95,
                    "margin_mm": 2.286,
                    "confirm": ["thread", "sensor type"],
                }
            ],
            "set_aside": ["S-101"],
        }
    ]
    assert data["items"][0] == {
        "item": "S-101",
        "sheet": "Store",
        "row": 4,
        "length_mm": 234.95,
        "quantity": 2,
        "serves": ["TE-1001"],
        "also_fits": ["TE-1002", "TE-1005"],
    }
    assert data["passed_over"] == [{"line": "Store row 9", "item": "S-109, RTD", "reason": "no length"}]
