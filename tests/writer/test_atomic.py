"""Files that are there whole or not at all."""

from pathlib import Path

import pytest

from thermowell_index.errors import OutputError
from thermowell_index.writer.atomic import write_atomically


def test_a_file_is_replaced_as_a_whole(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    path.write_text("old")
    write_atomically(path, b"new")
    assert path.read_bytes() == b"new"


def test_a_target_that_cannot_be_replaced_leaves_nothing_behind(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    (path / "inside").mkdir(parents=True)
    with pytest.raises(OutputError, match="may be open in another program"):
        write_atomically(path, b"new")
    assert [entry.name for entry in tmp_path.iterdir()] == ["a.json"]
