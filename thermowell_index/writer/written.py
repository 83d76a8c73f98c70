"""What a run wrote on our sheets, remembered in short, so that what a person typed there is told from it.

A line is known again by its texts wherever it stands: rows may be sorted and columns moved. Columns that reviewers are
asked to write in do not count, for they are read for what they say.
"""

import re
import zlib
from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.ooxml import SheetCells
from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.writer.page import HEADING_FILL

_DIGEST = 8
_LINE = re.compile(rf"([hr])(\d+):((?:[0-9a-f]{{{_DIGEST}}})*)")
_LEAST_HEADINGS = 2
_SUBJECTS = ("Tag", "Entry")
_MOST_ALIKE = 200  # a text on more lines than that tells none from another


@dataclass(frozen=True, kw_only=True)
class Written:
    """One line as it was written: its row, whether it is column headings, the digests of its texts in order."""

    row: int
    is_heading: bool
    digests: tuple[str, ...]

    def as_text(self) -> str:
        """Return it as a short text."""
        return f"{'h' if self.is_heading else 'r'}{self.row}:{''.join(self.digests)}"


@dataclass(frozen=True, kw_only=True)
class Typed:
    """A text that a person typed on one of our sheets: where, under which heading, on whose line.

    One without a text stands for cells that a person emptied, of which only the line is known. `written_row` is where
    the run wrote the line, None for a line of a person's own; `is_in_table` says that it stands below column headings.
    """

    sheet: str
    row: int
    column: int
    heading: str
    subject: str
    text: str
    written_row: int | None = None
    is_in_table: bool = True

    @property
    def cell(self) -> str:
        """Return its address."""
        return cell_address(self.row, self.column)

    @property
    def is_emptied(self) -> bool:
        """Return whether it stands for cells that were emptied."""
        return not self.text

    @property
    def is_on_known_line(self) -> bool:
        """Return whether it stands on a line that the run wrote."""
        return self.written_row is not None

    @property
    def where(self) -> str:
        """Return the place as a person finds it."""
        of = " of ".join(part for part in (self.heading, self.subject) if part)
        return f"{self.sheet} {self.cell}" + (f", {of}" if of else "")


def written_line(text: str) -> Written:
    """Return what `as_text` wrote.

    Raises
    ------
    ValueError
        The text is damaged.

    """
    match = _LINE.fullmatch(text)
    if match is None:
        raise ValueError(text)
    digests = tuple(match[3][start : start + _DIGEST] for start in range(0, len(match[3]), _DIGEST))
    return Written(row=int(match[2]), is_heading=match[1] == "h", digests=digests)


def plain(value: object) -> str:
    """Return a value as text that being saved by another program does not change."""
    if value is None:
        return ""
    if isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:.10g}"
    return " ".join(str(value).replace("_x005F_", "_").split())


def digest(text: str) -> str:
    """Return a short number that tells one text from another."""
    return f"{zlib.crc32(text.encode()):0{_DIGEST}x}"


def line_of(row: int, texts: Iterable[str], *, is_heading: bool = False) -> Written:
    """Return a line of some texts, blank ones left out."""
    digests = sorted(digest(text) for text in texts if text)
    return Written(row=row, is_heading=is_heading, digests=tuple(digests))


def written_on(sheet: Worksheet, reviewers: Collection[str]) -> list[Written]:
    """Return the lines of a sheet that was just made; `reviewers` are the headings of the columns they write in."""
    lines: list[Written] = []
    free: set[int] = set()
    for row, cells in enumerate(sheet.iter_rows(), start=1):
        texts = {column: plain(cell.value) for column, cell in enumerate(cells, start=1) if cell.value is not None}
        is_heading = 1 in texts and cells[0].fill.fgColor.rgb == HEADING_FILL
        if is_heading:
            free = {column for column, text in texts.items() if text in reviewers}
        kept = texts.values() if is_heading else [text for column, text in texts.items() if column not in free]
        line = line_of(row, kept, is_heading=is_heading)
        if line.digests:
            lines.append(line)
    return lines


def under(heading: str, text: str) -> str:
    """Return a text that counts under its heading alone: in another column it is another one."""
    return f"{heading}\x1f{text}"


def typed_on(
    name: str,
    cells: SheetCells,
    written: Sequence[Written],
    reviewers: Collection[str],
    headings_of: Mapping[int, str] | None = None,
) -> list[Typed]:
    """Return what stands on a sheet of ours and was not written there by the run, and the lines with emptied cells.

    `headings_of` are the headings of columns in which each text was written under its heading.
    """
    rows = {row: {column: plain(cell.value) for column, cell in line.items()} for row, line in cells.rows.items()}
    headings = [line for line in written if line.is_heading]
    known = _Lines([line for line in written if not line.is_heading])
    strange: list[_Strange] = []
    titles: Mapping[int, str] = {}
    renamed: list[Typed] = []
    for row in sorted(rows):
        texts: Mapping[int, str] = {column: text for column, text in sorted(rows[row].items()) if text}
        bearing = _headings_on(texts, headings)
        if bearing is not None:
            titles = texts
            renamed += _renamed(name, row, texts, bearing)
            continue
        counted = {column: text for column, text in texts.items() if titles.get(column) not in reviewers}
        keys = counted
        if headings_of is not None:
            keys = {column: under(headings_of.get(column, ""), text) for column, text in counted.items()}
        if (texts and not counted) or not known.take(row, keys.values()):
            strange.append(_Strange(row=row, texts=counted, keys=keys, titles=titles, everything=texts))
    titled = {one for line in headings for one in line.digests}
    found = renamed
    for line in strange:
        nearest = known.nearest(line.row, line.keys.values())
        found += _typed(name, line if nearest else line.as_a_person_s_own(), nearest, titled)
    return found


