"""One well and its sensor as a drawing to scale in text: instrument end on the left, tip of the well on the right."""

from dataclasses import dataclass

LEAST_WIDTH = 40
LABEL = 11
LEGEND = "| open face of the well, = bore, # tip, ~ extension; [ seat of the sensor, > its tip, ^ what the spring gives"
CLAMPED_LEGEND = "| open face of the well, = bore, # tip, ~ extension; [ upper end of the sheath, > its tip"


@dataclass(frozen=True, kw_only=True)
class Assembly:
    """What is drawn [mm]; `seat_plane` is from the bottom of the bore, as is everything on the axis.

    `is_clamped`: a fitting holds the sheath wherever it is pushed to the bottom, and what is longer stands out on top.
    """

    bore_depth_mm: float
    tip_mm: float
    installed_mm: float
    seat_plane_mm: float
    probe_mm: float
    is_clamped: bool = False


def drawing(assembly: Assembly, width: int) -> list[str]:
    r"""Return the lines of the drawing.

    The well's body is `=` from its open face to the bottom of the bore and `#` at the tip, the extension `~`. The probe
    is `-` from its seat `[` to its tip `>`: once as made, spring relaxed, once installed, with `^` for what the spring
    gives.

    Of 51 columns 50 stand for bore depth and relaxed probe beyond it, 241.3 mm: the bottom at 228.6 / 241.3 x 50 = 47,
    the seat at 12.7 / 241.3 x 50 = 3:

    >>> well = Assembly(bore_depth_mm=228.6, tip_mm=6.35, installed_mm=0, seat_plane_mm=215.9, probe_mm=228.6)
    >>> print("\n".join(drawing(well, 62)))
    well       |===============================================##
    as made       [---------------------------------------------->
    installed     [------------------------------------------->^^^
    """
    reach = _reach_mm(assembly)
    a_column_mm = column_mm(assembly, width)

    def at(from_bottom_mm: float) -> int:
        return round((reach - from_bottom_mm) / a_column_mm)

    face, bottom, seat = at(assembly.bore_depth_mm), at(0.0), at(assembly.seat_plane_mm)
    tip, relaxed = at(-assembly.tip_mm), at(assembly.seat_plane_mm - assembly.probe_mm)
    extension = " " * at(assembly.bore_depth_mm + assembly.installed_mm) + "~" * (
        face - at(assembly.bore_depth_mm + assembly.installed_mm)
    )
    if assembly.is_clamped:
        rows = {"well": extension + "|" + "=" * (bottom - face) + "#" * (tip - bottom)}
        rows["clamped"] = _probe(at(assembly.probe_mm), bottom)
        return [f"{name:<{LABEL}}{row}".rstrip() for name, row in rows.items()]
    installed = min(relaxed, bottom)
    rows = {
        "well": extension + "|" + "=" * (bottom - face) + "#" * (tip - bottom),
        "as made": _probe(seat, relaxed),
        "installed": _probe(seat, installed) + "^" * (relaxed - installed),
    }
    return [f"{name:<{LABEL}}{row}".rstrip() for name, row in rows.items()]


def column_mm(assembly: Assembly, width: int) -> float:
    """Return what one character of the drawing stands for [mm]."""
    stands_out = 0.0 if assembly.is_clamped else assembly.probe_mm - assembly.seat_plane_mm
    beyond = max(assembly.tip_mm, stands_out)
    return (_reach_mm(assembly) + beyond) / (max(width, LEAST_WIDTH) - LABEL - 1)


def _reach_mm(assembly: Assembly) -> float:
    longest = assembly.probe_mm if assembly.is_clamped else assembly.seat_plane_mm
    return max(assembly.bore_depth_mm + assembly.installed_mm, longest)


def _probe(seat: int, tip: int) -> str:
    return " " * seat + "[" + "-" * max(tip - seat - 1, 0) + ">"
