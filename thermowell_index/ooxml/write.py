"""Writes the annotated copy: edits spliced in, sheets moved in, all else as it was; read back before it counts."""

import os
from collections.abc import Mapping
from pathlib import Path

from thermowell_index.errors import OutputError, WorkbookError
from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.ooxml.cell_markup import is_blank
from thermowell_index.ooxml.draft import Draft
from thermowell_index.ooxml.edits import Address, SheetEdit
from thermowell_index.ooxml.markup import apply_splices
from thermowell_index.ooxml.new_sheets import move_in
from thermowell_index.ooxml.notes import add_notes
from thermowell_index.ooxml.package import Package, SheetInfo
from thermowell_index.ooxml.sheet_edit import by_row, check_cells, sheet_splices, wanted_cells
from thermowell_index.ooxml.sheet_layout import SheetLayout, read_layout
from thermowell_index.ooxml.style_sheet import StyleSheet, empty_styles
from thermowell_index.ooxml.workbook_edit import NewName, NewTab, add_to_workbook

StyleKeepers = Mapping[str, Mapping[Address, tuple[str, Address]]]
"""New sheet -> cell there -> client's sheet and cell whose style, as it was before we coloured it, it shall bear."""

_STYLES_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"


def write_copy(
    package: Package,
    target: Path,
    *,
    edits: Mapping[str, SheetEdit],
    new_sheets: bytes | None,
    marks: Mapping[str, str],
    author: str,
    style_keepers: StyleKeepers | None = None,
) -> None:
    """Write a workbook with additions.

    Parameters
    ----------
    package
        The workbook; it is not written to.
    target
        File to write; what stands there is replaced.
    edits
        What is added to each of its sheets.
    new_sheets
        A workbook (as saved by openpyxl) whose sheets are put after the others.
    marks
        Hidden defined names to be added, with what they refer to.
    author
        Who writes the notes.
    style_keepers
        Cells of the new sheets that bear the style that a cell of the workbook had before it was coloured.

    Raises
    ------
    OutputError
        When the target is the input, is open in another program, or cannot be written; when a cell is taken.
    """
    check_target(package, target)
    data = make_copy(
        package, edits=edits, new_sheets=new_sheets, marks=marks, author=author, style_keepers=style_keepers
    )
    _verify(data, target, package, edits=edits, new_sheets=new_sheets)
    _replace(target, data)


def make_copy(
    package: Package,
    *,
    edits: Mapping[str, SheetEdit],
    new_sheets: bytes | None,
    marks: Mapping[str, str],
    author: str,
    style_keepers: StyleKeepers | None = None,
) -> bytes:
    """Bytes of the workbook with additions; parameters as those of ``write_copy``."""
    draft = Draft(package)
    keepers = style_keepers or {}
    styles_part, old_styles = _styles_of(draft)
    styles = StyleSheet(old_styles, package.where(styles_part or "styles"))
    layouts = _layouts(package, edits, keepers)
    for sheet, edit in edits.items():
        _edit_sheet(draft, styles, sheet, layouts[sheet], edit, author)
    tabs: list[NewTab] = []
    names = [NewName(name=name, reference=reference, is_hidden=True) for name, reference in marks.items()]
    if new_sheets is not None:
        with Package.from_bytes(new_sheets, package.path) as book:
            tabs, moved_names = move_in(draft, styles, book, _kept_styles(keepers, layouts))
        names = moved_names + names
    add_to_workbook(draft, tabs, names)
    new_styles = styles.to_bytes()
    if new_styles != old_styles:
        _put_styles(draft, styles_part, new_styles)
    return draft.to_bytes()


def _styles_of(draft: Draft) -> tuple[str | None, bytes]:
    """Part that holds the looks, and its bytes; those of an empty one when the workbook has none."""
    found = draft.target(draft.package.workbook_part, "styles")
    if found is not None:
        return draft.package.spelling(found), draft.part(found)
    return None, empty_styles(draft.main_namespace)


def _put_styles(draft: Draft, part: str | None, data: bytes) -> None:
    if part is None:
        part = "xl/styles.xml" if not draft.has("xl/styles.xml") else draft.new_name("xl/styles1.xml")
        draft.add_relationship(draft.package.workbook_part, "styles", part)
        draft.declare(part, _STYLES_TYPE)
    draft.put(part, data)


