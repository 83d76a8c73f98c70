"""Indexes of seven invented plants, each with habits of its own, read as workbooks: clean rows are left alone, faults are found.

Run alone: `pytest tests/validator/test_plants.py`.
"""

import random
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook

from thermowell_index import Settings, check_workbook
from thermowell_index.findings import Severity
from thermowell_index.pipeline import CheckResult

Row = dict[str, Any]
ROWS = 150
FAULTS = 40
ALLOWED_FALSE_PER_100 = 0.5
ALLOWED_SHARE = 0.05


def mixed(length: float) -> str:
    """A length as a person types it: 9 1/4."""
    whole, rest = divmod(Fraction(length).limit_denominator(16), 1)
    return f"{whole} {rest}" if whole and rest else str(whole or rest)


def refinery(rnd: random.Random, number: int) -> Iterator[Row]:
    """Inch fractions typed as text, mixed mountings, dashes for blanks, remarks, data sheets."""
    kinds = {
        '1" NPT': (1.75, 1.0625, 0.75), '3/4" NPT': (1.75, 0.875, 0.6875), '1" SW': (1.75, 1.25, 1.0),
        '1 1/2" 300# RF': (2.25, 1.25, 1.0), '2" 600# RF': (2.5, 1.5, 1.0),
    }  # fmt: skip
    connection = rnd.choice(list(kinds))
    head, root, tip = kinds[connection]
    insertion, lagging = rnd.choice([4.5, 7.5, 10.5] if head == 1.75 else [9, 10, 12, 16]), rnd.choice([0, 0, 0, 2, 3])
    overall = insertion + lagging + head
    bore = right = overall - 0.25
    held = rnd.choice(["SPRING LOADED FTG", "SPRG LOADED 1/2 NPT FITTING", "FIXED FITTING", "SPRING LOADED INSERT"])
    extension, nipple = "-", "-"
    if "INSERT" in held:
        extension, nipple, right = "NIPPLE", "4", bore + 3
    elif "FIXED" in held:
        right = bore - 0.75
    elif rnd.random() < 0.3:
        extension, nipple, right = "NIPPLE & UNION", "3", bore + 4
    stated_tip, form = rnd.choice(["1/4", "1/4", "", "-"]), rnd.choice(["TAPERED", "STRAIGHT", "STEPPED", ""])
    yield {
        "TAG NO.": f"TE-{1000 + number}", "SERVICE": rnd.choice(["CRUDE CHARGE", "REFLUX", "FLUE GAS"]),
        "LINE NO.": f'6"-P-{1000 + number}-A1A', "LINE SIZE": f'{rnd.choice([6, 8, 10])}"', "SCH": rnd.choice(["40", "STD", ""]),
        "T/W CONN": connection, "SHANK": form, "T/W MATL": rnd.choice(["316 SS", "304 SS", "F11", "A105"]),
        "T/W O/A LG (in)": mixed(overall), "BORE DEPTH (in)": mixed(bore) if stated_tip != "1/4" else rnd.choice([mixed(bore), "-"]),
        "TIP THK (in)": stated_tip, "U (in)": mixed(insertion), "T LENGTH (in)": mixed(lagging) if lagging else rnd.choice(["-", ""]),
        "BORE DIA (in)": rnd.choice(["0.260", "0.260", "1/4"]), "ROOT OD (in)": f"{root:g}",
        "TIP OD (in)": f"{root if form == 'STRAIGHT' else tip:g}", "INST CONN": rnd.choice(["1/2 NPT F", "1/2 NPT"]),
        "SENSOR MTG": held, "EXTENSION": extension, "NIPPLE LG (in)": nipple,
        "ELEMENT": rnd.choice(["RTD PT100 3W", "T/C TYPE K", "DUPLEX T/C TYPE J"]), "SHEATH OD (in)": "1/4",
        "PROBE LG (in)": rnd.choice([mixed(right), "", "-", "TBD"]), "DATA SHEET": f"DS-{rnd.randrange(1, 9):03d}",
        "REMARKS": rnd.choice(["", "", "SEE NOTE 3", "REPLACED 2009", "NOTE 2, 5", "VENDOR SUPPLIED"]),
    }  # fmt: skip


