"""The picture of Home that the next start shows at once, kept with all that Home depends on.

It is a convenience: one that cannot be read or no longer fits counts as none, and one that cannot be written
is let go.
"""

from __future__ import annotations

import logging
import zlib
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from tutor.atomic_file import write_whole

if TYPE_CHECKING:
    from tutor.ui.view import View

FILE = "first-sight.bin"
LARGEST = 64 * 1024 * 1024
"""Bytes of a picture at most: more than 3840x2160."""
log = logging.getLogger(__name__)


class HomeInSight:
    """Keeps the picture in a folder. ``shown`` are the files that decide what Home looks like.

    ``view`` gives Home as the next start will show it; it is set once there is a session to ask.
    """

    def __init__(self, folder: Path, shown: Callable[[], Iterable[Path]]) -> None:
        self._path, self._shown = folder / FILE, shown
        self._taken: tuple[bytes, bytes] | None = None
        self.view: Callable[[], View | None] = lambda: None

    def kept(self, size: tuple[int, int], ratio: float) -> bytes | None:
        """The picture for a window of this size, if all that Home shows is as it was then."""
        try:
            head, packed = self._path.read_bytes().split(b"\n", 1)
            if head != _measure(size, ratio) + self._stamp():
                return None
            unpacker = zlib.decompressobj()
            pixels = unpacker.decompress(packed, LARGEST)
        except (OSError, ValueError, zlib.error):
            return None
        whole = unpacker.eof and len(pixels) == 3 * size[0] * size[1]
        return pixels if whole else None

    def keep(self, size: tuple[int, int], ratio: float, pixels: bytes) -> None:
        """Hold a picture until ``write``, when all that Home depends on has been written too."""
        self._taken = _measure(size, ratio), pixels

    def write(self) -> None:
        """Write the picture held, beside and then renamed."""
        if self._taken is None:
            return
        measure, pixels = self._taken
        content = measure + self._stamp() + b"\n" + zlib.compress(pixels, 1)
        try:
            write_whole(self._path, content, on_disk=False)
        except OSError as error:
            log.warning("the picture of Home cannot be kept: %s", error)

    def _stamp(self) -> bytes:
        """Changes with every change of the files that Home depends on."""
        return b" %08x" % zlib.crc32(repr([_state(path) for path in self._shown()]).encode())


def _measure(size: tuple[int, int], ratio: float) -> bytes:
    return b"%d %d %.3f" % (*size, ratio)


def _state(path: Path) -> tuple[str, int, int] | None:
    """Name, size and time of the last change; None for a file that is not there."""
    try:
        found = path.stat()
    except OSError:
        return None
    return str(path), found.st_size, found.st_mtime_ns
