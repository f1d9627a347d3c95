"""What a handout shows: a cube, the pair it is about, and how it is looked at."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace
from numpy.typing import NDArray

from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS, cubie_number
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method import words as method_words
from tutor.method.cases import Case
from tutor.publish import words
from tutor.screens.parts.stage import marked
from tutor.session.attempts import case_attempt
from tutor.session.settings import Settings
from tutor.session.target import Aim, aim_of
from tutor.session.timeline import Pose
from tutor.solver.task import Task
from tutor.ui.view import REST_CAMERA, Arrow, Camera, Look, Stage

Pixels = NDArray[np.uint8]
"""Rows from the top, shape (height, width, 4), sRGB with alpha."""

Ground = tuple[int, int, int]
"""A colour behind the cube, 0 to 255."""

Draw = Callable[[Stage, Look, tuple[int, int], Ground | None], Pixels]
"""Draws a stage in a size (width, height); a ground stands in for the theme's background and floor."""

_TURNED_TO_THE_EYE = 0.12
"""A side is seen when its direction and the eye's have at least so much in common (the cosine)."""


class Subject(Struct, frozen=True):
    """A cube and, when a pair is in question, what is aimed at. ``title`` says what it is, in lines."""

    cube: HeldCube
    aim: Aim | None
    title: str
    glowing: frozenset[int] = frozenset()
    """The pieces that glow until the first turn."""

    @property
    def task(self) -> Task | None:
        """The task as the cube is held; None without a pair."""
        return None if self.aim is None else self.aim.bearing(self.cube).task

    def done(self, cube: HeldCube) -> bool:
        """Whether the pair in question is home on this cube, however it is held."""
        if self.aim is None:
            return False
        bearing = self.aim.bearing(cube)
        return bearing.task.done(bearing.position)


class Shot(Struct, frozen=True):
    """How a subject is looked at: what is drawn, from where, and how large (width, height in pixels)."""

    look: Look = field(default_factory=Look)
    size: tuple[int, int] = (1280, 720)
    camera: Camera = REST_CAMERA
    marks: bool = True


def case_subject(case: Case, slot: Slot, alignment: int = 0, cross: Face = Face.D) -> Subject:
    """A case in a slot with the cross colour down and every other slot kept."""
    cube = case_attempt(case, slot, alignment, Settings(cross=cross)).cube
    title = case_title(case, slot, alignment, COLOUR_NAMES[cross])
    return subject_of(cube, Task.at(cube.position, slot), title)


def case_title(case: Case, slot: Slot, alignment: int, cross: str) -> str:
    """The title of a film of a case, in two lines; ``cross`` names the cross colour."""
    top = Turn.of(Face.U, alignment).notation if alignment % 4 else ""
    return f"{case_heading(case, slot, cross, alignment)}\n{words.where_shown(slot.name, top)}"


def case_heading(case: Case, slot: Slot, cross: str, alignment: int = 0) -> str:
    """The number of a case and its short name as it looks in a slot; ``cross`` names the cross colour."""
    return method_words.case_title(case.number, case.short_name(slot, cross, alignment))


def subject_of(cube: HeldCube, task: Task | None, title: str) -> Subject:
    """A cube held with the cross down, and a task on it or none."""
    aim = None if task is None else aim_of(cube, cube.colour_of(Face.D), task)
    return Subject(cube, aim, title)


def stage_of(subject: Subject, pose: Pose, shot: Shot, arrow: Turn | None = None) -> Stage:
    """The stage of a subject in a pose, marked as the shot asks."""
    glowing = subject.glowing if pose == Pose(subject.cube) else frozenset()
    stage = Stage(pose.cube.colours, pose.turning, shot.camera, glowing=glowing)
    if shot.marks and subject.aim is not None:
        stage = marked(stage, subject.aim.bearing(pose.cube))
    return stage if arrow is None else replace(stage, arrow=Arrow(arrow))


def usual_camera(slot: Slot | None, mirrors: bool) -> Camera:
    """The view from where the learner sits; without mirrors it leans to the side of a slot on the left."""
    if mirrors or slot not in (Slot.FL, Slot.BL):
        return REST_CAMERA
    return replace(REST_CAMERA, yaw=-REST_CAMERA.yaw)


def cubies_seen(camera: Camera) -> frozenset[int]:
    """The cubies that show a sticker to the eye."""
    yaw, pitch = radians(camera.yaw), radians(camera.pitch)
    eye = sin(yaw) * cos(pitch), sin(pitch), cos(yaw) * cos(pitch)
    faces = {
        face
        for face, normal in NORMALS.items()
        if sum(a * b for a, b in zip(eye, normal, strict=True)) > _TURNED_TO_THE_EYE
    }
    return frozenset(cubie_number(cubie) for cubie, face in STICKERS if face in faces)
