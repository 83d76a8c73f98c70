"""A sound row, changed by keyword, as a table that the checks can look at."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
import pandas as pd
import pytest

from thermowell_index.answers import FIELD_SURVEY
from thermowell_index.basis import Basis
from thermowell_index.basis_file import basis_from
from thermowell_index.dictionary import FIELDS
from thermowell_index.findings import Finding
from thermowell_index.judge import judge
from thermowell_index.records.build import build_records
from thermowell_index.records.relations import add_relations
from thermowell_index.registry import RULES, run, switches
from thermowell_index.sizing.engine import size_table
from thermowell_index.table import CellState, ColumnRead, IndexTable, Kind, TableRead
from thermowell_index.units import DimensionState, parse_dimension, to_mm
from thermowell_index.validator import AFTER_SIZING, FAMILIES

# A threaded well of 9-1/4 in with its sensor: everything is stated and everything fits. Lengths without a unit are
# inches, or what `length_unit` says. A value of None is a column that the sheet does not have.
SOUND: dict[str, Any] = {
    "service": "Wash water",
    "line_size": '6"',
    "pipe_schedule": "40",
    "well_connection": "1 NPT",
    "connection_size": "1",
    "shank_form": "tapered",
    "well_material": "316 SS",
    "overall_length": "9.25",
    "bore_depth": "9",
    "measured_bore_depth": None,
    "bore_diameter": "0.260",
    "tip_thickness": "0.25",
    "insertion_length": "7.5",
    "lagging_length": "",
    "root_diameter": "1.0",
    "tip_diameter": "0.75",
    "instrument_thread": "1/2 NPT",
    "sensor_mounting": "spring-loaded fitting",
    "extension_arrangement": "none",
    "sensor_type": "RTD Pt100",
    "sheath_diameter": "0.25",
    "spring_travel": "1",
    "probe_length": "9",
}
STATES = {
    DimensionState.VALUE: CellState.VALUE,
    DimensionState.MISSING: CellState.MISSING,
    DimensionState.DOUBTFUL: CellState.DOUBTFUL,
    DimensionState.RANGE: CellState.RANGE,
    DimensionState.UNREADABLE: CellState.UNREADABLE,
}
LENGTHS = [entry.name for entry in FIELDS if entry.kind is Kind.LENGTH]
Row = Mapping[str, Any]


def _length(name: str, value: Any, unit: str, row_id: int) -> dict[str, object]:
    """Frame columns of one length: a text, None for no column, or (state, text, note) for a cell in trouble."""
    state, text, note = value if isinstance(value, tuple) else (None, value or "", "")
    reading = parse_dimension(text)
    if state is None:
        state = STATES[reading.state] if text else CellState.MISSING
    if value is None:
        state = CellState.ABSENT
    own = reading.unit or unit
    is_value = state is CellState.VALUE and reading.number is not None
    return {
        f"{name}_mm": to_mm(reading.number, own) if is_value and reading.number is not None else np.nan,
        f"{name}_state": state,
        f"{name}_text": text,
        f"{name}_unit": own if text else "",
        f"{name}_unit_from": "cell" if reading.unit else "heading" if text else "",
        f"{name}_note": note or reading.note,
        f"{name}_row_id": -1 if state is CellState.ABSENT else row_id,
    }


def make_table(rows: Sequence[Row]) -> IndexTable:
    """Sound rows with what each changes; sheets are told apart by the key `sheet`, `NAME_shown` is what a cell shows,
    `NAME_drawn` what a drawing says beside what was measured, `surveyed` names the fields that were read at the well."""
    full = [{"tag": f"TE-{101 + number}", "sheet": "Index", **SOUND, **row} for number, row in enumerate(rows)]
    sheets = list(dict.fromkeys(row["sheet"] for row in full))
    tables, lines = {}, []
    for number, sheet in enumerate(sheets):
        own = [row for row in full if row["sheet"] == sheet]
        present = [e.name for e in FIELDS if any(row.get(e.name) is not None for row in own)]
        columns = {
            name: ColumnRead(
                field=name,
                column=place,
                heading=own[0].get("headings", {}).get(name, name),
                unit=None,
                unit_from="",
                why="given",
            )
            for place, name in enumerate(present, start=1)
        }
        undecided: list[tuple[int, str, tuple[str, ...]]] = (
            [(40, "LENGTH", ("overall_length", "bore_depth"))] if own[0].get("is_undecided") else []
        )
        unread = [(41, "DIM K")] if own[0].get("is_unread_length") else []
        tables[number] = TableRead(
            table_id=number,
            sheet=sheet,
            heading_row=1,
            first_row=2,
            columns=columns,
            undecided=undecided,
            unread=unread,
            unread_lengths=tuple(column for column, _ in unread),
            samples={41: ("9", "8.5")},
        )
    for row_id, row in enumerate(full):
        unit = row.get("length_unit") or "in"
        line: dict[str, object] = {
            "sheet": row["sheet"],
            "row": row_id + 2,
            "table_id": sheets.index(row["sheet"]),
            "is_hidden": False,
            "is_struck": bool(row.get("is_struck")),
            "other_words": row.get("other_words", ""),
            "notes": row.get("notes", ""),
            "unit": unit,
            "in_fractions": bool(row.get("in_fractions")),
        }
        for entry in FIELDS:
            value = row.get(entry.name)
            line |= _length(entry.name, value, unit, row_id) if entry.kind is Kind.LENGTH else {entry.name: value or ""}
        for name in row.get("surveyed", ()):
            line[f"{name}_unit_from"] = FIELD_SURVEY
        for name in LENGTHS:
            shown = parse_dimension(str(row.get(f"{name}_shown", ""))).number
            line[f"{name}_shown_mm"] = np.nan if shown is None else to_mm(shown, unit)
            drawn = parse_dimension(str(row.get(f"{name}_drawn", ""))).number
            line[f"{name}_drawn_mm"] = np.nan if drawn is None else to_mm(drawn, unit)
        lines.append(line)
    return IndexTable(frame=pd.DataFrame(lines), sheets=[], title_lines=[], tables=tables)


def basis_of(rows: Sequence[Row]) -> Basis:
    """The design basis that the first row asks for under the key `basis`, else the built-in one."""
    return basis_from(rows[0].get("basis", {}), name="test", where="test", switches=switches())


def built(rows: Sequence[Row], *, sized: bool = False) -> IndexTable:
    """The table as the checks before sizing, or those after it, see it."""
    basis = basis_of(rows)
    table = make_table(rows)
    build_records(table, basis)
    add_relations(table, basis.length_mm("limit.one_well"))
    if sized:
        frame = table.frame
        inputs = frame.assign(bore_depth_mm=frame["bore_depth_used_mm"], installed_mm=frame["extension_installed_mm"])
        inputs["mounting"] = inputs["mounting"].where(frame["is_point"], "")
        result = size_table(inputs)
        table.frame = pd.concat([frame, result[[name for name in result.columns if name not in frame]]], axis=1)
    return table


def is_after_sizing(rule: str) -> bool:
    return RULES[rule].check.__module__ in {FAMILIES[name].__name__ for name in AFTER_SIZING}


def fact(finding: Finding) -> str:
    """Severity, tags and field of a finding in a few words; a folded one has its tags joined."""
    return f"{finding.severity} {'+'.join(finding.tags)} {finding.field}"


@pytest.fixture
def choose() -> Callable[..., Basis]:
    return basis_of


@pytest.fixture
def build() -> Callable[..., IndexTable]:
    return built


@pytest.fixture
def speak() -> Callable[..., list[str]]:
    """What one check says of some rows, each a change of the sound row: severity, tags, field."""

    def said(rule: str, rows: Row | Sequence[Row]) -> list[str]:
        listed = [rows] if isinstance(rows, Mapping) else list(rows)
        table = built(listed, sized=is_after_sizing(rule))
        return [fact(finding) for finding in run([RULES[rule]], table, basis_of(listed))]

    return said


@pytest.fixture(scope="session")
def judged() -> Callable[[Sequence[Row]], list[Finding]]:
    """Everything that all checks together say of an index."""
    return lambda rows: judge(make_table(rows), basis_of(rows))


@pytest.fixture
def findings() -> Callable[..., list[Finding]]:
    """Everything that is said of some rows by all checks together."""

    def said(*rows: Row) -> list[Finding]:
        return judge(make_table(rows), basis_of(rows))

    return said


@pytest.fixture
def voices(findings: Callable[..., list[Finding]]) -> Callable[..., list[str]]:
    """The checks that speak of some rows as errors or warnings of their own, loudest first."""

    def said(*rows: Row) -> list[str]:
        own = [one for one in findings(*rows) if not one.folded and one.severity != "note"]
        return [f"{one.severity} {one.tag} {one.rule}" for one in own]

    return said
