"""Moves the sheets of a workbook of our own into the copy: parts, looks, texts and names."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from thermowell_index.ooxml.draft import CONTENT_TYPES, Draft
from thermowell_index.ooxml.edits import Address
from thermowell_index.ooxml.markup import (
    Element,
    Splice,
    apply_splices,
    end_of_tag,
    get_attribute,
    map_attributes,
    parse,
    set_attribute,
)
from thermowell_index.ooxml.moved_sheet import Shift, move_sheet
from thermowell_index.ooxml.package import Package
from thermowell_index.ooxml.relationships import relationships_part
from thermowell_index.ooxml.style_sheet import StyleSheet
from thermowell_index.ooxml.workbook_edit import NewName, NewTab

_STRICT = {
    b"http://schemas.openxmlformats.org/spreadsheetml/2006/main": b"http://purl.oclc.org/ooxml/spreadsheetml/main",
    b"http://schemas.openxmlformats.org/officeDocument/2006/relationships": (
        b"http://purl.oclc.org/ooxml/officeDocument/relationships"
    ),
    b"http://schemas.openxmlformats.org/drawingml/2006/main": b"http://purl.oclc.org/ooxml/drawingml/main",
    b"http://schemas.openxmlformats.org/drawingml/2006/chart": b"http://purl.oclc.org/ooxml/drawingml/chart",
    b"http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing": (
        b"http://purl.oclc.org/ooxml/drawingml/spreadsheetDrawing"
    ),
}
_DIFFERENTIAL = re.compile("dxfId", re.IGNORECASE)


def move_in(
    draft: Draft, styles: StyleSheet, book: Package, kept_styles: Mapping[str, Mapping[Address, int]]
) -> tuple[list[NewTab], list[NewName]]:
    """Move all sheets of a workbook in.

    Parameters
    ----------
    kept_styles
        For cells of the moved sheets: the style of this workbook that they shall bear.

    Returns
    -------
    tuple[list[NewTab], list[NewName]]
        What has to be added to the workbook part.
    """
    shift = _shift(book, styles)
    mover = _Mover(draft, book, shift)
    tabs = []
    for sheet in book.sheets:
        part = mover.move(sheet.part, kept_styles.get(sheet.name, {}))
        relation = draft.add_relationship(draft.package.workbook_part, sheet.kind, part)
        tabs.append(NewTab(name=sheet.name, relation=relation, state=sheet.state))
    return tabs, _names(draft, book)


def _shift(book: Package, styles: StyleSheet) -> Shift:
    part = book.target(book.workbook_part, "styles")
    indexes: tuple[list[int], list[int]] = ([], [])
    if part is not None:
        indexes = styles.take_over(book.part(part), book.where(part))
    strings = book.target(book.workbook_part, "sharedStrings")
    texts: list[bytes] = []
    if strings is not None:
        data = book.part(strings)
        texts = [data[entry.open_end : entry.close_start] for entry in parse(data, book.where(strings)).all("si")]
    return Shift(styles=indexes[0], differential=indexes[1], strings=texts)


def _names(draft: Draft, book: Package) -> list[NewName]:
    """Names of the other workbook; those of a sheet follow it to its new position."""
    group = book.workbook.find("definedNames")
    before = len(draft.package.sheets)
    names = []
    for entry in [] if group is None else group.all("definedName"):
        local = entry.attributes.get("localSheetId")
        names.append(
            NewName(
                name=entry.attributes.get("name", ""),
                reference=entry.text,
                tab=None if local is None else before + int(local),
                is_hidden=entry.attributes.get("hidden") == "1",
            )
        )
    return names


@dataclass(frozen=True, kw_only=True)
class _ContentTypes:
    overrides: Mapping[str, str]
    defaults: Mapping[str, str]

    def __call__(self, part: str) -> str:
        return self.overrides.get(part) or self.defaults.get(part.rpartition(".")[2].lower(), "application/xml")


class _Mover:
    """Copies parts with all that they refer to, under free names."""

    def __init__(self, draft: Draft, book: Package, shift: Shift) -> None:
        self._draft = draft
        self._book = book
        self._shift = shift
        self._moved: dict[str, str] = {}
        self._types = _content_types(book)
        self._table_numbers, self._table_names = _tables_of(draft)

    def move(self, part: str, kept_styles: Mapping[Address, int]) -> str:
        """Copy a sheet; returns its new part name."""
        data = move_sheet(self._book.part(part), self._shift, kept_styles, self._book.where(part))
        return self._copy(part, data)

    def _copy(self, part: str, data: bytes) -> str:
        name = self._moved[part] = self._draft.new_name(part)
        self._draft.put(name, self._translate(data))
        self._draft.declare(name, self._types(part))
        relationships = relationships_part(part)
        if self._book.has_part(relationships):
            self._draft.put(relationships_part(name), self._references(part))
        return name

    def _references(self, part: str) -> bytes:
        """Lead the references of a part to the copies."""
        data = self._book.part(relationships_part(part))
        splices: list[Splice] = []
        for relationship in self._book.relationships(part):
            if relationship.is_external or not self._book.has_part(relationship.target):
                continue
            target = self._moved.get(relationship.target) or self._follow(relationship.target)
            tag_end = end_of_tag(data, relationship.start)
            tag = set_attribute(data[relationship.start : tag_end], "Target", f"/{target}")
            splices.append((relationship.start, tag_end, tag))
        return self._translate(apply_splices(data, splices))

    def _follow(self, part: str) -> str:
        data = self._book.part(part)
        if self._types(part).endswith("spreadsheetml.table+xml"):
            data = self._table(data)
        return self._copy(part, data)

    def _table(self, data: bytes) -> bytes:
        """Table with a number and a name that no other bears, and its looks where they are now."""
        number = max(self._table_numbers, default=0) + 1
        self._table_numbers.add(number)
        start = data.index(b"<", data.find(b"?>") + 1)
        end = end_of_tag(data, start)
        tag = set_attribute(data[start:end], "id", str(number))
        name = wanted = get_attribute(tag, "displayName") or "Table"
        again = 2
        while name.casefold() in self._table_names:
            name = f"{wanted}_{again}"
            again += 1
        self._table_names.add(name.casefold())
        tag = set_attribute(set_attribute(tag, "displayName", name), "name", name)
        return data[:start] + map_attributes(tag, self._change_differential) + data[end:]

    def _change_differential(self, name: str, value: bytes) -> bytes | None:
        return str(self._shift.differential[int(value)]).encode() if _DIFFERENTIAL.search(name) else None

    def _translate(self, data: bytes) -> bytes:
        """Part in the form, strict or transitional, of the package."""
        if self._draft.is_strict and data.lstrip().startswith(b"<"):
            for transitional, strict in _STRICT.items():
                data = data.replace(transitional, strict)
        return data


def _content_types(book: Package) -> _ContentTypes:
    root = parse(book.part(CONTENT_TYPES), book.where(CONTENT_TYPES))
    return _ContentTypes(
        overrides={entry.attributes["PartName"].lstrip("/"): _type_of(entry) for entry in root.all("Override")},
        defaults={entry.attributes["Extension"].lower(): _type_of(entry) for entry in root.all("Default")},
    )


def _type_of(entry: Element) -> str:
    return entry.attributes["ContentType"]


def _tables_of(draft: Draft) -> tuple[set[int], set[str]]:
    """Numbers of the tables that the workbook holds, and the names that a table cannot bear."""
    numbers: set[int] = set()
    names = {name.casefold() for name in draft.package.defined_names}
    for sheet in draft.package.sheets:
        for relationship in draft.package.relationships(sheet.part):
            if relationship.kind == "table" and draft.package.has_part(relationship.target):
                attributes = draft.tree(relationship.target).attributes
                numbers.add(int(attributes.get("id", 0)))
                names.add(attributes.get("displayName", "").casefold())
    return numbers, names
