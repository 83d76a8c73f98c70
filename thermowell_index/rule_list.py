"""The list of checks in words, for the command line, the README and the sheets: all from the registry."""

import difflib
import inspect
import textwrap
from collections.abc import Iterator
from types import CodeType, FunctionType

import thermowell_index.validator
from thermowell_index.basis import BUILT_IN
from thermowell_index.errors import SettingsError
from thermowell_index.registry import RULES, Folds, Rule, Withholds

FAMILIES = tuple(thermowell_index.validator.FAMILIES)


def listing(width: int) -> str:
    """Return all checks by family: severity, name, first sentence."""
    wide = max(len(rule.plain_name) for rule in RULES.values())
    lines: list[str] = []
    for family, rules in by_family().items():
        lines += ["", family] if lines else [family]
        lines += [_line(rule, wide, width) for rule in rules]
    return "\n".join([*lines, "", "thermowell-index rules NAME explains one of them."])


def _line(rule: Rule, wide: int, width: int) -> str:
    title = rule.title
    room = width - wide - 13
    if len(title) > room:
        title = title[: room - 4].rsplit(" ", 1)[0] + " ..."
    return f"  {rule.severity:<8} {rule.plain_name:<{wide}} {title}"


def by_family() -> dict[str, list[Rule]]:
    """Return the checks by the family that they belong to, in the order of the registry."""
    modules = {module.__name__: family for family, module in thermowell_index.validator.FAMILIES.items()}
    found: dict[str, list[Rule]] = {family: [] for family in FAMILIES}
    for rule in RULES.values():
        if rule.check.__module__ in modules:
            found[modules[rule.check.__module__]].append(rule)
    return found


def explain(name: str, width: int) -> str:
    """Return everything about one check; SettingsError names the nearest when there is none of that name."""
    key = name.strip().lower().replace(" ", "_").replace("-", "_")
    if key not in RULES:
        near = difflib.get_close_matches(key, RULES, n=3, cutoff=0.4)
        hint = f"; near: {', '.join(one.replace('_', ' ') for one in near)}" if near else ""
        raise SettingsError(f"there is no check {name!r}{hint}; list them with: thermowell-index rules")
    rule = RULES[key]
    entries = {
        "severity": rule.severity.value,
        "fires when": rule.condition,
        "withholds": _withholds(rule),
        "one finding": "a group of rows that share it"
        if rule.group
        else {
            Folds.NEVER: "a row",
            Folds.ALWAYS: "a sheet, with the list of tags",
            Folds.NOTES: "a row; notes one a sheet",
            Folds.REPEATED: "a row; one a sheet where many of its rows have it",
        }[rule.folds],
        "limits": _limits_in_words(rule),
        "to do": rule.action,
        "source": rule.source,
    }
    lines = [rule.plain_name, *textwrap.wrap(rule.explanation, width), ""]
    for label, text in filter(all, entries.items()):
        lines += textwrap.wrap(f"{label + ':':<13}{text}", width, subsequent_indent=" " * 13)
    return "\n".join(lines)


def limits_of(rule: Rule) -> list[str]:
    """Return the entries of the design basis that a check asks for, itself or by way of the functions that it calls."""
    words: set[str] = set()
    seen: set[str] = set()
    waiting: list[object] = [rule.check]
    while waiting:
        function = inspect.unwrap(waiting.pop())  # type: ignore[arg-type]  # only functions are put there
        if isinstance(function, FunctionType) and function.__qualname__ not in seen:
            seen.add(function.__qualname__)
            for code in _codes(function.__code__):
                words |= {one for one in code.co_consts if isinstance(one, str)}
                called = (function.__globals__.get(name) for name in code.co_names)
                waiting += [one for one in called if _is_of_the_checks(one)]
    return [key for key in BUILT_IN.entries if any(key == one or _opens(one, key) for one in words)]


def _codes(code: CodeType) -> Iterator[CodeType]:
    """Yield the code of a function and of all that is written inside it."""
    yield code
    for one in code.co_consts:
        if isinstance(one, CodeType):
            yield from _codes(one)


def _is_of_the_checks(thing: object) -> bool:
    return callable(thing) and getattr(thing, "__module__", "").startswith("thermowell_index.validator")


def _opens(text: str, key: str) -> bool:
    """Whether a text is the first part of a key that is put together, such as `limit.stress_`."""
    return text.endswith("_") and "." in text and key.startswith(text)


def _limits_in_words(rule: Rule) -> str:
    return ", ".join(f"{key} ({BUILT_IN.entries[key].value})" for key in limits_of(rule))


def _withholds(rule: Rule) -> str:
    return {
        Withholds.NEVER: "no, the row keeps its length",
        Withholds.ALWAYS: "yes, no length is given until it is settled",
        Withholds.WHEN_NEEDED: "yes, where the row's length needs the cell",
    }[rule.withholds]


def as_markdown() -> str:
    """Return the list of checks as the README's table."""
    lines = ["| check | severity | fires when | source |", "| --- | --- | --- | --- |"]
    for rules in by_family().values():
        lines += [
            f"| {rule.plain_name} | {rule.severity} | {_cell(rule.condition)} | {_cell(rule.source)} |"
            for rule in rules
        ]
    return "\n".join(lines)


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
