"""Goal-side tables: everything within a few turns of home.

``Goals`` holds nodes with their exact distances, and a bit filter that answers most questions with no.
A screen is a filter alone, for a turn or two more: it never says no wrongly, so leaving out what it refuses
keeps answers exact; what it lets through is looked into further. It takes a tenth of the memory.
"""

from __future__ import annotations

from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from tutor.solver.coordinates import PAIR_COUNT, Int32Array, Int64Array, UInt8Array
from tutor.solver.nodes import Tracked

DEPTH_BITS = 3
FAR = 15
"""What a goal table says of a node it does not hold."""

_SPREAD = np.uint64(0x9E3779B97F4A7C15)  # 2^64 divided by the golden ratio, odd: spreads nodes evenly
_SPREAD_AGAIN = np.uint64(0xBF58476D1CE4E5B9)  # any odd number with scattered bits will do
_FOLD = np.uint64(29)
_SCREEN_BITS = 27
_CHUNK = 1 << 18


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
        return _marked(self._bits, _spread(nodes, self._shift))


def _marked(bits: UInt8Array, places: Int64Array) -> NDArray[np.intp]:
    """Indices of the places whose bit is set."""
    found = bits.take(places >> 3)
    found >>= (places & 7).astype(np.uint8)
    found &= 1
    return np.flatnonzero(found)


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


class GoalScreen(Protocol):
    """Lets through every node within ``depth`` turns of home, and few of the others."""

    depth: int

    def likely(self, tracked: Tracked, nodes: Int64Array) -> NDArray[np.intp]:
        """Indices of the nodes that may be within ``depth`` turns of home."""


class NodeScreen:
    """A screen that lets about one in eleven of the others through; ``bits`` as for a goal table."""

    def __init__(self, bits: UInt8Array, depth: int) -> None:
        self.depth = depth
        self._bits = bits
        self._shift = np.uint64(64 - _filter_size(len(bits)))

    def likely(self, tracked: Tracked, nodes: Int64Array) -> NDArray[np.intp]:
        """Indices of the nodes that may be within ``depth`` turns of home."""
        del tracked
        return _marked(self._bits, _spread(nodes, self._shift))


class RotationScreen:
    """A screen that lets about one in seven of the others through.

    It is for nodes that track all four pairs. What it looks at is the same for a node and its three rotations
    about the upright axis, which makes it four times as small.
    """

    def __init__(self, bits: UInt8Array, depth: int, views: Int32Array) -> None:
        self.depth = depth
        self._bits = bits
        self._views = views * np.int32(PAIR_COUNT)

    def likely(self, tracked: Tracked, nodes: Int64Array) -> NDArray[np.intp]:
        """Indices of the nodes that may be within ``depth`` turns of home."""
        index = tracked.pairs(nodes)
        index += self._views.take(tracked.crosses(nodes), axis=1)
        return _marked(self._bits, _rotation_free(index))


def _rotation_free(index: Int64Array) -> Int64Array:
    """A filter place from each node's four (cross, pair) numbers in the pairs' own views; (4, n) to (n,)."""
    mixed = index.view(np.uint64) * _SPREAD
    mixed ^= mixed >> _FOLD
    mixed *= _SPREAD_AGAIN
    total: NDArray[np.uint64] = np.add.reduce(mixed, axis=0)
    total >>= np.uint64(64 - _SCREEN_BITS)
    return total.view(np.int64)


def make_screen_bits(tracked: Tracked, entries: Int64Array, views: Int32Array) -> UInt8Array:
    """The bits of a screen one turn deeper than the goal table whose entries are given."""
    marks = np.zeros(1 << _SCREEN_BITS, dtype=np.bool_)
    scaled = views * np.int32(PAIR_COUNT)
    for start in range(0, len(entries), _CHUNK):
        nodes = entries[start : start + _CHUNK] >> DEPTH_BITS
        turned = views.take(tracked.crosses(nodes), axis=1)
        # Of a node and its rotations the one with the least cross number stands for all.
        standing = nodes[tracked.crosses(nodes) == turned.min(axis=0)]
        reached = tracked.children(standing).ravel()
        index = tracked.pairs(reached)
        index += scaled.take(tracked.crosses(reached), axis=1)
        marks[_rotation_free(index)] = True
    return np.packbits(marks, bitorder="little")
