"""What the words of a sensor say to a buyer: kind of element, how many, which sheath.

Words are common practice, no source.
"""

import re
from collections.abc import Hashable

RESISTANCE = re.compile(r"\bRTD|\bP(?:T|RT)\b|\bPT ?-?1000?\b|RESIST|WIDERSTAND|\bCU ?-?10\b|\bNI ?-?1[02]0\b")
OHMS = re.compile(r"\bPT ?-?(?P<ohms>1000?)\b")
NAMED_LETTER = r"\b(?:TYPE[ -]*|TYP[ -]+|TIPO[ -]+)(?P<letter>[BEJKNRST])\b|\b(?P<before>[BEJKNRST])[ -]TYPE?\b"
COUPLE = r"\bT/?C\b|\bTHERMOCOUPLE|\bTHERMOELEMENT|\bTHERMOPAAR|\bTHERMOKOPPEL|\bTERMOPAR\b|\bTERMOCOPPIA\b"
THERMOCOUPLE = re.compile(rf"{COUPLE}|{NAMED_LETTER}|^[BEJKNRST]$")
LETTER = re.compile(rf"{NAMED_LETTER}|(?:{COUPLE}),?[ -]*(?P<after>[BEJKNRST])\b|^(?P<alone>[BEJKNRST])$")
ELEMENT_WORDS = re.compile(
    r"\bRTD\b|\bP(?:T|RT) ?-?(?:1000?)?\b|\bRESISTANCE(?: THERMOMETER)?\b|\bT/?C\b|\bTHERMOCOUPLE\b|\bTHERMOELEMENT\b"
    r"|\bTHERMOPAAR\b|\bTHERMOKOPPEL\b|\bTERMOPAR\b|\bTERMOCOPPIA\b"
    r"|\b(?:TYPE[ -]*|TYP[ -]+|TIPO[ -]+)[BEJKNRST]\b|\b[BEJKNRST][ -]TYPE?\b"
    r"|^[BEJKNRST]$|\b(?:OHM|ELEMENT|SENSOR)S?\b"
)
COUNTS = (
    (2, re.compile(r"^(?:2|DUPLEX|DUAL|DOUBLE|TWIN|DOPPEL|2 ?X)$")),
    (1, re.compile(r"^(?:1|SIMPLEX|SINGLE|1 ?X|EINFACH)$")),
)
_TIMES = r"(?<![\d./,X])\b{count} ?X(?= ?(?:PT|RTD|T/?C|TYP|[BEJKNRST]\b)|\b(?! ?[\d.]))|^{count}$"
COUNT_WORDS = (
    (
        2,
        re.compile(
            r"\b(?:DUPLEX|DUAL|DOUBLE|TWIN|DOPPEL\w*|ZWEIFACH|DOBLE|DOPPI[OA]|DUBBEL)\b|" + _TIMES.format(count=2)
        ),
    ),
    (
        1,
        re.compile(
            r"\b(?:SIMPLEX|SINGLE|SIMPLE|EINFACH|SENCILL[OA]|SINGOL[OA]|SEMPLICE|ENKEL)\b|" + _TIMES.format(count=1)
        ),
    ),
)
GRADE = r"(?P<{name}>304|310|316|321|347|446)[ -]?(?P<{name}_more>L|TI|H)?"
STEEL_IN_WORDS = re.compile(
    rf"\b(?:S/?S|ST ?ST|STAINLESS(?: STEEL)?|STEEL|AISI)[ -]*{GRADE.format(name='behind')}(?![A-Z\d])"
    rf"|\b{GRADE.format(name='before')}[ -]*(?:S/?S\b|ST ?ST\b|STAINLESS)"
    rf"|^{GRADE.format(name='alone')}$|\b(?P<low>304|316)(?P<low_more>L|TI)\b"
)
# The word for an alloy, or a name of one, whichever it is: most end alike.
ALLOY = r"\b(?:ALLOY|(?!PANEL|CHANNEL|TUNNEL)[A-Z]{2,}(?:NEL|LOY))"
ALLOYS = (
    ("stainless 316", r"1\.4401\b"),
    ("stainless 316 l", r"1\.44(?:04|35)\b"),
    ("stainless 316 ti", r"1\.4571\b"),
    ("stainless 321", r"1\.4541\b"),
    ("stainless 304", r"1\.4301\b"),
    ("stainless 310", r"1\.484[15]\b"),
    ("nickel alloy 600", rf"2\.4816\b|\bN06600\b|{ALLOY}[ -]?600\b"),
    ("nickel alloy 625", rf"2\.4856\b|\bN06625\b|{ALLOY}[ -]?625\b"),
    ("nickel alloy 800", rf"1\.4876\b|{ALLOY}[ -]?800\w*"),
    ("nickel alloy c276", r"2\.4819\b|\bC[ -]?276\b"),
    ("nickel alloy", rf"(?:NICKEL ALLOY|(?!\bALLOY){ALLOY})\b(?![ -]?C?[ -]?\d)"),
    ("titanium", r"\bTITAN(?:IUM)?\b|\bTITANIO\b"),
    ("ceramic", r"\bCERAMIC|\bKERAMI|\bCERAMIC[OA]\b"),
)
STEEL_WORDS = re.compile(r"\b(?:S/?S|STAINLESS|STEEL|AISI|ST ?ST)(?=\b|\d)|(?<=\d)SS\b|(?<=\dL)SS\b")
STEEL_GRADE = re.compile(r"(?:304|310|316|321|347)(?:L|TI|H)?")


