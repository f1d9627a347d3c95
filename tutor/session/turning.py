"""Turning the cube in any room: where the learner may, and what follows from it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec.structs import replace

from tutor.cube.merging import together
from tutor.cube.notation import Axis, Move, Rotation
from tutor.lesson.variation import QUARTERS_TO_THE_RIGHT
from tutor.progress.attempt import DEEPEST_RUNG
from tutor.session import attempts, words
from tutor.session.commands import Act
from tutor.session.history import History
from tutor.session.house import Session
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.session.making import cross_whole, goes_on
from tutor.session.settings import TurnButtons

MOST_ONE_BY_ONE = 40
"""So many written moves turn the cube one by one."""
MOST_AT_ONCE = 300
"""So many written moves are taken at once where each is judged; more would hold the window up."""


def taken_over(session: Session, now: float) -> Session:
    """With the cube in the learner's hands, once the room has shown what it shows first."""
    if session.demonstration is not None and session.demonstration.finished(now):
        return session.room.handed_over(session, now)
    return session


def refused(session: Session) -> Session:
    """With a notice that says why the learner cannot turn."""
    return session if session.attempt is None else replace(session, notice=session.room.refused(session))


def _unrefused(before: Session, session: Session) -> Session:
    """Without the word on why no turn or hint was given, which is true no longer; any other word stays."""
    told = before.notice and before.notice in (before.room.refused(before), hint_refusal(before))
    return replace(session, notice="") if told and session.notice == before.notice else session


def make(session: Session, move: Move, now: float) -> Session:
    """Make a move, or say why not."""
    before, session = session, taken_over(session, now)
    answered = session.room.turned(session, move, now)
    if answered is not None:
        return answered
    room = session.room
    allowed = room.rotations_allowed if isinstance(move, Rotation) else room.turns_allowed
    if not allowed(session):
        return refused(session)
    if room.turns_allowed(session):
        session = _unrefused(before, session)
    attempt = session.attempt
    return _made(session, move, now, with_last=attempt is not None and goes_on(session, attempt, move))


def _made(session: Session, move: Move, now: float, *, with_last: bool) -> Session:
    noted = session.room.noted(session, move, now, with_last=with_last)
    made = attempts.make(noted, move, now, with_last=with_last)
    return made.room.checked(made, now)


def make_all(session: Session, moves: Sequence[Move], now: float) -> Session:
    """Make written moves, or say why not. Of very many on a cube of one's own, those before the last are
    made together: nobody could see them turn, and only where they lead is followed up."""
    ahead = len(moves) - MOST_ONE_BY_ONE
    if ahead > 0 and session.room.many_together(session) and session.room.turns_allowed(session):
        session, moves = attempts.make_together(session, moves[:ahead], now), moves[ahead:]
    for move in moves:
        session = make(session, move, now)
    return session


def halve(session: Session, now: float) -> Session:
    """Make the last turn a half turn: the same quarter once more."""
    answered = session.room.halved(session)
    if answered is not None:
        return answered
    last = None if session.attempt is None else session.attempt.history.last
    if not session.room.turns_allowed(session) or last is None or last.quarters == 2:
        return session
    return _made(session, last, now, with_last=True)


def face_slot(session: Session, now: float) -> Session:
    """Turn the whole cube so that the slot of the pair is at the front right; once more turns it back."""
    bearing = None if session.attempt is None else session.attempt.bearing()
    if session.attempt is None or bearing is None or not bearing.cross_down:
        return replace(session, notice=words.NO_SLOT_TO_FACE)
    if quarters := QUARTERS_TO_THE_RIGHT[bearing.task.slot]:
        return make(session, Rotation(Axis.Y, quarters), now)
    last = session.attempt.history.last
    if isinstance(last, Rotation) and last.axis is Axis.Y:
        return undo(session, now)
    return replace(session, notice=words.FACES_YOU)


def other_way(session: Session, now: float) -> Session:
    """Make the last turn, a plain quarter, go the other way."""
    answered = session.room.turned_over(session)
    if answered is not None:
        return answered
    last = None if session.attempt is None else session.attempt.history.last
    if not session.room.turns_allowed(session) or last is None or last.quarters != 1:
        return session
    half = together(last, last)
    return session if half is None else _made(session, half, now, with_last=True)


def has_buttons(session: Session) -> bool:
    """Whether the screen has buttons for turns."""
    if not session.room.turns_allowed(session):
        return False
    where = session.settings.turn_buttons
    first = where is TurnButtons.FIRST_LESSON and session.room.starts_with_turn_buttons(session)
    return where is TurnButtons.ALWAYS or first


def go_to(session: Session, index: int, now: float) -> Session:
    """Go to the position after so many moves of the history."""
    return _gone(session, lambda history: history.moved_to(index), now)


def undo(session: Session, now: float) -> Session:
    """Undo the last move."""
    return _gone(session, lambda history: history.undone(), now)


def redo(session: Session, now: float) -> Session:
    """Redo the move that was undone last."""
    return _gone(session, lambda history: history.redone(), now)


def _no_help(session: Session) -> str:
    """Why the learner gets no help: it is off, or nothing is to be turned."""
    if not session.room.silent(session):
        refused = session.room.refused(session)
        return words.NO_HINT_HERE if refused == words.NOT_NOW else refused
    return words.help_is_off(sign_for(Act.REVEAL, session.room, bindings_of(session)))


def _gone(session: Session, way: Callable[[History], History], now: float) -> Session:
    if session.attempt is None or not session.room.going_allowed(session):
        return session
    gone = attempts.go_to(session, way(session.attempt.history), now)
    return gone.room.checked(gone, now)


def hint(session: Session, now: float) -> Session:
    """Ask for a hint, or for the next rung of it; a notice says why where none is given."""
    attempt, room = session.attempt, session.room
    refusal = hint_refusal(session)
    if attempt is None or refusal:
        return replace(session, notice=refusal)
    rung = min(DEEPEST_RUNG, attempt.rung + 1)
    given = room.with_attempt(room.hinted(session, rung, now), replace(attempt, rung=rung))
    return replace(given, notice="")


def hint_refusal(session: Session) -> str:
    """Why no hint is given now; empty where one is."""
    attempt, room = session.attempt, session.room
    if attempt is None:
        return words.NO_HINT_HERE
    bearing = attempt.bearing()
    if bearing is not None and room.hints_allowed(session) and bearing.task.done(bearing.position):
        return words.NO_HINT_WHEN_SOLVED
    if not room.hints_allowed(session):
        return room.hint_refused(session) or _no_help(session)
    if session.demonstration is not None:
        return words.NO_HINT_WHILE_SHOWING
    of_cross = room.cross_hints and not cross_whole(session, attempt, attempt.history.cursor)
    if bearing is None and not of_cross:
        return words.NO_HINT_WITHOUT_PAIR
    return words.LAST_HINT if attempt.rung == DEEPEST_RUNG else ""
