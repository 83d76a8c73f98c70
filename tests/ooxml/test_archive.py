"""Packages as bytes."""

import zipfile
from io import BytesIO

import pytest

from thermowell_index.errors import OutputError
from thermowell_index.ooxml import archive
from thermowell_index.ooxml.archive import ArchiveWriter


def source() -> tuple[bytes, list[zipfile.ZipInfo]]:
    buffer = BytesIO()
    with zipfile.ZipFile(buffer, "w") as file:
        for name, kind in (("stored.png", zipfile.ZIP_STORED), ("Zeichnung µ.xml", zipfile.ZIP_DEFLATED)):
            info = zipfile.ZipInfo(name, (2024, 2, 29, 13, 59, 58))
            info.compress_type = kind
            info.extra = b"\x99\x99\x02\x00ab"
            file.writestr(info, f"{name} {'x' * 500}")
    data = buffer.getvalue()
    with zipfile.ZipFile(BytesIO(data)) as file:
        return data, file.infolist()


def test_a_copied_member_keeps_its_compressed_bytes() -> None:
    data, members = source()
    writer = ArchiveWriter()
    for member in members:
        writer.copy(data, member)
    copy = writer.finish()
    with zipfile.ZipFile(BytesIO(copy)) as file, zipfile.ZipFile(BytesIO(data)) as original:
        assert file.testzip() is None
        for before, after in zip(original.infolist(), file.infolist(), strict=True):
            assert (after.filename, after.date_time, after.compress_type, after.CRC) == (
                before.filename,
                before.date_time,
                before.compress_type,
                before.CRC,
            )
            assert file.read(after) == original.read(before)


def test_a_streamed_member_is_copied(tmp_path_factory: pytest.TempPathFactory) -> None:
    path = tmp_path_factory.mktemp("archive") / "streamed.zip"

    class OneWay(BytesIO):
        def seekable(self) -> bool:
            return False

        def seek(self, *_: int) -> int:
            raise OSError

        def tell(self) -> int:
            raise OSError

    buffer = OneWay()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as file:
        file.writestr("a.xml", "<a/>" * 100)
    path.write_bytes(buffer.getvalue())
    with zipfile.ZipFile(path) as file:
        [info] = file.infolist()
    writer = ArchiveWriter()
    writer.copy(path.read_bytes(), info)
    with zipfile.ZipFile(BytesIO(writer.finish())) as file:
        assert file.read("a.xml") == b"<a/>" * 100


def test_the_same_members_give_the_same_bytes() -> None:
    made = []
    for _ in range(2):
        writer = ArchiveWriter()
        writer.write("xl/a.xml", b"<a/>" * 1000)
        made.append(writer.finish())
    assert made[0] == made[1]
    with zipfile.ZipFile(BytesIO(made[0])) as file:
        assert file.read("xl/a.xml") == b"<a/>" * 1000
        assert file.getinfo("xl/a.xml").date_time == (1980, 1, 1, 0, 0, 0)


def test_a_package_beyond_the_format_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(archive, "_MOST_MEMBERS", 0)
    writer = ArchiveWriter()
    writer.write("a", b"")
    with pytest.raises(OutputError, match="larger than the file format allows"):
        writer.finish()