def din(rnd: random.Random, number: int) -> Iterator[Row]:
    """German headings, form 4 wells with the standard neck and plate inserts."""
    total, bore, insert = rnd.choice(
        [(140, 135, 315), (170, 165, 345), (200, 195, 375), (260, 255, 435), (410, 405, 585)]
    )
    yield {
        "Messstelle": f"TE {4000 + number}", "Benennung": rnd.choice(["Dampf", "Sole", "Kondensat"]),
        "Nennweite": f"DN {rnd.choice([80, 100, 150])}", "Schutzrohr Bauform": rnd.choice(["Form 4", "DIN 43772 Form 4", "4"]),
        "Werkstoff": rnd.choice(["1.4571", "1.7335"]), "Gesamtlänge L (mm)": total, "Bohrungstiefe (mm)": rnd.choice([bore, bore, ""]),
        "Bohrung Ø (mm)": 7, "Gewinde": "M18x1,5", "Halsrohr": "Halsrohr", "Halsrohrlänge (mm)": 165,
        "Fühler": rnd.choice(["Pt100", "2xPt100"]), "Fühlermontage": "Messeinsatz DIN 43735", "Mantel-Ø (mm)": 6,
        "Messeinsatzlänge (mm)": rnd.choice([insert, ""]), "Bemerkung": rnd.choice(["", "Bestand", "siehe Blatt 2", "geprüft"]),
    }  # fmt: skip


def gas_plant(rnd: random.Random, number: int) -> Iterator[Row]:
    """Metric lengths as drawings round them, no tip column, bores by nominal size, a status column."""
    is_flanged, form = rnd.random() < 0.5, rnd.choice(["tapered", "straight"])
    insertion, lagging = rnd.choice([100, 150, 160, 200, 250, 300]), rnd.choice([0, 0, 50, 80])
    overall = insertion + lagging + (rnd.choice([64, 65]) if is_flanged else 45)
    bore = overall - rnd.choice([6, 6, 6, 7])
    yield {
        "Tag": f"31-TE-{100 + number:04d}", "Service": rnd.choice(["Feed gas", "Lean amine", "Sea water"]),
        "Line size": rnd.choice(["DN150", "DN200", '8"', "DN250"]),
        "Process connection": rnd.choice(["DN40 PN40", '1-1/2" 300# RF'] if is_flanged else ["1 NPT", "3/4 NPT"]), "Stem": form,
        "Material": rnd.choice(["SS316L", "Duplex", "SS 316"]), "Overall length": overall, "Bore depth": bore,
        "Insertion length U": insertion, "Lagging T": lagging or rnd.choice(["", 0, "-", "N/A"]), "Bore dia": rnd.choice([6.5, 6.6, 7, 7]),
        "Root dia": 22, "Tip dia": 22 if form == "straight" else 18, "Instrument connection": '1/2" NPT',
        "Sensor mounting": "Spring loaded fitting", "Sensor": rnd.choice(["Pt100 class A", "TC type K"]), "Sheath dia": 6,
        "Sensor length": rnd.choice([round(bore / 5) * 5, "", ""]), "Spring travel": 25,
        "Status": rnd.choice(["Live", "Live", "New", "As built"]),
    }  # fmt: skip


def skid(rnd: random.Random, number: int) -> Iterator[Row]:
    """A maker's list with overall, U and lagging alone, and other instruments between."""
    insertion, lagging = rnd.choice([2.5, 4.5, 7.5]), rnd.choice([0, 0, 2])
    yield {
        "Instrument No": f"TE-{7000 + number}", "Description": "Lube oil", "Type": "Temperature element",
        "Pipe size": f'{rnd.choice([3, 4, 6])}"', "Well connection": "3/4 NPT", "Overall (in)": insertion + lagging + 1.75,
        "U (in)": insertion, "Lagging (in)": lagging or None, "Sensor type": rnd.choice(["RTD", "T/C K"]), "Stem OD (in)": 0.25,
    }  # fmt: skip
    for letters, kind in (("PT", "Pressure transmitter"), ("TT", "Temperature transmitter")):
        if rnd.random() < 0.3:
            yield {"Instrument No": f"{letters}-{7000 + number}", "Description": "Lube oil", "Type": kind}


