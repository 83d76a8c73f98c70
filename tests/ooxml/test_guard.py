"""Files that are no workbook, or that are made to do harm."""

import struct
import warnings
import zipfile
from io import BytesIO
from pathlib import Path

import pytest

from thermowell_index.errors import WorkbookError
from thermowell_index.ooxml import Package, guard

PATH = Path("index.xlsx")
GOOD = "xl/worksheets/sheet1.xml"


def archive(*members: tuple[str, bytes]) -> bytes:
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as file, warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a name given twice is what is tested
        for name, data in members:
            file.writestr(name, data)
    return buffer.getvalue()


def refusal(data: bytes) -> str:
    with pytest.raises(WorkbookError) as caught:
        Package.from_bytes(data, PATH)
    message = str(caught.value)
    assert message.startswith("index.xlsx: ")
    assert "\n" not in message
    return message


def test_an_encrypted_or_old_workbook_is_named_so() -> None:
    assert "encrypted or old .xls" in refusal(guard.OLE_MAGIC + bytes(512))


@pytest.mark.parametrize("data", [b"", b"Tag,Size\nTE-1,1/2\n", b"<html></html>", b"PK\x03\x04 cut off"])
def test_what_is_no_package_is_refused(data: bytes) -> None:
    assert "not an .xlsx workbook" in refusal(data)


def test_a_truncated_workbook_is_refused(client_bytes: bytes) -> None:
    assert "not an .xlsx workbook" in refusal(client_bytes[: len(client_bytes) // 2])


def test_a_package_without_a_workbook_is_refused() -> None:
    assert "no workbook part" in refusal(archive(("mimetype", b"application/vnd.oasis.opendocument.spreadsheet")))


def test_a_part_that_stands_twice_is_refused() -> None:
    assert "twice" in refusal(archive((GOOD, b"<a/>"), (GOOD, b"<b/>")))
    assert "twice" in refusal(archive((GOOD, b"<a/>"), (GOOD.upper(), b"<b/>")))


@pytest.mark.parametrize("name", ["../evil.txt", "/abs.txt", "xl\\..\\evil.txt", "xl/../../evil.txt"])
def test_an_unsafe_name_is_refused(name: str) -> None:
    assert "unsafe name" in refusal(archive((name, b"x")))


def test_a_part_that_inflates_too_far_is_refused() -> None:
    bomb = archive((GOOD, bytes(guard.SMALL_PART + 1)))
    assert len(bomb) < 50_000
    assert "inflates too far" in refusal(bomb)


def test_a_part_that_is_too_large_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "LARGEST_PART", 10)
    assert "inflates too far" in refusal(archive((GOOD, b"01234567890")))


def test_a_package_that_is_too_large_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "LARGEST_PACKAGE", 15)
    assert "would inflate" in refusal(archive(("a", b"0123456789"), ("b", b"0123456789")))


def test_an_encrypted_member_is_refused() -> None:
    data = bytearray(archive((GOOD, b"<a/>")))
    start = data.rindex(b"PK\x01\x02")
    struct.pack_into("<H", data, start + 8, 1)
    assert "is encrypted" in refusal(bytes(data))


def test_an_unknown_compression_is_refused() -> None:
    data = bytearray(archive((GOOD, b"<a/>")))
    start = data.rindex(b"PK\x01\x02")
    struct.pack_into("<H", data, start + 10, 12)
    assert "unknown way" in refusal(bytes(data))


def test_damaged_bytes_of_a_part_are_named(client_bytes: bytes) -> None:
    with zipfile.ZipFile(BytesIO(client_bytes)) as file:
        info = file.getinfo(GOOD)
    data = bytearray(client_bytes)
    middle = info.header_offset + 30 + len(GOOD) + info.compress_size // 2
    data[middle] ^= 0xFF
    with pytest.raises(WorkbookError, match=r"part 'xl/worksheets/sheet1.xml' is damaged"):
        Package.from_bytes(bytes(data), PATH).read("Index")


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(WorkbookError, match=r"absent.xlsx: cannot be read \(No such file"):
        Package.open(tmp_path / "absent.xlsx")


def test_a_folder_is_no_workbook(tmp_path: Path) -> None:
    with pytest.raises(WorkbookError, match="cannot be read"):
        Package.open(tmp_path)
