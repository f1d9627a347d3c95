"""Turning the cube on whatever screen it is: where it is allowed, and what follows from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tutor.coach.catalogue import ENGLISH
from tutor.coach.guidance import Help
from tutor.cube.notation import Move, Rotation
from tutor.session import lesson_play, play
from tutor.session.making import goes_on
from tutor.session.practice import case_run, flash
from tutor.session.state import CaseRun, Phase, Session, answer_at
from tutor.ui.view import Screen

NOT_NOW = "Your turns come when a scene asks for them; Enter goes on."
NOT_YET = "Look first: the cube is yours when this has been shown. Enter goes on."
ONLY_WATCHED = "This time you only watch: a part of it is yours the next time."
NO_MORE = "This run is over. Enter goes on."
ONLY_FOLLOWING = "Here the turns are made for you: keep your eyes on the two pieces."
ONLY_LOOKING = "Here a case is looked at. Try it, and the turns are yours."


MOST_ONE_BY_ONE = 40
"""Written moves that are followed one by one."""


def turns_allowed(session: Session) -> bool:
    """Whether the cube is the learner's to turn now."""
    if session.screen is Screen.PRACTICE:
        run = session.run
        return run is not None and run.phase is Phase.TURNING and run.flash is None
    if session.screen in (Screen.CASE_BOOK, Screen.LOOKING_AHEAD):
        return False
    if session.screen is Screen.SOLVE:
        return session.solve is not None and not session.solve.over
    return lesson_play.turns_allowed(session)


def going_allowed(session: Session) -> bool:
    """Whether one may go to and fro among the moves made."""
    return turns_allowed(session) or session.screen is Screen.SOLVE


def silent(session: Session) -> bool:
    """Whether no verdicts and hints are given: alone, until it is over or help is asked for."""
    if session.screen is Screen.PRACTICE and session.run is not None:
        run = session.run
        asked = run.help is Help.ALONE and not run.revealed
        return (asked or run.flash is not None) and run.phase is not Phase.OVER
    return lesson_play.silent(session)


def taken_over(session: Session, now: float) -> Session:
    """When what is shown first has been seen to its end, the learner's part begins with the first turn."""
    if session.demonstration is not None and session.demonstration.finished(now):
        return handed_over(session, now)
    return session


def handed_over(session: Session, now: float) -> Session:
    """What was to be shown has been: the cube is the learner's, whatever was refused before."""
    return _refusal_forgotten(case_run.handed_over(session, now))


def _refusal_forgotten(session: Session) -> Session:
    """Without the word on why no turn was made, which is true no longer; any other word stays."""
    return replace(session, notice="") if session.notice in (NOT_NOW, NOT_YET, ONLY_WATCHED) else session


def refused(session: Session) -> Session:
    """Say why a turn is not made."""
    said = NOT_NOW
    if session.screen is Screen.CASE_BOOK:
        said = ONLY_LOOKING
    elif session.screen is Screen.LOOKING_AHEAD:
        said = ONLY_FOLLOWING
    elif session.screen is Screen.SOLVE:
        said = ENGLISH.say("solve.stopped")
    elif session.screen is Screen.PRACTICE and session.run is not None:
        said = _refused_in_practice(session, session.run)
    return session if session.attempt is None else replace(session, notice=said)


def _refused_in_practice(session: Session, run: CaseRun) -> str:
    if run.phase is Phase.OVER:
        return NO_MORE
    if flash.asking(session) is not None:
        return flash.ONLY_NAMED
    return ONLY_WATCHED if run.help is Help.WATCH else NOT_YET


def make(session: Session, move: Move, now: float) -> Session:
    """Make a move, or say why not."""
    session = taken_over(session, now)
    if flash.asking(session) is not None:
        return flash.turn_keyed(session, move, now)
    only_held = session.screen is Screen.SOLVE and isinstance(move, Rotation)
    if not (turns_allowed(session) or only_held):
        return refused(session)
    session = _refusal_forgotten(session)
    attempt = session.attempt
    return _made(session, move, now, with_last=attempt is not None and goes_on(session, attempt, move))


def _made(session: Session, move: Move, now: float, *, with_last: bool) -> Session:
    noted = case_run.noted(session, move, now, with_last=with_last)
    return checked(play.make(noted, move, now, with_last=with_last), now)


def make_all(session: Session, moves: Sequence[Move], now: float) -> Session:
    """Make written moves, or say why not. Of very many on a cube of one's own, those before the last are
    made together: nobody could see them turn, and only where they lead is followed up."""
    ahead = len(moves) - MOST_ONE_BY_ONE
    if ahead > 0 and session.screen in (Screen.FREE_PLAY, Screen.SOLVE) and turns_allowed(session):
        session, moves = play.make_together(session, moves[:ahead], now), moves[ahead:]
    for move in moves:
        session = make(session, move, now)
    return session


def halve(session: Session, now: float) -> Session:
    """Make the last turn a half turn: the same quarter once more."""
    if flash.asking(session) is not None:
        return flash.halved(session)
    last = None if session.attempt is None else session.attempt.history.last
    if not turns_allowed(session) or last is None or last.quarters == 2:
        return session
    return _made(session, last, now, with_last=True)


def go_to(session: Session, index: int, now: float) -> Session:
    """Go to the position after so many moves of the history."""
    if session.attempt is None or not going_allowed(session):
        return session
    return checked(play.go_to(session, session.attempt.history.moved_to(index), now), now)


def undo(session: Session, now: float) -> Session:
    """Take the last move back."""
    if session.attempt is None or not going_allowed(session):
        return session
    return checked(play.go_to(session, session.attempt.history.undone(), now), now)


def redo(session: Session, now: float) -> Session:
    """Make the move again that was taken back last."""
    if session.attempt is None or not going_allowed(session):
        return session
    return checked(play.go_to(session, session.attempt.history.redone(), now), now)


def hint(session: Session, now: float) -> Session:
    """Ask for a hint, or for the next rung of it."""
    attempt = session.attempt
    if attempt is None or silent(session) or not turns_allowed(session) or lesson_play.answered(session):
        return session
    if session.screen is Screen.SOLVE and session.solve is not None and session.solve.ended is not None:
        return session
    rung = min(3, attempt.rung + 1)
    return play.with_attempt(case_run.hinted(session, rung, now), replace(attempt, rung=rung))


def checked(session: Session, now: float) -> Session:
    """After the cube or what is known of it changed: whether a question is answered, a run begins or ends."""
    session = lesson_play.checked(session)
    run = session.run
    if run is None or session.screen is not Screen.PRACTICE:
        return session
    if run.phase is Phase.WAITING:
        answer = answer_at(session, run.attempt, 0)
        return session if answer is None else case_run.begun(session, answer, now)
    return case_run.checked(session, now)


def shown_anew(session: Session, now: float) -> Session:
    """On coming back to a screen: what its scene or run shows first is shown from its beginning."""
    run = session.run
    if session.screen is Screen.PRACTICE and run is not None and run.phase is Phase.SHOWING:
        return checked(replace(session, run=replace(run, phase=Phase.WAITING)), now)
    return lesson_play.shown_anew(session, now)
