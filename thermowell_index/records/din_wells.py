"""Wells of the DIN forms: tubes in one piece with their neck, and plate inserts that the standard pairs with wells."""

import re
from functools import lru_cache

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.basis import Basis
from thermowell_index.records.assembly import EXTENSION_LENGTHS, INSERTS
from thermowell_index.records.words import folded
from thermowell_index.standard_inserts import STANDARD_INSERTS, StandardInsert, insert_lengths_mm, inserts_of
from thermowell_index.table import GONE, Frame

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
ONE_PIECE = ("2G", "2F", "3G", "3F")
AGREES_MM = 0.5
ROUNDED_MM = 1.5
THICKEST_BOTTOM_MM = 13.0
NAMED_FORM = r"(?:\b(?:BAU)?FORM[AE]? ?|\bVORM ?|43772[-, /]*(?:FORM[AE]? ?)?)(?P<digit>[2-4])[ -]?(?P<top>[GF])?\b"
BARE_FORM = r"(?:(?:BAU)?FORM[AE]?|VORM)? ?(?P<digit>[2-4])[ -]?(?P<top>[GF])?"


@lru_cache(maxsize=4096)
def din_form(text: str) -> str:
    """Return the form of DIN 43772 that words name, as `2G` or `4`; empty for none of forms 2 to 4."""
    plain = folded(text)
    found = re.search(NAMED_FORM, plain) or re.fullmatch(BARE_FORM, plain)
    if not found:
        return ""
    return "4" if found["digit"] == "4" else found["digit"] + (found["top"] or "")


def add_tubes(frame: Frame) -> None:
    """Settle for tubes in one piece whether their neck is in their length: the insert is sized from the total.

    Adds `din_form`; `total_length_mm`, the overall length, of a tube that has none its insertion length and neck;
    `total_neck_mm`, the neck of such a sum, else NaN; `neck_in_total`, and `neck_is_open` where the neck may be in the
    length or not, so that nothing is known.
    """
    frame["din_form"] = frame["shank_form"].map(lambda text: din_form(str(text)))
    overall, insertion = (frame[f"{name}_length_mm"].to_numpy(float) for name in ("overall", "insertion"))
    measured = frame["measured_bore_depth_mm"].to_numpy(float)
    bore = np.where(np.isnan(measured), frame["bore_depth_mm"].to_numpy(float), measured)
    is_tube = (frame["din_form"].isin(ONE_PIECE) & frame["mounting"].isin(INSERTS)).to_numpy(bool)
    standard = _standard_necks(frame, insertion)
    is_listed = _is_listed(frame, overall) | (np.isnan(overall) & ~np.isnan(standard))
    is_silent = is_tube & _says_no_neck_length(frame) & (_says_no_extension(frame) | is_listed)
    stated = np.fmax(frame["neck_mm"].to_numpy(float), frame["given_installed_mm"].to_numpy(float))
    neck = np.where(frame["arrangement"] == "neck tube", stated, np.nan)
    has_neck = is_tube & ~np.isnan(neck)
    from_parts = _is_absent(frame, "overall_length", "bore_depth", "measured_bore_depth")
    added = np.where(has_neck, neck, np.where(is_silent, standard, np.nan))
    is_derived = is_tube & from_parts & ~np.isnan(insertion + added)
    by_table = np.isnan(insertion)
    is_in = has_neck & (
        is_derived | _says(overall, bore, insertion + neck) | (by_table & _is_listed(frame, overall, neck))
    )
    is_out = (
        has_neck & ~is_in & (_says(overall, bore, insertion) | (by_table & _is_listed(frame, overall + neck, neck)))
    )
    no_room = is_silent & (np.abs(overall - insertion) < ROUNDED_MM)
    frame["total_length_mm"] = np.where(is_derived, insertion + added, overall)
    frame["total_neck_mm"] = np.where(is_derived, added, np.nan)
    frame["neck_is_remembered"] = is_derived & is_silent
    frame["neck_in_total"] = is_in | (is_derived & is_silent)
    frame["neck_is_open"] = (has_neck & ~is_in & ~is_out) | no_room
    contained = is_in | (is_silent & ~no_room)
    frame.loc[contained, "arrangement"] = "none"
    frame.loc[is_in, ["neck_mm", "given_installed_mm"]] = np.nan
    frame.loc[frame["neck_is_open"], "arrangement"] = ""
    frame.loc[frame["neck_is_open"], "given_installed_mm"] = np.nan


def _says_no_extension(frame: Frame) -> Flags:
    return np.asarray((frame["arrangement"].eq("none") | frame["extension_arrangement"].eq("")).to_numpy(bool))


def _says_no_neck_length(frame: Frame) -> Flags:
    """Whether a row names no other extension than a neck, and no length of one."""
    is_silent = frame["arrangement"].isin(["none", "neck tube", ""])
    for name in EXTENSION_LENGTHS:
        is_silent &= frame[f"{name}_state"].isin(GONE) | (frame[f"{name}_mm"] == 0)
    return np.asarray(is_silent.to_numpy(bool))


def _is_absent(frame: Frame, *names: str) -> Flags:
    return np.asarray(np.all([frame[f"{name}_state"].isin(GONE).to_numpy(bool) for name in names], axis=0))


