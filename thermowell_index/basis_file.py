"""The user's design basis file: what it changes in the built-in one, with every wrong key named in one line."""

import tomllib
from collections.abc import Mapping
from dataclasses import fields, replace
from pathlib import Path

from thermowell_index.assumptions import MOUNTINGS, Assumption, Quantity, length_in_mm
from thermowell_index.basis import ADJUSTABLE, BUILT_IN, Basis, RuleChoice, SensorProfile, in_capitals
from thermowell_index.basis_contradictions import (
    inherited_plane,
    profile_contradictions,
    reversed_ranges,
    shared_words,
)
from thermowell_index.errors import SettingsError


def read_basis(path: Path, switches: Mapping[str, bool]) -> Basis:
    """Return the built-in design basis with what a TOML file changes in it.

    `switches` names the checks, and whether each may be switched off.

    Raises
    ------
    SettingsError
        The file cannot be read, is no TOML, or has a wrong key or value: all of them in one line.

    """
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as exc:
        raise SettingsError(f"{path}: cannot read the design basis: {exc}") from exc
    return basis_from(data, name=path.name, where=str(path), switches=switches)


def basis_from(data: Mapping[str, object], *, name: str, where: str, switches: Mapping[str, bool]) -> Basis:
    """Return the design basis that a mapping of sections describes; SettingsError names every wrong key."""
    wrong: list[str] = []
    entries, profiles = dict(BUILT_IN.entries), dict(BUILT_IN.profiles)
    changed: set[str] = set()
    rules: dict[str, RuleChoice] = {}
    for section, content in data.items():
        if not isinstance(content, Mapping):
            wrong.append(f"{section}: is not a section")
        elif section == "profile":
            _change_profiles(profiles, content, wrong, changed)
        elif section == "rules":
            rules = _rule_choices(content, switches, wrong)
        else:
            _change_entries(entries, section, content, wrong, changed)
    wrong += reversed_ranges(entries)
    wrong += shared_words({name: [in_capitals(word) for word in one.words] for name, one in profiles.items()})
    if wrong:
        raise SettingsError(f"{where}: wrong in the design basis: " + "; ".join(wrong))
    return Basis(entries, profiles, frozenset(changed), name, rules)


def _rule_choices(
    content: Mapping[str, object], switches: Mapping[str, bool], wrong: list[str]
) -> dict[str, RuleChoice]:
    """Return what the file says of single checks; a check is named as the sheets show it, or with underscores."""
    choices: dict[str, RuleChoice] = {}
    for given, values in content.items():
        name = given.strip().casefold().replace(" ", "_").replace("-", "_")
        problems = _rule_problems(name, values, switches)
        wrong += [f"rules.{given}: {problem}" for problem in problems]
        if not problems and isinstance(values, Mapping):
            choices[name] = RuleChoice(**{key: str(value).strip() for key, value in values.items()})
    return choices


SEVERITIES = ("error", "warning", "note")


def _rule_problems(name: str, values: object, switches: Mapping[str, bool]) -> list[str]:
    if name not in switches:
        return ["there is no such check; list them with: thermowell-index rules"]
    if not isinstance(values, Mapping):
        return ["is not a section"]
    problems = [f"{key}: no such entry; there are severity, off" for key in values if key not in {"severity", "off"}]
    if "severity" in values and values["severity"] not in SEVERITIES:
        problems.append(f"severity: {values['severity']!r} is none of {', '.join(SEVERITIES)}")
    if "off" in values:
        reason = values["off"]
        if not isinstance(reason, str) or not reason.strip():
            problems.append('off: needs the reason as text, off = "..."')
        elif not switches[name]:
            problems.append("off: this check says why a row can have no length, and cannot be switched off")
    return problems


def _change_entries(
    entries: dict[str, Assumption], section: str, content: Mapping[str, object], wrong: list[str], changed: set[str]
) -> None:
    for name, value in content.items():
        key = f"{section}.{name}"
        if key not in entries:
            wrong.append(f"{key}: no such entry")
            continue
        problem = _problem(entries[key], value)
        if problem:
            wrong.append(f"{key}: {problem}")
        elif value != entries[key].value:
            entries[key] = replace(entries[key], value=value, source="user's design basis")  # type: ignore[arg-type]
            changed.add(key)


def _problem(entry: Assumption, value: object) -> str:
    """Return what is wrong with a value for an entry, empty when it will do."""
    if entry.quantity is Quantity.NUMBER:
        is_number = isinstance(value, int | float) and not isinstance(value, bool) and value >= 0
        return "" if is_number else f"{value!r} is not a number of zero or more"
    if not isinstance(value, str):
        return f"{value!r} is not text in quotes"
    if entry.quantity is Quantity.LENGTH:
        return _length_problem(value, may_be_empty=entry.value == "")
    if entry.choices and value not in entry.choices:
        return f"{value!r} is none of {', '.join(repr(choice) for choice in entry.choices)}"
    return ""


