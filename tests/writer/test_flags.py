"""Flagged cells: colours that differ for every eye, and notes that say the severity in words."""

from collections.abc import Callable

from openpyxl import Workbook

from thermowell_index.findings import Finding, Severity
from thermowell_index.writer.flags import FILLS, fills, flagged, notes
from thermowell_index.writer.report import Report


def _luminance(colour: str) -> float:
    """Return the relative luminance of an AARRGGBB colour; WCAG 2.1, definition of relative luminance."""
    parts = [int(colour[start : start + 2], 16) / 255 for start in (2, 4, 6)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_error_and_warning_differ_in_black_and_white() -> None:
    error, warning = (_luminance(FILLS[severity]) for severity in (Severity.ERROR, Severity.WARNING))
    assert (warning + 0.05) / (error + 0.05) > 1.9


def test_black_text_can_be_read_on_every_colour() -> None:
    assert all((_luminance(colour) + 0.05) / 0.05 > 7 for colour in FILLS.values())


def test_errors_and_warnings_colour_their_cell_and_notes_do_not(checked_book: Workbook) -> None:
    sheet = checked_book["Utilities"]
    assert sheet["D8"].fill.fgColor.rgb == FILLS[Severity.ERROR]
    assert sheet["C11"].fill.fgColor.rgb == FILLS[Severity.WARNING]
    assert sheet["C7"].fill.fill_type is None


def test_a_flagged_cell_keeps_its_value_and_border(checked_book: Workbook) -> None:
    cell = checked_book["Utilities"]["D8"]
    assert (cell.value, cell.border.bottom.style, cell.font.name) == ("13", "thin", "Arial")


def test_a_note_says_the_severity_and_what_to_do(checked_book: Workbook) -> None:
    note = checked_book["Utilities"]["D8"].comment
    assert note is not None
    assert note.text.split("\n")[-4:] == [
        "error: bore deeper than well",
        "found: bore depth 13; overall length 12-1/4",
        "expected: less than the overall length",
        "do: measure the bore with the well left in place",
    ]


def test_the_worst_severity_of_a_cell_wins_and_one_note_names_all(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    mild = make_finding(severity=Severity.WARNING, rule="shown_not_stored", expected="", found="", action="")
    report = make_report(findings=[mild, make_finding()])
    cells = flagged(report)["Utilities"]
    assert fills(cells) == {(8, 4): FILLS[Severity.ERROR]}
    text = notes(cells, report)[8, 4]
    assert text.startswith("error: bore deeper than well\n")
    assert text.endswith("\n\nwarning: shown not stored")


def test_what_repeats_over_a_sheet_or_has_no_cell_or_was_cleared_colours_nothing(
    make_finding: Callable[..., Finding], make_report: Callable[..., Report]
) -> None:
    silent = [
        make_finding(folded=True),
        make_finding(cell=""),
        make_finding(change="cleared"),
        make_finding(severity=Severity.NOTE),
    ]
    assert flagged(make_report(findings=silent)) == {}
