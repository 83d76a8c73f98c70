"""What the words in an index mean: mountings, extensions, row states, what is no sensor, in seven languages.

All wordings are common practice, no source. Each list is searched from the top; the first pattern that is found decides.
Texts are compared in capitals without accents.
"""

import re
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any, TypeVar

import pandas as pd

from thermowell_index.basis import in_capitals
from thermowell_index.records.strictness import names_several, offers_a_choice, says_more
from thermowell_index.units import is_placeholder

Meaning = TypeVar("Meaning")
UNKNOWN = ""
MOST = 0.8
SPRING = r"SPRING|SPRUNG|S ?/ ?L\b|\bSL\b|\bS\.L\.|SPRG|\bSPR\b|GEFEDERT|FEDER|RESSORT|MUELLE|RESORTE|MOLLA|\bMOLA|VEREND|GEVEERD|\bVEER|MIT FEDER"
INSERT = r"INSERT|EINSATZ|ELEMENT DE MESURE|MEETINZET|MEETELEMENT|INSERTO|INSERTION ELEMENT"
FITTING = r"FITTING|\bFTG|\bHEX|BUSHING|(?:\b|(?<=\d))NPT|THREADED|THREAD\b|GLAND|VERSCHRAUB|EINSCHRAUB|RACCORD|RACOR|CONNECTOR|CONECTOR|RACCORDO|CONEXAO|CONEXION|UNIAO|KOPPELING|CONNECTION(?! HEAD)|\bNIPPLE|SCREWED|NIPPEL|ADAPT"
FIXED = r"FIXED|RIGID|NOT SPRUNG|NON[- ]?SPRING|W/O SPRING|W/OUT SPRING|SENZA MOLLA|ZONDER VEER|OHNE FEDER|SEM MOLA|NO SPRING|NOT SPRING|UNSPRUNG|WITHOUT SPRING|STARR|\bFEST|UNGEFEDERT|SANS RESSORT|\bFIXE\b|\bFIJ[OA]|SIN MUELLE|\bFISS[OA]|\bFIX[OA]\b|\bVAST"

# What a cell about the sensor in place says.
YES = r"^(?:Y(?:ES)?|JA?|OUI|SI|SIM|TRUE|X|1|OK)$|\bTOUCH|\bCONTACT\b|\bBOTTOM(?:S|ED)\b|IN KIND|LIKE FOR LIKE|PROVEN|PROVED"
PLAIN_NO = r"N|NO|NEIN|NON|NEE|NAO|FALSE|0"
NO = rf"^(?:{PLAIN_NO})$|\b(?:NOT?|NEVER|DOES ?N.?T|WITHOUT|NOT YET)\b|\?"
# A no that is one: neither "not known" nor "not checked" says that a tip is clear of the bottom.
CLEAR = rf"{PLAIN_NO}|(?:NO,? )?(?:THE )?(?:TIP )?(?:(?:DOES|DID|IS) ?(?:NOT|N.?T)|NOT|NEVER|NO)(?: IN)? (?:TOUCH(?:E[SD]|ING)?|CONTACT|BOTTOM(?:S|ED|ING)?)(?: (?:THE )?(?:BOTTOM|BORE|WELL|TIP))*"

# A fitting that clamps a sheath of any length: sized once the design basis states its height above the face.
ADJUSTABLE_WORDS = (
    r"COMPRESSION|\bCOMPR?\b\.? ?(?:FITT|FTG)|TUBE FITTING|SWAGE|ADJUSTABLE|BORED?[- ]THROUGH|KLEMM|SCHNEIDRING|FERRULE"
)

# A fitting whose collar seats on the face: its thread is a parallel one.
COLLAR = r"\bCOLLAR"
PARALLEL = r"PARALLEL|\bBSPP|\bISO ?228|\bG ?\d|\bM ?\d+ ?X"

