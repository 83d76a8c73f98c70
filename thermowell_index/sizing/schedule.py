"""The order schedule: identical sensors and parts grouped, counted and named, and what is held back.

Two sensors are identical when everything a buyer would state is the same: mounting, plane, ordered length, the unit the
length is exact in, sheath diameter, sensor type, element count, sheath material and mounting thread.
"""

import math
import re
from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
import pandas as pd

from thermowell_index.answers import NO_THREAD
from thermowell_index.sizing.assembly import FITTINGS
from thermowell_index.sizing.elements import count_key, element_key, material_key, words_key
from thermowell_index.standard_inserts import insert_lengths_mm
from thermowell_index.table import Frame
from thermowell_index.threads import parse_thread

ONE_LENGTH_MM = 1e-6
NANOMETRES_PER_MM = 1_000_000
# What the plane says of a length that has an extension to reach through.
CONTAINS_EXTENSION = ", extension included"

Record: TypeAlias = Mapping[str, Any]


@dataclass(frozen=True, kw_only=True)
class OrderLine:
    """Identical sensors: what they are, how many, for which tags; `review_tags` need a look before they are bought.

    `is_special`: the length is not on the list of the sensor's standard lengths, where it has one.
    """

    mounting: str
    plane: str
    order_length_mm: float
    increment_unit: str
    sheath_diameter: str
    sensor_type: str
    element_count: str
    sheath_material: str
    thread: str
    quantity: int
    tags: tuple[str, ...]
    review_tags: tuple[str, ...]
    is_special: bool


@dataclass(frozen=True, kw_only=True)
class PartLine:
    """Identical extension parts."""

    part: str
    quantity: int
    tags: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class HeldLine:
    """A row for which nothing is ordered although a sensor is wanted, and why."""

    tag: str
    sheet: str
    row: int
    service: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class Totals:
    """Where every row that was read went: the first four add up to `rows`."""

    ordered: int
    withheld: int
    not_wanted: int
    not_applicable: int
    rows: int
    sensors: int


@dataclass(frozen=True, kw_only=True)
class Schedule:
    """Everything the order schedule says."""

    sensors: tuple[OrderLine, ...]
    parts: tuple[PartLine, ...]
    held: tuple[HeldLine, ...]
    totals: Totals


def schedule(frame: Frame) -> Schedule:
    """Return the order schedule of a table.

    Parameters
    ----------
    frame : DataFrame of n rows
        One row a line of the index, with verdict, tag, quantity [-], probe_length_order_mm [mm] and what a buyer
        states.

    Returns
    -------
    Schedule
        Lines in the order of mounting, sheath diameter and length [mm]; counts [-].

    Notes
    -----
    ordered + withheld + not wanted + not applicable = rows read.

    Source: geometry (a count).

    Examples
    --------
    >>> import pandas as pd
    >>> row = {"verdict": "not applicable", "probe_length_order_mm": float("nan"), "quantity": 1}
    >>> schedule(pd.DataFrame([row])).totals.not_applicable
    1

    """
    return Schedule(sensors=order_lines(frame), parts=part_lines(frame), held=held_lines(frame), totals=totals(frame))


def destinations(frame: Frame) -> "pd.Series[str]":
    """Return where each row goes: ordered, withheld, not wanted or not applicable.

    A row without a length is withheld whatever its quantity: a count of none never hides a point that cannot be sized.
    """
    has_length = frame["probe_length_order_mm"].notna() & (frame["verdict"] != "withheld")
    goes_to = np.select(
        [frame["verdict"] == "not applicable", ~has_length, frame["quantity"] <= 0],
        ["not applicable", "withheld", "not wanted"],
        "ordered",
    )
    return pd.Series(goes_to, index=frame.index, dtype=object)


def totals(frame: Frame) -> Totals:
    """Return how many rows went where, and how many sensors are ordered."""
    goes_to = destinations(frame)
    count = goes_to.value_counts()
    return Totals(
        ordered=int(count.get("ordered", 0)),
        withheld=int(count.get("withheld", 0)),
        not_wanted=int(count.get("not wanted", 0)),
        not_applicable=int(count.get("not applicable", 0)),
        rows=len(frame),
        sensors=int(frame.loc[goes_to == "ordered", "quantity"].sum()),
    )


def order_lines(frame: Frame) -> tuple[OrderLine, ...]:
    """Return the sensors to order, identical ones on one line, by mounting, sheath diameter and length."""
    groups: dict[Hashable, list[Record]] = {}
    for record in _ordered(frame):
        groups.setdefault(_purchase_key(record), []).append(record)
    lines = (_order_line(records) for records in groups.values())
    return tuple(sorted(lines, key=lambda line: (line.mounting, line.sheath_diameter, line.order_length_mm, line.tags)))


def part_lines(frame: Frame) -> tuple[PartLine, ...]:
    """Return the extension parts of the ordered sensors.

    `extension_parts` lists those of one sensor with `;` between, `2 x ` before what is wanted twice.
    """
    counts: dict[str, int] = {}
    tags: dict[str, list[str]] = {}
    for record in _ordered(frame):
        for part, number in _parts(str(record["extension_parts"])):
            counts[part] = counts.get(part, 0) + number * int(record["quantity"])
            tags.setdefault(part, []).append(str(record["tag"]))
    return tuple(
        PartLine(part=part, quantity=counts[part], tags=tuple(dict.fromkeys(tags[part]))) for part in sorted(counts)
    )


