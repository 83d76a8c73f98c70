"""The annotated copy as a file."""

import os
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import load_workbook

from thermowell_index.errors import OutputError, WorkbookError
from thermowell_index.ooxml import NewCell, Package, SheetEdit, make_copy, write, write_copy

Plain = Callable[..., Package]
SHEET = "xl/worksheets/sheet1.xml"
KEEPERS = {"Kept looks": {(1, 1): ("Index", (8, 3)), (2, 1): ("Line list", (2, 1))}}


def copied(package: Package, target: Path, edit: SheetEdit, new_sheets: bytes | None = None) -> None:
    write_copy(
        package,
        target,
        edits={"Index": edit},
        new_sheets=new_sheets,
        marks={"_ours": "Index!$H$7"},
        author="index check",
        style_keepers=KEEPERS if new_sheets else None,
    )


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "index_checked.xlsx"


def test_every_part_that_is_not_edited_stays_byte_for_byte(
    client: Package, edit: SheetEdit, new_sheets: bytes, target: Path
) -> None:
    copied(client, target, edit, new_sheets)
    copy = Package.open(target)
    differing = {name for name in client.part_names if copy.part(name) != client.part(name)}
    assert differing == {
        "[Content_Types].xml",
        "xl/workbook.xml",
        "xl/_rels/workbook.xml.rels",
        "xl/styles.xml",
        SHEET,
        next(name for name in client.part_names if "comments" in name and name.endswith(".xml")),
        next(name for name in client.part_names if name.endswith(".vml")),
    }


def test_old_cells_are_unchanged_and_new_ones_are_there(
    client: Package, edit: SheetEdit, new_sheets: bytes, target: Path
) -> None:
    copied(client, target, edit, new_sheets)
    before, after = load_workbook(client.path), load_workbook(target)
    for sheet in before.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                other = after[sheet.title][cell.coordinate]
                address = (cell.row, cell.column)
                if sheet.title == "Index" and address in edit.cells:
                    continue
                assert other.value == cell.value
                assert other.number_format == cell.number_format
                assert repr(other.font) == repr(cell.font)
                assert repr(other.border) == repr(cell.border)
                if not (sheet.title == "Index" and address in edit.fills):
                    assert repr(other.fill) == repr(cell.fill)
    for (row_number, column), new in edit.cells.items():
        assert after["Index"].cell(row_number, column).value == new.value
    for (row_number, column), colour in edit.fills.items():
        assert after["Index"].cell(row_number, column).fill.fgColor.rgb == colour
    assert repr(after["Index"]["H7"].font) == repr(before["Index"]["A7"].font)
    assert repr(after["Index"]["H7"].border) == repr(before["Index"]["A7"].border)
    assert after["Index"]["I9"].alignment.wrap_text
    assert after["Index"].column_dimensions["I"].width == 30


def test_stored_results_of_formulas_stay(client: Package, edit: SheetEdit, target: Path) -> None:
    copied(client, target, edit)
    cell = Package.open(target).read("Index").rows[8][5]
    assert (cell.value, cell.is_formula) == (28.6, True)


def test_what_surrounds_the_cells_stays(client: Package, edit: SheetEdit, target: Path) -> None:
    copied(client, target, edit)
    before, after = load_workbook(client.path)["Index"], load_workbook(target)["Index"]
    assert after.print_area == before.print_area
    assert after.auto_filter.ref == before.auto_filter.ref
    assert after.freeze_panes == before.freeze_panes
    assert sorted(map(str, after.merged_cells.ranges)) == sorted(map(str, before.merged_cells.ranges))
    assert len(after.data_validations.dataValidation) == len(before.data_validations.dataValidation)
    assert len(list(after.conditional_formatting)) == len(list(before.conditional_formatting))
    assert after["B8"].hyperlink.target == "https://example.com/doc?a=1&b=2"
    assert after.row_dimensions[14].hidden
    tail = client.part(SHEET).partition(b"</sheetData>")[2]
    copy_tail = Package.open(target).part(SHEET).partition(b"</sheetData>")[2]
    ours = b'<hyperlink ref="I8" location="\'Discrepancies\'!A2"/>'
    assert copy_tail.replace(ours, b"") == tail


def test_the_same_input_gives_the_same_bytes(client: Package, edit: SheetEdit, new_sheets: bytes, target: Path) -> None:
    copied(client, target, edit, new_sheets)
    first = target.read_bytes()
    copied(client, target, edit, new_sheets)
    assert target.read_bytes() == first


def test_a_protected_sheet_is_written_and_stays_protected(client: Package, target: Path) -> None:
    edit = SheetEdit(cells={(1, 4): NewCell(value="new")})
    write_copy(client, target, edits={"Line list": edit}, new_sheets=None, marks={}, author="x")
    sheet = Package.open(target).read("Line list")
    assert sheet.is_protected
    assert sheet.rows[1][4].value == "new"
    assert sheet.tables == ((1, 1, 3, 2),)


