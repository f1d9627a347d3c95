"""“Why this turn?”, asked at the moment of a right turn: after a detour, and sometimes without one."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.guidance import Help
from tutor.coach.why import TurnQuestion, why
from tutor.method.terms import Verdict
from tutor.progress.attempt import Mode
from tutor.screens.practice.case_run import guidance_for
from tutor.screens.practice.state import RUN, CaseRun, RunPhase
from tutor.session.house import Session
from tutor.session.judging import Judged
from tutor.session.looking_back import colour_words, in_the_making, last_judged
from tutor.session.recording import turns_that_count

_ASKED_IN = (Mode.SINGLE, Mode.TODAY, Mode.SLIPPING, Mode.FAMILY)
"""Where a question does not stand in the way: with the beat the learner has no time for it."""


def asked(session: Session) -> Session:
    """The run with a question about the turn made last; one about a turn before it falls away."""
    run = RUN.of(session)
    if run is None or run.phase is not RunPhase.TURNING:
        return session
    if run.question is not None and not _about_last(session, run, run.question):
        return RUN.put(session, replace(run, question=None, chosen=()))
    if run.asked_at is not None or not _may_ask(session, run):
        return session
    last = last_judged(session, run.attempt)
    if last is None or last.answer is None or in_the_making(session, run.attempt) is not None:
        return session
    runs = guidance_for(session, run.counts_for).runs
    if last.answer.continuations[last.turn].verdict is Verdict.DETOUR or not (
        _after_detour(session, run) or _turn_comes(run, runs)
    ):
        return session
    return _with_question(session, run, last, runs)


def _about_last(session: Session, run: CaseRun, question: TurnQuestion) -> bool:
    """Whether the turn asked about is still the last; one more of its layer has made it another."""
    last = last_judged(session, run.attempt)
    same = last is not None and last.turn == question.turn
    return same and run.attempt.history.cursor == run.asked_at


def _with_question(session: Session, run: CaseRun, last: Judged, seed: int) -> Session:
    assert last.answer is not None
    colours = colour_words(session, run.attempt.history.cube_at(last.index), last.bearing)
    question = why(last.answer, last.turn, colours, seed)
    if question is None:
        return session
    return RUN.put(session, replace(run, question=question, asked_at=run.attempt.history.cursor))


def _may_ask(session: Session, run: CaseRun) -> bool:
    """Once a run, on a case that is not known yet and in which the learner sees verdicts."""
    told = run.help is not Help.ALONE or run.revealed
    return told and run.mode in _ASKED_IN and not guidance_for(session, run.counts_for).known


def _turn_comes(run: CaseRun, runs: int) -> bool:
    """Without a detour a question comes in every other run, at the first or at the second turn."""
    return runs % 2 == 0 and len(run.made) > runs // 2 % 2


def _after_detour(session: Session, run: CaseRun) -> bool:
    """Whether the turn before the last was one, be it undone."""
    before = turns_that_count(session, run.attempt, run.made)[-2:-1]
    known = [(session.answers.before(each.position, each.task), each.judged) for each in before]
    return any(
        answer is not None and answer.continuations[turn].verdict is Verdict.DETOUR for answer, turn in known
    )
