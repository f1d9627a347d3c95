"""A few distances against a general-purpose planner that knows nothing of cubes.

unified-planning with Fast Downward, search ``astar(blind())``, which is optimal (check values: outside
programs). Install the ``planner`` extra to run this.
"""

from __future__ import annotations

import pytest

from tutor.cube.faces import Turn
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.solver.search import Solver
from tutor.solver.task import Task

pytestmark = pytest.mark.slow

FAR = {
    5: (Turn.R, Turn.U2, Turn.R_PRIME, Turn.U, Turn.F),
    6: (Turn.F2, Turn.U, Turn.L_PRIME, Turn.F, Turn.D2, Turn.B_PRIME),
}


@pytest.mark.parametrize(("distance", "keep"), [(5, SLOTS[1:]), (5, SLOTS[1:2]), (6, ())])
def test_a_planner_finds_no_shorter_way(solver: Solver, distance: int, keep: tuple[Slot, ...]) -> None:
    # Imported here: it brings along scipy, for which everyone who collects the tests would wait.
    from tests.solver.planning_task import plan

    task = Task(Slot.FR, frozenset(keep))
    position = SOLVED.after(FAR[distance])
    planned = plan(position, task)
    assert task.done(position.after(planned.turns))
    assert len(planned.turns) == solver.distance(position, task) == distance