def test_nothing_but_a_mark_can_be_added(plain: Plain) -> None:
    package = plain()
    data = make_copy(package, edits={}, new_sheets=None, marks={"_m": "Index!$A$1"}, author="x")
    copy = Package.from_bytes(data, package.path)
    assert copy.defined_names == {"_m": "Index!$A$1"}
    assert copy.part_names == package.part_names


def test_a_workbook_without_styles_gets_them_when_they_are_needed(plain: Plain) -> None:
    package = plain('<row r="1"><c r="A1"><v>1</v></c></row>')
    edits = {"Index": SheetEdit(fills={(1, 1): "FFFFC7CE"})}
    copy = Package.from_bytes(make_copy(package, edits=edits, new_sheets=None, marks={}, author="x"), package.path)
    assert copy.fill(copy.read("Index").rows[1][1].style) == "FFFFC7CE"
    assert load_workbook(BytesIO(copy.data))["Index"]["A1"].fill.fgColor.rgb == "FFFFC7CE"


def test_text_survives_as_it_is(plain: Plain, target: Path) -> None:
    texts = ["=1+1", "+1", "-1", "@a", " 9 1/4 ", "a\nb", "_x0041_", "µ é 東", "<&>\"'", "x" * 40_000, "bell\x07"]
    edit = SheetEdit(cells={(row, 1): NewCell(value=text) for row, text in enumerate(texts, start=1)})
    copied(plain(), target, edit)
    rows = Package.open(target).read("Index").rows
    expected = [*texts[:9], "x" * 32_767, "bell"]
    assert [rows[row][1].value for row in range(1, len(texts) + 1)] == expected
    assert not any(rows[row][1].is_formula for row in rows)


def test_an_unknown_sheet_is_refused(client: Package, target: Path) -> None:
    with pytest.raises(WorkbookError, match="has no sheet 'Nowhere'"):
        write_copy(client, target, edits={"Nowhere": SheetEdit()}, new_sheets=None, marks={}, author="x")


def test_a_sheet_that_is_not_utf_8_is_refused(plain: Plain, target: Path) -> None:
    sheet = '<?xml version="1.0" encoding="ISO-8859-1"?><worksheet/>'
    with pytest.raises(WorkbookError, match="ISO-8859-1"):
        copied(plain(parts={SHEET: sheet}), target, SheetEdit(fills={(1, 1): "FFFFC7CE"}))


def test_the_input_is_never_written_to(client: Package, edit: SheetEdit, tmp_path: Path) -> None:
    before = client.path.read_bytes()
    link = tmp_path / "link.xlsx"
    os.link(client.path, link)
    for target in (client.path, tmp_path / "." / "index.xlsx", link):
        with pytest.raises(OutputError, match="is the input, which is never written to"):
            copied(client, target, edit)
    assert client.path.read_bytes() == before


@pytest.mark.parametrize("lock", ["~$index_checked.xlsx", ".~lock.index_checked.xlsx#"])
def test_a_target_that_is_open_elsewhere_is_refused(client: Package, edit: SheetEdit, target: Path, lock: str) -> None:
    target.with_name(lock).touch()
    with pytest.raises(OutputError, match="is open in another program"):
        copied(client, target, edit)
    assert not target.exists()


def test_a_target_that_another_program_holds_is_named(
    client: Package, edit: SheetEdit, target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_self: Path, _target: Path) -> Path:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "replace", refuse)
    target.write_bytes(b"old")
    with pytest.raises(OutputError, match="cannot be written; it is open in another program"):
        copied(client, target, edit)
    assert target.read_bytes() == b"old"
    assert not list(target.parent.glob("*.tmp"))


def test_a_folder_that_is_missing_is_named(client: Package, edit: SheetEdit, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match=r"cannot be written \(No such file"):
        copied(client, tmp_path / "absent" / "out.xlsx", edit)


def test_a_copy_that_cannot_be_read_back_is_not_written(
    client: Package, edit: SheetEdit, target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(write, "make_copy", lambda *_, **__: client.data[:-40])
    with pytest.raises(OutputError, match="was not written; the copy cannot be read back"):
        copied(client, target, edit)
    assert not target.exists()


@pytest.mark.parametrize("with_sheets", [True, False])
def test_a_copy_without_what_was_added_is_not_written(
    client: Package,
    edit: SheetEdit,
    new_sheets: bytes,
    target: Path,
    monkeypatch: pytest.MonkeyPatch,
    *,
    with_sheets: bool,
) -> None:
    monkeypatch.setattr(write, "make_copy", lambda *_, **__: client.data)
    message = "does not hold the sheets" if with_sheets else "new cell H7 of sheet 'Index' is missing"
    with pytest.raises(OutputError, match=message):
        copied(client, target, edit, new_sheets if with_sheets else None)
    assert not target.exists()
