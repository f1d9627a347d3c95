"""All turn sequences of at most four turns, and what each does to the pieces of cross and slots.

A step of a route takes at most four turns, so every step is one of these *words*: no two turns in a row on
one face, 1 + 18 + 18 * 15 + 18 * 15^2 + 18 * 15^3 = 65089 of them. Everything here is for the slot FR; the
other slots are the same by turning the whole cube.

The *code* of a position packs the twelve locations that matter into 60 bits, five each: the four cross
edges, the pair of FR, and the pairs of FL, BL and BR. Leaving a pair out is masking its ten bits.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Face
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import CROSS_EDGES, SLOTS, Position, Slot
from tutor.cube.symmetry import Symmetry, quarter_about
from tutor.method.steps import TURNS_PER_STEP

Codes = NDArray[np.int64]
Locations = NDArray[np.uint8]

NO_TURN = 18
"""Stands for a turn where there is none."""

BITS = 5
CROSS_BITS = (1 << 20) - 1
"""Mask of the cross edges in a code."""
CORNER_SHIFT = 20
"""Where the location of FR's corner begins in a code."""
EDGE_SHIFT = 25
"""Where the location of FR's edge begins in a code."""
PAIR_BITS = ((1 << 10) - 1) << CORNER_SHIFT
"""Mask of FR's pair in a code."""

# (whether a corner, piece, shift) in the order of the code.
_PACKED: tuple[tuple[bool, int, int], ...] = (
    *((False, piece, BITS * n) for n, piece in enumerate(CROSS_EDGES)),
    *((True, slot.corner, CORNER_SHIFT + 10 * slot) for slot in SLOTS),
    *((False, slot.edge, EDGE_SHIFT + 10 * slot) for slot in SLOTS),
)


def kept_bits(keep: int) -> int:
    """Mask of the pairs in ``keep``, whose bits 1, 2 and 3 stand for FL, BL and BR."""
    return sum(PAIR_BITS << (10 * slot) for slot in SLOTS if slot and keep >> slot & 1)


def settled_bits(keep: int) -> int:
    """Mask of all that must be home for a position to be settled."""
    return CROSS_BITS | kept_bits(keep)


@dataclass(frozen=True, slots=True)
class Words:
    """All words, shortest first; the first is empty. ``W`` is their number.

    ``turns`` (W, 4) uint8, filled up with ``NO_TURN``; ``length``, ``first``, ``last`` (W,);
    ``corners`` and ``edges`` (24, W) uint8: where a word carries each location;
    ``inverse_codes`` (W,) int64: the code of the position that the word brings home.
    """

    turns: NDArray[np.uint8]
    length: NDArray[np.int16]
    first: NDArray[np.uint8]
    last: NDArray[np.uint8]
    corners: Locations
    edges: Locations
    inverse_codes: Codes


