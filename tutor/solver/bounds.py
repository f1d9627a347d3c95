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
    cross_locations,
)

UNREACHED = 255
_VOID = 254
_CHUNK = 1 << 20

Progress = Callable[[float], None]
"""Told the share that is done, from 0 to 1."""


def _silent(share: float) -> None:
    del share


def make_cross_distances(cross_moves: Int32Array) -> UInt8Array:
    """Turns needed for the cross alone; shape (190080,), uint8."""
    return _distances(cross_moves, np.zeros((1, 18), dtype=np.int64), 0, TURNS, None)


def make_corner_distances(cross_moves: Int32Array, turns: Sequence[Turn] = TURNS) -> UInt8Array:
    """Turns needed for the cross and the corner of slot FR; shape (190080 * 24,), uint8."""
    return _distances(cross_moves, CORNER_MOVE.T.astype(np.int64), 3 * Slot.FR.corner, turns, None)


def make_edge_distances(cross_moves: Int32Array, turns: Sequence[Turn] = TURNS) -> UInt8Array:
    """Turns needed for the cross and the edge of slot FR; shape (190080 * 24,), uint8.

    Indices where the edge would share a place with a cross edge hold 255.
    """
    places = np.arange(24) // 2
    return _distances(cross_moves, EDGE_MOVE.T.astype(np.int64), 2 * Slot.FR.edge, turns, places)


def make_pair_distances(
    cross_moves: Int32Array, progress: Progress = _silent, turns: Sequence[Turn] = TURNS
) -> UInt8Array:
    """Turns needed for the cross and the pair of slot FR, two to a byte; shape (190080 * 288,), uint8.

    The even index is in the low four bits; 15 where two edges would share a place.
    """
    places = np.arange(len(PAIR_MOVES)) % 24 // 2
    distances = _distances(cross_moves, PAIR_MOVES, HOME_PAIR, turns, places, progress)
    low, high = distances[0::2] & np.uint8(15), distances[1::2] << np.uint8(4)
    packed: UInt8Array = low | high
    return packed


def _distances(
    cross_moves: Int32Array,
    part_moves: NDArray[np.int64],
    home_part: int,
    turns: Sequence[Turn],
    edge_places: NDArray[np.int64] | None,
    progress: Progress = _silent,
) -> UInt8Array:
    """Breadth-first search from home over every (cross, part), depth by depth.

    ``edge_places`` is where each part has its edge, if it has one. When fewer placements are left than were
    reached last, those left are looked at instead: for most a few neighbours are enough.
    """
    size = len(part_moves)
    distances = _blank(size, edge_places)
    crosses = np.ascontiguousarray(cross_moves.T[list(turns)].astype(np.int32) * np.int32(size))
    parts = np.ascontiguousarray(part_moves.T[list(turns)].astype(np.int32))
    latest = np.array([size * HOME_CROSS + home_part], dtype=np.int32)
    total = left = int(np.count_nonzero(distances == UNREACHED))
    distances[latest] = depth = 0
    left -= 1
    while left:
        depth += 1
        backward = left < len(latest)
        nodes = _at(distances, UNREACHED) if backward else latest
        for start in range(0, len(nodes), _CHUNK):
            step = _look_back if backward else _reach
            step(distances, nodes[start : start + _CHUNK], crosses, parts, depth)
            progress((total - left - (0 if backward else len(nodes) - start)) / total)
        latest = _at(distances, depth)
        left -= len(latest)
    progress(1.0)
    distances[distances == _VOID] = UNREACHED
    return distances


def _blank(size: int, edge_places: NDArray[np.int64] | None) -> UInt8Array:
    """Nothing reached, and void wherever the part's edge would share a place with one of the cross."""
    distances = np.full((CROSS_COUNT, size), UNREACHED, dtype=np.uint8)
    if edge_places is not None:
        taken = np.zeros((CROSS_COUNT, 12), dtype=np.bool_)
        np.put_along_axis(taken, cross_locations() >> 1, True, axis=1)
        distances[taken[:, edge_places]] = _VOID
    return distances.ravel()


def _at(distances: UInt8Array, depth: int) -> NDArray[np.int32]:
    return np.flatnonzero(distances == depth).astype(np.int32)


def _reach(
    distances: UInt8Array, nodes: NDArray[np.int32], crosses: Int32Array, parts: Int32Array, depth: int
) -> None:
    """Mark the neighbours of ``nodes`` that have not been reached before."""
    for turn in range(len(crosses)):
        neighbours = _neighbours(nodes, crosses[turn], parts[turn])
        fresh = neighbours[distances.take(neighbours) == UNREACHED]
        distances[fresh] = depth


def _look_back(
    distances: UInt8Array, nodes: NDArray[np.int32], crosses: Int32Array, parts: Int32Array, depth: int
) -> None:
    """Mark those of the nodes that have a neighbour one turn nearer home."""
    for turn in range(len(crosses)):
        near = distances.take(_neighbours(nodes, crosses[turn], parts[turn])) == depth - 1
        distances[nodes[near]] = depth
        nodes = nodes[~near]


def _neighbours(nodes: NDArray[np.int32], crosses: Int32Array, parts: Int32Array) -> NDArray[np.int32]:
    """The nodes after one turn."""
    cross = nodes // np.int32(len(parts))
    part = nodes - cross * np.int32(len(parts))
    neighbours: NDArray[np.int32] = crosses.take(cross)
    neighbours += parts.take(part)
    return neighbours
