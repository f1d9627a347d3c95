"""Which pair first: what each costs now, what makes it cheap or dear, and a search over whole orders.

All costs are by hand and exact for their task: what is home is kept, every other slot is free. A plan is the
shortest found, not proven to be the shortest there is, unless it meets a proven lower bound.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum

from msgspec import Struct

from tutor.cube.faces import Turn
from tutor.cube.merging import merged
from tutor.cube.position import SLOTS, Position, Slot
from tutor.method.lines import shortest_lines, to_go
from tutor.method.pairs import TOP_CORNER, TOP_EDGE, match, pair_locations, touch
from tutor.solver.search import Solver
from tutor.solver.task import Task

LINES_TRIED = 4
"""Shortest lines of a pair that the search goes on from."""
WIDTH = 24
"""Partial plans kept after each pair."""


class Trait(Enum):
    """What makes a pair cheap or dear, as one sees it."""

    MADE = "joined already"
    TOUCHING = "touching, but not joined"
    BOTH_ON_TOP = "both on top"
    OWN_SLOT = "a piece in its own slot, wrongly turned or alone"
    ONE_SLOT = "both in one other slot"
    TWO_SLOTS = "split over two slots"
    BEHIND = "a piece at the back, out of sight"


class PairCost(Struct, frozen=True):
    """A pair that is not home: the fewest turns to bring it home now, a line that does, and what one sees.

    ``others`` tells what every other open pair costs after that line.
    """

    slot: Slot
    cost: int
    line: tuple[Turn, ...]
    traits: frozenset[Trait]
    others: tuple[tuple[Slot, int], ...]


class PlannedPair(Struct, frozen=True):
    """One pair of a plan and the turns that bring it home; seams with the stage before are not merged."""

    slot: Slot
    turns: tuple[Turn, ...]


class Plan(Struct, frozen=True):
    """An order of the open pairs with the turns of each; ``turns`` is all of it, seams merged."""

    stages: tuple[PlannedPair, ...]
    turns: tuple[Turn, ...]

    @property
    def length(self) -> int:
        """Turns in all."""
        return len(self.turns)


def open_pairs(position: Position) -> tuple[Slot, ...]:
    """The slots whose pairs are not home."""
    return tuple(slot for slot in SLOTS if not position.pair_home(slot))


def pair_costs(solver: Solver, position: Position) -> tuple[PairCost, ...]:
    """Every pair that is not home, the cheapest first."""
    found = [_pair_cost(solver, position, slot) for slot in open_pairs(position)]
    return tuple(sorted(found, key=lambda each: (each.cost, each.slot)))


def _pair_cost(solver: Solver, position: Position, slot: Slot) -> PairCost:
    line = shortest_lines(solver, position, Task.at(position, slot), LINES_TRIED)[0]
    after = position.after(line)
    others = tuple((other, to_go(solver, after, Task.at(after, other))) for other in open_pairs(after))
    return PairCost(slot, len(line), line, traits(position, slot), others)


def traits(position: Position, slot: Slot) -> frozenset[Trait]:
    """What one sees of a pair that is not home."""
    corner, edge = pair_locations(position, slot)
    corner_slot = None if TOP_CORNER[corner] else Slot(corner // 3 - 4)
    edge_slot = Slot(edge // 2 - 4) if 4 <= edge // 2 < 8 else None
    seen: set[Trait] = set()
    if match(slot, corner, edge):
        seen.add(Trait.MADE)
    elif touch(corner, edge):
        seen.add(Trait.TOUCHING)
    if TOP_CORNER[corner] and TOP_EDGE[edge]:
        seen.add(Trait.BOTH_ON_TOP)
    if slot in (corner_slot, edge_slot):
        seen.add(Trait.OWN_SLOT)
    if corner_slot is not None and corner_slot is edge_slot and corner_slot is not slot:
        seen.add(Trait.ONE_SLOT)
    if corner_slot is not None and edge_slot is not None and corner_slot is not edge_slot:
        seen.add(Trait.TWO_SLOTS)
    if Slot.BL in (corner_slot, edge_slot):
        seen.add(Trait.BEHIND)
    return frozenset(seen)


def in_order(solver: Solver, position: Position, order: tuple[Slot, ...] = SLOTS) -> Plan:
    """The pairs in a given order, each by its most comfortable shortest line; those home are passed over."""
    stages: list[PlannedPair] = []
    for slot in order:
        if position.pair_home(slot):
            continue
        line = shortest_lines(solver, position, Task.at(position, slot), LINES_TRIED)[0]
        stages.append(PlannedPair(slot, line))
        position = position.after(line)
    return _plan(tuple(stages))


def best_plan(
    solver: Solver, position: Position, may_go_on: Callable[[], bool] = lambda: True, width: int = WIDTH
) -> Plan:
    """The shortest plan found by a search over orders, going on from several shortest lines of each pair.

    After each pair the ``width`` most promising partial plans are kept, by turns so far and the costs of the
    pairs still open. When ``may_go_on`` says no, the search is finished with what it has.
    """
    beam = [(position, _plan(()))]
    while any(open_pairs(reached) for reached, _ in beam):
        grown: dict[tuple[Position, frozenset[Slot]], tuple[Position, Plan]] = {}
        for reached, plan in beam:
            for following in _grown(solver, reached, plan):
                key = following[0], following[0].home_pairs
                if key not in grown or following[1].length < grown[key][1].length:
                    grown[key] = following
        promising = sorted(grown.values(), key=lambda each: _promise(solver, *each))
        beam = promising[: width if may_go_on() else 1]
    return min((plan for _, plan in beam), key=lambda plan: plan.length)


def _grown(solver: Solver, position: Position, plan: Plan) -> list[tuple[Position, Plan]]:
    """The plan with each open pair taken next, by each of a few shortest lines."""
    grown = []
    for slot in open_pairs(position):
        for line in shortest_lines(solver, position, Task.at(position, slot), LINES_TRIED):
            grown.append((position.after(line), _plan((*plan.stages, PlannedPair(slot, line)))))
    return grown or [(position, plan)]


def _promise(solver: Solver, position: Position, plan: Plan) -> float:
    """Turns so far and what the open pairs cost, the cheapest counted whole and the others for their share.

    Pairs made later use up free slots, so their costs now say less.
    """
    costs = sorted(to_go(solver, position, Task.at(position, slot)) for slot in open_pairs(position))
    return plan.length + sum(cost if number == 0 else 0.8 * cost for number, cost in enumerate(costs))


def _plan(stages: tuple[PlannedPair, ...]) -> Plan:
    return Plan(stages, merged(turn for stage in stages for turn in stage.turns))
