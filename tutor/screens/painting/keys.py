"""The keys of painting."""

from __future__ import annotations

from tutor.cube.stickers import COLOUR_NAMES
from tutor.screens.painting import words
from tutor.screens.painting.commands import NAME, MoveCursor, Paint, PaintNamed, PaintNumbered
from tutor.screens.painting.state import Heading
from tutor.session.binding import Binding
from tutor.session.commands import Act, Command
from tutor.session.keys import second_key
from tutor.ui.inputs import Modifier

_CONTROL = Modifier.CONTROL


def _key(key: str, command: Command, says: str, held: Modifier = Modifier.NONE, former: str = "") -> Binding:
    called = f"painting: {says}"
    return Binding(key, command, says, words.KEYS, modifiers=held, called=called, room=NAME, former=former)


_ERASE = _key("delete", Paint.ERASE, words.KEY_ERASE)

KEYS = (
    *(_key(name[0], PaintNamed(name), words.key_colour(name)) for name in COLOUR_NAMES),
    *(
        _key(str(place + 1), PaintNumbered(place), words.key_place(place + 1))
        for place in range(len(COLOUR_NAMES))
    ),
    _key("space", Paint.HERE, words.KEY_BRUSH),
    _ERASE,
    second_key("backspace", _ERASE),
    _key("backspace", Paint.ERASE_BEFORE, words.KEY_ERASE_BEFORE),
    *(_key(way.name.lower(), MoveCursor(way), words.key_heading(way.name.lower())) for way in Heading),
    _key("z", Paint.UNDO, words.KEY_UNDO, _CONTROL, "painting: take back"),
    _key("y", Paint.REDO, words.KEY_REDO, _CONTROL, "painting: make again"),
    _key("z", Paint.REDO, words.KEY_REDO, _CONTROL | Modifier.SHIFT, "painting: make again"),
    _key("c", Paint.COPY, words.KEY_COPY, _CONTROL),
    _key("v", Act.WRITE, words.KEY_WRITE, _CONTROL),
)
