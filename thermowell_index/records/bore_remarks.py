"""What a remark says of the bore: a depth, that it is no longer free, or that its length is to be confirmed.

All wordings are common practice, no source. Texts are compared in capitals without accents; fractions stay as typed.
"""

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from thermowell_index.units import DimensionState, parse_dimension, to_mm

_BORE = (
    r"BORES?|(?<![A-Z0-9])B(?= ?= ?\d)|BOHRUNG(?:STIEFE)?|BOHRTIEFE|BOORDIEPTE|ALESAGE|PERCAGE|TALADRO|PERFORACION|FORO|FURO|BORING|DEPTH|TIEFE|PROFONDEUR|PROFUNDIDAD"
    r"|PROFONDITA|PROFUNDIDADE|DIEPTE"
)
_WELL = (
    r"WELL|T/?W|THERMOWELL|POCKET|POZO|TERMOPOZZETTO|TERMOPOCO|SCHUTZHULSE|TAUCHHULSE|SCHUTZROHR|PUITS|DOIGT(?: DE GANT)?|VAINA|TERMOPOZO|POZZETTO|POCO|BESCHERMBUIS"
    r"|THERMOMETERSCHUTZROHR"
)
_STOPS = r"ROD (?:STOPPED|STOPS|STOPPING|WENT IN|BOTTOMED|GOES IN)(?: AT)?|ROD(?= \d)|BOTTOMS(?: OUT)?|BOTTOMED(?: OUT)?|STOPS|STUCK AT|JAMS|STECKT BEI|STOSST BEI|BUTE A|TOPE A"
_MEASURED = r"MEASURED|MEAS'?D|RODDED|DIPPED|ACTUAL(?:LY)?|FOUND|GEMESSEN|MESUREE?|MEDID[OA]|MISURAT[OA]|GEMETEN|REELLE?|REAL|EFFETTIV[OA]"
_CLOSED = (
    r"PLUGGED|OBSTRUCTED|OBSTRUCTION|BLOCKED|BLOCKAGE|RESTRICTED|RESTRICTION|ABANDONED|CLOGGED|FOULED|DEBRIS|BENT|COLLAPSED|CRUSHED|BROKEN|SHORTENED"
    r"|NOT (?:FREE|CLEAR)|NICHT FREI|CUT (?:DOWN|BACK|SHORT)|SLEEVED|JAMMED|VERSTOPFT|GEKURZT|VERKURZT|VERBOGEN|BOUCHEE?|OBSTRUEE?|RACCOURCIE?"
    r"|COLMATEE?|OBSTRUID[OA]|TAPAD[OA]|ACORTAD[OA]|DOBLAD[OA]|OSTRUIT[OA]|OTTURAT[OA]|ACCORCIAT[OA]|INTASAT[OA]"
    r"|VERSCHLOSSEN|VERSCHMUTZT|VERSTOPFUNG|HINDERNIS|FREMDKORPER|ENCRASSEE?|BOUCHAGE|OBTUREE?|CORPS ETRANGER|OBSTRUCCION"
    r"|OBSTRUCAO|OSTRUZIONE|CUERPO EXTRANO|FOREIGN (?:OBJECT|BODY)|VERSTOPT|VERSTOPPING|INGEKORT|ENTUPID[OA]|ENCURTAD[OA]"
)
_CLOSED_BORE = re.compile(rf"\b(?:{_CLOSED})\b")
_OF_THE_WELL = re.compile(rf"\b(?:{_BORE}|{_WELL})\b")
_CLOSED_IN_ITSELF = re.compile(
    r"\b(?:OBSTRUCTION|BLOCKAGE|HINDERNIS|VERSTOPFUNG|FREMDKORPER|BOUCHAGE|CORPS ETRANGER|OBSTRUCCION|OBSTRUCAO"
    r"|OSTRUZIONE|CUERPO EXTRANO|FOREIGN (?:OBJECT|BODY)|PLUG (?:FITTED|INSTALLED|WELDED))\b"
    r"|\b(?:ONLY|NUR|SEULEMENT|SOLO|SLECHTS) [\d ./,-]+(?:IN|INCH(?:ES)?|MM|CM|\")?\.? ?"
    r"(?:FREE|CLEAR|OPEN|FREI|LIBRES?|VRIJ|LIBER[OI])\b"
    rf"|\b(?:STUCK|STECKT|LEFT|LODGED|BROKEN(?: OFF)?|CASSEE?|BLOQUEE?|COINCEE?|ROT[OA]) (?:IN|DANS|EN|NEL)\b[^;.]{{0,12}}\b(?:{_BORE}|{_WELL})\b"
    rf"|\b(?:BUSHING|SLEEVE|SPACER|LINER)\b[^;.]{{0,20}}\b(?:IN|AT)\b[^;.]{{0,20}}\b(?:{_BORE}|{_WELL})\b|"
    r"\bFULL OF (?:SCALE|COKE|DEBRIS|PRODUCT|DIRT|RUST|SCHMUTZ)\b"
    r"|\b(?:COKE|SCALE|SLUDGE|DIRT|RUST|DEPOSITS?) (?:BUILD-?UP|(?:IN|AT) (?:THE )?(?:WELL|T/?W|BORE|(?:TIP|BOTTOM)(?! (?:HEAD|TAN))))"
    r"|\bTIP (?:IS |WAS |HAS BEEN )?(?:CUT|BROKEN|SHEARED|SNAPPED|CORRODED)(?: OFF)?\b|\bSPITZE (?:ABGEBROCHEN|ABGETRENNT)\b"
    r"|\bPOINTE (?:CASSEE|COUPEE)\b|\bPUNTA (?:ROTA|CORTADA|ROTTA|TAGLIATA)\b"
    r"|\b(?:BUSHING|SLEEVE|SPACER|PLUG) AT (?:THE )?BOTTOM\b|\b(?:BOTTOM|TIP) (?:WAS |IS )?WELDED\b|\bBORE (?:DEPTH )?(?:IS |HAS BEEN |WAS )?REDUCED\b|\bREDUCED BORE DEPTH\b"
)
_FREE = re.compile(
    rf"\b(?:NOT|NEVER|NICHT|PAS|NIET|NAO|NON) (?:\w+ )?(?:{_CLOSED})\b"
    rf"|\b(?:NO|WITHOUT|FREE OF|KEINE?|SANS|SIN|SENZA|GEEN|SEM) (?:\w+ )?(?:{_CLOSED})\b"
    r"|(?<!NOT )(?<!BE )(?<!CANNOT )\b(?:CLEANED|CLEARED|REAMED|UNPLUGGED|GEREINIGT|NETTOYEE?|LIMPIAD[OA]|PULIT[OA])\b"
)
_NOUNS = rf"{_BORE}|MASSE|COTES?|COTAS|MEDIDAS|MISURE|MATEN|ABMESSUNGEN|LANGEN|LONGUEURS|LONGITUDES|LUNGHEZZE|DIMENSIONS?|DIMS?|OAL|O/A(?: LENGTH)?|DRAWING|DWG|LENGTHS?|LANGE|LONGUEUR|LONGITUD|LUNGHEZZA|LENGTE|COMPRIMENTO"
_IN_DOUBT = (
    r"TBC|T\.B\.C|TBV|TO BE (?:CONFIRMED|VERIFIED|CHECKED|MEASURED)|VERIFY|CONFIRM|CHECK|WRONG|INCORRECT|QUERY|DOUBTFUL"
    r"|DOUBT|UNCERTAIN|NOT (?:VERIFIED|CONFIRMED|AS DRAWN|PER)|UNVERIFIED|UNCONFIRMED|UNKNOWN|SUSPECT|ZU PRUFEN|PRUFEN|KLAREN"
    r"|ESTIMATED|ASSUMED|GUESS(?:ED)?|TO FOLLOW|NOT AS[- ]BUILT|ANGENOMMEN|FOLGEN|DO NOT USE|GESCHATZT|NICHT GEPRUFT|UNGEPRUFT|FALSCH|ESTIMEE?S?|NON VERIFIEE?S?|ERRONEE?S?|ESTIMAD[OA]S?"
    r"|STIMAT[OAEI]|A (?:VERIFIER|CONFIRMER|VERIFICAR|CONFIRMAR)|POR (?:CONFIRMAR|VERIFICAR)|DA (?:VERIFICARE|CONFERMARE)"
    r"|CONTROLEREN"
)
_DOUBTED = re.compile(
    rf"\b(?:{_NOUNS})\b[^;.]{{0,20}}?\b(?:{_IN_DOUBT})\b|\b(?:{_IN_DOUBT})\b[^;.]{{0,20}}?\b(?:{_NOUNS})\b"
)
_REPLACED = re.compile(
    rf"\b(?:LONGER|SHORTER|DIFFERENT) (?:{_WELL})\b"
    rf"|\b(?:{_WELL})(?: WAS| HAS BEEN| TO BE| WURDE| A ETE| FUE| E STATO| FOI| IS)? (?:REPLACED|CHANGED|EXCHANGED|DAMAGED|RENEWED|REPAIRED|ERSETZT"
    r"|GETAUSCHT|ERNEUERT|AUSGEBAUT|REMPLACEE?|CHANGEE?|DEPOSEE?|CAMBIAD[OA]|REEMPLAZAD[OA]|SUSTITUID[OA]|SOSTITUIT[OA]|CAMBIAT[OA]"
    r"|SUBSTITUID[OA]|TROCAD[OA]|VERVANGEN)\b"
    rf"|\bNEW (?:{_WELL})\b[^;.]{{0,8}}\b(?:FITTED|INSTALLED|TO BE INSTALLED|IN PLACE)\b|^\W*REMPLACEE? EN \d|LONGUEUR INCONNUE"
    rf"|\b(?:{_WELL})\b[^;.]{{0,25}}\b(?:TO BE REPLACED|WIRD ERSETZT|AUSZUTAUSCHEN|ERSETZEN|UNDICHT|A REMPLACER|A REEMPLAZAR|DA SOSTITUIRE|LEAK(?:S|ING)?)\b"
    r"|\bRE-?(?:BORED|DRILLED)\b|\bDRILLED OUT\b|\bLENGTHS? (?:CHANGED|REVISED|MODIFIED)\b"
    r"|\b(?:ADAPT[EO]R|BUSHING|REDUCER)\b[^;.]{0,20}\b(?:FITTED|INSTALLED|BETWEEN|USED|IN PLACE)\b"
    r"|\bAUFGEBOHRT\b|\bREPERCEE?\b|\bSEE T[A-Z]*-?\d+\w* FOR (?:LENGTHS?|DIM\w*)"
    rf"|\b(?:SENSOR|PROBE|ELEMENT|INSERT|RTD|T/?C|FUHLER|MESSEINSATZ|SONDE|SONDA)\b(?: IS| WAS)? (?:SEIZED|STUCK|FESTGEFRESSEN|GRIPPEE?|AGARROTAD[OA]|GRIPPAT[OA])\b"
    r"|^\W*GUESS(?:ED|TIMATE)?\b|\bTIP DAMAGED\b|^\W*CUT (?:DOWN|BACK|SHORT)\b"
    rf"|\b(?:{_WELL}|SHANK|STEM)\b[^;.]{{0,15}}\bCUT (?:DOWN|BACK|SHORT)\b"
    rf"|\b(?:{_WELL})(?: WAS| HAS BEEN| IS)? (?:REMOVED|DELETED|CAPPED|CUT OFF|NOT INSTALLED|ABANDONED|MISSING)\b"
    rf"|\b(?:NO|W/O|WITHOUT|OHNE|SANS|SIN|SENZA|ZONDER) (?:AN? )?(?:{_WELL})\b(?! (?:TAG|N(?:O|UMBER)|DRAWING|DWG|DATA|DIM))"
    r"|\bSURFACE[- ]MOUNT|\bSKIN (?:TYPE|POINT|T/?C|COUPLE)|\bSTRAP[- ]ON\b"
)
# What a remark says of how the sensor in place fits.
_SENSOR = (
    r"SENSORS?|PROBE|ELEMENT|INSERT|RTD|T/?C|THERMOCOUPLE|PT ?-?100|FUHLER|MESSEINSATZ|SONDE|SONDA|CAPTEUR|OPNEMER"
)
_FALLS_SHORT = re.compile(
    rf"\b(?:{_SENSOR})\b[^;.\d]{{0,15}}\b(?:TOO SHORT|SHORT OF|ZU KURZ|TROP COURTE?|(?:DEMASIADO|MUY) CORT[OA]"
    r"|TROPPO CORT[OA]|MUITO CURT[OA]|TE KORT)\b"
    rf"|\b(?:{_SENSOR})\b[^;.\d]{{0,15}}\d[\d ./,-]*(?:MM|CM|IN|INCH(?:ES)?|\")?\.? (?:TOO SHORT|SHORT OF|ZU KURZ|TROP COURTE?)\b"
    r"|\b(?:DOES|DO|DID) ?(?:NOT|N'?T) (?:REACH|TOUCH|BOTTOM)\b|\bNOT (?:TOUCHING|REACHING|BOTTOMING)\b"
    r"|\bNO (?:TIP )?CONTACT (?:WITH|AT|ON) (?:THE )?(?:BOTTOM|TIP|BORE|WELL)\b|\bSPRING (?:SLACK|NOT COMPRESSED)\b"
    r"|\bERREICHT (?:DEN )?BODEN NICHT\b|\bN'ATTEINT PAS\b|\bNO (?:LLEGA|TOCA)\b|\bNON TOCCA\b|\bNAO TOCA\b"
    r"|\bRAAKT (?:DE )?BODEM NIET\b"
)
_STANDS_OUT = re.compile(
    rf"\b(?:{_SENSOR})\b[^;.\d]{{0,15}}\b(?:TOO LONG|ZU LANG|TROP LONGU?E?|(?:DEMASIADO|MUY) LARG[OA]|TROPPO LUNG[OA]"
    r"|MUITO LONG[OA]|TE LANG)\b"
    r"|\bSPRING (?:IS |WAS |GOES )?(?:SOLID|FULLY COMPRESSED)\b"
    r"|\b(?:WILL|DOES|COULD|WOULD) ?NOT (?:SCREW|THREAD) (?:IN|HOME|UP)\b|\bTHREAD NOT (?:MADE UP|FULLY ENGAGED)\b"
)
NUMBER = r"\d+(?:[ -]\d+/\d+|[.,]\d+|[¼½¾⅛⅜⅝⅞])?(?![\d/.,]\d|[-/]\d|\d)"
UNIT = r"(?:\s*(?:\"|''|\u2033|\u201d|INCH(?:ES)?\b|IN\b(?!\.?\s*NPT)|MM\b|CM\b))?"
_OTHER_UNIT = r"(?!\s*(?:BARG?|PSI[AG]?|KPAG?|MPAG?|°|DEG|[CFK]\b|%|OHMS?|KG|LBS?|M\b|FT\b|MA\b|NPT|YEARS?|MONTHS?))"
# A noun between the word and the number takes the number away from the bore.
_OTHER = (
    r"\b(?:DIA|DIAM\w*|OD|ID|U|INSERTION|INSERT|IMMERSION|OVERALL|OAL|TIP|LAGGING|LAG|NIPPLE|UNION|EXTENSION|LINE|PIPE|PROBE"
    r"|SENSOR|ELEMENT|TEMP\w*|REV|DATE|DATED|ITEM|SHEET|DWG|FROM|ON|BY|WAS|SPEC|NPT"
    r"|PLUGGED|REDUCED)\b|[ØΦ]"
)
_DEPTHS = re.compile(
    rf"\b(?P<word>{_BORE}|{_STOPS}|{_MEASURED})\b(?P<between>[^\d;]{{0,25}}?)(?P<length>{NUMBER}{UNIT}){_OTHER_UNIT}"
)
_DEEP = re.compile(rf"(?P<length>{NUMBER}{UNIT}) DEEP\b")
_OVERALLS = re.compile(
    r"\b(?:OAL|O/A(?: L(?:EN)?G(?:TH)?)?|OVERALL(?: L(?:EN)?G(?:TH)?)?|GESAMTLA?E?NGE|LONGUEUR TOTALE|LONGITUD TOTAL"
    rf"|LUNGHEZZA TOTALE|COMPRIMENTO TOTAL|TOTALE LENGTE)\b(?P<between>[^\d;]{{0,25}}?)(?P<length>{NUMBER}{UNIT}){_OTHER_UNIT}"
)
# Between the word and the number these make it another thing's length, or one that is no longer so.
_IS_NOT_OVERALL = re.compile(
    r"\b(?:WAS|WERE|OLD|WAR|ETAIT|ERA|DWG|DRAWING|REV|ITEM|SHEET|DATED?|NIPPLE|EXT\w*|UNION|PROBE|SENSOR|ELEMENT|INSERT|TIP|DIA\w*)\b"
)
_OTHER_BORE = re.compile(r"\b(?:ORIFICE|PLATE|NOZZLE|PIPE|LINE|METER|VALVE|CYLINDER)S?\W*$")
_IS_TAG = re.compile(r"\bT[EITW]T?[- ]?$")
_IS_OTHER = re.compile(_OTHER)
_IS_MEASURED = re.compile(_MEASURED)
_NEARBY = 12
_NAMES_BORE = re.compile(rf"\b(?:{_BORE}|{_STOPS})\b")
_YEAR = re.compile(r"\b(?:IN )?(?:19|20)\d\d\b(?!\s*(?:MM\b|\"|IN\b))")
# Lengths of other things, and other wells.
_OF_CABLES = re.compile(
    r"\b(?:CABLES?|LEADS?|LINES?|WIRES?|CONDUITS?|TUBING) LENGTHS?\b|\bLENGTHS? OF (?:THE )?(?:CABLES?|LEADS?|LINES?|WIRES?|CONDUITS?)\b"
)
_NEXT_TO_IT = re.compile(
    r"\b(?:ADJACENT|NEIGHBOU?RING|NEARBY|NEXT|OTHER|SPARE) (?:\w+ ){0,2}?(?:THERMO)?WELL\b[^;]*|[^;]*\bELSEWHERE\b"
)
# What a bore depth may be [mm]; a number beyond is of something else. Common practice, no source.
_LEAST_MM, _MOST_MM = 38.1, 3048.0


