"""What people typed over our cells and beside our tables: told from what the run wrote, said, and kept."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from thermowell_index.ooxml import Cell, Package, SheetCells, SheetEdit
from thermowell_index.table import SheetRead
from thermowell_index.writer.marks import STATE_SHEET, columns_by_number, own_sheets
from thermowell_index.writer.note_edits import typed_in_notes
from thermowell_index.writer.own_columns import HEADINGS, OwnColumns, bare_heading, sort_out
from thermowell_index.writer.remark_sheets import DISCREPANCIES_HEADINGS, REMARK_HEADINGS, WRITTEN_IN
from thermowell_index.writer.state import State
from thermowell_index.writer.written import Typed, Written, line_of, plain, typed_on, under

MOST_ALONE = 3  # so many cells of one column are named one by one
MOST_NAMED = 6
LONGEST_QUOTE = 60
DISCREPANCIES = "discrepancies"
ANSWERS = "answer cells"
_COMPUTED = frozenset(DISCREPANCIES_HEADINGS) - frozenset(REMARK_HEADINGS)


@dataclass(frozen=True, kw_only=True)
class HandEdits:
    """What people typed where the next run does not read it: as lines to keep, and as sentences."""

    lines: Sequence[str] = ()
    said: Sequence[str] = ()


def written_beside(
    sheets: Iterable[SheetRead], package: Package, edits: Mapping[str, SheetEdit], spans: Collection[str]
) -> dict[str, list[Written]]:
    """Return what a run leaves on the index sheets: the answers it writes there, and each row as the client has it."""
    found: dict[str, list[Written]] = {}
    for sheet in sheets:
        if sheet.name in spans:
            number = len(found) // 2 + 1
            found[f"{ANSWERS} {number}"] = _answer_lines(edits[sheet.name])
            rows = package.read(sheet.name).rows
            found[f"index {number}"] = [line for row, cells in rows.items() if (line := _client_line(row, cells))]
    return found


def _answer_lines(edit: SheetEdit) -> list[Written]:
    rows: defaultdict[int, dict[int, str]] = defaultdict(dict)
    for (row, column), cell in edit.cells.items():
        rows[row][column] = plain(cell.value)
    headings: dict[int, str] = {}
    lines: list[Written] = []
    for row, texts in sorted(rows.items()):
        is_heading = _bears_headings(texts.values())
        if is_heading:
            headings = {column: bare_heading(text) for column, text in texts.items()}
            words = list(texts.values())
        else:
            words = [under(headings.get(column, ""), text) for column, text in texts.items() if text]
        lines += [line_of(row, words, is_heading=is_heading)] if any(words) else []
    return lines


def _bears_headings(words: Collection[str]) -> bool:
    return HEADINGS[-1] in words and HEADINGS[-2] in words


def _client_line(row: int, cells: Mapping[int, Cell], but: Collection[int] = ()) -> Written | None:
    """Return a client's row in short; what a formula gives may change by itself, so it does not count."""
    texts = [
        plain(cell.value)
        for column, cell in sorted(cells.items())
        if cell.kind in {"n", "s"} and not cell.is_formula and column not in but
    ]
    return line_of(row, ["\x1f".join(texts)]) if any(texts) else None


def hand_edits(package: Package, state: State, *, is_input: bool) -> HandEdits:
    """Return what people typed in a checked workbook, beside the columns that they are asked to write in.

    `is_input` says that the workbook itself is read as an index, so that what stands in the client's own columns is not
    lost.
    """
    typed = [*_on_our_sheets(package, state), *typed_in_notes(package, state)]
    edited: list[str] = []
    for number, (name, span) in columns_by_number(package).items():
        if f"{ANSWERS} {number}" in state.written and number in state.annotated:
            cells = package.read(name)
            own = sort_out(name, cells, span)
            typed += _beside_index(name, cells, own, number, state, is_input=is_input)
            rows = [] if is_input else _edited_rows(cells, own, state.written.get(f"index {number}", ()))
            if rows:
                edited.append(f"{name}, row{'' if len(rows) == 1 else 's'} {_some(rows)}")
    said = [f"{package.path.name}: {sentence}" for sentence in _sentences(typed)]
    said += [
        f"{package.path.name}: cells of the index were edited there after its run ({where}); what is read is the new "
        "issue alone"
        for where in edited
    ]
    return HandEdits(lines=list(_lines(typed)), said=said)


