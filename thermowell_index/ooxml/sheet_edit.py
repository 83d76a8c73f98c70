"""Splices new cells, colours, links and widths into a sheet part."""

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from itertools import groupby

from thermowell_index.errors import OutputError
from thermowell_index.ooxml.addresses import LAST_COLUMN, cell_address, column_letters, parse_range
from thermowell_index.ooxml.cell_markup import cell_markup
from thermowell_index.ooxml.columns import width_splices
from thermowell_index.ooxml.draft import append_markup, element_name, open_tag
from thermowell_index.ooxml.edits import Address, CellLook, NewCell, SheetEdit
from thermowell_index.ooxml.markup import Splice, escape_attribute, set_attribute
from thermowell_index.ooxml.sheet_layout import SheetLayout
from thermowell_index.ooxml.style_sheet import StyleSheet


def wanted_cells(edit: SheetEdit) -> set[Address]:
    """Cells that the pass over the sheet must look for."""
    likes = {cell.look.like for cell in edit.cells.values() if cell.look.like is not None}
    return {*edit.cells, *edit.fills, *likes}


def by_row(addresses: Iterable[Address]) -> Callable[[int], Sequence[int]]:
    """Columns asked for in a row, in ascending order."""
    rows = {
        row: tuple(column for _, column in group) for row, group in groupby(sorted(addresses), key=lambda cell: cell[0])
    }
    return lambda row: rows.get(row, ())


def check_cells(layout: SheetLayout, cells: Collection[Address], sheet: str) -> None:
    """Refuse new cells where they would overwrite, or be hidden by, what stands there.

    Raises
    ------
    OutputError
        When a cell holds a value already, lies inside a merged range, or outside the sheet.
    """
    for address in cells:
        existing = layout.cells.get(address)
        if existing is not None and existing.is_used:
            raise OutputError(f"sheet {sheet!r}: {cell_address(*address)} holds a value already")
        if not 1 <= address[1] <= LAST_COLUMN:
            raise OutputError(f"sheet {sheet!r}: there is no room for a new column right of the last one")
    for merge in layout.merges:
        for row, column in _cells_of(merge, cells):
            if (row, column) != merge[:2]:
                raise OutputError(f"sheet {sheet!r}: {cell_address(row, column)} lies inside a merged range")


def _cells_of(merge: tuple[int, int, int, int], cells: Collection[Address]) -> list[Address]:
    """Those of the cells that lie in a merged range; looked up from the smaller side."""
    top, left, bottom, right = merge
    if (bottom - top + 1) * (right - left + 1) < len(cells):
        return [
            (row, column)
            for row in range(top, bottom + 1)
            for column in range(left, right + 1)
            if (row, column) in cells
        ]
    return [cell for cell in cells if top <= cell[0] <= bottom and left <= cell[1] <= right]


def sheet_splices(data: bytes, layout: SheetLayout, edit: SheetEdit, styles: StyleSheet) -> list[Splice]:
    """All edits of a sheet part but for its notes."""
    made = {address: _new_cell(address, cell, layout, edit, styles) for address, cell in edit.cells.items()}
    splices: list[Splice] = []
    for address, colour in edit.fills.items():
        if address in made:
            continue
        style = styles.filled(layout.style_at(address), colour)
        existing = layout.cells.get(address)
        if existing is None:
            made[address] = cell_markup(address, None, style, layout.root.prefix)
        else:
            tag = set_attribute(data[existing.start : existing.open_end], "s", str(style))
            splices.append((existing.start, existing.open_end, tag))
    splices += _place_cells(data, layout, made)
    splices += _dimension(data, layout, made)
    splices += width_splices(data, layout, edit.widths)
    splices += _links(data, layout, edit.cells)
    return splices


def _new_cell(address: Address, cell: NewCell, layout: SheetLayout, edit: SheetEdit, styles: StyleSheet) -> bytes:
    base = layout.style_at(cell.look.like or address)
    style = styles.styled(base, cell.look)
    if address in edit.fills:
        style = styles.styled(style, CellLook(fill=edit.fills[address]))
    return cell_markup(address, cell.value, style, layout.root.prefix)


def _place_cells(data: bytes, layout: SheetLayout, made: Mapping[Address, bytes]) -> list[Splice]:
    """Edits that put cells where they belong, in rows that may have to be made."""
    splices: list[Splice] = []
    new_rows: list[Splice] = []
    for row, group in groupby(sorted(made), key=lambda cell: cell[0]):
        addresses = list(group)
        span = layout.rows.get(row)
        if span is None:
            name = element_name(layout.root, "row")
            content = b"".join(made[address] for address in addresses)
            markup = f'<{name} r="{row}">'.encode() + content + f"</{name}>".encode()
            place = layout.row_gap(row)
            new_rows.append((place, place, markup))
        elif span.end == span.open_end:
            tag = data[span.start : span.open_end]
            name_bytes = tag[1:-2].split(None, 1)[0]
            content = b"".join(made[address] for address in addresses)
            splices.append((span.start, span.end, open_tag(tag) + content + b"</" + name_bytes + b">"))
        else:
            splices += [_place_cell(layout, address, made[address]) for address in addresses]
    return splices + _place_rows(data, layout, new_rows)


def _place_cell(layout: SheetLayout, address: Address, markup: bytes) -> Splice:
    existing = layout.cells.get(address)
    if existing is not None:
        return existing.start, existing.end, markup
    gap = layout.gaps[address]
    return gap, gap, markup


def _place_rows(data: bytes, layout: SheetLayout, new_rows: list[Splice]) -> list[Splice]:
    rows = layout.sheet_data
    if not rows.is_self_closed:
        return new_rows
    content = b"".join(markup for _, _, markup in new_rows)
    return append_markup(data, rows, content) if content else []


def _dimension(data: bytes, layout: SheetLayout, made: Collection[Address]) -> list[Splice]:
    """Edit that widens the stated range of the sheet to the new cells."""
    element = layout.root.find("dimension")
    if element is None or not made:
        return []
    top, left, bottom, right = parse_range(element.attributes["ref"])
    wider = (
        min(top, *(row for row, _ in made)),
        min(left, *(column for _, column in made)),
        max(bottom, *(row for row, _ in made)),
        max(right, *(column for _, column in made)),
    )
    if layout.bounds is None:  # the sheet was empty: its stated range is a placeholder
        rows, columns = {row for row, _ in made}, {column for _, column in made}
        wider = (min(rows), min(columns), max(rows), max(columns))
    tag = data[element.start : element.open_end]
    return [(element.start, element.open_end, set_attribute(tag, "ref", range_text(wider)))]


def range_text(area: tuple[int, int, int, int]) -> str:
    """Spell a range; a single cell as its address."""
    top, left, bottom, right = area
    first, last = f"{column_letters(left)}{top}", f"{column_letters(right)}{bottom}"
    return first if first == last else f"{first}:{last}"


def _links(data: bytes, layout: SheetLayout, cells: Mapping[Address, NewCell]) -> list[Splice]:
    """Edit that lets new cells lead to places in the workbook."""
    name = element_name(layout.root, "hyperlink")
    markup = "".join(
        f'<{name} ref="{cell_address(*address)}" location="{escape_attribute(cell.link)}"/>'
        for address, cell in sorted(cells.items())
        if cell.link is not None
    ).encode()
    if not markup:
        return []
    group = layout.root.find("hyperlinks")
    if group is not None:
        return append_markup(data, group, markup)
    tag = element_name(layout.root, "hyperlinks").encode()
    place = layout.place_of("hyperlinks")
    return [(place, place, b"<" + tag + b">" + markup + b"</" + tag + b">")]
