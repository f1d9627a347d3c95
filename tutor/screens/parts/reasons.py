"""While a case is shown: the turn that it is at, why it comes and, once it is made, what it changed."""

from __future__ import annotations

from functools import lru_cache

from tutor.screens.parts import words
from tutor.session.beats import Phase
from tutor.session.house import Session
from tutor.session.telling import NOTHING, to_read, turn_shown
from tutor.ui.view import Block, Text, TextStyle


def reason_blocks(session: Session, now: float) -> tuple[Block, ...]:
    """The step and the turn of the beat, and what is said of it; at full speed only the end is told.

    Empty where no pair is in question; the turn alone while the solver has not answered yet.
    """
    demonstration = session.demonstration
    if demonstration is None or not demonstration.turns or None in demonstration.steps:
        return ()
    beat = demonstration.beat(now)
    if beat.real and not demonstration.at_end(now):
        return (Text(words.AT_FULL_SPEED, TextStyle.HEADING),)
    return _reasons(session, beat.turn, made=beat.phase is Phase.DONE)


@lru_cache(maxsize=8)
def _reasons(session: Session, index: int, *, made: bool) -> tuple[Block, ...]:
    demonstration, judged = session.demonstration, turn_shown(session, index)
    step = None if demonstration is None else demonstration.steps[index]
    if step is None or judged is None:
        return ()
    title = words.turn_of_step(step.value.capitalize(), judged.turn.notation)
    said = to_read(session, index) or NOTHING
    sentence = said.made if made else said.coming
    return (Text(title, TextStyle.HEADING), *((Text(sentence),) if sentence else ()))
