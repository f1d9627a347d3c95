"""What the turn that is shown does and why, and what the one before it changed, while a case is shown."""

from __future__ import annotations

from functools import lru_cache

from tutor.coach.feedback import feedback
from tutor.session.aim import colours_as_held
from tutor.session.showing import turn_shown
from tutor.session.state import Session
from tutor.session.view import Block, Text, TextStyle, Tone


def reason_blocks(session: Session, now: float) -> tuple[Block, ...]:
    """The step and the turn that is under way or about to be made, what the coach says of it, and beneath it
    what the turn before has changed.

    Empty where no pair is in question, and while the solver has not answered yet.
    """
    shown = session.demonstration
    return () if shown is None or not shown.turns else _reasons(session, shown.told(now))


@lru_cache(maxsize=8)
def _reasons(session: Session, index: int) -> tuple[Block, ...]:
    shown, said = session.demonstration, _said(session, index)
    if shown is None or not said:
        return ()
    step, turn = shown.steps[index], _notation(session, index)
    title = turn if step is None else f"{step.value.capitalize()}: {turn}"
    blocks: tuple[Block, ...] = (Text(title, TextStyle.HEADING), Text(said))
    before = _said(session, index - 1) if index else ""
    return (*blocks, Text(before, TextStyle.SMALL, Tone.MUTED)) if before else blocks


def _notation(session: Session, index: int) -> str:
    made = turn_shown(session, index)
    return "" if made is None else made.turn.notation


def _said(session: Session, index: int) -> str:
    """What the coach says of a turn shown; empty while it is not known."""
    shown, made = session.demonstration, turn_shown(session, index)
    if shown is None or made is None or made.answer is None or not made.answer.distance:
        return ""
    cube = shown.start.after(shown.turns[:index]).rotated(made.bearing.hold)
    colours = colours_as_held(cube, session.settings.colour_names)
    return feedback(made.answer, made.turn, colours, shown.steps[index]).text
