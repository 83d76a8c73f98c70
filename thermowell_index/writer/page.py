"""How our sheets look: one sober page layout that all of them share, on screen and on paper."""

import math
import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from openpyxl.cell.cell import Cell, MergedCell
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.cell_range import CellRange
from openpyxl.worksheet.pagebreak import Break
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.findings import Severity
from thermowell_index.writer.flags import FILLS
from thermowell_index.writer.looks import Looks
from thermowell_index.writer.report import Report

# At hand on every desktop, or replaced there by a font of the same widths.
FONT_NAME: Final = "Arial"
TEXT_SIZE: Final = 9
FOOTER_SIZE: Final = 8
INK: Final = "FF1F2933"
MUTED: Final = "FF5B6770"
LINK: Final = "FF1F4E79"
HEADING_FILL: Final = "FFDDE4EA"
RULE_COLOUR: Final = "FFB8C2CB"
A3_PAPER: Final = 8
A4_PAPER: Final = 9

TEXT_FONT = Font(name=FONT_NAME, size=TEXT_SIZE, color=INK)
BOLD_FONT = Font(name=FONT_NAME, size=TEXT_SIZE, color=INK, bold=True)
MUTED_FONT = Font(name=FONT_NAME, size=TEXT_SIZE, color=MUTED)
LINK_FONT = Font(name=FONT_NAME, size=TEXT_SIZE, color=LINK, underline="single")
TITLE_FONT = Font(name=FONT_NAME, size=15, color=INK, bold=True)
SECTION_FONT = Font(name=FONT_NAME, size=11, color=INK, bold=True)
HEADINGS = PatternFill("solid", fgColor=HEADING_FILL)
SEVERITY_FILLS: Mapping[Severity, PatternFill] = {
    severity: PatternFill("solid", fgColor=colour) for severity, colour in FILLS.items()
}
_HAIR = Side(style="hair", color=RULE_COLOUR)
# A hair between columns keeps a text that fills its cell apart from its neighbour.
UNDER_LINE = Border(left=_HAIR, right=_HAIR, bottom=_HAIR)
UNDER_HEADINGS = Border(top=Side(style="thin", color=MUTED), bottom=Side(style="thin", color=MUTED))
LEFT_HEADING = Alignment(wrap_text=True, vertical="center")
RIGHT_HEADING = Alignment(wrap_text=True, vertical="center", horizontal="right", indent=1)
WRAPPED = Alignment(wrap_text=True, vertical="top")
NUMBERS = Alignment(vertical="top", horizontal="right", indent=1)
WRAPPED_LEFT = Alignment(wrap_text=True, vertical="top", horizontal="left")

LINE_HEIGHT: Final = 12.0
TALLEST_ROW: Final = 400.0
MOST_LINES: Final = 24
# A proportional font sets more characters a line than the column width counts digits, but breaks at words.
CHARACTERS_PER_WIDTH: Final = 1.25

_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f]")
_ESCAPE = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_LONGEST_CELL = 32_767


def put(cell: Cell | MergedCell, value: str | float | None) -> None:
    """Set a cell; text stays text, whatever sign it opens with."""
    if isinstance(cell, MergedCell) or value is None or value == "":
        return
    if not isinstance(value, str):
        cell.value = value
        return
    text = _ESCAPE.sub("_x005F_", _CONTROL.sub(" ", value))[:_LONGEST_CELL]
    cell.value = text
    cell.data_type = "s"
    if text.startswith(("=", "+", "-", "@")):
        cell.quotePrefix = True