def old_works(rnd: random.Random, number: int) -> Iterator[Row]:
    """Wells on rows of their own, drawing and measured depths, nominal bores, bimetals between."""
    insertion, area = rnd.choice([4.5, 7.5, 10.5]), rnd.choice("ABC")
    bore = insertion + 1.5
    measured = bore + rnd.choice([0, 0, -0.06, 0.06, -0.125]) if rnd.random() < 0.6 else None
    is_insert = rnd.random() < 0.5
    right = (measured or bore) + (3 if is_insert else 0)
    yield {
        "Tag No": f"TW-{number}", "Area": area, "Conn": "1 NPT", "Overall Lg": insertion + 1.75, "Bore Depth (Dwg)": bore,
        "Bore Depth As Found": measured, "Tip": 0.25, "U": insertion, "Bore Dia": "1/4", "Verified by": rnd.choice(["J.K.", ""]),
    }  # fmt: skip
    yield {
        "Tag No": f"TE-{number}", "Well Tag": rnd.choice([f"TW-{number}", ""]), "Area": area, "Service": "HOT OIL",
        "Mounting": "Spring loaded insert" if is_insert else "Spring loaded fitting", "Ext": "Nipple" if is_insert else "None",
        "Nipple": 4 if is_insert else None, "Element": rnd.choice(["TC K", "RTD"]), "Sheath": "1/4",
        "Length in place": rnd.choice([round(right * 4) / 4, None]), "Spring travel": 1,
    }  # fmt: skip
    if rnd.random() < 0.3:
        yield {"Tag No": f"TI-{number}", "Area": area, "Service": "HOT OIL"}
    if rnd.random() < 0.15:
        yield {
            "Tag No": f"TI-9{number:04d}",
            "Conn": "1 NPT",
            "Overall Lg": 9.25,
            "U": 7.5,
            "Element": "Bimetal dial thermometer",
        }


def terminal(rnd: random.Random, number: int) -> Iterator[Row]:
    """Decimals, unions, clearances, temperatures, orders."""
    is_flanged, has_union = rnd.random() < 0.5, rnd.random() < 0.6
    insertion, nipple, is_ordered = rnd.choice([7, 9, 12, 15]), rnd.choice([2, 3, 4, 6]), rnd.random() < 0.15
    overall = insertion + (2.25 if is_flanged else 1.75)
    bore = overall - 0.25
    right = bore + (nipple + 1 if has_union else 0)
    yield {
        "Tag Number": f"12-TE-{200 + number}", "Line Number": f"L-{number}", "NPS": rnd.choice([6, 8, 10]), "Schedule": rnd.choice([40, "STD", 80]),
        "Process Connection Type": "Flanged 150# RF" if is_flanged else "Threaded NPT",
        "Process Connection Size": rnd.choice(["1.5", "2"] if is_flanged else ["0.75", "1"]), "Well Material": rnd.choice(["316SS", "304 SS"]),
        "Overall Length (in)": overall, "Bore Depth (in)": bore if rnd.random() < 0.9 else None, "Tip Thickness (in)": 0.25,
        "Insertion Length (in)": insertion, "Bore Diameter (in)": 0.26, "Instrument Thread": "1/2 NPT",
        "Sensor Mounting": "Spring-loaded fitting", "Extension Arrangement": "Nipple and union" if has_union else "None",
        "Nipple Length (in)": nipple if has_union else None, "Sensor Type": rnd.choice(["RTD", "TC type J"]), "Sheath Diameter (in)": 0.25,
        "Probe Length (in)": rnd.choice([right, None]), "Design Temp (°F)": rnd.choice([200, 350, "Amb", None]),
        "Insulation (in)": rnd.choice([None, 0, 1] if has_union and nipple >= 4 else [None, 0]),
        "Withdrawal Clearance (in)": rnd.choice([None, 40, 60]), "Calibration Interval": rnd.choice([None, "24 mo", "3 years"]),
        "Qty": rnd.choice([None, 1]), "Order No": "PO-77" if is_ordered else None, "Ordered Length (in)": right if is_ordered else None,
    }  # fmt: skip


