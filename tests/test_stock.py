"""A store's list: which column is what, which unit holds, and which lines cannot be used and why."""

import math
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from openpyxl import Workbook

from thermowell_index.answers import PassedOver, StockItem
from thermowell_index.errors import WorkbookError
from thermowell_index.pipeline import Settings, check_workbook
from thermowell_index.stock import read_stock

HEADINGS = ("Item", "Description", "Length (in)", "Sheath dia. (in)", "Thread", "Qty")
LINE = ("S-1", "RTD Pt100, spring-loaded fitting", "9-1/4", "1/4", "1/2 NPT", 3)


@pytest.fixture
def stock_file(tmp_path: Path) -> Callable[..., Path]:
    """Writes rows as the first sheet of a workbook."""

    def write(*rows: Sequence[object]) -> Path:
        book = Workbook()
        sheet = book.create_sheet("Store", 0)
        for row in rows:
            sheet.append(list(row))
        book.save(tmp_path / "store.xlsx")
        return tmp_path / "store.xlsx"

    return write


StockFile = Callable[..., Path]


def reasons(path: Path) -> list[tuple[str, str]]:
    return [(passed.line, passed.reason) for passed in read_stock(path).passed_over]


def only(path: Path) -> StockItem:
    found = read_stock(path)
    assert (len(found.items), found.passed_over) == (1, ())
    return found.items[0]


def test_a_line_is_read_as_it_stands(stock_file: StockFile) -> None:
    assert only(stock_file(["Store 4"], [], HEADINGS, LINE)) == StockItem(
        item="S-1",
        sheet="Store",
        row=4,
        length_mm=234.95,
        unit="in",
        diameter_mm=6.35,
        diameter="1/4 in",
        mounting="spring-loaded fitting",
        kind="RTD Pt100, spring-loaded fitting",
        thread="1/2 NPT",
        quantity=3,
    )


def test_a_delimited_text_is_read_too(tmp_path: Path) -> None:
    path = tmp_path / "store.csv"
    path.write_text(
        "Artikel-Nr.;Länge (mm);Durchmesser (mm);Typ;Gewinde;Bestand\nA1;235,5;6,0;Pt100;G 1/2;2 Stk\n",
        encoding="utf-8",
    )
    item = only(path)
    assert (item.item, item.length_mm, item.diameter_mm, item.quantity) == ("A1", 235.5, 6.0, 2)
    assert (item.kind, item.thread, item.mounting) == ("Pt100", "G 1/2", "")


@pytest.mark.parametrize(
    "headings,length,diameter,expected",
    [
        (("Item", "Length (mm)", "Dia"), "235", "6", (235.0, "mm", 6.0)),
        (("Item", "Length (mm)", "Dia"), '9-1/4"', "1/4 in", (234.95, "in", 6.35)),
        (("Item", "Length (mm)", "Dia"), "235", "1/4", (235.0, "mm", math.nan)),
        (("Item", "Length (mm)", "Dia (in)"), "235", "1/4", (235.0, "mm", 6.35)),
        (("Item", "Length (ft)", "Dia (in)"), "1", "1/4", (304.8, "in", 6.35)),
        (("Item", "Length (in)", "Dia"), "9", "TBD", (228.6, "in", math.nan)),
    ],
)
def test_the_unit_of_a_length_is_its_own_then_its_heading_s(
    stock_file: StockFile,
    headings: Sequence[str],
    length: str,
    diameter: str,
    expected: tuple[float, str, float],
) -> None:
    item = only(stock_file(headings, ("S-1", length, diameter)))
    assert (item.length_mm, item.unit) == expected[:2]
    assert item.diameter_mm == pytest.approx(expected[2], nan_ok=True)


def test_a_unit_column_goes_before_the_heading(stock_file: StockFile) -> None:
    rows = (("Item", "Length (in)", "Unit"), ("S-1", 235, "mm"), ("S-2", 9, "in"))
    assert [item.length_mm for item in read_stock(stock_file(*rows)).items] == [235.0, 228.6]


@pytest.mark.parametrize(
    "length,quantity,why",
    [
        (None, 3, "no length"),
        ("TBD", 3, "no length"),
        ("9/10", 3, "length '9/10' is no length"),
        ("0", 3, "length '0' is no length"),
        ("9", None, "no quantity"),
        ("9", "some", "quantity 'some' is no number"),
        ("9", -3, "quantity -3 is less than none"),
    ],
)
def test_a_line_that_cannot_be_used_is_named_with_the_reason(
    stock_file: StockFile, length: object, quantity: object, why: str
) -> None:
    found = read_stock(stock_file(("Item", "Length (in)", "Qty"), ("S-1", length, quantity)))
    assert (found.items, found.passed_over) == ((), (PassedOver("Store row 2", "S-1", why),))


