"""A lesson ready to be played: every scene with its cube, task, turns and answers worked out.

All values are in the frame of the cube as held, in the variation the lesson was resolved for.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tutor.cube.faces import Turn
from tutor.cube.held import HeldCube
from tutor.cube.position import Position
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.solver.task import Task


@dataclass(frozen=True, slots=True)
class CameraSetting:
    """Degrees round the upright axis, degrees above the horizon, zoom factor."""

    yaw: float
    pitch: float
    zoom: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SceneBase:
    """What every scene has."""

    cube: HeldCube
    """At the scene's start."""
    task: Task | None
    """As held; None when no pair is in question."""
    text: str
    """Placeholders filled in."""
    camera: CameraSetting | None = None
    """None leaves the view as it is."""
    highlight: frozenset[int] = frozenset()
    """Cubies that light up, numbered as in ``geometry.cubie_number``."""
    speed: float = 1.0
    caption: str = ""
    follows: bool = False
    """Whether it starts where the scene before ended."""
    idea: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tell(SceneBase):
    """Text beside the cube; nothing turns."""


@dataclass(frozen=True, slots=True)
class Segment:
    """Turns shown together with one text; ``step`` is None where no pair is in question."""

    turns: tuple[Turn, ...]
    text: str
    step: Step | None
    slip: bool = False
    """Whether a Detour is shown here on purpose."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Show(SceneBase):
    """Turns played in step with text."""

    segments: tuple[Segment, ...]

    @property
    def turns(self) -> tuple[Turn, ...]:
        """All turns of the scene."""
        return tuple(turn for segment in self.segments for turn in segment.turns)

    @property
    def end(self) -> HeldCube:
        """The cube after all turns."""
        return self.cube.after(self.turns)


class Extent(StrEnum):
    """How much an ask scene asks for."""

    TURN = "turn"
    STEP = "step"
    CASE = "case"


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask(SceneBase):
    """The learner turns, and every turn is judged."""

    task: Task
    extent: Extent
    afterwards: str = ""
    """Said when it is done."""


class Sought(StrEnum):
    """What a find scene asks for."""

    CORNER = "corner"
    EDGE = "edge"
    SLOT = "slot"


@dataclass(frozen=True, slots=True, kw_only=True)
class Find(SceneBase):
    """The learner points at a piece or a slot."""

    task: Task
    what: Sought
    answer: frozenset[int]
    """The cubies any of which is right; for a slot, both of its places."""
    afterwards: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to a question."""

    text: str
    true: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Choose(SceneBase):
    """A question; exactly one of the answers is true."""

    answers: tuple[Choice, ...]
    because: str = ""
    """Said after the answer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alone(SceneBase):
    """The whole case without verdicts."""

    task: Task
    afterwards: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recap(SceneBase):
    """What was learnt, in a few points."""

    points: tuple[str, ...] = ()


def step_answered(step: Step, position: Position, task: Task) -> bool:
    """Whether the rest of a step that was asked for is done: the step itself, or one that comes after it.

    A turn may end two steps at once, so that the earlier one is never done by itself.
    """
    later = TURNING_STEPS[TURNING_STEPS.index(step) :] if step in TURNING_STEPS else ()
    return task.done(position) or any(DONE_WHEN[each](position, task) for each in later)


Scene = Tell | Show | Ask | Find | Choose | Alone | Recap


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson; ``name`` is the stem of its file."""

    name: str
    title: str
    goal: str
    scenes: tuple[Scene, ...]
    ideas: tuple[str, ...] = ()
    fixed: bool = False
    """Whether it is played only as written."""
