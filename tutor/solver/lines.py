"""All shortest lines from a node to home, in order."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import islice

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import Turn
from tutor.solver.coordinates import Int64Array
from tutor.solver.nodes import SearchFrame
from tutor.solver.tables import Engine

CHUNK = 2048
"""So many nodes are taken further at a time: their children fit a processor's cache."""

Interrupt = Callable[[], None]
"""Called now and then during a long search; what it raises ends the search."""


def shortest_lines(
    engine: Engine, frame: SearchFrame, root: int, distance: int, limit: int, interrupt: Interrupt
) -> tuple[tuple[Turn, ...], ...]:
    """The first ``limit`` sequences of ``distance`` turns from the root to home, turn by turn as held.

    ``distance`` must be the distance of the root.
    """
    start = np.array([root], dtype=np.int64), np.zeros((1, 0), dtype=np.intp)
    lines = _Lines(engine, np.array(frame.there), limit, interrupt).onward(*start, distance)
    return tuple(tuple(frame.turns[turn] for turn in line) for line in islice(lines, limit))


class _Lines(Struct, frozen=True, eq=False):
    engine: Engine
    order: NDArray[np.intp]
    """The turn of the class for each turn as held, so that children come in the order of turns as held."""
    limit: int
    interrupt: Interrupt

    def onward(self, nodes: Int64Array, lines: NDArray[np.intp], remaining: int) -> Iterator[list[int]]:
        """The completed lines, in order; the nodes were reached by ``lines``, shape (n, turns made)."""
        if remaining == 0:
            yield from lines.tolist()
            return
        for start in range(0, len(nodes), CHUNK):
            self.interrupt()
            part = slice(start, start + CHUNK)
            yield from self.onward(*self._next(nodes[part], lines[part], remaining - 1), remaining - 1)

    def _next(
        self, nodes: Int64Array, lines: NDArray[np.intp], remaining: int
    ) -> tuple[Int64Array, NDArray[np.intp]]:
        children = self.engine.tracked.children(nodes).take(self.order, axis=1)
        last = lines[:, -1] if lines.shape[1] else None
        # Whatever rotation brought the turns to the class, three in a row are those of one face.
        count = len(self.order)
        reduced = self.engine.tracked.reduced
        allowed = np.arange(count) if last is None else np.flatnonzero(reduced.take(last, axis=0))
        children = children.take(allowed)
        kept = self.engine.possible(children, remaining)
        if remaining <= self.engine.goals.depth:
            kept = kept[: self.limit]  # each of them is on a line, so no more are needed
        parent, turn = np.divmod(allowed.take(kept), count)
        return children.take(kept), np.concatenate((lines.take(parent, axis=0), turn[:, None]), axis=1)
