"""Lengths against what can be bought and what was bought."""

import pandas as pd

from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.registry import Folds, rule
from thermowell_index.sizing.schedule import is_special
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.well import EPSILON_MM
from thermowell_index.wording import row_lengths


def _range(frame: Frame, basis: Basis) -> "pd.Series[str]":
    shortest, longest = row_lengths(frame["shortest_fit_mm"], frame), row_lengths(frame["longest_fit_mm"], frame)
    return "a length from " + shortest + " to " + longest


def _ordered(frame: Frame, basis: Basis) -> "pd.Series[str]":
    number = frame["order_number"].astype(object)
    length = row_lengths(frame["length_when_ordered_mm"], frame)
    return "ordered at " + length + (", order " + number).where(number != "", "")


@rule(
    severity=Severity.ERROR,
    field="ordered_length",
    needs=("length_when_ordered_mm", "shortest_fit_mm", "longest_fit_mm"),
    found=_ordered,
    expected=_range,
    action="stop or change the order, or see which of the well's dimensions was changed since",
    source=GEOMETRY,
    condition="the ordered length, or the length to order when the order number came, lies outside shortest to longest",
    yields_to=("implausible_length", "unit_slip"),
)
def changed_after_order(frame: Frame, basis: Basis) -> Hits:
    """The length that was ordered does not fit the well as the index has it now.

    A dimension was changed after the order, or it was ordered wrong.
    """
    ordered = frame["length_when_ordered_mm"]
    return (ordered < frame["shortest_fit_mm"] - EPSILON_MM) | (ordered > frame["longest_fit_mm"] + EPSILON_MM)


@rule(
    severity=Severity.NOTE,
    field="probe_length",
    needs=("probe_length_order_mm", "mounting"),
    expected="a standard length, which is on the shelf",
    action="reckon with a longer delivery time, or change the extension",
    source="common practice, no source; DIN 43735 lengths for plate inserts (those of form 4 read in a trade reprint, 405 and 555 mm from memory, to be confirmed)",
    condition="an ordered length, else the length to order, is not on the list of the sensor's standard lengths",
    folds=Folds.ALWAYS,
)
def length_off_the_price_list(frame: Frame, basis: Basis) -> Hits:
    """Lengths are not among the sensor's standard ones, and take longer to get."""
    bought = frame["ordered_length_mm"].fillna(frame["probe_length_order_mm"])
    records = frame[["standard_lengths", "mounting"]].to_dict("records")
    return pd.Series(
        [
            is_special({str(name): value for name, value in record.items()}, length)
            for record, length in zip(records, bought.tolist(), strict=True)
        ],
        index=frame.index,
    )


def _quantity_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    counted = pd.Series(frame["quantity"].astype(int).astype(str), index=frame.index, dtype=object)
    return "quantity " + frame["quantity_wanted"].astype(object) + ", counted as " + counted


@rule(
    severity=Severity.NOTE,
    field="quantity_wanted",
    needs=("quantity_wanted", "quantity"),
    found=_quantity_found,
    expected="a whole number, such as 2 or 2 off; no or 0 where none is wanted",
    action="state the number; the Order schedule counts one sensor for each tag on the row, and lists it under Look at before ordering",
    source=PRACTICE,
    condition="a quantity that is no whole number, no yes and no no",
    folds=Folds.ALWAYS,
)
def quantity_not_read(frame: Frame, basis: Basis) -> Hits:
    """Quantities are no numbers, and one sensor is counted for each tag on their rows."""
    return frame["quantity_unread"]


def _twins_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    tags = frame["twins"].astype(int).astype(str).astype(object)
    return "quantity " + frame["quantity_wanted"].astype(object) + " for " + tags + " tags on the row"


@rule(
    severity=Severity.NOTE,
    field="quantity_wanted",
    needs=("quantity_wanted", "quantity", "twins"),
    found=_twins_found,
    expected="one for each tag on the row, or a sensor that is said to be duplex",
    action="see whether one sensor is shared or is missing; the quantity stated is ordered",
    source=PRACTICE,
    condition="a quantity above none and below the number of tags on the row, and no duplex element",
    folds=Folds.ALWAYS,
)
def fewer_sensors_than_tags(frame: Frame, basis: Basis) -> Hits:
    """A row of several tags wants fewer sensors than it has tags; the quantity stated is ordered."""
    is_fewer = frame["quantity_is_stated"] & (frame["quantity"] > 0) & (frame["quantity"] < frame["twins"])
    return is_fewer & ~frame["is_duplex"]
