"""Text as the file format holds it: escapes, runs, what is struck out, shared strings."""

import re
from dataclasses import dataclass

from thermowell_index.ooxml.markup import feed, is_true, make_parser

LONGEST_TEXT = 32_767  # characters a cell or a note can hold (from memory: a limit of the file format)
_ESCAPED = re.compile(r"_x([0-9A-Fa-f]{4})_")
_LOOKS_ESCAPED = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """Text of a cell; ``kept`` and ``kept_when_struck`` leave out the runs that are struck out.

    ``kept_when_struck`` holds for a cell whose own font is struck out: a run without a font of its own is then
    struck out too. Each is None when no run is struck out.
    """

    text: str
    kept: str | None = None
    kept_when_struck: str | None = None


class TextCollector:
    """Gathers the runs of one text; phonetic runs are left out."""

    __slots__ = ("_in_phonetic", "_run_strike", "_runs", "_takes")

    def __init__(self) -> None:
        self._runs: list[tuple[str, bool | None]] = []
        self._run_strike: bool | None = None
        self._in_phonetic = False
        self._takes = False

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """Take the start of an element, by its local name."""
        if name == "t":
            self._takes = not self._in_phonetic
        elif name == "r":
            self._run_strike = None
        elif name == "rPr":
            self._run_strike = False
        elif name == "strike" and is_true(attributes.get("val", "1")):
            self._run_strike = True
        elif name == "rPh":
            self._in_phonetic = True

    def end(self, name: str) -> None:
        """Take the end of an element."""
        if name == "t":
            self._takes = False
        elif name == "r":
            self._run_strike = None
        elif name == "rPh":
            self._in_phonetic = False

    def characters(self, text: str) -> None:
        """Take character data."""
        if self._takes:
            self._runs.append((text, self._run_strike))

    def finish(self) -> Text:
        """Text gathered so far; the collector is empty afterwards."""
        runs, self._runs = self._runs, []
        if len(runs) == 1 and runs[0][1] is None:
            return Text(text=decode(runs[0][0]))
        text = decode("".join(run for run, _ in runs))
        struck = [strike for _, strike in runs if strike is not None]
        if not struck:
            return Text(text=text)
        kept = decode("".join(run for run, strike in runs if not strike)) if any(struck) else None
        kept_when_struck = decode("".join(run for run, strike in runs if strike is False))
        return Text(text=text, kept=kept, kept_when_struck=kept_when_struck)


def read_shared_strings(data: bytes, where: str) -> list[Text]:
    """All shared strings of a workbook, in order."""
    found: list[Text] = []
    collector = TextCollector()
    parser = make_parser(where)

    def start(qualified: str, attributes: dict[str, str]) -> None:
        collector.start(qualified.rpartition(" ")[2], attributes)

    def end(qualified: str) -> None:
        name = qualified.rpartition(" ")[2]
        if name == "si":
            found.append(collector.finish())
        else:
            collector.end(name)

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = collector.characters
    feed(parser, data, where)
    return found


def decode(text: str) -> str:
    r"""Text with its ``_xHHHH_`` escapes resolved.

    Examples
    --------
    >>> decode("a_x000D_b_x005F_x0041_")
    'a\rb_x0041_'
    """
    if "_x" not in text:
        return text
    text = _ESCAPED.sub(lambda match: chr(int(match.group(1), 16)), text)
    return text.encode("utf-16-le", "surrogatepass").decode("utf-16-le", "replace")


def restore(text: str) -> str:
    r"""Text that was read, as it was stored: nothing is cut or taken out.

    Examples
    --------
    >>> restore("a\rb_x0041_")
    'a_x000D_b_x005F_x0041_'
    """
    return _LOOKS_ESCAPED.sub("_x005F_", text).replace("\r", "_x000D_")


def encode(text: str) -> str:
    r"""Text that a cell or a note can hold: cut to length, without control characters, escapes escaped.

    Examples
    --------
    >>> encode("a\x07b_x0041_")
    'ab_x005F_x0041_'
    """
    text = _NOT_XML.sub("", text.replace("\r\n", "\n").replace("\r", "\n"))[:LONGEST_TEXT]
    return _LOOKS_ESCAPED.sub("_x005F_", text)