# Meaning by pattern; None means known and not one of the mountings that can be sized.
_MOUNTINGS: Sequence[tuple[str, str]] = (
    (rf"{ADJUSTABLE_WORDS}|\bBAYONET|BAJONETT", UNKNOWN),
    (r"\bSPRINGS? (?:WAS |IS )?(?:REMOVED|MISSING|BROKEN)|\bFEDER (?:ENTFERNT|FEHLT|GEBROCHEN)", UNKNOWN),
    (rf"\b(?:LOSE[RS]?|LOOSE)\b.*(?:{INSERT})|(?:{INSERT}).*\b(?:LOSE[RS]?|LOOSE)\b", "spring-loaded insert"),
    (rf"(?:FLANG|FLANSCH|PLATE|PLATTE|\bDIN\b|43735|43762|FORM ?B|BRIDE|BRIDA).*(?:{INSERT})|(?:{INSERT}).*(?:FLANG|FLANSCH|PLATE|PLATTE|\bDIN\b|43735|43762|FORM ?B|BRIDE|BRIDA)|\b(?:FLANSCH-?)?MESSEINSATZ", "flanged insert"),
    (rf"(?:{FIXED}).*\b(?:{INSERT})|\b(?:{INSERT}).*(?:{FIXED})", UNKNOWN),
    (rf"{FIXED}", "fixed fitting"),
    (rf"(?:{SPRING}).*(?:{INSERT})|(?:{INSERT}).*(?:{SPRING})", "spring-loaded insert"),
    (rf"(?:{COLLAR}).*(?:{SPRING}|{PARALLEL})|(?:{SPRING}|{PARALLEL}).*(?:{COLLAR})", "spring-loaded fitting"),
    (rf"(?:{SPRING}).*(?:{FITTING})|(?:{FITTING}).*(?:{SPRING})", "spring-loaded fitting"),
    (r"\bSLF\b", "spring-loaded fitting"),
    (r"\bSLI\b", "spring-loaded insert"),
)  # fmt: skip

# A cell that tells of two mountings, one before the other.
CHANGED = r"\b(?:WAS|NOW|FORMERLY|FORMER|PREVIOUSLY|INSTEAD|CHANGED?|REPLACED?|CONVERT(?:ED)?|OLD|VORHER|FRUHER|JETZT|STATT|AVANT|MAINTENANT|ANTES|AHORA|PRIMA|VROEGER)\b|-+>|=>|\u2192"

# Words of a mounting that name none for certain: in another cell they make the usual one doubtful.
HOLDING = rf"{FIXED}|\b(?:{INSERT})\b|COMPRESSION FITTING|ADJUSTABLE"

NIPPLE = r"NIPPLE|\bNIP\b|NIPPEL|MAMELON|\bNIPLE|NIPPLO|\bNPL\b"
UNION = r"UNION|BOCCHETTONE|\bUNIE\b|\bUN\b|UNIONE|\bGIUNTO|UNIAO|VERSCHRAUBUNG|KOPPELSTUK"
COUPLING = r"COUPLING|\bCPLG|MUFFE|MANCHON|MANGUITO|MANICOTTO|\bLUVA|\bMOF\b|\bCOUPL"
NECK = r"TUBE (?:PROLONGATEUR|D.EXTENSION)|\bNECK|HALSROHR|HALSLA?E?NGE|\bHALS\b|TUBE DE COL|\bCOL\b|CUELLO|TUBO COLLO|COLLO|HALSBUIS|PESCOCO"
_NO_EXTENSION = re.compile(
    r"-+|\u2013|\u2014|N ?/ ?A|N\.? ?A\.?|NIL|NO?|NONE(?: REQ'?D| REQUIRED| FITTED)?|NOT APPLICABLE|NOT REQ(?:UIRE)?D|W/O|WITHOUT(?: EXT(?:ENSION)?)?|NO EXT(?:ENSION|\.)?|DIRECT(?: MOUNT(?:ED)?)?|0|KEINE?|OHNE|NEIN|SANS|AUCUNE?|NON|SIN|NINGUN[OA]?|NESSUN[OA]?|SENZA|GEEN|ZONDER|SEM|NENHUMA?|NEANT|ENTFALLT|ENTFAELLT|(?:NO|WITHOUT|SANS|SIN|SENZA|OHNE|GEEN|ZONDER|SEM|KEINE?|AUCUNE?|NESSUNA?|PAS DE|PAS D) ?(?:EXT\w*|EST\w*|RALLONGE|VERL\w*|HALSROHR|NIP\w*|MAMELON|NECK|HALS)",
)  # fmt: skip
_ARRANGEMENTS: Sequence[tuple[str, str]] = (
    (rf"^(?!.*(?:UNION|COUPL)).*(?:{NIPPLE}).*\bABOVE\b", "none"),
    (rf"(?:{NIPPLE}|\bN).{{0,12}}?(?:{UNION}|\bU\b).{{0,12}}?(?:{NIPPLE}|\bN\b)|\bN-?U-?N\b|\bN/U/N\b|(?:{UNION}).*(?:2|TWO) (?:\w+ )?(?:{NIPPLE})|(?:\b2|TWO) (?:NO\.? |X |OFF |PCS )?(?:[\d/ .,-]+(?:\"|''|IN\b\.?|MM|INCH)? ?(?:LONG |LG\.? )?)?(?:{NIPPLE})S?.*(?:{UNION})", "nipple-union-nipple"),
    (rf"(?:{NIPPLE}).*(?:{COUPLING})|(?:{COUPLING}).*(?:{NIPPLE})|\bN ?[/+&-] ?C\b", "nipple and coupling"),
    (rf"(?:{NIPPLE}).*(?:{UNION})|(?:{UNION}).*(?:{NIPPLE})|\bN ?[/+&-] ?U\b|\bNU\b", "nipple and union"),
    (NECK, "neck tube"),
    (rf"{COUPLING}", UNKNOWN),
    (rf"{UNION}", "union"),
    (rf"{NIPPLE}", "nipple"),
)  # fmt: skip

