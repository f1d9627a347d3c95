"""One script, played in any slot, mirrored, with any cross colour."""

from __future__ import annotations

from enum import Enum
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube, first_hold
from tutor.cube.notation import Axis, Move, Rotation, WideTurn
from tutor.cube.position import Position, Slot
from tutor.cube.symmetry import IDENTITY, MIRROR_LEFT_RIGHT, Symmetry, quarter_about
from tutor.solver.task import Task, carried_slot


class Variation(Struct, frozen=True, dict=True):
    """How a script is played.

    Everything is carried round the upright axis by ``quarters`` (clockwise as seen from above, 0 to 3), after
    being mirrored left to right when ``mirrored``. ``cross`` is the cross colour, None as written. At last
    the whole cube is ``turned`` by clockwise quarters, as a learner turns it: the centres turn too.
    """

    quarters: int = 0
    mirrored: bool = False
    cross: Face | None = None
    turned: int = 0

    @cached_property
    def symmetry(self) -> Symmetry:
        """What is done to every position, turn and place of the script."""
        return quarter_about(Face.U, self.turned) @ self._unturned

    @cached_property
    def _unturned(self) -> Symmetry:
        mirror = MIRROR_LEFT_RIGHT if self.mirrored else IDENTITY
        return quarter_about(Face.U, self.quarters) @ mirror

    def held(self, cube: HeldCube) -> HeldCube:
        """A cube of the script as it is played; its viewpoint follows, then takes on the cross colour."""
        symmetry = self._unturned
        viewpoint = symmetry @ cube.viewpoint @ symmetry.inverse
        if self.cross is not None:
            down = viewpoint.inverse.faces[Face.D]
            # The hold puts the chosen colour where the script's cross colour would be.
            viewpoint = viewpoint @ _recolouring(down, self.cross)
        held = HeldCube(cube.position.carried(symmetry), viewpoint)
        return held.rotated(quarter_about(Face.U, self.turned))

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


class Facing(Enum):
    """Where the slot of a scene is brought by turning the whole cube, so that the learner looks at it."""

    AS_WRITTEN = ""
    RIGHT = "right"
    """To the front right."""
    FRONT = "front"
    """To the front; slots at the front left stay."""


QUARTERS_TO_THE_RIGHT = {Slot.FR: 0, Slot.FL: 3, Slot.BL: 2, Slot.BR: 1}
"""Clockwise quarters of the whole cube, seen from above, that bring each slot to the front right."""
_TO_THE_FRONT = {Slot.FR: 0, Slot.FL: 0, Slot.BL: 3, Slot.BR: 1}


def faced(variation: Variation, slot: Slot | None, facing: Facing) -> Variation:
    """The variation in which a slot of the script faces the learner."""
    if slot is None or facing is Facing.AS_WRITTEN:
        return variation
    quarters = QUARTERS_TO_THE_RIGHT if facing is Facing.RIGHT else _TO_THE_FRONT
    return replace(variation, turned=quarters[variation.slot(slot)])


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
