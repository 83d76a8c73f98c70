"""Whether the words of a store's line name a sensor that can be taken, or another thing, or one that is bespoken.

All wordings are common practice, no source.
"""

import re
from collections.abc import Sequence

from thermowell_index.records.words import INSERT, SENSORS, folded

SENSOR = re.compile(
    rf"{SENSORS}|\bSENSORS?\b|\bPROBES?\b|\bELEMENTS?\b|\b(?:{INSERT})S?\b|MESSEINSATZ|\bSOND[EA]S?\b|FUE?HLER|\bCAPTEUR|TERMORRESIST"
    r"|\b(?:TYP|TIPO) [BEJKNRST]\b|\b[BEJKNRST][ -]TYPE?\b|\bT/?CS\b"
)
# What else lies on a store's shelves, by the words that a reader is told; the first pattern that is found decides.
OTHER_THINGS = {
    "a valve": re.compile(r"VALVE|VALVULA|VALVOLA|\bVANNE|ROBINET|VENTIL\b|\bKLEP|HAHN\b|SCHIEBER\b|AFSLUITER"),
    "a thermowell": re.compile(
        r"THERMO ?WELL|\bT/?WS?\b(?![ -]?\d)|\bWELLS?\b|POCKET|SCHUTZROHR|TAUCHHULSE|TAUCHHUELSE|VAINA|TERMOPOZO"
        r"|POZZETTO|TERMOPOCO|DOIGT DE GANT|\bPUITS|BESCHERMBUIS|DOMPELBUIS|PROTECTION TUBE"
    ),
    "a dial thermometer": re.compile(
        r"BI-? ?METAL|BIMETAAL|BILAME|\bDIAL\b|ZEIGERTHERMO|WIJZERTHERMO|CARATULA|CADRAN|QUADRANTE|MOSTRADOR"
        r"|CAPILLAR|CAPILAR|(?:GAS|LIQUID|MERCURY)[ -]FILLED|GLASS THERMO"
    ),
    "a gauge": re.compile(r"\bGAU?GES?\b|MANOMET"),
    "a transmitter": re.compile(
        r"TRANSMITTER|\bXMTR|TRANSMETTEUR|TRANSMISOR|TRASMETTITORE|MESSUMFORMER|\bCONVERTER|CALIBRATOR"
        r"|SIMULATOR"
    ),
    "a cable": re.compile(
        r"(?<!INSULATED )(?<!\bMI )\bCABLE|\bKABEL|\bCAVO\b|\bCABO\b|"
        r"(?<!\d[ -])(?<!TWO[ -])(?<!THREE[ -])(?<!FOUR[ -])\bWIRES?\b(?![ -]WOUND)"
        r"|\bLEADS?\b|\bCORD\b"
    ),
    "a head": re.compile(r"\bHEADS?\b(?![ -]?MOUNT)|ANSCHLUSSKOPF|\bKOPF\b|CABEZAL|\bTESTA DI|\bTETE DE"),
    "a nipple": re.compile(r"NIPPLE|NIPPEL|MAMELON|\bNIPLE|NIPPLO"),
    "a union": re.compile(r"\bUNIONS?\b|BOCCHETTONE|UNIAO"),
    "a bolt": re.compile(
        r"\bBOLTS?\b|\bSTUDS?\b|\bSCREWS?\b(?![ -]IN)|\bNUTS?\b|\bWASHERS?\b"
        r"|\b(?:SECHSKANT)?SCHRAUBEN?\b|\bTORNILLO|\bPERNO\b|BULLONE"
    ),
    "a gasket": re.compile(r"GASKET|DICHTUNG|\bJUNTAS?\b|GUARNIZION|\bO-?RINGS?\b|PAKKING"),
    "a plug": re.compile(r"\bPLUGS?\b(?![ -]IN)|STOPFEN|\bTAPON|\bTAPPO|BOUCHON|\bCONNECTORS?\b|\bSOCKETS?\b"),
    "a fitting alone": re.compile(
        r"^\W*(?:COMPRESSION |TUBE )?FITTING|\bELBOW|\bREDUCER|\bCOUPLINGS?\b|\bBLIND FLANGE"
    ),
    "a spring alone": re.compile(r"^\W*SPRINGS?\b(?![ -]*(?:L|INSERT|FITTING|TYPE))|\bSPRINGS? FOR\b"),
    "a pump": re.compile(r"\bPUMPS?\b|\bPUMPE|\bBOMBA\b"),
    "a pipe": re.compile(r"\bPIPES?\b(?! CLAMP)|\bTUBING\b|\bROHR\b|\bTUBERIA"),
    "a switch": re.compile(r"\bSWITCH|SCHALTER|THERMOSTAT|TERMOSTAT"),
}
# Such a thing named right behind a sensor is what the line is: an RTD extension cable, a thermocouple head.
BELONGINGS = ("a thermowell", "a transmitter", "a cable", "a head", "a gasket", "a plug")
BETWEEN = re.compile(
    rf"(?:[ -]+(?:{SENSOR.pattern}|EXTENSION|EXT\.?|COMPENSATING|CONNECTION|TERMINAL|MINIATURE))*[ -]+"
)
TAKEN = re.compile(
    r"(?<!NOT )(?<!NON )(?<!NON-)\b(?:SCRAP(?:PED)?|DAMAGED?|DEFECT(?:IVE|UEUX)?|FAULTY|BROKEN|RESERVED|QUARANTINED?"
    r"|DO NOT USE|NOT TO BE USED|UNUSABLE|REJECT(?:ED)?|CONDEMNED|ALLOCATED|SCHROTT|DEFEKT|BESCHADIGT|BESCHAEDIGT"
    r"|RESERVIERT|GESPERRT|CHATARRA|DANAD[OA]|DEFECTUOS[OA]|RESERVAD[OA]|ENDOMMAGE|REBUT|RESERVE (?:POUR|FOR)"
    r"|DANNEGGIAT[OA]|DIFETTOS[OA]|RISERVAT[OA])\b"
)


def why_no_sensor(words: Sequence[str], *, is_bare: bool) -> str:
    """Return why a line is none of a sensor: its words name another thing first, or no sensor; empty where it is one.

    `is_bare`: nobody wrote words in this list, so it is taken for a list of sensors.
    """
    texts = [folded(text) for text in words if text.strip()]
    other = next((thing for text in texts if (thing := _other_thing(text))), "")
    if other:
        return f"its words name {other}"
    return "" if is_bare or any(SENSOR.search(text) for text in texts) else "its words name no sensor"


def why_taken(texts: Sequence[str]) -> str:
    """Return the word by which a line says that its item is spoilt or meant for somebody else."""
    marks = (TAKEN.search(folded(text)) for text in texts)
    return next((f"it is marked {mark[0].lower()!r}" for mark in marks if mark), "")


def _other_thing(plain: str) -> str:
    """Return the thing that a text names before any sensor, or right behind the first, empty where it names none."""
    sensor = SENSOR.search(plain)
    named = ((found.start(), name) for name, pattern in OTHER_THINGS.items() if (found := pattern.search(plain)))
    start, name = min(named, default=(len(plain), ""))
    if sensor is None or start < sensor.start():
        return name
    between = BETWEEN.match(plain, sensor.end())
    behind = between.end() if between else sensor.end()
    return next((name for name in BELONGINGS if OTHER_THINGS[name].match(plain, behind)), "")
