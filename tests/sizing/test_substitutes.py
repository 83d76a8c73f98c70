"""What fits from the store, what has to be confirmed, and that no piece is promised twice."""

from typing import Any

import numpy as np
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_bipartite_matching

from thermowell_index.answers import StockItem, StoreList, Substitutes
from thermowell_index.sizing.elements import element_of
from thermowell_index.sizing.substitutes import substitutes

NAN = float("nan")


def row(**changes: Any) -> dict[str, Any]:
    """Return a sized row, changed by keyword."""
    return {
        "tag": "TE-1",
        "sheet": "Mixing",
        "row": 6,
        "quantity": 1,
        "increment_unit": "mm",
        "probe_length_order_mm": 230.0,
        "shortest_fit_mm": 221.0,
        "longest_fit_mm": 237.0,
        "mounting": "spring-loaded fitting",
        "sheath_diameter_mm": 6.0,
        "bore_diameter_mm": NAN,
        "thread_text": "1/2 NPT",
        "thread_is_assumed": False,
        "sensor_type": "RTD Pt100",
        "element_count": "",
        "sheath_material": "",
        **changes,
    }


def item(**changes: Any) -> StockItem:
    """Return an item that fits that row, changed by keyword."""
    values: dict[str, Any] = {
        "item": "S-1",
        "sheet": "Store",
        "row": 2,
        "length_mm": 230.0,
        "unit": "mm",
        "diameter_mm": 6.0,
        "diameter": "6 mm",
        "mounting": "spring-loaded fitting",
        "kind": "RTD Pt100",
        "thread": "1/2 NPT",
        "quantity": 1,
        **changes,
    }
    return StockItem(**values)


def answer(rows: list[dict[str, Any]], *items: StockItem) -> Substitutes:
    store = StoreList(name="store.xlsx", items=items)
    return substitutes(pd.DataFrame(rows), store, clearance_mm=0.127)


def test_a_compression_fitting_takes_any_length_from_the_least() -> None:
    clamped = {"mounting": "adjustable fitting", "longest_fit_mm": NAN}
    assert fit(clamped, mounting="compression fitting", length_mm=221.0) == (0.0, ())
    assert fit(clamped, mounting="compression fitting", length_mm=900.0) == (0.0, ())
    assert fit(clamped, mounting="compression fitting", length_mm=220.0) is None
    assert fit(clamped, mounting="spring-loaded fitting") is None


def test_a_length_in_kind_has_no_substitute() -> None:
    assert answer([row(shortest_fit_mm=NAN, longest_fit_mm=NAN)], item()).tags == ()


@pytest.mark.parametrize(
    "own,words,expected",
    [
        ("mine", "RTD Pt100 quick press", (7.0, ())),
        ("mine", "RTD Pt100", (7.0, ("sensor profile",))),
        ("", "RTD Pt100 quick press", None),
        ("other", "RTD Pt100 quick press", None),
        ("", "RTD Pt100", (7.0, ())),
    ],
)
def test_an_item_of_a_profile_of_ones_own_serves_its_rows_alone(own: str, words: str, expected: object) -> None:
    store = StoreList(name="store.xlsx", items=(item(kind=words),))
    profiles = {"mine": ("Quick-press",), "other": ("slow press",)}
    rows = pd.DataFrame([row(own_profile=own)])
    fits = substitutes(rows, store, clearance_mm=0.127, profile_words=profiles).tags[0].fits
    assert ((fits[0].margin_mm, fits[0].confirm) if fits else None) == expected


def fit(row_changes: dict[str, Any] | None = None, **changes: Any) -> tuple[float, tuple[str, ...]] | None:
    """Return margin and what to confirm, None where the item does not fit."""
    fits = answer([row(**(row_changes or {}))], item(**changes)).tags[0].fits
    return (fits[0].margin_mm, fits[0].confirm) if fits else None


def test_an_item_fits_with_what_is_left_on_the_tighter_side() -> None:
    assert fit() == (7.0, ())
    assert fit(length_mm=225.0) == (4.0, ())


@pytest.mark.parametrize("length,fits", [(221.0, True), (237.0, True), (220.999999, False), (237.000001, False)])
def test_the_limits_themselves_fit(*, length: float, fits: bool) -> None:
    assert (fit(length_mm=length) is not None) is fits


