"""Thread designations, how deep they screw in, and which of them mate.

Pipe threads are named by their nominal size in inches, metric threads by their diameter in millimetres.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple

from thermowell_index.units.notation import FRACTION, MIXED, plain_text, read_number

Gender = Literal["male", "female"]
Family = Literal["NPT", "NPSM", "NPSL", "R", "Rc", "Rp", "G", "M"]

_MM_IN_AN_INCH = Fraction(254, 10)


class _Npt(NamedTuple):
    """Basic dimensions of an American taper pipe thread."""

    threads_per_inch: Fraction
    hand_tight_in: Fraction
    """L1, hand-tight engagement."""


# ASME B1.20.1, basic dimensions of NPT, column L1; L3, the wrench make-up, is 3 pitches in every one of these sizes.
_NPT = {
    Fraction(1, 8): _Npt(Fraction(27), Fraction("0.1615")),
    Fraction(1, 4): _Npt(Fraction(18), Fraction("0.2278")),
    Fraction(3, 8): _Npt(Fraction(18), Fraction("0.2400")),
    Fraction(1, 2): _Npt(Fraction(14), Fraction("0.3200")),
    Fraction(3, 4): _Npt(Fraction(14), Fraction("0.3390")),
    Fraction(1): _Npt(Fraction(23, 2), Fraction("0.4000")),
    Fraction(5, 4): _Npt(Fraction(23, 2), Fraction("0.4200")),
    Fraction(3, 2): _Npt(Fraction(23, 2), Fraction("0.4200")),
    Fraction(2): _Npt(Fraction(23, 2), Fraction("0.4360")),
}
_WRENCH_MAKE_UP_PITCHES = 3


class _Iso7(NamedTuple):
    """Dimensions of a pipe thread that seals on the thread, 55 degree flanks."""

    threads_per_inch: Fraction
    gauge_length_mm: Fraction
    wrenching_turns: Fraction


# ISO 7-1, table 1 (read from reprints of the identical series of JIS B 0203:1999): gauge length of the external thread.
# Wrenching: the fitting allowance less the 1-1/4 turns by which an internal thread may be wide.
_ISO_7 = {
    Fraction(1, 8): _Iso7(Fraction(28), Fraction("3.97"), Fraction(3, 2)),
    Fraction(1, 4): _Iso7(Fraction(19), Fraction("6.01"), Fraction(3, 2)),
    Fraction(3, 8): _Iso7(Fraction(19), Fraction("6.35"), Fraction(3, 2)),
    Fraction(1, 2): _Iso7(Fraction(14), Fraction("8.16"), Fraction(3, 2)),
    Fraction(3, 4): _Iso7(Fraction(14), Fraction("9.53"), Fraction(3, 2)),
    Fraction(1): _Iso7(Fraction(11), Fraction("10.39"), Fraction(3, 2)),
    Fraction(5, 4): _Iso7(Fraction(11), Fraction("12.70"), Fraction(3, 2)),
    Fraction(3, 2): _Iso7(Fraction(11), Fraction("12.70"), Fraction(3, 2)),
    Fraction(2): _Iso7(Fraction(11), Fraction("15.88"), Fraction(2)),
}
# Nominal diameters of the sizes above and of the larger ones that an index may name (ISO 6708 [memory]).
_DN_OF_SIZE = {
    Fraction(1, 8): 6, Fraction(1, 4): 8, Fraction(3, 8): 10, Fraction(1, 2): 15, Fraction(3, 4): 20, Fraction(1): 25,
    Fraction(5, 4): 32, Fraction(3, 2): 40, Fraction(2): 50, Fraction(5, 2): 65, Fraction(3): 80, Fraction(4): 100,
}  # fmt: skip
_SIZE_OF_DN = {dn: size for size, dn in _DN_OF_SIZE.items()}
_PIPE_SIZES = _DN_OF_SIZE.keys() | {Fraction(1, 16), Fraction(5, 8), Fraction(7, 8), Fraction(9, 8), Fraction(7, 2)}

_SHOULDER_FAMILIES = frozenset({"NPSM", "NPSL", "G", "M"})
_TAPER_FAMILIES = frozenset({"NPT", "R", "Rc"})
_ALWAYS_FEMALE = frozenset({"Rc", "Rp"})
# Made-up pairs, male on female. R male fits both internal threads of ISO 7-1, which has no parallel male thread;
# an NPT male in an NPSM female is common practice, no source. "R" is also written for the hole, so R on R passes.
_MATING = frozenset(
    {("NPT", "NPT"), ("NPT", "NPSM"), ("NPSM", "NPSM"), ("NPSL", "NPSL"), ("R", "R"), ("R", "Rc"), ("R", "Rp")}
    | {("G", "G"), ("M", "M")}
)
_SYSTEM = {"NPT": "American", "NPSM": "American", "NPSL": "American", "M": "metric"} | dict.fromkeys(
    ("R", "Rc", "Rp", "G"), "ISO pipe"
)


@dataclass(frozen=True, kw_only=True, slots=True)
class Thread:
    """One thread as designated.

    Attributes
    ----------
    family : str
        NPT (NPTF included), NPSM, NPSL, R, Rc, Rp, G or M.
    size : Fraction
        Nominal size: inches for pipe threads, millimetres for M. [in or mm]
    pitch_mm : float or None
        Pitch; None where neither the text nor a table tells. [mm]
    gender : str or None
        male, female, or None where the text does not say. Rc and Rp are female by definition.
    text : str
        The designation as written.
    """

    family: Family
    size: Fraction
    pitch_mm: float | None
    gender: Gender | None
    text: str

    @property
    def is_taper(self) -> bool:
        """Whether the thread itself is a cone."""
        return self.family in _TAPER_FAMILIES

    @property
    def is_parallel(self) -> bool:
        """Whether the thread itself is a cylinder."""
        return not self.is_taper

    @property
    def seats_on_shoulder(self) -> bool:
        """Whether the joint stops at a shoulder; a parallel Rp stops where its taper male wedges."""
        return self.family in _SHOULDER_FAMILIES


_GENDER_WORDS = {
    "male": "m male ext external ag außengewinde aussengewinde mâle macho maschio buitendraad",
    "female": "f fem female int internal ig innengewinde femelle hembra femmina fêmea femea binnendraad",
}
_GENDERS: dict[str, Gender] = {word: gender for gender in ("male", "female") for word in _GENDER_WORDS[gender].split()}
_FAMILY_WORDS: dict[str, Family] = {
    "npt": "NPT", "nptf": "NPT", "npsm": "NPSM", "npsl": "NPSL", "g": "G", "r": "R", "rc": "Rc", "rp": "Rp",
    "bspp": "G", "bspparallel": "G", "bspt": "R", "bsptaper": "R", "bsptapered": "R",
}  # fmt: skip
_FILLING = re.compile(r"(?<!\w)(?:pipe|thread(?:s|ed)?|thd\.?|conn(?:ection)?\.?|gewinde)(?!\w)", re.IGNORECASE)


def _gender_slot(name: str) -> str:
    words = "|".join(sorted(_GENDERS, key=len, reverse=True))
    return rf"(?:[(\[]\s*(?P<{name}_in_brackets>{words})\.?\s*[)\]]|(?P<{name}>{words})\.?)"


_SIZE = (
    rf"(?:dn ?(?P<dn>[0-9]{{1,3}})|(?P<size>{MIXED}|{FRACTION}|[0-9]{{1,3}}(?:[.,][0-9]{{1,4}})?|\.[0-9]{{1,4}})"
    r"(?:\s*(?:\"|in\.|in(?:ch)?(?!\w)|zoll))?)"
    r"(?:\s*-\s*(?P<per_inch>[0-9]{1,2}(?:[.,]5|[ -]1/2)?))?"
)
_FAMILY = (
    rf"(?:{_gender_slot('before')}[\s-]?)?"
    r"(?P<family>n\.?p\.?t\.?(?:f(?!\w))?|nps[ml]|bsp[ -]?(?:taper(?:ed)?|parallel)|bsp[ -]?\(?[tp]\)?|rc|rp|r|g)"
)
_LEAD = rf"(?:{_gender_slot('lead')}[\s:-]*)?"
_TRAIL = rf"(?:(?:\s+-?\s*|\s*/\s*|-(?!f(?!\w))|(?=[(\[])){_gender_slot('trail')})?"
_PIPE = (
    re.compile(rf"{_LEAD}{_SIZE}[\s-]*{_FAMILY}(?:-f(?!\w))?{_TRAIL}", re.IGNORECASE),
    re.compile(rf"{_LEAD}{_FAMILY}[\s-]*{_SIZE}(?:\s*-?\s*(?P<external_class>[ab]))?{_TRAIL}", re.IGNORECASE),
)
_METRIC = re.compile(
    rf"{_LEAD}m ?(?P<size>[0-9]{{1,3}}(?:[.,][0-9])?)(?:\s*[x*\u00d7]\s*(?P<pitch>[0-9](?:[.,][0-9]{{1,2}})?))?"
    rf"(?:\s*-?\s*(?P<tolerance>[4-8][eghEGH]))?{_TRAIL}",
    re.IGNORECASE,
)


def parse_thread(text: str) -> Thread | None:
    """Read a thread designation; None for what is not surely one thread.

    Parameters
    ----------
    text : str
        The designation: `1/2 NPT`, `½ FNPT`, `1/2-14 NPT`, `G 1/2 A`, `R 1/2`, `M20x1.5`, `DN15 NPT`. [-]

    Returns
    -------
    Thread or None
        None too for `1/2 BSP`, which may be taper or parallel, and for a size or a number of threads per inch that
        the family does not have. [-]

    Notes
    -----
    NPTF (dryseal) mates with NPT. BSPT is R, or Rc where the text says female; BSPP is G. A class A or B behind a G
    thread, g behind a metric one, says male; class H says female. `R` alone states no gender: the trade writes it for
    both sides. `NPT-F` may be female or dryseal and states none either.

    Source: common practice, no source; G classes from memory.

    Examples
    --------
    >>> thread = parse_thread('1/2" NPT (M)')
    >>> thread.family, thread.size, thread.gender
    ('NPT', Fraction(1, 2), 'male')
    """
    plain = " ".join(_FILLING.sub(" ", plain_text(text)).split())
    if match := _METRIC.fullmatch(plain):
        return _metric_thread(match, text)
    for pattern in _PIPE:
        if match := pattern.fullmatch(plain):
            return _pipe_thread(match, text)
    return None


def _metric_thread(match: re.Match[str], text: str) -> Thread | None:
    stated = _stated_genders(match)
    if (tolerance := match["tolerance"]) and tolerance[-1] in "eghH":
        stated.add("female" if tolerance[-1] == "H" else "male")
    size = Fraction(match["size"].replace(",", "."))
    pitch = None if match["pitch"] is None else Fraction(match["pitch"].replace(",", "."))
    if len(stated) > 1 or not size or (pitch is not None and not 0 < pitch < size / 2):
        return None
    return Thread(
        family="M", size=size, pitch_mm=None if pitch is None else float(pitch), gender=_only(stated), text=text
    )


def _pipe_thread(match: re.Match[str], text: str) -> Thread | None:
    stated = _stated_genders(match)
    family = _FAMILY_WORDS[re.sub(r"[^a-z]", "", match["family"].casefold())]
    groups = match.groupdict()
    if groups.get("external_class"):
        if family != "G":
            return None
        stated.add("male")
    if family == "R" and "female" in stated:
        if match["family"].casefold() == "r":
            return None
        family = "Rc"
    if family in _ALWAYS_FEMALE:
        stated.add("female")
    size = _pipe_size(match["size"], match["dn"])
    if size is None or len(stated) > 1:
        return None
    known = _threads_per_inch(family, size)
    written = match["per_inch"] and Fraction(re.sub(r"[., -].*", ".5", match["per_inch"]))
    if written and known not in (None, written):
        return None
    per_inch = known or written
    pitch_mm = float(_MM_IN_AN_INCH / per_inch) if per_inch else None
    return Thread(family=family, size=size, pitch_mm=pitch_mm, gender=_only(stated), text=text)


def _stated_genders(match: re.Match[str]) -> set[Gender]:
    slots = ("lead", "before", "trail")
    words = [word for name, word in match.groupdict().items() if word and name.split("_")[0] in slots]
    return {_GENDERS[word.casefold()] for word in words}


def _only(stated: set[Gender]) -> Gender | None:
    return next(iter(stated), None)


def _pipe_size(size: str | None, dn: str | None) -> Fraction | None:
    if size is None:
        return _SIZE_OF_DN.get(int(dn or 0))
    number = read_number(size.replace(",", "."))
    return number.value if number is not None and number.value in _PIPE_SIZES else None


def _threads_per_inch(family: Family, size: Fraction) -> Fraction | None:
    row = (_NPT if _SYSTEM[family] == "American" else _ISO_7).get(size)
    return None if row is None else row.threads_per_inch


def engagement_mm(thread: Thread) -> float:
    """Give the axial length that one made-up joint of this thread swallows.

    Parameters
    ----------
    thread : Thread
        The thread, of either side. [-]

    Returns
    -------
    float
        Engagement; 0 for a thread that seats on a shoulder, NaN for a size that is in no table. [mm]

    Notes
    -----
    NPT: L1 + L3 rounded to 1/8 in, which for 1/2 NPT is the 1/2 in of the trade. R, Rc, Rp: gauge length + 1.5 turns
    of wrenching, 2 for size 2.

    Source: ASME B1.20.1, basic dimensions; ISO 7-1, table 1; 1/2 in for 1/2 NPT is common practice, no source.

    Examples
    --------
    >>> engagement_mm(parse_thread("1/2 NPT"))
    12.7
    """
    if thread.seats_on_shoulder:
        return 0.0
    if thread.family == "NPT":
        npt = _NPT.get(thread.size)
        if npt is None:
            return float("nan")
        made_up_in = npt.hand_tight_in + _WRENCH_MAKE_UP_PITCHES / npt.threads_per_inch
        return float(Fraction(round(made_up_in * 8), 8) * _MM_IN_AN_INCH)
    iso = _ISO_7.get(thread.size)
    if iso is None:
        return float("nan")
    return float(iso.gauge_length_mm + iso.wrenching_turns * _MM_IN_AN_INCH / iso.threads_per_inch)


def turn_mm(thread: Thread) -> float:
    """Give how far one turn moves a joint whose stop is not certain to better than a turn.

    Parameters
    ----------
    thread : Thread
        The thread, of either side. [-]

    Returns
    -------
    float
        The pitch; 0 for a thread that seats on a shoulder, NaN for a size that is in no table. [mm]

    Notes
    -----
    Source: geometry.

    Examples
    --------
    >>> turn_mm(parse_thread("1/2 NPT")), turn_mm(parse_thread("M20x1.5"))
    (1.8142857142857143, 0.0)
    """
    if thread.seats_on_shoulder:
        return 0.0
    return float("nan") if thread.pitch_mm is None else thread.pitch_mm


def mates(male: Thread, female: Thread) -> str | None:
    """Say why two threads do not screw together and seal; None when they do.

    Parameters
    ----------
    male : Thread
        The thread that goes in. A gender that the text does not state is no complaint. [-]
    female : Thread
        The thread that takes it. [-]

    Returns
    -------
    str or None
        The reason in words: `male on male`, `NPT on G`, `taper on parallel`, `sizes differ`, `pitches differ`. [-]

    Notes
    -----
    Source: ISO 7-1 and ISO 228-1 for what belongs together; NPT male in NPSM female is common practice, no source.

    Examples
    --------
    >>> mates(parse_thread("1/2 NPT"), parse_thread("G 1/2"))
    'NPT on G'
    """
    if male.gender == female.gender and male.gender is not None:
        return f"{male.gender} on {male.gender}"
    if male.gender == "female" or female.gender == "male":
        male, female = female, male
    if (male.family, female.family) not in _MATING:
        return _clash(male, female)
    if male.size != female.size:
        return "sizes differ"
    if None not in (male.pitch_mm, female.pitch_mm) and male.pitch_mm != female.pitch_mm:
        return "pitches differ"
    return None


def _clash(male: Thread, female: Thread) -> str:
    if _SYSTEM[male.family] == _SYSTEM[female.family] and male.is_taper != female.is_taper:
        return "taper on parallel" if male.is_taper else "parallel on taper"
    return f"{male.family} on {female.family}"
