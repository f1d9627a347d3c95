"""Recognition flash: the case is seen, its step and its first turn are named, and nothing is turned.

Recall is not fluency: how long it takes to see what a case asks for is practised, and kept, apart.
"""

from __future__ import annotations

from dataclasses import replace

from tutor.coach.why import TurnQuestion, why
from tutor.cube.faces import Turn
from tutor.cube.notation import Move, Rotation
from tutor.method.answer import Answer
from tutor.screens.practice import case_run
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import RUN, STEPS_NAMED, CaseRun, Flash, Phase
from tutor.session.house import Session
from tutor.session.target import colours_as_held

STEP_FIRST = "First name the step, with the keys 1 to 4."
ONLY_NAMED = "Nothing is turned in a flash: only name the first turn."


def asking(session: Session) -> CaseRun | None:
    """The flash on the screen that is still to be answered."""
    run = RUN.of(session)
    if session.screen != NAME or run is None or run.phase is not Phase.TURNING:
        return None
    return run if run.flash is not None else None


def _told(session: Session, run: CaseRun, flash: Flash) -> Session:
    return RUN.put(replace(session, notice=""), replace(run, flash=flash))


def step_named(session: Session, index: int) -> Session:
    """The step under way is said to be this one of STEPS_NAMED; it can be changed until a turn is named."""
    run = asking(session)
    if run is None or run.flash is None or not 0 <= index < len(STEPS_NAMED):
        return session
    return _told(session, run, replace(run.flash, step=STEPS_NAMED[index]))


def turn_keyed(session: Session, move: Move, now: float) -> Session:
    """A turn by key is named, and Enter makes it the answer; a quarter named twice is the half turn."""
    run = asking(session)
    if run is not None and run.flash is not None and move == run.flash.turn and move.quarters != 2:
        return halved(session)
    return _named(session, move, now)


def _named(session: Session, move: Move, now: float) -> Session:
    run = asking(session)
    if run is None or run.flash is None:
        return session
    if isinstance(move, Rotation) or not isinstance(move, Turn):
        return replace(session, notice=ONLY_NAMED)
    if run.flash.step is None:
        return replace(session, notice=STEP_FIRST)
    return _told(session, run, replace(run.flash, turn=move, at=max(0.0, now - run.started)))


def halved(session: Session) -> Session:
    """The turn named by key made a half turn."""
    run = asking(session)
    if run is None or run.flash is None or run.flash.turn is None:
        return session
    return _told(session, run, replace(run.flash, turn=Turn.of(run.flash.turn.face, 2)))


def turn_pressed(session: Session, turn: Turn, now: float) -> Session:
    """A turn by button, which is the answer at once."""
    named = _named(session, turn, now)
    run = asking(named)
    return named if run is None or run.flash is None or run.flash.turn is None else answered(named, now)


def answered(session: Session, now: float) -> Session:
    """The answer as it was named: right, or not, and the flash is over."""
    run = asking(session)
    if run is None or run.flash is None:
        return session
    if run.flash.step is None or run.flash.turn is None:
        return replace(session, notice=STEP_FIRST if run.flash.step is None else "Now name the first turn.")
    return _over(session, run, run.flash, now)


def given_up(session: Session, now: float) -> Session:
    """The learner does not know, and is told."""
    run = asking(session)
    if run is None or run.flash is None:
        return session
    return _over(session, run, replace(run.flash, turn=None, at=None), now)


def _over(session: Session, run: CaseRun, flash: Flash, now: float) -> Session:
    answer, bearing = case_run.start_answer(session, run), run.attempt.bearing(0)
    if answer is None or bearing is None:
        return session
    flash = replace(flash, step_right=flash.step is answer.step)
    if flash.turn is not None:
        flash = replace(flash, verdict=answer.continuations[bearing.turn_as_judged(flash.turn)].verdict)
    over = replace(
        run,
        phase=Phase.OVER,
        flash=flash,
        seconds=max(0.0, now - run.started),
        before=dict(session.guidance).get(run.counts_for.slug),
    )
    return RUN.put(replace(session, notice=""), over)


def explained(session: Session, run: CaseRun, answer: Answer) -> TurnQuestion | None:
    """What there is to say about why the first turn is made; None where nothing can be told in a word."""
    bearing = run.attempt.bearing(0)
    if bearing is None:
        return None
    colours = colours_as_held(run.attempt.history.start.rotated(bearing.hold), session.settings.colour_names)
    return why(answer, answer.way.turns[0], colours, seed=0)
