"""What a user's heading map says: which headings or column letters are which field, and which columns to leave alone.

A map is sheet name -> field -> `MappedHeading`; the sheet `*` stands for every sheet, the field `ignore` for columns
that are not to be read.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TypeAlias

ANY_SHEET = "*"
IGNORE = "ignore"


@dataclass(frozen=True, kw_only=True)
class MappedHeading:
    """The headings (or `column X`) of one field, any of which will do, and the unit where the user states it."""

    headings: tuple[str, ...]
    unit: str | None = None

    def is_meant(self, heading: str) -> bool:
        """Whether a heading, or `column X`, is one of these; blanks and case make no difference."""
        return folded(heading) in {folded(wanted) for wanted in self.headings}


SheetMap: TypeAlias = Mapping[str, MappedHeading]
HeadingMap: TypeAlias = Mapping[str, SheetMap]


def folded(heading: str) -> str:
    """Return a heading as it is compared: capitals, blanks single."""
    return " ".join(heading.split()).upper()
