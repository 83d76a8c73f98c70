"""Notes and conversations read."""

from thermowell_index.ooxml import Package, notes_of


def test_a_note_is_read_with_its_cell(client: Package) -> None:
    assert notes_of(client, client.sheets[0].name) == {(8, 1): "Client's own note"}
    assert [notes_of(client, sheet.name) for sheet in client.sheets[1:2]] == [{}]
