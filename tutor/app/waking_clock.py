"""The session's clock: it stands still while the machine sleeps.

Some systems count the seconds of sleep in the clocks that programs measure by, Windows among them. The window
asks for the time many times a second, so a long gap between two answers is sleep, or a program that was
stopped: nobody practised.
"""

from __future__ import annotations

import time
from collections.abc import Callable

LONGEST_GAP = 5.0
"""Seconds that a frame or a thread that is held up may take; no more of a gap counts."""


class WakingClock:
    """Seconds that only move forward, without those in which nobody asked for them."""

    def __init__(self, source: Callable[[], float] = time.perf_counter) -> None:
        self._source = source
        self._last, self._away = source(), 0.0

    def __call__(self) -> float:
        """The time now."""
        now = self._source()
        if now - self._last > LONGEST_GAP:
            self._away += now - self._last
        self._last = now
        return now - self._away
