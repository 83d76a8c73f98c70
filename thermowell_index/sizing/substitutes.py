"""What a store has that fits a well now, and which wells each of its items serves, no more than there are pieces."""

import math
from collections import deque
from collections.abc import Hashable, Mapping, Sequence
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from thermowell_index.answers import ItemUse, StockFit, StockItem, StoreList, Substitutes, TagSubstitutes
from thermowell_index.sizing.assembly import FITTINGS
from thermowell_index.sizing.elements import agree, element_count_of, element_of, material_of, words_key
from thermowell_index.sizing.order import NANOMETRES_IN_A_MILLIMETRE
from thermowell_index.table import Frame
from thermowell_index.threads import parse_thread

SAME_DIAMETER_MM = 0.05
"""A diameter in inches and the same rounded to 0.1 mm differ by no more: 1/4 in is 6.35 mm, written 6.4. Geometry."""
LOOKED_AT = (
    "mounting",
    "sheath_diameter_mm",
    "bore_diameter_mm",
    "thread_text",
    "thread_is_assumed",
    "sensor_type",
    "element_count",
    "sheath_material",
    "own_profile",
)
CLAMPING = {"adjustable fitting": "compression fitting"}
"""Mountings that a store's list calls otherwise."""

Record: TypeAlias = Mapping[str, Any]
Confirm: TypeAlias = "tuple[str, ...] | None"


def substitutes(
    frame: Frame, store: StoreList, *, clearance_mm: float, profile_words: Mapping[str, Sequence[str]] | None = None
) -> Substitutes:
    """Items of a store's list that fit each row with a length, and the rows that each of them serves.

    Parameters
    ----------
    frame : DataFrame of n rows
        One row a line of the index, sized: shortest_fit_mm, longest_fit_mm [mm], and what a buyer states.
    store : StoreList
        The items that are there [mm].
    clearance_mm : float
        Least by which the bore must be wider than a sheath whose diameter the index does not state [mm].
    profile_words : mapping of str to sequence of str, optional
        The user's own sensor profiles, each with the words that name it: an item named so serves only rows of it. [-]

    Returns
    -------
    Substitutes
        For each row all items that fit, those with least left to confirm first, then by margin; for each item the
        rows that it is set aside for [mm].

    Raises
    ------
    KeyError
        If columns are missing from `frame`.

    Notes
    -----
    An item fits when its length lies from shortest to longest, and mounting, sheath diameter, kind of element and, of
    a fitting, thread do not contradict the row's. What either side does not state is named, to be confirmed. Number of
    elements and sheath material are compared where the row states them. Items are
    set aside so that as many sensors as can be are served (a maximum matching, by augmenting paths); of an item whose
    quantity is not stated none is set aside.

    Source: geometry; a textbook result of graph theory.

    Examples
    --------
    >>> import pandas as pd
    >>> empty = pd.DataFrame({"probe_length_order_mm": [float("nan")]})
    >>> substitutes(empty, StoreList(name="store.csv", items=()), clearance_mm=0.1).tags
    ()
    """
    rows = frame[frame["probe_length_order_mm"].notna()]
    if len(rows):  # a length in kind has no limits, an adjustable fitting takes any longer one
        rows = rows[rows["shortest_fit_mm"].notna()]
    records = [{str(name): value for name, value in record.items()} for record in rows.to_dict("records")]
    fits = _fits(records, store.items, clearance_mm, profile_words or {})
    aside = _set_aside([_wanted(record) for record in records], fits, store.items)
    return Substitutes(
        store=store,
        tags=tuple(_tag(record, fits[place], aside[place], store) for place, record in enumerate(records)),
        items=tuple(_use(place, item, records, fits, aside) for place, item in enumerate(store.items)),
    )


Fits: TypeAlias = list[list[tuple[int, int, tuple[str, ...]]]]
"""By row: (item, margin [nm], what to confirm), best first."""


