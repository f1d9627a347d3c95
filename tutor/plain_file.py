"""Opens and reads files that anybody may have put there: only plain ones, and never without end.

A pipe keeps whoever opens it waiting, and a device may give bytes for ever or do something. So both are
refused before they are opened. The module lies below all packages, since several read such files.
"""

from __future__ import annotations

import errno
import os
from pathlib import Path
from stat import S_ISDIR, S_ISREG
from typing import BinaryIO

NOT_A_FILE = "it is a pipe, a socket or a device"
"""What is wrong with it, in words that follow a colon."""


def refuse_odd(path: Path) -> None:
    """Raise OSError for a pipe, a socket or a device, and for links that lead in a circle.

    What is not there, or is a folder, is none of this function's business.
    """
    try:
        mode = path.stat().st_mode
    except FileNotFoundError:
        return
    if not S_ISREG(mode) and not S_ISDIR(mode):
        raise OSError(errno.EINVAL, NOT_A_FILE, str(path))


def is_plain(path: Path) -> bool:
    """Whether a plain file can be seen; unlike Path.is_file, no where its folder may not be looked into."""
    try:
        return path.is_file()
    except OSError:
        return False


def open_plain(path: Path) -> BinaryIO:
    """A file opened for reading. Raises OSError for what is none, without waiting."""
    refuse_odd(path)
    return open(path, "rb", opener=_without_waiting)


def read_plain(path: Path, most: int) -> bytes:
    """The first bytes of a file, at most so many. Raises OSError for what is none, without waiting."""
    with open_plain(path) as file:
        return file.read(most)


def _without_waiting(path: str, flags: int) -> int:
    """Opens a file; if a pipe has taken its place just now, not even that makes it wait."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))
