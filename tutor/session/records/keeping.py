"""Keeping what the learner did: every attempt that is over goes to the store, and what comes of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any
from uuid import UUID, uuid5

from tutor.coach.guidance import Help
from tutor.cube.faces import Face, Turn
from tutor.cube.position import Position
from tutor.cube.symmetry import quarter_about
from tutor.lesson.scenes import Alone, Ask, Extent
from tutor.method.answer import Answer
from tutor.method.cases import CaseSighting, case_of
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.progress.attempt import Attempt, HintTaken, Mode, Outcome, TurnMade
from tutor.progress.attempt import check_learner as checked_name
from tutor.session.answers import Key
from tutor.session.records.commands import (
    ChooseLearner,
    ClockSet,
    LearnerRefused,
    OpenRecords,
    Record,
    Recorded,
    RecordsEffect,
    RecordsOpened,
    TakeBack,
    TakenBack,
)
from tutor.session.records.state import Records
from tutor.session.records.taken import HintUse, TurnTaken
from tutor.session.state import Attempt as InHand
from tutor.session.state import CaseRun, Judged, LessonPlay, Session, answer_at, judged_turns
from tutor.solver.task import Task

Told = tuple[Session, tuple[RecordsEffect, ...]]

# ------------------------------------------------------------------------------- attempts that are over


def kept_up(session: Session, now: float) -> Told:
    """After a command: an attempt that is over is handed to the store, once, as soon as it can be told."""
    effects: list[RecordsEffect] = []
    run, played = session.run, session.lesson
    if run is not None and run.over and run.filed is None and not run.uncounted:
        answer = answer_at(session, run.attempt, 0)
        if answer is not None:
            attempt = of_run(session, run, answer, now)
            session = _sent(replace(session, run=replace(run, filed=attempt.uuid)), attempt)
            effects.append(Record(attempt))
    if played is not None and unfiled(played):
        answer = answer_at(session, played.attempt, 0)
        if answer is not None:
            attempt = of_lesson(session, played, answer, now)
            session = _sent(replace(session, lesson=replace(played, filed=True)), attempt)
            effects.append(Record(attempt))
    return session, tuple(effects)


def unfiled(played: LessonPlay) -> bool:
    """Whether the scene asked for a whole case, is done, and is still to be handed to the store."""
    if not played.solved or played.filed:
        return False
    scene = played.lesson.scenes[played.scene]
    return (
        isinstance(scene, Alone) or (isinstance(scene, Ask) and scene.extent is Extent.CASE)
    ) and _sighting(played) is not None


def _sighting(played: LessonPlay) -> CaseSighting | None:
    bearing = played.attempt.bearing(0)
    return None if bearing is None else case_of(bearing.position, bearing.task)


def still_needed(session: Session) -> tuple[Key, ...]:
    """The answers without which what is over cannot be kept."""
    run, played = session.run, session.lesson
    over = []
    if run is not None and run.over and run.filed is None:
        over.append(run.attempt.bearing(0))
    if played is not None and unfiled(played):
        over.append(played.attempt.bearing(0))
    return tuple((bearing.position, bearing.task) for bearing in over if bearing is not None)


def of_run(session: Session, run: CaseRun, answer: Answer, now: float) -> Attempt:
    """A run that is over, as it is kept. ``answer`` is the one for where the learner began."""
    outcome = _outcome(run)
    turns = _turns(session, run.attempt, run.made)
    return Attempt(
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
        hints=_hints(run.hints),
        route=_route(answer),
        shown=run.shown,
        first_turn=run.flash.at if run.flash is not None else turns[0].at if turns else None,
        uuid=_number(session.records),
    )


def _outcome(run: CaseRun) -> Outcome:
    if run.flash is not None:
        return Outcome.NAMED if run.flash.named else Outcome.MISNAMED
    if run.help is Help.WATCH and not run.made:
        return Outcome.WATCHED
    return Outcome.HOME if run.finished else Outcome.GIVEN_UP


def of_lesson(session: Session, played: LessonPlay, answer: Answer, now: float) -> Attempt:
    """A whole case that was done in a lesson, as it is kept."""
    sighting = _sighting(played)
    if sighting is None:
        raise ValueError("the scene did not ask for a case")
    turns = _turns(session, played.attempt, played.made)
    return Attempt(
        learner=session.records.learner,
        time=session.records.wall(now),
        case=sighting.case.slug,
        slot=answer.task.slot,
        alignment=sighting.alignment,
        mode=Mode.LESSON,
        outcome=Outcome.HOME,
        turns_used=played.attempt.turns_made,
        by_hand=answer.by_hand,
        at_all=answer.distance,
        seconds=max(0.0, (now if played.left is None else played.left) - played.began),
        keep=answer.task.keep,
        turns=turns,
        hints=_hints(played.hints),
        route=_route(answer),
        first_turn=turns[0].at if turns else None,
        uuid=_number(session.records),
    )


def _sent(session: Session, attempt: Attempt) -> Session:
    records = session.records
    waiting = records.waiting | {attempt.uuid}
    return replace(session, records=replace(records, count=records.count + 1, waiting=waiting))


def _number(records: Records) -> UUID:
    """A number that no other attempt has, here or elsewhere."""
    return uuid5(records.mark, str(records.count))


def _route(answer: Answer) -> int | None:
    return len(answer.routes[0].turns) if answer.routes else None


def _hints(hints: tuple[HintUse, ...]) -> tuple[HintTaken, ...]:
    return tuple(HintTaken(use.rung, use.at) for use in hints)


def _turns(session: Session, attempt: InHand, made: tuple[TurnTaken, ...]) -> tuple[TurnMade, ...]:
    """The turns with their verdicts; one whose position the solver was never asked about goes without.

    A turn of the way that was kept belongs to the step that the cut of this way says, a turn taken back to
    the step that was under way before it.
    """
    steps = _steps(judged_turns(session, attempt))
    turns = []
    for each in made:
        answer = session.answers.before(each)
        if answer is None:
            turns.append(TurnMade(each.turn, each.at))
            continue
        told = answer.continuations[each.judged]
        step = steps.get((each.position, each.task, each.judged), answer.step)
        turns.append(TurnMade(each.turn, each.at, told.verdict, told.lost, step))
    return tuple(turns)


def _steps(way: Sequence[Judged]) -> Mapping[tuple[Position, Task, Turn], Step]:
    """The step of each turn of a way, by the position and the task in which it was made."""
    if not way:
        return {}
    start = way[0].bearing
    # The cube may have been turned round on the way: all turns are named as from where it began.
    turns = [quarter_about(Face.U, start.task.slot - each.bearing.task.slot).turn(each.turn) for each in way]
    made = ((each.bearing.position, each.bearing.task, each.turn) for each in way)
    return dict(zip(made, cut(start.position, start.task, turns), strict=True))


# -------------------------------------------------------------------------------- what the store answers


def opened(session: Session, command: RecordsOpened, _now: float) -> Session:
    """The learner's records were read; of one who has left meanwhile only the names of all are taken."""
    standing = command.standing
    records = session.records.standing(standing)
    if standing.learner != records.learner:
        return replace(session, records=records)
    return _told(replace(session, records=records, guidance=tuple(command.guidance.items())))


