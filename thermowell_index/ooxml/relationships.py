"""Which part refers to which: the ``.rels`` parts of a package."""

import posixpath
from dataclasses import dataclass
from urllib.parse import unquote

from thermowell_index.ooxml.markup import parse

PACKAGE_RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships"


@dataclass(frozen=True, slots=True, kw_only=True)
class Relationship:
    """One reference, and where its bytes stand in the ``.rels`` part."""

    identifier: str
    type: str
    target: str
    is_external: bool
    start: int
    end: int

    @property
    def kind(self) -> str:
        """Last word of the type: it is the same in the strict and the transitional form."""
        return self.type.rpartition("/")[2]


def relationships_part(part: str) -> str:
    """Name of the part that holds the references of a part ('' stands for the package itself)."""
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", f"{name}.rels")


def resolve(part: str, target: str) -> str:
    """Part name that a target, seen from a part, stands for."""
    target = unquote(target.partition("#")[0])
    if target.startswith("/"):
        return posixpath.normpath(target).lstrip("/")
    return posixpath.normpath(posixpath.join(posixpath.dirname(part), target))


def read_relationships(data: bytes, part: str, where: str) -> tuple[Relationship, ...]:
    """All references of a part."""
    root = parse(data, where)
    found = []
    for child in root.all("Relationship"):
        target = child.attributes.get("Target", "")
        external = child.attributes.get("TargetMode") == "External" or target.startswith("#")
        found.append(
            Relationship(
                identifier=child.attributes.get("Id", ""),
                type=child.attributes.get("Type", ""),
                target=target if external else resolve(part, target),
                is_external=external,
                start=child.start,
                end=child.end,
            )
        )
    return tuple(found)
