"""The commands that the painting room understands, and the effect that it asks for."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.screens.painting.state import Heading
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect

NAME = "painting"


class PaintCommand(RoomCommand):
    """A command of this room alone."""

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
    """Paint the sticker under the cursor in the colour of this name, and move to the next one."""

    name: str


class PaintNumbered(PaintCommand, Struct, frozen=True):
    """Paint the sticker under the cursor in the colour at this place of the palette, counted from 0."""

    place: int


class MoveCursor(PaintCommand, Struct, frozen=True):
    """Move the cursor to the neighbouring sticker."""

    heading: Heading


class Paint(PaintCommand, Enum):
    """Commands of painting that carry no values."""

    HERE = "paint with the colour in hand, and move to the next sticker"
    ERASE = "erase a sticker"
    ERASE_BEFORE = "go back and erase"
    UNDO = "undo"
    REDO = "redo"
    CLEAR = "erase all"
    FILL = "paint it solved"
    MEND = "make the suggested change"
    COPY = "copy the position"
    SOLVE = "solve this cube"

    @property
    def goes_back(self) -> bool:
        """Whether it undoes something."""
        return self in (Paint.UNDO, Paint.REDO)


class PaintingFound(PaintCommand, Struct, frozen=True):
    """What a learner painted another time, as text; empty for nothing."""

    learner: str
    text: str


class KeepPainting(Effect, Struct, frozen=True):
    """Save a learner's painting for the next time, as text."""

    text: str
    learner: str


class LookForPainting(Effect, Struct, frozen=True):
    """Read what a learner painted another time; PaintingFound is the reply."""

    learner: str


Own = PaintSticker | TakeColour | PaintNamed | PaintNumbered | MoveCursor | Paint | PaintingFound
PaintingEffect = KeepPainting | LookForPainting
