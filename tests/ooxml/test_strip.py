"""What is written can be taken back, byte for byte where it matters."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.chart import BarChart

from thermowell_index.ooxml import NewCell, Package, SheetEdit, make_copy, strip, write_copy

Plain = Callable[..., Package]
AUTHOR = "index check"
KEEPERS = {"Kept looks": {(1, 1): ("Index", (8, 3)), (2, 1): ("Index", (9, 12))}}


@pytest.fixture
def written(client: Package, edit: SheetEdit, new_sheets: bytes, tmp_path: Path) -> Package:
    target = tmp_path / "index_checked.xlsx"
    write_copy(
        client,
        target,
        edits={"Index": edit},
        new_sheets=new_sheets,
        marks={"_check_columns": "Index!$H$7:$I$25"},
        author=AUTHOR,
        style_keepers=KEEPERS,
    )
    return Package.open(target)


def stripped(written: Package, client: Package, edit: SheetEdit) -> Package:
    before = client.read("Index").rows
    kept = written.read("Kept looks").rows
    styles = {address: before.get(address[0], {}).get(address[1]) for address in edit.fills}
    restore = {address: 0 if cell is None else cell.style for address, cell in styles.items()}
    restore[8, 3] = kept[1][1].style
    data = strip(
        written,
        sheets=["Discrepancies", "Kept looks"],
        columns={"Index": (8, 9)},
        marks=["_check_columns"],
        author=AUTHOR,
        restore={"Index": restore},
    )
    return Package.from_bytes(data, client.path)


def test_what_was_written_is_taken_back_byte_for_byte(written: Package, client: Package, edit: SheetEdit) -> None:
    back = stripped(written, client, edit)
    assert [sheet.name for sheet in back.sheets] == [sheet.name for sheet in client.sheets]
    assert set(back.part_names) == set(client.part_names)
    differing = {name for name in client.part_names if back.part(name) != client.part(name)}
    assert differing == {"xl/styles.xml"}
    assert back.defined_names == client.defined_names


def test_writing_again_after_taking_back_gives_the_same_file(
    written: Package, client: Package, edit: SheetEdit, new_sheets: bytes
) -> None:
    back = stripped(written, client, edit)
    again = make_copy(
        back,
        edits={"Index": edit},
        new_sheets=new_sheets,
        marks={"_check_columns": "Index!$H$7:$I$25"},
        author=AUTHOR,
        style_keepers=KEEPERS,
    )
    copy = Package.from_bytes(again, written.path)
    assert set(copy.part_names) == set(written.part_names)
    assert all(copy.part(name) == written.part(name) for name in written.part_names)


def test_only_what_is_named_is_taken_out(written: Package) -> None:
    data = strip(written, sheets=[], columns={}, marks=[], author="somebody else", restore={})
    back = Package.from_bytes(data, written.path)
    assert all(back.part(name) == written.part(name) for name in written.part_names)


def test_parts_that_only_a_removed_sheet_refers_to_go_with_it(written: Package, client: Package) -> None:
    data = strip(written, sheets=["Discrepancies"], columns={}, marks=[], author="nobody", restore={})
    back = Package.from_bytes(data, written.path)
    gone = set(written.part_names) - set(back.part_names)
    assert {name.rpartition("/")[0] for name in gone} >= {"xl/worksheets", "xl/tables", "xl/worksheets/_rels"}
    assert not gone & set(client.part_names)
    assert not any(name.encode() in back.part("[Content_Types].xml") for name in gone)
    assert [sheet.name for sheet in back.sheets] == ["Index", "Line list", "Hidden notes", "Kept looks"]


def test_a_part_that_nothing_referred_to_before_stays(plain: Plain) -> None:
    package = plain(parts={"xl/stray.xml": "<stray/>"})
    data = strip(package, sheets=[], columns={"Index": (2, 3)}, marks=[], author="x", restore={})
    assert Package.from_bytes(data, package.path).has_part("xl/stray.xml")


def taken_back(package: Package, span: tuple[int, int], restore: dict[tuple[int, int], int] | None = None) -> bytes:
    data = strip(package, sheets=[], columns={"Index": span}, marks=[], author="x", restore={"Index": restore or {}})
    return Package.from_bytes(data, package.path).part("xl/worksheets/sheet1.xml")


@pytest.mark.parametrize(
    "before, after",
    [
        ('<row r="1"><c r="A1"/><c r="C1"><v>1</v></c><c r="D1"/></row>', '<row r="1"><c r="A1"/><c r="D1"/></row>'),
        ('<row r="1"><c r="C1"/></row><row r="2"/>', '<row r="2"/>'),
        ('<row r="1" ht="9" ><c r="C1"/></row>', '<row r="1" ht="9"/>'),
        ('<row r="1" ht="9"><c r="C1"/></row>', '<row r="1" ht="9"></row>'),
        ("<row><c/><c/><c/></row>", "<row><c/></row>"),
    ],
)
def test_cells_of_the_span_go_and_rows_stay_as_they_were(plain: Plain, before: str, after: str) -> None:
    assert f"<sheetData>{after}</sheetData>" in taken_back(plain(before), (2, 3)).decode()


def test_an_emptied_sheet_is_closed_as_it_was(plain: Plain) -> None:
    namespace = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
    sheet = f'<worksheet xmlns="{namespace}"><sheetData/></worksheet>'
    package = plain(parts={"xl/worksheets/sheet1.xml": sheet})
    edits = {"Index": SheetEdit(cells={(1, 2): NewCell(value=1)})}
    written = make_copy(package, edits=edits, new_sheets=None, marks={}, author="x")
    assert taken_back(Package.from_bytes(written, package.path), (2, 3)) == sheet.encode()


@pytest.mark.parametrize(
    "stated, cells, left",
    [
        ("A1:D9", '<row r="1"><c r="A1"/><c r="C1"/></row>', "A1"),
        ("B2:D9", '<row r="2"><c r="B2"/></row><row r="9"><c r="C9"/></row>', "B2"),
        ("A1:B9", '<row r="9"><c r="B9"/></row>', "A1:B9"),
        ("C1:D9", '<row r="9"><c r="C9"/></row>', "A1"),
        ("A1:XFD9", '<row r="9"><c r="C9"/><c r="F9"/></row>', "A1:F9"),
    ],
)
def test_the_stated_range_is_narrowed(plain: Plain, stated: str, cells: str, left: str) -> None:
    made = taken_back(plain(cells, before=f'<dimension ref="{stated}"/>'), (3, 4)).decode()
    assert f'<dimension ref="{left}"/>' in made


def test_links_of_the_span_go(plain: Plain) -> None:
    links = '<hyperlink ref="A1" location="x"/><hyperlink ref="C1" location="x"/>'
    assert b'</sheetData><hyperlinks><hyperlink ref="A1" location="x"/></hyperlinks>' in taken_back(
        plain(after=f"<hyperlinks>{links}</hyperlinks>"), (3, 4)
    )
    assert b"hyperlinks" not in taken_back(plain(after=f"<hyperlinks>{links}</hyperlinks>"), (1, 4))


@pytest.mark.parametrize(
    "before, style, after",
    [
        ('<c r="A1" s="7"><v>1</v></c>', 3, '<c r="A1" s="3"><v>1</v></c>'),
        ('<c r="A1" s="7"><v>1</v></c>', 0, '<c r="A1"><v>1</v></c>'),
        ('<c r="A1" s="7" t="s"><v>1</v></c>', 0, '<c r="A1" s="0" t="s"><v>1</v></c>'),
        ('<c r="A1" s="7"></c><c r="B1"/>', 0, '<c r="B1"/>'),
        ('<c r="A1" s="7"></c><c r="B1"/>', 2, '<c r="A1" s="2"></c><c r="B1"/>'),
        ('<c r="A1" s="7"/>', 0, '<c r="A1"/>'),
        ('<c r="B1"/>', 5, '<c r="B1"/>'),
    ],
)
def test_a_style_is_given_back(plain: Plain, before: str, style: int, after: str) -> None:
    for span in ((3, 4), None):
        package = plain(f'<row r="1">{before}</row>')
        columns = {} if span is None else {"Index": span}
        data = strip(package, sheets=[], columns=columns, marks=[], author="x", restore={"Index": {(1, 1): style}})
        assert f'<row r="1">{after}</row>'.encode() in Package.from_bytes(data, package.path).part(
            "xl/worksheets/sheet1.xml"
        )


def with_formula(book_bytes: bytes) -> bytes:
    book = load_workbook(BytesIO(book_bytes))
    book["Discrepancies"]["G1"] = "=1+1"
    buffer = BytesIO()
    book.save(buffer)
    return buffer.getvalue()


def test_the_order_of_calculation_goes_with_formulas_that_go(client: Package, new_sheets: bytes) -> None:
    for book, is_kept in ((new_sheets, True), (with_formula(new_sheets), False)):
        copy = Package.from_bytes(make_copy(client, edits={}, new_sheets=book, marks={}, author="x"), client.path)
        data = strip(copy, sheets=["Discrepancies"], columns={}, marks=[], author="x", restore={})
        assert Package.from_bytes(data, client.path).has_part("xl/calcChain.xml") is is_kept
    data = strip(client, sheets=[], columns={"Index": (5, 5)}, marks=[], author="x", restore={})
    assert not Package.from_bytes(data, client.path).has_part("xl/calcChain.xml")


def test_a_chart_sheet_is_no_obstacle(client: Package) -> None:
    book = Workbook()
    book.create_chartsheet("Chart")
    del book["Sheet"]
    chart = BarChart()
    book["Chart"].add_chart(chart)
    buffer = BytesIO()
    book.save(buffer)
    data = make_copy(client, edits={}, new_sheets=buffer.getvalue(), marks={}, author="x")
    copy = Package.from_bytes(data, client.path)
    assert copy.sheets[-1].kind == "chartsheet"
    back = Package.from_bytes(strip(copy, sheets=["Chart"], columns={}, marks=[], author="x", restore={}), client.path)
    assert set(back.part_names) == set(client.part_names)
    kept = Package.from_bytes(strip(copy, sheets=[], columns={}, marks=[], author="x", restore={}), client.path)
    assert set(kept.part_names) == set(copy.part_names)
