"""A window on Windows, played here: what its library tells in its order, with functions of the system faked.

What the library does there is from its source, pyglet 2.1's pyglet/window/win32 and pyglet/app/base.py; what
the messages and keys mean is from the vendor's documents (learn.microsoft.com: WM_ENDSESSION, WM_KEYDOWN,
ImmAssociateContextEx).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from types import SimpleNamespace
from typing import Any
from unittest.mock import MagicMock

import pytest

from render.errors import NoWindow
from render.offscreen import shared_context
from render.system.identity import APPLICATION_ID
from render.system.on_windows import WindowsSystem
from render.system.system import System
from render.window import opening
from render.window.opening import LEAST_SIZE, least_size
from render.window.window import Frame, Window
from tests.render.sample_views import home
from tutor.ui.action import Action
from tutor.ui.inputs import Input, KeyPressed, Modifier, TextEntered
from tutor.ui.view import Entry, Group, View

VK_SHIFT, VK_MENU, DOWN = 0x10, 0x12, -0x8000
WM_QUERYENDSESSION, WM_ENDSESSION, WM_DPICHANGED = 0x11, 0x16, 0x2E0
IACE_DEFAULT = 0x10
HANDLE = 0x40A


@dataclass
class Libraries:
    """user32, imm32 and shell32; ``down`` are the keys held, ``told`` is what else was called."""

    down: set[int] = field(default_factory=set)
    told: list[tuple[object, ...]] = field(default_factory=list)

    def load(self, name: str) -> Any:
        made = MagicMock()
        made.GetKeyState = lambda key: DOWN if key in self.down else 0
        functions = {
            "user32": ("ShutdownBlockReasonCreate", "ShutdownBlockReasonDestroy"),
            "imm32": ("ImmAssociateContextEx",),
            "shell32": ("SetCurrentProcessExplicitAppUserModelID",),
        }
        for function in functions[name]:
            setattr(made, function, lambda *given, called=function: self.told.append((called, *given)))
        return made


@dataclass
class Port:
    view: View = field(default_factory=home)
    events: list[Input] = field(default_factory=list)
    means: tuple[Input, ...] = ()
    frames: int = 0

    def opened(self, window: Window) -> None: ...

    def handle(self, event: Input) -> bool:
        self.events.append(event)
        return event in self.means

    def frame(self) -> Frame:
        self.frames += 1
        return Frame(self.view)

    def poll(self) -> bool:
        return False

    def failed(self, error: Exception) -> None:
        raise error


@dataclass
class OnWindows:
    calls: Libraries
    system: WindowsSystem
    port: Port
    window: Window
    real: Any
    key: Any
    flips: list[None] = field(default_factory=list)

    def message(self, number: int, w: int) -> object:
        """A message that the system sends, as the library's window procedure hands it on."""
        handler: Callable[[int, int, int], object] = self.real._event_handlers[number]
        return handler(number, w, 0)

    def strike(self, name: str, held: int, text: str = "") -> None:
        """A key: WM_KEYDOWN is heard whole before WM_CHAR, which TranslateMessage only posts."""
        symbol = getattr(self.key, name)
        self.real.dispatch_event("on_key_press", symbol, held)
        if text:
            self.real.dispatch_event("on_text", text)
        self.real.dispatch_event("on_key_release", symbol, held)


@pytest.fixture
def on_windows(monkeypatch: pytest.MonkeyPatch) -> Iterator[OnWindows]:
    shared_context()
    import pyglet
    from pyglet import gl

    before = gl.current_context
    real: Any = pyglet.window.Window(*LEAST_SIZE, visible=False)
    # As the library's loop has it once it runs.
    real._enable_event_queue = False
    real._event_handlers, real._hwnd = {}, HANDLE
    calls, port = Libraries(), Port()
    system = WindowsSystem(calls.load)
    window = Window(pyglet, real, system)
    window.join(port)
    made = OnWindows(calls, system, port, window, real, pyglet.window.key)
    monkeypatch.setattr(real, "flip", lambda: made.flips.append(None))
    yield made
    real.switch_to()
    window._shut()
    if before is not None:
        before.set_current()