EXTENSION_PARTS = (
    rf"(?:{NIPPLE})S?|(?:{UNION})S?|(?:{COUPLING})S?|\bNECK|HALSROHR|\bHALS\b|TUBE DE COL|\bCOL\b|CUELLO|TUBO COLLO|COLLO|HALSBUIS"
    r"|PESCOCO|\bN-?U-?N\b|\bNUN\b|\bNU\b"
)
# Pipe sizes and schedules, which are no lengths.
SIZE = re.compile(
    r"(?:\d+[- ])?\d+/\d+ ?(?:\"|''|IN\.?|INCH)? ?X ?(?=\d)|"
    r"(?:\d+[- ])?\d+/\d+ ?(?:\"|''|IN\.?|INCH)? ?(?:-\d+ ?)?(?:NPT[FM]?|[FM]NPT|BSPT?|NPSM|PIPE|SCH ?\.?\d*|DIA)|\b(?:SCH|SCHEDULE) ?\.?\d+[S]?|\b[GMR]C? ?\d+(?:/\d+|[X.,]\d+(?:\.\d+)?)?\b|NPT ?\d+/\d+|\b(?:3000|6000|2000|150|300|600) ?(?:#|LB|CL)"
)
# Unions and couplings of other things: of cables, conduits and pumps, and of places called so.
_OTHER_JOINTS = re.compile(
    r"\b(?:CONDUIT|CABLE|PUMP|MOTOR|HOSE|GLAND|AIR|TUBING|DRAIN|STEAM) "
    r"(?:UNIONS?|COUPLINGS?|NIPPLES?|EXTENSIONS?|ELBOWS?)\b"
    r"|\b(?:UNIONS?|COUPLINGS?|MANCHON|GIUNTO|MUFFE|RACCORD) (?:OF |DE |DEL |DU |DELLA )?(?:THE )?"
    r"(?:PUMP|MOTOR|CABLE|CAVO|CONDUIT|KABEL|POMPA|POMPE)S?\b"
    r"|\b(?:UNION|COUPLING|NECK) (?:STATION|STREET|HALL|SHOP|HOUSE|PAINT|COOLER)\b"
)
# Extension parts spoken of in another cell: "on a 4 in nipple", "with union".
_PART_LENGTH = r"[\d ./-]*\d ?(?:\"|''|IN\b\.?|INCH|MM|CM)?"
EXTENSION_ELSEWHERE = (
    rf"\b(?:{UNION})\b|\b(?:{COUPLING})\b|\bNECK TUBE|HALSROHR|\bN ?[-/]? ?U ?[-/]? ?N\b"
    rf"|(?:\b(?:ON|WITH|C/W|VIA|AND|PLUS)|W/|\+|&|\d)[^,;]{{0,24}}\b(?:{NIPPLE})"
    rf"|(?:\b(?:ON|WITH|C/W|VIA|PLUS) |W/ ?|\+ ?|& ?|{_PART_LENGTH} )(?:{_PART_LENGTH} )?(?!LAG|WELD)(?:\w+ )?"
    r"(?:EXT(?:ENSION|N)?|NECK)(?!\w)(?!\.? ?(?:WIRE|CABLE|LEAD|CORD|FL))"
    r"|\bEXT(?:ENSION|N)?\.? ?[\d ./-]*\d ?(?:\"|''|IN\b|INCH|MM\b|CM\b)"
)
DELETED = r"SUPERSEDED|SUPERCEDED|NOT INSTALLED|NEVER INSTALLED|RUCKGEBAUT|RUECKGEBAUT|AUSGEBAUT|A SUPPRIMER|ZU LOSCHEN|A ELIMINAR|DA ELIMINARE|(?:SPARE|FUTURE)\W+NOT INSTALLED|DELETED?|\bDEL\b|\bDLTD?\b|VOID(?:ED)?|CANCEL+ED|CANCELLED|REMOVED|DEMOLISH(?:ED)?\b|DEMO(?:LITION)?\b|DISMANTLED|DECOMMISSIONED|ABANDONED|OBSOLETE|NOT USED|UNUSED|WITHDRAWN|SCRAPPED|RETIRED|GELOSCHT|GELOESCHT|ENTFALLT|ENTFAELLT|ENTFALLEN|GESTRICHEN|STILLGELEGT|DEMONTIERT|STORNIERT|DADO DE BAJA|DADA DE BAJA|CANCELLAT[OA]|GEANNULEERD|SUPPRIMEE?S?|SUPRIMID[OA]|DEMONTE\b|DEMONTEE\b|DESMONTAD[OA]|DESMANTELAD[OA]|SMONTAT[OA]|DISMESS[OA]|DESATIVAD[OA]|GEDEMONTEERD|ANNULEE?S?|ABANDONNEE?S?|DEPOSEE?S?|ELIMINAD[OA]|BORRAD[OA]|ANULAD[OA]|RETIRAD[OA]|ANNULLAT[OA]|ELIMINAT[OA]|RIMOSS[OA]|CANCELAD[OA]|EXCLUID[OA]|REMOVID[OA]|SOPPRESS[OA]|VERVALLEN|VERWIJDERD|GESCHRAPT"
NOT_THERE = r"SPARE|FUTURE|NOT IN SCOPE|OUT OF SCOPE|NIS\b|BY OTHERS|RESERVE\b|RESERVIERT|ZUKUNFTIG|ZUKUENFTIG|NICHT IM UMFANG|FUTUR[OAE]?\b|RESERVA|REPUESTO|RISERVA|TOEKOMSTIG|RESERVE"
# Said of a row in its status, not in a remark: there it may be for a while, or of something else.
OUT_OF_SERVICE = r"NOT IN (?:SERVICE|USE|OPERATION)|OUT OF (?:SERVICE|USE|OPERATION)|O\.?O\.?S\b|INACTIVE|BLANKED(?: OFF)?|WELL PLUGGED|AUSSER (?:BETRIEB|DIENST)|NICHT IN BETRIEB|INAKTIV|HORS (?:SERVICE|EXPLOITATION)|INACTIF|FUERA DE (?:SERVICIO|USO|OPERACION)|INACTIV[OA]|FUORI (?:SERVIZIO|USO)|INATTIV[OA]|FORA DE (?:SERVICO|USO|OPERACAO)|INATIV[OA]|BUITEN (?:BEDRIJF|DIENST|GEBRUIK)|NIET IN BEDRIJF|INACTIEF"
ON_HOLD = r"(?:ON )?HOLD|HELD|ZURUCKGESTELLT|GESPERRT|EN ATTENTE|EN ESPERA|IN ATTESA|EM ESPERA|AANGEHOUDEN"
LIVE = rf"{ON_HOLD}|LIVE|ACTIVE|EXIST|ESISTENT|BESTAAND|VORHANDEN|IN[- ]SERVICE|I/S\b|\bOK\b|ISSUED|\bIF[CIRDA]\b|\bAFC\b|NEW|INSTALLED|APPROVED|AS[- ]?BUILT|REVISED|CHANGED|MODIFIED|OPERATIONAL|OPERATING|RUNNING|CURRENT|VALID|\bIN USE|COMMISSIONED|AKTIV|BESTAND|\bNEU\b|IN BETRIEB|GEANDERT|ACTIF|EN SERVICE|NOUVEAU|ACTIV[OA]|EN SERVICIO|NUEV[OA]|ATTIV[OA]|IN SERVIZIO|NUOV[OA]|ATIV[OA]|EM SERVICO|NOV[OA]|ACTIEF|IN BEDRIJF|NIEUW|REPLACE|TO BE|CHECKED|VERIFIED|COMPLETE|DONE|YES|^[A-Z0-9]$|^REV\b|ADDED|^L$|^A$"

