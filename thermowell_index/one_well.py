"""One well by itself: the same reading, checks and sizing as a whole index, from lengths as a person types them."""

import textwrap
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import pandas as pd

from thermowell_index.basis import BUILT_IN, Basis
from thermowell_index.dictionary import FIELD, FIELDS
from thermowell_index.drawing import CLAMPED_LEGEND, LEGEND, Assembly, column_mm, drawing
from thermowell_index.errors import SettingsError
from thermowell_index.findings import Finding
from thermowell_index.judge import judge
from thermowell_index.one_well_words import NOT_FOR_ONE, finding_text
from thermowell_index.report_text import CAUTIONS
from thermowell_index.table import CellState, ColumnRead, Field, Frame, IndexTable, Kind, TableRead, number, word
from thermowell_index.units import METRIC, DimensionState, format_length, parse_dimension, to_mm, unit_of_words
from thermowell_index.wording import row_length

STATES = {
    DimensionState.VALUE: CellState.VALUE,
    DimensionState.MISSING: CellState.MISSING,
    DimensionState.DOUBTFUL: CellState.DOUBTFUL,
    DimensionState.RANGE: CellState.RANGE,
    DimensionState.UNREADABLE: CellState.UNREADABLE,
}
LENGTHS = {
    "bore depth": "bore_depth_used_mm",
    "extension installed": "extension_installed_mm",
    "probe length computed": "probe_length_computed_mm",
    "probe length to order": "probe_length_order_mm",
    "shortest that fits": "shortest_fit_mm",
    "longest that fits": "longest_fit_mm",
    "compression": "compression_nominal_mm",
    "compression, least": "compression_min_mm",
    "compression, most": "compression_max_mm",
    "margin": "margin_mm",
    "first touch": "first_touch_mm",
}


@dataclass(frozen=True, kw_only=True)
class SizedProbe:
    """What came out for one well; lengths [mm] are None where there is none."""

    verdict: str
    reason: str
    order_mm: float | None
    lengths_mm: Mapping[str, float]
    shown: Mapping[str, str]
    basis: str
    unit: str
    plane: str
    working: str
    assembly: Assembly | None
    findings: Sequence[Finding]

    def as_text(self, width: int) -> str:
        """Return verdict, lengths, working and findings as lines of text."""
        reason = f": {self.reason}" if self.reason else ""
        wide = max(len(name) for name in LENGTHS)
        lines = [f"{self.verdict}{reason}"]
        lines += [f"  {name:<{wide}}  {text}" for name, text in self.shown.items()]
        if self.order_mm is not None:
            lines.append(f"  measured {self.plane}")
        if self.assembly is not None:
            lines += ["", *self._drawn(self.assembly, width)]
        lines += ["", "working", *_bullets(self.working.split("; "), width)]
        if self.findings:
            lines += ["", "findings", *_bullets([finding_text(finding) for finding in self.findings], width)]
        return "\n".join([*lines, "", *textwrap.wrap(f"Caution: {CAUTIONS[0]} {CAUTIONS[1]}", width)])

    def _drawn(self, assembly: Assembly, width: int) -> list[str]:
        """Return the drawing to scale, with its scale and its signs said below it."""
        scale = format_length(column_mm(assembly, width - 2), self.unit, fractions=False)
        signs = CLAMPED_LEGEND if assembly.is_clamped else LEGEND
        legend = textwrap.wrap(f"one character is {scale}; {signs}", width - 2)
        return ["to scale", *(f"  {line}" for line in (*drawing(assembly, width - 2), *legend))]


def _bullets(texts: Sequence[str], width: int) -> list[str]:
    return [
        line for text in texts for line in textwrap.wrap(text, width, initial_indent="  ", subsequent_indent="      ")
    ]


def size_probe(*, basis: Basis = BUILT_IN, **values: str) -> SizedProbe:
    """Size the sensor of one well.

    Parameters
    ----------
    basis : Basis, optional
        The design basis; the built-in one where none is given. [-]
    **values : str
        Fields of the data dictionary as an index would state them: lengths with their unit (`bore_depth="9 in"`,
        `overall_length="235 mm"`), words as they are written (`sensor_mounting="spring-loaded insert"`,
        `extension_arrangement="nipple"`). What is not given is a column that the index does not have. A length without
        a unit is in `length_unit`, else in the design basis' `index.unit`, else withheld. [-]

    Returns
    -------
    SizedProbe
        The length to order with its limits and its working, or why it is withheld. [mm]

    Raises
    ------
    SettingsError
        A value is given for a field that the dictionary does not have, or the `length_unit` is none.

    Notes
    -----
    P = B + X + s + target compression, rounded to the increment inside [shortest, longest].

    Source: geometry; the assumptions of the design basis.

    Examples
    --------
    A well of 9-1/4 in overall with a 1/4 in tip takes a 9 in sensor:

    >>> size_probe(overall_length="9-1/4 in", tip_thickness="1/4 in").shown["probe length to order"]
    '9 in'
    >>> size_probe(overall_length="9-1/4", tip_thickness="1/4", length_unit="in").shown["probe length to order"]
    '9 in'

    """
    unknown = [name for name in values if name not in FIELD]
    if unknown:
        raise SettingsError(f"no such field: {', '.join(unknown)}; there are {', '.join(FIELD)}")
    table = _one_row(values, _unit_of_bare(values.get("length_unit", ""), basis))
    findings = judge(table, basis)
    return _result(table, findings)


