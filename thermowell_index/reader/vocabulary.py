"""Words of headings in seven languages and the one word that each of them means here.

All of it is common practice, no source. Words are in capitals without accents, as `headings.normal_words` makes them.
"""

import re
from collections.abc import Mapping


def _by_word(meanings: Mapping[str, str]) -> dict[str, str]:
    return {word: meaning for meaning, words in meanings.items() for word in words.split()}


# One word to one word or more: abbreviations, misspellings, other languages.
WORDS = _by_word({
    "WELL": "TW THERMOWELL THERMOWELLS THERMOWEL WELLS POCKET THERMOPOCKET TERMOPOZO VAINA TERMOVAINA TERMOPOZZETTO "
    "POZZETTO TERMOPOCO POCO PUITS SCHUTZROHR SCHUTZROHRE SCHUTZROHRS SCHUTZHULSE SCHUTZHUELSE TAUCHHULSE TAUCHHUELSE "
    "BESCHERMBUIS DOMPELBUIS",
    "TAG": "TAGS KENNZEICHEN KENNZEICHNUNG MESSSTELLE MESSSTELLEN REPERE ETIQUETA SIGLA",
    "TAG NUMBER": "TAGNUMBER TAGNO TAGNUMMER",
    "NUMBER": "NO NOS NUM NR NBR NUMERO NUMMER",
    "LENGTH": "LG LGTH LEN LNGTH LENGHT LTH LENGTHS LNG LGE LANGE LAENGE LONG LONGUEUR LONGITUD LUNGHEZZA LUNGH "
    "COMPRIMENTO LENGTE",
    "DEPTH": "DEP DPTH TIEFE PROFONDEUR PROF PROFUNDIDAD PROFONDITA PROFUNDIDADE DIEPTE",
    "BORE": "BARRENO BOHRUNG BOHRUNGS BOHR PERCAGE ALESAGE TALADRO PERFORACION ORIFICIO AGUJERO FORO FORATURA FURO FURACAO BORING BOORGAT "
    "BOOR",
    "TIP": "SPITZE PUNTA PONTA",
    "BOTTOM": "BODEN FOND FONDO FUNDO BODEM",
    "THICKNESS": "THK THICK THKNS THCK THKN THICKN DICKE STARKE STAERKE EPAISSEUR EP ESPESOR SPESS SPESSORE ESPESSURA DIKTE",
    "DIAMETER": "DIA DIAM DIAMTR DM DURCHM DURCHMESSER DIAMETRO DIAMETRE",
    "OUTSIDE DIAMETER": "OD",
    "INSIDE DIAMETER": "ID",
    "INNER": "INNEN INTERIEUR INTERIOR INTERNO INTERNE INTERNA INWENDIG BINNEN",
    "OVERALL": "OA OVERAL GESAMT TOTAL TOTALE TOTAAL",
    "OVERALL LENGTH": "OAL",
    "INSERTION": "INS INSERT'N INSRT INSERCION INSERCAO INSERZIONE EINBAU INSTEEK INBOUW PLONGEANTE",
    "IMMERSION": "IMM IMMERS INMERSION IMMERSIONE IMERSAO EINTAUCH DOMPEL",
    "SENSOR": "SENS SENSORS SENSORE CAPTEUR FUHLER FUEHLER VOELER SONDE SONDA",
    "ELEMENT": "ELEM ELT TE",
    "INSERT": "MESSEINSATZ INSERTO MEETINZET",
    "THERMOCOUPLE": "TC T/C THERMOELEMENT",
    "SHEATH": "SHTH SHEATHING MANTEL GAINE GUAINA BAINHA",
    "CONNECTION": "CONN CONNECT CONX CNX CXN CONNS ANSCHLUSS RACCORD RACCORDEMENT CONEXION CONEXAO ATTACCO CONNESSIONE "
    "AANSLUITING",
    "PROCESS": "PROC PROZESS PROCEDE PROCESO PROCESSO PROCES",
    "MATERIAL": "MATL MATERL MAT MOC MATERIALE MATERIAU MATIERE MATERIAAL WERKSTOFF",
    "TYPE": "TYP TIPO",
    "MOUNTING": "MTG MTNG MNTG MONTAGE MONTAJE MONTAGGIO MONTAGEM BEFESTIGUNG FIXATION FIJACION FISSAGGIO FIXACAO "
    "BEVESTIGING",
    "SPRING": "SPRG SPG FEDER RESSORT MUELLE RESORTE MOLLA MOLA VEER",
    "TRAVEL": "WEG RECORRIDO CORSA CURSO",
    "SPRING LOADED": "SL",
    "EXTENSION": "EXT EXTN EXTEN VERLANGERUNG VERLAENGERUNG RALLONGE PROLUNGA PROLONGACION PROLONGADOR EXTENSAO "
    "ESTENSIONE VERLENGING VERLENGSTUK",
    "NIPPLE": "NIP NIPL NIPPLES NIPPEL MAMELON NIPLE NIPPLO",
    "NECK": "HALS CUELLO COLLO PESCOCO",
    "REMARKS": "REM RMKS REMARK BEMERKUNG BEMERKUNGEN ANMERKUNG ANMERKUNGEN REMARQUE REMARQUES OBSERVATION OBSERVATIONS "
    "OBSERVACION OBSERVACIONES OBSERVACOES OSSERVAZIONI OPMERKING OPMERKINGEN COMMENTAIRE COMMENTAIRES COMENTARIOS",
    "DESCRIPTION": "DESC DESCR BESCHREIBUNG BENENNUNG DESCRIPCION DESCRIZIONE DESCRICAO OMSCHRIJVING",
    "SERVICE": "SERV SVC SERVICIO SERVIZIO SERVICO",
    "STATUS": "STATE ETAT ESTADO STATO ESTATUS",
    "UNIT": "UNITE UNIDAD UNITA UNIDADE",
    "QUANTITY": "QTY QTTY QNTY MENGE CANTIDAD QUANTITE QUANTITA QUANTIDADE AANTAL STUCK STK STUCKZAHL STUECKZAHL",
    "MEASURED": "MEAS MEASD GEMESSEN MESURE MESUREE MEDIDO MEDIDA MISURATO MISURATA GEMETEN",
    "INSTRUMENT": "INST INSTR INSTRUM INSTRUMENTO STRUMENTO",
    "SCHEDULE": "SCH SCHED",
    "TEMPERATURE": "TEMP",
    "PRESSURE": "PRESS",
    "REVISION": "REV",
    "INSULATION": "INSUL INSULN",
    "LAGGING": "LAGG",
    "THREAD": "THD THRD THREADS",
    "DIMENSION": "DIM",
    "DIMENSIONS": "DIMS",
    "CALIBRATION": "CAL",
    "ORDER": "ORD",
    "REQUIRED": "REQD",
    "EXISTING": "EXIST EXISTG",
    "DRAWING": "DWG DRG",
    "COMPRESSION": "COMPRESSN",
    "WITHDRAWAL": "WITHDRAWL",
    "INSTALLED": "INSTALLD INSTLD",
    "MAXIMUM": "MAX",
    "MINIMUM": "MIN",
    "PREVIOUS": "PREV",
    "TOLERANCE": "TOL",
    "NOMINAL": "NENN NOM",
    "FREQUENCY": "FREQ",
})  # fmt: skip

