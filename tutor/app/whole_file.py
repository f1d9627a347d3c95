"""Small files of the program's own, written whole or not at all: beside their place first, then renamed."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, content: bytes, *, on_disk: bool = True) -> None:
    """Write a file; what was there stays until all of the new is. Its folder is made if need be.

    ``on_disk`` waits until the disk has it, for what must outlast a loss of power. Raises OSError when the
    system refuses, with the file's name; then nothing is left beside.
    """
    beside = path.with_suffix(f".{os.getpid()}.new")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with beside.open("wb") as file:
            file.write(content)
            if on_disk:
                file.flush()
                os.fsync(file.fileno())
        beside.replace(path)
    except OSError as error:
        # Told of the file that is wanted, not of the one beside it or of none.
        raise OSError(error.errno, error.strerror, str(path)) from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
