"""A turn in the making: turns of one layer made one after the other are one turn.

The program judges the turn that it has become. As long as it may still become a good one, it costs nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum

from tutor.cube.faces import Turn
from tutor.cube.merging import same_layer
from tutor.cube.notation import Move
from tutor.method.terms import Verdict
from tutor.session.house import Session
from tutor.session.state import Attempt
from tutor.session.target import cross_hold


def goes_on(session: Session, attempt: Attempt, move: Move) -> bool:
    """Whether a move goes on with the turn made last in an attempt.

    It does when it turns the same layer and nothing begins between the two: no aim was taken there, and no
    pair or cross was finished.
    """
    last = attempt.history.last
    return last is not None and same_layer(last, move) and not _begins_anew(session, attempt)


def _begins_anew(session: Session, attempt: Attempt) -> bool:
    """Whether the next turn begins something, whatever layer it turns."""
    now = attempt.history.cursor
    if attempt.aim is None:
        return cross_whole(session, attempt, now) and not cross_whole(session, attempt, now - 1)
    return now <= attempt.since or (attempt.done_at(now) and not attempt.done_at(now - 1))


def cross_whole(session: Session, attempt: Attempt, index: int) -> bool:
    """Whether the cross was solved after so many moves."""
    cross = session.room.cross(session)
    cube = attempt.history.cube_at(index)
    return cube.rotated(cross_hold(cube, cross)).position.cross_home


class SoFar(Enum):
    """What a turn of a good layer lacks to be a good turn."""

    FURTHER = "it has not gone far enough"
    OTHER_WAY = "only the other way is good"
    QUARTER = "a quarter is enough"


def so_far(turn: Turn, verdict_of: Callable[[Turn], Verdict]) -> SoFar | None:
    """What ``turn`` lacks to be a turn of its layer that is no Detour.

    None when it lacks nothing, or when no turn of its layer would be any better.
    """
    amounts = (1, 2, 3)
    good = {each for each in amounts if verdict_of(Turn.of(turn.face, each)) is not Verdict.DETOUR}
    if not good or turn.quarters in good:
        return None
    if turn.quarters == 2:
        return SoFar.QUARTER
    return SoFar.FURTHER if 2 in good else SoFar.OTHER_WAY
