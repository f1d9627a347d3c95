"""What a person does, as plain values: the only thing the window reports.

The window turns the library's events into these. It knows boxes and picking, so a press on a button arrives
as the button's action, a press on the cube as a sticker number, and a drag on a sticker as a layer's angle.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Flag

from tutor.cube.faces import Face
from tutor.ui.action import Action


class Modifier(Flag):
    """Keys held down with another."""

    NONE = 0
    SHIFT = 1
    CONTROL = 2
    ALT = 4


@dataclass(frozen=True, slots=True)
class KeyPressed:
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


@dataclass(frozen=True, slots=True)
class TextEntered:
    """Characters typed or pasted, as the system composed them."""

    text: str


@dataclass(frozen=True, slots=True)
class Activated:
    """A button, tile or field with this action was pressed."""

    action: Action


@dataclass(frozen=True, slots=True)
class StickerPressed:
    """A sticker was clicked, on the cube or in a mirror; numbered as in ``view``."""

    sticker: int


@dataclass(frozen=True, slots=True)
class LayerDragged:
    """A layer follows the hand: ``angle`` in radians, clockwise positive seen from outside ``face``."""

    face: Face
    angle: float


@dataclass(frozen=True, slots=True)
class LayerReleased:
    """The hand let the layer go at this angle."""

    face: Face
    angle: float


@dataclass(frozen=True, slots=True)
class Looked:
    """The background was dragged: degrees to add to the camera's yaw and pitch."""

    yaw: float
    pitch: float


@dataclass(frozen=True, slots=True)
class LookReleased:
    """The background was let go; the camera goes back to rest."""


@dataclass(frozen=True, slots=True)
class Zoomed:
    """The wheel turned by this many notches, positive is nearer."""

    notches: float


@dataclass(frozen=True, slots=True)
class Scrubbed:
    """The rail's playhead was dragged to this count of turns."""

    position: float


@dataclass(frozen=True, slots=True)
class CloseRequested:
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
