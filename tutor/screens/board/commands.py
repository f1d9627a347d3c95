"""What can be asked of the board, and what it asks of the world."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.lesson.scenes import Lesson
from tutor.screens.lesson.commands import AS_WRITTEN, Carried
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect

NAME = "board"


class BoardCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class BoardAct(BoardCommand, Enum):
    """Commands of the board that need nothing more said."""

    BACK = "back to what was shown before"
    NEXT_CASE = "next case"
    CASE_BEFORE = "case before"
    NEXT_SLOT = "next slot"
    MIRROR = "mirror"
    SLOWLY = "again slowly"
    SPOTLIGHT = "spotlight"
    ASK = "ask the group"
    FEWER = "take the last hand away"
    PREPARE = "another list"


class ShowOnBoard(BoardCommand, Struct, frozen=True):
    """Show a list, as a person writes it: cases by number, or the name of a lesson."""

    text: str


class ScenesLoaded(BoardCommand, Struct, frozen=True):
    """A lesson was read, as asked for with LoadScenes; ``at`` is the number of the scene to begin with."""

    lesson: Lesson
    carried: Carried = AS_WRITTEN
    at: int = 0


class ScenesRefused(BoardCommand, Struct, frozen=True):
    """A lesson could not be read: why."""

    message: str


Own = BoardAct | ShowOnBoard | ScenesLoaded | ScenesRefused


class LoadScenes(Effect, Struct, frozen=True):
    """Read a lesson for the board; it comes back as ScenesLoaded or ScenesRefused."""

    name: str
    carried: Carried = AS_WRITTEN
    at: int = 0
