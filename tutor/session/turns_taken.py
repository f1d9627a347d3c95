"""What a learner did, and when: turns and hints, each with its moment."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Turn
from tutor.cube.held_cube import reduced
from tutor.cube.merging import together
from tutor.cube.notation import Move, Rotation
from tutor.cube.position import Position
from tutor.session.state import Attempt
from tutor.solver.task import Task


class HintUse(Struct, frozen=True):
    """A rung of a hint asked for, and when, in seconds from the start of the learner's part."""

    rung: int
    at: float


class TurnTaken(Struct, frozen=True):
    """A turn made, ``at`` seconds from the start of the learner's part, when its last quarter was.

    ``turn`` is named as the cube was held; ``judged`` is the same turn named in the frame of the position and
    task it was made in.
    """

    turn: Turn
    at: float
    position: Position
    task: Task
    judged: Turn


Taken = tuple[TurnTaken, ...]


def with_turn(made: Taken, attempt: Attempt, move: Move, at: float) -> Taken:
    """The turns made with one more, which is about to be made; a rotation turns nothing."""
    bearing = attempt.bearing()
    if bearing is None or isinstance(move, Rotation):
        return made
    turn = reduced(move)
    judged = bearing.turn_as_judged(turn)
    return (*made, TurnTaken(turn, max(0.0, at), bearing.position, bearing.task, judged))


def with_last_gone_on(made: Taken, attempt: Attempt, move: Move, at: float) -> Taken:
    """The turns made with the last move as what it and ``move`` come to; without it when they cancel."""
    history = attempt.history
    if history.last is None:
        return made
    before = replace(attempt, history=history.moved_to(history.cursor - 1))
    made, both = _without(made, with_turn((), before, history.last, at)), together(history.last, move)
    return made if both is None else with_turn(made, before, both, at)


def _without(made: Taken, gone: Taken) -> Taken:
    """The turns made without the one noted last that is this turn in this position."""
    for turn in gone:
        for index in reversed(range(len(made))):
            if replace(made[index], at=turn.at) == turn:
                return (*made[:index], *made[index + 1 :])
    return made