@pytest.mark.parametrize(
    "description,remark,why",
    [
        ("Gate valve", None, "its words name a valve"),
        ("Spare part", None, "its words name no sensor"),
        (None, None, "its words name no sensor"),
        ("RTD Pt100", "quarantine", "it is marked 'quarantine'"),
    ],
)
def test_what_is_no_sensor_to_be_taken_is_passed_over(
    stock_file: StockFile, description: str | None, remark: object, why: str
) -> None:
    rows = (("Item", "Description", "Length (in)", "Note"), (*LINE[:2], 9, None), ("S-2", description, 9, remark))
    found = read_stock(stock_file(*rows))
    name = ", ".join(text for text in ("S-2", description) if text)
    assert ([item.item for item in found.items], found.passed_over) == (
        ["S-1"],
        (PassedOver("Store row 3", name, why),),
    )


def test_an_item_of_several_words_is_a_description(stock_file: StockFile) -> None:
    path = stock_file(("Item", "Length (in)"), ("Gate valve", 9), ("RTD Pt100", 9))
    assert [item.item for item in read_stock(path).items] == ["RTD Pt100"]
    assert reasons(path) == [("Store row 2", "its words name a valve")]


@pytest.mark.parametrize(
    "heading,cell,description,expected",
    [
        ("Elements", "Duplex", "RTD", (2, "")),
        ("Note", None, "RTD PT100 DUPLEX SS316", (2, "stainless 316")),
        ("Sheath material", "Exnel 600", "RTD single", (1, "Exnel 600")),
        ("Note", None, "RTD", (0, "")),
    ],
)
def test_how_many_elements_and_which_sheath_are_read(
    stock_file: StockFile, heading: str, cell: object, description: str, expected: tuple[int, str]
) -> None:
    item = only(stock_file(("Item", "Description", "Length (in)", heading), ("S-1", description, 9, cell)))
    assert (item.element_count, item.sheath_material) == expected


COLUMNS = ("Item", "Description", "Length", "Dia", "Thread", "Mounting", "Type", "Elements", "Sheath material")
SOUND = ("S-1", "RTD", "9 in", "1/4 in", "1/2 NPT", "Spring-loaded fitting", "RTD Pt100", "Simplex", "316SS")


@pytest.mark.parametrize(
    "description,why",
    [
        ('RTD 1/4" X 7"', "its description says 7 in, its length column 9 in"),
        ("RTD 300 mm", "its description says 300 mm, its length column 9 in"),
        ("RTD 6mm", "its description says 6 mm, its diameter column 1/4 in"),
        ("RTD 3/4NPT", "its description says 3/4NPT, its thread column 1/2 NPT"),
        (
            "RTD, compression fitting",
            "its description says compression fitting, its mounting column spring-loaded fitting",
        ),
        ("RTD fixed fitting", "its description says fixed fitting, its mounting column spring-loaded fitting"),
        ("Thermocouple K", "its description says thermocouple K, its type column resistance 100"),
        ("RTD duplex", "its description says two elements, its elements column one element"),
        ("RTD Exnel 600", "its description says nickel alloy 600, its material column stainless 316"),
    ],
)
def test_a_description_that_contradicts_a_column_is_no_item(stock_file: StockFile, description: str, why: str) -> None:
    path = stock_file(COLUMNS, (SOUND[0], description, *SOUND[2:]))
    assert (read_stock(path).items, reasons(path)) == ((), [("Store row 2", why)])


@pytest.mark.parametrize(
    "description",
    [
        'RTD Pt100 simplex 1/4" X 9" 1/2 NPT 316SS',
        "RTD 6.4 mm x 229 mm",
        "RTD 230 mm",
        "spring-loaded RTD",
        "RTD PT100",
    ],
)
def test_a_description_that_says_the_same_is_sound(stock_file: StockFile, description: str) -> None:
    assert only(stock_file(COLUMNS, (SOUND[0], description, *SOUND[2:]))).length_mm == 228.6


def test_what_the_description_states_counts_where_a_column_is_blank(stock_file: StockFile) -> None:
    text = "Termopar Tipo K 6MM 3/4NPT with compression fitting, duplex SS316"
    item = only(stock_file(COLUMNS, ("S-1", text, "9 in")))
    assert (item.diameter, item.thread, item.mounting) == ("6 mm", "3/4NPT", "compression fitting")
    assert (item.element_count, item.sheath_material, item.has_described_length) == (2, "stainless 316", False)


