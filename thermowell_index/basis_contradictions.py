"""What does not go together in a design basis: profiles that no sensor can be built to, ranges the wrong way round."""

import math
import re
from collections.abc import Collection, Iterator, Mapping
from itertools import combinations, pairwise

from thermowell_index.assumptions import Assumption, Quantity
from thermowell_index.basis import ADJUSTABLE, SensorProfile

SPRINGLESS = ("fixed fitting", ADJUSTABLE)
SPRING_LENGTHS = ("travel", "travel_least", "travel_most", "target_compression", "preload", "reserve")
STATE_OF_SPRING = re.compile(r"(?P<spring>\bsprings? )(?P<state>relaxed|solid)\b", re.IGNORECASE)
EXTENSION_IN = re.compile(r"\bextension (?:and head )?included", re.IGNORECASE)
EXTENSION_OUT = re.compile(r"\bextension (?:is )?(?:not included|excluded)|\bwithout (?:the )?extension", re.IGNORECASE)


def inherited_plane(profile: SensorProfile) -> str:
    """Return a plane taken over from another profile, its words for the spring those of this one."""
    if profile.mounting in SPRINGLESS:
        return re.sub(rf",? ?{STATE_OF_SPRING.pattern}", "", profile.plane, flags=re.IGNORECASE)
    return STATE_OF_SPRING.sub(rf"\g<spring>{profile.spring_state}", profile.plane)


def profile_contradictions(profile: SensorProfile, given: Collection[str]) -> list[str]:
    """Return what does not go together in a profile; `given` are the entries that its own section states."""
    has_spring = profile.mounting not in SPRINGLESS
    spring = _spring_problems(profile) if has_spring else _springless_problems(profile, given)
    plane = _plane_problems(profile) if "plane" in given else []
    return [*spring, *_increment_problems(profile), *_step_problems(profile), *plane]


def _spring_problems(profile: SensorProfile) -> list[str]:
    problem = _range_problem(profile)
    if problem:
        return [problem]
    ranges = [profile.length_mm(name) for name in ("travel_least", "travel", "travel_most")]
    least, travel, most = ranges
    if all(math.isnan(length) for length in ranges):
        return ["travel: a sprung sensor has one, stated as travel, or as travel_least and travel_most"]
    if {"travel", "travel_least", "travel_most"} <= profile.stated and (travel < least or travel > most):
        return ["travel: lies outside travel_least to travel_most"]
    return list(_compression_problems(profile, travel if math.isnan(least) else least))


def _range_problem(profile: SensorProfile) -> str:
    least, most = profile.length_mm("travel_least"), profile.length_mm("travel_most")
    if math.isnan(least) != math.isnan(most):
        return "travel_least: a range has both ends, travel_least and travel_most"
    if least > most:
        return "travel_least: is more than travel_most"
    if least <= most and profile.spring_state != "relaxed":
        return "travel_least: a length measured with the spring solid needs the travel itself, not a range"
    return ""


def _compression_problems(profile: SensorProfile, travel_mm: float) -> Iterator[str]:
    """Yield what is wanted of a spring that has not so much travel; a travel that is built in may yet be another."""
    aimed = profile.length_mm("target_compression")
    if "target_compression" in profile.stated and aimed > travel_mm:
        yield "target_compression: is more than the travel"
    if not {"travel", "travel_least"} & profile.stated:
        return
    preload, reserve = (max(0.0, length) for length in map(profile.length_mm, ("preload", "reserve")))
    if travel_mm == 0:
        yield "travel: a sprung sensor has more than none"
    elif preload >= travel_mm:
        yield "preload: leaves nothing of the travel"
    elif preload + reserve >= travel_mm:
        yield "reserve: with the preload it leaves nothing of the travel"


def _springless_problems(profile: SensorProfile, given: Collection[str]) -> list[str]:
    """Return what a sensor without a spring cannot have."""
    stated = [name for name in SPRING_LENGTHS if name in given and getattr(profile, name) != ""]
    stated += ["spring_state"] if profile.spring_state == "solid" else []
    return [f"{name}: there is no spring in a sensor of mounting {profile.mounting!r}" for name in stated]


def _increment_problems(profile: SensorProfile) -> list[str]:
    names = ("increment_inch", "increment_metric")
    return [f"{name}: is not more than nothing" for name in names if not profile.length_mm(name) > 0]


def _step_problems(profile: SensorProfile) -> list[str]:
    """Return in which way the steps of a tolerance by length do not rise."""
    steps = profile.tolerance_steps_mm()
    if any(longer[0] <= shorter[0] for shorter, longer in pairwise(steps)):
        return ["probe_tolerances: the steps do not rise by length, shortest first"]
    if any(longer[1] < shorter[1] for shorter, longer in pairwise(steps)):
        return ["probe_tolerances: a longer probe has a smaller tolerance"]
    return []


def _plane_problems(profile: SensorProfile) -> Iterator[str]:
    """Yield where a plane that the user states says otherwise than the other entries."""
    for found in STATE_OF_SPRING.finditer(profile.plane):
        if profile.mounting in SPRINGLESS:
            yield f"plane: says {found[0]!r}, and there is no spring in a sensor of mounting {profile.mounting!r}"
        elif found["state"].casefold() != profile.spring_state:
            yield f"plane: says {found[0]!r}, and spring_state is {profile.spring_state!r}"
    is_out, is_in = (bool(words.search(profile.plane)) for words in (EXTENSION_OUT, EXTENSION_IN))
    if is_out and profile.contains_extension == "yes":
        yield "plane: says that the extension is not included, and contains_extension is 'yes'"
    if is_in and profile.contains_extension == "no":
        yield "plane: says that the extension is included, and contains_extension is 'no'"


def shared_words(folded_words: Mapping[str, Collection[str]]) -> list[str]:
    """Return which words are those of two profiles; `folded_words` are each profile's."""
    return [
        f"profile.{other}.words: {word!r} is a word of profile.{one} too"
        for one, other in combinations(folded_words, 2)
        for word in sorted(set(folded_words[one]) & set(folded_words[other]))
    ]


def reversed_ranges(entries: Mapping[str, Assumption]) -> list[str]:
    """Return which entries `..._least` are more than the `..._most` beside them."""
    return [
        f"{key}: is more than {key.removesuffix('_least')}_most"
        for key, entry in entries.items()
        if entry.quantity is Quantity.LENGTH and key.endswith("_least")
        if (most := entries.get(key.removesuffix("_least") + "_most")) and entry.length_mm > most.length_mm
    ]
