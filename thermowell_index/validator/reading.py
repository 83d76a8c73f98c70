"""What is wrong with a cell before its number is looked at: no unit, a date, a range, a dead formula."""

import re

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.dictionary import FIELD, LENGTH_FIELDS
from thermowell_index.findings import Severity
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import CellState, Frame, Hits, word
from thermowell_index.validator.well import EPSILON_MM, by_unit
from thermowell_index.wording import row_lengths

SURVEY = "state the length in the cell, with its unit; measure it at the well where no document has it"


def _in_state(frame: Frame, *states: CellState) -> pd.DataFrame:
    """Return by field which cells are in one of the states."""
    return pd.DataFrame({name: frame[f"{name}_state"].isin(states) for name in LENGTH_FIELDS})


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="a unit in the cell, in the unit column, in the heading, in the title block or in the design basis",
    action="write the unit into the heading, or set index.unit in the design basis",
    source=PRACTICE,
    condition="a length for which neither cell, unit column, line between the rows, heading, title block nor design basis gives a unit",
    withholds=Withholds.WHEN_NEEDED,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def unit_not_known(frame: Frame, basis: Basis) -> Hits:
    """A length has no unit.

    Nine millimetres and nine inches look alike. None of the five places that may say the unit says it, so the number is not used.
    """
    return _in_state(frame, CellState.NO_UNIT)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="one unit for the column",
    action="correct the heading, the title block or the unit column, whichever is wrong, or write the unit into the cell",
    source=PRACTICE,
    condition="two of unit column, line between the rows, heading and title block differ and the values fit both or neither",
    withholds=Withholds.WHEN_NEEDED,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def units_disagree(frame: Frame, basis: Basis) -> Hits:
    """Two places that declare the unit of a column contradict each other.

    The values could be in either, and the difference is a factor of 25.4, so the number is not used.
    """
    return _in_state(frame, CellState.UNITS_DISAGREE)


def _what_was_typed(frame: Frame, basis: Basis) -> "pd.Series[str]":
    texts = pd.Series("a length", index=frame.index, dtype=object)
    for row_id in frame.index[_in_state(frame, CellState.DATE).any(axis=1)]:
        notes = [
            word(frame, row_id, f"{name}_note")
            for name in LENGTH_FIELDS
            if frame.at[row_id, f"{name}_state"] == CellState.DATE and word(frame, row_id, f"{name}_note")
        ]
        if notes:
            texts.at[row_id] = f"a length; probably typed: {', '.join(notes)}"
    return texts


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected=_what_was_typed,
    action="format the cell as text or fraction and type the length again; confirm it against the drawing",
    source="spreadsheet programs turn what looks like a date into one on entry (public vendor documentation of spreadsheet programs)",
    condition="the cell of a length holds a date",
    withholds=Withholds.WHEN_NEEDED,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def date_for_dimension(frame: Frame, basis: Basis) -> Hits:
    """A length was turned into a date.

    A fraction such as 9-1/4 typed into an unformatted cell becomes a day of the calendar. What was typed can be guessed but not known,
    so the cell is not used.
    """
    return _in_state(frame, CellState.DATE)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="one number",
    action="find out which one is built and state it; measure where no document says so",
    source=PRACTICE,
    condition="two numbers in the cell of a length (error), or one with ~, est., approx., TBC or ? (warning)",
    withholds=Withholds.WHEN_NEEDED,
    lesser_withholds=True,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def range_for_dimension(frame: Frame, basis: Basis) -> Hits:
    """A length is undecided: two numbers, or one that the index itself doubts.

    An undecided length is an unknown one, and is not used.
    """
    undecided = _in_state(frame, CellState.RANGE)
    doubted = _in_state(frame, CellState.DOUBTFUL)
    return doubted.replace({True: Severity.WARNING.value, False: ""}).mask(undecided, Severity.ERROR.value)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="a length such as 9.25, 9-1/4 in or 235 mm",
    action=SURVEY,
    source=PRACTICE,
    condition="the text in the cell of a length is no length, and no placeholder either",
    withholds=Withholds.WHEN_NEEDED,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def unreadable_dimension(frame: Frame, basis: Basis) -> Hits:
    """The cell of a length holds something that cannot be read as one.

    It may be a length with a remark, a decimal mark that could be a thousands mark, or a mistyped fraction. It is not guessed at.
    """
    return _in_state(frame, CellState.UNREADABLE)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="a value",
    action="repair the formula or type the value it should give, then save the workbook from the spreadsheet program",
    source=PRACTICE,
    condition="an error value such as #REF! or #N/A, or a formula stored without its result",
    withholds=Withholds.WHEN_NEEDED,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def dead_formula(frame: Frame, basis: Basis) -> Hits:
    """A formula gives no value.

    The last value that it showed is not a value, so the cell is not used.
    """
    return _in_state(frame, CellState.DEAD)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="the same length in both columns, to 1/16 in",
    action="find out which of the two is built and correct the other, or say in the headings which one was measured",
    source=GEOMETRY,
    condition="two columns of equal standing give one field and differ by more than 1/16 in",
    withholds=Withholds.WHEN_NEEDED,
    is_the_reason=True,
    folds=Folds.REPEATED,
)
def two_columns_differ(frame: Frame, basis: Basis) -> Hits:
    """Two columns for the same length give different values.

    The headings do not say which of the two was measured, so neither is used.
    """
    return _in_state(frame, CellState.CONFLICT)


