"""How long a whole check takes, as a ratio to loading and saving the same workbook with openpyxl in the same run.

Run by hand: python tests/benchmarks/whole_check.py [ROWS]. It prints; it asserts nothing, since a time is no test.
"""

import random
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from openpyxl import Workbook, load_workbook

from thermowell_index import Settings, check_workbook

HEADINGS = (
    "Tag No.", "Service", "Process Connection", "Overall Length (in)", "Bore Depth (in)", "Tip Thickness (in)",
    "Insertion Length (in)", "Sensor Mounting", "Extension", "Nipple Length (in)", "Sensor Type",
    "Sheath Diameter (in)",
)  # fmt: skip
COLUMNS = 40


def build(rows: int, path: Path) -> None:
    """Write an index of some rows and forty columns."""
    spread = random.Random(1)  # noqa: S311 - data, not secrets
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Index")
    sheet.append([*HEADINGS, *(f"Other {number}" for number in range(COLUMNS - len(HEADINGS)))])
    for number in range(rows):
        bore, has_nipple = spread.choice((6, 9, 12, 15, 18)), spread.random() < 0.3
        held = "Spring-loaded insert" if has_nipple else "Spring-loaded fitting"
        extension = ("Nipple", 4) if has_nipple else ("None", None)
        row = [f"TE-{number:06d}", "Feed", "1 NPT", bore + 0.25, bore, 0.25, bore - 1.5, held, *extension, "RTD", 0.25]
        sheet.append([*row, *(spread.choice(("x", spread.random(), None)) for _ in range(COLUMNS - len(row)))])
    book.save(path)


def seconds(action: Callable[[], object]) -> float:
    """Return how long an action takes."""
    start = time.perf_counter()
    action()
    return time.perf_counter() - start


def main(rows: int) -> None:
    """Print both times and their ratio."""
    with tempfile.TemporaryDirectory() as folder:
        source, saved = Path(folder, "index.xlsx"), Path(folder, "saved.xlsx")
        build(rows, source)
        check = seconds(lambda: check_workbook(source, Settings(out=Path(folder, "answer.xlsx"))))
        baseline = seconds(lambda: load_workbook(source).save(saved))
    times = f"check {check:.1f} s, openpyxl load and save {baseline:.1f} s, ratio {check / baseline:.2f}"
    sys.stdout.write(f"{rows} rows x {COLUMNS}: {times}\n")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000)
