"""The copy in the making."""

from collections.abc import Callable

from thermowell_index.ooxml import Package
from thermowell_index.ooxml.draft import CONTENT_TYPES, Draft, append_markup, closed_tag, open_tag
from thermowell_index.ooxml.markup import apply_splices, parse

Plain = Callable[..., Package]
SHEET = "xl/worksheets/sheet1.xml"
TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
VML = "application/vnd.openxmlformats-officedocument.vmlDrawing"


def reopened(draft: Draft) -> Package:
    return Package.from_bytes(draft.to_bytes(), draft.package.path)


def test_an_unedited_draft_holds_every_part_as_it_was(client: Package) -> None:
    copy = reopened(Draft(client))
    assert copy.part_names == client.part_names
    assert all(copy.part(name) == client.part(name) for name in client.part_names)


def test_parts_are_edited_added_and_removed(client: Package) -> None:
    draft = Draft(client)
    draft.put("XL/Workbook.xml", client.part("xl/workbook.xml") + b" ")
    draft.put("xl/added.xml", b"<a/>")
    draft.remove("xl/calcChain.xml")
    copy = reopened(draft)
    assert copy.part("xl/workbook.xml").endswith(b"> ")
    assert copy.part("xl/added.xml") == b"<a/>"
    assert not copy.has_part("xl/calcChain.xml")
    assert b"calcChain.xml" not in copy.part(CONTENT_TYPES)
    assert draft.names() == list(copy.part_names)


def test_a_removed_part_can_be_put_back(client: Package) -> None:
    draft = Draft(client)
    draft.remove("xl/calcChain.xml")
    assert not draft.has("xl/calcChain.xml")
    draft.put("xl/calcChain.xml", b"<calcChain/>")
    assert reopened(draft).part("xl/calcChain.xml") == b"<calcChain/>"


def test_a_free_name_is_found(plain: Plain) -> None:
    draft = Draft(plain(parts={"xl/comments1.xml": "<a/>", "xl/COMMENTS2.xml": "<a/>"}))
    assert draft.new_name("xl/comments1.xml") == "xl/comments3.xml"
    assert draft.new_name("xl/media/logo.png") == "xl/media/logo1.png"


def test_references_are_added_and_removed(plain: Plain) -> None:
    draft = Draft(plain())
    assert draft.add_relationship(SHEET, "comments", "xl/comments1.xml") == "rId1"
    assert draft.add_relationship(SHEET, "vmlDrawing", "xl/drawings/a & b.vml") == "rId2"
    assert [entry.target for entry in draft.relationships(SHEET)] == ["xl/comments1.xml", "xl/drawings/a & b.vml"]
    assert draft.target(SHEET, "comments") is None, "the part itself is not there"
    draft.remove_relationship(SHEET, "rId1")
    assert [entry.identifier for entry in draft.relationships(SHEET)] == ["rId2"]
    draft.remove_relationship(SHEET, "rId2")
    assert not draft.has("xl/worksheets/_rels/sheet1.xml.rels")


def test_content_types_are_stated_once(plain: Plain) -> None:
    draft = Draft(plain())
    draft.declare("xl/drawings/vmlDrawing1.vml", VML)
    draft.declare("xl/drawings/vmlDrawing2.vml", VML)
    draft.declare("xl/comments1.xml", TYPE)
    draft.declare("xl/odd.vml", "application/odd")
    types = draft.part(CONTENT_TYPES).decode()
    assert types.count('Extension="vml"') == 1
    assert f'<Override PartName="/xl/comments1.xml" ContentType="{TYPE}"/>' in types
    assert '<Override PartName="/xl/odd.vml" ContentType="application/odd"/>' in types
    assert "vmlDrawing1.vml" not in types


def test_parts_that_nothing_refers_to_are_found(client: Package) -> None:
    draft = Draft(client)
    assert draft.unreachable() == set()
    draft.remove_relationship(SHEET, "rIdLogo")
    assert draft.unreachable() == {"xl/drawings/drawing1.xml", "xl/media/image1.png"}


def test_markup_is_appended_to_an_element_written_without_content() -> None:
    data = b'<x:a xmlns:x="urn:x"><x:b n="1"/></x:a>'
    element = parse(data, "part").children[0]
    assert apply_splices(data, append_markup(data, element, b"<c/>")) == (
        b'<x:a xmlns:x="urn:x"><x:b n="1" ><c/></x:b></x:a>'
    )


def test_a_tag_that_was_opened_is_closed_as_it_was() -> None:
    for tag in (b"<row/>", b'<row r="1" />'):
        assert closed_tag(open_tag(tag)) == tag
    assert closed_tag(b'<row r="1">') is None
