"""The workbook part: tabs and defined names added and removed."""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from thermowell_index.errors import OutputError
from thermowell_index.ooxml.draft import Draft, append_markup, closed_tag, element_name
from thermowell_index.ooxml.markup import Element, Splice, escape_attribute, escape_text, set_attribute

_AFTER_NAMES = {
    "calcPr",
    "oleSize",
    "customWorkbookViews",
    "pivotCaches",
    "smartTagPr",
    "smartTagTypes",
    "webPublishing",
    "fileRecoveryPr",
    "webPublishObjects",
    "extLst",
}


@dataclass(frozen=True, kw_only=True)
class NewTab:
    """A tab to be added: the relationship that leads to its part, and whether it is hidden."""

    name: str
    relation: str
    state: str


@dataclass(frozen=True, kw_only=True)
class NewName:
    """A defined name to be added; ``tab`` is the position of the sheet that it belongs to, None for all."""

    name: str
    reference: str
    tab: int | None = None
    is_hidden: bool = False


def add_to_workbook(draft: Draft, tabs: Sequence[NewTab], names: Sequence[NewName]) -> None:
    """Append tabs and names.

    Raises
    ------
    OutputError
        When a name is taken.
    """
    part = draft.package.workbook_part
    data = draft.part(part)
    root = draft.tree(part)
    sheets = root.find("sheets")
    splices: list[Splice] = []
    if tabs and sheets is not None:
        splices += append_markup(data, sheets, _tabs(draft, sheets, tabs).encode())
    if names:
        splices += _add_names(data, root, names)
    draft.splice(part, splices)


def _tabs(draft: Draft, sheets: Element, tabs: Sequence[NewTab]) -> str:
    listed = list(sheets.all("sheet"))
    taken = {entry.attributes.get("name", "").casefold() for entry in listed}
    number = max((int(entry.attributes.get("sheetId", 0)) for entry in listed), default=0)
    markup = []
    for tab in tabs:
        if tab.name.casefold() in taken:
            raise OutputError(f"{draft.package.path}: has a sheet {tab.name!r} already")
        taken.add(tab.name.casefold())
        number += 1
        state = "" if tab.state == "visible" else f' state="{tab.state}"'
        markup.append(
            f'<{element_name(sheets, "sheet")} xmlns:r="{draft.relationship_namespace}" '
            f'name="{escape_attribute(tab.name)}" sheetId="{number}"{state} r:id="{tab.relation}"/>'
        )
    return "".join(markup)


def _add_names(data: bytes, root: Element, names: Sequence[NewName]) -> list[Splice]:
    group = root.find("definedNames")
    listed = [] if group is None else list(group.all("definedName"))
    taken = {_name_key(entry) for entry in listed}
    for name in names:
        key = (name.name.casefold(), None if name.tab is None else str(name.tab))
        if key in taken:
            raise OutputError(f"the workbook defines the name {name.name!r} already")
        taken.add(key)
    markup = "".join(_defined_name(root, name) for name in names).encode()
    if group is not None:
        return append_markup(data, group, markup)
    tag = element_name(root, "definedNames").encode()
    later = (child.start for child in root.children if child.name in _AFTER_NAMES)
    place = next(later, root.close_start)
    return [(place, place, b"<" + tag + b">" + markup + b"</" + tag + b">")]


def _name_key(entry: Element) -> tuple[str, str | None]:
    return entry.attributes.get("name", "").casefold(), entry.attributes.get("localSheetId")


def _defined_name(root: Element, name: NewName) -> str:
    tag = element_name(root, "definedName")
    local = "" if name.tab is None else f' localSheetId="{name.tab}"'
    hidden = ' hidden="1"' if name.is_hidden else ""
    return f'<{tag} name="{escape_attribute(name.name)}"{local}{hidden}>{escape_text(name.reference)}</{tag}>'


def remove_from_workbook(draft: Draft, sheets: Collection[str], marks: Collection[str]) -> None:
    """Take out tabs, the names that belong or point to them, and marks."""
    part = draft.package.workbook_part
    data = draft.part(part)
    root = draft.tree(part)
    listed = root.find("sheets")
    entries = [] if listed is None else list(listed.all("sheet"))
    gone = {index for index, entry in enumerate(entries) if entry.attributes.get("name") in sheets}
    splices: list[Splice] = [(entries[index].start, entries[index].end, b"") for index in gone]
    moved = _new_positions(len(entries), gone)
    splices += _remove_names(data, root, sheets, marks, moved)
    splices += _views(data, root, entries, moved)
    for index in gone:
        draft.remove_relationship(part, entries[index].relation_id or "")
    draft.splice(part, splices)


def _new_positions(count: int, gone: Collection[int]) -> dict[int, int]:
    """Find the new position of each tab that stays."""
    kept = [index for index in range(count) if index not in gone]
    return {old: new for new, old in enumerate(kept)}


def _remove_names(
    data: bytes, root: Element, sheets: Collection[str], marks: Collection[str], moved: Mapping[int, int]
) -> list[Splice]:
    group = root.find("definedNames")
    if group is None:
        return []
    points_to_gone = re.compile("|".join(_reference_patterns(sheets))) if sheets else None
    splices: list[Splice] = []
    kept = 0
    for entry in group.all("definedName"):
        local = entry.attributes.get("localSheetId")
        is_mark = local is None and entry.attributes.get("name") in marks
        is_lost = points_to_gone is not None and points_to_gone.search(entry.text) is not None
        if is_mark or is_lost or (local is not None and int(local) not in moved):
            splices.append((entry.start, entry.end, b""))
            continue
        kept += 1
        if local is not None and moved[int(local)] != int(local):
            tag = set_attribute(data[entry.start : entry.open_end], "localSheetId", str(moved[int(local)]))
            splices.append((entry.start, entry.open_end, tag))
    if kept:
        return splices
    return [(group.start, group.end, closed_tag(data[group.start : group.open_end]) or b"")]


def _reference_patterns(sheets: Collection[str]) -> list[str]:
    """Patterns of a reference to a sheet, with and without quotes."""
    patterns = []
    for name in sheets:
        patterns.append("'" + re.escape(name.replace("'", "''")) + "'!")
        patterns.append(r"(?<![\w.'\]])" + re.escape(name) + "!")
    return patterns


def _views(data: bytes, root: Element, entries: Sequence[Element], moved: Mapping[int, int]) -> list[Splice]:
    """Edits that let the views of the workbook open on a tab that stays."""
    group = root.find("bookViews")
    first_visible = next(
        (new for old, new in moved.items() if entries[old].attributes.get("state", "visible") == "visible"), 0
    )
    splices: list[Splice] = []
    for view in [] if group is None else group.all("workbookView"):
        tag = data[view.start : view.open_end]
        for name in ("firstSheet", "activeTab"):
            value = view.attributes.get(name)
            if value is not None and moved.get(int(value)) != int(value):
                tag = set_attribute(tag, name, str(moved.get(int(value), first_visible)))
        splices.append((view.start, view.open_end, tag))
    return splices
