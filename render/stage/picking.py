"""What lies under the pointer on the stage, and how a layer follows the hand; pure mathematics.

Points are in px from the stage's upper left corner, y downwards. A ray goes from the eye through the point;
what it meets first counts, the cube itself or the pane of a mirror, from which it goes on to the cube.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from render.stage.geometry import (
    FRAMES,
    HALF_CUBE,
    normal,
    sticker_at,
    sticker_cubie_place,
    sticker_face,
    turning_matrix,
)
from render.stage.linear import Array, transform, vector
from render.stage.mirrors import Mirror, mirrors
from render.stage.sight import Sight, sight
from tutor.ui.view import Face, Look, Stage, Turning

DECIDED = 1.25
"""A drag turns a layer once the hand is this much closer to the way of one layer than to the other's."""
FAR = 24.0
"""Px; from so far on the nearer way counts, however near the other is."""
REACH, REACH_STEPS = 2.0, 120
"""The largest angle, in radians, that one drag turns, and in how many steps it is searched."""
_FACES = ((Face.L, Face.R), (Face.D, Face.U), (Face.B, Face.F))
"""The faces towards the low and the high end of each axis."""


class Hit(Struct, frozen=True, eq=False):
    """A sticker met by a ray."""

    sticker: int
    """Its number before any turning."""
    point: Array
    """Where on the cube it was met; in a turning layer, where that point was before the turning."""
    mirror: Mirror | None
    """The mirror in which it is seen, or None for the cube itself."""


def pick(
    stage: Stage, with_mirrors: bool, size: tuple[float, float], x: float, y: float, below: bool = True
) -> Hit | None:
    """The sticker under a point of the stage, seen straight or in a mirror; None for anything else."""
    seen = sight(stage.camera, size, with_mirrors, below)
    direction = seen.ray(x, seen.height - y)
    straight = _cube_met(stage.turning, seen.eye, direction)
    if straight is not None:
        return None if straight.face is None else _hit(straight.face, straight.point, None)
    # The mirrors stand beside each other and hide none of each other's reflections.
    for mirror in mirrors(stage.camera, below) if with_mirrors else ():
        pane = mirror.crossing(seen.eye, direction)
        if pane is None:
            continue
        onward = direction - 2.0 * (direction @ mirror.normal) * mirror.normal
        met = _cube_met(stage.turning, pane, onward)
        return None if met is None or met.face is None else _hit(met.face, met.point, mirror)
    return None


def _hit(face: Face, point: Array, mirror: Mirror | None) -> Hit:
    return Hit(sticker_at(face, point), point, mirror)


class _Block(Struct, frozen=True, eq=False):
    """A part of the cube that moves as one: a box before the turning, and the rotation that carries it."""

    low: Array
    high: Array
    rotation: Array


class _Met(Struct, frozen=True, eq=False):
    """Where a ray enters a block; ``face`` is None on the inside that a turning layer lays open."""

    distance: float
    face: Face | None
    point: Array


def _blocks(turning: Turning | None) -> list[_Block]:
    whole = np.full(3, HALF_CUBE)
    if turning is None or turning.layers == 3:
        return [_Block(-whole, whole, turning_matrix(turning))]
    outwards = normal(turning.face)
    axis = int(np.abs(outwards).argmax())
    cut = (HALF_CUBE - turning.layers) * outwards[axis]
    lower, upper = whole.copy(), -whole
    lower[axis] = upper[axis] = cut
    rotations = [np.eye(3), turning_matrix(turning)]
    if outwards[axis] < 0.0:
        rotations.reverse()
    return [_Block(-whole, lower, rotations[0]), _Block(upper, whole, rotations[1])]


def _cube_met(turning: Turning | None, origin: Array, direction: Array) -> _Met | None:
    """What a ray from outside meets first of the cube."""
    met = [_block_met(block, origin, direction) for block in _blocks(turning)]
    return min((each for each in met if each is not None), key=lambda each: each.distance, default=None)


def _block_met(block: _Block, origin: Array, direction: Array) -> _Met | None:
    """Where a ray enters a block, by the slab method (Kay and Kajiya, Ray Tracing Complex Scenes, 1986)."""
    start, along = block.rotation.T @ origin, block.rotation.T @ direction
    along = np.where(np.abs(along) < 1e-12, 1e-12, along)
    ends = np.stack([block.low - start, block.high - start]) / along
    entry, leave = ends.min(axis=0), ends.max(axis=0)
    axis = int(entry.argmax())
    distance = float(entry[axis])
    if distance < 0.0 or distance > float(leave.min()):
        return None
    point = start + distance * along
    outside = abs(abs(float(point[axis])) - HALF_CUBE) < 1e-6
    return _Met(distance, _FACES[axis][int(along[axis] < 0.0)] if outside else None, point)


