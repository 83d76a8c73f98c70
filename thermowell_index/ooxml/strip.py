"""Takes our additions out of a workbook again, also after another program has saved it."""

from collections.abc import Callable, Collection, Mapping, Sequence

from thermowell_index.ooxml.addresses import parse_range
from thermowell_index.ooxml.columns import width_removal
from thermowell_index.ooxml.draft import Draft, closed_tag
from thermowell_index.ooxml.edits import Address
from thermowell_index.ooxml.markup import Splice, apply_splices, get_attribute, set_attribute
from thermowell_index.ooxml.notes import remove_notes
from thermowell_index.ooxml.package import Package
from thermowell_index.ooxml.sheet_edit import by_row, range_text
from thermowell_index.ooxml.sheet_layout import CellSpan, RowSpan, SheetLayout, read_layout
from thermowell_index.ooxml.workbook_edit import remove_from_workbook


def strip(
    package: Package,
    *,
    sheets: Collection[str],
    columns: Mapping[str, tuple[int, int]],
    marks: Collection[str],
    author: str,
    restore: Mapping[str, Mapping[Address, int]],
) -> bytes:
    """Undo ``write_copy``.

    Parameters
    ----------
    sheets
        Sheets to be taken out, with all parts that only they refer to.
    columns
        First and last column of the cells to be taken out of a sheet, with widths and links.
    marks
        Defined names to be taken out.
    author
        Whose notes are taken out; a note of another keeps its own text.
    restore
        Style index that a cell shall have again.

    Returns
    -------
    bytes
        The workbook without them.
    """
    draft = Draft(package)
    strays = draft.unreachable()
    has_formulas = any(_holds_formulas(package, name) for name in sheets)
    remove_from_workbook(draft, sheets, marks)
    for sheet in package.sheets:
        if sheet.kind == "worksheet" and sheet.name not in sheets:
            part = package.spelling(sheet.part)
            span = columns.get(sheet.name)
            stripping = _Stripping(draft, part, span, restore.get(sheet.name, {}), sheet.name)
            has_formulas |= stripping.apply(author)
    if has_formulas:
        _drop_calculation_chain(draft)
    for part in sorted(draft.unreachable() - strays):
        draft.remove(part)
    return draft.to_bytes()


def _holds_formulas(package: Package, sheet: str) -> bool:
    info = package.sheet(sheet)
    if info.kind != "worksheet":
        return False
    return any(cell.is_formula for row in package.read(sheet).rows.values() for cell in row.values())


def _drop_calculation_chain(draft: Draft) -> None:
    """Take out the order of calculation, which would name formulas that are gone; it is made again when needed."""
    workbook = draft.package.workbook_part
    for relationship in draft.relationships(workbook):
        if relationship.kind == "calcChain":
            draft.remove_relationship(workbook, relationship.identifier)


