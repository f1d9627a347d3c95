"""What the window and its opening ask of any system, and the choice of the one at hand.

A system that needs more than the library gives has a module of its own beside this one, with a subclass that
overrides what it needs. That module alone speaks to the system.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import AbstractContextManager, nullcontext
from functools import cache
from typing import Any

from render import words
from tutor.ui.inputs import Modifier


class System:
    """A system that needs nothing more, as Linux. ``window`` is the library's everywhere."""

    name = words.LINUX
    """Python's name of the system, by which remedies are chosen."""
    draws_without_display = True
    """Whether the library can draw where there is no display (with EGL)."""
    needs_shadow = False
    """Whether the library needs its hidden window to ask for an OpenGL version."""
    writes_first = False
    """Whether a key tells what it writes before it tells that it is pressed."""
    sizes_in_points = False
    """Whether the library takes sizes of windows and screens in logical px, not in pixels."""

    def importing(self) -> AbstractContextManager[None]:
        """Around the library's import."""
        return nullcontext()

    def introduce(self) -> None:
        """Tell the system which program this is, before there is a window."""

    def draw_only(self) -> None:
        """Tell it that this process makes pictures and shows no window."""

    def join(self, window: Any, end: Callable[[], object]) -> None:
        """See to a window that was opened.

        ``end`` is called when the system ends session or process; the program is gone once it returns.
        """

    def screen_of(self, window: Any) -> Any:
        """The screen that the window is on."""
        return window.screen

    def fill_screen(self, window: Any, full: bool) -> None:
        """Fill the screen or go back to the size before."""
        if full:
            # The library goes back to the size that was asked for, cut to whole pixels.
            asked = [(side + 0.5) / window.scale for side in window.get_size()]
            window._requested_width, window._requested_height = asked
        window.set_fullscreen(full, screen=self.screen_of(window))

    def compose(self, window: Any, wanted: bool) -> None:
        """Let the system compose characters of several keys, or keep its hands off them."""

    def held(self, modifiers: Modifier) -> Modifier:
        """The modifiers held down, of which the library tells these."""
        return modifiers

    def writes_with(self, modifiers: Modifier) -> bool:
        """Whether these choose what a key writes (AltGr)."""
        del modifiers
        return False

    def whole(self, text: str) -> str:
        """What was written, once all of it has come."""
        return text


@cache
def system_here() -> System:
    """The system at hand."""
    if sys.platform == "win32":
        from render.system.on_windows import WindowsSystem

        return WindowsSystem()
    if sys.platform == "darwin":
        from render.system.on_mac import MacSystem

        return MacSystem()
    return System()
