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
    """What a turn of a layer lacks to be an Optimal turn or, where it has none, an Acceptable one."""

    FURTHER = "it has not gone far enough"
    OTHER_WAY = "only the other way is good"
    QUARTER = "a quarter is enough"
    FURTHER_TOO = "it has not gone far enough to be Acceptable"
    OTHER_WAY_TOO = "only the other way is Acceptable"
    QUARTER_TOO = "a quarter is Acceptable"


_LACKS = {
    Verdict.OPTIMAL: (SoFar.QUARTER, SoFar.FURTHER, SoFar.OTHER_WAY),
    Verdict.ACCEPTABLE: (SoFar.QUARTER_TOO, SoFar.FURTHER_TOO, SoFar.OTHER_WAY_TOO),
}
"""The better verdict first: it says how to turn on."""


def so_far(turn: Turn, verdict_of: Callable[[Turn], Verdict]) -> SoFar | None:
    """What ``turn`` lacks to be the best turn of its layer.

    None when it is no Detour, or when no turn of its layer would be any better.
    """
    verdicts = {each: verdict_of(Turn.of(turn.face, each)) for each in (1, 2, 3)}
    if verdicts[turn.quarters] is not Verdict.DETOUR:
        return None
    for verdict, (quarter, further, other_way) in _LACKS.items():
        if verdict in verdicts.values():
            if turn.quarters == 2:
                return quarter
            return further if verdicts[2] is verdict else other_way
    return None
