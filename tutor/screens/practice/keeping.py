"""Keeping the runs of cases: what goes to the store, and what is taken out of it again."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.method.answer import Answer
from tutor.progress.attempt import MOST_TURNS, AttemptRecord, Outcome
from tutor.screens.practice.state import RUN, CaseRun
from tutor.session.answers import Key
from tutor.session.house import Session, Update
from tutor.session.judging import answer_at
from tutor.session.record_commands import AttemptUndone, OpenRecords, Record, UndoAttempt
from tutor.session.recording import hints_taken, number, route_length, sent, too_long, turns_made
from tutor.session.words import too_long_to_keep


def finished(session: Session, now: float) -> Update:
    """A run that is over is handed to the store, once, as soon as it can be told."""
    run = RUN.of(session)
    if run is None or not run.over or run.filed is not None or run.uncounted:
        return session, ()
    if too_long(run.attempt, run.made, run.hints):
        left = RUN.put(_as_before(session, run), replace(run, uncounted=True))
        return replace(left, notice=too_long_to_keep(MOST_TURNS)), ()
    answer = answer_at(session, run.attempt, 0)
    if answer is None:
        return session, ()
    attempt = of_run(session, run, answer, now)
    return sent(RUN.put(session, replace(run, filed=attempt.uuid)), attempt), (Record(attempt),)


def needed(session: Session) -> tuple[Key, ...]:
    """The answer without which a run that is over cannot be kept."""
    run = RUN.of(session)
    bearing = None if run is None or not run.over or run.filed is not None else run.attempt.bearing(0)
    return () if bearing is None else ((bearing.position, bearing.task),)


def of_run(session: Session, run: CaseRun, answer: Answer, now: float) -> AttemptRecord:
    """A run that is over, as it is kept. ``answer`` is the one for where the learner began."""
    outcome = _outcome(run)
    turns = turns_made(session, run.attempt, run.made)
    return AttemptRecord(
        learner=session.records.learner,
        time=session.records.wall(now),
        case=run.counts_for.slug,
        slot=run.slot,
        alignment=run.alignment,
        mode=run.mode,
        outcome=outcome,
        turns_used=run.attempt.turns_made,
        by_hand=answer.by_hand,
        at_all=answer.distance,
        seconds=run.seconds,
        mirror=run.mirror,
        keep=answer.task.keep,
        turns=turns,
        hints=hints_taken(run.hints),
        route=route_length(answer),
        shown=run.shown,
        first_turn=_first_turn(run),
        uuid=number(session.records),
    )


def _first_turn(run: CaseRun) -> float | None:
    """When the first turn was named, or made; one that was undone has been made, too."""
    if run.glance is not None:
        return run.glance.at
    return run.made[0].at if run.made else None


def _outcome(run: CaseRun) -> Outcome:
    if run.glance is not None:
        return Outcome.NAMED if run.glance.named else Outcome.MISNAMED
    if run.only_watched:
        return Outcome.WATCHED
    return Outcome.SOLVED if run.finished else Outcome.GIVEN_UP


def take_back(session: Session) -> Update:
    """The run on the screen is not to count; the guidance is at once as it was before it."""
    run = RUN.of(session)
    if run is None or run.filed is None:
        return session, ()
    return _as_before(session, run), (UndoAttempt(run.filed, session.records.learner),)


def _as_before(session: Session, run: CaseRun) -> Session:
    """With the guidance as it was before the run was over."""
    others = tuple(item for item in session.guidance if item[0] != run.counts_for.slug)
    guidance = others if run.before is None else (*others, (run.counts_for.slug, run.before))
    return replace(session, guidance=guidance)


def taken_back(session: Session, command: AttemptUndone) -> Update:
    """An attempt counts no more; where it still does, the guidance is read anew."""
    records, run = session.records.standing(command.standing), RUN.of(session)
    if command.problem:
        told = replace(session, records=records, notice=command.problem)
        return told, (OpenRecords(records.learner),)
    if run is not None and run.filed == command.uuid:
        run = replace(run, filed=None, uncounted=True)
    return RUN.put(replace(session, records=records), run), ()
