"""The 48 symmetries of the cube: the 24 rotations, which are the viewpoints, and their mirror images."""

from __future__ import annotations

from functools import cached_property

import numpy as np
from msgspec import Struct

from tutor.cube.faces import FACES, Face, Turn
from tutor.cube.geometry import (
    CORNER_LOCATION,
    CORNER_STICKERS,
    EDGE_LOCATION,
    EDGE_STICKERS,
    SYMMETRY_MATRICES,
    carried_stickers,
    quarter_matrix,
)


class Symmetry(Struct, frozen=True, dict=True):
    """A rotation or reflection of the whole cube; it carries the face f to ``faces[f]``.

    ``second @ first`` is ``first`` followed by ``second``. Only the 48 in SYMMETRIES exist, so what is worked
    out for one is kept on it (which slots would not allow).
    """

    faces: tuple[Face, Face, Face, Face, Face, Face]

    def __matmul__(self, first: Symmetry) -> Symmetry:
        """``first`` and then this one."""
        return _BY_FACES[tuple(self.faces[face] for face in first.faces)]

    @cached_property
    def inverse(self) -> Symmetry:
        """The symmetry that takes this one back."""
        return _BY_FACES[tuple(Face(self.faces.index(face)) for face in FACES)]

    @cached_property
    def mirrors(self) -> bool:
        """Whether this is a reflection rather than a rotation."""
        return bool(np.linalg.det(_MATRIX[self.faces]) < 0)

    def turn(self, turn: Turn) -> Turn:
        """The turn that ``turn`` becomes: reflections reverse its direction."""
        quarters = -turn.quarters if self.mirrors else turn.quarters
        return Turn.of(self.faces[turn.face], quarters)

    def turns(self, turns: tuple[Turn, ...]) -> tuple[Turn, ...]:
        """Each turn of a sequence carried over."""
        return tuple(self.turn(turn) for turn in turns)

    @cached_property
    def stickers(self) -> tuple[int, ...]:
        """Where each of the 54 sticker places is carried."""
        return tuple(carried_stickers(_MATRIX[self.faces]).tolist())

    @cached_property
    def corner_locations(self) -> tuple[int, ...]:
        """Where each of the 24 corner locations is carried."""
        return tuple(CORNER_LOCATION[self.stickers[sticker]] for sticker in CORNER_STICKERS)

    @cached_property
    def edge_locations(self) -> tuple[int, ...]:
        """Where each of the 24 edge locations is carried."""
        return tuple(EDGE_LOCATION[self.stickers[sticker]] for sticker in EDGE_STICKERS)


def _faces_of(matrix: np.ndarray[tuple[int, ...], np.dtype[np.int64]]) -> tuple[Face, ...]:
    # A face has nine stickers, and the fifth is its middle.
    middles = carried_stickers(matrix)[4::9]
    return tuple(Face(sticker // 9) for sticker in middles.tolist())


_MATRIX = {_faces_of(matrix): matrix for matrix in SYMMETRY_MATRICES}
_BY_FACES = {faces: Symmetry(faces) for faces in _MATRIX}  # type: ignore[arg-type]

SYMMETRIES: tuple[Symmetry, ...] = tuple(_BY_FACES.values())
"""All 48."""
ROTATIONS: tuple[Symmetry, ...] = tuple(symmetry for symmetry in SYMMETRIES if not symmetry.mirrors)
"""The 24 that a person can make with the cube in hand."""
IDENTITY: Symmetry = _BY_FACES[tuple(FACES)]


def quarter_about(face: Face, quarters: int) -> Symmetry:
    """The whole cube turned by clockwise quarters as seen from outside ``face`` (any integer)."""
    matrix = np.linalg.matrix_power(quarter_matrix(face), quarters % 4)
    return _BY_FACES[_faces_of(matrix)]


def _swap(first: Face, second: Face) -> Symmetry:
    exchanged = {first: second, second: first}
    return _BY_FACES[tuple(exchanged.get(face, face) for face in FACES)]


MIRROR_LEFT_RIGHT: Symmetry = _swap(Face.L, Face.R)
"""The mirror image that exchanges left and right."""
MIRROR_FRONT_BACK: Symmetry = _swap(Face.F, Face.B)
"""The mirror image that exchanges front and back."""


def rotation_with(down: Face, front: Face) -> Symmetry:
    """The rotation that brings the face ``down`` to D and the face ``front`` to F.

    Raises ValueError when the two faces are the same or opposite.
    """
    for rotation in ROTATIONS:
        if rotation.faces[down] is Face.D and rotation.faces[front] is Face.F:
            return rotation
    raise ValueError(f"{front.name} cannot be in front while {down.name} is down: they must be neighbours")