@dataclass(frozen=True, kw_only=True)
class _Strange:
    """A line that was not written as it stands: its texts, as what they count, and the headings above them.

    `everything` are its texts with those under headings that people are asked to write under.
    """

    row: int
    texts: Mapping[int, str]
    keys: Mapping[int, str]
    titles: Mapping[int, str]
    everything: Mapping[int, str]

    def as_a_person_s_own(self) -> "_Strange":
        """Return it as a line that a person added, of which the next run reads nothing."""
        return replace(self, texts=self.everything, keys={**self.everything, **self.keys})


def _headings_on(texts: Mapping[int, str], headings: Iterable[Written]) -> Written | None:
    """Return the line of headings that a row is, some of which a person may have renamed, or added."""
    found = {digest(text) for text in texts.values()}
    best = max(headings, key=lambda line: len(found.intersection(line.digests)), default=None)
    if best is None or len(found.intersection(best.digests)) < max(_LEAST_HEADINGS, (len(best.digests) + 1) // 2):
        return None
    return best


def _renamed(sheet: str, row: int, texts: Mapping[int, str], line: Written) -> Iterator[Typed]:
    """Yield what stands in a row of headings where one of them is missing."""
    digests = {column: digest(text) for column, text in texts.items()}
    if set(line.digests).issubset(digests.values()):
        return
    for column, text in texts.items():
        if digests[column] not in line.digests:
            yield Typed(
                sheet=sheet,
                row=row,
                column=column,
                heading="",
                subject="",
                text=text,
                written_row=line.row,
                is_in_table=False,
            )


def _typed(sheet: str, line: _Strange, written: Written | None, titled: Collection[str]) -> Iterator[Typed]:
    left = Counter(() if written is None else written.digests)
    subject = _subject(line.texts, line.titles)
    written_row = None if written is None else written.row
    overwritten = 0
    for column, text in line.texts.items():
        if left[digest(line.keys[column])]:
            left[digest(line.keys[column])] -= 1
            continue
        heading = line.titles.get(column, "")
        overwritten += not heading or digest(heading) in titled
        yield Typed(
            sheet=sheet,
            row=line.row,
            column=column,
            heading=heading,
            subject="" if subject == text else subject,
            text=text,
            written_row=written_row,
            is_in_table=bool(line.titles),
        )
    if sum(left.values()) > overwritten:
        yield Typed(sheet=sheet, row=line.row, column=1, heading="", subject=subject, text="", written_row=written_row)


def _subject(texts: Mapping[int, str], names: Mapping[int, str]) -> str:
    """Return what a line speaks of: its tag or entry, else what it opens with."""
    for column, name in names.items():
        if name in _SUBJECTS and column in texts:
            return texts[column]
    column, text = next(iter(texts.items()), (0, ""))
    return f"{names[column].casefold()} {text}" if text.isdecimal() and column in names else text


class _Lines:
    """The lines that were written and are not found again yet; of lines that read alike that of the same row first."""

    def __init__(self, lines: Iterable[Written]) -> None:
        self._left: defaultdict[tuple[str, ...], dict[int, Written]] = defaultdict(dict)
        self._with: defaultdict[str, list[tuple[str, ...]]] | None = None
        for line in lines:
            self._left[line.digests][line.row] = line

    def take(self, row: int, texts: Iterable[str]) -> bool:
        """Strike off a line that has these texts; return whether it was written, once at least, or there are none."""
        digests = tuple(sorted(digest(text) for text in texts))
        if digests not in self._left:
            return not digests
        self._pop(digests, row)
        return True

    def nearest(self, row: int, texts: Iterable[str]) -> Written | None:
        """Return the line left over that has most of these texts, None where none has half of its own among them."""
        digests = Counter(digest(text) for text in texts)
        for candidate, _ in self._votes(sorted(digests)).most_common():
            if 2 * sum((digests & Counter(candidate)).values()) >= len(candidate) and self._left[candidate]:
                return self._pop(candidate, row)
        return None

    def _votes(self, digests: Iterable[str]) -> Counter[tuple[str, ...]]:
        """Return how many of these digests each kind of line has."""
        if self._with is None:
            self._with = defaultdict(list)
            for kind in self._left:
                for one in dict.fromkeys(kind):
                    self._with[one].append(kind)
        votes: Counter[tuple[str, ...]] = Counter()
        for one in digests:
            kinds = self._with.get(one, [])
            votes.update(kinds if len(kinds) <= _MOST_ALIKE else ())
        return votes

    def _pop(self, digests: tuple[str, ...], row: int) -> Written | None:
        same = self._left[digests]
        if row in same:
            return same.pop(row)
        return same.popitem()[1] if same else None