def _fits(
    records: Sequence[Record], items: Sequence[StockItem], clearance_mm: float, profiles: Mapping[str, Sequence[str]]
) -> Fits:
    shortest = _whole([record["shortest_fit_mm"] for record in records])
    has_longest = ~np.isnan(np.array([record["longest_fit_mm"] for record in records], dtype=np.float64))
    longest = _whole(np.nan_to_num([record["longest_fit_mm"] for record in records]).tolist())
    kinds: list[Hashable] = [tuple(_plain(record.get(name, "")) for name in LOOKED_AT) for record in records]
    known: dict[tuple[Hashable, int], Confirm] = {}
    found: Fits = [[] for _ in records]
    for number, item in enumerate(items):
        length = int(_whole([item.length_mm])[0])
        above = length - shortest
        margins = np.where(has_longest, np.minimum(above, longest - length), np.minimum(above, 0))
        for place in np.flatnonzero(margins >= 0).tolist() if item.quantity is None or item.quantity > 0 else []:
            key = (kinds[place], number)
            if key not in known:
                known[key] = _to_confirm(records[place], item, clearance_mm, _profile_of(item, profiles))
            confirm = known[key]
            if confirm is not None:
                found[place].append((number, int(margins[place]), confirm))
    for listed in found:
        listed.sort(key=lambda fit: (len(fit[2]), -fit[1], fit[0]))
    return found


def _whole(lengths_mm: Sequence[float]) -> NDArray[np.int64]:
    return np.rint(np.array(lengths_mm, dtype=np.float64) * NANOMETRES_IN_A_MILLIMETRE).astype(np.int64)


def _plain(value: Any) -> Hashable:  # noqa: ANN401 - a cell of the frame is text, a number or a truth value
    return None if isinstance(value, float) and math.isnan(value) else value


def _profile_of(item: StockItem, profiles: Mapping[str, Sequence[str]]) -> str:
    """Return the user's own profile that an item's words name, by its longest word; empty where they name none."""
    plain = words_key(f"{item.item} {item.kind} {item.mounting}")
    named = [(len(word), name) for name, words in profiles.items() for word in map(words_key, words) if word in plain]
    return max(named)[1] if named else ""


def _to_confirm(record: Record, item: StockItem, clearance_mm: float, profile: str) -> Confirm:
    """Return what nobody has stated yet of an item in a well, None where something contradicts."""
    is_fitting = str(record["mounting"]) in FITTINGS
    checks = (
        ("length", None if item.has_described_length else True),
        ("sensor profile", _same_profile(str(record.get("own_profile", "")), profile)),
        ("mounting", agree(item.mounting, CLAMPING.get(str(record["mounting"]), str(record["mounting"])))),
        ("sheath diameter", _same_diameter(record, item, clearance_mm)),
        ("thread", _same_thread(record, item) if is_fitting else True),
        ("sensor type", agree(element_of(item.kind), element_of(str(record["sensor_type"])))),
        ("element count", _same_count(record, item)),
        ("sheath material", _same_material(record, item)),
    )
    if any(agrees is False for _, agrees in checks):
        return None
    return tuple(name for name, agrees in checks if agrees is None)


def _same_profile(own: str, item: str) -> bool | None:
    """Whether an item is of the row's own profile; None where the item does not say."""
    return (None if own else True) if not item else own == item


def _same_diameter(record: Record, item: StockItem, clearance_mm: float) -> bool | None:
    stated_mm, bore_mm = float(record["sheath_diameter_mm"]), float(record["bore_diameter_mm"])
    if math.isnan(item.diameter_mm):
        return None
    if not math.isnan(stated_mm):
        return abs(item.diameter_mm - stated_mm) <= SAME_DIAMETER_MM + 1e-6
    return False if item.diameter_mm + clearance_mm > bore_mm + 1e-6 else None


def _same_thread(record: Record, item: StockItem) -> bool | None:
    own, theirs = parse_thread(str(record["thread_text"])), parse_thread(item.thread)
    if own is None or theirs is None:
        return None
    same = (own.family, own.size) == (theirs.family, theirs.size) and theirs.gender != "female"
    pitch_agrees = own.pitch_mm == theirs.pitch_mm or None in {own.pitch_mm, theirs.pitch_mm}
    if not (same and pitch_agrees):
        return False
    return None if record["thread_is_assumed"] else True


