"""Where the tag of a row stands: in one column, in several that are joined, or in the first that is filled."""

import re
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import normal_words
from thermowell_index.reader.layout import HeadingBlock
from thermowell_index.units import is_placeholder

MOST = 0.8
ENOUGH, FEW = 8, 0.2
LETTERS = re.compile(r"[A-Z]{2,6}")
DIGITS = re.compile(r"\d{1,6}(?:[A-Z](?:/[A-Z])*)?")
PREFIX = re.compile(r"[A-Z]{0,3}\d{1,4}[A-Z]?|[A-Z]{1,3}")
SUFFIX = re.compile(r"[A-Z](?:/[A-Z])*|\d{1,2}")
SEPARATOR = re.compile(r"[-\u2013_/. ]+")
WHOLE = re.compile(r"[^\s].*[A-Z]{2,5}[-_ ./]*\d{2,}.*|[A-Z]{2,5}[-_ ./]*\d{2,}.*")
TEMPERATURE_TAG = re.compile(r"(?<![A-Z])T[A-Z]{0,4}[-_ ./]*\d{2,}|\d{2,}[-_ .]?T[EITRW][A-Z]{0,2}$")
# The power stations' designation of a temperature measurement (KKS: system, CT, number; from memory).
KKS_TAG = re.compile(r"=?(?:[A-Z0-9]{1,4}[ .])?\d{0,2}[A-Z]{3}\d{2,3} ?CT\d{3}.*")
NUMBERED = re.compile(r".*\d.*", re.DOTALL)
WELL_TAG = re.compile(r"(?:.*[^A-Z])?T?W[-_ ./]*\d+.*")
ELEMENT_TAG = re.compile(r"(?:.*[^A-Z])?TE[-_ ./]*\d+.*")
# Fields of such general headings that a column of tags may stand below one.
VAGUE = frozenset({"line_number", "service", "instrument_type", "area"})
TEMPERATURE_LETTERS = re.compile(r"T[A-Z]{1,5}")
BETWEEN = r"[-\u2013_ ./]?"
USUAL_SEPARATOR = "-"

PREFIX_WORDS = frozenset({"AREA", "UNIT", "PLANT", "TRAIN", "SYSTEM", "PREFIX", "ANLAGE", "ZONE", "PLANTCODE"})
LETTER_WORDS = frozenset(
    [
        "FUNCTION",
        "FUNC",
        "FUNCTIONAL",
        "LETTERS",
        "LETTER",
        "CODE",
        "TYPE",
        "ISA",
        "IDENT",
        "PREFIX",
        "FUNKTION",
        "FONCTION",
        "FUNCION",
        "FUNZIONE",
        "FUNCAO",
        "FUNCTIE",
    ]
)
NUMBER_WORDS = frozenset({"NUMBER", "LOOP", "SEQUENCE", "SEQ", "SERIAL", "TAG"})
SUFFIX_WORDS = frozenset({"SUFFIX", "SUF", "SUFF", "SFX"})
# Whose tag a heading speaks of, in the order in which they name a row.
BEARERS: Sequence[frozenset[str]] = (
    frozenset({"ELEMENT", "SENSOR", "PROBE"}),
    frozenset(),
    frozenset({"TRANSMITTER", "TT", "TIT", "INDICATOR", "TI"}),
    frozenset({"LOOP", "PARENT"}),
)


@dataclass(frozen=True, kw_only=True)
class TagColumns:
    """The columns of a row's tag: `parts` joined by `separators`; where these are blank, the next of `others`."""

    parts: tuple[int, ...]
    separators: tuple[str, ...] = ()
    others: tuple[int, ...] = ()
    why: str = "heading"
    all_columns: frozenset[int] = field(default=frozenset())

    @property
    def column(self) -> int:
        """Return the column that stands for the tag."""
        return self.parts[0]

    def text(self, grid: Grid, row: int) -> str:
        """Return the tag of a row, empty where it has none."""
        for columns, separators in ((self.parts, self.separators), *(((other,), ()) for other in self.others)):
            texts = [" ".join(grid.text(row, column).split()) for column in columns]
            if any(text and not is_placeholder(text) for text in texts):
                return _joined(texts, separators)
        return ""

    def first_column(self, grid: Grid, row: int) -> int:
        """Return the column in which the tag of a row begins."""
        if not self.others or any(grid.text(row, column) for column in self.parts):
            return self.parts[0]
        return next((column for column in self.others if grid.text(row, column)), self.parts[0])

    def is_struck(self, grid: Grid, row: int) -> bool:
        """Whether the tag of a row is struck out: all that is filled of its parts."""
        anchors = [grid.anchor(row, column) for column in self.parts]
        filled = [anchor for anchor in anchors if grid.text(*anchor)]
        return bool(filled) and all(grid.is_struck(*anchor) for anchor in filled)


