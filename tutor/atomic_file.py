"""Files written whole or not at all: beside their place first, then renamed.

Every file of the program that must never be seen half written goes through here. The module lies below all
packages, since the solver, the progress file, what is published and the application write such files.

Windows neither replaces nor removes a file that somebody has open, be it a scanner for a moment or a second
window for hours. So both are tried for a while there, and what is only tidying up may fail.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from stat import S_IMODE
from time import monotonic, sleep
from typing import TypeVar

T = TypeVar("T")

HELD_WHILE_OPEN = os.name == "nt"
"""Whether a file that is open or mapped can be neither replaced nor removed on this system."""
PATIENCE, PAUSE = 0.5, 0.02
"""Seconds for which a file is tried that is held, and between two tries."""
_HELD = (5, 32, 33)
"""Windows' numbers for what somebody holds: access denied, sharing violation, lock violation (winerror.h).
Faults of other systems have none."""


def patiently(act: Callable[[], T]) -> T:
    """Rename or remove something, again and again for a while where somebody holds it. Raises OSError."""
    end = monotonic() + PATIENCE
    while True:
        try:
            return act()
        except OSError as fault:
            if getattr(fault, "winerror", None) not in _HELD or monotonic() >= end:
                raise
        sleep(PAUSE)


def put_in_place(beside: Path, target: Path) -> None:
    """Let a file that is whole take the place of another. Raises OSError."""
    patiently(lambda: beside.replace(target))


def tidy_away(path: Path) -> None:
    """Remove a file that nobody needs, if that is possible."""
    with suppress(OSError):
        patiently(lambda: path.unlink(missing_ok=True))


@contextmanager
def replacing(path: Path, *, on_disk: bool = False) -> Iterator[Path]:
    """A path to write to; at the end of the block what is there takes the place of ``path``.

    A symbolic link stays, and the file it leads to is replaced; permissions stay too. When the block fails,
    what was there stays as it was and nothing is left beside it. ``on_disk`` waits until the disk has it, for
    what must outlast a loss of power. Raises OSError when the system refuses.
    """
    # Unlike Path.resolve, this does not raise RuntimeError where links lead in a circle.
    target = Path(os.path.realpath(path))
    beside = part_of(target.parent, target.name, os.getpid())
    try:
        yield beside
        # Some file systems know no permissions.
        with suppress(OSError):
            beside.chmod(S_IMODE(target.stat().st_mode))
        if on_disk:
            _flush(beside)
        put_in_place(beside, target)
    finally:
        tidy_away(beside)


def write_whole(path: Path, content: bytes, *, on_disk: bool = True) -> None:
    """Write a file as ``replacing`` does; its folder is made if need be. OSError names this file."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with replacing(path, on_disk=on_disk) as beside:
            beside.write_bytes(content)
    except OSError as error:
        # Told of the file that is wanted, not of the one beside it or of none.
        raise OSError(error.errno, error.strerror, str(path)) from error


@contextmanager
def creating(path: Path) -> Iterator[Path]:
    """A path to write to; at the end of the block what is there is called ``path``, where nothing was.

    When the block fails, nothing is left. Raises FileExistsError when something is there by then, a link that
    leads nowhere too, and OSError when the system refuses.
    """
    beside = part_of(path.parent, path.name, os.getpid())
    try:
        yield beside
        if not _take_name(beside, path):
            raise FileExistsError(f"{path} is there already")
    finally:
        tidy_away(beside)


def write_new(folder: Path, stem: str, suffix: str, write: Callable[[Path], None]) -> Path:
    """Write a file under a name that is free, and tell which: ``stem``, or with a number from 2 on after it.

    ``write`` is given a path beside it; when it fails, nothing is left. The folder is made if need be. Raises
    OSError when the system refuses, and whatever ``write`` raises.
    """
    folder.mkdir(parents=True, exist_ok=True)
    beside = part_of(folder, stem, os.getpid())
    try:
        write(beside)
        names = (stem if number == 1 else f"{stem}-{number}" for number in count(1))
        return next(target for name in names if _take_name(beside, target := folder / f"{name}{suffix}"))
    finally:
        tidy_away(beside)


def part_of(folder: Path, name: str, process: int) -> Path:
    """Where the process of this number writes before the file takes its name."""
    return folder / f".{name}.{process}.part"


def _flush(file: Path) -> None:
    # Windows flushes only what may be written.
    with file.open("r+b") as opened:
        os.fsync(opened.fileno())


def _take_name(beside: Path, target: Path) -> bool:
    """Give a file a name that is free; False when it is not, even if it was taken only just now."""
    if os.path.lexists(target):
        return False
    try:
        target.hardlink_to(beside)
    except FileExistsError:
        return False
    except OSError:
        # Some file systems know no links, so the name may be taken between asking and renaming.
        patiently(lambda: beside.rename(target))
    return True
