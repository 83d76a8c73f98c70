"""Markup of one new cell."""

import math

from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.ooxml.edits import Address, Value
from thermowell_index.ooxml.markup import escape_text
from thermowell_index.ooxml.texts import encode


def cell_markup(address: Address, value: Value, style: int, prefix: str) -> bytes:
    """Cell as it is written; text is written in place and never read as a formula, whatever it starts with."""
    mark = f"{prefix}:" if prefix else ""
    tag = f'{mark}c r="{cell_address(*address)}"' + (f' s="{style}"' if style else "")
    kind, content = _content(value, mark)
    if content is None:
        return f"<{tag}></{mark}c>".encode()
    return f"<{tag}{kind}>{content}</{mark}c>".encode()


def is_blank(value: Value) -> bool:
    """Whether a cell with that value is written without one."""
    return _content(value, "")[1] is None


def _content(value: Value, mark: str) -> tuple[str, str | None]:
    """Type attribute and content of a cell; no content for an empty one."""
    if isinstance(value, bool):
        return ' t="b"', f"<{mark}v>{int(value)}</{mark}v>"
    if value is None or isinstance(value, str):
        text = encode(value or "")
        if not text:
            return "", None
        return ' t="inlineStr"', f'<{mark}is><{mark}t xml:space="preserve">{escape_text(text)}</{mark}t></{mark}is>'
    return "", f"<{mark}v>{_number(float(value))}</{mark}v>" if math.isfinite(value) else None


def _number(value: float) -> str:
    return repr(value).removesuffix(".0")
