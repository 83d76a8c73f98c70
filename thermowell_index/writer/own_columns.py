"""Which columns beside an index table are our answers, after a person inserted, moved, renamed or removed some."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from thermowell_index.ooxml import SheetCells, column_letters
from thermowell_index.writer.columns import COLUMNS

HEADINGS = tuple(column.heading for column in COLUMNS)
LEAST_HEADINGS = 3
_HEADING = re.compile(rf"({'|'.join(map(re.escape, HEADINGS))})(?: \((?:in|mm)\))?(?: \[tags in column [A-Z]+\])?")


@dataclass(frozen=True, kw_only=True)
class OwnColumns:
    """The columns of one sheet that are ours, the first with its heading, all headings, what a person did to them."""

    columns: Sequence[int]
    first: int = 0
    headings: Mapping[int, str] = field(default_factory=dict)
    said: Sequence[str] = ()

    @property
    def runs(self) -> list[tuple[int, int]]:
        """Return the columns as runs of neighbours, first and last of each."""
        found: list[tuple[int, int]] = []
        for column in sorted(self.columns):
            if found and column == found[-1][1] + 1:
                found[-1] = (found[-1][0], column)
            else:
                found.append((column, column))
        return found


def sort_out(sheet: str, cells: SheetCells, span: tuple[int, int]) -> OwnColumns:
    """Return which columns of a sheet are ours; `span` is where our hidden name says they are.

    A column in the span with something in it and none of our headings is a person's own and stays, unless it stands
    where one of our headings is missing. A heading of ours that is missing there and stands elsewhere in the same
    heading row was moved.
    """
    named = _named_columns(cells, span)
    used = {column for row in cells.rows.values() for column, cell in row.items() if cell.is_used}
    inside = {column for column in range(span[0], span[1] + 1) if column in used}
    renamed = dict(_renamed(named, sorted(inside)))
    foreign = sorted(column for column in inside if column not in named and column not in renamed)
    moved = _moved(cells, named, span, {*named.values(), *renamed.values()})
    blank = set(range(span[0], span[1] + 1)) - inside
    return OwnColumns(
        columns=sorted({*named, *renamed, *moved, *blank}),
        first=min(named, default=0),
        headings={**named, **renamed, **moved},
        said=[
            *(f"sheet {sheet}: column {column_letters(c)} stood among the answers; it was kept" for c in foreign),
            *(
                f"sheet {sheet}: column {column_letters(column)} has lost its heading and is taken as {heading!r}"
                for column, heading in renamed.items()
            ),
            *(
                f"sheet {sheet}: {heading!r} was moved to column {column_letters(column)} and is back in its place"
                for column, heading in moved.items()
            ),
        ],
    )


def _named_columns(cells: SheetCells, span: tuple[int, int]) -> dict[int, str]:
    """Return the columns in the span that bear one of our headings, with the heading."""
    found: dict[int, str] = {}
    for row in cells.rows.values():
        for column, cell in row.items():
            if span[0] <= column <= span[1] and (match := _HEADING.fullmatch(str(cell.value).strip())):
                found.setdefault(column, match[1])
    return found


def _renamed(named: Mapping[int, str], inside: Sequence[int]) -> Iterator[tuple[int, str]]:
    """Yield columns without a heading of ours that stand between the neighbours of one that is missing."""
    for position, column in enumerate(inside):
        if column in named:
            continue
        left = HEADINGS.index(named[inside[position - 1]]) if position and inside[position - 1] in named else -1
        right = len(HEADINGS)
        if position + 1 < len(inside):
            after = inside[position + 1]
            right = HEADINGS.index(named[after]) if after in named else -1
        if right - left == 2 and HEADINGS[left + 1] not in named.values():  # noqa: PLR2004 - one heading between two
            yield column, HEADINGS[left + 1]


def _moved(cells: SheetCells, named: Mapping[int, str], span: tuple[int, int], there: set[str]) -> dict[int, str]:
    """Return columns outside the span that bear a heading of ours which is missing inside."""
    found: dict[int, str] = {}
    for row in cells.rows.values():
        if sum(1 for column in row if column in named and _is_heading(row[column].value)) < LEAST_HEADINGS:
            continue
        for column, cell in row.items():
            match = _HEADING.fullmatch(str(cell.value).strip())
            if match and not span[0] <= column <= span[1] and match[1] not in there:
                found.setdefault(column, match[1])
    return found


def bare_heading(text: str) -> str:
    """Return a heading of ours without its unit and what else stands in brackets; any other text as it is."""
    match = _HEADING.fullmatch(text.strip())
    return match[1] if match else text


def _is_heading(value: object) -> bool:
    return _HEADING.fullmatch(str(value).strip()) is not None