@pytest.mark.parametrize(
    "row_changes,changes",
    [
        ({}, {"mounting": "spring-loaded insert"}),
        ({}, {"diameter_mm": 6.35}),
        ({"sheath_diameter_mm": 6.35}, {"diameter_mm": 6.5}),
        ({}, {"thread": "3/4 NPT"}),
        ({}, {"thread": "G 1/2"}),
        ({}, {"thread": "1/2 NPT female"}),
        ({"thread_text": "M20x1.5"}, {"thread": "M20x2"}),
        ({}, {"kind": "T/C type K"}),
        ({}, {"kind": "Pt1000"}),
        ({"sensor_type": "TC type J"}, {"kind": "thermocouple type K"}),
        ({"sheath_diameter_mm": NAN, "bore_diameter_mm": 6.1}, {}),
        ({"element_count": "Duplex"}, {"element_count": 1}),
        ({"element_count": "1"}, {"element_count": 2}),
        ({"sensor_type": "2xPt100"}, {"element_count": 1}),
        ({"sheath_material": "316SS"}, {"sheath_material": "Exnel 600"}),
        ({"sheath_material": "alloy 625"}, {"sheath_material": "Exnel 600"}),
        ({}, {"quantity": 0}),
    ],
)
def test_what_contradicts_does_not_fit(row_changes: dict[str, Any], changes: dict[str, Any]) -> None:
    assert fit(row_changes, **changes) is None


@pytest.mark.parametrize(
    "row_changes,changes,confirm",
    [
        ({}, {"mounting": ""}, "mounting"),
        ({}, {"diameter_mm": NAN}, "sheath diameter"),
        ({"sheath_diameter_mm": NAN, "bore_diameter_mm": 6.6}, {}, "sheath diameter"),
        ({"sheath_diameter_mm": NAN}, {}, "sheath diameter"),
        ({}, {"thread": ""}, "thread"),
        ({"thread_is_assumed": True}, {}, "thread"),
        ({}, {"kind": "sensor"}, "sensor type"),
        ({"sensor_type": ""}, {}, "sensor type"),
        ({}, {"kind": "RTD"}, "sensor type"),
        ({}, {"has_described_length": True}, "length"),
        ({"element_count": "Duplex"}, {}, "element count"),
        ({"sheath_material": "316SS"}, {}, "sheath material"),
        ({"sheath_material": "316SS"}, {"sheath_material": "special"}, "sheath material"),
        ({"sheath_material": "Exnel"}, {"sheath_material": "Exnel 600"}, "sheath material"),
        ({"sheath_material": "316SS"}, {"sheath_material": "316L"}, "sheath material"),
    ],
)
def test_what_nobody_states_has_to_be_confirmed(
    row_changes: dict[str, Any], changes: dict[str, Any], confirm: str
) -> None:
    assert fit(row_changes, **changes) == (7.0, (confirm,))


@pytest.mark.parametrize(
    "row_changes,changes",
    [
        ({"sheath_diameter_mm": 6.35}, {"diameter_mm": 6.4}),
        (
            {"mounting": "spring-loaded insert", "thread_text": ""},
            {"mounting": "spring-loaded insert", "thread": "G 1"},
        ),
        ({"thread_text": "M20x1.5"}, {"thread": "M20x1.5"}),
        ({}, {"thread": "1/2 NPT male"}),
        ({"sensor_type": "thermocouple type K"}, {"kind": "T/C K"}),
        ({"element_count": "dual"}, {"element_count": 2}),
        ({}, {"element_count": 2, "sheath_material": "Exnel 600"}),
        ({"sheath_material": "2.4816"}, {"sheath_material": "Exnel 600"}),
        ({"sheath_material": "316 SS"}, {"sheath_material": "SS316"}),
        ({"sheath_material": "Special alloy"}, {"sheath_material": "special-alloy"}),
    ],
)
def test_what_says_the_same_in_other_words_fits(row_changes: dict[str, Any], changes: dict[str, Any]) -> None:
    assert fit(row_changes, **changes) == (7.0, ())


def test_the_best_margin_stands_first_and_what_has_most_to_be_confirmed_last() -> None:
    items = (
        item(item="A", length_mm=225.0),
        item(item="B", mounting="", thread=""),
        item(item="C", length_mm=228.0),
        item(item="D", length_mm=225.0, thread=""),
    )
    assert [fit.item.item for fit in answer([row()], *items).tags[0].fits] == ["C", "A", "D", "B"]


def test_no_piece_is_set_aside_twice() -> None:
    rows = [row(tag=f"TE-{number}") for number in (1, 2, 3)]
    found = answer(rows, item(quantity=2))
    assert sorted(len(tag.set_aside) for tag in found.tags) == [0, 1, 1]
    use = found.items[0]
    assert (len(use.serves), len(use.also_fits)) == (2, 1)
    assert {*use.serves, *use.also_fits} == {"TE-1", "TE-2", "TE-3"}


def test_an_item_set_aside_gives_way_where_both_can_be_served() -> None:
    # both items fit the first row, best the one that alone fits the second
    first, second = row(tag="TE-1"), row(tag="TE-2", shortest_fit_mm=229.0, longest_fit_mm=231.0)
    found = answer([first, second], item(item="A"), item(item="B", length_mm=225.0))
    assert [tag.set_aside for tag in found.tags] == [("B",), ("A",)]


