"""How each sensor is held and what stands between it and its well, as far as the index and the design basis say."""

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

import numpy as np
import pandas as pd

from thermowell_index.basis import ADJUSTABLE_PROFILE, Basis
from thermowell_index.records.extension_remarks import extension_remark
from thermowell_index.records.words import (
    ADJUSTABLE_WORDS,
    EXTENSION_ELSEWHERE,
    HOLDING,
    NECK,
    SIZE,
    arrangement_of,
    folded,
    mounting_of,
    says,
    says_no_extension,
    without_other_joints,
)
from thermowell_index.table import GONE, CellState, Frame, IndexTable, word
from thermowell_index.units import to_mm

# Fields of words that may name a mounting or an extension where the index has no column for them.
TYPES = ("sensor_type", "instrument_type", "head_type")
EXTENSION_LENGTHS = ("installed_length", "nipple_length", "second_nipple_length", "extension_length")
INSERTS = ("spring-loaded insert", "flanged insert")
FITTINGS = ("spring-loaded fitting", "fixed fitting", "adjustable fitting")
MALE_TOPS = ("nipple", "nipple-union-nipple", "neck tube")
FEMALE_TOPS = ("nipple and union", "nipple and coupling")
WITH_UNION = ("nipple and union", "nipple-union-nipple")


def column_present(table: IndexTable, name: str) -> "pd.Series[bool]":
    """Return which rows stand in a table that has a column for a field with something in it."""
    filled = {
        table_id
        for table_id, read in table.tables.items()
        if name in read.columns and _is_filled(table.frame[table.frame["table_id"] == table_id], name)
    }
    return table.frame["table_id"].isin(filled)


def _is_filled(rows: Frame, name: str) -> bool:
    if f"{name}_state" in rows:
        return bool((rows[f"{name}_state"] != CellState.MISSING).any())
    return bool((rows[name] != "").any())


def add_mounting(table: IndexTable, basis: Basis) -> None:
    """Add `mounting` (empty: unknown) and where it comes from: the index, or the design basis for an absent column or a blank."""
    frame = table.frame
    texts = frame["sensor_mounting"]
    has_column = column_present(table, "sensor_mounting")
    blank = texts == ""
    named = texts.map(mounting_of)
    frame["mounting"] = np.select(
        [~blank, ~has_column],
        [named, basis.choice("index.mounting_without_column")],
        basis.choice("index.mounting_of_blank"),
    )
    frame["named_profile"] = texts.map(lambda text: _named_profile(str(text), basis))
    own = frame["named_profile"].map(lambda name: basis.profiles[name].mounting if name else "")
    frame["mounting"] = own.where(own != "", frame["mounting"])
    frame["mounting_from"] = np.select([~blank, ~has_column], ["index", "basis, no column"], "basis, blank cell")
    _take_mounting_elsewhere(frame)


def _take_mounting_elsewhere(frame: Frame) -> None:
    """Before the design basis speaks for a row, let its other words: its type may name the mounting, others doubt it."""
    silent = frame.index[frame["mounting_from"] != "index"]
    for row_id, types, others in _other_words(frame, silent):
        named = {mounting_of(text) for text in types} - {""}
        doubts = any(says(HOLDING, text) for text in (*types, word(frame, row_id, "other_words")))
        otherwise = {mounting_of(text) for text in others} - {"", word(frame, row_id, "mounting")}
        if len(named) == 1 or doubts or otherwise:
            frame.at[row_id, "mounting"] = named.pop() if len(named) == 1 else ""
            frame.at[row_id, "mounting_from"] = "other words"


def _other_words(frame: Frame, rows: "pd.Index[int]") -> Iterator[tuple[int, list[str], list[str]]]:
    """Yield the rows that say something beside their fields: the texts of their types, and those of everything else."""
    for row_id in rows:
        types = [text for name in TYPES if (text := word(frame, row_id, name))]
        others = [word(frame, row_id, "remarks"), *word(frame, row_id, "other_words").split(" | ")]
        if types or any(others):
            yield row_id, types, [text for text in others if text]


def _named_profile(text: str, basis: Basis) -> str:
    """Return the user's profile whose words stand in a mounting cell, by its longest; empty where none does."""
    plain = folded(text)
    found = [
        (len(word), name)
        for name, profile in basis.profiles.items()
        for word in map(folded, profile.words)
        if word in plain
    ]
    if found:
        return max(found)[1]
    is_stated = basis.profiles[ADJUSTABLE_PROFILE].seat_offset != ""
    return ADJUSTABLE_PROFILE if is_stated and says(ADJUSTABLE_WORDS, text) and not mounting_of(text) else ""


