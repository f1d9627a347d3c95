"""What only macOS needs: its application and windows, which are Cocoa's.

What is relied on of the library is in pyglet 2.1: app/cocoa.py, window/cocoa, display/cocoa.py. This module
alone speaks to Objective-C, and imports the bridge to it only when it is used.
"""

from __future__ import annotations

import logging
import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from importlib import import_module
from typing import Any

from render import words
from render.system.system import System

_LOG = logging.getLogger(__name__)

ACCESSORY = 1
"""NSApplicationActivationPolicyAccessory: no icon in the Dock, no menu bar."""
TERMINATE_NOW = 1
"""NSTerminateNow, an answer to whether the application may end."""
LEAST_WAIT = 1 / 120
"""The shortest time from one turn of the loop to the next, in seconds."""
_HIDE, _QUIT, _ITEMS = 0, 2, 3
"""Where the library puts its two entries of the menu, a line between them, and how many that makes."""
_HEARD = (signal.SIGINT, signal.SIGTERM)
"""The signals that the library takes for itself there."""


class MacSystem(System):
    """The system where that is macOS."""

    name = words.MAC
    draws_without_display = False
    writes_first = True
    sizes_in_points = True

    @contextmanager
    def importing(self) -> Iterator[None]:
        """Signals go on doing what they did: what the library has them do ends the process before anything
        is cleared up."""
        if threading.current_thread() is not threading.main_thread():
            yield
            return
        before = {number: signal.getsignal(number) for number in _HEARD}
        try:
            yield
        finally:
            for number, handler in before.items():
                if handler is not None and signal.getsignal(number) is not handler:
                    signal.signal(number, handler)

    def draw_only(self) -> None:
        """The Dock does not show the process."""
        _loop().NSApp.setActivationPolicy_(ACCESSORY)

    def join(self, window: Any, end: Callable[[], object]) -> None:
        """The application waits between turns of its loop, bears our name, and calls ``end`` at its end."""
        loop = _loop()
        _rest(loop)
        _end_with(loop, end)
        _bear_name(loop.NSApp)
        _tag_colours(window)

    def fill_screen(self, window: Any, full: bool) -> None:
        """The library notes the size to go back to in pixels and takes it for points; and the window is a new
        one."""
        points = tuple(round(side / window.scale) for side in window.get_size())
        window.set_fullscreen(full)
        if full:
            window._windowed_size = points
        _tag_colours(window)


def _loop() -> Any:
    """The library's, which holds the application."""
    return import_module("pyglet.app").platform_event_loop


def _rest(loop: Any) -> None:
    """Without a wait of its own, the loop for the first chips of the vendor's goes round at once."""
    start = loop.nsapp_start
    loop.nsapp_start = lambda wait: start(max(wait, LEAST_WAIT))


def _end_with(loop: Any, ended: Callable[[], object]) -> None:
    """Quit in the menu and the Dock, and logging out, end the process from within the library's loop."""

    def applicationShouldTerminate_(_delegate: Any, _sender: Any) -> int:  # noqa: N802 - Cocoa's name
        try:
            ended()
        except Exception:
            _LOG.exception(words.ENDED_BADLY)
        return TERMINATE_NOW

    cocoa = import_module("pyglet.app.cocoa")
    cocoa._AppDelegate_Implementation._AppDelegate.method("Q@")(applicationShouldTerminate_)
    # Given anew, the application looks anew which questions the delegate answers.
    loop.NSApp.setDelegate_(None)
    loop.NSApp.setDelegate_(loop.appdelegate)


@contextmanager
def _bridge() -> Iterator[Any]:
    """The library's bridge to Objective-C; what is made in this block is freed after it."""
    darwin = import_module("pyglet.libs.darwin")
    with darwin.AutoReleasePool():
        yield darwin.cocoapy


def _bear_name(application: Any) -> None:
    with _bridge() as bridge:
        bridge.ObjCClass("NSProcessInfo").processInfo().setProcessName_(bridge.get_NSString(words.PROGRAM))
        menu = application.mainMenu().itemAtIndex_(0).submenu()
        if menu.numberOfItems() == _ITEMS:
            for place, title in ((_HIDE, words.HIDE), (_QUIT, words.QUIT)):
                menu.itemAtIndex_(place).setTitle_(bridge.get_NSString(title))


def _tag_colours(window: Any) -> None:
    """Our colours are those of sRGB; a screen that shows more would show them too strong."""
    with _bridge() as bridge:
        window._nswindow.setColorSpace_(bridge.ObjCClass("NSColorSpace").sRGBColorSpace())
