"""One script, played in any slot, mirrored, with any cross colour."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube, first_hold
from tutor.cube.notation import Axis, Move, Rotation, WideTurn
from tutor.cube.position import Position, Slot
from tutor.cube.symmetry import IDENTITY, MIRROR_LEFT_RIGHT, Symmetry, quarter_about
from tutor.solver.task import Task
from tutor.solver.task import carried_slot as carried_slot


@dataclass(frozen=True)
class Variation:
    """How a script is played.

    Everything is carried round the upright axis by ``quarters`` (clockwise as seen from above, 0 to 3), after
    being mirrored left to right when ``mirrored``. ``cross`` is the cross colour, None as written.
    """

    quarters: int = 0
    mirrored: bool = False
    cross: Face | None = None

    @cached_property
    def symmetry(self) -> Symmetry:
        """What is done to every position, turn and place of the script."""
        mirror = MIRROR_LEFT_RIGHT if self.mirrored else IDENTITY
        return quarter_about(Face.U, self.quarters) @ mirror

    def held(self, cube: HeldCube) -> HeldCube:
        """A cube of the script as it is played; its viewpoint follows, then takes on the cross colour."""
        symmetry = self.symmetry
        viewpoint = symmetry @ cube.viewpoint @ symmetry.inverse
        if self.cross is not None:
            down = viewpoint.inverse.faces[Face.D]
            # The hold puts the chosen colour where the script's cross colour would be.
            viewpoint = viewpoint @ _recolouring(down, self.cross)
        return HeldCube(cube.position.carried(symmetry), viewpoint)

    def written(self, position: Position, task: Task) -> tuple[Position, Task]:
        """A position and task as played, as they would be in the script as written."""
        back = self.symmetry.inverse
        keep = frozenset(carried_slot(slot, back) for slot in task.keep)
        return position.carried(back), Task(carried_slot(task.slot, back), keep)

    def slot(self, slot: Slot) -> Slot:
        """The slot that a slot of the script becomes."""
        return carried_slot(slot, self.symmetry)


PLAIN = Variation()
"""The script as written."""


def carried_move(move: Move, symmetry: Symmetry) -> Move:
    """A written move under a symmetry; rotations come back about the axes the standard has (12a4)."""
    if isinstance(move, Turn):
        return symmetry.turn(move)
    if isinstance(move, WideTurn):
        turn = symmetry.turn(Turn.of(move.face, move.quarters))
        return WideTurn(turn.face, turn.quarters)
    turn = symmetry.turn(Turn.of(Face(move.axis), move.quarters))
    if turn.face in (Face.R, Face.U, Face.F):
        return Rotation(Axis(turn.face), turn.quarters)
    return Rotation(Axis(turn.face.opposite), 4 - turn.quarters)


def _recolouring(written: Face, chosen: Face) -> Symmetry:
    """The rotation that makes the hold for the cross colour ``written`` the one for ``chosen``."""
    return first_hold(written).inverse @ first_hold(chosen)
