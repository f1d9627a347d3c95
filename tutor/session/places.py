"""Where each lesson was left, by each learner."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutor.progress.attempt import GUEST
from tutor.session.commands import Open, StartLesson
from tutor.ui.view import Screen

if TYPE_CHECKING:
    from tutor.session.state import Session

FINISHED = 1000
"""In place of a scene: the lesson was gone through to its end. No lesson has so many scenes."""


def places_of(session: Session) -> tuple[tuple[str, int], ...]:
    """Where the learner who sits here left each lesson, by its name, the latest last."""
    mark = _mark(session)
    own = ((kept.removeprefix(mark), scene) for kept, scene in session.places if kept.startswith(mark))
    return tuple((name, scene) for name, scene in own if "/" not in name)


def with_place(session: Session, lesson: str, scene: int) -> tuple[tuple[str, int], ...]:
    """All places, with where the learner who sits here now is in a lesson."""
    kept = _mark(session) + lesson
    return (*(place for place in session.places if place[0] != kept), (kept, scene))


def _mark(session: Session) -> str:
    """What stands before the names of lessons in a learner's places; no lesson's name has a stroke in it."""
    learner = session.records.learner
    return "" if learner == GUEST else f"{learner}/"


def proposed(session: Session) -> Open | StartLesson:
    """What Home proposes first: the lesson open or left last, else the first one not finished."""
    if session.lesson is not None:
        return Open(Screen.LESSON)
    known = {lesson.name for lesson in session.lessons}
    places = places_of(session)
    left = [place for place in places if place[0] in known and place[1] != FINISHED]
    if left:
        return StartLesson(*left[-1])
    if not session.lessons:
        return Open(Screen.CASE_BOOK)
    done = {name for name, scene in places if scene == FINISHED}
    first = next((lesson for lesson in session.lessons if lesson.name not in done), session.lessons[0])
    return StartLesson(first.name)
