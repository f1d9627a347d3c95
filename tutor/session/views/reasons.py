"""What the turn under way does and why, while a case is shown."""

from __future__ import annotations

from functools import lru_cache
from math import ceil

from tutor.coach.feedback import feedback
from tutor.session.aim import colours_as_held
from tutor.session.showing import turn_shown
from tutor.session.state import Session
from tutor.session.view import Block, Text, TextStyle


def reason_blocks(session: Session, now: float) -> tuple[Block, ...]:
    """The step and the turn the playhead is in or has just finished, and what the coach says of it.

    Empty before the first turn, where no pair is in question, and while the solver has not answered yet.
    """
    shown = session.demonstration
    if shown is None:
        return ()
    playhead = shown.playhead(now)
    return () if playhead <= 0 else _reasons(session, ceil(playhead) - 1)


@lru_cache(maxsize=8)
def _reasons(session: Session, index: int) -> tuple[Block, ...]:
    shown, made = session.demonstration, turn_shown(session, index)
    if shown is None or made is None or made.answer is None or not made.answer.distance:
        return ()
    step = shown.steps[index]
    cube = shown.start.after(shown.turns[:index]).rotated(made.bearing.hold)
    colours = colours_as_held(cube, session.settings.colour_names)
    remark = feedback(made.answer, made.turn, colours, step)
    turn = made.turn.notation
    title = turn if step is None else f"{step.value.capitalize()}: {turn}"
    return (Text(title, TextStyle.HEADING), Text(remark.text))
