"""The window's events and drawing, on a window without a display."""

from __future__ import annotations

from collections.abc import Container, Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
from msgspec.structs import replace

from render.offscreen import shared_context
from render.system.on_mac import MacSystem
from render.window.keyboard import Keyboard, printable
from render.window.window import CARDS, Frame, Window
from tests.render.named import Named
from tests.render.sample_views import home, lesson
from tutor.ui.inputs import (
    Activated,
    CloseRequested,
    Input,
    KeyPressed,
    Looked,
    LookReleased,
    Modifier,
    TextEntered,
)
from tutor.ui.view import Camera, Face, Turning, View

SIZE = (960, 640)


@dataclass
class Port:
    """Notes what happens, and fails when told to."""

    view: View = field(default_factory=home)
    moving: bool = False
    changed: bool = False
    fails: str = ""
    events: list[Input] = field(default_factory=list)
    means: Container[Input] = ()
    """The inputs that do something."""
    errors: list[Exception] = field(default_factory=list)
    frames: int = 0

    def opened(self, window: Window) -> None:
        self.window = window

    def handle(self, event: Input) -> bool:
        self.events.append(event)
        if self.fails == "handle":
            raise KeyError("no such bay")
        return event in self.means

    def frame(self) -> Frame:
        self.frames += 1
        if self.fails == "frame":
            raise KeyError("no such view")
        return Frame(self.view, self.moving)

    def poll(self) -> bool:
        if self.fails == "poll":
            raise KeyError("no answer")
        return self.changed

    def failed(self, error: Exception) -> None:
        self.errors.append(error)


@dataclass
class Opened:
    port: Port
    window: Window
    library: Any
    real: Any

    def dispatch(self, name: str, *arguments: Any) -> None:
        """An event as the system's loop would bring it."""
        self.library.event.EventDispatcher.dispatch_event(self.real, name, *arguments)

    def tick(self) -> int:
        """One turn of the loop; the number of frames it drew."""
        before = self.port.frames
        self.window._tick(0.0)
        return self.port.frames - before


@pytest.fixture
def opened() -> Iterator[Opened]:
    shared_context()
    import pyglet
    from pyglet import gl

    before = gl.current_context
    real = pyglet.window.Window(*SIZE, visible=False)
    port = Port()
    window = Window(pyglet, real)
    window.join(port)
    yield Opened(port, window, pyglet, real)
    real.switch_to()
    window._shut()
    if before is not None:
        before.set_current()


def keys(opened: Opened) -> Any:
    return opened.library.window.key


def test_a_key_is_reported_by_our_name_with_its_modifiers(opened: Opened) -> None:
    opened.dispatch("on_key_press", keys(opened).R, keys(opened).MOD_SHIFT)
    opened.dispatch("on_key_press", keys(opened).PAGEDOWN, 0)
    assert opened.port.events == [KeyPressed("r", Modifier.SHIFT), KeyPressed("page down")]


def test_escape_is_reported_and_does_not_close_the_window(opened: Opened) -> None:
    opened.dispatch("on_key_press", keys(opened).ESCAPE, 0)
    assert opened.port.events == [KeyPressed("escape")]
    assert opened.real.context is not None


def test_typed_characters_are_reported_without_control_codes(opened: Opened) -> None:
    opened.dispatch("on_text", "é")
    opened.dispatch("on_text", "\r")
    opened.dispatch("on_text", "\x1a")
    assert opened.port.events == [TextEntered("é")]


@dataclass
class Stroke:
    """A key as the library tells of it on X11: pressed, each time what it writes, let go."""

    opened: Opened
    symbol: int
    text: str
    held: int = 0
    text_first: bool = False

    def give(self, times: int = 1, *, pressed: bool = True) -> None:
        told = [("on_key_press", self.symbol, self.held)] if pressed else []
        written: list[tuple[Any, ...]] = [("on_text", self.text)] * times
        told_in_order = [*written, *told] if self.text_first else [*told, *written]
        for event in (*told_in_order, ("on_key_release", self.symbol, self.held)):
            self.opened.dispatch(*event)


ORDERS = pytest.mark.parametrize("text_first", [False, True])


