"""Meshes of what is marked on the cube: outlines, the slot's frame, glow, a turn's arrow."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product

import numpy as np

from render.stage.arrows import arrow_angles, turn_arrow
from render.stage.camera import eye_position
from render.stage.geometry import (
    CUBIE_PLACES,
    FRAMES,
    STICKERS_OF_CUBIE,
    normal,
    sticker_centre,
    sticker_face,
    turned_cubies,
    turning_matrix,
)
from render.stage.linear import Array, vector
from render.stage.mark_mesh import EMPTY, STAYS, painted
from render.stage.mesh import Mesh, grid_indices, merged, rounded_box, rounded_square
from render.theme import Colour, StageTheme
from tutor.ui.view import Camera, Stage, Turning

OUTLINE_HALF_WIDTH = 0.042
GHOST_HALF, GHOST_ROUNDING = 0.44, 0.14
"""From the middle of a covered cubie to the sides of its ghost, and how round that is."""
FRAME_GAP = 0.075
FRAME_HALF_WIDTH = 0.05
GLOW_RISE = 0.03
GLOW_RINGS = ((0.43, 0.10, 0.0), (0.45, 0.11, 0.95), (0.515, 0.14, 0.95), (0.72, 0.30, 0.0))
"""Half the side, rounding and opacity: a bright line in the gap round a sticker that fades outwards.

A dark line is left between it and the sticker, so that it is seen round a white one, too, and it fades soon
enough to leave the neighbours their colours.
"""
_BOX: Array = vector(list(product((-1, 1), repeat=3)))
_BOX_INDICES = np.array(
    [(0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5), (0, 4, 5), (0, 5, 1),
     (2, 3, 7), (2, 7, 6), (0, 2, 6), (0, 6, 4), (1, 5, 7), (1, 7, 3)], dtype=np.uint32
).ravel()  # fmt: skip


@dataclass(frozen=True, slots=True, eq=False)
class Marks:
    """All marks as one mesh. The first ``glow`` indices are glow, then ``solid`` marks, then ``ghost``."""

    mesh: Mesh
    glow: int
    solid: int
    ghost: int


def marks_key(stage: Stage) -> tuple[object, ...]:
    """What the meshes depend on: as long as it is the same, so are they."""
    covered = covered_cubies(stage.outlined, stage.turning, stage.camera)
    framed = covered_cubies(stage.framed, None, stage.camera)
    arrow = None if stage.arrow is None else (stage.arrow, *arrow_angles(stage.arrow.turn, stage.camera))
    return stage.outlined, covered, stage.framed, framed, stage.glowing, arrow


def marks_of(stage: Stage, theme: StageTheme) -> Marks:
    """The meshes of everything that ``stage`` marks."""
    glow = [_glow(cubie, theme.glow) for cubie in sorted(stage.glowing)]
    solid = [_cage((cubie,), theme.outline, cubie) for cubie in sorted(stage.outlined)]
    if stage.framed:
        solid.append(slot_frame(stage.framed, theme.frame))
    if stage.arrow is not None:
        solid.append(turn_arrow(stage.arrow.turn, stage.camera, theme.arrow))
    covered = sorted(covered_cubies(stage.outlined, stage.turning, stage.camera))
    ghost = [_block((cubie,), theme.outline, cubie) for cubie in covered]
    if stage.framed and covered_cubies(stage.framed, None, stage.camera) == stage.framed:
        ghost.append(_block(tuple(sorted(stage.framed)), theme.frame, STAYS))
    glow_count, solid_count, ghost_count = (
        sum(len(mesh.indices) for mesh in part) for part in (glow, solid, ghost)
    )
    return Marks(merged([EMPTY, *glow, *solid, *ghost]), glow_count, solid_count, ghost_count)


def covered_cubies(cubies: frozenset[int], turning: Turning | None, camera: Camera) -> frozenset[int]:
    """Those of the cubies none of whose stickers faces the eye."""
    eye = eye_position(camera)
    moved = turned_cubies(turning) if turning is not None else np.zeros(27, dtype=bool)
    turn = turning_matrix(turning)

    def faces_eye(cubie: int, sticker: int) -> bool:
        matrix = turn if moved[cubie] else np.eye(3)
        outward = matrix @ normal(sticker_face(sticker))
        return bool(outward @ (eye - matrix @ sticker_centre(sticker)) > 0.0)

    return frozenset(c for c in cubies if not any(faces_eye(c, s) for s in STICKERS_OF_CUBIE[c]))


def _bars(low: Array, high: Array, half_width: float) -> list[tuple[Array, Array]]:
    """Middles and half sizes of the twelve bars along the edges of a box."""
    bars = []
    for axis in range(3):
        others = [other for other in range(3) if other != axis]
        for corner in range(4):
            middle = (low + high) / 2
            for bit, other in enumerate(others):
                middle[other] = (high if corner >> bit & 1 else low)[other]
            half = np.full(3, half_width)
            half[axis] += (high - low)[axis] / 2
            bars.append((middle, half))
    return bars


@lru_cache(maxsize=64)
def _cage(cubies: tuple[int, ...], colour: Colour, travels_with: int, gap: float = 0.0) -> Mesh:
    """Bars along the edges of the box that holds the cubies, ``gap`` away from them."""
    places = CUBIE_PLACES[list(cubies)]
    low, high = places.min(axis=0) - 0.49 - gap, places.max(axis=0) + 0.49 + gap
    # A bar is a few pixels wide: normals at its corners alone make it look round enough.
    normals = _BOX / np.sqrt(3.0) if gap else None
    bars = _bars(low, high, FRAME_HALF_WIDTH if gap else OUTLINE_HALF_WIDTH)
    return merged(
        [painted(middle + half * _BOX, normals, colour, travels_with, _BOX_INDICES) for middle, half in bars]
    )


@lru_cache(maxsize=64)
def _block(cubies: tuple[int, ...], colour: Colour, travels_with: int) -> Mesh:
    """The rounded body of what the cubies fill together: the ghost of what is covered, seen as one shape."""
    places = CUBIE_PLACES[list(cubies)]
    low, high = places.min(axis=0) - GHOST_HALF, places.max(axis=0) + GHOST_HALF
    positions, normals, indices = rounded_box((high - low) / 2, GHOST_ROUNDING, 3)
    return painted(positions + (low + high) / 2, normals, colour, travels_with, indices)


def slot_frame(places: frozenset[int], colour: Colour) -> Mesh:
    """The frame round the places of a slot; it stays when layers turn."""
    return _cage(tuple(sorted(places)), colour, STAYS, FRAME_GAP)


@lru_cache(maxsize=64)
def _glow(cubie: int, colour: Colour) -> Mesh:
    """Light around each sticker of the cubie, fading outwards."""
    meshes = []
    for sticker in STICKERS_OF_CUBIE[cubie]:
        frame = FRAMES[sticker_face(sticker)]
        right, up, outward = vector(frame.right), -vector(frame.down), vector(frame.normal)
        plane = np.concatenate([rounded_square(half, corner, 5) for half, corner, _ in GLOW_RINGS])
        middle = sticker_centre(sticker) + GLOW_RISE * outward
        positions = middle + plane[:, :1] * right + plane[:, 1:] * up
        count = len(plane) // len(GLOW_RINGS)
        mesh = painted(positions, None, colour, cubie, grid_indices(len(GLOW_RINGS), count, closed=True))
        mesh.vertices[:, 9] = np.repeat([opacity for *_, opacity in GLOW_RINGS], count)
        meshes.append(mesh)
    return merged(meshes)