@dataclass(frozen=True, kw_only=True)
class BoreRemark:
    """What a remark says of the bore.

    `depths` are the bore depths that it gives as (text, mm); `measured` are lengths that it calls measured without a
    word for which; `overalls` are overall lengths; `closed` is the word by which the bore is no longer free; `doubt` the
    words that ask to confirm. `falls_short` and `stands_out` are the words by which the sensor in place is too short for
    the bore, or too long.
    """

    depths: tuple[tuple[str, float], ...] = ()
    measured: tuple[tuple[str, float], ...] = ()
    overalls: tuple[tuple[str, float], ...] = ()
    closed: str = ""
    doubt: str = ""
    falls_short: str = ""
    stands_out: str = ""


_NOTHING = BoreRemark()


@lru_cache(maxsize=65536)
def bore_remark(remark: str, unit: str) -> BoreRemark:
    """Return what a remark says of the bore; `unit` is the row's, for numbers without one.

    >>> bore_remark('bore measured 8-1/2', 'in').depths, bore_remark('well plugged', 'in').closed
    ((('8-1/2', 215.9),), 'PLUGGED')
    """
    plain = _NEXT_TO_IT.sub(" ", _OF_CABLES.sub(" ", _YEAR.sub(" ", plain_remark(remark))))
    if not any(map(str.isalpha, plain)):
        return _NOTHING
    lengths = (*_lengths(plain, unit), *_deep(plain, unit))
    names_bore = bool(_NAMES_BORE.search(plain) or _DEEP.search(plain))
    doubt = _DOUBTED.search(plain) or _REPLACED.search(plain)
    short, long = _FALLS_SHORT.search(plain), _STANDS_OUT.search(plain)
    return BoreRemark(
        depths=lengths if names_bore else (),
        measured=() if names_bore else lengths,
        overalls=tuple(_overalls(plain, unit)),
        closed=_closed(plain),
        doubt=doubt[0] if doubt else "",
        falls_short=short[0] if short else "",
        stands_out=long[0] if long else "",
    )


