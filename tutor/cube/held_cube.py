"""A cube in the hands: a position and the viewpoint it is seen from."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property

from msgspec import Struct

from tutor.cube.faces import FACES, Face, Turn
from tutor.cube.notation import Move, Rotation, WideTurn
from tutor.cube.position import SOLVED, Position
from tutor.cube.stickers import faces_shown
from tutor.cube.symmetry import IDENTITY, Symmetry, quarter_about, rotation_with


class HeldCube(Struct, frozen=True, dict=True):
    """The position as held, and the rotation that brought the cube from its first hold to this one.

    A face of the cube is known by the colour of its centre. Colours are numbered like the faces that show
    them in the first hold (``viewpoint`` identity); ``viewpoint.faces[colour]`` is where that centre is now.
    """

    position: Position = SOLVED
    viewpoint: Symmetry = IDENTITY

    def moved(self, move: Move) -> HeldCube:
        """The cube after a face turn, a wide turn or a rotation, as it is then held."""
        if isinstance(move, Turn):
            return HeldCube(self.position.turned(move), self.viewpoint)
        if isinstance(move, Rotation):
            return self.rotated(move.symmetry)
        # Two layers turned are the whole cube turned and the far layer turned back: both read the same
        # from their own side, hence the same quarters on the opposite face.
        return self.rotated(quarter_about(move.face, move.quarters)).moved(reduced(move))

    def after(self, moves: Iterable[Move]) -> HeldCube:
        """The cube after several moves."""
        cube = self
        for move in moves:
            cube = cube.moved(move)
        return cube

    def held_for(self, cross: Face) -> HeldCube:
        """The same cube held as it always is for this cross colour."""
        return self.rotated(first_hold(cross) @ self.viewpoint.inverse)

    def rotated(self, rotation: Symmetry) -> HeldCube:
        """The same cube held another way."""
        return HeldCube(self.position.carried(rotation), rotation @ self.viewpoint)

    @property
    def state(self) -> Position:
        """The position seen from the first hold: rotations do not change it (WCA 12i)."""
        return self.position.carried(self.viewpoint.inverse)

    @cached_property
    def colours(self) -> tuple[int, ...]:
        """The colour number on each of the 54 sticker places as held."""
        colour_of_face = self.viewpoint.inverse.faces
        return tuple(int(colour_of_face[face]) for face in faces_shown(self.position))

    def face_of(self, colour: Face) -> Face:
        """Where the centre of this colour is as held."""
        return self.viewpoint.faces[colour]

    def colour_of(self, face: Face) -> Face:
        """The colour number of the centre on ``face`` as held."""
        return self.viewpoint.inverse.faces[face]


def reduced(move: Move) -> Turn:
    """The face turn that a turn of one or two layers comes down to, in the frame after the move.

    Raises ValueError for a rotation, which turns no face.
    """
    if isinstance(move, Turn):
        return move
    if isinstance(move, WideTurn):
        return Turn.of(move.face.opposite, move.quarters)
    raise ValueError(f"{move.notation} turns the whole cube and no face")


def length(moves: Iterable[Move]) -> int:
    """Turns counted in the outer block turn metric: a rotation counts none (WCA 12a5)."""
    return sum(not isinstance(move, Rotation) for move in moves)


def face_turns(moves: Iterable[Move]) -> tuple[tuple[Turn, ...], Symmetry]:
    """The face turns, all named in the first frame, and the rotation left over at the end."""
    turns: list[Turn] = []
    viewpoint = IDENTITY
    for move in moves:
        if not isinstance(move, Turn):
            face = Face(move.axis) if isinstance(move, Rotation) else move.face
            viewpoint = quarter_about(face, move.quarters) @ viewpoint
        if not isinstance(move, Rotation):
            turns.append(viewpoint.inverse.turn(reduced(move)))
    return tuple(turns), viewpoint


def first_hold(cross: Face) -> Symmetry:
    """The one viewpoint for a cross colour, which is down; the usual front stays in front where it can."""
    if cross is Face.D:
        return IDENTITY
    front = next(face for face in (Face.F, *FACES) if face not in (cross, cross.opposite))
    return rotation_with(cross, front)
