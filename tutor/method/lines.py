"""Lines: shortest sequences of working faces, or of all turns where there is no way by hand."""

from __future__ import annotations

from tutor.cube.faces import Turn
from tutor.cube.position import Position
from tutor.method.ergonomics import by_comfort
from tutor.solver.search import Solver
from tutor.solver.task import Task

Line = tuple[Turn, ...]
TOGETHER = 60
"""Shortest lines for several pairs at once among which one by hand is looked for."""


def to_go(solver: Solver, position: Position, task: Task) -> int:
    """Turns to go: by hand where there is a way by hand, else of all turns."""
    by_hand = solver.hand_distance(position, task)
    return solver.distance(position, task) if by_hand is None else by_hand


def shortest_lines(solver: Solver, position: Position, task: Task, limit: int = 12) -> tuple[Line, ...]:
    """At most ``limit`` of the shortest, the most comfortable first: by hand where there is a way by hand."""
    found = solver.hand_lines(position, task, limit) or solver.lines(position, task, limit)
    return tuple(by_comfort(found))


def fewest_together(solver: Solver, position: Position, task: Task) -> tuple[int, Line | None]:
    """The fewest turns at all where kept pairs of the task are not home yet, and a line of so many by hand.

    By hand here means turns of the top and of the faces beside every slot that is not solved at ``position``.
    The line is None when none of the first lines is one by hand: then the fewest by hand are not known.
    """
    found = solver.lines(position, task, TOGETHER)
    working = Task.at(position, task.slot).working_faces
    by_hand = [line for line in found if working.issuperset(turn.face for turn in line)]
    return len(found[0]), next(iter(by_comfort(by_hand)), None)
