"""The window: opens it, turns the library's events into inputs, and draws when something has changed.

The library is imported only when a window is opened, so that all else works without a display.
"""

from __future__ import annotations

import gc
import logging
from collections.abc import Callable, Iterable
from functools import wraps
from typing import TYPE_CHECKING, Any, ParamSpec, Protocol

from msgspec import Struct

from render import words
from render.errors import explain
from render.system.identity import show_icon
from render.system.system import System, system_here
from render.window.interface import Interface, LateHand
from render.window.keyboard import Keyboard, printable
from render.window.opening import keep_least_size, open_window
from tutor.ui.inputs import CloseRequested, Input, KeyPressed, Modifier, TextEntered

if TYPE_CHECKING:
    from render.window.screen import ViewDrawer
    from tutor.ui.view import Stage, View

_LOG = logging.getLogger(__name__)

P = ParamSpec("P")

CARDS = 2
"""Cards that tell of a frame's failure and are tried to be drawn: one over the screen, one alone."""
ICON_DELAY = 0.5
"""Seconds after which the window gets its icon."""
POLLS = 60.0
"""How often a second the port is asked whether something has changed."""
_SOFTWARE = ("llvmpipe", "softpipe", "swrast", "swiftshader", "basic render")
"""Parts of the names of drivers that draw without a graphics card."""


class Frame(Struct, frozen=True):
    """What to show now; ``moving`` asks for the next frame without waiting for an input."""

    view: View
    moving: bool = False


class Port(Protocol):
    """What the window is joined to. All its methods are called on the window's thread."""

    def opened(self, window: Window) -> None:
        """The window is open; ``window.close()`` ends the run."""

    def handle(self, event: Input) -> bool:
        """A person did something; whether it meant anything."""

    def frame(self) -> Frame:
        """What to show now."""

    def poll(self) -> bool:
        """Called about sixty times a second; True when something changed, such as an answer's arrival."""

    def failed(self, error: Exception) -> None:
        """An exception came out of this port or of the drawing; the window stays open."""


def _kept(method: Callable[P, Any]) -> Callable[P, Any]:
    """An event handler whose exceptions go to the port, and after which the window is drawn anew."""

    @wraps(method)
    def handler(*arguments: P.args, **named: P.kwargs) -> Any:
        window: Any = arguments[0]
        try:
            return method(*arguments, **named)
        except Exception as error:
            window.fail(error)
            return True

    return handler


