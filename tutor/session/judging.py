"""What the solver has said of a cube in hand: of where it is, and of every turn made in it."""

from __future__ import annotations

from msgspec import Struct

from tutor.cube.faces import Turn
from tutor.cube.held_cube import reduced
from tutor.cube.notation import Rotation
from tutor.method.answer import Answer
from tutor.session.house import Session
from tutor.session.state import Attempt
from tutor.session.target import Bearing


def answer_at(session: Session, attempt: Attempt, index: int | None = None) -> Answer | None:
    """The solver's answer for the attempt's position now, or after so many moves, if it is known."""
    return session.answers.at(attempt.bearing(index))


JUDGED_BACK = 200
"""Turns further back than this are not judged any more; a case takes far fewer."""


class Judged(Struct, frozen=True):
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
