"""The assumptions of the design basis: one entry each, with its value, its source and what it means."""

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from thermowell_index.units import DimensionState, parse_dimension, to_mm

PRACTICE = "common practice, no source"
GEOMETRY = "geometry"


class Quantity(StrEnum):
    """What an assumption's value is."""

    LENGTH = "length"
    NUMBER = "number"
    CHOICE = "choice"
    FLAG = "yes or no"


@dataclass(frozen=True, kw_only=True)
class Assumption:
    """One entry of the design basis."""

    section: str
    name: str
    value: str | float | bool
    quantity: Quantity
    source: str
    meaning: str
    choices: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """Return the dotted name, as in the file."""
        return f"{self.section}.{self.name}"

    @property
    def length_mm(self) -> float:
        """Return the value as a length [mm]; NaN for an empty one, which means not known."""
        return length_in_mm(str(self.value)) if self.value != "" else float("nan")


@lru_cache(maxsize=4096)
def length_in_mm(text: str) -> float:
    """Return a length with its unit [mm]; ValueError says what is wrong with it."""
    sign, plain = (-1.0, text[1:]) if text.startswith("-") else (1.0, text)
    reading = parse_dimension(plain)
    if reading.state is not DimensionState.VALUE or reading.number is None:
        msg = f"{text!r} is not a length"
        raise ValueError(msg)
    if reading.unit is None:
        msg = f"{text!r} has no unit"
        raise ValueError(msg)
    return sign * to_mm(reading.number, reading.unit)


def _length(section: str, name: str, value: str, source: str, meaning: str) -> Assumption:
    return Assumption(section=section, name=name, value=value, quantity=Quantity.LENGTH, source=source, meaning=meaning)


def _number(section: str, name: str, value: float, source: str, meaning: str) -> Assumption:
    return Assumption(section=section, name=name, value=value, quantity=Quantity.NUMBER, source=source, meaning=meaning)


def _choice(section: str, name: str, value: str, choices: str, meaning: str) -> Assumption:
    return Assumption(
        section=section,
        name=name,
        value=value,
        quantity=Quantity.CHOICE,
        source=PRACTICE,
        meaning=meaning,
        choices=("", *choices.split("|")) if not value else tuple(choices.split("|")),
    )


MOUNTINGS = "spring-loaded fitting|spring-loaded insert|flanged insert|fixed fitting"
ARRANGEMENTS = "none|nipple|nipple and coupling|nipple and union|nipple-union-nipple|neck tube"

