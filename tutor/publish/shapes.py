"""Shapes of films, and whether one can do without the mirrors, so that the cube is larger."""

from __future__ import annotations

from enum import StrEnum
from math import cos, radians, sin

from tutor.cube.geometry import NORMALS, STICKERS, cubie_number
from tutor.publish.film import Passage
from tutor.publish.subject import Shot, stage_of
from tutor.session.timeline import Pose
from tutor.ui.view import Camera

_TURNED_TO_THE_EYE = 0.12
"""A side is seen when its direction and the eye's have at least so much in common (the cosine)."""


class Shape(StrEnum):
    """The shape of a film: for a screen, for a feed, or for a telephone held upright."""

    LANDSCAPE = "landscape"
    SQUARE = "square"
    UPRIGHT = "upright"


SIZES = {Shape.LANDSCAPE: "1280x720", Shape.SQUARE: "1080x1080", Shape.UPRIGHT: "1080x1920"}
SMALL_SIZES = {Shape.LANDSCAPE: "640x480", Shape.SQUARE: "480x480", Shape.UPRIGHT: "540x960"}
"""For many films."""


def does_without_mirrors(passage: Passage, shot: Shot) -> bool:
    """Whether the pair and its slot can be seen before and after every turn without the mirrors."""
    seen = _cubies_seen(passage.camera or shot.camera)
    for count in range(len(passage.turns) + 1):
        stage = stage_of(passage.subject, Pose(passage.subject.cube.after(passage.turns[:count])), shot)
        if not stage.outlined or not stage.outlined | stage.framed <= seen:
            return False
    return True


def _cubies_seen(camera: Camera) -> frozenset[int]:
    yaw, pitch = radians(camera.yaw), radians(camera.pitch)
    eye = sin(yaw) * cos(pitch), sin(pitch), cos(yaw) * cos(pitch)
    faces = {
        face
        for face, normal in NORMALS.items()
        if sum(a * b for a, b in zip(eye, normal, strict=True)) > _TURNED_TO_THE_EYE
    }
    return frozenset(cubie_number(cubie) for cubie, face in STICKERS if face in faces)
