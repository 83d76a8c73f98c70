"""The unit that a heading, a units cell or a title-block note names."""

import re

from thermowell_index.units.notation import plain_text

# Words that can only be a unit.
_SURE = {
    "mm": r"mm|millim[eéè](?:ters?|tres?|tros?|tri)|mil[ií]metros?",
    "cm": r"cm|centim[eéè](?:ters?|tres?|tros?|tri)",
    "in": r"inch(?:es)?|zoll|pouces?|pulgadas?|pulg|polegadas?|pollic[ei]|duim",
}
# Words that mean other things elsewhere ("in service", "flow meter", "M20"): a unit only where one is expected.
_EXPECTED = {
    "in": r"(?i:in|ins|po|pol)",
    "m": r"(?:m|(?i:met(?:er|re)s?|metros?|metri))",
    "ft": r"(?i:ft|feet|foot|fuß|fuss|pieds?|pies?|piedi|voet)",
}
_NOT_A_VALUE = r"(?<![\w²³^])(?<![0-9][ -])"
_NOT_A_DATE = r"(?<!dd[/.:\-])(?<!yy[/.:\-])(?<!hh[/.:\-])"
_NOT_A_DATE_NOR_A_PRESSURE = r"(?![\w²³^])(?!\s?[/.:\-]\s?(?:dd|yy|ss))(?!\.?\s*(?:h2o|hg|w\.?[cgs]\.?)(?!\w))"
_PLACE = r"(?:^\s*|[(\[{]\s*|[,/:;|&=]\s*|\s-\s*|\s(?:or|and)\s)"
_PREPOSITION = r"(?<!\w)(?i:in|en|em)\s+"
_END = r"\.?\s*(?:$|[)\]},;:(\[])"
_END_OR_EXCEPTION = rf"(?:{_END}|\.?\s+(?i:unless|except|otherwise|u\.?n\.?o)\b)"

_SURE_WORD = {
    unit: re.compile(rf"(?i){_NOT_A_VALUE}{_NOT_A_DATE}(?:{words}){_NOT_A_DATE_NOR_A_PRESSURE}")
    for unit, words in _SURE.items()
}
_EXPECTED_WORD = {
    unit: re.compile(rf"(?:{_PLACE}{words}{_END}|{_PREPOSITION}{words}{_END_OR_EXCEPTION})")
    for unit, words in _EXPECTED.items()
}
_OTHER_UNIT = r"(?i:mm|cm|millim\w+|centim\w+)"
_INCHES_ELSE = (
    # the last word: "BORE DEPTH IN", but not "PLUG IN"
    re.compile(r"[\w)\]*.]\s+in\.?$", re.IGNORECASE),
    re.compile(rf"(?<!\w)(?i:in)\.?\s*[/(\[|&]\s*{_OTHER_UNIT}"),
    re.compile(r"(?<!\w)in\.\s*[(\[]", re.IGNORECASE),
    re.compile(r'^[^"]*(?:[(\[{,/]\s*|(?<![0-9])\s|^)"\s*[)\]}]?$'),
)
_IN_THAT_IS_NO_INCH = re.compile(
    r"\b(?:in\s*[/&-]\s*out|out\s*[/&-]\s*in"
    r"|(?:plug|screw|built|push|sign|log|check|weld|drop|slip|fit|thread|clock|cut|tie|hook|lead|bolt|date|break|put|all"
    r"|come|go|stand|lock|snap|phase|fade|bring|brought|received|booked)(?:ed|s)?[\s-]+in)\b",
    re.IGNORECASE,
)


def unit_of_words(text: str) -> str | None:
    """Give the one length unit that a heading, a units cell or a title-block note names.

    Parameters
    ----------
    text : str
        The words. [-]

    Returns
    -------
    str or None
        `in`, `ft`, `mm`, `cm` or `m`; None where no unit or more than one is named. [-]

    Notes
    -----
    `in` and `m` are units only alone, in brackets, behind a comma or slash, after a preposition ("in m") or, for `in`,
    as the last word. A unit behind a number ("6 mm sheath") is part of a value.

    Source: common practice, no source.

    Examples
    --------
    >>> unit_of_words("LENGTH, IN"), unit_of_words("Alle Maße in mm"), unit_of_words("IN SERVICE")
    ('in', 'mm', None)
    """
    plain = _IN_THAT_IS_NO_INCH.sub(" ", plain_text(text).replace("\u00a0", " "))
    named = {unit for unit, word in _SURE_WORD.items() if word.search(plain)}
    named |= {unit for unit, word in _EXPECTED_WORD.items() if word.search(plain)}
    if any(pattern.search(plain) for pattern in _INCHES_ELSE):
        named.add("in")
    return named.pop() if len(named) == 1 else None
