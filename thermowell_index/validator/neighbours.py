"""What a run of neighbouring rows shows: a column pasted some rows off, lengths filled down."""

from dataclasses import dataclass

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.dictionary import FIELD
from thermowell_index.findings import Severity
from thermowell_index.records.words import each_distinct, folded
from thermowell_index.registry import Withholds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.validator.family import head_length, head_limits
from thermowell_index.validator.well import EPSILON_MM, is_surveyed, own_bore, sum_limit
from thermowell_index.wording import row_lengths

Flags = NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True)
class _Slide:
    """Columns of a table that are some rows out of step: in which rows, and which columns then add up."""

    partner: str
    step: int
    rows: "pd.Index[int]"

    @property
    def words(self) -> str:
        where = "below" if self.step > 0 else "above"
        row = f"{ORDINALS[abs(self.step)]}row {where} it"
        return f"the overall length of each adds up with the {self.partner} of the {row}, not with its own"


def _runs(before: Flags, after: Flags, basis: Basis) -> Flags:
    """Return which places lie in a window where few add up as they stand and nearly all once moved."""
    width = int(basis.number("family.slid_rows"))
    marked = np.zeros(len(before), dtype=bool)
    windows_before = np.lib.stride_tricks.sliding_window_view(before, width).mean(axis=1)
    windows_after = np.lib.stride_tricks.sliding_window_view(after, width).mean(axis=1)
    slid = (windows_before < basis.number("family.slid_before")) & (windows_after > basis.number("family.slid_after"))
    for start in np.flatnonzero(slid):
        marked[start : start + width] = True
    return marked


def _sums(rows: Frame, basis: Basis) -> Flags:
    """Return which rows' overall length is bore depth and tip."""
    off = (rows["overall_length_mm"] - rows["tip_used_mm"] - own_bore(rows)).abs()
    return np.asarray(off <= sum_limit(rows, basis) + EPSILON_MM)


def _heads(rows: Frame, basis: Basis) -> Flags:
    """Return which rows' overall, insertion and lagging length leave a head that such wells have."""
    least, most = head_limits(rows, basis)
    head = head_length(rows)
    return np.asarray((head >= least - EPSILON_MM) & (head <= most + EPSILON_MM))


def _moved(rows: Frame, names: tuple[str, ...], step: int) -> Frame:
    return rows.assign(**{name: rows[name].shift(-step) for name in names})


BORES = ("bore_depth_mm", "measured_bore_depth_mm")
INSERTIONS = ("insertion_length_mm", "lagging_length_mm")


def _slides_of(rows: Frame, basis: Basis) -> _Slide | None:
    """Return what is out of step in one table, where the most rows show it."""
    if len(rows) < basis.number("family.slid_rows"):
        return None
    sums, heads = _sums(rows, basis), _heads(rows, basis)
    found: list[_Slide] = []
    for step in _steps(basis):
        by_bore = _runs(sums, _sums(_moved(rows, BORES, step), basis), basis)
        by_head = _runs(heads, _heads(_moved(rows, INSERTIONS, step), basis), basis)
        found += [
            _Slide(partner=partner, step=step, rows=rows.index[_with_partners(marked, step)])
            for partner, marked in (
                ("bore depth and insertion length", by_bore & by_head),
                ("bore depth", by_bore),
                ("insertion length", by_head),
            )
        ]
    best = max(found, key=lambda slide: len(slide.rows))
    return best if len(best.rows) else None


def _with_partners(marked: Flags, step: int) -> Flags:
    """Return the marked rows and the rows whose values they were found to fit."""
    partners = np.zeros_like(marked)
    if step > 0:
        partners[step:] = marked[:-step]
    else:
        partners[:step] = marked[-step:]
    return marked | partners


def _steps(basis: Basis) -> list[int]:
    """Return by how many rows a column is looked for, nearest first."""
    farthest = min(int(basis.number("family.slid_farthest")), len(ORDINALS))
    return [sign * step for step in range(1, farthest + 1) for sign in (1, -1)]


ORDINALS = {1: "", 2: "second ", 3: "third "}


def _slides(frame: Frame, basis: Basis) -> list[_Slide]:
    slides = (_slides_of(rows, basis) for _, rows in frame.groupby("table_id", sort=False))
    return [slide for slide in slides if slide is not None]


