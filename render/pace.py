"""Whether there is time to draw what moves with several samples a pixel."""

from __future__ import annotations

from collections import deque

BUDGET = 0.015
"""Seconds that a frame may take so that sixty fit into a second, with a little left for everything else."""
FRAMES = 8
"""So many frames are looked at; the middle one of them counts, so that a single hitch does not."""


class Pace:
    """Watches how long smooth frames take. Once they prove too slow, what moves is drawn roughly."""

    def __init__(self) -> None:
        """At first there is time."""
        self.fits = True
        self._taken: deque[float] = deque(maxlen=FRAMES)

    def took(self, seconds: float) -> None:
        """A smooth frame, while something moved, took so long."""
        self._taken.append(seconds)
        if len(self._taken) == FRAMES and sorted(self._taken)[FRAMES // 2] > BUDGET:
            self.fits = False

    def afresh(self) -> None:
        """The window has another size: judge anew."""
        self.fits = True
        self._taken.clear()
