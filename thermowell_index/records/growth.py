"""Hot growth: how much deeper a bore grows than its sheath between 20 degrees and the design temperature.

Mean coefficients of linear expansion from 20 to about 300 degrees Celsius, rounded [memory, to be confirmed]. Materials
are known by the names of open standards (AISI, ASTM, UNS, EN numbers).
"""

import math
import re
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from thermowell_index.records.words import folded
from thermowell_index.table import IndexTable

ROOM_DEG_C = 20.0
# Before the number of a nickel alloy, whatever name stands there; a pressure class is none.
ALLOY = r"(?:^|\b(?!(?:CL|CLASS|RATING|ANSI|ASME|FLANGE|FLG|LBS?|NO)\b)[A-Z]{3,}[ -]?)"
ENDS = r"(?! ?(?:#|LB))\b"
# material, pattern, coefficient [1e-6 per K], from memory
EXPANSION: tuple[tuple[str, str, float], ...] = (
    ("austenitic steel 316", r"(?<!\d)316|1\.44(?:01|04|32|35|36)|1\.4571|S316", 16.5),
    ("austenitic steel 304, 321, 347", r"(?<!\d)(?:304|321|347)(?!\d)|1\.4(?:301|306|541|550)|S30[34]|S321|S347", 17.5),
    ("austenitic steel 310", r"(?<!\d)310(?!\d)|1\.4(?:841|845)|S310", 16.5),
    ("ferritic or martensitic steel", r"\b(?:410|430|446)\b|1\.4(?:006|016|762)", 11.0),
    ("duplex steel", r"DUPLEX|1\.4(?:462|410)|S3(?:1803|2205|2750)|\bF5[135]\b|\b2205\b|\b2507\b", 13.5),
    ("nickel alloy 600", rf"{ALLOY}600{ENDS}|N06600|2\.4816", 14.0),
    ("nickel alloy 625", rf"{ALLOY}625{ENDS}|N06625|2\.4856", 13.3),
    ("nickel alloy 825", rf"{ALLOY}825{ENDS}|N08825|2\.4858", 15.0),
    ("nickel-copper alloy 400", r"ALLOY ?400|N04400|2\.4360", 15.0),
    ("nickel alloy C276", r"C-?276|N10276|2\.4819", 12.0),
    ("titanium", r"TITAN|\bTI ?GR|R5\d{4}", 9.0),
    ("chromium-molybdenum steel", r"\bF(?:1|5|9|11|12|22|91)\b|\bP(?:5|9|11|12|22|91)\b|13CRMO|10CRMO|1\.73(?:35|80)|CR-?MO", 13.0),
    ("carbon steel", r"\bA105|\bA ?10[56]|\bA350|\bLF2\b|\bC(?:ARBON)? ?S(?:TEEL)?\b|\bCS\b|1\.0(?:305|345|460)|P235|P250|C22", 12.5),
)  # fmt: skip
TEMPERATURE = re.compile(r"(?P<number>-?\d+(?:[.,]\d+)?) ?(?:°|º|DEG\.? ?)? ?(?P<unit>[CFK])?\b")
UNIT_IN_HEADING = re.compile(r"(?:°|º|DEG\.? ?|\()\s*°?(?P<unit>[CFK])\b")


@lru_cache(maxsize=4096)
def expansion_of(material: str) -> float:
    """Return a material's mean coefficient of expansion [1/K]; NaN where the words name none that is known or several.

    >>> expansion_of("ASTM A182 F316L")
    1.65e-05
    """
    plain = folded(material)
    found = {coefficient for _, pattern, coefficient in EXPANSION if re.search(pattern, plain)}
    return found.pop() * 1e-6 if len(found) == 1 else math.nan


@lru_cache(maxsize=4096)
def temperature_deg_c(text: str, heading: str) -> float:
    """Return a temperature [degrees Celsius] with the unit in the cell, else in the heading; NaN where neither has one.

    >>> temperature_deg_c("482 F", "")
    250.0
    """
    match = TEMPERATURE.fullmatch(folded(text))
    declared = UNIT_IN_HEADING.search(folded(heading))
    unit = (match["unit"] if match else None) or (declared["unit"] if declared else None)
    if match is None or unit is None:
        return math.nan
    number = float(match["number"].replace(",", "."))
    return {"C": number, "F": (number - 32.0) / 1.8, "K": number - 273.15}[unit]


def add_growth(table: IndexTable) -> None:
    """Add `growth_mm` = insertion length x (t - 20) x (alpha of the well - alpha of the sheath); else 0.

    Positive where the bore grows more, which takes compression away. `growth_open_mm` is what it may be at most where
    a material is not stated or not known, 0 where both are known.
    """
    frame = table.frame
    headings = {table_id: _heading(table, table_id) for table_id in table.tables}
    temperature = np.array(
        [
            temperature_deg_c(str(text), headings[table_id])
            for text, table_id in zip(frame["design_temperature"], frame["table_id"], strict=True)
        ]
    )
    well = frame["well_material"].map(lambda text: expansion_of(str(text))).to_numpy(float)
    sheath = frame["sheath_material"].map(lambda text: expansion_of(str(text))).to_numpy(float)
    growth = frame["insertion_length_mm"].to_numpy(float) * (temperature - ROOM_DEG_C) * (well - sheath)
    frame["growth_mm"] = np.nan_to_num(growth)
    reach = frame["insertion_length_mm"].to_numpy(float) * np.abs(temperature - ROOM_DEG_C)
    frame["growth_open_mm"] = np.where(np.isnan(well - sheath), reach * _greatest_difference(well, sheath), 0.0)


def _greatest_difference(well: NDArray[np.float64], sheath: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return by how much two coefficients can differ at most where one of them, or neither, is known [1/K]."""
    known = [coefficient * 1e-6 for _, _, coefficient in EXPANSION]
    least, most = min(known), max(known)
    one = np.where(np.isnan(well), sheath, well)
    return np.where(np.isnan(one), most - least, np.maximum(one - least, most - one))


def _heading(table: IndexTable, table_id: int) -> str:
    column = table.tables[table_id].columns.get("design_temperature")
    return column.heading if column else ""
