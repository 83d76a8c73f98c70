"""The metal of a well: tip, wall, shank and the hole it has to pass. Nothing here judges stress."""

from fractions import Fraction
from functools import lru_cache

import numpy as np
import pandas as pd

from thermowell_index.basis import GEOMETRY, PRACTICE, Basis
from thermowell_index.findings import Severity
from thermowell_index.records.words import cells_say, says
from thermowell_index.registry import Folds, rule
from thermowell_index.table import Frame, Hits
from thermowell_index.threads import parse_thread
from thermowell_index.validator.connections import is_flanged
from thermowell_index.validator.family import family_key, median_of_the_others
from thermowell_index.validator.nominal_sizes import nominal_pipe_size, pipe_size
from thermowell_index.validator.well import BORE_CAUSES, EPSILON_MM, by_unit, own_bore
from thermowell_index.wording import row_lengths

NOT_BAR_STOCK = r"FABRICAT|TUBE|TUBULAR|\bPIPE\b|WELDED (?:UP|TIP)|CERAMIC|KERAMI|ROHRFORM|GESCHWEISST"
TAPERED = r"TAPER|KONISCH|CONIQUE|CONIC|KEGEL"
STRAIGHT = r"STRAIGHT|PARALLEL|CYLINDRIC|ZYLINDR|GERADE|DROIT|CILINDR"
STEPPED = r"STEP|REDUCED TIP|ABGESETZT|ETAGE|ESCALON"
DIAMETERS = "check the diameters against the well's drawing"
PTC = "ASME PTC 19.3 TW, dimensional limits [memory]"
WIDEST_SCHEDULE = "10S"


def is_bar_stock(frame: Frame) -> "pd.Series[bool]":
    """Return which wells are drilled from bar, as far as the words tell: no DIN form, no tube."""
    tube = cells_say(NOT_BAR_STOCK, frame["shank_form"]) | cells_say(NOT_BAR_STOCK, frame["well_connection"])
    return ~frame["is_din_form"] & ~tube


def _has_form(frame: Frame, pattern: str) -> "pd.Series[bool]":
    return cells_say(pattern, frame["shank_form"])


def _metal_at_tip(frame: Frame) -> "pd.Series[float]":
    return frame["overall_length_mm"] - own_bore(frame)


def _tip_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    stated = "tip thickness " + frame["tip_thickness_text"].astype(object)
    worked_out = row_lengths(_metal_at_tip(frame), frame) + " of metal: overall length less bore depth"
    return stated.where(frame["tip_thickness_mm"].notna(), worked_out)


def _thin_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return pd.Series(
        f"{basis.choice('limit.tip_thin')} or more in a well drilled from bar", index=frame.index, dtype=object
    )


@rule(
    severity=Severity.WARNING,
    field="tip_thickness",
    found=_tip_found,
    expected=_thin_expected,
    action="check the digits; if the tip is really that thin, refer it to whoever owns the well's stress calculation",
    source="common practice, no source, for 3/16 in; ASME PTC 19.3 TW asks 3.0 mm (0.12 in) [memory]",
    condition="bar stock, tip thickness (or overall length less bore depth) below 3/16 in",
    folds=Folds.REPEATED,
    yields_to=BORE_CAUSES,
)
def tip_too_thin(frame: Frame, basis: Basis) -> Hits:
    """The tip is thinner than wells drilled from bar are made.

    Either two digits are swapped, or the tip is weak: then measure gently, and do not drill it deeper.
    """
    left = frame["tip_thickness_mm"].fillna(_metal_at_tip(frame))
    thin = is_bar_stock(frame) & (left < basis.length_mm("limit.tip_thin") - EPSILON_MM)
    is_stated = frame["tip_thickness_mm"].notna()
    return pd.DataFrame({"tip_thickness": thin & is_stated, "bore_depth": thin & ~is_stated})


def _metal_left(frame: Frame) -> "pd.Series[float]":
    return _metal_at_tip(frame).fillna(frame["tip_thickness_mm"])


