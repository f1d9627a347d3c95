"""Which tables a search uses: the quick ones, ready within a second, and the large ones when they are there.

Answers are exact with either; the large ones only make them come sooner.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from tutor.cube.position import SLOTS
from tutor.solver import bounds
from tutor.solver.bounds import Progress
from tutor.solver.coordinates import (
    PAIR_COUNT,
    Int32Array,
    Int64Array,
    UInt8Array,
    make_cross_moves,
    make_cross_views,
)
from tutor.solver.goals import Goals, Screen, make_goal_bits, make_goal_entries, make_screen_bits
from tutor.solver.nodes import CLASSES, Tracked
from tutor.solver.store import Notice, Store

QUICK_DEPTH = 5
"""Turns covered by the goal tables that are made on the spot."""
LARGE_DEPTH = 6
"""Turns covered by the large goal tables."""
PAIR_TABLE = "cross-and-pair"
SCREEN_TABLE = f"screen-{LARGE_DEPTH + 1}"


def _goal_name(index: int, depth: int) -> str:
    return f"goal-{index}-{depth}"


def _filter_name(index: int, depth: int) -> str:
    return f"{_goal_name(index, depth)}-filter"


LARGE_TABLES = (
    PAIR_TABLE,
    SCREEN_TABLE,
    *(_goal_name(index, LARGE_DEPTH) for index in range(len(CLASSES))),
    *(_filter_name(index, LARGE_DEPTH) for index in range(len(CLASSES))),
)
"""The names of the large tables."""


class Bound(Protocol):
    """Tells how many turns a node needs at least."""

    def values(self, tracked: Tracked, nodes: Int64Array) -> UInt8Array:
        """A lower bound on each node's distance; shape (n,)."""


class PairBound:
    """The most turns that the cross needs with any one tracked pair."""

    def __init__(self, packed: UInt8Array, views: Int32Array) -> None:
        self._packed = packed
        self._views = views

    def values(self, tracked: Tracked, nodes: Int64Array) -> UInt8Array:
        """A lower bound on each node's distance; shape (n,)."""
        index = tracked.pairs(nodes)
        index += self._views.take(tracked.crosses(nodes), axis=1)
        shift = index & 1
        shift <<= 2
        index >>= 1
        found = self._packed.take(index)
        found >>= shift.astype(np.uint8)
        found &= 15
        lower: UInt8Array = np.maximum.reduce(found, axis=0)
        return lower


class PartBound:
    """The most turns that the cross needs with the corner or the edge of any one tracked pair."""

    def __init__(self, corners: UInt8Array, edges: UInt8Array, views: Int32Array) -> None:
        self._corners = corners
        self._edges = edges
        self._views = views

    def values(self, tracked: Tracked, nodes: Int64Array) -> UInt8Array:
        """A lower bound on each node's distance; shape (n,)."""
        corner, edge = np.divmod(tracked.pairs(nodes), 24)
        crosses = self._views.take(tracked.crosses(nodes), axis=1)
        found = np.maximum(self._corners.take(crosses + corner), self._edges.take(crosses + edge))
        lower: UInt8Array = np.maximum.reduce(found, axis=0)
        return lower


@dataclass(frozen=True, slots=True)
class Engine:
    """All that a search of one class needs."""

    tracked: Tracked
    bound: Bound
    goals: Goals
    screen: Screen | None

    @property
    def reach(self) -> int:
        """The number of turns from home up to which tables do better than the bound."""
        return self.goals.depth if self.screen is None else self.screen.depth

    def possible(self, nodes: Int64Array, remaining: int) -> NDArray[np.intp]:
        """Indices of the nodes that may be just ``remaining`` turns from home.

        None that is gets left out; up to the depth of the goal table there are no others. A node whose
        distance is less than ``remaining`` may be left out.
        """
        if remaining <= self.goals.depth:
            return np.flatnonzero(self.goals.depths(nodes) == remaining)
        if self.screen is not None and remaining == self.screen.depth:
            return self.screen.likely(self.tracked, nodes)
        return np.flatnonzero(self.bound.values(self.tracked, nodes) <= remaining)


