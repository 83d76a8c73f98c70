"""Reads a .xls, .xlsb or .ods workbook in a process of its own: a damaged one can end the process that reads it.

Run as a script with the path; it writes the sheets as JSON. It imports nothing of the package.
"""

import datetime as dt
import json
import sys

MEMORY = 3 << 30  # bytes


def main(path: str) -> None:
    """Write all sheets of a workbook to the standard output."""
    _limit_memory()
    from python_calamine import CalamineError, CalamineWorkbook  # noqa: PLC0415 - under the limit

    try:
        book = CalamineWorkbook.from_path(path)
        sheets = [_sheet(book, number) for number in range(len(book.sheet_names))]
    except (CalamineError, ValueError, OSError) as error:
        sys.exit(f"{type(error).__name__}: {error}")
    json.dump(sheets, sys.stdout)


def _limit_memory() -> None:
    try:
        import resource  # noqa: PLC0415 - not on every system
    except ImportError:
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def _sheet(book: object, number: int) -> dict[str, object]:
    meta = book.sheets_metadata[number]  # type: ignore[attr-defined]  # the library has no types for it here
    found: dict[str, object] = {"name": meta.name, "visible": str(meta.visible).endswith("Visible")}
    found |= {"rows": [], "merges": []}
    if not str(meta.typ).endswith("WorkSheet"):
        return found
    sheet = book.get_sheet_by_index(number)  # type: ignore[attr-defined]  # see above
    found["merges"] = sheet.merged_cell_ranges or []
    found["rows"] = [[_plain(value) for value in row] for row in sheet.to_python(skip_empty_area=False)]
    return found


def _plain(value: object) -> object:
    """Return a value as JSON can hold it: a date or time as a pair of its kind and its text."""
    if isinstance(value, dt.datetime | dt.date | dt.time):
        return ["date", value.isoformat()]
    if isinstance(value, dt.timedelta):
        return ["date", str(value)]
    return value


if __name__ == "__main__":
    main(sys.argv[1])
