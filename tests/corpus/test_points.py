"""Who is who: status and remarks, kin of one loop, wells on rows and sheets of their own."""

from collections.abc import Callable

import pytest
from openpyxl.styles import Font
from openpyxl.worksheet.worksheet import Worksheet

Sheet = Callable[..., Worksheet]
Read = Callable[..., list[list[str]]]
Rows = Callable[[str], list[list[str]]]


@pytest.mark.parametrize(
    "status",
    [
        "Deleted",
        "VOID",
        "cancelled",
        "demolished",
        "Spare",
        "future",
        "not in scope",
        "gelöscht",
        "entfällt",
        "stillgelegt",
        "supprimé",
        "annulé",
        "eliminado",
        "anulado",
        "annullato",
        "eliminato",
        "cancelado",
        "removido",
        "vervallen",
        "storniert",
        "supprimée",
        "dado de baja",
        "cancellato",
        "geannuleerd",
    ],
)
def test_a_status_word_takes_the_row_out(sheet: Sheet, points: Read, status: str) -> None:
    sheet(f"""
        Tag    | Status   | Overall length (in) | Bore depth (in)
        TE-101 | {status} | 9.25                | 9
        TE-102 | active   | 9.25                | 9
    """)
    found = points()
    assert [line[0] for line in found if line[1] == ""] == ["TE-102"]
    assert status in found[0][1]


@pytest.mark.parametrize(
    "status",
    [
        "live",
        "existing",
        "HOLD",
        "in service",
        "neu",
        "in Betrieb",
        "en service",
        "nuevo",
        "attivo",
        "ativo",
        "in bedrijf",
        "not deleted",
        "IFC",
        "B",
    ],
)
def test_a_live_status_keeps_the_row(sheet: Sheet, points: Read, status: str) -> None:
    sheet(f"""
        Tag    | Status   | Overall length (in) | Bore depth (in)
        TE-101 | {status} | 9.25                | 9
    """)
    assert points() == [["TE-101", "", "228.6", "stated"]]


@pytest.mark.parametrize(
    "remark,is_out",
    [
        ("DELETED rev. 3", True),
        ("Deleted, see MOC-123", True),
        ("Tag deleted", True),
        ("entfällt, siehe TE-205", True),
        ("Replaces deleted TE-105", False),
        ("TE-105 deleted", False),
        ("Deleted TE-105 was here", False),
        ("Insulation deleted", False),
        ("not deleted", False),
        ("Note 3", False),
    ],
)
def test_a_remark_takes_the_row_out_when_it_speaks_of_the_row(
    sheet: Sheet, points: Read, remark: str, *, is_out: bool
) -> None:
    sheet(f"""
        Tag    | Remarks  | Overall length (in) | Bore depth (in)
        TE-101 | {remark} | 9.25                | 9
        TE-102 |          | 9.25                | 9
    """)
    assert (points()[0][1] != "") == is_out


def test_a_struck_tag_takes_the_row_out(sheet: Sheet, points: Read) -> None:
    page = sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in)
        TE-101 | Feed    | 9.25                | 9
    """)
    page["A2"].font = Font(strike=True)
    assert [line[:2] for line in points()] == [["TE-101", "struck out"]]


def test_a_well_row_serves_its_element_by_loop(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag    | Service | Overall length (in) | Bore depth (in) | Sensor type
        TW-101 | Feed    | 9.25                | 9               |
        TE-101 | Feed    |                     |                 | RTD
        TT-101 | Feed    |                     |                 |
        TI-101 | Feed    |                     |                 |
    """)
    assert points() == [
        ["TW-101", "well row, joined to its sensor", "228.6", "stated"],
        ["TE-101", "", "228.6", "stated"],
        ["TT-101", "another row of a loop that has its sensor on a row of its own", "nan", ""],
        ["TI-101", "another row of a loop that has its sensor on a row of its own", "nan", ""],
    ]


