"""Positions: where every piece of the cube is, as immutable values."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.symmetry import Symmetry

_CORNER_STEPS = tuple(bytes(row.tolist()) for row in CORNER_MOVE)
_EDGE_STEPS = tuple(bytes(row.tolist()) for row in EDGE_MOVE)


class Slot(IntEnum):
    """The four slots as held; the value picks the slot's corner (4 + slot) and edge (4 + slot)."""

    FR = 0
    FL = 1
    BL = 2
    BR = 3

    @property
    def corner(self) -> int:
        """Number of the corner piece and place that belong to the slot."""
        return 4 + self

    @property
    def edge(self) -> int:
        """Number of the edge piece and place that belong to the slot."""
        return 4 + self


SLOTS = tuple(Slot)
CROSS_EDGES = (8, 9, 10, 11)
"""Edge pieces of the cross, which is held down."""


def every_other_slot(slot: Slot) -> frozenset[Slot]:
    """All slots but this one: what is kept where nothing else is open."""
    return frozenset(SLOTS) - {slot}


class Position(Struct, frozen=True):
    """Where each of the 8 corners and 12 edges is, as held, named by location (see ``geometry``).

    ``corners[piece]`` is ``3 * place + k``: the piece's first sticker is on the k-th sticker of the place.
    ``edges[piece]`` is ``2 * place + k``. Centres are fixed; turning the whole cube changes the viewpoint.
    """

    corners: tuple[int, ...] = tuple(3 * place for place in range(8))
    edges: tuple[int, ...] = tuple(2 * place for place in range(12))

    def turned(self, turn: Turn) -> Position:
        """The position after one turn."""
        corner_step, edge_step = _CORNER_STEPS[turn], _EDGE_STEPS[turn]
        return Position(
            tuple([corner_step[location] for location in self.corners]),
            tuple([edge_step[location] for location in self.edges]),
        )

    def after(self, turns: Iterable[Turn]) -> Position:
        """The position after several turns."""
        position = self
        for turn in turns:
            position = position.turned(turn)
        return position

    def carried(self, symmetry: Symmetry) -> Position:
        """The position as it looks after the whole cube, colours and all, is rotated or mirrored.

        It holds that ``p.turned(t).carried(s) == p.carried(s).turned(s.turn(t))``.
        """
        corners = _carried(self.corners, symmetry.corner_locations, symmetry.inverse.corner_locations, 3)
        edges = _carried(self.edges, symmetry.edge_locations, symmetry.inverse.edge_locations, 2)
        return Position(corners, edges)

    @property
    def cross_edges_home(self) -> int:
        """How many edges of the cross are in place, the right way round."""
        return sum(self.edges[piece] == 2 * piece for piece in CROSS_EDGES)

    @property
    def cross_home(self) -> bool:
        """Whether the four edges of the cross are in place."""
        return self.cross_edges_home == len(CROSS_EDGES)

    def pair_home(self, slot: Slot) -> bool:
        """Whether the slot's own corner and edge are in it, turned the right way."""
        return self.corners[slot.corner] == 3 * slot.corner and self.edges[slot.edge] == 2 * slot.edge

    @property
    def home_pairs(self) -> frozenset[Slot]:
        """The slots whose pairs are home."""
        return frozenset(slot for slot in SLOTS if self.pair_home(slot))

    @property
    def two_layers_home(self) -> bool:
        """Whether the cross and all four pairs are home."""
        return self.cross_home and len(self.home_pairs) == len(SLOTS)

    def array(self) -> NDArray[np.uint8]:
        """The 20 locations, corners first; shape (20,), uint8."""
        return np.array(self.corners + self.edges, dtype=np.uint8)

    def inverse(self) -> Position:
        """The position that this one's solution makes from the solved cube."""
        corners = _inverse(self.corners, 3)
        return Position(corners, _inverse(self.edges, 2))

    def then(self, other: Position) -> Position:
        """The position reached when ``other`` is applied, as if it were a sequence of turns, to this one."""
        corners = tuple(_follow(other.corners, location, 3) for location in self.corners)
        edges = tuple(_follow(other.edges, location, 2) for location in self.edges)
        return Position(corners, edges)


def _carried(
    where: tuple[int, ...], carry: tuple[int, ...], back: tuple[int, ...], size: int
) -> tuple[int, ...]:
    """Carry the location of each piece's first sticker; the sticker that is first changes with the carry."""
    carried = []
    for piece in range(len(where)):
        home, sticker = divmod(back[size * piece], size)
        carried.append(carry[_shifted(where[home], sticker, size)])
    return tuple(carried)


def _shifted(location: int, sticker: int, size: int) -> int:
    """Location of a piece's sticker, given the location of its first one."""
    return location - location % size + (location + sticker) % size


def _follow(where: tuple[int, ...], location: int, size: int) -> int:
    place, sticker = divmod(location, size)
    return _shifted(where[place], sticker, size)


def _inverse(where: tuple[int, ...], size: int) -> tuple[int, ...]:
    inverse = [0] * len(where)
    for piece, location in enumerate(where):
        place, sticker = divmod(location, size)
        inverse[place] = size * piece + (-sticker) % size
    return tuple(inverse)


SOLVED = Position()
TURN_POSITIONS: tuple[Position, ...] = tuple(SOLVED.turned(turn) for turn in TURNS)
"""What each turn makes of the solved cube."""
