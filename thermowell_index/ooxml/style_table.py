"""What the style index of a cell stands for."""

from dataclasses import dataclass, field

from thermowell_index.ooxml.markup import Element, is_true, parse
from thermowell_index.ooxml.number_formats import BUILT_IN, shows_date


@dataclass(frozen=True, slots=True, kw_only=True)
class StyleTable:
    """Number format, strike-through and fill of each style index."""

    number_formats: tuple[str, ...] = ("General",)
    dates: frozenset[int] = frozenset()
    struck: frozenset[int] = frozenset()
    fills: dict[int, str] = field(default_factory=dict)

    def number_format(self, style: int) -> str:
        """Format code; an index beyond the table shows as General."""
        return self.number_formats[style] if 0 <= style < len(self.number_formats) else "General"


def read_style_table(data: bytes, where: str) -> StyleTable:
    """Read ``styles.xml``."""
    root = parse(data, where)
    formats = read_number_formats(root)
    struck_fonts = {index for index, font in enumerate(_list(root, "fonts", "font")) if _is_struck(font)}
    solid_fills = [_solid_colour(fill) for fill in _list(root, "fills", "fill")]
    codes: list[str] = []
    struck: set[int] = set()
    fills: dict[int, str] = {}
    for style, xf in enumerate(_list(root, "cellXfs", "xf")):
        codes.append(formats.get(_number(xf, "numFmtId"), "General"))
        if _number(xf, "fontId") in struck_fonts:
            struck.add(style)
        fill = _number(xf, "fillId")
        colour = solid_fills[fill] if 0 <= fill < len(solid_fills) else None
        if colour is not None:
            fills[style] = colour
    dates = {code for code in set(codes) if shows_date(code)}
    return StyleTable(
        number_formats=tuple(codes) or ("General",),
        dates=frozenset(style for style, code in enumerate(codes) if code in dates),
        struck=frozenset(struck),
        fills=fills,
    )


def read_number_formats(root: Element) -> dict[int, str]:
    """Format code of each id, the built-in ones and the workbook's own."""
    formats = dict(BUILT_IN)
    for entry in _list(root, "numFmts", "numFmt"):
        formats[_number(entry, "numFmtId")] = entry.attributes.get("formatCode", "General")
    return formats


def _list(root: Element, group: str, name: str) -> list[Element]:
    found = root.find(group)
    return [] if found is None else list(found.all(name))


def _number(element: Element, name: str) -> int:
    text = element.attributes.get(name, "0")
    return int(text) if text.isdecimal() else 0


def _is_struck(font: Element) -> bool:
    strike = font.find("strike")
    return strike is not None and is_true(strike.attributes.get("val", "1"))


def _solid_colour(fill: Element) -> str | None:
    pattern = fill.find("patternFill")
    if pattern is None or pattern.attributes.get("patternType") != "solid":
        return None
    colour = pattern.find("fgColor")
    rgb = None if colour is None else colour.attributes.get("rgb")
    if rgb is None:
        return None
    return rgb.upper() if len(rgb) == len("FFRRGGBB") else f"FF{rgb.upper()}"
