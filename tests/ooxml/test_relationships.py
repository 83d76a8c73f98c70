"""References between parts."""

import pytest

from thermowell_index.ooxml.relationships import read_relationships, relationships_part, resolve


def test_the_references_of_a_part_stand_beside_it() -> None:
    assert relationships_part("xl/workbook.xml") == "xl/_rels/workbook.xml.rels"
    assert relationships_part("") == "_rels/.rels"


@pytest.mark.parametrize(
    "target, expected",
    [
        ("worksheets/sheet1.xml", "xl/worksheets/sheet1.xml"),
        ("/xl/worksheets/sheet1.xml", "xl/worksheets/sheet1.xml"),
        ("../docProps/app.xml", "docProps/app.xml"),
        ("media/my%20logo.png#a", "xl/media/my logo.png"),
    ],
)
def test_a_target_is_seen_from_its_part(target: str, expected: str) -> None:
    assert resolve("xl/workbook.xml", target) == expected


def test_what_lies_outside_the_package_stays_as_written() -> None:
    data = (
        b'<Relationships xmlns="urn:r"><Relationship Id="a" Type="urn:x/hyperlink" Target="https://example.com/a/../b" '
        b'TargetMode="External"/><Relationship Id="b" Type="urn:x/hyperlink" Target="#Index!A1"/></Relationships>'
    )
    first, second = read_relationships(data, "xl/workbook.xml", "part")
    assert (first.target, first.is_external, first.kind) == ("https://example.com/a/../b", True, "hyperlink")
    assert (second.target, second.is_external) == ("#Index!A1", True)
