"""What is to be added to a sheet."""

from dataclasses import dataclass, field

Address = tuple[int, int]
"""Row and column, from 1."""

Value = str | float | bool | None
"""What a cell can hold."""


@dataclass(frozen=True, kw_only=True)
class CellLook:
    """How a new cell looks: like another cell of the sheet, with what is given here changed.

    ``like`` may name a cell that does not exist: its row's or column's look is taken. ``fill`` is AARRGGBB.
    ``is_unstruck`` takes a line through the text away.
    """

    like: Address | None = None
    number_format: str | None = None
    fill: str | None = None
    bold: bool | None = None
    wrap: bool | None = None
    horizontal: str | None = None
    vertical: str | None = None
    is_unstruck: bool = False


@dataclass(frozen=True, kw_only=True)
class NewCell:
    """A cell to be added; ``link`` is a place in the workbook that it leads to, as ``'Sheet'!A1``."""

    value: Value
    look: CellLook = CellLook()
    link: str | None = None


@dataclass(kw_only=True)
class SheetEdit:
    """All that is to be added to one sheet.

    Attributes
    ----------
    cells
        New cells, where no cell holds a value.
    fills
        Colour (AARRGGBB) over whatever look a cell has.
    notes
        Text of a note; it is appended to a note that stands there. A cell with a threaded comment is left alone.
    widths
        Column width in characters; columns that hold something already keep theirs.
    """

    cells: dict[Address, NewCell] = field(default_factory=dict)
    fills: dict[Address, str] = field(default_factory=dict)
    notes: dict[Address, str] = field(default_factory=dict)
    widths: dict[int, float] = field(default_factory=dict)
