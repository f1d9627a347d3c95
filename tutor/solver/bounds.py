"""Exact distance tables for the cross with one pair, or with a part of a pair, in the view of slot FR.

The distance of a whole task is never less than that of the cross with any one of its pairs, so these tables
tell the search what it need not look at. Their indices are ``size * cross number + part number``. Each is
made for the turns that may be used, by default all 18; whether the turns of a face are among them must not
depend on the slot in whose view one looks.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import Slot
from tutor.solver.coordinates import (
    CROSS_COUNT,
    HOME_CROSS,
    HOME_PAIR,
    PAIR_MOVES,
    Int32Array,
    UInt8Array,
)

UNREACHED = 255
_CHUNK = 1 << 20

Progress = Callable[[float], None]
"""Told the share that is done, from 0 to 1."""


def _silent(share: float) -> None:
    del share


def make_cross_distances(cross_moves: Int32Array) -> UInt8Array:
    """Turns needed for the cross alone; shape (190080,), uint8."""
    return _distances(cross_moves, np.zeros((1, 18), dtype=np.int64), 0, TURNS)


def make_corner_distances(cross_moves: Int32Array, turns: Sequence[Turn] = TURNS) -> UInt8Array:
    """Turns needed for the cross and the corner of slot FR; shape (190080 * 24,), uint8."""
    return _distances(cross_moves, CORNER_MOVE.T.astype(np.int64), 3 * Slot.FR.corner, turns)


def make_edge_distances(cross_moves: Int32Array, turns: Sequence[Turn] = TURNS) -> UInt8Array:
    """Turns needed for the cross and the edge of slot FR; shape (190080 * 24,), uint8.

    Indices where the edge would share a place with a cross edge hold 255.
    """
    return _distances(cross_moves, EDGE_MOVE.T.astype(np.int64), 2 * Slot.FR.edge, turns)


def make_pair_distances(
    cross_moves: Int32Array, progress: Progress = _silent, turns: Sequence[Turn] = TURNS
) -> UInt8Array:
    """Turns needed for the cross and the pair of slot FR, two to a byte; shape (190080 * 288,), uint8.

    The even index is in the low four bits; 15 where two edges would share a place.
    """
    distances = _distances(cross_moves, PAIR_MOVES, HOME_PAIR, turns, progress)
    low, high = distances[0::2] & np.uint8(15), distances[1::2] << np.uint8(4)
    packed: UInt8Array = low | high
    return packed


def unpacked(packed: UInt8Array) -> UInt8Array:
    """The distances of a table that holds two to a byte; 15 means that there is no such placement."""
    return np.stack((packed & 15, packed >> 4), axis=1).ravel()


def _distances(
    cross_moves: Int32Array,
    part_moves: NDArray[np.int64],
    home_part: int,
    turns: Sequence[Turn],
    progress: Progress = _silent,
) -> UInt8Array:
    """Breadth-first search from home over every (cross, part), depth by depth."""
    size = len(part_moves)
    distances = np.full(CROSS_COUNT * size, UNREACHED, dtype=np.uint8)
    home = size * HOME_CROSS + home_part
    distances[home] = 0
    crosses = np.ascontiguousarray(cross_moves.T[list(turns)].astype(np.int32) * np.int32(size))
    parts = np.ascontiguousarray(part_moves.T[list(turns)].astype(np.int32))
    frontier = np.array([home], dtype=np.int32)
    reached, depth = 1, 0
    while len(frontier):
        depth += 1
        for start in range(0, len(frontier), _CHUNK):
            _reach(distances, frontier[start : start + _CHUNK], crosses, parts, depth)
            progress(min(1.0, (reached - len(frontier) + start) / _occupied(size)))
        frontier = np.flatnonzero(distances == depth).astype(np.int32)
        reached += len(frontier)
    progress(1.0)
    return distances


def _occupied(size: int) -> int:
    """How many placements there are, roughly: with an edge among the parts one in three is void."""
    return CROSS_COUNT * size * 2 // 3


def _reach(
    distances: UInt8Array, nodes: NDArray[np.int32], crosses: Int32Array, parts: Int32Array, depth: int
) -> None:
    """Mark the neighbours of ``nodes`` that have not been reached before."""
    size = parts.shape[1]
    cross = nodes // np.int32(size)
    part = nodes - cross * np.int32(size)
    for turn in range(len(crosses)):
        neighbours = crosses[turn].take(cross)
        neighbours += parts[turn].take(part)
        fresh = neighbours[distances.take(neighbours) == UNREACHED]
        distances[fresh] = depth