def _on_our_sheets(package: Package, state: State) -> Iterator[Typed]:
    for what, name in own_sheets(package).items():
        if what == STATE_SHEET or what not in state.written:
            continue
        typed = typed_on(name, package.read(name), state.written[what], WRITTEN_IN.get(what, ()))
        yield from (one for one in typed if what != DISCREPANCIES or _counts_on_discrepancies(one))


def _counts_on_discrepancies(typed: Typed) -> bool:
    """Return whether a text is lost otherwise: a reviewer's own columns and lines on Discrepancies are carried over."""
    return not typed.is_in_table or typed.is_emptied or (typed.is_on_known_line and typed.heading in _COMPUTED)


def _beside_index(
    name: str, cells: SheetCells, own: OwnColumns, number: str, state: State, *, is_input: bool
) -> Iterator[Typed]:
    """Yield what was typed over the answers, and beside them where the workbook is not read as an index."""
    ours = set(own.columns)
    rows = {
        row: {
            column: cell
            for column, cell in line.items()
            if column in ours or (not is_input and own.first and column > own.first)
        }
        for row, line in cells.rows.items()
    }
    tags = {row.row: row.tag for row in state.rows if row.sheet == state.annotated[number].name}
    written = state.written[f"{ANSWERS} {number}"]
    for typed in typed_on(name, SheetCells(rows=rows), written, (), own.headings):
        tag = tags.get(typed.row if typed.written_row is None else typed.written_row, "")
        yield replace(typed, subject=tag, heading=own.headings.get(typed.column, typed.heading))


def _edited_rows(cells: SheetCells, own: OwnColumns, written: Sequence[Written]) -> list[str]:
    """Return the rows of an index sheet in which a client's cell is not as the run read it."""
    but = {*own.columns, *(column for column in range(own.first, cells.last_column + 1) if own.first)}
    left = Counter(line.digests for line in written)
    rows = []
    for row, line in sorted(cells.rows.items()):
        now = _client_line(row, line, but)
        if now is not None and left[now.digests] < 1:
            rows.append(str(row))
        elif now is not None:
            left[now.digests] -= 1
    return rows if written else []


def _lines(typed: Iterable[Typed]) -> Iterator[str]:
    """Yield the texts as lines to keep, those of one row together."""
    rows: defaultdict[tuple[str, int], list[Typed]] = defaultdict(list)
    for one in typed:
        if not one.is_emptied:
            rows[one.sheet, one.row].append(one)
    for (sheet, row), texts in rows.items():
        subject = texts[0].subject
        said = "; ".join(f"{one.heading}: {one.text}" if one.heading else one.text for one in texts)
        yield f"{sheet}, row {row}{f', {subject}' if subject else ''}: {said}"


def _sentences(typed: Iterable[Typed]) -> Iterator[str]:
    columns: defaultdict[tuple[str, str], list[Typed]] = defaultdict(list)
    emptied: defaultdict[str, list[str]] = defaultdict(list)
    for one in typed:
        if one.is_emptied:
            emptied[one.sheet].append(f"{one.row}{f', {one.subject}' if one.subject else ''}")
        else:
            columns[one.sheet, one.heading].append(one)
    for sheet, rows in emptied.items():
        yield f"{sheet}: what was emptied by hand is written anew (row{'' if len(rows) == 1 else 's'} {_some(rows)})"
    for (sheet, heading), texts in columns.items():
        if len(texts) <= MOST_ALONE:
            yield from (
                f"{one.where}: {_quoted(one.text)}, typed by hand, does not count and is kept in the Remarks register"
                for one in texts
            )
        else:
            under = f" under {heading}" if heading else ""
            yield (
                f"{sheet}: {len(texts)} texts typed by hand{under} ({_some([one.cell for one in texts])}) do not "
                "count and are kept in the Remarks register"
            )


def _quoted(text: str) -> str:
    return repr(text if len(text) <= LONGEST_QUOTE else f"{text[:LONGEST_QUOTE]}...")


def _some(words: Sequence[str]) -> str:
    more = len(words) - MOST_NAMED
    return ", ".join(words[:MOST_NAMED]) + (f" and {more} more" if more > 0 else "")
