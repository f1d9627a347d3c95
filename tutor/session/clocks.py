"""Clocks of a run, a scene and a whole solve: they stand still while another screen or a sheet is over it."""

from __future__ import annotations

from dataclasses import replace

from tutor.coach.guidance import Help
from tutor.session.state import CaseRun, Phase, Session, Sheet
from tutor.ui.view import Screen


def kept_up(session: Session, now: float) -> Session:
    """After a command: what is out of sight has its clock stopped, what is in sight goes on."""
    seen = _in_sight(session)
    return _resumed(_stopped(session, seen, now), seen, now)


def _in_sight(session: Session) -> Screen | None:
    """The screen, unless something lies over it."""
    covered = session.sheet is not Sheet.NONE or bool(session.failure)
    return None if covered else session.screen


def _stopped(session: Session, seen: Screen | None, now: float) -> Session:
    """With the moment noted for all that is out of sight since now, also for what began there.

    What is answered takes no more time either, though the solver may still be at work on its turns.
    """
    run, played, solve = session.run, session.lesson, session.solve
    if seen is not Screen.PRACTICE and run is not None and run.left is None and _counts(run):
        session = replace(session, run=replace(run, left=now))
    if played is not None and played.left is None and (played.solved or seen is not Screen.LESSON):
        session = replace(session, lesson=replace(played, left=now))
    if seen is not Screen.SOLVE and solve is not None and solve.left is None:
        session = replace(session, solve=replace(solve, left=now))
    return session


def _counts(run: CaseRun) -> bool:
    """Whether the time of a run is counted now: while it is turned, and while all of it is watched."""
    return run.phase is Phase.TURNING or (run.phase is Phase.SHOWING and run.help is Help.WATCH)


def _resumed(session: Session, screen: Screen | None, now: float) -> Session:
    run, played, solve = session.run, session.lesson, session.solve
    if screen is Screen.PRACTICE and run is not None and run.left is not None:
        return replace(session, run=replace(run, started=run.started + now - run.left, left=None))
    if screen is Screen.LESSON and played is not None and played.left is not None and not played.solved:
        return replace(session, lesson=replace(played, began=played.began + now - played.left, left=None))
    if screen is Screen.SOLVE and solve is not None and solve.left is not None:
        return replace(session, solve=replace(solve, away=solve.away + now - solve.left, left=None))
    return session