@ORDERS
def test_a_digit_is_the_key_that_writes_it_whatever_is_held_for_it(opened: Opened, text_first: bool) -> None:
    shift = keys(opened).MOD_SHIFT
    # French: 2 is Shift and the key of é. German: [ is AltGr, which X reports as Mod5, and the key of 8.
    Stroke(opened, keys(opened)._2, "2", shift, text_first).give()
    Stroke(opened, keys(opened).user_key(11), "é", 0, text_first).give()
    Stroke(opened, keys(opened).BRACKETLEFT, "[", keys(opened).MOD_SCROLLLOCK, text_first).give()
    Stroke(opened, keys(opened).PLUS, "+", shift, text_first).give()
    Stroke(opened, keys(opened).NUM_DIVIDE, "/", 0, text_first).give()
    assert opened.port.events == [
        *(KeyPressed("2"), TextEntered("2"), TextEntered("é")),
        *(KeyPressed("bracket left"), TextEntered("["), KeyPressed("equal"), TextEntered("+")),
        *(KeyPressed("slash"), TextEntered("/")),
    ]


@ORDERS
def test_a_key_that_did_something_types_nothing(opened: Opened, text_first: bool) -> None:
    opened.port.means = (KeyPressed("slash"), KeyPressed("2"))
    Stroke(opened, keys(opened).SLASH, "/", 0, text_first).give()
    Stroke(opened, keys(opened)._2, "2", 0, text_first).give()
    assert opened.port.events == [KeyPressed("slash"), KeyPressed("2")]


def test_a_letter_that_did_something_types_nothing_and_with_shift_stays_a_letter(opened: Opened) -> None:
    opened.port.means = (KeyPressed("m"),)
    Stroke(opened, keys(opened).M, "m").give(times=4)
    Stroke(opened, keys(opened).R, "R", keys(opened).MOD_SHIFT).give()
    assert opened.port.events == [KeyPressed("m"), KeyPressed("r", Modifier.SHIFT), TextEntered("R")]


def test_a_digit_held_down_acts_once_and_is_typed_each_time(opened: Opened) -> None:
    Stroke(opened, keys(opened)._2, "2").give(times=3)
    assert opened.port.events == [KeyPressed("2"), *[TextEntered("2")] * 3]


def test_each_stroke_of_a_digit_acts_also_when_its_press_is_not_told(opened: Opened) -> None:
    opened.port.means = (KeyPressed("2"),)
    stroke = Stroke(opened, keys(opened)._2, "2", keys(opened).MOD_SHIFT)
    stroke.give()
    stroke.give(times=2, pressed=False)
    stroke.give()
    assert opened.port.events == [KeyPressed("2")] * 3


def test_a_digit_that_is_still_held_when_a_letter_is_let_go_acts_once(opened: Opened) -> None:
    opened.port.means = (KeyPressed("2"),)
    opened.dispatch("on_key_press", keys(opened)._2, 0)
    opened.dispatch("on_text", "2")
    opened.dispatch("on_key_release", keys(opened).R, 0)
    opened.dispatch("on_text", "2")
    assert opened.port.events == [KeyPressed("2")]


def test_with_control_a_sign_is_a_key_by_itself_and_shift_is_left_out(opened: Opened) -> None:
    control, shift = keys(opened).MOD_CTRL, keys(opened).MOD_SHIFT
    opened.dispatch("on_key_press", keys(opened).PERIOD, control)
    opened.dispatch("on_key_press", keys(opened).PERIOD, control | shift)
    opened.dispatch("on_key_press", keys(opened).Z, control | shift)
    assert opened.port.events == [
        *[KeyPressed("period", Modifier.CONTROL)] * 2,
        KeyPressed("z", Modifier.CONTROL | Modifier.SHIFT),
    ]


def test_a_key_held_down_repeats_but_its_first_press_counts_once(opened: Opened) -> None:
    opened.dispatch("on_key_press", keys(opened).BACKSPACE, 0)
    for _ in range(3):
        opened.dispatch("on_text_motion", keys(opened).MOTION_BACKSPACE)
    assert opened.port.events == [KeyPressed("backspace")] * 3