def add_arrangement(table: IndexTable, basis: Basis) -> None:
    """Add `arrangement` (empty: unknown) and where it comes from."""
    frame = table.frame
    texts = frame["extension_arrangement"]
    blank = texts == ""
    has_column = column_present(table, "extension_arrangement")
    none_in_words = frame["table_id"].map(texts.map(says_no_extension).groupby(frame["table_id"]).any())
    is_insert = frame["mounting"].isin(INSERTS)
    has_length = pd.Series(data=False, index=frame.index)
    for name in EXTENSION_LENGTHS:
        has_length |= ~frame[f"{name}_state"].isin(GONE) & (frame[f"{name}_mm"] != 0)
    blank_is_none = ~none_in_words & ~is_insert & ~has_length
    is_silent = frame[[f"{name}_state" for name in EXTENSION_LENGTHS]].isin(GONE)
    blank_of_insert = ~has_column & is_insert & is_silent.all(axis=1) & _states_lengths(table)
    nipple_only = ~has_column & (frame["nipple_length_mm"] > 0)
    neck_only = ~has_column & (frame["extension_length_mm"] > 0) & _headed_as_neck(table)
    without_column = np.where(has_length, "", basis.choice("index.extension_without_column"))
    frame["arrangement"] = np.select(
        [~blank, nipple_only, neck_only, blank_of_insert, ~has_column, blank_is_none],
        [texts.map(arrangement_of), "nipple", "neck tube", "", without_column, "none"],
        "",
    )
    frame["arrangement_from"] = np.select(
        [~blank, nipple_only, neck_only, ~has_column & ~has_length & ~blank_of_insert, blank & blank_is_none],
        ["index", "nipple length", "neck length", "basis, no column", "blank cell"],
        "unknown",
    )
    _doubt_by_other_words(frame)
    _tell_union(frame)
    _doubt_second_nipple(frame)
    _read_words(frame)


def _states_lengths(table: IndexTable) -> "pd.Series[bool]":
    """Return which rows stand in a table that gives some of its rows a length of the extension."""
    stated = [column_present(table, name) for name in EXTENSION_LENGTHS]
    return pd.concat(stated, axis=1).any(axis=1)


def _headed_as_neck(table: IndexTable) -> "pd.Series[bool]":
    """Return which rows stand in a table whose column of extension lengths is headed as one of neck tubes."""
    headed = {
        table_id: "extension_length" in read.columns and says(NECK, read.columns["extension_length"].heading)
        for table_id, read in table.tables.items()
    }
    return table.frame["table_id"].map(headed).astype(bool)


def _doubt_by_other_words(frame: Frame) -> None:
    """Take the extension as unknown where a row names none in its own cell, and one in its type or elsewhere."""
    silent = frame.index[frame["arrangement_from"].isin(["basis, no column", "blank cell"])]
    if "has_unread_extension" in frame:
        unread = silent[frame.loc[silent, "has_unread_extension"].astype(bool)]
        frame.loc[unread, "arrangement"], frame.loc[unread, "arrangement_from"] = "", "unknown"
    for row_id, types, others in _other_words(frame, silent):
        unit = word(frame, row_id, "unit")
        texts = [without_other_joints(folded(text)) for text in (*types, *others)]
        if any(says(EXTENSION_ELSEWHERE, text) or extension_remark(text, unit).stands for text in texts):
            frame.at[row_id, "arrangement"] = ""
            frame.at[row_id, "arrangement_from"] = "unknown"


def _tell_union(frame: Frame) -> None:
    """Tell what a union alone is: under a fitting it is the top, under a head a second nipple stands on it."""
    union = frame["arrangement"] == "union"
    frame.loc[union & frame["mounting"].isin(FITTINGS), "arrangement"] = "nipple and union"
    frame.loc[union & frame["mounting"].isin(INSERTS), "arrangement"] = "nipple-union-nipple"
    frame.loc[frame["arrangement"] == "union", "arrangement"] = ""


def _doubt_second_nipple(frame: Frame) -> None:
    """Take an extension as unknown that has no place for a second nipple where one is stated."""
    has_no_place = ~frame["arrangement"].isin(["nipple-union-nipple", "none"])
    frame.loc[has_no_place & (frame["second_nipple_length_mm"] > 0), "arrangement"] = ""


def _read_words(frame: Frame) -> None:
    """Add the nipple length that stands in the words of the arrangement, and whether they speak of two equal ones."""
    found = [
        length_in_words(text, unit) for text, unit in zip(frame["extension_arrangement"], frame["unit"], strict=True)
    ]
    frame["worded_nipple_mm"] = [length for length, _ in found]
    frame["nipples_are_equal"] = [is_pair for _, is_pair in found]


