"""The answers written down: the annotated copy of the workbook, and JSON."""

from thermowell_index.writer.answer_json import write_json
from thermowell_index.writer.carry_over import read_previous
from thermowell_index.writer.checked import write_checked
from thermowell_index.writer.marks import FIELD_SURVEY_SHEET, columns_in_words, is_own_output, own_sheets, strip_own
from thermowell_index.writer.report import BasisRow, Report, RunInfo
from thermowell_index.writer.target import Target, target_for

__all__ = [
    "FIELD_SURVEY_SHEET",
    "BasisRow",
    "Report",
    "RunInfo",
    "Target",
    "columns_in_words",
    "is_own_output",
    "own_sheets",
    "read_previous",
    "strip_own",
    "target_for",
    "write_checked",
    "write_json",
]
