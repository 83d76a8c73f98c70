"""``styles.xml`` with looks appended; what stands in it is never changed, and nothing is appended twice."""

import re
from collections.abc import Callable
from dataclasses import replace

from thermowell_index.errors import OutputError
from thermowell_index.ooxml.draft import DECLARATION, element_name, with_count
from thermowell_index.ooxml.edits import CellLook
from thermowell_index.ooxml.markup import (
    Element,
    Splice,
    apply_splices,
    end_of_tag,
    escape_attribute,
    get_attribute,
    map_attributes,
    parse,
    set_attribute,
)
from thermowell_index.ooxml.number_formats import FIRST_CUSTOM, OF_OTHER_LOCALES
from thermowell_index.ooxml.style_table import read_number_formats

MOST_STYLES = 65_490  # cell formats a workbook may hold (from memory: a published limit of spreadsheet programs)
_GROUPS = (
    "numFmts",
    "fonts",
    "fills",
    "borders",
    "cellStyleXfs",
    "cellXfs",
    "cellStyles",
    "dxfs",
    "tableStyles",
    "colors",
    "extLst",
)
_FIRST_ENTRIES = {
    "fonts": ("<font/>",),
    "fills": ('<fill><patternFill patternType="none"/></fill>', '<fill><patternFill patternType="gray125"/></fill>'),
    "borders": ("<border/>",),
    "cellXfs": ('<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>',),
}
_UNPREFIXED = re.compile(rb"<(/?)(?=[A-Za-z]\w*[\s/>])")
_ALIGNMENT = re.compile(rb"<(?:[\w.-]+:)?alignment\b")
_BOLD = re.compile(rb"<(?:[\w.-]+:)?b(?:\s[^>]*)?/>|<((?:[\w.-]+:)?b)(?:\s[^>]*)?></\1>")
_STRUCK = re.compile(rb"<(?:[\w.-]+:)?strike(?:\s[^>]*)?/>|<((?:[\w.-]+:)?strike)(?:\s[^>]*)?></\1>")


def empty_styles(namespace: str) -> bytes:
    """Style part of a workbook that has had none."""
    xf = '<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>'
    fills = "".join(_FIRST_ENTRIES["fills"])
    markup = (
        f'<styleSheet xmlns="{namespace}"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>'
        f'<fills count="2">{fills}</fills><borders count="1"><border/></borders>'
        f'<cellStyleXfs count="1">{xf}</cellStyleXfs><cellXfs count="1">{xf}</cellXfs>'
        '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
    )
    return DECLARATION + markup.encode()


class _Group:
    """One list of the part, with what is appended to it."""

    def __init__(self, data: bytes, root: Element, name: str) -> None:
        self._data = data
        self._root = root
        self._name = name
        self._element = root.find(name)
        children = [] if self._element is None else self._element.children
        self.entries = [data[child.start : child.end] for child in children]
        self._original_count = len(self.entries)
        self._index: dict[bytes, int] = {}
        for index, entry in enumerate(self.entries):
            self._index.setdefault(entry, index)
        if not self.entries:
            for entry_text in _FIRST_ENTRIES.get(name, ()):
                self.entries.append(_with_prefix(entry_text.encode(), root.prefix))
        self._first_count = len(self.entries)

    @property
    def is_added_to(self) -> bool:
        """Whether an entry was appended."""
        return len(self.entries) > self._first_count

    def add(self, entry: bytes) -> int:
        """Index of an entry, appended when there is none like it."""
        index = self._index.get(entry)
        if index is None:
            index = self._index[entry] = len(self.entries)
            self.entries.append(entry)
        return index

    def splices(self) -> list[Splice]:
        """Edits of the part."""
        added = b"".join(self.entries[self._original_count :])
        if not added:
            return []
        name = element_name(self._root, self._name)
        if self._element is None or self._element.is_self_closed:
            markup = f'<{name} count="{len(self.entries)}">'.encode() + added + f"</{name}>".encode()
            if self._element is not None:
                return [(self._element.start, self._element.end, markup)]
            place = self._place()
            return [(place, place, markup)]
        close = self._element.close_start
        return [with_count(self._data, self._element, len(self.entries)), (close, close, added)]

    def _place(self) -> int:
        later = _GROUPS[_GROUPS.index(self._name) + 1 :]
        return next((child.start for child in self._root.children if child.name in later), self._root.close_start)


