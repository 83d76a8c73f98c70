"""The spares plan of an index: for each kind of sensor the fewest lengths in stock, and which tags each serves."""

from collections import Counter
from collections.abc import Hashable
from typing import cast

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.answers import SpareLength, SparesKind
from thermowell_index.sizing.schedule import bought_thread, kind_of_sensor, sensor_key
from thermowell_index.sizing.spares import StockLengths, fewest_lengths
from thermowell_index.table import Frame

STATED_BY_BUYER = (
    "mounting",
    "plane",
    "sheath_diameter_text",
    "sensor_type",
    "element_count",
    "sheath_material",
    "thread_text",
    "increment_unit",
)


def spares_plan(frame: Frame) -> tuple[SparesKind, ...]:
    """Return the fewest lengths to keep in stock for all rows that have a length to order.

    Parameters
    ----------
    frame : DataFrame of n rows
        One row a line of the index, with tag, shortest_fit_mm, longest_fit_mm and probe_length_order_mm [mm],
        increment_nm [nm], standard_lengths [mm] and what a buyer states. Rows without a length are passed over.

    Returns
    -------
    tuple of SparesKind
        Kinds with the most wells first; lengths from the shortest up [mm].

    Raises
    ------
    KeyError
        If columns are missing from `frame`.

    Notes
    -----
    Two rows are of one kind when the order schedule would put them on one line but for their length. Lengths that come
    from a list are planned apart from those on an increment.

    Source: geometry, see `fewest_lengths`.

    Examples
    --------
    >>> import pandas as pd
    >>> kind = dict.fromkeys(STATED_BY_BUYER, "") | {"increment_nm": 5_000_000, "standard_lengths": None}
    >>> rows = [kind | {"tag": tag, "shortest_fit_mm": least, "longest_fit_mm": least + 15,
    ...                 "probe_length_order_mm": 230.0} for tag, least in (("TE-1", 221.0), ("TE-2", 226.0))]
    >>> [(length.length_mm, length.tags) for length in spares_plan(pd.DataFrame(rows))[0].lengths]
    [(230.0, ('TE-1', 'TE-2'))]
    """
    rows = frame[frame["probe_length_order_mm"].notna()]
    if len(rows):  # an adjustable fitting takes any longer one, a length in kind is no multiple of anything
        rows = rows[rows["longest_fit_mm"].notna() & ~rows.get("is_in_kind", pd.Series(data=False, index=rows.index))]
    groups: dict[Hashable, list[int]] = {}
    for place, record in enumerate(rows.to_dict("records")):
        named = {str(name): value for name, value in record.items()}
        key = (sensor_key(named), int(named["increment_nm"]), _list_of(named["standard_lengths"]))
        groups.setdefault(key, []).append(place)
    kinds = [_kind(rows.iloc[places]) for places in groups.values()]
    return tuple(
        sorted(kinds, key=lambda kind: (-kind.wells, kind.mounting, kind.sheath_diameter, kind.lengths[0].tags))
    )


def _list_of(lengths: object) -> tuple[float, ...] | None:
    return lengths if isinstance(lengths, tuple) else None


def _kind(rows: Frame) -> SparesKind:
    first = rows.iloc[0]
    order_mm = _lengths(rows, "probe_length_order_mm")
    plan = fewest_lengths(
        shortest_mm=_lengths(rows, "shortest_fit_mm"),
        longest_mm=_lengths(rows, "longest_fit_mm"),
        order_mm=order_mm,
        increment_nm=int(cast("int", first["increment_nm"])),
        standard_lengths_mm=_list_of(first["standard_lengths"]),
    )
    words = {name.removesuffix("_text"): str(first[name]).strip() for name in STATED_BY_BUYER}
    record = {str(name): value for name, value in first.items()}
    words |= {"thread": bought_thread(record), "mounting": kind_of_sensor(record)}
    words["plane"] = max(rows["plane"].astype(str))
    tags = _unlike(rows)
    return SparesKind(
        **words,
        lengths=tuple(_spare(plan, place, tags) for place in range(plan.lengths_mm.size)),
        wells=len(rows),
        ordered_lengths=len(np.unique(np.rint(order_mm * 1e6))),
    )


def _lengths(rows: Frame, name: str) -> NDArray[np.float64]:
    return rows[name].to_numpy(dtype=np.float64)


def _unlike(rows: Frame) -> list[str]:
    """Return the tags; one that stands on several rows is told apart by sheet and row."""
    tags = [str(tag) for tag in rows["tag"]]
    counts = Counter(tags)
    if all(count == 1 for count in counts.values()):
        return tags
    return [
        tag if counts[tag] == 1 else f"{tag} ({sheet} row {row})"
        for tag, sheet, row in zip(tags, rows["sheet"], rows["row"], strict=True)
    ]


def _spare(plan: StockLengths, place: int, tags: list[str]) -> SpareLength:
    served = np.flatnonzero(plan.served_by == place)
    tightest = served[np.argmin(plan.margins_mm[served])]
    return SpareLength(
        length_mm=float(plan.lengths_mm[place]),
        tags=tuple(tags[well] for well in served),
        lost_tags=tuple(tags[well] for well in np.flatnonzero(plan.lost_without(place))),
        least_margin_mm=float(plan.margins_mm[tightest]),
        tightest_tag=tags[tightest],
    )
