"""What a row says of itself: its status, and that it is no sensor in a well."""

import pandas as pd

from thermowell_index.basis import PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.registry import Folds, Scope, rule
from thermowell_index.table import Frame, Hits


@rule(
    severity=Severity.NOTE,
    field="row_status",
    expected="a status word that is known",
    action="check that these rows are live",
    source=PRACTICE,
    condition="a status word that is not known",
    folds=Folds.ALWAYS,
)
def status_word_not_known(frame: Frame, basis: Basis) -> Hits:
    """The status of some rows is a word that is not known; they are taken as live."""
    return frame["detail_status_word_not_known"] != ""


def _stem_words(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return frame["reason"].str.removeprefix("not a sensor in a well: ")


@rule(
    severity=Severity.NOTE,
    field="row_status",
    expected="a row that is released",
    action="order these sensors only after the hold is lifted",
    source=PRACTICE,
    condition="a status that says hold",
    folds=Folds.ALWAYS,
)
def row_on_hold(frame: Frame, basis: Basis) -> Hits:
    """The status of some rows says hold; they are live and sized, and not released yet."""
    return frame["is_on_hold"].astype(bool)


@rule(
    severity=Severity.NOTE,
    field="sensor_type",
    found=_stem_words,
    expected="a resistance element or thermocouple in a drilled well",
    action="none; such a stem is sized by its maker's own rule",
    source=PRACTICE,
    condition="bimetal, filled system, gauge, test well, multipoint",
    scope=Scope.STEMS,
    folds=Folds.REPEATED,
)
def not_a_sensor_in_a_well(frame: Frame, basis: Basis) -> Hits:
    """The row is a stem or a test well and not a sensor in a well; another sizing rule holds for it."""
    return frame["is_stem"]
