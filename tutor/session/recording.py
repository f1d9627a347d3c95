"""Keeping what the learner did: every attempt that is over goes to the store, and what comes of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import assert_never
from uuid import UUID, uuid5

from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.position import Position
from tutor.cube.symmetry import quarter_about
from tutor.method.answer import Answer
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.progress.attempt import MOST_TURNS, AttemptRecord, HintTaken, TurnMade
from tutor.progress.attempt import check_learner as checked_name
from tutor.progress.names import same_learner
from tutor.session import words
from tutor.session.house import Session, Update
from tutor.session.judging import Judged, judged_turns
from tutor.session.learner_records import Records
from tutor.session.making import so_far
from tutor.session.navigation import opened as opened_room
from tutor.session.places import renamed
from tutor.session.record_commands import (
    AssignedKept,
    AttemptUndone,
    ChooseLearner,
    ClockSet,
    Exchanged,
    GroupReported,
    HardestFound,
    LearnerChange,
    LearnerChanged,
    LearnerRefused,
    OpenRecords,
    OwnWordsKept,
    Proposed,
    Recorded,
    RecordsCommand,
    RecordsEffect,
    RecordsOpened,
    StoreAnswer,
    Summarised,
)
from tutor.session.state import Attempt
from tutor.session.turns_taken import HintUse, Taken, TurnTaken
from tutor.solver.task import Task

Told = tuple[Session, tuple[RecordsEffect, ...]]

# ------------------------------------------------------------------------------- attempts that are over


def sent(session: Session, attempt: AttemptRecord) -> Session:
    """The session with an attempt on its way to the store."""
    records = session.records
    waiting = records.waiting | {attempt.uuid}
    return replace(session, records=replace(records, count=records.count + 1, waiting=waiting))


def number(records: Records) -> UUID:
    """A number that no other attempt has, here or elsewhere."""
    return uuid5(records.mark, str(records.count))


def route_length(answer: Answer) -> int | None:
    """How many turns the route shown takes; None where there is none."""
    return len(answer.routes[0].turns) if answer.routes else None


def hints_taken(hints: tuple[HintUse, ...]) -> tuple[HintTaken, ...]:
    """Hints as they are kept."""
    return tuple(HintTaken(use.rung, use.at) for use in hints)


def too_long(attempt: Attempt, made: Taken, hints: tuple[HintUse, ...]) -> bool:
    """Whether a try has more turns or hints than an attempt can have."""
    return max(attempt.turns_made, len(made), len(hints)) > MOST_TURNS


def turns_that_count(session: Session, attempt: Attempt, made: Taken) -> Taken:
    """The turns made but for those that were undone while they were still in the making.

    A turn still in the making costs nothing. Undone, it leaves the cube where it or a turn before it began;
    once another layer is turned it counts, also undone later.
    """
    now = attempt.bearing()
    starts = [(each.position, each.task) for each in made]
    left = [*starts[1:], None if now is None else (now.position, now.task)]
    return tuple(
        each
        for count, each in enumerate(made)
        if left[count] not in starts[: count + 1] or not _in_the_making(session, each)
    )


def _in_the_making(session: Session, taken: TurnTaken) -> bool:
    answer = session.answers.before(taken.position, taken.task)
    return (
        answer is not None
        and so_far(taken.judged, lambda turn: answer.continuation(turn).verdict) is not None
    )


def turns_made(session: Session, attempt: Attempt, made: Taken) -> tuple[TurnMade, ...]:
    """The turns that count, with their verdicts.

    One whose position the solver was never asked about goes without.

    A turn belongs to the step that the cut of the way that was kept has at its position; an undone turn
    where that way does not pass, to the step that was under way before it.
    """
    steps = _steps(judged_turns(session, attempt))
    turns = []
    for each in turns_that_count(session, attempt, made):
        answer = session.answers.before(each.position, each.task)
        if answer is None:
            turns.append(TurnMade(each.turn, each.at))
            continue
        told = answer.continuations[each.judged]
        step = steps.get((each.position, each.task), answer.step)
        turns.append(TurnMade(each.turn, each.at, told.verdict, told.lost, step))
    return tuple(turns)


def _steps(way: Sequence[Judged]) -> Mapping[tuple[Position, Task], Step]:
    """The step of each turn of a way, by the position and the task in which it was made."""
    if not way:
        return {}
    start = way[0].bearing
    # The cube may have been turned round on the way: all turns are named as from where it began.
    turns = [quarter_about(Face.U, start.task.slot - each.bearing.task.slot).turn(each.turn) for each in way]
    made = ((each.bearing.position, each.bearing.task) for each in way)
    return dict(zip(made, cut(start.position, start.task, turns), strict=True))


# -------------------------------------------------------------------------------- what the store answers


def opened(session: Session, command: RecordsOpened) -> Session:
    """With the records that the store has read; for another learner only the names of all."""
    standing = command.standing
    session = under_name(session, standing.learner)
    records = session.records.standing(standing)
    if standing.learner != records.learner:
        return replace(session, records=records)
    return _told(replace(session, records=records, guidance=tuple(command.guidance.items())))


def recorded(session: Session, command: Recorded) -> Session:
    """The store has answered for an attempt."""
    records = session.records.standing(command.standing)
    unsaved = frozenset() if command.saved else records.unsaved | {command.uuid}
    records = replace(records, waiting=records.waiting - {command.uuid}, unsaved=unsaved)
    return _told(replace(session, records=records))


def exchanged(session: Session, command: Exchanged) -> Told:
    """After a look at the shared folder: what has come for the learner here, or for a new one, is read."""
    records = session.records
    before, notice = records.exchanged, session.notice
    if command.problem and (before is None or before.problem != command.problem):
        notice = command.problem
    elif before is not None and before.away and not command.away:
        notice = words.folder_is_back(command.folder)
    session = replace(session, records=replace(records, exchanged=command), notice=notice)
    known = set(records.learners) - {records.learner}
    news = any(each not in known for each in command.learners)
    return session, (OpenRecords(records.learner),) if news else ()


def _told(session: Session) -> Session:
    """With the store's messages at the foot."""
    notices = session.records.notices
    return replace(session, notice=" ".join(notices)) if notices else session


