"""When a phrase says more than is understood: a known word inside an unknown phrase is not taken alone.

All wordings are common practice, no source.
"""

import re

OR = re.compile(
    r"\b(?:OR|ODER|OU|EITHER)\b|(?<= )O(?= )|\?"
    r"|\b(?:T\.?B\.?[CDAV]|(?:TO BE|NOT) (?:CONFIRMED|VERIFIED|CHECKED)|CONFIRM|VERIFY|CHECK|ASSUMED|PRESUMED|PROBABLY|POSSIBLY"
    r"|UNCONFIRMED|VERMUTLICH|ZU KLAREN|A CONFIRMER|A VERIFIER|POR CONFIRMAR|A CONFIRMAR|DA CONFERMARE|DA VERIFICARE)\b"
)
# Words that may stand beside the parts of an extension without changing what it is.
HARMLESS = frozenset(
    [
        "AND",
        "WITH",
        "PLUS",
        "ON",
        "TO",
        "THE",
        "AS",
        "PER",
        "UND",
        "ET",
        "EN",
        "CON",
        "AVEC",
        "MIT",
        "MET",
        "COM",
        "DE",
        "DU",
        "DES",
        "DEL",
        "DI",
        "DA",
        "DO",
        "HEX",
        "HEXAGON",
        "PIPE",
        "SCH",
        "SCHEDULE",
        "XS",
        "XXS",
        "STD",
        "STANDARD",
        "SMLS",
        "SEAMLESS",
        "SS",
        "CS",
        "GALV",
        "GALVANISED",
        "GALVANIZED",
        "STEEL",
        "STAINLESS",
        "CARBON",
        "TP",
        "CR",
        "MO",
        "NPT",
        "MNPT",
        "FNPT",
        "NPTM",
        "NPTF",
        "BSP",
        "BSPT",
        "BSPP",
        "NPSM",
        "THD",
        "THREAD",
        "THREADED",
        "TBE",
        "TOE",
        "SCREWED",
        "LG",
        "LGTH",
        "LONG",
        "LENGTH",
        "OAL",
        "OVERALL",
        "IN",
        "INCH",
        "INCHES",
        "MM",
        "CM",
        "EXT",
        "EXTN",
        "EXTENSION",
        "TYPE",
        "STYLE",
        "ASSEMBLY",
        "ASSY",
        "HEAD",
        "MALE",
        "FEMALE",
        "LB",
        "LBS",
        "CL",
        "CLASS",
        "PCS",
        "OFF",
        "NO",
        "NOS",
        "EA",
        "EACH",
        "EQUAL",
        "TWO",
        "PIECE",
        "GROUND",
        "JOINT",
        "TUBE",
        "TUBO",
        "RACCORD",
        "DIN",
        "FORM",
        "EXTENSAO",
        "EXTENSION",
        "RALLONGE",
        "VERLANGERUNG",
        "VERLAENGERUNG",
        "VERLENGING",
        "ESTENSIONE",
        "ACC",
        "LAENGE",
        "LANGE",
        "LENGTE",
        "LONGUEUR",
        "LUNGHEZZA",
        "LONGITUD",
        "NIPPLED",
        "FITTED",
        "ONLY",
        "TUERCA",
        "ZOLL",
        "POUCES",
        "DIA",
        "OD",
    ]
)
SEVERAL_NIPPLES = re.compile(
    r"\b(?:TWO|DOUBLE|DUAL|2)\b ?(?:X|NO\.?|OFF|NOS)? ?(?:NIP|MAMELON)|NIPPLES\b|NIPPELS\b|MAMELONS\b|NIPLES\b"
    r"|(?:NIPPLE|NIPPEL|NIPLE|MAMELON)\)? ?\(?(?:X ?2|2 ?X|2 ?OFF)\b|UNIONS\b|UNION\)? ?\(?X ?2\b"
)


def offers_a_choice(plain: str) -> bool:
    """Whether a phrase names alternatives, or doubts itself."""
    return bool(OR.search(plain))


def says_more(plain: str, known: str) -> bool:
    """Whether words are left in a phrase when the known parts, sizes and harmless words are taken away."""
    rest = re.sub(known, " ", plain)
    return any(word not in HARMLESS for word in re.findall(r"[A-Z]{3,}", rest))


def names_several(plain: str) -> bool:
    """Whether a phrase speaks of more nipples or unions than one."""
    return bool(SEVERAL_NIPPLES.search(plain))
