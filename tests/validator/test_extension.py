"""What is not known of the extension is said once, by one check."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

UNION = {"extension_arrangement": "nipple and union"}
BOUGHT = {"basis": {"extension": {"union_length_means": "bought"}}}
PAIR = {
    "extension_arrangement": "nipple-union-nipple",
    "sensor_mounting": "spring-loaded insert",
    "nipple_length": "4",
    "probe_length": "",
}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "extension_not_stated": [
        ("fires on a blank where others say none in words", [{}, {"extension_arrangement": ""}], ["error TE-102 extension_arrangement"]),
        ("fires on words that name none", {"extension_arrangement": "TBD"}, ["error TE-101 extension_arrangement"]),
        ("is sound where it is stated", {}, []),
        ("is sound with an installed length given", {"extension_arrangement": "TBD", "installed_length": "3"}, []),
    ],
    "no_extension_but_a_length": [
        ("fires on none beside a nipple", {"nipple_length": "4"}, ["error TE-101 extension_arrangement"]),
        ("fires on none beside an installed length", {"installed_length": "3"}, ["error TE-101 extension_arrangement"]),
        ("warns where the installed length was read at the well", {"installed_length": "3", "surveyed": ("installed_length",)}, ["warning TE-101 extension_arrangement"]),
        ("is sound with a length of zero", {"extension_length": "0"}, []),
        ("is sound without a length", {}, []),
        ("is sound where an extension is named", {"sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple", "nipple_length": "4", "probe_length": ""}, []),
        ("leaves a blank to its own check", [{"extension_arrangement": "", "nipple_length": "4"}, {"extension_arrangement": "nipple and union", "nipple_length": "4"}], []),
    ],
    "blank_extension_is_none": [
        ("is noted where no row says none in words", [{"extension_arrangement": ""}, {"extension_arrangement": "nipple and union", "nipple_length": "4"}], ["note TE-101 extension_arrangement"]),
        ("is silent where it is stated", {}, []),
    ],
    "extension_from_basis": [
        ("is noted once a sheet", [{"extension_arrangement": None}] * 2, ["note TE-101+TE-102 extension_arrangement"]),
        ("is silent where the sheet says it", {}, []),
    ],
    "extension_without_length": [
        ("fires on an extension without one", UNION, ["error TE-101 extension_length"]),
        ("is sound with a bought nipple", {**UNION, "nipple_length": "4"}, []),
        ("is sound with an installed length", {**UNION, "installed_length": "5"}, []),
        ("leaves a cell in trouble to its own check", {**UNION, "nipple_length": "see drawing"}, []),
        ("is sound with the plant's standard", {**UNION, "basis": {"extension": {"standard_length": "4 in"}}}, []),
        ("is sound without an extension", {}, []),
    ],
    "standard_extension_taken": [
        ("is noted once a sheet", [{**UNION, "basis": {"extension": {"standard_length": "4 in"}}}, {}], ["note TE-101 extension_length"]),
        ("is silent where the length is stated", {**UNION, "nipple_length": "4", "basis": {"extension": {"standard_length": "4 in"}}}, []),
    ],
    "union_basis_not_stated": [
        ("fires on one length beside a union", {**UNION, "extension_length": "4"}, ["error TE-101 extension_length"]),
        ("fires on one nipple of two", {"extension_arrangement": "nipple-union-nipple", "sensor_mounting": "spring-loaded insert", "nipple_length": "4"}, ["error TE-101 extension_length"]),
        ("is sound with the nipple's own length", {**UNION, "nipple_length": "4"}, []),
        ("is sound without an extension", {}, []),
    ],
    "second_nipple_taken": [
        ("is noted once a sheet", [PAIR | BOUGHT, PAIR], ["note TE-101+TE-102 second_nipple_length"]),
        ("is silent where the second is stated", PAIR | BOUGHT | {"second_nipple_length": "3"}, []),
        ("is silent without the basis' word", PAIR, []),
        ("is silent of two equal ones in words", PAIR | BOUGHT | {"extension_arrangement": "two 4 in nipples with union", "nipple_length": ""}, []),
    ],
    "second_nipple_not_stated": [
        ("fires on a blank where others state it", [PAIR | BOUGHT | {"second_nipple_length": "3"}, PAIR | {"second_nipple_length": ""}], ["error TE-102 second_nipple_length"]),
        ("is silent where no row states one", [PAIR | BOUGHT, PAIR], []),
        ("is silent with an installed length", [PAIR | BOUGHT | {"second_nipple_length": "3"}, PAIR | {"installed_length": "8"}], []),
        ("needs a first nipple", [PAIR | BOUGHT | {"second_nipple_length": "3"}, PAIR | {"nipple_length": ""}], []),
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
