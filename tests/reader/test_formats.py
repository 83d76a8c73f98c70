import subprocess
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.guard import OLE_MAGIC, digest
from thermowell_index.reader import formats
from thermowell_index.reader.formats import OpenedIndex, open_index
from thermowell_index.reader.grid import Grid

OPEN_DOCUMENT = """<?xml version="1.0" encoding="UTF-8"?>
<office:document-content office:version="1.2" xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0">
<office:body><office:spreadsheet>
<table:table table:name="Index: 1">
<table:table-row>{cells}</table:table-row>
</table:table></office:spreadsheet></office:body></office:document-content>"""
CELLS = (
    '<table:table-cell office:value-type="string"><text:p>TE-101</text:p></table:table-cell>'
    '<table:table-cell office:value-type="float" office:value="9.25"><text:p>9.25</text:p></table:table-cell>'
    '<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>TRUE</text:p></table:table-cell>'
    '<table:table-cell office:value-type="date" office:date-value="2024-01-04"><text:p>x</text:p></table:table-cell>'
    "<table:table-cell/>"
    '<table:table-cell office:value-type="string"><text:p>=A1</text:p></table:table-cell>'
)


def ods(cells: str = CELLS) -> bytes:
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        archive.writestr(
            "META-INF/manifest.xml",
            '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>',
        )
        archive.writestr("content.xml", OPEN_DOCUMENT.format(cells=cells))
    return buffer.getvalue()


@pytest.fixture
def opened(tmp_path: Path) -> Callable[[str, bytes], OpenedIndex]:
    """Writes a file and opens it as an index."""

    def write(name: str, data: bytes) -> OpenedIndex:
        path = tmp_path / name
        path.write_bytes(data)
        return open_index(path)

    return write


def test_an_xlsx_workbook_is_opened_as_it_is(opened: Callable[[str, bytes], OpenedIndex]) -> None:
    buffer = BytesIO()
    Workbook().save(buffer)
    index = opened("index.xlsx", buffer.getvalue())
    assert (index.package.data, index.notes, index.is_converted) == (buffer.getvalue(), (), False)


def test_delimited_text_becomes_a_sheet_of_the_files_stem_with_all_cells_as_text(
    opened: Callable[[str, bytes], OpenedIndex],
) -> None:
    data = b'Tag;Service;Bore depth (in)\n=10LAB10CT001;"a\x07b";9.25\n\nTE-2;;6\n'
    index = opened("unit [1] temperature points of the plant.csv", data)
    (sheet,) = index.package.sheets
    grid = Grid(index.package, sheet.name)
    assert sheet.name == "unit _1_ temperature points of "
    assert grid.own_texts(2) == {1: "=10LAB10CT001", 2: "ab", 3: "9.25"}
    assert grid.own_texts(4) == {1: "TE-2", 3: "6"}
    cell = grid.cell(2, 3)
    assert cell is not None
    assert cell.kind == "s"
    assert index.is_converted
    assert index.sha256 == digest(data)
    assert "encoding utf-8, cells parted by semicolons" in index.notes[0]


def test_an_ods_workbook_is_read_in_a_process_of_its_own(opened: Callable[[str, bytes], OpenedIndex]) -> None:
    index = opened("index.ods", ods())
    (sheet,) = index.package.sheets
    grid = Grid(index.package, sheet.name)
    assert sheet.name == "Index_ 1"
    assert grid.own_texts(1) == {1: "TE-101", 2: "9.25", 3: "TRUE", 4: "2024-01-04", 6: "=A1"}
    assert "read from .ods" in index.notes[0]


def test_merged_ranges_are_carried_over(
    opened: Callable[[str, bytes], OpenedIndex], monkeypatch: pytest.MonkeyPatch
) -> None:
    page = {"name": "A", "visible": True, "rows": [["x", None], [None, None], ["y", "z"]], "merges": [[[0, 0], [1, 1]]]}
    monkeypatch.setattr(formats, "_read_in_child", lambda _path: [page, {**page, "name": "B", "visible": False}])
    index = opened("index.xls", OLE_MAGIC + bytes(600))
    assert Grid(index.package, "A").text(2, 2) == "x"
    assert [sheet.state for sheet in index.package.sheets] == ["visible", "hidden"]
    assert "old .xls" in index.notes[0]


def test_a_binary_workbook_goes_the_same_way(
    opened: Callable[[str, bytes], OpenedIndex], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(formats, "_read_in_child", lambda _path: [])
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w") as archive:
        archive.writestr("xl/workbook.bin", "")
    with pytest.raises(WorkbookError, match="has no sheets"):
        opened("index.xlsb", buffer.getvalue())


def test_a_damaged_workbook_is_refused_in_one_line(opened: Callable[[str, bytes], OpenedIndex]) -> None:
    with pytest.raises(WorkbookError, match=r"cannot be read .*; save it as \.xlsx") as failure:
        opened("index.ods", ods()[:300])
    assert "\n" not in str(failure.value)


def test_a_reader_that_dies_without_a_word_is_said(
    opened: Callable[[str, bytes], OpenedIndex], monkeypatch: pytest.MonkeyPatch
) -> None:
    dead = subprocess.CompletedProcess(args=[], returncode=-6, stdout=b"", stderr=b"")
    monkeypatch.setattr(subprocess, "run", lambda *_args, **_more: dead)
    with pytest.raises(WorkbookError, match="its reader ended with status -6"):
        opened("index.ods", ods())


def test_a_reader_that_takes_too_long_is_ended(
    opened: Callable[[str, bytes], OpenedIndex], monkeypatch: pytest.MonkeyPatch
) -> None:
    def late(*_args: object, **_more: object) -> None:
        raise subprocess.TimeoutExpired(cmd="x", timeout=1)

    monkeypatch.setattr(subprocess, "run", late)
    with pytest.raises(WorkbookError, match="cannot be read within 300 s"):
        opened("index.ods", ods())


def test_an_encrypted_workbook_is_not_given_to_the_other_reader(opened: Callable[[str, bytes], OpenedIndex]) -> None:
    data = OLE_MAGIC + bytes(500) + "EncryptedPackage".encode("utf-16-le")
    for name in ("index.xlsx", "index.xls"):
        with pytest.raises(WorkbookError, match="encrypted"):
            opened(name, data)


def test_a_web_page_named_xls_is_refused(opened: Callable[[str, bytes], OpenedIndex]) -> None:
    with pytest.raises(WorkbookError, match="is a web page"):
        opened("index.xls", b"<html></html>")


def test_text_under_another_name_is_no_workbook(opened: Callable[[str, bytes], OpenedIndex]) -> None:
    with pytest.raises(WorkbookError, match=r"is not an \.xlsx workbook"):
        opened("index.pdf", b"a;b;c")


def test_a_file_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(WorkbookError, match="cannot be read"):
        open_index(tmp_path / "none.csv")