def _slide_words(frame: Frame, basis: Basis) -> "pd.Series[str]":
    texts = pd.Series("", index=frame.index, dtype=object)
    for slide in _slides(frame, basis):
        texts[slide.rows] = slide.words
    return texts.where(texts != "", frame["slid_since"].astype(object))


@rule(
    severity=Severity.ERROR,
    field="overall_length",
    found=_slide_words,
    expected="lengths that stand on the rows of their own tags",
    action="go back to the revision before the column was sorted or pasted; do not move it back by eye",
    source=PRACTICE,
    condition="8 neighbours or more of which less than 60 % add up, and more than 90 % once one column is moved by up to three rows; or 5 or more that bear the lengths of the rows above or below in the issue before",
    withholds=Withholds.ALWAYS,
    group=_slide_words,
)
def values_slid_against_tags(frame: Frame, basis: Basis) -> Hits:
    """A column of lengths stands some rows off its tags.

    It was sorted or pasted without the others. Every length in the run belongs to a neighbour's well. A row whose bore depth was read for the
    Field survey is left alone.
    """
    return (_slide_words(frame, basis) != "") & ~is_surveyed(frame, "measured_bore_depth")


COPIED = ("overall_length_mm", "bore_depth_mm", "probe_length_mm")


def _copied_runs(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return by row the run of equal lengths that it lies in, in words; empty outside of one."""
    lengths = frame[list(COPIED)].round(3).fillna(-1.0)
    is_bare = (lengths > 0).sum(axis=1) < len(COPIED) - 1
    begins = (lengths != lengths.shift()).any(axis=1) | (frame["table_id"] != frame["table_id"].shift()) | is_bare
    texts = pd.Series("", index=frame.index, dtype=object)
    runs = begins.cumsum().astype(int)
    is_long = (runs.groupby(runs).transform("size") >= basis.number("family.copied_rows")) & ~is_bare
    kinds = _kinds(frame, runs)
    is_copied = is_long & (kinds >= basis.number("family.copied_kinds"))
    if not is_copied.any():
        return texts
    firsts = frame.loc[is_copied & begins, [*COPIED, "unit", "in_fractions"]]
    counts = runs[is_copied].value_counts()
    words = _run_words(firsts, runs[firsts.index].map(counts), kinds[firsts.index])
    texts[is_copied] = runs[is_copied].map(dict(zip(runs[firsts.index], words, strict=True)))
    return texts


def _kinds(frame: Frame, runs: "pd.Series[int]") -> "pd.Series[int]":
    """Return by row over how many line sizes, or sizes or kinds of connection, its run goes."""
    counts = []
    for name in ("line_size", "connection_size", "well_connection"):
        texts = each_distinct(frame[name], folded)
        counts.append(texts.where(texts != "").groupby(runs).transform("nunique"))
    return pd.concat(counts, axis=1).max(axis=1)


def _run_words(firsts: Frame, counts: "pd.Series[int]", kinds: "pd.Series[int]") -> "pd.Series[str]":
    """Return what the first row of each run shows, in words."""
    lengths = pd.Series("", index=firsts.index, dtype=object)
    for name in COPIED:
        said = FIELD[name.removesuffix("_mm")].label + " " + row_lengths(firsts[name], firsts)
        more = lengths.where(lengths == "", lengths + ", ") + said
        lengths = lengths.where(firsts[name].isna(), more)
    return counts.astype(str) + " neighbours on " + kinds.astype(str) + " sizes or connections have " + lengths


@rule(
    severity=Severity.WARNING,
    field="overall_length",
    found=_copied_runs,
    expected="lengths of each well's own",
    action="compare a few of these rows with the wells' drawings before any length is ordered",
    source=PRACTICE,
    condition="10 neighbours or more with the same overall length, bore depth and probe length over 3 line sizes or connections",
    group=_copied_runs,
    yields_to=("values_slid_against_tags",),
)
def run_of_copied_values(frame: Frame, basis: Basis) -> Hits:
    """A run of rows has the same lengths on lines or connections of different sizes.

    They look filled down from one row.
    """
    return _copied_runs(frame, basis) != ""
