"""What a run remembers of a row."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from thermowell_index.dictionary import FIELDS
from thermowell_index.revisions.memory import RowMemory, own_cells, row_from_text
from thermowell_index.revisions.memory import remember as remember_rows
from thermowell_index.table import IndexTable

SOUND = {
    "tag": "TE-101",
    "service": "wash water",
    "overall_length (in)": "9-1/4",
    "bore_depth (in)": "9",
    "spring_travel (in)": "1",
    "remarks": "as built",
    "order_number": "",
}


@pytest.fixture
def remember(check: Callable[..., object], read_rows: Callable[..., IndexTable]) -> Callable[..., list[RowMemory]]:
    """Return a function that gives what is remembered of rows."""

    def run(*rows: dict[str, object]) -> list[RowMemory]:
        cells = own_cells(read_rows(*rows).frame, FIELDS)
        return remember_rows(check(*rows).table, cells, FIELDS)  # type: ignore[attr-defined]

    return run


def test_a_row_is_remembered_with_its_cells_as_typed_and_its_answer(
    remember: Callable[..., list[RowMemory]],
) -> None:
    (row,) = remember(SOUND)
    assert (row.tag, row.key, row.letters, row.verdict, row.unit) == ("TE-101", "TE101", "TE", "sized", "in")
    assert row.cells["bore_depth"] == "9 in"
    assert "order_number" not in row.cells
    assert row.order_mm == 228.6
    assert row_from_text(row.as_text()) == row


@pytest.mark.parametrize(
    "changes,is_same",
    [
        ({"bore_depth (in)": "9.0"}, True),
        ({"service": "hot water"}, True),
        ({"order_number": "4500-1"}, True),
        ({"bore_depth (in)": "9-1/8"}, False),
        ({"remarks": "as  built"}, True),
        ({"remarks": "replaced"}, False),
        ({"overall_length (in)": "TBD"}, False),
        ({"tip_thickness (in)": "TBD"}, True),
        ({"tip_thickness (in)": "~1/4"}, False),
    ],
)
def test_inputs_are_the_same_while_their_values_are(
    *, remember: Callable[..., list[RowMemory]], changes: dict[str, str], is_same: bool
) -> None:
    (before,), (now,) = remember(SOUND), remember({**SOUND, **changes})
    assert (before.inputs == now.inputs) is is_same


def test_the_fingerprint_tells_another_answer_to_the_same_inputs(make_row: Callable[..., RowMemory]) -> None:
    row = make_row("TE-1")
    moved = replace(row, longest_mm=(row.longest_mm or 0.0) + 0.01)
    assert row.fingerprint.partition("-1-")[0] == moved.fingerprint.partition("-1-")[0] == "inputs"
    assert row.fingerprint != moved.fingerprint
    assert replace(row, computed_mm=1.0).fingerprint == row.fingerprint


def test_a_length_is_ordered_as_it_was_when_the_order_number_came(remember: Callable[..., list[RowMemory]]) -> None:
    plain, numbered, stated = (
        remember({**SOUND, "order_number": number, "ordered_length (in)": length})[0]
        for number, length in (("", ""), ("4500-1", ""), ("4500-1", "8.9"))
    )
    assert (plain.length_when_ordered_mm, numbered.length_when_ordered_mm) == (None, 228.6)
    assert stated.length_when_ordered_mm == pytest.approx(226.06)


def test_a_well_s_row_is_remembered_by_its_place(remember: Callable[..., list[RowMemory]]) -> None:
    well = {"tag": "TW-101", "service": "", "bore_depth (in)": "9"}
    sensor = {"tag": "TE-101", "service": "wash water", "bore_depth (in)": ""}
    first, second = remember(well, sensor)
    assert (first.well_row, second.well_row) == (-1, 0)


@pytest.mark.parametrize("text", ["{", "{}", '{"tag": "TE-1", "odd": 1}', "[]"])
def test_a_damaged_line_is_a_value_error(text: str) -> None:
    with pytest.raises(ValueError, match=r"\w"):
        row_from_text(text)
