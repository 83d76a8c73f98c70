"""XML with the byte span of every element, so that a part can be edited by splices and stays as it was elsewhere."""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any
from xml.parsers import expat

from thermowell_index.errors import WorkbookError

START_TAG = re.compile(rb"<(?:[^>\"']|\"[^\"]*\"|'[^']*')*>")
_ATTRIBUTE = re.compile(rb"\s([^\s=/>\"']+)\s*=\s*(\"[^\"]*\"|'[^']*')")
_UTF_16_MARKS = (b"\xff\xfe", b"\xfe\xff")

Splice = tuple[int, int, bytes]
"""Start, end and what stands there instead."""


@dataclass(slots=True, kw_only=True)
class Element:
    """An element and where its bytes are: ``data[start:end]``, its content ``data[open_end:close_start]``."""

    namespace: str
    name: str
    prefix: str
    attributes: dict[str, str]
    start: int
    open_end: int
    close_start: int = 0
    end: int = 0
    text: str = ""
    children: list["Element"] = field(default_factory=list)

    @property
    def is_self_closed(self) -> bool:
        """Whether it is written ``<name/>``, with no room for content."""
        return self.close_start == self.end

    @property
    def relation_id(self) -> str | None:
        """The relationship that it names, whatever the prefix."""
        for name, value in self.attributes.items():
            if name.endswith("relationships}id"):
                return value
        return None

    def find(self, name: str) -> "Element | None":
        """First child of that name in the element's own namespace."""
        return next(self.all(name), None)

    def all(self, name: str) -> Iterator["Element"]:
        """Children of that name in the element's own namespace."""
        return (child for child in self.children if child.name == name and child.namespace == self.namespace)

    def descend(self) -> Iterator["Element"]:
        """Walk the element and all under it, in document order."""
        yield self
        for child in self.children:
            yield from child.descend()


def is_true(text: str | None) -> bool:
    """Whether a truth value of the schema is set."""
    return text in {"1", "true", "on"}


def make_parser(where: str) -> Any:  # noqa: ANN401  (the type of an expat parser has no public name)
    """Make an expat parser that tells namespaces and refuses document types and encodings other than UTF-8."""
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.buffer_size = 1 << 16

    def refuse_doctype(*_: object) -> None:
        raise WorkbookError(f"{where}: holds a document type definition; not read")

    def check_encoding(_version: str, encoding: str | None, _standalone: int) -> None:
        if encoding is not None and encoding.upper() not in {"UTF-8", "UTF8"}:
            raise WorkbookError(f"{where}: is written in {encoding}, not in UTF-8")

    parser.StartDoctypeDeclHandler = refuse_doctype
    parser.XmlDeclHandler = check_encoding
    return parser


def feed(parser: Any, data: bytes, where: str) -> None:  # noqa: ANN401
    """Parse a whole part.

    Raises
    ------
    WorkbookError
        When the part is not well-formed XML in UTF-8.
    """
    if data[:2] in _UTF_16_MARKS:
        raise WorkbookError(f"{where}: is written in UTF-16, not in UTF-8")
    try:
        parser.Parse(data, True)  # noqa: FBT003  (expat takes no keywords)
    except expat.ExpatError as error:
        raise WorkbookError(f"{where}: is damaged ({error})") from error


class _TreeBuilder:
    def __init__(self, data: bytes, where: str) -> None:
        self._data = data
        self._open: list[Element] = []
        self.roots: list[Element] = []
        self._parser = make_parser(where)
        self._parser.namespace_prefixes = True
        self._parser.StartElementHandler = self._start
        self._parser.EndElementHandler = self._end
        self._parser.CharacterDataHandler = self._characters
        feed(self._parser, data, where)

    def _start(self, qualified: str, attributes: dict[str, str]) -> None:
        namespace, name, prefix = _split(qualified)
        start = self._parser.CurrentByteIndex
        element = Element(
            namespace=namespace,
            name=name,
            prefix=prefix,
            attributes={_attribute_key(key): value for key, value in attributes.items()},
            start=start,
            open_end=end_of_tag(self._data, start),
        )
        siblings = self._open[-1].children if self._open else self.roots
        siblings.append(element)
        self._open.append(element)

    def _end(self, _qualified: str) -> None:
        element = self._open.pop()
        if self._data[element.open_end - 2] == ord("/"):
            element.close_start = element.end = element.open_end
        else:
            element.close_start = self._parser.CurrentByteIndex
            element.end = self._data.index(b">", element.close_start) + 1

    def _characters(self, text: str) -> None:
        self._open[-1].text += text


