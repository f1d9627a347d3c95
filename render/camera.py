"""From the camera's angles to matrices; pure functions.

The eye stays at one distance, and zoom and window change the focal length only, so that the picture keeps
its perspective at every size. The picture is shifted rather than the cube, to leave room for the mirrors.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from render.linear import Array, look_at, normalised, perspective, transform, vector
from tutor.session.view import Camera

EYE_DISTANCE = 17.0
"""From the eye to the middle of the cube, in cubies."""

NEAR, FAR = 8.0, 40.0


@dataclass(frozen=True, slots=True)
class Framing:
    """What must be in the picture: half its width, and how far it reaches below and above the middle."""

    half_width: float
    below: float
    above: float


WITH_MIRRORS = Framing(5.42, 4.72, 3.12)
WITHOUT_MIRRORS = Framing(2.9, 2.85, 2.75)


@dataclass(frozen=True, slots=True, eq=False)
class Sight:
    """A camera made ready for a viewport."""

    eye: Array
    view: Array
    projection: Array
    width: float
    height: float
    """Size of the viewport, in the units in which points are given."""

    @property
    def matrix(self) -> Array:
        """World to clip space."""
        return np.asarray(self.projection @ self.view)

    def to_viewport(self, points: Array) -> Array:
        """World points (..., 3) as viewport points (..., 2), x to the right and y up from the lower left."""
        clip = transform(self.matrix, points)
        return np.asarray((clip[..., :2] + 1.0) * 0.5 * vector((self.width, self.height)))

    def ray(self, x: float, y: float) -> Array:
        """The direction, of length 1, from the eye through a point of the viewport."""
        clip = vector((2.0 * float(x) / self.width - 1.0, 2.0 * float(y) / self.height - 1.0, 0.0))
        return normalised(transform(vector(np.linalg.inv(self.matrix)), clip) - self.eye)


def camera_direction(camera: Camera) -> Array:
    """From the cube's middle towards the eye, of length 1."""
    yaw, pitch = np.radians(camera.yaw), np.radians(camera.pitch)
    return vector((np.sin(yaw) * np.cos(pitch), np.sin(pitch), np.cos(yaw) * np.cos(pitch)))


def eye_position(camera: Camera) -> Array:
    """Where the eye is."""
    return EYE_DISTANCE * camera_direction(camera)


def camera_axes(camera: Camera) -> tuple[Array, Array]:
    """The directions to the right and up in the picture. Straight above, right is still the cube's right."""
    yaw = np.radians(camera.yaw)
    right = vector((np.cos(yaw), 0.0, -np.sin(yaw)))
    return right, np.cross(camera_direction(camera), right)


def sight(camera: Camera, size: tuple[float, float], mirrors: bool) -> Sight:
    """The camera in a viewport of this width and height. Raises ValueError when a side is not above 0."""
    width, height = (float(side) for side in size)
    if width <= 0.0 or height <= 0.0:
        raise ValueError(f"a viewport of {width:g} by {height:g} shows nothing; both sides must be above 0")
    framing = WITH_MIRRORS if mirrors else WITHOUT_MIRRORS
    half_height = max((framing.below + framing.above) / 2, framing.half_width * height / width)
    focal = EYE_DISTANCE / half_height * camera.zoom
    projection = perspective(focal, width / height, NEAR, FAR)
    shift = (framing.below - framing.above) / 2 / half_height
    projection[1, 2] -= shift
    eye = eye_position(camera)
    up = camera_axes(camera)[1]
    return Sight(eye, look_at(eye, np.zeros(3), up), projection, width, height)
