"""A layer that follows the hand: held at any angle, let go it glides to a quarter, or back."""

from __future__ import annotations

from math import pi

from msgspec.structs import replace

from tutor.cube.faces import Turn
from tutor.session import turning, words
from tutor.session.commands import DragLayer, DropLayer
from tutor.session.house import Session
from tutor.session.timeline import Timeline
from tutor.ui.view import Turning

ENOUGH = 1 / 3
"""Radians; half a sticker's length on the rim of a layer, whose radius is one and a half stickers."""
FLICK_SECONDS = 0.25
"""A drag as short as this is a flick: it makes the turn even when it is shorter than ``ENOUGH``."""
LEAST_FLICK = 0.05
"""Radians; whoever moves a layer less has only touched it."""


def dragged(session: Session, command: DragLayer, now: float) -> Session:
    """The layer at the hand's angle, as soon as what is on its way has been shown."""
    session = turning.taken_over(session, now)
    if session.attempt is None or not session.room.turns_allowed(session):
        return turning.refused(session)
    held = Turning(command.face, command.angle)
    since = now if session.dragged is None else session.dragged_since
    return replace(session, demonstration=None, dragged=held, dragged_since=since)


def _quarters(angle: float, *, flicked: bool) -> int:
    """The quarter turns that a layer let go at an angle makes: one at least, once it was moved enough."""
    if abs(angle) < (LEAST_FLICK if flicked else ENOUGH):
        return 0
    return round(angle / (pi / 2)) or (1 if angle > 0 else -1)


def dropped(session: Session, command: DropLayer, now: float) -> Session:
    """The turn that is nearest to the hand's angle, made; the layer glides there from where it was let go."""
    session = turning.taken_over(session, now)
    if session.attempt is None or not session.room.turns_allowed(session):
        return replace(turning.refused(session), dragged=None)
    taken = 0.0 if session.dragged is None else now - session.dragged_since
    quarters = _quarters(command.angle, flicked=session.dragged is not None and taken <= FLICK_SECONDS)
    before = session.attempt.cube
    session = replace(session, demonstration=None, dragged=None)
    if quarters % 4:
        session = turning.make(session, Turn.of(command.face, quarters % 4), now)
    elif not session.sprung_back:
        session = replace(session, sprung_back=True, notice=words.DRAG_FARTHER)
    if session.settings.reduced_motion:
        return replace(session, timeline=Timeline(), faded_from=None)
    let_go = Turning(command.face, command.angle)
    glide = Timeline.gliding(before, let_go, quarters, now, session.settings.speed)
    return replace(session, timeline=glide, faded_from=None)
