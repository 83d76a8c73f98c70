"""The hidden sheet: what the next run has to know and a person has no use for.

A line opens with what it is: `content`, the fingerprint of the index as it was read; `style`, a cell that bears the
look a flagged cell had before it was coloured; `sheet`, a sheet with answers; any other word names a record,
whose text follows in as many cells as it takes.
"""

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, field, replace
from typing import Any, Final

from openpyxl import Workbook

from thermowell_index.findings import Finding, Severity
from thermowell_index.ooxml import Cell, SheetCells, parse_range
from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.revisions.comparison import Comparison, comparison_from_text
from thermowell_index.revisions.history import History
from thermowell_index.revisions.memory import RowMemory, row_from_text
from thermowell_index.revisions.previous import BasisSignOff, HandValue, RegisterEntry
from thermowell_index.revisions.run_register import RunLine, run_from_text
from thermowell_index.writer.flags import Place
from thermowell_index.writer.page import put
from thermowell_index.writer.written import Written, written_line

KEEPER_COLUMN: Final = 4
SHEET_WORDS: Final = 4
LONGEST_TEXT: Final = 30_000  # below what a cell holds, so that escapes have room
# What Discrepancies shows beside a finding and the rule says again in every run.
SAID_BY_THE_RULE: Final = ("explanation", "action", "withholds")


@dataclass(frozen=True, kw_only=True)
class Annotated:
    """A sheet with answers: its name, and the first column of the answers."""

    name: str
    first_column: int


@dataclass(kw_only=True)
class State:
    """What a checked workbook remembers.

    `written` are the lines of its sheets as the run wrote them; `damaged` counts the records that could not be read.
    """

    content_fingerprint: str = ""
    findings: dict[str, Finding] = field(default_factory=dict)
    rows: list[RowMemory] = field(default_factory=list)
    runs: list[RunLine] = field(default_factory=list)
    basis_entries: dict[str, str] = field(default_factory=dict)
    comparison: Comparison | None = None
    register: list[RegisterEntry] = field(default_factory=list)
    own_lines: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    input_notes: list[str] = field(default_factory=list)
    basis_sign_off: BasisSignOff | None = None
    hand_values: list[HandValue] = field(default_factory=list)
    sample_seed: str = ""
    compared_with: str = ""
    kept_styles: dict[str, dict[Place, int]] = field(default_factory=dict)
    annotated: dict[str, Annotated] = field(default_factory=dict)
    written: dict[str, list[Written]] = field(default_factory=dict)
    damaged: int = 0


def build(
    book: Workbook,
    name: str,
    *,
    content_fingerprint: str,
    findings: Sequence[Finding],
    flagged: Mapping[str, Iterable[Place]],
    history: History,
    annotated: Mapping[str, int] | None = None,
    written: Mapping[str, Sequence[Written]] | None = None,
) -> dict[Place, tuple[str, Place]]:
    """Add the hidden sheet; return which of its cells keep the style of which client's cell."""
    sheet = book.create_sheet(name)
    sheet.sheet_state = "veryHidden"
    lines: list[Sequence[str]] = [("content", content_fingerprint)]
    lines += [
        ("sheet", str(number), title, str(first)) for number, (title, first) in enumerate((annotated or {}).items(), 1)
    ]
    lines += [(word, *_chunks(text)) for word, text in _records(findings, history)]
    for what, written_lines in (written or {}).items():
        lines.append(("written", *_chunks(_json([what, " ".join(line.as_text() for line in written_lines)]))))
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


def _records(findings: Sequence[Finding], history: History) -> Iterator[tuple[str, str]]:
    yield from (("finding", _finding_text(finding)) for finding in findings)
    yield from (("row", row.as_text()) for row in history.rows)
    yield from (("run", run.as_text()) for run in history.runs)
    yield "basis", _json(dict(history.basis_entries))
    yield "basis sign-off", _json(asdict(history.basis_sign_off))
    if history.comparison is not None:
        yield "comparison", history.comparison.as_text()
    for entry in history.register:
        yield "register", _json({**asdict(entry), "finding": json.loads(_finding_text(entry.finding))})
    yield from (("own line", _json(line)) for line in history.own_lines)
    yield from (("said", _json(line)) for line in history.all_said)
    yield from (("input note", _json(line)) for line in history.input_notes)
    yield from (("hand value", _json(asdict(value))) for value in history.sample.values.values())
    yield from (("hand value", _json(asdict(value))) for value in history.sample.earlier)
    yield "seed", _json(history.sample.seed)
    yield "compared with", _json(history.compared_with)