def plausible_mm(name: str, basis: Basis) -> tuple[float, float]:
    """Return the least and the greatest length that a field can have [mm]."""
    if name in {"bore_depth", "measured_bore_depth"}:
        return basis.length_mm("limit.bore_depth_least"), basis.length_mm("limit.bore_depth_most")
    return FIELD[name].fits or (0.0, float("inf"))


def _limits(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return by field between which lengths a part of its kind lies, in the unit of each row."""
    texts = {}
    for name in LENGTH_FIELDS:
        least, most = (row_lengths(pd.Series(limit, index=frame.index), frame) for limit in plausible_mm(name, basis))
        texts[name] = f"{FIELD[name].label} from " + least + " to " + most
    return pd.DataFrame(texts, index=frame.index)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected=_limits,
    action="check the digits and the unit against the drawing",
    source=PRACTICE,
    condition="outside the limits of its field: bore depth 1-1/2 to 120 in (design basis), others as the dictionary says",
    withholds=Withholds.WHEN_NEEDED,
    yields_to=("unit_slip",),
    folds=Folds.REPEATED,
)
def implausible_length(frame: Frame, basis: Basis) -> Hits:
    """A length is one that no such part has.

    It is mistyped, or it is in another unit than the column says.
    """
    hits = pd.DataFrame(index=frame.index)
    for name in LENGTH_FIELDS:
        least, most = plausible_mm(name, basis)
        length = frame[f"{name}_mm"]
        hits[name] = (length < least - EPSILON_MM) | (length > most + EPSILON_MM)
    return hits


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="a heading that says which length it is",
    action="write the field's name into the heading, or name the column in the heading map",
    source=PRACTICE,
    condition="a heading fits two length fields and the values do not decide between them, on rows where the cell is filled",
    folds=Folds.ALWAYS,
)
def unnamed_length_column(frame: Frame, basis: Basis) -> Hits:
    """A column of lengths has a heading that could mean several of them.

    Insertion length taken for bore depth is short by the head of the well. The column is not read.
    """
    return frame["detail_unnamed_length_column"] != ""


@rule(
    severity=Severity.NOTE,
    field="bore_depth",
    expected="a heading that is known, for a length that matters",
    action="if it is a length of the well, the extension or the sensor, name the column in the heading map (--columns)",
    source=PRACTICE,
    condition="a column holds lengths and its heading names no field",
    folds=Folds.ALWAYS,
)
def length_column_not_read(frame: Frame, basis: Basis) -> Hits:
    """A column that looks like lengths has a heading that is not known; it is not read."""
    return frame["detail_length_column_not_read"] != ""


def _shown_names(frame: Frame) -> list[str]:
    return [name for name in LENGTH_FIELDS if f"{name}_shown_mm" in frame]


def _shown_off(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Return by field which cells show another length than they hold."""
    most = np.where(
        frame["unit"] == "mm",
        basis.length_mm("limit.shown_differs_metric"),
        basis.length_mm("limit.shown_differs_inch"),
    )
    offs = {name: (frame[f"{name}_shown_mm"] - frame[f"{name}_mm"]).abs() for name in _shown_names(frame)}
    return pd.DataFrame({name: off > most + EPSILON_MM for name, off in offs.items()}, index=frame.index)


def _shown_found(frame: Frame, basis: Basis) -> pd.DataFrame:
    texts = {}
    for name in _shown_names(frame):
        shown, held = row_lengths(frame[f"{name}_shown_mm"], frame), row_lengths(frame[f"{name}_mm"], frame)
        texts[name] = f"{FIELD[name].label}: the cell shows " + shown + " and holds " + held
    return pd.DataFrame(texts, index=frame.index)


def _shown_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "a cell that shows what it holds, to " + by_unit(
        frame, basis, "limit.shown_differs_inch", "limit.shown_differs_metric"
    )


@rule(
    severity=Severity.WARNING,
    field="bore_depth",
    found=_shown_found,
    expected=_shown_expected,
    action="find out which of the two is meant, and format the cell so that it shows it; what the cell holds is used",
    source=PRACTICE,
    condition="the number format of a length rounds it by more than 1/32 in (0.8 mm on metric rows)",
    folds=Folds.REPEATED,
)
def shown_not_stored(frame: Frame, basis: Basis) -> Hits:
    """A cell shows another length than it holds.

    Its number format rounds: 9.19 is shown as 9 1/4. Whoever reads the sheet sees another well than the program does.
    """
    return _shown_off(frame, basis)


LONE_FEET = re.compile(r"\s*\d+(?:[.,]\d+)?\s*['\u2019\u2032\u2035`\u00b4\u02b9]\s*(?:ft)?\s*")
MAY_BE_FEET = ("bore_depth", "measured_bore_depth", "overall_length", "insertion_length", "probe_length")
MAY_BE_FEET_TOO = ("nipple_length", "second_nipple_length", "extension_length", "installed_length", "lagging_length")


def _lone_feet(frame: Frame) -> pd.DataFrame:
    """Return by field which cells hold a whole number of feet and no inches, by a foot mark alone."""
    return pd.DataFrame(
        {
            name: (frame[f"{name}_state"] == CellState.VALUE)
            & frame[f"{name}_text"].map(lambda text: LONE_FEET.fullmatch(str(text)) is not None)
            for name in (*MAY_BE_FEET, *MAY_BE_FEET_TOO)
        },
        index=frame.index,
    )


def _nine_in_ten(lengths: "pd.Series[float]") -> float:
    """Return the length that nine in ten do not exceed; a few wrong ones do not move it."""
    return float(lengths.quantile(0.9))


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    expected="a length in proportion to the others of its column, or inches beside the feet",
    action="find out whether inches were meant, and write the unit out",
    source=PRACTICE,
    condition="one foot mark and no inches, more than twice what nine in ten of its column have (or the only one there), "
    "and no other length of the row near it",
    withholds=Withholds.WHEN_NEEDED,
    yields_to=("implausible_length", "bore_deeper_than_well", "tip_does_not_add_up", "insertion_longer_than_well"),
)
def foot_mark_for_inch(frame: Frame, basis: Basis) -> Hits:
    """A length stands in feet where inches were probably meant.

    One stroke is feet and two are inches. With the second left out nine inches become nine feet.
    """
    feet = _lone_feet(frame)
    most = basis.number("limit.foot_mark_factor")
    own = pd.DataFrame({name: frame[f"{name}_mm"].mask(feet[name]) for name in MAY_BE_FEET}, index=frame.index)
    hits = {}
    for name in feet.columns[feet.any()]:
        lengths = frame[f"{name}_mm"]
        others = lengths.mask(feet[name]).groupby(frame["table_id"]).transform(_nine_in_ten)
        is_near = own.ge(lengths / most, axis=0) & own.le(lengths * most, axis=0)
        hits[name] = feet[name] & ~(lengths <= most * others) & ~is_near.any(axis=1)
    return pd.DataFrame(hits, index=frame.index)