def _unit_of_bare(stated: str, basis: Basis) -> tuple[str, str]:
    """Return the unit of lengths that are typed without one and who says so, both empty where nobody does."""
    if not stated:
        unit = basis.choice("index.unit")
        return unit, "design basis" if unit else ""
    understood = unit_of_words(stated)
    if not understood:
        raise SettingsError(f"no unit of length: {stated}; there are in and mm")
    return understood, "unit column"


def _one_row(values: Mapping[str, str], bare: tuple[str, str]) -> IndexTable:
    columns = {
        name: ColumnRead(field=name, column=number, heading=name, unit=None, unit_from="", why="given")
        for number, name in enumerate(values, start=1)
    }
    read = TableRead(table_id=0, sheet="one well", heading_row=1, first_row=2, last_row=2, columns=columns)
    row: dict[str, object] = {"sheet": "one well", "row": 2, "table_id": 0, "is_hidden": False, "is_struck": False}
    row["other_words"] = row["notes"] = ""
    units: list[str] = []
    for entry in FIELDS:
        text = values.get(entry.name, "").strip()
        row |= _length(entry, text, units, bare) if entry.kind is Kind.LENGTH else {entry.name: text}
    row["tag"] = row["tag"] or "TE-1"
    row["unit"] = ("mm" if units[0] in METRIC else "in") if units else "in"
    row["in_fractions"] = any("/" in text for text in values.values())
    return IndexTable(frame=pd.DataFrame([row]), sheets=[], title_lines=[], tables={0: read})


UNIT_ORDER = ("measured_bore_depth", "bore_depth", "overall_length")


def _length(entry: Field, text: str, units: list[str], bare: tuple[str, str]) -> dict[str, object]:
    """Return the frame columns of one length; the unit of the well's own lengths is the row's."""
    reading = parse_dimension(text)
    state = STATES[reading.state] if text else CellState.ABSENT
    unit, unit_from = (reading.unit, "cell") if reading.unit else bare if text else ("", "")
    if state is CellState.VALUE and reading.number != 0:
        state = _state_of_number(text, unit, unit_from)
    value = np.nan
    if state is CellState.VALUE and reading.number is not None:
        value = to_mm(reading.number, unit or "in")
        if unit:
            units.insert(0 if entry.name in UNIT_ORDER else len(units), unit)
    name = entry.name
    return {
        f"{name}_mm": value,
        f"{name}_state": state,
        f"{name}_text": text,
        f"{name}_unit": unit,
        f"{name}_unit_from": unit_from,
        f"{name}_note": reading.note,
        f"{name}_shown_mm": np.nan,
        f"{name}_drawn_mm": np.nan,
        f"{name}_row_id": -1 if state is CellState.ABSENT else 0,
    }


def _state_of_number(text: str, unit: str, unit_from: str) -> CellState:
    if not unit:
        return CellState.NO_UNIT
    if unit in METRIC and unit_from != "cell" and "/" in text:
        return CellState.UNREADABLE  # a bare fraction is of an inch, or two numbers
    return CellState.VALUE


def _result(table: IndexTable, findings: Sequence[Finding]) -> SizedProbe:
    frame = table.frame
    lengths = {name: float(frame[column].iloc[0]) for name, column in LENGTHS.items()}
    known = {name: length for name, length in lengths.items() if not np.isnan(length)}
    return SizedProbe(
        verdict=word(frame, 0, "verdict"),
        reason=word(frame, 0, "reason"),
        order_mm=known.get("probe length to order"),
        lengths_mm=known,
        shown={name: row_length(length, 0, frame) for name, length in known.items()},
        basis=word(frame, 0, "bore_depth_basis"),
        unit=word(frame, 0, "unit") or "mm",
        plane=word(frame, 0, "plane"),
        working=word(frame, 0, "working"),
        assembly=_assembly(frame),
        findings=[finding for finding in findings if finding.rule not in NOT_FOR_ONE],
    )


def _assembly(frame: Frame) -> Assembly | None:
    """Return what is drawn, None where a plane of it is not known: of a length in kind no bore depth may be."""
    planes = {name: number(frame, 0, column) for name, column in DRAWN.items()}
    if any(np.isnan(plane) for plane in planes.values()):
        return None
    return Assembly(**planes, is_clamped=word(frame, 0, "mounting") == "adjustable fitting")


DRAWN = {
    "bore_depth_mm": "bore_depth_used_mm",
    "tip_mm": "tip_used_mm",
    "installed_mm": "extension_installed_mm",
    "seat_plane_mm": "seat_plane_mm",
    "probe_mm": "probe_length_order_mm",
}
