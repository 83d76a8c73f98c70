"""The hidden sheet: what the next run has to know and a person has no use for.

A line opens with what it is: `content`, the fingerprint of the index as it was read; `finding`, what tells a finding's
identity beyond what Discrepancies shows; `style`, a cell that bears the look a flagged cell had before it was coloured.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from openpyxl import Workbook

from thermowell_index.findings import Finding
from thermowell_index.ooxml import Cell, SheetCells, parse_range
from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.writer.flags import Place
from thermowell_index.writer.page import put

KEEPER_COLUMN = 4
LONGEST_TEXT = 32_000


@dataclass(frozen=True, kw_only=True)
class Identity:
    """What makes a finding's identity and is not shown on Discrepancies."""

    well_tag: str
    occurrence: int
    is_folded: bool
    rule: str
    field: str
    subject_sheet: str
    tags: tuple[str, ...]


@dataclass(kw_only=True)
class State:
    """What a checked workbook remembers."""

    content_fingerprint: str = ""
    identities: dict[str, Identity] = field(default_factory=dict)
    kept_styles: dict[str, dict[Place, int]] = field(default_factory=dict)


def build(
    book: Workbook,
    name: str,
    *,
    content_fingerprint: str,
    findings: Sequence[Finding],
    flagged: Mapping[str, Iterable[Place]],
) -> dict[Place, tuple[str, Place]]:
    """Add the hidden sheet; return which of its cells keep the style of which client's cell."""
    sheet = book.create_sheet(name)
    sheet.sheet_state = "veryHidden"
    lines: list[Sequence[str | int]] = [("content", content_fingerprint)]
    lines += [("finding", *_identity_line(finding)) for finding in findings]
    keepers: dict[Place, tuple[str, Place]] = {}
    for client_sheet, places in flagged.items():
        for place in places:
            lines.append(("style", client_sheet, cell_address(*place)))
            keepers[len(lines), KEEPER_COLUMN] = (client_sheet, place)
    for row, line in enumerate(lines, start=1):
        for column, value in enumerate(line, start=1):
            put(sheet.cell(row, column), value)
    for row, column in keepers:
        put(sheet.cell(row, column), "kept")
    return keepers


def read_state(cells: SheetCells) -> State:
    """Return what a hidden sheet of ours says; lines that are damaged are passed over."""
    state = State()
    for row in cells.rows.values():
        words = [_text(row.get(column)) for column in range(1, 10)]
        if words[0] == "content":
            state.content_fingerprint = words[1]
        elif words[0] == "finding":
            state.identities[words[1]] = _identity(words)
        elif words[0] == "style" and KEEPER_COLUMN in row:
            top, left, _, _ = parse_range(words[2])
            state.kept_styles.setdefault(words[1], {})[top, left] = row[KEEPER_COLUMN].style
    return state


def _identity_line(finding: Finding) -> tuple[str | int, ...]:
    return (
        finding.id,
        finding.well_tag,
        finding.occurrence,
        "folded" if finding.folded else "",
        finding.rule,
        finding.field,
        finding.sheet,
        _joined(finding.tags),
    )


def _identity(words: Sequence[str]) -> Identity:
    return Identity(
        well_tag=words[2],
        occurrence=int(words[3]) if words[3].isdecimal() else 0,
        is_folded=words[4] == "folded",
        rule=words[5],
        field=words[6],
        subject_sheet=words[7],
        tags=tuple(words[8].split("\n")) if words[8] else (),
    )


def _joined(tags: Sequence[str]) -> str:
    """Return the tags a line each, as many whole ones as a cell holds."""
    text = "\n".join(tags)
    return text if len(text) <= LONGEST_TEXT else text[:LONGEST_TEXT].rpartition("\n")[0]


def _text(cell: Cell | None) -> str:
    if cell is None or cell.value is None:
        return ""
    if isinstance(cell.value, float) and cell.value.is_integer():
        return str(int(cell.value))
    return str(cell.value)