class _Stripping:
    """What is taken out of one sheet."""

    def __init__(
        self, draft: Draft, part: str, span: tuple[int, int] | None, restore: Mapping[Address, int], sheet: str
    ) -> None:
        self._draft = draft
        self._part = part
        self._span = span
        self._restore = restore
        self._where = f"{draft.package.path}: sheet {sheet!r}"

    def apply(self, author: str) -> bool:
        """Edit the sheet part; returns whether a formula went."""
        if self._span is None and not self._restore and self._draft.target(self._part, "comments") is None:
            return False
        data = self._draft.part(self._part)
        layout = read_layout(data, self._where, self._wanted(), leaving_out=self._span)
        removed = self._removed(layout)
        splices = self._cells(data, layout, removed)
        if self._span is not None:
            splices += width_removal(data, layout, *self._span)
            splices += self._dimension(data, layout)
            splices += self._links(layout)
        splices += remove_notes(self._draft, self._part, layout, author)
        if splices:
            self._draft.put(self._part, apply_splices(data, splices))
        return any(layout.cells[address].is_formula for address in removed)

    def _wanted(self) -> Callable[[int], Sequence[int]]:
        """Columns that are looked for in a row."""
        restored = by_row(self._restore)
        if self._span is None:
            return restored
        first, last = self._span
        columns = tuple(range(first, last + 1))
        marked = {row for row, _ in self._restore}
        return lambda row: tuple(sorted({*columns, *restored(row)})) if row in marked else columns

    def _is_inside(self, address: Address) -> bool:
        return self._span is not None and self._span[0] <= address[1] <= self._span[1]

    def _removed(self, layout: SheetLayout) -> set[Address]:
        """Cells to be taken out: those of our columns, and those that were made only to be coloured."""
        removed = {address for address in layout.cells if self._is_inside(address)}
        for address, style in self._restore.items():
            cell = layout.cells.get(address)
            if cell is not None and cell.is_spelt_out_blank and style == layout.default_style(address):
                removed.add(address)
        return removed

    def _cells(self, data: bytes, layout: SheetLayout, removed: Collection[Address]) -> list[Splice]:
        splices: list[Splice] = []
        by_rows: dict[int, list[CellSpan]] = {}
        for address in removed:
            by_rows.setdefault(address[0], []).append(layout.cells[address])
        lost_rows = 0
        for row, cells in by_rows.items():
            span = layout.rows[row]
            emptied = _emptied_row(data, span) if len(cells) == span.cell_count else None
            lost_rows += emptied == b""
            if emptied is None:
                splices += [(cell.start, cell.end, b"") for cell in cells]
            else:
                splices.append((span.start, span.end, emptied))
        splices += self._styles(data, layout, removed)
        if lost_rows == len(layout.row_numbers):
            splices += _close_rows(data, layout)
        return splices

    def _styles(self, data: bytes, layout: SheetLayout, removed: Collection[Address]) -> list[Splice]:
        splices: list[Splice] = []
        for address, style in self._restore.items():
            cell = layout.cells.get(address)
            if cell is not None and address not in removed:
                tag = _restyled(data[cell.start : cell.open_end], style)
                splices.append((cell.start, cell.open_end, tag))
        return splices

    def _dimension(self, data: bytes, layout: SheetLayout) -> list[Splice]:
        """Edit that narrows the stated range of the sheet to the cells that stay."""
        element = layout.root.find("dimension")
        if element is None or self._span is None:
            return []
        top, left, bottom, right = parse_range(element.attributes["ref"])
        if right < self._span[0]:
            return []
        area = (1, 1, 1, 1)
        if layout.bounds is not None:
            area = (top, left, max(top, min(bottom, layout.bounds[2])), max(left, min(right, layout.bounds[3])))
        tag = data[element.start : element.open_end]
        return [(element.start, element.open_end, set_attribute(tag, "ref", range_text(area)))]

    def _links(self, layout: SheetLayout) -> list[Splice]:
        """Edits that take links of removed cells out."""
        group = layout.root.find("hyperlinks")
        if group is None:
            return []
        gone = [entry for entry in group.children if self._is_inside(parse_range(entry.attributes["ref"])[:2])]
        if gone and len(gone) == len(group.children):
            return [(group.start, group.end, b"")]
        return [(entry.start, entry.end, b"") for entry in gone]


def _emptied_row(data: bytes, span: RowSpan) -> bytes | None:
    """Tell what stands in place of a row that has lost all its cells; None when it has to stay open."""
    tag = data[span.start : span.open_end]
    closed = closed_tag(tag)
    if closed is None and span.attribute_count == 1:
        return b""
    return closed


def _close_rows(data: bytes, layout: SheetLayout) -> list[Splice]:
    """Edit that writes the emptied list of rows as it was: closed in itself."""
    rows = layout.sheet_data
    closed = closed_tag(data[rows.start : rows.open_end])
    return [] if closed is None else [(rows.start, rows.open_end, closed), (rows.close_start, rows.end, b"")]


def _restyled(tag: bytes, style: int) -> bytes:
    """Start tag of a cell with a style; the first style is left unsaid where it was."""
    without = set_attribute(tag, "s", None)
    was_appended = set_attribute(without, "s", get_attribute(tag, "s")) == tag
    return without if style == 0 and was_appended else set_attribute(tag, "s", str(style))
