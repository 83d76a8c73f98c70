"""The answers written down: the annotated copy of the workbook, and JSON."""

from thermowell_index.writer.answer_json import write_json
from thermowell_index.revisions.carry import overlay, with_remarks
from thermowell_index.revisions.previous import PreviousRun
from thermowell_index.writer.carry_over import read_previous
from thermowell_index.writer.checked import write_checked
from thermowell_index.writer.marks import FIELD_SURVEY_SHEET, is_own_output, own_sheets, strip_own
from thermowell_index.writer.report import BasisRow, Report, RunInfo
from thermowell_index.writer.target import Target, target_for

__all__ = [
    "FIELD_SURVEY_SHEET",
    "BasisRow",
    "PreviousRun",
    "Report",
    "RunInfo",
    "Target",
    "carry",
    "is_own_output",
    "own_sheets",
    "overlay",
    "read_previous",
    "strip_own",
    "target_for",
    "write_checked",
    "write_json",
]


def carry(findings, previous, *, same_content):  # type: ignore[no-untyped-def]
    """Stand in until the revisions' own carry is wired into the pipeline."""
    if previous is None:
        return list(findings)
    return [with_remarks(one, previous.findings[one.id]) if one.id in previous.findings else one for one in findings]
