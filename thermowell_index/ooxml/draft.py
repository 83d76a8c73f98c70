"""The copy in the making: the parts of a package with edited, added and removed ones laid over them."""

import re

from thermowell_index.ooxml.archive import ArchiveWriter
from thermowell_index.ooxml.markup import Element, Splice, apply_splices, escape_attribute, parse, set_attribute
from thermowell_index.ooxml.package import Package
from thermowell_index.ooxml.relationships import (
    PACKAGE_RELATIONSHIPS,
    Relationship,
    read_relationships,
    relationships_part,
)

CONTENT_TYPES = "[Content_Types].xml"
DECLARATION = b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_DIGITS = re.compile(r"\d*$")


class Draft:
    """A package with edits; parts that are not edited are passed on as they were."""

    def __init__(self, package: Package) -> None:
        self.package = package
        self._changed: dict[str, bytes] = {}
        self._removed: set[str] = set()
        self._type_base = _type_base(package)

    @property
    def is_strict(self) -> bool:
        """Whether the package is in the strict form of the file format."""
        return "purl.oclc.org" in self._type_base

    @property
    def relationship_namespace(self) -> str:
        """Namespace of the attributes that name a relationship."""
        return self._type_base

    @property
    def main_namespace(self) -> str:
        """Namespace of the workbook's own elements."""
        return self.package.workbook.namespace

    def names(self) -> list[str]:
        """All parts of the draft: those of the package in their order, then the added ones."""
        names = [name for name in self.package.part_names if name not in self._removed]
        return names + [name for name in self._changed if name not in self.package.part_names]

    def has(self, name: str) -> bool:
        """Whether the draft holds a part."""
        name = self.package.spelling(name)
        return name in self._changed or (name not in self._removed and self.package.has_part(name))

    def part(self, name: str) -> bytes:
        """Bytes of a part as edited so far."""
        name = self.package.spelling(name)
        return self._changed[name] if name in self._changed else self.package.part(name)

    def tree(self, name: str) -> Element:
        """Parse a part as edited so far."""
        return parse(self.part(name), self.package.where(name))

    def put(self, name: str, data: bytes) -> None:
        """Set the bytes of a part."""
        name = self.package.spelling(name)
        self._removed.discard(name)
        self._changed[name] = data

    def splice(self, name: str, splices: list[Splice]) -> None:
        """Edit spans of a part."""
        if splices:
            self.put(name, apply_splices(self.part(name), splices))

    def remove(self, name: str) -> None:
        """Take out a part, its references and its content type."""
        for gone in map(self.package.spelling, (name, relationships_part(name))):
            if self.has(gone):
                self._changed.pop(gone, None)
                self._removed.add(gone)
        entries = self.tree(CONTENT_TYPES).all("Override")
        named = [entry for entry in entries if entry.attributes.get("PartName", "").lower() == f"/{name}".lower()]
        self.splice(CONTENT_TYPES, [(entry.start, entry.end, b"") for entry in named])

    def new_name(self, like: str) -> str:
        """Free part name in the manner of a given one: the same folder and stem, another number."""
        taken = {name.lower() for name in (*self.package.part_names, *self._changed)}
        stem, dot, extension = like.rpartition(".")
        stem = _DIGITS.sub("", stem)
        number = 1
        while f"{stem}{number}{dot}{extension}".lower() in taken:
            number += 1
        return f"{stem}{number}{dot}{extension}"

    def relationships(self, part: str) -> tuple[Relationship, ...]:
        """List the references of a part as edited so far."""
        name = relationships_part(part)
        return read_relationships(self.part(name), part, self.package.where(name)) if self.has(name) else ()

    def target(self, part: str, kind: str) -> str | None:
        """Part that a part refers to by a relationship of that kind."""
        for relationship in self.relationships(part):
            if relationship.kind == kind and not relationship.is_external and self.has(relationship.target):
                return relationship.target
        return None

    def add_relationship(self, part: str, kind: str, target: str) -> str:
        """Let a part refer to another; returns the identifier of the reference."""
        name = relationships_part(part)
        if not self.has(name):
            self.put(name, DECLARATION + f'<Relationships xmlns="{PACKAGE_RELATIONSHIPS}"></Relationships>'.encode())
        taken = {relationship.identifier for relationship in self.relationships(part)}
        number = 1
        while f"rId{number}" in taken:
            number += 1
        attributes = f'Id="rId{number}" Type="{self._type_base}/{kind}" Target="/{escape_attribute(target)}"'
        self.append_child(name, "Relationship", attributes)
        return f"rId{number}"

    def remove_relationship(self, part: str, identifier: str) -> None:
        """Take out a reference, and the list of references when it was the last."""
        name = relationships_part(part)
        listed = self.relationships(part)
        gone = [entry for entry in listed if entry.identifier == identifier]
        if len(gone) == len(listed):
            self.remove(name)
        else:
            self.splice(name, [(entry.start, entry.end, b"") for entry in gone])

    def declare(self, part: str, content_type: str) -> None:
        """State the content type of an added part."""
        extension = part.rpartition(".")[2]
        root = self.tree(CONTENT_TYPES)
        defaults = {
            entry.attributes.get("Extension", "").lower(): entry.attributes.get("ContentType")
            for entry in root.all("Default")
        }
        if defaults.get(extension.lower()) == content_type:
            return
        if extension.lower() in defaults or extension == "xml":
            self.append_child(CONTENT_TYPES, "Override", f'PartName="/{part}" ContentType="{content_type}"')
            return
        markup = f'<{element_name(root, "Default")} Extension="{extension}" ContentType="{content_type}"/>'
        self.splice(CONTENT_TYPES, [(root.open_end, root.open_end, markup.encode())])

    def append_child(self, name: str, child: str, attributes: str) -> None:
        """Add an element without content at the end of a part's root."""
        root = self.tree(name)
        markup = f"<{element_name(root, child)} {attributes}/>"
        self.splice(name, append_markup(self.part(name), root, markup.encode()))

    def unreachable(self) -> set[str]:
        """Parts that no chain of references from the package leads to."""
        reached: set[str] = set()
        waiting = [""]
        while waiting:
            for relationship in self.relationships(waiting.pop()):
                if not relationship.is_external and relationship.target.lower() not in reached:
                    reached.add(relationship.target.lower())
                    waiting.append(relationship.target)
        fixed = {CONTENT_TYPES.lower()}
        return {name for name in self.names() if not name.endswith(".rels") and name.lower() not in reached | fixed}

    def to_bytes(self) -> bytes:
        """Bytes of the copy."""
        writer = ArchiveWriter()
        originals = self.package.members()
        for info in originals:
            if info.filename in self._changed:
                writer.write(info.filename, self._changed[info.filename])
            elif info.filename not in self._removed:
                writer.copy(self.package.data, info)
        known = {info.filename for info in originals}
        for name, data in self._changed.items():
            if name not in known:
                writer.write(name, data)
        return writer.finish()