def _same_count(record: Record, item: StockItem) -> bool | None:
    """Whether as many elements are there as the index asks for; True where it does not ask."""
    stated = element_count_of(str(record["element_count"])) or element_count_of(str(record["sensor_type"]))
    if not stated or not item.element_count:
        return None if stated else True
    return stated == item.element_count


def _same_material(record: Record, item: StockItem) -> bool | None:
    """Whether the sheath is of the material that the index asks for; True where it does not ask."""
    asked = str(record["sheath_material"])
    if not asked.strip() or words_key(asked) == words_key(item.sheath_material):
        return True
    return agree(material_of(item.sheath_material), material_of(asked))


def _wanted(record: Record) -> int:
    return max(int(record["quantity"]), 0)


def _set_aside(wanted: Sequence[int], fits: Fits, items: Sequence[StockItem]) -> list[list[int]]:
    """Return by row the items that are set aside for it: as many sensors served as there can be.

    Those whose length has a column of its own go first; the others serve whom they leave.
    """
    demands = [place for place, count in enumerate(wanted) for _ in range(count)]
    demands.sort(key=lambda place: len(fits[place]))
    holders: list[list[int]] = [[] for _ in items]
    surely = [[fit for fit in listed if not items[fit[0]].has_described_length] for listed in fits]
    served = [_serve(number, demands, surely, items, holders) for number in range(len(demands))]
    for number, is_served in enumerate(served):
        if not is_served:
            _serve(number, demands, fits, items, holders)
    aside: list[list[int]] = [[] for _ in wanted]
    for item, numbers in enumerate(holders):
        for number in numbers:
            aside[demands[number]].append(item)
    return aside


def _serve(
    demand: int, demands: Sequence[int], fits: Fits, items: Sequence[StockItem], holders: list[list[int]]
) -> bool:
    """Find an item for one more sensor, and return whether there is one.

    Those set aside before may have to change to another that fits them too.
    """
    reached_by: dict[int, int] = {}
    came_from: dict[int, int] = {}
    queue = deque([demand])
    while queue:
        asking = queue.popleft()
        for item, _, _ in fits[demands[asking]]:
            if item in reached_by:
                continue
            reached_by[item] = asking
            if len(holders[item]) < (items[item].quantity or 0):
                _pass_on(item, reached_by, came_from, holders)
                return True
            for holder in holders[item]:
                came_from[holder] = item
            queue.extend(holders[item])
    return False


def _pass_on(item: int, reached_by: Mapping[int, int], came_from: Mapping[int, int], holders: list[list[int]]) -> None:
    """Give a free item to the sensor that reached it, and what that one held to the one before, to the first."""
    taker = reached_by[item]
    holders[item].append(taker)
    while taker in came_from:
        item = came_from[taker]
        holders[item].remove(taker)
        taker = reached_by[item]
        holders[item].append(taker)


def _tag(
    record: Record, fits: Sequence[tuple[int, int, tuple[str, ...]]], aside: Sequence[int], store: StoreList
) -> TagSubstitutes:
    return TagSubstitutes(
        tag=str(record["tag"]),
        sheet=str(record["sheet"]),
        row=int(record["row"]),
        unit=str(record["increment_unit"]),
        order_mm=float(record["probe_length_order_mm"]),
        shortest_mm=float(record["shortest_fit_mm"]),
        longest_mm=float(record["longest_fit_mm"]),
        fits=tuple(
            StockFit(item=store.items[number], margin_mm=margin / NANOMETRES_IN_A_MILLIMETRE, confirm=confirm)
            for number, margin, confirm in fits
        ),
        set_aside=tuple(store.items[number].item for number in aside),
    )


def _use(
    number: int, item: StockItem, records: Sequence[Record], fits: Fits, aside: Sequence[Sequence[int]]
) -> ItemUse:
    served = [place for place, numbers in enumerate(aside) for held in numbers if held == number]
    others = [
        place for place, listed in enumerate(fits) if place not in served and any(fit[0] == number for fit in listed)
    ]
    return ItemUse(
        item=item,
        serves=tuple(str(records[place]["tag"]) for place in served),
        also_fits=tuple(str(records[place]["tag"]) for place in others),
    )