def test_a_motion_told_before_its_press_counts_once_each_time(opened: Opened) -> None:
    backspace, motion = keys(opened).BACKSPACE, keys(opened).MOTION_BACKSPACE
    for _ in range(2):
        # The order on a Mac: the first motion, the press, and one motion each time the key repeats.
        opened.dispatch("on_text_motion", motion)
        opened.dispatch("on_key_press", backspace, 0)
        opened.dispatch("on_key_release", backspace, 0)
    assert opened.port.events == [KeyPressed("backspace")] * 2
    opened.dispatch("on_text_motion", motion)
    opened.dispatch("on_key_press", backspace, 0)
    for _ in range(3):
        opened.dispatch("on_text_motion", motion)
    assert opened.port.events == [KeyPressed("backspace")] * 6


def test_a_motion_that_another_key_gives_is_none(opened: Opened) -> None:
    control = keys(opened).MOD_CTRL
    # A Mac's fields for text take Ctrl+H for Backspace and Ctrl+B for Left (Apple's StandardKeyBinding.dict).
    for symbol, motion in (("H", "MOTION_BACKSPACE"), ("B", "MOTION_LEFT")):
        for _ in range(2):
            opened.dispatch("on_text_motion", getattr(keys(opened), motion))
            opened.dispatch("on_key_press", getattr(keys(opened), symbol), control)
            opened.dispatch("on_text_motion", getattr(keys(opened), motion))
        opened.dispatch("on_key_release", getattr(keys(opened), symbol), control)
    assert opened.port.events == [
        *[KeyPressed("h", Modifier.CONTROL)] * 2,
        *[KeyPressed("b", Modifier.CONTROL)] * 2,
    ]


def test_a_key_let_go_elsewhere_or_with_cmd_is_not_held_any_more(opened: Opened) -> None:
    left, motion = keys(opened).LEFT, keys(opened).MOTION_LEFT
    opened.dispatch("on_key_press", left, 0)
    opened.dispatch("on_deactivate")
    opened.dispatch("on_text_motion", motion)
    opened.dispatch("on_key_press", left, 0)
    opened.dispatch("on_key_release", left, 0)
    # With Cmd held, a Mac tells of no key that is let go.
    opened.dispatch("on_key_press", left, keys(opened).MOD_COMMAND | keys(opened).MOD_ACCEL)
    opened.dispatch("on_text_motion", motion)
    opened.dispatch("on_key_press", left, 0)
    assert [event.key for event in opened.port.events if isinstance(event, KeyPressed)] == ["left"] * 4


@pytest.fixture
def on_a_mac(opened: Opened) -> Opened:
    opened.window._keyboard = Keyboard(opened.library, opened.real, MacSystem())
    return opened


def test_what_is_typed_before_the_press_is_told_is_typed_in_the_field_that_a_letter_opens(
    on_a_mac: Opened,
) -> None:
    port, key = on_a_mac.port, keys(on_a_mac)
    port.means = (KeyPressed("m"), KeyPressed("2"))
    on_a_mac.dispatch("on_text", "m")
    on_a_mac.dispatch("on_key_press", key.M, 0)
    on_a_mac.dispatch("on_text", "m")
    # Still held while the next is struck.
    on_a_mac.dispatch("on_text", "R")
    on_a_mac.dispatch("on_key_press", key.R, key.MOD_SHIFT)
    on_a_mac.dispatch("on_key_release", key.M, 0)
    on_a_mac.dispatch("on_key_release", key.R, 0)
    Stroke(on_a_mac, key._2, "2", 0, text_first=True).give(times=3)
    on_a_mac.dispatch("on_text", "m")
    assert port.events == [
        *(TextEntered("m"), KeyPressed("m"), TextEntered("R"), KeyPressed("r", Modifier.SHIFT)),
        *(KeyPressed("2"), TextEntered("m")),
    ]


def test_the_first_picture_is_drawn_again_once_the_window_is_there(opened: Opened) -> None:
    assert (opened.tick(), opened.tick()) == (1, 0)
    opened.dispatch("on_activate")
    assert opened.tick() == 1