def recorded(session: Session, command: Recorded, _now: float) -> Session:
    """The store has answered for an attempt."""
    records = session.records.standing(command.standing)
    unsaved = frozenset() if command.saved else records.unsaved | {command.uuid}
    records = replace(records, waiting=records.waiting - {command.uuid}, unsaved=unsaved)
    return _told(replace(session, records=records))


def _told(session: Session) -> Session:
    """What the store has to tell, at the foot."""
    notices = session.records.notices
    return replace(session, notice=" ".join(notices)) if notices else session


def chosen(session: Session, command: ChooseLearner, _now: float) -> Told:
    """Another learner sits down; a run in hand is theirs no more."""
    if command.name == session.records.learner:
        return session, ()
    return seated(session, command.name), (OpenRecords(command.name),)


def seated(session: Session, name: str) -> Session:
    """Another learner sits here, who has no lesson and no run in hand yet."""
    records = replace(session.records, learner=name, study=None)
    settings = replace(session.settings, learner=name)
    return replace(session, records=records, settings=settings, guidance=(), run=None, lesson=None)


def named(session: Session, name: str) -> Told:
    """A new learner under this name, or the one who has it. Raises AttemptError for what is no name."""
    checked_name(name.strip())
    return session, (OpenRecords(name.strip(), new=True),)


def refused(session: Session, command: LearnerRefused, _now: float) -> Session:
    """A learner could not be added."""
    return replace(session, notice=command.message)


def take_back(session: Session, _now: float) -> Told:
    """The run on the screen is not to count; the guidance is at once as it was before it."""
    run = session.run
    if run is None or run.filed is None:
        return session, ()
    others = tuple(item for item in session.guidance if item[0] != run.counts_for.slug)
    guidance = others if run.before is None else (*others, (run.counts_for.slug, run.before))
    return replace(session, guidance=guidance), (TakeBack(run.filed, session.records.learner),)


def taken_back(session: Session, command: TakenBack, _now: float) -> Session | Told:
    """An attempt counts no more; where it still does, the guidance is read anew."""
    records, run = session.records.standing(command.standing), session.run
    if command.problem:
        told = replace(session, records=records, notice=command.problem)
        return told, (OpenRecords(records.learner),)
    if run is not None and run.filed == command.uuid:
        run = replace(run, filed=None, uncounted=True)
    return replace(session, records=records, run=run)


def clock_set(session: Session, command: ClockSet, _now: float) -> Session:
    """The wall clock was read."""
    return replace(session, records=replace(session.records, epoch=command.epoch))


HANDLERS: dict[type, Callable[[Session, Any, float], Session | Told]] = {
    ChooseLearner: chosen,
    RecordsOpened: opened,
    LearnerRefused: refused,
    Recorded: recorded,
    TakenBack: taken_back,
    ClockSet: clock_set,
}
"""What each kind of command does."""