STEMS = r"GLASTHERM|KAPILLAR|TERMOMETRO A GA|THERMOMETRE A GAZ|BILAME|A CADRAN|DILATATION DE GAZ|CARATULA|DE VIDRIO|QUADRANTE|MOSTRADOR|WIJZERTHERMO|CAPILAR|BI-? ?METAL|BIMETAAL|POCO DE TESTE|(?:POZO|TERMOPOZO) DE PRUEBA|POZZETTO DI PROVA|PUITS DE TEST|DOIGT DE GANT DE TEST|TESTPUT|FILLED|MERCURY|GAS EXPANSION|LIQUID[- ]IN|VAPOU?R PRESSURE|QUECKSILBER|CAPILLAR|\bDIAL\b|GLASS|TEST WELL|TEST POCKET|TEST THERMOWELL|TEST POINT|PLUGGED|WITH PLUG|PLUG (?:AND|&) CHAIN|MULTI[- ]?POINT|GAUGE|ZEIGERTHERMOMETER|BIMETALL|PRUFSCHUTZROHR|PRUFSTUTZEN|MANOMETRI"
SURFACE = r"\bSKIN\b|TUBE ?SKIN|SURFACE|WELD[- ]?PAD|STRAP[- ]?ON|CLAMP[- ]?ON|PIPE CLAMP|\bPAD[- ]TYPE|INFRA-?RED|PYROMETER|\bNO (?:T/?W|WELL|THERMOWELL|POCKET)\b|W/O (?:T/?W|WELL|THERMOWELL)|WITHOUT (?:A )?(?:T/?W|WELL|THERMOWELL)|DIRECT (?:IMMERSION|INSERTION|CONTACT)|\bBEARING\b|\bWINDING|EMBEDDED|OBERFLACHE|ANLEGE|OHNE SCHUTZROHR|DE SURFACE|DE CONTACT|SANS DOIGT|SUPERFICIE|SIN (?:VAINA|TERMOPOZO)|SENZA POZZETTO|ZONDER (?:WELL|POCKET|BESCHERM)"
SENSORS = r"\bRTD|\bPT ?-?1?00\b|PT ?-?100|PT ?-?1000|RESISTANCE|THERMOCOUPLE|\bT/?C\b|\bTYPE [BEJKNRST]\b|^[BEJKNRST]$|^T/?C ?[BEJKNRST]$|THERMISTOR|WIDERSTAND|THERMOELEMENT|THERMOPAAR|\bPRT\b|\bCU ?-?10\b|\bNI ?-?1?[02]0\b|TERMOPAR|TERMOCOPPIA|TERMORESIST|THERMOKOPPEL|WEERSTAND|SONDE PT"
TEMPERATURE = r"TEMPERATUR|TEMP\b|THERMO|\bRTD|TERMO"
DUPLEX = r"DUPLEX|DUAL|DOUBLE|DOPPEL|\b2 ?X|\b2\b|TWIN|DOBLE|DOPPI|DUBBEL|ZWEIFACH"
DIN_FORM = r"\bDIN\b|43772|\bFORM ?\d|^\d ?[FG]?$|^(?:FORM )?[234] ?[FGS]\b"


