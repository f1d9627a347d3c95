"""The cube's shape: cubies, stickers and places, and the tables of how turns and symmetries move them.

Everything here is derived from coordinates, so that nothing can disagree with what is drawn.
Space: x to the right (R), y up (U), z towards the viewer (F); cubies at -1, 0, 1.
Stickers are numbered ``9 * face + 3 * row + column``, rows downwards and columns to the right as the face
is seen from outside, with B above U, F above D and U above the four sides.

A *location* of a corner or edge is a sticker place of that kind: 24 each. ``3 * place + k`` (corners) and
``2 * place + k`` (edges) is the k-th sticker of the place. A piece's location is where its own first sticker
is. First stickers: on U or D where the place has one, else on F or B. Corner stickers run clockwise.
"""

from __future__ import annotations

from functools import cache
from itertools import permutations, product

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import FACES, TURNS, Face, Turn

Vector = tuple[int, int, int]
IndexArray = NDArray[np.intp]

NORMALS: dict[Face, Vector] = {
    Face.U: (0, 1, 0),
    Face.D: (0, -1, 0),
    Face.L: (-1, 0, 0),
    Face.R: (1, 0, 0),
    Face.F: (0, 0, 1),
    Face.B: (0, 0, -1),
}
FACE_OF_NORMAL = {normal: face for face, normal in NORMALS.items()}

# For each face as seen from outside: the direction columns grow in, and the direction rows grow in.
_PAGE: dict[Face, tuple[Vector, Vector]] = {
    Face.U: ((1, 0, 0), (0, 0, 1)),
    Face.D: ((1, 0, 0), (0, 0, -1)),
    Face.L: ((0, 0, 1), (0, -1, 0)),
    Face.R: ((0, 0, -1), (0, -1, 0)),
    Face.F: ((1, 0, 0), (0, -1, 0)),
    Face.B: ((-1, 0, 0), (0, -1, 0)),
}

SIDE_RING = (Face.F, Face.L, Face.B, Face.R)
"""The sides in the order in which a turn of U carries the front round."""


def _combine(scaled: tuple[tuple[int, Vector], ...]) -> Vector:
    x, y, z = (sum(factor * vector[axis] for factor, vector in scaled) for axis in range(3))
    return (x, y, z)


def _sticker_places() -> list[tuple[Vector, Face]]:
    places = []
    for face in FACES:
        right, down = _PAGE[face]
        for row, column in product(range(3), repeat=2):
            cubie = _combine(((1, NORMALS[face]), (column - 1, right), (row - 1, down)))
            places.append((cubie, face))
    return places


STICKERS: tuple[tuple[Vector, Face], ...] = tuple(_sticker_places())
"""The cubie and the face of each of the 54 stickers."""

STICKER_AT: dict[tuple[Vector, Face], int] = {place: number for number, place in enumerate(STICKERS)}


def cubie_number(cubie: Vector) -> int:
    """The cubie's number, ``9 * (x + 1) + 3 * (y + 1) + (z + 1)``."""
    x, y, z = cubie
    return 9 * (x + 1) + 3 * (y + 1) + (z + 1)


def _corner_faces() -> tuple[tuple[Face, Face, Face], ...]:
    """Top then bottom, in the order FR, FL, BL, BR; the stickers of each clockwise from U or D."""
    corners = []
    for layer in (Face.U, Face.D):
        for first, second in ((Face.F, Face.R), (Face.F, Face.L), (Face.B, Face.L), (Face.B, Face.R)):
            faces = (layer, first, second)
            matrix = np.array([NORMALS[face] for face in faces])
            # Seen from outside, three outward normals run clockwise when their determinant is negative.
            clockwise = np.linalg.det(matrix) < 0
            corners.append(faces if clockwise else (layer, second, first))
    return tuple(corners)


CORNER_FACES: tuple[tuple[Face, Face, Face], ...] = _corner_faces()
"""Corner places 0-3 in the top layer and 4-7 in the bottom, each FR, FL, BL, BR."""

EDGE_FACES: tuple[tuple[Face, Face], ...] = (
    *((Face.U, side) for side in SIDE_RING),
    (Face.F, Face.R),
    (Face.F, Face.L),
    (Face.B, Face.L),
    (Face.B, Face.R),
    *((Face.D, side) for side in SIDE_RING),
)
"""Edge places 0-3 on top (UF, UL, UB, UR), 4-7 in the slots (FR, FL, BL, BR), 8-11 below (DF, DL, DB, DR)."""


def _sticker_of(faces: tuple[Face, ...], first: Face) -> int:
    cubie = _combine(tuple((1, NORMALS[face]) for face in faces))
    return STICKER_AT[cubie, first]


