"""What cannot be screwed together."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

from thermowell_index.findings import Finding

INSERT = {"sensor_mounting": "spring-loaded insert", "probe_length": ""}
NIPPLE = {**INSERT, "extension_arrangement": "nipple", "nipple_length": "4"}
UNION = {"extension_arrangement": "nipple and union", "nipple_length": "4", "probe_length": ""}

WELL_ROW = {"tag": "TW-101", "sensor_mounting": "", "extension_arrangement": "", "sensor_type": "", "sheath_diameter": "", "probe_length": "", "spring_travel": ""}  # fmt: skip

HEADS = {"basis": {"profile": {"spring_loaded_fitting": {"heads": ["form B", "screw cap"]}}}}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "fitting_onto_bare_nipple": [
        ("fires on a fitting on a nipple", {"extension_arrangement": "nipple", "nipple_length": "4"}, ["error TE-101 extension_arrangement"]),
        ("fires on a fixed fitting on a neck tube", {"sensor_mounting": "fixed fitting", "extension_arrangement": "neck tube"}, ["error TE-101 extension_arrangement"]),
        ("warns with an installed length", {"extension_arrangement": "nipple", "installed_length": "3"}, ["warning TE-101 extension_arrangement"]),
        ("is sound on a union", UNION, []),
        ("is sound for an insert", NIPPLE, []),
        ("is sound where the nipple is said to be above", {"extension_arrangement": "nipple above fitting"}, []),
    ],
    "threads_do_not_mate": [
        ("fires on another family", {**NIPPLE, "extension_thread": "G 1/2"}, ["error TE-101 instrument_thread"]),
        ("fires on another size", {**NIPPLE, "extension_thread": "3/4 NPT"}, ["error TE-101 instrument_thread"]),
        ("fires on another family with an installed length too", {**NIPPLE, "extension_thread": "G 1/2", "installed_length": "3"}, ["error TE-101 instrument_thread"]),
        ("fires on the thread in the mounting's words", {"sensor_mounting": "spring-loaded fitting G 1/2"}, ["error TE-101 instrument_thread"]),
        ("fires on the sensor's own thread", {"sensor_thread": "1/2 NPT", "instrument_thread": "3/4 NPT"}, ["error TE-101 instrument_thread"]),
        ("is sound on the well's own thread there", {"sensor_mounting": "1/2 NPT spring-loaded fitting, 1/4 in sheath"}, []),
        ("warns of it where the extension was read at the well", {**NIPPLE, "extension_thread": "G 1/2", "installed_length": "3", "surveyed": ("installed_length",)}, ["warning TE-101 instrument_thread"]),
        ("fires on a male top under a fitting, whatever length is given", {"instrument_thread": "1/2 NPT male", "installed_length": "0"}, ["error TE-101 instrument_thread"]),
        ("fires on another pitch", {**NIPPLE, "instrument_thread": "M20x1.5", "extension_thread": "M20x2"}, ["error TE-101 instrument_thread"]),
        ("fires on male on male", {"instrument_thread": "1/2 NPT male"}, ["error TE-101 instrument_thread"]),
        ("fires on a nipple on a male top", {**NIPPLE, "instrument_thread": "1/2 NPT male"}, ["error TE-101 instrument_thread"]),
        ("fires on a head on a female end", {**INSERT, "extension_arrangement": "nipple and union", "nipple_length": "4"}, ["error TE-101 instrument_thread"]),
        ("is sound on a head on a female end of given length", {**INSERT, "extension_arrangement": "nipple and union", "installed_length": "5"}, []),
        ("is sound for R in Rc and NPT in NPSM", [{**NIPPLE, "instrument_thread": "Rc 1/2", "extension_thread": "R 1/2"}, {**NIPPLE, "instrument_thread": "1/2 NPSM", "extension_thread": "1/2 NPT"}], []),
        ("is sound for a head on a male well", {**INSERT, "instrument_thread": "1/2 NPT male"}, []),
        ("is sound for the head thread of a neck tube", {**NIPPLE, "instrument_thread": "M20x1.5", "extension_arrangement": "neck tube", "nipple_length": "", "extension_length": "6", "extension_thread": "M24x1.5"}, []),
        ("is silent where the well's thread is not stated", {**NIPPLE, "instrument_thread": "", "extension_thread": "G 1/2"}, []),
        ("is silent where a thread is not known", {**NIPPLE, "instrument_thread": "1/2 BSP", "extension_thread": "G 1/2"}, []),
        ("is sound", [{}, NIPPLE, UNION], []),
    ],
    "well_row_says_otherwise": [
        ("fires on another extension", [WELL_ROW | {"extension_arrangement": "nipple", "nipple_length": ""}, {**UNION, "tag": "TE-101"}], ["error TE-101 extension_arrangement"]),
        ("fires on another mounting", [WELL_ROW | {"sensor_mounting": "spring-loaded insert"}, {"tag": "TE-101"}], ["error TE-101 extension_arrangement"]),
        ("fires on another length of the same extension", [WELL_ROW | {"nipple_length": "6"}, {**UNION, "tag": "TE-101"}], ["error TE-101 extension_arrangement"]),
        ("warns of it where the extension was read at the well", [WELL_ROW | {"nipple_length": "6"}, {**UNION, "tag": "TE-101", "installed_length": "5", "surveyed": ("installed_length",)}], ["warning TE-101 extension_arrangement"]),
        ("is sound on the limit of 1/16 in", [WELL_ROW | {"nipple_length": "4-1/16"}, {**UNION, "tag": "TE-101"}], []),
        ("is sound in other words for the same", [WELL_ROW | {"sensor_mounting": "SL fitting"}, {**UNION, "tag": "TE-101"}], []),
        ("is silent of words that name none", [WELL_ROW | {"sensor_mounting": "flange"}, {"tag": "TE-101"}], []),
        ("is sound", [WELL_ROW, {"tag": "TE-101"}], []),
    ],
    "thread_not_known": [
        ("fires on words that name no thread for certain", {"instrument_thread": "1/2 BSP"}, ["error TE-101 instrument_thread"]),
        ("fires on the thread of an extension", {**NIPPLE, "extension_thread": "special"}, ["error TE-101 instrument_thread"]),
        ("is silent where the length does not go through it", {**INSERT, "extension_arrangement": "neck tube", "extension_length": "6", "instrument_thread": "1/2 BSP"}, []),
        ("is silent with an installed length under an insert", {**NIPPLE, "nipple_length": "", "installed_length": "3", "extension_thread": "special"}, []),
        ("is sound", [{}, NIPPLE], []),
    ],
    "shoulder_thread_as_taper": [
        ("fires on a parallel thread without a seat plane", {"instrument_thread": "G 1/2"}, ["error TE-101 instrument_thread"]),
        ("fires on the mounting's thread where the well's is not stated", {"sensor_mounting": "SL fitting M20x1.5", "instrument_thread": ""}, ["error TE-101 instrument_thread"]),
        ("is sound with a profile that states it", {"instrument_thread": "G 1/2", "basis": {"profile": {"collar_fitting": {"seat_offset": "2 mm"}}}}, []),
        ("is silent for an insert", {**INSERT, "instrument_thread": "G 1/2"}, []),
        ("is sound for a taper thread", {}, []),
    ],
    "nipple_shorter_than_threads": [
        ("fires on a nipple that its threads swallow", {**NIPPLE, "nipple_length": "1"}, ["error TE-101 nipple_length"]),
        ("warns of a close nipple", {**NIPPLE, "nipple_length": "1.125"}, ["warning TE-101 nipple_length"]),
        ("warns on the limit of 1/16 in", {**NIPPLE, "nipple_length": "1.0625"}, ["warning TE-101 nipple_length"]),
        ("is sound on the limit of 1/4 in", {**NIPPLE, "nipple_length": "1.25"}, []),
        ("is silent with an installed length", {**NIPPLE, "nipple_length": "1", "installed_length": "0.5"}, []),
        ("is sound", NIPPLE, []),
    ],
    "insert_with_nothing_to_press_it": [
        ("fires on an insert in a female well", {**INSERT, "instrument_thread": "1/2 NPT female"}, ["warning TE-101 extension_arrangement"]),
        ("is silent where the gender is not said", INSERT, []),
        ("is sound on a male top", {**INSERT, "instrument_thread": "1/2 NPT male"}, []),
        ("is sound on a nipple", {**NIPPLE, "instrument_thread": "1/2 NPT female"}, []),
    ],
    "installed_shorter_than_union": [
        ("fires on a pipe size in its place", {"extension_arrangement": "nipple and union", "installed_length": "3/4"}, ["error TE-101 installed_length"]),
        ("is sound with what the union alone adds", {"extension_arrangement": "nipple and union", "installed_length": "2"}, []),
        ("needs a union", {"sensor_mounting": "spring-loaded insert", "extension_arrangement": "nipple", "installed_length": "3/4"}, []),
        ("needs an installed length", {"extension_arrangement": "nipple and union", "nipple_length": "4"}, []),
    ],
    "installed_differs_from_parts": [
        ("fires on an installed length far from its nipple's", {**NIPPLE, "installed_length": "5"}, ["warning TE-101 installed_length"]),
        ("fires on a nipple and union alike", {**UNION, "installed_length": "9"}, ["warning TE-101 installed_length"]),
        ("is silent on the limit of 1/2 in", {**NIPPLE, "installed_length": "3.5"}, []),
        ("fires beyond it", {**NIPPLE, "installed_length": "3.6"}, ["warning TE-101 installed_length"]),
        ("leaves the bought length to its own check", {**NIPPLE, "installed_length": "4"}, []),
        ("is silent without a nipple's length", {**NIPPLE, "nipple_length": "", "installed_length": "5"}, []),
        ("is silent without an installed length", NIPPLE, []),
        ("is sound", {**NIPPLE, "installed_length": "3"}, []),
    ],
    "engagement_not_taken_off": [
        ("fires on a bought length given as installed", {**NIPPLE, "installed_length": "4"}, ["warning TE-101 installed_length"]),
        ("fires on a nipple and union alike", {**UNION, "installed_length": "4"}, ["warning TE-101 installed_length"]),
        ("fires on the limit of 1/16 in", {**NIPPLE, "installed_length": "3.9375"}, ["warning TE-101 installed_length"]),
        ("is silent beyond it", {**NIPPLE, "installed_length": "3.9"}, []),
        ("is silent of a length read at the well", {**NIPPLE, "installed_length": "4", "surveyed": ("installed_length",)}, []),
        ("is sound once both ends are taken off", {**NIPPLE, "installed_length": "3"}, []),
        ("is silent where a coupling's length is not known", {**UNION, "extension_arrangement": "nipple and coupling", "installed_length": "4"}, []),
        ("is silent on parallel threads", {**NIPPLE, "instrument_thread": "G 1/2", "installed_length": "4"}, []),
        ("is silent of a pair of nipples", {**NIPPLE, "extension_arrangement": "nipple-union-nipple", "installed_length": "4"}, []),
    ],
    "head_does_not_go_with_sensor": [
        ("fires on a head that is not named", [{**HEADS, "head_type": "Form A"}, {}], ["warning TE-101 head_type"]),
        ("is silent of a head that is named", {**HEADS, "head_type": "form b, aluminium"}, []),
        ("is silent while the profile names none", {"head_type": "Form A"}, []),
        ("is sound", {}, []),
    ],
}  # fmt: skip


@pytest.mark.parametrize(
    "rule,rows,facts",
    [
        pytest.param(rule, rows, facts, id=f"{rule}: {title}")
        for rule, cases in CASES.items()
        for title, rows, facts in cases
    ],
)
def test_a_check_speaks_where_it_should_and_nowhere_else(
    speak: Callable[..., list[str]], rule: str, rows: Any, facts: list[str]
) -> None:
    assert speak(rule, rows) == facts


@pytest.mark.parametrize(
    "change,expected",
    [
        ({**NIPPLE, "extension_thread": "G 1/2"}, "spring-loaded insert, extension nipple; thread of the well 1/2 NPT; thread of the extension G 1/2; G on NPT"),
        ({**NIPPLE, "extension_thread": "3/4 NPT"}, "spring-loaded insert, extension nipple; thread of the well 1/2 NPT; thread of the extension 3/4 NPT; sizes differ"),
        ({"instrument_thread": "1/2 NPT male"}, "spring-loaded fitting, extension none; thread of the well 1/2 NPT male; male on male: the well's top is male and so is what is screwed onto it"),
        ({**INSERT, "extension_arrangement": "nipple and union", "nipple_length": "4"}, "spring-loaded insert, extension nipple and union; thread of the well 1/2 NPT; a head on a female end"),
    ],
)  # fmt: skip
def test_a_clash_says_why(findings: Callable[..., list[Finding]], change: dict[str, Any], expected: str) -> None:
    said = [one.found for one in findings(change) if one.rule == "threads_do_not_mate"]

    assert said == [expected]


def test_a_copied_length_is_told_what_the_nipple_adds(findings: Callable[..., list[Finding]]) -> None:
    said = [
        one.expected for one in findings({**NIPPLE, "installed_length": "4"}) if one.rule == "engagement_not_taken_off"
    ]

    assert said == ["about 3 in once both ends of the nipple are screwed in"]


@pytest.mark.parametrize(
    "change,said",
    [
        ({"extension_arrangement": "nipple", "nipple_length": "1"}, ["error TE-101 fitting_onto_bare_nipple"]),
        ({"instrument_thread": "1/2 BSP"}, ["error TE-101 thread_not_known"]),
        ({**NIPPLE, "installed_length": "4"}, ["warning TE-101 engagement_not_taken_off"]),
    ],
)
def test_an_assembly_is_told_its_cause_once(
    voices: Callable[..., list[str]], change: dict[str, Any], said: list[str]
) -> None:
    assert voices(change) == said
