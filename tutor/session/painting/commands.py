"""Commands and effects of painting a cube; ``commands`` joins them to all others."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tutor.session.painting.state import Heading
from tutor.ui.action import Action


@dataclass(frozen=True, slots=True)
class PaintSticker(Action):
    """Paint this sticker with the colour in hand."""

    sticker: int


@dataclass(frozen=True, slots=True)
class TakeColour(Action):
    """Take a colour in hand, by its number; -1 erases."""

    colour: int


@dataclass(frozen=True, slots=True)
class PaintNamed(Action):
    """Paint the sticker under the cursor in the colour of this name, and go on."""

    name: str


@dataclass(frozen=True, slots=True)
class PaintNumbered(Action):
    """Paint the sticker under the cursor in the colour at this place of the palette (from 0), and go on."""

    place: int


@dataclass(frozen=True, slots=True)
class MoveCursor(Action):
    """Go to the neighbouring sticker."""

    heading: Heading


class Paint(Action, Enum):
    """What else can be done in painting."""

    HERE = "paint with the colour in hand, and go on"
    ERASE = "erase a sticker"
    ERASE_BEFORE = "go back and erase"
    UNDO = "take back"
    REDO = "make again"
    CLEAR = "erase all"
    FILL = "paint it solved"
    MEND = "put right what is suggested"
    COPY = "copy the position"
    SOLVE = "solve this cube"


@dataclass(frozen=True, slots=True)
class KeepPainting:
    """Keep the painting for the next time, as text."""

    text: str


PaintCommand = PaintSticker | TakeColour | PaintNamed | PaintNumbered | MoveCursor | Paint
