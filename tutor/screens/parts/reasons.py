"""While a case is shown: what the present turn does and why, and what the turn before it changed."""

from __future__ import annotations

from functools import lru_cache

from tutor.coach.feedback import Shown, shown
from tutor.screens.parts import words
from tutor.session.house import Session
from tutor.session.playback import turn_shown
from tutor.session.target import colours_as_held
from tutor.ui.view import Block, Text, TextStyle, Tone


def reason_blocks(session: Session, now: float) -> tuple[Block, ...]:
    """The step and the turn that is under way or about to be made, what the coach says of it, and beneath it
    what the turn before has changed.

    Empty where no pair is in question, and while the solver has not answered yet.
    """
    demonstration = session.demonstration
    if demonstration is None or not demonstration.turns:
        return ()
    return _reasons(session, demonstration.told(now))


@lru_cache(maxsize=8)
def _reasons(session: Session, index: int) -> tuple[Block, ...]:
    coming = _said(session, index)
    demonstration = session.demonstration
    if demonstration is None or coming is None:
        return ()
    step, turn = demonstration.steps[index], _notation(session, index)
    title = turn if step is None else words.turn_of_step(step.value.capitalize(), turn)
    blocks: tuple[Block, ...] = (Text(title, TextStyle.HEADING), Text(coming.coming))
    before = _said(session, index - 1) if index else None
    return blocks if before is None else (*blocks, Text(before.made, TextStyle.SMALL, Tone.MUTED))


def _notation(session: Session, index: int) -> str:
    made = turn_shown(session, index)
    return "" if made is None else made.turn.notation


def _said(session: Session, index: int) -> Shown | None:
    """What the coach says of a turn shown; None while it is not known."""
    demonstration, made = session.demonstration, turn_shown(session, index)
    if demonstration is None or made is None or made.answer is None or not made.answer.distance:
        return None
    cube = demonstration.start.after(demonstration.turns[:index]).rotated(made.bearing.hold)
    colours = colours_as_held(cube, session.settings.colour_names)
    following = tuple(made.bearing.turn_as_judged(turn) for turn in demonstration.turns[index + 1 :])
    return shown(made.answer, made.turn, following, colours, demonstration.steps[index])
