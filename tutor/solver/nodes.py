"""Packed search nodes, and how they move.

A *node* packs the cross number and the pair numbers of the tracked slots into one integer (int64): the cross
in the low 18 bits, then 10 bits for each tracked pair. Nothing is lost, so equal nodes are equal placements.
What is tracked, and which faces may turn, matters only up to a rotation of the cube about its upright axis:
twelve classes cover all.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import FACES, TURNS, Face, Turn
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
ALL_FACES = frozenset(FACES)


class SearchClass(Struct, frozen=True):
    """The slots that are tracked and the faces that may turn."""

    slots: tuple[Slot, ...]
    faces: frozenset[Face]

    @property
    def by_hand(self) -> bool:
        """Whether only working faces turn."""
        return self.faces != ALL_FACES


_SLOT_SETS: tuple[tuple[Slot, ...], ...] = (
    (Slot.FR,),
    (Slot.FR, Slot.FL),
    (Slot.FR, Slot.BL),
    (Slot.FR, Slot.FL, Slot.BL),
    (Slot.FR, Slot.FL, Slot.BL, Slot.BR),
)
ALL_BUT_DOWN = ALL_FACES - {Face.D}
CLASSES: tuple[SearchClass, ...] = (
    *(SearchClass(slots, ALL_FACES) for slots in _SLOT_SETS),
    *(SearchClass(slots, ALL_BUT_DOWN) for slots in _SLOT_SETS[:4]),
    SearchClass(_SLOT_SETS[3], frozenset({Face.U, Face.R, Face.F, Face.B})),
    SearchClass(_SLOT_SETS[3], frozenset({Face.U, Face.R, Face.L, Face.B})),
    SearchClass(_SLOT_SETS[4], frozenset({Face.U, Face.R, Face.F})),
)
"""What there is to search, up to rotation: at all, then by hand.

By hand the free slots decide. With one beside the target four faces turn, to one side or the other; with none
three; else all but D.
"""


class Tracked:
    """The tracked slots of one class, the turns it has, and how its nodes move.

    Turns go by their number among those of the class, which are in the order of ``TURNS``.
    """

    def __init__(self, searched: SearchClass, cross_moves: Int32Array) -> None:
        self.slots = slots = searched.slots
        self.turns = np.array([turn for turn in TURNS if turn.face in searched.faces])
        self._columns = self.turns if searched.by_hand else slice(None)
        self._cross_moves = cross_moves
        count = len(slots)
        self._shifts = (CROSS_BITS + PAIR_BITS * np.arange(count, dtype=np.int64))[:, None]
        self._offsets = (np.arange(count, dtype=np.int64) << PAIR_BITS)[:, None]
        self._rows = np.zeros((count << PAIR_BITS, len(self.turns)), dtype=np.int64)
        for digit, slot in enumerate(slots):
            start = digit << PAIR_BITS
            moved = PAIR_MOVES[:, turns_in_view(slot)] << int(self._shifts[digit, 0])
            self._rows[start : start + PAIR_COUNT] = moved[:, self.turns]
        self.home = self.pack(HOME_CROSS, [HOME_PAIR] * count)
        every = np.ix_(self.turns, self.turns)
        self.reduced, self.ordered = REDUCED[every], ORDERED[every]
        self.third = _third(self.reduced, self.ordered)

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
        """The nodes after each turn of the class; shape (n,) to (n, turns)."""
        rows = self.pairs(nodes)
        rows += self._offsets
        children: Int64Array = np.add.reduce(self._rows.take(rows, axis=0), axis=0)
        children += self._cross_moves.take(nodes & _CROSS_MASK, axis=0)[:, self._columns]
        return children


class SearchFrame(Struct, frozen=True):
    """How slots and faces are brought to their class: the rotation, the class, and turns there and back."""

    index: int
    view: Symmetry
    sources: tuple[Slot, ...]
    turns: tuple[Turn, ...]
    """The turns as held, in the order of ``TURNS``."""
    there: tuple[int, ...]
    """The number of each of them among the turns of the class."""
    back: tuple[Turn, ...]
    """The turn as held, for each turn of the class."""

    def node(self, position: Position, tracked: Tracked, cross_views: Int32Array) -> int:
        """The position's node in this class."""
        turned = VIEWS.index(self.view)
        cross = int(cross_views[turned, cross_number(position)])
        return tracked.pack(cross, [pair_number(position, slot) for slot in self.sources])


@cache
def frame_of(slots: frozenset[Slot], faces: frozenset[Face] = ALL_FACES) -> SearchFrame:
    """The class of what is tracked and of the faces that may turn, and the way to it.

    Raises ValueError when no slots are tracked or no task works with such faces.
    """
    if not slots:
        raise ValueError("a task tracks at least one slot")
    for view in VIEWS:
        carried = {_carried(slot, view): slot for slot in slots}
        turned = frozenset(view.faces[face] for face in faces)
        for index, searched in enumerate(CLASSES):
            if set(searched.slots) == set(carried) and searched.faces == turned:
                sources = tuple(carried[slot] for slot in searched.slots)
                return SearchFrame(index, view, sources, *_ways(view, searched))
    names = ", ".join(face.name for face in sorted(faces))
    raise ValueError(f"no task with these slots works with the faces {names}")


def _ways(
    view: Symmetry, searched: SearchClass
) -> tuple[tuple[Turn, ...], tuple[int, ...], tuple[Turn, ...]]:
    """The turns as held, their numbers in the class, and the turns as held in the order of the class."""
    back = tuple(view.inverse.turn(turn) for turn in TURNS if turn.face in searched.faces)
    turns = tuple(sorted(back))
    return turns, tuple(back.index(turn) for turn in turns), back


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


def _third(reduced: NDArray[np.bool_], ordered: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """What may follow the first and second turn; shape (n * n, n).

    Of two commuting turns one order is enough, unless the swapped order would put two turns of the first
    turn's face in a row.
    """
    count = len(reduced)
    again = reduced[None, :, :] & ~reduced[:, None, :]
    return (ordered[None, :, :] | again).reshape(count * count, count)
