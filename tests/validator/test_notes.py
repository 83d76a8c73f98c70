"""What the notes above a table say of its bore depths."""

from collections.abc import Callable, Sequence
from typing import Any

import pytest

MEASURED = {"measured_bore_depth": "9"}
NIPPLE = {
    "sensor_mounting": "spring-loaded insert",
    "extension_arrangement": "nipple",
    "nipple_length": "4",
    "probe_length": "12",
}

CASES: dict[str, Sequence[tuple[str, Any, list[str]]]] = {
    "note_doubts_bore_depths": [
        ("fires on depths that are preliminary", {"notes": "Bore depths in this list are preliminary"}, ["warning TE-101 bore_depth"]),
        ("is silent where the bore was measured", MEASURED | {"notes": "Bore depths to be confirmed at site"}, []),
        ("is silent on other things to confirm", {"notes": "All tags to be confirmed"}, []),
        ("is silent without notes", {"notes": ""}, []),
    ],
    "note_denies_bore_depths": [
        ("fires on a note that counts from the flange", {"notes": "Bore depths measured from the flange face"}, ["error TE-101 bore_depth"]),
        ("fires on depths from the pipe", {"notes": "Depths are taken from outside of pipe"}, ["error TE-101 bore_depth"]),
        ("leaves a remark on the row's own extension to its own check", NIPPLE | {"remarks": "bore depth incl. nipple"}, []),
        ("fires on such a remark where no column tells of an extension", {"extension_arrangement": None, "remarks": "bore depth incl. nipple"}, ["error TE-101 bore_depth"]),
        ("fires on a remark that the depth holds the nozzle", {"remarks": "bore depth incl. nozzle"}, ["error TE-101 bore_depth"]),
        ("fires on depths that hold the extension", NIPPLE | {"notes": "List of wells ; NOTE: bore depths include the extension"}, ["error TE-101 bore_depth"]),
        ("is silent on these where there is none", {"notes": "NOTE: bore depths include the extension"}, []),
        ("is silent where another length counts from the flange", {"notes": "Bore depth from open end to bottom, insertion from flange face"}, []),
        ("is silent on a title that names what it lists", NIPPLE | {"notes": "List of bore depths, tips and extensions with nipples"}, []),
        ("is silent on depths from the open end", {"notes": "Bore depths from open end of well to bottom of bore"}, []),
        ("is silent where the depth is from the overall length", {"bore_depth": "", "notes": "Bore depths measured from flange face"}, []),
        ("is silent without notes", {"notes": ""}, []),
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