@pytest.mark.parametrize("headings", [("Item", "Description", "Qty"), ("Item", "Description", "Qty", "Length")])
def test_a_length_is_read_from_the_description_where_its_cell_is_blank(
    stock_file: StockFile, headings: Sequence[str]
) -> None:
    rows = (("S-1", "RTD PT100 6MM X 375MM 1/2NPT", 2), ("S-2", "RTD PT100", 1), ("S-3", "RTD 6 X 375", 1))
    found = read_stock(stock_file(headings, *rows))
    assert [(item.length_mm, item.unit, item.diameter_mm, item.has_described_length) for item in found.items] == [
        (375.0, "mm", 6.0, True)
    ]
    assert [(passed.item, passed.reason) for passed in found.passed_over] == [
        ("S-2, RTD PT100", "no length"),
        ("S-3, RTD 6 X 375", "no length"),
    ]
    note = "Store: no length column was found, lengths are those in the descriptions."
    assert found.notes == (() if "Length" in headings else (note,))


def test_descriptions_without_a_length_are_no_list(stock_file: StockFile) -> None:
    with pytest.raises(WorkbookError, match="no store's list in it"):
        read_stock(stock_file(("Item", "Description"), ("1", "RTD Pt100")))


def test_a_length_without_any_unit_is_not_used(stock_file: StockFile) -> None:
    why = "length '9' has no unit that fits it"
    assert reasons(stock_file(("Item", "Length"), ("S-1", 9))) == [("Store row 2", why)]


def test_a_number_that_is_no_length_in_its_unit_is_said(stock_file: StockFile) -> None:
    path = stock_file(("Item", "Length (in)"), ("S-1", 230), ("S-2", 120))
    assert [item.item for item in read_stock(path).items] == ["S-2"]
    assert reasons(path) == [
        ("Store row 2", "length 230 in is implausible, more than 120 in: look at its unit"),
    ]


def test_a_line_that_stands_there_twice_counts_once(stock_file: StockFile) -> None:
    other = (*LINE[:-1], 5)
    path = stock_file(HEADINGS, LINE, other, LINE)
    assert [item.quantity for item in read_stock(path).items] == [3, 5]
    assert reasons(path) == [("Store row 4", "the same as row 2, counted once")]


@pytest.mark.parametrize(
    "quantity,count", [(3, 3), ("3 pcs", 3), ("3.0", 3), ("2 each", 2), (0, 0), ("None", 0), ("nil", 0)]
)
def test_a_quantity_is_read_with_its_word(stock_file: StockFile, quantity: object, count: int) -> None:
    assert only(stock_file(("Item", "Length (in)", "Qty"), ("S-1", 9, quantity))).quantity == count


@pytest.mark.parametrize(
    "heading",
    [
        "Qty OH",
        "QOH",
        "SOH",
        "Bal",
        "Bal.",
        "Avail.",
        "Qty avail.",
        "Free stock",
        "Unrestricted",
        "Existencias",
        "Cant.",
        "Pcs",
        "Lagerbestand",
        "Disponible",
        "Giacenza",
        "Voorraad",
        "Estoque",
        "No. off",
        "Stock on hand",
    ],
)
def test_a_store_s_word_for_what_is_there_is_known(stock_file: StockFile, heading: str) -> None:
    found = read_stock(stock_file(("Item", "Length (in)", heading), ("S-1", 9, 4)))
    assert ([item.quantity for item in found.items], found.notes) == ([4], ())


@pytest.mark.parametrize("heading", ["Min. stock", "Max stock qty", "Reorder qty", "Qty on order", "Weight"])
def test_without_a_column_of_what_is_there_the_quantity_is_not_stated(stock_file: StockFile, heading: str) -> None:
    found = read_stock(stock_file(("Item", "Length (in)", heading), ("S-1", 9, 4)))
    assert [item.quantity for item in found.items] == [None]
    assert found.notes == (
        "Store: no quantity column was found: how many there are is not stated, and none is set aside.",
    )


def test_an_item_without_a_number_is_known_by_its_description_or_its_row(stock_file: StockFile) -> None:
    assert only(stock_file(("Description", "Length (in)", "Qty"), ("RTD insert", 9, 1))).item == "RTD insert"
    assert only(stock_file(("Length (in)", "Qty"), (9, 1))).item == "row 2"


def test_the_first_of_two_columns_of_one_meaning_is_read(stock_file: StockFile) -> None:
    assert only(stock_file(("Item", "Length (in)", "Length (mm)"), ("S-1", 9, 300))).length_mm == 228.6


