"""The three mirrors that show the faces turned away: where they stand and what lies inside them.

Two stand tilted behind the cube and show L and B, one lies tilted below it and shows D. They are placed for
the rest view: each mirror is turned so that the picture of its face looks towards the eye, and its pane is
as large as that picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from render.stage.camera import camera_axes, camera_direction, eye_position
from render.stage.geometry import FRAMES, HALF_CUBE
from render.stage.linear import Array, normalised, reflection, transform, vector
from tutor.ui.view import REST_CAMERA, Camera, Face

PANE_MARGIN = 0.24
"""How far the pane reaches beyond the picture of its face, in cubies."""


@dataclass(frozen=True, slots=True)
class Placing:
    """How a mirror is set up."""

    face: Face
    azimuth: float
    """Degrees round the upright axis, from the front towards the right, that the mirror looks to."""
    lean: float
    """Degrees above the horizon that it looks to."""
    distance: float
    """From the cube's middle to the mirror's plane, in cubies."""


PLACINGS = (
    Placing(Face.L, 87.0, 7.0, 3.2),
    Placing(Face.B, -13.0, 8.0, 3.75),
    Placing(Face.D, 32.0, 90.0, 2.62),
)


@dataclass(frozen=True, slots=True, eq=False)
class Mirror:
    """A rectangular mirror. Its plane is ``normal . x = offset``; the cube is on the side of the normal."""

    face: Face
    normal: Array
    offset: float
    centre: Array
    right: Array
    up: Array
    half_width: float
    half_height: float

    @property
    def matrix(self) -> Array:
        """The (4, 4) reflection."""
        return reflection(self.normal, self.offset)

    def corners(self, margin: float = 0.0) -> Array:
        """The pane's corners widened by ``margin``, counter-clockwise from the lower left, shape (4, 3)."""
        signs = vector([(-1, -1), (1, -1), (1, 1), (-1, 1)])
        across = signs[:, :1] * (self.half_width + margin) * self.right
        return np.asarray(self.centre + across + signs[:, 1:] * (self.half_height + margin) * self.up)

    def faces(self, eye: Array) -> bool:
        """Whether the eye is on the mirror's bright side."""
        return bool(eye @ self.normal > self.offset)

    def crossing(self, origin: Array, direction: Array) -> Array | None:
        """Where a ray from the bright side meets the pane, or None."""
        towards = float(direction @ self.normal)
        height = float(origin @ self.normal) - self.offset
        if towards >= 0.0 or height <= 0.0:
            return None
        point = origin - direction * (height / towards)
        local = point - self.centre
        inside = abs(local @ self.right) <= self.half_width and abs(local @ self.up) <= self.half_height
        return np.asarray(point) if inside else None

    def clip_planes(self, eye: Array) -> Array:
        """Planes (5, 4) whose insides hold what the eye sees in the mirror; all outside from behind."""
        if not self.faces(eye):
            return np.tile(vector((0.0, 0.0, 0.0, -1.0)), (5, 1))
        corners = self.corners()
        sides = np.cross(corners - eye, np.roll(corners, -1, axis=0) - eye)
        sides /= np.linalg.norm(sides, axis=1, keepdims=True)
        sides *= np.sign(np.einsum("ij,j->i", sides, self.centre - eye))[:, None]
        normals = np.concatenate([sides, [-self.normal]])
        offsets = np.append(sides @ eye, -self.offset)
        return np.concatenate([normals, -offsets[:, None]], axis=1)


def _placed(placing: Placing) -> Mirror:
    across = camera_direction(Camera(placing.azimuth, placing.lean))
    return _fitted(placing.face, across, -placing.distance)


def _fitted(face: Face, across: Array, offset: float) -> Mirror:
    """The pane cut to the picture of its face as it is seen from the rest view."""
    eye = eye_position(REST_CAMERA)
    frame = FRAMES[face]
    signs = vector([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * HALF_CUBE
    corners = HALF_CUBE * vector(frame.normal) + signs @ vector([frame.right, frame.down])
    images = transform(reflection(across, offset), corners)
    rays = images - eye
    shares = (offset - eye @ across) / (rays @ across)
    seen = eye + rays * shares[:, None]
    up = normalised(np.cross(across, camera_axes(REST_CAMERA)[0]))
    right = np.cross(up, across)
    spans = seen @ np.stack([right, up]).T
    low, high = spans.min(axis=0) - PANE_MARGIN, spans.max(axis=0) + PANE_MARGIN
    middle = (low + high) / 2
    centre = middle[0] * right + middle[1] * up + offset * across
    half_width, half_height = (float(value) for value in (high - low) / 2)
    return Mirror(face, across, offset, centre, right, up, half_width, half_height)


@cache
def mirrors() -> tuple[Mirror, ...]:
    """The mirrors that show L, B and D, in this order."""
    return tuple(_placed(placing) for placing in PLACINGS)
