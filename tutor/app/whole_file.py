"""Small files of the program's own, written whole or not at all: beside their place first, then renamed."""

from __future__ import annotations

import os
from pathlib import Path


def write_whole(path: Path, content: bytes, *, on_disk: bool = True) -> None:
    """Write a file; what was there stays until all of the new is. Its folder is made if need be.

    ``on_disk`` waits until the disk has it, for what must outlast a loss of power. Raises OSError when the
    system refuses; then nothing is left beside.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_suffix(f".{os.getpid()}.new")
    try:
        with beside.open("wb") as file:
            file.write(content)
            if on_disk:
                file.flush()
                os.fsync(file.fileno())
        beside.replace(path)
    finally:
        beside.unlink(missing_ok=True)