@lru_cache(maxsize=65536)
def folded(text: str) -> str:
    """Return a text in capitals without accents, blanks single."""
    return in_capitals(text)


def confirms(text: str) -> bool:
    """Whether a cell says yes, in one of the languages or in the words of its column; a doubt or a no is none."""
    return says(YES, text) and not says(NO, text)


def denies_contact(text: str) -> bool:
    """Whether a cell says for certain that a tip does not touch: a blank, a doubt or "not known" does not."""
    return bool(re.fullmatch(CLEAR, folded(text).strip(" .!")))


def without_other_joints(plain: str) -> str:
    """Return a text in capitals without the unions and couplings of cables, conduits and pumps."""
    return _OTHER_JOINTS.sub(" ", plain)


def says(pattern: str, text: str) -> bool:
    """Whether a pattern of words is found in a text."""
    return bool(text) and bool(re.search(pattern, folded(text)))


def each_distinct(texts: "pd.Series[str]", meaning: Callable[[str], Meaning]) -> "pd.Series[Any]":
    """Return what each cell of a column means; a column has few distinct texts, and each is looked at once."""
    return texts.map({text: meaning(str(text)) for text in texts.unique()})


def cells_say(pattern: str, texts: "pd.Series[str]") -> "pd.Series[bool]":
    """Return in which cells of a column a pattern of words is found."""
    return each_distinct(texts, lambda text: says(pattern, text)).astype(bool)


