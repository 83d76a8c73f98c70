"""Which column of a store's list is what: its heading row, and the unit that each heading declares."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from thermowell_index.reader.grid import Grid
from thermowell_index.reader.headings import HeadingDictionary, normal_words
from thermowell_index.sizing.elements import material_of
from thermowell_index.table import Field, Kind
from thermowell_index.units import unit_of_words

# Heading wordings of a store, common practice, no source.
_WORDINGS: Mapping[str, str] = {
    "item": """ITEM | ITEM NUMBER | ITEM CODE | STOCK NUMBER | STOCK CODE | STORE NUMBER | STORES NUMBER | CODE
        | PART NUMBER | PART | MATERIAL NUMBER | MATERIAL CODE | ARTICLE | ARTICLE NUMBER | CATALOGUE NUMBER | ARTIKEL
        | ARTIKEL NUMBER | MATERIALNUMMER | REFERENCE | CODIGO | CODICE | ARTICULO | ART NUMBER | ARTIKELNUMMER
        | BESTELLNUMMER | MATERIAL""",
    "description": """DESCRIPTION | ITEM DESCRIPTION | DESIGNATION | BEZEICHNUNG | BENENNUNG | DESCRIPCION
        | DESCRIZIONE | TEXT | SHORT TEXT | KURZTEXT | ARTIKELTEXT | MATERIAL DESCRIPTION | MATERIALKURZTEXT""",
    "length": """LENGTH | PROBE LENGTH | SENSOR LENGTH | INSERT LENGTH | ELEMENT LENGTH | SHEATH LENGTH | NOMINAL LENGTH
        | LAENGE | LANGE | EINSATZLANGE | LONGUEUR | LONGITUD | LUNGHEZZA | COMPRIMENTO | LENGTE | L""",
    "diameter": """DIAMETER | SHEATH DIAMETER | OUTSIDE DIAMETER | SHEATH OUTSIDE DIAMETER | PROBE DIAMETER
        | SENSOR DIAMETER | INSERT DIAMETER | SHEATH""",
    "mounting": """MOUNTING | SENSOR MOUNTING | MOUNTING TYPE | STYLE | FITTING | HELD BY | MONTAGE | BEFESTIGUNG
        | EINBAUART""",
    "type": """TYPE | SENSOR TYPE | ELEMENT TYPE | SENSOR | ELEMENT | KIND | TYP | TIPO | FUEHLERTYP""",
    "thread": """THREAD | MOUNTING THREAD | THREAD SIZE | CONNECTION | PROCESS CONNECTION | CONNECTION THREAD
        | FITTING THREAD | GEWINDE | FILETAGE | ROSCA | FILETTO""",
    "quantity": """QUANTITY | QUANTITY ON HAND | QUANTITY IN STOCK | STOCK QUANTITY | ON HAND | IN STOCK
        | STOCK | AVAILABLE | AVAILABLE QUANTITY | BALANCE | PIECES | MENGE | BESTAND | STUECKZAHL | ANZAHL
        | QUANTITE | CANTIDAD | QUANTITA | QUANTITY OH | QUANTITY AVAIL | QOH | SOH | STOCK ON HAND | BAL | AVAIL
        | FREE STOCK | FREE QUANTITY | UNRESTRICTED | UNRESTRICTED STOCK | UNRESTRICTED USE | PHYSICAL STOCK | PCS | PCE
        | NUMBER OFF | NUMBER IN STOCK | EXISTENCIAS | EXISTENCIA | CANT | LAGERBESTAND | LAGERMENGE | DISPONIBLE
        | DISPONIBLES | DISPONIBILE | DISPONIBILITA | DISPONIVEL | STOCK DISPONIBLE | GIACENZA | GIACENZE | VOORRAAD
        | ESTOQUE | QTD | EN STOCK | VERFUEGBAR | VERFUGBAR""",
    "elements": """ELEMENTS | NUMBER OF ELEMENTS | ELEMENT COUNT | SIMPLEX DUPLEX | SINGLE DUPLEX | SINGLE DUAL""",
    "material": """SHEATH MATERIAL | MATERIAL OF SHEATH | PROBE MATERIAL | SENSOR MATERIAL | INSERT MATERIAL""",
    "unit": """UNIT | LENGTH UNIT | UNIT OF LENGTH | UNIT OF MEASURE | UOM | EINHEIT | UNITE | UNIDAD""",
}
HEADINGS = HeadingDictionary(
    Field(
        name=name,
        label=name,
        group="store",
        kind=Kind.TEXT,
        headings=tuple(" ".join(wording.split()) for wording in wordings.split("|")),
        help="",
    )
    for name, wordings in _WORDINGS.items()
)
SEARCHED_ROWS = 60
LEAST_COLUMNS = 3
NOT_ON_HAND = frozenset(
    ["MIN", "MINIMUM", "MAX", "MAXIMUM", "REORDER", "ORDER", "ORDERED", "SAFETY", "RESERVED", "BLOCKED", "TRANSIT"]
)
"""Beside a word for quantity: what is wanted or due, not what is there."""


@dataclass(frozen=True, kw_only=True)
class Columns:
    """Where each field stands, and the unit that its heading declares."""

    row: int
    places: Mapping[str, int]
    units: Mapping[str, str | None]


def columns_of(grid: Grid) -> Columns | None:
    """Return the columns of the first row that names a length and an item or a quantity, None where none does.

    Where no row names a length it is the first that names a description and an item or a quantity.
    """
    rows = [_columns_in(grid, row) for row in list(grid.rows())[:SEARCHED_ROWS]]
    named = [columns for columns in rows if {"item", "quantity"} & set(columns.places)]
    return next((columns for field in ("length", "description") for columns in named if field in columns.places), None)


def _columns_in(grid: Grid, row: int) -> Columns:
    """Return what a row names as headings; of columns with one meaning the first, but no running number as item."""
    places: dict[str, int] = {}
    units: dict[str, str | None] = {}
    for column, text in grid.own_texts(row).items():
        field = _field_of(text)
        if field == "item" and normal_words(text) == ("MATERIAL",) and _holds_materials(grid, row, column):
            field = "material"
        is_better = field == "item" and field in places and _is_running(grid, row, places[field])
        if field and (field not in places or is_better):
            places[field] = column
            units[field] = unit_of_words(text)
    return Columns(row=row, places=places, units=units)


def _below(grid: Grid, row: int, column: int) -> list[str]:
    return [text for below in grid.rows() if below > row and (text := grid.text(below, column))]


def _holds_materials(grid: Grid, row: int, column: int) -> bool:
    return any(material_of(text) for text in _below(grid, row, column))


def _is_running(grid: Grid, row: int, column: int) -> bool:
    """Whether a column counts its lines: its numbers go no further than there are lines."""
    texts = _below(grid, row, column)
    return all(text.isdigit() and 0 < int(text) <= len(texts) for text in texts)


def _field_of(heading: str) -> str:
    """Return the field that a heading names, empty where it names none or a quantity that is not on hand."""
    matches = HEADINGS.matches(heading)
    field = matches[0].field if matches else ""
    return "" if field == "quantity" and NOT_ON_HAND & set(normal_words(heading)) else field


def headings_on(grid: Grid) -> tuple[str, ...]:
    """Return what looks like the heading row of a list that is not read, empty where the sheet looks like none."""
    rows = list(grid.rows())
    wide = [row for row in rows if len(grid.own_texts(row)) >= LEAST_COLUMNS]
    heading = next((row for row in wide[:SEARCHED_ROWS] if not any(map(_has_digits, grid.own_texts(row).values()))), 0)
    lines = [row for row in wide if row > heading and any(map(_has_digits, grid.own_texts(row).values()))]
    return tuple(" ".join(text.split()) for text in grid.own_texts(heading).values()) if heading and lines else ()


def like_lengths(headings: Sequence[str]) -> tuple[str, ...]:
    """Return those of the headings that may name a length, by their words or by a unit."""
    unknown = [text for text in headings if _field_of(text) in {"", "length"}]
    return tuple(
        text for text in unknown if {"LENGTH", "DEPTH", "SIZE"} & set(normal_words(text)) or unit_of_words(text)
    )


def _has_digits(text: str) -> bool:
    return any(mark.isdigit() for mark in text)