@dataclass(kw_only=True)
class Page:
    """A sheet that is written from the top down."""

    sheet: Worksheet
    widths: tuple[float, ...]
    next_row: int = 1
    looks: Looks = field(default_factory=Looks)

    def __post_init__(self) -> None:
        for column, width in enumerate(self.widths, start=1):
            self.sheet.column_dimensions[get_column_letter(column)].width = width
        self.sheet.sheet_view.showGridLines = False

    def title(self, text: str, report: Report, hint: str = "") -> None:
        """Write the sheet's title, what it was made from, and a hint for its reader."""
        self._wide(text, TITLE_FONT, height=24.0)
        self._wide(source_line(report), MUTED_FONT)
        if hint:
            self._wide(hint, MUTED_FONT)
        self.skip()

    def section(self, text: str) -> None:
        """Write the heading of a part of the sheet."""
        self._wide(text, SECTION_FONT, height=20.0)

    def sentence(self, text: str) -> None:
        """Write a paragraph over the whole width."""
        self._wide(text, TEXT_FONT)

    def skip(self) -> None:
        """Leave a row blank."""
        self.next_row += 1

    def break_page(self) -> None:
        """Let what follows begin a page of its own."""
        self.sheet.row_breaks.append(Break(id=self.next_row - 1))

    def headings(self, names: Sequence[str], spans: Sequence[int] | None = None, numbers: Collection[str] = ()) -> int:
        """Write a row of column headings, those over numbers set right; return its number."""
        row = self.line(names, spans)
        for column in range(1, sum(spans or [1] * len(names)) + 1):
            cell = self.sheet.cell(row, column)
            at = RIGHT_HEADING if cell.value in numbers else LEFT_HEADING
            self.looks.put_on(cell, font=BOLD_FONT, fill=HEADINGS, border=UNDER_HEADINGS, alignment=at)
        return row

    def line(self, values: Sequence[str | float | None], spans: Sequence[int] | None = None) -> int:
        """Write one line, each value over its span of columns; return its row."""
        row, column, lines = self.next_row, 1, 1
        for value, span in zip(values, spans or [1] * len(values), strict=True):
            at = NUMBERS if isinstance(value, int | float) else WRAPPED
            for offset in range(span):
                cell = self.sheet.cell(row, column + offset)
                self.looks.put_on(cell, font=TEXT_FONT, border=UNDER_LINE, alignment=at)
            put(self.sheet.cell(row, column), value)
            if span > 1:
                self._merge(row, column, column + span - 1)
            lines = max(lines, lines_of(value, sum(self.widths[column - 1 : column - 1 + span])))
            column += span
        self.sheet.row_dimensions[row].height = height_of(lines)
        self.next_row += 1
        return row

    def finish(self, report: Report, *, repeated_row: int | None = None, paper: int = A4_PAPER) -> None:
        """Set the page up for print: landscape, fitted to the width, headings repeated, page x of y."""
        setup = self.sheet.page_setup
        setup.orientation, setup.paperSize = "landscape", paper
        setup.fitToWidth, setup.fitToHeight = 1, 0
        self.sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
        margins = self.sheet.page_margins
        margins.left = margins.right = 0.3
        margins.top, margins.bottom = 0.5, 0.7
        if repeated_row is not None:
            self.sheet.print_title_rows = f"{repeated_row}:{repeated_row}"
        footer = self.sheet.oddFooter
        # A sheet that openpyxl makes always has its footer parts; only the stubs think it might not.
        footer.left.text = _footer_text(f"{report.run.input_name}  {self.sheet.title}")  # type: ignore[union-attr]
        footer.right.text = "page &P of &N"  # type: ignore[union-attr]
        footer.left.size = footer.right.size = FOOTER_SIZE  # type: ignore[union-attr]

    def _merge(self, row: int, first: int, last: int) -> None:
        """Merge cells of one row; asking the sheet to would look through all earlier merges each time."""
        self.sheet.merged_cells.ranges.add(CellRange(min_row=row, max_row=row, min_col=first, max_col=last))

    def _wide(self, text: str, font: Font, height: float | None = None) -> None:
        width = sum(self.widths)
        row = self.next_row
        cell = self.sheet.cell(row, 1)
        put(cell, text)
        cell.font, cell.alignment = font, WRAPPED_LEFT
        self._merge(row, 1, len(self.widths))
        self.sheet.row_dimensions[row].height = height or height_of(lines_of(text, width))
        self.next_row += 1


def source_line(report: Report) -> str:
    """Return what a sheet was made from, for its second line."""
    run = report.run
    revision = f", revision {run.revision}" if run.revision else ""
    return f"{run.input_name}{revision}; checked {run.date}; design basis {run.basis_name}"


def lines_of(value: str | float | None, width: float) -> int:
    """Return how many lines a value takes in a column of that width."""
    if not isinstance(value, str):
        return 1
    return sum(_lines_of_paragraph(paragraph, width * CHARACTERS_PER_WIDTH) for paragraph in value.split("\n"))


def _lines_of_paragraph(text: str, capacity: float) -> int:
    """Return the lines of a paragraph that breaks at blanks; a word longer than a line is broken."""
    lines, used = 1, 0.0
    for word in text.split(" "):
        length = len(word)
        if used and used + 1 + length > capacity:
            lines, used = lines + 1, 0.0
        elif used:
            used += 1
        if length > capacity:
            lines += math.ceil(length / capacity) - 1
            length %= max(int(capacity), 1)
        used += length
    return lines


def in_rows(tags: Sequence[str], width: float) -> list[str]:
    """Return a list of tags in as many texts as it takes for each to be read whole: a row is no higher than a page."""
    texts = [""]
    for tag in tags:
        longer = f"{texts[-1]}, {tag}" if texts[-1] else tag
        if lines_of(longer, width) > MOST_LINES:
            texts.append(tag)
        else:
            texts[-1] = longer
    return texts


def height_of(lines: int) -> float:
    """Return the height of a row of so many lines of text [points]."""
    return min(lines * LINE_HEIGHT + 3.0, TALLEST_ROW)


def _footer_text(text: str) -> str:
    """Return a text for a footer, in which an ampersand opens a code."""
    return text.replace("&", "&&")[:200]