@pytest.mark.parametrize("told_alt", [False, True])
def test_altgr_is_not_ctrl_and_only_what_it_writes_acts(on_windows: OnWindows, told_alt: bool) -> None:
    # AltGr is told as Ctrl; bit 29 of WM_KEYDOWN's lParam, from which the library takes Alt, is always 0
    # there, and 1 in WM_SYSKEYDOWN. On a German keyboard @ is AltGr and Q, [ is AltGr and 8; on a Polish one
    # ś is AltGr and S.
    on_windows.calls.down = {VK_MENU}
    held = on_windows.key.MOD_CTRL | (on_windows.key.MOD_ALT if told_alt else 0)
    on_windows.strike("Q", held, "@")
    on_windows.strike("S", held, "ś")
    on_windows.port.means = (KeyPressed("bracket left"),)
    on_windows.strike("_8", held, "[")
    assert on_windows.port.events == [TextEntered("@"), TextEntered("ś"), KeyPressed("bracket left")]


def test_the_task_bar_groups_windows_by_the_id_of_the_program() -> None:
    calls = Libraries()
    WindowsSystem(calls.load).introduce()
    assert calls.told == [("SetCurrentProcessExplicitAppUserModelID", APPLICATION_ID)]
    # "AppUserModelIDs": at most 128 characters, no spaces, parts with dots between them.
    assert APPLICATION_ID.isascii()
    assert " " not in APPLICATION_ID
    assert 1 < len(APPLICATION_ID.split(".")) <= 4


def test_shift_that_stays_down_by_itself_counts(on_windows: OnWindows) -> None:
    # With Sticky Keys, Shift is pressed and let go before the key; raw input, from which the library takes
    # Shift, tells only of the hand, and nothing of a Shift that another program presses.
    on_windows.calls.down = {VK_SHIFT}
    on_windows.strike("R", 0, "R")
    on_windows.calls.down = set()
    on_windows.strike("U", on_windows.key.MOD_SHIFT, "u")
    pressed = [event for event in on_windows.port.events if isinstance(event, KeyPressed)]
    assert pressed == [KeyPressed("r", Modifier.SHIFT), KeyPressed("u")]


def test_a_character_in_two_halves_is_typed_whole(on_windows: OnWindows) -> None:
    # WM_CHAR is sent once for each unit of UTF-16: of U+20BB7, as in the name 𠮷野, D842 and then DFB7.
    for unit in ("\ud842", "\udfb7", "野", "\udfb7", "\ud842", "a"):
        on_windows.real.dispatch_event("on_text", unit)
    assert on_windows.port.events == [TextEntered("𠮷"), TextEntered("野"), TextEntered("a")]


def test_ctrl_alone_and_alt_alone_stay_what_they_are(on_windows: OnWindows) -> None:
    on_windows.strike("Q", on_windows.key.MOD_CTRL)
    on_windows.calls.down = {VK_MENU}
    on_windows.strike("LEFT", on_windows.key.MOD_ALT)
    on_windows.strike("RIGHT", on_windows.key.MOD_CTRL)
    alone = KeyPressed("q", Modifier.CONTROL), KeyPressed("left", Modifier.ALT), KeyPressed("right")
    assert on_windows.port.events == [*alone]


def test_a_key_that_its_keyboard_writes_elsewhere_acts_by_what_it_writes(on_windows: OnWindows) -> None:
    # On a French keyboard the key of 4 writes an apostrophe, and 4 with Shift.
    on_windows.port.means = (KeyPressed("apostrophe"), KeyPressed("4"))
    on_windows.strike("_4", 0, "'")
    on_windows.strike("_4", on_windows.key.MOD_SHIFT, "4")
    assert on_windows.port.events == [KeyPressed("apostrophe"), KeyPressed("4")]