def test_pasting_reports_the_clipboard(opened: Opened, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opened.real, "get_clipboard_text", lambda: "R U\nR'")
    opened.dispatch("on_key_press", keys(opened).V, keys(opened).MOD_CTRL)
    assert opened.port.events == [KeyPressed("v", Modifier.CONTROL), TextEntered("R U R'")]


def test_a_click_is_reported_as_the_buttons_action(opened: Opened) -> None:
    opened.tick()
    scene = opened.window.interface.scene
    assert scene is not None
    rect = next(box.rect for _, box in scene.boxes() if box.action == Named("continue"))
    x, y = rect.x + 10, SIZE[1] - rect.y - 10
    left = opened.library.window.mouse.LEFT
    opened.dispatch("on_mouse_press", x, y, left, 0)
    opened.dispatch("on_mouse_release", x, y, left, 0)
    assert opened.port.events == [Activated(Named("continue"))]


def test_what_is_let_go_where_another_window_hears_it_is_let_go_when_the_pointer_comes_back(
    opened: Opened,
) -> None:
    # Windows takes the pointer from a window whenever another comes in front of it, and tells it of no
    # release (learn.microsoft.com: WM_CAPTURECHANGED).
    opened.port.view = lesson()
    opened.tick()
    scene, left = opened.window.interface.scene, opened.library.window.mouse.LEFT
    assert scene is not None
    assert scene.stage is not None
    x, y = scene.stage.x + 4, SIZE[1] - scene.stage.y - 4
    opened.dispatch("on_mouse_press", x, y, left, 0)
    opened.dispatch("on_mouse_drag", x + 40, y, 40, 0, left, 0)
    opened.dispatch("on_mouse_motion", x + 60, y, 20, 0)
    opened.dispatch("on_mouse_motion", x + 80, y, 20, 0)
    assert [type(event) for event in opened.port.events] == [Looked, LookReleased]


@pytest.mark.parametrize("dragged", [0, 8])
def test_a_button_whose_release_another_window_hears_is_not_pressed(opened: Opened, dragged: int) -> None:
    opened.tick()
    scene, left = opened.window.interface.scene, opened.library.window.mouse.LEFT
    assert scene is not None
    rect = next(box.rect for _, box in scene.boxes() if box.action == Named("continue"))
    x, y = rect.x + 10, SIZE[1] - rect.y - 10
    opened.dispatch("on_mouse_press", x, y, left, 0)
    if dragged:
        opened.dispatch("on_mouse_drag", x + dragged, y, dragged, 0, left, 0)
    opened.dispatch("on_mouse_motion", x, y, 1, 0)
    assert opened.port.events == []
    assert opened.window.interface.pointer.pressed is None
    assert not opened.window.interface.holding


def test_closing_is_asked_for_and_left_to_the_port(opened: Opened) -> None:
    opened.dispatch("on_close")
    assert opened.port.events == [CloseRequested()]
    assert opened.real.context is not None


def test_an_idle_window_draws_nothing(opened: Opened) -> None:
    assert opened.tick() == 1
    assert [opened.tick() for _ in range(5)] == [0] * 5


def test_a_frame_is_drawn_after_an_input_an_answer_and_while_something_moves(opened: Opened) -> None:
    opened.tick()
    opened.dispatch("on_key_press", keys(opened).R, 0)
    assert [opened.tick(), opened.tick()] == [1, 0]
    opened.port.changed = True
    assert opened.tick() == 1
    opened.port.changed, opened.port.moving = False, True
    opened.dispatch("on_expose")
    assert [opened.tick() for _ in range(3)] == [1] * 3
    opened.port.moving = False
    assert [opened.tick(), opened.tick()] == [1, 0]


@pytest.mark.parametrize("where", ["handle", "frame", "poll"])
def test_an_exception_goes_to_the_port_and_the_window_lives_on(opened: Opened, where: str) -> None:
    opened.tick()
    opened.port.fails = where
    opened.dispatch("on_key_press", keys(opened).R, 0)
    opened.tick()
    assert [type(error) for error in opened.port.errors][:1] == [KeyError]
    opened.port.fails = ""
    opened.port.events.clear()
    opened.dispatch("on_key_press", keys(opened).U, 0)
    assert opened.port.events == [KeyPressed("u")]
    assert opened.tick() == 1


