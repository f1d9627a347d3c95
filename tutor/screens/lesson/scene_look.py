"""How a scene begins: where the cube is seen from, whether the pair is marked, and what is asked."""

from __future__ import annotations

from tutor.cube.faces import Face
from tutor.cube.notation import format_moves, parse_moves, turns_named
from tutor.lesson.scenes import Alone, Ask, Extent, Find, Lesson, Quiz, Scene, Tell
from tutor.screens.lesson import words
from tutor.screens.parts.stage import slot_cubies
from tutor.ui.view import REST_CAMERA, Camera

_ASKS = {
    Extent.TURN: words.WHICH_TURN,
    Extent.STEP: words.FINISH_STEP,
    Extent.CASE: words.SOLVE_PAIR,
}


def camera_at(lesson: Lesson, index: int) -> Camera:
    """Where the scene, or the one it follows, wants the cube to be seen from; else from the front."""
    scene = lesson.scenes[index]
    while scene.camera is None and scene.follows and index:
        index -= 1
        scene = lesson.scenes[index]
    return camera_from(scene, REST_CAMERA)


def camera_from(scene: Scene, before: Camera) -> Camera:
    """Where a scene wants the cube to be seen from, after one in which it was seen from ``before``."""
    if scene.camera is not None:
        return Camera(scene.camera.yaw, scene.camera.pitch, scene.camera.zoom)
    return before if scene.follows else REST_CAMERA


def turned_to(lesson: Lesson, index: int) -> int | None:
    """The colour in front, where a scene holds the cube otherwise than the one before; else None."""
    before, now = (lesson.scenes[each].cube.colour_of(Face.F) for each in (max(0, index - 1), index))
    return None if now == before else now


def asked(scene: Ask | Alone, text: str) -> str:
    """What is asked below a text, by how much of the way; nothing that it answers, and of no pair where
    turning itself is taught."""
    if isinstance(scene, Alone):
        return words.TURNS_ON_YOUR_OWN if scene.teaches_turning else words.ON_YOUR_OWN
    if scene.extent is Extent.TURN and turns_said(scene, text):
        return words.MAKE_TURN
    return words.MAKE_TURNS if scene.extent is Extent.CASE and scene.teaches_turning else _ASKS[scene.extent]


def turns_said(scene: Ask | Alone, text: str) -> str:
    """The turns that are asked for, where the text itself has them; else empty."""
    said = format_moves(parse_moves(" ".join(turns_named(text))))
    asked = (format_moves(turns) for turns in scene.accept)
    return next((turns for turns in asked if f" {turns} " in f" {said} "), "")


def only_tells(scene: Scene) -> bool:
    """Whether a scene just tells something about a cube whose pair is home: no pair matters more there."""
    return isinstance(scene, Tell) and (scene.task is None or scene.task.done(scene.cube.position))


def marks_the_pair(scene: Scene) -> bool:
    """Whether the pair and its slot are marked: not where looking must answer or turning itself is taught."""
    asks = isinstance(scene, Find | Quiz)
    return scene.task is not None and not scene.teaches_turning and not asks and not only_tells(scene)


def framed_alone(scene: Scene) -> frozenset[int]:
    """The slot whose pair a question is about, which is framed while nothing else is marked; else nothing."""
    if not isinstance(scene, Quiz) or not scene.of_the_slot or scene.task is None or scene.teaches_turning:
        return frozenset()
    return slot_cubies(scene.task.slot)