def element_key(text: str) -> Hashable:
    """Return what a buyer reads in a sensor type: the kind of element, and all that is said beside it.

    >>> element_key("RTD Pt100") == element_key("PT 100") == element_key("Pt-100")
    True
    >>> element_key("Pt100") == element_key("Pt100 class A")
    False
    """
    plain = " ".join(text.upper().split())
    kind = element_of(text)
    rest = ELEMENT_WORDS.sub(" ", plain) if kind else plain
    if kind.startswith("thermocouple "):
        rest = re.sub(rf"(?<![A-Z0-9]){kind[-1]}(?![A-Z0-9])", " ", rest)
    return kind, words_key(rest)


def count_key(text: str) -> Hashable:
    """Return how many elements a text says, else the text: simplex, single and 1 are one.

    >>> count_key("Simplex") == count_key("1"), count_key("duplex") == count_key("1")
    (True, False)
    """
    plain = " ".join(text.upper().split())
    return next((count for count, words in COUNTS if words.match(plain)), words_key(text))


def material_key(text: str) -> str:
    """Return a steel's grade where the words name no more than that, else the words.

    >>> material_key("316 SS") == material_key("SS316") == material_key("AISI 316"), material_key("316L") == "316"
    (True, False)
    """
    bare = words_key(STEEL_WORDS.sub(" ", text.upper()))
    return bare if STEEL_GRADE.fullmatch(bare.upper()) else words_key(text)


def element_count_of(text: str) -> int:
    """Return how many elements words state among others, 0 where they state none or two counts.

    >>> element_count_of("RTD PT100 DUPLEX 6MM"), element_count_of("1/2 X 9 in"), element_count_of("single or dual")
    (2, 0, 0)
    """
    plain = " ".join(text.upper().split())
    found = {count for count, words in COUNT_WORDS if words.search(plain)}
    return found.pop() if len(found) == 1 else 0


def material_of(text: str) -> str:
    """Return the one sheath material that words name, a general name before its grade; empty for none or several.

    >>> material_of("RTD 6MM SS316"), material_of("2.4816") == material_of("Alloy 600"), material_of("316SS, 2.4816")
    ('stainless 316', True, '')
    """
    plain = " ".join(text.upper().split())
    found = {name for name, words in ALLOYS if re.search(words, plain)} | {
        " ".join(part.lower() for part in match.groups() if part) for match in STEEL_IN_WORDS.finditer(plain)
    }
    named = {f"stainless {name}" if name[0].isdigit() else name for name in found}
    most = {name for name in named if not any(other.startswith(f"{name} ") for other in named)}
    return most.pop() if len(most) == 1 else ""


def agree(one: str, other: str) -> bool | None:
    """Return whether two words agree, None where one says nothing or less.

    >>> agree("resistance", "resistance"), agree("resistance", "resistance 100"), agree("resistance", "thermocouple")
    (True, None, False)
    """
    if not one or not other:
        return None
    if one == other:
        return True
    return None if f"{one} ".startswith(f"{other} ") or f"{other} ".startswith(f"{one} ") else False


def words_key(text: str) -> str:
    """Return a text without case, blanks, dashes, commas and brackets, which hands differ in."""
    return re.sub(r"[\s\-_,;()]+", "", text.casefold())


def element_of(text: str) -> str:
    """Return the kind of element that words name: resistance or thermocouple, with what else they tell of it.

    Parameters
    ----------
    text : str
        As a store or an index writes it [-].

    Returns
    -------
    str
        Empty where the words name neither for certain [-].

    Raises
    ------
    AttributeError
        If it is no text.

    Notes
    -----
    Words are common practice, no source.

    Source: common practice, no source.

    Examples
    --------
    >>> element_of("RTD Pt100"), element_of("T/C type K"), element_of("RTD")
    ('resistance 100', 'thermocouple K', 'resistance')
    """
    plain = " ".join(text.upper().split())
    is_resistance, is_couple = bool(RESISTANCE.search(plain)), bool(THERMOCOUPLE.search(plain))
    if is_resistance == is_couple:
        return ""
    if is_resistance:
        ohms = OHMS.search(plain)
        return f"resistance {ohms['ohms']}" if ohms else "resistance"
    letters = {letter for match in LETTER.finditer(plain) for letter in match.groups() if letter}
    return f"thermocouple {letters.pop() if len(letters) == 1 else ''}".strip()