def test_a_well_tag_joins_before_the_loop_does(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag    | Well Tag | Overall length (in) | Bore depth (in) | Sensor type
        TW-101 |          | 9.25                | 9               |
        TW-900 |          | 6.25                | 6               |
        TE-101 | TW-900   |                     |                 | RTD
    """)
    assert [line[2] for line in points() if line[0] == "TE-101"] == ["152.4"]


def test_wells_on_another_sheet_in_another_unit_are_joined(sheet: Sheet, points: Read) -> None:
    sheet(
        """
        Tag    | Well Tag | Sensor type | Sheath diameter (in)
        TE-101 | TW-101   | RTD         | 0.25
        TE-102 | TW-102   | RTD         | 0.25
    """,
        name="Sensors",
    )
    sheet(
        """
        Well No. | Overall length (mm) | Bore depth (mm)
        TW-102   | 166                 | 160
        TW-101   | 241                 | 235
    """,
        name="Wells",
    )
    assert [line for line in points() if line[1] == ""] == [
        ["TE-101", "", "235", "stated"],
        ["TE-102", "", "160", "stated"],
    ]


def test_a_mixed_index_keeps_the_temperature_points_only(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag     | Instrument type | Overall length (in) | Bore depth (in)
        PT-101  | Pressure transmitter | |
        FT-102  | Flow transmitter | |
        TE-103  | RTD in thermowell | 9.25 | 9
        TG-104  | Bimetal thermometer | 9.25 | 9
        TE-105  | Skin thermocouple | |
        LT-106  | Level transmitter | |
        TW-107  | Test thermowell | 9.25 | 9
        TP-108  | Test point | 9.25 | 9
    """)
    assert [line[0] for line in points() if line[1] == ""] == ["TE-103"]


def test_designations_without_function_letters_are_told_by_sensor_type(sheet: Sheet, points: Read) -> None:
    page = sheet("""
        Kennzeichen | Fühlertyp | Gesamtlänge (mm) | Bohrungstiefe (mm)
        x           | Pt100     | 241              | 235
        y           | 3-wire    | 241              | 235
        z           |           |                  | -
    """)
    for address, tag in (("A2", "=10LAB10CT001"), ("A3", "=10PAC10CT001"), ("A4", "=10LAB10CP001")):
        page[address].value = tag
        page[address].data_type = "s"
    assert [line[:2] for line in points()] == [
        ["=10LAB10CT001", ""],
        ["=10PAC10CT001", ""],
        ["=10LAB10CP001", "not a temperature instrument"],
    ]


def test_two_elements_of_one_tag_are_one_row(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag       | Service | Overall length (in) | Bore depth (in)
        TE-101A/B | Feed    | 9.25                | 9
    """)
    assert points() == [["TE-101A/B", "", "228.6", "stated"]]


def test_letters_behind_the_number_join_a_well_to_its_element(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag    | Sensor type | Overall length (in) | Bore depth (in)
        101-TE | RTD         |                     |
        101-TW |             | 9.25                | 9
    """)
    assert points() == [
        ["101-TE", "", "228.6", "stated"],
        ["101-TW", "well row, joined to its sensor", "228.6", "stated"],
    ]


def test_a_type_text_tells_a_sensor_in_a_well_from_a_well(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag  | Type              | Overall length (in) | Bore depth (in)
        X-17 | RTD in thermowell | 9.25                | 9
        X-18 | Thermowell        | 9.25                | 9
    """)
    assert [line[:2] for line in points()] == [["X-17", ""], ["X-18", "well row without a sensor row"]]


def test_wells_and_sensors_with_suffixes_join_pair_by_pair(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag     | Sensor type | Overall length (in) | Bore depth (in)
        TW-101A |             | 9.25                | 9
        TW-101B |             | 6.25                | 6
        TE-101A | RTD         |                     |
        TE-101B | RTD         |                     |
    """)
    assert [line[2] for line in points() if not line[1]] == ["228.6", "152.4"]


WELLS = """
    Well tag | Overall length (in) | Bore depth (in)
    TW-101   | 9.25                | 9
    TW-102   | 12.25               | 12
"""


def test_points_without_a_dimension_are_read_where_their_wells_stand_on_another_sheet(
    sheet: Sheet, points: Read
) -> None:
    sheet("""
        Tag     | Instrument type  | Well tag | Mounting              | Extension
        TE-101  | RTD              | TW-101   | Spring loaded fitting | none
        TE-102  | RTD              | TW-102   | Spring loaded fitting | none
    """)
    sheet(WELLS, name="Wells")
    assert [line[:3] for line in points()][:2] == [["TE-101", "", "228.6"], ["TE-102", "", "304.8"]]


def test_a_list_of_the_same_points_for_another_purpose_is_not_read_again(sheet: Sheet, points: Read) -> None:
    sheet("""
        Tag     | Well tag | Bore depth (in) | Mounting              | Extension
        TE-101  | TW-101   | 9               | Spring loaded fitting | none
        TE-102  | TW-102   | 12              | Spring loaded fitting | none
    """)
    sheet(
        """
        Tag     | Service | Well tag | I/O type | Cable
        TE-101  | Feed    | TW-101   | AI       | C-1
        TE-102  | Feed    | TW-102   | AI       | C-2
    """,
        name="Cables",
    )
    assert [line[0] for line in points()] == ["TE-101", "TE-102"]
