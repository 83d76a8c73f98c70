"""Which column is which field: by its heading, where two fields fit by its values, and by the user's map before all."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from thermowell_index.heading_map import IGNORE, MappedHeading, SheetMap
from thermowell_index.ooxml import column_letters
from thermowell_index.reader.cells import Reading, read_length
from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import (
    LEAST_SCORE,
    Match,
    evidence_of,
    normal_words,
)
from thermowell_index.reader.layout import HeadingBlock
from thermowell_index.reader.neighbours import (
    HEADING_MAP,
    SUMMED,
    USUAL_MM,
    column_unit,
    hear_neighbours,
    sensor_lengths,
)
from thermowell_index.reader.sums import adds_up
from thermowell_index.reader.tag_columns import TagColumns, find_tag_columns, find_well_tags, hold_no_tags
from thermowell_index.table import CellState, ColumnRead, Field, Kind, TableRead
from thermowell_index.units import to_mm, unit_of_words

SAMPLE = 200
NEAR = 0.05
CLEAR_SHARE = 0.7
CLEAR_LEAD = 0.4
# Fields with a heading as general as "type": another field whose words the cells speak is the better reading.
GENERAL = frozenset({"instrument_type"})
THREAD_SIZES_MM = (6.0, 38.1)
# A second figure of these is never passed over, whatever stands beside their wording.
DECISIVE = frozenset({"overall_length", "bore_depth", "tip_thickness", "installed_length", "extension_length"})
# Lengths of the well and the sensor: no number can tell one of these from another.
ALIKE = frozenset({"overall_length", "bore_depth", "insertion_length", "probe_length"})


@dataclass(frozen=True, kw_only=True)
class Dictionary:
    """What the reader is told of the fields.

    Their entries, the plausible range of each length [mm], and for some fields whether words are of that field.
    """

    fields: Mapping[str, Field]
    fits_mm: Mapping[str, tuple[float, float]]
    known_words: Mapping[str, Callable[[Sequence[str]], bool]] = field(default_factory=dict)


def name_columns(
    table: TableRead,
    block: HeadingBlock,
    grid: Grid,
    dictionary: Dictionary,
    title_unit: str | None,
    mapped: SheetMap,
) -> TagColumns | None:
    """Fill a table's columns from its heading block; return where its tags stand, None where it has none."""
    claims = _user_claims(block, mapped)
    ignored = {column for column in block.texts if IGNORE in mapped and is_mapped(mapped[IGNORE], block, column)}
    waiting: dict[int, tuple[Match, ...]] = {}
    for column, found in block.candidates.items():
        if column in claims or column in ignored:
            continue
        rivals = tuple(match for match in found if match.score >= found[0].score - NEAR)
        if len(rivals) == 1:
            claims[column] = (rivals[0], "heading")
        else:
            waiting[column] = rivals
    for column, rivals in sorted(waiting.items(), key=lambda one: _alike(one[1]) > 1):
        _decide(column, rivals, claims, table, block, grid, dictionary, title_unit)
    rows = _sampled_rows(table, block, grid)
    _claim_by_words(claims, block, grid, dictionary, ignored, rows)
    hear_neighbours(claims, block, lambda column: _readings_below(table, block, grid, column))
    by_heading = {column: match.field for column, (match, why) in claims.items() if why != HEADING_MAP}
    for column in {*hold_no_tags(block, grid, by_heading, rows), *sensor_lengths(claims, block, dictionary.fields)}:
        del claims[column]
    well = find_well_tags(block, grid, {column: match.field for column, (match, _) in claims.items()}, rows)
    if well is not None:
        claims[well] = (Match("well_tag", 1.0, 0), "its values")
    tag = _find_tag(block, grid, claims, rows)
    claims = {column: claim for column, claim in claims.items() if tag is None or column not in tag.all_columns}
    _settle(claims, table, block, dictionary, lambda column: _filled(_readings_below(table, block, grid, column)))
    if tag is not None:
        table.tag_parts = tag.parts
        table.columns["tag"] = replace(
            _column_read("tag", tag.column, tag.why, block, dictionary), heading=_tag_heading(tag, block)
        )
    _take_units(table, mapped)
    used = {*claims, *waiting, *(tag.all_columns if tag else ()), *(tag.parts if tag else ())}
    table.unread += [(column, _heading(block, column)) for column in block.texts if column not in used]
    table.unread.sort()
    return tag or _well_tag(table)


