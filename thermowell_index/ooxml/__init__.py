"""The workbook file format (.xlsx, .xlsm) and nothing else: read cells, write an annotated copy, take it back."""

from thermowell_index.ooxml.addresses import cell_address, column_letters, column_number, parse_range
from thermowell_index.ooxml.cells import Cell, SheetCells
from thermowell_index.ooxml.edits import CellLook, NewCell, SheetEdit
from thermowell_index.ooxml.package import Package, SheetInfo
from thermowell_index.ooxml.read_notes import cells_with_conversations, notes_of
from thermowell_index.ooxml.strip import strip
from thermowell_index.ooxml.write import make_copy, write_copy

__all__ = [
    "Cell",
    "CellLook",
    "NewCell",
    "Package",
    "SheetCells",
    "SheetEdit",
    "SheetInfo",
    "cell_address",
    "cells_with_conversations",
    "column_letters",
    "column_number",
    "make_copy",
    "notes_of",
    "parse_range",
    "strip",
    "write_copy",
]
