"""What a column's neighbours say of it: the letter beside another, the group that two columns share."""

import re
from collections.abc import Callable, Mapping, Sequence

from thermowell_index.reader.cells import Reading
from thermowell_index.reader.headings import Match, is_under_a_sensor, normal_words, spelt_apart
from thermowell_index.reader.layout import HeadingBlock
from thermowell_index.reader.vocabulary import OTHER_THINGS
from thermowell_index.table import Field
from thermowell_index.units import to_mm, unit_of_words

HEADING_MAP = "heading map"
# How large most of them are [mm]: narrower than what is possible, to tell two fields of one wording apart. Common
# practice, no source.
USUAL_MM = {"tip_thickness": (1.0, 10.2), "tip_diameter": (8.9, 80.0)}
SUMMED = frozenset({"overall_length", "bore_depth"})
LAGGING, INSTALLED = "lagging_length", "installed_length"
CONNECTION, THREAD = "well_connection", "instrument_thread"
# Threads that hold a sensor, by their usual sizes: common practice, no source.
OF_SENSOR_SIZE = re.compile(
    r"(?:G|RP?|RC|BSPP?|BSPT) ?[13]/[24] ?[AB]?|[13]/[24] ?(?:\"|''|IN\.?)? ?-?(?:NPT|BSPP?|BSPT)(?: ?\(?[MF]\)?)?"
    r"|M(?:14|18|20|22|24) ?[X\u00d7] ?[12](?:[.,]5)?",
    re.IGNORECASE,
)
OF_ANOTHER_THREAD = frozenset({"ENTRY", "PROCESS", "EXTENSION", "NIPPLE", "HEAD", "NECK", "FLANGE"})
OF_A_PROCESS = re.compile(
    r"\b(?:NPT|BSPT?|FL(?:A?N)?G\w*|FLANSCH|BRIDE|BRIDA|RF|RTJ|FF|SW|BW|WELD\w*|G ?\d|RC? ?\d|M\d+|PN ?\d+|DN ?\d+)"
    r"|\d ?#",
    re.IGNORECASE,
)
# The usual thread of an instrument: common practice, no source.
OF_AN_INSTRUMENT = re.compile(r"(?<![\d-])1/2 ?(?:\"|''|IN\b\.?)? ?-?(?:NPT|BSP)", re.IGNORECASE)
Claims = dict[int, tuple[Match, str]]


def column_unit(block: HeadingBlock, column: int) -> tuple[str | None, str]:
    """Return the unit that a column declares and where: its row of units, else its heading, lowest row first."""
    if column in block.units:
        return block.units[column], "row of units"
    for text in reversed(block.texts.get(column, ())):
        unit = unit_of_words(spelt_apart(text))
        if unit:
            return unit, "heading"
    return None, ""


def hear_neighbours(claims: Claims, block: HeadingBlock, lengths_below: Callable[[int], Sequence[Reading]]) -> None:
    """Claim what only the columns beside it tell: the letter T beside U, an installed length beside the extension.

    A connection without a word for whose it is, is the well's where its cells are no thread of an instrument alone.
    """
    fields = {match.field for match, _ in claims.values()}
    if CONNECTION not in fields:
        _claim_connection(claims, block, lengths_below)
    if THREAD not in fields:
        _claim_thread(claims, block, lengths_below)
    if LAGGING not in fields:
        _claim_lagging(claims, block, lengths_below)
    if INSTALLED not in fields:
        _claim_installed(claims, block)


def _claim_connection(claims: Claims, block: HeadingBlock, cells_below: Callable[[int], Sequence[Reading]]) -> None:
    for column, texts in block.texts.items():
        if column not in claims and normal_words(texts[-1]) == ("CONNECTION",):
            cells = [reading.text for reading in cells_below(column) if reading.text]
            speaking = [text for text in cells if OF_A_PROCESS.search(text)]
            if cells and len(speaking) == len(cells) and any(not OF_AN_INSTRUMENT.search(text) for text in cells):
                claims[column] = (Match(CONNECTION, 1.0, 0), "its words")
                return


def _claim_thread(claims: Claims, block: HeadingBlock, cells_below: Callable[[int], Sequence[Reading]]) -> None:
    """Give the instrument's thread the one column of threads of its sizes, not all taper, whatever its heading."""
    found = []
    for column, texts in block.texts.items():
        words = {word for text in texts for word in normal_words(text)}
        if column not in claims and not words & (OTHER_THINGS | OF_ANOTHER_THREAD):
            cells = [reading.text for reading in cells_below(column) if reading.text]
            if cells and all(OF_SENSOR_SIZE.fullmatch(text.strip()) for text in cells):
                found += [column] if any("NPT" not in text.upper() for text in cells) else []
    if len(found) == 1:
        claims[found[0]] = (Match(THREAD, 1.0, 0), "its values")


def _claim_lagging(claims: Claims, block: HeadingBlock, lengths_below: Callable[[int], Sequence[Reading]]) -> None:
    """Give lagging lengths the column T beside a column U, where its heading has a unit and no tip is that thick."""
    letters = {column: normal_words(" ".join(texts)) for column, texts in block.texts.items()}
    if not any(letters.get(column) == ("U",) for column in claims):
        return
    for column, words in letters.items():
        unit = column_unit(block, column)[0]
        if words == ("T",) and unit and column not in claims:
            numbers = [reading.number for reading in lengths_below(column) if reading.number]
            if numbers and all(to_mm(number, unit) > USUAL_MM["tip_thickness"][1] for number in numbers):
                claims[column] = (Match(LAGGING, 1.0, 0), "the letter beside U")


def _claim_installed(claims: Claims, block: HeadingBlock) -> None:
    """Give the extension's installed length what a sensor's group heading took for its probe, beside the extension."""
    groups = {column: block.texts.get(column, ())[:-1] for column in claims}
    extended = {groups[column] for column, (match, _) in claims.items() if match.field == "extension_arrangement"}
    for column, (match, why) in claims.items():
        lowest = normal_words(block.texts[column][-1]) if block.texts.get(column) else ()
        is_beside = groups[column] in extended and lowest in {("INSTALLED", "LENGTH"), ("INSTALLED",)}
        if match.field == "probe_length" and is_beside and why != HEADING_MAP:
            claims[column] = (Match(INSTALLED, match.score, 0), "beside the extension")
            return


def sensor_lengths(
    claims: Mapping[int, tuple[Match, str]], block: HeadingBlock, fields: Mapping[str, Field]
) -> list[int]:
    """Return the columns of overall lengths under a sensor's group heading that has nothing of a well."""
    groups = {column: block.texts.get(column, ())[:-1] for column in claims}
    of_wells = {
        groups[column]
        for column, (match, _) in claims.items()
        if match.field not in SUMMED and fields[match.field].group == "well"
    }
    return [
        column
        for column, (match, why) in claims.items()
        if match.field == "overall_length"
        and why != HEADING_MAP
        and groups[column] not in of_wells
        and is_under_a_sensor(block.texts.get(column, ()))
    ]