def test_items_change_hands_along_a_chain() -> None:
    # A and C fit the first row, A and B the others, each with 1 mm; A is asked for first
    first = row(tag="TE-1", shortest_fit_mm=224.0, longest_fit_mm=231.0)
    others = [row(tag=tag, shortest_fit_mm=229.0, longest_fit_mm=236.0) for tag in ("TE-2", "TE-3")]
    found = answer([first, *others], item(item="A"), item(item="B", length_mm=235.0), item(item="C", length_mm=225.0))
    assert [tag.set_aside for tag in found.tags] == [("C",), ("B",), ("A",)]


def test_a_row_that_wants_two_is_served_twice_and_one_that_wants_none_not_at_all() -> None:
    rows = [row(tag="TE-1", quantity=2), row(tag="TE-2", quantity=0)]
    found = answer(rows, item(item="A", quantity=5))
    assert [tag.set_aside for tag in found.tags] == [("A", "A"), ()]
    assert (found.items[0].serves, found.items[0].also_fits) == (("TE-1", "TE-1"), ("TE-2",))


def test_an_item_whose_length_its_description_states_goes_after_one_with_a_column() -> None:
    # B is the better margin, C has more to be confirmed; TE-2 fits A alone, which TE-1 has to leave for C, not B
    items = (
        item(item="A", length_mm=230.0),
        item(item="B", length_mm=229.0, has_described_length=True),
        item(item="C", length_mm=225.0, thread="", mounting=""),
    )
    rows = [row(tag="TE-1"), row(tag="TE-2", shortest_fit_mm=229.5, longest_fit_mm=231.0)]
    assert [tag.set_aside for tag in answer(rows, *items).tags] == [("C",), ("A",)]
    more = [*rows, row(tag="TE-3")]
    assert sorted(name for tag in answer(more, *items).tags for name in tag.set_aside) == ["A", "B", "C"]


def test_an_item_whose_quantity_is_not_stated_is_named_and_never_set_aside() -> None:
    found = answer([row()], item(item="A", quantity=None), item(item="B", length_mm=225.0))
    assert [fit.item.item for fit in found.tags[0].fits] == ["A", "B"]
    assert found.tags[0].set_aside == ("B",)
    assert (found.items[0].serves, found.items[0].also_fits) == ((), ("TE-1",))


def test_a_row_without_a_length_is_passed_over() -> None:
    assert answer([row(probe_length_order_mm=NAN)], item()).tags == ()


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 20), st.integers(0, 6), st.integers(0, 2)), min_size=1, max_size=9),
    st.lists(st.tuples(st.integers(0, 24), st.integers(0, 3), st.booleans()), min_size=1, max_size=7),
)
def test_as_many_sensors_are_served_as_can_be(
    wells: list[tuple[int, int, int]], stock: list[tuple[int, int, bool]]
) -> None:
    rows = [
        row(tag=f"TE-{n}", shortest_fit_mm=200.0 + a, longest_fit_mm=200.0 + a + width, quantity=count)
        for n, (a, width, count) in enumerate(wells)
    ]
    items = (
        item(item=f"S-{n}", length_mm=200.0 + at, quantity=quantity, has_described_length=is_described)
        for n, (at, quantity, is_described) in enumerate(stock)
    )
    found = answer(rows, *items)
    demands = [(a, a + width) for a, width, count in wells for _ in range(count)]
    pieces = [at for at, quantity, _ in stock for _ in range(quantity)]
    table = np.array([[a <= at <= b for at in pieces] for a, b in demands], dtype=int).reshape(
        len(demands), len(pieces)
    )
    most = (
        int((maximum_bipartite_matching(csr_array(table), perm_type="column") >= 0).sum()) if demands and pieces else 0
    )
    assert sum(len(tag.set_aside) for tag in found.tags) == most
    for use, (_, quantity, _) in zip(found.items, stock, strict=True):
        assert len(use.serves) <= quantity
    for tag, (_, _, count) in zip(found.tags, wells, strict=True):
        assert len(tag.set_aside) <= count
        assert set(tag.set_aside) <= {fit.item.item for fit in tag.fits}


@pytest.mark.parametrize(
    "text,kind",
    [
        ("RTD", "resistance"),
        ("Pt-100", "resistance 100"),
        ("3 wire PT 1000", "resistance 1000"),
        ("Widerstandsthermometer", "resistance"),
        ("K", "thermocouple K"),
        ("TC", "thermocouple"),
        ("Thermocouple Type N", "thermocouple N"),
        ("RTD or T/C", ""),
        ("sensor", ""),
        ("", ""),
    ],
)
def test_the_kind_of_element_in_words(text: str, kind: str) -> None:
    assert element_of(text) == kind