PAIR = re.compile(r"\b(?:2|TWO)\b ?(?:X|NO\.?S?|NOS|OFF|PCS|EQUAL|EA)? ?(?=\d|NIPPLE|NIP)")
LENGTH = re.compile(r"(?P<number>\d+[- ]\d+/\d+|\d+/\d+|\d+[.,]\d+|\d+) ?(?P<unit>MM|CM|\"|''|IN\b\.?|INCH(?:ES)?\b)?")
UNITS = {"MM": "mm", "CM": "cm", "": ""}


@lru_cache(maxsize=65536)
def length_in_words(text: str, unit: str) -> tuple[float, bool]:
    """Return the one length that an arrangement's words hold [mm] (NaN: none, or several), and whether it counts twice."""
    plain = SIZE.sub(" ", folded(text).replace("”", '"').replace("″", '"'))
    is_pair = bool(PAIR.search(plain))
    rest = PAIR.sub(" ", plain) if is_pair else plain
    found = {(match["number"], match["unit"] or "") for match in LENGTH.finditer(rest)}
    if len(found) != 1:
        return float("nan"), is_pair
    number, written = found.pop()
    whole, _, part = number.replace("-", " ").rpartition(" ")
    value = (Fraction(whole) if whole else 0) + Fraction(part.replace(",", "."))
    known = UNITS.get(written.rstrip("."), "in") or unit
    return (to_mm(Fraction(value), known) if known else float("nan")), is_pair


def add_extension_lengths(frame: Frame, basis: Basis) -> None:
    """Add the lengths that the extension's parts have: nipples, neck, an installed length that is given."""
    nan = np.nan
    arrangement = frame["arrangement"].to_numpy(dtype=object)
    nipple, extension = frame["nipple_length_mm"].to_numpy(float), frame["extension_length_mm"].to_numpy(float)
    is_nipple = np.isin(arrangement, ["nipple", "nipple and coupling"])
    is_union = np.isin(arrangement, WITH_UNION)
    meaning = np.select(
        [is_nipple, is_union],
        [basis.choice("extension.nipple_length_means"), basis.choice("extension.union_length_means")],
        "",
    )
    worded = frame["worded_nipple_mm"].to_numpy(float)
    unlengthed = np.isnan(nipple) & np.isnan(extension) & _has_no_problem(frame)
    is_worded = unlengthed & ~np.isnan(worded)
    worded_is_bought = (is_nipple | (frame["nipples_are_equal"].to_numpy(bool) & is_union)) & is_worded
    standard = np.where(
        np.isnan(worded) & (is_nipple | is_union) & unlengthed, basis.length_mm("extension.standard_length"), nan
    )
    first = np.select(
        [
            ~np.isnan(nipple),
            (meaning == "bought") & ~np.isnan(extension),
            worded_is_bought | ((meaning == "bought") & is_worded),
        ],
        [nipple, extension, worded],
        standard,
    )
    # Where other rows state a second nipple, a blank is not known; where none does, both are bought alike.
    has_second = (frame["second_nipple_length_state"] == CellState.VALUE).groupby(frame["table_id"]).transform("any")
    taken_alike = (basis.choice("extension.union_length_means") == "bought") & ~has_second.to_numpy(bool)
    pair_is_known = frame["nipples_are_equal"].to_numpy(bool) | taken_alike | ~np.isnan(standard)
    installed = frame["installed_length_mm"].to_numpy(float)
    frame["given_installed_mm"] = np.where(
        ~np.isnan(installed), installed, np.where(meaning == "installed", extension, nan)
    )
    frame["first_nipple_mm"] = np.where(is_nipple | is_union, first, nan)
    second = frame["second_nipple_length_mm"].to_numpy(float)
    is_second_blank = frame["second_nipple_length_state"].isin(GONE).to_numpy(bool)
    second = np.where(pair_is_known & is_second_blank, first, second)
    is_pair = arrangement == "nipple-union-nipple"
    frame["second_nipple_mm"] = np.where(is_pair, second, nan)
    in_words = frame["nipples_are_equal"].to_numpy(bool) | ~np.isnan(standard)
    frame["second_is_taken"] = is_pair & is_second_blank & taken_alike & ~in_words & ~np.isnan(first)
    frame["second_is_missing"] = is_pair & ~np.isnan(first) & np.isnan(second)
    neck = np.where(np.isnan(extension) & np.isnan(nipple), worded, np.where(np.isnan(extension), nipple, extension))
    frame["neck_mm"] = np.where(arrangement == "neck tube", neck, nan)
    frame["extension_is_standard"] = ~np.isnan(standard) & (first == standard)


def _has_no_problem(frame: Frame) -> "np.ndarray[tuple[int], np.dtype[np.bool_]]":
    clean = (
        frame["nipple_length_state"].isin(GONE)
        & frame["extension_length_state"].isin(GONE)
        & frame["installed_length_state"].isin(GONE)
    )
    return np.asarray(clean.to_numpy(bool))