def _standard_necks(frame: Frame, insertion: Floats) -> Floats:
    """Return the neck that the standard gives a tube of this form and insertion length [mm], NaN off its table."""
    necks = {(one.form, one.total_mm - one.neck_mm): one.neck_mm for one in STANDARD_INSERTS if one.neck_is_in_total}
    keys = zip(frame["din_form"], np.nan_to_num(insertion).round(1), strict=True)
    return np.array([necks.get(key, np.nan) for key in keys], dtype=float)


def _says(overall: Floats, bore: Floats, reach: Floats) -> Flags:
    """Whether a tube's overall length, or without one its bore depth, says that it reaches so far, bottom included."""
    bottom = reach - bore
    by_bore = np.isnan(overall) & (bottom > 0.0) & (bottom < THICKEST_BOTTOM_MM)
    return np.asarray((np.abs(reach - overall) < ROUNDED_MM) | by_bore)


def _is_listed(frame: Frame, total: Floats, neck: Floats | None = None) -> Flags:
    """Whether a tube's total length, and its neck where one is given, are in the standard's table of its form."""
    necks = np.full(len(total), np.nan) if neck is None else neck
    return np.array(
        [
            any(
                abs(one.total_mm - length) < AGREES_MM and (neck is None or abs(one.neck_mm - own) < AGREES_MM)
                for one in inserts_of(form)
            )
            for form, length, own in zip(frame["din_form"], total, necks, strict=True)
        ],
        dtype=bool,
    )


def take_standard_inserts(frame: Frame, basis: Basis) -> None:
    """Give a flanged insert without a seat height the standard one, where form or neck and total length are standard.

    A form 4 well takes the neck of 165 mm, a tube in one piece has it. Adds `is_standard_insert`, `neck_is_standard`
    where the row gives its neck no length, and `insert_is_remembered` where the standard's length comes from memory.

    Source: DIN 43772 form 4 table and a form B head, insert = total length + 175 mm (read in a trade reprint); forms
    2G, 2F, 3F: insert = total with the neck + 10 mm [memory].
    """
    is_waiting = (frame["mounting"] == "flanged insert").to_numpy(bool) & frame["seat_offset_mm"].isna().to_numpy(bool)
    hits = _hits(frame, is_waiting)
    hit = np.array([one is not None for one in hits], dtype=bool)
    frame["is_standard_insert"] = hit
    remembered = np.array([one is not None and one.is_remembered for one in hits], dtype=bool)
    frame["insert_is_remembered"] = remembered | frame["neck_is_remembered"].to_numpy(bool)
    frame.loc[hit, "seat_offset_mm"] = basis.length_mm("standard_insert.seat_offset")
    no_travel = (
        hit & frame["spring_travel_state"].isin(GONE).to_numpy(bool) & ~frame["travel_is_carried"].to_numpy(bool)
    )
    frame.loc[no_travel, ["travel_mm", "travel_most_mm"]] = basis.length_mm("standard_insert.travel")
    on_neck = np.array([one is not None and not one.neck_is_in_total for one in hits], dtype=bool)
    frame["neck_is_standard"] = on_neck & frame["extension_installed_mm"].isna().to_numpy(bool)
    frame.loc[on_neck, "extension_installed_mm"] = [one.neck_mm for one in hits if one and not one.neck_is_in_total]
    frame.loc[on_neck & (frame["arrangement"] == "").to_numpy(bool), "arrangement"] = "neck tube"
    frame["standard_lengths"] = pd.Series(
        [
            insert_lengths_mm(one.form) if one else kept
            for one, kept in zip(hits, frame["standard_lengths"], strict=True)
        ],
        index=frame.index,
        dtype=object,
    )
    total = frame["total_length_mm"].to_numpy(float)
    is_listed = (frame["din_form"] != "").to_numpy(bool) & _is_listed(frame, total)
    assumed = (hit | is_listed) & (frame["bore_depth_basis"] == "overall less assumed tip").to_numpy(bool)
    frame.loc[assumed, ["tip_thinner_mm", "tip_thicker_mm"]] = 0.0  # the table gives the bottom, it is not a guess


def _hits(frame: Frame, is_waiting: Flags) -> list[StandardInsert | None]:
    """Return the well of the standard that each row is, None where it is none or the row does not wait for one."""
    installed = frame["extension_installed_mm"].to_numpy(float)
    has_no_length = frame["extension_length_state"].isin(GONE).to_numpy(bool)
    neck_is_open = np.isnan(installed) & frame["arrangement"].isin(["neck tube", ""]).to_numpy(bool) & has_no_length
    rows = zip(is_waiting, frame["din_form"], frame["total_length_mm"], installed, neck_is_open, strict=True)
    return [_hit(form, total, neck, is_open=is_open) if waits else None for waits, form, total, neck, is_open in rows]


def _hit(form: str, total_mm: float, neck_mm: float, *, is_open: bool) -> StandardInsert | None:
    for one in STANDARD_INSERTS:
        if not abs(one.total_mm - total_mm) < AGREES_MM:
            continue
        if one.neck_is_in_total:
            is_it = form == one.form and abs(neck_mm) < AGREES_MM
        else:
            is_it = form not in ONE_PIECE and (abs(neck_mm - one.neck_mm) < AGREES_MM or (form == one.form and is_open))
        if is_it:
            return one
    return None
