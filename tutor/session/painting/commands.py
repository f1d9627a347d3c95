"""Commands and effects of painting a cube; ``commands`` joins them to all others."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from tutor.session.painting.state import Heading


@dataclass(frozen=True, slots=True)
class PaintSticker:
    """Paint this sticker with the colour in hand."""

    sticker: int


@dataclass(frozen=True, slots=True)
class TakeColour:
    """Take a colour in hand, by its number; -1 erases."""

    colour: int


@dataclass(frozen=True, slots=True)
class PaintNamed:
    """Paint the sticker under the cursor in the colour of this name, and go on."""

    name: str


@dataclass(frozen=True, slots=True)
class PaintNumbered:
    """Paint the sticker under the cursor in the colour at this place of the palette (from 0), and go on."""

    place: int


@dataclass(frozen=True, slots=True)
class MoveCursor:
    """Go to the neighbouring sticker."""

    heading: Heading


class Paint(Enum):
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


def painting_action(command: object) -> str | None:
    """The name by which a button gives a command of painting; None for others and those only keys give."""
    match command:
        case PaintSticker(sticker):
            return f"paint:{sticker}"
        case TakeColour(colour):
            return f"colour:{colour}"
        case Paint():
            return f"painting:{command.name}"
        case _:
            return None


def _sticker(rest: str) -> PaintCommand:
    sticker = int(rest)
    if not 0 <= sticker < 54:
        raise ValueError(f"{sticker} is no sticker; they are numbered 0 to 53")
    return PaintSticker(sticker)


def _colour(rest: str) -> PaintCommand:
    colour = int(rest)
    if not -1 <= colour < 6:
        raise ValueError(f"{colour} is no colour; they are numbered 0 to 5, and -1 erases")
    return TakeColour(colour)


PAINTING_READERS: dict[str, Callable[[str], PaintCommand]] = {
    "paint": _sticker,
    "colour": _colour,
    "painting": lambda rest: Paint[rest],
}
"""How what follows the first colon of an action is read."""
