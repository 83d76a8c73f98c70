"""What a remark says of the extension: a part that went or came, a length, or that it was changed.

All wordings are common practice, no source. Texts are compared in capitals without accents; fractions stay as typed.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from thermowell_index.records.bore_remarks import NUMBER, UNIT, length_within, plain_remark
from thermowell_index.records.words import COUPLING, NECK, SIZE, UNION, without_other_joints

_PART = (
    r"(?P<part>NIPPLES?|NIPPEL|MAMELON|NIPLE|NIPPLO|UNION|COUPLING|NECK(?: TUBE)?|HALSROHR|CUELLO|COLLO"
    r"|(?<!LAGGING )(?<!INSULATION )EXT(?:ENSION|N)?(?!\.? ?(?:WIRE|CABLE|LEAD|CORD))|RALLONGE|PROLONGATEUR|PROLUNGA"
    r"|VERLA?E?NGERUNG|VERLENGSTUK|HALSBUIS|PROLONGACION|PROLONGADOR|EXTENSAO|ESTENSIONE|ELBOW|STREET ELL|BOGEN|COUDE"
    r"|CODO|GOMITO|JOELHO)"
)
_PASSIVE = r"(?: (?:WAS|WERE|IS|ARE|HAS BEEN|HAVE BEEN|NOW|SINCE|LATER|LENGTH|LG|A ETE|WURDE|FUE|E STATA|FOI|WERD))*"
_GONE = (
    r"\(?(?:TO BE )?(?:REMOVED|DELETED)|MISSING|OMITTED|SCRAPPED|DISCARDED|TAKEN OUT"
    r"|(?:NOT|NEVER|NO LONGER) (?:FITTED|INSTALLED|THERE|USED)|ENTFERNT|ENTFALLT|ENTFALLEN|WEGGEFALLEN|FEHLT|SUPPRIMEE?"
    r"|ENLEVEE?|MANQUANTE?|RETIREE?|RETIRAD[OA]|QUITAD[OA]|RIMOSS[OA]|TOLT[OA]|REMOVID[OA]|VERWIJDERD"
)
_NONE = r"NO|WITHOUT|W/O|KEINE?N?|OHNE|SANS|PAS DE|SIN|SENZA|SEM|GEEN|ZONDER"
_CAME = (
    r"ADDED|FITTED|INSERTED|(?<!AS )INSTALLED|ERGANZT|EINGEBAUT|MONTIERT|AJOUTEE?|ANADID[OA]|AGREGAD[OA]|AGGIUNT[OA]"
    r"|ADICIONAD[OA]|TOEGEVOEGD|GEPLAATST"
)
_CHANGED = (
    r"REPLACED|CHANGED|EXCHANGED|SHORTENED|LENGTHENED|CUT|DAMAGED|BENT|TO BE (?:REPLACED|CHANGED)|ERSETZT|GEANDERT"
    r"|GEKURZT|VERLANGERT|REMPLACEE?|CHANGEE?|RACCOURCIE?|REEMPLAZAD[OA]|SUSTITUID[OA]|CAMBIAD[OA]"
    r"|ACORTAD[OA]|SOSTITUIT[OA]|CAMBIAT[OA]|ACCORCIAT[OA]|SUBSTITUID[OA]|TROCAD[OA]|VERVANGEN|GEWIJZIGD|INGEKORT"
)
_IN_KIND = r"(?! (?:IN KIND|LIKE FOR LIKE|(?:WITH|BY) (?:THE )?SAME)|,? ?SAME)"
_LENGTH_FOLLOWS = (
    r"(?: (?:IS|NOW|JETZT|AHORA|ORA|AGORA|NU|MAINTENANT|MEASURED|MEAS'?D|FOUND|ACTUAL(?:LY)?|GEMESSEN|MESUREE?"
    r"|MEDID[OA]|MISURAT[OA]|GEMETEN|(?:AS )?INSTALLED|MADE UP|LENGTH|LG|=|AT|AS|OF|ON SITE|NEW"
    rf"|(?:{_CHANGED})(?: (?:WITH|BY|TO|FOR|DURCH|PAR|POR|CON|DOOR|AUF|MET|IN|A))?))+"
)
_REMOVAL = re.compile(
    rf"\b{_PART}\b\.?{_PASSIVE} (?:{_GONE})\b|\b(?:{_NONE}) (?:HEAD |PIPE )?{_PART.replace('part', 'lacking')}\b"
)
_ADDITION = re.compile(rf"\b{_PART}\b\.?{_PASSIVE} (?:{_CAME})\b")
_LENGTH = re.compile(rf"\b{_PART}\b\.?{_LENGTH_FOLLOWS}[: ]*(?P<length>{NUMBER}{UNIT})")
_IN_BORE = re.compile(
    r"\b(?:BORES?|(?:BORE )?DEPTHS?|BOHRUNG\w*|BOHRTIEFEN?|TIEFEN?|PROFONDEURS?|PROFUNDIDAD(?:ES)?|PROFONDITA|DIEPTEN?)"
    r"(?: (?:IS|ARE|WAS|WERE|IN|THIS|LIST|HERE|BELOW|ABOVE|ALL|GIVEN|STATED|MEASURED|TAKEN|OF THE FOLLOWING TAGS"
    r"|GEMESSEN|SIND|IST|MESUREE?S?|SONT|EST))* "
    r"(?:INCL(?:UDES|UDED|UDING|UDE|\.)?|THROUGH|VIA|WITH|INKL|MIT|EINSCHLIESSLICH|Y ?COMPRIS|AVEC|INCLUYEN?"
    rf"|CON|COMPRESO|MET)\b\.?(?: (?:THE|A|DIE|DEM|DER|LA|LE|EL|IL|L))?(?: {NUMBER}{UNIT})? {_PART}\b"
    rf"|\bBORE DEPTHS? ?=[^;.]{{0,25}}(?:\+|PLUS|AND) (?:THE )?{_PART.replace('part', 'added')}\b"
)
_UNIT_THERE = UNIT.removesuffix("?")
_SO_LONG = rf"(?: {NUMBER}{UNIT})?"
_STANDS = tuple(
    re.compile(pattern)
    for pattern in (
        (
            r"\b(?:WITH|HAS|HAVE|ON|BY|MIT|AVEC|CON|COM|MET)\b(?: (?:A|AN|THE|EIN|EINEM|UN|UNE|UNA))?"
            rf"{_SO_LONG} ?(?:EXTENSION |STAND-?OFF )?{_PART}\b"
        ),
        (
            rf"\b{_PART}\b\.?(?: PIECE)?{_SO_LONG} (?:PRESENT|VORHANDEN|INSTALLED|INSTALAD[OA]|MONTEE?|FITTED|IN PLACE"
            r"|BETWEEN|TO CLEAR)\b"
        ),
        rf"\b{_PART}\b\.? (?:DE )?{NUMBER}{_UNIT_THERE}",
        rf"{NUMBER}{_UNIT_THERE} (?:LONG )?(?:EXTENSION )?{_PART}\b",
        rf"\bEXT(?:ENSION)?\.?: {_PART}\b",
        rf"\bHEAD (?:IS |WAS )?(?:RAISED|LIFTED) (?:BY )?{NUMBER}",
    )
)
_ANOTHER = re.compile(rf"\b(?:ADDITIONAL|SECOND|EXTRA|ANOTHER|FURTHER|LONGER|SHORTER|DIFFERENT) {_PART}\b")
_BARE_LENGTHS = tuple(
    re.compile(pattern)
    for pattern in (
        rf"\b{_PART}\b\.?(?: DE)? (?P<length>{NUMBER}{_UNIT_THERE})",
        rf"\bREPLACED (?:BY|WITH)(?: AN?)? (?P<length>{NUMBER}{UNIT}) (?:LONG )?{_PART}\b",
        rf"\bINSTALLED LENGTH (?:IS |NOW )?(?P<length>{NUMBER}{UNIT})",
    )
)
_ON_THE_WELL = re.compile(r"\bHEAD\b[^;.]{0,12}\bDIRECT(?:LY)? ON (?:THE )?(?:WELL|T/?W)\b")
_CHANGE = re.compile(rf"\b{_PART}\b\.?{_PASSIVE} (?:{_CHANGED})\b{_IN_KIND}")
_OWN_PARTS = (
    (UNION, "union"),
    (COUPLING, "coupling"),
    (NECK, "neck tube"),
    ("ELBOW|ELL|BOGEN|COUD|COD|GOMI|JOEL", "elbow"),
)
# What a nipple or an extension may be long [mm]; a number beyond is of something else. Common practice, no source.
_LEAST_MM, _MOST_MM = 12.7, 914.4


@dataclass(frozen=True, kw_only=True)
class ExtensionRemark:
    """What a remark says of the extension: the part that is not there, the part that came, a length [mm], a change.

    `was_there` tells that the part is spoken of as one that was there or should be: "union removed", not "no union".
    `stands` tells that an extension of any kind is spoken of as standing there. `in_bore` are the words by which the
    bore depth was measured through the extension, so that it holds it already.
    """

    gone: str = ""
    was_there: bool = False
    came: str = ""
    stands: bool = False
    in_bore: str = ""
    length_mm: float | None = None
    changed: str = ""


_NOTHING = ExtensionRemark()


@lru_cache(maxsize=65536)
def extension_remark(remark: str, unit: str) -> ExtensionRemark:
    """Return what a remark says of the extension; `unit` is the row's, for numbers without one.

    Parts are named nipple, union, coupling, neck tube, elbow, or extension for any other word; `another` for one more.

    >>> extension_remark("union added 2019", "in").came, extension_remark("nipple now 50 mm", "in").length_mm
    ('union', 50.0)
    """
    plain = SIZE.sub(" ", without_other_joints(plain_remark(remark)))
    gone, came, length, changed = (pattern.search(plain) for pattern in (_REMOVAL, _ADDITION, _LENGTH, _CHANGE))
    length = length or next((found for pattern in _BARE_LENGTHS if (found := pattern.search(plain))), None)
    stands = not gone and any(pattern.search(plain) for pattern in _STANDS)
    came = came or _ANOTHER.search(plain)
    in_bore, on_the_well = _IN_BORE.search(plain), _ON_THE_WELL.search(plain)
    if not (gone or came or length or changed or in_bore or on_the_well or stands):
        return _NOTHING
    return ExtensionRemark(
        gone=_part(gone["part"] or gone["lacking"]) if gone else "extension" if on_the_well else "",
        was_there=bool(gone and gone["part"]),
        in_bore=in_bore[0] if in_bore else "",
        came="" if not came or gone else "another" if _ANOTHER.search(plain) else _part(came["part"]),
        stands=stands,
        length_mm=_length_said(length["length"], unit) if length else None,
        changed=changed[0] if changed else "",
    )


def _part(word: str) -> str:
    named = next((name for pattern, name in _OWN_PARTS if re.search(pattern, word)), "")
    return named or ("nipple" if word.startswith(("NIP", "MAM")) else "extension")


def _length_said(text: str, unit: str) -> float | None:
    return length_within(text.strip(), unit, least_mm=_LEAST_MM, most_mm=_MOST_MM)
