"""Which column is which field: by its heading, where two fields fit by its values, and by the user's map before all."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from thermowell_index.reader.cells import Reading, read_length
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import Match
from thermowell_index.reader.layout import HeadingBlock
from thermowell_index.table import CellState, ColumnRead, Field, Kind, TableRead
from thermowell_index.units import to_mm, unit_of_words

SAMPLE = 200
NEAR = 0.05
CLEAR_SHARE = 0.7
CLEAR_LEAD = 0.4
# Plain words for a length of the well or the sensor: no number can tell one of these from another.
ALIKE = frozenset({"overall_length", "bore_depth", "insertion_length", "probe_length"})


@dataclass(frozen=True, kw_only=True)
class Dictionary:
    """What the reader is told of the fields: their entries, and the plausible range of each length [mm]."""

    fields: Mapping[str, Field]
    fits_mm: Mapping[str, tuple[float, float]]


def name_columns(
    table: TableRead,
    block: HeadingBlock,
    grid: Grid,
    dictionary: Dictionary,
    title_unit: str | None,
    mapped: Mapping[str, str],
) -> None:
    """Fill a table's columns from its heading block."""
    for column, texts in block.texts.items():
        if column not in block.candidates:
            table.unread.append((column, " / ".join(dict.fromkeys(texts))))
    claims = _user_claims(block, mapped)
    waiting: dict[int, tuple[Match, ...]] = {}
    for column, found in block.candidates.items():
        if column in claims:
            continue
        rivals = tuple(match for match in found if match.score >= found[0].score - NEAR)
        if len(rivals) == 1:
            claims[column] = (rivals[0], "heading")
        else:
            waiting[column] = rivals
    for column, rivals in waiting.items():
        _decide(column, rivals, claims, table, block, grid, dictionary, title_unit)
    _settle(claims, table, block, dictionary)


def _user_claims(block: HeadingBlock, mapped: Mapping[str, str]) -> dict[int, tuple[Match, str]]:
    """Return the columns that the user's heading map names, by heading text or by letter."""
    claims: dict[int, tuple[Match, str]] = {}
    for field, wanted in mapped.items():
        for column, texts in block.texts.items():
            headings = {_folded(text) for text in (*texts, " ".join(texts), " / ".join(texts))}
            if _folded(wanted) in headings or wanted.upper() == f"COLUMN {_letters(column)}":
                claims[column] = (Match(field, 2.0, 0), "heading map")
                break
    return claims


def _folded(text: str) -> str:
    return " ".join(text.split()).upper()


def _letters(column: int) -> str:
    first, rest = divmod(column - 1, 26)
    return (_letters(first) if first else "") + chr(65 + rest)


def _decide(
    column: int,
    rivals: Sequence[Match],
    claims: dict[int, tuple[Match, str]],
    table: TableRead,
    block: HeadingBlock,
    grid: Grid,
    dictionary: Dictionary,
    title_unit: str | None,
) -> None:
    """Let a column's values decide between the fields its heading fits; undecided it is read as none of them."""
    unit = column_unit(block, column)[0] or title_unit
    sample = [grid.cell(row, column) for row in range(block.data_row, min(block.data_row + SAMPLE, grid.last_row + 1))]
    readings = [read_length(cell, grid.package) for cell in sample]
    filled = [reading for reading in readings if reading.state is not CellState.MISSING]
    shares = {match.field: _share(dictionary, match.field, filled, unit) for match in rivals}
    order = sorted(rivals, key=lambda match: -shares[match.field])
    best, second = shares[order[0].field], shares[order[1].field]
    if filled and best >= CLEAR_SHARE and best - second >= CLEAR_LEAD:
        claims[column] = (order[0], "its values, heading fits " + " and ".join(match.field for match in rivals))
        return
    taken = {match.field for match, _ in claims.values()}
    free = [match for match in rivals if match.field not in taken]
    is_length = any(dictionary.fields[match.field].kind is Kind.LENGTH for match in rivals)
    if len(free) == 1 and len(ALIKE & {match.field for match in rivals}) <= 1 and shares[free[0].field] >= CLEAR_SHARE:
        claims[column] = (free[0], "the other field it fits has a column of its own")
    elif not is_length:
        claims[column] = (rivals[0], "heading")
    elif filled:
        heading = " / ".join(dict.fromkeys(block.texts[column]))
        table.undecided.append((column, heading, tuple(match.field for match in rivals)))


