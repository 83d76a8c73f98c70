"""What a run hands to the writer: plain data, so that the writer knows nothing of thermowells."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from thermowell_index.answers import NO_SURVEY, Residuals, SparesKind, Substitutes, Survey, TouchCard
from thermowell_index.findings import Finding
from thermowell_index.revisions.history import History
from thermowell_index.table import IndexTable
from thermowell_index.writer.order_data import OrderSchedule


@dataclass(frozen=True, kw_only=True)
class RunInfo:
    """What tells one run from another."""

    input_name: str
    input_sha256: str
    revision: str
    program_version: str
    date: str
    basis_name: str
    basis_fingerprint: str
    content_fingerprint: str
    previous_name: str


@dataclass(frozen=True, kw_only=True)
class BasisRow:
    """One assumption of the design basis as it is shown."""

    section: str
    entry: str
    value: str
    meaning: str
    source: str
    is_changed: bool


@dataclass(frozen=True, kw_only=True)
class Report:
    """Everything that the annotated copy and the JSON say.

    `sheet_units` and `sheet_in_fractions` are by table: the unit of its computed columns, and whether it shows
    fractions. `majority_unit` is the whole workbook's. `date_1904` says that the client's workbook counts its days from
    1904. `unnoted` counts the flagged cells of a sheet without a note. `renamed` are the titles of those of our sheets
    that bear another name, since the client has a sheet of that name.
    """

    table: IndexTable
    findings: Sequence[Finding]
    run: RunInfo
    schedule: OrderSchedule
    basis_rows: Sequence[BasisRow]
    profile_rows: Sequence[Mapping[str, str]]
    standard_rows: Sequence[tuple[str, float, float, str, str]]
    assumed: Sequence[str]
    cautions: Sequence[str]
    rule_names: Mapping[str, str]
    rule_titles: Mapping[str, str]
    field_labels: Mapping[str, str]
    sheet_units: Mapping[int, str]
    sheet_in_fractions: Mapping[int, bool]
    spares: Sequence[SparesKind] = ()
    survey: Survey = NO_SURVEY
    touch_cards: Sequence[TouchCard] = ()
    substitutes: Substitutes | None = None
    residuals: Residuals | None = None
    majority_unit: str = "mm"
    history: History = field(default_factory=History)
    date_1904: bool = False
    unnoted: Mapping[str, int] = field(default_factory=dict)
    renamed: Mapping[str, str] = field(default_factory=dict)

    def rule_name(self, rule: str) -> str:
        """Return a rule's name as the sheets show it."""
        return self.rule_names.get(rule, rule.replace("_", " "))

    def field_label(self, field: str) -> str:
        """Return a field's label."""
        return self.field_labels.get(field, field.replace("_", " "))

    def in_names(self, text: str) -> str:
        """Return a sentence of ours with each sheet of ours called by the name that it bears in the answer."""
        for title, name in self.renamed.items():
            text = re.sub(rf"{re.escape(title)}(?! \(\d)", name.replace("\\", r"\\"), text)
        return text

    @property
    def live_findings(self) -> list[Finding]:
        """Return the findings of this run, without those that were cleared since the previous one."""
        return [finding for finding in self.findings if finding.change != "cleared"]
