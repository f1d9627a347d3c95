"""The three mirrors that show the faces turned away: where they stand and which face each shows.

The mirrors stand still before the eye, and looking round turns the cube in front of them, as you do by hand.
Each pane is as large as the reflection of the cube and of every layer in mid-turn, so that all of it is seen
from wherever you look.
"""

from __future__ import annotations

from functools import cache, lru_cache
from itertools import product

import numpy as np
from msgspec import Struct

from render.stage.camera import EYE_DISTANCE, camera_axes, camera_direction, eye_position
from render.stage.geometry import HALF_CUBE, normal
from render.stage.linear import Array, normalised, reflection, rotation, transform, vector
from tutor.ui.view import Camera, Face

_STEPS = 16
"""Into so many steps a quarter turn is divided."""


class Placing(Struct, frozen=True):
    """Where the middle of a mirror's reflection appears.

    ``right`` and ``up`` are in cubies as they look at the cube's own distance, ``behind`` in cubies.
    """

    right: float
    up: float
    behind: float


PLACINGS = (Placing(-3.45, 1.55, 10.0), Placing(3.6, 1.55, 10.0), Placing(-0.25, -3.5, 10.5))
"""To the left and to the right behind the cube, and below it."""


class Mirror(Struct, frozen=True, eq=False):
    """A rectangular mirror. Its plane is ``normal . x = offset``; the cube is on the side of the normal."""

    face: Face
    """The face of the cube that it shows best, of those turned away from the eye if there are any."""
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

    def crossing(self, origin: Array, direction: Array) -> Array | None:
        """Where a ray from the cube's side meets the pane, or None."""
        towards = float(direction @ self.normal)
        height = float(origin @ self.normal) - self.offset
        if towards >= 0.0 or height <= 0.0:
            return None
        point = origin - direction * (height / towards)
        local = point - self.centre
        inside = abs(local @ self.right) <= self.half_width and abs(local @ self.up) <= self.half_height
        return np.asarray(point) if inside else None


def _placed(placing: Placing, camera: Camera) -> Mirror:
    """The mirror halfway between the cube's middle and its reflection, cut to what the reflection reaches."""
    right, up = camera_axes(camera)
    spread = (EYE_DISTANCE + placing.behind) / EYE_DISTANCE
    image = spread * (placing.right * right + placing.up * up) - placing.behind * camera_direction(camera)
    across, offset = -normalised(image), -float(np.linalg.norm(image)) / 2
    upward = normalised(up - (up @ across) * across)
    sideways = np.cross(upward, across)
    eye = eye_position(camera)
    rays = transform(reflection(across, offset), _reached()) - eye
    seen = eye + rays * ((offset - eye @ across) / (rays @ across))[:, None]
    spans = seen @ np.stack([sideways, upward]).T
    low, high = spans.min(axis=0), spans.max(axis=0)
    middle, half = (low + high) / 2, (high - low) / 2
    centre = middle[0] * sideways + middle[1] * upward + offset * across
    face = _shown_best(reflection(across, offset), eye)
    return Mirror(face, across, offset, centre, sideways, upward, float(half[0]), float(half[1]))


@cache
def _reached() -> Array:
    """Where the corners of the layers are at rest and in mid-turn, shape (n, 3)."""
    corners = HALF_CUBE * vector(list(product((-1, 1), repeat=3)))
    places = []
    for face in Face:
        outward = normal(face)
        layer = corners[corners @ outward > 0]
        ends = np.concatenate([layer, layer - outward])
        angles = np.linspace(0.0, np.pi / 2, _STEPS + 1)
        places += [ends @ rotation(outward, float(angle)).T for angle in angles]
    return np.concatenate(places)


def _shown_best(matrix: Array, eye: Array) -> Face:
    """The face that is seen most squarely in a reflection, of those turned away from the eye if there are."""

    def squareness(face: Face) -> float:
        outward = matrix[:3, :3] @ normal(face)
        return float(normalised(eye - transform(matrix, HALF_CUBE * normal(face))) @ outward)

    hidden = [face for face in Face if eye @ normal(face) <= HALF_CUBE]
    return max(hidden or list(Face), key=squareness)


def mirrors(camera: Camera, below: bool = True) -> tuple[Mirror, ...]:
    """The mirrors to the left, to the right and, if wanted, below as they stand before this camera's eye.

    In the rest view they show L, B and D, in this order.
    """
    return _all_mirrors(camera)[: 3 if below else 2]


@lru_cache(maxsize=4)
def _all_mirrors(camera: Camera) -> tuple[Mirror, ...]:
    return tuple(_placed(placing, camera) for placing in PLACINGS)
