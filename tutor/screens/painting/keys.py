"""The keys of painting."""

from __future__ import annotations

from tutor.cube.stickers import COLOUR_NAMES
from tutor.screens.painting.commands import NAME, MoveCursor, Paint, PaintNamed, PaintNumbered
from tutor.screens.painting.state import Heading
from tutor.session.binding import Binding
from tutor.session.commands import Act, Command
from tutor.ui.inputs import Modifier

_CONTROL = Modifier.CONTROL


def _key(key: str, command: Command, says: str, held: Modifier = Modifier.NONE) -> Binding:
    called = f"painting: {says}"
    return Binding(key, command, says, "Painting", modifiers=held, called=called, room=NAME)


KEYS = (
    *(_key(name[0], PaintNamed(name), f"paint {name} and go on") for name in COLOUR_NAMES),
    *(
        _key(str(place + 1), PaintNumbered(place), f"paint with colour {place + 1} and go on")
        for place in range(len(COLOUR_NAMES))
    ),
    _key("space", Paint.HERE, "paint with the colour in hand and go on"),
    _key("delete", Paint.ERASE, "erase"),
    _key("backspace", Paint.ERASE_BEFORE, "go back and erase"),
    *(_key(way.name.lower(), MoveCursor(way), f"go {way.name.lower()}") for way in Heading),
    _key("z", Paint.UNDO, "undo", _CONTROL),
    _key("y", Paint.REDO, "redo", _CONTROL),
    _key("z", Paint.REDO, "redo", _CONTROL | Modifier.SHIFT),
    _key("c", Paint.COPY, "copy as text", _CONTROL),
    _key("v", Act.WRITE, "write or paste", _CONTROL),
)