def _joined(texts: Sequence[str], separators: Sequence[str]) -> str:
    """Return the parts of a tag in one, separators only between parts that are there."""
    tag = texts[0]
    for separator, text in zip(separators, texts[1:], strict=False):
        tag += (separator if tag and text else "") + text
    return tag


def find_tag_columns(
    block: HeadingBlock, grid: Grid, claimed: Mapping[int, str], rows: Sequence[int]
) -> TagColumns | None:
    """Return the tag columns of a table, None where it has none.

    `claimed` says which field each column was read as, `rows` are the rows of the table to look at.
    """
    named = [column for column, name in claimed.items() if name == "tag"]
    look = _Look(block, grid, rows)
    if named and all(look.repeats(column) for column in named) and (found := _by_values(look, claimed)) is not None:
        return TagColumns(parts=(found,), why="its values")
    named += [column for column, name in claimed.items() if name != "tag" and _is_tag_of_an_element(look, column)]
    joined = _in_group(look, named) or _beside(look, named)
    if joined:
        return TagColumns(
            parts=joined, separators=_separators(look, joined), why="parts of a tag", all_columns=frozenset(joined)
        )
    if not named:
        found = _by_values(look, claimed)
        return TagColumns(parts=(found,), why="its values") if found is not None else None
    numbered = [column for column in named if look.holds(column, NUMBERED)] or named
    ordered = sorted(
        numbered,
        key=lambda column: (_bearer(block.texts[column]), look.holds(column, WELL_TAG), numbered.index(column)),
    )
    return TagColumns(parts=(ordered[0],), others=tuple(ordered[1:]), all_columns=frozenset(named))


def hold_no_tags(block: HeadingBlock, grid: Grid, claimed: Mapping[int, str], rows: Sequence[int]) -> set[int]:
    """Return the columns read as well tags in which most cells have no digit: a yes, a date of delivery, a plate."""
    look = _Look(block, grid, rows)
    named = [column for column, name in claimed.items() if name == "well_tag"]
    return {column for column in named if look.says_something(column) and not look.holds(column, NUMBERED)}


def find_well_tags(block: HeadingBlock, grid: Grid, claimed: Mapping[int, str], rows: Sequence[int]) -> int | None:
    """Return the column that is headed by the word for a well alone and holds well tags; None: there is none."""
    if "well_tag" in claimed.values():
        return None
    look = _Look(block, grid, rows)
    for column in block.texts:
        if look.words(column) == {"WELL"} and look.holds(column, WELL_TAG):
            return column
    return None


def _is_tag_of_an_element(look: "_Look", column: int) -> bool:
    return bool(look.words(column) & BEARERS[0]) and look.holds(column, ELEMENT_TAG)


def _bearer(texts: Iterable[str]) -> int:
    """Return the rank of the tag that a heading names: the element's, one of no special kind, transmitter's, loop's."""
    words = {word for text in texts for word in normal_words(text)}
    special = [rank for rank, bearer in enumerate(BEARERS) if bearer & words]
    return special[0] if special else 1


class _Look:
    """The columns of one table by what stands in them."""

    def __init__(self, block: HeadingBlock, grid: Grid, rows: Sequence[int]) -> None:
        self.block = block
        self.grid = grid
        self.rows = rows
        self._texts: dict[int, list[str]] = {}

    def texts(self, column: int) -> list[str]:
        """Return the texts of a column, blanks left out."""
        if column not in self._texts:
            found = [self.grid.text(row, column).strip().upper() for row in self.rows]
            self._texts[column] = [text for text in found if text]
        return self._texts[column]

    def holds(self, column: int, pattern: re.Pattern[str]) -> bool:
        """Whether most of what stands in a column is of a kind; placeholders do not count."""
        texts = [text for text in self.texts(column) if pattern is SEPARATOR or not is_placeholder(text)]
        return bool(texts) and sum(bool(pattern.fullmatch(text)) for text in texts) >= MOST * len(texts)

    def repeats(self, column: int) -> bool:
        """Whether a column says a few things again and again, as a kind of instrument does and a tag does not."""
        texts = self.texts(column)
        return len(texts) >= ENOUGH and len(set(texts)) <= FEW * len(texts)

    def says_something(self, column: int) -> bool:
        """Whether a column has a cell that is neither blank nor a placeholder."""
        return any(not is_placeholder(text) for text in self.texts(column))

    def words(self, column: int) -> frozenset[str]:
        """Return the words of a column's lowest heading."""
        texts = self.block.texts.get(column, ())
        return frozenset(normal_words(texts[-1])) if texts else frozenset()


