"""Pictures that many films share: each is drawn once in a process, and kept pressed together."""

from __future__ import annotations

import zlib

import numpy as np

from tutor.publish.subject import Draw, Ground, Pixels
from tutor.ui.view import Look, Stage

ROOM = 96 << 20
"""Bytes that may be kept: at 480x360, the pictures of most of the 41 cases in one slot."""
_QUICK = 1
"""How hard to press: a picture takes a tenth of the time that it takes to draw."""


class RememberedDrawing:
    """Draws as ``draw`` does, and the same picture once: films of cases have their last turns in common."""

    def __init__(self, draw: Draw, room: int = ROOM) -> None:
        """Nothing is kept yet; what no longer fits in is drawn again."""
        self._draw, self._room = draw, room
        self._kept: dict[tuple[Stage, Look, tuple[int, int], Ground | None], bytes] = {}

    def __call__(self, stage: Stage, look: Look, size: tuple[int, int], ground: Ground | None) -> Pixels:
        """The picture of a stage."""
        key = stage, look, size, ground
        if key in self._kept:
            width, height = size
            pixels = np.frombuffer(zlib.decompress(self._kept[key]), dtype=np.uint8)
            return pixels.reshape(height, width, 4)
        pixels = self._draw(stage, look, size, ground)
        packed = zlib.compress(pixels.tobytes(), _QUICK)
        if len(packed) <= self._room:
            self._kept[key] = packed
            self._room -= len(packed)
        return pixels
