"""What the notes above a table, and remarks in their words, say of its bore depths: their plane, and that they are not final."""

from collections.abc import Callable

import pandas as pd

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.extension_remarks import extension_remark
from thermowell_index.records.words import each_distinct, says
from thermowell_index.registry import Folds, Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.remarks import is_measured, remark_texts
from thermowell_index.validator.well import is_surveyed, quieter_where

FROM_THE_OUTSIDE = (
    r"\b(?:BORE DEPTHS?|DEPTHS?) INCL(?:UDES|UDED|UDING|UDE|\.)? (?:THE )?(?:NOZZLE|STAND-?OFF|FLANGE)"
    r"|\b(?:BORES?|(?:BORE )?DEPTHS?|BOHRUNG\w*|BOHRTIEFEN?|PROFONDEURS? DE PERCAGE|PROFUNDIDAD(?:ES)?|PROFONDITA)"
    r"(?: (?!FROM|BELOW|INSERTION|OVERALL|TIP)\w+){0,4} (?:FROM|BELOW|AB|DEPUIS|DESDE|DA|DALLA) (?:THE )?(?:OUTSIDE OF (?:THE )?)?(?:UNION|FLANGE|RAISED FACE|RF\b|WELD|PROCESS|PIPE|FLANSCH|BRIDE|BRIDA|FLANGIA)"
)


def _first_line(texts: "pd.Series[str]", is_meant: Callable[[str], bool]) -> "pd.Series[str]":
    """Return of each text the first of its lines that is meant, empty where none is."""
    return each_distinct(texts, lambda text: next((line for line in text.split(" ; ") if is_meant(line)), ""))


def _is_in_bore(line: str) -> bool:
    return bool(extension_remark(line, "").in_bore)


def _notes_on_bores(frame: Frame) -> "pd.Series[str]":
    """Return the first note or remark by which a row's bore depth holds the extension, or not the head; else empty.

    A remark on a bore depth that holds an extension which the row has is `remark_denies_extension`'s to say.
    """
    notes = frame["notes"].astype(object)
    remarks = pd.Series([text for text, _ in remark_texts(frame)], index=frame.index, dtype=object)
    is_silent = frame["arrangement_from"] == "basis, no column"
    has_none = frame["arrangement"] == "none"
    found = _first_line(notes + " ; " + remarks, lambda line: says(FROM_THE_OUTSIDE, line))
    for texts, counts in ((notes, is_silent | ~has_none), (remarks, is_silent & has_none)):
        found = found.where(found != "", _first_line(texts, _is_in_bore).where(counts, ""))
    return found


def _note_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "note " + _notes_on_bores(frame).map(repr).astype(object)


@rule(
    severity=Severity.ERROR,
    field="bore_depth",
    needs=("bore_depth_used_mm", "bore_depth_mm"),
    found=_note_found,
    expected="bore depths from the open end of the well to the bottom of the bore, the extension not in them",
    action="take off the extension, or add the head of the well, and correct note and column; measure a few of the wells",
    source=PRACTICE,
    condition="a note above the rows, or a remark, says that the bore depths include the extension, or count from a flange, a weld or the pipe; "
    "a warning beside a Field survey reading of the bore",
    withholds=Withholds.ALWAYS,
    folds=Folds.REPEATED,
)
def note_denies_bore_depths(frame: Frame, basis: Basis) -> Hits:
    """A note on the sheet says that its bore depths are measured from another plane than the open end of the well."""
    return quieter_where(is_surveyed(frame, "measured_bore_depth"), _notes_on_bores(frame) != "")


PRELIMINARY = (
    r"\b(?:BORES?|DEPTHS?|(?:THERMO)?WELL (?:DATA|DIMENSIONS|LENGTHS)|BOHRUNG\w*|BOHRTIEFEN?|PROFONDEURS?|PROFUNDIDAD(?:ES)?|PROFONDITA)\b[^;.]{0,30}\b"
    r"(?:PRELIMINARY|TO BE (?:CONFIRMED|VERIFIED|MEASURED|CHECKED)|TBC|NOT (?:VERIFIED|CONFIRMED|MEASURED)|ESTIMATED|ASSUMED"
    r"|VORLAUFIG|ZU PRUFEN|PROVISOIRES?|A VERIFIER|A CONFIRMER|PROVISIONAL(?:ES)?|POR CONFIRMAR|DA VERIFICARE)\b"
)


def _notes_of_doubt(frame: Frame) -> "pd.Series[str]":
    return _first_line(frame["notes"], lambda line: says(PRELIMINARY, line))


def _doubt_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "note " + _notes_of_doubt(frame).map(repr).astype(object)


@rule(
    severity=Severity.WARNING,
    field="bore_depth",
    needs=("bore_depth_used_mm", "bore_depth_mm", "notes"),
    found=_doubt_found,
    expected="bore depths that somebody vouches for",
    action="have the bore depths confirmed, or measure them, before the sensors are ordered",
    source=PRACTICE,
    condition="a note above the rows says that the bore depths are preliminary or to be confirmed, and none is measured",
    folds=Folds.REPEATED,
)
def note_doubts_bore_depths(frame: Frame, basis: Basis) -> Hits:
    """A note on the sheet says that its bore depths are not final."""
    return (_notes_of_doubt(frame) != "") & ~is_measured(frame)
