"""What can be asked of painting, and what it asks of the world."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.screens.painting.state import Heading
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect

NAME = "painting"


class PaintCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class PaintSticker(PaintCommand, Struct, frozen=True):
    """Paint this sticker with the colour in hand."""

    sticker: int


class TakeColour(PaintCommand, Struct, frozen=True):
    """Take a colour in hand, by its number; -1 erases."""

    colour: int


class PaintNamed(PaintCommand, Struct, frozen=True):
    """Paint the sticker under the cursor in the colour of this name, and go on."""

    name: str


class PaintNumbered(PaintCommand, Struct, frozen=True):
    """Paint the sticker under the cursor in the colour at this place of the palette (from 0), and go on."""

    place: int


class MoveCursor(PaintCommand, Struct, frozen=True):
    """Go to the neighbouring sticker."""

    heading: Heading


class Paint(PaintCommand, Enum):
    """What else can be done in painting."""

    HERE = "paint with the colour in hand, and go on"
    ERASE = "erase a sticker"
    ERASE_BEFORE = "go back and erase"
    UNDO = "undo"
    REDO = "redo"
    CLEAR = "erase all"
    FILL = "paint it solved"
    MEND = "put right what is suggested"
    COPY = "copy the position"
    SOLVE = "solve this cube"

    @property
    def goes_back(self) -> bool:
        """Whether it undoes something."""
        return self in (Paint.UNDO, Paint.REDO)


class KeepPainting(Effect, Struct, frozen=True):
    """Keep the painting for the next time, as text."""

    text: str


Own = PaintSticker | TakeColour | PaintNamed | PaintNumbered | MoveCursor | Paint