def chosen(session: Session, command: ChooseLearner) -> Told:
    """With another learner, who takes over no run in hand."""
    if command.name == session.records.learner:
        return session, ()
    return seated(session, command.name), (OpenRecords(command.name),)


def under_name(session: Session, name: str) -> Session:
    """With the learner's name as the store writes it, if it is the same learner's."""
    records = session.records
    if name == records.learner or not same_learner(name, records.learner):
        return session
    return called(session, name)


def called(session: Session, name: str) -> Session:
    """With the learner who sits here under another name; a run in hand stays."""
    places = renamed(session.places, session.records.learner, name)
    return replace(
        session,
        places=places,
        records=replace(session.records, learner=name),
        settings=replace(session.settings, learner=name),
    )


def changed(session: Session, command: LearnerChanged) -> Session:
    """A learner was renamed, joined, removed or put back; who sits here may be another after it."""
    old, new, standing = command.old, command.new, command.standing
    if not command.problem:
        here = same_learner(old, session.records.learner)
        if command.change is LearnerChange.RENAME and here:
            session = called(session, new)
        elif command.change is not LearnerChange.PUT_BACK:
            session = replace(session, places=renamed(session.places, old, new))
        if standing.learner != session.records.learner:
            session = seated(session, standing.learner)
    session = opened(session, RecordsOpened(standing, command.guidance))
    return replace(session, notice=command.problem) if command.problem else session


def seated(session: Session, name: str) -> Session:
    """With another learner, who has no lesson and no run in hand yet."""
    records = replace(session.records, learner=name, study=None, own_words={}, assigned=())
    settings = replace(session.settings, learner=name)
    session = replace(session, records=records, settings=settings, guidance=())
    for room in session.house:
        session = room.learner_changed(session)
    return session


def named(session: Session, name: str) -> Told:
    """Open the records of a learner, new or known. Raises AttemptError for what is no name."""
    checked_name(name.strip())
    return session, (OpenRecords(name.strip(), new=True),)


def told(session: Session, command: RecordsCommand, now: float) -> Update:
    """Who sits down, and what the store answers: first to a room to which it means more."""
    match command:
        case ChooseLearner():
            session, effects = chosen(session, command)
            return opened_room(session, session.house.first.name, now), effects
        case ClockSet(epoch):
            return replace(session, records=replace(session.records, epoch=epoch)), ()
        case Exchanged():
            return exchanged(session, command)
        case _:
            answers = (room.told(session, command, now) for room in session.house)
            taken = next((answer for answer in answers if answer is not None), None)
            return (_taken(session, command), ()) if taken is None else taken


def _taken(session: Session, command: StoreAnswer) -> Session:
    """An answer of the store that means nothing more to any room."""
    match command:
        case RecordsOpened():
            return opened(session, command)
        case LearnerRefused(message):
            return replace(session, notice=message)
        case LearnerChanged():
            return changed(session, command)
        case Recorded():
            return recorded(session, command)
        case Summarised():
            return replace(session, records=replace(session.records, summarised=command))
        case OwnWordsKept(standing, problem) | AssignedKept(standing, _, problem):
            records = session.records.standing(standing)
            return replace(session, records=records, notice=problem or session.notice)
        case AttemptUndone() | Proposed() | GroupReported() | HardestFound():
            return session
        case _:
            assert_never(command)