def _thick_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return the same as for a thin tip; where a bore depth is stated too, what it leaves."""
    metal = _metal_at_tip(frame)
    return _tip_found(frame, basis).where(
        metal.isna(), row_lengths(metal, frame) + " of metal: overall length less bore depth"
    )


def _usual_tip(frame: Frame, basis: Basis) -> "pd.Series[str]":
    usual = median_of_the_others(_metal_left(frame), frame, basis)
    return "about " + row_lengths(usual, frame) + " of metal at the tip, as in the other wells"


@rule(
    severity=Severity.WARNING,
    field="bore_depth",
    found=_thick_found,
    expected=_usual_tip,
    action="check the digits; measure the bore with a rod of the sensor's diameter, the sensor withdrawn and the well left in place",
    source=PRACTICE,
    condition="overall length less bore depth (or a tip thickness alone) above 1/2 in where the other wells leave less than 3/8 in",
    yields_to=(*BORE_CAUSES, "measured_against_drawing"),
    folds=Folds.REPEATED,
)
def tip_too_thick(frame: Frame, basis: Basis) -> pd.DataFrame:
    """Much more metal is left at the tip than in the other wells.

    The bore depth may be no bore depth but the insertion length or a length from another face, or a digit of the tip is wrong.
    """
    left = _metal_left(frame)
    usual = median_of_the_others(left, frame, basis)
    thick = left > basis.length_mm("limit.tip_thick") + EPSILON_MM
    thick &= usual < basis.length_mm("limit.tip_usual_most") - EPSILON_MM
    has_bore = _metal_at_tip(frame).notna()
    return pd.DataFrame({"bore_depth": thick & has_bore, "tip_thickness": thick & ~has_bore})


@rule(
    severity=Severity.ERROR,
    field="bore_diameter",
    needs=("bore_diameter_mm", "tip_diameter_mm"),
    expected="a bore narrower than the tip that it is drilled in",
    action="measure the bore with the well left in place; check both units",
    source=GEOMETRY,
    condition="bore diameter equal to the tip diameter or above it",
    yields_to=("implausible_length", "unit_slip"),
)
def bore_wider_than_tip(frame: Frame, basis: Basis) -> Hits:
    """The bore is as wide as the tip it is drilled in, or wider.

    The tip is solid metal around the bore. One of the two cells is mistyped or in the wrong unit.
    """
    return frame["bore_diameter_mm"] >= frame["tip_diameter_mm"]


def _wall(frame: Frame) -> "pd.Series[float]":
    return (frame["tip_diameter_mm"] - frame["bore_diameter_mm"]) / 2


# Tip and bore diameters of DIN 43772 form 4 wells [mm], whose wall of 2.75 mm is in order (read in a trade reprint).
STANDARD_TIPS_MM = ((12.5, 7.0), (9.0, 3.5))


def _is_standard_tip(frame: Frame) -> "pd.Series[bool]":
    found = pd.Series(data=False, index=frame.index)
    for tip, bore in STANDARD_TIPS_MM:
        off = (frame["tip_diameter_mm"] - tip).abs() + (frame["bore_diameter_mm"] - bore).abs()
        found |= off <= EPSILON_MM
    return found


def _wall_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return (
        "wall "
        + row_lengths(_wall(frame), frame)
        + ": tip diameter "
        + frame["tip_diameter_text"].astype(object)
        + ", bore diameter "
        + frame["bore_diameter_text"].astype(object)
    )


def _wall_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return (
        "a wall of "
        + by_unit(frame, basis, "limit.wall_inch", "limit.wall_metric")
        + " or more at the tip of a well drilled from bar"
    )


@rule(
    severity=Severity.WARNING,
    field="tip_diameter",
    needs=("bore_diameter_mm", "tip_diameter_mm"),
    found=_wall_found,
    expected=_wall_expected,
    action="check both diameters; if they are right, refer the well to its stress calculation",
    source=PTC,
    condition="bar stock, (tip diameter - bore diameter)/2 below 0.12 in (3 mm on metric rows)",
    folds=Folds.REPEATED,
    yields_to=("bore_wider_than_tip", "implausible_length", "unit_slip"),
)
def wall_too_thin(frame: Frame, basis: Basis) -> Hits:
    """The wall around the bore is thin at the tip.

    One of the diameters is mistyped, or the wall needs the eye of whoever answers for the well's strength. Nothing here is a stress judgement.
    """
    least = np.where(frame["unit"] == "mm", basis.length_mm("limit.wall_metric"), basis.length_mm("limit.wall_inch"))
    return is_bar_stock(frame) & ~_is_standard_tip(frame) & (_wall(frame) < least - EPSILON_MM)


def _shank_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    straight, taper = basis.choice("limit.straight_most"), basis.choice("limit.taper_least")
    text = f"straight: root and tip alike to {straight}; tapered or stepped: a tip thinner by at least {taper}"
    return pd.Series(text, index=frame.index, dtype=object)


@rule(
    severity=Severity.WARNING,
    field="shank_form",
    needs=("shank_form", "root_diameter_mm", "tip_diameter_mm"),
    expected=_shank_expected,
    action=DIAMETERS,
    source="forms of shank as in ASME PTC 19.3 TW [memory]; common practice, no source, for the limits",
    condition="straight, root and tip diameter differ by more than 1/16 in; tapered or stepped, by less than 1/32 in",
    folds=Folds.REPEATED,
    yields_to=("implausible_length", "unit_slip"),
)
def shank_does_not_match(frame: Frame, basis: Basis) -> Hits:
    """Form of the shank and its two diameters do not match.

    The form or one of the diameters is another well's.
    """
    narrowing = frame["root_diameter_mm"] - frame["tip_diameter_mm"]
    narrows = _has_form(frame, TAPERED) | _has_form(frame, STEPPED)
    too_little = narrows & (narrowing < basis.length_mm("limit.taper_least") - EPSILON_MM)
    is_straight = _has_form(frame, STRAIGHT) & ~narrows
    return too_little | (is_straight & (narrowing.abs() > basis.length_mm("limit.straight_most") + EPSILON_MM))


HOLES = {
    Fraction(1, 2): "limit.hole_half_npt",
    Fraction(3, 4): "limit.hole_three_quarter_npt",
    Fraction(1): "limit.hole_one_npt",
}


@lru_cache(maxsize=4096)
def _hole_key(connection: str, size: str) -> str:
    """Return which entry of the basis is the hole under a connection's thread, empty where none is."""
    for text in (connection, f"{size} {connection}", f"{size} NPT" if says(r"\bNPT\b", connection) else ""):
        thread = parse_thread(text) if text else None
        if thread is not None:
            return HOLES.get(thread.size, "") if thread.family == "NPT" else ""
    return ""


