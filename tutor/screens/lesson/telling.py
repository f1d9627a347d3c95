"""What a scene that plays turns says of each: its script's words, and the coach's where a part has many."""

from __future__ import annotations

from tutor.coach.feedback import Shown
from tutor.lesson.scenes import LessonSegment, Show
from tutor.method.steps import Step
from tutor.screens.lesson import update, words
from tutor.session.house import Session
from tutor.session.telling import NOTHING, coach_says


def said(session: Session, index: int) -> Shown | None:
    """What there is to read anew at a turn; None in scenes that play no turns by themselves."""
    scene = update.scene_of(session)
    if not isinstance(scene, Show):
        return None
    first, segment = part_of(scene, index)
    own = coachs_words(session, segment, index)
    heard = (scene.card_text if index == 0 else "", segment.text if index == first else "", own.coming)
    return Shown(" ".join(text for text in heard if text), "" if own.made == own.coming else own.made)


def coachs_words(session: Session, segment: LessonSegment, index: int) -> Shown:
    """What the coach says of one turn of several that the script tells together; empty for a lone turn."""
    found = coach_says(session, index) if told_one_by_one(segment) else None
    return found or NOTHING


def told_one_by_one(segment: LessonSegment) -> bool:
    """Whether the coach speaks of each turn of a part, since the script tells several together."""
    return len(segment.turns) > 1


def part_of(scene: Show, index: int) -> tuple[int, LessonSegment]:
    """The part of the scene that a turn belongs to, and the number of its first turn."""
    first = 0
    for segment in scene.segments:
        if index < first + len(segment.turns):
            return first, segment
        first += len(segment.turns)
    raise IndexError(f"the scene has no turn {index}")


def slips(scene: Show, segment: LessonSegment) -> bool:
    """Whether a part shows a Detour on purpose, away from a pair that is not home."""
    return segment.slip and scene.task is not None and not scene.task.done(scene.cube.position)


def turn_title(scene: Show, segment: LessonSegment, turns: str) -> str:
    """The heading over turns of a part: its step, or that it is a slip, with the turns."""
    if slips(scene, segment):
        return words.slip(turns)
    # With the pair home no step is under way, so none is named.
    return turns if segment.step in (None, Step.DONE) else words.step(segment.step.value, turns)
