"""The design basis: every assumption a run stands on, its value, its source; and the user's file that changes them."""

import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from enum import StrEnum
from pathlib import Path

from thermowell_index.errors import SettingsError
from thermowell_index.units import DimensionState, parse_dimension, to_mm

PRACTICE = "common practice, no source"
GEOMETRY = "geometry"
MEMORY = "from memory, to be confirmed"


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
        return _length_mm(str(self.value)) if self.value != "" else float("nan")


def _length_mm(text: str) -> float:
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
    # --- extension
    _choice("extension", "union_length_means", "", "bought|installed", "what one length beside a union means; empty: withheld"),
    _choice("extension", "nipple_length_means", "bought", "bought|installed", "what an extension length means for a nipple"),
    _length("extension", "standard_length", "", PRACTICE, "the plant's standard bought nipple where an extension has no length; empty: withheld"),
    _length("extension", "union_length", "2 in", PRACTICE, "what a union adds, face to face, its nipple ends unscrewed (Lu)"),
    _length("extension", "coupling_length", "", PRACTICE, "overall length of a coupling (C); empty: withheld"),
    # --- tolerances
    _length("tolerance", "bore_measured", "1/32 in", PRACTICE, "of a measured bore depth, either way"),
    _length("tolerance", "bore_stated", "1/16 in", PRACTICE, "of a stated bore depth, either way"),
    _length("tolerance", "overall", "1/16 in", PRACTICE, "of an overall length, either way"),
    _length("tolerance", "tip", "1/32 in", PRACTICE, "of a stated tip thickness, either way"),
    _length("tolerance", "din_deeper", "2 mm", "DIN 43772, L +2/0 mm (read in a trade reprint)", "of the total length of a DIN form well: it may be this much longer, never shorter"),
    _length("tolerance", "probe", "1/16 in", PRACTICE, "of the probe length, either way"),
    _length("tolerance", "extension", "1/16 in", PRACTICE, "of the extension as a whole, either way"),
    _number("tolerance", "make_up_turns", 1, "ASME B1.20.1, gauging tolerance of one turn", "turns by which each taper joint may make up"),
    _choice("tolerance", "stack", "root-sum-square", "root-sum-square|worst case", "how tolerances add; root-sum-square covers 99.7 % of assemblies where each tolerance is three standard deviations, about 92 % where three alike are spread evenly"),
    # --- spring
    _length("spring", "least_preload", "1 mm", PRACTICE, "least compression wanted is travel/8, never below this"),
    _length("spring", "least_reserve", "0.5 mm", PRACTICE, "travel kept unused is travel/20, never below this"),
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
    _number("family", "least_rows", 5, PRACTICE, "rows that make a family"),
    _number("family", "share", 0.8, PRACTICE, "share of a family that must agree before the others are odd"),
    _length("family", "differs", "1/4 in", PRACTICE, "by which a row may differ from its family"),
    _length("family", "agrees", "1/32 in", PRACTICE, "within which rows of a family count as equal"),
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
    _number("report", "repeats_share", 0.2, PRACTICE, "and is, where it is on this share of the sheet's points"),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class SensorProfile:
    """One kind of sensor: what its length is measured from, what its spring does, which lengths it comes in.

    Lengths are text with a unit; an empty one is not known. `seat_offset` is from the mounting face to the seat plane,
    outward positive; the word `engagement` stands for minus the make-up of the mounting thread. A row takes the profile
    whose `words` stand in its mounting cell, else the usual one of its mounting. `stated` names what the user gave.
    """

    name: str
    mounting: str
    thread: str
    plane: str
    seat_offset: str
    target_compression: str
    travel: str
    increment_inch: str
    increment_metric: str
    standard_lengths_mm: tuple[float, ...]
    source: str
    words: tuple[str, ...] = ()
    stated: frozenset[str] = frozenset()

    def length_mm(self, name: str) -> float:
        """Return one of the profile's lengths [mm], NaN where it is not known or is a word."""
        text = str(getattr(self, name))
        return _length_mm(text) if text not in PROFILE_WORDS else float("nan")


PROFILE_WORDS = ("", "engagement", "middle")

