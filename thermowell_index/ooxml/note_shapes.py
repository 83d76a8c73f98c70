"""The boxes in which notes show: the older drawing language (VML) that every sheet with notes carries.

These parts are searched as text: programs write them with unclosed tags, which no XML parser accepts.
"""

import math
import re
from collections.abc import Collection, Mapping

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.edits import Address

EMPTY = (
    b'<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" '
    b'xmlns:x="urn:schemas-microsoft-com:office:excel"></xml>'
)
_NAMESPACES = {
    "v": "urn:schemas-microsoft-com:vml",
    "o": "urn:schemas-microsoft-com:office:office",
    "x": "urn:schemas-microsoft-com:office:excel",
}
_SHAPE_TYPE = (
    '<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"{spaces}>'
    '<v:stroke joinstyle="miter"/><v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>'
)
_SHAPE = (
    '<v:shape id="_x0000_s{number}" type="#_x0000_t202" style="position:absolute;margin-left:60pt;margin-top:2pt;'
    'width:240pt;height:{height}pt;z-index:{order};visibility:hidden" fillcolor="#ffffe1" o:insetmode="auto"{spaces}>'
    '<v:fill color2="#ffffe1"/><v:shadow on="t" color="black" obscured="t"/><v:path o:connecttype="none"/>'
    '<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"></div></v:textbox>'
    '<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/>'
    "<x:Anchor>{column_after}, 15, {top}, 2, {far_column}, 15, {bottom}, 4</x:Anchor><x:AutoFill>False</x:AutoFill>"
    "<x:Row>{row}</x:Row><x:Column>{column}</x:Column></x:ClientData></v:shape>"
)
_LAYOUT = '<o:shapelayout v:ext="edit"{spaces}><o:idmap v:ext="edit" data="{block}"/></o:shapelayout>'
_ID_BLOCKS = re.compile(rb"<(?:[\w.-]+:)?idmap\b[^>]*?\bdata\s*=\s*[\"']([\d, ]*)[\"']")
_SHAPE_ID = re.compile(rb"_x0000_s(\d+)")
_ANY_SHAPE = re.compile(rb"<((?:[\w.-]+:)?shape)\b(?:[^>]*?/>|.*?</\1\s*>)", re.DOTALL)
_ROW = re.compile(rb"<(?:[\w.-]+:)?Row>\s*(\d+)\s*<")
_COLUMN = re.compile(rb"<(?:[\w.-]+:)?Column>\s*(\d+)\s*<")
_END = re.compile(rb"</(?:[\w.-]+:)?xml\s*>\s*$")
_BLOCK = 1024  # shape numbers in a block; a sheet owns whole blocks
_CHARACTERS_A_LINE = 45
_MOST_LINES = 30


def blocks_of(drawing: bytes) -> set[int]:
    """Blocks of shape numbers that a drawing owns."""
    return {int(number) for listed in _ID_BLOCKS.findall(drawing) for number in re.findall(rb"\d+", listed)}


def add_shapes(drawing: bytes, notes: Mapping[Address, str], taken_blocks: Collection[int], where: str) -> bytes:
    """Drawing with a hidden box for each note; ``taken_blocks`` are the blocks of the other drawings."""
    end = _END.search(drawing)
    if end is None:
        raise WorkbookError(f"{where}: is damaged (it does not end as a drawing)")
    numbers, new_blocks = _numbers(drawing, len(notes), taken_blocks)
    spaces = "".join(f' xmlns:{prefix}="{uri}"' for prefix, uri in _NAMESPACES.items() if not _binds(drawing, prefix))
    markup = "" if b'"_x0000_t202"' in drawing else _SHAPE_TYPE.format(spaces=spaces)
    markup += "".join(
        _shape(number, address, text, spaces)
        for number, (address, text) in zip(numbers, sorted(notes.items()), strict=True)
    )
    drawing = drawing[: end.start()] + markup.encode() + drawing[end.start() :]
    return _own_blocks(drawing, new_blocks, spaces)


def _binds(drawing: bytes, prefix: str) -> bool:
    """Whether the drawing's root gives a prefix its usual meaning."""
    root = drawing[: drawing.find(b">", drawing.find(b"<xml") + 1)]
    return re.search(rf"xmlns:{prefix}\s*=\s*[\"']{re.escape(_NAMESPACES[prefix])}[\"']".encode(), root) is not None


def _numbers(drawing: bytes, count: int, taken_blocks: Collection[int]) -> tuple[list[int], list[int]]:
    """Free shape numbers, and the blocks that have to be added for them."""
    used = {int(number) for number in _SHAPE_ID.findall(drawing)}
    blocks = sorted(blocks_of(drawing))
    new_blocks: list[int] = []
    numbers: list[int] = []
    while True:
        for block in blocks:
            first = max((number for number in used if number // _BLOCK == block), default=block * _BLOCK) + 1
            numbers += range(first, min((block + 1) * _BLOCK, first + count - len(numbers)))
        if len(numbers) >= count:
            return numbers, new_blocks
        block = max([0, *taken_blocks, *blocks_of(drawing), *new_blocks]) + 1
        new_blocks.append(block)
        blocks = [block]


def _own_blocks(drawing: bytes, new_blocks: list[int], spaces: str) -> bytes:
    if not new_blocks:
        return drawing
    listed = ",".join(map(str, new_blocks))
    match = _ID_BLOCKS.search(drawing)
    if match is not None:
        separator = b"," if match.group(1).strip() else b""
        return drawing[: match.end(1)] + separator + listed.encode() + drawing[match.end(1) :]
    start = drawing.find(b">", drawing.find(b"<xml") + 1) + 1
    return drawing[:start] + _LAYOUT.format(spaces=spaces, block=listed).encode() + drawing[start:]


def _shape(number: int, address: Address, text: str, spaces: str) -> str:
    row, column = address[0] - 1, address[1] - 1
    lines = sum(max(1, math.ceil(len(line) / _CHARACTERS_A_LINE)) for line in text.split("\n"))
    lines = min(lines + 1, _MOST_LINES)
    top = max(row - 1, 0)
    return _SHAPE.format(
        number=number,
        order=number % _BLOCK,
        spaces=spaces,
        height=lines * 14,
        column_after=column + 1,
        far_column=column + 5,
        top=top,
        bottom=top + lines,
        row=row,
        column=column,
    )


def remove_shapes(drawing: bytes, addresses: Collection[Address]) -> tuple[bytes, bool]:
    """Drawing without the boxes of the given notes, and whether any shape is left in it."""
    left = 0
    pieces: list[bytes] = []
    position = 0
    for match in _ANY_SHAPE.finditer(drawing):
        if _note_of(match.group(0)) in addresses:
            pieces.append(drawing[position : match.start()])
            position = match.end()
        else:
            left += 1
    return b"".join(pieces) + drawing[position:], left > 0


def _note_of(shape: bytes) -> Address | None:
    """Cell whose note a shape shows."""
    row, column = _ROW.search(shape), _COLUMN.search(shape)
    if b'ObjectType="Note"' not in shape or row is None or column is None:
        return None
    return int(row.group(1)) + 1, int(column.group(1)) + 1
