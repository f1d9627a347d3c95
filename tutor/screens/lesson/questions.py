"""Questions that looking answers: what is offered, what an answer does, and why a wrong one is wrong."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.coach.sight import SpokenPosition
from tutor.cube.faces import Face
from tutor.cube.geometry import STICKERS, cubie_number
from tutor.lesson.candidates import candidate_places
from tutor.lesson.scenes import Find, Quiz, Scene
from tutor.lesson.wrong_answers import place_reply
from tutor.screens.lesson.state import LESSON, LessonPlay
from tutor.screens.lesson.update import scene_of
from tutor.session.house import Session


def options(scene: Scene) -> tuple[tuple[str, bool], ...]:
    """The answers to choose from, with whether each is true; empty where nothing is chosen."""
    if isinstance(scene, Quiz):
        return tuple((choice.text, choice.true) for choice in scene.answers)
    if isinstance(scene, Find):
        return tuple((name, cubie in scene.answer) for name, cubie in candidates(scene))
    return ()


def choose(session: Session, index: int) -> Session:
    """Choose an answer. Wrong ones are remembered; the true one answers the question."""
    played, scene = LESSON.of(session), scene_of(session)
    if played is None or scene is None or played.solved:
        return session
    offered = options(scene)
    if index >= len(offered) or index in played.chosen:
        return session
    chosen, right = (*played.chosen, index), offered[index][1]
    pointed = played.pointed
    if isinstance(scene, Find):
        pointed = (*pointed, candidates(scene)[index][1])
    return _with_answer(session, replace(played, chosen=chosen, pointed=pointed, solved=right))


def _with_answer(session: Session, played: LessonPlay) -> Session:
    """The question with an answer given; what was said of turns that it does not ask for is over."""
    return replace(LESSON.put(session, played), notice="")


def point(session: Session, sticker: int) -> Session:
    """Point at a sticker in a Find question."""
    played, scene = LESSON.of(session), scene_of(session)
    if played is None or not isinstance(scene, Find) or played.solved:
        return session
    cubie = cubie_number(STICKERS[sticker][0])
    pointed = (*played.pointed, cubie)
    return _with_answer(session, replace(played, pointed=pointed, solved=cubie in scene.answer))


def why_wrong(session: Session, played: LessonPlay) -> str:
    """Why the answer given last is wrong, and where to look; empty before a wrong one."""
    scene = played.lesson.scenes[played.scene]
    if isinstance(scene, Quiz) and played.chosen:
        return scene.answers[played.chosen[-1]].why
    if isinstance(scene, Find) and played.pointed:
        names = session.settings.colour_names
        colours = tuple(names[scene.cube.colour_of(face)] for face in Face)
        seen = SpokenPosition(scene.cube.position, scene.task, colours)
        return place_reply(scene.what, played.pointed[-1], seen)
    return ""


def candidates(scene: Find) -> tuple[tuple[str, int], ...]:
    """Places to choose from by key."""
    return candidate_places(scene.what, scene.answer)
