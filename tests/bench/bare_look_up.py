"""The baseline of the solver's benchmarks: a bare look-up of 18 neighbours in the tables, all pairs kept."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from tutor.cube.position import SLOTS, Position
from tutor.solver.nodes import frame_of
from tutor.solver.search import Solver

NAME = "bare look-up of 18 neighbours"


def bare_look_up(solver: Solver) -> Callable[[Position], object]:
    """Looks the neighbours of a position up and does nothing else."""
    frame = frame_of(frozenset(SLOTS))
    engine = solver.tables.engine(frame.index)

    def look_up(position: Position) -> object:
        node = frame.node(position, engine.tracked, solver.tables.cross_views)
        return engine.goals.depths(engine.tracked.children(np.array([node], dtype=np.int64)))

    return look_up
