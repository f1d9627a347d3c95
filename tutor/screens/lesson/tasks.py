"""What a lesson asks for and what of it is done: a lesson is ticked for its tasks, not for its pages."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.lesson.scenes import Alone, Ask, Find, Lesson, Quiz
from tutor.screens.lesson.keeping import whole_case
from tutor.screens.lesson.state import LESSON, LessonPlay, Tally
from tutor.session.house import Session
from tutor.session.places import place_in, with_place


def undone(session: Session, lesson: Lesson) -> tuple[int, ...]:
    """The scenes whose tasks the learner has not done; none in a lesson that has its tick."""
    place = place_in(session, lesson.name)
    if place.ticked:
        return ()
    asking = (
        index for index, scene in enumerate(lesson.scenes) if isinstance(scene, Ask | Alone | Find | Quiz)
    )
    return tuple(index for index in asking if index not in place.done)


def noted(session: Session) -> Session:
    """With the task of the scene noted as done, once it is."""
    played = LESSON.of(session)
    if played is None or not played.solved:
        return session
    place = place_in(session, played.lesson.name)
    if played.scene in place.done:
        return session
    done = tuple(sorted({*place.done, played.scene}))
    return replace(session, places=with_place(session, place._replace(done=done)))


def new_case(session: Session, played: LessonPlay) -> str:
    """The case that the scene asks for, if the learner has not met it yet; else nothing."""
    sighting = whole_case(played)
    met = dict(session.guidance)
    return "" if sighting is None or sighting.case.slug in met else sighting.case.slug


def tallied(played: LessonPlay) -> Tally:
    """The tally with the scene that is on the screen."""
    tally = played.tally
    helped = bool(played.hints) or played.revealed
    solved = played.solved and whole_case(played) is not None
    return Tally(
        tally.unaided | {played.scene} if solved and not helped else tally.unaided,
        tally.new | {played.new} if solved and played.new else tally.new,
        tally.hints + len(played.hints),
    )


def with_tally(session: Session, tally: Tally) -> Session:
    """The session with the tally carried on into the scene that is open now."""
    played = LESSON.of(session)
    return session if played is None else LESSON.put(session, replace(played, tally=tally))
