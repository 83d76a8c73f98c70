"""Notes added to a workbook and taken back."""

import re
from collections.abc import Callable, Mapping
from io import BytesIO

import pytest
from openpyxl import load_workbook

from thermowell_index.ooxml import Package, SheetEdit, make_copy, strip

Plain = Callable[..., Package]
NS = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
SHEET = "xl/worksheets/sheet1.xml"
AUTHOR = "index check"
VML_SPACES = (
    'xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" '
    'xmlns:x="urn:schemas-microsoft-com:office:excel"'
)


def noted(package: Package, notes: Mapping[tuple[int, int], str]) -> Package:
    edits = {package.sheets[0].name: SheetEdit(notes=dict(notes))}
    data = make_copy(package, edits=edits, new_sheets=None, marks={}, author=AUTHOR)
    return Package.from_bytes(data, package.path)


def taken_back(package: Package) -> Package:
    data = strip(package, sheets=[], columns={}, marks=[], author=AUTHOR, restore={})
    return Package.from_bytes(data, package.path)


def texts(package: Package) -> dict[str, str]:
    sheet = load_workbook(BytesIO(package.data))[package.sheets[0].name]
    return {cell.coordinate: cell.comment.text for row in sheet.iter_rows() for cell in row if cell.comment}


def parts_of(comments: str, *, drawing: str | None = None, threads: str | None = None) -> dict[str, str]:
    """Parts of a sheet that has notes."""
    entries = [("a", "comments", "../comments7.xml")]
    parts = {"xl/comments7.xml": f'<comments xmlns="{NS}">{comments}</comments>'}
    if drawing is not None:
        entries.append(("b", "vmlDrawing", "../drawings/vmlDrawing1.vml"))
        parts["xl/drawings/vmlDrawing1.vml"] = f"<xml {VML_SPACES}>{drawing}</xml>"
    if threads is not None:
        entries.append(("c", "threadedComment", "../threadedComments/threadedComment1.xml"))
        parts["xl/threadedComments/threadedComment1.xml"] = threads
    listed = "".join(f'<Relationship Id="{i}" Type="{RELATIONS}/{k}" Target="{t}"/>' for i, k, t in entries)
    namespace = "http://schemas.openxmlformats.org/package/2006/relationships"
    parts["xl/worksheets/_rels/sheet1.xml.rels"] = f'<Relationships xmlns="{namespace}">{listed}</Relationships>'
    return parts


def comment(ref: str, inside: str, author: int = 0) -> str:
    return f'<comment ref="{ref}" authorId="{author}"><text>{inside}</text></comment>'


def box(row: int, column: int) -> str:
    return (
        f'<v:shape id="_x0000_s10{row}{column}"><x:ClientData ObjectType="Note"><x:Row>{row}</x:Row>'
        f"<x:Column>{column}</x:Column></x:ClientData></v:shape>"
    )


def test_a_first_note_brings_all_it_needs(plain: Plain) -> None:
    package = plain('<row r="3"><c r="C3"><v>1</v></c></row>', after="<headerFooter/>")
    copy = noted(package, {(3, 3): "error: <thin> & worn\nsecond line", (9, 9): "on a cell that is not there"})
    assert texts(copy) == {
        "C3": "[index check]\nerror: <thin> & worn\nsecond line",
        "I9": "[index check]\non a cell that is not there",
    }
    assert b"<legacyDrawing " in copy.part(SHEET)
    assert b"<author>index check</author>" in copy.part("xl/comments1.xml")
    assert copy.part("xl/drawings/vmlDrawing1.vml").count(b"ObjectType") == 2
    back = taken_back(copy)
    assert set(back.part_names) == set(package.part_names)
    assert back.part(SHEET) == package.part(SHEET)


