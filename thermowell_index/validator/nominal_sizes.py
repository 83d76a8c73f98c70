"""Nominal pipe sizes as an index writes them, and the pipe that belongs to a size and a schedule."""

import math
import re
from dataclasses import dataclass
from functools import lru_cache

from thermowell_index.records.words import folded
from thermowell_index.units.notation import read_number

# DN by nominal size in inches. Source: ISO 6708, as tabulated in public text.
DN_OF_NPS = {
    0.5: 15, 0.75: 20, 1.0: 25, 1.25: 32, 1.5: 40, 2.0: 50, 2.5: 65, 3.0: 80, 4.0: 100, 5.0: 125, 6.0: 150, 8.0: 200,
    10.0: 250, 12.0: 300, 14.0: 350, 16.0: 400, 18.0: 450, 20.0: 500, 24.0: 600, 30.0: 750, 36.0: 900, 42.0: 1050,
    48.0: 1200,
}  # fmt: skip
NPS_OF_DN = {dn: nps for nps, dn in DN_OF_NPS.items()}
SIZE = re.compile(
    r"(?P<dn>DN ?)?(?P<number>\d+ ?[- ] ?\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?) ?"
    r"(?P<unit>\"|''|IN\b\.?|INCH(?:ES)?\b|NPS\b|NB\b|MM\b)?"
    r"(?: ?X.*| ?\d+ ?(?:#|LB).*| ?(?:RF|FF|RTJ|CL|PN|#).*)?"
)
SCHEDULE = re.compile(r"(?:SCHEDULE|SCH|S)? ?\.?-? ?(?P<name>\d{1,3}S?|STD|XS|XXS)\b\.?")


@lru_cache(maxsize=65536)
def nominal_pipe_size(text: str) -> float:
    """Return the nominal size in inches (NPS) of a size written in inches or as DN; NaN where it is neither for certain.

    >>> nominal_pipe_size('6"'), nominal_pipe_size("DN 150"), nominal_pipe_size("1-1/2")
    (6.0, 6.0, 1.5)
    """
    match = SIZE.fullmatch(folded(text).removeprefix("NPS ").strip())
    number = read_number(match["number"].replace(" - ", "-").replace(",", ".")) if match else None
    if match is None or number is None or number.value is None:
        return math.nan
    size = float(number.value)
    as_inches = size if size in DN_OF_NPS else math.nan
    as_dn = NPS_OF_DN.get(int(size), math.nan) if size.is_integer() else math.nan
    if match["dn"] or match["unit"] == "MM":
        return as_dn
    if match["unit"]:
        return as_inches
    if not math.isnan(as_inches) and not math.isnan(as_dn):
        return math.nan  # 20 is NPS 20 or DN 20
    return as_dn if math.isnan(as_inches) else as_inches


@dataclass(frozen=True)
class PipeSize:
    """Dimensions of one pipe."""

    outside_mm: float
    bore_mm: float
    wall_mm: float


@lru_cache(maxsize=4096)
def pipe_size(nps: float, schedule: str) -> PipeSize | None:
    """Return the pipe of a nominal size and schedule (ASME B36.10M, B36.19M); None where there is none.

    Looked up by size and schedule, never by outside diameter: a nearest outside diameter can be the next size.

    >>> pipe_size(6.0, "SCH 40").wall_mm
    7.11
    """
    match = SCHEDULE.fullmatch(folded(schedule))
    if match is None or math.isnan(nps):
        return None
    from fluids.piping import nearest_pipe  # noqa: PLC0415 - only an index with line sizes needs it

    try:
        _, bore, outside, wall = nearest_pipe(NPS=nps, schedule=match["name"])  # type: ignore[arg-type]  # half sizes are no integers
    except ValueError:
        return None
    return PipeSize(outside_mm=outside * 1000, bore_mm=bore * 1000, wall_mm=wall * 1000)