def grown_works(rnd: random.Random, number: int) -> Iterator[Row]:
    """Forty years of hands: inch and metric rows by a unit column, heads and tips of all sizes, A/B tags, holds."""
    is_mm, kind = rnd.random() < 0.4, rnd.choice(["thread", "weld", "flange"])
    tip = rnd.choice([6, 6, 5, 8] if is_mm else [0.25, 0.25, 0.1875, 0.3125])
    head = {
        "thread": rnd.choice([45, 40, 50] if is_mm else [1.75, 1.5, 2]), "weld": rnd.choice([45, 50] if is_mm else [1.5, 1.75, 2]),
        "flange": rnd.choice([57, 65, 80, 90] if is_mm else [2.25, 2.5, 3, 3.5]),
    }[kind]  # fmt: skip
    insertion, lagging = (
        rnd.choice([80, 110, 150, 185] if is_mm else [3, 4.5, 6, 7.5, 9]),
        rnd.choice([0, 0, 0, 50 if is_mm else 2]),
    )
    overall = insertion + lagging + head
    sheath, hole = rnd.choice([(6, 6.5), (6, 7)] if is_mm else [(0.25, 0.26), (0.25, 0.276), (0.375, 0.385)])
    held, nipple = rnd.choice([("S/L fitting", None), ("fixed fitting", None), ("S/L insert", 100 if is_mm else 4)])
    end, step = (25.4, 5) if is_mm else (1, 0.25)
    right = overall - tip + (nipple - end if nipple else 0)
    stated = (right - (19 if is_mm else 0.75)) // step * step if "fixed" in held else round(right / step) * step
    yield {
        "Tag": f"TE-{500 + number}" + rnd.choice(["", "", "A", "B"]), "Well": rnd.choice([f"TW-{500 + number}", ""]),
        "Rev Status": rnd.choice(["", "OK", "IFC", "Hold"]), "Unit": "mm" if is_mm else "in",
        "Conn. size & type": {"thread": rnd.choice(["1 NPT", "3/4 NPT"]), "weld": "1 in SW", "flange": rnd.choice(["1-1/2 300# RF", "DN50 PN40"])}[kind],
        "O/A length": overall, "Bored depth": overall - tip if rnd.random() < 0.9 else "n/a", "Tip thk": tip, "Immersion": insertion,
        "Lagging": lagging or "", "Bore": hole, "Sensor": rnd.choice(["RTD Pt100", "TC type K", "TC type J duplex"]), "Sheath OD": sheath,
        "Mounting": held, "Extension": "nipple" if nipple else "none", "Ext. length": nipple or "",
        "X length": stated if rnd.random() < 0.5 else "", "Stroke": 25 if is_mm else 1, "Max temp C": rnd.choice(["", 120, 260, 390]),
        "Remarks": rnd.choice(["", "per vendor dwg", "see P&ID", "moved 2003", "spare nozzle N4 nearby", "cal. in place"]),
    }  # fmt: skip


PLANTS: Mapping[Callable[[random.Random, int], Iterator[Row]], tuple[str, ...]] = {
    refinery: ("INVENTED REFINERY - THERMOWELL SCHEDULE", "REV 7"),
    din: ("Anlage West - Temperaturmessstellen",),
    gas_plant: ("Invented gas plant", "All dimensions in mm unless noted"),
    skid: ("Compressor skid",),
    old_works: ("Old works, dimensions in inches",),
    terminal: ("Tank terminal index issue 4",),
    grown_works: ("Register of temperature wells",),
}


@dataclass(kw_only=True)
class Plant:
    """The rows of one plant's index, and which fault was put where."""

    rows: list[Row]
    title: tuple[str, ...]
    planted: dict[str, str] = field(default_factory=dict)

    @property
    def headings(self) -> list[str]:
        return list(dict.fromkeys(heading for row in self.rows for heading in row))

    def check(self, path: Path) -> CheckResult:
        book = Workbook()
        sheet = book.worksheets[0]
        for line in self.title:
            sheet.append([line])
        sheet.append(self.headings)
        for row in self.rows:
            sheet.append([row.get(heading) for heading in self.headings])
        book.save(path)
        return check_workbook(path, Settings(date="2024-06-01"), write=False)


def plant_of(maker: Callable[[random.Random, int], Iterator[Row]], seed: int) -> Plant:
    rnd = random.Random(f"{maker.__name__} {seed}")  # noqa: S311 - the same index every time
    return Plant(rows=[row for number in range(ROWS) for row in maker(rnd, number)], title=PLANTS[maker])


