"""Byte spans of elements and splices between them."""

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.markup import (
    apply_splices,
    end_of_tag,
    escape_attribute,
    get_attribute,
    map_attributes,
    parse,
    set_attribute,
)

ODD = '\ufeff<x:a xmlns:x="urn:one" q="1 > 0"><!-- <x:b/> --><x:b é="1">µ<![CDATA[<x:c/>]]></x:b><x:c /></x:a>'.encode()


def test_spans_hold_in_odd_markup() -> None:
    root = parse(ODD, "part")
    first, second = root.children
    assert (root.name, root.namespace, root.prefix) == ("a", "urn:one", "x")
    assert ODD[first.open_end : first.close_start] == "µ<![CDATA[<x:c/>]]>".encode()
    assert first.text == "µ<x:c/>"
    assert ODD[second.start : second.end] == b"<x:c />"
    assert second.is_self_closed
    assert not first.is_self_closed
    assert ODD[root.close_start : root.end] == b"</x:a>"


def test_children_are_found_in_the_namespace_of_their_parent() -> None:
    root = parse(b'<a xmlns="urn:one" xmlns:o="urn:two"><o:b/><b n="1"/><b n="2"/></a>', "part")
    found = root.find("b")
    assert found is not None
    assert found.attributes == {"n": "1"}
    assert len(list(root.all("b"))) == 2
    assert root.find("c") is None
    assert len(list(root.descend())) == 4


def test_a_relationship_is_found_under_any_prefix() -> None:
    root = parse(b'<a xmlns:q="http://example.com/relationships" id="no" q:id="rId7"/>', "part")
    assert root.relation_id == "rId7"
    assert parse(b'<a id="no"/>', "part").relation_id is None


@pytest.mark.parametrize(
    "data, message",
    [
        (b'<!DOCTYPE a [<!ENTITY x "y">]><a>&x;</a>', "document type"),
        (b'<?xml version="1.0" encoding="ISO-8859-1"?><a/>', "ISO-8859-1, not in UTF-8"),
        ("<a/>".encode("utf-16"), "UTF-16"),
        (b"<a><b></a>", "damaged"),
        (b"", "damaged"),
        (b"<a>\x00</a>", "damaged"),
    ],
)
def test_markup_that_is_unsafe_or_damaged_is_refused(data: bytes, message: str) -> None:
    with pytest.raises(WorkbookError, match=message) as caught:
        parse(data, "index.xlsx: part")
    assert str(caught.value).startswith("index.xlsx: part: ")


def test_splices_at_one_place_keep_their_order() -> None:
    assert apply_splices(b"abcd", [(2, 3, b"X"), (2, 2, b"1"), (2, 2, b"2"), (0, 1, b"")]) == b"b12Xd"


def test_overlapping_splices_are_refused() -> None:
    with pytest.raises(ValueError, match="overlap"):
        apply_splices(b"abcd", [(0, 3, b""), (2, 4, b"")])


@pytest.mark.parametrize(
    "tag, name, value, expected",
    [
        (b'<c r="A1" s="1"/>', "s", "22", b'<c r="A1" s="22"/>'),
        (b"<c r='A1' s = '1' t=\"n\" />", "s", "22", b'<c r=\'A1\' s = "22" t="n" />'),
        (b'<c r="A1">', "s", "2", b'<c r="A1" s="2">'),
        (b'<c r="A1" />', "s", "2", b'<c r="A1" s="2"/>'),
        (b"<c/>", "s", 'a"<', b'<c s="a&quot;&lt;"/>'),
        (b'<c r="A1" s="1"/>', "s", None, b'<c r="A1"/>'),
        (b"<c/>", "s", None, b"<c/>"),
        (b'<c note=" s=&apos;3&apos;" xs="4"/>', "s", "2", b'<c note=" s=&apos;3&apos;" xs="4" s="2"/>'),
    ],
)
def test_one_attribute_is_set_and_the_rest_stays(tag: bytes, name: str, value: str | None, expected: bytes) -> None:
    assert set_attribute(tag, name, value) == expected


def test_an_attribute_is_looked_up() -> None:
    assert get_attribute(b'<c rs="1" s="2">', "s") == "2"
    assert get_attribute(b"<c>", "s") is None


def test_attributes_are_changed_by_name() -> None:
    tag = b'<xf fontId="1" fillId="2"/>'
    assert map_attributes(tag, lambda name, value: value + b"0" if name == "fillId" else None) == (
        b'<xf fontId="1" fillId="20"/>'
    )


def test_a_tag_that_never_ends_is_refused() -> None:
    with pytest.raises(WorkbookError, match="without an end"):
        end_of_tag(b"<c", 0)


def test_line_breaks_in_an_attribute_are_kept() -> None:
    assert escape_attribute("a\n\tb") == "a&#10;&#9;b"
