"""Rows as a run remembers them, and findings on them, changed by keyword."""

from collections.abc import Callable
from typing import Any

import pytest

from thermowell_index.findings import Finding, Severity, one_tag
from thermowell_index.revisions.memory import RowMemory

INCH = 25.4


def remembered(tag: str, row: int = 5, **changes: Any) -> RowMemory:
    """Return a sized row of nine inches."""
    well_tag = str(changes.get("well_tag", tag.replace("TE", "TW", 1)))
    values: dict[str, Any] = {
        "tag": tag,
        "well_tag": well_tag,
        "key": one_tag(tag),
        "well_key": one_tag(well_tag),
        "loop": f"|T|{tag.partition('-')[2].rstrip('ABC')}",
        "letters": tag.partition("-")[0],
        "sheet": "Index",
        "row": row,
        "cells": {"tag": tag, "well_tag": well_tag, "bore_depth": "9", "overall_length": "9-1/4"},
        "inputs": "inputs-1",
        "is_point": True,
        "verdict": "sized",
        "computed_mm": 9 * INCH,
        "order_mm": 9 * INCH,
        "shortest_mm": 8.75 * INCH,
        "longest_mm": 9.25 * INCH,
        "unit": "in",
        "in_fractions": True,
        **changes,
    }
    return RowMemory(**values)


def found_on(tag: str, place: int | None = 0, **changes: Any) -> Finding:
    """Return an error on the bore depth of a row; without a place it is known by its name alone."""
    values: dict[str, Any] = {
        "severity": Severity.ERROR,
        "rule": "bore_deeper_than_well",
        "tag": tag,
        "well_tag": tag.replace("TE", "TW", 1),
        "sheet": "Index",
        "row": 5,
        "cell": "C5",
        "field": "bore_depth",
        "found": "bore depth 9; overall length 9",
        "expected": "less",
        "explanation": "It is too deep.",
        "action": "measure it",
        "tags": (tag,),
        "row_ids": () if place is None else (place,),
        "withholds": True,
        "folded": False,
        "inputs_fingerprint": "inputs-1",
        **changes,
    }
    return Finding(**values)


@pytest.fixture
def make_row() -> Callable[..., RowMemory]:
    """Return the builder of a remembered row."""
    return remembered


@pytest.fixture
def make_finding() -> Callable[..., Finding]:
    """Return the builder of a finding."""
    return found_on
