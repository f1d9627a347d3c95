"""Keeping a whole case that was done in a lesson."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.lesson.scenes import Alone, Ask, Extent
from tutor.method.answer import Answer
from tutor.method.cases import CaseSighting, case_of
from tutor.progress.attempt import MOST_TURNS, AttemptRecord, Mode, Outcome
from tutor.screens.lesson.state import LESSON, LessonPlay
from tutor.session.answers import Key
from tutor.session.house import Session, Update
from tutor.session.judging import answer_at
from tutor.session.record_commands import Record
from tutor.session.recording import hints_taken, number, route_length, sent, too_long, turns_made
from tutor.session.words import too_long_to_keep


def finished(session: Session, now: float) -> Update:
    """A case that is done is handed to the store, once, as soon as it can be told."""
    played = LESSON.of(session)
    if played is not None and unfiled(played) and too_long(played.attempt, played.made, played.hints):
        left = LESSON.put(session, replace(played, filed=True))
        return replace(left, notice=too_long_to_keep(MOST_TURNS)), ()
    answer = None if played is None or not unfiled(played) else answer_at(session, played.attempt, 0)
    if played is None or answer is None:
        return session, ()
    attempt = of_lesson(session, played, answer, now)
    return LESSON.put(sent(session, attempt), replace(played, filed=True)), (Record(attempt),)


def needed(session: Session) -> tuple[Key, ...]:
    """The answer without which what is done cannot be kept."""
    played = LESSON.of(session)
    bearing = None if played is None or not unfiled(played) else played.attempt.bearing(0)
    return () if bearing is None else ((bearing.position, bearing.task),)


def unfiled(played: LessonPlay) -> bool:
    """Whether the scene asked for a whole case, is done, and is still to be handed to the store."""
    return played.solved and not played.filed and whole_case(played) is not None


def whole_case(played: LessonPlay) -> CaseSighting | None:
    """The case that the scene asks for from start to end; None where it asks for anything else.

    Where turning itself is taught turns are only read, so that nobody has met a case by them.
    """
    scene, bearing = played.lesson.scenes[played.scene], played.attempt.bearing(0)
    whole = isinstance(scene, Alone) or (isinstance(scene, Ask) and scene.extent is Extent.CASE)
    if bearing is None or not whole or scene.teaches_turning:
        return None
    return case_of(bearing.position, bearing.task)


def of_lesson(session: Session, played: LessonPlay, answer: Answer, now: float) -> AttemptRecord:
    """A whole case that was done in a lesson, as it is kept."""
    sighting = whole_case(played)
    if sighting is None:
        raise ValueError("the scene did not ask for a case")
    turns = turns_made(session, played.attempt, played.made)
    return AttemptRecord(
        learner=session.records.learner,
        time=session.records.wall(now),
        case=sighting.case.slug,
        slot=answer.task.slot,
        alignment=sighting.alignment,
        mode=Mode.LESSON,
        outcome=Outcome.SOLVED,
        turns_used=played.attempt.turns_made,
        by_hand=answer.by_hand,
        at_all=answer.distance,
        seconds=max(0.0, (now if played.left is None else played.left) - played.began),
        keep=answer.task.keep,
        turns=turns,
        hints=hints_taken(played.hints),
        route=route_length(answer),
        first_turn=played.made[0].at if played.made else None,
        uuid=number(session.records),
    )