def _holes(frame: Frame, basis: Basis) -> "pd.Series[float]":
    """Return the hole that each well's shank has to pass: of its thread, or of the lightest nozzle of its flange [mm]."""
    flanged = is_flanged(frame)
    holes = []
    for connection, size, has_flange in zip(frame["well_connection"], frame["connection_size"], flanged, strict=True):
        if has_flange:
            pipe = pipe_size(nominal_pipe_size(str(size)), WIDEST_SCHEDULE)
            holes.append(np.nan if pipe is None else pipe.bore_mm)
        else:
            key = _hole_key(str(connection), str(size))
            holes.append(basis.length_mm(key) if key else np.nan)
    return pd.Series(holes, index=frame.index, dtype=float)


def _hole_expected(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return "a root no thicker than the hole of " + row_lengths(_holes(frame, basis), frame) + " that it passes"


@rule(
    severity=Severity.ERROR,
    field="root_diameter",
    needs=("root_diameter_mm",),
    expected=_hole_expected,
    action=DIAMETERS + " and check the size of the connection",
    source="common practice, no source [memory] for threads; bore of schedule 10S pipe, ASME B36.19M, for flanged wells",
    condition="root diameter above 0.69, 0.89, 1.08 in under 1/2, 3/4, 1 NPT; or above the bore of the flange's nozzle in schedule 10S",
    yields_to=("implausible_length", "unit_slip"),
)
def root_too_big_for_hole(frame: Frame, basis: Basis) -> Hits:
    """The shank is thicker than the hole it was put through.

    Such a well could not have been inserted: root diameter or connection is another well's.
    """
    return frame["root_diameter_mm"] > _holes(frame, basis) + EPSILON_MM


def _outside(frame: Frame, basis: Basis) -> "pd.Series[str]":
    """Return by row which dimensions lie outside the scope, in words."""
    length, bore, tip = frame["insertion_length_mm"], frame["bore_diameter_mm"], frame["tip_diameter_mm"]
    ratio = tip / frame["root_diameter_mm"]
    stepped = _has_form(frame, STEPPED)

    def beyond(values: "pd.Series[float]", name: str) -> "pd.Series[bool]":
        least, most = basis.length_mm(f"limit.stress_{name}_least"), basis.length_mm(f"limit.stress_{name}_most")
        return (values < least - EPSILON_MM) | (values > most + EPSILON_MM)

    parts = {
        "insertion length": beyond(length, "length"),
        "bore diameter": beyond(bore, "bore"),
        "tip diameter": beyond(tip, "tip"),
        "taper": ~stepped & (ratio < basis.number("limit.stress_taper_least") - EPSILON_MM),
    }
    named = [part.map({True: name, False: ""}) for name, part in parts.items()]
    texts = [", ".join(word for word in words if word) for words in zip(*named, strict=True)]
    return pd.Series(texts, index=frame.index, dtype=object)


def _outside_found(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return _outside(frame, basis) + " outside the standard's limits"


def _by_family(frame: Frame, basis: Basis) -> "pd.Series[str]":
    return family_key(frame) + ": " + _outside(frame, basis)


def _scope(frame: Frame, basis: Basis) -> "pd.Series[str]":
    limits = {"insertion": "length", "bore": "bore", "tip diameter": "tip"}
    parts = [
        f"{label} {basis.choice(f'limit.stress_{name}_least')} to {basis.choice(f'limit.stress_{name}_most')}"
        for label, name in limits.items()
    ]
    text = f"{', '.join(parts)}, tip to root at least {basis.number('limit.stress_taper_least'):g}"
    return pd.Series(text, index=frame.index, dtype=object)


@rule(
    severity=Severity.NOTE,
    field="insertion_length",
    needs=("shank_form",),
    found=_outside_found,
    expected=_scope,
    action="none for the sensor; whoever calculates the well's strength has to know",
    source=PTC,
    condition="a straight, tapered or stepped well whose dimensions lie outside the stress standard's limits; one note a family",
    group=_by_family,
    yields_to=BORE_CAUSES,
)
def outside_stress_standard(frame: Frame, basis: Basis) -> Hits:
    """Wells of this family lie outside the dimensions that the stress standard covers.

    Old, fabricated and DIN wells are out of its scope anyway and are not looked at. The program makes no stress or wake-frequency judgement.
    """
    known_form = _has_form(frame, TAPERED) | _has_form(frame, STRAIGHT) | _has_form(frame, STEPPED)
    return is_bar_stock(frame) & known_form & (_outside(frame, basis) != "")
