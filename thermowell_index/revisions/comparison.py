"""What changed between two issues, as tables of text that a sheet shows and a workbook remembers."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass


@dataclass(frozen=True, kw_only=True)
class Block:
    """One part of the sheet What changed: a title, headings, and lines of text or numbers."""

    title: str
    headings: tuple[str, ...]
    lines: Sequence[tuple[str | int | None, ...]]
    is_loud: bool = False


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """What changed since the previous run: in sentences, then line by line."""

    sentences: Sequence[str]
    blocks: Sequence[Block]

    def as_text(self) -> str:
        """Return it as one line of text."""
        return json.dumps(asdict(self), ensure_ascii=False, separators=(",", ":"))


def comparison_from_text(text: str) -> Comparison:
    """Return what `as_text` wrote.

    Raises
    ------
    ValueError
        The text is damaged.

    """
    try:
        data = json.loads(text)
        blocks = [
            Block(
                title=block["title"],
                headings=tuple(block["headings"]),
                lines=[tuple(line) for line in block["lines"]],
                is_loud=block["is_loud"],
            )
            for block in data["blocks"]
        ]
        return Comparison(sentences=list(data["sentences"]), blocks=blocks)
    except (KeyError, TypeError) as exc:
        raise ValueError(str(exc)) from exc