@dataclass(frozen=True, slots=True)
class _Level:
    """The words of one length; ``*_from`` are the inverse actions."""

    turns: NDArray[np.uint8]
    corners: Locations
    edges: Locations
    corners_from: Locations
    edges_from: Locations

    def longer(self, length: int) -> _Level:
        """The words with one turn more; ``length`` is that of this level's words."""
        last = self.turns[:, length - 1] if length else np.full(len(self.turns), NO_TURN)
        parts = []
        for turn in TURNS:
            keep = np.flatnonzero(last // 3 != turn.face)
            turns = self.turns[keep]
            turns[:, length] = turn
            back = turn.inverse
            parts.append(
                _Level(
                    turns,
                    CORNER_MOVE[turn][self.corners[:, keep]],
                    EDGE_MOVE[turn][self.edges[:, keep]],
                    self.corners_from[np.ix_(CORNER_MOVE[back], keep)],
                    self.edges_from[np.ix_(EDGE_MOVE[back], keep)],
                )
            )
        return _joined(parts)


def _joined(levels: list[_Level]) -> _Level:
    return _Level(
        np.concatenate([level.turns for level in levels]),
        np.concatenate([level.corners for level in levels], axis=1),
        np.concatenate([level.edges for level in levels], axis=1),
        np.concatenate([level.corners_from for level in levels], axis=1),
        np.concatenate([level.edges_from for level in levels], axis=1),
    )


@cache
def words() -> Words:
    """The table of all words, made once in a process (about a tenth of a second)."""
    still = np.arange(24, dtype=np.uint8)[:, None]
    level = _Level(np.full((1, TURNS_PER_STEP), NO_TURN, dtype=np.uint8), still, still, still, still)
    levels = [level]
    for turns_so_far in range(TURNS_PER_STEP):
        level = level.longer(turns_so_far)
        levels.append(level)
    every = _joined(levels)
    length = np.repeat(np.arange(len(levels), dtype=np.int16), [len(level.turns) for level in levels])
    last = every.turns[np.arange(len(length)), np.maximum(length - 1, 0)]
    codes = np.zeros(len(length), dtype=np.int64)
    for is_corner, piece, shift in _PACKED:
        source = every.corners_from[3 * piece] if is_corner else every.edges_from[2 * piece]
        codes |= source.astype(np.int64) << shift
    table = Words(every.turns, length, every.turns[:, 0].copy(), last, every.corners, every.edges, codes)
    for array in (table.turns, table.length, table.first, table.last, table.corners, table.edges, codes):
        array.setflags(write=False)
    return table


def carried_codes(code: int, keep: int, chosen: NDArray[np.intp]) -> Codes:
    """The codes, masked to cross, pair and ``keep``, after each of the ``chosen`` words; shape (n,)."""
    table = words()
    after = np.zeros(len(chosen), dtype=np.int64)
    for is_corner, piece, shift in _PACKED:
        slot = piece - 4
        if slot in range(1, 4) and not keep >> slot & 1:
            continue
        where = (table.corners if is_corner else table.edges)[code >> shift & 31]
        after |= where[chosen].astype(np.int64) << shift
    return after


def carried_crosses(code: int, chosen: NDArray[np.intp]) -> NDArray[np.int32]:
    """The cross part of the codes after each of the ``chosen`` words; shape (n,)."""
    edges = words().edges
    after: NDArray[np.int32] = edges[code & 31][chosen].astype(np.int32)
    for n in range(1, 4):
        after |= edges[code >> BITS * n & 31][chosen].astype(np.int32) << (BITS * n)
    return after


# ------------------------------------------------------------------------------------ from any slot to FR


@dataclass(frozen=True, slots=True)
class SlotView:
    """How a cube is seen once it is turned about the vertical so that ``slot`` comes to FR."""

    slot: Slot
    symmetry: Symmetry
    back: tuple[int, ...]
    """The turn, as held, for each of the 18 turns as seen."""
    _locations: tuple[tuple[bool, int, tuple[int, ...]], ...]

    def code(self, position: Position) -> int:
        """The code of ``position`` as seen."""
        code = 0
        for is_corner, piece, bits in self._locations:
            code |= bits[position.corners[piece] if is_corner else position.edges[piece]]
        return code

    def keep(self, keep: frozenset[Slot]) -> int:
        """A set of slots as seen: bits 1, 2 and 3 for FL, BL and BR."""
        return sum(1 << (kept - self.slot) % 4 for kept in keep)


def _carry_table(symmetry: Symmetry, is_corner: bool, piece: int, shift: int) -> tuple[int, tuple[int, ...]]:
    """Which piece comes to be ``piece`` and its code bits by its location as held.

    The sticker by which a piece is located may change with the turn of the whole cube.
    """
    size = 3 if is_corner else 2
    carry = symmetry.corner_locations if is_corner else symmetry.edge_locations
    back = symmetry.inverse.corner_locations if is_corner else symmetry.inverse.edge_locations
    source, sticker = divmod(back[size * piece], size)
    located = [location - location % size + (location + sticker) % size for location in range(24)]
    return source, tuple(carry[location] << shift for location in located)


@cache
def slot_view(slot: Slot) -> SlotView:
    """The view that brings ``slot`` to FR."""
    symmetry = quarter_about(Face.U, -slot)
    back = tuple(int(symmetry.inverse.turn(turn)) for turn in TURNS)
    rows = []
    for is_corner, piece, shift in _PACKED:
        source, bits = _carry_table(symmetry, is_corner, piece, shift)
        rows.append((is_corner, source, bits))
    return SlotView(slot, symmetry, back, tuple(rows))


HOME_CODE: int = slot_view(Slot.FR).code(Position())
"""The code of the solved cube."""