PROFILES: tuple[SensorProfile, ...] = (
    SensorProfile(
        name="spring_loaded_fitting",
        mounting="spring-loaded fitting",
        thread="taper",
        plane="from end of mounting thread to tip, spring relaxed",
        seat_offset="engagement",
        target_compression="engagement",
        travel="1 in",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="collar_fitting",
        mounting="spring-loaded fitting",
        thread="parallel",
        plane="from sealing face of the collar to tip, spring relaxed",
        seat_offset="",
        target_compression="middle",
        travel="1 in",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="spring_loaded_insert",
        mounting="spring-loaded insert",
        thread="any",
        plane="from underside of the terminal block to tip, spring relaxed, extension included",
        seat_offset="-1/2 in",
        target_compression="1/2 in",
        travel="1 in",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
    SensorProfile(
        name="flanged_insert",
        mounting="flanged insert",
        thread="any",
        plane="from underside of the plate to tip, springs relaxed, extension and head included",
        seat_offset="",
        target_compression="middle",
        travel="10 mm",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source="DIN 43735 plate and springs; travel from memory, to be confirmed",
    ),
    SensorProfile(
        name="fixed_fitting",
        mounting="fixed fitting",
        thread="taper",
        plane="from end of mounting thread to tip",
        seat_offset="engagement",
        target_compression="",
        travel="",
        increment_inch="1/4 in",
        increment_metric="5 mm",
        standard_lengths_mm=(),
        source=PRACTICE,
    ),
)

FORM_4_NECK_MM = 165.0
FORM_4_SEAT_MM = 10.0
FORM_4_TRAVEL_MM = 10.0
FORM_4_BOTTOM_MM = 5.0
# Total length of form 4 wells and the insert that goes with the standard neck and a form B head [mm].
# Source: DIN 43772:2000-03 form 4 table as reprinted by the trade; its misprints corrected by insert = total + 175.
FORM_4_INSERT_MM: Mapping[float, float] = {
    110.0: 285.0,
    140.0: 315.0,
    170.0: 345.0,
    200.0: 375.0,
    260.0: 435.0,
    410.0: 585.0,
}


@dataclass(frozen=True, kw_only=True)
class RuleChoice:
    """What the user's file says of one check: another severity, or that it is off and why; empty is not said."""

    severity: str = ""
    off: str = ""


@dataclass(frozen=True)
class Basis:
    """All assumptions and profiles of one run, and what the user chose of the checks."""

    entries: Mapping[str, Assumption]
    profiles: Mapping[str, SensorProfile]
    changed: frozenset[str] = frozenset()
    name: str = "built in"
    rules: Mapping[str, RuleChoice] = field(default_factory=dict)

    def length_mm(self, key: str) -> float:
        """Return the length of an entry [mm], NaN where it is left empty."""
        return self.entries[key].length_mm

    def number(self, key: str) -> float:
        """Return the number of an entry."""
        return float(self.entries[key].value)

    def choice(self, key: str) -> str:
        """Return the word of an entry, empty where none is chosen."""
        return str(self.entries[key].value)

    def __iter__(self) -> Iterator[Assumption]:
        return iter(self.entries.values())


BUILT_IN = Basis({entry.key: entry for entry in ASSUMPTIONS}, {profile.name: profile for profile in PROFILES})


def read_basis(path: Path, switches: Mapping[str, bool]) -> Basis:
    """Return the built-in design basis with what a TOML file changes in it.

    `switches` names the checks, and whether each may be switched off.

    Raises
    ------
    SettingsError
        The file cannot be read, is no TOML, or has a wrong key or value: all of them in one line.

    """
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as exc:
        raise SettingsError(f"{path}: cannot read the design basis: {exc}") from exc
    return basis_from(data, name=path.name, where=str(path), switches=switches)


def basis_from(data: Mapping[str, object], *, name: str, where: str, switches: Mapping[str, bool]) -> Basis:
    """Return the design basis that a mapping of sections describes; SettingsError names every wrong key."""
    wrong: list[str] = []
    entries, profiles = dict(BUILT_IN.entries), dict(BUILT_IN.profiles)
    changed: set[str] = set()
    rules: dict[str, RuleChoice] = {}
    for section, content in data.items():
        if not isinstance(content, Mapping):
            wrong.append(f"{section}: is not a section")
        elif section == "profile":
            _change_profiles(profiles, content, wrong, changed)
        elif section == "rules":
            rules = _rule_choices(content, switches, wrong)
        else:
            _change_entries(entries, section, content, wrong, changed)
    if wrong:
        raise SettingsError(f"{where}: wrong in the design basis: " + "; ".join(wrong))
    return Basis(entries, profiles, frozenset(changed), name, rules)


def _rule_choices(
    content: Mapping[str, object], switches: Mapping[str, bool], wrong: list[str]
) -> dict[str, RuleChoice]:
    """Return what the file says of single checks; a check is named as the sheets show it, or with underscores."""
    choices: dict[str, RuleChoice] = {}
    for given, values in content.items():
        name = given.strip().casefold().replace(" ", "_").replace("-", "_")
        problems = _rule_problems(name, values, switches)
        wrong += [f"rules.{given}: {problem}" for problem in problems]
        if not problems and isinstance(values, Mapping):
            choices[name] = RuleChoice(**{key: str(value).strip() for key, value in values.items()})
    return choices


SEVERITIES = ("error", "warning", "note")


def _rule_problems(name: str, values: object, switches: Mapping[str, bool]) -> list[str]:
    if name not in switches:
        return ["there is no such check; list them with: thermowell-index rules"]
    if not isinstance(values, Mapping):
        return ["is not a section"]
    problems = [f"{key}: no such entry; there are severity, off" for key in values if key not in {"severity", "off"}]
    if "severity" in values and values["severity"] not in SEVERITIES:
        problems.append(f"severity: {values['severity']!r} is none of {', '.join(SEVERITIES)}")
    if "off" in values:
        reason = values["off"]
        if not isinstance(reason, str) or not reason.strip():
            problems.append('off: needs the reason as text, off = "..."')
        elif not switches[name]:
            problems.append("off: this check says why a row can have no length, and cannot be switched off")
    return problems


def _change_entries(
    entries: dict[str, Assumption], section: str, content: Mapping[str, object], wrong: list[str], changed: set[str]
) -> None:
    for name, value in content.items():
        key = f"{section}.{name}"
        if key not in entries:
            wrong.append(f"{key}: no such entry")
            continue
        problem = _problem(entries[key], value)
        if problem:
            wrong.append(f"{key}: {problem}")
        elif value != entries[key].value:
            entries[key] = replace(entries[key], value=value, source="user's design basis")  # type: ignore[arg-type]
            changed.add(key)


def _problem(entry: Assumption, value: object) -> str:
    """Return what is wrong with a value for an entry, empty when it will do."""
    if entry.quantity is Quantity.NUMBER:
        is_number = isinstance(value, int | float) and not isinstance(value, bool) and value >= 0
        return "" if is_number else f"{value!r} is not a number of zero or more"
    if not isinstance(value, str):
        return f"{value!r} is not text in quotes"
    if entry.quantity is Quantity.LENGTH:
        return _length_problem(value, may_be_empty=entry.value == "")
    if entry.choices and value not in entry.choices:
        return f"{value!r} is none of {', '.join(repr(choice) for choice in entry.choices)}"
    return ""


def _length_problem(value: str, *, may_be_empty: bool, may_be_negative: bool = False) -> str:
    if value == "" and may_be_empty:
        return ""
    try:
        length = _length_mm(value)
    except ValueError as exc:
        return str(exc)
    return "" if length >= 0 or may_be_negative else f"{value!r} is less than nothing"


def _change_profiles(
    profiles: dict[str, SensorProfile], content: Mapping[str, object], wrong: list[str], changed: set[str]
) -> None:
    """Change the profiles that are there, and add those that are `like` one of them."""
    for name, values in content.items():
        if not isinstance(values, Mapping):
            wrong.append(f"profile.{name}: is not a section")
            continue
        like = str(values.get("like", name))
        if like not in profiles:
            wrong.append(f"profile.{name}: no such profile; say which it is like: {', '.join(BUILT_IN.profiles)}")
            continue
        given = {key: value for key, value in values.items() if key != "like"}
        good = {key: value for key, value in given.items() if _profile_value_is_right(name, key, value, wrong)}
        lists = {key: tuple(good[key]) for key in ("standard_lengths_mm", "words") if key in good}
        if like == name and not good:
            continue
        base = profiles[like] if like == name else replace(profiles[like], words=())
        said = {"source": "user's design basis", **good, **lists}
        profiles[name] = replace(base, name=name, stated=base.stated | frozenset(good), **said)
        changed |= {f"profile.{name}.{key}" for key in good}


PROFILE_LENGTHS = ("seat_offset", "target_compression", "travel", "increment_inch", "increment_metric")
PROFILE_KEYS = tuple(entry.name for entry in fields(SensorProfile) if entry.name not in {"name", "stated"})


def _profile_value_is_right(profile: str, key: str, value: object, wrong: list[str]) -> bool:
    problem = ""
    if key not in PROFILE_KEYS:
        problem = f"no such entry; there are {', '.join(PROFILE_KEYS)}"
    elif key == "standard_lengths_mm":
        problem = "" if _is_number_list(value) else "is not a list of lengths in mm"
    elif key == "words":
        problem = "" if _is_word_list(value) else "is not a list of words in quotes"
    elif key in PROFILE_CHOICES and value not in PROFILE_CHOICES[key]:
        problem = f"{value!r} is none of {', '.join(map(repr, PROFILE_CHOICES[key]))}"
    elif not isinstance(value, str):
        problem = f"{value!r} is not text in quotes"
    elif key in PROFILE_LENGTHS and value not in PROFILE_WORDS:
        problem = _length_problem(value, may_be_empty=False, may_be_negative=key == "seat_offset")
    if problem:
        wrong.append(f"profile.{profile}.{key}: {problem}")
    return not problem


PROFILE_CHOICES = {"mounting": tuple(MOUNTINGS.split("|")), "thread": ("taper", "parallel", "any")}


def _is_word_list(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(item, str) and item.strip() for item in value)


def _is_number_list(value: object) -> bool:
    return isinstance(value, list) and all(
        isinstance(item, int | float) and not isinstance(item, bool) and item > 0 for item in value
    )


def sections(basis: Basis) -> Iterable[tuple[str, list[Assumption]]]:
    """Yield each section's name with its entries, in the order of the dictionary."""
    grouped: dict[str, list[Assumption]] = {}
    for entry in basis:
        grouped.setdefault(entry.section, []).append(entry)
    return grouped.items()