# Several written words that stand for one.
PHRASES = tuple(
    (re.compile(pattern), f" {meaning} ")
    for pattern, meaning in (
        (r"^\s*TOTALE?S?\s*$", "SUM"),
        (r"^\s*I\.?\s?D\.?\s*$", "IDENT"),
        (r",\s*INS?\.?\s*$", ""),
        (r"\bP\s*\.?\s*&\s*\.?\s*I\.?\s*D\b\.?", "PANDID"),
        (r"\b(?:PIPE|LINE) I\.?D\b\.?(?!\w)", "LINE NUMBER"),
        (r"\b[DL]['\u2019](?=[A-Z])", ""),
        (r"\bT\s*/\s*C\b", "THERMOCOUPLE"),
        (r"\bT\s*/\s*WELL\b", "WELL"),
        (r"\bT\s*/\s*W\b", "WELL"),
        (r"\bT\.\s*W\.(?!\w)", "WELL"),
        (r"\bTHERMO[- ]WELL\b", "WELL"),
        (r"\bDOIGTS? DE GANT\b", "WELL"),
        (r"\bTHERMO ?PUITS\b", "WELL"),
        (r"\bTEMP(?:ERATURE|\.)?[- ](?=ELEM|SENS|PROBE)", ""),
        (r"\bO\.\s*A\.\s*L\.?", "OVERALL LENGTH"),
        (r"\bO\s*/\s*A\b", "OVERALL"),
        (r"\bO\.\s*A\.(?!\w)", "OVERALL"),
        (r"\bOVER[- ]ALL\b", "OVERALL"),
        (r"\bS\s*/\s*L\b", "SPRING LOADED"),
        (r"\bSPRING-LOADED\b", "SPRING LOADED"),
        (r"\bO\.\s*D\.(?!\w)", "OD"),
        (r"\bI\.\s*D\.(?!\w)", "ID"),
        (r"\bDATA[- ]?SHEETS?\b|\bDATENBLATT\b|\bGEGEVENSBLAD\b|\bFOGLIO DATI\b|\bFOLHA DE DADOS\b", "DATASHEET"),
        (r"\bFICHES? TECHNIQUES?\b|\bFEUILLES? DE DONNEES\b|\bHOJAS? DE DATOS\b", "DATASHEET"),
        (r"\bSPEC(?:IFICATION|\.)?[- ]SHEETS?\b", "SPECIFICATION SHEET"),
        (r"\bSTAND-?OFF\b", "STAND OFF"),
        (r"\bAS[- ]BUILT\b", "AS BUILT"),
        (r"\bBOREDEPTH\b", "BORE DEPTH"),
        (r"\bP\.?\s?O\.(?!\w)", "PO"),
        (r"\bMADE-UP\b", "MADE UP"),
        (r"\bU\.?O\.?M\.?(?!\w)", "UOM"),
        (r"\bTAG\s*#", "TAG NUMBER"),
        (r"[Ø⌀]", "DIAMETER"),
        (r"#|№|\bN[º°]", "NUMBER"),
    )
)

