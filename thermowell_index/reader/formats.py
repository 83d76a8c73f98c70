"""Any file that may hold an index into a package: .xlsx and .xlsm as they are, all others by way of a new workbook."""

import json
import re
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TypedDict

from openpyxl import Workbook
from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package
from thermowell_index.ooxml.guard import OLE_MAGIC, digest, read_file
from thermowell_index.reader.delimited import read_delimited

CHILD = Path(__file__).with_name("other_formats_child.py")
LONGEST_WAIT = 300  # seconds
ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
ZIP_MAGIC = b"PK\x03\x04"
OPEN_DOCUMENT = b"mimetypeapplication/vnd.oasis.opendocument.spreadsheet"
BINARY_WORKBOOK = b"xl/workbook.bin"
DELIMITED = frozenset({".csv", ".tsv", ".txt", ".tab"})
OLD = frozenset({".xls", ".xlt"})
LONGEST_NAME = 31  # characters of a sheet's name
LONGEST_TEXT = 32_767  # characters of a cell


@dataclass(frozen=True, kw_only=True)
class OpenedIndex:
    """An index ready to be read: its package, the SHA-256 of the file, and what its format could not carry over."""

    package: Package
    sha256: str
    notes: tuple[str, ...] = ()

    @property
    def is_converted(self) -> bool:
        """Whether the file is no .xlsx workbook: its answer is a new one."""
        return bool(self.notes)


def open_index(path: Path) -> OpenedIndex:
    """Open an index of any format that is known.

    Raises
    ------
    WorkbookError
        It cannot be read, is of no known format, is encrypted, damaged, or looks made to do harm.

    """
    data = read_file(path)
    if data.startswith(OLE_MAGIC) and path.suffix.lower() in OLD and ENCRYPTED not in data:
        return _by_child(path, data, "old .xls")
    if data.startswith(ZIP_MAGIC) and OPEN_DOCUMENT in data[:200]:
        return _by_child(path, data, ".ods")
    if data.startswith(ZIP_MAGIC) and BINARY_WORKBOOK in data:
        return _by_child(path, data, ".xlsb")
    is_package = data.startswith((ZIP_MAGIC, OLE_MAGIC))
    if not is_package and path.suffix.lower() in DELIMITED | OLD:
        return _delimited(path, data)
    return OpenedIndex(package=Package.from_bytes(data, path), sha256=digest(data))


def _delimited(path: Path, data: bytes) -> OpenedIndex:
    found = read_delimited(data, path)
    book = Workbook()
    del book[book.sheetnames[0]]
    page = book.create_sheet(_sheet_name(path.stem))
    for row, texts in enumerate(found.rows, start=1):
        for column, text in enumerate(texts, start=1):
            if text:
                _put(page, row, column, text)
    note = (
        f"read as text, encoding {found.encoding}, cells parted by {found.delimiter_name}; the answer is a new workbook"
    )
    return _opened(book, path, data, note)


def _by_child(path: Path, data: bytes, kind: str) -> OpenedIndex:
    book = Workbook()
    del book[book.sheetnames[0]]
    for sheet in _read_in_child(path):
        page = book.create_sheet(_sheet_name(sheet["name"]))
        page.sheet_state = "visible" if sheet["visible"] else "hidden"
        _fill(page, sheet["rows"])
        for (top, left), (bottom, right) in sheet["merges"]:
            page.merge_cells(start_row=top + 1, start_column=left + 1, end_row=bottom + 1, end_column=right + 1)
    note = (
        f"read from {kind}: number formats, struck text, hidden rows and formulas without results cannot be told there "
        "and cells with errors read as blank; the answer is a new workbook"
    )
    return _opened(book, path, data, note)


class ChildSheet(TypedDict):
    """One sheet as the child process writes it; a date is a pair of the word `date` and its text."""

    name: str
    visible: bool
    rows: list[list[str | float | bool | list[str] | None]]
    merges: list[tuple[tuple[int, int], tuple[int, int]]]


def _read_in_child(path: Path) -> Sequence[ChildSheet]:
    command = [sys.executable, "-I", str(CHILD), str(path.resolve())]
    try:
        done = subprocess.run(command, capture_output=True, timeout=LONGEST_WAIT, check=False)  # noqa: S603 - our script
    except subprocess.TimeoutExpired as error:
        raise WorkbookError(f"{path}: cannot be read within {LONGEST_WAIT} s; save it as .xlsx") from error
    if done.returncode != 0:
        words = done.stderr.decode(errors="replace").strip().splitlines()
        why = words[-1] if words else f"its reader ended with status {done.returncode}"
        raise WorkbookError(f"{path}: cannot be read ({why}); save it as .xlsx")
    sheets: Sequence[ChildSheet] = json.loads(done.stdout)
    return sheets


def _fill(page: Worksheet, rows: Sequence[Sequence[str | float | bool | list[str] | None]]) -> None:
    for row, values in enumerate(rows, start=1):
        for column, value in enumerate(values, start=1):
            if isinstance(value, list):  # a date, as text that is known as one
                _put(page, row, column, value[1][:10])
            elif isinstance(value, str):
                _put(page, row, column, value)
            elif value is not None:
                page.cell(row, column, value)


def _put(page: Worksheet, row: int, column: int, text: str) -> None:
    """Put a text into a cell as text, whatever it looks like."""
    if text:
        cell = page.cell(row, column)
        cell.value = ILLEGAL_CHARACTERS_RE.sub("", text)[:LONGEST_TEXT]
        cell.data_type = "s"


def _sheet_name(name: str) -> str:
    return re.sub(r"[\[\]:*?/\\]", "_", name).strip("'")[:LONGEST_NAME] or "Index"


def _opened(book: Workbook, path: Path, data: bytes, note: str) -> OpenedIndex:
    if not book.sheetnames:
        raise WorkbookError(f"{path}: has no sheets")
    buffer = BytesIO()
    book.save(buffer)
    return OpenedIndex(package=Package.from_bytes(buffer.getvalue(), path), sha256=digest(data), notes=(note,))