def _read_as_type(claims: dict[int, tuple[Match, str]], tag: TagColumns | None) -> None:
    """Read a column headed as a tag, which says kinds of instruments beside the one of tags, as their type."""
    for column in [column for column, (match, _) in claims.items() if match.field == "tag"]:
        if tag is None or tag.why != "its values" or column in tag.parts:
            continue
        if "instrument_type" in {match.field for match, _ in claims.values()}:
            del claims[column]
        else:
            claims[column] = (Match("instrument_type", 1.0, 0), "its values")


def _claim_by_words(
    claims: dict[int, tuple[Match, str]],
    block: HeadingBlock,
    grid: Grid,
    dictionary: Dictionary,
    ignored: Collection[int],
    rows: Sequence[int],
) -> None:
    """Give a field that no heading names the column whose cells speak of nothing else."""
    for name, is_known in dictionary.known_words.items():
        if name in {match.field for match, _ in claims.values()}:
            continue
        free = [
            column
            for column in block.texts
            if column not in ignored and (column not in claims or _gives_way(*claims[column], dictionary))
        ]
        speaking = [column for column in free if is_known([text for row in rows if (text := grid.text(row, column))])]
        if len(speaking) == 1:
            claims[speaking[0]] = (Match(name, 1.0, 0), "its words")


def _gives_way(match: Match, why: str, dictionary: Dictionary) -> bool:
    """Whether another field whose words the cells speak is the better reading: a general heading, or a length's."""
    is_length = dictionary.fields[match.field].kind is Kind.LENGTH
    return why != HEADING_MAP and (match.field in GENERAL or is_length)


def _sampled_rows(table: TableRead, block: HeadingBlock, grid: Grid) -> list[int]:
    """Return the first rows of a table, its repeated headings left out."""
    last_row = min(block.data_row + SAMPLE - 1, table.last_row or grid.last_row)
    return [row for row in range(block.data_row, last_row + 1) if row not in table.repeated_headings]


def _take_units(table: TableRead, mapped: SheetMap) -> None:
    """Give the columns the units that the user's heading map states."""
    for name, wanted in mapped.items():
        read = table.columns.get(name)
        if read is not None and wanted.unit and read.why == HEADING_MAP:
            table.columns[name] = replace(read, unit=wanted.unit, unit_from=HEADING_MAP)


def _find_tag(
    block: HeadingBlock, grid: Grid, claims: dict[int, tuple[Match, str]], rows: Sequence[int]
) -> TagColumns | None:
    """Return the tag columns: the one that the user's map names, else what headings and values say."""
    for column, (match, why) in claims.items():
        if match.field == "tag" and why == HEADING_MAP:
            return TagColumns(parts=(column,), why=why)
    ranked = sorted(claims, key=lambda column: (-claims[column][0].score, claims[column][0].order, column))
    tag = find_tag_columns(block, grid, {column: claims[column][0].field for column in ranked}, rows)
    _read_as_type(claims, tag)
    return tag


def _well_tag(table: TableRead) -> TagColumns | None:
    """Return the column of well tags, by which the rows of a table of wells are known."""
    return TagColumns(parts=(table.columns["well_tag"].column,)) if "well_tag" in table.columns else None


def _tag_heading(tag: TagColumns, block: HeadingBlock) -> str:
    return " + ".join(dict.fromkeys(_heading(block, column) for column in tag.parts if column in block.texts))


def _heading(block: HeadingBlock, column: int) -> str:
    return " / ".join(dict.fromkeys(" ".join(text.split()) for text in block.texts.get(column, ())))


