"""A lesson ready to be played: every scene with its cube, task, turns and answers worked out.

All values are in the frame of the cube as held, in the variation the lesson was resolved for.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path

from msgspec import Struct

from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Position
from tutor.method.steps import DONE_WHEN, Step
from tutor.solver.task import Task


class CameraSetting(Struct, frozen=True):
    """Degrees round the upright axis, degrees above the horizon, zoom factor."""

    yaw: float
    pitch: float
    zoom: float


class SceneBase(Struct, frozen=True, kw_only=True):
    """What every scene has."""

    cube: HeldCube
    """At the scene's start."""
    task: Task | None
    """As held; None when no pair is in question."""
    text: str
    """Placeholders filled in."""
    on_screen: str = ""
    """What follows the text at the screen only."""
    camera: CameraSetting | None = None
    """None leaves the view as it is."""
    highlight: frozenset[int] = frozenset()
    """Cubies that light up, numbered as in ``geometry.cubie_number``."""
    speed: float = 1.0
    caption: str = ""
    rail: bool = True
    """Whether the steps are shown while the learner turns; not where turning itself is taught."""
    follows: bool = False
    """Whether it starts where the scene before ended."""
    idea: str = ""
    voice: str = ""
    """The name of a sound file beside the script."""

    @property
    def teaches_turning(self) -> bool:
        """Whether turning itself is what the scene is about, and no pair, so that no rail has its steps."""
        return not self.rail

    @property
    def card_text(self) -> str:
        """The text as the card says it."""
        return f"{self.text} {self.on_screen}".rstrip()


class Tell(SceneBase, frozen=True, kw_only=True):
    """Text beside the cube; nothing turns."""


class LessonSegment(Struct, frozen=True):
    """Turns of one step shown together with one text.

    ``step`` is what cutting all turns of the scene says; None where no pair is in question.
    """

    turns: tuple[Turn, ...]
    text: str
    step: Step | None
    slip: bool = False
    """Whether a Detour is shown here on purpose."""
    part: int = 0
    """Which of the scene's parts it belongs to."""


class Show(SceneBase, frozen=True, kw_only=True):
    """Turns played in step with text."""

    segments: tuple[LessonSegment, ...]

    @property
    def turns(self) -> tuple[Turn, ...]:
        """All turns of the scene."""
        return tuple(turn for segment in self.segments for turn in segment.turns)

    @property
    def end(self) -> HeldCube:
        """The cube after all turns."""
        return self.cube.after(self.turns)


Accepted = tuple[tuple[Turn, ...], ...]
"""Sequences that do what is asked."""


class Extent(StrEnum):
    """How much an ask scene asks for."""

    TURN = "turn"
    STEP = "step"
    CASE = "case"


class TurnsAsked(SceneBase, frozen=True, kw_only=True):
    """What every scene has in which the learner turns."""

    task: Task
    accept: Accepted = ()
    """Where not empty, only these turns answer the scene."""
    afterwards: str = ""
    """Said when it is done."""

    @property
    def teaches_turning(self) -> bool:
        """Whether the turns to make are written out, and only to be read."""
        return not self.rail and bool(self.accept)


class Ask(TurnsAsked, frozen=True, kw_only=True):
    """Every turn is judged."""

    extent: Extent
    step: Step
    """Done at the end, where a step is asked for: the one under way at the start, or the one named."""


class Sought(StrEnum):
    """What a find scene asks for."""

    CORNER = "corner"
    EDGE = "edge"
    SLOT = "slot"


class Find(SceneBase, frozen=True, kw_only=True):
    """The learner points at a piece or a slot."""

    task: Task
    what: Sought
    answer: frozenset[int]
    """The cubies any of which is right; for a slot, both of its places."""
    afterwards: str = ""


class OfferedAnswer(Struct, frozen=True):
    """One answer to a question."""

    text: str
    true: bool
    why: str = ""
    """Why a wrong answer is wrong here, and where to look."""


class Quiz(SceneBase, frozen=True, kw_only=True):
    """A question; exactly one of the answers is true."""

    answers: tuple[OfferedAnswer, ...]
    because: str = ""
    """Said after the answer."""
    of_the_slot: bool = False
    """Whether it is about the pair of the scene's slot, so that the slot itself answers nothing."""


class Alone(TurnsAsked, frozen=True, kw_only=True):
    """The whole case without verdicts."""


class Recap(SceneBase, frozen=True, kw_only=True):
    """What was learnt, in a few points."""

    points: tuple[str, ...] = ()


def step_answered(step: Step, position: Position, task: Task) -> bool:
    """Whether a step that was asked for is done: its own condition holds, or the pair is home."""
    return task.done(position) or (step in DONE_WHEN and DONE_WHEN[step](position, task))


def accepted(scene: Ask | Alone, cube: HeldCube) -> bool:
    """Whether a cube is where the accepted turns lead, however it is held; they are counted as made when
    others with the same outcome were."""
    return any(cube.state == scene.cube.after(turns).state for turns in scene.accept)


def astray(scene: Ask | Alone, cube: HeldCube) -> bool:
    """Whether a cube is nowhere on the way of the accepted turns; never where every good turn answers."""
    if not scene.accept:
        return False
    passed = (scene.cube.after(part).state for turns in scene.accept for part in _parts(turns))
    return cube.state not in set(passed)


def dictated(scene: Ask | Alone, cube: HeldCube) -> bool:
    """Whether a cube is where some of the accepted turns lead, made whole and in their order."""
    ways = ((turns[:count] for count in range(1, len(turns) + 1)) for turns in scene.accept)
    return any(scene.cube.after(part).state == cube.state for way in ways for part in way)


def layer_asked(scene: Ask | Alone, before: HeldCube, now: HeldCube) -> bool:
    """Whether the turn between two cubes is of a layer that the accepted turns turn there, however far."""
    return any(
        scene.cube.after((*turns[:count], Turn.of(turn.face, quarters))).state == now.state
        for turns in scene.accept
        for count, turn in enumerate(turns)
        if scene.cube.after(turns[:count]).state == before.state
        for quarters in (1, 2, 3)
    )


def _parts(turns: tuple[Turn, ...]) -> Iterator[tuple[Turn, ...]]:
    """All beginnings of a sequence; those of a half turn too, which may go either way."""
    for count, turn in enumerate(turns):
        yield turns[:count]
        if turn.quarters == 2:
            yield from ((*turns[:count], Turn.of(turn.face, quarters)) for quarters in (1, 3))
    yield turns


Scene = Tell | Show | Ask | Find | Quiz | Alone | Recap


class Lesson(Struct, frozen=True):
    """A lesson; ``name`` is the stem of its file."""

    name: str
    title: str
    goal: str
    scenes: tuple[Scene, ...]
    ideas: tuple[str, ...] = ()
    fixed: bool = False
    """Whether it is played only as written."""
    folder: Path = Path()
    """Where its script lies, and with it the sound files that it names."""
