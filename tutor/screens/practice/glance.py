"""At a glance: the learner sees a case, names its step and its first turn, and turns nothing.

To remember is not to be quick: how long it takes to see what a case asks for has a practice of its own.
"""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.why import TurnQuestion, why
from tutor.cube.faces import Turn
from tutor.cube.notation import Move, Rotation
from tutor.method.answer import Answer
from tutor.screens.practice import case_run, words
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import RUN, STEPS_NAMED, CaseRun, Glance, RunPhase
from tutor.session.house import Session


def asking(session: Session) -> CaseRun | None:
    """The run on the screen that is to be named at a glance and is not answered yet."""
    run = RUN.of(session)
    if session.screen != NAME or run is None or run.phase is not RunPhase.TURNING:
        return None
    return run if run.glance is not None else None


def _told(session: Session, run: CaseRun, glance: Glance) -> Session:
    return RUN.put(replace(session, notice=""), replace(run, glance=glance))


def step_named(session: Session, index: int) -> Session:
    """The step under way is said to be this one of STEPS_NAMED; it can be changed until a turn is named."""
    run = asking(session)
    if run is None or run.glance is None or not 0 <= index < len(STEPS_NAMED):
        return session
    return _told(session, run, replace(run.glance, step=STEPS_NAMED[index]))


def turn_keyed(session: Session, move: Move, now: float) -> Session:
    """A turn by key is named, and Enter makes it the answer; a quarter named twice is the half turn."""
    run = asking(session)
    if run is not None and run.glance is not None and move == run.glance.turn and move.quarters != 2:
        return halved(session)
    return _named(session, move, now)


def _named(session: Session, move: Move, now: float) -> Session:
    run = asking(session)
    if run is None or run.glance is None:
        return session
    if isinstance(move, Rotation) or not isinstance(move, Turn):
        return replace(session, notice=words.ONLY_NAME)
    if run.glance.step is None:
        return replace(session, notice=words.STEP_FIRST)
    return _told(session, run, replace(run.glance, turn=move, at=max(0.0, now - run.started)))


def halved(session: Session) -> Session:
    """The turn named by key made a half turn."""
    run = asking(session)
    if run is None or run.glance is None or run.glance.turn is None:
        return session
    return _told(session, run, replace(run.glance, turn=Turn.of(run.glance.turn.face, 2)))


def turned_over(session: Session) -> Session:
    """The plain turn named by key made to go the other way."""
    run = asking(session)
    named = None if run is None or run.glance is None else run.glance.turn
    if run is None or run.glance is None or named is None or named.quarters != 1:
        return session
    return _told(session, run, replace(run.glance, turn=named.inverse))


def turn_pressed(session: Session, turn: Turn, now: float) -> Session:
    """A turn by button, which is the answer at once."""
    named = _named(session, turn, now)
    run = asking(named)
    return named if run is None or run.glance is None or run.glance.turn is None else answered(named, now)


def answered(session: Session, now: float) -> Session:
    """The answer as it was named: right, or not; and the run is over."""
    run = asking(session)
    if run is None or run.glance is None:
        return session
    if run.glance.step is None or run.glance.turn is None:
        return replace(session, notice=words.STEP_FIRST if run.glance.step is None else words.TURN_NEXT)
    return _over(session, run, run.glance, now)


def given_up(session: Session, now: float) -> Session:
    """The learner does not know, and is told."""
    run = asking(session)
    if run is None or run.glance is None:
        return session
    return _over(session, run, replace(run.glance, turn=None, at=None), now)


def _over(session: Session, run: CaseRun, glance: Glance, now: float) -> Session:
    answer, bearing = case_run.start_answer(session, run), run.attempt.bearing(0)
    if answer is None or bearing is None:
        return session
    glance = replace(glance, step_right=glance.step is answer.step)
    if glance.turn is not None:
        glance = replace(glance, verdict=answer.continuations[bearing.turn_as_judged(glance.turn)].verdict)
    over = replace(
        run,
        phase=RunPhase.OVER,
        glance=glance,
        seconds=max(0.0, now - run.started),
        before=dict(session.guidance).get(run.counts_for.slug),
    )
    return RUN.put(replace(session, notice=""), over)


def explained(session: Session, run: CaseRun, answer: Answer) -> TurnQuestion | None:
    """What there is to say about why the first turn is made; None where nothing can be told in a word."""
    bearing = run.attempt.bearing(0)
    if bearing is None:
        return None
    return why(answer, answer.way.turns[0], case_run.start_colours(session, run, bearing), seed=0)