def _share(dictionary: Dictionary, field: str, filled: Sequence[Reading], unit: str | None) -> float:
    """Return the share of filled cells that could be values of a field."""
    if not filled:
        return 0.0
    entry = dictionary.fields[field]
    return sum(_could_be(entry, reading, unit, dictionary.fits_mm) for reading in filled) / len(filled)


def _could_be(entry: Field, reading: Reading, unit: str | None, fits_mm: Mapping[str, tuple[float, float]]) -> bool:
    is_number = reading.state is CellState.VALUE
    if entry.kind is Kind.LENGTH:
        return (
            is_number and reading.number is not None and fits(fits_mm[entry.name], reading.number, reading.unit or unit)
        )
    if entry.name == "length_unit":
        return unit_of_words(reading.text) is not None
    is_unit = unit_of_words(reading.text) is not None and not any(mark.isdigit() for mark in reading.text)
    return not is_unit and (not is_number or entry.kind is not Kind.TEXT or entry.name == "area")


def fits(limits_mm: tuple[float, float], number: Fraction, unit: str | None) -> bool:
    """Whether a number lies in a range of lengths [mm]; without a unit, whether it does in inches or in mm."""
    units = (unit,) if unit else ("in", "mm")
    return any(limits_mm[0] <= to_mm(number, name) <= limits_mm[1] for name in units)


def column_unit(block: HeadingBlock, column: int) -> tuple[str | None, str]:
    """Return the unit that a column declares and where: its row of units, else its heading, lowest row first."""
    if column in block.units:
        return block.units[column], "row of units"
    for text in reversed(block.texts.get(column, ())):
        unit = unit_of_words(text)
        if unit:
            return unit, "heading"
    return None, ""


def _settle(
    claims: Mapping[int, tuple[Match, str]], table: TableRead, block: HeadingBlock, dictionary: Dictionary
) -> None:
    """Give each field its best column; a second length column of equal standing is kept for comparison."""
    by_field: dict[str, list[int]] = {}
    for column in sorted(claims, key=lambda column: (-claims[column][0].score, claims[column][0].order, column)):
        by_field.setdefault(claims[column][0].field, []).append(column)
    for field, columns in by_field.items():
        reads = [_column_read(field, column, claims[column][1], block, dictionary) for column in columns]
        table.columns[field] = reads[0]
        is_length = dictionary.fields[field].kind is Kind.LENGTH
        for read in reads[1:]:
            rival = claims[read.column][0].score >= claims[columns[0]][0].score - NEAR
            if is_length and rival and field not in table.second_columns and claims[columns[0]][1] != "heading map":
                table.second_columns[field] = replace(read, why="a second column for the same field")
            else:
                table.unread.append((read.column, read.heading))


def _column_read(field: str, column: int, why: str, block: HeadingBlock, dictionary: Dictionary) -> ColumnRead:
    unit, unit_from = column_unit(block, column)
    has_unit = dictionary.fields[field].kind is Kind.LENGTH
    return ColumnRead(
        field=field,
        column=column,
        heading=" / ".join(dict.fromkeys(" ".join(text.split()) for text in block.texts[column])),
        unit=unit if has_unit else None,
        unit_from=unit_from if has_unit else "",
        why=why,
    )


def field_names(matches: Iterable[Match]) -> tuple[str, ...]:
    """Return the names of the fields of some matches."""
    return tuple(match.field for match in matches)
