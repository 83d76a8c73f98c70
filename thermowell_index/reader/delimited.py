"""Delimited text: its encoding, its delimiter, its rows."""

import codecs
import csv
import re
from collections import Counter
from dataclasses import dataclass
from io import StringIO
from pathlib import Path

from charset_normalizer import from_bytes

from thermowell_index.errors import WorkbookError

BYTE_ORDER_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
# Those that spreadsheet programs write, the usual first; others are not asked for, so that a short file is not taken
# for a rare one.
LIKELY = ("cp1252", "cp1250", "cp850", "mac_roman")
WIDE = ["utf_16_le", "utf_16_be"]
SIGN_IN_A_WORD = re.compile(r"(?<=[^\W\d_])[^\w\s.,;:'\"/()&+|\\-]+(?=[^\W\d_])|(?<=[^\W\d_])[¹²³ªº](?=[^\W\d_])")
DELIMITERS = {",": "commas", ";": "semicolons", "\t": "tabs", "|": "bars"}
LEAST_CELLS = 3
PAIR = 2
NEARLY_ALL = 0.9
WORDY = re.compile(r"[^\W\d_]{2,}")
HEADING_WITHIN = 60  # lines
TOO_MANY = 0.1
LONGEST_FIELD = 1 << 20  # characters
LOOKED_AT = 200_000  # characters
SNIFFED_AT = 20_000  # characters


@dataclass(frozen=True, kw_only=True)
class Delimited:
    """A delimited text taken apart."""

    rows: list[list[str]]
    encoding: str
    delimiter: str

    @property
    def delimiter_name(self) -> str:
        """Return what parts the cells, in words."""
        return DELIMITERS[self.delimiter]


def read_delimited(data: bytes, path: Path) -> Delimited:
    """Take a delimited text apart.

    Raises
    ------
    WorkbookError
        It is no text, or no table in it.

    """
    encoding, text = _decoded(data, path)
    if text.lstrip().startswith("<"):
        raise WorkbookError(f"{path}: is a web page or an XML file, not a workbook; save it as .xlsx")
    stated, text = _stated_delimiter(text)
    delimiter = stated or _delimiter(text)
    if delimiter is None:
        raise WorkbookError(f"{path}: no delimiter found; looked for {', '.join(DELIMITERS.values())}")
    try:
        rows = _rows(text, delimiter)
    except csv.Error as error:
        raise WorkbookError(f"{path}: cannot be read as delimited text ({error})") from error
    _refuse_rows_longer_than_the_heading(rows, delimiter, path)
    return Delimited(rows=rows, encoding=encoding, delimiter=delimiter)


def _refuse_rows_longer_than_the_heading(rows: list[list[str]], delimiter: str, path: Path) -> None:
    """Raise where many lines have more cells than the line of headings: their numbers were taken apart."""
    words = [sum(bool(WORDY.search(cell)) for cell in row) for row in rows[:HEADING_WITHIN]]
    heading = words.index(max(words, default=0)) if words else 0
    width = len(rows[heading]) if rows else 0
    below = [(number, row) for number, row in enumerate(rows[heading + 1 :], start=heading + 2) if any(row)]
    longer = [number for number, row in below if any(row[width:])]
    if len(longer) > TOO_MANY * len(below):
        raise WorkbookError(
            f"{path}: line {longer[0]} has more cells than the line of headings (line {heading + 1}); "
            f"decimal marks that are {DELIMITERS[delimiter]} too? Quote the numbers or use another delimiter"
        )


def _decoded(data: bytes, path: Path) -> tuple[str, str]:
    """Return the encoding and the text: by a byte order mark, as UTF-8, else the likeliest of the usual ones."""
    stated = next((name for mark, name in BYTE_ORDER_MARKS if data.startswith(mark)), "utf-8")
    try:
        text = data.decode(stated)
    except UnicodeDecodeError:
        text = "\0"
    if "\0" not in text:
        return stated.removesuffix("-sig"), text
    candidates = WIDE if b"\0" in data else LIKELY
    best = from_bytes(data, cp_isolation=list(candidates)).best()
    if best is None:
        raise WorkbookError(f"{path}: is no text and no workbook")
    fits = {name: _signs_in_words(data, name) for name in candidates}
    encoding = min(candidates, key=lambda name: (fits[name], name != best.encoding if fits[name] else False))
    return encoding, data.decode(encoding, errors="replace")


def _signs_in_words(data: bytes, encoding: str) -> int:
    """Return how often a sign stands inside a word: a sign of a wrong encoding."""
    text = data.decode(encoding, errors="replace")
    return len(SIGN_IN_A_WORD.findall(text)) + text.count("\ufffd") + text.count("\0")


def _stated_delimiter(text: str) -> tuple[str | None, str]:
    """Return the delimiter that a first line `sep=;` states, and the text below that line."""
    first, _, rest = text.partition("\n")
    plain = first.strip()
    if plain.lower().startswith("sep=") and plain[4:5] in DELIMITERS:
        return plain[4:5], rest
    return (None, text)


def _delimiter(text: str) -> str | None:
    """Return the delimiter: the library's guess where it parts most lines alike, else the one that does so best."""
    shares = {mark: _alike(text, mark) for mark in DELIMITERS}
    try:
        guess = csv.Sniffer().sniff(text[:SNIFFED_AT], delimiters="".join(DELIMITERS)).delimiter
    except csv.Error:
        guess = ""
    best = max(shares, key=lambda mark: (shares[mark], mark == guess))
    if shares[best] > 0:
        return best
    return next((mark for mark in DELIMITERS if _alike(text, mark, least=PAIR) >= NEARLY_ALL), None)


def _alike(text: str, delimiter: str, least: int = LEAST_CELLS) -> float:
    """Return the share of the lines that a delimiter parts into the most frequent number of cells, `least` or more."""
    counts = Counter(len(row) for row in _rows(text[:LOOKED_AT], delimiter) if any(row))
    most = [(count, cells) for cells, count in counts.items() if cells >= least]
    return max(most)[0] / counts.total() if most else 0.0


def _rows(text: str, delimiter: str) -> list[list[str]]:
    csv.field_size_limit(LONGEST_FIELD)
    return [[cell.strip() for cell in row] for row in csv.reader(StringIO(text, newline=""), delimiter=delimiter)]