def test_a_frame_that_fails_is_not_tried_over_and_over(opened: Opened) -> None:
    opened.tick()
    opened.port.fails, opened.port.moving, opened.port.changed = "frame", True, True
    opened.tick()
    opened.port.changed = False
    # Tried again for the card that tells of it, over the screen and alone.
    assert sum(opened.tick() for _ in range(5)) == CARDS
    assert len(opened.port.errors) == 1 + CARDS
    assert not opened.window._closing


def test_a_window_in_which_nothing_could_ever_be_drawn_ends_with_what_failed(
    opened: Opened, monkeypatch: pytest.MonkeyPatch
) -> None:
    ended: list[bool] = []

    def loop(interval: object) -> None:
        while not ended:
            opened.window._tick(0.0)

    monkeypatch.setattr(opened.library.app, "run", loop)
    monkeypatch.setattr(opened.library.app, "exit", lambda: ended.append(True))
    monkeypatch.setattr(opened.window, "_shut", lambda: None)
    opened.port.fails = "frame"
    with pytest.raises(KeyError, match="no such view"):
        opened.window.run()
    assert len(opened.port.errors) == 1 + CARDS


@pytest.mark.parametrize("software", [False, True])
def test_with_a_graphics_card_all_frames_are_smooth_without_one_those_at_rest(
    opened: Opened, monkeypatch: pytest.MonkeyPatch, software: bool
) -> None:
    opened.window._software = software
    opened.tick()
    smooth: list[bool] = []
    monkeypatch.setattr(opened.window._screen, "draw", lambda *given: smooth.append(given[-1]))
    view = lesson()
    assert view.stage is not None
    opened.port.moving = True
    opened.dispatch("on_expose")
    for angle in (0.1, 0.2, 0.3):
        opened.port.view = replace(view, stage=replace(view.stage, turning=Turning(Face.R, angle)))
        opened.tick()
    opened.port.view, opened.port.moving = view, False
    assert opened.tick() == 1
    assert sum(opened.tick() for _ in range(5)) == software
    assert smooth == ([False] * 4 + [True] if software else [True] * 4)


def test_what_is_drawn_roughly_while_the_camera_moves_is_drawn_smooth_once_it_rests(
    opened: Opened, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened.window._software = True
    view = lesson()
    assert view.stage is not None
    opened.port.view = view
    opened.tick()
    opened.dispatch("on_expose")
    smooth: list[bool] = []
    screen = opened.window._screen
    assert screen is not None
    monkeypatch.setattr(screen, "draw", lambda *given: smooth.append(given[-1]))
    opened.port.view = replace(view, stage=replace(view.stage, camera=Camera(10.0, 20.0)))
    assert sum(opened.tick() for _ in range(5)) == 2
    assert smooth == [False, True]


def test_a_port_that_fails_keeps_nobody_from_leaving(opened: Opened) -> None:
    opened.port.fails = "handle"
    opened.dispatch("on_close")
    assert opened.window._closing
    assert len(opened.port.errors) == 1


def test_even_a_port_that_fails_at_telling_leaves_the_window_open(
    opened: Opened, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def failed(error: Exception) -> None:
        raise RuntimeError("nothing to tell it on")

    monkeypatch.setattr(opened.port, "failed", failed)
    opened.port.fails = "frame"
    opened.tick()
    assert "nothing to tell it on" in caplog.text
    assert not opened.window._closing


def test_what_cannot_be_seen_is_not_typed() -> None:
    assert printable("R U\tR'\r\nU2\x00") == "R U R' U2"


def test_the_window_fills_the_screen_when_asked_and_only_when_that_changes_something(opened: Opened) -> None:
    asked: list[bool] = []
    opened.real.set_fullscreen = lambda full, screen: asked.append(full)
    opened.window.fill_screen(False)
    assert asked == []
    opened.window.fill_screen(True)
    assert asked == [True]