def plain_remark(text: str) -> str:
    """Return a remark in capitals without accents, blanks single, fractions as typed."""
    apart = unicodedata.normalize("NFD", text)
    return " ".join("".join(mark for mark in apart if not unicodedata.combining(mark)).upper().split())


def _closed(plain: str) -> str:
    """Return the word that says that the bore is no longer free; empty where none does, or it was freed again."""
    alone = re.fullmatch(rf"\W*(?:{_CLOSED})\W*", plain)
    of_the_well = _CLOSED_BORE.search(plain) if alone or _OF_THE_WELL.search(plain) else None
    found = _CLOSED_IN_ITSELF.search(plain) or of_the_well
    return found[0] if found and not _FREE.search(plain) else ""


def _lengths(plain: str, unit: str) -> Iterator[tuple[str, float]]:
    """Yield the lengths that follow a word for the bore or for measuring, as (text, mm)."""
    for match in _DEPTHS.finditer(plain):
        text = match["length"].strip()
        near = plain[max(0, match.start() - _NEARBY) : match.start()]
        before = near if _IS_MEASURED.fullmatch(match["word"]) else ""
        between = match["between"]
        if _OTHER_BORE.search(near):
            continue
        if _IS_TAG.search(between) or _IS_OTHER.search(between) or _IS_OTHER.search(before):
            continue
        if (length_mm := _length_mm(text, unit)) is not None:
            yield text, length_mm


