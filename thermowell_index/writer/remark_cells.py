"""Cells that reviewers write in: the choice of a disposition, the day of a review."""

from datetime import date
from typing import Final

from openpyxl.cell.cell import Cell
from openpyxl.styles import Alignment
from openpyxl.worksheet.datavalidation import DataValidation
from openpyxl.worksheet.worksheet import Worksheet

from thermowell_index.revisions.previous import DISPOSITIONS

DATE_FORMAT: Final = r"yyyy\-mm\-dd"


def write_date(cell: Cell, text: str, *, date_1904: bool) -> None:
    """Write a day as a day of the client's workbook, which may count from 1904; other text stays as it was typed."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return
    cell.value = (day - (date(1904, 1, 1) if date_1904 else date(1899, 12, 30))).days
    cell.number_format = DATE_FORMAT
    cell.alignment = Alignment(vertical="top", horizontal="left")


def add_drop_down(sheet: Worksheet, column: int, first: int, last: int) -> None:
    """Let the cells of a column offer the dispositions."""
    choices = DataValidation(
        type="list",
        formula1=f'"{",".join(DISPOSITIONS)}"',
        allow_blank=True,
        showErrorMessage=True,
        errorTitle="Disposition",
        error=f"Choose one of: {', '.join(DISPOSITIONS)}",
        errorStyle="warning",
    )
    choices.add(f"{sheet.cell(first, column).coordinate}:{sheet.cell(last, column).coordinate}")
    sheet.add_data_validation(choices)