@lru_cache(maxsize=65536)
def mounting_of(text: str) -> str:
    """Return the mounting that a text names, empty when it names none for certain or offers a choice."""
    plain = folded(text)
    if offers_a_choice(plain) or re.search(CHANGED, plain) or re.search(rf"\bNOT (?:AN? )?(?:{FIXED})", plain):
        return UNKNOWN
    parts = [part for part in re.split(r"(?<![SWCT]) ?/ ?(?!O\b|C\b|W\b|L\b)", plain) if part.strip()]
    if re.search(FIXED, plain) and re.search(SPRING, re.sub(FIXED, " ", plain)):
        return UNKNOWN
    if any(re.search(INSERT, part) for part in parts) and any(re.search(FITTING, part) for part in parts):
        return _first(_MOUNTINGS, plain) if len(parts) == 1 else UNKNOWN
    named = {_first(_MOUNTINGS, part) for part in parts} - {UNKNOWN}
    return _first(_MOUNTINGS, plain) if len(named) <= 1 else UNKNOWN


@lru_cache(maxsize=65536)
def arrangement_of(text: str) -> str:
    """Return the extension arrangement that a text names; `union` where the rest must tell; empty for unknown words."""
    plain = folded(text)
    if _NO_EXTENSION.fullmatch(plain.strip(" .")):
        return "none"
    if is_placeholder(text) or offers_a_choice(plain):
        return UNKNOWN
    found = _first(_ARRANGEMENTS, plain)
    if found == "none":
        return found
    is_several = names_several(plain) and found != "nipple-union-nipple"
    return UNKNOWN if is_several or says_more(plain, EXTENSION_PARTS) else found


def speak_of_mountings(texts: Sequence[str]) -> bool:
    """Whether most of the cells of a column name a mounting."""
    filled = [text for text in texts if not is_placeholder(text)]
    return bool(filled) and sum(bool(mounting_of(text)) for text in filled) >= MOST * len(filled)


def speak_of_extensions(texts: Sequence[str]) -> bool:
    """Whether most of the cells of a column name an extension, and not only that there is none."""
    filled = [text for text in texts if not is_placeholder(text) and not says_no_extension(text)]
    return bool(filled) and sum(bool(arrangement_of(text)) for text in filled) >= MOST * len(filled)


# Fields whose column is known by what its cells say, where its heading is not.
KNOWN_WORDS = {"sensor_mounting": speak_of_mountings, "extension_arrangement": speak_of_extensions}


def says_no_extension(text: str) -> bool:
    """Whether a cell says in words that there is no extension."""
    return bool(_NO_EXTENSION.fullmatch(folded(text).strip(" ."))) and text.strip() != ""


def _first(meanings: Sequence[tuple[str, str]], plain: str) -> str:
    for pattern, meaning in meanings:
        if re.search(pattern, plain):
            return meaning
    return UNKNOWN


