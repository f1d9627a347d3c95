"""Free play: which pair you solve next, and another cube in place of the one in hand."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import NotationError, parse_moves
from tutor.cube.position import SLOTS, Slot
from tutor.screens.free_play import words
from tutor.screens.free_play.state import EXPLAINED, FREE
from tutor.screens.parts.explained import AskedSequence, asked_sequence
from tutor.session import attempts
from tutor.session.house import Session
from tutor.session.state import Attempt, Writing


def taken_on(session: Session, slot: Slot) -> Session:
    """With another slot's pair to solve; while the cross is unsolved nothing changes."""
    free = FREE.of(session)
    aimed_at = attempts.aimed(free, session.settings.cross, slot)
    if aimed_at.aim is None and free.aim is not None:
        return replace(session, notice=words.CROSS_FIRST)
    return FREE.put(replace(session, notice=""), aimed_at)


def next_pair(session: Session) -> Session:
    """With the next unsolved pair to solve, once the present one is in its slot."""
    free = FREE.of(session)
    bearing = free.bearing()
    if bearing is not None and not bearing.task.done(bearing.position):
        return session
    return FREE.put(session, attempts.aimed(free, session.settings.cross))


def slot_stepped(session: Session, step: int) -> Session:
    """With the next slot's pair to solve, or the one before."""
    slot = attempts.chosen_slot(FREE.of(session), session.settings.cross)
    return session if slot is None else taken_on(session, SLOTS[(slot + step) % 4])


def set_up(session: Session, now: float) -> Session | None:
    """Free play from where the written turns lead; None once the cube was turned, or with a mistake in them.

    Written before anything was turned they are a set-up: nobody judges them, and no clip shows them.
    """
    history = FREE.of(session).history
    if history.cursor:
        return None
    try:
        moves = parse_moves(session.writing.text)
    except NotationError:
        return None
    if not moves:
        return None
    session = replace(session, writing=Writing(), notice=words.BEGINS_HERE)
    return restarted(session, history.cube.after(moves), now)


def restarted(session: Session, cube: HeldCube, now: float) -> Session:
    """Free play from another cube; undo at the start leads back to what was there before."""
    free = FREE.of(session)
    shown = attempts.at_once(session, free.cube, now)
    attempt = attempts.aimed(Attempt(free.history.restarted(cube)), session.settings.cross)
    return FREE.put(replace(shown, demonstration=None), attempt)


def turns_made(attempt: Attempt) -> AskedSequence | None:
    """The turns made since the pair was chosen, to be explained; None where there are none to explain."""
    made = attempt.history.entries[attempt.since : attempt.history.cursor]
    return asked_sequence(attempt, min(attempt.since, attempt.history.cursor), (each.move for each in made))


def explained(session: Session) -> Session:
    """With the turns made explained on the card, or no longer."""
    made = turns_made(FREE.of(session))
    shown = EXPLAINED.of(session) == made
    return EXPLAINED.put(replace(session, demonstration=None), None if shown else made)


def to_explain(session: Session) -> AskedSequence | None:
    """The turns that the card explains: those asked about, as long as they are the turns made."""
    asked = EXPLAINED.of(session)
    return asked if asked is not None and asked == turns_made(FREE.of(session)) else None
