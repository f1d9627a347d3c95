"""Shift turns a layer the other way: told once, when a plain turn was right and Shift made it a prime."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.cube.faces import Turn
from tutor.method.terms import Verdict
from tutor.session.house import Session
from tutor.session.looking_back import last_judged


def noted(before: Session, after: Session) -> Session:
    """The session that remembers that its last turn was made by a key with Shift."""
    if after.attempt is None or after.attempt is before.attempt:
        return after
    return replace(after, shifted=after.attempt.cube)


def told(session: Session) -> Session:
    """The session that remembers where the learner is told, the first time it is called for."""
    attempt = session.attempt
    if session.shift_told is not None or attempt is None or session.shifted != attempt.cube:
        return session
    return replace(session, shift_told=attempt.cube) if _meant_plain(session) else session


def _meant_plain(session: Session) -> bool:
    """Whether the last turn is a prime and a Detour, and the plain turn was Optimal."""
    attempt = session.attempt
    last = None if attempt is None or session.room.silent(session) else last_judged(session, attempt)
    if last is None or last.answer is None or last.turn.quarters != 3 or not last.answer.distance:
        return False
    judged = last.answer.continuations
    plain = judged[Turn.of(last.turn.face, 1)].verdict
    return plain is Verdict.OPTIMAL and judged[last.turn].verdict is Verdict.DETOUR


def tells(session: Session) -> bool:
    """Whether the card says it now."""
    attempt = session.attempt
    return attempt is not None and session.shift_told == attempt.cube and _meant_plain(session)
