"""A folder that several windows share: each appends lines to a file of its own, and reads everybody's.

Nothing is locked, and nobody writes to another's file, so the folder may lie on a stick, on a network share
or where a program keeps two machines alike. What is in the folder is known from the folder alone: once it
has been away, or a line could not be written, everything is read anew and the window begins another file.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path
from uuid import uuid4

from msgspec import Struct

from tutor.plain_file import open_plain

LINES = ".jsonl"
"""How the names of files with lines end."""
_BEGINNING = "pairwright-"
LONGEST_LINE = 1_000_000
"""Bytes; an attempt of the most turns has a tenth. What is longer is none of ours."""


class _Read(Struct):
    """How far a file has been read, and which it was: a synced file is put in place of the one before."""

    identity: tuple[int, int]
    offset: int = 0
    left: bool = False
    """Whether nothing more of it is read."""


class SharedFolder:
    """The files of lines in one folder, seen from one window. Use it from one thread at a time."""

    def __init__(self, folder: Path) -> None:
        """Nothing is read or written yet; the folder is never made."""
        self.folder = folder
        self.unreadable = 0
        """Lines so far that are too long to be anybody's."""
        self._read: dict[str, _Read] = {}
        self._listed: list[tuple[str, os.stat_result]] = []
        self._own = name_for_a_window(LINES)
        self._written = 0
        self._torn = False

    def begin_anew(self) -> None:
        """Read everything with the next ``news``, what was written too, and write to another file then."""
        self._read.clear()
        self.unreadable = 0
        if self._written or self._torn:
            self._own, self._written, self._torn = name_for_a_window(LINES), 0, False

    def is_as_left(self) -> bool:
        """Look at the folder: whether all that was read and written is there. OSError when it is away."""
        self._listed = files_of_windows(self.folder, LINES)
        sizes = {name: status.st_size for name, status in self._listed}
        self._torn |= sizes.get(self._own, 0) != self._written
        read = (sizes.get(name, -1) >= known.offset for name, known in self._read.items())
        return not self._torn and all(read)

    def news(self) -> Iterator[bytes]:
        """The whole lines that had come when the folder was looked at last, of all windows but this.

        They are without their ends. A line that is still being written comes with a later call. Raises
        OSError.
        """
        for name, status in self._listed:
            if name == self._own:
                continue
            identity = status.st_dev, status.st_ino
            known = self._read.get(name)
            if known is None or known.identity != identity or status.st_size < known.offset:
                known = self._read[name] = _Read(identity)
            if status.st_size > known.offset and not known.left:
                yield from self._lines_from(name, known)

    def append(self, lines: Sequence[str]) -> None:
        """Write lines at the end of this window's file; they are on the disk then. Raises OSError."""
        content = "".join(f"{line}\n" for line in lines).encode("utf-8")
        with (self.folder / self._own).open("ab") as file:
            self._torn = True
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        self._written += len(content)
        self._torn = False

    def _lines_from(self, name: str, known: _Read) -> Iterator[bytes]:
        with open_plain(self.folder / name) as file:
            file.seek(known.offset)
            while (line := file.readline(LONGEST_LINE)).endswith(b"\n"):
                known.offset += len(line)
                yield line[:-1]
            if len(line) == LONGEST_LINE:
                known.left = True
                self.unreadable += 1


def name_for_a_window(ending: str) -> str:
    """A name for a window's file that no other window has."""
    return f"{_BEGINNING}{uuid4().hex[:12]}{ending}"


def files_of_windows(folder: Path, ending: str) -> list[tuple[str, os.stat_result]]:
    """The windows' files with this ending, by their names. Raises OSError when the folder is away.

    Only regular files count, since anything else may never end. Each is asked for what it is like: on Windows
    an entry of a folder tells an old size of a file that is written, and not which file it is.
    """
    with os.scandir(folder) as entries:
        ours = [each for each in entries if each.name.startswith(_BEGINNING) and each.name.endswith(ending)]
        regular = [each for each in ours if each.is_file(follow_symlinks=False)]
        found = [(each.name, (folder / each.name).lstat()) for each in regular]
    return sorted(found, key=lambda each: each[0])
