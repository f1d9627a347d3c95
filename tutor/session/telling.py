"""What is said of a turn that is shown: why it comes, and what it changed."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.coach.feedback import Shown, feedback, shown
from tutor.cube.held_cube import HeldCube, face_turns, reduced
from tutor.cube.notation import Move, Rotation
from tutor.method.answer import Answer
from tutor.method.terms import Step, Verdict
from tutor.session.house import Session
from tutor.session.judging import Judged
from tutor.session.target import Aim, colours_as_held

NOTHING = Shown("", "")
"""Where no pair is in question."""


def to_read(session: Session, index: int) -> Shown | None:
    """What is said of a turn shown, by the room or the coach; None while it is being worked out."""
    own = session.room.said(session, index)
    return coach_says(session, index) if own is None else own


def coach_says(session: Session, index: int) -> Shown | None:
    """What the coach says of a turn shown; None while the solver has not answered."""
    demonstration, made = session.demonstration, turn_shown(session, index)
    if demonstration is None or made is None or None in demonstration.steps:
        return NOTHING
    if made.answer is None:
        return None
    names, steps = session.settings.colour_names, demonstration.steps
    assert session.attempt is not None
    assert session.attempt.aim is not None
    return reason(
        demonstration.start, session.attempt.aim, demonstration.turns, index, steps[index], made.answer, names
    )


def reason(
    start: HeldCube,
    aim: Aim,
    moves: Sequence[Move],
    index: int,
    step: Step | None,
    answer: Answer,
    names: tuple[str, ...],
) -> Shown:
    """What the coach says of one of several moves from a start; ``answer`` is for the position before it.

    ``step`` is that of the move, the one under way when None; ``names`` are the words of the colours.
    """
    if isinstance(moves[index], Rotation) or not answer.distance:
        return NOTHING
    cube = start.after(moves[:index])
    bearing = aim.bearing(cube)
    colours = colours_as_held(cube.rotated(bearing.hold), names)
    turn, *following = (bearing.turn_as_judged(turn) for turn in face_turns(moves[index:])[0])
    return shown(answer, turn, tuple(following), colours, step)


def told_of_turn(
    start: HeldCube,
    aim: Aim,
    moves: Sequence[Move],
    index: int,
    step: Step | None,
    answer: Answer,
    names: tuple[str, ...],
) -> tuple[Shown, bool]:
    """What is said of a move that somebody chose, and whether it is a slip: of a Detour, what it costs."""
    cube = start.after(moves[:index])
    bearing, move = aim.bearing(cube), moves[index]
    if not isinstance(move, Rotation) and answer.distance:
        turn = bearing.turn_as_judged(reduced(move))
        if answer.continuation(turn).verdict is Verdict.DETOUR:
            colours = colours_as_held(cube.rotated(bearing.hold), names)
            return Shown("", feedback(answer, turn, colours).text), True
    return reason(start, aim, moves, index, step, answer, names), False


def turn_shown(session: Session, index: int) -> Judged | None:
    """A turn of what is shown, with what the solver says of the position before it, if that is known."""
    demonstration, attempt = session.demonstration, session.attempt
    if demonstration is None or attempt is None or attempt.aim is None:
        return None
    bearing = attempt.aim.bearing(demonstration.start.after(demonstration.turns[:index]))
    turn = bearing.turn_as_judged(demonstration.turns[index])
    return Judged(index, bearing, turn, session.answers.at(bearing))
