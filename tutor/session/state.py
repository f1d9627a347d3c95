"""The session's whole state as one immutable value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from types import MappingProxyType
from typing import TYPE_CHECKING

from tutor.coach.guidance import Guidance
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube, reduced
from tutor.cube.notation import Rotation
from tutor.method.answer import Answer
from tutor.session.advices import Advices
from tutor.session.aim import Aim, Bearing
from tutor.session.answers import Answers
from tutor.session.demonstration import Demonstration
from tutor.session.history import History
from tutor.session.records.state import Records
from tutor.session.saving_commands import Saving
from tutor.session.settings import Settings
from tutor.session.timeline import Timeline
from tutor.ui.view import Camera, Turning

if TYPE_CHECKING:
    # A room is told by what it does with a session.
    from tutor.session.room import House, Room


@dataclass(frozen=True, slots=True)
class Attempt:
    """A cube in hand, and, when something is aimed at, what and since which move."""

    history: History
    aim: Aim | None = None
    since: int = 0
    rung: int = 0
    """The hint now given for the position at the cursor: 0 none, 1 to 3 deeper and deeper."""

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
        """Whether the pair aimed at was home, and all that is kept whole, after so many moves."""
        bearing = self.bearing(index)
        return bearing is not None and bearing.task.done(bearing.position)

    def bearing(self, index: int | None = None) -> Bearing | None:
        """The aim as it looks now, or after so many moves; None without one."""
        if self.aim is None:
            return None
        return self.aim.bearing(self.history.cube if index is None else self.history.cube_at(index))


@dataclass(frozen=True, slots=True)
class Writing:
    """The field for typed moves."""

    open: bool = False
    text: str = ""
    caret: int = 0
    error: str = ""
    error_column: int | None = None


@dataclass(frozen=True, slots=True)
class LessonTitle:
    """A lesson in the list of lessons."""

    name: str
    title: str
    goal: str


class Sheet(Enum):
    """What may lie over a screen."""

    NONE = "nothing"
    KEYS = "keys"
    WORDS = "words"


@dataclass(frozen=True, slots=True, eq=False)
class Session:
    """Everything the program knows while it runs. Compared by identity: every change makes a new one.

    What belongs to one room is in ``held``, which the room reads and writes with its own ``Holder``.
    """

    house: House
    settings: Settings
    lessons: tuple[LessonTitle, ...]
    screen: str = ""
    """The name of the open room; empty before the first is entered."""
    held: Mapping[str, object] = field(default_factory=lambda: MappingProxyType({}))
    advices: Advices = field(default_factory=Advices)
    records: Records = field(default_factory=Records)
    guidance: tuple[tuple[str, Guidance], ...] = ()
    """Where the learner stands with each case met, by the case's slug."""
    places: tuple[tuple[str, int], ...] = ()
    """Where each lesson was left, by each learner; see ``places.places_of``."""
    timeline: Timeline = field(default_factory=Timeline)
    demonstration: Demonstration | None = None
    answers: Answers = field(default_factory=Answers)
    camera: Camera = field(default_factory=Camera)
    dragged: Turning | None = None
    """The layer that follows the hand."""
    faded_from: tuple[HeldCube, float] | None = None
    """With reduced motion: the cube faded from, and when the fade began."""
    writing: Writing = field(default_factory=Writing)
    sheet: Sheet = Sheet.NONE
    notice: str = ""
    saving: Saving = field(default_factory=Saving)
    failure: str = ""
    """What went wrong inside, told on a card; empty when nothing did."""
    coming: str = ""
    """What is being opened, in words; forgotten when one goes elsewhere."""
    draw_request: int = 0
    """Number of the random position asked for last; 0 before the first."""

    @property
    def room(self) -> Room:
        """The open room."""
        return self.house[self.screen]

    @property
    def attempt(self) -> Attempt | None:
        """The cube in hand in the open room, if it has one."""
        return self.room.attempt(self)

    @property
    def covered(self) -> bool:
        """Whether something lies over the screen."""
        return self.sheet is not Sheet.NONE or bool(self.failure)


def answer_at(session: Session, attempt: Attempt, index: int | None = None) -> Answer | None:
    """The solver's answer for the attempt's position now, or after so many moves, if it is known."""
    return session.answers.at(attempt.bearing(index))


JUDGED_BACK = 200
"""Turns further back than this are not judged any more; a case takes far fewer."""


@dataclass(frozen=True, slots=True)
class Judged:
    """A turn of an attempt with the answer of the position it was made in."""

    index: int
    """Moves before it."""
    bearing: Bearing
    turn: Turn
    """Named in the bearing's frame."""
    answer: Answer | None


def judged_turns(session: Session, attempt: Attempt) -> tuple[Judged, ...]:
    """The turns since the aim was taken, in order, each with what the solver said before it."""
    judged = []
    start = attempt.bearing(attempt.since)
    if start is not None and start.task.done(start.position):
        # Turns that lead away from a pair at home set a case up; there is nothing to judge.
        return ()
    first = max(attempt.since, attempt.history.cursor - JUDGED_BACK)
    for index in range(first, attempt.history.cursor):
        move = attempt.history.entries[index].move
        bearing = attempt.bearing(index)
        if isinstance(move, Rotation) or bearing is None:
            continue
        turn = bearing.turn_as_judged(reduced(move))
        judged.append(Judged(index, bearing, turn, session.answers.get(bearing.position, bearing.task)))
    return tuple(judged)