def test_while_the_window_is_moved_each_frame_is_shown_once(on_windows: OnWindows) -> None:
    # The library's timer in the system's loop calls draw, which asks for a frame and then shows it.
    on_windows.real.draw(0.0)
    on_windows.real.draw(0.0)
    assert len(on_windows.flips) == 2
    on_windows.window.paint()
    assert len(on_windows.flips) == 3


def test_the_session_ends_with_the_ending_once_it_is_certain(on_windows: OnWindows) -> None:
    ended: list[object] = []
    told = on_windows.calls.told
    on_windows.window.hear_of_the_end(lambda: ended.append(told[-1][0]))
    # DefWindowProc is called unless a handler returns something; 0 would say that it may not end.
    assert on_windows.message(WM_QUERYENDSESSION, 0) == 1
    assert on_windows.message(WM_ENDSESSION, 0) == 0
    assert ended == []
    assert not on_windows.window._closing
    assert on_windows.message(WM_ENDSESSION, 1) == 0
    # While it lasts, the system says why it waits; only the window's own thread may tell it.
    assert ended == ["ShutdownBlockReasonCreate"]
    assert told == [
        ("ShutdownBlockReasonCreate", HANDLE, "Pairwright is saving your work."),
        ("ShutdownBlockReasonDestroy", HANDLE),
    ]
    assert on_windows.window._closing
    # Nothing is drawn or asked of what has ended.
    frames = on_windows.port.frames
    on_windows.real.draw(0.0)
    assert on_windows.port.frames == frames


def test_input_methods_are_at_work_only_while_one_writes(on_windows: OnWindows) -> None:
    on_windows.window.paint()
    on_windows.window.paint()
    field_to_write_in = Entry(Action(), "", "", 0, focused=True)
    on_windows.port.view = View("home", "Home", page=((Group((field_to_write_in,)),),))
    on_windows.window.paint()
    on_windows.port.view = home()
    on_windows.window.paint()
    off, on = (("ImmAssociateContextEx", HANDLE, None, flags) for flags in (0, IACE_DEFAULT))
    assert on_windows.calls.told == [off, on, off]
    assert not home().takes_typing


SCREENS = [
    # A screen of 1366 by 768 at 125 %: 640 px would be 800 pixels, of 768.
    ((1366, 768), 1.25, (1200, 691)),
    ((1920, 1080), 1.25, (1200, 800)),
    ((1366, 768), 1.0, (960, 640)),
    ((2560, 1440), 2.5, (2400, 1296)),
]


@pytest.mark.parametrize(("screen", "scale", "least"), SCREENS)
def test_the_least_size_fits_on_the_screen(
    screen: tuple[int, int], scale: float, least: tuple[int, int]
) -> None:
    assert least_size(screen, scale) == least


def test_on_a_screen_of_another_density_the_least_size_is_its_own(on_windows: OnWindows) -> None:
    kept: list[tuple[int, int]] = []
    on_windows.real.set_minimum_size = lambda *size: kept.append(size)
    for screen in ((1366, 768), (800, 600)):
        on_windows.real.get_window_screen = lambda each=screen: SimpleNamespace(width=each[0], height=each[1])
        on_windows.real.dispatch_event("on_scale", 1.0, 96)
    assert kept == [(960, 640), (760, 540)]


def test_a_screen_that_the_library_does_not_know_is_the_one_it_was_opened_on(on_windows: OnWindows) -> None:
    def unknown() -> object:
        return [][0]

    on_windows.real.get_window_screen = unknown
    assert on_windows.system.screen_of(on_windows.real) is on_windows.real.screen
    assert System().screen_of(on_windows.real) is on_windows.real.screen


