"""What a learner did, and when: turns and hints, each with its moment."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.cube.faces import Turn
from tutor.cube.position import Position
from tutor.solver.task import Task


@dataclass(frozen=True, slots=True)
class HintUse:
    """A rung of a hint asked for, and when, in seconds from the start of the learner's part."""

    rung: int
    at: float


@dataclass(frozen=True, slots=True)
class TurnTaken:
    """A turn made, ``at`` seconds from the start of the learner's part.

    ``turn`` is named as the cube was held; ``judged`` is the same turn named in the frame of the position and
    task it was made in.
    """

    turn: Turn
    at: float
    position: Position
    task: Task
    judged: Turn