def test_our_text_goes_under_the_text_of_others(client: Package) -> None:
    copy = noted(client, {(8, 1): "error: second look"})
    assert texts(copy) == {"A8": "Client's own note\n[index check]\nerror: second look"}
    drawing = next(name for name in client.part_names if name.endswith(".vml"))
    assert copy.part(drawing) == client.part(drawing), "its box stays as it is"
    back = taken_back(copy)
    assert texts(back) == {"A8": "Client's own note"}
    assert all(back.part(name) == client.part(name) for name in client.part_names)


def test_the_look_of_a_note_is_kept(plain: Plain) -> None:
    runs = '<r><rPr><b/></rPr><t>Lead:</t></r><r><rPr><sz val="9"/></rPr><t xml:space="preserve">\nhold</t></r>'
    parts = parts_of(
        f"<authors><author>Lead</author></authors><commentList>{comment('A1', runs)}</commentList>", drawing=box(0, 0)
    )
    package = plain(after='<legacyDrawing r:id="b"/>', parts=parts)
    copy = noted(package, {(1, 1): "ours"})
    assert runs.encode() in copy.part("xl/comments7.xml")
    assert texts(copy) == {"A1": "Lead:\nhold\n[index check]\nours"}
    back = taken_back(copy)
    assert all(back.part(name) == package.part(name) for name in package.part_names)


def test_a_note_without_text_is_added_to(plain: Plain) -> None:
    listed = '<comment ref="A1" authorId="0"/>' + comment("B1", "").replace("<text></text>", "<text/>")
    parts = parts_of(f"<authors><author>L</author></authors><commentList>{listed}</commentList>", drawing=box(0, 0))
    copy = noted(plain(after='<legacyDrawing r:id="b"/>', parts=parts), {(1, 1): "lost", (1, 2): "ours"})
    assert b'<comment ref="A1" authorId="0"/>' in copy.part("xl/comments7.xml"), "there is no text to add to"
    assert b"[index check]\nours" in copy.part("xl/comments7.xml")


def test_a_note_on_a_merged_cell_goes_to_its_first(plain: Plain) -> None:
    package = plain(after='<mergeCells><mergeCell ref="B2:D4"/></mergeCells>')
    copy = noted(package, {(4, 3): "one", (3, 3): "two"})
    assert texts(copy) == {"B2": "[index check]\none\ntwo"}


def test_a_cell_with_a_conversation_is_left_alone(plain: Plain) -> None:
    stub = comment("A1", "<t>[Threaded comment]</t>")
    parts = parts_of(
        f"<authors><author>tc=1</author></authors><commentList>{stub}</commentList>",
        drawing=box(0, 0),
        threads='<ThreadedComments xmlns="urn:t"><threadedComment ref="A1"/><threadedComment/></ThreadedComments>',
    )
    package = plain(after='<legacyDrawing r:id="b"/>', parts=parts)
    copy = noted(package, {(1, 1): "ours"})
    assert all(copy.part(name) == package.part(name) for name in package.part_names)
    assert "B2" in texts(noted(package, {(1, 1): "ours", (2, 2): "ours"}))


def test_a_drawing_that_holds_only_controls_is_used(plain: Plain) -> None:
    control = '<v:shape id="_x0000_s1025"><x:ClientData ObjectType="Button"/></v:shape>'
    parts = parts_of("<authors/><commentList/>", drawing=control)
    rels = parts["xl/worksheets/_rels/sheet1.xml.rels"]
    parts["xl/worksheets/_rels/sheet1.xml.rels"] = re.sub(r'<Relationship Id="a".*?/>', "", rels)
    del parts["xl/comments7.xml"]
    package = plain(after='<legacyDrawing r:id="b"/>', parts=parts)
    copy = noted(package, {(2, 2): "ours"})
    drawing = copy.part("xl/drawings/vmlDrawing1.vml").decode()
    assert "Button" in drawing
    assert "Note" in drawing
    assert copy.part(SHEET) == package.part(SHEET)
    back = taken_back(copy)
    assert "Note" not in back.part("xl/drawings/vmlDrawing1.vml").decode()
    assert back.part(SHEET) == package.part(SHEET)
    assert set(back.part_names) == set(package.part_names)