@lru_cache(maxsize=65536)
def state_of(text: str) -> str:
    """Return what a status cell says of its row: live, deleted, not there, or unknown."""
    plain = folded(text)
    if not plain or re.search(rf"\bNOT (?:YET )?(?:{DELETED})", plain):
        return "live"
    for pattern, state in ((DELETED, "deleted"), (f"{NOT_THERE}|{OUT_OF_SERVICE}", "not there"), (LIVE, "live")):
        if re.search(rf"\b(?:{pattern})" if not pattern.startswith("\\b") else pattern, plain):
            return state
    return "live" if is_placeholder(text) else "unknown"


@lru_cache(maxsize=65536)
def remark_deletes(remark: str, tag: str) -> bool:
    """Whether a remark takes its own row out, and not another tag: it opens with a word for deleted, or is spare, future."""
    if re.fullmatch(rf"\W*(?:{ITSELF})*(?:{NOT_THERE})(?: (?:POINT|TAG|INSTRUMENT|ITEM|LOOP))?\W*", folded(remark)):
        return True
    if opened := re.match(
        rf"\W*(?:{NOT_THERE})(?: (?:POINT|TAG|INSTRUMENT|ITEM|LOOP))?\s*(?:[:;,.(]|- )(?P<rest>.*)", folded(remark)
    ):
        return not re.search(PARTS_OR_TAGS, opened["rest"])
    plain = folded(remark)
    own = re.match(r"\W*(?:TAG )?(?P<tag>[A-Z0-9/-]*\d[A-Z0-9/-]*)\W+(?P<rest>.*)", plain)
    if own and tag and _bare(own["tag"]) == _bare(folded(tag)):
        plain = own["rest"]
    opened = re.match(rf"\W*(?:{ITSELF})*(?:{DELETED})\b(?P<rest>.*)", plain)
    if not opened:
        return False
    other = re.match(
        r"[\s:]*(?:TAG |POINT |INSTRUMENT |ITEM |LOOP |ROW )*(?P<tag>(?:\d+-)?[A-Z]{1,4}-?\d{2,}[A-Z]?)\b",
        opened["rest"],
    )
    if other is None or re.match(DOCUMENTS, other["tag"]):
        return True
    return _bare(other["tag"]) in _bare(folded(tag))


@lru_cache(maxsize=65536)
def tag_says_gone(tag: str) -> bool:
    """Whether a status word for deleted, spare or future stands behind the tag in its cell: "TE-101 (DELETED)"."""
    return bool(re.fullmatch(rf".*\d\w*\W+(?:{DELETED}|{NOT_THERE})\W*", folded(tag)))


@lru_cache(maxsize=65536)
def service_says_gone(service: str) -> bool:
    """Whether a service is none: the word for deleted alone, or before what the point once measured."""
    return bool(
        re.fullmatch(
            rf"\W*(?:{DELETED})\W*|\W*(?:DELETED?|VOID(?:ED)?|CANCEL+ED|NOT USED)\s*[-:;,(/].*", folded(service)
        )
    )


def says_no(text: str) -> bool:
    """Whether a cell says no, and nothing else."""
    return bool(re.fullmatch(PLAIN_NO, folded(text).strip(" .")))


# Behind "spare:" or "future:" these speak of parts to keep, or of another point, not of the row.
PARTS_OR_TAGS = (
    r"[A-Z]-?\d|\b(?:STORE|STOCK|ORDER|REQ|REQUIRED|QTY|PCS|OFF|EA|KIT|PARTS?|SENSORS?|ELEMENTS?|PROBES?|RTDS?|T/?C|INSERTS?"
    r"|WELLS?|T/?W|NOZZLES?|CORES?|PAIRS?|CHANNELS?|INPUTS?|LAGER|ERSATZ|MAGASIN|ALMACEN)\b"
)
ITSELF = r"THIS |TE |TAG |ROW |POINT |INSTRUMENT |ITEM |LOOP |IS |TO BE |HAS BEEN |NOW "
DOCUMENTS = r"REV|MOC|ECN|DCN|PO|WO|CR|FCN|NCR"


def _bare(tag: str) -> str:
    return re.sub(r"[\s-]", "", tag)
