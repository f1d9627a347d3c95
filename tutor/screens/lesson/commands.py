"""What can be asked of the lesson's room, and what it asks of the world."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.lesson.scenes import Lesson
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect

NAME = "lesson"
FIRST = "notation"
"""The lesson in which the turns are learnt."""


class LessonCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class Carried(Struct, frozen=True):
    """How a lesson is carried over: by clockwise quarters round the upright axis, and mirrored first."""

    quarters: int = 0
    mirrored: bool = False


AS_WRITTEN = Carried()


class PageTurn(LessonCommand, Enum):
    """Leaving a scene, whatever it asks."""

    SKIP = "go on without answering"
    BACK = "go back"


class StartLesson(LessonCommand, Struct, frozen=True):
    """Open a lesson at a scene, as written or in another slot or mirrored."""

    name: str
    scene: int = 0
    carried: Carried = AS_WRITTEN


class LessonLoaded(LessonCommand, Struct, frozen=True):
    """A lesson was read, as asked for with LoadLesson."""

    lesson: Lesson
    scene: int = 0
    carried: Carried = AS_WRITTEN
    again: bool = False


class LessonFailed(LessonCommand, Struct, frozen=True):
    """A lesson could not be read; one line for each thing wrong."""

    name: str
    problems: tuple[str, ...]
    again: bool = False


Own = PageTurn | StartLesson | LessonLoaded | LessonFailed


class LoadLesson(Effect, Struct, frozen=True):
    """Read a lesson; it comes back as LessonLoaded or LessonFailed.

    ``again``: the lesson is open and its script was changed; nobody asked to go anywhere.
    """

    name: str
    scene: int = 0
    carried: Carried = AS_WRITTEN
    again: bool = False
