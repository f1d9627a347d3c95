"""What is said of a turn that is shown: why it comes, and what it changed."""

from __future__ import annotations

from tutor.coach.feedback import Shown, shown
from tutor.session.house import Session
from tutor.session.judging import Judged
from tutor.session.target import colours_as_held

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
    if not made.answer.distance:
        return NOTHING
    cube = demonstration.start.after(demonstration.turns[:index]).rotated(made.bearing.hold)
    colours = colours_as_held(cube, session.settings.colour_names)
    following = tuple(made.bearing.turn_as_judged(turn) for turn in demonstration.turns[index + 1 :])
    return shown(made.answer, made.turn, following, colours, demonstration.steps[index])


def turn_shown(session: Session, index: int) -> Judged | None:
    """A turn of what is shown, with what the solver says of the position before it, if that is known."""
    demonstration, attempt = session.demonstration, session.attempt
    if demonstration is None or attempt is None or attempt.aim is None:
        return None
    bearing = attempt.aim.bearing(demonstration.start.after(demonstration.turns[:index]))
    turn = bearing.turn_as_judged(demonstration.turns[index])
    return Judged(index, bearing, turn, session.answers.at(bearing))
