"""A camera made ready for a viewport: which part of the world it shows, and how points and pixels belong.

Zoom and window change the focal length only. The picture is shifted rather than the cube, to leave room for
the mirrors, which stand still before the eye.
"""

from __future__ import annotations

from functools import cached_property, lru_cache

import numpy as np
from msgspec import Struct

from render.stage.camera import EYE_DISTANCE, camera_axes, eye_position
from render.stage.linear import Array, look_at, normalised, perspective, transform, vector
from tutor.ui.view import Camera

NEAR, FAR = 8.0, 40.0


class Framing(Struct, frozen=True):
    """What must be in the picture: half its width, and how far it reaches below and above the middle."""

    half_width: float
    below: float
    above: float


WITH_MIRRORS = Framing(5.4, 5.3, 3.4)
WITH_MIRRORS_BESIDE = Framing(5.4, 2.85, 3.4)
WITHOUT_MIRRORS = Framing(2.9, 2.85, 2.75)


class Sight(Struct, frozen=True, eq=False, dict=True):
    """A camera made ready for a viewport."""

    eye: Array
    view: Array
    projection: Array
    width: float
    height: float
    """Size of the viewport, in the units in which points are given."""

    @cached_property
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


@lru_cache(maxsize=8)
def sight(camera: Camera, size: tuple[float, float], mirrors: bool, below: bool = True) -> Sight:
    """The camera in a viewport of this width and height, with mirrors or without, also the one below.

    Raises ValueError when a side is not above 0.
    """
    width, height = (float(side) for side in size)
    if width <= 0.0 or height <= 0.0:
        raise ValueError(f"a viewport of {width:g} by {height:g} shows nothing; both sides must be above 0")
    framing = (WITH_MIRRORS if below else WITH_MIRRORS_BESIDE) if mirrors else WITHOUT_MIRRORS
    half_height = max((framing.below + framing.above) / 2, framing.half_width * height / width)
    focal = EYE_DISTANCE / half_height
    shift = (framing.below - framing.above) / 2 / half_height
    eye = eye_position(camera)
    view = look_at(eye, np.zeros(3), camera_axes(camera)[1])
    projection = perspective(focal * camera.zoom, width / height, NEAR, FAR)
    projection[1, 2] -= shift
    return Sight(eye, view, projection, width, height)
