"""A layer that follows the hand: held at any angle, let go it glides to a quarter, or back."""

from __future__ import annotations

from dataclasses import replace
from math import pi

from tutor.cube.faces import Turn
from tutor.session import turning
from tutor.session.commands import DragLayer, DropLayer
from tutor.session.house import Session
from tutor.session.timeline import Timeline
from tutor.ui.view import Turning

SNAP = pi / 4
"""A layer let go nearer than this to where it began falls back (WCA 10f1: 45 degrees)."""


def dragged(session: Session, command: DragLayer, now: float) -> Session:
    """The layer at the hand's angle, as soon as what is on its way has been shown."""
    session = turning.taken_over(session, now)
    if session.attempt is None or not session.room.turns_allowed(session):
        return turning.refused(session)
    held = Turning(command.face, command.angle)
    return replace(session, demonstration=None, dragged=held)


def dropped(session: Session, command: DropLayer, now: float) -> Session:
    """The turn that is nearest to the hand's angle, made; the layer glides there from where it was let go."""
    session = turning.taken_over(session, now)
    if session.attempt is None or not session.room.turns_allowed(session):
        return replace(turning.refused(session), dragged=None)
    quarters = round(command.angle / (pi / 2)) if abs(command.angle) >= SNAP else 0
    before = session.attempt.cube
    session = replace(session, demonstration=None, dragged=None)
    if quarters % 4:
        session = turning.make(session, Turn.of(command.face, quarters % 4), now)
    if session.settings.reduced_motion:
        return replace(session, timeline=Timeline(), faded_from=None)
    let_go = Turning(command.face, command.angle)
    glide = Timeline.gliding(before, let_go, quarters, now, session.settings.speed)
    return replace(session, timeline=glide, faded_from=None)