def element_name(like: Element, name: str) -> str:
    """Name with the prefix that the neighbouring element bears."""
    return f"{like.prefix}:{name}" if like.prefix else name


def append_markup(data: bytes, element: Element, markup: bytes) -> list[Splice]:
    """Splices that put markup at the end of an element's content."""
    if not element.is_self_closed:
        return [(element.close_start, element.close_start, markup)]
    closing = f"</{element_name(element, element.name)}>".encode()
    tag = open_tag(data[element.start : element.open_end])
    return [(element.start, element.end, tag + markup + closing)]


def open_tag(tag: bytes) -> bytes:
    """Start tag of an element that was written without content; the blank that is left tells so afterwards."""
    return tag[:-2] + b" >"


def closed_tag(tag: bytes) -> bytes | None:
    """Undo of ``open_tag``; None when the tag was never closed in itself."""
    return tag[:-2] + b"/>" if tag.endswith(b" >") else None


def with_count(data: bytes, element: Element, count: int) -> Splice:
    """Splice that states how many entries a list holds."""
    return element.start, element.open_end, set_attribute(data[element.start : element.open_end], "count", str(count))


def _type_base(package: Package) -> str:
    """Tell what the types of relationships begin with in the package's form of the format, strict or transitional."""
    types = (entry.type for entry in package.relationships("") if entry.kind == "officeDocument")
    return next(types).rpartition("/")[0]
