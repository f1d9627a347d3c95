"""Which tables a search uses: the quick ones, ready within a second, and the large ones when they are there.

Answers are exact with either; the large ones only make them come sooner.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cached_property, partial
from pathlib import Path
from typing import Protocol

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Turn
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
from tutor.solver.goals import (
    Goals,
    GoalScreen,
    NodeScreen,
    RotationScreen,
    make_goal_bits,
    make_goal_entries,
    make_screen_bits,
)
from tutor.solver.nodes import ALL_BUT_DOWN, ALL_FACES, CLASSES, SearchClass, Tracked
from tutor.solver.store import Store, StoreNotice

GOAL_DEPTHS = {6: 5, 5: 5, 4: 6, 3: 7}
"""Turns covered by the goal tables, by the number of faces that may turn."""
ROTATION_DEPTH = 7
"""Turns covered by the screen for nodes that track all four pairs."""
_BY_HAND = "-by-hand"
BOUND_TURNS: dict[str, tuple[Turn, ...]] = {
    "": TURNS,
    _BY_HAND: tuple(turn for turn in TURNS if turn.face in ALL_BUT_DOWN),
}
"""The turns for which there are bounds, by what is added to the names of their tables."""
PAIR_TABLE = f"cross-and-pair{_BY_HAND}"
"""Of whole pairs only the table by hand is kept: the one at all would take as much again for little."""
SCREEN_TABLE = f"screen-{ROTATION_DEPTH}"
_PAIRS_SHARE, _SCREENS_SHARE = 0.45, 0.3
"""About how much of the time of all large tables these take."""


SCREENED = tuple(index for index, searched in enumerate(CLASSES) if not searched.by_hand)
"""The classes with screens."""


def _goal_depth(index: int) -> int:
    return GOAL_DEPTHS[len(CLASSES[index].faces)]


def _goal_name(index: int) -> str:
    return f"goal-{index}-{_goal_depth(index)}"


def _filter_name(index: int) -> str:
    return f"{_goal_name(index)}-filter"


def _part_name(part: str, kind: str) -> str:
    return f"cross-and-{part}{kind}"


def _screen_name(index: int) -> str:
    return f"screen-{index}-{_goal_depth(index) + 1}"


def _bound_kind(searched: SearchClass) -> str:
    """Which bounds serve a class. Three faces have so few sequences that the bounds at all are enough."""
    return _BY_HAND if len(searched.faces) in (4, 5) else ""


LARGE_TABLES = (
    SCREEN_TABLE,
    PAIR_TABLE,
    *(_screen_name(index) for index in SCREENED),
)
"""The names of the large tables."""
TABLES = frozenset(
    (
        *("cross", "cross-moves", "cross-views"),
        *(_part_name(part, kind) for part in ("corner", "edge") for kind in BOUND_TURNS),
        *(name(index) for index in range(len(CLASSES)) for name in (_goal_name, _filter_name)),
        *LARGE_TABLES,
    )
)
"""The names of all tables that are ever asked for."""


def _scaled(progress: Progress, part: float, share: float) -> None:
    """Tell the share of the first part as a share of the whole."""
    progress(part * share)


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


class Engine(Struct, frozen=True, eq=False, dict=True):
    """All that a search of one class needs."""

    tracked: Tracked
    goals: Goals
    make_screens: Callable[[], Iterable[GoalScreen]]
    make_bound: Callable[[], Bound]

    @cached_property
    def screens(self) -> dict[int, GoalScreen]:
        """By depth; one deeper each than the goal table and the screens before it, and got when needed."""
        return {screen.depth: screen for screen in self.make_screens()}

    @cached_property
    def bound(self) -> Bound:
        """The bound, whose tables are by far the largest: got when a node is beyond all others."""
        return self.make_bound()

    def reaches(self, turns: int) -> bool:
        """Whether tables do better than the bound so many turns from home."""
        # Near home the answer is there without the screens, which have to be read first.
        return turns <= self.goals.depth or turns <= self.goals.depth + len(self.screens)

    def possible(self, nodes: Int64Array, remaining: int) -> NDArray[np.intp]:
        """Indices of the nodes that may be just ``remaining`` turns from home.

        None that is gets left out; up to the depth of the goal table there are no others. A node whose
        distance is less than ``remaining`` may be left out.
        """
        if remaining <= self.goals.depth:
            return np.flatnonzero(self.goals.depths(nodes) == remaining)
        if remaining in self.screens:
            return self.screens[remaining].likely(self.tracked, nodes)
        return np.flatnonzero(self.bound.values(self.tracked, nodes) <= remaining)


class Tables:
    """The tables of one process, loaded or made when first asked for."""

    def __init__(self, store: Store) -> None:
        self.store = store
        self.cross_moves: Int32Array = store.get("cross-moves", make_cross_moves)
        self.cross_views: Int32Array = store.get("cross-views", make_cross_views)
        self._engines: dict[int, Engine] = {}
        self._pairs: UInt8Array | None = None
        self._parts: dict[str, tuple[UInt8Array, UInt8Array]] = {}
        self._wanting = False

    @classmethod
    def open(cls, cache_folder: Path | None = None) -> Tables:
        """Tables kept in the cache folder (by default the user's)."""
        return cls(Store(cache_folder))

    @property
    def notices(self) -> tuple[StoreNotice, ...]:
        """What there is to say about the cache so far."""
        return tuple(self.store.notices)

    def engine(self, index: int) -> Engine:
        """What is needed to search a class; from the best tables that are there now."""
        if index not in self._engines:
            tracked = Tracked(CLASSES[index], self.cross_moves)
            screens = partial(self._screens, index)
            bound = partial(self._bound, tracked, _bound_kind(CLASSES[index]))
            self._engines[index] = Engine(tracked, self._goals(index), screens, bound)
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
        told = partial(_scaled, progress, _PAIRS_SHARE)
        self._pairs = self.store.get(PAIR_TABLE, partial(self._make_pairs, told))
        # They take a moment, for which nobody should wait later.
        self._part_tables("")
        for made, index in enumerate(SCREENED, start=1):
            self.store.get(_screen_name(index), partial(self._make_node_screen, index))
            progress(_PAIRS_SHARE + _SCREENS_SHARE * made / len(SCREENED))
        self.store.get(SCREEN_TABLE, self._make_rotation_screen)
        progress(1.0)
        self._engines.clear()

    def _make_pairs(self, progress: Progress) -> UInt8Array:
        return bounds.make_pair_distances(self.cross_moves, progress, BOUND_TURNS[_BY_HAND])

    def _bound(self, tracked: Tracked, kind: str) -> Bound:
        views = self.cross_views[list(tracked.slots)]
        if kind == _BY_HAND and (pairs := self._loaded_pairs()) is not None:
            return PairBound(pairs, views * np.int32(PAIR_COUNT))
        return PartBound(*self._part_tables(kind), views * np.int32(24))

    def _loaded_pairs(self) -> UInt8Array | None:
        """The table of the cross with a whole pair by hand, where it is there."""
        if self._pairs is None:
            self._pairs = self.store.load(PAIR_TABLE)
            self._wanting |= self._pairs is None
        return self._pairs

    def _part_tables(self, kind: str) -> tuple[UInt8Array, UInt8Array]:
        """The tables of the cross with a corner and with an edge."""
        if kind not in self._parts:
            moves, turns = self.cross_moves, BOUND_TURNS[kind]
            self._parts[kind] = (
                self.store.get(
                    _part_name("corner", kind), lambda: bounds.make_corner_distances(moves, turns)
                ),
                self.store.get(_part_name("edge", kind), lambda: bounds.make_edge_distances(moves, turns)),
            )
        return self._parts[kind]

    def _goals(self, index: int) -> Goals:
        depth = _goal_depth(index)
        entries = self.store.get(_goal_name(index), lambda: self._make_entries(index, depth))
        bits = self.store.get(_filter_name(index), lambda: make_goal_bits(entries))
        return Goals(entries, bits, depth)

    def _screens(self, index: int) -> Iterator[GoalScreen]:
        """The screens of a class that are there, from the least depth up to the first that is missing."""
        if index not in SCREENED:
            return
        bits = self.store.load(_screen_name(index))
        self._wanting |= bits is None
        if bits is None:
            return
        yield NodeScreen(bits, _goal_depth(index) + 1)
        if CLASSES[index].slots == SLOTS:
            bits = self.store.load(SCREEN_TABLE)
            self._wanting |= bits is None
            if bits is not None:
                yield RotationScreen(bits, ROTATION_DEPTH, self.cross_views)

    def _make_entries(self, index: int, depth: int) -> Int64Array:
        return make_goal_entries(Tracked(CLASSES[index], self.cross_moves), depth)

    def _make_node_screen(self, index: int) -> UInt8Array:
        return make_goal_bits(self._make_entries(index, _goal_depth(index) + 1))

    def _make_rotation_screen(self) -> UInt8Array:
        index = CLASSES.index(SearchClass(SLOTS, ALL_FACES))
        entries = self._make_entries(index, ROTATION_DEPTH - 1)
        return make_screen_bits(Tracked(CLASSES[index], self.cross_moves), entries, self.cross_views)