def test_on_a_screen_of_another_density_the_window_takes_the_size_that_fits_it(
    on_windows: OnWindows,
) -> None:
    # As _event_dpi_change of the library: the size that the system suggests, which WM_GETMINMAXINFO limits
    # by the least size of the old screen, then on_scale.
    real, sizes = on_windows.real, [(1920, 1280)]
    real.get_window_screen = lambda: SimpleNamespace(width=1920, height=1080)
    real._minimum_size = sizes[0]
    real.set_minimum_size = lambda *size: setattr(real, "_minimum_size", size)

    def changed(_message: int, _w: int, _l: int) -> int:
        least = real._minimum_size or (0, 0)
        sizes.append((max(1280, least[0]), max(800, least[1])))
        real.dispatch_event("on_scale", 1.0, 96)
        return 1

    real._event_handlers[WM_DPICHANGED] = changed
    on_windows.window.hear_of_the_end(list)
    assert on_windows.message(WM_DPICHANGED, 96) == 1
    assert sizes[-1] == (1280, 800)
    assert real._minimum_size == LEAST_SIZE


@pytest.mark.parametrize(("hidden", "own", "opens"), [((2, 1), (3, 3), True), ((4, 6), (3, 1), False)])
def test_the_version_is_that_of_the_window_not_of_the_hidden_one(
    hidden: tuple[int, int], own: tuple[int, int], opens: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    # There the library makes its hidden window without asking for a version, and its record, gl_info, is of
    # that one for good (GLInfo.set_active_context); some drivers give more where more is asked for.
    shared_context()
    import pyglet

    made = MagicMock()
    made.context.get_info().get_version.return_value = own
    for option in ("headless", "debug_gl", "dpi_scaling", "shadow_window"):
        monkeypatch.setattr(pyglet.options, option, pyglet.options[option])
    monkeypatch.setattr(pyglet.gl.gl_info, "get_version", lambda: hidden)
    monkeypatch.setattr(opening, "_make_window", lambda *_: made)
    if opens:
        assert opening.open_window("Pairwright", LEAST_SIZE) == (pyglet, made)
    else:
        with pytest.raises(NoWindow, match=r"the driver here offers 3\.1"):
            opening.open_window("Pairwright", LEAST_SIZE)


class Resized:
    """A window of the library's that a hand made larger, as far as the screen is filled and left.

    Back from the full screen, ``_create`` of win32 and xlib gives it the size that was asked for at first.
    """

    display, scale = None, 1.25
    _fullscreen, _windowed_size, _windowed_location = False, None, None
    _requested_width: float = 1280
    _requested_height: float = 800

    def __init__(self) -> None:
        from pyglet.window import BaseWindow

        self._base, self._width, self._height = BaseWindow, 1701, 1003
        self.here = MagicMock(display=None, width=2560, height=1440)
        self._screen = self.screen = MagicMock(display=None, width=1366, height=768)

    def get_window_screen(self) -> Any:
        return self.here

    def get_size(self) -> tuple[int, int]:
        return self._width, self._height

    def get_location(self) -> tuple[int, int]:
        return 10, 20

    def set_location(self, x: int, y: int) -> None: ...

    def _set_fullscreen_mode(self, *_: object) -> tuple[int, int]:
        return self._screen.width, self._screen.height

    def _recreate(self, _changes: list[str]) -> None:
        if not self._fullscreen:
            self._width = int(self._requested_width * self.scale)
            self._height = int(self._requested_height * self.scale)

    def set_fullscreen(self, full: bool, screen: object = None) -> None:
        self._base.set_fullscreen(self, full, screen)


def test_the_screen_that_is_filled_is_the_one_with_the_window_and_the_size_comes_back(
    on_windows: OnWindows,
) -> None:
    for system, filled in ((on_windows.system, (2560, 1440)), (System(), (1366, 768))):
        window = Resized()
        system.fill_screen(window, True)
        assert window.get_size() == filled
        system.fill_screen(window, False)
        assert window.get_size() == (1701, 1003)