# --- clean rows


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> dict[str, CheckResult]:
    folder = tmp_path_factory.mktemp("plants")
    return {maker.__name__: plant_of(maker, 1).check(folder / f"{maker.__name__}.xlsx") for maker in PLANTS}


def test_clean_rows_of_all_plants_are_left_alone(clean: dict[str, CheckResult]) -> None:
    own = [
        (name, one.rule, one.tag, one.found)
        for name, result in clean.items()
        for one in result.findings
        if not one.folded and one.severity is not Severity.NOTE
    ]
    points = sum((result.table["verdict"] != "not applicable").sum() for result in clean.values())

    assert points == ROWS * len(PLANTS)
    assert 100 * len(own) / points < ALLOWED_FALSE_PER_100, own[:10]
    assert len({(name, tag) for name, _, tag, _ in own}) / points < ALLOWED_SHARE


def test_every_clean_row_gets_a_length(clean: dict[str, CheckResult]) -> None:
    withheld = {
        name: Counter(result.table.loc[result.table["verdict"] == "withheld", "reason"])
        for name, result in clean.items()
    }

    assert withheld == {name: Counter() for name in clean}


def test_what_a_plant_does_throughout_is_said_at_most_once_a_sheet(clean: dict[str, CheckResult]) -> None:
    for result in clean.values():
        loud = [one.rule for one in result.findings if one.folded and one.severity is not Severity.NOTE]

        assert set(loud) <= {"travel_assumed"}
        assert len(loud) <= 1


# --- faults among them

COLUMNS = {
    "bore": ("BORE DEPTH (in)", "Bohrungstiefe (mm)", "Bore depth", "Bore Depth (in)", "Bored depth"),
    "overall": ("T/W O/A LG (in)", "Gesamtlänge L (mm)", "Overall length", "Overall Length (in)", "O/A length"),
    "tip": ("TIP THK (in)", "Tip Thickness (in)", "Tip thk"),
    "insertion": ("U (in)", "Insertion length U", "Insertion Length (in)", "Immersion"),
    "lagging": ("T LENGTH (in)", "Lagging T", "Lagging"),
    "connection": ("T/W CONN", "Process connection", "Process Connection Type", "Conn. size & type"),
    "sheath": ("SHEATH OD (in)", "Mantel-Ø (mm)", "Sheath dia", "Sheath Diameter (in)", "Sheath OD"),
    "held": ("SENSOR MTG", "Mounting"),
    "extension": ("EXTENSION", "Extension Arrangement", "Extension"),
    "probe": ("PROBE LG (in)", "Sensor length", "Probe Length (in)", "X length"),
    "tag": ("TAG NO.", "Messstelle", "Tag", "Tag Number"),
}


def number_in(value: object) -> float | None:
    try:
        return float(sum(Fraction(part) for part in str(value).split())) or None
    except ValueError:
        return None


class Cells:
    """The cells of a row by what they hold, whatever the plant calls them."""

    def __init__(self, row: Row) -> None:
        self.names = {what: next((name for name in names if name in row), "") for what, names in COLUMNS.items()}
        self._row = row

    def number(self, what: str) -> float | None:
        return number_in(self._row.get(self.names[what]))

    def changed(self, **values: object) -> Row:
        return {self.names[what]: value for what, value in values.items()}