class StyleSheet:
    """The looks of a workbook, which can be added to."""

    def __init__(self, data: bytes, where: str) -> None:
        self._data = data
        self._root = parse(data, where)
        self._where = where
        self._groups = {name: _Group(data, self._root, name) for name in _GROUPS[:8]}
        known = reversed(read_number_formats(self._root).items())
        self._formats = {code: number for number, code in known if number not in OF_OTHER_LOCALES}
        self._made: dict[tuple[object, ...], int] = {}

    def to_bytes(self) -> bytes:
        """Bytes of the part."""
        if not any(group.is_added_to for group in self._groups.values()):
            return self._data
        splices = [splice for group in self._groups.values() for splice in group.splices()]
        return apply_splices(self._data, splices)

    def filled(self, base: int, colour: str) -> int:
        """Style like another one, with a solid fill."""
        return self.styled(base, CellLook(fill=colour))

    def styled(self, base: int, look: CellLook) -> int:
        """Style like another one, with what the look gives changed.

        Raises
        ------
        OutputError
            When the workbook holds as many formats as it can.
        """
        key = (base, replace(look, like=None))
        if key not in self._made:
            self._made[key] = self._make(base, look)
        return self._made[key]

    def _make(self, base: int, look: CellLook) -> int:
        xfs = self._groups["cellXfs"].entries
        xf = xfs[base] if 0 <= base < len(xfs) else xfs[0]
        if look.number_format is not None:
            xf = _set(xf, numFmtId=str(self._format_id(look.number_format)), applyNumberFormat="1")
        if look.fill is not None:
            xf = _set(xf, fillId=str(self._fill_id(look.fill)), applyFill="1")
        if look.bold is not None or look.is_unstruck:
            before = int(get_attribute(_tag(xf), "fontId") or 0)
            font = self._font(before, look)
            xf = xf if font == before else _set(xf, fontId=str(font), applyFont="1")
        alignment = _alignment(look)
        if alignment:
            xf = _align(_set(xf, applyAlignment="1"), alignment)
        return base if xf == xfs[min(max(base, 0), len(xfs) - 1)] else self._add_xf(xf)

    def _add_xf(self, xf: bytes) -> int:
        index = self._groups["cellXfs"].add(xf)
        if index >= MOST_STYLES:
            raise OutputError(f"{self._where}: the workbook holds as many cell formats as it can")
        return index

    def _format_id(self, code: str) -> int:
        if code not in self._formats:
            number = max(FIRST_CUSTOM, max(self._formats.values()) + 1)
            self._formats[code] = number
            name = element_name(self._root, "numFmt")
            markup = f'<{name} numFmtId="{number}" formatCode="{escape_attribute(code)}"/>'
            self._groups["numFmts"].add(markup.encode())
        return self._formats[code]

    def _fill_id(self, colour: str) -> int:
        markup = (
            f'<fill><patternFill patternType="solid"><fgColor rgb="{escape_attribute(colour)}"/>'
            '<bgColor indexed="64"/></patternFill></fill>'
        )
        return self._groups["fills"].add(_with_prefix(markup.encode(), self._root.prefix))

    def _font(self, base: int, look: CellLook) -> int:
        fonts = self._groups["fonts"].entries
        font = fonts[base] if 0 <= base < len(fonts) else fonts[0]
        if look.is_unstruck:
            font = _STRUCK.sub(b"", font)
        if look.bold is not None:
            font = _BOLD.sub(b"", font)
        if look.bold:
            font = _first_child(font, f"<{element_name(self._root, 'b')}/>".encode())
        return self._groups["fonts"].add(font)

    def take_over(self, data: bytes, where: str) -> tuple[list[int], list[int]]:
        """Append all looks of another workbook.

        Returns
        -------
        tuple[list[int], list[int]]
            Style index and differential-format index here for each one there; its first style, that of cells
            without a look of their own, is this workbook's first.
        """
        root = parse(data, where)
        formats = read_number_formats(root)
        index = {
            attribute: [self._groups[group].add(entry) for entry in self._foreign(data, root, group)]
            for attribute, group in (("fontId", "fonts"), ("fillId", "fills"), ("borderId", "borders"))
        }

        def change(name: str, value: bytes) -> bytes | None:
            if name == "numFmtId":
                return str(self._format_id(formats.get(int(value), "General"))).encode()
            if name == "xfId":
                return b"0"
            return str(index[name][int(value)]).encode() if name in index else None

        styles = [self._take_xf(xf, change) for xf in self._foreign(data, root, "cellXfs")]
        differential = [self._groups["dxfs"].add(entry) for entry in self._foreign(data, root, "dxfs")]
        return [0, *styles[1:]], differential

    def _take_xf(self, xf: bytes, change: Callable[[str, bytes], bytes | None]) -> int:
        tag = map_attributes(_tag(xf), change)
        for name in ("applyNumberFormat", "applyFont", "applyFill", "applyBorder"):
            tag = set_attribute(tag, name, "1")
        return self._add_xf(tag + xf[len(_tag(xf)) :])

    def _foreign(self, data: bytes, root: Element, group: str) -> list[bytes]:
        element = root.find(group)
        children = [] if element is None else element.children
        return [_with_prefix(data[child.start : child.end], self._root.prefix) for child in children]


def _tag(entry: bytes) -> bytes:
    return entry[: end_of_tag(entry, 0)]


def _set(entry: bytes, **attributes: str) -> bytes:
    tag = _tag(entry)
    rest = entry[len(tag) :]
    for name, value in attributes.items():
        tag = set_attribute(tag, name, value)
    return tag + rest


def _alignment(look: CellLook) -> dict[str, str]:
    wanted = {"horizontal": look.horizontal, "vertical": look.vertical}
    if look.wrap is not None:
        wanted["wrapText"] = "1" if look.wrap else "0"
    return {name: value for name, value in wanted.items() if value is not None}


def _align(xf: bytes, attributes: dict[str, str]) -> bytes:
    match = _ALIGNMENT.search(xf)
    if match is not None:
        return xf[: match.start()] + _set(xf[match.start() :], **attributes)
    prefix = _tag(xf)[1:].partition(b":")[0] + b":" if b":" in _tag(xf).split(None, 1)[0] else b""
    return _first_child(xf, _set(b"<" + prefix + b"alignment/>", **attributes))


def _first_child(entry: bytes, child: bytes) -> bytes:
    """Element with a child put before its others."""
    tag = _tag(entry)
    if not tag.endswith(b"/>"):
        return tag + child + entry[len(tag) :]
    name = re.split(rb"[\s/>]", tag[1:], maxsplit=1)[0]
    return tag[:-2].rstrip() + b">" + child + b"</" + name + b">"


def _with_prefix(markup: bytes, prefix: str) -> bytes:
    """Markup of the default namespace under another workbook's prefix."""
    return _UNPREFIXED.sub(rb"<\1" + prefix.encode() + b":", markup) if prefix else markup
