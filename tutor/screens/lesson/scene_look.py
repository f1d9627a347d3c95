"""How a scene begins: where the cube is seen from, whether the pair is marked, and what is asked."""

from __future__ import annotations

from tutor.lesson.scenes import Extent, Find, Lesson, Quiz, Scene, Tell
from tutor.screens.lesson import words
from tutor.ui.view import REST_CAMERA, Camera

ASKS = {
    Extent.TURN: words.WHICH_TURN,
    Extent.STEP: words.FINISH_STEP,
    Extent.CASE: words.SOLVE_PAIR,
}
"""What is asked where turns are judged, by how much of the way is asked for."""


def camera_at(lesson: Lesson, index: int) -> Camera:
    """Where the scene, or the one it follows, wants the cube to be seen from; else from the front."""
    scene = lesson.scenes[index]
    while scene.camera is None and scene.follows and index:
        index -= 1
        scene = lesson.scenes[index]
    if scene.camera is None:
        return REST_CAMERA
    return Camera(scene.camera.yaw, scene.camera.pitch, scene.camera.zoom)


def only_tells(scene: Scene) -> bool:
    """Whether a scene just tells something about a cube whose pair is home: no pair matters more there."""
    return isinstance(scene, Tell) and (scene.task is None or scene.task.done(scene.cube.position))


def marks_the_pair(scene: Scene) -> bool:
    """Whether the pair and its slot are marked: not where looking at the cube must answer a question."""
    return scene.task is not None and not isinstance(scene, Find | Quiz) and not only_tells(scene)
