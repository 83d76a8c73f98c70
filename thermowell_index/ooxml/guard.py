"""What is looked at before anything of a package is inflated."""

import hashlib
import zipfile
import zlib
from io import BytesIO
from pathlib import Path

from thermowell_index.errors import WorkbookError

OLE_MAGIC = bytes.fromhex("D0CF11E0A1B11AE1")
LARGEST_PART = 1 << 29  # bytes; 20,000 rows x 40 columns measured 36 MB, so about 300,000 such rows
LARGEST_PACKAGE = 1 << 31  # bytes
SMALL_PART = 1 << 24  # bytes; below it the ratio is not looked at
LARGEST_RATIO = 200  # honest sheets measured inflate 5 to 17 times, hostile ones over 400
_METHODS = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}
_ENCRYPTED = 0x1


def read_file(path: Path) -> bytes:
    """All bytes of the input.

    Raises
    ------
    WorkbookError
        When it cannot be read.
    """
    try:
        return path.read_bytes()
    except OSError as error:
        raise WorkbookError(f"{path}: cannot be read ({error.strerror or error})") from error


def open_package(data: bytes, path: Path) -> zipfile.ZipFile:
    """Open a package whose members are safe to inflate.

    Raises
    ------
    WorkbookError
        When it is no package, is encrypted, or looks made to do harm.
    """
    if data.startswith(OLE_MAGIC):
        raise WorkbookError(f"{path}: is encrypted or old .xls; save it as an .xlsx workbook without a password")
    try:
        archive = zipfile.ZipFile(BytesIO(data))
    except (zipfile.BadZipFile, ValueError, NotImplementedError) as error:
        raise WorkbookError(f"{path}: is not an .xlsx workbook ({error})") from error
    _check_names(archive.infolist(), path)
    for info in archive.infolist():
        _check_member(info, path)
    if sum(info.file_size for info in archive.infolist()) > LARGEST_PACKAGE:
        raise WorkbookError(f"{path}: would inflate to more than {LARGEST_PACKAGE >> 20} MB; not read")
    return archive


def _check_names(members: list[zipfile.ZipInfo], path: Path) -> None:
    seen: set[str] = set()
    for info in members:
        name = info.orig_filename
        if name.lower() in seen:
            raise WorkbookError(f"{path}: holds the part {name!r} twice; not read")
        seen.add(name.lower())
        if name.startswith("/") or "\\" in name or "\0" in name or ".." in name.split("/"):
            raise WorkbookError(f"{path}: holds a part with the unsafe name {name!r}; not read")


def _check_member(info: zipfile.ZipInfo, path: Path) -> None:
    if info.flag_bits & _ENCRYPTED:
        raise WorkbookError(f"{path}: the part {info.filename!r} is encrypted")
    if info.compress_type not in _METHODS:
        raise WorkbookError(f"{path}: the part {info.filename!r} is compressed in an unknown way")
    too_dense = info.file_size > SMALL_PART and info.file_size > LARGEST_RATIO * max(info.compress_size, 1)
    if info.file_size > LARGEST_PART or too_dense:
        raise WorkbookError(
            f"{path}: the part {info.filename!r} inflates too far ({info.file_size >> 20} MB); not read"
        )


def read_member(archive: zipfile.ZipFile, name: str, path: Path) -> bytes:
    """Inflate one part.

    Raises
    ------
    WorkbookError
        When its bytes are damaged.
    """
    try:
        return archive.read(name)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError) as error:
        raise WorkbookError(f"{path}: the part {name!r} is damaged ({error})") from error


def digest(data: bytes) -> str:
    """SHA-256 of the input, as hexadecimal text."""
    return hashlib.sha256(data).hexdigest()
