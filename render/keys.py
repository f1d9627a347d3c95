"""Our names for the keys of the window library, looked up only when a window is open."""

from __future__ import annotations

from types import ModuleType

from tutor.session.inputs import Modifier

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
