"""What a row says against its family: rows of one data sheet, else those with the same connection, size, form and material.

Statistics are medians and shares, which a few wrong rows do not move; a small family says nothing.
"""

from collections.abc import Sequence

import numpy as np
import pandas as pd

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.dictionary import FIELD, LENGTH_FIELDS
from thermowell_index.findings import Severity
from thermowell_index.records.words import each_distinct, folded
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import PROBLEM_STATES, UNIT_IN_CELL, CellState, Frame, Hits
from thermowell_index.units import is_placeholder
from thermowell_index.validator.connections import is_flanged, is_threaded
from thermowell_index.validator.reading import plausible_mm
from thermowell_index.validator.well import BORE_CAUSES, EPSILON_MM, own_bore
from thermowell_index.wording import row_lengths

MM_IN_AN_INCH = 25.4
# A bore is at least this share of its well: common practice, no source.
SHARE_OF_WELL = 0.8
FAMILY = ("well_connection", "connection_size", "shank_form", "well_material")


def family_key(frame: Frame, *more: str) -> "pd.Series[str]":
    """Return each row's family in words; empty where the connection is not stated."""
    names = [*FAMILY, *more]
    kinds = frame.groupby(names, sort=False).ngroup()
    firsts = frame.loc[~kinds.duplicated(), names].itertuples(index=False, name=None)
    words = [[folded(str(text)) for text in texts] for texts in firsts]
    found = dict(
        zip(
            kinds.unique(),
            [", ".join(filter(None, parts)) if parts[0] or parts[1] else "" for parts in words],
            strict=True,
        )
    )
    return kinds.map(found).astype(object)


def data_sheet_key(frame: Frame) -> "pd.Series[str]":
    """Return each row's data sheet, with the kind of well where a sheet has several; empty where none is stated."""
    sheets = each_distinct(frame["data_sheet_number"], lambda text: "" if is_placeholder(text) else folded(text))
    kinds = family_key(frame).astype(object)
    texts = "data sheet " + sheets.astype(object) + (", " + kinds).where(kinds != "", "")
    return texts.where(sheets != "", "")


def _families(frame: Frame, *more: str) -> list["pd.Series[str]"]:
    """Return the families that each row belongs to, nearest first; those by kind of well share all fields of `more`."""
    kinds = family_key(frame, *more)
    for name in more:
        kinds = kinds.where(frame[name] != "", "")
    return [data_sheet_key(frame), kinds]


def _named(families: "Sequence[pd.Series[str]]") -> "pd.Series[str]":
    """Return the nearest family that each row has, in words."""
    by_data_sheet, by_kind = families
    return by_data_sheet.where(by_data_sheet != "", by_kind)


def median_of_the_others(values: "pd.Series[float]", frame: Frame, basis: Basis) -> "pd.Series[float]":
    """Return the median of each row's family, else of its sheet; NaN where too few rows have a value."""
    found = pd.Series(np.nan, index=frame.index)
    for keys in (*_families(frame), frame["sheet"]):
        found = found.fillna(_median(values, keys, basis))
    return found


def _median(values: "pd.Series[float]", keys: "pd.Series[str]", basis: Basis) -> "pd.Series[float]":
    grouped = values.groupby(keys)
    counts = grouped.transform("count")
    return grouped.transform("median").where((counts > basis.number("family.least_rows")) & (keys != ""))


def _mode_of_family(
    values: "pd.Series[float]", families: "Sequence[pd.Series[str]]", basis: Basis, *, within_mm: float
) -> "pd.Series[float]":
    """Return the value that the share of a row's nearest family holds within a distance [mm]; NaN where none does."""
    found = pd.Series(np.nan, index=values.index)
    for keys in families:
        found = found.fillna(_mode(values, keys, basis, within_mm=within_mm))
    return found


