from pathlib import Path

import pytest

from thermowell_index.column_map import read_column_map
from thermowell_index.errors import SettingsError
from thermowell_index.heading_map import MappedHeading


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "map.toml"


def test_headings_letters_lists_and_units_are_read(path: Path) -> None:
    path.write_text(
        """
        ["every sheet"]
        tag = "Tag  No."
        service = ""
        [Index]
        bore_depth = {heading = "Depth", unit = "inches"}
        tip_thickness = {heading = "column F"}
        overall_length = ["O/A", "column G"]
        ignore = ["Vendor", "column H"]
        """,
        encoding="utf-8",
    )
    assert read_column_map(path) == {
        "*": {"tag": MappedHeading(headings=("Tag No.",))},
        "Index": {
            "bore_depth": MappedHeading(headings=("Depth",), unit="in"),
            "tip_thickness": MappedHeading(headings=("column F",)),
            "overall_length": MappedHeading(headings=("O/A", "column G")),
            "ignore": MappedHeading(headings=("Vendor", "column H")),
        },
    }


def test_all_that_is_wrong_stands_in_one_line(path: Path) -> None:
    path.write_text(
        """
        title = "x"
        [Index]
        bore = "Depth"
        bore_depth = 9
        tip_thickness = {heading = "Tip", unit = "parsec", colour = "red"}
        tag = {heading = "Tag", unit = "mm"}
        overall_length = {unit = "mm"}
        ignore = {heading = "x"}
        """,
        encoding="utf-8",
    )
    with pytest.raises(SettingsError) as failure:
        read_column_map(path)
    said = str(failure.value)
    assert "\n" not in said
    for wrong in (
        "title: is not a section with a sheet's name",
        "Index.bore: no such field",
        "Index.bore_depth: 9 is not a heading in quotes, nor a list of them",
        "Index.tip_thickness.colour: no such key; heading and unit are known",
        "Index.tip_thickness.unit: 'parsec' is no unit of length; write in, mm, cm, m or ft",
        "Index.tag.unit: tag is no length",
        "Index.overall_length: has no heading",
        "Index.ignore: {'heading': 'x'} is not a heading in quotes, nor a list of them",
    ):
        assert wrong in said


@pytest.mark.parametrize("data", [b"tag = ", b"\xff\xfe"])
def test_a_file_that_cannot_be_read_is_said(path: Path, data: bytes) -> None:
    path.write_bytes(data)
    with pytest.raises(SettingsError, match="cannot read the heading map"):
        read_column_map(path)


def test_a_file_that_is_not_there_is_said(path: Path) -> None:
    with pytest.raises(SettingsError, match=r"map\.toml: cannot read the heading map"):
        read_column_map(path)
