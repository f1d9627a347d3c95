"""Where each learner left each lesson."""

from __future__ import annotations

from tutor.progress.attempt import GUEST
from tutor.session.house import Session

FINISHED = 1000
"""In place of a scene: the learner finished the lesson. No lesson has so many scenes."""


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
    """The prefix of lesson names in a learner's places; no lesson's name has a stroke in it."""
    learner = session.records.learner
    return "" if learner == GUEST else f"{learner}/"