class Tables:
    """The tables of one process, loaded or made when first asked for."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.cross_moves: Int32Array = store.get("cross-moves", make_cross_moves)
        self.cross_views: Int32Array = store.get("cross-views", make_cross_views)
        self._engines: dict[int, Engine] = {}
        self._pairs: UInt8Array | None = None
        self._parts: tuple[UInt8Array, UInt8Array] | None = None
        self._wanting = False

    @classmethod
    def open(cls, cache_folder: Path | None = None) -> Tables:
        """Tables kept in the cache folder (by default the user's)."""
        return cls(Store(cache_folder))

    @property
    def notices(self) -> tuple[Notice, ...]:
        """What there is to say about the cache so far."""
        return tuple(self.store.notices)

    def engine(self, index: int) -> Engine:
        """What is needed to search a class; from the best tables that are there now."""
        if index not in self._engines:
            tracked = Tracked(CLASSES[index], self.cross_moves)
            goals, screen = self._goals(index), self._screen(index)
            if screen is not None and screen.depth != goals.depth + 1:
                screen = None
            self._engines[index] = Engine(tracked, self._bound(tracked), goals, screen)
        return self._engines[index]

    def cross_distances(self) -> UInt8Array:
        """Turns needed for the cross alone, for every cross number; shape (190080,)."""
        return self.store.get("cross", lambda: bounds.make_cross_distances(self.cross_moves))

    def large_ready(self) -> bool:
        """Whether the large tables are there, as far as has been seen: they are looked into when needed."""
        return not self._wanting and all(self.store.has(name) for name in LARGE_TABLES)

    def refresh(self) -> None:
        """Take up large tables that have been made since."""
        self._engines.clear()
        self._wanting = False

    def build_large(self, progress: Progress) -> None:
        """Make the large tables that are missing and take them up. Takes some seconds; see ``Progress``."""
        self._pairs = self.store.get(PAIR_TABLE, lambda: self._make_pairs(progress))
        for index in range(len(CLASSES)):
            if self._stored_goals(index, LARGE_DEPTH) is None:
                self._made_goals(index, LARGE_DEPTH)
            progress(0.8 + 0.1 * (index + 1) / len(CLASSES))
        self.store.get(SCREEN_TABLE, self._make_screen)
        progress(1.0)
        self._engines.clear()

    def _make_pairs(self, progress: Progress) -> UInt8Array:
        return bounds.make_pair_distances(self.cross_moves, lambda share: progress(0.8 * share))

    def _bound(self, tracked: Tracked) -> Bound:
        views = self.cross_views[list(tracked.slots)]
        if self._pairs is None:
            self._pairs = self.store.load(PAIR_TABLE)
        if self._pairs is not None:
            return PairBound(self._pairs, views * np.int32(PAIR_COUNT))
        self._wanting = True
        if self._parts is None:
            self._parts = (
                self.store.get("cross-and-corner", lambda: bounds.make_corner_distances(self.cross_moves)),
                self.store.get("cross-and-edge", lambda: bounds.make_edge_distances(self.cross_moves)),
            )
        return PartBound(*self._parts, views * np.int32(24))

    def _goals(self, index: int) -> Goals:
        large = self._stored_goals(index, LARGE_DEPTH)
        if large is not None:
            return large
        self._wanting = True
        return self._stored_goals(index, QUICK_DEPTH) or self._made_goals(index, QUICK_DEPTH)

    def _stored_goals(self, index: int, depth: int) -> Goals | None:
        entries = self.store.load(_goal_name(index, depth))
        bits = self.store.load(_filter_name(index, depth))
        return None if entries is None or bits is None else Goals(entries, bits, depth)

    def _screen(self, index: int) -> Screen | None:
        if CLASSES[index] != SLOTS:
            return None
        bits = self.store.load(SCREEN_TABLE)
        self._wanting |= bits is None
        return None if bits is None else Screen(bits, LARGE_DEPTH + 1, self.cross_views)

    def _make_screen(self) -> UInt8Array:
        entries = self.store.load(_goal_name(CLASSES.index(SLOTS), LARGE_DEPTH))
        tracked = Tracked(SLOTS, self.cross_moves)
        if entries is None:
            entries = make_goal_entries(tracked, LARGE_DEPTH)
        return make_screen_bits(tracked, entries, self.cross_views)

    def _made_goals(self, index: int, depth: int) -> Goals:
        entries = make_goal_entries(Tracked(CLASSES[index], self.cross_moves), depth)
        kept = self.store.save(_goal_name(index, depth), entries)
        return Goals(kept, self.store.save(_filter_name(index, depth), make_goal_bits(entries)), depth)
