"""A workbook as a package of parts: opened behind a guard, read sheet by sheet, never written to."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from types import TracebackType
from typing import Self
from zipfile import ZipFile, ZipInfo

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml.addresses import parse_range
from thermowell_index.ooxml.cells import Range, SheetCells, read_cells
from thermowell_index.ooxml.guard import digest, open_package, read_file, read_member
from thermowell_index.ooxml.markup import Element, is_true, parse
from thermowell_index.ooxml.relationships import Relationship, read_relationships, relationships_part
from thermowell_index.ooxml.style_table import StyleTable, read_style_table
from thermowell_index.ooxml.texts import Text, read_shared_strings


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetInfo:
    """One tab of a workbook: ``state`` is visible, hidden or veryHidden; ``kind`` worksheet, chartsheet ..."""

    name: str
    part: str
    state: str
    kind: str


class Package:
    """A workbook that can be read; use it as a context manager.

    The file is taken into memory at once: what is read, and its digest, stay true when it changes on disk.
    """

    def __init__(self, data: bytes, path: Path) -> None:
        self.path = path
        self.data = data
        self.sha256 = digest(data)
        self._archive: ZipFile = open_package(data, path)
        self.part_names: tuple[str, ...] = tuple(self._archive.namelist())
        self._spelling = {name.lower(): name for name in self.part_names}
        self.workbook_part = self._find_workbook()
        self.sheets: tuple[SheetInfo, ...] = self._read_sheets()
        self._read: dict[str, SheetCells] = {}

    @classmethod
    def open(cls, path: Path) -> "Package":
        """Open a workbook file.

        Raises
        ------
        WorkbookError
            When it cannot be read, is no .xlsx workbook, is encrypted, or looks made to do harm.
        """
        return cls(read_file(path), path)

    @classmethod
    def from_bytes(cls, data: bytes, path: Path) -> "Package":
        """Open a workbook that is in memory; ``path`` is what messages call it.

        Raises
        ------
        WorkbookError
            As ``open``.
        """
        return cls(data, path)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the package."""
        self._archive.close()

    def read(self, sheet_name: str) -> SheetCells:
        """Read one sheet; asked for again, the same cells are given.

        Raises
        ------
        WorkbookError
            When there is no such sheet, it is no worksheet, or it is damaged.
        """
        if sheet_name not in self._read:
            self._read[sheet_name] = self._read_sheet(self.sheet(sheet_name))
        return self._read[sheet_name]

    def _read_sheet(self, sheet: SheetInfo) -> SheetCells:
        if sheet.kind != "worksheet":
            raise WorkbookError(f"{self.path}: the sheet {sheet.name!r} is a {sheet.kind}; it has no cells")
        return read_cells(
            self.part(sheet.part),
            strings=self._shared_strings,
            struck=self._style_table.struck,
            tables=self._tables(sheet.part),
            where=f"{self.path}: sheet {sheet.name!r}",
        )

    def number_format(self, style: int) -> str:
        """Look up the number format code of a style."""
        return self._style_table.number_format(style)

    def is_date(self, style: int) -> bool:
        """Whether a style shows a number as a date or a time."""
        return style in self._style_table.dates

    def is_struck(self, style: int) -> bool:
        """Whether the font of a style is struck out."""
        return style in self._style_table.struck

    def fill(self, style: int) -> str | None:
        """Colour of a solid fill as AARRGGBB; None without one, or when it is a colour of the theme."""
        return self._style_table.fills.get(style)

    @cached_property
    def defined_names(self) -> Mapping[str, str]:
        """Reference of each name that holds for the whole workbook."""
        names = self.workbook.find("definedNames")
        if names is None:
            return {}
        return {
            entry.attributes.get("name", ""): entry.text.strip()
            for entry in names.all("definedName")
            if "localSheetId" not in entry.attributes
        }

    @cached_property
    def date_1904(self) -> bool:
        """Whether days are counted from 1904."""
        properties = self.workbook.find("workbookPr")
        return properties is not None and is_true(properties.attributes.get("date1904"))

    @cached_property
    def workbook(self) -> Element:
        """The workbook part, parsed."""
        return parse(self.part(self.workbook_part), self.where(self.workbook_part))

    def sheet(self, name: str) -> SheetInfo:
        """Tab of that name.

        Raises
        ------
        WorkbookError
            When there is none.
        """
        for sheet in self.sheets:
            if sheet.name == name:
                return sheet
        raise WorkbookError(f"{self.path}: has no sheet {name!r}")

    def members(self) -> list[ZipInfo]:
        """List the members of the package in their order."""
        return self._archive.infolist()

    def has_part(self, name: str) -> bool:
        """Whether the package holds a part."""
        return name.lower() in self._spelling

    def spelling(self, name: str) -> str:
        """Name of a part as the package spells it; part names do not tell capitals from small letters."""
        return self._spelling.get(name.lower(), name)

    def part(self, name: str) -> bytes:
        """Bytes of a part.

        Raises
        ------
        WorkbookError
            When it is not there or damaged.
        """
        spelling = self._spelling.get(name.lower())
        if spelling is None:
            raise WorkbookError(f"{self.path}: the part {name!r} is missing")
        return read_member(self._archive, spelling, self.path)

    def where(self, part: str) -> str:
        """Name a part in messages."""
        return f"{self.path}: {part}"

    def relationships(self, part: str) -> tuple[Relationship, ...]:
        """List the references of a part; '' stands for the package itself."""
        name = relationships_part(part)
        if not self.has_part(name):
            return ()
        return read_relationships(self.part(name), part, self.where(name))

    def target(self, part: str, kind: str) -> str | None:
        """Part that a part refers to by a relationship of that kind."""
        for relationship in self.relationships(part):
            if relationship.kind == kind and not relationship.is_external and self.has_part(relationship.target):
                return relationship.target
        return None

    def _find_workbook(self) -> str:
        found = self.target("", "officeDocument")
        if found is None:
            raise WorkbookError(f"{self.path}: is not an .xlsx workbook (it has no workbook part)")
        if found.endswith(".bin"):
            raise WorkbookError(f"{self.path}: is a binary workbook (.xlsb); save it as .xlsx")
        return found

    def _read_sheets(self) -> tuple[SheetInfo, ...]:
        if self.workbook.name != "workbook":
            raise WorkbookError(f"{self.path}: is not an .xlsx workbook (its main part is a {self.workbook.name})")
        listed = self.workbook.find("sheets")
        targets = {relationship.identifier: relationship for relationship in self.relationships(self.workbook_part)}
        found = []
        for entry in [] if listed is None else listed.all("sheet"):
            relationship = targets.get(entry.relation_id or "")
            if relationship is None or not self.has_part(relationship.target):
                raise WorkbookError(f"{self.path}: the sheet {entry.attributes.get('name')!r} has no part")
            found.append(
                SheetInfo(
                    name=entry.attributes.get("name", ""),
                    part=relationship.target,
                    state=entry.attributes.get("state", "visible"),
                    kind=relationship.kind,
                )
            )
        if not found:
            raise WorkbookError(f"{self.path}: has no sheets")
        return tuple(found)

    @cached_property
    def _shared_strings(self) -> list[Text]:
        part = self.target(self.workbook_part, "sharedStrings")
        return [] if part is None else read_shared_strings(self.part(part), self.where(part))

    @cached_property
    def _style_table(self) -> StyleTable:
        part = self.target(self.workbook_part, "styles")
        return StyleTable() if part is None else read_style_table(self.part(part), self.where(part))

    def _tables(self, part: str) -> tuple[Range, ...]:
        found = []
        for relationship in self.relationships(part):
            if relationship.kind == "table" and self.has_part(relationship.target):
                root = parse(self.part(relationship.target), self.where(relationship.target))
                try:
                    found.append(parse_range(root.attributes.get("ref", "")))
                except ValueError as error:
                    raise WorkbookError(f"{self.where(relationship.target)}: {error}") from error
        return tuple(found)
