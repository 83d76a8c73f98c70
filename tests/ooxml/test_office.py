"""A spreadsheet program opens what is written, and what it saves can be read and taken back."""

import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook

from thermowell_index.ooxml import Package, SheetEdit, strip, write_copy

AUTHOR = "index check"
SOFFICE = shutil.which("soffice")

pytestmark = pytest.mark.skipif(SOFFICE is None, reason="no office program is installed")


@pytest.fixture(scope="module")
def convert(tmp_path_factory: pytest.TempPathFactory) -> Callable[[Path, str], Path]:
    """Let the office program open a file and save it in a folder of its own."""
    profile = tmp_path_factory.mktemp("profile")
    folder = tmp_path_factory.mktemp("saved")

    def run(path: Path, kind: str) -> Path:
        command = [str(SOFFICE), f"-env:UserInstallation={profile.as_uri()}", "--headless", "--convert-to", kind]
        subprocess.run([*command, "--outdir", str(folder), str(path)], check=True, capture_output=True, timeout=180)  # noqa: S603
        saved = folder / f"{path.stem}.{kind}"
        assert saved.exists()
        return saved

    return run


@pytest.fixture
def written(client: Package, edit: SheetEdit, new_sheets: bytes, tmp_path: Path) -> Path:
    target = tmp_path / "index_checked.xlsx"
    write_copy(
        client,
        target,
        edits={"Index": edit},
        new_sheets=new_sheets,
        marks={"_check_columns": "Index!$H$7:$I$25"},
        author=AUTHOR,
        style_keepers={"Kept looks": {(1, 1): ("Index", (8, 3)), (2, 1): ("Index", (9, 12))}},
    )
    return target


def without_dimension(sheet: bytes) -> bytes:
    return re.sub(rb"<dimension [^>]*>", b"", sheet)


def test_an_office_program_shows_old_and_new_cells(
    written: Path, client: Package, edit: SheetEdit, convert: Callable[[Path, str], Path]
) -> None:
    saved = Package.open(convert(written, "xlsx"))
    assert [sheet.name for sheet in saved.sheets] == [
        "Index",
        "Line list",
        "Hidden notes",
        "Discrepancies",
        "Kept looks",
    ]
    assert [sheet.state for sheet in saved.sheets] == ["visible", "visible", "hidden", "visible", "hidden"]
    before, after = client.read("Index").rows, saved.read("Index").rows
    for row, cells in before.items():
        for column, cell in cells.items():
            if cell.is_used:
                assert after[row][column].value == pytest.approx(cell.value)
    for (row, column), new in edit.cells.items():
        assert after[row][column].value == new.value
    for (row, column), colour in edit.fills.items():
        assert saved.fill(after[row][column].style) == colour


def test_notes_survive_an_office_program(written: Path, convert: Callable[[Path, str], Path]) -> None:
    sheet = load_workbook(convert(written, "xlsx"))["Index"]
    texts = {cell.coordinate: cell.comment.text for row in sheet.iter_rows() for cell in row if cell.comment}
    assert texts == {
        "A8": "Client's own note\n[index check]\nerror: second look",
        "C9": "[index check]\nwarning: <thin> & worn",
        "F12": "[index check]\non a merged cell",
    }


def test_a_copy_saved_by_an_office_program_is_taken_back(
    written: Path, client: Package, convert: Callable[[Path, str], Path]
) -> None:
    saved = Package.open(convert(written, "xlsx"))
    kept = saved.read("Kept looks").rows
    data = strip(
        saved,
        sheets=["Discrepancies", "Kept looks"],
        columns={"Index": (8, 9)},
        marks=["_check_columns"],
        author=AUTHOR,
        restore={"Index": {(8, 3): kept[1][1].style, (9, 12): kept[2][1].style}},
    )
    path = written.with_name("again.xlsx")
    path.write_bytes(data)
    back = Package.open(path)
    assert [sheet.name for sheet in back.sheets] == ["Index", "Line list", "Hidden notes"]
    after = back.read("Index")
    assert after.last_column == 7
    assert back.fill(after.rows[8][3].style) is None
    assert back.number_format(after.rows[8][3].style) == client.number_format(client.read("Index").rows[8][3].style)
    assert "_check_columns" not in back.defined_names
    notes = {c.coordinate: c.comment.text for r in load_workbook(path)["Index"].iter_rows() for c in r if c.comment}
    assert notes == {"A8": "Client's own note"}
    convert(path, "pdf")


def test_an_index_saved_by_an_office_program_is_written_and_taken_back(
    client: Package, edit: SheetEdit, new_sheets: bytes, convert: Callable[[Path, str], Path], tmp_path: Path
) -> None:
    saved = Package.open(convert(client.path, "xlsx"))
    target = tmp_path / "index_checked.xlsx"
    write_copy(
        saved, target, edits={"Index": edit}, new_sheets=new_sheets, marks={"_ours": "Index!$H$7"}, author=AUTHOR
    )
    before, copy = saved.read("Index"), Package.open(target)
    styles = {address: before.rows.get(address[0], {}).get(address[1]) for address in edit.fills}
    data = strip(
        copy,
        sheets=["Discrepancies", "Kept looks"],
        columns={"Index": (8, 9)},
        marks=["_ours"],
        author=AUTHOR,
        restore={"Index": {address: 0 if cell is None else cell.style for address, cell in styles.items()}},
    )
    back = Package.from_bytes(data, target)
    sheet = saved.sheet("Index").part
    differing = {name for name in saved.part_names if back.part(name) != saved.part(name)} - {sheet}
    assert differing <= {"xl/styles.xml", "[Content_Types].xml", "xl/drawings/vmlDrawing1.vml"}
    # the office program states a range that takes in rows with a height and no cells
    assert without_dimension(back.part(sheet)) == without_dimension(saved.part(sheet))
    convert(target, "pdf")