def faults(row: Row, *, is_mm: bool) -> dict[str, Row]:
    """What can go wrong with a row: the checks that may say so, and the cells that are then wrong."""
    cells = Cells(row)
    unit = 25.0 if is_mm else 1.0
    bore, overall, tip, insertion, lagging, probe = map(
        cells.number, ("bore", "overall", "tip", "insertion", "lagging", "probe")
    )
    found: dict[str, Row] = {"sheath_will_not_enter": cells.changed(sheath=9.5 if is_mm else 0.5)}
    if cells.names["held"]:
        found["mounting_not_stated"] = cells.changed(held="spring loaded")
    if cells.names["extension"]:
        found["extension_not_stated"] = cells.changed(extension="TBD")
    if bore is None or overall is None:
        return found
    is_flanged = any(mark in str(row.get(cells.names["connection"])) for mark in ("RF", "PN40"))
    found |= {
        "bore_deeper_than_well": cells.changed(bore=overall),
        "date_for_dimension": cells.changed(bore=datetime(2024, 9, 4, tzinfo=UTC).replace(tzinfo=None)),
        "range_for_dimension": cells.changed(bore=f"{bore:g} or {bore + unit:g}"),
        "unreadable_dimension": cells.changed(bore="see dwg"),
        "unit_slip|implausible_length": cells.changed(bore=round(bore / 25.4, 2) if is_mm else round(bore * 25.4)),
        "bore_depth_unknown": cells.changed(bore="", overall=""),
    }
    if tip:
        found["tip_does_not_add_up"] = cells.changed(bore=bore - 1.37 * unit)
    if insertion:
        found["insertion_longer_than_well"] = cells.changed(insertion=overall)
        wrong = (
            {"bore_from_flange_face": insertion - (overall - bore)}
            if is_flanged
            else {"insertion_copied_as_bore": insertion}
        )
        found |= {rule: cells.changed(bore=depth) for rule, depth in wrong.items()}
    if lagging and lagging > unit:
        found["lagging_left_out"] = cells.changed(bore=bore - lagging)
    if probe and "FIX" not in str(row.get(cells.names["held"])).upper():
        found["tip_never_touches"] = cells.changed(probe=probe - 2 * unit)
        found["spring_goes_solid"] = cells.changed(probe=probe + 2 * unit)
    return found


def with_faults(maker: Callable[[random.Random, int], Iterator[Row]], seed: int) -> Plant:
    plant = plant_of(maker, seed)
    rnd = random.Random(seed)  # noqa: S311 - the same faults every time
    for turn, place in enumerate(rnd.sample(range(len(plant.rows)), FAULTS)):
        row = plant.rows[place]
        is_mm = maker in {din, gas_plant} or row.get("Unit") == "mm"
        possible = faults(row, is_mm=is_mm)
        kind = list(possible)[turn % len(possible)]
        row.update(possible[kind])
        plant.planted[str(row[Cells(row).names["tag"]])] = kind
    return plant


WITH_FAULTS = (refinery, din, gas_plant, terminal, grown_works)


@pytest.fixture(scope="module")
def faulty(tmp_path_factory: pytest.TempPathFactory) -> list[tuple[Plant, CheckResult]]:
    folder = tmp_path_factory.mktemp("faulty")
    plants = [with_faults(maker, seed) for maker in WITH_FAULTS for seed in (2, 3)]
    return [(plant, plant.check(folder / f"{number}.xlsx")) for number, plant in enumerate(plants)]


def test_faults_among_the_rows_of_plants_are_found(faulty: list[tuple[Plant, CheckResult]]) -> None:
    missed: defaultdict[str, list[str]] = defaultdict(list)
    planted: Counter[str] = Counter()
    for plant, result in faulty:
        said: defaultdict[str, set[str]] = defaultdict(set)
        for one in result.findings:
            for tag in one.tags:
                said[tag].add(one.rule)
        for tag, kind in plant.planted.items():
            planted[kind] += 1
            if not said[tag] & set(kind.split("|")):
                missed[kind].append(f"{tag}: {sorted(said[tag])}")

    assert min(planted.values()) >= 5, planted
    assert dict(missed) == {}


def test_rows_beside_a_fault_are_left_alone(faulty: list[tuple[Plant, CheckResult]]) -> None:
    false = [
        (one.rule, one.tag, one.found)
        for plant, result in faulty
        for one in result.findings
        if not one.folded and one.severity is not Severity.NOTE and one.tag not in plant.planted
    ]
    rows = sum(len(plant.rows) - len(plant.planted) for plant, _ in faulty)

    assert 100 * len(false) / rows < ALLOWED_FALSE_PER_100, false[:10]


def test_no_row_with_a_wrong_depth_gets_a_length(faulty: list[tuple[Plant, CheckResult]]) -> None:
    of_probes = {"tip_never_touches", "spring_goes_solid"}
    given = [
        (tag, kind)
        for plant, result in faulty
        for tag, kind in plant.planted.items()
        if kind not in of_probes
        and kind != "insertion_longer_than_well"
        and result.table.loc[result.table["tag"] == tag, "probe_length_order_mm"].notna().any()
    ]

    assert given == []
