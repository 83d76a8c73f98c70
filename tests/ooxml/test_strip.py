"""What is written can be taken back, byte for byte where it matters."""

from pathlib import Path

import pytest

from thermowell_index.ooxml import Package, SheetEdit, strip, write_copy

AUTHOR = "index check"
KEEPERS = {"Kept looks": {(1, 1): ("Index", (8, 3)), (2, 1): ("Index", (9, 12))}}


@pytest.fixture
def written(client: Package, edit: SheetEdit, new_sheets: bytes, tmp_path: Path) -> Package:
    target = tmp_path / "index_checked.xlsx"
    write_copy(
        client,
        target,
        edits={"Index": edit},
        new_sheets=new_sheets,
        marks={"_check_columns": "Index!$H$7:$I$25"},
        author=AUTHOR,
        style_keepers=KEEPERS,
    )
    return Package.open(target)


def stripped(written: Package, client: Package, edit: SheetEdit) -> Package:
    before = client.read("Index").rows
    kept = written.read("Kept looks").rows
    styles = {address: before.get(address[0], {}).get(address[1]) for address in edit.fills}
    restore = {address: 0 if cell is None else cell.style for address, cell in styles.items()}
    restore[8, 3] = kept[1][1].style
    data = strip(
        written,
        sheets=["Discrepancies", "Kept looks"],
        columns={"Index": (8, 9)},
        marks=["_check_columns"],
        author=AUTHOR,
        restore={"Index": restore},
    )
    return Package.from_bytes(data, client.path)


def test_what_was_written_is_taken_back_byte_for_byte(written: Package, client: Package, edit: SheetEdit) -> None:
    back = stripped(written, client, edit)
    assert [sheet.name for sheet in back.sheets] == [sheet.name for sheet in client.sheets]
    assert set(back.part_names) == set(client.part_names)
    differing = {name for name in client.part_names if back.part(name) != client.part(name)}
    assert differing == {"xl/styles.xml"}
    assert back.defined_names == client.defined_names
