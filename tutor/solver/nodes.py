"""Packed search nodes, and how they move.

A *node* packs the cross number and the pair numbers of the tracked slots into one integer (int64): the cross
in the low 18 bits, then 10 bits for each tracked pair. Nothing is lost, so equal nodes are equal placements.
What is tracked matters only up to a rotation of the cube about its upright axis: five ``Tracked`` cover all.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import FACES, TURNS, Turn
from tutor.cube.position import Position, Slot
from tutor.cube.symmetry import Symmetry
from tutor.solver.coordinates import (
    HOME_CROSS,
    HOME_PAIR,
    PAIR_COUNT,
    PAIR_MOVES,
    VIEWS,
    Int32Array,
    Int64Array,
    cross_number,
    pair_number,
    turns_in_view,
)
from tutor.solver.task import slot_sides

CROSS_BITS = 18
PAIR_BITS = 10

_CROSS_MASK = (1 << CROSS_BITS) - 1
_PAIR_MASK = (1 << PAIR_BITS) - 1
CLASSES: tuple[tuple[Slot, ...], ...] = (
    (Slot.FR,),
    (Slot.FR, Slot.FL),
    (Slot.FR, Slot.BL),
    (Slot.FR, Slot.FL, Slot.BL),
    (Slot.FR, Slot.FL, Slot.BL, Slot.BR),
)
"""The sets of tracked slots, up to rotation."""


class Tracked:
    """The tracked slots of one class, and how nodes of that class move."""

    def __init__(self, slots: tuple[Slot, ...], cross_moves: Int32Array) -> None:
        self.slots = slots
        self.cross_moves = cross_moves
        count = len(slots)
        self._shifts = (CROSS_BITS + PAIR_BITS * np.arange(count, dtype=np.int64))[:, None]
        self._offsets = (np.arange(count, dtype=np.int64) << PAIR_BITS)[:, None]
        self._rows = np.zeros((count << PAIR_BITS, len(TURNS)), dtype=np.int64)
        for digit, slot in enumerate(slots):
            start = digit << PAIR_BITS
            moved = PAIR_MOVES[:, turns_in_view(slot)] << int(self._shifts[digit, 0])
            self._rows[start : start + PAIR_COUNT] = moved
        self.home = self.pack(HOME_CROSS, [HOME_PAIR] * count)

    def pack(self, cross: int, pairs: list[int]) -> int:
        """The node of a cross number and the pair numbers of the tracked slots."""
        node = cross
        for digit, pair in enumerate(pairs):
            node |= pair << (CROSS_BITS + PAIR_BITS * digit)
        return node

    def pairs(self, nodes: Int64Array) -> Int64Array:
        """The pair numbers of nodes; shape (n,) to (tracked slots, n)."""
        numbers = nodes >> self._shifts
        numbers &= _PAIR_MASK
        return numbers

    @staticmethod
    def crosses(nodes: Int64Array) -> Int64Array:
        """The cross numbers of nodes."""
        return nodes & _CROSS_MASK

    def children(self, nodes: Int64Array) -> Int64Array:
        """The nodes after each of the 18 turns; shape (n,) to (n, 18)."""
        rows = self.pairs(nodes)
        rows += self._offsets
        children: Int64Array = np.add.reduce(self._rows.take(rows, axis=0), axis=0)
        children += self.cross_moves.take(nodes & _CROSS_MASK, axis=0)
        return children


@dataclass(frozen=True, slots=True)
class Frame:
    """How a set of slots is brought to its class: the rotation, the class, and turns there and back."""

    index: int
    view: Symmetry
    sources: tuple[Slot, ...]
    back: tuple[Turn, ...]
    """The turn as held, for each turn of the class."""
    there: tuple[Turn, ...]
    """The turn of the class, for each turn as held."""

    def node(self, position: Position, tracked: Tracked, cross_views: Int32Array) -> int:
        """The position's node in this class."""
        turned = VIEWS.index(self.view)
        cross = int(cross_views[turned, cross_number(position)])
        return tracked.pack(cross, [pair_number(position, slot) for slot in self.sources])


@cache
def frame_of(slots: frozenset[Slot]) -> Frame:
    """The class of a set of slots and the way to it. Raises ValueError when the set is empty."""
    for view in VIEWS:
        carried = {_carried(slot, view): slot for slot in slots}
        for index, standard in enumerate(CLASSES):
            if set(standard) == set(carried):
                sources = tuple(carried[slot] for slot in standard)
                there = tuple(view.turn(turn) for turn in TURNS)
                back = tuple(view.inverse.turn(turn) for turn in TURNS)
                return Frame(index, view, sources, back, there)
    raise ValueError("a task tracks at least one slot")


def _carried(slot: Slot, view: Symmetry) -> Slot:
    sides = frozenset(view.faces[face] for face in slot_sides(slot))
    return next(other for other in Slot if slot_sides(other) == sides)


def _next_faces() -> NDArray[np.bool_]:
    """For each last turn which turns may follow it in a reduced sequence; shape (18, 18)."""
    faces = np.repeat(np.arange(len(FACES)), 3)
    return np.asarray(faces[:, None] != faces[None, :])


REDUCED: NDArray[np.bool_] = _next_faces()
"""``REDUCED[last, turn]``: the turn is not of the last turn's face."""
_OPPOSITE_AGAIN = (np.arange(18)[:, None] // 6 == np.arange(18)[None, :] // 6) & (
    np.arange(18)[:, None] // 3 > np.arange(18)[None, :] // 3
)
ORDERED: NDArray[np.bool_] = REDUCED & ~_OPPOSITE_AGAIN
"""As ``REDUCED``, and of two opposite faces only the first in the order of faces is turned first."""
