"""Where each learner left each lesson."""

from __future__ import annotations

from tutor.progress.attempt import GUEST
from tutor.session.house import Session
from tutor.session.state import Place


def places_of(session: Session) -> tuple[Place, ...]:
    """Where the learner who sits here left each lesson, the latest last."""
    mark = _mark(session)
    own = (
        kept._replace(lesson=kept.lesson.removeprefix(mark))
        for kept in session.places
        if kept.lesson.startswith(mark)
    )
    return tuple(place for place in own if "/" not in place.lesson)


def place_in(session: Session, lesson: str) -> Place:
    """Where the learner who sits here left a lesson; its beginning where they never opened it."""
    return next((place for place in places_of(session) if place.lesson == lesson), Place(lesson, 0))


def with_place(session: Session, place: Place) -> tuple[Place, ...]:
    """All places, with where the learner who sits here now is in a lesson as the latest."""
    kept = place._replace(lesson=_mark(session) + place.lesson)
    return (*(each for each in session.places if each.lesson != kept.lesson), kept)


def _mark(session: Session) -> str:
    """The prefix of lesson names in a learner's places; no lesson's name has a stroke in it."""
    learner = session.records.learner
    return "" if learner == GUEST else f"{learner}/"