def _user_claims(block: HeadingBlock, mapped: SheetMap) -> dict[int, tuple[Match, str]]:
    """Return the columns that the user's heading map names, by heading text or by letter."""
    claims: dict[int, tuple[Match, str]] = {}
    for name, wanted in mapped.items():
        found = [column for column in block.texts if name != IGNORE and is_mapped(wanted, block, column)]
        claims.update({column: (Match(name, 2.0, 0), HEADING_MAP) for column in found[:1]})
    return claims


def is_mapped(wanted: MappedHeading, block: HeadingBlock, column: int) -> bool:
    """Whether an entry of the user's heading map means a column: by one of its texts, all of them, or its letter."""
    texts = block.texts[column]
    names = (*texts, " ".join(texts), " / ".join(texts), _heading(block, column), f"column {column_letters(column)}")
    return any(wanted.is_meant(name) for name in names)


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
    readings = _readings_below(table, block, grid, column)
    filled = _filled(readings)
    if _are_years(filled) and not {"LENGTH", "DEPTH"} & set(normal_words(_heading(block, column))):
        return
    shares = {match.field: _share(dictionary, match.field, filled, unit) for match in rivals}
    order = sorted(rivals, key=lambda match: -shares[match.field])
    best, second = shares[order[0].field], shares[order[1].field]
    if filled and best >= CLEAR_SHARE and best - second >= CLEAR_LEAD:
        claims[column] = (order[0], "its values, heading fits " + _in_words(rivals))
        return
    taken = {match.field for match, _ in claims.values()}
    free = [match for match in rivals if match.field not in taken]
    is_length = any(dictionary.fields[match.field].kind is Kind.LENGTH for match in rivals)
    if len(free) == 1 and _alike(rivals) <= 1 and shares[free[0].field] >= CLEAR_SHARE:
        claims[column] = (free[0], "the other field it fits has a column of its own")
    elif summed := _by_sum(column, free, claims, table, block, grid, title_unit):
        claims[column] = (summed, "its values: bore depth and tip are the overall length")
    elif not is_length:
        cells = [reading.text for reading in readings if reading.text]
        speaking = [match for match in rivals if dictionary.known_words.get(match.field, _no_words)(cells)]
        claims[column] = (speaking[0], "its words") if len(speaking) == 1 else (rivals[0], "heading")
    elif not filled and any(reading.text for reading in readings) and (words := _of_words(rivals, dictionary)):
        claims[column] = (words, "its cells, which say none or not known")
    elif any(reading.state is CellState.VALUE for reading in filled):
        table.undecided.append((column, _heading(block, column), tuple(match.field for match in free or rivals)))


YEARS = range(1950, 2050)
SOME_YEARS = 3


def _are_years(filled: Sequence[Reading]) -> bool:
    """Whether a column holds nothing but years, as one of dates of installation does."""
    return len(filled) >= SOME_YEARS and all(
        reading.number is not None and reading.unit is None and reading.number in YEARS for reading in filled
    )


def _no_words(_texts: Sequence[str]) -> bool:
    return False


def _in_words(rivals: Sequence[Match]) -> str:
    return " and ".join(match.field.replace("_", " ") for match in rivals)


def _alike(rivals: Sequence[Match]) -> int:
    """Return how many lengths that no number can tell apart are among the rivals."""
    return len(ALIKE & {match.field for match in rivals})


def _by_sum(
    column: int,
    free: Sequence[Match],
    claims: Mapping[int, tuple[Match, str]],
    table: TableRead,
    block: HeadingBlock,
    grid: Grid,
    title_unit: str | None,
) -> Match | None:
    """Return the field of a column by which the lengths of the well add up; None where none does."""
    rows = _sampled_rows(table, block, grid)
    known = {match.field: other for other, (match, _) in claims.items()}
    for match in free:
        if match.field in SUMMED:
            columns = {name: (other, column_unit(block, other)[0] or title_unit) for name, other in known.items()}
            columns[match.field] = (column, column_unit(block, column)[0] or title_unit)
            if adds_up(grid, columns, rows):
                return match
    return None