def test_a_drawing_that_is_missing_is_made(plain: Plain) -> None:
    parts = parts_of(f"<authors><author>L</author></authors><commentList>{comment('A1', '<t>x</t>')}</commentList>")
    copy = noted(plain(after='<legacyDrawing r:id="gone"/>', parts=parts), {(2, 2): "ours"})
    assert copy.part(SHEET).count(b"<legacyDrawing ") == 1
    assert b'r:id="rId1"' in copy.part(SHEET)
    assert texts(copy)["B2"] == "[index check]\nours"


def test_lists_that_are_missing_are_no_obstacle(plain: Plain) -> None:
    package = plain(parts=parts_of("<commentList></commentList>"))
    copy = noted(package, {(2, 2): "ours"})
    assert b'authorId="0"' in copy.part("xl/comments7.xml")
    assert not taken_back(copy).has_part("xl/comments7.xml")
    assert noted(plain(parts=parts_of("<authors/>")), {(2, 2): "x"}).has_part("xl/comments7.xml")


def test_an_author_is_listed_once(plain: Plain) -> None:
    once = noted(plain(), {(2, 2): "ours"})
    twice = noted(once, {(3, 3): "ours too"})
    assert twice.part("xl/comments1.xml").count(b"<author>") == 1


@pytest.mark.parametrize(
    "stored, left",
    [
        ("<t>[index check]\nours</t>", None),
        ("<t>[index check]</t>", None),
        ("<r><t>Lead</t></r><r><t>\n[index check]\no</t></r><r><t>urs</t></r>", "Lead"),
        ("<t>Lead\n[index check]\nours</t>", "Lead"),
        ("<t>Lead_x000D_\n[index check]_x000D_\nours</t>", "Lead"),
        ("<t>about [index check]\nnot ours</t>", "about [index check]\nnot ours"),
        ("<r><rPr><b/></rPr><t>Lead</t></r><r><t>: 235\n[index check]</t></r>", "Lead: 235"),
    ],
)
def test_our_text_is_known_by_its_first_line(plain: Plain, stored: str, left: str | None) -> None:
    listed = comment("A1", stored) + comment("B1", "<t>x</t>")
    parts = parts_of(
        f"<authors><author>L</author></authors><commentList>{listed}</commentList>",
        drawing=box(0, 0) + box(0, 1),
    )
    back = taken_back(plain(after='<legacyDrawing r:id="b"/>', parts=parts))
    expected = {"B1": "x"} if left is None else {"A1": left, "B1": "x"}
    assert texts(back) == expected
    assert (b"<x:Column>0<" in back.part("xl/drawings/vmlDrawing1.vml")) is (left is not None)


def test_text_beyond_what_a_note_holds_is_cut(plain: Plain) -> None:
    copy = noted(plain(), {(1, 1): "x" * 40_000})
    assert len(texts(copy)["A1"]) == 32_767


def test_a_note_that_another_wrote_under_our_name_stays(plain: Plain) -> None:
    listed = comment("A1", "<t>[index check]\nours</t>") + comment("B1", "<t>by hand</t>") + '<comment ref="C1"/>'
    parts = parts_of(
        f"<authors><author>index check</author></authors><commentList>{listed}</commentList>", drawing=box(0, 0)
    )
    back = taken_back(plain(after='<legacyDrawing r:id="b"/>', parts=parts))
    comments = back.part("xl/comments7.xml").decode()
    assert "<author>index check</author>" in comments
    assert "by hand" in comments
    assert 'ref="A1"' not in comments


def test_notes_without_boxes_are_taken_back(plain: Plain) -> None:
    listed = comment("A1", "<t>[index check]\nours</t>")
    package = plain(parts=parts_of(f"<authors/><commentList>{listed}</commentList>"))
    assert not taken_back(package).has_part("xl/comments7.xml")