# German and Dutch write two of these words as one.
COMPOUND = re.compile(
    r"(?P<first>SONDE|SCHUTZROHR|SCHUTZHULSEN?|BOHRUNG|BOHR|BOORGAT|BOOR|BORING|GESAMT|TOTAAL|FUHLER|FUEHLER|MESSEINSATZ|SENSOR"
    r"|VOELER|HALSROHR|HALS|EINBAU|INBOUW|EINTAUCH|DOMPEL|INSTEEK|MANTEL|BODEN|BODEM|INNEN|BINNEN|FEDER|VEER|PROZESS"
    r"|PROCES|NENN|VERLANGERUNG|VERLAENGERUNG|NIPPEL)S?-?"
    r"(?P<second>LANGE|LAENGE|LENGTE|TIEFE|DIEPTE|DURCHMESSER|DIAMETER|DICKE|STARKE|STAERKE|DIKTE|MATERIAL|MATERIAAL"
    r"|WERKSTOFF|GEWINDE|ANSCHLUSS|AANSLUITING|TYPE?|FORM|NUMMER|NR|WEG|BEFESTIGUNG|MONTAGE|GESAMTLANGE|GESAMTLAENGE)"
)
UNIT_WORDS = frozenset(
    [
        "MM",
        "CM",
        "IN",
        "INCH",
        "INCHES",
        "ZOLL",
        "POUCE",
        "POUCES",
        "PULGADA",
        "PULGADAS",
        "POLLICI",
        "POLEGADA",
        "POLEGADAS",
        "DUIM",
        "MILLIMETRES",
        "MILLIMETERS",
        "MILLIMETER",
        "MILLIMETRE",
        "FT",
        "FEET",
        "BARG",
        "BAR",
        "DEG",
        "DEGC",
        "DEGF",
    ]
)
FILLERS = frozenset(
    [
        "THE",
        "OF",
        "FOR",
        "AND",
        "TO",
        "DE",
        "DES",
        "DER",
        "DIE",
        "DAS",
        "DU",
        "D",
        "LA",
        "LE",
        "DEL",
        "EL",
        "DI",
        "DO",
        "DA",
        "DELLA",
        "DEI",
        "AU",
        "AL",
        "VAN",
        "HET",
        "NOTE1",
        "ACTUAL",
        "REQUIRED",
        "DETAILS",
        "DATA",
        "DETAIL",
        "NEW",
        "APPROVED",
    ]
)
# Words that say where a figure comes from, not what it is; passed over only when nothing fits with them.
QUALIFIERS = frozenset(
    [
        "AS",
        "BUILT",
        "DRAWING",
        "DESIGN",
        "EXISTING",
        "CURRENT",
        "SHEET",
        "DATASHEET",
        "PER",
        "FROM",
        "ORIGINAL",
        "STATED",
        "NOMINAL",
        "FINAL",
        "SPECIFIED",
        "TYPICAL",
        "VENDOR",
        "IN",
        "NOTE",
        "SEE",
        "REVISION",
        "ISSUE",
    ]
)
# Words that make another thing of the length they stand beside: a tolerance, an older figure, a bound.
ALTERING = frozenset(
    [
        "TOLERANCE",
        "MINIMUM",
        "MAXIMUM",
        "OLD",
        "PREVIOUS",
        "FORMER",
        "DATE",
        "STATUS",
        "SOURCE",
        "UNIT",
        "UNITS",
        "UOM",
        "CHECK",
        "CHECKED",
        "DIFFERENCE",
        "DELTA",
        "DEVIATION",
        "ERROR",
        "LIMIT",
        "RANGE",
        "WEIGHT",
        "PRICE",
        "COST",
        "SPARE",
        "BY",
        "CODE",
        "CLASS",
        "RATING",
        "FINISH",
        "COATING",
        "ALLOWANCE",
        "GAP",
        "ASSEMBLY",
        "HEAD",
        "CABLE",
        "LEAD",
        "FLANGE",
        "HEX",
        "TRANSMITTER",
        "WITH",
        "INCLUDING",
        "WITHOUT",
        "EXCLUDING",
    ]
)
