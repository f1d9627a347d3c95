"""The learner's aim in terms of colours, so that it is true however the learner holds the cube."""

from __future__ import annotations

from functools import lru_cache

from msgspec import Struct

from tutor.cube.faces import FACES, Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.symmetry import IDENTITY, Symmetry, rotation_with
from tutor.solver.task import Task, slot_sides

Pair = frozenset[Face]
"""A pair by the colour numbers of its two sides."""


_SLOT_BETWEEN = {slot_sides(slot): slot for slot in SLOTS}


class Bearing(Struct, frozen=True):
    """An aim as it looks on a cube held with the cross down.

    ``hold`` brings the cube as held there; it is the identity when the cross is down already.
    ``position`` and ``task`` are in the frame after ``hold``.
    """

    hold: Symmetry
    position: Position
    task: Task

    @property
    def cross_down(self) -> bool:
        """Whether the cube is held so that words of the method fit."""
        return self.hold is IDENTITY

    def turn_as_judged(self, turn: Turn) -> Turn:
        """A turn of the cube as held, named in the frame of ``position``."""
        return self.hold.turn(turn)

    def turn_as_held(self, turn: Turn) -> Turn:
        """A turn in the frame of ``position``, named for the cube as held."""
        return self.hold.inverse.turn(turn)


class Aim(Struct, frozen=True):
    """The cross colour, the pair to solve and the pairs to keep."""

    cross: Face
    pair: Pair
    keep: frozenset[Pair]

    def bearing(self, cube: HeldCube) -> Bearing:
        """The aim on this cube."""
        return _bearing(self, cube)


@lru_cache(maxsize=4096)
def _bearing(aim: Aim, cube: HeldCube) -> Bearing:
    """Kept, since every view asks for the bearing of every turn since the aim was taken."""
    hold = cross_hold(cube, aim.cross)
    held = cube.rotated(hold)
    keep = frozenset(slot_of(held, pair) for pair in aim.keep)
    return Bearing(hold, held.position, Task(slot_of(held, aim.pair), keep))


def cross_hold(cube: HeldCube, cross: Face) -> Symmetry:
    """The rotation that brings the cross colour down, keeping the front where that is possible."""
    down = cube.face_of(cross)
    if down is Face.D:
        return IDENTITY
    front = Face.F if down not in (Face.F, Face.B) else Face.U
    return rotation_with(down, front)


def slot_of(held: HeldCube, pair: Pair) -> Slot:
    """The slot as held where the pair belongs; the cross is down."""
    sides = frozenset(held.face_of(colour) for colour in pair)
    return _SLOT_BETWEEN[sides]


def pair_of(held: HeldCube, slot: Slot) -> Pair:
    """The pair that belongs in a slot as held; the cross is down."""
    return frozenset(held.colour_of(face) for face in slot_sides(slot))


def aim_at(cube: HeldCube, cross: Face, slot: Slot) -> Aim:
    """The aim for a slot, named in the frame with the cross down; it keeps every other solved pair."""
    held = cube.rotated(cross_hold(cube, cross))
    task = Task.at(held.position, slot)
    return aim_of(held, cross, task)


def aim_of(held: HeldCube, cross: Face, task: Task) -> Aim:
    """The aim that is ``task`` on a cube held with the cross down."""
    return Aim(cross, pair_of(held, task.slot), frozenset(pair_of(held, slot) for slot in task.keep))


def colours_as_held(cube: HeldCube, names: tuple[str, ...]) -> tuple[str, ...]:
    """The six colour words in the order of Face as held."""
    return tuple(names[cube.colour_of(face)] for face in FACES)
