"""Clocks of a run, a scene and a whole solve: they stand still while another screen or a sheet is over it."""

from __future__ import annotations

from dataclasses import replace

from tutor.session.state import Phase, Session, Sheet
from tutor.session.view import Screen


def kept_up(before: Session, after: Session, now: float) -> Session:
    """After a command: what went out of sight has its clock stopped, what came into sight goes on."""
    was, seen = _in_sight(before), _in_sight(after)
    if was is seen:
        return after
    return _resumed(_stopped(after, was, now), seen, now)


def _in_sight(session: Session) -> Screen | None:
    """The screen, unless something lies over it."""
    covered = session.sheet is not Sheet.NONE or bool(session.failure)
    return None if covered else session.screen


def _stopped(session: Session, screen: Screen | None, now: float) -> Session:
    run, played, solve = session.run, session.lesson, session.solve
    if screen is Screen.PRACTICE and run is not None and run.phase is Phase.TURNING:
        return replace(session, run=replace(run, left=now))
    if screen is Screen.LESSON and played is not None and not played.solved:
        return replace(session, lesson=replace(played, left=now))
    if screen is Screen.SOLVE and solve is not None:
        return replace(session, solve=replace(solve, left=now))
    return session


def _resumed(session: Session, screen: Screen | None, now: float) -> Session:
    run, played, solve = session.run, session.lesson, session.solve
    if screen is Screen.PRACTICE and run is not None and run.left is not None:
        return replace(session, run=replace(run, started=run.started + now - run.left, left=None))
    if screen is Screen.LESSON and played is not None and played.left is not None:
        return replace(session, lesson=replace(played, began=played.began + now - played.left, left=None))
    if screen is Screen.SOLVE and solve is not None and solve.left is not None:
        return replace(session, solve=replace(solve, away=solve.away + now - solve.left, left=None))
    return session
