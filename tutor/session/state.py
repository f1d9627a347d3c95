"""Values that the session is made of: a cube in hand, the field for moves, what may lie over a screen."""

from __future__ import annotations

from enum import Enum
from typing import Annotated, NamedTuple

from msgspec import Meta, Struct

from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Rotation
from tutor.lesson.script import SceneScript
from tutor.session.history import History
from tutor.session.target import Aim, Bearing


class Attempt(Struct, frozen=True):
    """A cube in hand, with its aim, if it has one, and the move since when."""

    history: History
    aim: Aim | None = None
    since: int = 0
    rung: int = 0
    """The hint now given for the position at the cursor: 0 none, 1 to 3 deeper and deeper."""
    shown: HeldCube | None = None
    """The cube from which the way was shown last, since the aim was taken; None before."""
    went_on: bool = False
    """Whether the learner goes on from the Detour made last instead of undoing it."""

    @property
    def cube(self) -> HeldCube:
        """The cube now."""
        return self.history.cube

    @property
    def turns_made(self) -> int:
        """Turns since the aim was taken; rotations count none."""
        made = self.history.entries[self.since : self.history.cursor]
        return sum(not isinstance(entry.move, Rotation) for entry in made)

    def done_at(self, index: int) -> bool:
        """Whether the task of the aim was done after so many moves."""
        bearing = self.bearing(index)
        return bearing is not None and bearing.task.done(bearing.position)

    def bearing(self, index: int | None = None) -> Bearing | None:
        """The aim as it looks now, or after so many moves; None without one."""
        if self.aim is None:
            return None
        return self.aim.bearing(self.history.cube if index is None else self.history.cube_at(index))


class Writing(Struct, frozen=True):
    """The field for typed moves."""

    open: bool = False
    text: str = ""
    caret: int = 0
    error: str = ""
    error_column: int | None = None
    offer: str = ""
    """What Enter takes in place of the text, once it has been offered."""
    chosen: bool = False
    """Whether all of the text is chosen, so that what is typed takes its place."""


FINISHED = 1000
"""In place of a scene: the learner finished the lesson. No lesson has so many scenes."""
SceneNumber = Annotated[int, Meta(ge=0, le=FINISHED)]


class LessonPlace(NamedTuple):
    """Where a learner left a lesson, and what they did in it. Older files have the first two values alone."""

    lesson: str
    scene: SceneNumber
    done: tuple[SceneNumber, ...] = ()
    """The scenes whose tasks the learner did."""
    finished: bool = False

    @property
    def ticked(self) -> bool:
        """Whether the learner did all tasks of the lesson, now or another time."""
        return self.finished or self.scene == FINISHED


class LessonTitle(Struct, frozen=True):
    """A lesson in the list of lessons."""

    name: str
    title: str
    goal: str
    group: str = ""
    """The heading it stands under at Home; empty for a lesson of one's own."""
    start: SceneScript | None = None
    """Where the scene in its small picture starts; None for the solved cube."""
    tasks: int = 0
    """How many scenes ask something of the learner."""


class Sheet(Enum):
    """What may lie over a screen."""

    NONE = "nothing"
    KEYS = "keys"
    WORDS = "words"
    MENU = "more buttons"
    TOLD = "what is wrong"
