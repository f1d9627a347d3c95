"""What is particular to macOS: the library's application and windows there, which are Cocoa's.

Nothing here asks for the system's name: a library whose loop has a Cocoa application runs on macOS, and with
any other these functions do nothing. What they rely on is in pyglet 2.1: app/cocoa.py, window/cocoa,
display/cocoa.py. This module alone speaks to Objective-C, and imports the bridge to it only there.
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

_LOG = logging.getLogger(__name__)

ACCESSORY = 1
"""NSApplicationActivationPolicyAccessory: no icon in the Dock, no menu bar."""
TERMINATE_NOW = 1
"""NSTerminateNow, an answer to whether the application may end."""
LEAST_WAIT = 1 / 120
"""The shortest time from one turn of the loop to the next, in seconds."""
_HIDE, _QUIT, _ITEMS = 0, 2, 3
"""Where the library puts its two entries of the menu, a line between them, and how many that makes."""
_HEARD = ("SIGINT", "SIGTERM")
"""The signals that the library takes for itself there."""


@contextmanager
def kept_signals() -> Iterator[None]:
    """Around the library's import: signals go on doing what they did, also where it takes them for itself.

    What it has them do ends the process before anything is cleared up.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = {number: signal.getsignal(number) for number in (getattr(signal, name) for name in _HEARD)}
    try:
        yield
    finally:
        for number, handler in before.items():
            if handler is not None and signal.getsignal(number) is not handler:
                signal.signal(number, handler)


def _application(app: Any) -> Any:
    """Cocoa's application, which the library's ``app`` holds; None with any other window system."""
    return getattr(app.platform_event_loop, "NSApp", None)


def is_mac(library: Any) -> bool:
    """Whether the library's windows are Cocoa's.

    Sizes of screens and windows are given in points there, which are our logical px, and a key tells what it
    writes before it tells that it is pressed.
    """
    return _application(library.app) is not None


def draws_only(app: Any) -> None:
    """The process makes pictures and shows none: the Dock does not show it. ``app`` is the library's."""
    application = _application(app)
    if application is not None:
        application.setActivationPolicy_(ACCESSORY)


def join(library: Any, window: Any, ended: Callable[[], object]) -> None:
    """Have the application wait between turns of its loop, bear our name, and call ``ended`` at its end."""
    if is_mac(library):
        _rest(library.app.platform_event_loop)
        _end_with(library, ended)
        _bear_name(_application(library.app))
        _tag_colours(window)


def _rest(loop: Any) -> None:
    """Without a wait of its own, the loop for the first chips of the vendor's goes round at once."""
    start = loop.nsapp_start
    loop.nsapp_start = lambda wait: start(max(wait, LEAST_WAIT))


def _end_with(library: Any, ended: Callable[[], object]) -> None:
    """Quit in the menu and the Dock, and logging out, end the process from within the library's loop."""

    def applicationShouldTerminate_(_delegate: Any, _sender: Any) -> int:  # noqa: N802 - Cocoa's name
        try:
            ended()
        except Exception:
            _LOG.exception(words.ENDED_BADLY)
        return TERMINATE_NOW

    cocoa, application = import_module("pyglet.app.cocoa"), _application(library.app)
    cocoa._AppDelegate_Implementation._AppDelegate.method("Q@")(applicationShouldTerminate_)
    # Given anew, the application looks anew which questions the delegate answers.
    application.setDelegate_(None)
    application.setDelegate_(library.app.platform_event_loop.appdelegate)


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


def fill_screen(library: Any, window: Any, full: bool) -> None:
    """Fill the screen or go back, on any system.

    The library notes the size to go back to in pixels and takes it for points; and the window is a new one.
    """
    if not is_mac(library):
        window.set_fullscreen(full)
        return
    points = tuple(round(side / window.scale) for side in window.get_size())
    window.set_fullscreen(full)
    if full:
        window._windowed_size = points
    _tag_colours(window)
