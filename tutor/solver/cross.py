"""The cross by itself: exact distances and all shortest lines, for a cross of any colour.

Positions are held with some colour down, and names of colours here are the faces at which their centres are.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from msgspec import Struct

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.position import Position
from tutor.cube.symmetry import ROTATIONS, Symmetry
from tutor.solver.coordinates import Int32Array, UInt8Array, cross_number
from tutor.solver.tables import Tables


class CrossDistance(Struct, frozen=True):
    """How many turns the cross of the colour at face ``colour`` needs."""

    colour: Face
    distance: int


@cache
def _rotation_down(colour: Face) -> Symmetry:
    """The first rotation that brings the face down; about the upright axis any does."""
    return next(rotation for rotation in ROTATIONS if rotation.faces[colour] is Face.D)


class CrossSolver:
    """Exact answers for the cross, from a table of all 190080 placements."""

    def __init__(self, tables: Tables) -> None:
        self._distances: UInt8Array = tables.cross_distances()
        self._moves: Int32Array = tables.cross_moves

    def distance(self, position: Position, colour: Face = Face.D) -> int:
        """The fewest turns to the cross of the colour whose centre is at ``colour``."""
        return int(self._distances[cross_number(position.carried(_rotation_down(colour)))])

    def after(self, position: Position, colour: Face = Face.D) -> tuple[int, ...]:
        """The distance after each of the 18 turns."""
        rotation = _rotation_down(colour)
        row = self._distances[self._moves[cross_number(position.carried(rotation))]]
        return tuple(int(row[rotation.turn(turn)]) for turn in TURNS)

    def lines(
        self, position: Position, colour: Face = Face.D, limit: int | None = None
    ) -> tuple[tuple[Turn, ...], ...]:
        """All shortest lines as held, in the order of ``TURNS`` turn by turn; at most ``limit`` if given.

        When the cross is home there is one line, the empty one.
        """
        rotation = _rotation_down(colour)
        order = np.array([rotation.turn(turn) for turn in TURNS])
        crosses = np.array([cross_number(position.carried(rotation))])
        lines = np.zeros((1, 0), dtype=np.intp)
        for remaining in range(int(self._distances[crosses[0]]) - 1, -1, -1):
            children = self._moves[crosses][:, order].ravel()
            kept = np.flatnonzero(self._distances[children] == remaining)[:limit]
            parent, turn = np.divmod(kept, len(TURNS))
            crosses = children[kept]
            lines = np.concatenate((lines[parent], turn[:, None]), axis=1)
        return tuple(tuple(TURNS[turn] for turn in line) for line in lines.tolist())

    def colours(self, position: Position) -> tuple[CrossDistance, ...]:
        """The six crosses, the shortest first; equals in the order down, then as ``FACES`` lists them."""
        order = (Face.D, *(face for face in FACES if face is not Face.D))
        every = [CrossDistance(colour, self.distance(position, colour)) for colour in order]
        return tuple(sorted(every, key=lambda cross: cross.distance))

    def best(self, position: Position) -> CrossDistance:
        """The colour whose cross needs fewest turns; the one that is down wins a tie."""
        return self.colours(position)[0]
