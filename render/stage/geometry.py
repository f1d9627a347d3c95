"""Where cubies and stickers are, as ``tutor.ui.view`` numbers them.

Lengths are in cubies: a cubie's place is a cell of edge 1, the cube reaches from -1.5 to 1.5 on each axis.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import product

import numpy as np
from msgspec import Struct

from render.stage.linear import Array, rotation, vector
from tutor.ui.view import Face, Turning

HALF_CUBE = 1.5
"""From the cube's centre to the middle of a face."""


class FaceFrame(Struct, frozen=True):
    """Directions on a face as it lies on the page: out of the cube, to the right, and down."""

    normal: tuple[float, float, float]
    right: tuple[float, float, float]
    down: tuple[float, float, float]


FRAMES: dict[Face, FaceFrame] = {
    Face.U: FaceFrame((0.0, 1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)),
    Face.D: FaceFrame((0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, -1.0)),
    Face.L: FaceFrame((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0)),
    Face.R: FaceFrame((1.0, 0.0, 0.0), (0.0, 0.0, -1.0), (0.0, -1.0, 0.0)),
    Face.F: FaceFrame((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
    Face.B: FaceFrame((0.0, 0.0, -1.0), (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
}

CUBIE_PLACES: Array = vector(list(product((-1, 0, 1), repeat=3)))
"""Coordinates of the 27 cubies, shape (27, 3), in the order of their numbers."""


def normal(face: Face) -> Array:
    """The direction out of the cube through ``face``."""
    return vector(FRAMES[face].normal)


def cubie_number(place: tuple[int, int, int] | Array) -> int:
    """The number of the cubie at coordinates -1, 0, 1."""
    x, y, z = (round(float(value)) for value in place)
    return 9 * (x + 1) + 3 * (y + 1) + (z + 1)


def sticker_number(face: Face, row: int, column: int) -> int:
    """The number of the sticker in this row and column of ``face``."""
    return 9 * int(face) + 3 * row + column


def sticker_face(sticker: int) -> Face:
    """The face that a sticker lies on."""
    return Face(sticker // 9)


def sticker_cubie_place(sticker: int) -> Array:
    """Coordinates of the cubie that carries the sticker."""
    frame = FRAMES[sticker_face(sticker)]
    row, column = divmod(sticker % 9, 3)
    return vector(frame.normal) + (row - 1) * vector(frame.down) + (column - 1) * vector(frame.right)


def sticker_centre(sticker: int) -> Array:
    """The middle of a sticker on the cube's surface."""
    return sticker_cubie_place(sticker) + 0.5 * normal(sticker_face(sticker))


STICKER_CUBIES: tuple[int, ...] = tuple(cubie_number(sticker_cubie_place(s)) for s in range(54))
"""For each sticker the number of its cubie."""

STICKERS_OF_CUBIE: tuple[tuple[int, ...], ...] = tuple(
    tuple(s for s in range(54) if STICKER_CUBIES[s] == cubie) for cubie in range(27)
)
"""For each cubie its stickers: three on a corner, two on an edge, one on a centre."""


def sticker_at(face: Face, point: Array) -> int:
    """The sticker of ``face`` whose cell holds ``point``; points beyond the rim count to the nearest cell."""
    frame = FRAMES[face]
    cells = (float(point @ vector(axis)) for axis in (frame.down, frame.right))
    row, column = (int(np.clip(np.floor(cell + HALF_CUBE), 0, 2)) for cell in cells)
    return sticker_number(face, row, column)


def turned_cubies(turning: Turning) -> Array:
    """Which of the 27 cubies the turning carries, as a boolean array."""
    return np.asarray(CUBIE_PLACES @ normal(turning.face) > 1.5 - turning.layers)


@lru_cache(maxsize=8)
def turning_matrix(turning: Turning | None) -> Array:
    """The (3, 3) rotation of the turning layer; clockwise seen from outside is against the right hand."""
    matrix = np.eye(3) if turning is None else rotation(normal(turning.face), -turning.angle)
    matrix.flags.writeable = False
    return matrix
