"""Looks put on cells: each is made once and copied, for openpyxl compares fonts and borders anew for every cell."""

from collections.abc import Mapping
from copy import copy
from typing import Any

from openpyxl.cell.cell import Cell, MergedCell


class Looks:
    """The looks that the cells of one workbook bear; fonts, borders and the like must be kept by who hands them in."""

    def __init__(self) -> None:
        self._made: dict[tuple[object, ...], tuple[Any, Mapping[str, object]]] = {}

    def put_on(self, cell: Cell | MergedCell, **look: object) -> None:
        """Give a cell its font, border, alignment, fill or number format; what is not named stays as it is."""
        dressed: Any = cell  # openpyxl has no public way to a look as a whole
        before = dressed._style  # noqa: SLF001 - as above
        key = (None if before is None else tuple(before), *((name, id(part)) for name, part in look.items()))
        if key in self._made:
            dressed._style = copy(self._made[key][0])  # noqa: SLF001 - as above
            return
        for name, part in look.items():
            setattr(cell, name, part)
        self._made[key] = copy(dressed._style), look  # noqa: SLF001 - as above; the parts live on, so no id is reused
