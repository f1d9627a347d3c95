"""Which steps are done in a position, as a rail ticks them, and which slot is lifted."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.cube.position import Position, Slot
from tutor.method.pairs import both_on_top
from tutor.method.route_tables import RouteTables, route_tables
from tutor.method.routes import routes
from tutor.method.slot_view import SlotView, slot_view
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step, ready
from tutor.solver.task import Task

LONGEST_STEP = 4
"""Turns of a step at most."""


def lifted_slot(position: Position, task: Task) -> Slot | None:
    """The slot that is lifted, in a position that one lower settles; None in any other."""
    view, tables, code = _as_seen(position, task)
    found = [] if tables.settled(code) else tables.lifted(code)
    return view.slot_as_held(found[0][0]) if found else None


def in_the_midst(position: Position, task: Task) -> bool:
    """Whether the position is in the midst of a block, or of a turn-away that brings the pair home."""
    _, tables, code = _as_seen(position, task)
    return not tables.settled(code) and bool(tables.finishing(code))


def out_of_place(position: Position, task: Task) -> bool:
    """Whether more is out than a block or a turn-away puts back by itself; no slot is only lifted then."""
    return not (task.settled(position) or in_the_midst(position, task))


def _as_seen(position: Position, task: Task) -> tuple[SlotView, RouteTables, int]:
    view = slot_view(task.slot)
    return view, route_tables(view.keep(task.keep)), view.code(position)


def ticked(passed: Sequence[Position], task: Task) -> frozenset[Step]:
    """The steps that are done in the last of the positions passed, as a statement about that position.

    All once the pair is home. In another settled position those whose condition holds. In the midst of a
    block or a turn-away those that were done when it began, since a lifted slot neither does a step nor
    undoes one, and Join while the pair matches on top; but pieces taken down off every shortest route are
    raised no more. In any other position none.
    """
    now = passed[-1]
    if task.settled(now):
        return _done_in(now, task)
    if not in_the_midst(now, task):
        return frozenset()
    begun = next((at for at in reversed(passed) if task.settled(at)), None)
    done = _placed_in(now, task) if begun is None else _done_in(begun, task)
    if begun is not None and not both_on_top(now, task.slot) and not _on_a_route(passed, task):
        return frozenset()
    joined = done >= {Step.RAISE, Step.PART} and DONE_WHEN[Step.JOIN](now, task)
    return done | {Step.JOIN} if joined else done - {Step.JOIN}


def _on_a_route(passed: Sequence[Position], task: Task) -> bool:
    """Whether a step of a shortest route, from a settled position passed, has come to the last position.

    A step may begin with a turn of the top; what it leaves is settled, and may have shortest routes of its
    own.
    """
    *before, now = passed[-1 - LONGEST_STEP :]
    begun = (at for at in before if task.settled(at))
    return any(
        at.after(route.turns[:made]) == now
        for at in begun
        for route in routes(at, task, None).routes
        for made in range(1, LONGEST_STEP + 1)
    )


def _done_in(position: Position, task: Task) -> frozenset[Step]:
    if task.done(position):
        return frozenset(TURNING_STEPS)
    return frozenset(step for step in TURNING_STEPS if DONE_WHEN[step](position, task))


def _placed_in(position: Position, task: Task) -> frozenset[Step]:
    """The steps that are done but for the slot that is lifted, where nothing is known of what came before."""
    if not both_on_top(position, task.slot):
        return frozenset()
    return frozenset({Step.RAISE, Step.PART}) if ready(position, task) else frozenset({Step.RAISE})