class Window:
    """The open window. Use ``run`` to make one."""

    def __init__(self, library: Any, window: Any, system: System | None = None) -> None:
        """Take over a window of the library's; ``join`` gives it something to show."""
        self._library, self._window = library, window
        self._system = system or system_here()
        self._port: Port | None = None
        self.interface = Interface(LateHand())
        """What the pointer does."""
        self._screen: ViewDrawer | None = None
        self._dirty, self._moving, self._closing = True, False, False
        self._asked_to_close = False
        self._rough = self._seen = False
        self._failures = 0
        self._hopeless: Exception | None = None
        self._cursor = ""
        self._stage: Stage | None = None
        self._keyboard = Keyboard(library, window, self._system)
        renderer = window.context.get_info().get_renderer().lower()
        self._software = any(name in renderer for name in _SOFTWARE)

    def join(self, port: Port) -> None:
        """Have ``port`` say what to show, and report to it from now on."""
        self._port = port
        self._window.push_handlers(self)
        port.opened(self)

    @property
    def port(self) -> Port:
        """What the window is joined to."""
        assert self._port is not None
        return self._port

    def close(self) -> None:
        """End the run: the window closes after the event at hand."""
        self._closing = True

    def ask_to_close(self) -> None:
        """Close as if a person had asked, once the event at hand is done; this may interrupt anything."""
        self._asked_to_close = True

    def fill_screen(self, full: bool) -> None:
        """Fill the screen, or go back to the size before."""
        if bool(self._window.fullscreen) is not full:
            self._system.fill_screen(self._window, full)

    def copy(self, text: str) -> None:
        """Put a text on the system's clipboard."""
        self._window.set_clipboard_text(text)

    def fail(self, error: Exception) -> None:
        """Tell the port, and stop what may have failed from being tried sixty times a second."""
        self._moving = self._rough = False
        self._dirty = True
        try:
            self.port.failed(error)
        except Exception:
            _LOG.exception(words.ERROR_NOT_SHOWN)

    # -- measures

    @property
    def ratio(self) -> float:
        """Pixels per logical px."""
        return max(0.5, float(self._window.scale))

    def _point(self, x: float, y: float) -> tuple[float, float]:
        """From the library's point (y from below, in its own units) to logical px, y downwards."""
        across = self._window.get_framebuffer_size()[0] / max(1, self._window.get_size()[0]) / self.ratio
        return x * across, (self._window.get_size()[1] - y) * across

    # -- the loop

    def run(self) -> None:
        """Show the window until it is closed.

        When not even the card of a failure could ever be drawn, that failure is raised, or NoWindow when it
        means that the driver cannot draw.
        """
        self._window.set_visible(True)
        self.paint()
        # What a program starts with stays; to look through it again and again would only cost time.
        gc.freeze()
        clock = self._library.clock
        clock.schedule_interval(self._tick, 1 / POLLS)
        # The first picture does not wait for it.
        clock.schedule_once(self._show_icon, ICON_DELAY)
        try:
            self._library.app.run(interval=None)
        finally:
            clock.unschedule(self._tick)
            clock.unschedule(self._show_icon)
            self._shut()
        if self._hopeless is not None:
            raise explain(self._hopeless) or self._hopeless

    @_kept
    def _show_icon(self, _: float) -> None:
        show_icon(self._library, self._window)

    def _shut(self) -> None:
        self._window.set_visible(False)
        self._window.switch_to()
        if self._screen is not None:
            self._screen.delete()
        self._window.close()

    def hear_of_the_end(self, end: Callable[[], object]) -> None:
        """Carry out ``end`` when the system ends session or process; it waits for no frame and no answer."""

        def ended() -> None:
            self.close()
            end()

        self._system.join(self._window, ended)

    def _tick(self, _: float) -> None:
        if self._asked_to_close:
            self._asked_to_close = False
            self.on_close()
        if self._closing:
            self._library.app.exit()
            return
        self._dirty |= self._polled()
        if self._dirty or self._moving or self._rough:
            self.paint()

    @_kept
    def _poll_port(self) -> bool:
        return self.port.poll()

    def _polled(self) -> bool:
        return self._poll_port() is True

    def paint(self, *, shown: bool = True) -> None:
        """Draw the frame of now, and show it unless whoever asks does that."""
        self._dirty = False
        try:
            self._paint(shown)
        except Exception as error:
            self.fail(error)
            self._failures += 1
            # Tried again for the card that tells of it, over the screen and alone; then when there is news.
            self._dirty = self._failures <= CARDS
            if self._failures > CARDS and not self._seen:
                self._hopeless, self._closing = error, True
        else:
            self._failures, self._seen = 0, True

    def _paint(self, shown: bool) -> None:
        window = self._window
        size = window.get_framebuffer_size()
        if min(size) < 1:
            return
        frame = self.port.frame()
        self._moving = frame.moving
        hold_collection(frame.moving)
        self._system.compose(window, frame.view.takes_typing)
        window.switch_to()
        if self._screen is None:
            from render.window.screen import ViewDrawer

            self._screen = ViewDrawer()
        ratio, interface = self.ratio, self.interface
        scene = interface.show(frame.view, size[0] / ratio, size[1] / ratio, ratio)
        # Without a graphics card several samples a pixel take too long for what moves. It has them at rest.
        before, self._stage = self._stage, frame.view.stage
        self._rough = self._software and self._stage not in (None, before)
        pointed = interface.scrolls, interface.pointer
        self._screen.draw(frame.view, scene, size, ratio, *pointed, not self._rough)
        if shown:
            window.flip()

    def _send(self, inputs: Iterable[Input]) -> bool:
        """Report inputs; whether any meant something."""
        self._dirty = True
        meant = [self.port.handle(event) for event in inputs]
        return any(meant)

    # -- the library's events

    @_kept
    def on_key_press(self, symbol: int, held: int) -> bool:
        """A key that acts by being pressed is reported; the clipboard's text comes as typed text."""
        pressed = self._keyboard.pressed(symbol, held)
        if pressed is not None:
            self.interface.page_key(pressed.key)
            self._keyboard.spend(self._send([pressed]))
        if pressed == KeyPressed("v", Modifier.CONTROL):
            pasted = printable(self._window.get_clipboard_text())
            self._send([TextEntered(pasted)] if pasted else [])
        return True

    @_kept
    def on_key_release(self, symbol: int, _: int) -> bool:
        """What is written from now on is written anew."""
        self._keyboard.released(symbol)
        return True

    @_kept
    def on_text_motion(self, motion: int) -> bool:
        """An editing key held down repeats."""
        pressed = self._keyboard.repeated(motion)
        if pressed is not None:
            self._send([pressed])
        return True

    @_kept
    def on_text(self, text: str) -> bool:
        """Characters as the system composed them: a key that acts by what it writes, else typed text."""
        typed = printable(self._system.whole(text))
        pressed = self._keyboard.written(typed)
        if pressed is not None:
            self._keyboard.spend(self._send([pressed]))
        if typed and self._keyboard.types:
            self._send([TextEntered(typed)])
        return True

    def on_activate(self) -> bool:
        """What was drawn before the window was there may not have been shown."""
        self._dirty = True
        return True

    def on_deactivate(self) -> bool:
        """Which keys are let go is told to another window now."""
        self._keyboard.left()
        return True

    @_kept
    def on_mouse_press(self, x: float, y: float, button: int, _: int) -> bool:
        """The main button takes hold."""
        if button == self._library.window.mouse.LEFT:
            self._send(self.interface.press(*self._point(x, y)))
        return True

    @_kept
    def on_mouse_drag(self, x: float, y: float, _dx: float, _dy: float, buttons: int, _: int) -> bool:
        """What is held follows."""
        if buttons & self._library.window.mouse.LEFT:
            self._send(self.interface.drag(*self._point(x, y)))
        return True

    @_kept
    def on_mouse_release(self, x: float, y: float, button: int, _: int) -> bool:
        """What was held is let go."""
        if button == self._library.window.mouse.LEFT:
            self._send(self.interface.release(*self._point(x, y)))
            self._hover(x, y)
        return True

    @_kept
    def on_mouse_motion(self, x: float, y: float, _dx: float, _dy: float) -> bool:
        """Only the look of things changes; what is held was let go where another window heard of it."""
        if self.interface.holding:
            self._send(self.interface.let_go())
        self._hover(x, y)
        return True

    @_kept
    def on_mouse_leave(self, _x: float, _y: float) -> bool:
        """Nothing is under the pointer any more."""
        self._dirty |= self.interface.move(-1.0, -1.0)
        return True

    def _hover(self, x: float, y: float) -> None:
        point = self._point(x, y)
        self._dirty |= self.interface.move(*point)
        cursor = self.interface.cursor(*point)
        if cursor != self._cursor:
            self._cursor = cursor
            window = self._window
            names = {"hand": window.CURSOR_HAND, "text": window.CURSOR_TEXT, "": window.CURSOR_DEFAULT}
            window.set_mouse_cursor(window.get_system_mouse_cursor(names[cursor]))

    @_kept
    def on_mouse_scroll(self, x: float, y: float, _: float, notches: float) -> bool:
        """The wheel zooms or scrolls."""
        self._send(self.interface.wheel(*self._point(x, y), notches))
        return True

    def on_draw(self) -> bool:
        """While the system moves or resizes the window, the library asks for frames, and shows them."""
        if not self._closing:
            self.paint(shown=False)
        return True

    def on_resize(self, _width: int, _height: int) -> bool:
        """The layout follows."""
        self._dirty = True
        return True

    def on_expose(self) -> bool:
        """What was covered must be drawn again."""
        self._dirty = True
        return True

    def on_scale(self, _scale: float, _dpi: int) -> bool:
        """The window came to a screen of another density."""
        keep_least_size(self._window, self._system.screen_of(self._window), self._system)
        self._dirty = True
        return True

    def on_close(self) -> bool:
        """The port decides, the library does not close by itself; a port that fails keeps nobody."""
        try:
            self._send([CloseRequested()])
        except Exception as error:
            self.fail(error)
            self.close()
        return True


def hold_collection(moving: bool) -> None:
    """Search for unused memory only while nothing moves: in motion it would be seen as a hitch."""
    if moving:
        gc.disable()
    elif not gc.isenabled():
        gc.enable()


def run(
    make_port: Callable[[], Port],
    title: str = words.PROGRAM,
    size: tuple[int, int] = (1280, 800),
    end: Callable[[], object] = lambda: None,
) -> None:
    """Open the window and stay until it is closed. Raises NoWindow when none can be opened here.

    ``make_port`` is called once there is a window, so that nothing is begun where there can be none. The
    window is shown with its first frame. ``end`` is called where the system ends the session or the process
    itself, so that this may never return.
    """
    system_here().introduce()
    library, opened = open_window(title, size)
    window = Window(library, opened)
    window.hear_of_the_end(end)
    window.join(make_port())
    window.run()
