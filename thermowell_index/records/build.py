"""All that is made of the cells before they are checked and sized, in order."""

import re

import numpy as np

from thermowell_index.basis import Basis
from thermowell_index.records.assembly import add_arrangement, add_extension_lengths, add_mounting
from thermowell_index.records.chain_inputs import (
    add_bore,
    add_evidence,
    add_installed_length,
    add_needed,
    add_threads,
)
from thermowell_index.records.din_wells import add_tubes
from thermowell_index.records.growth import add_growth
from thermowell_index.records.joining import join_wells
from thermowell_index.records.old_sensor import add_old_sensor, take_in_kind
from thermowell_index.records.points import add_tag_parts, judge_points
from thermowell_index.records.profiles import add_constants, add_maker_length, add_profile
from thermowell_index.records.ranges import carry_ranges
from thermowell_index.records.words import DUPLEX, ON_HOLD, cells_say, confirms, folded, says
from thermowell_index.table import IndexTable

PIECES = r"X|OFF|EA(?:CH)?|PCS?|PIECES?|NOS?|UNITS?|SETS?|STU?E?CK|STK|ST|PZ|PZAS?|UDS?|UN|STUKS?"
NUMBERS = ("ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX", "SEVEN", "EIGHT", "NINE", "TEN")
COUNT = rf"\d{{1,4}}(?:[.,]0+)?|{'|'.join(NUMBERS)}"
COUNTED = rf"(?:(?:QTY|QUANTITY|X|NO)\b[.: ]*)?X?(?P<count>{COUNT})(?: ?\((?P<again>{COUNT})\))?(?: ?(?:{PIECES}))?"
SPARES_IN_IT = rf" ?\(?(?:INCL(?:\.|UDING|UDES)?|OF WHICH) ?(?:{COUNT})? ?SPARES?\)?"
SPARES_ON_TOP = r" ?\(?SPARES?\)?"
NONE_WANTED = r"N|NO|NONE|NIL|ZERO|NEIN|KEINE?|NON|NEE|NAO|FALSE|NOT? (?:REQUIRED|REQ'?D|WANTED|NEEDED|ORDER)"


def build_records(table: IndexTable, basis: Basis) -> None:
    """Complete a read table in place: who is who, what joins to what, and every input of the sizing."""
    frame = table.frame
    add_tag_parts(frame)
    _know_lists_of_wells(table)
    judge_points(frame)
    join_wells(frame)
    add_mounting(table, basis)
    add_arrangement(table, basis)
    add_extension_lengths(frame, basis)
    add_tubes(frame)
    table.frame = frame = frame.copy()  # one block again after many new columns
    add_threads(frame, basis)
    add_evidence(table)
    add_bore(frame, basis)
    add_installed_length(frame, basis)
    add_profile(frame, basis)
    add_constants(frame, basis)
    add_needed(frame)
    add_growth(table)
    add_maker_length(frame)
    add_old_sensor(frame, basis)
    carry_ranges(frame, basis)
    take_in_kind(frame, basis)
    _add_quantity(table)
    frame["is_on_hold"] = cells_say(rf"\b(?:{ON_HOLD})\b", frame["row_status"])
    if "length_when_ordered_mm" not in frame:
        frame["length_when_ordered_mm"] = frame["ordered_length_mm"]
    if "slid_since" not in frame:
        frame["slid_since"] = ""
    table.frame = frame.copy()


def _know_lists_of_wells(table: IndexTable) -> None:
    """Take the rows of a list that has tags of wells alone as wells, whatever their letters are, save for elements."""
    of_wells = [
        number for number, read in table.tables.items() if "well_tag" in read.columns and "tag" not in read.columns
    ]
    frame = table.frame
    frame.loc[frame["table_id"].isin(of_wells) & (frame["role"] != "element"), "role"] = "well"


def _add_quantity(table: IndexTable) -> None:
    """Add how many sensors a row wants: the number stated, else one, or one for each twin that is not duplex."""
    frame = table.frame
    numbers = [_whole_number(text) for text in frame["quantity_wanted"]]
    duplex = frame["element_count"].map(lambda text: says(DUPLEX, str(text))) | frame["sensor_type"].map(
        lambda text: says("DUPLEX|DUAL|DOPPEL", str(text))
    )
    frame["quantity_unread"] = [
        number is None and bool(str(text).strip()) and not confirms(str(text))
        for number, text in zip(numbers, frame["quantity_wanted"], strict=True)
    ]
    frame["quantity_is_stated"] = [number is not None for number in numbers]
    frame["is_duplex"] = duplex
    twins = np.where(duplex, 1, frame["twins"])
    frame["quantity"] = [int(twin) if number is None else number for number, twin in zip(numbers, twins, strict=True)]


def _whole_number(text: str) -> int | None:
    """Return the count that a cell states: `2 off`, `two (2)`, `1 + 1 spare`; nought for a no, None for no number."""
    plain = folded(str(text)).strip(" .")
    if re.fullmatch(NONE_WANTED, plain):
        return 0
    counts = [_count(part.strip(), is_added=number > 0) for number, part in enumerate(plain.split("+"))]
    return None if None in counts else sum(count or 0 for count in counts)


def _count(plain: str, *, is_added: bool) -> int | None:
    """Return one count, spares that are in it told or not; one that is added may be of spares."""
    match = re.fullmatch(rf"{COUNTED}(?:{SPARES_ON_TOP if is_added else SPARES_IN_IT})?", plain)
    if not match:
        return None
    count = _number(match["count"])
    return count if match["again"] is None or _number(match["again"]) == count else None


def _number(word: str) -> int:
    return NUMBERS.index(word) + 1 if word in NUMBERS else int(re.split("[.,]", word)[0])
