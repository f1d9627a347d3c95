"""Questions that looking answers: what is offered, what an answer does, and why a wrong one is wrong."""

from __future__ import annotations

from dataclasses import replace

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.coach.sight import SpokenPosition
from tutor.cube.faces import Face
from tutor.cube.geometry import (
    CORNER_CUBIES,
    CORNER_FACES,
    EDGE_CUBIES,
    EDGE_FACES,
    STICKERS,
    cubie_number,
)
from tutor.lesson.scenes import Find, Quiz, Scene, Sought
from tutor.lesson.wrong_answers import place_reply
from tutor.screens.lesson.state import LESSON, LessonPlay
from tutor.screens.lesson.update import scene_of
from tutor.session.house import Session

CANDIDATES = 4
"""How many places a Find question offers to choose from by key."""


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
    """Places to choose from by key: the right one among others of its kind, in the order of the places."""
    corners = scene.what is not Sought.EDGE
    cubies = CORNER_CUBIES if corners else EDGE_CUBIES
    faces = CORNER_FACES if corners else EDGE_FACES
    places = range(4, 8) if scene.what is Sought.SLOT else range(len(cubies))
    right = next(place for place in places if cubies[place] in scene.answer)
    # Neighbours in the numbering lie beside it; stepping by three mixes top and bottom.
    wrong = [place for step in range(1, 12) if (place := _nth(places, right, 3 * step)) != right]
    offered = sorted({right, *list(dict.fromkeys(wrong))[: CANDIDATES - 1]})
    return tuple(
        (_place_words(faces[place], slot=scene.what is Sought.SLOT), cubies[place]) for place in offered
    )


def _nth(places: range, right: int, step: int) -> int:
    return places[(right - places.start + step) % len(places)]


def _place_words(faces: tuple[Face, ...], *, slot: bool) -> str:
    """A place in plain words, as an answer to choose."""
    letters = "".join(face.name for face in (Face.F, Face.B, Face.L, Face.R) if face in faces)
    kind = "corner" if len(faces) == 3 else "edge"
    if slot or (Face.U not in faces and not (kind == "edge" and Face.D in faces)):
        named = ENGLISH.say(f"slot.{letters}")
        return capitalised(named if slot else ENGLISH.say("place.slot", slot=named))
    level = "place.top" if Face.U in faces else "place.bottom"
    return capitalised(ENGLISH.say(level, spot=ENGLISH.say(f"spot.{kind}.{letters}")))