def _mode(values: "pd.Series[float]", keys: "pd.Series[str]", basis: Basis, *, within_mm: float) -> "pd.Series[float]":
    grouped = values.groupby(keys)
    median = grouped.transform("median")
    counts = grouped.transform("count")
    near = ((values - median).abs() <= within_mm + EPSILON_MM).where(values.notna())
    share = near.astype(float).groupby(keys).transform("mean")
    is_family = (counts >= basis.number("family.least_rows")) & (keys != "")
    return median.where(is_family & (share >= basis.number("family.share") - EPSILON_MM))


# --- unit slip


def _slip_factors(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return by field the factor that brings a value to the size of its family; NaN where nothing has slipped.

    A length that no part has is implausible before its decimal mark is guessed at. A bore depth that is most of a length
    that has slipped has slipped with it.
    """
    families = [keys.where(keys != "") for keys in _families(frame)]
    factors = {name: pd.Series(np.nan, index=frame.index) for name in LENGTH_FIELDS}
    for name in LENGTH_FIELDS:
        others = frame[f"{name}_mm"].where(frame[f"{name}_mm"] > 0)
        if others.count() > basis.number("family.least_rows"):
            values = others.where(~frame[f"{name}_unit_from"].isin(UNIT_IN_CELL))
            is_plausible = values.between(*plausible_mm(name, basis))
            is_inch = frame[f"{name}_unit"] == "in"
            mixed = np.where(is_inch, 1 / MM_IN_AN_INCH, MM_IN_AN_INCH)
            sheets = frame["sheet"]
            for group in (*families, sheets):
                least = basis.number("family.slip_rows" if group is sheets else "family.least_rows")
                slips = _slips_within(values, others, group, mixed, least, basis)
                factors[name] = factors[name].fillna(slips.where((slips == mixed) | is_plausible))
    along = (frame["bore_depth_mm"] / frame["overall_length_mm"]).between(SHARE_OF_WELL, 1.0)
    factors["bore_depth"] = factors["bore_depth"].fillna(factors["overall_length"].where(along))
    return pd.DataFrame(factors)


def _slips_within(
    values: "pd.Series[float]",
    others: "pd.Series[float]",
    keys: "pd.Series[str]",
    mixed: "np.ndarray[tuple[int], np.dtype[np.float64]]",
    least: float,
    basis: Basis,
) -> "pd.Series[float]":
    """Return the factor of each value that has slipped: `mixed` where its unit is the other one, 10 or a tenth.

    A decimal mark one place off shows among more than `least` rows.
    """
    grouped = others.groupby(keys)
    enough = grouped.transform("count") > basis.number("family.slip_rows")
    low, lower, upper, high = (grouped.transform("quantile", share).where(enough) for share in (0.1, 0.25, 0.75, 0.9))
    usual = grouped.transform("median").where(grouped.transform("count") > least)
    off, room = basis.number("family.slip_off"), basis.number("family.slip_range")
    is_far = (values > off * upper) | (values < lower / off)
    fits = (values * mixed >= low / room) & (values * mixed <= high * room)
    factors = pd.Series(mixed, index=values.index).where(is_far & fits)
    for factor in (10.0, 0.1):
        near = (values * factor / usual - 1).abs() <= basis.number("family.slip_near")
        is_off = (values > off * usual) | (values < usual / off)
        factors = factors.mask(factors.isna() & is_off & near, factor)
    return factors


SLIP_WORDS = {
    1 / MM_IN_AN_INCH: "typed in mm where inches are meant",
    MM_IN_AN_INCH: "typed in inches where mm are meant",
    10.0: "the decimal mark is one place off, or cm are meant",
    0.1: "the decimal mark is one place off, or the reverse of cm",
}


def _slip_expected(frame: Frame, basis: Basis) -> pd.DataFrame:
    factors = _slip_factors(frame, basis)
    texts = {}
    for name in factors.columns:
        lengths = row_lengths(frame[f"{name}_mm"] * factors[name], frame)
        words = factors[name].map(SLIP_WORDS).fillna("").astype(object)
        texts[name] = f"{FIELD[name].label} about " + lengths + ", as its family has; probably " + words
    return pd.DataFrame(texts, index=frame.index)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected=_slip_expected,
    action="write the unit into the cell or correct the number, after a look at the drawing",
    source=PRACTICE,
    condition="more than 5 times off its family, and inside it once multiplied or divided by 25.4 (8 others or more), or within 3 % of its median by 10 (5 others or more of its kind)",
    withholds=Withholds.WHEN_NEEDED,
)
def unit_slip(frame: Frame, basis: Basis) -> Hits:
    """A length is in another unit than its column.

    As it stands it is far from every other row of its family; converted, it is one of them.
    """
    return _slip_factors(frame, basis).notna()


# --- head length


def head_length(frame: Frame) -> "pd.Series[float]":
    """Return overall length less insertion and lagging length [mm]; a blank lagging length is none."""
    is_unread = frame["lagging_length_state"].isin(PROBLEM_STATES)
    lagging = frame["lagging_length_mm"].fillna(0.0).mask(is_unread)
    return frame["overall_length_mm"] - frame["insertion_length_mm"] - lagging


def head_limits(frame: Frame, basis: Basis) -> tuple["pd.Series[float]", "pd.Series[float]"]:
    """Return least and greatest usual head length of each row [mm]; NaN where its connection says nothing of it."""
    kinds = [is_flanged(frame) & ~frame["is_din_form"], is_threaded(frame) & ~frame["is_din_form"]]
    lengths = [
        np.select(kinds, [basis.length_mm(f"family.head_{kind}_{end}") for kind in ("flanged", "threaded")], np.nan)
        for end in ("least", "most")
    ]
    least, most = (pd.Series(length, index=frame.index) for length in lengths)
    return least, most.mask(frame["lagging_length_state"] == CellState.ABSENT)


def _usual_head(frame: Frame, basis: Basis) -> "pd.Series[float]":
    return _mode_of_family(head_length(frame), _families(frame), basis, within_mm=basis.length_mm("family.heads_agree"))


def _head_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    usual = row_lengths(_usual_head(frame, basis), frame)
    least, most = head_limits(frame, basis)
    limits = row_lengths(least, frame) + " to " + row_lengths(most, frame)
    return ("about " + usual + ", as in its family").where(usual != "", limits)


def _head_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return (
        "head length "
        + row_lengths(head_length(frame), frame)
        + " = overall length "
        + frame["overall_length_text"].astype(object)
        + " less insertion length "
        + frame["insertion_length_text"].astype(object)
        + (", less lagging length " + frame["lagging_length_text"].astype(object)).where(
            frame["lagging_length_mm"] > 0, ", no lagging length"
        )
    )


def _head_group(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return _named(_families(frame)).where(_head_severity(frame, basis) == Severity.NOTE.value, "")


def _head_severity(frame: Frame, basis: Basis) -> "pd.Series[str]":
    head, usual = head_length(frame), _usual_head(frame, basis)
    least, most = head_limits(frame, basis)

    def is_outside(lengths: "pd.Series[float]") -> "pd.Series[bool]":
        return (lengths < least - EPSILON_MM) | (lengths > most + EPSILON_MM)

    # Without a column for it a lagging length may be in any head, and in those of the family.
    has_column = frame["lagging_length_state"] != CellState.ABSENT
    is_odd = has_column & ((head - usual).abs() > basis.length_mm("family.differs") + EPSILON_MM)
    return (
        pd.Series("", index=frame.index, dtype=object)
        .mask(usual.notna() & is_outside(usual), Severity.NOTE.value)
        .mask(is_odd | ((usual.isna() | ~has_column) & is_outside(head)), Severity.WARNING.value)
    )


@rule(
    severity=Severity.WARNING,
    field="insertion_length",
    needs=("overall_length_mm", "insertion_length_mm"),
    found=_head_found,
    expected=_head_expected,
    action="check insertion and lagging length against the drawing; a lagging length may have been dropped",
    source="neutral handbook pattern (3/4 in flats and 1 in of thread; flanged from 2-1/4 in, rising with the size) and common practice",
    condition="overall less insertion less lagging outside 1-1/4 to 2-1/4 in (threaded, socket weld) or 2 to 4-1/2 in (flanged), or more than 1/4 in from its family",
    group=_head_group,
    yields_to=BORE_CAUSES,
    folds=Folds.REPEATED,
)
def head_length_out_of_family(frame: Frame, basis: Basis) -> Hits:
    """The part of the well above its connection is longer or shorter than such wells have.

    A lagging length was dropped, or the insertion length is another well's. Where a whole family has such a head it is
    said once, as a note.
    """
    return _head_severity(frame, basis)


# --- odd ones


def _usual_lengths(frame: Frame, basis: Basis) -> dict[str, tuple["pd.Series[float]", "pd.Series[float]"]]:
    """Return by field the lengths and what the family has, NaN where it has none in common."""
    families = _families(frame, "line_size")
    within = basis.length_mm("family.agrees")
    lengths = {
        "overall_length": frame["overall_length_mm"],
        "bore_depth": own_bore(frame),
        "insertion_length": frame["insertion_length_mm"] + frame["lagging_length_mm"].fillna(0.0),
    }
    return {
        name: (values, _mode_of_family(values, families, basis, within_mm=within)) for name, values in lengths.items()
    }


ODD_LABELS = {"insertion_length": "insertion and lagging length together"}


def _odd_expected(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return by field what the family has; a note, which stands on the first field, says all that is odd."""
    texts, together = {}, pd.Series("", index=frame.index, dtype=object)
    for name, (lengths, usual) in _usual_lengths(frame, basis).items():
        texts[name] = f"{ODD_LABELS.get(name, FIELD[name].label)} " + row_lengths(usual, frame)
        is_odd = (lengths - usual).abs() > basis.length_mm("family.differs") + EPSILON_MM
        together = together.mask(is_odd, together.where(together == "", together + "; ") + texts[name])
    expected = pd.DataFrame(texts, index=frame.index)
    is_note = (_odd(frame, basis) == Severity.NOTE.value).any(axis=1)
    expected[expected.columns[0]] = expected[expected.columns[0]].mask(is_note, together)
    return expected + ", as most of its family has"


def _odd(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return by field which lengths are odd: a warning beside another that is usual, else a note on the first field."""
    odd, is_slip = {}, pd.Series(data=False, index=frame.index)
    for name, (lengths, usual) in _usual_lengths(frame, basis).items():
        difference = (lengths - usual).abs()
        odd[name] = difference > basis.length_mm("family.differs") + EPSILON_MM
        is_slip |= difference <= basis.length_mm("family.agrees") + EPSILON_MM
    hits = pd.DataFrame(odd)
    slips = hits.replace({True: Severity.WARNING.value, False: ""}).where(is_slip, "")
    first = hits.columns[0]
    slips[first] = slips[first].mask(~is_slip & hits.any(axis=1), Severity.NOTE.value)
    return slips


def _odd_group(frame: Frame, basis: Basis) -> "pd.Series[str]":
    is_note = (_odd(frame, basis) == Severity.NOTE.value).any(axis=1)
    return _named(_families(frame, "line_size")).where(is_note, "")


@rule(
    severity=Severity.WARNING,
    field="overall_length",
    expected=_odd_expected,
    action="check the odd length against the well's drawing",
    source=PRACTICE,
    condition="5 or more wells of one data sheet, or of one connection, size, form, material and line size, 80 % of them alike, one length of the row more than 1/4 in off and another alike; a note where no other is alike",
    group=_odd_group,
    yields_to=(*BORE_CAUSES, "head_length_out_of_family"),
)
def odd_one_in_family(frame: Frame, basis: Basis) -> Hits:
    """One length differs from that of nearly all wells of the same kind on lines of the same size.

    It may be a slip of the hand. A row none of whose lengths is the usual one is more likely another well, and is only noted.
    """
    return _odd(frame, basis)
