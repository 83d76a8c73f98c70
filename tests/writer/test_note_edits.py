"""What people write in notes on cells is said and kept."""

import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.comments import Comment

from thermowell_index.ooxml import Package, SheetEdit, notes_of
from thermowell_index.pipeline import Settings, check_workbook
from thermowell_index.writer import read_previous
from thermowell_index.writer.note_edits import unnoted_cells

DAY = "2024-06-01"
SOUND = {
    "tag": "TE-101",
    "bore_depth (in)": "9",
    "overall_length (in)": "9-1/4",
    "sensor_mounting": "spring-loaded fitting",
    "extension_arrangement": "none",
}
FAULTY = SOUND | {"tag": "TE-102", "bore_depth (in)": "12"}


@pytest.fixture
def index(index_file: Callable[..., Path]) -> Path:
    def noted(book: Workbook) -> None:
        book["Index"]["A2"].comment = Comment("client's own", "Lead")

    path = index_file(SOUND, FAULTY, change=noted)
    check_workbook(path, Settings(date=DAY))
    return path


def edit_notes(index: Path) -> Path:
    """Write on to our note, add one to the client's, and one on Discrepancies; return the answer's path."""
    path = index.with_name("index_checked.xlsx")
    book = load_workbook(path)
    sheet = book["Index"]
    sheet["A2"].comment = Comment("client's own\nto be moved", "Lead")
    ours = next(cell for cell in sheet[3] if cell.comment)
    written = ours.comment.text if ours.comment else ""
    ours.comment = Comment(f"{written}\n  seen, drawing is   right", "A. B.")
    book["Discrepancies"]["C6"].comment = Comment("A. B.:\nask the site", "A. B.")
    book.save(path)
    return path


def kept_of(path: Path, *, is_input: bool) -> tuple[list[str], list[str]]:
    with Package.open(path) as package:
        run = read_previous(package, is_input=is_input)
    assert run is not None
    return sorted(line.partition(", ")[2] for line in run.own_lines), list(run.said)


@pytest.mark.parametrize("is_input", [True, False])
def test_notes_as_they_were_have_nothing_to_say(*, index: Path, is_input: bool) -> None:
    assert kept_of(index.with_name("index_checked.xlsx"), is_input=is_input) == ([], [])


@pytest.mark.parametrize("is_input", [True, False])
def test_what_is_written_in_notes_is_said_and_kept(*, index: Path, is_input: bool) -> None:
    lines, said = kept_of(edit_notes(index), is_input=is_input)
    assert lines == [
        "row 2, TE-101: note: to be moved",
        "row 3, TE-102: note: seen, drawing is right",
        "row 6, TE-102: note: A. B.: / ask the site",
    ]
    assert ["note of TE-102: 'seen, drawing is right', typed by hand" in line for line in said].count(True) == 1
    assert len(said) == 3


def test_notes_that_were_kept_are_said_once(index: Path) -> None:
    check_workbook(edit_notes(index), Settings(date=DAY))
    again = check_workbook(index.with_name("index_checked-2.xlsx"), Settings(date=DAY))
    assert (len(again.report.history.own_lines), list(again.said)) == (3, [])


def with_conversation(path: Path, *refs: str) -> Path:
    """Let people talk about cells of the first sheet of a workbook that has no notes there."""
    entries = "".join(f'<threadedComment ref="{ref}"><text>about {ref}?</text></threadedComment>' for ref in refs)
    part = "threadedComments/threadedComment1.xml"
    kind = "http://schemas.microsoft.com/office/2017/10/relationships/threadedComment"
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr(f"xl/{part}", f'<ThreadedComments xmlns="urn:talk">{entries}</ThreadedComments>')
        archive.writestr(
            "xl/worksheets/_rels/sheet1.xml.rels",
            '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
            f'<Relationship Id="rId1" Type="{kind}" Target="../{part}"/></Relationships>',
        )
    return path


def test_flagged_cells_with_a_conversation_are_counted_in_the_summary(index_file: Callable[..., Path]) -> None:
    refs = [f"{letter}3" for letter in "ABCDE"]
    index = with_conversation(index_file(SOUND, FAULTY), *refs)
    check_workbook(index, Settings(date=DAY))
    summary = load_workbook(index.with_name("index_checked.xlsx"))["Check summary"]
    (said,) = [str(cell.value) for row in summary for cell in row if "conversation" in str(cell.value)]
    assert said.startswith("Index: 1 flagged cell with a conversation (threaded comment) got no note; ")


def test_a_conversation_on_a_merged_cell_counts_for_all_of_it(index_file: Callable[..., Path]) -> None:
    path = with_conversation(index_file(SOUND, FAULTY, change=lambda book: book["Index"].merge_cells("H3:J4")), "H3")
    with Package.open(path) as package:
        assert notes_of(package, "Index") == {(3, 8): "about H3?"}
        assert notes_of(package, "Index", with_conversations=False) == {}
        assert unnoted_cells(package, {"Index": SheetEdit(notes={(4, 9): "x", (5, 9): "y"})}) == {"Index": 1}
        assert unnoted_cells(package, {"Index": SheetEdit(notes={(5, 9): "y"})}) == {}
