"""Which small pictures of cubes are kept on one large picture, and where; the drawing is done elsewhere."""

from __future__ import annotations

from msgspec import Struct

from tutor.ui.view import Look, Stage

ACROSS = 8
"""Small pictures that lie side by side. No screen shows more at once than the 41 cases, and some are kept."""
LARGEST = 4096
"""The most pixels each way of what holds them all; drivers allow 8192 and more (common practice)."""

_Key = tuple[Stage, str, str, bool, tuple[int, ...]]


class WantedPicture(Struct, frozen=True):
    """A picture to be drawn: what it shows and where it goes, from the upper left corner of the large one."""

    stage: Stage
    look: Look
    column: int
    row: int
    size: int


class Gallery:
    """Square places of one size; the picture that was not asked for the longest gives way."""

    def __init__(self) -> None:
        """An empty one."""
        self.wanted: list[WantedPicture] = []
        """To be drawn before the next frame."""
        self.side = 0
        """Pixels each way of the picture that holds them all."""
        self._size = 0
        self._spots: dict[_Key, tuple[int, int]] = {}
        self._free: list[tuple[int, int]] = []

    def spot(self, stage: Stage, look: Look, size: int) -> tuple[int, int]:
        """Column and row of the picture of ``stage``, ``size`` pixels each way; wanted if it is not there."""
        size = min(size, LARGEST)
        if size != self._size:
            self._size = size
            self.side = size * min(ACROSS, LARGEST // size)
            self._spots.clear()
            self.wanted.clear()
            steps = range(0, self.side, size)
            self._free = [(column, row) for row in reversed(steps) for column in reversed(steps)]
        key = (stage, look.theme, look.palette, look.letters, look.arrangement)
        place = self._spots.pop(key, None)
        if place is None:
            place = self._free.pop() if self._free else self._spots.pop(next(iter(self._spots)))
            self.wanted = [each for each in self.wanted if (each.column, each.row) != place]
            self.wanted.append(WantedPicture(stage, look, *place, size))
        self._spots[key] = place
        return place
