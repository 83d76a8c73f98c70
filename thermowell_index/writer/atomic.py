"""Files that are there whole or not at all."""

import os
import tempfile
from pathlib import Path

from thermowell_index.errors import OutputError


def write_atomically(path: Path, data: bytes) -> None:
    """Write a file by way of a temporary one beside it.

    Raises
    ------
    OutputError
        The folder is missing or closed to us, or the file is open in another program.

    """
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    except OSError as exc:
        raise OutputError(f"{path}: cannot write there: {exc.strerror}") from exc
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        temporary.chmod(0o644)
        temporary.replace(path)
    except OSError as exc:
        raise OutputError(f"{path}: cannot be written, it may be open in another program: {exc.strerror}") from exc
    finally:
        temporary.unlink(missing_ok=True)