class StickerGrip(Struct, frozen=True, eq=False):
    """A sticker held by the hand since a point of the stage."""

    hit: Hit
    seen: Sight
    start: tuple[float, float]

    @property
    def sticker(self) -> int:
        """The sticker's number."""
        return self.hit.sticker

    def drag(self, x: float, y: float) -> tuple[Face, float] | None:
        """The face and angle (radians, clockwise positive from outside) when the hand is at this point.

        The angle is the one, up to REACH either way, that brings the point held closest to the hand. While
        the way could mean two layers, it is that of the nearer one. None when it means the layer between two
        faces; so a centre holds still, for all its ways lie between faces.
        """
        way = self._way(x, y)
        if way is None:
            return None
        axis, angle, _ = way
        side = self._side(axis)
        if side == 0:
            return None
        face = next(face for face in Face if float(normal(face) @ axis) * side > 0.5)
        return face, -side * angle

    def holds_still(self, x: float, y: float) -> bool:
        """Whether the hand goes the way of a layer between two faces, which does not turn by itself."""
        way = self._way(x, y)
        return way is not None and way[2] and self._side(way[0]) == 0

    def decided(self, x: float, y: float) -> bool:
        """Whether the hand's way means one layer alone."""
        way = self._way(x, y)
        return way is not None and way[2]

    def _side(self, axis: Array) -> int:
        """On which side of the middle the sticker's layer about an axis lies; 0 in the middle."""
        return round(float(sticker_cubie_place(self.sticker) @ axis))

    def _way(self, x: float, y: float) -> tuple[Array, float, bool] | None:
        """The axis that the hand goes round, the angle by the right hand, and whether no other is meant.

        None while the hand has not moved.
        """
        moved = vector((x - self.start[0], self.start[1] - y))
        travel = float(np.linalg.norm(moved))
        frame = FRAMES[sticker_face(self.sticker)]
        ways = [(axis, *self._followed(axis, moved)) for axis in vector((frame.right, frame.down))]
        (axis, angle, gap), (other, other_angle, other_gap) = sorted(ways, key=lambda way: way[2])
        if travel == 0.0:
            return None
        between = other_gap < DECIDED * gap
        decided = travel >= FAR or not between
        if self._side(axis) == 0 and between and abs(other_angle) > 0.01:
            # Between two ways, the one that turns a layer is meant.
            return other, other_angle, decided
        return axis, angle, decided

    def _arc(self, axis: Array, angles: Array) -> Array:
        """The way of the point held on the picture, shape (2, n) in px with y upwards, from where it is held.

        ``angles`` are radians by the right hand about ``axis``.
        """
        along = (self.hit.point @ axis) * axis
        turns = np.concatenate([[0.0], angles])[:, None]
        across = self.hit.point - along
        points = along + np.cos(turns) * across + np.sin(turns) * np.cross(axis, across)
        if self.hit.mirror is not None:
            points = transform(self.hit.mirror.matrix, points)
        places = self.seen.to_viewport(points)
        return np.asarray((places[1:] - places[0]).T)

    def _followed(self, axis: Array, moved: Array) -> tuple[float, float]:
        """The angle about ``axis`` at which the point held is closest to the hand, and how close, in px."""
        angles = np.linspace(-REACH, REACH, 2 * REACH_STEPS + 1)
        arc = self._arc(axis, angles).T
        chords = np.diff(arc, axis=0)
        lengths = np.maximum((chords * chords).sum(axis=1), 1e-12)
        shares = np.clip(((moved - arc[:-1]) * chords).sum(axis=1) / lengths, 0.0, 1.0)
        gaps = np.linalg.norm(arc[:-1] + shares[:, None] * chords - moved, axis=1)
        nearest = int(gaps.argmin())
        return float(angles[nearest] + shares[nearest] * (angles[1] - angles[0])), float(gaps[nearest])


class StageHand:
    """Takes hold of stickers on the stage."""

    def grip(
        self, stage: Stage, look: Look, size: tuple[float, float], x: float, y: float
    ) -> StickerGrip | None:
        """The sticker under the point, or None for anything else."""
        hit = pick(stage, look.mirrors, size, x, y, look.mirror_below)
        if hit is None:
            return None
        return StickerGrip(hit, sight(stage.camera, size, look.mirrors, look.mirror_below), (x, y))
