"""Column widths: set for new columns, and taken back."""

from collections.abc import Mapping
from dataclasses import dataclass

from thermowell_index.ooxml.draft import append_markup, element_name
from thermowell_index.ooxml.markup import Element, Splice, is_true, set_attribute
from thermowell_index.ooxml.sheet_layout import SheetLayout, column_span

# An attribute at its default value: it tells columns that were cut out of a wider span of the client's.
_CUT_OUT = ("phonetic", "0")
# What a column that gets a width of its own loses of the span that it is cut out of.
_CLEARED = ("hidden", "outlineLevel", "collapsed", "bestFit")


def width_splices(data: bytes, layout: SheetLayout, widths: Mapping[int, float]) -> list[Splice]:
    """Edits that set widths; a column that holds something already keeps its own."""
    wanted = {column: width for column, width in sorted(widths.items()) if column not in layout.used_columns}
    if not wanted:
        return []
    covered: set[int] = set()
    splices: list[Splice] = []
    for element in layout.column_elements():
        first, last = column_span(element)
        inside = {column: width for column, width in wanted.items() if first <= column <= last}
        if inside:
            covered.update(inside)
            splices.append((element.start, element.end, _cut(data, element, inside)))
    free = {column: width for column, width in wanted.items() if column not in covered}
    return splices + (_new_columns(data, layout, free) if free else [])


def _cut(data: bytes, element: Element, widths: Mapping[int, float]) -> bytes:
    """Pieces of one ``col`` element of which some columns get a width of their own."""
    first, last = column_span(element)
    pieces: list[bytes] = []
    start = first
    for column, width in widths.items():
        if start < column:
            pieces.append(_piece(data, element, start, column - 1))
        pieces.append(_piece(data, element, column, column, width))
        start = column + 1
    if start <= last:
        pieces.append(_piece(data, element, start, last))
    return b"".join(pieces)


def _piece(data: bytes, element: Element, first: int, last: int, width: float | None = None) -> bytes:
    tag = data[element.start : element.open_end]
    tag = set_attribute(set_attribute(tag, "min", str(first)), "max", str(last))
    if width is not None:
        for name in _CLEARED:
            tag = set_attribute(tag, name, None)
        for name, value in (("width", f"{width:g}"), ("customWidth", "1"), _CUT_OUT):
            tag = set_attribute(tag, name, value)
    return tag + data[element.open_end : element.end]


def _new_columns(data: bytes, layout: SheetLayout, widths: Mapping[int, float]) -> list[Splice]:
    cols = layout.root.find("cols")
    name = element_name(layout.root, "col")
    markup = {
        column: f'<{name} min="{column}" max="{column}" width="{width:g}" customWidth="1"/>'.encode()
        for column, width in widths.items()
    }
    if cols is None:
        group = element_name(layout.root, "cols").encode()
        whole = b"<" + group + b">" + b"".join(markup.values()) + b"</" + group + b">"
        place = layout.sheet_data.start
        return [(place, place, whole)]
    splices: list[Splice] = []
    at_end: list[bytes] = []
    for column, entry in markup.items():
        later = [element.start for element in layout.column_elements() if column_span(element)[0] > column]
        if later:
            splices.append((later[0], later[0], entry))
        else:
            at_end.append(entry)
    return splices + (append_markup(data, cols, b"".join(at_end)) if at_end else [])


@dataclass(slots=True, kw_only=True)
class _Span:
    """A ``col`` element and the columns that it shall speak of; none when ``last`` lies before ``first``."""

    element: Element
    first: int
    last: int

    @property
    def is_cut_out(self) -> bool:
        """Whether it was cut out of a wider span of the client's."""
        return self.element.attributes.get(_CUT_OUT[0]) == _CUT_OUT[1]

    def drop(self) -> None:
        """Let it speak of no column."""
        self.last = self.first - 1


def width_removal(data: bytes, layout: SheetLayout, first: int, last: int) -> list[Splice]:
    """Edits that take the widths of a span of columns back; what was cut out of a wider span is joined again."""
    spans = []
    for element in layout.column_elements():
        low, high = column_span(element)
        spans.append(_Span(element=element, first=low, last=high))
    _join_cuts(spans, first, last)
    for span in spans:
        is_ours = span.is_cut_out or is_true(span.element.attributes.get("customWidth"))
        if is_ours and first <= span.first and span.last <= last:
            span.drop()
    cols = layout.root.find("cols")
    if cols is not None and all(span.last < span.first for span in spans):
        return [(cols.start, cols.end, b"")]
    return [_rewritten(data, span) for span in spans if column_span(span.element) != (span.first, span.last)]


def _join_cuts(spans: list[_Span], first: int, last: int) -> None:
    """Let the neighbours from which columns were cut cover them again."""
    before: _Span | None = None
    cuts: list[_Span] = []
    for span in spans:
        if span.is_cut_out and first <= span.first and span.last <= last:
            cuts.append(span)
            continue
        _give_back(before, cuts, span)
        before, cuts = span, []
    _give_back(before, cuts, None)


def _give_back(before: _Span | None, cuts: list[_Span], after: _Span | None) -> None:
    """Widen the spans on both sides of what was cut out; what looks like either goes to the later one."""
    if not cuts:
        return
    left = before if before is not None and before.last == cuts[0].first - 1 else None
    right = after if after is not None and after.first == cuts[-1].last + 1 else None
    for span in cuts:
        if right is not None and _kept_look(span) == _kept_look(right):
            right.first = min(right.first, span.first)
        elif left is not None and _kept_look(span) == _kept_look(left):
            left.last = span.last
        span.drop()
    if left is not None and right is not None and left.last == right.first - 1 and _look(left) == _look(right):
        right.first = left.first
        left.drop()


def _kept_look(span: _Span) -> dict[str, str]:
    """Tell what a width of its own does not change in the look of a column."""
    changed = {*_CLEARED, "width", "customWidth", _CUT_OUT[0]}
    return {name: value for name, value in _look(span).items() if name not in changed}


def _look(span: _Span) -> dict[str, str]:
    return {name: value for name, value in span.element.attributes.items() if name not in {"min", "max"}}


def _rewritten(data: bytes, span: _Span) -> Splice:
    if span.last < span.first:
        return span.element.start, span.element.end, b""
    return span.element.start, span.element.end, _piece(data, span.element, span.first, span.last)
