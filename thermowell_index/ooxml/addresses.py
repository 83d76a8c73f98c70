"""Cell addresses: the letters and numbers of a sheet, counted from 1."""

import re

LAST_ROW = 1_048_576
LAST_COLUMN = 16_384

_CORNER = re.compile(r"\$?([A-Za-z]{1,3})?\$?([0-9]{1,7})?")


def column_letters(number: int) -> str:
    """Spell the column number in letters.

    Examples
    --------
    >>> column_letters(28)
    'AB'
    """
    letters = ""
    while number:
        number, rest = divmod(number - 1, 26)
        letters = chr(65 + rest) + letters
    return letters


def column_number(letters: str) -> int:
    """Count the column that letters name.

    Raises
    ------
    ValueError
        When the letters name no column of a sheet.

    Examples
    --------
    >>> column_number("AB")
    28
    """
    number = 0
    for letter in letters.upper():
        if not "A" <= letter <= "Z":
            raise ValueError(f"{letters!r} names no column")
        number = number * 26 + ord(letter) - 64
    if not 1 <= number <= LAST_COLUMN:
        raise ValueError(f"{letters!r} names no column")
    return number


def cell_address(row: int, column: int) -> str:
    """Spell the address of a cell.

    Examples
    --------
    >>> cell_address(12, 6)
    'F12'
    """
    return f"{column_letters(column)}{row}"


def parse_range(text: str) -> tuple[int, int, int, int]:
    """First row, first column, last row and last column of a range; a bare corner is its own range.

    Raises
    ------
    ValueError
        When the text is no range of a sheet.

    Examples
    --------
    >>> parse_range("A1:C3")
    (1, 1, 3, 3)
    >>> parse_range("$B:$C")
    (1, 2, 1048576, 3)
    """
    first, _, last = text.strip().partition(":")
    top, left = _corner(first, 1, 1)
    bottom, right = _corner(last or first, LAST_ROW, LAST_COLUMN)
    return min(top, bottom), min(left, right), max(top, bottom), max(left, right)


def _corner(text: str, row: int, column: int) -> tuple[int, int]:
    """Row and column of one corner; what it leaves out is the given edge of the sheet."""
    match = _CORNER.fullmatch(text)
    if match is None or not text.strip("$"):
        raise ValueError(f"{text!r} is no cell address")
    letters, digits = match.groups()
    if digits is not None:
        row = int(digits)
    if letters is not None:
        column = column_number(letters)
    if not 1 <= row <= LAST_ROW:
        raise ValueError(f"{text!r} is no cell address")
    return row, column