def _in_group(look: _Look, named: Sequence[int]) -> tuple[int, ...]:
    """Return the columns below one heading for the tag that hold its parts: letters in one, digits in another."""
    for group in _runs(look, named):
        parts = [column for column in group if look.texts(column)]
        has_letters = any(look.holds(column, LETTERS) for column in parts)
        has_digits = any(look.holds(column, DIGITS) for column in parts)
        if len(parts) > 1 and has_letters and has_digits:
            return tuple(parts)
    return ()


def _runs(look: _Look, named: Sequence[int]) -> list[list[int]]:
    """Return the runs of neighbouring columns that share a heading which names the tag."""
    runs: list[list[int]] = []
    sharing = {column: texts[0].upper() for column, texts in look.block.texts.items()}
    heads = {sharing[column] for column in named} | {
        text for text in sharing.values() if {"TAG"} & set(normal_words(text))
    }
    for column in sorted(sharing):
        if sharing[column] not in heads:
            continue
        if runs and runs[-1][-1] == column - 1 and sharing[column - 1] == sharing[column]:
            runs[-1].append(column)
        else:
            runs.append([column])
    return [run for run in runs if len(run) > 1]


def _beside(look: _Look, named: Sequence[int]) -> tuple[int, ...]:
    """Return function letters and number in neighbouring columns, with what stands before and behind them."""
    columns = sorted(look.block.texts)
    for letters, number in pairwise(columns):
        if number != letters + 1 or not (look.holds(letters, LETTERS) and look.holds(number, DIGITS)):
            continue
        if not any(TEMPERATURE_LETTERS.fullmatch(text) for text in look.texts(letters)):
            continue
        is_meant = letters in named or number in named
        is_called = bool(look.words(letters) & LETTER_WORDS) and bool(look.words(number) & NUMBER_WORDS)
        if is_meant or (is_called and not named):
            return (*_before(look, letters), letters, number, *_behind(look, number))
    return ()


def _before(look: _Look, letters: int) -> tuple[int, ...]:
    column = letters - 1
    is_prefix = look.words(column) & PREFIX_WORDS and look.holds(column, PREFIX)
    return (column,) if is_prefix else ()


def _behind(look: _Look, number: int) -> tuple[int, ...]:
    column = number + 1
    return (column,) if look.words(column) & SUFFIX_WORDS and look.holds(column, SUFFIX) else ()


def _separators(look: _Look, parts: Sequence[int]) -> tuple[str, ...]:
    """Return what stands between the parts where the sheet writes whole tags; a dash where it writes none."""
    kinds = [look.holds(column, SEPARATOR) for column in parts]
    return tuple(
        "" if kinds[at] or kinds[at + 1] else _separator(look, parts[at], parts[at + 1]) for at in range(len(parts) - 1)
    )


def _separator(look: _Look, one: int, other: int) -> str:
    """Return the separator between two neighbouring parts that most whole tags on the sheet have."""
    if look.words(other) & SUFFIX_WORDS:
        return ""
    is_letters = look.holds(one, LETTERS)
    found: Counter[str] = Counter()
    for row in look.rows:
        first, second = (look.grid.text(row, column).strip().upper() for column in (one, other))
        if first and second:
            lead = r"[A-Z]{2,6}" if is_letters else re.escape(first)
            follow = r"[A-Z]{2,6}" if look.holds(other, LETTERS) else re.escape(second)
            pattern = re.compile(rf"(?<![A-Z0-9]){lead}({BETWEEN}){follow}(?![0-9])")
            texts = [text.upper() for column, text in look.grid.own_texts(row).items() if column not in (one, other)]
            found.update(match[1] for text in texts for match in pattern.finditer(text))
    return found.most_common(1)[0][0] if found else USUAL_SEPARATOR


def _by_values(look: _Look, claimed: Mapping[int, str]) -> int | None:
    """Return the column without a heading of its own whose cells are tags of temperature points among others."""
    columns = [column for column in sorted(look.block.texts) if claimed.get(column, "") in {"", *VAGUE}]
    unheaded = {column for row in look.rows for column in look.grid.own_texts(row)} - set(look.block.texts)
    for column in (*columns, *sorted(unheaded)):
        texts = look.texts(column)
        of_temperature = sum(bool(TEMPERATURE_TAG.search(text) or KKS_TAG.fullmatch(text)) for text in texts)
        if (
            (look.holds(column, WHOLE) or look.holds(column, KKS_TAG))
            and of_temperature >= len(texts) / 2
            and len(set(texts)) >= MOST * len(texts)
        ):
            return column
    return None
