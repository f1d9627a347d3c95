"""What of a screen with a cube depends on the moment: the stage, and what goes with turns being shown."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.screens.parts import words
from tutor.screens.parts.card import hint_now
from tutor.screens.parts.rail import shown_rail
from tutor.screens.parts.reasons import reason_blocks
from tutor.screens.parts.stage import moving, stage_of, with_hint
from tutor.screens.parts.why import why_blocks
from tutor.session.commands import Act
from tutor.session.demonstration import Demonstration
from tutor.session.house import Session
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.session.state import Attempt
from tutor.ui.view import Arrow, Block, Button, Stage, Text, TextStyle, Tone, View


def at_moment(view: View, session: Session, attempt: Attempt, now: float) -> View:
    """The view of a room, made for the session without the time, as it is at a moment."""
    stage, demonstration = stage_of(session, attempt, now), session.demonstration
    if demonstration is not None:
        rail = shown_rail(session, demonstration, attempt, now)
        # First of all on the card, where it is seen without scrolling.
        first = (*why_blocks(session), *reason_blocks(session, now), *_way_back(session, now))
        return replace(view, stage=stage, rail=rail, card=(*first, *view.card))
    if not moving(session, now):
        stage = hinted(session, attempt, stage)
    return replace(view, stage=stage)


def _way_back(session: Session, now: float) -> tuple[Block, ...]:
    """The way from what is shown to the learner's own cube; once all is shown, nothing else is left to do."""
    room, shown = session.room, session.demonstration
    if shown is None or room.shows_by_itself(session) or not room.turns_allowed(session):
        return ()
    key = sign_for(Act.CLOSE, room, bindings_of(session))
    back = Button(Act.CLOSE, words.TO_YOUR_CUBE, key, primary=shown.finished(now))
    told = (Text(words.FROM_THE_START, TextStyle.SMALL, Tone.MUTED),) if _anew(session, shown) else ()
    return (*told, back)


def _anew(session: Session, shown: Demonstration) -> bool:
    """Whether what is shown begins where the learner began, and not at the cube that they have made since."""
    attempt = session.attempt
    if attempt is None or shown.start == attempt.cube:
        return False
    return shown.start == attempt.history.cube_at(min(attempt.since, attempt.history.cursor))


def hinted(session: Session, attempt: Attempt, stage: Stage) -> Stage:
    """The stage with the lights and the arrow of the hint given now."""
    hint, bearing = hint_now(session, attempt), attempt.bearing()
    if hint is None or bearing is None:
        return stage
    arrow = None if hint.turn is None else Arrow(hint.turn)
    return with_hint(stage, bearing, hint.glowing, arrow)
