"""A lesson being played, as a plain value."""

from __future__ import annotations

from msgspec import Struct

from tutor.cube.held_cube import HeldCube
from tutor.lesson.scenes import Lesson
from tutor.screens.lesson.commands import AS_WRITTEN, Carried, LoadLesson
from tutor.session.holder import Holder
from tutor.session.state import Attempt
from tutor.session.turns_taken import HintUse, TurnTaken


class Tally(Struct, frozen=True):
    """What the learner did in a lesson since it was opened, up to the scene before."""

    unaided: frozenset[int] = frozenset()
    """Scenes in which they solved a whole case without help."""
    new: frozenset[str] = frozenset()
    """Cases solved here that they had not met before."""
    hints: int = 0


NOTHING_YET = Tally()


class LessonPlay(Struct, frozen=True):
    """A lesson being played: the scene, the learner's attempt in it, and what is settled about it."""

    lesson: Lesson
    scene: int
    attempt: Attempt
    carried: Carried = AS_WRITTEN
    solved: bool = False
    """Whether the scene's question has been answered."""
    outcome: HeldCube | None = None
    """The cube to which the turns led that answered it."""
    chosen: tuple[int, ...] = ()
    """Answers of a choice tried so far."""
    pointed: tuple[int, ...] = ()
    """Cubies pointed at or chosen in a Find question."""
    shown: bool = False
    """Whether the program has shown the way in this scene."""
    revealed: bool = False
    """Alone: the learner asked to see the verdicts before the end."""
    began: float = 0.0
    """When the scene was entered, later by the time it was out of sight."""
    left: float | None = None
    """When it was answered, or went out of sight before; None while its time runs."""
    made: tuple[TurnTaken, ...] = ()
    """Every turn made in the scene, those taken back included."""
    hints: tuple[HintUse, ...] = ()
    filed: bool = False
    """Whether the scene, once answered, was handed to the store if it is one that is kept."""
    new: str = ""
    """The whole case that the scene asks for, if the learner had not met it when the scene began."""
    tally: Tally = NOTHING_YET
    problems: tuple[str, ...] = ()
    """What is wrong with the script since its file was changed; the lesson goes on as it was."""


LESSON: Holder[LessonPlay | None] = Holder("lesson", None)
AWAITED: Holder[LoadLesson | None] = Holder("lesson awaited", None)
"""The lesson asked for and not read yet; forgotten when the learner goes elsewhere."""
