"""What a heading means: its words in one normal form, scored against the wordings of every field."""

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from thermowell_index.table import Field

# Trade abbreviations and spellings, common practice, no source. One word to one word or more.
WORDS = {
    "TW": "WELL", "THERMOWELL": "WELL", "THERMOWELLS": "WELL", "POCKET": "WELL", "THERMOPOCKET": "WELL", "THERMOWEL": "WELL",
    "TERMOPOZO": "WELL", "VAINA": "WELL", "TERMOVAINA": "WELL", "SCHUTZROHRE": "SCHUTZROHR", "TERMOPOZZETTO": "WELL", "POZZETTO": "WELL",
    "THK": "THICKNESS", "THICK": "THICKNESS", "THKNS": "THICKNESS", "THCK": "THICKNESS", "THKN": "THICKNESS", "THICKN": "THICKNESS",
    "DIA": "DIAMETER", "DIAM": "DIAMETER", "DIAMTR": "DIAMETER", "DM": "DIAMETER", "DURCHM": "DURCHMESSER",
    "OD": "OUTSIDE DIAMETER", "ID": "INSIDE DIAMETER", "OAL": "OVERALL LENGTH", "OA": "OVERALL", "OVERAL": "OVERALL",
    "LG": "LENGTH", "LGTH": "LENGTH", "LEN": "LENGTH", "LNGTH": "LENGTH", "LENGHT": "LENGTH", "LTH": "LENGTH", "LENGTHS": "LENGTH", "LNG": "LENGTH",
    "LGE": "LAENGE", "INS": "INSERTION", "INSERT'N": "INSERTION", "INSRT": "INSERTION", "IMM": "IMMERSION", "IMMERS": "IMMERSION",
    "EXT": "EXTENSION", "EXTN": "EXTENSION", "EXTEN": "EXTENSION", "CONN": "CONNECTION", "CONNECT": "CONNECTION", "CONX": "CONNECTION", "CNX": "CONNECTION", "CXN": "CONNECTION",
    "CONNS": "CONNECTION", "SCH": "SCHEDULE", "SCHED": "SCHEDULE", "INST": "INSTRUMENT", "INSTR": "INSTRUMENT", "INSTRUM": "INSTRUMENT",
    "PROC": "PROCESS", "QTY": "QUANTITY", "QTTY": "QUANTITY", "QNTY": "QUANTITY", "NO": "NUMBER", "NOS": "NUMBER", "NUM": "NUMBER", "NR": "NUMBER", "NBR": "NUMBER", "NUMERO": "NUMBER", "NUMMER": "NUMBER",
    "TEMP": "TEMPERATURE", "PRESS": "PRESSURE", "MATL": "MATERIAL", "MATERL": "MATERIAL", "MAT": "MATERIAL", "MOC": "MATERIAL",
    "MEAS": "MEASURED", "MEASD": "MEASURED", "ELEM": "ELEMENT", "ELT": "ELEMENT", "TE": "ELEMENT", "SENS": "SENSOR", "SENSORS": "SENSOR",
    "MTG": "MOUNTING", "MTNG": "MOUNTING", "MNTG": "MOUNTING", "SL": "SPRING LOADED", "SPRG": "SPRING", "SPG": "SPRING",
    "DESC": "DESCRIPTION", "DESCR": "DESCRIPTION", "SERV": "SERVICE", "SVC": "SERVICE", "REV": "REVISION", "REM": "REMARKS", "RMKS": "REMARKS", "REMARK": "REMARKS",
    "INSUL": "INSULATION", "INSULN": "INSULATION", "LAGG": "LAGGING", "THD": "THREAD", "THRD": "THREAD", "THREADS": "THREAD", "SHTH": "SHEATH", "SHEATHING": "SHEATH",
    "DIM": "DIMENSION", "DIMS": "DIMENSIONS", "TAGS": "TAG", "TAGNUMBER": "TAG NUMBER", "TAGNO": "TAG NUMBER", "NIP": "NIPPLE", "NIPL": "NIPPLE", "CAL": "CALIBRATION", "ORD": "ORDER",
    "REQD": "REQUIRED", "EXIST": "EXISTING", "EXISTG": "EXISTING", "DWG": "DRAWING", "DRG": "DRAWING", "TC": "THERMOCOUPLE", "T/C": "THERMOCOUPLE",
    "COMPRESSN": "COMPRESSION", "WITHDRAWL": "WITHDRAWAL", "LONG": "LONGUEUR", "STATE": "STATUS", "INSTALLD": "INSTALLED", "INSTLD": "INSTALLED", "MSR": "MSR", "DEP": "DEPTH", "DPTH": "DEPTH",
    "TIPO": "TIPO", "DIAMETRO": "DIAMETER", "DIAMETRE": "DIAMETER", "DURCHMESSER": "DIAMETER", "MATERIALE": "MATERIAL", "WELLS": "WELL", "UNION": "UNION", "NIPPLES": "NIPPLE",
}  # fmt: skip
# Several written words that stand for one.
PHRASES = (
    (r"\bT\s*/\s*WELL\b", "WELL"), (r"\bT\s*/\s*W\b", "WELL"), (r"\bT\.\s*W\.(?!\w)", "WELL"), (r"\bTHERMO[- ]WELL\b", "WELL"), (r"\bO\s*/\s*A\b", "OVERALL"), (r"\bO\.\s*A\.(?!\w)", "OVERALL"), (r"\bO\.\s*A\.\s*L\.?", "OVERALL LENGTH"),
    (r"\bOVER[- ]ALL\b", "OVERALL"), (r"\bS\s*/\s*L\b", "SPRING LOADED"), (r"\bO\.\s*D\.(?!\w)", "OD"), (r"\bI\.\s*D\.(?!\w)", "ID"),
    (r"\bDOIGTS? DE GANT\b", "WELL"), (r"\bTHERMO ?PUITS\b", "WELL"), (r"\bTHERMOELEMENT\b", "THERMOCOUPLE"), (r"\bDATASHEET\b", "DATA SHEET"),
    (r"\bSTAND-?OFF\b", "STAND OFF"), (r"\bAS[- ]BUILT\b", "AS BUILT"), (r"\bSPRING-LOADED\b", "SPRING LOADED"), (r"\bBOREDEPTH\b", "BORE DEPTH"), (r"\bP\.?\s?O\.(?!\w)", "PO"), (r"\bMADE-UP\b", "MADE UP"),
    (r"\bU\.?O\.?M\.?(?!\w)", "UOM"), (r"\bTAG\s*#", "TAG NUMBER"), (r"[Ø⌀ø]", " DIAMETER "), (r"#", " NUMBER "), (r"№", " NUMBER "), (r"\bN[º°]", " NUMBER "),
)  # fmt: skip
UNIT_WORDS = frozenset(
    ["MM", "CM", "IN", "INCH", "INCHES", "INS", "ZOLL", "POUCES", "PULGADAS", "POLLICI", "POLEGADAS", "MILLIMETRES", "MILLIMETERS", "MILLIMETER", "FT", "FEET", "BARG", "BAR", "DEG", "DEGC", "DEGF"]
)  # fmt: skip
FILLERS = frozenset(
    ["THE", "OF", "FOR", "AND", "TO", "DES", "DER", "DIE", "DAS", "LA", "LE", "DEL", "EL", "NOTE1", "ACTUAL", "REQUIRED", "DETAILS", "DATA", "DETAIL", "NEW", "APPROVED"]
)  # fmt: skip


