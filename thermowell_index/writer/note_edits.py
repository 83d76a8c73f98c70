"""What people wrote in notes on cells: told from what a run wrote or found there, so that it can be kept."""

from collections.abc import Iterator, Mapping
from collections.abc import Set as AbstractSet

from thermowell_index.ooxml import Package, SheetEdit, cells_with_conversations, notes_of
from thermowell_index.ooxml.edits import Address
from thermowell_index.writer.marks import AUTHOR, STATE_SHEET, own_sheets
from thermowell_index.writer.state import State
from thermowell_index.writer.written import Typed, Written, digest, line_of, plain

NOTES = "notes"
HEADING = "note"
_OPENING = f"[{AUTHOR}]"


def written_notes(package: Package, edits: Mapping[str, SheetEdit]) -> list[Written]:
    """Return the lines of all notes that an answer has: those of the index, and ours."""
    texts = [
        text
        for sheet in _worksheets(package)
        for with_conversations in (True, False)  # a program that knows none saves what stands in for them
        for text in notes_of(package, sheet, with_conversations=with_conversations).values()
    ]
    texts += [text for edit in edits.values() for text in edit.notes.values()]
    return [line_of(1, {line for text in texts for line in _lines(text)})]


def unnoted_cells(package: Package, edits: Mapping[str, SheetEdit]) -> dict[str, int]:
    """Return how many flagged cells of each sheet get no note, since people talk about something there."""
    counts = {}
    for name, edit in edits.items():
        talks = cells_with_conversations(package, package.sheet(name).part)
        merges = package.read(name).merges if talks else ()
        count = sum(1 for place in edit.notes if _anchor(place, merges) in talks)
        if count:
            counts[name] = count
    return counts


def _anchor(place: Address, merges: tuple[tuple[int, int, int, int], ...]) -> Address:
    """Return the first cell of the merged range that a cell lies in, or the cell itself."""
    inside = (
        (top, left) for top, left, bottom, right in merges if top <= place[0] <= bottom and left <= place[1] <= right
    )
    return next(inside, place)


def typed_in_notes(package: Package, state: State) -> Iterator[Typed]:
    """Yield what stands in a note and was neither there nor written there by the run."""
    if NOTES not in state.written:
        return
    known = {one for line in state.written[NOTES] for one in line.digests}
    tags = {row.tag for row in state.rows if row.tag}
    hidden = own_sheets(package).get(STATE_SHEET)
    for sheet in _worksheets(package):
        for place, text in notes_of(package, sheet).items() if sheet != hidden else ():
            strange = [line for line in _lines(text) if digest(line) not in known]
            if strange:
                yield Typed(
                    sheet=sheet,
                    row=place[0],
                    column=place[1],
                    heading=HEADING,
                    subject=_subject(package, sheet, place[0], tags),
                    text=" / ".join(strange),
                )


def _worksheets(package: Package) -> list[str]:
    return [sheet.name for sheet in package.sheets if sheet.kind == "worksheet"]


def _lines(text: str) -> list[str]:
    """Return the lines of a note as saving by another program leaves them, without the one that opens ours."""
    lines = [plain(line) for line in text.splitlines()]
    return [line for line in lines if line and line != _OPENING]


def _subject(package: Package, sheet: str, row: int, tags: AbstractSet[str]) -> str:
    """Return the tag that a row speaks of."""
    cells = package.read(sheet).rows.get(row, {})
    return next((text for cell in cells.values() if (text := plain(cell.value)) in tags), "")
