"""The answer as data: the run, every row, every finding."""

import json
import math
from collections.abc import Mapping
from dataclasses import asdict
from pathlib import Path
from typing import Any

from thermowell_index.findings import Finding
from thermowell_index.writer.atomic import write_atomically
from thermowell_index.writer.report import Report
from thermowell_index.writer.substitutes_json import substitutes_data
from thermowell_index.writer.values_json import values_read

# Key of a row in the JSON, and the frame column behind it.
ROW_KEYS: Mapping[str, str] = {
    "tag": "tag",
    "sheet": "sheet",
    "row": "row",
    "bore_depth_mm": "bore_depth_used_mm",
    "bore_depth_basis": "bore_depth_basis",
    "extension_installed_mm": "extension_installed_mm",
    "probe_length_computed_mm": "probe_length_computed_mm",
    "probe_length_order_mm": "probe_length_order_mm",
    "shortest_fit_mm": "shortest_fit_mm",
    "longest_fit_mm": "longest_fit_mm",
    "compression_min_mm": "compression_min_mm",
    "compression_nominal_mm": "compression_nominal_mm",
    "compression_max_mm": "compression_max_mm",
    "margin_mm": "margin_mm",
    "first_touch_mm": "first_touch_mm",
    "verdict": "verdict",
    "working": "working",
}
NANOMETRE_DIGITS = 6


def write_json(report: Report, path: Path) -> None:
    """Write the answer as JSON; lengths are in millimetres to the nanometre, what does not apply is null.

    Raises
    ------
    OutputError
        The file cannot be written there.

    """
    write_atomically(path, _as_lines(as_data(report)).encode())


def _as_lines(data: Mapping[str, Any]) -> str:
    """Return the answer as text, a line for each row and each finding."""
    parts = []
    for key, value in data.items():
        items = [_as_text(item) for item in value] if isinstance(value, list) else []
        parts.append(f"{_as_text(key)}: " + ("[\n" + ",\n".join(items) + "\n]" if items else _as_text(value)))
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _as_text(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def schema() -> dict[str, Any]:
    """Return the JSON Schema that every answer keeps to."""
    text = Path(__file__).with_name("answer.schema.json").read_text(encoding="utf-8")
    return dict(json.loads(text))


def as_data(report: Report) -> dict[str, Any]:
    """Return the answer as plain data."""
    frame = report.table.frame
    columns = [frame[column].tolist() for column in ROW_KEYS.values()]
    rows = [
        {**{key: _plain(value) for key, value in zip(ROW_KEYS, values, strict=True)}, "values": read}
        for read, *values in zip(values_read(report.table, tuple(report.field_labels)), *columns, strict=True)
    ]
    data = {"run": asdict(report.run), "rows": rows, "findings": [_finding(finding) for finding in report.findings]}
    return data if report.substitutes is None else data | {"substitutes": substitutes_data(report.substitutes)}


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "id": finding.id,
        "severity": finding.severity.value,
        "tag": _plain(finding.tag),
        "sheet": _plain(finding.sheet),
        "row": finding.row,
        "cell": _plain(finding.cell),
        "field": _plain(finding.field),
        "rule": finding.rule,
        "found": finding.found,
        "expected": finding.expected,
        "explanation": finding.explanation,
        "action": finding.action,
        "change": finding.change,
        "disposition": finding.disposition,
        "reviewer": _plain(finding.reviewer),
        "reviewed_on": _plain(finding.reviewed_on),
        "comment": _plain(finding.comment),
        "tags": list(finding.tags),
    }


def _plain(value: Any) -> Any:  # noqa: ANN401 - a cell of the frame is text, a number or a truth value
    """Return a cell as JSON has it: a length to the nanometre, null for NaN and for a text that is empty."""
    if isinstance(value, float):
        return round(value, NANOMETRE_DIGITS) if math.isfinite(value) else None
    return None if value == "" else value