def _plain(text: str) -> str:
    folded = unicodedata.normalize("NFKD", text.replace("ß", "ss"))
    plain = "".join(mark for mark in folded if not unicodedata.combining(mark)).upper()
    return re.sub(r"(?<=\w)-\s*[\r\n]+\s*(?=\w)", "", plain)


@lru_cache(maxsize=4096)
def normal_words(text: str) -> tuple[str, ...]:
    """Return a heading's words in capitals, abbreviations spelt out, units, marks and filler words gone.

    >>> normal_words('T/W O/A LG. (mm)')
    ('WELL', 'OVERALL', 'LENGTH')
    """
    plain = _plain(text)
    for pattern, meaning in PHRASES:
        plain = re.sub(pattern, f" {meaning} ", plain)
    # "in" inside brackets, at the end, or after a comma is a unit; "INS." in brackets likewise
    plain = re.sub(r"[\[(]\s*(?:[A-Z]{1,2}|[\"″”']+|DEG\.? ?[CF])\.?\s*[\])]", " ", plain)
    words: list[str] = []
    for word in re.findall(r"[A-Z0-9]+(?:'[A-Z]+)?", plain):
        words += WORDS.get(word, word).split()
    kept = [word for word in words if word not in FILLERS and word not in UNIT_WORDS]
    return tuple(kept)


