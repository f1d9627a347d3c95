"""From the window library's events of the keyboard to keys by our names, looked up when a window is open.

The library tells of a key twice: which it is, and then what it writes. Letters and editing keys act when they
are pressed. Digits and signs act when they are written, because where they lie differs from keyboard to
keyboard: what is one key on one is Shift and another key, or AltGr and a third, elsewhere.
"""

from __future__ import annotations

from types import ModuleType
from typing import Any

from render.system.system import System
from tutor.ui.inputs import WRITTEN_KEYS, KeyPressed, Modifier

_NAMED = {
    "SPACE": "space",
    "ENTER": "enter",
    "RETURN": "enter",
    "NUM_ENTER": "enter",
    "ESCAPE": "escape",
    "TAB": "tab",
    "BACKSPACE": "backspace",
    "DELETE": "delete",
    "LEFT": "left",
    "RIGHT": "right",
    "UP": "up",
    "DOWN": "down",
    "HOME": "home",
    "END": "end",
    "PAGEUP": "page up",
    "PAGEDOWN": "page down",
    "APOSTROPHE": "apostrophe",
    "COMMA": "comma",
    "PERIOD": "period",
    "SLASH": "slash",
    "MINUS": "minus",
    "EQUAL": "equal",
    "PLUS": "equal",
    "BRACKETLEFT": "bracket left",
    "BRACKETRIGHT": "bracket right",
}


def key_names(library: ModuleType) -> dict[int, str]:
    """From key numbers to our names. ``library`` holds the numbers as constants (``pyglet.window.key``)."""
    names = {getattr(library, constant): name for constant, name in _NAMED.items()}
    names |= {getattr(library, f"F{number}"): f"f{number}" for number in range(1, 13)}
    names |= {getattr(library, letter.upper()): letter for letter in "abcdefghijklmnopqrstuvwxyz"}
    for digit in "0123456789":
        names[getattr(library, f"_{digit}")] = digit
        names[getattr(library, f"NUM_{digit}")] = digit
    return names


def motion_names(library: ModuleType) -> dict[int, str]:
    """From the library's repeating editing motions to our names of the keys that cause them."""
    return {
        library.MOTION_LEFT: "left",
        library.MOTION_RIGHT: "right",
        library.MOTION_UP: "up",
        library.MOTION_DOWN: "down",
        library.MOTION_BACKSPACE: "backspace",
        library.MOTION_DELETE: "delete",
    }


def modifiers_of(held: int, library: ModuleType) -> Modifier:
    """The modifiers held down; the platform's own key for shortcuts counts as Control."""
    modifiers = Modifier.NONE
    if held & library.MOD_SHIFT:
        modifiers |= Modifier.SHIFT
    if held & (library.MOD_CTRL | library.MOD_ACCEL):
        modifiers |= Modifier.CONTROL
    if held & (library.MOD_ALT | library.MOD_OPTION):
        modifiers |= Modifier.ALT
    return modifiers


def printable(text: str) -> str:
    """The text without control characters; line ends and tabs become spaces."""
    spaced = text.replace("\r\n", " ").replace("\n", " ").replace("\t", " ")
    return "".join(character for character in spaced if character.isprintable())


_WRITTEN = frozenset(WRITTEN_KEYS.values())
_LEFT_TAB = 0xFE20
"""What X calls Tab with Shift: ISO_Left_Tab (X11/keysymdef.h)."""


def tab_with_shift(library: Any, window: Any) -> dict[int, str]:
    """The number by which an X11 window reports Tab with Shift, which the library has no name for."""
    display = getattr(window, "_x_display", None)
    if display is None:
        return {}
    from pyglet.libs.x11.xlib import XKeysymToKeycode

    code = XKeysymToKeycode(display, _LEFT_TAB)
    return {library.window.key.user_key(code): "tab"} if code else {}


class Keyboard:
    """What the events of a window's keyboard mean; each method takes one event."""

    def __init__(self, library: Any, window: Any, system: System) -> None:
        """``library`` is the window library, ``window`` one of its windows."""
        self._library, self._window, self._system = library.window.key, window, system
        self._names = key_names(self._library) | tab_with_shift(library, window)
        self._motions = motion_names(self._library)
        self._down: set[str] = set()
        self._fresh = self._early = ""
        self._last_text = self._spent_text = ""
        self._written: set[str] = set()
        self._spent = False

    def pressed(self, symbol: int, held: int) -> KeyPressed | None:
        """The key that acts by being pressed; None for others, also for those that act by what they write.

        With Control or Alt nothing is written; then the latter act here. With AltGr something else is
        written, and acts then if it acts at all.
        """
        if not self._system.writes_first:
            self._spent = False
            self._written.clear()
        name = self._names.get(symbol)
        if name is None:
            return None
        modifiers = self._system.held(modifiers_of(held, self._library))
        self._hold(name, modifiers)
        if self._system.writes_with(modifiers):
            if len(name) == 1 or name in _WRITTEN:
                return None
            modifiers &= Modifier.SHIFT
        if name not in _WRITTEN:
            return KeyPressed(name, modifiers)
        modifiers &= ~Modifier.SHIFT
        return KeyPressed(name, modifiers) if modifiers else None

    def _hold(self, name: str, modifiers: Modifier) -> None:
        """The key repeats from now on; a motion that came before its press was the press itself."""
        self._fresh = "" if name == self._early else name
        self._early = ""
        if not modifiers & (Modifier.CONTROL | Modifier.ALT):
            # With Cmd held, macOS does not tell that the key is let go.
            self._down.add(name)

    def written(self, text: str) -> KeyPressed | None:
        """The key that acts by what it writes, once until it is let go; None for others."""
        if self._system.writes_first:
            self._spent, self._last_text = text != "" and text == self._spent_text, text
        name = WRITTEN_KEYS.get(text)
        if name is None or text in self._written:
            return None
        self._written.add(text)
        return KeyPressed(name)

    def spend(self, meant: bool) -> None:
        """Whether the key just reported did something: then nothing is typed with its stroke."""
        self._spent = meant
        self._spent_text = self._last_text if meant else ""

    @property
    def types(self) -> bool:
        """Whether what was written last is typed text."""
        return not self._spent

    def released(self, symbol: int) -> None:
        """A key was let go: what it wrote is a new stroke when it is written again."""
        name = self._names.get(symbol)
        if name is None or name in _WRITTEN:
            self._written.clear()
        self._down.discard(name or "")
        self._spent_text = ""
        # When Shift was let go before the key, the library on X11 takes the key for held on and hears it no
        # more, since it knows the key by another number with Shift.
        held_on: set[int] = getattr(self._window, "pressed_keys", set())
        held_on -= {number for number, called in self._names.items() if called == name}

    def left(self) -> None:
        """Another window has the keyboard now, and is told which keys are let go."""
        self._down.clear()
        self._written.clear()

    def repeated(self, motion: int) -> KeyPressed | None:
        """An editing key held down; the motion that comes with its press, before or after it, is none."""
        name, fresh = self._motions.get(motion), self._fresh
        self._fresh = ""
        if name is None or name == fresh:
            return None
        if name not in self._down:
            self._early = name
            return None
        return KeyPressed(name)