def held_lines(frame: Frame) -> tuple[HeldLine, ...]:
    """Return the rows whose length is withheld, in the order of the index."""
    held = frame[destinations(frame) == "withheld"]
    return tuple(
        HeldLine(
            tag=str(record["tag"]),
            sheet=str(record["sheet"]),
            row=int(record["row"]),
            service=str(record["service"]),
            reason=str(record["reason"]) or "no length to order",
        )
        for record in _records(held)
    )


def _ordered(frame: Frame) -> Iterator[Record]:
    return _records(frame[destinations(frame) == "ordered"])


def _records(frame: Frame) -> Iterator[Record]:
    columns = [str(name) for name in frame.columns]
    for values in frame.itertuples(index=False, name=None):
        yield dict(zip(columns, values, strict=True))


def _purchase_key(record: Record) -> Hashable:
    return sensor_key(record), _nanometres(float(record["probe_length_order_mm"]))


def sensor_key(record: Record) -> Hashable:
    """Return what makes two sensors the same kind, whatever their length.

    A sensor is bought by the same length whether it goes into a well with an extension or without one.
    """
    return (
        record["mounting"],
        str(record["plane"]).removesuffix(CONTAINS_EXTENSION),
        record["increment_unit"],
        _diameter_key(record),
        element_key(str(record["sensor_type"])),
        count_key(str(record["element_count"])),
        material_key(str(record["sheath_material"])),
        _thread_key(bought_thread(record)),
        str(record.get("own_profile", "")),
    )


def kind_of_sensor(record: Record) -> str:
    """Return the mounting as it is bought: with the name of the user's own profile, where the sensor is of one."""
    own = str(record.get("own_profile", "")).replace("_", " ")
    return f"{record['mounting']}, {own}" if own else str(record["mounting"])


def bought_thread(record: Record) -> str:
    """Return the thread that a sensor is bought with: that of its fitting; an insert, held by the head, has none."""
    return str(record["thread_text"]).strip() if str(record["mounting"]) in FITTINGS else NO_THREAD


def _nanometres(length_mm: float) -> int:
    """Return a length in whole nanometres, of which every 64th of an inch has a whole number."""
    return round(length_mm * NANOMETRES_PER_MM)


def _diameter_key(record: Record) -> Hashable:
    """Return the diameter where it was read, else its text: `1/4 in` and `0.250 in` are one sheath."""
    diameter_mm = float(record.get("sheath_diameter_mm", math.nan))
    if not math.isnan(diameter_mm):
        return _nanometres(diameter_mm)
    return words_key(str(record["sheath_diameter_text"]))


def _thread_key(text: str) -> Hashable:
    thread = parse_thread(text)
    return (thread.family, thread.size, thread.pitch_mm) if thread else words_key(text)


def _order_line(records: list[Record]) -> OrderLine:
    first = records[0]
    return OrderLine(
        mounting=kind_of_sensor(first),
        plane=max(str(record["plane"]) for record in records),
        order_length_mm=float(first["probe_length_order_mm"]),
        increment_unit=str(first["increment_unit"]),
        sheath_diameter=str(first["sheath_diameter_text"]).strip(),
        sensor_type=str(first["sensor_type"]).strip(),
        element_count=str(first["element_count"]).strip(),
        sheath_material=str(first["sheath_material"]).strip(),
        thread=bought_thread(first),
        quantity=sum(int(record["quantity"]) for record in records),
        tags=_tags(records),
        review_tags=_tags(record for record in records if _wants_a_look(record)),
        is_special=is_special(first, float(first["probe_length_order_mm"])),
    )


def is_special(record: Record, length_mm: float) -> bool:
    """Whether a length is off the list of the sensor's standard lengths: its profile's, for a plate insert DIN 43735's.

    A sensor without a list has no special lengths.
    """
    own = record.get("standard_lengths")
    standard = own if isinstance(own, tuple) else insert_lengths_mm() if record["mounting"] == "flanged insert" else ()
    return bool(standard) and all(abs(length_mm - one) > ONE_LENGTH_MM for one in standard)


def _wants_a_look(record: Record) -> bool:
    """Whether a row is to be looked at before it is ordered: under review, on hold, or its quantity no number."""
    return bool(record["verdict"] == "review" or record.get("is_on_hold") or record.get("quantity_unread"))


def _tags(records: Iterable[Record]) -> tuple[str, ...]:
    """Return the tags with the count of those that want several sensors."""
    return tuple(
        f"{record['tag']} ({int(record['quantity'])})" if int(record["quantity"]) > 1 else str(record["tag"])
        for record in records
    )


def _parts(text: str) -> Iterator[tuple[str, int]]:
    for entry in text.split(";"):
        match = re.fullmatch(r"(?:(\d+)\s*x\s+)?(.+)", entry.strip())
        if match:
            yield match[2].strip(), int(match[1] or 1)