ASSUMPTIONS: tuple[Assumption, ...] = (
    # --- what a blank means
    _choice("index", "unit", "", "in|mm", "unit of a bare length where cell, unit column, heading and title block are silent; empty: withheld"),
    _choice("index", "mounting_without_column", "spring-loaded fitting", MOUNTINGS, "how sensors are held where a sheet has no such column"),
    _choice("index", "mounting_of_blank", "", MOUNTINGS, "how the sensor is held where the column exists and the cell is blank; empty: withheld"),
    _choice("index", "extension_without_column", "none", ARRANGEMENTS, "the extension where a sheet has no such column"),
    _choice("index", "probe_length_proves", "", "tip touches|in kind", "what the index' probe lengths are known to be where no column says: of sensors in place whose tips touch, or proven in service and bought again in kind; empty: nothing is concluded from them"),
    Assumption(section="index", name="instrument_thread", value="1/2 NPT", quantity=Quantity.CHOICE, source=PRACTICE,
               meaning="thread of wells and extensions where the index does not say"),
    # --- well
    _length("well", "tip_thickness_inch", "1/4 in", PRACTICE, "assumed tip of a row in inches"),
    _length("well", "tip_thickness_metric", "6 mm", PRACTICE, "assumed tip of a metric row"),
    _length("well", "tip_thickness_din", "5 mm", "DIN 43772 form 4 table, L - G (read in a trade reprint)", "assumed tip of a well of a DIN form"),
    _length("well", "tip_credible_least", "3/16 in", PRACTICE, "thinnest tip worth reckoning with"),
    _length("well", "tip_credible_most", "3/8 in", PRACTICE, "thickest tip worth reckoning with"),
    _length("well", "head_length_threaded", "1-3/4 in", "neutral handbook pattern: 3/4 in flats + 1 in thread", "rest of the body of a threaded or welded well"),
    _length("well", "head_length_flanged", "2-1/4 in", "neutral handbook pattern, least for flanged wells", "rest of the body of a flanged well"),
    _length("well", "head_length_most", "24 in", PRACTICE, "longer than this above its connection, lagging taken off, no well is"),
    # --- extension
    _choice("extension", "union_length_means", "", "bought|installed", "what one length beside a union means; empty: withheld"),
    _choice("extension", "nipple_length_means", "bought", "bought|installed", "what an extension length means for a nipple"),
    _length("extension", "standard_length", "", PRACTICE, "the plant's standard bought nipple where an extension has no length; empty: withheld"),
    _length("extension", "union_length", "2 in", PRACTICE, "what a union adds, face to face, its nipple ends unscrewed (Lu)"),
    _length("extension", "coupling_length", "", PRACTICE, "overall length of a coupling (C); empty: withheld"),
    _length("extension", "nipple_credible_least", "", PRACTICE, "shortest bought nipple that an extension named without a length can have; with the longest it is carried through the length: where one length to order serves the whole range the row is sized; empty: withheld"),
    _length("extension", "nipple_credible_most", "", PRACTICE, "longest bought nipple that such an extension can have"),
    _length("extension", "neck_credible_least", "", PRACTICE, "the same for neck tubes: their shortest"),
    _length("extension", "neck_credible_most", "", PRACTICE, "and their longest"),
    _length("extension", "coupling_credible_least", "", PRACTICE, "the same for couplings, where coupling_length is not known: their shortest"),
    _length("extension", "coupling_credible_most", "", PRACTICE, "and their longest"),
    # --- tolerances
    _length("tolerance", "bore_measured", "1/32 in", PRACTICE, "of a measured bore depth, either way"),
    _length("tolerance", "bore_as_built", "1/16 in", PRACTICE, "of a bore depth that the index says is as built, either way"),
    _length("tolerance", "bore_stated", "1/16 in", PRACTICE, "of any other stated bore depth, either way"),
    _length("tolerance", "drill_point", "", PRACTICE, "by which a rod stops sooner in a bore whose stated depth is that to the point of the drill; a bore depth as built or stated may be that much shallower, never deeper; empty: not reckoned with"),
    _length("tolerance", "overall", "1/16 in", PRACTICE, "of an overall length, either way"),
    _length("tolerance", "tip", "1/32 in", PRACTICE, "of a stated tip thickness, either way"),
    _length("tolerance", "din_deeper", "2 mm", "DIN 43772, L +2/0 mm (read in a trade reprint)", "of the total length of a DIN form well: it may be this much longer, never shorter"),
    _length("tolerance", "probe", "1/16 in", PRACTICE, "of the probe length, either way"),
    _length("tolerance", "extension", "1/16 in", PRACTICE, "of the extension as a whole, either way"),
    _number("tolerance", "make_up_turns", 1, "ASME B1.20.1, gauging tolerance of one turn", "turns by which each taper joint may make up"),
    _length("tolerance", "engagement_unstated", "", PRACTICE, "by which each engagement of a thread that the index does not state may differ from that of the thread taken, either way, carried through as a whole; empty: not reckoned with"),
    _choice("tolerance", "stack", "root-sum-square", "root-sum-square|worst case", "how tolerances add; root-sum-square covers 99.7 % of assemblies where each tolerance is three standard deviations, about 92 % where three alike are spread evenly"),
    # --- spring
    _length("spring", "least_preload", "1 mm", PRACTICE, "least compression wanted is travel/8, never below this"),
    _length("spring", "least_reserve", "0.5 mm", PRACTICE, "travel kept unused is travel/20, never below this"),
    # --- plate inserts of the standard
    _length("standard_insert", "seat_offset", "10 mm", "DIN 43772 form 4 table, insert = total + 165 neck + 10 (read in a trade reprint; the split is from memory, to be confirmed)", "from the top of a standard neck, or of a tube in one piece with it, to the insert's plate in a form B head"),
    _length("standard_insert", "travel", "10 mm", "DIN 43735 springs [memory, to be confirmed]", "travel of the springs of an insert that the standard's table gives, where index and profile state none"),
    _choice("standard_insert", "tube_lengths_confirmed", "no", "no|yes", "whether you have confirmed necks and insert lengths of forms 2G, 2F and 3F, which are from memory; they are listed below the profiles"),
    # --- fixed fittings
    _length("fixed", "bottom_gap", "1/8 in", PRACTICE, "gap aimed at between tip and bore bottom"),
    _length("fixed", "least_gap", "1/16 in", PRACTICE, "least gap"),
    _length("fixed", "most_gap", "1/2 in", PRACTICE, "widest gap"),
    # --- limits of the checks
    _length("limit", "bore_depth_least", "1-1/2 in", PRACTICE, "no well has a shallower bore"),
    _length("limit", "bore_depth_most", "120 in", PRACTICE, "no well has a deeper bore"),
    _length("limit", "sum_inch", "1/16 in", PRACTICE, "by which overall length, bore depth and tip may disagree in inches"),
    _length("limit", "sum_metric", "1.5 mm", PRACTICE, "the same for metric rows, which round"),
    _length("limit", "bore_below_overall", "1/8 in", GEOMETRY, "least metal that must be left at the tip"),
    _length("limit", "copied_overall", "1/32 in", PRACTICE, "a bore depth this near the overall length was copied from it"),
    _length("limit", "insertion_below_overall", "1/2 in", GEOMETRY, "least by which insertion and lagging together stay below the overall length"),
    _length("limit", "lagging_signature", "1/8 in", PRACTICE, "how near a bore depth must be to one without the lagging length"),
    _length("limit", "flange_signature", "1/8 in", PRACTICE, "how near a bore depth must be to insertion length less tip"),
    _length("limit", "copied_insertion", "1/32 in", PRACTICE, "a bore depth this near the insertion length was copied from it"),
    _length("limit", "one_well", "1/16 in", PRACTICE, "by which two rows of one well may disagree"),
    _length("limit", "measured_differs", "1/4 in", PRACTICE, "by which measured and drawing bore depth may differ before it is worth a word"),
    _length("limit", "nipple_faces", "1/16 in", PRACTICE, "least bare length of a nipple between its threads"),
    _length("limit", "installed_is_bought", "1/16 in", PRACTICE, "an installed length this near the bought nipple was copied from it"),
    _length("limit", "installed_differs", "1/2 in", PRACTICE, "by which an installed length may differ from what its parts give"),
    _length("limit", "nipple_close", "1/4 in", PRACTICE, "bare length below which a nipple's faces almost touch"),
    _length("limit", "sheath_clearance", "0.005 in", PRACTICE, "least diametral clearance of sheath in bore"),
    _length("limit", "clearance_inch", "0.06 in", PRACTICE, "diametral clearance above which a sheath rattles in its bore"),
    _length("limit", "clearance_metric", "1.6 mm", PRACTICE, "the same for metric rows"),
    _length("limit", "measured_differs_metric", "6 mm", PRACTICE, "by which measured and drawing bore depth may differ on metric rows"),
    _length("limit", "shown_differs_inch", "1/32 in", PRACTICE, "by which the length that a cell shows may differ from the one it holds"),
    _length("limit", "shown_differs_metric", "0.8 mm", PRACTICE, "the same for metric rows"),
    # --- metal of the well
    _length("limit", "tip_thin", "3/16 in", "common practice, no source; ASME PTC 19.3 TW asks 3.0 mm [memory]", "a tip of bar stock thinner than this is worth a word"),
    _length("limit", "tip_thick", "1/2 in", PRACTICE, "metal left at the tip above which the bore depth is in doubt"),
    _length("limit", "tip_usual_most", "3/8 in", PRACTICE, "tips of the others that make a thick one doubtful are at most this"),
    _length("limit", "wall_inch", "0.12 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "least wall of bar stock at the tip"),
    _length("limit", "wall_metric", "3 mm", "ASME PTC 19.3 TW, dimensional limits [memory]", "the same for metric rows"),
    _length("limit", "taper_least", "1/32 in", PRACTICE, "a tapered or stepped shank is thinner at the tip by at least this"),
    _length("limit", "straight_most", "1/16 in", PRACTICE, "root and tip of a straight shank differ by at most this"),
    _length("limit", "hole_half_npt", "0.69 in", "common practice, no source [memory]", "hole that a shank under 1/2 NPT passes"),
    _length("limit", "hole_three_quarter_npt", "0.89 in", "common practice, no source [memory]", "hole that a shank under 3/4 NPT passes"),
    _length("limit", "hole_one_npt", "1.08 in", "common practice, no source [memory]", "hole that a shank under 1 NPT passes"),
    _length("limit", "stress_length_least", "2.5 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "least unsupported length in the standard's scope"),
    _length("limit", "stress_length_most", "24 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "greatest unsupported length in the standard's scope"),
    _length("limit", "stress_bore_least", "0.125 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "least bore diameter in the standard's scope"),
    _length("limit", "stress_bore_most", "0.825 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "greatest bore diameter in the standard's scope"),
    _length("limit", "stress_tip_least", "0.36 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "least tip diameter in the standard's scope"),
    _length("limit", "stress_tip_most", "1.83 in", "ASME PTC 19.3 TW, dimensional limits [memory]", "greatest tip diameter in the standard's scope"),
    _number("limit", "stress_taper_least", 0.58, "ASME PTC 19.3 TW, dimensional limits [memory]", "least tip diameter to root diameter in the standard's scope, straight and tapered shanks"),
    # --- families
    _number("limit", "foot_mark_factor", 2, PRACTICE, "a length in feet alone is doubted where it exceeds the others of its column by this factor"),
    _number("family", "least_rows", 5, PRACTICE, "rows that make a family"),
    _number("family", "share", 0.8, PRACTICE, "share of a family that must agree before the others are odd"),
    _length("family", "differs", "1/4 in", PRACTICE, "by which a row may differ from its family"),
    _length("family", "agrees", "1/32 in", PRACTICE, "within which rows of a family count as equal"),
    _length("family", "heads_agree", "1/16 in", PRACTICE, "within which head lengths of a family, which are differences of two lengths, count as equal"),
    _number("family", "slip_rows", 8, PRACTICE, "rows that a unit slip is judged against"),
    _number("family", "slip_off", 5, PRACTICE, "a slipped value is off by more than this factor"),
    _number("family", "slip_near", 0.03, PRACTICE, "how near the median a shifted decimal mark must bring it, as a share"),
    _number("family", "slip_range", 1.5, PRACTICE, "how far outside the middle of its family the converted value may lie, as a factor"),
    _length("family", "head_threaded_least", "1-1/4 in", "neutral handbook pattern: 3/4 in flats + 1 in thread, and common practice", "least head length of a threaded or socket-weld well"),
    _length("family", "head_threaded_most", "2-1/4 in", "neutral handbook pattern: 3/4 in flats + 1 in thread, and common practice", "greatest head length of a threaded or socket-weld well"),
    _length("family", "head_flanged_least", "2 in", "neutral handbook pattern, 2-1/4 in rising with the size, and common practice", "least head length of a flanged well"),
    _length("family", "head_flanged_most", "4-1/2 in", "neutral handbook pattern, 2-1/4 in rising with the size, and common practice", "greatest head length of a flanged well"),
    _number("family", "slid_rows", 8, PRACTICE, "neighbours over which a slid column is looked for"),
    _number("family", "slid_before", 0.6, PRACTICE, "a column may have slid where less than this share of them adds up"),
    _number("family", "slid_after", 0.9, PRACTICE, "and has, where more than this share does once it is moved by one row"),
    _number("family", "slid_farthest", 3, PRACTICE, "rows by which a column is looked for at most, 3 or less"),
    _number("family", "slid_since_rows", 5, PRACTICE, "neighbours that bear the values of rows above or below in the issue before, where a column has slid since"),
    _number("family", "copied_rows", 10, PRACTICE, "neighbours with the same lengths that look filled down"),
    _number("family", "copied_kinds", 3, PRACTICE, "line sizes or connections over which they must run"),
    # --- access
    _length("access", "head_clear_inch", "2 in", PRACTICE, "free length that the head needs above the insulation"),
    _length("access", "head_clear_metric", "50 mm", PRACTICE, "the same for metric rows"),
    _length("access", "withdrawal_extra", "6 in", PRACTICE, "room that a withdrawn sensor needs beyond its own length"),
    _number("access", "often_months", 12, PRACTICE, "a sensor recalibrated at least this often is pulled often [months]"),
    # --- stated lengths
    _length("mistake", "near", "1/8 in", PRACTICE, "how near a stated length must be to what a known mistake gives"),
    _length("mistake", "hex_least", "3/4 in", PRACTICE, "least height of a hexagon that a length may be measured under"),
    _length("mistake", "hex_most", "1 in", PRACTICE, "greatest height of such a hexagon"),
    _number("mistake", "repeats_least", 3, PRACTICE, "rows that share a mistake and become one finding"),
    _number("mistake", "growth_share", 0.25, PRACTICE, "share of the margin that hot growth may use"),
    # --- in the pipe
    _length("pipe", "immersed", "2 in", "API RP 551 (second-hand, in a public text)", "least length in the stream"),
    _length("pipe", "immersed_resistance", "3 in", "API RP 551 (second-hand, in a public text)", "least length in the stream of a resistance element"),
    _number("pipe", "film_coefficient", 200, PRACTICE, "heat transfer from stream to well for the estimate of stem conduction [W/(m2 K)]"),
    _number("pipe", "air_film_coefficient", 10, PRACTICE, "heat transfer from the well's head to the air for the same [W/(m2 K)]"),
    _number("pipe", "conduction_share", 0.005, PRACTICE, "share of the difference between stream and air that the tip may lose"),
    # --- hottest a sensor may be, degrees Celsius
    *(
        _number("hot", name, value, source, f"hottest use of {words} [degrees Celsius]")
        for source, kinds in (
            (
                "IEC 60751 [memory]",
                (
                    ("wire_class_aa", 250, "a wire-wound resistance element of class AA"),
                    ("wire_class_a", 450, "a wire-wound resistance element of class A"),
                    ("wire_class_b", 600, "a wire-wound resistance element of class B"),
                    ("wire_class_c", 600, "a wire-wound resistance element of class C"),
                    ("film_class_aa", 150, "a film resistance element of class AA"),
                    ("film_class_a", 300, "a film resistance element of class A"),
                    ("film_class_b", 500, "a film resistance element of class B"),
                    ("film_class_c", 600, "a film resistance element of class C"),
                ),
            ),
            (
                "IEC 60584-1, tolerance classes 1 and 2 [memory]",
                tuple(
                    (f"type_{letter}", value, f"a type {letter.upper()} thermocouple")
                    for letter, value in (
                        ("t", 350), ("j", 750), ("e", 900), ("k", 1200), ("n", 1200), ("r", 1600), ("s", 1600), ("b", 1700),
                    )
                ),
            ),
        )
        for name, value, words in kinds
    ),
    # --- what repeats
    _number("report", "repeats_least", 10, PRACTICE, "one fault on this many rows of a sheet may be said once, with the tags"),
    _number("report", "repeats_share", 0.1, PRACTICE, "and is, where it is on this share of the sheet's points"),
    _number("report", "repeats_anyway", 50, PRACTICE, "one fault on this many rows of a sheet is said once, whatever their share"),
)  # fmt: skip
