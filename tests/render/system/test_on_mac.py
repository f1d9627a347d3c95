"""What a Mac does, played on any system with stand-ins for its objects.

What they do is from the source of pyglet 2.1 (app/cocoa.py, window/cocoa, display/cocoa.py); the numbers of
constants are from Apple's documentation of NSApplication, from memory.
"""

from __future__ import annotations

import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import nullcontext
from dataclasses import dataclass, field
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any
from unittest.mock import MagicMock

import pytest

from render.offscreen import shared_context
from render.system.on_mac import MacSystem
from render.system.system import System
from render.window.opening import LEAST_SIZE, _make_window

TERMINATE_NOW = 1
ACCESSORY = "1"


@dataclass
class Item:
    title: str

    def setTitle_(self, title: str) -> None:  # noqa: N802
        self.title = title


@dataclass
class Menu:
    """As create_menu of the library makes it."""

    items: list[Item] = field(default_factory=lambda: [Item("Hide!"), Item(""), Item("Quit!")])

    def numberOfItems(self) -> int:  # noqa: N802
        return len(self.items)

    def itemAtIndex_(self, place: int) -> Item:  # noqa: N802
        return self.items[place]


@dataclass
class Mac:
    """The system with the library's Cocoa application, and what was asked of it."""

    menu: Menu = field(default_factory=Menu)
    waits: list[float] = field(default_factory=list)
    methods: dict[str, tuple[str, Any]] = field(default_factory=dict)
    bridge: MagicMock = field(default_factory=MagicMock)
    window: MagicMock = field(default_factory=MagicMock)

    def __post_init__(self) -> None:
        self.application = MagicMock()
        self.application.mainMenu().itemAtIndex_(0).submenu.return_value = self.menu
        self.bridge.get_NSString = str
        self.loop = SimpleNamespace(NSApp=self.application, nsapp_start=self.waits.append, appdelegate="ours")
        self.system = MacSystem()

    def method(self, encoding: str) -> Any:
        """As ObjCSubclass.method names a method: underscores are colons."""

        def kept(function: Any) -> None:
            self.methods[function.__name__.replace("_", ":")] = encoding, function

        return kept


@pytest.fixture
def played(monkeypatch: pytest.MonkeyPatch) -> Mac:
    shared_context()
    import pyglet.app

    played = Mac()
    monkeypatch.setattr(pyglet.app, "platform_event_loop", played.loop)
    cocoa: Any = ModuleType("pyglet.app.cocoa")
    cocoa._AppDelegate_Implementation = SimpleNamespace(_AppDelegate=played)
    darwin: Any = ModuleType("pyglet.libs.darwin")
    darwin.cocoapy, darwin.AutoReleasePool = played.bridge, nullcontext
    monkeypatch.setitem(sys.modules, "pyglet.app.cocoa", cocoa)
    monkeypatch.setitem(sys.modules, "pyglet.libs.darwin", darwin)
    return played


def test_quitting_from_the_menu_the_dock_or_by_logging_out_ends_the_program_in_order(played: Mac) -> None:
    ended: list[str] = []
    played.system.join(played.window, lambda: ended.append("saved"))
    assert ended == []
    encoding, asked = played.methods["applicationShouldTerminate:"]
    # An unsigned number from one object: NSTerminateNow of NSApplicationTerminateReply.
    assert encoding == "Q@"
    assert asked(object(), object()) == TERMINATE_NOW
    assert ended == ["saved"]
    # The application notes what its delegate answers when it is given the delegate.
    assert [call.args for call in played.application.setDelegate_.call_args_list] == [(None,), ("ours",)]


def test_an_ending_that_fails_keeps_nobody_from_logging_out(
    played: Mac, caplog: pytest.LogCaptureFixture
) -> None:
    def fail() -> None:
        raise OSError("no disk")

    played.system.join(played.window, fail)
    assert played.methods["applicationShouldTerminate:"][1](object(), object()) == TERMINATE_NOW
    assert "no disk" in caplog.text


def test_the_loop_without_a_wait_of_its_own_rests(played: Mac) -> None:
    played.system.join(played.window, list)
    # app.run(interval=None) gives 0, which the system takes for a ten thousandth of a second.
    played.loop.nsapp_start(0)
    played.loop.nsapp_start(0.5)
    assert played.waits == [1 / 120, 0.5]


def test_the_menu_bears_the_programs_name(played: Mac) -> None:
    played.system.join(played.window, list)
    assert [item.title for item in played.menu.items] == ["Hide Pairwright", "", "Quit Pairwright"]
    played.bridge.ObjCClass().processInfo().setProcessName_.assert_called_once_with("Pairwright")


def test_a_menu_of_another_form_is_left_alone(played: Mac) -> None:
    played.menu.items.pop()
    played.system.join(played.window, list)
    assert [item.title for item in played.menu.items] == ["Hide!", ""]


