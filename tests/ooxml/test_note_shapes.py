"""Boxes of notes in the older drawing language."""

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.note_shapes import EMPTY, add_shapes, blocks_of, remove_shapes

NOTE = {(8, 3): "error: one\ntwo"}
CONTROL = (
    b'<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" '
    b'xmlns:x="urn:schemas-microsoft-com:office:excel"><o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="3"/>'
    b'</o:shapelayout><v:shape id="_x0000_s3073" type="#_x0000_t201"><v:textbox>press<br>here</v:textbox>'
    b'<x:ClientData ObjectType="Button"><x:Row>7</x:Row><x:Column>2</x:Column></x:ClientData></v:shape></xml>'
)


def test_an_empty_drawing_gets_a_type_and_a_block() -> None:
    made = add_shapes(EMPTY, NOTE, {1, 2}, "drawing").decode()
    assert blocks_of(made.encode()) == {3}
    assert 'id="_x0000_t202"' in made
    assert 'id="_x0000_s3073"' in made
    assert "<x:Row>7</x:Row><x:Column>2</x:Column>" in made
    assert "visibility:hidden" in made
    assert "xmlns" not in made.partition(">")[2], "the prefixes are bound at the root"


def test_a_drawing_with_controls_and_unclosed_tags_is_added_to() -> None:
    made = add_shapes(CONTROL, NOTE, {1}, "drawing")
    assert made.startswith(CONTROL.removesuffix(b"</xml>"))
    assert b'id="_x0000_s3074"' in made
    assert blocks_of(made) == {3}
    back, holds_shapes = remove_shapes(made, {(8, 3)})
    assert holds_shapes
    assert b"<br>" in back
    assert b"_x0000_s3074" not in back


def test_a_full_block_gets_another() -> None:
    notes = {(row, 1): "x" for row in range(1, 1501)}
    made = add_shapes(CONTROL, notes, {1, 2, 5}, "drawing")
    assert b'data="3,6"' in made
    numbers = [int(part.partition(b'"')[0]) for part in made.split(b'<v:shape id="_x0000_s')[1:]]
    assert len(set(numbers)) == 1501
    assert {number // 1024 for number in numbers} == {3, 6}


def test_two_new_blocks_are_joined_by_a_comma() -> None:
    made = add_shapes(EMPTY, {(row, 1): "x" for row in range(1, 1501)}, (), "drawing")
    assert blocks_of(made) == {1, 2}


def test_prefixes_of_another_writer_are_left_alone() -> None:
    odd = (
        b'<xml xmlns:ns1="urn:schemas-microsoft-com:vml" xmlns:ns2="urn:schemas-microsoft-com:office:excel">'
        b'<ns1:shape type="#_x0000_t202"><ns2:ClientData ObjectType="Note"><ns2:Row>0</ns2:Row>'
        b"<ns2:Column>0</ns2:Column></ns2:ClientData></ns1:shape></xml>"
    )
    made = add_shapes(odd, NOTE, (), "drawing")
    assert b'<v:shape id="_x0000_s1025"' in made
    assert b'xmlns:v="urn:schemas-microsoft-com:vml"' in made
    assert remove_shapes(made, {(8, 3), (1, 1)})[1] is False


def test_a_long_note_gets_a_tall_box_but_not_an_endless_one() -> None:
    short, tall = (add_shapes(EMPTY, {(1, 1): text}, (), "drawing").decode() for text in ("a", "word " * 2000))
    assert "height:28pt" in short
    assert "height:420pt" in tall


def test_a_drawing_that_does_not_end_is_refused() -> None:
    with pytest.raises(WorkbookError, match="drawing: is damaged"):
        add_shapes(b"<xml>", NOTE, (), "drawing")