def _split(qualified: str) -> tuple[str, str, str]:
    """Namespace, name and prefix of what expat reports."""
    parts = qualified.split(" ")
    if len(parts) == 1:
        return "", parts[0], ""
    return parts[0], parts[1], parts[2] if len(parts) > 2 else ""  # noqa: PLR2004  (uri, name, prefix)


def _attribute_key(qualified: str) -> str:
    namespace, name, _prefix = _split(qualified)
    return f"{{{namespace}}}{name}" if namespace else name


def parse(data: bytes, where: str) -> Element:
    """Root element of a part, with all under it.

    Raises
    ------
    WorkbookError
        When the part is not well-formed XML in UTF-8, or holds a document type.
    """
    return _TreeBuilder(data, where).roots[0]  # a document without a root is not well-formed


def end_of_tag(data: bytes, start: int) -> int:
    """Offset just after the start tag that begins at ``start``."""
    match = START_TAG.match(data, start)
    if match is None:  # the parser has accepted the tag already
        raise WorkbookError(f"a tag without an end at byte {start}")
    return match.end()


def apply_splices(data: bytes, splices: Iterable[Splice]) -> bytes:
    """Replace the given spans; splices at one place keep the order in which they were given."""
    pieces: list[bytes] = []
    position = 0
    for start, end, replacement in sorted(splices, key=_span):
        if start < position:
            raise ValueError(f"splices overlap at byte {start}")
        pieces.append(data[position:start])
        pieces.append(replacement)
        position = end
    pieces.append(data[position:])
    return b"".join(pieces)


def _span(splice: Splice) -> tuple[int, int]:
    return splice[0], splice[1]


def set_attribute(tag: bytes, name: str, value: str | None) -> bytes:
    """Start tag with one attribute set, or taken out when the value is None; the rest stays as it was."""
    wanted = name.encode()
    for match in _ATTRIBUTE.finditer(tag):
        if match.group(1) == wanted:
            if value is None:
                return tag[: match.start()] + tag[match.end() :]
            quoted = b'"' + escape_attribute(value).encode() + b'"'
            return tag[: match.start(2)] + quoted + tag[match.end(2) :]
    if value is None:
        return tag
    body = tag[:-2].rstrip() if tag.endswith(b"/>") else tag[:-1]
    return body + f' {name}="{escape_attribute(value)}"'.encode() + tag[len(body) :].lstrip()


def get_attribute(tag: bytes, name: str) -> str | None:
    """Raw value of an attribute of a start tag."""
    wanted = name.encode()
    for match in _ATTRIBUTE.finditer(tag):
        if match.group(1) == wanted:
            return match.group(2)[1:-1].decode()
    return None


def map_attributes(tag: bytes, change: Callable[[str, bytes], bytes | None]) -> bytes:
    """Start tag with attribute values changed; ``change`` gets name and raw value, and returns None to leave it."""
    splices: list[Splice] = []
    for match in _ATTRIBUTE.finditer(tag):
        changed = change(match.group(1).decode(), match.group(2)[1:-1])
        if changed is not None:
            splices.append((match.start(2) + 1, match.end(2) - 1, changed))
    return apply_splices(tag, splices)


def escape_text(text: str) -> str:
    """Text as element content."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace("\r", "&#13;")


def escape_attribute(text: str) -> str:
    """Text as the value of an attribute in double quotes."""
    text = escape_text(text).replace('"', "&quot;")
    return text.replace("\n", "&#10;").replace("\t", "&#9;")