def test_the_windows_colours_are_tagged_as_those_of_srgb(played: Mac) -> None:
    played.system.join(played.window, list)
    srgb = played.bridge.ObjCClass("NSColorSpace").sRGBColorSpace()
    played.window._nswindow.setColorSpace_.assert_called_once_with(srgb)


@dataclass
class Screen:
    width: int
    height: int
    scale: float

    def get_scale(self) -> float:
        return self.scale


SCREENS: tuple[tuple[System, tuple[int, int], int], ...] = (
    (MacSystem(), (1440, 900), 1),
    (System(), (2880, 1800), 2),
)
"""The same screen twice: Cocoa gives sizes in points, the other systems in pixels."""


@pytest.mark.parametrize(("system", "screen", "dense"), SCREENS)
def test_on_a_dense_screen_the_window_has_its_size_and_fits(
    system: System, screen: tuple[int, int], dense: int
) -> None:
    opened, library = MagicMock(scale=2.0), MagicMock()
    library.display.get_display().get_default_screen.return_value = Screen(*screen, 2.0)
    library.window.Window.return_value = opened
    _make_window(library, system, "Pairwright", (1280, 800))
    assert library.window.Window.call_args.args == (1280, 800)
    opened.set_minimum_size.assert_called_once_with(LEAST_SIZE[0] * dense, LEAST_SIZE[1] * dense)


class Retina:
    """A window of Cocoa's with two pixels a point, as far as the screen is filled and left."""

    scale, display, screen = 2.0, None, MagicMock(width=1440, height=900)
    _fullscreen, _windowed_size, _windowed_location = False, None, None

    def __init__(self) -> None:
        from pyglet.window import BaseWindow

        self._width, self._height, self._base, self._nswindow = 1280, 800, BaseWindow, MagicMock()

    def get_size(self) -> tuple[int, int]:
        return 2 * self._width, 2 * self._height

    def get_location(self) -> tuple[int, int]:
        return 10, 20

    def set_location(self, x: int, y: int) -> None:
        self.place = x, y

    def _set_fullscreen_mode(self, *_: object) -> tuple[int, int]:
        return self.screen.width, self.screen.height

    def _recreate(self, changes: list[str]) -> None:
        self._nswindow = MagicMock()

    def set_fullscreen(self, full: bool) -> None:
        self._base.set_fullscreen(self, full)


def test_a_window_comes_back_from_the_full_screen_in_its_size_and_colours(played: Mac) -> None:
    window = Retina()
    for full, size in ((True, (1440, 900)), (False, (1280, 800)), (True, (1440, 900)), (False, (1280, 800))):
        played.system.fill_screen(window, full)
        assert (window._width, window._height) == size
        window._nswindow.setColorSpace_.assert_called_once()
    assert window.place == (10, 20)


@pytest.fixture
def handlers() -> Iterator[None]:
    before = {number: signal.getsignal(number) for number in (signal.SIGINT, signal.SIGTERM)}
    yield
    for number, handler in before.items():
        signal.signal(number, handler)


@pytest.mark.usefixtures("handlers")
def test_signals_that_the_library_takes_are_given_back() -> None:
    heard: list[int] = []
    signal.signal(signal.SIGTERM, lambda number, _: heard.append(number))
    with MacSystem().importing():
        # CocoaPlatformEventLoop does so when it is made, which is when the library is imported.
        signal.signal(signal.SIGTERM, signal.SIG_IGN)
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler
    signal.raise_signal(signal.SIGTERM)
    assert heard == [signal.SIGTERM]


DRAWS = """
import signal
from types import SimpleNamespace
import pyglet
pyglet.options.headless = True
from pyglet.app.xlib import XlibEventLoop
class Loop(XlibEventLoop):
    def __init__(self):
        super().__init__()
        self.NSApp = SimpleNamespace(setActivationPolicy_=print)
        signal.signal(signal.SIGTERM, lambda *_: None)
import pyglet.app
pyglet.app.xlib.XlibEventLoop = Loop
import sys
del sys.modules["pyglet.app"], pyglet.app
from render import offscreen
from render.system.on_mac import MacSystem
MacSystem.draws_without_display = True
offscreen.system_here = MacSystem
offscreen.OffscreenContext()
print(signal.getsignal(signal.SIGTERM) is signal.SIG_DFL)
"""


def test_a_process_that_only_draws_is_not_in_the_dock_and_signals_end_it_as_before() -> None:
    drawn = subprocess.run(
        [sys.executable, "-c", DRAWS],
        cwd=Path(__file__).parents[3],
        capture_output=True,
        text=True,
        check=True,
    )
    assert drawn.stdout.split() == [ACCESSORY, "True"], drawn.stderr
