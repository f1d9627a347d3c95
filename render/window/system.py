"""What the window asks of the system beside the library: a usual system, and the choice of the one at hand.

Each system that needs more has a module of its own, ``on_windows`` for one, which alone calls its libraries.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any

LEAST_SIZE = 960, 640
"""What a layout has at least, in logical px, wherever the screen has so much."""
ROOM = 0.95, 0.9
"""The part of a screen that a window may take: bars of the system have the rest."""
NEEDS_SHADOW = sys.platform == "win32"
"""Whether the library needs its hidden window to ask for an OpenGL version: there only a context that exists
can say which others there are."""


class System:
    """A system that needs nothing more."""

    def writes_with(self, control: bool) -> bool:
        """Whether the keys held down, ``control`` among them or not, choose what a key writes (AltGr)."""
        del control
        return False

    def compose(self, wanted: bool) -> None:
        """Let the system compose characters of several keys, or keep its hands off them."""

    def hear_of_the_end(self, end: Callable[[], object]) -> None:
        """Have ``end`` called when the system ends the session; the program is gone when it returns."""

    def screen_of(self, window: Any) -> Any:
        """The screen that the window is on."""
        return window.screen


def system_of(window: Any) -> System:
    """What is special here about a window of the library's."""
    if sys.platform == "win32":
        from render.window.on_windows import WindowsSystem, real_calls

        return WindowsSystem(real_calls(), window)
    del window
    return System()


def least_size(screen: tuple[float, float], scale: float) -> tuple[int, int]:
    """The least size of a window in pixels, on a screen of this many: never larger than fits on it."""
    across, down = (
        min(least * scale, part * side) for least, part, side in zip(LEAST_SIZE, ROOM, screen, strict=True)
    )
    return round(across), round(down)