CORNER_STICKERS: tuple[int, ...] = tuple(_sticker_of(f, f[k]) for f in CORNER_FACES for k in range(3))
"""Sticker number of each of the 24 corner locations."""
EDGE_STICKERS: tuple[int, ...] = tuple(_sticker_of(f, f[k]) for f in EDGE_FACES for k in range(2))
"""Sticker number of each of the 24 edge locations."""
CORNER_LOCATION: dict[int, int] = {sticker: location for location, sticker in enumerate(CORNER_STICKERS)}
EDGE_LOCATION: dict[int, int] = {sticker: location for location, sticker in enumerate(EDGE_STICKERS)}


CORNER_CUBIES: tuple[int, ...] = tuple(cubie_number(STICKERS[CORNER_STICKERS[3 * p]][0]) for p in range(8))
"""Number of the cubie at each corner place."""
EDGE_CUBIES: tuple[int, ...] = tuple(cubie_number(STICKERS[EDGE_STICKERS[2 * p]][0]) for p in range(12))
"""Number of the cubie at each edge place."""


def place_name(faces: tuple[Face, ...]) -> str:
    """The name of a place by its faces, for instance ``UFR``: U or D first, then F or B, then L or R."""
    order = (Face.U, Face.D, Face.F, Face.B, Face.L, Face.R)
    return "".join(face.name for face in sorted(faces, key=order.index))


# ------------------------------------------------------------------------------------------ symmetries


def _matrices() -> list[NDArray[np.int64]]:
    found = []
    for axes in permutations(range(3)):
        for signs in product((1, -1), repeat=3):
            matrix = np.zeros((3, 3), dtype=np.int64)
            for row, (axis, sign) in enumerate(zip(axes, signs, strict=True)):
                matrix[row, axis] = sign
            found.append(matrix)
    return found


def quarter_matrix(face: Face) -> NDArray[np.int64]:
    """The rotation by a quarter clockwise, seen from outside ``face``, as a 3 x 3 integer matrix."""
    n = np.array(NORMALS[face])
    cross = np.array([[0, -n[2], n[1]], [n[2], 0, -n[0]], [-n[1], n[0], 0]])
    # Rodrigues' formula for minus ninety degrees about n: n n^T - [n]x.
    return np.asarray(np.outer(n, n) - cross, dtype=np.int64)


_CUBIES = np.array([cubie for cubie, _ in STICKERS])
# A point that each sticker has to itself: twice its cubie and a step along its normal, from -3 to 3.
_POINTS = 2 * _CUBIES + np.array([NORMALS[face] for _, face in STICKERS])
_NUMBER_AT = np.zeros((7, 7, 7), dtype=np.intp)
_NUMBER_AT[tuple(_POINTS.T + 3)] = np.arange(len(STICKERS))


def carried_stickers(matrix: NDArray[np.int64]) -> IndexArray:
    """Where ``matrix`` (3 x 3) carries each of the 54 sticker places with the whole cube; shape (54,)."""
    return np.asarray(_NUMBER_AT[tuple(matrix @ _POINTS.T + 3)])


@cache
def turn_sticker_map(turn: Turn) -> IndexArray:
    """Where each of the 54 sticker places is carried by ``turn``; shape (54,)."""
    whole = carried_stickers(np.linalg.matrix_power(quarter_matrix(turn.face), turn.quarters))
    return np.where(_CUBIES @ np.array(NORMALS[turn.face]) == 1, whole, np.arange(len(STICKERS)))


def _location_table(stickers: tuple[int, ...], number_of: dict[int, int]) -> NDArray[np.uint8]:
    return np.array(
        [[number_of[int(turn_sticker_map(turn)[sticker])] for sticker in stickers] for turn in TURNS],
        dtype=np.uint8,
    )


CORNER_MOVE: NDArray[np.uint8] = _location_table(CORNER_STICKERS, CORNER_LOCATION)
"""``CORNER_MOVE[turn, location]``: where a corner sticker is after the turn; shape (18, 24)."""
EDGE_MOVE: NDArray[np.uint8] = _location_table(EDGE_STICKERS, EDGE_LOCATION)
"""``EDGE_MOVE[turn, location]``: where an edge sticker is after the turn; shape (18, 24)."""
CORNER_MOVE.setflags(write=False)
EDGE_MOVE.setflags(write=False)

SYMMETRY_MATRICES: tuple[NDArray[np.int64], ...] = tuple(_matrices())
"""The 48 symmetries of the cube as 3 x 3 integer matrices, rotations and reflections."""