def _deep(plain: str, unit: str) -> Iterator[tuple[str, float]]:
    """Yield what is said to be so deep, as (text, mm)."""
    for match in _DEEP.finditer(plain):
        if (length_mm := _length_mm(match["length"].strip(), unit)) is not None:
            yield match["length"].strip(), length_mm


def _overalls(plain: str, unit: str) -> Iterator[tuple[str, float]]:
    """Yield the overall lengths of the well, as (text, mm)."""
    for match in _OVERALLS.finditer(plain):
        text, before = match["length"].strip(), plain[max(0, match.start() - _NEARBY) : match.start()]
        if _IS_TAG.search(match["between"]) or _IS_NOT_OVERALL.search(before + match["between"]):
            continue
        if (length_mm := _length_mm(text, unit)) is not None:
            yield text, length_mm


def _length_mm(text: str, unit: str) -> float | None:
    return length_within(text, unit, least_mm=_LEAST_MM, most_mm=_MOST_MM)


def length_within(text: str, unit: str, *, least_mm: float, most_mm: float) -> float | None:
    """Return what a number in a remark says [mm]; None where it has no unit or is beyond what is meant there."""
    read = parse_dimension(text)
    known = read.unit or unit
    if read.state is not DimensionState.VALUE or read.number is None or not known:
        return None
    length_mm = to_mm(read.number, known)
    return length_mm if least_mm <= length_mm <= most_mm else None
