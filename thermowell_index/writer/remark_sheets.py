"""The headings of the tables that reviewers write in, by which the next run finds their columns again."""

import hashlib
from collections.abc import Mapping

from thermowell_index.revisions.previous import HandValue

FORMER_DECISION = "Former decision"
REMARK_HEADINGS = ("Disposition", "Reviewer", "Reviewed on", "Comment", FORMER_DECISION)
DISCREPANCIES_HEADINGS = (
    "Finding",
    "Severity",
    "Tag",
    "Sheet",
    "Row",
    "Cell",
    "Field",
    "Rule",
    "Found",
    "Expected",
    "Explanation",
    "Action",
    "Change",
    *REMARK_HEADINGS,
)
REGISTER_HEADINGS = (
    "Entry",
    "Tag",
    "Sheet",
    "Field",
    "Rule",
    "Found",
    *REMARK_HEADINGS,
    "Last seen in",
    "May be now",
    "Carry over to",
)
BASIS_SIGN_OFF_HEADINGS = ("Fingerprint", "Disposition", "Reviewer", "Comment", FORMER_DECISION, "Reviewed on")
BASIS_SIGN_OFF_MUST_HAVE = ("fingerprint", "disposition", "reviewer")
HAND_VALUE_HEADINGS = (
    "Sample",
    "Tag",
    "Place",
    "What the index says",
    "Working",
    "Length to order",
    "Length by hand",
    "Agrees",
    "Checked by",
    "Checked on",
    "Comment",
)
TOUCH_LINE = (
    "Tag",
    "Probe length",
    "Length is measured",
    "What to look at",
    "Expected",
    "Good from",
    "to",
    "Turns to tight",
)
TOUCH_BOXES = ("Found", "By", "On")
SURVEY_BOXES = ("First reading", "Second reading", "By", "On", "Loop duty", "Remark")
WRITTEN_IN: Mapping[str, tuple[str, ...]] = {
    "discrepancies": REMARK_HEADINGS,
    "register": (*REMARK_HEADINGS[:-1], "Carry over to"),
    "qa_sample": ("Length by hand", "Checked by", "Checked on", "Comment"),
    "design_basis": ("Disposition", "Reviewer", "Comment", "Reviewed on", FORMER_DECISION),
    "first_touch": TOUCH_BOXES,
    "field_survey": (*SURVEY_BOXES, "Taken"),
}
"""The columns that people write in and the next run reads, by what the sheet is."""
OWN_LINES_HEADING = "Lines that reviewers added"


def sample_name(value: HandValue) -> str:
    """Return the name of a row of the sample, which stays the same while the row's inputs do."""
    text = f"{value.key}\x1f{value.well_key}\x1f{value.inputs}"
    return "Q-" + hashlib.sha256(text.encode()).hexdigest()[:8]
