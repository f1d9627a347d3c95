"""The five steps of the method, and when each of them is done."""

from __future__ import annotations

from collections.abc import Callable

from tutor.cube.position import Position
from tutor.method.homecomings import ready_places
from tutor.method.pairs import both_on_top, match, pair_locations
from tutor.method.slot_view import pair_of, slot_view
from tutor.method.terms import TURNING_STEPS as TURNING_STEPS
from tutor.method.terms import Step as Step
from tutor.solver.task import Task


def raised(position: Position, task: Task) -> bool:
    """Raise is done when the position is settled and both pieces are in the top layer."""
    return both_on_top(position, task.slot) and task.settled(position)


def ready(position: Position, task: Task) -> bool:
    """Whether the pair matches on top or, however the top is turned, a hand way leads on whose Join and
    whose Insert take at most four turns each. Where the slots are settled is not asked."""
    view = slot_view(task.slot)
    return bool(ready_places(view.keep(task.keep))[pair_of(view.code(position))])


def parted(position: Position, task: Task) -> bool:
    """Part is done when Raise is done and the pair is ready."""
    return raised(position, task) and ready(position, task)


def joined(position: Position, task: Task) -> bool:
    """Join is done when the pieces match and both are in the top layer; the slot may still be lifted."""
    return both_on_top(position, task.slot) and match(task.slot, *pair_locations(position, task.slot))


def inserted(position: Position, task: Task) -> bool:
    """Insert is done when the position is settled and the pair is home."""
    return task.done(position)


DONE_WHEN: dict[Step, Callable[[Position, Task], bool]] = {
    Step.RAISE: raised,
    Step.PART: parted,
    Step.JOIN: joined,
    Step.INSERT: inserted,
}
"""The condition that ends each step in which the cube is turned."""
