"""Number format codes: the built-in ones, and which of them show a date.

Source: ECMA-376 part 1, 18.8.30 (numFmt), from memory; the ids 27 to 58 stand for dates of East Asian locales there.
"""

import re

BUILT_IN: dict[int, str] = {
    0: "General",
    1: "0",
    2: "0.00",
    3: "#,##0",
    4: "#,##0.00",
    5: '"$"#,##0_);("$"#,##0)',
    6: '"$"#,##0_);[Red]("$"#,##0)',
    7: '"$"#,##0.00_);("$"#,##0.00)',
    8: '"$"#,##0.00_);[Red]("$"#,##0.00)',
    9: "0%",
    10: "0.00%",
    11: "0.00E+00",
    12: "# ?/?",
    13: "# ??/??",
    14: "mm-dd-yy",
    15: "d-mmm-yy",
    16: "d-mmm",
    17: "mmm-yy",
    18: "h:mm AM/PM",
    19: "h:mm:ss AM/PM",
    20: "h:mm",
    21: "h:mm:ss",
    22: "m/d/yy h:mm",
    37: "#,##0_);(#,##0)",
    38: "#,##0_);[Red](#,##0)",
    39: "#,##0.00_);(#,##0.00)",
    40: "#,##0.00_);[Red](#,##0.00)",
    41: r'_(* #,##0_);_(* \(#,##0\);_(* "-"_);_(@_)',
    42: r'_("$"* #,##0_);_("$"* \(#,##0\);_("$"* "-"_);_(@_)',
    43: r'_(* #,##0.00_);_(* \(#,##0.00\);_(* "-"??_);_(@_)',
    44: r'_("$"* #,##0.00_)_("$"* \(#,##0.00\)_("$"* "-"??_)_(@_)',
    45: "mm:ss",
    46: "[h]:mm:ss",
    47: "mmss.0",
    48: "##0.0E+0",
    49: "@",
    **dict.fromkeys((27, 28, 29, 30, 31, 36, 50, 51, 52, 53, 54, 57, 58), "yyyy-mm-dd"),
    **dict.fromkeys((32, 33, 34, 35, 55, 56), "h:mm:ss"),
}
FIRST_CUSTOM = 164
# What these built-in ids show depends on the reader's locale, so nothing new is given one.
OF_OTHER_LOCALES = frozenset((*range(27, 37), *range(50, 59)))

# quoted text, an escaped sign, a gap as wide as a sign, a filling sign
_LITERAL = re.compile(r'"[^"]*"?|\\.|_.|\*.', re.DOTALL)
_ELAPSED = re.compile(r"\[(?:h+|m+|s+)\]", re.IGNORECASE)
_BRACKET = re.compile(r"\[[^\]]*\]")
_SECOND_FRACTION = re.compile(r"(s\]?)[.,]0+", re.IGNORECASE)
_DATE_SIGN = re.compile(r"[ymdhs]", re.IGNORECASE)
_NUMBER_SIGN = re.compile(r"[0#?@%]|general", re.IGNORECASE)


def shows_date(code: str) -> bool:
    r"""Whether a number format shows a number as a date or a time.

    A section that holds a digit place shows a number, whatever letters of a unit stand unquoted beside it.

    Examples
    --------
    >>> [shows_date(code) for code in ("d-mmm-yy", "[h]:mm", "mm:ss.0", "0.0 mm", '0"mm"', r"# ?/? \m\m", "[Red]0")]
    [True, True, True, False, False, False, False]
    """
    first_section = _LITERAL.sub("", code).partition(";")[0]
    first_section = _SECOND_FRACTION.sub(r"\1", first_section)
    elapsed = _ELAPSED.search(first_section) is not None
    plain = _BRACKET.sub("", first_section)
    if _NUMBER_SIGN.search(plain):
        return False
    return elapsed or _DATE_SIGN.search(plain) is not None
