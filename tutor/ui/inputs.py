"""What a person does, as plain values: the only thing the window reports.

The window turns the library's events into these. It knows boxes and picking, so a press on a button arrives
as the button's action, a press on the cube as a sticker number, and a drag on a sticker as a layer's angle.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Flag

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.ui.action import Action


class Modifier(Flag):
    """Keys held down with another."""

    NONE = 0
    SHIFT = 1
    CONTROL = 2
    ALT = 4


class KeyPressed(Struct, frozen=True):
    """A key by our own name: a single lower-case letter, a digit, or one of KEY_NAMES.

    A digit or a sign is the key that writes it on the keyboard in use, so Shift is never held with it.
    """

    key: str
    modifiers: Modifier = Modifier.NONE


KEY_NAMES = (
    "space", "enter", "escape", "tab", "backspace", "delete", "left", "right", "up", "down", "home", "end",
    "page up", "page down", "f1", "f2", "f3", "f4", "f5", "f6", "f7", "f8", "f9", "f10", "f11", "f12",
    "apostrophe", "comma", "period", "slash", "minus", "equal", "bracket left", "bracket right",
)  # fmt: skip
"""Names of the keys that are neither letters nor digits."""

WRITTEN_KEYS: Mapping[str, str] = {
    **{digit: digit for digit in "0123456789"},
    "'": "apostrophe", ",": "comma", ".": "period", "/": "slash", "-": "minus", "=": "equal", "+": "equal",
    "[": "bracket left", "]": "bracket right",
}  # fmt: skip
"""The keys that are known by what they write, wherever they lie on a keyboard, by the character."""


class TextEntered(Struct, frozen=True):
    """Characters typed or pasted, as the system composed them."""

    text: str


class Activated(Struct, frozen=True):
    """A button, tile or field with this action was pressed."""

    action: Action


class StickerPressed(Struct, frozen=True):
    """A sticker was clicked, on the cube or in a mirror; numbered as in ``view``."""

    sticker: int


class LayerDragged(Struct, frozen=True):
    """A layer follows the hand: ``angle`` in radians, clockwise positive seen from outside ``face``."""

    face: Face
    angle: float


class LayerReleased(Struct, frozen=True):
    """The hand let the layer go at this angle."""

    face: Face
    angle: float


class Looked(Struct, frozen=True):
    """The background was dragged: degrees to add to the camera's yaw and pitch."""

    yaw: float
    pitch: float


class LookReleased(Struct, frozen=True):
    """The background was let go; the camera goes back to rest."""


class Zoomed(Struct, frozen=True):
    """The wheel turned by this many notches, positive is nearer."""

    notches: float


class Scrubbed(Struct, frozen=True):
    """The rail's playhead was dragged to this count of turns."""

    position: float


class CloseRequested(Struct, frozen=True):
    """The window's close button."""


Input = (
    KeyPressed
    | TextEntered
    | Activated
    | StickerPressed
    | LayerDragged
    | LayerReleased
    | Looked
    | LookReleased
    | Zoomed
    | Scrubbed
    | CloseRequested
)