def test_what_the_type_says_already_is_not_said_twice(stock_file: StockFile) -> None:
    rows = (("Item", "Type", "Description", "Length (in)"), ("S-1", "RTD", "RTD insert, spring loaded", 9))
    item = only(stock_file(*rows))
    assert (item.kind, item.mounting) == ("RTD insert, spring loaded", "spring-loaded insert")


def test_a_workbook_without_a_list_is_refused_in_one_line(stock_file: StockFile) -> None:
    with pytest.raises(WorkbookError, match="no store's list in it"):
        read_stock(stock_file(("Tag", "Bore depth (in)"), ("TE-1", 9)))


@pytest.mark.parametrize("heading", ["Stock code", "Art.-Nr.", "Mat. code", "Matl code", "Item no.", "Material"])
def test_a_store_s_word_for_its_number_is_known(stock_file: StockFile, heading: str) -> None:
    assert only(stock_file((heading, "Text", "Length (in)", "OD mm"), ("4-17", "RTD", 9, 6))) == only(
        stock_file(("Item", "Description", "Length (in)", "Dia (mm)"), ("4-17", "RTD", 9, 6))
    )


def test_a_column_of_materials_is_no_number(stock_file: StockFile) -> None:
    item = only(stock_file(("Material", "Description", "Length (in)", "Qty"), ("316SS", "RTD", 9, 1)))
    assert (item.item, item.sheath_material) == ("RTD", "316SS")


@pytest.mark.parametrize(
    "numbers,codes,expected",
    [
        ((1, 2, 2), ("A1", "A2", "A3"), ["A1", "A2", "A3"]),
        ((17, 4, 9), ("A1", "A2", "A3"), ["17", "4", "9"]),
    ],
)
def test_a_code_goes_before_a_running_number(
    stock_file: StockFile, numbers: Sequence[int], codes: Sequence[str], expected: list[str]
) -> None:
    rows = [(number, code, "RTD", 9) for number, code in zip(numbers, codes, strict=True)]
    found = read_stock(stock_file(("Item no.", "Mat. code", "Descr.", "Length (in)"), *rows))
    assert [item.item for item in found.items] == expected


def test_sheets_that_look_like_a_list_and_are_not_read_are_named(tmp_path: Path) -> None:
    book = Workbook()
    sheets: dict[str, list[Sequence[object]]] = {
        "Store": [("Item", "Length (in)", "Qty"), ("S-1", 9, 1)],
        "Unit 2": [("Code", "Text", "Insertion length mm", "OD mm"), ("S-2", "RTD", 375, 6)],
        "Unit 3": [("Store 3",), ("Place", "Thing", "Span"), ("B-1", "RTD", 375)],
        "Read me": [("Counted in November",)],
    }
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    book.save(tmp_path / "store.xlsx")
    why = "passed over, since there is no heading row with length and item or quantity"
    assert read_stock(tmp_path / "store.xlsx").notes == (
        f"Unit 2: {why}; headings that may name a length: 'Insertion length mm'.",
        f"Unit 3: {why}; its headings: 'Place', 'Thing', 'Span'.",
    )


def test_a_list_that_is_refused_is_told_which_headings_may_name_a_length(stock_file: StockFile) -> None:
    rows = (("Code", "Text", "Insertion length", "OAL (mm)"), ("S-1", "RTD", 9, 300))
    with pytest.raises(WorkbookError, match=r"may name a length: 'Insertion length', 'OAL \(mm\)'$"):
        read_stock(stock_file(*rows))


def test_a_run_with_a_store_s_list_answers_what_fits(index_file: Callable[..., Path], stock_file: StockFile) -> None:
    row = {"tag": "TE-101", "bore_depth (in)": 9, "sensor_type": "RTD", "sheath_diameter (in)": "1/4"}
    row |= {"mounting": "spring-loaded fitting", "instrument_thread": "1/2 NPT"}
    store = stock_file(HEADINGS, LINE, ("S-2", "RTD, spring-loaded fitting", 9, "1/4", "1/2 NPT", 0))
    found = check_workbook(index_file(row), Settings(stock=store), write=False).report.substitutes
    assert found is not None
    # shortest 8.7386 in, longest 9.3364 in: 9-1/4 in has 0.0864 in left; of the 9 in there is none
    assert [(fit.item.item, round(fit.margin_mm / 25.4, 4), fit.confirm) for fit in found.tags[0].fits] == [
        ("S-1", 0.0864, ("sensor type",))
    ]
    assert found.tags[0].set_aside == ("S-1",)
