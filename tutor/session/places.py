"""Where each learner left each lesson."""

from __future__ import annotations

from tutor.progress.attempt import GUEST
from tutor.progress.names import same_learner
from tutor.session.house import Session
from tutor.session.state import LessonPlace


def places_of(session: Session) -> tuple[LessonPlace, ...]:
    """Where the learner who sits here left each lesson, the latest last."""
    return of_learner(session.places, session.records.learner)


def of_learner(places: tuple[LessonPlace, ...], learner: str) -> tuple[LessonPlace, ...]:
    """Where a learner, however the name is written, left each lesson, the latest last."""
    parted = [(*_parted(place.lesson), place) for place in places]
    names = {name for name, _, _ in parted}
    same = {name for name in names if same_learner(name, learner)}
    return tuple(place._replace(lesson=lesson) for name, lesson, place in parted if name in same)


def place_in(session: Session, lesson: str) -> LessonPlace:
    """Where the learner who sits here left a lesson; its beginning where they never opened it."""
    return next((place for place in places_of(session) if place.lesson == lesson), LessonPlace(lesson, 0))


def with_place(session: Session, place: LessonPlace) -> tuple[LessonPlace, ...]:
    """All places, with where the learner who sits here now is in a lesson as the latest."""
    return _with(session.places, session.records.learner, place)


def renamed(places: tuple[LessonPlace, ...], old: str, new: str) -> tuple[LessonPlace, ...]:
    """The places with all that ``old`` has under the name of ``new``; without a new name they are gone.

    Where both have been in a lesson, what either did in it is done.
    """
    theirs = of_learner(places, old)
    kept = tuple(each for each in places if not same_learner(_parted(each.lesson)[0], old))
    for place in theirs if new else ():
        other = next((each for each in of_learner(kept, new) if each.lesson == place.lesson), place)
        done = tuple(sorted({*place.done, *other.done}))
        finished = place.ticked or other.ticked
        kept = _with(kept, new, other._replace(done=done, finished=finished))
    return kept


def with_places(
    places: tuple[LessonPlace, ...], learner: str, more: tuple[LessonPlace, ...]
) -> tuple[LessonPlace, ...]:
    """The places with more of a learner, as the latest."""
    for place in more:
        places = _with(places, learner, place)
    return places


def _with(places: tuple[LessonPlace, ...], learner: str, place: LessonPlace) -> tuple[LessonPlace, ...]:
    """The places with this one of a learner as the latest."""
    others = (
        each
        for each in places
        if (parted := _parted(each.lesson))[1] != place.lesson or not same_learner(parted[0], learner)
    )
    mark = "" if learner == GUEST else f"{learner}/"
    return (*others, place._replace(lesson=mark + place.lesson))


def _parted(marked: str) -> tuple[str, str]:
    """The learner and the lesson; the guest has no mark, and no lesson's name has a stroke in it."""
    learner, stroke, lesson = marked.rpartition("/")
    return learner if stroke else GUEST, lesson
