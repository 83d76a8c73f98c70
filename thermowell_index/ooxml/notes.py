"""Notes on cells: added, appended to those that stand there, and taken back.

Our text begins with a line that holds the author in square brackets. It is by that line that it is known again:
programs that save the workbook keep the text, but not always the author.
"""

from collections.abc import Mapping

from thermowell_index.ooxml.addresses import cell_address
from thermowell_index.ooxml.draft import DECLARATION, Draft, append_markup, element_name
from thermowell_index.ooxml.edits import Address
from thermowell_index.ooxml.markup import Element, Splice, apply_splices, escape_text, parse
from thermowell_index.ooxml.note_shapes import EMPTY, add_shapes, blocks_of, remove_shapes
from thermowell_index.ooxml.read_notes import cells_with_conversations, listed_notes, note_text, note_texts
from thermowell_index.ooxml.sheet_layout import SheetLayout
from thermowell_index.ooxml.texts import LONGEST_TEXT, decode, encode, restore

_COMMENTS_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml"
_DRAWING_TYPE = "application/vnd.openxmlformats-officedocument.vmlDrawing"


def first_line(author: str) -> str:
    """Line with which our text begins."""
    return f"[{author}]"


def add_notes(draft: Draft, part: str, layout: SheetLayout, notes: Mapping[Address, str], author: str) -> list[Splice]:
    """Put notes on cells of a sheet.

    Returns
    -------
    list[Splice]
        What has to be edited in the sheet part itself.
    """
    placed = _place(draft, part, layout, notes, author)
    if not placed:
        return []
    comments = draft.target(part, "comments") or _make_comments(draft, part)
    new = _write_comments(draft, comments, placed, author)
    return _draw(draft, part, layout, new) if new else []


def _place(
    draft: Draft, part: str, layout: SheetLayout, notes: Mapping[Address, str], author: str
) -> dict[Address, str]:
    """Our text of each note, on the cell that can carry one."""
    threaded = cells_with_conversations(draft.package, part)
    texts: dict[Address, list[str]] = {}
    for address, text in notes.items():
        anchor = layout.merge_anchor(address)
        if anchor not in threaded:
            texts.setdefault(anchor, []).append(text)
    return {anchor: "\n".join((first_line(author), *texts[anchor])) for anchor in sorted(texts)}


def _make_comments(draft: Draft, part: str) -> str:
    name = draft.new_name("xl/comments1.xml")
    markup = f'<comments xmlns="{draft.main_namespace}"><authors></authors><commentList></commentList></comments>'
    draft.put(name, DECLARATION + markup.encode())
    draft.add_relationship(part, "comments", name)
    draft.declare(name, _COMMENTS_TYPE)
    return name


def _write_comments(draft: Draft, comments: str, notes: Mapping[Address, str], author: str) -> dict[Address, str]:
    """Add to the list of notes; returns those that have no box yet."""
    data = draft.part(comments)
    root = draft.tree(comments)
    existing = listed_notes(root)
    number, splices = _author_number(data, root, author)
    added: list[str] = []
    new: dict[Address, str] = {}
    for address, text in notes.items():
        if address in existing:
            splices += _append_text(data, existing[address], text)
        else:
            added.append(_comment(root, address, number, text))
            new[address] = text
    listed = root.find("commentList")
    if added and listed is not None:
        splices += append_markup(data, listed, "".join(added).encode())
    draft.put(comments, apply_splices(data, splices))
    return new


def _author_number(data: bytes, root: Element, author: str) -> tuple[int, list[Splice]]:
    """Find the number of the author in the list, and the edit that adds one who is not in it."""
    listed = root.find("authors")
    authors = [] if listed is None else [entry.text for entry in listed.all("author")]
    if author in authors or listed is None:
        return (authors.index(author) if author in authors else 0), []
    name = element_name(root, "author")
    markup = f"<{name}>{escape_text(encode(author))}</{name}>".encode()
    return len(authors), append_markup(data, listed, markup)


def _comment(root: Element, address: Address, author: int, text: str) -> str:
    comment, body = element_name(root, "comment"), element_name(root, "text")
    return (
        f'<{comment} ref="{cell_address(*address)}" authorId="{author}"><{body}>{_run(root, text)}</{body}></{comment}>'
    )


def _run(root: Element, text: str) -> str:
    run, body = element_name(root, "r"), element_name(root, "t")
    return f'<{run}><{body} xml:space="preserve">{escape_text(encode(text))}</{body}></{run}>'


def _append_text(data: bytes, comment: Element, text: str) -> list[Splice]:
    """Edits that put our text under the text of a note."""
    body = comment.find("text")
    if body is None:
        return []
    room = LONGEST_TEXT - len(note_text(comment)) - 1
    run = _run(body, "\n" + text[:room]).encode()
    plain = body.find("t")
    if plain is None:
        return append_markup(data, body, run)
    # plain text beside runs is allowed by the schema but not shown by every program: make a run of it
    name = element_name(body, "r").encode()
    whole = b"<" + name + b">" + data[plain.start : plain.end] + b"</" + name + b">" + run
    return [(plain.start, plain.end, whole)]


