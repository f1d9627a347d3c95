"""After Home is shown: importing what lies behind it, in pieces short enough not to hold up a frame.

A start imports only what Home shows. The rest would be imported at the first key; done before, nobody waits.
It is done on the window's own thread, since a thread beside would be waited for at every call of the driver.
"""

from __future__ import annotations

import time
from importlib import import_module

PIECE = 0.008
"""Seconds after which no further module is begun before the next frame."""
BEHIND_HOME = (
    "tutor.cube.repairs",
    "tutor.solver.coordinates",
    "tutor.solver.search",
    "tutor.method.routes",
    "tutor.method.cases",
    "tutor.method.answer",
    "tutor.method.advice",
    "tutor.coach.claims",
    "tutor.coach.change",
    "tutor.coach.slips",
    "tutor.coach.solve_review",
    "tutor.coach.hints",
    "tutor.coach.why",
    "tutor.lesson.scenes",
    "tutor.session.translate",
    "tutor.session.turning",
    "tutor.session.screens",
    "tutor.session.showing",
    "tutor.session.painting.brush",
    "tutor.session.views.parts",
    "tutor.session.views.looking",
    "tutor.session.views.viewing",
    "tutor.session.update",
    "tutor.lesson.reading",
    "tutor.lesson.assembly",
    "tutor.solver.worker",
)
"""From the ground up, so that no piece brings along much more than itself."""


class Warming:
    """Imports modules one after the other."""

    def __init__(self, modules: tuple[str, ...] = BEHIND_HOME) -> None:
        """Nothing is imported yet."""
        self._left = list(reversed(modules))

    def go_on(self) -> bool:
        """Import a few more; False when there was nothing left to import."""
        if not self._left:
            return False
        end = time.perf_counter() + PIECE
        while self._left:
            import_module(self._left.pop())
            if time.perf_counter() >= end:
                break
        return True
