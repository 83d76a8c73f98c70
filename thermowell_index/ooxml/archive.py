"""Writes a package; members that were not edited are copied as they were compressed, without being inflated."""

import struct
import zlib
from zipfile import ZIP_DEFLATED, ZipInfo

from thermowell_index.errors import OutputError

_LOCAL = struct.Struct("<4s5H3L2H")
_CENTRAL = struct.Struct("<4s4B4H3L5H2L")
_END = struct.Struct("<4s4H2LH")
_UTF_8 = 0x800
_VERSION = 20  # of the format: a deflated member
_UNIX = 3
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # fixed, so that the same input gives the same bytes
_REGULAR_FILE = 0o600 << 16
_LARGEST = 0xFFFFFFFF
_MOST_MEMBERS = 0xFFFF


class ArchiveWriter:
    """Gathers members, then gives the bytes of the package."""

    def __init__(self) -> None:
        self._chunks: list[bytes] = []
        self._offset = 0
        self._directory: list[tuple[ZipInfo, int]] = []

    def copy(self, source: bytes, info: ZipInfo) -> None:
        """Take a member of another package over as it is, with its time stamp."""
        header = _LOCAL.unpack_from(source, info.header_offset)
        start = info.header_offset + _LOCAL.size + header[-2] + header[-1]
        self._add(info, source[start : start + info.compress_size])

    def write(self, name: str, data: bytes) -> None:
        """Add a member."""
        info = ZipInfo(name, _FIRST_DAY)
        info.compress_type = ZIP_DEFLATED
        info.create_system = _UNIX
        info.external_attr = _REGULAR_FILE
        info.CRC = zlib.crc32(data)
        info.file_size = len(data)
        deflate = zlib.compressobj(6, zlib.DEFLATED, -zlib.MAX_WBITS)
        compressed = deflate.compress(data) + deflate.flush()
        info.compress_size = len(compressed)
        self._add(info, compressed)

    def finish(self) -> bytes:
        """Bytes of the whole package.

        Raises
        ------
        OutputError
            When it is larger than the format allows.
        """
        start = self._offset
        for info, offset in self._directory:
            self._append(_central_header(info, offset) + _encoded_name(info)[0])
        count = len(self._directory)
        if self._offset > _LARGEST or count > _MOST_MEMBERS:
            raise OutputError("the workbook would be larger than the file format allows")
        self._append(_END.pack(b"PK\x05\x06", 0, 0, count, count, self._offset - start, start, 0))
        return b"".join(self._chunks)

    def _add(self, info: ZipInfo, compressed: bytes) -> None:
        self._directory.append((info, self._offset))
        name, flags = _encoded_name(info)
        header = _LOCAL.pack(
            b"PK\x03\x04",
            _VERSION,
            flags,
            info.compress_type,
            _dos_time(info),
            _dos_date(info),
            info.CRC,
            info.compress_size,
            info.file_size,
            len(name),
            0,
        )
        self._append(header + name)
        self._append(compressed)

    def _append(self, chunk: bytes) -> None:
        self._chunks.append(chunk)
        self._offset += len(chunk)


def _central_header(info: ZipInfo, offset: int) -> bytes:
    name, flags = _encoded_name(info)
    return _CENTRAL.pack(
        b"PK\x01\x02",
        _VERSION,
        info.create_system,
        _VERSION,
        0,
        flags,
        info.compress_type,
        _dos_time(info),
        _dos_date(info),
        info.CRC,
        info.compress_size,
        info.file_size,
        len(name),
        0,
        0,
        0,
        info.internal_attr,
        info.external_attr,
        offset,
    )


def _encoded_name(info: ZipInfo) -> tuple[bytes, int]:
    """Name as bytes, and the flags that go with it."""
    try:
        return info.filename.encode("ascii"), 0
    except UnicodeEncodeError:
        return info.filename.encode(), _UTF_8


def _dos_date(info: ZipInfo) -> int:
    year, month, day = info.date_time[:3]
    return (year - 1980) << 9 | month << 5 | day


def _dos_time(info: ZipInfo) -> int:
    hour, minute, second = info.date_time[3:]
    return hour << 11 | minute << 5 | second // 2
