"""The address of a database file, and whether it lies on another machine."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import PurePath

_REMOTE = 4
"""What Windows says of a drive that another machine lends: DRIVE_REMOTE (fileapi.h, GetDriveTypeW)."""


def file_address(path: PurePath) -> str:
    """An absolute path as an address for SQLite, which takes no other machine's name between two slashes and
    the path: of one, all is the path (sqlite.org/uri.html, section 3.1)."""
    address = path.as_uri()
    return address if address.startswith("file:///") else address.replace("file://", "file:////", 1)


def _drive_type(root: str) -> int:
    if sys.platform != "win32":
        return 0
    import ctypes

    return int(ctypes.WinDLL("kernel32").GetDriveTypeW(ctypes.c_wchar_p(root)))


def is_elsewhere(path: PurePath, drive_type: Callable[[str], int] = _drive_type) -> bool:
    """Whether Windows has an absolute path on another machine.

    SQLite's write-ahead log needs memory that all its users share, so they must be on one machine
    (sqlite.org/wal.html, section 1).
    """
    return path.drive.startswith("\\\\") or (bool(path.drive) and drive_type(path.anchor) == _REMOTE)
