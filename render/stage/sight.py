"""A camera made ready for a viewport: which part of the world it shows, and how points and pixels belong.

Zoom and window change the focal length only. The picture is shifted rather than the cube, to leave room for
the mirrors; where they would stand beyond its edge, all of it is made a little smaller.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from render.stage.camera import EYE_DISTANCE, camera_axes, eye_position
from render.stage.linear import Array, look_at, normalised, perspective, transform, vector
from render.stage.mirrors import mirrors as mirrors_placed
from tutor.ui.view import Camera

NEAR, FAR = 8.0, 40.0


RIM = 0.1
"""What is left free round the panes for their rims, in cubies."""
FULLY_SEEN = 4.0
"""From so far before its plane, in cubies, the eye sees a mirror well enough for it to count in full."""


@dataclass(frozen=True, slots=True)
class Framing:
    """What must be in the picture: half its width, and how far it reaches below and above the middle."""

    half_width: float
    below: float
    above: float


WITH_MIRRORS = Framing(5.42, 4.72, 3.12)
WITHOUT_MIRRORS = Framing(2.9, 2.85, 2.75)


@dataclass(frozen=True, eq=False)
class Sight:
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
def sight(camera: Camera, size: tuple[float, float], mirrors: bool) -> Sight:
    """The camera in a viewport of this width and height. Raises ValueError when a side is not above 0."""
    width, height = (float(side) for side in size)
    if width <= 0.0 or height <= 0.0:
        raise ValueError(f"a viewport of {width:g} by {height:g} shows nothing; both sides must be above 0")
    framing = WITH_MIRRORS if mirrors else WITHOUT_MIRRORS
    half_height = max((framing.below + framing.above) / 2, framing.half_width * height / width)
    focal = EYE_DISTANCE / half_height
    shift = (framing.below - framing.above) / 2 / half_height
    eye = eye_position(camera)
    view = look_at(eye, np.zeros(3), camera_axes(camera)[1])
    room = vector((width / height, 1.0))
    if mirrors:
        focal *= _fitting(eye, view, focal / room, shift)
    projection = perspective(focal * camera.zoom, width / height, NEAR, FAR)
    projection[1, 2] -= shift
    return Sight(eye, view, projection, width, height)


def _fitting(eye: Array, view: Array, focal: Array, shift: float) -> float:
    """How much smaller the picture must be, at most 1, so that no mirror reaches beyond its edge.

    A mirror counts the less the more it is seen from its edge, so that none makes the picture jump when it
    comes into sight. ``focal`` is across and up, in halves of the picture; ``shift`` is how far down it is.
    """
    least = 1.0
    for mirror in mirrors_placed():
        share = float(np.clip((eye @ mirror.normal - mirror.offset) / FULLY_SEEN, 0.0, 1.0))
        points = transform(view, mirror.corners(RIM))
        places = focal * points[:, :2] / -points[:, 2:]
        room = np.where(places > 0.0, vector((1.0, 1.0 - shift)), vector((1.0, 1.0 + shift)))
        fits = min(1.0, float((room / np.maximum(np.abs(places), 1e-9)).min()))
        least = min(least, 1.0 + share * (fits - 1.0))
    return least
