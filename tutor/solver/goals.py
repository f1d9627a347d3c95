"""Packed search nodes, and the goal-side tables: everything within a few turns of home, with its distance.

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
    UInt8Array,
    cross_number,
    pair_number,
    turns_in_view,
)
from tutor.solver.task import slot_sides

CROSS_BITS = 18
PAIR_BITS = 10
DEPTH_BITS = 3
FAR = 15
"""What a goal table says of a node it does not hold."""

_CROSS_MASK = (1 << CROSS_BITS) - 1
_PAIR_MASK = (1 << PAIR_BITS) - 1
_SPREAD = np.uint64(0x9E3779B97F4A7C15)  # 2^64 divided by the golden ratio, odd: spreads nodes evenly
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


class Goals:
    """A goal table: nodes within ``depth`` turns of home, sorted, with a bit filter before the look-up.

    The filter only ever says no for nodes that are not there, so answers stay exact.
    """

    def __init__(self, entries: Int64Array, bits: UInt8Array, depth: int) -> None:
        self.depth = depth
        self._entries = entries
        self._bits = bits
        self._shift = np.uint64(64 - _filter_size(len(bits)))

    def depths(self, nodes: Int64Array) -> UInt8Array:
        """Each node's distance, or ``FAR`` for those beyond the table; any shape."""
        flat = nodes.ravel()
        depths = np.full(len(flat), FAR, dtype=np.uint8)
        likely = self.likely(flat)
        if len(likely):
            wanted = flat.take(likely)
            wanted <<= DEPTH_BITS
            places = self._entries.searchsorted(wanted)
            found = self._entries.take(places, mode="clip")
            found ^= wanted
            depths[likely] = np.where((found >> DEPTH_BITS) == 0, found, FAR)
        return depths.reshape(nodes.shape)

    def likely(self, nodes: Int64Array) -> NDArray[np.intp]:
        """Indices of the nodes that the filter lets through; few of them are not in the table."""
        spread = _spread(nodes, self._shift)
        bytes_ = self._bits.take(spread >> 3)
        bytes_ >>= (spread & 7).astype(np.uint8)
        bytes_ &= 1
        return np.flatnonzero(bytes_)


def _spread(nodes: Int64Array, shift: np.uint64) -> Int64Array:
    spread = nodes.view(np.uint64) * _SPREAD
    spread >>= shift
    return spread.view(np.int64)


def _filter_size(count: int) -> int:
    """Bits of a filter of ``count`` bytes, as a power of two."""
    return count.bit_length() + 2


def make_goal_entries(tracked: Tracked, depth: int) -> Int64Array:
    """Nodes within ``depth`` turns of home as ``node << 3 | distance``, sorted; shape (n,), int64."""
    layers = [np.array([tracked.home], dtype=np.int64)]
    before = np.empty(0, dtype=np.int64)
    for _ in range(depth):
        reached = tracked.children(layers[-1]).ravel()
        reached.sort()
        reached = reached[np.concatenate(([True], reached[1:] != reached[:-1]))]
        fresh = _missing_from(reached, layers[-1]) & _missing_from(reached, before)
        before = layers[-1]
        layers.append(reached[fresh])
    entries = np.concatenate([(layer << DEPTH_BITS) | turns for turns, layer in enumerate(layers)])
    entries.sort()
    return entries


def _missing_from(nodes: Int64Array, layer: Int64Array) -> NDArray[np.bool_]:
    if not len(layer):
        return np.ones(len(nodes), dtype=np.bool_)
    return np.asarray(layer.take(layer.searchsorted(nodes), mode="clip") != nodes)


def make_goal_bits(entries: Int64Array) -> UInt8Array:
    """The filter of a goal table: at least 8 bits for each entry; shape (a power of two,), uint8."""
    size = max(12, (8 * len(entries) - 1).bit_length())
    marks = np.zeros(1 << size, dtype=np.bool_)
    marks[_spread(entries >> DEPTH_BITS, np.uint64(64 - size))] = True
    return np.packbits(marks, bitorder="little")


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