def read_state(cells: SheetCells) -> State:
    """Return what a hidden sheet of ours says; records that are damaged are passed over and counted."""
    state = State()
    for row in cells.rows.values():
        words = [_text(row[column]) for column in sorted(row)]
        if not words:
            continue
        if words[0] == "content":
            state.content_fingerprint = "".join(words[1:2])
        elif words[0] == "sheet" and len(words) == SHEET_WORDS and words[3].isdecimal():
            state.annotated[words[1]] = Annotated(name=words[2], first_column=int(words[3]))
        elif words[0] == "style" and KEEPER_COLUMN in row:
            top, left, _, _ = parse_range(words[2])
            state.kept_styles.setdefault(words[1], {})[top, left] = row[KEEPER_COLUMN].style
        elif words[0] in _TAKERS:
            try:
                _TAKERS[words[0]](state, "".join(words[1:]))
            except (ValueError, TypeError, KeyError):
                state.damaged += 1
    return state


def _take_finding(state: State, text: str) -> None:
    finding = _finding(json.loads(text))
    state.findings[finding.id] = finding


def _take_register(state: State, text: str) -> None:
    data = json.loads(text)
    state.register.append(RegisterEntry(**{**data, "finding": _finding(data["finding"])}))


def _take_basis(state: State, text: str) -> None:
    state.basis_entries = {str(key): str(value) for key, value in json.loads(text).items()}


def _take_sign_off(state: State, text: str) -> None:
    state.basis_sign_off = BasisSignOff(**json.loads(text))


def _take_comparison(state: State, text: str) -> None:
    state.comparison = comparison_from_text(text)


def _take_seed(state: State, text: str) -> None:
    state.sample_seed = str(json.loads(text))


def _take_compared(state: State, text: str) -> None:
    state.compared_with = str(json.loads(text))


def _take_written(state: State, text: str) -> None:
    what, lines = json.loads(text)
    state.written[str(what)] = [written_line(line) for line in lines.split()]


_TAKERS: Mapping[str, Callable[[State, str], None]] = {
    "finding": _take_finding,
    "row": lambda state, text: state.rows.append(row_from_text(text)),
    "run": lambda state, text: state.runs.append(run_from_text(text)),
    "basis": _take_basis,
    "basis sign-off": _take_sign_off,
    "comparison": _take_comparison,
    "register": _take_register,
    "input note": lambda state, text: state.input_notes.append(str(json.loads(text))),
    "said": lambda state, text: state.said.append(str(json.loads(text))),
    "own line": lambda state, text: state.own_lines.append(str(json.loads(text))),
    "hand value": lambda state, text: state.hand_values.append(HandValue(**json.loads(text))),
    "seed": _take_seed,
    "compared with": _take_compared,
    "written": _take_written,
}


def _finding_text(finding: Finding) -> str:
    data = asdict(finding)
    return _json({name: value for name, value in data.items() if name not in SAID_BY_THE_RULE})


def _finding(data: Mapping[str, Any]) -> Finding:
    finding = Finding(**{**dict.fromkeys(SAID_BY_THE_RULE, ""), **data, "withholds": False})
    return replace(
        finding,
        severity=Severity(finding.severity),
        tags=tuple(finding.tags),
        row_ids=tuple(finding.row_ids),
        own_columns=tuple((str(heading), str(text)) for heading, text in finding.own_columns),
    )


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def _chunks(text: str) -> Iterator[str]:
    """Yield a text in pieces that a cell holds."""
    for start in range(0, len(text), LONGEST_TEXT):
        yield text[start : start + LONGEST_TEXT]


def _text(cell: Cell) -> str:
    if cell.value is None:
        return ""
    if isinstance(cell.value, float) and cell.value.is_integer():
        return str(int(cell.value))
    return str(cell.value)