def _layouts(package: Package, edits: Mapping[str, SheetEdit], keepers: StyleKeepers) -> dict[str, SheetLayout]:
    """One pass over each sheet that is edited or whose styles are kept."""
    wanted = {sheet: wanted_cells(edit) for sheet, edit in edits.items()}
    for cells in keepers.values():
        for source, address in cells.values():
            wanted.setdefault(source, set()).add(address)
    layouts = {}
    for name, addresses in wanted.items():
        widths = edits[name].widths if name in edits else {}
        layouts[name] = read_layout(
            package.part(package.sheet(name).part),
            f"{package.path}: sheet {name!r}",
            by_row(addresses),
            frozenset(widths),
        )
    return layouts


def _edit_sheet(
    draft: Draft, styles: StyleSheet, sheet: str, layout: SheetLayout, edit: SheetEdit, author: str
) -> None:
    check_cells(layout, edit.cells, sheet)
    part = draft.package.spelling(draft.package.sheet(sheet).part)
    data = draft.package.part(part)
    splices = sheet_splices(data, layout, edit, styles)
    splices += add_notes(draft, part, layout, edit.notes, author)
    if splices:
        draft.put(part, apply_splices(data, splices))


def _kept_styles(keepers: StyleKeepers, layouts: Mapping[str, SheetLayout]) -> dict[str, dict[Address, int]]:
    return {
        sheet: {address: layouts[source].style_at(cell) for address, (source, cell) in cells.items()}
        for sheet, cells in keepers.items()
    }


def check_target(package: Package, target: Path) -> None:
    """Refuse a target that must not or cannot be replaced.

    Raises
    ------
    OutputError
        When it is the input, or another program has it open.
    """
    if target.resolve() == package.path.resolve() or _is_same_file(target, package.path):
        raise OutputError(f"{target}: is the input, which is never written to")
    for lock in (f"~${target.name}", f".~lock.{target.name}#"):
        if target.with_name(lock).exists():
            raise OutputError(f"{target}: is open in another program; close it there, or name another file")


def _is_same_file(one: Path, other: Path) -> bool:
    return one.exists() and other.exists() and one.samefile(other)


def _verify(
    data: bytes, target: Path, package: Package, *, edits: Mapping[str, SheetEdit], new_sheets: bytes | None
) -> None:
    """Read the copy back.

    Raises
    ------
    OutputError
        When it does not hold what it should: a fault of ours, better met here than in front of the reader.
    """
    try:
        with Package.from_bytes(data, target) as copy:
            expected = [sheet.name for sheet in package.sheets] + _names_of(new_sheets, target)
            if [sheet.name for sheet in copy.sheets] != expected:
                raise OutputError(f"{target}: was not written; the copy does not hold the sheets it should")
            for sheet in copy.sheets:
                if sheet.name in edits:
                    _verify_cells(copy, sheet, edits[sheet.name], target)
                elif sheet not in package.sheets and sheet.kind == "worksheet":
                    copy.read(sheet.name)
    except WorkbookError as error:
        raise OutputError(f"{target}: was not written; the copy cannot be read back ({error})") from error


def _names_of(new_sheets: bytes | None, target: Path) -> list[str]:
    if new_sheets is None:
        return []
    with Package.from_bytes(new_sheets, target) as book:
        return [sheet.name for sheet in book.sheets]


def _verify_cells(copy: Package, sheet: SheetInfo, edit: SheetEdit, target: Path) -> None:
    layout = read_layout(copy.part(sheet.part), copy.where(sheet.part), by_row(edit.cells))
    for address, cell in edit.cells.items():
        found = layout.cells.get(address)
        if found is None or found.is_used is is_blank(cell.value):
            place = f"{cell_address(*address)} of sheet {sheet.name!r}"
            raise OutputError(f"{target}: was not written; the new cell {place} is missing from the copy")


def _replace(target: Path, data: bytes) -> None:
    """Put the bytes in place at once: a reader meets the old file or the new one, never half of one."""
    temporary = target.with_name(f".{target.name}.{os.getpid()}.tmp")
    try:
        with temporary.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        temporary.replace(target)
    except PermissionError as error:
        raise OutputError(f"{target}: cannot be written; it is open in another program, or write-protected") from error
    except OSError as error:
        raise OutputError(f"{target}: cannot be written ({error.strerror or error})") from error
    finally:
        temporary.unlink(missing_ok=True)
