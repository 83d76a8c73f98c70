"""Notes and conversations on the cells of a sheet, read."""

from collections.abc import Iterator

from thermowell_index.ooxml.addresses import parse_range
from thermowell_index.ooxml.edits import Address
from thermowell_index.ooxml.markup import Element, parse
from thermowell_index.ooxml.package import Package
from thermowell_index.ooxml.texts import decode


def notes_of(package: Package, sheet: str, *, with_conversations: bool = True) -> dict[Address, str]:
    """Return the text on each cell that bears a note or a conversation.

    Without conversations: the note that stands in for each, which a program that knows none shows.

    Raises
    ------
    WorkbookError
        A part that holds them is damaged.

    """
    part = package.sheet(sheet).part
    found: dict[Address, str] = {}
    comments = package.target(part, "comments")
    if comments is not None:
        found |= {place: note_text(entry) for place, entry in listed_notes(_tree(package, comments)).items()}
    talks: dict[Address, list[str]] = {}
    for place, entry in _entries(package, part) if with_conversations else ():
        said = entry.find("text")
        talks.setdefault(place, []).append("" if said is None else decode(said.text))
    return found | {place: "\n".join(texts) for place, texts in talks.items()}


def cells_with_conversations(package: Package, part: str) -> set[Address]:
    """Return the cells of a sheet part with a conversation: the program that shows it writes their note itself."""
    return {place for place, _ in _entries(package, part)}


def _entries(package: Package, part: str) -> Iterator[tuple[Address, Element]]:
    threads = package.target(part, "threadedComment")
    for entry in () if threads is None else _tree(package, threads).all("threadedComment"):
        if "ref" in entry.attributes:
            yield parse_range(entry.attributes["ref"])[:2], entry


def _tree(package: Package, part: str) -> Element:
    return parse(package.part(part), package.where(part))


def listed_notes(root: Element) -> dict[Address, Element]:
    """Return the notes of a part, by cell."""
    listed = root.find("commentList")
    entries = [] if listed is None else listed.all("comment")
    return {parse_range(entry.attributes.get("ref", "A1"))[:2]: entry for entry in entries}


def note_texts(comment: Element) -> list[Element]:
    """List the ``t`` elements of a note, in order."""
    body = comment.find("text")
    if body is None:
        return []
    found = list(body.all("t"))
    for run in body.all("r"):
        found += run.all("t")
    return found


def note_text(comment: Element) -> str:
    """Text of a note."""
    return decode("".join(element.text for element in note_texts(comment)))
