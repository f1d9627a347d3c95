"""Exact distances of a position and of its 18 neighbours, and all shortest lines.

The search deepens from the position until it meets the goal-side table, whole frontiers at a time. Let D be
the distance. The first turns of all reduced sequences of length D that reach home are the optimal ones; those
of length D + 1 are the turns that cost one. A turn that is neither costs two, unless a further turn of its
face makes it an optimal one: then it costs one as well.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.position import Position
from tutor.solver.coordinates import Int64Array
from tutor.solver.goals import FAR
from tutor.solver.lines import CHUNK, Interrupt, shortest_lines
from tutor.solver.nodes import ALL_FACES, SearchFrame, frame_of
from tutor.solver.store import StoreNotice
from tutor.solver.tables import Engine, Tables
from tutor.solver.task import Task

TurnMask = NDArray[np.bool_]


def _go_on() -> None:
    """The interrupt that never is one."""


class TurnDistances(Struct, frozen=True):
    """The distance of a position, and after each of the 18 turns (in the order of ``TURNS``)."""

    distance: int
    after: tuple[int, ...]

    def cost(self, turn: Turn) -> int:
        """How many turns longer the way becomes by this turn: 0, 1 or 2."""
        return self.after[turn] + 1 - self.distance

    @property
    def optimal(self) -> frozenset[Turn]:
        """The turns that begin a shortest line."""
        return frozenset(turn for turn in TURNS if self.after[turn] < self.distance)


class HandDistances(Struct, frozen=True):
    """The fewest turns of working faces alone, of a position and after each of the 18 turns.

    In the order of ``TURNS``; None where turns of working faces alone do not lead home. ``direct`` holds, of
    the turns of working faces that cost none or one, those after which home can be reached by hand in
    ``after`` turns without turning the same face again at once.
    """

    distance: int | None
    after: tuple[int | None, ...]
    direct: frozenset[Turn]

    @property
    def optimal(self) -> frozenset[Turn]:
        """The turns that begin a shortest line by hand."""
        return frozenset(turn for turn in self.direct if self.after[turn] != self.distance)


class Solver:
    """Answers for any legal position and task; exact, whichever tables are there.

    ``interrupt`` is called now and then during a long search; what it raises ends the search.
    """

    def __init__(self, tables: Tables, interrupt: Interrupt = _go_on) -> None:
        self.tables = tables
        self._interrupt = interrupt
        self._latest: dict[int, _Search] = {}

    @classmethod
    def open(cls, cache_folder: Path | None = None) -> Solver:
        """A solver with tables kept in the cache folder (by default the user's)."""
        return cls(Tables.open(cache_folder))

    @property
    def notices(self) -> tuple[StoreNotice, ...]:
        """What there is to say about the cache so far."""
        return self.tables.notices

    def distances(self, position: Position, task: Task) -> TurnDistances:
        """The exact distance of the position and of its 18 neighbours."""
        frame, search = self._search(position, task)
        distance, after = search.around()
        return TurnDistances(distance, tuple(after[list(frame.there)].tolist()))

    def distance(self, position: Position, task: Task) -> int:
        """The fewest turns to home."""
        return self._search(position, task)[1].distance()

    def lines(self, position: Position, task: Task, limit: int = 12) -> tuple[tuple[Turn, ...], ...]:
        """The shortest lines, at most ``limit`` of them: the first in the order of ``TURNS``, turn by turn.

        Two lines that differ only in the order of turns of opposite faces are two lines. At distance 0 there
        is one line, the empty one.
        """
        frame, search = self._search(position, task)
        return search.lines(frame, limit)

    def hand_distances(self, position: Position, task: Task) -> HandDistances:
        """The exact distance by hand of the position and of its 18 neighbours."""
        working = task.working_faces
        found: dict[Turn, int | None] = {
            turn: None if turn.face in working else self.hand_distance(position.turned(turn), task)
            for turn in TURNS
        }
        if not task.can_by_hand(position):
            return HandDistances(None, tuple(found.values()), frozenset())
        frame, search = self._search(position, task, working)
        distance, after = search.around()
        found |= zip(frame.turns, after[list(frame.there)].tolist(), strict=True)
        direct = frozenset(frame.back[turn] for turn in np.flatnonzero(search.direct()))
        return HandDistances(distance, tuple(found.values()), direct)

    def hand_distance(self, position: Position, task: Task) -> int | None:
        """The fewest turns of working faces alone to home, or None where they do not lead there."""
        if not task.can_by_hand(position):
            return None
        return self._search(position, task, task.working_faces)[1].distance()

    def hand_lines(self, position: Position, task: Task, limit: int = 12) -> tuple[tuple[Turn, ...], ...]:
        """The shortest lines by hand, in order as ``lines``; none where there is no way by hand."""
        if not task.can_by_hand(position):
            return ()
        frame, search = self._search(position, task, task.working_faces)
        return search.lines(frame, limit)

    def _search(
        self, position: Position, task: Task, faces: frozenset[Face] = ALL_FACES
    ) -> tuple[SearchFrame, _Search]:
        """The search by those faces; the latest of each class is kept, so that lines cost no second one."""
        frame = frame_of(task.keep | {task.slot}, faces)
        engine = self.tables.engine(frame.index)
        node = frame.node(position, engine.tracked, self.tables.cross_views)
        search = self._latest.get(frame.index)
        if search is None or not search.is_for(engine, node):
            search = self._latest[frame.index] = _Search(engine, node, self._interrupt)
        return frame, search


class _Frontier(Struct, frozen=True, eq=False):
    """Nodes with the first and the last turn of the sequences that led to them."""

    nodes: Int64Array
    first: NDArray[np.intp]
    last: NDArray[np.intp]

    def taken(self, chosen: NDArray[np.intp]) -> _Frontier:
        return _Frontier(self.nodes.take(chosen), self.first.take(chosen), self.last.take(chosen))

    def spread(self, engine: Engine, allowed: TurnMask) -> _Frontier:
        """All children by allowed turns; ``allowed`` has the shape (n, turns)."""
        chosen = np.flatnonzero(allowed)
        parent, turn = np.divmod(chosen, allowed.shape[1])
        nodes = engine.tracked.children(self.nodes).take(chosen)
        return _Frontier(nodes, self.first.take(parent), turn)


class _Search:
    """The search from one node; the first two levels are made once and serve every length."""

    def __init__(self, engine: Engine, root: int, interrupt: Interrupt) -> None:
        self._engine = engine
        self._root = root
        self._interrupt = interrupt
        self._depth = engine.goals.depth
        self._count = len(engine.tracked.turns)
        roots = np.array([root], dtype=np.int64)
        self._children = engine.tracked.children(roots)[0]
        near = engine.goals.depths(np.concatenate((roots, self._children)))
        self._root_depth, self._near = int(near[0]), near[1:]
        self._lower = 0 if self._root_depth < FAR else int(engine.bound.values(engine.tracked, roots)[0])
        self._distance: int | None = None
        self._found: tuple[int, TurnMask] | None = None
        self._direct: TurnMask | None = None
        self._second: _Frontier | None = None
        self._second_lower: NDArray[np.uint8] | None = None

    def is_for(self, engine: Engine, root: int) -> bool:
        """Whether this is the search from that node with those tables."""
        return self._engine is engine and self._root == root

    def distance(self) -> int:
        """The distance of the root; by itself it takes one way home, not all first turns of such ways."""
        if self._distance is None:
            self._distance = self._find(one=True)[0]
        return self._distance

    def lines(self, frame: SearchFrame, limit: int) -> tuple[tuple[Turn, ...], ...]:
        """The shortest lines as held, at most ``limit``."""
        return shortest_lines(self._engine, frame, self._root, self.distance(), limit, self._interrupt)

    def around(self) -> tuple[int, NDArray[np.intp]]:
        """Distance, and distance after each turn of the class (turns,)."""
        distance, optimal = self._best()
        after = np.full(self._count, distance + 1)
        if self._root_depth < FAR:
            known = self._near < FAR
            after[known] = self._near[known]
        else:
            after[self.direct() | optimal.reshape(-1, 3).any(axis=1).repeat(3)] = distance
            after[optimal] = distance - 1
        return distance, after

    def direct(self) -> TurnMask:
        """The turns that cost none or one after which home is reached without the same face again at once."""
        if self._direct is None:
            distance, optimal = self._best()
            if distance == 0:
                self._direct = self._near == 0
            else:
                among = self._near == distance if self._root_depth < FAR else ~optimal
                self._direct = self.first_turns(distance + 1, among) | optimal
        return self._direct

    def _best(self) -> tuple[int, TurnMask]:
        """The distance and the turns that begin a shortest line; found once."""
        if self._found is None:
            self._found = self._find(one=False)
            self._distance = self._found[0]
        return self._found

    def _find(self, *, one: bool) -> tuple[int, TurnMask]:
        """The distance, and the turns that begin a shortest line, or at least one of them if any do."""
        if self._root_depth < FAR:
            return self._root_depth, self._near < self._root_depth
        if (self._near < FAR).any():
            return self._depth + 1, self._near < FAR
        self._lower = max(self._lower, self._depth + 2)
        every = np.ones(self._count, dtype=np.bool_)
        while not (found := self.first_turns(self._lower, every, one=one)).any():
            self._lower += 1
        return self._lower, found

    def first_turns(self, length: int, among: TurnMask, *, one: bool = False) -> TurnMask:
        """Those of the turns that begin a reduced sequence of just this length, at least two, to home.

        With ``one``, at least one of them if there are any.

        No shorter sequence from the root's children among those may be left for which length - 1 is not the
        distance: it is asked with the distance of the root, and with one more for turns that are not optimal.
        """
        frontier = self._second_level()
        chosen = among.take(frontier.first)
        within_tables = self._engine.reaches(length - 2)
        if not within_tables:
            chosen &= self._second_bound() <= length - 2
        start = frontier.taken(np.flatnonzero(chosen))
        if within_tables:
            start = start.taken(self._engine.possible(start.nodes, length - 2))
        found = np.zeros(self._count, dtype=np.bool_)
        allowed = self._engine.tracked.third.take(start.first * self._count + start.last, axis=0)
        self._deepen(start, length - 2, allowed, found, 1 if one else self._count)
        return found

    def _deepen(
        self, frontier: _Frontier, remaining: int, allowed: TurnMask | None, found: TurnMask, enough: int
    ) -> None:
        """Mark in ``found`` the first turns of those nodes from which home is ``remaining`` turns away.

        Depth first, a chunk at a time, so that memory stays small; what begins with a turn already found is
        left out, and it ends when ``enough`` are found. ``allowed`` are the turns that may follow, where they
        are not the ordered ones.
        """
        if remaining <= self._depth:
            found[frontier.first] = True
            return
        for start in range(0, len(frontier.nodes), CHUNK):
            if np.count_nonzero(found) >= enough:
                return
            self._interrupt()
            part = np.arange(start, min(start + CHUNK, len(frontier.nodes)))
            part = part[~found.take(frontier.first[part])]
            ordered = self._engine.tracked.ordered
            following = ordered.take(frontier.last[part], axis=0) if allowed is None else allowed[part]
            children = frontier.taken(part).spread(self._engine, following)
            kept = self._engine.possible(children.nodes, remaining - 1)
            self._deepen(children.taken(kept), remaining - 1, None, found, enough)

    def _second_level(self) -> _Frontier:
        if self._second is None:
            turns = np.arange(self._count)
            self._second = _Frontier(self._children, turns, turns).spread(
                self._engine, self._engine.tracked.reduced
            )
        return self._second

    def _second_bound(self) -> NDArray[np.uint8]:
        if self._second_lower is None:
            nodes = self._second_level().nodes
            self._second_lower = self._engine.bound.values(self._engine.tracked, nodes)
        return self._second_lower