def _of_words(rivals: Sequence[Match], dictionary: Dictionary) -> Match | None:
    """Return the rival that is a field of words, None where there is none."""
    return next((match for match in rivals if dictionary.fields[match.field].kind is Kind.TEXT), None)


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
            is_number
            and reading.number is not None
            and fits(USUAL_MM.get(entry.name, fits_mm[entry.name]), reading.number, reading.unit or unit)
        )
    if entry.name == "length_unit":
        return unit_of_words(reading.text) is not None
    if entry.kind is Kind.SIZE and is_number and reading.number is not None:
        return fits(THREAD_SIZES_MM, reading.number, reading.unit or unit)
    is_unit = unit_of_words(reading.text) is not None and not any(mark.isdigit() for mark in reading.text)
    return not is_unit and (not is_number or entry.kind is not Kind.TEXT or entry.name == "area")


def fits(limits_mm: tuple[float, float], number: Fraction, unit: str | None) -> bool:
    """Whether a number lies in a range of lengths [mm]; without a unit, whether it does in inches or in mm."""
    units = (unit,) if unit else ("in", "mm")
    return any(limits_mm[0] <= to_mm(number, name) <= limits_mm[1] for name in units)


def _readings_below(table: TableRead, block: HeadingBlock, grid: Grid, column: int) -> list[Reading]:
    """Return the first cells of a column read as lengths."""
    return [read_length(grid.cell(row, column), grid.package) for row in _sampled_rows(table, block, grid)]


def _filled(readings: Sequence[Reading]) -> list[Reading]:
    return [reading for reading in readings if reading.state is not CellState.MISSING]


def _settle(
    claims: Mapping[int, tuple[Match, str]],
    table: TableRead,
    block: HeadingBlock,
    dictionary: Dictionary,
    lengths_below: Callable[[int], list[Reading]],
) -> None:
    """Give each field its best column; a second length column is kept for comparison.

    Of the lengths that decide a bore depth that is any other column whose heading has their wording and whose cells
    could be such a length; of the others one of equal standing.
    """
    by_field: dict[str, list[int]] = {}
    for column in sorted(claims, key=lambda column: _standing(column, claims, block, dictionary)):
        by_field.setdefault(claims[column][0].field, []).append(column)
    for name, columns in by_field.items():
        reads = [_column_read(name, column, claims[column][1], block, dictionary) for column in columns]
        best = claims[columns[0]][0].score
        if best >= LEAST_SCORE:
            table.columns[name] = reads[0]
        is_length = dictionary.fields[name].kind is Kind.LENGTH
        for read in reads[1 if best >= LEAST_SCORE else 0 :]:
            rival = claims[read.column][0].score >= best - NEAR or (
                (name in DECISIVE or read.evidence == "measured")
                and _share(dictionary, name, lengths_below(read.column), read.unit) >= CLEAR_SHARE
            )
            if is_length and rival and name in table.columns and table.columns[name].why != HEADING_MAP:
                table.second_columns.append(replace(read, why="a second column for the same field"))
            else:
                table.unread.append((read.column, read.heading))


def _standing(
    column: int, claims: Mapping[int, tuple[Match, str]], block: HeadingBlock, dictionary: Dictionary
) -> tuple[bool, float, bool, int, int]:
    """Return what puts the columns of one field in order: one of measured lengths is never the first of several."""
    match, why = claims[column]
    is_length = dictionary.fields[match.field].kind is Kind.LENGTH
    is_measured = is_length and evidence_of(block.texts.get(column, ())) == "measured" and why != HEADING_MAP
    return is_measured, -match.score, is_length and column_unit(block, column)[0] is None, match.order, column


def _column_read(field: str, column: int, why: str, block: HeadingBlock, dictionary: Dictionary) -> ColumnRead:
    unit, unit_from = column_unit(block, column)
    has_unit = dictionary.fields[field].kind is Kind.LENGTH
    return ColumnRead(
        field=field,
        column=column,
        heading=_heading(block, column),
        unit=unit if has_unit else None,
        unit_from=unit_from if has_unit else "",
        why=why,
        evidence=evidence_of(block.texts.get(column, ())) if has_unit else "",
    )