def _length_problem(value: str, *, may_be_empty: bool, may_be_negative: bool = False) -> str:
    if value == "" and may_be_empty:
        return ""
    try:
        length = length_in_mm(value)
    except ValueError as exc:
        return str(exc)
    return "" if length >= 0 or may_be_negative else f"{value!r} is less than nothing"


def _change_profiles(
    profiles: dict[str, SensorProfile], content: Mapping[str, object], wrong: list[str], changed: set[str]
) -> None:
    """Change the profiles that are there, and add those that are `like` one of them."""
    for name, values in content.items():
        if not isinstance(values, Mapping):
            wrong.append(f"profile.{name}: is not a section")
            continue
        like = str(values.get("like", name))
        if like not in profiles:
            wrong.append(f"profile.{name}: no such profile; say which it is like: {', '.join(BUILT_IN.profiles)}")
            continue
        given = {key: value for key, value in values.items() if key != "like"}
        good = {key: value for key, value in given.items() if _profile_value_is_right(name, key, value, wrong)}
        lists = {key: tuple(good[key]) for key in ("standard_lengths_mm", "words", "heads") if key in good}
        if "probe_tolerances" in good:
            lists["probe_tolerances"] = tuple((str(step[0]), str(step[1])) for step in good["probe_tolerances"])
        if like == name and not good:
            continue
        base = profiles[like] if like == name else replace(profiles[like], words=())
        said = {"source": "user's design basis", **good, **lists}
        profile = replace(base, name=name, stated=base.stated | frozenset(good), **said)
        profiles[name] = profile if "plane" in good else replace(profile, plane=inherited_plane(profile))
        changed |= {f"profile.{name}.{key}" for key in good}
        wrong += [f"profile.{name}.{problem}" for problem in profile_contradictions(profiles[name], good)]


PROFILE_LENGTHS = (
    "seat_offset", "target_compression", "travel", "travel_least", "travel_most", "preload", "reserve",
    "increment_inch", "increment_metric",
)  # fmt: skip
WORDS_FOR_LENGTHS = {"seat_offset": ("", "engagement"), "target_compression": ("", "engagement", "middle")}
PROFILE_KEYS = tuple(entry.name for entry in fields(SensorProfile) if entry.name not in {"name", "stated"})


def _profile_value_is_right(profile: str, key: str, value: object, wrong: list[str]) -> bool:
    problem = ""
    if key not in PROFILE_KEYS:
        problem = f"no such entry; there are {', '.join(PROFILE_KEYS)}"
    elif key in PROFILE_LISTS:
        problem = PROFILE_LISTS[key](value)
    elif key in PROFILE_CHOICES and value not in PROFILE_CHOICES[key]:
        problem = f"{value!r} is none of {', '.join(map(repr, PROFILE_CHOICES[key]))}"
    elif not isinstance(value, str):
        problem = f"{value!r} is not text in quotes"
    elif key in PROFILE_LENGTHS and value not in WORDS_FOR_LENGTHS.get(key, ("",)):
        problem = _length_problem(value, may_be_empty=False, may_be_negative=key == "seat_offset")
    if problem:
        wrong.append(f"profile.{profile}.{key}: {problem}")
    return not problem


PROFILE_CHOICES = {
    "mounting": (*MOUNTINGS.split("|"), ADJUSTABLE),
    "thread": ("taper", "parallel", "any"),
    "contains_extension": ("yes", "no"),
    "spring_state": ("relaxed", "solid"),
}


def _steps_problem(value: object) -> str:
    """Return what is wrong with the steps of a tolerance by length, empty when they will do."""
    expected = (
        'is not a list of steps, as [["300 mm", "1.5 mm"], ["1000 mm", "3 mm"]]: up to which length which tolerance'
    )
    if not isinstance(value, list) or not all(
        isinstance(step, list) and len(step) == len(("to", "by")) for step in value
    ):
        return expected
    texts = [text for step in value for text in step]
    if not all(isinstance(text, str) for text in texts):
        return expected
    return next((problem for text in texts if (problem := _length_problem(text, may_be_empty=False))), "")


def _words_problem(value: object) -> str:
    is_right = isinstance(value, list) and all(isinstance(item, str) and item.strip() for item in value)
    return "" if is_right else "is not a list of words in quotes"


def _numbers_problem(value: object) -> str:
    is_right = isinstance(value, list) and all(
        isinstance(item, int | float) and not isinstance(item, bool) and item > 0 for item in value
    )
    return "" if is_right else "is not a list of lengths in mm"


PROFILE_LISTS = {
    "standard_lengths_mm": _numbers_problem,
    "words": _words_problem,
    "heads": _words_problem,
    "probe_tolerances": _steps_problem,
}