def _draw(draft: Draft, part: str, layout: SheetLayout, new: Mapping[Address, str]) -> list[Splice]:
    """Give new notes their boxes; returns what has to be edited in the sheet part."""
    legacy = layout.root.find("legacyDrawing")
    drawing = None if legacy is None else _related(draft, part, legacy.relation_id)
    splices: list[Splice] = []
    if drawing is None:
        drawing = draft.new_name("xl/drawings/vmlDrawing1.vml")
        draft.put(drawing, EMPTY)
        draft.declare(drawing, _DRAWING_TYPE)
        identifier = draft.add_relationship(part, "vmlDrawing", drawing)
        name = element_name(layout.root, "legacyDrawing")
        markup = f'<{name} xmlns:r="{draft.relationship_namespace}" r:id="{identifier}"/>'.encode()
        start, end = (layout.place_of("legacyDrawing"),) * 2 if legacy is None else (legacy.start, legacy.end)
        splices.append((start, end, markup))
    others = [name for name in draft.names() if name.lower().endswith(".vml") and name != drawing]
    taken = {block for name in others for block in blocks_of(draft.part(name))}
    draft.put(drawing, add_shapes(draft.part(drawing), new, taken, draft.package.where(drawing)))
    return splices


def _related(draft: Draft, part: str, identifier: str | None) -> str | None:
    for relationship in draft.relationships(part):
        if relationship.identifier == identifier and draft.has(relationship.target):
            return draft.package.spelling(relationship.target)
    return None


def remove_notes(draft: Draft, part: str, layout: SheetLayout, author: str) -> list[Splice]:
    """Take our text out of all notes of a sheet, and notes that hold nothing else away.

    Returns
    -------
    list[Splice]
        What has to be edited in the sheet part itself.
    """
    comments = draft.target(part, "comments")
    if comments is None:
        return []
    data = draft.part(comments)
    root = parse(data, draft.package.where(comments))
    existing = listed_notes(root)
    splices: list[Splice] = []
    gone: set[Address] = set()
    for address, comment in existing.items():
        start = _start_of_ours(note_text(comment), author)
        if start == 0:
            gone.add(address)
            splices.append((comment.start, comment.end, b""))
        elif start is not None:
            splices += _cut_text(comment, start)
    if splices:
        staying = [comment for address, comment in existing.items() if address not in gone]
        draft.splice(comments, splices + _remove_author(root, staying, author))
    return _undraw(draft, part, layout, comments, gone, is_empty=gone == set(existing)) if gone else []


def _start_of_ours(text: str, author: str) -> int | None:
    """Where our text begins, with the line break before it; None when the note holds none."""
    line = first_line(encode(author))
    if text == line or text.startswith(f"{line}\n"):
        return 0
    start = f"{text}\n".replace("\r", "\n").rfind(f"\n{line}\n")
    if start < 0:
        return None
    return start - 1 if text[start - 1 : start] == "\r" else start


def _cut_text(comment: Element, start: int) -> list[Splice]:
    """Edits that end the text of a note at a place."""
    splices: list[Splice] = []
    body = comment.find("text")
    owners = {} if body is None else {id(text): run for run in body.all("r") for text in run.all("t")}
    position = 0
    for element in note_texts(comment):
        text = decode(element.text)
        keep = max(0, start - position)
        position += len(text)
        if keep == 0 and text:
            whole = owners.get(id(element), element)
            splices.append((whole.start, whole.end, b""))
        elif keep < len(text):
            splices.append((element.open_end, element.close_start, escape_text(restore(text[:keep])).encode()))
    return splices + ([] if body is None else _unwrap(body, splices))


def _unwrap(body: Element, cuts: list[Splice]) -> list[Splice]:
    """Edits that make plain text again of the one run that is left, when it has no look of its own."""
    cut = {start for start, _, _ in cuts}
    runs = [run for run in body.all("r") if run.start not in cut]
    if len(runs) != 1 or body.find("t") is not None or [child.name for child in runs[0].children] != ["t"]:
        return []
    run, text = runs[0], runs[0].children[0]
    return [(run.start, text.start, b""), (text.end, run.end, b"")]


def _remove_author(root: Element, staying: list[Element], author: str) -> list[Splice]:
    """Edit that takes us from the end of the list of authors, when no note of ours stays."""
    listed = root.find("authors")
    authors = [] if listed is None else list(listed.all("author"))
    number = str(len(authors) - 1)
    if not authors or decode(authors[-1].text) != author:
        return []
    if any(comment.attributes.get("authorId") == number for comment in staying):
        return []
    return [(authors[-1].start, authors[-1].end, b"")]


def _undraw(
    draft: Draft, part: str, layout: SheetLayout, comments: str, gone: set[Address], *, is_empty: bool
) -> list[Splice]:
    """Take boxes away, with the parts that are empty without them."""
    if is_empty:
        _drop(draft, part, comments)
    legacy = layout.root.find("legacyDrawing")
    drawing = None if legacy is None else _related(draft, part, legacy.relation_id)
    if legacy is None or drawing is None:
        return []
    rest, holds_shapes = remove_shapes(draft.part(drawing), gone)
    if holds_shapes or not is_empty:
        draft.put(drawing, rest)
        return []
    _drop(draft, part, drawing)
    return [(legacy.start, legacy.end, b"")]


def _drop(draft: Draft, part: str, target: str) -> None:
    """Take out a part and the reference to it."""
    for relationship in draft.relationships(part):
        if relationship.target.lower() == target.lower():
            draft.remove_relationship(part, relationship.identifier)
    draft.remove(target)