# Words that say where a figure comes from, not what it is; passed over only when nothing fits with them.
QUALIFIERS = frozenset(
    ["AS", "BUILT", "DRAWING", "DESIGN", "EXISTING", "CURRENT", "SHEET", "PER", "FROM", "ORIGINAL", "STATED", "NOMINAL", "FINAL", "SPECIFIED", "TYPICAL", "VENDOR", "IN", "NOTE", "SEE"]
)  # fmt: skip


@dataclass(frozen=True)
class Match:
    """A field that a heading may name, and how well the wording fits (1 is word for word)."""

    field: str
    score: float
    order: int


LEAST_SCORE = 0.6
PART = 0.9
LETTERS_DROPPED = 0.9


class HeadingDictionary:
    """The wordings of all fields, ready to be compared with headings."""

    def __init__(self, fields: Iterable[Field]) -> None:
        self._wordings: list[tuple[str, frozenset[str], int, int]] = []
        for field in fields:
            for order, wording in enumerate(field.headings):
                words = normal_words(wording)
                if words:
                    self._wordings.append((field.name, frozenset(words), len(words), order))
        self._memo: dict[tuple[str, ...], tuple[Match, ...]] = {}

    def matches(self, text: str) -> tuple[Match, ...]:
        """Return the fields that a heading may name, best first; those of equal score are equal candidates."""
        words = normal_words(text)
        if words not in self._memo:
            kept = tuple(word for word in words if word not in QUALIFIERS and not word.isdigit())
            self._memo[words] = self._score(words) or (self._score(kept) if kept != words else ())
        return self._memo[words]

    def _score(self, words: tuple[str, ...]) -> tuple[Match, ...]:
        best: dict[str, Match] = {}
        for match in (*self._compare(frozenset(words), 1.0), *self._without_letters(words)):
            if match.field not in best or match.score > best[match.field].score:
                best[match.field] = match
        return tuple(sorted(best.values(), key=lambda match: (-match.score, match.order)))

    def _without_letters(self, words: tuple[str, ...]) -> Iterable[Match]:
        """Yield what the words name when single letters beside them are passed over; that counts for less."""
        spelt = frozenset(word for word in words if len(word) > 1)
        return self._compare(spelt, LETTERS_DROPPED) if spelt and len(spelt) < len(set(words)) else ()

    def _compare(self, words: frozenset[str], weight: float) -> Iterable[Match]:
        for name, wording, length, order in self._wordings:
            if wording == words:
                yield Match(name, weight, order)
            elif wording < words:
                score = weight * PART * length / len(words)
                if score >= LEAST_SCORE:
                    yield Match(name, score, order)


def stacked(texts: Sequence[str]) -> list[str]:
    """Return the readings of a column's heading texts, top to bottom: all levels joined, fewer levels, the lowest alone."""
    levels = list(dict.fromkeys(" ".join(text.split()) for text in texts if text.strip()))
    return [" ".join(levels[start:]) for start in range(len(levels))]
